"""From the counts as typed to labels and beats, through a whole block.

Numbers start again after 8, in a waltz after 6; a sheet that counts on (9-16, or through the whole dance) is numbered
anew. A count left out, counted twice or skipped inside a group (1&3) is a problem; the block is then numbered as the
rest of it suggests, and its beats always rise.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.dance.counts import OFFSETS, label_of, offset
from trainer.problems import Problem
from trainer.sheet.findings import Findings
from trainer.sheet.labels import Typed
from trainer.terms import Feel, Label


@dataclass(frozen=True, slots=True)
class Slot:
    """A count of a block that a step falls on."""

    label: Label
    beat: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """Where the numbers of a block may begin."""

    phrase: int
    """Counts after which the labels start again."""
    feel: Feel
    beat: int = 0
    """The beat of the first count written."""
    ones: tuple[int, ...] = ()
    """The numbers that the first count may have; empty: any, as an extra carries on its host's."""
    opened: bool = False
    """Its count 1 stands in the block before (8&1)."""
    may_be_opened: bool = False
    """Its count 1 may yet turn out to stand at the end of the dance, or of the danced intro."""


@dataclass(slots=True)
class Numbered:
    """The slots of a block, line by line."""

    slots: list[list[Slot]]
    counts: int = 0
    """Whole counts that it has, without the 1 that belongs to the next block."""
    renumbered: set[int] = field(default_factory=set)
    """The lines whose own numbers are others."""
    runs_over: bool = False
    """Its last slot is the 1 of the next block (8&1)."""
    starts_late: Problem | None = None
    """To be reported unless its count 1 comes from elsewhere."""


def number(lines: Sequence[Sequence[Typed]], base: Base, findings: Findings) -> Numbered:
    """Return the slots of the count lines of a block."""
    walker = _Walker(base, findings, lines)
    done = Numbered([walker.line(line) for line in lines])
    done.starts_late = walker.late
    done.renumbered = {index for index, line in enumerate(lines) if walker.renumbered(line, done.slots[index])}
    done.runs_over = walker.last is not None and done.slots[-1][-1].label == "1" and walker.last is not walker.first
    done.counts = walker.counts - base.beat - done.runs_over
    return done


def _last_one(lines: Sequence[Sequence[Typed]]) -> Typed | None:
    """Return the count after an &, e or a with which the last line of a block ends, if there is one: the 1 of 8&1."""
    if not lines or len(lines[-1]) < 2 or lines[-1][-1].sub is not None or lines[-1][-2].sub is None:
        return None
    return lines[-1][-1]


