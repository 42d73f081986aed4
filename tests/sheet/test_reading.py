"""Reading any text: never an exception, all problems at once, nothing endless."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets import problems, row, section

from trainer.dance.figures import figures, moves
from trainer.problems import Problem, with_caret
from trainer.resources import folder
from trainer.routine import Routine
from trainer.sheet.fair import fair
from trainer.sheet.faircopy import read_fair
from trainer.sheet.findings import MOST, Findings
from trainer.sheet.reading import read
from trainer.terms import Direction

SHEETS = [path.read_text(encoding="utf-8") for path in sorted(folder("routines").glob("*.sheet"))]
WORDS = [
    "R", "L", "B", "-", "turning", "then", "1/4", "right", "left", "full", "+", "(", ")", "(weight R)", '"', "?(", "|",
    "??", '??"x"', ":", ",", ";", "@3:00", "@", "1", "&", "2", "1-8", "8&1", "e", "a", "== ", "==", "\n", "\n  ", ">",
    "#", "  # ", "part", "option", "order", "tag", "wall 3:", "after 16", "/", "cue:", "starts", "feel:", "play:",
    "(from step 2)", "counts 5-6", "\\", "\u00bd", "\ud83d\ude00".encode("utf-16", "surrogatepass").decode("utf-16"),
    *(direction.value for direction in Direction), *(move.value for move in moves()), *figures(),
]  # fmt: skip


def sound(found: tuple[Routine, tuple[Problem, ...]], text: str) -> None:
    """Whatever was read can be written, and every problem has a place in the text."""
    routine, told = found
    assert isinstance(fair(routine), str)
    assert Routine.model_validate_json(routine.model_dump_json()) == routine
    for problem in told:
        assert with_caret(problem, text)
        assert 1 <= problem.line <= max(len(text.splitlines()), 1)
        assert problem.column >= 1
        assert problem.message[0].isprintable()


def fairly(text: str) -> tuple[Routine, tuple[Problem, ...]]:
    findings = Findings()
    return read_fair(text, findings), findings.result()


@settings(max_examples=100, deadline=None)
@given(st.text())
def test_any_text_is_read_without_an_exception(text: str) -> None:
    sound(read(text), text)
    sound(fairly(text), text)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.sampled_from(WORDS), max_size=60).map(" ".join))
def test_any_words_of_ours_are_read_without_an_exception(text: str) -> None:
    sheet = f"title: A\n== 1\n{text}"
    sound(fairly(sheet), sheet)


@settings(max_examples=80, deadline=None)
@given(st.sampled_from(SHEETS), st.randoms(use_true_random=False))
def test_mutilated_sheets_are_read_without_an_exception(text: str, chance: random.Random) -> None:
    letters = list(text)
    for _ in range(chance.randint(1, 12)):
        at = chance.randrange(len(letters))
        letters[at : at + chance.randint(0, 8)] = chance.choice(["", " ", "\n", chance.choice(WORDS), letters[at]])
    mutilated = "".join(letters)
    sound(fairly(mutilated), mutilated)


@settings(max_examples=40, deadline=None)
@given(st.sampled_from(SHEETS), st.randoms(use_true_random=False))
def test_half_a_sheet_is_read_without_an_exception(text: str, chance: random.Random) -> None:
    half = text[: chance.randrange(len(text))]
    sound(fairly(half), half)


@pytest.mark.parametrize(
    ("text", "found", "why"),
    [
        ("", "1:1 error text: This sheet is empty. | Begin with `title: ...`.", "nothing"),
        ("\ufeff \n", "1:1 error text: This sheet is empty. | Begin with `title: ...`.", "nothing to see"),
        (
            "x" * 10_000_000,
            "1:1 error text: This text is far longer than any step sheet. | Give the sheet of one dance.",
            "ten megabytes",
        ),
        (
            "1 R walk\n" * 30_000,
            "1:1 error text: This text is far longer than any step sheet. | Give the sheet of one dance.",
            "very many lines",
        ),
    ],
)
def test_what_is_no_sheet_is_said_in_one_sentence(text: str, found: str, why: str) -> None:
    assert problems(text) == [found], why


def test_half_a_letter_is_no_reason_to_stop() -> None:
    assert problems('title: A\ud800\n== 1\n1 R walk ; "\\ud800"\n') == []


def test_a_sheet_of_nothing_but_faults_ends_its_list() -> None:
    text = "title: A\n== 1\n" + "\n".join(f"1 R flumble{number}" for number in range(3_000))
    told = [row(problem) for problem in fairly(text)[1]]
    assert len(told) == MOST + 1
    assert [one for one in told if "not listed" in one] == [
        f"{MOST + 3}:5 error text: There are more than {MOST:,} problems; those from here on are not listed."
    ]


@pytest.mark.parametrize(
    "line",
    [
        "1 " + "(" * 50_000,
        "1 " + '"' * 50_001,
        "1 " + "?(" * 10_000,
        "1 " + "R walk, " * 10_000,
        "1 R walk " + "+ clap " * 10_000,
        "1 R walk turning " + "9" * 50_000 + " right",
        "9" * 50_000 + " R walk",
        "1-" + "9" * 50_000 + " R walk",
        "1&" * 20_000 + " R walk",
        "a " * 20_000,
        "x" * 100_000,
        "1 R walk @" + "9" * 50_000,
    ],
    ids=lambda line: line[:12],
)
def test_very_long_lines_are_read_in_no_time(line: str) -> None:
    # Something that grew with the square of the line would not end here.
    text = section(line)
    sound(read(text), text)


def test_every_problem_comes_at_once() -> None:
    told = problems("titel: A\ntempo: fast\n== 1\n1 R wlak\n2 L walk @13:00\n== order\nwal 3\n")
    assert [one.split(" ")[0] for one in told] == ["1:1", "2:8", "4:5", "5:11", "7:1"]
