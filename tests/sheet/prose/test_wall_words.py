"""A sheet's own short words for the walls."""

from fractions import Fraction

import pytest

from trainer.sheet.prose.habits.wall_words import with_wall_words
from trainer.sheet.prose.text.layout import clean_lines


def _clocks(text: str) -> list[tuple[str, Fraction | None]]:
    last = with_wall_words(clean_lines(text))[-1]
    return [(token.text, token.value) for token in last.tokens if token.kind == "clock"]


@pytest.mark.parametrize(
    ("key", "words", "expected", "why"),
    [
        ("FW = front wall (12:00), RW = right wall (3:00)", "step L RW", [("RW", Fraction(1, 4))], "by its clock"),
        ("FW = front wall, BW = back wall", "step L BW", [("BW", Fraction(1, 2))], "by its name"),
        ("BW: the back wall; FW: the front wall", "step L BW", [("BW", Fraction(1, 2))], "with colons"),
        ("RF = right foot, LF = left foot", "step LF", [], "feet are no walls"),
        ("FW = front wall, BW = back wall", "step L fw", [], "in capitals only"),
        ("FW = forward", "step L FW", [], "no wall is named"),
        ("F.W. is the front wall, B.W. the back wall", "half turn (B.W.)", [("B.W.", Fraction(1, 2))], "in a sentence"),
        (
            "F.W. is the front wall, R.W. and L.W. the walls\nto the right and to the left of one who faces the front",
            "quarter L.W.",
            [("L.W.", Fraction(3, 4))],
            "two share their sides",
        ),
        ("FW means the front wall and BW means the back wall", "step BW", [("BW", Fraction(1, 2))], "by a verb"),
        ("RF is the right foot. LF is next to the left wall", "step LF", [], "one wall alone is no key"),
    ],
)
def test_own_words(key: str, words: str, expected: list[tuple[str, Fraction]], why: str) -> None:
    assert _clocks(f"{key}\n\n{words}") == expected, why


def test_the_key_itself_stays() -> None:
    key = "FW = front wall (12:00), BW = back wall (6:00)"
    assert [text for text, _ in _clocks(key)] == ["12:00", "6:00"]
