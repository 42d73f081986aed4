"""What is told of walls in the words of one teacher is read as the order that a fair copy of it writes.

Each row of `sayings_*.toml` is a paragraph below the steps of an invented dance, and the lines of the order, with the
counts of extras that are told in it.
"""

import subprocess
import sys
import time
import tomllib
from pathlib import Path

import pytest

from tests.shares import share
from trainer.problems import loud
from trainer.sheet.fair import fair
from trainer.sheet.opening import opened
from trainer.sheet.prose.sayings.told_plainly import told_plainly, with_sayings
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.tokens import tokens_of

DATA = Path(__file__).parents[2] / "data" / "paragraphs" / "dances"
TABLES = sorted(Path(__file__).parent.glob("sayings_*.toml"))
ROWS = [row for table in TABLES for row in tomllib.loads(table.read_text(encoding="utf-8"))["row"]]


def test_there_are_rows() -> None:
    assert len(TABLES) > 1
    assert len(ROWS) > 10


@pytest.mark.parametrize("row", share(ROWS, 3), ids=lambda row: row["told"][:60])
def test_a_saying_is_read(row: dict[str, str]) -> None:
    hold_as_told(row)


def hold_as_told(row: dict[str, str]) -> None:
    """Hold that a saying is read as its row tells."""
    dance = (DATA / f"{row.get('below', 'K1')}.txt").read_text(encoding="utf-8")
    sheet = opened(Path("told.txt"), dance.replace("@@", row["told"]))
    extras = [
        f"{extra.name}: " + " ".join(f"{one.label}{one.foot or '?'}" for one in extra.events)
        for extra in sheet.routine.extras
    ]
    order = fair(sheet.routine).partition("== order\n")[2].strip().split("\n")
    assert [*extras, *order] == row["means"].strip().split("\n")
    assert not loud(sheet.problems)


AGAIN = [
    "tag after wall 2,", "the tag, the tag after wall 2 and", "tag after wall 2, not after wall 3 and",
    "tag tag tag wall.",
    "first wall tag after the second,", "each time you finish up back at the front tag", "wall 2 starts at 12:00, and",
    "to the a in section 2 but replace it with", "after wall 2 add a a a a", "after count 3, the a b c", "1, 2, 3,",
    "hold 4 counts after wall 2 and", "wall 2 is whole, which brings you to", "wall 3 stops after 2 of section 2 for",
    "first time you face 6:00, second time", "tag. on 1-2 step, on 3-4", "wall 2 then hold 2 3 4",
    "in section 4 count 7 is a and", "do that step and pivot and", "section 3 as far as count 4,",
    "i told you the tag and said", "wall 4: 16 counts, tag then the rest of", "the last four counts again, tag:",
    "tag 1-2 step. 1-2 step,",
    "song ends while we are in", "looking at the big red", "and then so now and", "until count 5 of section 3,",
]  # fmt: skip
HANG = 3.0
"""Seconds of processor time for a line that takes hundredths of one: patterns that look back over a line for each of
its words took twenty."""


@pytest.mark.parametrize("words", AGAIN)
def test_a_line_that_says_the_same_again_and_again_is_no_hang(words: str) -> None:
    tokens = tuple(tokens_of(" ".join([words] * 100), 1))[:400]
    begun = time.process_time()
    told_plainly(tokens)
    assert time.process_time() - begun < HANG


def test_a_line_that_ends_with_a_wall_without_its_number_is_read() -> None:
    opened(Path("told.txt"), (DATA / "K1.txt").read_text(encoding="utf-8").replace("@@", "tag after wall 2, " * 80))


def test_a_row_that_stood_in_an_earlier_sheet_keeps_its_cells() -> None:
    """Equal words are told from the cache, and are not the words of this line itself."""
    row = "1-2     R walk, L walk"
    for _ in range(2):
        line = Line(1, tuple(tokens_of(row, 1)), 0, row)
        assert with_sayings([line]) == (line,)


@pytest.mark.parametrize(
    "told",
    [
        "The walls go round to the right, 12 3 6 9",
        "Each whole wall ends a quarter turn to the right",
        "let the music play on",
        "After wall 2:\nlet the music fade",
    ],
)
def test_a_line_that_tells_nothing_is_left_out(told: str) -> None:
    dance = (DATA / "K1.txt").read_text(encoding="utf-8")
    sheet = opened(Path("told.txt"), dance.replace("@@", told))
    assert not loud(sheet.problems)
    assert [len(part.sections) for part in sheet.routine.parts] == [4]


@pytest.mark.parametrize(
    "words",
    [
        "Wall 3: dance up to the heels (" + " & ".join("1234" * 10) + " & x)",
        "Walls 2 and 5 (at 6:00 the first time, " + "and then " * 40 + "x)",
    ],
)
def test_words_said_again_and_again_keep_no_dancer_waiting(words: str) -> None:
    """Each row is a pattern over a stranger's words: tried in a process of its own, a hang fails and stops nothing."""
    reading = (
        "from trainer.sheet.prose.sayings.told_plainly import told_plainly;"
        "from trainer.sheet.prose.text.layout import clean_lines;"
        f"told_plainly(clean_lines({words!r})[0].tokens)"
    )
    subprocess.run([sys.executable, "-c", reading], check=True, timeout=30)


def test_what_is_taken_from_a_bracket_is_not_glued_to_the_word_before() -> None:
    told = told_plainly(tokens_of("you now face the side wall (nine o'clock)"))
    assert "".join(("" if token.glued else " ") + token.text for token in told).strip() == "you now face nine o'clock"
