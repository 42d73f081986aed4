from cmath import phase
from fractions import Fraction
from itertools import product
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.screens import dial, pixels
from trainer.screens.dial import Part

SIZES = ((22, 11), (27, 13), (33, 17), (55, 26))
EIGHTHS = [Fraction(number, 8) for number in range(8)]
TURNS = [Fraction(number, 8) for number in (-10, -8, -6, -4, -3, -2, -1, 1, 2, 3, 4, 6, 8, 10)]

facings = st.fractions(0, 1, max_denominator=16)
turns = st.fractions(-3, 3, max_denominator=8)


def places(part: Part, columns: int, rows: int, facing: Fraction, turn: Fraction, screen: Fraction) -> list[complex]:
    """Return where a part has pixels, seen from the middle of the ring: 1 is up, 1j right."""
    dots = dial._dots(columns, rows, (facing - screen) % 1, turn, -screen % 1)
    radius = min(8 * columns, 17 * rows - 8.5 * max(1, round(rows / 11))) / 2
    middle = max(1, round(rows / 11)) + 2 * radius / 8.5 // 0.5 * 0.25
    return [
        complex((middle - y - 0.5) * 8.5, (x + 0.5 - columns) * 4) / radius
        for y, row in enumerate(dots)
        for x, dot in enumerate(row)
        if dot is part
    ]


def apart(one: float, other: float) -> float:
    """Return the angle between two directions, in turns."""
    return abs((one - other + 0.5) % 1 - 0.5)


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_the_body_points_where_it_faces(columns: int, rows: int) -> None:
    for facing, screen in product([Fraction(number, 16) for number in range(16)], EIGHTHS[::2]):
        body = places(Part.BODY, columns, rows, facing, Fraction(0), screen)
        tip = max(body, key=abs)
        assert apart(phase(tip) / (2 * pi), float(facing - screen)) < 0.03, (facing, screen)


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_the_screen_is_the_bar_at_the_top_and_the_front_moves_when_the_room_is_turned(columns: int, rows: int) -> None:
    for screen in EIGHTHS:
        assert dial.render(columns, rows, facing=Fraction(0), turn=Fraction(0), screen=screen)[0].strip()
        bar = places(Part.SCREEN, columns, rows, Fraction(0), Fraction(0), screen)
        assert all(place.real > 0.99 for place in bar)
        front = places(Part.FRONT, columns, rows, Fraction(0), Fraction(0), screen)
        assert apart(phase(sum(front)) / (2 * pi), -float(screen)) < 0.02
        assert all(0.75 < abs(place) < 1.1 for place in front)


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_the_arc_goes_from_the_facing_to_the_end_of_the_turn(columns: int, rows: int) -> None:
    for facing, turn in product(EIGHTHS, TURNS):
        arc = places(Part.TURN, columns, rows, facing, turn, Fraction(0))
        angles = [phase(place) / (2 * pi) for place in arc]
        length = min(abs(float(turn)), 0.9)
        # The way from the end back to the facing, against the turn.
        back = [(float(facing + turn) - angle) * (1 if turn > 0 else -1) % 1 for angle in angles]
        back = [share - 1 if share > 0.975 else share for share in back]
        # A head has straight edges: its base may reach a little past the tail of a very short turn.
        assert all(share < length + 0.03 for share in back), (facing, turn)
        for step in range(1, int(length * 40)):
            assert any(abs(share - step / 40) < 0.025 for share in back), (facing, turn, step)


@pytest.mark.parametrize(("columns", "rows"), SIZES)
@pytest.mark.parametrize("turn", [Fraction(1), Fraction(-1), Fraction(3, 2), Fraction(-2)])
def test_a_whole_turn_stays_open_just_behind_its_end(columns: int, rows: int, turn: Fraction) -> None:
    for facing in EIGHTHS:
        ahead = [
            (phase(place) / (2 * pi) - float(facing + turn)) * (1 if turn > 0 else -1) % 1
            for part in (Part.TURN, Part.RING)
            for place in places(part, columns, rows, facing, turn, Fraction(0))
        ]
        assert not any(0.015 < share < 0.07 for share in ahead), facing
        assert sum(share > 0.9 for share in ahead) > 5, "the head comes up to the end"


