"""What a teacher wrote beside the dance, kept as remarks: lines that neither steps, the order nor the head came from.

Nothing that is written is lost: such a line stands among the routine's notes, and one note of the reading names them
all, so that a line that does tell a step and was passed over is seen. What heads others, explains the sheet's short
forms, or wraps the words of a step or of the order, is no remark; nor is what speaks of the order: several lines may
tell the same of a wall, and what was not understood of them is a finding.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from trainer.problems import Problem
from trainer.routine import Routine, Written
from trainer.sheet.prose.header.facts import Facts, header_facts
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.order.told import is_order
from trainer.sheet.prose.text.laid_out import LaidOut
from trainer.sheet.prose.text.layout import BREAK, Line, clean_lines

_HEADS = 3
"""Words of a line that may only head others: "The dance", "Steps for Sunday"."""
_STOPS = {".", "!", "?", ":", ")", ";"}
"""Signs at the end of a line after which the next one begins something new."""
_MARGIN = 45
"""A line whose last word stands beyond this column may have been wrapped."""
_MOST = 8
"""So many lines are named one by one."""


def with_remarks_kept(
    routine: Routine, problems: Sequence[Problem], text: str, keys: Sequence[Line], page: LaidOut
) -> tuple[Routine, tuple[Problem, ...]]:
    """Return a routine with the lines of its sheet that nothing was read from among its notes, and a note on them."""
    lines = clean_lines(text)
    read = {line.number for line in keys} | {problem.line for problem in problems} | set(_read_lines(routine))
    first = min((event.span.line for event in routine.events() if event.span is not None), default=0)
    kept = [
        line for at, line in enumerate(_left(lines, read)) if line.number > first or (at and not _states_facts(line))
    ]
    if not kept:
        return routine, tuple(problems)
    told = {note.rstrip(".") for note in routine.notes}
    remarks = dict.fromkeys(" ".join(line.source.split()) for line in kept)
    notes = (*routine.notes, *(remark for remark in remarks if remark.rstrip(".") not in told))
    return routine.but(notes=notes), (*problems, _note(kept, page))


def _left(lines: Sequence[Line], read: Collection[int]) -> Iterator[Line]:
    """Yield the lines that nothing came from, and no line beside them that they are one with."""
    for group in _stretches(lines):
        if not any(line.number in read for line in group):
            yield from (line for line in group if not _says_more(line))


def _says_more(line: Line) -> bool:
    """Whether a line may head others, speaks of the order, or points back to steps that are danced again."""
    return _heads(line) or is_order(line.tokens) or points_back(line.tokens)


def _stretches(lines: Sequence[Line]) -> Iterator[list[Line]]:
    """Yield lines with those that wrap their sentence, and the rows of a table together."""
    group: list[Line] = []
    for line in lines:
        if group and not (line.number == group[-1].number + 1 and _goes_on(group[-1], line)):
            yield group
            group = []
        group.append(line)
    yield group


def _goes_on(before: Line, line: Line) -> bool:
    """Whether a line goes on with the sentence of the one before it, or with its table."""
    if any(token.text == BREAK for token in line.tokens):
        return any(token.text == BREAK for token in before.tokens)
    opens = line.tokens[0]
    if opens.text.islower():
        return True
    prose = before.tokens[0].kind == opens.kind == "word"
    return prose and before.tokens[-1].text not in _STOPS and _is_long(before)


def _is_long(line: Line) -> bool:
    """Whether a line reaches so far that its sentence may have been wrapped there."""
    return line.tokens[-1].column > _MARGIN


def _read_lines(routine: Routine) -> Iterator[int]:
    """Yield the numbers of the lines that something of a routine was read from."""
    written: list[Written] = [*routine.parts, *routine.extras, *routine.options, *routine.order, *routine.play]
    sections = [section for part in routine.parts for section in part.sections]
    departures = [departure for line in routine.order for departure in line.departures]
    written += [*sections, *departures, *(insert for one in departures for insert in one.inserts)]
    events = list(routine.events())
    written += events
    for one in written:
        if one.span is not None:
            yield one.span.line
    yield from (event.stated.line for event in events if event.stated is not None)
    yield from (span.line for _, span in routine.header)


def _heads(line: Line) -> bool:
    """Whether a line may only head others, explains short forms, or holds no words."""
    words = [token for token in line.tokens if token.kind == "word"]
    explains = any(token.text == "=" for token in line.tokens)
    return len(words) <= _HEADS or line.tokens[-1].text == ":" or explains


def _states_facts(line: Line) -> bool:
    """Whether a line above the steps states what the head of a sheet states, a title left out."""
    return replace(header_facts([line.tokens]), title="") != Facts()


def _note(kept: Sequence[Line], page: LaidOut) -> Problem:
    numbers = [str(page.place(line.number, line.indent + 1)[0]) for line in kept]
    if len(numbers) == 1:
        told = "Nothing that is danced was read from this line; it is kept as a remark."
    else:
        named = numbers if len(numbers) <= _MOST else [*numbers[:_MOST], f"{len(numbers) - _MOST} more"]
        listed = f"{', '.join(named[:-1])} and {named[-1]}"
        told = f"Nothing that is danced was read from lines {listed}; they are kept as remarks."
    where = kept[0]
    return Problem(level="note", kind="text", line=where.number, column=where.indent + 1, message=told)
