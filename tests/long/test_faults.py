"""What was reached once of every teacher's sheet is kept: events, faults found, no more false alarms, its fair copy.

`tests/data/sheets/reached.json` holds what was reached.
"""

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "sheet" / "prose"))

from reached import REACHED, Score, everything, read, scored

from trainer.sheet.fair import fair
from trainer.sheet.opening import opened


@pytest.mark.parametrize("name", everything())
def test_what_was_reached_is_kept(name: str) -> None:
    kept, score = Score(**json.loads(REACHED.read_text(encoding="utf-8"))[name]), scored(name)
    assert score.found >= kept.found
    assert score.events >= kept.events
    assert score.alarms <= kept.alarms


MISREAD = {"x57/treacle": "its sections are misread: one is called from 5, which a fair copy cannot write"}
"""Sheets whose fair copy is known to differ, and why; the mark goes when they are read."""
FAIR = [
    pytest.param(name, marks=pytest.mark.xfail(reason=MISREAD[name], strict=True)) if name in MISREAD else name
    for name in everything()
]


@pytest.mark.parametrize("name", FAIR)
def test_the_fair_copy_reads_back_equal(name: str) -> None:
    sheet = read(name)
    assert opened(sheet.path.with_suffix(".sheet"), fair(sheet.routine)).routine == sheet.routine
