"""What a sentence of the order says of counts, sums and facings is held against the dance, however it is put."""

from pathlib import Path

import pytest

from tests.sheet.prose.paragraphs import FOLDER
from trainer.problems import loud
from trainer.sheet.opening import opened

AMISS = [
    ("K1", "Wall 5: dance sections 1 and 2 only, 46 counts, and start again.", "after 16 counts, not 46", "only"),
    ("K1", "Wall 5: dance sections 1 and 2, 24 counts, then restart.", "after 16 counts, not 24", "between commas"),
    (
        "K1",
        "On wall 5 restart after count 16, facing the side wall at nine o'clock.",
        "is said to face 9:00",
        "a side wall",
    ),
    ("K4", "Order: A, B, B, A, B. That makes four Bs in all.", "does not agree with the play", "a sum"),
    ("K1", "Tag after wall 2: step R, pivot 1/4 L onto L to the front.", "states 12:00", "where a turn comes to"),
]


@pytest.mark.parametrize(("on", "text", "said", "why"), AMISS, ids=[why for *_, why in AMISS])
def test_what_is_told_amiss_is_found(on: str, text: str, said: str, why: str) -> None:
    dance = (FOLDER / "dances" / f"{on}.txt").read_text(encoding="utf-8")
    found = loud(opened(Path("sheet.txt"), dance.replace("@@", text)).problems)
    assert [one.message for one in found if said in one.message], ([one.message for one in found], why)


@pytest.mark.parametrize(
    "text", ["Order: A, B, B, A, B. That makes three Bs in all.", "Order: A, B, A, B and no more."]
)
def test_a_sum_that_is_right_is_no_finding(text: str) -> None:
    dance = (FOLDER / "dances" / "K4.txt").read_text(encoding="utf-8")
    assert not loud(opened(Path("sheet.txt"), dance.replace("@@", text)).problems)
