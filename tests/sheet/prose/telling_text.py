"""What was told, as short lines of text for tables: "2,5: after 16 restart @9:00", "tag Tag (4): stomp R, stomp L"."""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from trainer.dance.facing import clock
from trainer.routine import Departure, Insert, OrderLine
from trainer.sheet.prose.order.grammar.telling import Known, Told
from trainer.sheet.prose.order.told import read_order
from trainer.sheet.prose.text.tokens import lines_of

NOT_UNDERSTOOD = "What is told of the order here was not understood"


def known(counts: int = 32, *, phrase: int = 8, **more: object) -> Known:
    """A dance of so many counts in sections of a phrase each, the last one shorter where it must be."""
    lengths = [min(phrase, counts - start) for start in range(0, counts, phrase)]
    sections = tuple((str(place), length, "") for place, length in enumerate(lengths, 1))
    return Known(phrase=phrase, sections=sections, **more)  # type: ignore[arg-type]


def told_of(text: str, dance: Known) -> Told:
    """Read the lines of a text as order lines."""
    return read_order([line for line in lines_of(text) if line], dance)


def as_text(told: Told) -> list[str]:
    """Everything that was told, a line each."""
    return list(_lines(told))


def _lines(told: Told) -> Iterator[str]:
    if told.play:
        items = [item.name or f"hold {item.counts}" for item in told.play]
        yield "play " + " ".join(items) + (" repeat" if told.repeats else "")
    for line in told.order:
        yield _order(line)
    for inline in told.inlines:
        words = "".join((" " if at and not token.glued else "") + token.text for at, token in enumerate(inline.body))
        length = "" if inline.counts is None else f" ({inline.counts})"
        yield f"{inline.kind} {inline.name}{length}: {words}"
    for problem in told.problems:
        yield f"{problem.level} {problem.line}:{problem.column} {problem.message}"


def _order(line: OrderLine) -> str:
    head = line.part + ",".join(map(str, line.passes))
    if line.starts is not None:
        head += "@" + clock(line.starts)
    departures = " / ".join(_departure(one) for one in line.departures)
    return f"{head}: {departures}" if departures else head


def _departure(one: Departure) -> str:
    words = [f"after {one.after}"]
    if one.before:
        words.append(f"before {one.before}")
    if one.change:
        words = [f"{one.first}-{one.after} become {one.change}"]
    words += [_insert(insert) for insert in one.inserts]
    if one.leave != "continue":
        words.append(one.leave)
    if one.facing is not None:
        words.append("@" + clock(one.facing))
    return " ".join(words)


def _insert(insert: Insert) -> str:
    return f"hold {insert.counts}" if insert.kind == "hold" else f"{insert.kind} {insert.name}"


def rows_of(file: str, *tables: str) -> list[dict[str, Any]]:
    """Return the rows of tables in a TOML file beside this one; there must be some in each."""
    found = tomllib.loads((Path(__file__).parent / file).read_text(encoding="utf-8"))
    assert all(found[table] for table in tables)
    return [row for table in tables for row in found[table]]
