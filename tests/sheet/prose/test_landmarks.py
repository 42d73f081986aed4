"""A sheet's own names for the walls of its room, told in many ways (common practice, no source)."""

from fractions import Fraction

import pytest

from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.facing.landmarks import with_landmarks
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.tokens import lines_of

_QUARTERS = (Fraction(0), Fraction(1, 4), Fraction(1, 2), Fraction(3, 4))
_KEYS = (
    "where you look in our hall: stage is 12 oclock, bar is 3, coats is 6, windows is 9",
    "For those away from the Hall, our\nstage is at 12 o'clock, the bar at 3, the coats at 6 and the windows at 9.",
    "12 = stage, 3 = bar, 6 = coats, 9 = windows",
    "I call 12 o'clock the stage, 3 the bar, 6 the coats and 9 the windows.",
    "stage (12), bar (3), coats (6), windows (9)",
    "Stage in front, bar on your right, coats behind you, windows on the left.",
    "Stage = 12:00 / bar = 3:00 / coats = 6:00 / windows = 9:00",
    "STAGE 12, BAR 3, COATS 6, WINDOWS 9",
    "Stage: 12\nBar: 3\nCoats: 6\nWindows: 9",
    "Twelve is the stage; three is the bar; six is the coats; nine is the windows.",
    "Our compass: Stage = 12:00, Bar = 3:00, Coats = 6:00, Windows = 9:00 (where you look when the row is done)",
    "Last column: Stage (12:00), Bar (3:00), Coats (6:00), Windows (9:00), as on the first wall",
    "The stage is the front of the hall,\nthe bar is on your right hand, the coats the back, the windows on your left.",
)
_NO_KEYS = (
    "Walls: first 12, second 3, third 6, fourth 9",
    "Heel 3, toe 6, hook 9",
    "Wall 1 faces 12, wall 2 faces 3, wall 3 faces 6",
    "Verse 12, Chorus 6, Bridge 3",
    "Let 16 counts go by, stage at 12, bar at 12",
    "The bar is at 3, the stage is in front.",
)


def _facings(text: str) -> list[Fraction | None]:
    """The facings that the last line of a text states."""
    lines = [Line(number, tokens, 0) for number, tokens in enumerate(lines_of(text), 1) if tokens]
    return [token.value for token in with_facings(with_landmarks(lines))[-1].tokens if token.kind == "facing"]


@pytest.mark.parametrize("key", _KEYS)
def test_names_of_walls_are_facings(key: str) -> None:
    told = "walk to the stage, now it's the bar, pivot so you've got the coats in front of you (hello, windows)"
    assert _facings(f"{key}\n\n{told}") == list(_QUARTERS)


@pytest.mark.parametrize("text", _NO_KEYS)
def test_other_lists_name_no_walls(text: str) -> None:
    lines = [Line(number, tokens, 0) for number, tokens in enumerate(lines_of(f"{text}\n\nto the bar"), 1) if tokens]
    assert with_landmarks(lines) == tuple(lines)


def test_a_word_of_steps_may_be_a_wall_where_it_stands_alone() -> None:
    key = "Bow = 12:00, Starboard = 3:00, Stern = 6:00, Port = 9:00"
    assert _facings(f"{key}\n\nbow to the crowd, pivot half (Stern), and home: Bow") == [_QUARTERS[2], _QUARTERS[0]]


def test_the_compass_needs_no_key() -> None:
    assert _facings("L forward, pivot half [north], quarter [east], half [west], you face south") == [
        _QUARTERS[0], _QUARTERS[1], _QUARTERS[3], _QUARTERS[2],
    ]  # fmt: skip
    assert _facings("A dance called South Wind") == []
