"""Sections named by a noun of the sheet's own and an ordinal, "Course the First", "Verse the Second": "section 1".

Such heads rise from the first; where the order names one, "after the Second", "the third Course", it is the section.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import EIGHT_PLACES, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEAST = 3
_TITLE = 16
"""Tokens of a line that heads a section."""
_COUNTED = {"wall", "walls", "time", "times", "round", "pass", "part", "tag", "restart", "bridge", "half", "chorus"}
"""What an ordinal may number besides sections."""


def with_sections_by_ordinals(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such heads and the places where they are named told as sections."""
    heads = [at for at, line in enumerate(lines) if _head(line.tokens)]
    nouns = {lines[at].tokens[0].low for at in heads}
    numbers = [EIGHT_PLACES[lines[at].tokens[2].low] for at in heads]
    if len(heads) < _LEAST or len(nouns) != 1 or numbers != list(range(1, len(heads) + 1)):
        return tuple(lines)
    loud = all(lines[at].tokens[2].text[0].isupper() for at in heads)
    return tuple(replace(line, tokens=tuple(_told(line.tokens, nouns, len(heads), loud))) for line in lines)


def _head(tokens: Sequence[Token]) -> bool:
    """Whether a line begins with a noun, "the" and an ordinal, and counts nothing."""
    named = len(tokens) > 2 and tokens[0].kind == "word" and tokens[1].low == "the" and tokens[2].low in EIGHT_PLACES
    noun = named and tokens[0].low not in STEP_WORDS | _COUNTED
    return noun and len(tokens) <= _TITLE and (len(tokens) == _LEAST or tokens[_LEAST].kind == "mark")


def _told(tokens: Sequence[Token], nouns: set[str], most: int, loud: bool) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        end = _named(tokens, at, nouns, most, loud)
        if not end:
            yield tokens[at]
            at += 1
            continue
        number = next(EIGHT_PLACES[one.low] for one in tokens[at:end] if one.low in EIGHT_PLACES)
        yield replace(tokens[at], kind="word", text="section", low="section")
        yield replace(tokens[end - 1], kind="number", text=str(number), low=str(number), glued=False)
        at = end


def _named(tokens: Sequence[Token], at: int, nouns: set[str], most: int, loud: bool) -> int:
    """Return the index after a section that is named from a token on; 0 where none is."""
    opened = at + (tokens[at].low in nouns)
    if opened < len(tokens) and tokens[opened].low == "the":
        opened += 1
    elif opened > at or tokens[at].low not in EIGHT_PLACES:
        return 0
    if opened >= len(tokens) or EIGHT_PLACES.get(tokens[opened].low, most + 1) > most:
        return 0
    after = tokens[opened + 1].low if opened + 1 < len(tokens) else ""
    if after in nouns:
        return opened + 2
    named = opened > at and (tokens[at].low in nouns or (loud and tokens[opened].text[0].isupper()))
    return opened + 1 if named and after not in _COUNTED else 0
