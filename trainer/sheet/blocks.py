"""The blocks of a sheet: a heading with its count lines, and the teacher's words above them."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from trainer.routine import Span
from trainer.sheet.countlines import CountLine, read_count_line
from trainer.sheet.findings import Findings
from trainer.sheet.header import read_feel
from trainer.sheet.headings import Heading, is_heading, read_heading
from trainer.sheet.labels import starts_with_counts
from trainer.sheet.lines import Line
from trainer.sheet.order import OrderText, read_order_line
from trainer.sheet.texts import taken
from trainer.terms import Feel

MOST_COUNTS = 2_000
"""Whole counts of all blocks together; the longest dances have a tenth of this."""

_FEEL = re.compile(r"feel\s*:\s*", re.IGNORECASE)


@dataclass(slots=True)
class Block:
    """A heading and what stands under it, as text."""

    heading: Heading
    part: str = ""
    feel: Feel | None = None
    lines: list[CountLine] = field(default_factory=list)


@dataclass(slots=True)
class Body:
    """Everything under the head of a sheet."""

    blocks: list[Block] = field(default_factory=list)
    parts: list[tuple[str, Span]] = field(default_factory=list)
    """Names of the `== part` headings."""
    order: list[OrderText] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    """The teacher's words that stand above no counts."""


def head_and_body(lines: Sequence[Line]) -> tuple[list[Line], list[Line]]:
    """Divide a sheet before its first heading; counts that stand before any heading belong to the body."""
    for index, line in enumerate(lines):
        if is_heading(line) or line.spoken or starts_with_counts(line.text):
            return list(lines[:index]), list(lines[index:])
    return list(lines), []


def read_body(lines: Sequence[Line], findings: Findings) -> Body:
    """Read headings, count lines and the order."""
    reader = _BodyReader(findings)
    for line in lines:
        reader.read(line)
    reader.end_block()
    return reader.body


class _BodyReader:
    """Takes the lines under the head one after the other."""

    def __init__(self, findings: Findings) -> None:
        self.body = Body()
        self._findings = findings
        self._block: Block | None = None
        self._in_order = False
        self._part = ""
        self._words: list[str] = []
        self._words_span: Span | None = None
        self._labels = 0
        self._names: set[tuple[str, str, str]] = set()

    def read(self, line: Line) -> None:
        """Take one line."""
        if line.spoken:
            self._words.append(_spoken(line))
            self._words_span = self._words_span or line.span()
        elif is_heading(line):
            self._heading(line)
        elif self._in_order:
            told = read_order_line(line, self._findings)
            if told is not None:
                self.body.order.append(told)
        elif (match := _FEEL.match(line.text)) and self._block is not None:
            self._block.feel = read_feel(line, match.end(), self._findings)
        elif starts_with_counts(line.text):
            self._count_line(line)
        else:
            self._loose(line)

    def end_block(self) -> None:
        """Keep words under which no counts follow as remarks."""
        if self._words_span is not None:
            hint = "They are kept as a note; words after > belong to the count line under them."
            self._findings.warn("text", self._words_span, "No counts follow these words.", hint)
        if self._words:
            self.body.remarks.append("\n".join(self._words))
        self._words, self._words_span = [], None

    def _heading(self, line: Line) -> None:
        self.end_block()
        heading = read_heading(line, self._findings)
        self._in_order = heading.kind == "order"
        self._block = None
        if heading.kind == "part":
            if any(name == heading.name for name, _ in self.body.parts):
                self._findings.error("text", line.span(), f"There is a part {heading.name} already.")
            self._part = heading.name
            self.body.parts.append((heading.name, heading.span))
        elif heading.kind != "order":
            part = heading.part if heading.part is not None else self._part
            self._block = Block(heading, part)
            self._check_double(self._block)
            self.body.blocks.append(self._block)

    def _check_double(self, block: Block) -> None:
        kind, name = block.heading.kind, block.heading.name
        key = (kind, name, block.part if kind == "section" else "")
        if key in self._names and kind != "option":
            thing = "the danced intro" if kind == "intro" else f"{kind} {name}"
            self._findings.error("text", block.heading.span, f"{thing[:1].upper()}{thing[1:]} is written twice.")
        self._names.add(key)

    def _count_line(self, line: Line) -> None:
        if self._block is None:
            message = "These counts stand under no heading."
            self._findings.error("text", line.span(), message, "Write `== 1` above the first section.")
            self._block = Block(Heading(span=line.span(), kind="section", name="1"), self._part)
            self.body.blocks.append(self._block)
        words = "\n".join(self._words)
        self._words, self._words_span = [], None
        if self._labels > MOST_COUNTS * 4:
            return
        read = read_count_line(line, words, self._findings)
        self._labels += len(read.labels)
        if self._labels <= MOST_COUNTS * 4:
            self._block.lines.append(read)
        else:
            message = f"No dance has more than {MOST_COUNTS:,} counts; the rest is left out."
            self._findings.error("counts", line.span(), message)

    def _loose(self, line: Line) -> None:
        """Keep a line without counts as words of the next count line."""
        known = "feel: " if line.text.casefold().startswith("feel") else ""
        hint = "A count line begins with its counts: `1-2  R walk, L walk`; the teacher's words stand after >."
        if known:
            hint = "Write `feel: rolling` under the heading of a section."
        self._findings.error("text", line.span(), f'"{line.text[:60]}" does not begin with a count.', hint)
        self._words.append(line.text)


def _spoken(line: Line) -> str:
    return taken(line.text[1:])
