"""What a teacher notes at the end of a row of steps, about the order: the steps stay, and the note is read."""

import pytest

from tests.sheet.prose.tables_made import WANT, danced
from trainer.sheet.reading import read

_STROKES = """
1, 2   | step R fwd, step L fwd
3&4    | shuffle fwd R L R
5, 6   | rock L fwd, recover R
7&8    | L coaster step   {note}
1, 2   | step R fwd, pivot 1/4 left onto L
3&4    | cross shuffle R L R
5, 6   | rock L side, recover R
7&8    | L behind, R side, L across
"""
_ROWS = _STROKES.replace("|", " ")
_BARS = """
bar 1  1 2 3&4   step R fwd, step L fwd, shuffle fwd R L R
bar 2  5 6 7&8   rock L fwd, recover R, L coaster step     {note}
bar 3  1 2 3&4   step R fwd, pivot 1/4 left onto L, cross shuffle R L R
bar 4  5 6 7&8   rock L side, recover R, L behind, R side, L across
"""
_NOTES = (
    (_BARS, "<- wall 3 restarts here"),
    (_BARS, "-- on wall 3 start again here"),
    (_ROWS, "restart!! (wall 3)"),
    (_ROWS, "<--- RESTART (3rd wall)"),
    (_STROKES, "-> wall 3 restarts"),
    (_STROKES, "wall 3 stops here and restarts"),
    (_STROKES, "restart!! (wall 3)"),
    (_STROKES, "♦ Restart on 3rd wall here"),
)


@pytest.mark.parametrize(("page", "note"), _NOTES)
def test_a_note_at_the_end_of_a_row(page: str, note: str) -> None:
    text = "Half a Plum\n16 counts, 4 walls. Weight on left.\n" + page.format(note=note)
    events, warnings = danced(text)
    assert (events, warnings) == (WANT, ())
    departures = [(line.passes, one.after, one.leave) for line in read(text)[0].order for one in line.departures]
    assert departures == [((3,), 8, "restart")]
