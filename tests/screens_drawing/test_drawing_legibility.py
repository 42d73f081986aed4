"""The floor screen is read from five metres (the next step from three), at every size of window, in one colour."""

import numpy as np
import pytest
from eye import Reader, square_mm
from shown import SIZES, floor, parts

TURNS = (-8, -4, -2, 0, 2, 4, 8)

ALIKE = {
    "count": 0.8,  # 3 and 8
    "foot R L B": 0.85,  # R and B
    "& a e": 0.93,  # a and e
    "arrow": 0.9,
    "dial": 0.97,  # an eighth of turn at the start of the arc
    "dial, dark": 0.97,
    "dial, light": 0.97,
}
"""What two drawings of a part may have in common for an eye of half sight; found by looking at them."""


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_an_eye_of_full_sight_names_everything_at_a_glance(columns: int, rows: int) -> None:
    plan = floor(columns, rows)
    for part in parts(plan, TURNS):
        chance = np.random.default_rng(5)
        reader = Reader(part.drawings, plan.row_mm, square_mm(part.distance_m), places=2)
        assert reader.mistakes(1, chance) == [], part.name


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_what_must_not_be_mistaken_is_far_apart_for_half_sight(columns: int, rows: int) -> None:
    plan = floor(columns, rows)
    for part in parts(plan, TURNS):
        if part.name in ALIKE:
            alike, *pair = Reader(part.drawings, plan.row_mm, square_mm(part.distance_m, 2), places=2).likeness()
            assert alike <= ALIKE[part.name], (part.name, pair)


def test_the_reader_confuses_what_is_too_far_away() -> None:
    plan, chance = floor(80, 24), np.random.default_rng(5)
    count = next(part for part in parts(plan, TURNS) if part.name == "count")
    assert Reader(count.drawings, plan.row_mm, square_mm(100), places=2).mistakes(4, chance)
