"""Where in a wall something happens: what a sentence says of it, and the count that this comes to.

A place is a number of counts danced of the dance, or of the part in a phrased one. "Count 4 of section 2" is 12,
"before count 17" is 16, "between sections 2 and 3" is 16. A count with its & ("8&") takes in the & at a section's end,
as a plain count there does; inside a section the cut falls before the next whole count.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import accumulate

from trainer.routine import Span
from trainer.sheet.prose.lexis.stems import stems
from trainer.sheet.prose.lexis.vocabulary import FILLERS, NUMBERS, STEP_WORDS, TEENS
from trainer.sheet.prose.order.grammar.headed_steps import steps_headed
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.terms import Label

_LINE_END = 10_000
"""A column behind all others."""
LAST = -1
"""Stands for the number of the last section."""


@dataclass(frozen=True, slots=True)
class Spec:
    """A place as a sentence puts it."""

    span: Span
    """Where its number stands."""
    text: str = ""
    """The words that name the section or the count, as written."""
    count: int | None = None
    count_span: Span | None = None
    """Where the count stands, when `span` is that of a section."""
    suffix: str = ""
    first: int | None = None
    """The first count of a range; `count` is then its last."""
    section: int | None = None
    """The place of a section, from 1; in a phrased dance within the part; -1 is the last."""
    named: str = ""
    """The full name of a section ("A2")."""
    title: tuple[str, ...] = ()
    """Words of a section's heading."""
    before: bool = False
    """Just before the count or section, not after it."""
    on: bool = False
    """On the count: just before it where it opens a section."""
    at: bool = False
    """Told with on: what is danced there may be changed, "on 4 of the first eight step left instead"."""
    block: int = 0
    """The n-th run of `count` counts: "the second eight"."""
    share: Fraction | None = None
    """A part of the whole, or of its section: half way, all."""
    from_end: bool = False
    """`count` is counted from the end: "without the last 8"."""
    sections: int = 0
    """So many sections from the end."""
    upto: int | None = None
    """Of sections that are left out: the last of them."""
    upto_count: int | None = None
    """Of counts that are left out: the last of them."""
    here: int = 0
    """The line of a marker that stands at the place itself."""
    column: int = 0
    """Its column in that line; 0: the line's end."""
    step: int = 0
    """Of steps told by `title` in a section: which of them, 0 where it has but one."""
    headed: bool = False
    """`title` is of the heading of a section, not of a step: "after the kick section"."""


@dataclass(frozen=True, slots=True)
class Found:
    """A place in counts of the part."""

    after: int
    before: Label | None = None
    first: int = 0
    """The first count of a range, 0 without one."""


@dataclass(frozen=True, slots=True)
class Fault:
    """A place that the dance does not have."""

    message: str
    span: Span


