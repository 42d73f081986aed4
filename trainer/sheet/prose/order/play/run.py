"""An order of play as it was read: its items in order, and how it was told."""

from dataclasses import dataclass, field
from fractions import Fraction

from trainer.routine import Span
from trainer.sheet.prose.order.claims.extras import Ref
from trainer.sheet.prose.order.grammar.places import Fault
from trainer.sheet.prose.order.grammar.telling import Known


@dataclass(slots=True)
class Step:
    """An item of the order of play."""

    part: str
    span: Span
    ref: Ref | None = None
    """An extra between parts."""
    hold: int = 0
    cut: int | None = None
    """Counts danced of the part, where it is cut short."""
    starts: Fraction | None = None
    short: bool = False
    """It is marked as another form of its part: "short A", "A*"."""


@dataclass(slots=True)
class Run:
    """An order of play as a sentence tells it."""

    steps: list[Step] = field(default_factory=list)
    repeats: bool = False
    labelled: bool = False
    faults: list[Fault] = field(default_factory=list)
    read: int = 0
    """Tokens of the sentence, or of the sentences, that were read."""

    @property
    def parts(self) -> list[str]:
        """The names of the parts in order."""
        return [step.part for step in self.steps if step.part]

    def opens(self, longer: "Run") -> bool:
        """Whether it tells the dance to its end, and the longer run only goes on with words of something else.

        "A, B, A, ending. The clock times are for an A or a B that begins at 12:00."
        """
        ref = self.steps[-1].ref if len(self.parts) > 1 else None
        return ref is not None and ref.kind == "ending" and longer.parts[: len(self.parts)] == self.parts

    @property
    def short(self) -> dict[str, list[int]]:
        """By part the passes that are marked as another form of it; without such marks those that are cut short."""
        found: dict[str, list[int]] = {}
        counts: dict[str, int] = {}
        marked = {step.part for step in self.steps if step.short}
        for step in self.steps:
            counts[step.part] = counts.get(step.part, 0) + 1
            if step.short or (step.cut is not None and step.part not in marked):
                found.setdefault(step.part, []).append(counts[step.part])
        return found

    def only_lengths(self, known: Known) -> bool:
        """Whether it says no more than how long each part is."""
        return sorted(self.parts) == sorted(name for name, _ in known.parts) and not self.labelled

    @property
    def weight(self) -> int:
        """How much speaks for its being the order of play."""
        return len(self.parts) + 100 * self.labelled
