"""Blocks of text to blocks of drafts: numbering, and the count 1 that stands at the end of the block before (8&1).

The 1 of `8&1` is the first event of the next section of its part. At the end of the last section of a dance that is
not phrased it is the first event of the dance, which wall 2 and every later wall begins with; at the end of a danced
intro likewise. It is stored once; where both the intro and the dance end so, they must say the same. Elsewhere it is
a problem.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from trainer.routine import Routine, Span
from trainer.sheet.allot import allot
from trainer.sheet.blocks import MOST_COUNTS, Block
from trainer.sheet.drafts import Draft, drafts_of
from trainer.sheet.findings import Findings
from trainer.sheet.mending import faults, mended
from trainer.sheet.numbering import Base, Numbered, number
from trainer.terms import Feel

_NOWHERE = Span(0, 0, 0)


@dataclass(slots=True)
class Counted:
    """A block with its drafts."""

    block: Block
    drafts: list[Draft] = field(default_factory=list)
    counts: int = 0
    over: Draft | None = None
    """The first event of what follows."""
    numbered: Numbered | None = None


class Counter:
    """Counts the blocks of a sheet in the order in which they stand."""

    def __init__(self, routine: Routine, blocks: Sequence[Block], findings: Findings, *, phrased: bool) -> None:
        self._phrase = routine.phrase
        self._feel = routine.feel
        self._findings = findings
        self._phrased = phrased
        self.blocks = [Counted(block) for block in blocks]
        self._total = 0

    def count(self) -> None:
        """Give every block its drafts and its length."""
        sections = [one for one in self.blocks if one.block.heading.kind == "section"]
        done_in_part: dict[str, int] = {}
        before: Counted | None = None
        for one in sections:
            part = one.block.part
            counts_before = done_in_part.get(part, 0)
            bases = tuple(dict.fromkeys((1, counts_before + 1, self._total + 1)))
            if before is not None and before.over is not None:
                if before.block.part != part:
                    self._no_next(before)
                elif _writes_own_one(one, bases):
                    self._twice(before)
            over = before.over if before is not None else None
            self._section(one, bases, over, first=before is None)
            done_in_part[part] = counts_before + one.counts
            self._total += one.counts
            before = one
        for one in self.blocks:
            if one.block.heading.kind not in ("section", "option"):
                self._run(one, Base(phrase=self._phrase, feel=self._feel_of(one)))
        self._close(sections)
        self._options(sections)
        if sum(one.counts for one in self.blocks) > MOST_COUNTS:
            where = self.blocks[-1].block.heading.span
            self._findings.error("counts", where, f"No dance has more than {MOST_COUNTS:,} counts.")

    def _feel_of(self, one: Counted) -> Feel:
        return one.block.feel or self._feel

    def _section(self, one: Counted, ones: tuple[int, ...], over: Draft | None, *, first: bool) -> None:
        base = Base(
            phrase=self._phrase,
            feel=self._feel_of(one),
            ones=ones,
            opened=over is not None,
            may_be_opened=first,
        )
        self._run(one, base)
        if over is not None and not any(draft.slot.beat == 0 for draft in one.drafts):
            one.drafts.insert(0, _opening(over))
            one.counts = max(one.counts, 1)

    def _run(self, one: Counted, base: Base) -> None:
        """Number a block and make its drafts."""
        read = mended(one.block.lines, base)
        lines = [each.line for each in read]
        numbering = Findings()
        numbered = number([line.labels for line in lines], base, numbering)
        fits = [allot(line, [slot.label for slot in slots]) for line, slots in zip(lines, numbered.slots, strict=True)]
        for problem in faults(read, fits, numbering.result()):
            self._findings.add(problem)
        one.numbered, one.counts = numbered, numbered.counts
        for index, (line, slots, fit) in enumerate(zip(lines, numbered.slots, fits, strict=True)):
            words = line.words
            if index in numbered.renumbered:
                words = "\n".join(text for text in (words, line.labels_text) if text)
            one.drafts += drafts_of(line, slots, fit, words, self._findings)
        if numbered.runs_over:
            one.over = one.drafts.pop()
        self._length(one)

    def _length(self, one: Counted) -> None:
        """Take the length that the heading states, and compare it with the counts."""
        stated = one.block.heading.counts
        if stated is None or stated == one.counts:
            return
        self._findings.error(
            "counts",
            one.block.heading.span,
            f"The heading says {stated} counts, but {one.counts} are written.",
            "A count on which nothing happens is written `hold`.",
        )
        one.counts = stated

    def _close(self, sections: Sequence[Counted]) -> None:
        """Put the 1 of an `8&1` at the end of the danced intro and of the dance where the dance begins."""
        first = sections[0] if sections else None
        openings: list[Counted] = []
        for one in self.blocks:
            kind = one.block.heading.kind
            if one.over is None or (kind == "section" and one is not sections[-1]):
                continue
            if first is not None and (kind == "intro" or (kind == "section" and not self._phrased)):
                openings.append(one)
            else:
                self._no_next(one)
        if first is None:
            return
        late = first.numbered.starts_late if first.numbered else None
        if late is not None and not openings:
            self._findings.add(late)
        own = next((draft for draft in first.drafts if draft.slot.beat == 0), None)
        for one in openings:
            self._open(first, one, own)

    def _open(self, first: Counted, one: Counted, own: Draft | None) -> None:
        """Begin the dance with the 1 at the end of a block; `own` is a count 1 that the first section writes too."""
        assert one.over is not None
        opening = _opening(one.over)
        standing = next((draft for draft in first.drafts if draft.slot.beat == 0), None)
        if standing is None:
            first.drafts.insert(0, opening)
            first.counts = max(first.counts, 1)
        elif own is not None or _danced(standing) != _danced(opening):
            self._findings.error(
                "counts",
                one.over.span,
                "Count 1 of the dance is written twice." if own else "Count 1 of the dance is written in two ways.",
                "Begin the first section with & or 2 where its count 1 stands here.",
            )

    def _no_next(self, one: Counted) -> None:
        """Complain about the 1 of an `8&1` after which nothing certain follows, and keep it as a count of its block."""
        assert one.over is not None
        self._findings.error(
            "counts",
            one.over.span,
            "This 1 belongs to what comes next, and that is not the same every time.",
            "Write the 1 where it belongs; if it is a count of this block, give it a line of its own.",
        )
        _keep(one, one.over)

    def _twice(self, one: Counted) -> None:
        """Complain about the 1 of an `8&1` where the next section writes its count 1 itself."""
        assert one.over is not None
        self._findings.error(
            "counts",
            one.over.span,
            "This 1 belongs to the next section, and that writes its own count 1.",
            "Begin the next section with & or 2; or is the next count of this one meant?",
        )
        _keep(one, one.over)

    def _options(self, sections: Sequence[Counted]) -> None:
        """Number the options like the sections that they belong to."""
        before: dict[str, int] = {}
        starts: dict[tuple[str, str], tuple[int, Counted]] = {}
        for one in sections:
            part = one.block.part
            starts.setdefault((part, one.block.heading.name), (before.get(part, 0), one))
            before[part] = before.get(part, 0) + one.counts
        for one in self.blocks:
            if one.block.heading.kind == "option":
                start, section = starts.get((one.block.part, one.block.heading.name), (0, None))
                self._option(one, start, section)

    def _option(self, one: Counted, start: int, section: Counted | None) -> None:
        heading = one.block.heading
        if section is not None and start and heading.first > section.counts and heading.first > start:
            heading = replace(heading, first=heading.first - start, last=heading.last - start)
            one.block.heading = heading
        beat = max(heading.first - 1, 0)
        ones = () if not heading.first else tuple(dict.fromkeys((beat % self._phrase + 1, beat + 1, start + beat + 1)))
        feel = one.block.feel or (section and section.block.feel) or self._feel
        self._run(one, Base(phrase=self._phrase, feel=feel, beat=beat, ones=ones))
        if one.over is not None:
            self._no_next(one)
        danced = max(heading.last - beat, 0)
        if one.counts != danced and heading.first:
            message = f"The option replaces {_counts(danced)}, but has {_counts(one.counts)}."
            self._findings.error("counts", heading.span, message)


def _keep(one: Counted, over: Draft) -> None:
    """Make the 1 of an `8&1` a count of its own block."""
    one.drafts.append(over)
    one.counts += 1
    one.over = None


def _writes_own_one(one: Counted, ones: Sequence[int]) -> bool:
    """Whether a section begins with its count 1, by whatever number it goes."""
    numbers = (typed.number for line in one.block.lines for typed in line.labels if typed.sub is None)
    first = next(numbers, 0)
    return first in ones and first - 1 not in ones


def _counts(number: int) -> str:
    return "1 count" if number == 1 else f"{number} counts"


def _opening(over: Draft) -> Draft:
    """Return the 1 of an `8&1` as the first event of what follows."""
    return replace(over, slot=replace(over.slot, beat=over.slot.beat * 0))


def _danced(draft: Draft) -> Draft:
    """Return what is danced on a draft, without where and how it was written."""
    return replace(draft, span=_NOWHERE, words=None, styling="", facing=None, mark=None, other=None, status="sure")
