"""The page gate: a section in which too much is wrong was not understood, and is no longer held to the laws.

Errors of the page (words given to the wrong counts) surface as a shower of breaches. A teacher's mistake gives one or
two findings; where a section has more, or much of it is unread, what is wrong is the reading. Then its steps are kept
as a guess: unsure, the other reading being that they could not be read. `dance.proof` says it once.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TypeVar

from trainer.dance.proof import proofread
from trainer.problems import Problem, each_once, loud
from trainer.routine import Event, Extra, Part, Routine, Section
from trainer.sheet.prose.sections.instants import settled

_OF_ONE = 2
"""So many findings at most are taken to come of one line."""

_SHOWER = 4
"""So many findings in one section are no mistakes of a teacher."""

_STORM = 6
"""So many in all sections together, if most sections have some."""

_MUCH = Fraction(1, 5)
"""The share of a section that may be unread before its layout, not its steps, is what was not understood."""

_OF_STEPS = ("weight", "facing", "counts", "text")


def gated(routine: Routine, problems: Sequence[Problem]) -> tuple[Routine, tuple[Problem, ...]]:
    """Return a routine with the sections that were not understood as guesses, and the problems that remain.

    `problems` are those found on reading. Each instant is danced once afterwards, and each count (`instants`).
    """
    routine, counts = settled(routine)
    proof = proofread(routine)
    problems = _with_surplus(each_once(tuple(problems), counts), proof)
    found = [one for one in loud(each_once(problems, proof)) if one.kind in _OF_STEPS]
    closed = _closed(list(routine.blocks()), found)
    if not closed:
        return routine, tuple(problems)
    lines = {line for block in routine.blocks() if id(block) in closed for line in _lines(block)}
    kept = tuple(one for one in problems if one.line not in lines or one.kind not in _OF_STEPS)
    parts = tuple(_part(part, closed) for part in routine.parts)
    extras = tuple(_guessed(extra) if id(extra) in closed else extra for extra in routine.extras)
    return routine.but(parts=parts, extras=extras), kept


def _with_surplus(problems: Sequence[Problem], proof: Sequence[Problem]) -> tuple[Problem, ...]:
    """Return problems in which steps left over are an error where the feet do not go on from what was kept of them."""
    astray = {one.line for one in loud(proof) if one.kind == "weight"}
    return tuple(
        replace(one, level="error") if one.kind == "counts" and astray & {one.line, one.line + 1} else one
        for one in problems
    )


def _closed(blocks: Sequence[Section], found: Sequence[Problem]) -> set[int]:
    """Return the identities of the sections and extras that were not understood."""
    wrong = {id(block): _wrong(block, found) for block in blocks}
    troubled = [block for block in blocks if wrong[id(block)]]
    if sum(wrong.values()) >= _STORM and 2 * len(troubled) > len(blocks):
        return {id(block) for block in troubled}
    return {id(block) for block in blocks if wrong[id(block)] >= _SHOWER or _unread(block)}


def _wrong(block: Section, found: Sequence[Problem]) -> int:
    """Return how many findings a block has; one mistyped line may make more than two, and counts for two."""
    lines = _lines(block)
    places = Counter(line for line, _ in {(one.line, one.column) for one in found if one.line in lines})
    return sum(min(number, _OF_ONE) for number in places.values())


def _lines(block: Section) -> set[int]:
    """Return the lines of the sheet that a block was read from."""
    spans = [span for event in block.events for span in (event.span, event.stated)]
    return {span.line for span in spans if span is not None} or ({block.span.line} if block.span else set())


def _unread(block: Section) -> bool:
    """Whether too much of a block is unread, in more than one place."""
    lost = [event for event in block.events if event.status == "unread"]
    lines = {event.span.line for event in lost if event.span is not None}
    places = len(lines) > 1 or len({event.words for event in lost}) > 2
    return places and len(lost) > 2 and len(lost) > _MUCH * len(block.events)


def _part(part: Part, closed: set[int]) -> Part:
    """Return a part with its closed sections as guesses, and without those that have no counts."""
    if not any(id(section) in closed for section in part.sections):
        return part
    sections = (_guessed(section) if id(section) in closed else section for section in part.sections)
    return part.but(sections=tuple(section for section in sections if section.events or section.counts > 0))


_Block = TypeVar("_Block", Section, Extra)


def _guessed(block: _Block) -> _Block:
    return block.but(events=tuple(_doubted(block.events)))


def _doubted(events: Sequence[Event]) -> Iterator[Event]:
    for event in events:
        if event.status == "unread":
            yield event
            continue
        plain = event.but(status="sure", other=None)
        lost = plain.but(
            foot=None, weight=None, move=None, direction=None, turn=Fraction(0), then=Fraction(0), also=(), asides=(),
            status="unread",
        )  # fmt: skip
        yield plain.but(status="unsure", other=lost)
