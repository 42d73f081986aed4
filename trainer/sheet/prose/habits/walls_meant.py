"""Walls that a heading names and the sentences below only point to: "WALLS 3 AND 6: ..." over "Both start at 12:00".

What points to them is told as the walls, so that a facing said of both is said of no others; "It starts at 3:00" below
a heading is said of its one wall. A heading's walls are meant until the next empty line. Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_NUMBER = rf"(?:\d{{1,2}}|{'|'.join(NUMBERS)})"
_ORDINAL = rf"(?:\d{{1,2}} (?:st|nd|rd|th)|{'|'.join(ORDINALS)})"
_WALLS = re.compile(
    rf"(?<!\S)(?:walls? {_NUMBER}(?: , (?:wall )?{_NUMBER})*(?: ,)? (?:and|&) (?:wall )?{_NUMBER}|"
    rf"(?:the )?{_ORDINAL}(?: , (?:the )?{_ORDINAL})*(?: ,)? (?:and|&) (?:the )?{_ORDINAL} walls?)(?!\S)"
)
_WALL = re.compile(rf"(?<!\S)(?:wall {_NUMBER}|(?:the )?{_ORDINAL} wall)(?!\S)")
_BEHIND = re.compile(r"\b(?:after|ends? of|behind|following|before|between|when|once)(?: the)? $")
"""Behind a wall it is not the wall itself that is spoken of."""
_POINTED = re.compile(
    r"(?:(?<=^)|(?<=[.:;!)] ))(?:(?:on|in) )?"
    r"(?:both(?: of (?:them|these|those))?(?: (?:of )?(?:these|those|the|times))?|"
    r"(?:these|those|the) two|these|those|they both|each(?: of (?:them|these|those|the two))?|they)(?: walls?)? "
    r"(?=(?:start|begin|starts|begins|are|is|will (?:start|begin))\b)"
)
"""The words of a sentence that stand for the walls that it begins with."""
_ONE_POINTED = re.compile(
    r"^(?:(?:it|this(?: one| wall| time)?|that (?:one|wall)|you|we) )?"
    r"(?=(?:starts?|begins?|(?:is )?(?:started|begun)) (?:at|facing|from|on|to|looking)\b)"
)
"""The words of a line below a heading that stand for its one wall."""
_HEADING = 8
"""Tokens of a heading at most."""


def with_walls_meant(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, what points to the walls of a heading or of the sentence before told as those walls."""
    return tuple(_told(lines))


def _told(lines: Sequence[Line]) -> Iterator[Line]:
    several: tuple[Token, ...] = ()
    one: tuple[Token, ...] = ()
    below = 0
    for line in lines:
        if line.number > below + 1:
            several = one = ()
        pointed = _ONE_POINTED.match(line.words) if one else None
        if pointed is not None:
            line = replace(line, tokens=(*_placed(one, line), *line.tokens[len(pointed[0].split()) :]), source="")
        line, several = _with_several(line, several)
        below = line.tokens[-1].line
        one = _one_wall(line)
        yield line


def _with_several(line: Line, meant: tuple[Token, ...]) -> tuple[Line, tuple[Token, ...]]:
    """Return a line with what points to walls told as those, and the walls that are meant below it."""
    done: list[Token] = []
    words = line.words
    at = 0
    for found in sorted((*_WALLS.finditer(words), *_POINTED.finditer(words)), key=lambda one: one.start()):
        first = words[: found.start()].count(" ") if found.start() else 0
        last = first + len(found[0].split())
        if found.re is _WALLS:
            meant = () if _BEHIND.search(words[: found.start()]) else line.tokens[first:last]
        elif meant:
            done += [*line.tokens[at:first], *_placed(meant, line, first)]
            at = last
    return (replace(line, tokens=(*done, *line.tokens[at:]), source="") if done else line), meant


def _one_wall(line: Line) -> tuple[Token, ...]:
    """Return the words for the one wall that a heading speaks of; empty where it speaks of none, or of more."""
    words = line.words
    found = list(_WALL.finditer(words))
    if len(found) != 1 or len(line.tokens) > _HEADING or _BEHIND.search(words[: found[0].start()]):
        return ()
    first = words[: found[0].start()].count(" ")
    return line.tokens[first : first + len(found[0][0].split())]


def _placed(meant: Sequence[Token], line: Line, at: int = 0) -> Iterator[Token]:
    """Yield words at the place of a token of a line."""
    near = line.tokens[at]
    return (replace(token, line=near.line, column=near.column) for token in meant)
