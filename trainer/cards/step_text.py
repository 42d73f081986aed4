"""A step that was looked up, in the terminal, with rich."""

from collections.abc import Iterator, Mapping, Sequence

from rich.console import Group, RenderableType
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from trainer.practice.lookup import Entry, FormRow, LookedUp

_FEET = {"R": "bold cyan", "L": "bold magenta", "B": "bold"}


def looked_up_text(answer: LookedUp) -> RenderableType:
    """Return the steps that were found: one in full, of several the names with what they are."""
    if len(answer.found) == 1:
        parts: list[RenderableType] = [*_entry(answer.found[0])]
        if answer.also:
            parts += [Text(), Text(f"see also: {', '.join(answer.also)}", "dim")]
        return Group(*parts)
    table = Table.grid(padding=(0, 2, 0, 0))
    for entry in answer.found:
        counts = ", ".join(dict.fromkeys(form.counts[0] for form in entry.forms))
        table.add_row(Text(entry.name, "bold"), Text(counts), Text(", ".join(entry.others), "dim"))
    return Group(Text("Several steps have that name; look one of them up:"), Padding(table, (0, 0, 0, 2), expand=False))


def families_text(families: Mapping[str, Sequence[str]]) -> RenderableType:
    """Return all steps by their groups."""
    parts: list[RenderableType] = []
    for group, names in families.items():
        parts += [Text(group, "bold yellow"), Padding(Text(", ".join(names)), (0, 0, 1, 2), expand=False)]
    return Group(*parts)


def _entry(entry: Entry) -> Iterator[RenderableType]:
    yield Text.assemble((entry.name, "bold"), (f"  {entry.short}", "dim"))
    if entry.others:
        yield Text(f"also called: {', '.join(entry.others)}")
    yield Text(f"one of: {entry.group}", "dim")
    if entry.turn:
        yield Text(f"turns {entry.turn}, where the sheet does not say how far")
    if entry.weight:
        yield Text(f"weight: {entry.weight}")
    told_apart = len({form.ways for form in entry.forms}) > 1
    for form in entry.forms:
        yield Text()
        yield from _form(form, told_apart=told_apart)
    if entry.notes:
        yield Text()
    for note in entry.notes:
        yield Text(note)
    yield Text()
    yield Text(f"source: {entry.source}", "dim")


def _form(form: FormRow, *, told_apart: bool) -> Iterator[RenderableType]:
    travels = any(step.travels for step in form.steps)
    ways = f"going {' or '.join(form.ways)}" if told_apart and form.ways and not travels else ""
    yield Text(" · ".join(filter(None, (f"on {', '.join(form.counts)}", form.when, ways))), "bold yellow")
    table = Table.grid(padding=(0, 2, 0, 0))
    for step in form.steps:
        foot = Text(step.foot, _FEET.get(step.foot, ""))
        way = f"{step.step} *" if step.travels and len(form.ways) > 1 else step.step
        carries = f"weight {step.weight}" if step.weight else "weight as before"
        weight = f"{carries}, or as the sheet says" if step.open else carries
        table.add_row(Text(step.count, "dim"), foot, Text(way), Text(step.turn), Text(weight, "dim"))
    yield Padding(table, (0, 0, 0, 2), expand=False)
    told = [f"* or: {', '.join(form.ways[1:])}"] if travels and len(form.ways) > 1 else []
    told += [f"the turn: {'; or '.join(form.falls)}"] if form.falls else []
    told += ["open: the name alone may mean another form on these counts"] if form.ambiguous else []
    yield from (Padding(Text(line), (0, 0, 0, 2), expand=False) for line in told)
