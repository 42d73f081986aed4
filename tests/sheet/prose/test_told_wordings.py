"""One thing told in many ways: the wordings of different teachers for restarts, tags, bridges, changes, holds, ends."""

from typing import Any

import pytest

from tests.sheet.prose.telling_text import as_text, known, rows_of, told_of

ROWS = rows_of("told_wordings.toml", "restarts", "extras", "changes", "mixed", "voices", "chatter")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"])
def test_a_wording_tells_its_order(row: dict[str, Any]) -> None:
    assert as_text(told_of(row["text"], known(32, walls=2))) == row["tells"], row["reason"]
