"""What lays a page out, or says a thing twice, goes before its lines are read; every letter stays in its column."""

import pytest

from trainer.sheet.prose.text.counts_below import with_counts_behind
from trainer.sheet.prose.text.degrees import with_degrees_once
from trainer.sheet.prose.text.glossaries import with_glossaries_told
from trainer.sheet.prose.text.heads_near import with_heads_near
from trainer.sheet.prose.text.rows import Row

DEGREES = [
    ("Facing 90° (3:00).", "Facing     (3:00).", "the hour stands beside them"),
    ("Turn 90° (a quarter) right", "Turn 90°             right", "the fraction says them again"),
    ("Facing 90° (6:00).", "Facing 90° (6:00).", "one of the two is a fault"),
    ("Turn 180° (a quarter) right", "Turn 180° (a quarter) right", "one of the two is a fault of the turn"),
    (
        "Facing 0° (12:00), pivot 180° (a half)",
        "Facing    (12:00), pivot 180°         ",
        "the front is no degrees or 360",
    ),
    ("Turn 90° right", "Turn 90° right", "nothing stands beside them"),
    ("Count 6 (3:00)", "Count 6 (3:00)", "no degrees"),
]


@pytest.mark.parametrize(("text", "told", "why"), DEGREES, ids=[why for *_, why in DEGREES])
def test_degrees_are_told_once(text: str, told: str, why: str) -> None:
    assert with_degrees_once(text) == told, why


def test_a_list_of_short_forms_is_told_with_signs() -> None:
    text = "1 2  R sd, L pv-h\nGLOSSARY\nfd  step forward\nsh  shuffle: step, close, step\nsd  step out to the side\n"
    text += "pv-h  pivot half a turn and put your weight on it\nrc  recover\ntc  touch beside, no weight"
    told = "1 2  R sd, L pvh \nGLOSSARY\nfd=      forward\nsh= shuffle\nsd=      out to the side\n"
    assert with_glossaries_told(text) == told + "pvh = pivot half a turn\nrc= recover\ntc= touch beside"


def test_a_list_without_a_heading_stays() -> None:
    text = "fd  step forward\nsh  shuffle\nsd  to the side\nrc  recover\ntc  touch\nbk  step back"
    assert with_glossaries_told(text) == text


def _rows(*texts: str) -> list[Row]:
    return [Row(text, ((0, number, 1),)) for number, text in enumerate(texts, 1)]


def test_counts_under_their_steps_stand_behind_them() -> None:
    rows = _rows("Left forward, right beside", "1 2", "Right back, left beside", "3 4", "") * 2
    assert [row.text for row in with_counts_behind(rows)][:2] == [
        "Left forward, right beside 1 2",
        "Right back, left beside 3 4",
    ]


def test_counts_over_their_steps_stay() -> None:
    rows = _rows("First eight", "1 2", "Left forward, right beside", "3 4", "Right back, left beside", "") * 2
    assert with_counts_behind(rows) == rows


def test_headings_come_near_the_steps_that_they_head() -> None:
    head, gap, steps = _rows("ENDING, 2 counts", "", "15-16 Stomp right, hold")
    rows = [gap, head, gap, steps] * 3
    assert with_heads_near(rows) == [gap, head, steps] * 3
    assert with_heads_near(rows[:8]) == rows[:8], "two may be remarks"
