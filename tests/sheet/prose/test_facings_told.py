"""Facings told in words: each is one token, belongs to the count before it, and is a finding where it is wrong."""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from trainer.dance.facing import clock
from trainer.problems import loud
from trainer.sheet.opening import opened
from trainer.sheet.prose.faced import statement_end
from trainer.sheet.prose.facings import with_facings
from trainer.sheet.prose.layout import clean_lines

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
