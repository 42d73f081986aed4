"""Four short dances in many layouts: each page must be read as the dance that it tells, without a warning."""

import tomllib
from pathlib import Path

import pytest

from tests.sheet.prose.tables_made import WANT, Event, danced

_PAGES = tomllib.loads(Path(__file__).with_name("page_ways.toml").read_text(encoding="utf-8"))["page"]

_ROLLING = (
    "1R12 2L12 aR12 3L12 4R12 aL12 5R12 6L12 7R6 8L6 1R6 2L6 aR6 3L6 4R6 aL6 5R6 6L6 7R6 8L6"
)  # fmt: skip
_OVER = (
    "1R12 2L12 3R12 4L12 &R12 5L12 6R12 7L12 8R12 &L12 1R12 2L12 3R6 4L6 &R6 5L6 6R6 7L6 8R6 &L3"
)  # fmt: skip
_HALVES = (
    "1R12 2L12 &R12 aL12 3R12 4L12 &R12 aL12 5R12 6L6 &R6 aL6 7R6 8L6 1R6 2L6 &R6 aL6 3R6 4L6 &R6 aL6 5R6 6L6 7R6 8L6"
)  # fmt: skip
_IN_THREE = "1R12 2L12 &R12 aL12 3R12 4L12 5R12 6L12 &R12 aL12 7R12 8L12"
_SWITCHES = "1RL12 &RR12 2LR12 &LL12 3RR12 &LL12 4RR12 5LL12 6RR12 7LL12 &RR12 8LL12"
"""With the foot that has the weight, after heels that take none."""
_DANCES: dict[str, list[Event]] = {
    "straight": WANT,
    "rolling": [(told[0], told[1], told[1], f"{told[2:]}:00") for told in _ROLLING.split()],
    "halves": [(told[0], told[1], told[1], f"{told[2:]}:00") for told in _HALVES.split()],
    "cut in three": [(told[0], told[1], told[1], f"{told[2:]}:00") for told in _IN_THREE.split()],
    "switches": [(told[0], told[1], told[2], f"{told[3:]}:00") for told in _SWITCHES.split()],
    "over": [(told[0], told[1], told[1], f"{told[2:]}:00") for told in _OVER.split()],
}


@pytest.mark.parametrize(("dance", "text"), [pytest.param(p["dance"], p["text"], id=p["kind"]) for p in _PAGES])
def test_a_page_tells_its_dance(dance: str, text: str) -> None:
    events, warnings = danced(text.strip("\n") + "\n")
    assert events == _DANCES[dance]
    assert warnings == ()
