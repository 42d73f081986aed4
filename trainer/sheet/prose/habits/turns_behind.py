"""Turns told behind the counts of their steps: "vine to the left on 5 6 7, but make a quarter turn left on the 7".

Each is told before those counts, of the step that it is made on: "vine to the left, make a quarter turn left on the
third step on 5 6 7". Else it seems to belong to the next count.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_LEADS = {"on", "for", "counts", "count", "over", "beats", "in"}
_OPENS = {",", "(", ".", ";", "-", ":"}
_JOINS = {"but", "with", "and", "only", "this", "time", "though", "although", "while", "except", "that", "then", "you"}
_TURNS = {"turn", "turning", "turns", "turned"}
_AMOUNTS = {"quarter", "half", "eighth", "full", "halfway", "three"}
_CLOSES = {",", ".", ";", ")", "!"}
_OWN = {*_TURNS, *_AMOUNTS, "left", "right", "step", "steps", "r", "l", "a", "make", "making", "do", "doing", "over"}
"""Words of steps that a turn is told with."""
_BEFORE_COUNT = {"on", "the", "count", "counts", "number", "step", "as", "you", "at", "beat"}
_AFTER_COUNT = {"being", "is", "has", "gets", "turns"}
_STEP = {"step", "one", "count", "beat"}
_LONGEST = 16
"""Tokens of such a clause."""


def with_turns_before_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each such turn before the counts that it is told behind."""
    return tuple(replace(line, tokens=told) if (told := _told(line.tokens)) != line.tokens else line for line in lines)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    for mark in reversed(marks_in(tokens, 0)):
        first = mark.first
        while first and tokens[first - 1].low in _LEADS:
            first -= 1
        counts = [place.number for place in mark.places if not place.sub]
        behind = first and tokens[first - 1].kind == "word" and tokens[first - 1].low not in _JOINS
        if not behind or len(counts) < 2 or _ends_early(mark, tokens):
            continue
        clause = _clause(tokens, mark.last)
        if clause is None:
            continue
        start, last = clause
        turn = _of_its_step(tokens[start:last], [count for count in counts if count])
        if turn:
            comma = replace(tokens[first], kind="mark", text=",", low=",", glued=True, value=None)
            last += tokens[last : last + 1] != () and tokens[last].text == ")"
            tokens = (*tokens[:first], comma, *turn, *tokens[first : mark.last], *tokens[last:])
    return tokens


def _ends_early(mark: Mark, tokens: Sequence[Token]) -> bool:
    """Whether nothing is told behind a mark, or it leads to its words by a sign of its own."""
    return mark.last >= len(tokens) or tokens[mark.last - 1].text in (":", "-", "=", ">")


def _clause(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    """Return where the clause behind a mark begins and ends; None where steps are told straight on."""
    start = at + (tokens[at].text in _OPENS)
    joined = start
    while joined < len(tokens) and tokens[joined].low in _JOINS:
        joined += 1
    if joined == at and tokens[joined].low not in {"turning", "making", "doing"}:
        return None
    last = joined
    while last < len(tokens) and last - joined <= _LONGEST and tokens[last].text not in _CLOSES:
        if tokens[last].low == "and" and last > joined:
            break
        last += 1
    return (joined, last) if joined < last else None


def _of_its_step(clause: Sequence[Token], counts: Sequence[int]) -> tuple[Token, ...]:
    """Return a clause that tells a turn of one of some counts, told of the step; nothing where it tells more."""
    turned = any(token.low in _AMOUNTS or token.kind == "fraction" for token in clause)
    steps = any(token.low in STEP_WORDS and token.low not in _OWN for token in clause)
    numbers = [at for at, token in enumerate(clause) if token.kind == "number"]
    if not turned or steps or len(numbers) > 1:
        return ()
    if numbers:
        at = numbers[0]
        if int(clause[at].text[:3]) not in counts:
            return ()
        nth, first, last = counts.index(int(clause[at].text[:3])), at, at + 1
        while first and clause[first - 1].low in _BEFORE_COUNT:
            first -= 1
        while last < len(clause) and clause[last].low in _AFTER_COUNT:
            last += 1
        if first == at and last == at + 1:
            return ()
    else:
        named = [at for at in range(len(clause) - 1) if clause[at].low in (*_ORDINALS, "last", "final")]
        at = next((at for at in named if clause[at + 1].low in _STEP), -1)
        if at < 1 or clause[at - 1].low != "the":
            return ()
        nth = _ORDINALS.index(clause[at].low) if clause[at].low in _ORDINALS else len(counts) - 1
        first, last = at - 1 - (at > 1 and clause[at - 2].low == "on"), at + 2
    turn = (*clause[:first], *clause[last:])
    if not turn or nth >= len(counts):
        return ()
    words = ("on", "the", _ORDINALS[nth], "step")
    place = turn[-1]
    return (*turn, *(replace(place, kind="word", text=word, low=word, glued=False, value=None) for word in words))
