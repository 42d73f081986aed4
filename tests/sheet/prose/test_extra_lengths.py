"""An extra that says how long it is has steps for so many counts."""

from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.opening import opened

SHEET = """\
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

{}
1-2 Sway right, sway left
3   {}
"""


@pytest.mark.parametrize(
    "head", ["TAG, 4 ct, after wall 2", "Tag (4 counts), at the end of wall 2", "4 COUNT TAG: wall 2"]
)
def test_an_extra_with_a_count_too_few_is_told(head: str) -> None:
    short = SHEET.format(head, "touch right beside left")
    found = loud(opened(Path("lantern.txt"), short).problems)
    assert [(one.kind, one.line) for one in found] == [("counts", 18)]
    whole = short.replace("3   touch right", "3-4 hold, touch right")
    assert not loud(opened(Path("lantern.txt"), whole).problems)


def test_a_count_of_an_extra_typed_wrong_is_told_at_its_line() -> None:
    sheet = SHEET.format("TAG, after wall 2", "hold").replace("3   hold", "3-4 hold, touch right beside left")
    assert not loud(opened(Path("lantern.txt"), sheet).problems)
    found = loud(opened(Path("lantern.txt"), sheet.replace("1-2 Sway", "1-3 Sway")).problems)
    assert [(one.kind, one.line) for one in found] == [("counts", 17)]
