"""The planted faults of every teacher's sheet that were found once are found still (tests/data/sheets/reached.json)."""

import json
import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "sheet" / "prose"))

from reached import REACHED, Score, everything, scored


@pytest.mark.parametrize("name", everything())
def test_the_faults_that_were_found_are_found(name: str) -> None:
    kept = Score(**json.loads(REACHED.read_text(encoding="utf-8"))[name])
    assert scored(name).found >= kept.found
