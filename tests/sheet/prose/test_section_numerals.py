"""Sections headed by a numeral or "No. 2" are named so where the order is told."""

import pytest

from tests.sheet.prose.paragraphs import FOLDER
from trainer.sheet.reading import read

DANCE = (FOLDER / "dances" / "K1.txt").read_text(encoding="utf-8")
ROMAN = ("I", "II", "III", "IV")


@pytest.mark.parametrize(
    ("numerals", "told"),
    [
        (ROMAN, "The third wall is I and II only."),
        (ROMAN, "* The **third wall** is I and II only; start again from where you stand."),
        (ROMAN, "On wall 3 leave out III and IV."),
        (ROMAN, "Restart on wall 3 after II."),
        (tuple(f"No. {n})" for n in range(1, 5)), "RESTART, 3rd wall only, after no. 2"),
        (tuple(f"No. {n})" for n in range(1, 5)), "The third wall is no. 1 and no. 2 only."),
    ],
)
def test_a_wall_is_left_after_a_section_by_its_numeral(numerals: tuple[str, ...], told: str) -> None:
    page = DANCE
    for number, numeral in enumerate(numerals, 1):
        page = page.replace(f"Section {number}:", numeral)
    routine, _ = read(page.replace("@@", told))
    assert [(line.passes, one.after, one.leave) for line in routine.order for one in line.departures] == [
        ((3,), 16, "restart")
    ]
