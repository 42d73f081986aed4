"""Initials with full stops, F.W. and L.W., as single words; walls that a sentence gives initials to.

"F.W. is the front wall, B.W. the back wall, R.W. and L.W. the walls to the right and to the left": the first name has a
verb or a mark of equality, later ones may do without; two names share the two sides that are named after them.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LONGEST = 3
"""Letters of a short name."""
_SAYS = {"is", "are", "=", ":", "means", "mean", "stands", "stand", "for"}
_JOINS = {"and", "&", ",", "or"}
_FAR = 14
"""Tokens of what a name, or two, stand for."""
_STOPS = {".", ";", "|"}


def with_initials(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with capitals that full stops shorten as one word each."""
    return tuple(replace(line, tokens=tuple(_joined(line.tokens))) for line in lines)


def told_walls(lines: Sequence[Line], sides: Mapping[str, Fraction]) -> tuple[dict[str, Fraction], set[int]]:
    """Return the walls that sentences give short names, in small letters, and the indexes of the lines that do so."""
    found: dict[str, Fraction] = {}
    telling: set[int] = set()
    for group in _paragraphs(lines):
        tokens = [token for index in group for token in lines[index].tokens]
        named = list(_named(tokens, sides))
        if len({value for _, value in named}) > 1:
            found |= {name.low: value for name, value in named if name.low not in found}
            places = {name.line for name, _ in named}
            telling.update(index for index in group if lines[index].number in places)
    return found, telling


def _joined(tokens: Sequence[Token]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        end = at
        while _is_initial(tokens, end, first=end == at):
            end += 2
        if end - at >= 4:
            letters = "".join(token.text for token in tokens[at:end:2])
            # The text keeps its stops, so that the blank after it stays as wide as it was written.
            yield replace(tokens[at], text="".join(token.text for token in tokens[at:end]), low=letters.lower())
            if _ends_a_sentence(tokens, end):
                yield tokens[end - 1]
            at = end
        else:
            yield tokens[at]
            at += 1


def _is_initial(tokens: Sequence[Token], at: int, *, first: bool) -> bool:
    """Whether a capital and its full stop stand at a token."""
    if at + 1 >= len(tokens):
        return False
    letter, stop = tokens[at], tokens[at + 1]
    capital = letter.kind == "word" and len(letter.text) == 1 and letter.text.isupper() and (first or letter.glued)
    return capital and stop.text == "." and stop.glued


def _ends_a_sentence(tokens: Sequence[Token], end: int) -> bool:
    """Whether a sentence begins after the last full stop of initials: "close L.F. Then"."""
    after = tokens[end] if end < len(tokens) else None
    return after is not None and after.kind == "word" and len(after.text) > 1 and after.text.istitle()


def _paragraphs(lines: Sequence[Line]) -> Iterator[list[int]]:
    """Yield the indexes of lines that stand under each other, where a short name is among them."""
    group: list[int] = []
    for index, line in enumerate(lines):
        if group and line.number > lines[group[-1]].tokens[-1].line + 1:
            yield group
            group = []
        group.append(index)
    if group:
        yield group


def _named(tokens: Sequence[Token], sides: Mapping[str, Fraction]) -> Iterator[tuple[Token, Fraction]]:
    """Yield each short name of a paragraph that stands for a wall, and the wall's facing."""
    spoken = False
    at = 0
    while at < len(tokens):
        names, end = _names_at(tokens, at)
        says = end < len(tokens) and tokens[end].low in _SAYS
        if not names or not (says or spoken):
            at += 1
            continue
        meaning = _meaning(tokens, end)
        walls = list(dict.fromkeys(sides[token.low] for token in meaning if token.low in sides))
        if len(walls) >= len(names) and {"wall", "walls"} & {token.low for token in meaning}:
            spoken = True
            yield from zip(names, walls, strict=False)
        at = end


def _names_at(tokens: Sequence[Token], at: int) -> tuple[list[Token], int]:
    """Return the short names that stand together from a token on, and where they end."""
    names: list[Token] = []
    end = at
    while end < len(tokens):
        if _is_name(tokens[end]):
            names.append(tokens[end])
        elif not names or tokens[end].low not in _JOINS or not _is_name(tokens[min(end + 1, len(tokens) - 1)]):
            break
        end += 1
    return names, end


def _is_name(token: Token) -> bool:
    return token.kind == "word" and token.text.isupper() and 1 < len(token.low) <= _LONGEST


def _meaning(tokens: Sequence[Token], at: int) -> Sequence[Token]:
    """Return the words up to the next name or the end of the sentence; nothing where they tell of feet."""
    end = at
    while end < len(tokens) and end < at + _FAR and tokens[end].text not in _STOPS and not _is_name(tokens[end]):
        end += 1
    meaning = tokens[at:end]
    return () if {"foot", "feet", "leg"} & {token.low for token in meaning} else meaning