class _Walker:
    """Goes through the labels of a block and knows which number must come next."""

    def __init__(self, base: Base, findings: Findings, lines: Sequence[Sequence[Typed]]) -> None:
        self._base = base
        self._findings = findings
        self.late: Problem | None = None
        first = next((typed for line in lines for typed in line if typed.sub is None), None)
        self.first, self.last = first, _last_one(lines)
        self._beat = self._opening(first)
        """The beat of the number last read; of the first number until one was read."""
        self._typed = first.number if first else 1
        self._anchor = (self._beat, self._label_number(self._typed, self._beat))
        self._begun = False
        self._latest = Fraction(-2)
        self.counts = base.beat + (1 if base.opened else 0)

    def line(self, line: Sequence[Typed]) -> list[Slot]:
        """Return the slots of a line."""
        slots = []
        for index, typed in enumerate(line):
            if typed.sub is None:
                beat = self._whole(typed, line[max(index - 2, 0) : index])
                over = typed is self.last and typed.number == 1
                label = "1" if over else label_of(self._number_at(int(beat)))
            else:
                label, beat = typed.sub, self._between(typed)
            self._latest = beat
            slots.append(Slot(label, beat))
        return slots

    def renumbered(self, line: Sequence[Typed], slots: Sequence[Slot]) -> bool:
        """Whether the labels of a line are not those that the sheet has."""
        return any(t.sub is None and str(t.number) != s.label for t, s in zip(line, slots, strict=True))

    def _label_number(self, typed: int, beat: int) -> int:
        phrase = self._base.phrase
        return (beat if self._base.ones else typed - 1) % phrase + 1

    def _number_at(self, beat: int) -> int:
        anchor, number = self._anchor
        return (number - 1 + beat - anchor) % self._base.phrase + 1

    def _opening(self, first: Typed | None) -> int:
        """Return the beat of the first number, and find it late where counts before it are missing."""
        base = self._base
        if first is None or not base.ones:
            return base.beat + (first is None and base.opened)
        # Before the first number itself: after a section of one count a 2 could be either.
        if first.number - 1 in base.ones and (base.opened or base.may_be_opened):
            if not base.opened:
                self.late = self._late_start(first, 1)
            return base.beat + 1
        if first.number in base.ones:
            return base.beat
        one = max((one for one in base.ones if one < first.number), default=first.number)
        missing = first.number - one if first.number - one < base.phrase else 0
        self._findings.add(self._late_start(first, missing))
        return base.beat + missing

    def _late_start(self, first: Typed, missing: int) -> Problem:
        names = {0: "its own numbers", 1: "count 1"}.get(missing, f"counts 1-{missing}")
        return Problem(
            level="error",
            kind="counts",
            line=first.span.line,
            column=first.span.column,
            message=f"These counts begin with {first.number}; {names} should come before."
            if missing
            else f"These counts begin with {first.number}, not with {self._base.ones[0]}.",
            hint="A count on which nothing happens is written `hold`." if missing else "",
        )

    def _whole(self, typed: Typed, before: Sequence[Typed]) -> Fraction:
        """Return the beat of a number."""
        if not self._begun:
            self._begun = True
        else:
            self._beat += self._advance(typed, before)
            self._typed = typed.number
        self.counts = max(self.counts, self._beat + 1)
        return Fraction(self._beat)

    def _advance(self, typed: Typed, before: Sequence[Typed]) -> int:
        """Return how many counts a number is on from the one before."""
        base, number = self._base, typed.number
        followers = {self._typed + 1, self._number_at(self._beat + 1)}
        if self._typed % base.phrase == 0 or typed is self.last:
            followers.add(1)
        if number in followers:
            return 1
        gap = number - self._typed
        if not 1 < gap <= base.phrase:
            twice = "is written twice" if number == self._typed else f"comes after count {self._typed}"
            self._findings.error("counts", typed.span, f"Count {number} {twice}.")
            return 1
        missed = self._typed + 1
        if typed.glued and before and before[-1].glued and before[-1].sub:
            group = f"{self._typed}{before[-1].sub}"
            message = f"{group}{number} leaves out count {missed}."
            self._findings.error("counts", typed.span, message, f"Perhaps {group}{missed} is meant.")
            return 1
        names = f"Count {missed} is" if gap == 2 else f"Counts {missed}-{number - 1} are"
        hint = "A count on which nothing happens is written `hold`."
        self._findings.error("counts", typed.span, f"{names} missing before count {number}.", hint)
        return gap

    def _between(self, typed: Typed) -> Fraction:
        """Return the beat of e, & or a."""
        assert typed.sub is not None
        part = offset(typed.sub, self._base.feel)
        if part is None:
            message = f"There is no {typed.sub} in {self._base.feel} counts."
            self._findings.error("counts", typed.span, message, "They are divided by & and a.")
            part = OFFSETS["straight"][typed.sub]
        whole = self._beat if self._begun else self._beat - 1
        beat = whole + part
        if beat <= self._latest:
            same = beat == self._latest
            message = "Two steps fall on the same moment." if same else f"{typed.sub} comes after a later count."
            self._findings.error("counts", typed.span, message)
            beat = (self._latest + whole + 1) / 2
        return beat
