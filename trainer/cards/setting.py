"""The parts of a card set at a size of type: its head, sections, wall order and notes, each as strips of a width."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.cards.lines import LEADING, PARTING, Run, faced, paragraph
from trainer.cards.marks import Dial, Face, Ink, Mark, Metrics, Rule, Strip, stacked
from trainer.cards.model import Card, CardBlock, CardRow, CardStep, CardWall

HEADINGS = {
    "intro": "danced intro",
    "tag": "tag",
    "bridge": "bridge",
    "change": "change",
    "ending": "ending",
    "option": "instead:",
}
_SHORT = 40
"""Letters of a departure that is not broken into lines."""
_FEET: dict[str, Ink] = {"R": "right", "L": "left", "B": "ink"}


@dataclass(frozen=True, slots=True)
class Set:
    """A block as it is set: strips that may stand apart only where it is too long for a column."""

    strips: tuple[Strip, ...]
    gap: float
    """Between its strips."""

    @property
    def height(self) -> float:
        """All of it."""
        return sum(strip.height for strip in self.strips) + self.gap * (len(self.strips) - 1)


class Setter:
    """Sets the parts of a card at one size."""

    def __init__(self, metrics: Metrics, size: float) -> None:
        self.metrics, self.size = metrics, size

    def head(self, card: Card, width: float) -> Strip:
        """Return the title with the facts, and at its right the walls as dots on a clock."""
        size = self.size
        radius = 1.9 * size
        starts = tuple(dict.fromkeys(facing for wall in card.walls if wall.name != "intro" for facing in wall.starts))
        text = width - 2 * radius - 2 * size if starts else width
        lines = [paragraph([Run(card.title, "bold")], text, 2.0 * size, self.metrics)]
        if card.credits:
            lines.append(paragraph(list(_dotted(card.credits, "italic", "soft")), text, size, self.metrics))
        lines.append(paragraph(list(_dotted(card.facts)), text, 1.04 * size, self.metrics))
        stack = stacked(lines)
        marks: list[Mark] = list(stack.marks)
        height = max(stack.height, 2 * radius if starts else 0)
        if starts:
            marks.append(Dial(width - radius, radius + 0.2 * size, radius, starts, "accent"))
        return Strip(height + 0.5 * size, (*marks, Rule(0, height + 0.5 * size, width, 1.0, "ink")))

    def block(self, block: CardBlock, width: float) -> Set:
        """Return a section, an extra or an option in a column."""
        counts = self._counts_width(block.rows, width)
        heading = self._heading(block, width)
        rows = [self._row(row, width, counts) for row in block.rows]
        if not rows:
            rows = [paragraph([Run("no steps could be read", "italic", "soft")], width, self.size, self.metrics)]
        return Set((stacked([heading, rows[0]], 0.3 * self.size), *rows[1:]), 0.12 * self.size)

    def _heading(self, block: CardBlock, width: float) -> Strip:
        size = self.size
        strips = []
        if block.part:
            strips.append(paragraph([Run(f"Part {block.part}", "bold", "accent")], width, 1.3 * size, self.metrics))
        named = f"{HEADINGS[block.kind]} {block.name}".strip() if block.kind in HEADINGS else block.name
        runs = [Run(named, "bold", "accent")]
        runs += [Run(block.title, "bold")] if block.title else []
        runs += [Run(block.length, "regular", "soft")] if block.length else []
        clock = paragraph([faced(block.starts, "soft")], 4.6 * size, 0.92 * size, self.metrics, right=True)
        words = paragraph(runs, width - 5 * size, 1.06 * size, self.metrics)
        height = max(words.height, clock.height)
        marks = (*words.marks, *clock.at(width - 4.6 * size, 0.12 * size))
        strips.append(Strip(height + 0.1 * size, (*marks, Rule(0, height + 0.1 * size, width, 0.4, "hair"))))
        return stacked(strips)

    def _counts_width(self, rows: Sequence[CardRow], width: float) -> float:
        widest = max((self.metrics.width(row.counts, "bold") for row in rows), default=0)
        return min(max(widest + 0.7, 2.7) * self.size, 0.3 * width)

    def _row(self, row: CardRow, width: float, counts: float) -> Strip:
        size = self.size
        label = paragraph([Run(row.counts, "bold", "soft")], counts - 0.3 * size, size, self.metrics)
        clock = Strip(0)
        if row.facing is not None:
            clock = paragraph([faced(row.facing)], 4.6 * size, size, self.metrics, right=True)
        room = width - counts - (4.2 * size if row.facing is not None else 0)
        body = paragraph(list(_steps(row)), room, size, self.metrics)
        marks = (*label.marks, *body.at(counts, 0), *clock.at(width - 4.6 * size, 0))
        return Strip(max(label.height, body.height, LEADING * size), marks)

    def names_width(self, walls: Sequence[CardWall]) -> float:
        """Return the width that the names of some walls take, with the blank after them."""
        widest = max(self.metrics.width(_called(wall), "bold") for wall in walls)
        return min(widest + 1.0, 10.0) * self.size

    def wall(self, wall: CardWall, names: float, width: float) -> Strip:
        """Return one line of the order; `names` is the width of the names."""
        size = self.size
        name = paragraph([Run(_called(wall), "bold")], names - 0.5 * size, size, self.metrics)
        if len(wall.starts) > 1:
            body = [Run("all, from"), *(faced(facing) for facing in wall.starts)]
            text = paragraph(body, width - names, size, self.metrics)
            return Strip(max(text.height, name.height), (*name.marks, *text.at(names, 0)))
        start = paragraph([faced(facing) for facing in wall.starts], 4.6 * size, size, self.metrics)
        left = names + 4.9 * size
        text = paragraph(list(_danced(wall)), width - left, size, self.metrics)
        marks = (*name.marks, *start.at(names, 0), *text.at(left, 0))
        return Strip(max(text.height, start.height, name.height), marks)

    def note(self, text: str, width: float) -> Strip:
        """Return a remark of the teacher."""
        return paragraph([Run(text, "regular", "soft")], width, 0.92 * self.size, self.metrics)

    def small(self, text: str, width: float) -> Strip:
        """Return what explains the card."""
        return paragraph([Run(text, "regular", "soft")], width, max(0.76 * self.size, 6.0), self.metrics)

    def title(self, text: str, width: float) -> Strip:
        """Return a heading of its own over a band."""
        return paragraph([Run(text, "bold", "accent")], width, 1.06 * self.size, self.metrics)


def _called(wall: CardWall) -> str:
    return f"{wall.name} {wall.part}".rstrip()


def _dotted(facts: Sequence[str], face: Face = "regular", ink: Ink = "ink") -> Iterator[Run]:
    for index, fact in enumerate(facts):
        yield Run(fact, face, ink, whole=True, kept=index < len(facts) - 1)
        if index < len(facts) - 1:
            yield Run(PARTING, "regular", "accent")


def _steps(row: CardRow) -> Iterator[Run]:
    for index, step in enumerate(row.steps):
        last = index == len(row.steps) - 1
        yield from _step(step, "" if last else ",")
    if row.styling:
        yield Run(row.styling, "italic", "soft")


def _step(step: CardStep, ends: str) -> Iterator[Run]:
    if step.name:
        yield Run(f"{step.name}:", "regular", "soft")
    if step.foot:
        yield Run(step.foot, "bold", _FEET[step.foot], kept=True)
    yield Run(f"{step.text}{' ?' if step.unsure else ''}{ends}")


def _danced(wall: CardWall) -> Iterator[Run]:
    if wall.name != "intro" and wall.danced == "all" and not wall.then:
        yield Run("all", "regular", "soft")
    else:
        yield Run(wall.danced)
    for then in wall.then:
        yield Run(PARTING, "regular", "accent")
        yield Run(then.text, "bold", whole=len(then.text) <= _SHORT, kept=True)
        yield faced(then.facing, "soft")
    if wall.cue:
        yield Run(wall.cue, "italic", "soft")
