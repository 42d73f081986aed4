"""Extras headed by a plain word, and rows by themselves in a table whose first column holds hours."""

import pytest

from tests.sheet.prose.tables_made import WANT, danced
from trainer.sheet.reading import read

_PAGE = """Half a Plum, 16 counts, 4 walls, weight on left.

1-2 step R fwd, step L fwd
3&4 shuffle fwd R L R
5-6 rock L fwd, recover R
7&8 L coaster step

1-2 step R fwd, pivot 1/4 left onto L
3&4 cross shuffle R L R
5-6 rock L side, recover R
7&8 L behind, R side, L across

{extra}
1-2 R side, touch L
3-4 L side, touch R

{end}
1-2 stomp R, hold

Wall 2: extra at the end. Wall 5: after 8 counts the end.
"""
_TABLE = """Half a Plum, 16 counts, 4 walls, weight on left.

LOOK   BEAT     FEET

12     1 2      R front, L front
12     3 & 4    R front, L beside R, R front
12     5 6      L rock front, R recover
12     7 & 8    L back, R beside L, L front

12     1 2      R front, 1/4 pivot left onto L (9:00)
9      3 & 4    R cross, L side, R cross
9      5 6      L rock side, R recover
9      7 & 8    L behind, R side, L cross

END (2)
9      1 2      R stomp, hold

Wall 5 is the last: all of it, then the end.
"""


@pytest.mark.parametrize(
    ("extra", "end"), [("EXTRA (4)", "END (2)"), ("Extra (4 counts)", "End (2 counts)"), ("EXTRA [4]", "END [2]")]
)
def test_extras_headed_by_a_plain_word(extra: str, end: str) -> None:
    text = _PAGE.format(extra=extra, end=end)
    assert danced(text) == (WANT, ())
    told = [
        (line.passes, one.after, [insert.kind for insert in one.inserts], one.leave)
        for line in read(text)[0].order
        for one in line.departures
    ]
    assert told == [((2,), 16, ["tag"], "continue"), ((5,), 8, ["ending"], "end")]


def test_a_row_by_itself_has_its_hour_in_the_first_column() -> None:
    routine, _ = read(_TABLE)
    assert danced(_TABLE)[0] == WANT
    assert [(event.label, str(event.foot)) for event in routine.extras[0].events] == [("1", "R"), ("2", "-")]
