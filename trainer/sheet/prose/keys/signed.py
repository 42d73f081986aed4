"""Short forms that a sign is part of: "R! = restart", "(T) = tag", "rs* means restart", "[E]: ending".

What a sign explains is written out wherever the same letters stand with the same signs, and the explanation goes.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.keys.shortened import LONGEST
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_SIGNS = frozenset("!*+^°#@~$%?>§()[]{}<")
_MEANS = words_in("= means mean stands :")
_MEANT = words_in("= means mean for stands : is a an the")
_PARTS = frozenset({",", ";", ".", "•", BREAK, "/"})
_MOST = 4
"""Words of a meaning, and tokens of a name."""
_CALLED = words_in(
    "restart tag bridge ending end finish hold stop fade break change again over top beginning start replace option"
)
"""What is explained is called: some word of the order stands in the meaning."""

Name = tuple[str, ...]


def with_signed_names(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, such names written out."""
    names: dict[Name, tuple[Token, ...]] = {}
    told: dict[int, list[tuple[int, int]]] = {}
    for index, line in enumerate(lines):
        for first, last, name, meaning in _explained(line.tokens):
            if any(_places(other.tokens, name, skip=(first if other is line else -1)) for other in lines):
                names.setdefault(name, meaning)
                told.setdefault(index, []).append((first, last))
    if not names:
        return list(lines)
    done = []
    for index, line in enumerate(lines):
        tokens = line.tokens
        for first, last in reversed(told.get(index, [])):
            tokens = (*tokens[:first], *tokens[last:])
        if tokens := _written_out(tokens, names):
            done.append(line if tokens == line.tokens else replace(line, tokens=tokens))
    return done


def _explained(tokens: Sequence[Token]) -> Iterator[tuple[int, int, Name, tuple[Token, ...]]]:
    """Yield where a line explains such a name, from which token to which, with the name and its meaning."""
    for at in range(1, len(tokens) - 1):
        if tokens[at].low not in _MEANS:
            continue
        first = at
        while first and at - first < _MOST and (first == at or tokens[first].glued):
            first -= 1
        name = tokens[first:at]
        words = [token for token in name if token.kind == "word"]
        signs = [token for token in name if token.text in _SIGNS]
        start = at
        while start < len(tokens) and tokens[start].low in _MEANT:
            start += 1
        last = start
        while last < len(tokens) and last - start <= _MOST and tokens[last].kind in ("word", "number"):
            last += 1
        meaning = tuple(tokens[start:last])
        ends = last == len(tokens) or tokens[last].text in _PARTS or tokens[last].text in "()"
        called = ends and 0 < len(meaning) <= _MOST and any(token.low in _CALLED for token in meaning)
        called = called and not _cuts_a_bracket(name, tokens[:first])
        if called and len(words) == 1 and len(words[0].low) <= LONGEST and signs and len(name) == 1 + len(signs):
            last += last < len(tokens) and tokens[last].text in _PARTS
            yield first, last, tuple(token.text for token in name), meaning


def _cuts_a_bracket(name: Sequence[Token], before: Sequence[Token]) -> bool:
    """Whether a name ends a bracket opened before it: "Wall 3 (from S): restart" explains nothing."""
    for opens, closes in ("()", "[]", "{}"):
        inside = [token.text for token in name]
        if inside.count(closes) > inside.count(opens) and any(token.text == opens for token in before):
            return True
    return False


def _places(tokens: Sequence[Token], name: Name, *, skip: int = -1) -> list[int]:
    """Return where a name stands with its signs, no blank between."""
    return [
        at
        for at in range(len(tokens) - len(name) + 1)
        if at != skip
        and tuple(token.text for token in tokens[at : at + len(name)]) == name
        and all(token.glued for token in tokens[at + 1 : at + len(name)])
    ]


def _written_out(tokens: tuple[Token, ...], names: Mapping[Name, tuple[Token, ...]]) -> tuple[Token, ...]:
    done = list(tokens)
    for name, meaning in names.items():
        for at in reversed(_places(done, name)):
            words = [
                replace(done[at], kind="word", text=word.text, low=word.low, glued=done[at].glued and not place)
                for place, word in enumerate(meaning)
            ]
            done[at : at + len(name)] = words
    return tuple(done)