def test_the_head_is_wider_than_the_arc() -> None:
    arc = places(Part.TURN, 55, 26, Fraction(0), Fraction(1, 2), Fraction(0))

    def width(at: float) -> float:
        across = [abs(place) for place in arc if apart(phase(place) / (2 * pi), at) < 0.01]
        return max(across) - min(across)

    assert width(0.4) > 1.7 * width(0.25)


@pytest.mark.parametrize(("columns", "rows"), SIZES)
def test_no_turn_has_no_arc_and_the_front_shows_under_every_arc(columns: int, rows: int) -> None:
    for facing in EIGHTHS:
        assert not places(Part.TURN, columns, rows, facing, Fraction(0), Fraction(0))
        for turn in TURNS:
            assert len(places(Part.FRONT, columns, rows, facing, turn, Fraction(1, 4))) >= 3, (facing, turn)


@settings(max_examples=60, deadline=None)
@given(facing=facings, turn=turns, screen=facings, size=st.sampled_from(SIZES))
def test_left_is_the_mirror_image_of_right(
    facing: Fraction, turn: Fraction, screen: Fraction, size: tuple[int, int]
) -> None:
    right = pixels.picture(dial.render(*size, facing=facing, turn=turn, screen=screen))
    left = pixels.picture(dial.render(*size, facing=-facing % 1, turn=-turn, screen=-screen % 1))
    assert [row[::-1] for row in left] == right


@settings(max_examples=40, deadline=None)
@given(facing=facings, turn=turns, screen=facings, size=st.sampled_from([*SIZES, (1, 1), (5, 30), (80, 3)]))
def test_painted_has_the_size_and_the_glyphs_of_render(
    facing: Fraction, turn: Fraction, screen: Fraction, size: tuple[int, int]
) -> None:
    plain = dial.render(*size, facing=facing, turn=turn, screen=screen)
    assert [len(line) for line in plain] == [size[0]] * size[1]
    for line, runs in zip(plain, dial.painted(*size, facing=facing, turn=turn, screen=screen), strict=True):
        assert sum(len(run.text) for run in runs) == size[0]
        assert all(run.part for run in runs if run.text.strip())
        at = 0
        for run in runs:
            assert (run.part is None) == (line[at : at + len(run.text)].strip() == "")
            at += len(run.text)


def test_two_parts_that_fill_a_cell_are_its_glyph_and_its_ground() -> None:
    top = dial.painted(22, 11, facing=Fraction(0), turn=Fraction(0))[0]
    assert [(run.text, run.part, run.behind) for run in top] == [
        ("▀▀▀▀▀▀▀▀▀", Part.SCREEN, None),
        ("▄▄▄▄", Part.FRONT, Part.SCREEN),
        ("▀▀▀▀▀▀▀▀▀", Part.SCREEN, None),
    ]


class TestArrow:
    def test_it_points_to_the_side_it_stands_at(self) -> None:
        left = dial.turn_arrow(12, 3, turn=Fraction(-1, 4))
        assert left == ["  ▄▟▌       ", "███████████▌", "  ▀▜▌       "]
        mirrored = [line[::-1].translate(str.maketrans("▟▜▌", "▙▛▐")) for line in left]
        assert dial.turn_arrow(12, 3, turn=Fraction(1, 8)) == mirrored

    def test_no_turn_is_blank(self) -> None:
        assert dial.turn_arrow(4, 2, turn=Fraction(0)) == ["    ", "    "]

    def test_half_rows_are_kept_blank(self) -> None:
        picture = pixels.picture(dial.turn_arrow(30, 5, turn=Fraction(1), inset=1, below=2))
        assert [y for y, row in enumerate(picture) if any(row)] == list(range(1, 8))
