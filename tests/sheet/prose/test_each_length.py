"""Sheets without counts that tell once how long each piece is."""

import pytest

from tests.sheet.prose.tables_made import danced

_TOLD = "1R12 2L12 3R12 4L12 5L12 6R12 7L12 8R12 1R12 2L12 3R12 4L12 5R12 6L12 7R3 8L3"
_WANT = [(told[0], told[1], f"{told[2:]}:00") for told in _TOLD.split()]


@pytest.mark.parametrize(
    "rule", ["(4 cts to each bit, t = touch together)", "each bit is 4 counts. t = touch together", "4 counts per bit"]
)
def test_a_length_for_every_piece(rule: str) -> None:
    touch = "touch" if "=" not in rule else "t"
    page = f"over the hedge\nbeg 16 / 4w / wait 16 / R ft first\n\nvine R, {touch}  /  vine L, {touch}\n"
    page += f"rock chair R: fwd, rec, back, rec\njazz box 1/4 R on 3rd step, L tog  -> 3\n\n{rule}\n"
    events, warnings = danced(page)
    assert [(label, foot, facing) for label, foot, _, facing in events] == _WANT
    assert warnings == ()
