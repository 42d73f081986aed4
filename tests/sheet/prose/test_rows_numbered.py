"""Rows of steps may be numbered on, with their counts at the end; the numbers count nothing."""

import pytest

from trainer.problems import loud
from trainer.sheet.reading import read

_ROWS = (
    ("R side, L together, R side, touch L", "1 2 3 4"), ("L side, R together, L side, touch R", "5 6 7 8"),
    ("walk forward R, L, R, touch L", "1 2 3 4"), ("walk back L, R, L, touch R", "5 6 7 8"),
)  # fmt: skip


@pytest.mark.parametrize("number", ["{}.", "({})", "#{}"])
@pytest.mark.parametrize("counts", ["   Counts {}", ".   Counts {}", " ({})", "\t{}", " | cts. {}"])
def test_numbers_of_rows(number: str, counts: str) -> None:
    rows = [f"{number.format(at)}  {words}{counts.format(own)}" for at, (words, own) in enumerate(_ROWS, 1)]
    routine, problems = read("\n".join(["Teacups", "16 counts, weight on L", "", *rows]))
    assert not loud(problems)
    events = [event for part in routine.parts for section in part.sections for event in section.events]
    assert "".join(str(event.weight) for event in events) == "RLRRLRLLRLRRLRLL"
