"""Changed steps under a heading that tells only their wall: "STEP CHANGE, wall 5" over "In section 4, instead of 7&8".

The wall is told with what stands below it. A section or counts in the heading over counted steps say what these are
danced instead of. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_NTH = "|".join(sorted(ORDINALS, key=len, reverse=True))
_WALLS = (
    rf"(?:walls? (?:no ?\.? )?\d+(?: ?(?:,|and|&) ?(?:wall )?\d+)*|(?:the )?(?:{_NTH}|\d+ (?:st|nd|rd|th))"
    rf"(?: (?:and|&) (?:the )?(?:{_NTH}|\d+ (?:st|nd|rd|th)))? walls?)"
)
_PLACE = (
    r"(?:(?:of |in |for |to )?(?:the )?(?P<section>(?:section|sec|s|set|block|part|figure|eight) (?:\d|[ivx]+|[a-h])))?"
    r"(?: ?[,:-] ?)?(?P<counts>(?:counts?|cts|beats) \d+(?: (?:-|to|and|&) \d+)*)?"
)
_HEAD = re.compile(
    r"^(?:[^\w ] )*(?:the )?(?:(?:small |little |one |only )*(?:step )?changes?(?: (?:of|in|to) (?:the )?steps?)?|"
    r"(?:changed|different|other|new) (?:steps?|counts?|ending)|step variation|variation|alteration|modification)"
    r"(?: before (?:the )?(?:\w+ )?(?:tag|bridge))? ?(?:[,:(-] )?(?:in |on |for |at |during |only )*"
    rf"(?P<walls>{_WALLS})(?P<start> ?\( ?(?:starts?|begins?|starting|begun|facing|at|from)[^()]*\))?"
    rf"(?: ?[,:-])? ?{_PLACE} ?(?:\) ?)?[:.]?$"
)
_INSTEAD = re.compile(r"\b(?:instead|in (?:the )?place|replaces?|replaced|becomes?|is different|are different)\b")
_PLACED = re.compile(
    r"^(?:[^\w ] )*(?:in |of )?(?:the )?"
    r"(?P<section>(?:section|sec|s|set|block|part|figure) (?:\d|[ivx]+|[a-h])) ?[,:] ?"
    r"(?:counts? )?(?P<counts>\d+ (?:- |& |to |and )?\d+) ?:"
)
_LEFT_OPEN = re.compile(
    r"\b(?:then|and|but) ?,? (?:instead|in (?:the )?place) of (?:the )?"
    r"(?:counts? |beats? |steps? )?\d+ (?:-|to|and|&) \d+$"
)
_WALL = re.compile(r"\bwalls?\b")
_OPENS = {
    "in", "instead", "replace", "replaces", "count", "counts", "cts", "beats", "section", "sections", "sec", "s", "set",
    "block", "part", "figure", "the", "last", "for", "of",
}  # fmt: skip
"""First words of a sentence that tells what is danced otherwise, and not how far the wall above it is danced."""
_LONGEST = 20


def with_headed_changes(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such walls told with what is danced there."""
    done: list[Line] = []
    at = 0
    while at < len(lines):
        below = lines[at + 1] if at + 1 < len(lines) else None
        line = _with_colon(lines[at], below)
        match = _HEAD.match(line.words) if len(line.tokens) <= _LONGEST else None
        told = _told(line, match, below) if match and below is not None and _is_under(line, below) else None
        done += told or (line,)
        at += 2 if told else 1
    return tuple(done)


def _with_colon(line: Line, below: Line | None) -> Line:
    """Return a line that stops short of the steps that it leads to, "... instead of counts 29-32", with a colon."""
    marks = marks_in(below.tokens, 0) if below is not None and _LEFT_OPEN.search(line.words) else []
    last = line.tokens[-1]
    return replace(line, tokens=(*line.tokens, mark_like(last, ":"))) if marks and not marks[0].first else line


def _is_under(line: Line, below: Line) -> bool:
    return below.tokens[0].line == line.tokens[-1].line + 1 and not _WALL.search(below.words)


def _told(line: Line, match: re.Match[str], below: Line) -> tuple[Line, ...] | None:
    """Return the two lines told plainly, None where the lower one tells no change."""
    wall = (*_tokens(line, match, "walls"), *_tokens(line, match, "start"), mark_like(line.tokens[-1], ":"))
    if match["section"] or match["counts"]:
        marks = marks_in(below.tokens, 0)
        if not marks or marks[0].first:
            return None
        counts = _tokens(line, match, "counts") or below.tokens[: marks[0].last]
        place = (*_section(line, match), *_words(line, "instead of"), *counts, *_words(line, "do :"))
        return replace(line, tokens=(*wall, *place), source=""), below
    if placed := _PLACED.match(below.words):
        rest = below.tokens[below.words[: placed.end()].count(" ") + 1 :]
        counts = _tokens(below, placed, "counts")
        place = (*_section(below, placed), *_words(below, "instead of"), *counts, *_words(below, "do :"))
        return (replace(below, tokens=(*wall, *place, *rest), source=""),)
    changes = _INSTEAD.search(below.words) and below.tokens[0].low in _OPENS
    return (replace(below, tokens=(*wall, *below.tokens), source=""),) if changes else None


def _section(line: Line, match: re.Match[str]) -> tuple[Token, ...]:
    section = _tokens(line, match, "section")
    return (*_words(line, "in"), *section, *_words(line, ",")) if section else ()


def _tokens(line: Line, match: re.Match[str], group: str) -> tuple[Token, ...]:
    """Return the tokens of a line that a group of a match over its words holds."""
    said = match[group] or ""
    first = line.words[: match.start(group)].count(" ") + said.startswith(" ")
    return line.tokens[first : first + len(said.split())] if said.strip() else ()


def _words(line: Line, said: str) -> tuple[Token, ...]:
    """Return words and marks that the line does not hold, at its first token."""
    first = line.tokens[0]
    return tuple(word_like(first, word) if word.isalpha() else mark_like(first, word) for word in said.split())
