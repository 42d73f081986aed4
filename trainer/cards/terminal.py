"""A card in the terminal, with rich: the same words as on paper, sections one under the other."""

from collections.abc import Iterator
from fractions import Fraction

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from trainer.cards.model import Card, CardBlock, CardRow, CardStep, CardWall
from trainer.cards.setting import HEADINGS
from trainer.dance.facing import clock

_FEET = {"R": "bold cyan", "L": "bold magenta", "B": "bold"}


def as_text(card: Card) -> RenderableType:
    """Return a card for a console; no text of a sheet is taken for markup."""
    return Group(*_parts(card))


def _parts(card: Card) -> Iterator[RenderableType]:
    yield Text(card.title, "bold")
    if card.credits:
        yield Text(" · ".join(card.credits), "italic")
    yield Text(" · ".join(card.facts))
    for block in card.blocks:
        yield Text()
        yield from _block(block)
    if card.walls:
        yield Text()
        yield Text("the order, wall by wall", "bold yellow")
        yield _order(card.walls)
    if card.goes_on:
        yield Padding(Text(card.goes_on, "dim"), (0, 0, 0, 2), expand=False)
    if card.notes:
        yield Text()
    for note in card.notes:
        yield Text(note, "dim")
    yield Text()
    yield Text(card.key, "dim")


def _block(block: CardBlock) -> Iterator[RenderableType]:
    if block.part:
        yield Text(f"Part {block.part}", "bold yellow underline")
    name = f"{HEADINGS[block.kind]} {block.name}".strip() if block.kind in HEADINGS else block.name
    heading = Text.assemble((name, "bold yellow"), " ", (block.title, "bold"))
    if block.length:
        heading.append(f" {block.length}", "dim")
    heading.append(f"  from {clock(block.starts)}", "dim")
    yield heading
    table = Table.grid(padding=(0, 2, 0, 0))
    table.add_column(style="dim", no_wrap=True, min_width=4)
    table.add_column()
    table.add_column(justify="right", no_wrap=True)
    for row in block.rows:
        table.add_row(Text(row.counts), _steps(row), _clock(row.facing))
    yield Padding(table, (0, 0, 0, 2), expand=False)


def _clock(facing: Fraction | None) -> Text:
    return Text("" if facing is None else clock(facing))


def _steps(row: CardRow) -> Text:
    text = Text(", ").join(map(_step, row.steps))
    if row.styling:
        text.append(f"  {row.styling}", "italic dim")
    return text


def _step(step: CardStep) -> Text:
    text = Text(f"{step.name}: ", "dim") if step.name else Text()
    if step.foot:
        text.append(step.foot, _FEET[step.foot]).append(" ")
    return text.append(f"{step.text} ?" if step.unsure else step.text)


def _order(walls: tuple[CardWall, ...]) -> RenderableType:
    table = Table.grid(padding=(0, 2, 0, 0))
    table.add_column(style="bold", no_wrap=True)
    table.add_column(justify="right")
    table.add_column(no_wrap=True)
    table.add_column()
    table.add_column(style="italic dim")
    for wall in walls:
        starts = Text(", ".join(map(clock, wall.starts)))
        then = Text(" · ").join(Text(f"{one.text} {clock(one.facing)}") for one in wall.then)
        table.add_row(Text(f"{wall.name} {wall.part}".rstrip()), starts, Text(wall.danced), then, Text(wall.cue))
    return Padding(table, (0, 0, 0, 2), expand=False)
