"""The order of a routine as a fair copy writes it."""

from collections.abc import Iterator

from trainer.routine import Departure, Insert, OrderLine, Routine
from trainer.sheet.headings import name_told
from trainer.sheet.order import ORDINALS
from trainer.sheet.stated import facing_told, turn_told
from trainer.sheet.texts import told


def order_lines(routine: Routine) -> Iterator[str]:
    """Yield the lines of the order, with its heading."""
    if routine.order:
        yield from ("", "== order")
    for line in routine.order:
        yield _line(line)


def _line(line: OrderLine) -> str:
    head = _subject(line)
    if line.starts is not None:
        head += f", starts {facing_told(line.starts)}"
    if line.squared:
        head += f", squared up {turn_told(line.squared)}"
    if line.departures:
        head += f": {' / '.join(_departure(departure) for departure in line.departures)}"
    return f"{head:<60}  cue: {told(line.cue)}" if line.cue else head


def _subject(line: OrderLine) -> str:
    """Return "wall 3", "walls 2, 4 and 6" or "second and third A"."""
    if line.part:
        return f"{_listed([_ordinal(number) for number in line.passes])} {name_told(line.part)}"
    return f"wall{'s' * (len(line.passes) > 1)} {_listed([str(number) for number in line.passes])}"


def _listed(words: list[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))


def _ordinal(number: int) -> str:
    return ORDINALS[number - 1] if 1 <= number <= len(ORDINALS) else f"{number}th"


def _departure(departure: Departure) -> str:
    if departure.change:
        same = departure.first == departure.after
        counts = f"count {departure.after} becomes" if same else f"counts {departure.first}-{departure.after} become"
        place = f"{counts} change {name_told(departure.change)}"
    else:
        place = f"after {departure.after}"
    if departure.before is not None:
        place += f" before {departure.before}"
    words = ", ".join((place, *(_insert(insert) for insert in departure.inserts), departure.leave))
    return f"{words} @{facing_told(departure.facing)}" if departure.facing is not None else words


def _insert(insert: Insert) -> str:
    return f"hold {insert.counts}" if insert.kind == "hold" else f"{insert.kind} {name_told(insert.name)}"
