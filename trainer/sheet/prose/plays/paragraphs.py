"""The lines of a sheet that may tell its play, as paragraphs of sentences; lines of steps are left out."""

import re
import unicodedata
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

MARKS_OF_NOTES = frozenset("*+'^#~!°†‡§`´’")
"""Marks behind a part in the play that a note explains."""
_SURE = 1.2
_ENDS = {".", "!", "?"}
_SHORT = {"no", "nr", "vs", "ct", "cts", "st", "nd", "rd", "th", "approx", "q", "r", "l", "fwd"}
_MORE = {",", "-", "&", "+", ":", ">", "and", "then", "the", "a", "of", "with", "("}
_CLOSES = {",", ".", ";", ")", "]"}
"""What stands behind a count that is told after its step."""
_STANDING = {"hold", "holds", "clap", "claps", "pause", "freeze"}


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence, or a line of a list."""

    tokens: tuple[Token, ...]
    place: int
    """Place of its first line among the sheet's lines."""
    closed: bool
    """A mark that ends sentences stands at its end, or its paragraph ends."""
    alone: bool
    """It opens a line."""


def speaks_of_steps(token: Token) -> bool:
    """Whether a word names a step, a foot, or another thing done on a count."""
    return token.low in _STANDING or (token.kind in ("word", "fraction") and token.low in STEP_WORDS)


def is_steps(line: Line, parts: Sequence[str] = ()) -> bool:
    """Whether a line tells steps with their counts before them, and no part that a list numbers."""
    if any(token.text in parts or _several(token) in parts or _is_sung(token) for token in line.tokens[1:4]):
        return False
    if line.tokens[0].text in parts and any(token.text in parts for token in line.tokens[1:]):
        # "A (24), then B, then the last step".
        return False
    marks = marks_in(line.tokens, 0, 4)
    opens = bool(marks) and marks[0].first <= 1 and marks[0].strength >= _SURE
    return opens and any(speaks_of_steps(token) for token in line.tokens)


def closes_with_counts(line: Line) -> bool:
    """Whether a line opens with a step and closes with its counts, and perhaps a facing: "Rock R, recover L  [1-2]"."""
    if not speaks_of_steps(line.tokens[0]):
        return False
    marks = marks_in(line.tokens, 0, len(line.tokens))
    last = marks[-1] if marks else None
    if last is None or not last.closed or not last.first or len(last.places) < _PAIR:
        return False
    return all(token.kind in ("mark", "facing", "clock") or token.low == "to" for token in line.tokens[last.last :])


_PAIR = 2
_HABIT = 4
"""Lines with their counts at the end that make this a habit of the sheet."""


def _is_sung(token: Token) -> bool:
    """Whether a word names parts of a song: "two verses open the dance" counts no step."""
    return any(token.low.removesuffix(end) in SONG_PARTS for end in ("", "s", "es"))


def _several(token: Token) -> str:
    """Return the name of the part that a plural tells of: "two A's", "three Bs"; an empty text where it is none."""
    name = token.text[:-1].rstrip("'’")
    return name if token.text.endswith("s") and name.isupper() else ""


def counts_behind(line: Line) -> bool:
    """Whether a line opens with a step and has the count of each behind it: "Sway R (1), L (2)", "sway R 1, L 2"."""
    tokens = line.tokens
    ends = [*(token.text for token in tokens[1:]), "."]
    counts = [int(one.text) for one, after in zip(tokens, ends, strict=True) if _closes_a_step(one, after)]
    rises = len(counts) > 1 and counts[0] == 1 and all(a < b for a, b in pairwise(counts))
    return rises and speaks_of_steps(tokens[0]) and ":" not in [token.text for token in tokens]


def _closes_a_step(token: Token, after: str) -> bool:
    return token.kind == "number" and token.text.isdecimal() and after in _CLOSES


def is_below_a_name(line: Line | None) -> bool:
    """Whether a line tells the steps of what the line above it names, or opens with a bracket about them."""
    return line is not None and (is_steps(line) or counts_behind(line) or line.tokens[0].text == "(")


def paragraphs(lines: Sequence[Line], parts: Sequence[str]) -> Iterator[list[Sentence]]:
    """Yield the sentences of each run of lines with no empty line, and no line of steps, between them."""
    group: list[int] = []
    closing = {place for place, line in enumerate(lines) if closes_with_counts(line)}
    for place, line in enumerate(lines):
        steps = is_steps(line, parts) or (len(closing) >= _HABIT and place in closing)
        apart = group and line.number > lines[group[-1]].tokens[-1].line + 1
        if group and (steps or apart):
            yield list(_sentences([(at, lines[at]) for at in group], parts))
            group = []
        if not steps:
            group.append(place)
    if group:
        yield list(_sentences([(at, lines[at]) for at in group], parts))


def _sentences(group: Sequence[tuple[int, Line]], parts: Sequence[str]) -> Iterator[Sentence]:
    tokens: list[Token] = []
    first, alone = group[0][0], True
    for index, (place, line) in enumerate(group):
        goes_on = bool(tokens) and (_goes_on(tokens, line) or _completes(tokens, line, parts))
        if tokens and (not goes_on or _follows_a_list(tokens, line, parts)):
            yield Sentence(tuple(tokens), first, closed=False, alone=alone)
            tokens = []
        for at, token in enumerate(line.tokens):
            if not tokens:
                first, alone = place, at == 0
            tokens.append(token)
            if _is_end(line.tokens, at):
                yield Sentence(tuple(tokens), first, closed=True, alone=alone)
                tokens = []
        if tokens and index == len(group) - 1:
            yield Sentence(tuple(tokens), first, closed=True, alone=alone)


