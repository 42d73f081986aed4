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
