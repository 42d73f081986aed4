"""Order lines: which walls, where they depart, and what is danced there."""

import pytest
from sheets import problems, routine, sheet

from trainer.dance.facing import clock
from trainer.routine import OrderLine
from trainer.sheet.fair_order import order_lines


def order(*lines: str) -> tuple[OrderLine, ...]:
    return routine(sheet("== 1", "1-2 hold, hold", "== order", *lines)).order


def told(line: OrderLine) -> str:
    """An order line as the program writes it, without its column of cues."""
    *_, written = order_lines(routine(sheet("== 1", "1 hold")).but(order=(line,)))
    return " ".join(written.split())


@pytest.mark.parametrize(
    ("line", "passes", "part", "why"),
    [
        ("wall 3: after 1, restart", (3,), "", "one wall"),
        ("walls 6 and 7: after 1, restart", (6, 7), "", "two"),
        ("walls 2, 4 and 6: after 1, restart", (2, 4, 6), "", "more"),
        ("walls 2-4: after 1, restart", (2, 3, 4), "", "a run of walls"),
        ("Wall 3 : after 1, restart", (3,), "", "capitals and blanks make no difference"),
        ("third A: after 1, restart", (3,), "A", "the third dancing of a part"),
        ("second and fourth B: after 1, next", (2, 4), "B", "the second and fourth"),
        ("first, 2nd and 13th B: after 1, next", (1, 2, 13), "B", "with numbers"),
        ('third "Long Way": after 1, next', (3,), "Long Way", "a name with a blank"),
        ('third "tenth": after 1, next', (3,), "tenth", "a name that is a number"),
    ],
)
def test_which_walls(line: str, passes: tuple[int, ...], part: str, why: str) -> None:
    (found,) = order(line)
    assert (found.passes, found.part) == (passes, part), why


LINES = [
    "wall 3: after 16, restart",
    "wall 3: after 16, restart @6:00",
    "wall 3: after 16, restart @1/7",
    "wall 3, starts 6:00: after 16, restart",
    "wall 3, starts 6:00, squared up 1/8 right: after 16, restart",
    "wall 4, starts 9:00",
    "wall 4 cue: the drum stops",
    "wall 4, starts 9:00 cue: the drum stops: listen / wait",
    "wall 3: after 16, tag Lantern, continue",
    "wall 3: after 16, tag Lantern, hold 2, bridge Wait, ending Bow, end",
    'wall 3: after 16, tag "Long / Way", continue',
    "wall 5: after 19 before &, bridge Wait, continue / after 28, hold 2, continue cue: so",
    "wall 5: after 19 before 4, next",
    "walls 2, 3 and 7: counts 15-16 become change Lamp, restart",
    "wall 3: count 16 becomes change Lamp, continue @12:00",
    "wall 3: counts 15-16 become change Lamp before &, tag A, restart",
    "third A: after 16, next",
    'second and thirteenth "hold": after 16, next'.replace("thirteenth", "13th"),
]


@pytest.mark.parametrize("line", LINES)
def test_a_line_is_told_as_it_is_read(line: str) -> None:
    (found,) = order(line)
    assert told(found) == line


def test_what_a_line_says() -> None:
    (found,) = order(
        "wall 5, starts 9:00: after 19 before &, bridge Wait, continue @3:00 / counts 5-6 become change Lamp, end"
    )
    first, second = found.departures
    assert (first.after, first.before, first.leave, first.change) == (19, "&", "continue", "")
    assert [(one.kind, one.name) for one in first.inserts] == [("bridge", "Wait")]
    assert first.facing is not None
    assert found.starts is not None
    assert (clock(first.facing), clock(found.starts)) == ("3:00", "9:00")
    assert (second.first, second.after, second.change, second.leave) == (5, 6, "Lamp", "end")


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("wall 3: after 2", "its last count"),
        ("wall 3: after 2, tag A", "with a tag"),
        ("wall 3: after 2 counts, hold 2 counts", "in more words"),
    ],
)
def test_at_the_last_count_the_wall_goes_on_of_itself(line: str, why: str) -> None:
    (found,) = order(line)
    assert found.departures[0].leave == "continue", why


def test_elsewhere_what_follows_must_be_said() -> None:
    text = sheet("== 1", "1-2 hold, hold", "== order", "wall 3: after 1, tag A")
    assert problems(text) == [
        "5:9 error order: What follows after count 1?"
        " | Write continue, restart, next or end; only at the wall's last count it may be left out."
    ]


def test_in_a_part_the_last_count_is_the_parts() -> None:
    body = ("== part A", "== 1", "1 hold", "== part B", "== 1", "1-2 hold, hold", "== order")
    assert problems(sheet(*body, "first A: after 1", "first B: after 2")) == []
    assert len(problems(sheet(*body, "first B: after 1"))) == 1


@pytest.mark.parametrize(
    ("line", "found"),
    [
        ("wall 3: after 1 restart", '5:17 error order: A comma is missing before "restart".'),
        ("wall 3: after 1, tag Bell restart", '5:27 error order: A comma is missing before "restart".'),
        ("wall 3: after 1 tag Bell, restart", '5:17 error order: A comma is missing before "tag".'),
        ("wall 3: counts 1-1 become change Lamp restart", '5:39 error order: A comma is missing before "restart".'),
        ("wall 3: after 1 before & hold 2, restart", '5:26 error order: A comma is missing before "hold".'),
    ],
)
def test_a_missing_comma_is_named_and_the_line_is_read_as_if_it_stood_there(line: str, found: str) -> None:
    text = sheet("== 1", "1-2 hold, hold", "== order", line)
    assert problems(text) == [found]


def test_a_departure_that_cannot_be_read_leaves_the_others() -> None:
    from trainer.sheet.reading import read

    found, faults = read(sheet("== 1", "1-2 hold, hold", "== order", "wall 3: before 1 / after 1, restart"))
    assert len(faults) == 1
    assert [one.after for one in found.order[0].departures] == [1]
