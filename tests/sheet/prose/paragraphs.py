"""Paragraphs about the order and the extras, each set into one of four dances and held against what is danced.

A paragraph's truth is a dict: `on` the dance, `text`, and `walls` (how many are danced), with `puts` [wall, after so
many counts, events], `cuts` [wall, counts danced], `changes` [wall, first, last, events, "" or "restart"], `end`
[wall, counts danced, events]; of the dance in parts `play` and `extras`. Events are [count, foot, weight after].
"""

from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any

from trainer.dance.rows import as_rows
from trainer.dance.unroll import unroll
from trainer.problems import loud
from trainer.routine import Routine
from trainer.sheet.opening import opened

FOLDER = Path(__file__).parents[2] / "data" / "paragraphs"

Event = list[Any]


def read(on: str, text: str, *, above: bool = False) -> Routine:
    """Return the routine of a dance with a paragraph below it, or above; a sound one has no findings."""
    dance = (FOLDER / "dances" / f"{on}.txt").read_text(encoding="utf-8")
    if above:
        head, steps = dance.replace("@@", "").split("\n\n", 1)
        dance = f"{head}\n\n@@\n\n{steps}"
    sheet = opened(Path("sheet.txt"), dance.replace("@@", text))
    assert not loud(sheet.problems), [problem.message for problem in loud(sheet.problems)]
    return sheet.routine


def danced(routine: Routine, walls: int) -> list[list[Event]]:
    """Return the events of the first walls."""
    found: list[list[Event]] = [[] for _ in range(walls)]
    for row in as_rows(unroll(routine, walls), routine.tempo):
        if row["wall"] <= walls:
            found[row["wall"] - 1].append([row["count"], row["foot"] or "?", row["weight"]])
    return found


@cache
def _main(on: str) -> tuple[list[Event], ...]:
    """The events of a dance as it stands, or of its two parts; the dance told in prose is the first."""
    plain = "K1" if on == "K2" else on
    in_parts = plain == "K4"
    return tuple(danced(read(plain, "Order: A, B" if in_parts else ""), 2 if in_parts else 1))


def wanted(truth: Mapping[str, Any]) -> list[list[Event]]:
    """Return the events of each wall, or part, of a paragraph's truth."""
    if "play" in truth:
        return _played(truth)
    end = truth.get("end")
    return [list(_wall(truth, wall)) for wall in range(1, (end[0] if end else truth["walls"]) + 1)]


def _played(truth: Mapping[str, Any]) -> list[list[Event]]:
    parts = dict(zip("AB", _main(truth["on"]), strict=True))
    found: list[list[Event]] = []
    for item in truth["play"]:
        if isinstance(item, str) and item.startswith("+"):
            found = found or [[]]
            found[-1] = found[-1] + truth["extras"][item[1:]]
        else:
            found.append(list(parts[item]) if isinstance(item, str) else parts[item[0]][: item[1]])
    return found


def _wall(truth: Mapping[str, Any], wall: int) -> Iterator[Event]:
    main, end = _main(truth["on"])[0], truth.get("end")
    last = dict(map(tuple, truth.get("cuts", []))).get(wall, len(main))
    if end and wall == end[0]:
        last = end[1]
    changes = [one for one in truth.get("changes", []) if one[0] == wall]
    for count in range(last + 1):
        for _, _, events in (one for one in truth.get("puts", []) if one[:2] == [wall, count]):
            yield from events
        change = next((one for one in changes if one[1] <= count + 1 <= one[2]), None)
        if change is not None and count < last:
            yield from change[3] if count + 1 == change[1] else ()
            if count + 1 == change[2] and change[4] == "restart":
                return
        elif count < last:
            yield main[count]
    if end and wall == end[0]:
        yield from end[2]


def alike(one: list[Event], other: list[Event]) -> bool:
    """Whether events are the same: counts called on from the wall are, and whose foot it is where none takes weight."""
    return len(one) == len(other) and all(map(_same, one, other))


def _same(one: Event, other: Event) -> bool:
    count = one[0] == other[0] or (one[0].isdigit() and other[0].isdigit())
    free = {one[1], other[1]} <= {"-", "R", "L", "B"} and one[2] is not None
    return count and (one[1] == other[1] or free) and one[2] == other[2]
