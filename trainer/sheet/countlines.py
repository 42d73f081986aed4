"""A count line: `labels clause, clause ... @clock ; styling`, and figures that it spells out (`NAME: clause, clause`).

A figure that is spelled out runs to the line's end, or to the next such name. `NAME (from step 3): ...` goes on with
a figure of that name that stopped after its step 2. A facing is a clock time, or a fraction of a whole turn right of
12:00.
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from trainer.dance.figures import Figure
from trainer.routine import Span
from trainer.sheet.clauses import Clause, read_clause
from trainer.sheet.findings import Findings
from trainer.sheet.labels import Typed, read_labels
from trainer.sheet.lines import Line
from trainer.sheet.stated import facing_of
from trainer.sheet.texts import QUOTED, outside, split, taken
from trainer.sheet.vocabulary import parts_of, steps

MOST_OVER = 4
"""So many clauses are read for which the line has no counts."""

_FROM_STEP = re.compile(r"(.*?)\s*\(\s*from step (\d{1,3})\s*\)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Spelled:
    """The name of a figure whose steps are spelled out, and the index of its first step here."""

    name: str
    index: int
    span: Span


@dataclass(frozen=True, slots=True)
class Said:
    """A clause, and the figure that it spells out a step of."""

    clause: Clause
    of: Spelled | None


@dataclass(frozen=True, slots=True)
class CountLine:
    """A line of a block as written."""

    line: Line
    labels: tuple[Typed, ...]
    labels_sound: bool
    """Whether its counts could all be read; if not, that is a problem already."""
    labels_text: str
    said: tuple[Said, ...]
    surplus: str
    """What stands after more clauses than any mistyped counts could be meant for; it is not read."""
    facing: Fraction | None
    """What stands after @; it belongs to the last count of the line."""
    styling: str
    words: str
    """The teacher's own words for the whole line."""


def read_count_line(line: Line, words: str, findings: Findings) -> CountLine:
    """Read a line that begins with counts."""
    read = read_labels(line, findings)
    labels, start = read.typed, read.end
    end = _first(line.text, ";", start)
    styling = taken(line.text[end + 1 :]) if end < len(line.text) else ""
    facing, end = _facing(line, start, end, findings)
    pieces = [(start + first, start + last) for first, last in split(line.text[start:end], ",")]
    kept = pieces[: len(labels) + MOST_OVER]
    surplus = line.text[pieces[len(kept)][0] : end].strip() if len(pieces) > len(kept) else ""
    return CountLine(
        line=line,
        labels=labels,
        labels_sound=read.sound,
        labels_text=line.text[:start].strip(" ,"),
        said=_read_pieces(line, kept, findings) if line.text[start:end].strip() else (),
        surplus=surplus,
        facing=facing,
        styling=styling,
        words=words,
    )


def _first(text: str, letter: str, start: int) -> int:
    """Return where a letter first stands outside quotes and brackets, or the text's end."""
    return next((start + at for at, found in outside(text[start:]) if found == letter), len(text))


def _facing(line: Line, start: int, end: int, findings: Findings) -> tuple[Fraction | None, int]:
    """Return the facing stated at the end of the steps, and where the steps end."""
    at = _first(line.text[:end], "@", start)
    if at == end:
        return None, end
    facing = read_facing(line, at + 1, end, findings)
    return facing, at


def read_facing(line: Line, start: int, end: int, findings: Findings) -> Fraction | None:
    """Return the facing that a stretch of a line states after its @."""
    text = line.text[start:end].strip()
    facing = facing_of(text)
    if facing is None:
        span = line.span(start, end) if text else line.span(start - 1, end)
        if text.isdecimal() and 1 <= int(text[:3]) <= 12:
            hint = f"Write @{text}:00."
        elif "," in text:
            hint = "The facing stands at the end of the line; begin a new line after it."
        else:
            hint = "A facing is a clock time: @12:00, @1:30, @3:00."
        findings.error("facing", span, f'"{text}" is no facing.', hint)
    return facing


def _read_pieces(line: Line, pieces: list[tuple[int, int]], findings: Findings) -> tuple[Said, ...]:
    said: list[Said] = []
    of: Spelled | None = None
    for first, last in pieces:
        colon = _first(line.text[:last], ":", first)
        if colon < last:
            of = spelled(line, first, colon, findings)
            first = colon + 1
        elif of is not None:
            of = Spelled(of.name, of.index + 1, of.span)
        clause = read_clause(line, first, last, findings)
        if of is not None and clause.single is not None:
            clause = clause.single
        elif of is not None and clause.figure is not None:
            message = "A figure that is spelled out has single steps only."
            findings.error("text", clause.span, message, "Put the other figure in a line of its own.")
        said.append(Said(clause, of))
    return tuple(said)


def spelled(line: Line, first: int, last: int, findings: Findings) -> Spelled:
    """Read the name before a colon."""
    text = line.text[first:last].strip()
    span = line.span(first, last)
    match = _FROM_STEP.fullmatch(text)
    index = max(int(match[2]) - 1, 0) if match else 0
    told = match[1].strip() if match else text
    name = figure_name(told)
    if not told:
        findings.error("text", span, "The name of the figure is missing before the colon.")
    return Spelled(name, index, span)


def figure_name(text: str) -> str:
    """Return the name that a figure goes by: its own where the table knows the text; in quotes exactly as written."""
    text = text.strip()
    if QUOTED.fullmatch(text):
        return taken(text)
    known = steps().get(parts_of(re.sub(r"^[RL]\s+", "", text)))
    return known.name if isinstance(known, Figure) else text
