"""Eights told apart by letters or numbers in a make of the sheet's own are sections, in headings and in the order."""

import pytest

from tests.sheet.prose.tables_made import WANT, danced
from trainer.sheet.reading import read

_PAGE = """Pebble Lane - 24 counts - 4 walls - improver. In on 16, weight L

{first}: 1 2 walk R L / 3&4 R shuffle fwd
    5 6 L rock fwd, rec R / 7&8 L coaster
{second}: 1 2 R fwd, pivot 1/4 L (9.00) / 3&4 R cross shuffle
    5 6 L rock side, rec R / 7&8 L behind, R side, L cross
{third}: 1 2 R side, L tch / 3 4 L side, R tch
    5 6 R side, L tch / 7 8 L side, R tch

Wall 3: {first} + {second}, restart
"""


@pytest.mark.parametrize(
    ("first", "second", "third"),
    [
        ("8a", "8b", "8c"),
        ("8-A", "8-B", "8-C"),
        ("a8", "b8", "c8"),
        ("8.1", "8.2", "8.3"),
        ("8ct #1", "8ct #2", "8ct #3"),
        ("#1", "#2", "#3"),
        ("8i", "8ii", "8iii"),
    ],
)
def test_eights_with_a_mark_of_their_own(first: str, second: str, third: str) -> None:
    text = _PAGE.format(first=first, second=second, third=third)
    events, warnings = danced(text)
    assert (events[: len(WANT)], warnings) == (WANT, ())
    told = [(line.passes, one.after, one.leave) for line in read(text)[0].order for one in line.departures]
    assert told == [((3,), 16, "restart")]
