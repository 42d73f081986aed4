"""Marks at the steps that a note of the order takes up: the note holds at the line that is marked."""

import pytest

from trainer.problems import loud
from trainer.sheet.reading import read

_PAGE = """Half a Plum
16 counts, 4 walls, weight on L

SECTION 1
1-2  walk fwd R, L
3&4  shuffle fwd R L R
5-6  L rock fwd, recover R
7&8  L coaster step{end}

SECTION 2
1-2  step R fwd, pivot 1/4 left onto L
3&4  R across, L side, R across
5-6  L rock side, recover R
7&8  L behind, R side, L across

{note}
"""

_NOTES = [
    ("(+)", "(+) Wall 3 only: go back to the beginning from here."),
    ("*", "* Restart on wall 3"),
    ("**", "** on the 3rd wall start again"),
    ("(*)", "(*) Wall 3 restarts from this point"),
    ("#", "# = restart, wall 3"),
    ("†", "† Third wall only: begin again."),
    ("[R]", "[R] Restart here on wall 3."),
    ("(a)", "(a) wall 3: start over"),
    ("[1]", "[1] Restart on wall 3."),
    ("<1>", "<1> In wall 3 we stop and restart."),
    ("§", "§: third time through, start again from the top"),
    ("xx", "xx: restart in wall 3"),
    ("*", "Restart: on wall 3 dance as far as * and start again."),
    ("(X)", "Wall 3: stop at (X) and start again."),
    ("(*)", "Wall 3: restart at the mark."),
    ("*", "* Restart on wall 3 after count 8"),
]


@pytest.mark.parametrize("apart", [False, True], ids=["at the line's end", "on its own line"])
@pytest.mark.parametrize(("mark", "note"), _NOTES, ids=[note for _, note in _NOTES])
def test_a_note_holds_at_its_mark(mark: str, note: str, apart: bool) -> None:
    routine, problems = read(_PAGE.format(end=f"\n{mark}" if apart else f"  {mark}", note=note))
    assert not loud(problems)
    assert [(one.passes, [(d.after, d.leave) for d in one.departures]) for one in routine.order] == [
        ((3,), [(8, "restart")])
    ]
    assert len(list(routine.events())) == 20


@pytest.mark.parametrize(
    "note",
    [
        "(+) Wall 3 only: instead of the walks do\n    1-2  stomp R, stomp L",
        "(+) Wall 3 only: no walks. Put in their place\n    1-2  stomp R, stomp L",
        "(+) Wall 3: instead dance\n1-2  stomp R, stomp L",
    ],
)
def test_other_steps_from_the_mark_on(note: str) -> None:
    page = _PAGE.replace("1-2  step R fwd, pivot 1/4 left onto L", "1-2  walk R, L")
    routine, problems = read(page.format(end="  (+)", note=note))
    assert not loud(problems)
    changed = [(d.after, d.first, d.change) for one in routine.order for d in one.departures]
    assert changed == [(10, 9, "Change")]


@pytest.mark.parametrize("end", ["", "  (L)", "  *"])
def test_signs_without_a_note_mark_nothing(end: str) -> None:
    routine, _ = read(_PAGE.format(end=end, note="Restart on wall 3 after 8 counts."))
    assert [d.after for one in routine.order for d in one.departures] == [8]


_ROWS = {"1-2": "R side, L together", "3-4": "R back, touch L", "5-6": "L side, R together", "7-8": "L back, touch R"}


@pytest.mark.parametrize(
    "row",
    [
        "{mark} {count}  {steps}", "{count}{mark}  {steps}", "{count} | {steps} | {mark} | 12",
        "{count}  {steps}  {mark}  (12:00)", "{count}\t{mark}\t{steps}",
    ],
)  # fmt: skip
@pytest.mark.parametrize("mark", ["*", "(#)", "[R]"])
def test_a_mark_anywhere_in_its_row(row: str, mark: str) -> None:
    """A mark may open its row, follow the count or stand in a cell before the last."""
    lines = [row.format(mark=mark if count == "7-8" else "", count=count, steps=one) for count, one in _ROWS.items()]
    again = [row.format(mark="", count=count, steps=one) for count, one in _ROWS.items()]
    note = f"{mark} Wall 3: restart here"
    routine, problems = read("\n".join(["Half a Plum", "16 counts, weight on L", "", *lines, "", *again, "", note]))
    assert not loud(problems)
    assert [(one.passes, [d.after for d in one.departures]) for one in routine.order] == [((3,), [8])]


def test_a_mark_within_a_sentence() -> None:
    """Behind a step of a sentence a mark is of the count before it."""
    steps = (
        "R side (1), L together (2), R back (3), touch L (4) *, L side (5), R together (6), L back (7), touch R (8)."
    )
    routine, _ = read(f"Half a Plum\n8 counts, weight on L\n\n{steps}\n\n* Wall 3: restart here.\n")
    assert [(one.passes, [d.after for d in one.departures]) for one in routine.order] == [((3,), [4])]
