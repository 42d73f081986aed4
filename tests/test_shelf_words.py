"""What the shelf says of a routine, how it is found, and in which order."""

from fractions import Fraction
from pathlib import Path

import pytest

from tests.dances import event, quay
from trainer.practice.shelf import Entry
from trainer.practice.shelf_words import COLUMNS, about, in_order, matches, plain, row
from trainer.problems import Problem, TrainerError
from trainer.routine import Part, PlayItem, Routine, Section
from trainer.sheet.opening import Sheet

OWN = Entry(kind="own", name="/sheets/kettle.txt")
PATH = Path(OWN.name)


def opened(routine: Routine, *problems: Problem) -> Sheet:
    return Sheet(path=PATH, text="", routine=routine, problems=problems)


SEARCHES = [
    ("", True, "nothing asked"),
    ("caf", True, "the start of a word"),
    ("CAFE by", True, "no accents, another case, words in any order"),
    ("café", True, "with its accent"),
    ("cafe quay", False, "every word must be there"),
    ("ﬁsh", True, "letters joined in print"),
]


@pytest.mark.parametrize(("typed", "found", "why"), SEARCHES)
def test_words_are_found_whatever_their_case_and_accents(typed, found, why):
    assert matches(plain(typed).split(), Path("fish-by-the-Café.txt"), None) is found, why


def test_what_is_known_of_a_routine_is_searched():
    sheet = opened(quay().but(by="Ann Quay", tune="Steam"))
    for typed in ("kettle", "improver", "ann", "steam", "quay impr"):
        assert matches(typed.split(), PATH, sheet), typed
    assert not matches(["waltz"], PATH, sheet)


LEVELS = [
    "absolute beginner",
    "Beginner",
    "high beginner",
    "easy improver",
    "improver",
    "easy intermediate",
    "Intermediate / Advanced",
    "phrased",
    "",
]


def test_levels_are_in_order_from_easy_to_hard():
    entries = [Entry(kind="own", name=level) for level in reversed(LEVELS)]
    listed = in_order(entries, {entry.id: ("same", entry.name) for entry in entries}, "level")
    assert [entry.name for entry in listed] == LEVELS


NUMBERS = [("counts", ["16", "32", "64", ""]), ("walls", ["1", "4", "phrased", ""]), ("a minute", ["66.5", "108", ""])]


@pytest.mark.parametrize(("column", "cells"), NUMBERS)
def test_numbers_are_in_order_from_small_to_large_and_nothing_comes_last(column, cells):
    entries = [Entry(kind="own", name=cell) for cell in reversed(cells)]
    rows = {one.id: tuple(one.name if column == name else "same" for name in COLUMNS) for one in entries}
    assert [one.name for one in in_order(entries, rows, column)] == cells


def test_what_was_danced_last_comes_first_and_titles_are_in_order_whatever_their_accents():
    cells = [("Žuta", "2026-03-04"), ("apple", ""), ("Éclair", "2026-03-05"), ("Zug", "")]
    entries = [Entry(kind="own", name=title) for title, _ in cells]
    rows = {one.id: (title, "", "", "", "", day) for one, (title, day) in zip(entries, cells, strict=True)}
    named = [one.name for one in in_order(entries, rows, "routine")]
    assert named == ["apple", "Éclair", "Zug", "Žuta"]
    assert [one.name for one in in_order(entries, rows, "last danced")] == ["Éclair", "Žuta", "apple", "Zug"]
    assert in_order(entries, rows, None) == entries


def phrased() -> Routine:
    step = event("1", 0, "R")
    parts = [Part(name=name, sections=(Section(name="1", counts=8, events=(step,)),)) for name in "AB"]
    play = tuple(PlayItem(kind="part", name=name) for name in "ABA")
    return Routine(title="", parts=tuple(parts), play=play)


TITLE = "Kettle on the Quay"
ROWS = [
    (opened(quay()), ("Kettle on the Quay", "improver", "16", "4", "96", ""), "as declared"),
    (
        opened(quay().but(counts=None, walls=None)),
        ("Kettle on the Quay", "improver", "16", "4", "96", ""),
        "as it turns",
    ),
    (opened(phrased()), ("kettle", "", "16", "phrased", "", ""), "in parts, without a title"),
    (opened(quay().but(tempo=Fraction(181, 2))), ("Kettle on the Quay", "improver", "16", "4", "90.5", ""), "a half"),
    (None, ("kettle", "", "", "", "", ""), "not read yet"),
    (TrainerError("No such sheet", "gone"), ("kettle", "", "", "", "", "No such sheet"), "not to be read"),
]


@pytest.mark.parametrize(("read", "cells", "why"), ROWS)
def test_a_row_has_what_is_known(read, cells, why):
    assert row(OWN, PATH, read) == cells, why


def test_what_else_is_told_of_a_routine():
    fault = Problem(level="error", kind="counts", line=1, column=1, message="no")
    spun = event("1", 0, "R", turn="2")
    spinning = Routine(title="x", parts=(Part(sections=(Section(name="1", counts=4, events=(spun,)),)),))
    assert about(OWN, None) == "reading ..."
    assert about(OWN, TrainerError("No such sheet", "gone")) == "No such sheet. gone"
    assert about(OWN, opened(spinning.but(tune="Steam", by="Ann"), fault)).splitlines() == [
        "to Steam, Ann, 4/4",
        "2 full turns on each wall: learn them slowly, with room round you",
        "1 finding in the sheet",
        "/sheets/kettle.txt",
    ]
