"""Extras headed by a plain word: "EXTRA (4)", "END (2)"; the order then calls them so: "wall 2: all, then the extra".

Such a word may mean anything else; where it is all that a heading says, it is the name of a tag or an ending.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_NAMES = {"extra": "tag", "end": "ending"}
_AROUND = {"the", "counts", "count", "cts", "ct", "beats", "beat", "c"}
_LENGTHS = {
    "counts",
    "count",
    "cts",
    "ct",
    "beats",
    "beat",
    "steps",
    "bit",
    "time",
    "step",
    "music",
    "bars",
    "bar",
    "of",
}
_STRENGTH = 1.2


def with_plain_names(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such words read as tag and ending where they head steps and wherever they name them."""
    heads = {
        at: name
        for at, (line, after) in enumerate(zip(lines, (*lines[1:], None), strict=False))
        if (name := _heading(line.tokens)) and after is not None and _counts(after)
    }
    named = set(heads.values())
    if not named:
        return tuple(lines)
    return tuple(replace(line, tokens=_read(line.tokens, named, head=at in heads)) for at, line in enumerate(lines))


def _heading(tokens: Sequence[Token]) -> str:
    """Return the word that is all a heading says beside a length."""
    said = [token.low for token in tokens if token.kind == "word" and token.low not in _AROUND]
    numbers = sum(token.kind == "number" for token in tokens)
    return said[0] if len(said) == 1 and said[0] in _NAMES and numbers <= 1 and tokens[0].kind != "number" else ""


def _counts(line: Line) -> bool:
    """Whether a line counts steps from 1."""
    return any(mark.start.number == 1 and mark.strength >= _STRENGTH for mark in marks_in(line.tokens, 0))


def _read(tokens: tuple[Token, ...], named: set[str], *, head: bool) -> tuple[Token, ...]:
    done = list(tokens)
    for at, token in enumerate(tokens):
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        before = tokens[at - 1] if at else None
        if token.low not in named:
            continue
        cell = (before is None or before.text in (BREAK, ",", "+")) and (after is None or after.text in (BREAK, "."))
        free = after is None or not (after.low in _LENGTHS or after.kind == "number")
        if head or cell or (token.low == "extra" and free):
            done[at] = replace(token, low=_NAMES[token.low])
    return tuple(done)
