"""Extras that a sheet tells apart by letters, "Tag A" and "Tag B", told by numbers."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_EXTRAS = {"tag": "tag", "tags": "tag", "bridge": "bridge", "bridges": "bridge", "ending": "ending", "break": "break"}
_LETTERS = "ABCDEF"
_OPENS = (":", "=")


def with_lettered_extras(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with "Tag B" as "Tag 2", where lines begin with such names from A on."""
    told: dict[str, set[str]] = {}
    for line in lines:
        for at in range(len(line.tokens) - 1):
            named = _named(line.tokens, at)
            after = line.tokens[at + 2] if at + 2 < len(line.tokens) else None
            heads = at == 0 or line.tokens[at - 1].text == "." or (after is not None and after.text in _OPENS)
            if named and heads:
                told.setdefault(named[0], set()).add(named[1])
    known = {kind for kind, letters in told.items() if len(letters) > 1 and letters == set(_LETTERS[: len(letters)])}
    return (
        tuple(replace(line, tokens=tuple(_numbered(line.tokens, known))) for line in lines) if known else tuple(lines)
    )


def _named(tokens: Sequence[Token], at: int) -> tuple[str, str] | None:
    """Return the kind and the letter of an extra named at a token."""
    kind = _EXTRAS.get(tokens[at].low) if at + 1 < len(tokens) else None
    return (kind, tokens[at + 1].text) if kind and tokens[at + 1].text in tuple(_LETTERS) else None


def _numbered(tokens: Sequence[Token], known: set[str]) -> Iterator[Token]:
    for at, token in enumerate(tokens):
        named = _named(tokens, at - 1) if at else None
        listed = at > 2 and tokens[at - 1].low in ("and", "&", "/", "or") and _named(tokens, at - 3)
        kind = named or listed
        if kind and kind[0] in known and token.text in tuple(_LETTERS):
            number = str(_LETTERS.index(token.text) + 1)
            yield replace(token, kind="number", text=number, low=number)
        else:
            yield token