def _goes_on(before: Sequence[Token], line: Line) -> bool:
    """Whether a line goes on with the sentence of the line above."""
    first = line.tokens[0]
    small = first.kind == "word" and first.text[0].islower()
    if small and len(first.text) == 1 and len(line.tokens) > 1 and line.tokens[1].text in ("=", ":", "("):
        # "t = stomp R, stomp L" below "AB AB t BB".
        return False
    if small and any(token.text == "=" for token in before) and not any(map(speaks_of_steps, before)):
        # "A = verse, B = chorus" over "verse, chorus, verse".
        return before[-1].text in _MORE
    if any(token.text == "=" for token in line.tokens[1:4]) and not any(token.text == "(" for token in line.tokens[:2]):
        # "B+ = leave off the last 8" below "A, B, A, B+".
        return False
    if any(token.text == BREAK for token in before[1:]) and any(token.text == BREAK for token in line.tokens[1:]):
        # "chorus .... B" over "verse two .... A": rows of a list.
        return before[-1].text in _MORE
    long = len(before) > 6 and before[-1].text not in (":", ";")
    return (
        small
        or (before[-1].text in _MORE - {":"} and not (before[-1].text == "-" and before[-1].glued))
        or (long and first.kind == "number" and not _listed(line) and not _is_labelled(line))
    )


def _is_labelled(line: Line) -> bool:
    """Whether a line opens with a label that has a number: "2nd verse: A, B"."""
    return any(token.text == ":" for token in line.tokens[2:5]) and line.tokens[1].low in ("st", "nd", "rd", "th")


def _completes(before: Sequence[Token], line: Line, parts: Sequence[str]) -> bool:
    """Whether a line opens with the part that the line above leads to: "A, and a B" under "then come two more"."""
    first = line.tokens[0]
    named = first.text in parts or _several(first) in parts
    return named and before[-1].kind in ("word", "number") and before[-1].low in _LEADING


_LEADING = {
    *NUMBERS, *ORDINALS, *map(str, range(2, 7)), "more", "last", "final", "next", "only", "just", "single", "whole",
    "full", "complete", "entire", "short", "half", "extra", "further", "another", "an", "our", "this", "that", "these",
    "those", "each", "every", "both", "your", "her", "his", "part", "parts", "to", "by", "in", "into", "on", "from",
    "before", "after", "until", "till", "through", "for", "between", "behind", "dance", "do", "repeat", "comes", "come",
    "is", "are", "or", "plus", "but", "have", "has", "we", "you", "they", "where", "when", "while",
}  # fmt: skip
"""Words that lead to a part, and end no sentence."""


def _follows_a_list(before: Sequence[Token], line: Line, parts: Sequence[str]) -> bool:
    """Whether a line below a plain list says something else, as messages do without capitals and full stops.

    "order: A B A B B" over "so B turns you round every time".
    """
    names = {*parts, *(part.lower() for part in parts)}
    if before[-1].text not in names or line.tokens[0].low in (*_JOINING, *names):
        return False
    last = [token for token in before if token.line == before[-1].line]
    return sum(token.text in names for token in last) >= max(_LIST, len([t for t in last if t.kind == "word"]) // 2)


_LIST = 3
"""Parts of a plain list."""
_JOINING = {
    "then", "and", "with", "twice", "to", "after", "again", "but", "until", "till", "x", "once", "followed", "plus",
    "or", "only", "up", "of", "for", "in", "at", "by", "before", "three", "two", "four", "tag", "bridge", "comes", "is",
    "follows", "goes", "short", "part", "parts", "verse", "chorus", "ending", "finish", "where", "which", "while",
    "when", "as", "on", "from", "another", "one", "half", "last", "wait", "hold", "pause",
}  # fmt: skip
"""Words with which a line goes on with the list above."""


def _listed(line: Line) -> bool:
    return bool(re.match(r"\d+ ?[.):]", " ".join(token.text for token in line.tokens[:2])))


def _is_end(tokens: Sequence[Token], at: int) -> bool:
    token = tokens[at]
    if unicodedata.category(token.text[0]) == "So" and token.text not in MARKS_OF_NOTES:
        # A smile ends a sentence, unless a mark follows that does.
        return at + 1 == len(tokens) or unicodedata.category(tokens[at + 1].text[0]) != "So"
    if token.text == '"' and at and token.glued and tokens[at - 1].text in _ENDS:
        # What somebody said is over.
        return at + 1 < len(tokens) and tokens[at + 1].text not in (",", ".", ";", ")") and not tokens[at + 1].glued
    if token.text not in _ENDS:
        return False
    if at + 1 < len(tokens) and tokens[at + 1].text in ('"', ")") and tokens[at + 1].glued:
        return False
    if token.text != ".":
        return True
    before = tokens[at - 1] if at else None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if at > 1 and len(before.text if before else "") == 1 and tokens[at - 2].text == "." and tokens[at - 1].glued:
        # "i.e. after sixteen counts".
        return False
    if before is None or (after is not None and after.text == ".") or before.text == ".":
        return False
    index = at <= 2 and (before.kind == "number" or len(before.text) == 1)
    index = index and not (at == _PAIR and tokens[0].kind == "word")
    short = before.low in _SHORT and after is not None and len(before.text) > 1
    return not index and not short and not (after is not None and after.glued)
