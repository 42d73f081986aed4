from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.screens import blocks
from trainer.screens.room import Region, Regions, TooSmall, minutes_of_arc, plan

# ISO 9241-303: letters at least 16 minutes of arc high, 20 to 22 preferred.
LEAST, PREFERRED = 16, 20

windows = {"columns": st.integers(80, 400), "rows": st.integers(24, 130), "height_mm": st.floats(60, 1500)}


def floor(columns: int, rows: int, height_mm: float = 165) -> Regions:
    regions = plan(columns, rows, height_mm=height_mm)
    assert isinstance(regions, Regions)
    return regions


@pytest.mark.parametrize(
    ("mm", "metres", "minutes"),
    [
        (1.4544, 5, 1),  # one minute at five metres, from the definition
        (17.45, 3, 20),  # 17 mm at 3 m
        (29.09, 5, 20),  # 29 mm at 5 m
    ],
)
def test_minutes_of_arc(mm: float, metres: float, minutes: float) -> None:
    assert minutes_of_arc(mm, metres) == pytest.approx(minutes, rel=1e-3)


@pytest.mark.parametrize(
    ("columns", "rows", "count", "sub", "dial", "amount", "next_step", "departure", "last_four"),
    [
        # rounded minutes of arc: all at 5 m, the next step at 3 m
        (80, 24, 52, 38, 52, 17, 35, 19, 21),
        (100, 30, 49, 34, 49, 17, 35, 19, 21),
        (120, 40, 48, 31, 48, 17, 35, 17, 21),
        (200, 60, 49, 32, 49, 17, 35, 17, 24),
        (240, 63, 49, 32, 49, 18, 36, 18, 23),  # a full screen of 16:9
    ],
)
def test_minutes_of_arc_of_each_part(
    columns: int,
    rows: int,
    count: int,
    sub: int,
    dial: int,
    amount: int,
    next_step: int,
    departure: int,
    last_four: int,
) -> None:
    regions = floor(columns, rows)
    assert [
        round(regions.minutes(regions.count.height / 2)),
        round(regions.minutes(regions.sub.height / 2)),
        round(regions.minutes(regions.dial.height / 2)),
        round(regions.minutes(regions.amount.height / 2)),
        round(regions.minutes(regions.next.height / 2, 3)),
        round(regions.minutes(regions.departure.height / 2)),
        round(regions.minutes(blocks.slab_height(regions.slab.rows, regions.slab.below) / 2)),
    ] == [count, sub, dial, amount, next_step, departure, last_four]


@pytest.mark.parametrize("rows", range(24, 130))
def test_every_window_of_165_mm_can_be_read(rows: int) -> None:
    regions = floor(8 * rows // 3 if rows > 30 else 80, rows)
    assert regions.minutes(regions.count.height / 2) >= PREFERRED
    assert regions.minutes(regions.next.height / 2, 3) >= PREFERRED
    assert regions.minutes(blocks.slab_height(regions.slab.rows, regions.slab.below) / 2) >= PREFERRED
    assert regions.minutes(regions.departure.height / 2) >= LEAST
    assert regions.minutes(regions.end_clock.height / 2) >= 0.95 * LEAST  # the dial says the same


@settings(max_examples=150, deadline=None)
@given(**windows)
def test_regions_stay_inside_and_do_not_overlap(columns: int, rows: int, height_mm: float) -> None:
    regions = floor(columns, rows, height_mm)
    for name, region in [*regions.parts().items(), ("slab", regions.slab)]:
        assert region.columns > 0, name
        assert region.height > 0, name
        assert region.left >= 0, name
        assert region.top >= 0, name
        assert region.right <= columns, name
        assert region.bottom <= rows, name
    for (one, first), (other, second) in combinations(regions.parts().items(), 2):
        assert not first.overlaps(second), (one, other)


@settings(max_examples=80, deadline=None)
@given(**windows)
def test_the_slab_takes_the_place_of_the_next_step_and_the_rule_only(columns: int, rows: int, height_mm: float) -> None:
    regions = floor(columns, rows, height_mm)
    assert {name for name, region in regions.parts().items() if region.overlaps(regions.slab)} == {"next", "rule"}
    assert regions.slab.columns == columns


@settings(max_examples=80, deadline=None)
@given(**windows)
def test_what_must_fit_fits_in_every_window(columns: int, rows: int, height_mm: float) -> None:
    regions = floor(columns, rows, height_mm)
    for text, region in (
        ("10:30", regions.end_clock),
        ("1 1/2", regions.amount),
        ("RESTART 16", regions.departure),
        ("12:00", regions.departure_clock),
        ("H" * 13, regions.next),
        ("R", Region(0, 0, regions.foot_left.columns, regions.foot_left.rows // 2)),
        ("8", regions.count),
        ("&", regions.sub),
    ):
        assert blocks.fits(text, columns=region.columns, rows=region.rows, height=region.height), text


@pytest.mark.parametrize(("columns", "rows"), [(80, 24), (100, 30), (120, 40), (200, 60)])
def test_air_round_foot_count_turn_and_departure(columns: int, rows: int) -> None:
    regions = floor(columns, rows)
    assert regions.count.left - regions.foot_left.right >= 2
    assert regions.foot_right.left - regions.amount.right >= 2
    assert regions.departure_clock.left - regions.departure.right >= 6
    # A half-row at least between the letters of the next step and the rule, and between the rule and the departure.
    assert 2 * (regions.rule.top - regions.next.bottom) + regions.next.below >= 1
    assert regions.rule.below == 1
    assert 2 * (regions.arrow.top - regions.amount.bottom) + regions.amount.below + regions.arrow.inset >= 1
    assert 2 * (regions.end_clock.top - regions.arrow.bottom) + regions.arrow.below + regions.end_clock.inset >= 1


@pytest.mark.parametrize(
    ("rows", "blocks_for_now"),
    [(24, False), (30, False), (36, False), (40, True), (60, True)],  # from 40 rows on there is room
)
def test_the_step_now_stands_in_blocks_where_there_is_room(rows: int, blocks_for_now: bool) -> None:
    assert floor(120, rows).now_in_blocks is blocks_for_now


def test_a_lower_window_gives_its_spare_rows_to_what_must_be_read() -> None:
    usual, low = floor(120, 40), floor(120, 40, height_mm=120)
    assert low.next.height * low.row_mm >= 2 * 30 * 0.95
    assert low.next.rows > usual.next.rows
    assert low.departure.rows > usual.departure.rows
    assert low.now.rows == 1


def test_a_taller_window_shows_the_same_larger() -> None:
    usual, tall = floor(120, 40), floor(120, 40, height_mm=300)
    assert tall.parts() == usual.parts()
    assert tall.minutes(1) == pytest.approx(300 / 165 * usual.minutes(1), rel=0.02)


def test_a_cell_is_eight_by_seventeen() -> None:
    regions = floor(80, 24)
    assert regions.row_mm == pytest.approx(6.875)
    assert regions.column_mm == pytest.approx(6.875 * 8 / 17)


@pytest.mark.parametrize(("columns", "rows"), [(79, 24), (80, 23), (1, 1), (300, 10)])
def test_too_small_says_so(columns: int, rows: int) -> None:
    small = plan(columns, rows)
    assert small == TooSmall(columns, rows)
    assert str(small) == f"This window is {columns} x {rows}. The floor screen needs 80 x 24: make it larger."
