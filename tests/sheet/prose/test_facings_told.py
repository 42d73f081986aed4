"""Facings told in words: each is one token, belongs to the count before it, and is a finding where it is wrong."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from trainer.dance.facing import clock
from trainer.problems import loud
from trainer.sheet.opening import opened
from trainer.sheet.prose.facing.faced import statement_end
from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.text.layout import clean_lines

HERE = Path(__file__).parent
LINES: list[dict[str, Any]] = tomllib.loads((HERE / "facings_told.toml").read_text(encoding="utf-8"))["line"]

STATED = (
    "so that you look at {}", "so you are looking at {}", "so you face {}", "now at {}", "now you see {}",
    "which leaves you facing {}", "which brings you round to {}", "and that puts you at {}", "this is {}",
    "you finish at {}", "you should be looking at {} now", "taking you to {}", "you are now facing {} again",
    "so that you come to face {}", "ending at {}", "to face {}",
)  # fmt: skip

SHEET = """\
Lamp and Ladder
16 counts, 1 wall
Start with the weight on the left

Section 1
Step right forward (1), pivot half a turn left with the weight on the left (2){}
step right forward (3), hold (4). Step left forward (5), touch right beside left (6),
step right back (7), step left beside right (8).

Section 2
Step right forward (1), pivot half a turn left with the weight on the left (2),
walk forward right (3), left (4), right (5), left (6), stomp right without weight (7), hold (8).
"""


@pytest.mark.parametrize("row", LINES, ids=lambda row: row["words"])
def test_a_line_states_its_facing_and_no_other(row: dict[str, Any]) -> None:
    tokens = [token for line in with_facings(clean_lines(row["words"])) for token in line.tokens]
    assert [clock(token.value) for token in tokens if token.kind == "facing" and token.value is not None] == (
        [row["faces"]] if row["faces"] else []
    )


@pytest.mark.parametrize("around", [", {}, and", " ({}),", ". {}. Then", ".\n{}. Then"])
@pytest.mark.parametrize("stated", STATED)
def test_what_is_stated_between_two_counts_belongs_to_the_first(stated: str, around: str) -> None:
    right = SHEET.format(around.format(stated.format("six o'clock")))
    sheet = opened(Path("lamp.txt"), right)
    events = sheet.routine.parts[0].sections[0].events
    assert [clock(one.facing) for one in events if one.facing is not None] == ["6:00"]
    assert events[1].facing is not None
    assert not loud(sheet.problems)


@pytest.mark.parametrize("stated", STATED)
def test_a_wrong_facing_in_words_is_a_finding_at_its_line(stated: str) -> None:
    wrong = SHEET.format(f".\n{stated.format('nine o’clock')}. Then")
    found = loud(opened(Path("lamp.txt"), wrong).problems)
    assert [(one.kind, one.line) for one in found] == [("facing", 7)]


@pytest.mark.parametrize(
    ("words", "rest"),
    [
        ("now at 9 o'clock, and scuff right forward", "and scuff right forward"),
        ("(this is 12 o'clock) and scuff the right", "and scuff the right"),
        ("That is nine o'clock. Right back", "Right back"),
        ("this turns you to face 3:00, step left", "step left"),
        ("walk forward to 3 o'clock, step left", "walk forward to 3 o'clock , step left"),
        ("turn a quarter left to face 9 o'clock, kick", "turn a quarter left to face 9 o'clock , kick"),
        ("facing 9 o'clock walk right, left", "facing 9 o'clock walk right , left"),
    ],
)
def test_a_clause_states_a_facing_where_it_tells_no_step(words: str, rest: str) -> None:
    tokens = with_facings(clean_lines(words))[0].tokens
    assert " ".join(token.text for token in tokens[statement_end(tokens) :]) == rest


KEYED = """\
Lamp and Ladder
16 counts, 1 wall, weight on the left
FW = front wall, BW = back wall, LW = left wall

1-2  step R forward, pivot 1/2 L  {}
3-4  step R forward, hold
5-8  step L forward, touch R beside L, step R back, step L beside R
1-2  step R forward, pivot 1/2 L  {}
3-8  walk forward R, L, R, L, stomp R without weight, hold
"""


@pytest.mark.parametrize(("first", "second"), [("BW", "FW"), ("-> 6", "-> 12"), ("(BW)", "(FW)"), ("[6]", "[12]")])
def test_a_sheets_own_marks_are_facings(first: str, second: str) -> None:
    events = opened(Path("lamp.txt"), KEYED.format(first, second)).routine.parts[0].sections
    assert [clock(one.facing) for part in events for one in part.events if one.facing is not None] == ["6:00", "12:00"]


HEADED = """\
Lamp and Ladder
32 counts, 1 wall, weight on the left

S1 ({}) Walks
1-8  walk forward R, L, R, L, R, L, step R forward, pivot 1/2 L
S2 ({}) Walks again
1-8  walk forward R, L, R, L, R, L, R, L
S3 ({}) Once more
1-8  walk forward R, L, R, L, R, L, step R forward, pivot 1/2 L
S4 ({}) The last
1-8  walk forward R, L, R, L, R, L, R, L
"""


@pytest.mark.parametrize("hours", [("12:00", "6:00", "6:00", "12:00"), ("6:00", "6:00", "12:00", "12:00")])
def test_facings_of_headings_are_checked_where_most_of_them_agree(hours: tuple[str, ...]) -> None:
    assert not loud(opened(Path("lamp.txt"), HEADED.format(*hours)).problems)
    wrong = HEADED.format(*hours[:2], "3:00", hours[3])
    assert [(one.kind, one.line) for one in loud(opened(Path("lamp.txt"), wrong).problems)] == [("facing", 8)]


@pytest.mark.parametrize(("wall", "findings"), [("back", []), ("front", [("facing", 6)])])
def test_the_wall_that_a_turn_ends_at_is_a_check(wall: str, findings: list[tuple[str, int]]) -> None:
    text = SHEET.format(f", to the {wall}. Then")
    assert [(one.kind, one.line) for one in loud(opened(Path("lamp.txt"), text).problems)] == findings
