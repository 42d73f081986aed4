"""Whole sheets of teachers, read and proofread, against their truth and planted faults (tests/data/sheets/FORMAT.md).

The three sheets at the top must be read wholly, all faults found, without a false alarm. Of every other sheet
`reached.json` keeps what has been reached: the share of events, in thousandths, the faults found, the false alarms. A
change may only better it; `python tests/sheet/prose/reached.py` writes what is better. Seven of eight sheets, and the
faults found in all, each of which takes a reading of its own, are left to `tests/long`.
"""

import json

import pytest
from reached import REACHED, Score, everything, read, score_of, scored

from tests.shares import share
from trainer.sheet.fair import fair
from trainer.sheet.opening import Sheet, opened

NAMES = everything()


def test_there_are_sheets() -> None:
    assert len(NAMES) > 60


@pytest.mark.parametrize("name", ["a2-biscuit", "a6-windfall", "b5-copper"])
def test_the_proved_sheets_are_read_wholly(name: str) -> None:
    score = scored(name)
    assert score.events == 1000
    assert score.found == score.planted == 5
    assert score.alarms == 0
    assert_reads_back(read(name))


@pytest.mark.parametrize("name", share([name for name in NAMES if "/" in name], 12))
def test_what_was_reached_is_kept_and_the_fair_copy_reads_back_equal(name: str) -> None:
    kept = Score(**json.loads(REACHED.read_text(encoding="utf-8"))[name])
    sheet = read(name)
    score = score_of(name, sheet, with_faults=False)
    assert score.events >= kept.events
    assert score.alarms <= kept.alarms
    assert_reads_back(sheet)


def assert_reads_back(sheet: Sheet) -> None:
    """Hold that the fair copy of a sheet, and its JSON, are the same routine."""
    copy = opened(sheet.path.with_suffix(".sheet"), fair(sheet.routine))
    assert copy.routine == sheet.routine
    assert json.loads(copy.routine.model_dump_json()) == json.loads(sheet.routine.model_dump_json())