class Ruler:
    """The counts of a dance, or of one part, with its sections marked on them."""

    def __init__(self, known: Known, part: str) -> None:
        sections = sections_of(known, part)
        self.phrase = known.phrase
        self.names = [name for name, _, _ in sections]
        self._headings = [words for _, _, words in sections]
        self.heads = [{word.lower() for word in words.split()} for _, _, words in sections]
        self.ends = list(accumulate(counts for _, counts, _ in sections))
        told = dict(known.parts).get(part, 0) if part else 0
        self.spots = known.spots or tuple((line, 0, danced, False) for line, danced in sorted(known.ends.items()))
        self.steps = [(first, last, stems(words)) for named, first, last, words in known.steps if named == part]
        self.length = self.ends[-1] if self.ends else told
        self.whole = f"part {part}" if part else "the dance"

    def find(self, spec: Spec) -> Found | Fault | None:
        """Return the counts of a place; None where nothing is known to measure by."""
        if not self.length:
            return None
        if spec.share is not None and spec.section is None and not spec.named:
            return Found(int(self.length * spec.share))
        if spec.here:
            marked = (spec.here, spec.column or _LINE_END)
            above = [(danced, half) for line, column, danced, half in self.spots if (line, column) <= marked]
            return self._cut(above[-1][0], "&" if above[-1][1] else "", 0) if above else None
        if spec.title and (spec.section is not None or spec.named):
            if self.is_called(spec):
                return self._step_within(spec) or self._headed(spec) or self._in_section(replace(spec, title=()))
            return self._titled_in(spec)
        if spec.title and spec.count is not None:
            return self._titled_count(spec) or self._plain(replace(spec, title=()))
        if spec.title:
            return self._titled(spec)
        if spec.from_end:
            return self._from_end(spec)
        if spec.section is not None or spec.named:
            return self._in_section(spec)
        return self._plain(spec)

    def dances(self, words: Sequence[str], after: int) -> bool:
        """Whether the dance goes on after so many counts with the steps that words name."""
        wanted = stems(word for word in words if word not in FILLERS and word not in NUMBERS)
        heads = [head for head, end in zip(self.heads, self.ends, strict=True) if end > after][:1]
        near = [step for first, last, step in self.steps if last > after and first < after + self.phrase // 2]
        danced = {word for step in (*near, *(stems(head) for head in heads)) for word in step}
        return bool(wanted) and wanted <= danced and after < self.length

    def _plain(self, spec: Spec) -> Found | Fault | None:
        if spec.count is None:
            return None
        after = spec.count * max(spec.block, 1)
        if spec.block and spec.count == self.phrase:
            if spec.block > len(self.ends):
                return self._no_section(spec)
            # "Carry on with the third eight" is before all of it.
            after = [0, *self.ends][spec.block - spec.before]
        elif spec.before or (spec.on and after - 1 in self.ends):
            after -= 1
        if not 0 <= after <= self.length or (spec.first or 0) > self.length:
            return Fault(f"There is no count {spec.count}: {self.whole} has {self.length} counts", spec.span)
        return self._cut(after, spec.suffix, spec.first or 0)

    def _from_end(self, spec: Spec) -> Found | Fault | None:
        if spec.sections:
            kept = [0, *self.ends][: -spec.sections] if spec.sections <= len(self.ends) else []
            return Found(kept[-1]) if kept else self._no_section(spec)
        left = spec.count if spec.count is not None else self.length - (self.ends[-2] if len(self.ends) > 1 else 0)
        if left > self.length:
            return Fault(f"There are no {left} counts to leave out: {self.whole} has {self.length}", spec.span)
        return Found(self.length - left)

    def _in_section(self, spec: Spec) -> Found | Fault | None:
        place = self._place(spec)
        if place is None or not 1 <= place <= len(self.ends):
            return self._no_section(spec)
        start, end = ([0, *self.ends][place - 1], self.ends[place - 1])
        if spec.count is None and spec.share is not None:
            return Found(start + int((end - start) * spec.share))
        if spec.count is None:
            return Found(start if spec.before else end)
        # A sheet that counts on says "count 16 of section 2" for the last count of it.
        base = 0 if start < spec.count <= end and spec.count > end - start else start
        after = base + spec.count - spec.before
        if not start <= after <= end:
            counts = end - start
            return Fault(
                f"There is no count {spec.count} in {spec.text or 'this section'}: it has {counts} counts",
                spec.count_span or spec.span,
            )
        return self._cut(after, spec.suffix, base + spec.first if spec.first else 0)

    def _place(self, spec: Spec) -> int | None:
        names = [name.lower() for name in self.names]
        if spec.section == LAST:
            return len(self.ends)
        if spec.named:
            return names.index(spec.named.lower()) + 1 if spec.named.lower() in names else None
        wanted = str(spec.section)
        if spec.section is not None and spec.section < 0:
            return len(self.ends) + 1 + spec.section
        return names.index(wanted) + 1 if wanted in names else spec.section

    def knows(self, word: str) -> bool:
        """Whether a word is one of a section's heading or of a step."""
        wanted = stems((word,))
        return any(wanted <= stems(head) for head in self.heads) or any(wanted <= said for _, _, said in self.steps)

    def headed(self, words: Iterable[str]) -> list[int]:
        """Return the places of the sections whose headings have some words, the first 0."""
        wanted = stems(words)
        return [place for place, head in enumerate(self.heads) if wanted and wanted <= stems(head)]

    def part_headed(self, place: int, words: Sequence[str]) -> tuple[int, int] | None:
        """Return the counts of the steps that a section's heading names first or among others; None: not known."""
        return steps_headed(self._headings[place], words, [0, *self.ends][place], self.ends[place], self.danced)

    def _titled(self, spec: Spec) -> Found | None:
        hits = [place for place, head in enumerate(self.heads) if set(spec.title) <= head]
        if spec.headed and not hits:
            hits = [place for place, head in enumerate(self.heads) if stems(spec.title) <= stems(head)]
        if spec.headed and len(hits) == 1:
            return Found([0, *self.ends][hits[0]] if spec.before else self.ends[hits[0]])
        runs = self.danced(spec.title)
        # "Up to the kick" is the one kick of the section that is called "walks and a kick".
        single = len(runs) == 1 and runs[0][1] == runs[0][0] + 1
        headed = self._among_headed(hits[0], spec) if len(hits) == 1 and not spec.block and not single else None
        if headed is not None:
            return headed
        if len(hits) == 1 and not spec.block and not (single and self.told_more(hits[0], spec.title)):
            return Found([0, *self.ends][hits[0]] if spec.before else self.ends[hits[0]])
        return self._stepped(spec) or self._several(spec) or self._so_many(spec)

    def _so_many(self, spec: Spec) -> Found | None:
        """The place of steps told with how many there are: "after the two vines" of the section called "vines"."""
        number, *rest = spec.title
        if number not in NUMBERS or not rest or not rest[-1].endswith("s"):
            return None
        named = sum(set(rest) <= head for head in self.heads) == 1
        plain = replace(spec, title=tuple(rest))
        return self._titled(plain) if named or len(self.danced(rest)) == NUMBERS[number] else None

    def _stepped(self, spec: Spec) -> Found | None:
        """The place of steps by their words, or of those of them that are told by a number."""
        runs = self.danced(spec.title)
        if 0 < spec.block <= len(runs):
            runs = [runs[spec.block - 1]]
        if len(runs) != 1:
            return None
        return Found(runs[0][0] if spec.before else runs[0][1])

    def _several(self, spec: Spec) -> Found | None:
        """The place of steps told as several, all of them in one section: "after the pivots"."""
        runs = self.danced(spec.title)
        sections = {sum(end <= first for end in self.ends) for first, _ in runs}
        plural = spec.title[-1].endswith("s") and not spec.title[-1].endswith("ss")
        if len(runs) < 2 or len(sections) != 1 or not plural or spec.block:
            return None
        end = self.ends[sections.pop()]
        # The heel touches are over when the foot is home, the walks when one has walked as far again.
        last = runs[-1][1] + runs[1][0] - runs[0][1]
        return Found(runs[0][0] if spec.before else last if last <= end else runs[-1][1])

    def is_called(self, spec: Spec) -> bool:
        """Whether a section was named by the words of its heading, and not by steps of it."""
        place = self._place(spec)
        return place is not None and 1 <= place <= len(self.ends) and set(spec.title) <= self.heads[place - 1]

    def told_more(self, place: int, words: Iterable[str]) -> bool:
        """Whether the heading of a section has more words of steps than these."""
        return bool((self.heads[place] & STEP_WORDS) - set(words))

    def _titled_in(self, spec: Spec) -> Found | Fault | None:
        """The end of the steps named of a section; of the section itself where they are not found in it."""
        end = self._in_section(replace(spec, count=None, before=False))
        if not isinstance(end, Found):
            return end
        start = max((one for one in (0, *self.ends) if one < end.after), default=0)
        runs = [run for run in self.danced(spec.title) if start <= run[0] < end.after]
        if 0 < spec.step <= len(runs):
            runs = [runs[spec.step - 1]]
        if len(runs) != 1:
            return end
        return Found(runs[0][0] if spec.before else min(runs[0][1], end.after))

    def danced(self, words: Iterable[str]) -> list[tuple[int, int]]:
        """Return where steps are danced that are named so: counts before and after, those that follow on as one."""
        wanted = stems(word for word in words if word not in FILLERS and word not in NUMBERS)
        wanted = wanted - {"step"} or wanted
        found = [(first, last) for first, last, said in self.steps if wanted and wanted <= said]
        if not found and "turn" in wanted and len(wanted) > 1:
            # "The half turn" is told as a pivot.
            found = [(first, last) for first, last, said in self.steps if wanted - {"turn"} | {"pivot"} <= said]
        # "The kick" of "walk R, L, R, kick" is the one count, not all four.
        inner = [one for one in found if not any(one != two and one[0] <= two[0] < two[1] <= one[1] for two in found)]
        runs: list[tuple[int, int]] = []
        for first, last in sorted(inner):
            if runs and first <= runs[-1][1]:
                runs[-1] = (runs[-1][0], max(last, runs[-1][1]))
            else:
                runs.append((first, last))
        return runs

    def _step_within(self, spec: Spec) -> Found | None:
        """The steps that a section is called by where its heading names others too: "after the kick"."""
        place = self._place(spec)
        if place is None or spec.count is not None or not 1 <= place <= len(self.ends):
            return None
        start, end = [0, *self.ends][place - 1], self.ends[place - 1]
        others = {word for word in self.heads[place - 1] if word.isalpha() and word in STEP_WORDS} - set(spec.title)
        found = self._stepped(spec) if others else None
        return found if found is not None and start <= found.after <= end else None

    def _headed(self, spec: Spec) -> Found | None:
        """The steps that a section is called by, of those that its heading names."""
        place = self._place(spec)
        if place is None or spec.count is not None or not 1 <= place <= len(self.ends):
            return None
        return self._among_headed(place - 1, spec)

    def _among_headed(self, place: int, spec: Spec) -> Found | None:
        found = self.part_headed(place, spec.title)
        return Found(found[0] if spec.before else found[1]) if found is not None else None

    def _titled_count(self, spec: Spec) -> Found | None:
        """The count of the one section in which the step that is told with it is danced on it."""
        wanted = stems(word for word in spec.title if word not in FILLERS)
        danced = [(first, last) for first, last, words in self.steps if wanted and wanted <= words]
        hits = {
            count
            for first, last in danced
            for count in range(first + 1, last + 1)
            if spec.count in (count, self._called(count))
        }
        return self._cut(hits.pop(), spec.suffix, 0) if len(hits) == 1 else None

    def _called(self, count: int) -> int:
        """What a count of the dance is called in its section."""
        start = max((end for end in (0, *self.ends) if end < count), default=0)
        return (count - start - 1) % self.phrase + 1

    def _cut(self, after: int, suffix: str, first: int) -> Found:
        if not suffix or after in self.ends:
            return Found(after, first=first)
        start = max((end for end in self.ends if end <= after), default=0)
        number = (after - start) % self.phrase + 1
        labels: tuple[Label, ...] = ("1", "2", "3", "4", "5", "6", "7", "8")
        return Found(after, labels[number - 1], first)

    def _no_section(self, spec: Spec) -> Fault | None:
        many = len(self.ends)
        if not many:
            return None
        number = TEENS[many] if many < len(TEENS) else str(many)
        return Fault(
            f"There is no {spec.text or spec.named}: {self.whole} has {number} section{'s' * (many > 1)}", spec.span
        )


def sections_of(known: Known, part: str) -> Sequence[tuple[str, int, str]]:
    """Return the sections of a part; all of them where the dance has no parts."""
    if not known.parts or not part:
        return known.sections
    named = [one for one in known.sections if one[0].lower().startswith(part.lower())]
    if named and sum(counts for _, counts, _ in named) == dict(known.parts).get(part):
        return named
    start = 0
    for name, counts in known.parts:
        if name == part:
            break
        start += counts
    end = start + dict(known.parts).get(part, 0)
    ends = list(accumulate((counts for _, counts, _ in known.sections), initial=0))
    return [one for one, at in zip(known.sections, ends, strict=False) if start <= at < end]
