"""One count typed wrong is one finding, at its line; the steps stay where they are written."""

from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.opening import opened

LINES = """\
Paper Lantern
16 counts, 1 wall
Start with the weight on the left

Section 1
1-2 Step right to the side, step left beside right
3&4 Shuffle forward right, left, right
5-6 Rock left forward, recover on right
7&8 Shuffle back left, right, left

Section 2
1-2 Rock right back, recover on left
3-4 Step right forward, touch left beside right
5-6 Step left back, touch right beside left
7-8 Step right to the side, step left beside right
"""
ROWS = [
    (7, "3&4", "3&5"),
    (7, "3&4", "2&3"),
    (8, "5-6", "5-7"),
    (8, "5-6", "4-5"),
    (9, "7&8", "6&7"),
    (13, "3-4", "3-5"),
    (13, "3-4", "2-3"),
    (14, "5-6", "6-7"),
    (15, "7-8", "7-9"),
    (15, "7-8", "6-7"),
]
FLOWING = """\
Paper Lantern
16 counts, 1 wall
Start with the weight on the left

Section 1
walk forward right, left, right on 1, 2, 3 and kick left forward on 4
walk back left, right, left on 5, 6, 7 and touch right next to left on 8

Section 2
right forward to the corner on 1, touch left next to right with a clap on 2
left back to where it came from on 3, touch right next to left with a clap on 4
right back to the corner on 5, touch left next to right with a clap on 6
left forward again on 7, touch right next to left with a clap on 8
"""


@pytest.mark.parametrize(("number", "right", "typed"), ROWS)
def test_counts_typed_wrong_are_told_at_their_line(number: int, right: str, typed: str) -> None:
    lines = LINES.split("\n")
    assert not loud(opened(Path("lantern.txt"), LINES).problems)
    lines[number - 1] = lines[number - 1].replace(right, typed)
    found = loud(opened(Path("lantern.txt"), "\n".join(lines)).problems)
    assert [(one.kind, one.line) for one in found] == [("counts", number)]


@pytest.mark.parametrize(
    ("number", "right", "typed"),
    [(10, "on 2", "on 1"), (11, "on 4", "on 5"), (12, "on 6", "on 5"), (11, "on 3", "on 2")],
)
def test_a_count_among_words_typed_wrong_is_told_at_its_line(number: int, right: str, typed: str) -> None:
    lines = FLOWING.split("\n")
    assert not loud(opened(Path("lantern.txt"), FLOWING).problems)
    lines[number - 1] = lines[number - 1].replace(right, typed)
    found = loud(opened(Path("lantern.txt"), "\n".join(lines)).problems)
    assert [(one.kind, one.line) for one in found] == [("counts", number)]


EACH = "; ".join(f"{count} = {words}" for count, words in enumerate(
    ("step right forward", "scuff left", "step left forward", "scuff right", "right to the side", "left behind right",
     "right to the side", "left next to right"), 1))  # fmt: skip


@pytest.mark.parametrize(("right", "typed"), [("7 =", "8 ="), ("7 =", "6 ="), ("6 =", "5 =")])
def test_a_number_typed_wrong_near_the_end_of_a_row_of_steps_is_told(right: str, typed: str) -> None:
    sheet = f"Paper Lantern, 8 counts, 1 wall. Weight on left.\n\n{EACH}.\n"
    assert not loud(opened(Path("lantern.txt"), sheet).problems)
    found = loud(opened(Path("lantern.txt"), sheet.replace(right, typed)).problems)
    assert [(one.kind, one.line) for one in found] == [("counts", 3)]
