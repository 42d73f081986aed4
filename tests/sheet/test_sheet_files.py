"""Whole sheets: every file of valid/ reads as its JSON says, every file of invalid/ has the problems beside it.

The JSON leaves out what has its usual value; it was read over against its sheet line by line. A `.problems` file has a
line for each problem: place, level, kind, sentence and hint.
"""

from pathlib import Path

import pytest
from sheets import problems, routine

from trainer.routine import Routine
from trainer.sheet.fair import fair
from trainer.sheet.page import load
from trainer.sheet.reading import read

FAIR = Path(__file__).parents[1] / "data" / "fair"
VALID = sorted((FAIR / "valid").glob("*.sheet"))
INVALID = sorted((FAIR / "invalid").glob("*.sheet"))


def test_there_are_sheets_of_both_kinds() -> None:
    assert len(VALID) >= 4
    assert len(INVALID) >= 6


@pytest.mark.parametrize("path", VALID, ids=lambda path: path.stem)
def test_a_valid_sheet_reads_as_its_json_says(path: Path) -> None:
    expected = Routine.model_validate_json(path.with_suffix(".json").read_text(encoding="utf-8"))
    assert routine(load(path)) == expected


@pytest.mark.parametrize("path", VALID, ids=lambda path: path.stem)
def test_the_fair_copy_of_a_valid_sheet_is_a_fixed_point(path: Path) -> None:
    copy = fair(routine(load(path)))
    assert copy == path.with_suffix(".fair").read_text(encoding="utf-8")
    assert fair(routine(copy)) == copy


@pytest.mark.parametrize("path", INVALID, ids=lambda path: path.stem)
def test_an_invalid_sheet_has_its_problems_all_at_once(path: Path) -> None:
    expected = path.with_suffix(".problems").read_text(encoding="utf-8").splitlines()
    assert problems(load(path)) == expected


# A block whose counts have gaps or clash cannot be written so that its counts are right.
@pytest.mark.parametrize("path", [path for path in INVALID if path.stem != "counts"], ids=lambda path: path.stem)
def test_what_was_read_of_an_invalid_sheet_survives_its_fair_copy(path: Path) -> None:
    found, _ = read(load(path))
    assert read(fair(found))[0] == found
