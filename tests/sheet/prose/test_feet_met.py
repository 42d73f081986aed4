"""A foot that another one crosses or touches is no step of its own."""

import pytest

from trainer.sheet.prose.habits.feet_met import with_feet_met
from trainer.sheet.prose.text.layout import clean_lines


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ("R crosses L, L side", "R crosses over L , L side"),
        ("left touches right, hold", "left touches beside right , hold"),
        ("L crosses R and rocks, recover R", "L rocks over R , recover R"),
        ("R crosses L side", "R crosses L side"),
        ("R crosses over L", "R crosses over L"),
        ("L crosses, R side", "L crosses , R side"),
    ],
)
def test_feet_that_meet(typed: str, told: str) -> None:
    (line,) = with_feet_met(clean_lines(typed))
    assert " ".join(token.text for token in line.tokens) == told
