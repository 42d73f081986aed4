"""The head of a sheet, headings, stated turns and facings."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sheets import routine, section, sheet

from trainer.routine import PlayItem, Routine, Span
from trainer.sheet.headings import NAME, name_told
from trainer.sheet.reading import read
from trainer.sheet.stated import facing_of, facing_told, turn_of, turn_told
from trainer.sheet.texts import taken


def head(*lines: str) -> Routine:
    return routine(section("1 hold", head="".join(f"{line}\n" for line in lines)))


@pytest.mark.parametrize(
    ("line", "field", "value", "why"),
    [
        ("tune: The Quay (slow)", "tune", "The Quay (slow)", "a text"),
        ("Tune : The Quay", "tune", "The Quay", "with a blank, and a capital"),
        ('by: "  us  "', "by", "  us  ", "a text in quotes"),
        ("level: improver  # or so", "level", "improver", "a remark"),
        ("tempo: 96", "tempo", Fraction(96), "counts a minute"),
        ("tempo: 96.5", "tempo", Fraction(193, 2), "a decimal is exact"),
        ("tempo: 193/2", "tempo", Fraction(193, 2), "a fraction"),
        ("time: 3/4", "time", "3/4", "a waltz"),
        ("feel: Rolling", "feel", "rolling", "capitals make no difference"),
        ("starts: weight on R", "starts", "R", "the weighted foot"),
        ("starts: L", "starts", "L", "in short"),
        ("starts: weight on both feet", "starts", "B", "both"),
        ("counts: 32", "counts", 32, "a number"),
        ("walls: 4", "walls", 4, "a number"),
        ("intro: 16 from the first drum", "wait", 16, "the wait"),
        ("intro: 16 from the first drum", "wait_from", "from the first drum", "and from where"),
        ("intro: 16", "wait_from", "", "or not"),
        ('intro: "with the voice"', "wait", None, "a wait without a number"),
        ("square up: 1/8 left", "squares", Fraction(-1, 8), "a turn"),
        ("note: one\nnote: two", "notes", ("one", "two"), "as many as there are"),
    ],
)
def test_a_key_gives_its_field(line: str, field: str, value: object, why: str) -> None:
    assert getattr(head(line), field) == value, why


def test_a_field_knows_where_it_was_read() -> None:
    found = head("counts: 32", "intro: 16", "square up: 1/8 left")
    assert (found.where("counts"), found.where("wait")) == (Span(2, 9, 2), Span(3, 8, 2))
    assert found.where("squares") == Span(4, 12, 8)
    assert found.where("walls") is None


@pytest.mark.parametrize(
    ("text", "items", "repeats", "why"),
    [
        ("A B A", [("part", "A", 0), ("part", "B", 0), ("part", "A", 0)], False, "parts, then the dance ends"),
        ("A, B repeat", [("part", "A", 0), ("part", "B", 0)], True, "or begins again"),
        ('A tag Lantern "tag"', [("part", "A", 0), ("tag", "Lantern", 0), ("part", "tag", 0)], False, "extras"),
        ('hold 4 ending "Big Bow"', [("hold", "", 4), ("ending", "Big Bow", 0)], False, "a hold and an ending"),
    ],
)
def test_the_order_of_parts(text: str, items: list[tuple[str, str, int]], repeats: bool, why: str) -> None:
    found = head(f"play: {text}")
    assert found.play == tuple(PlayItem(kind=kind, name=name, counts=counts) for kind, name, counts in items), why  # type: ignore[arg-type]
    assert found.repeats == repeats


@pytest.mark.parametrize("text", ["hold many A", "tag"])
def test_what_is_not_understood_of_the_order_of_parts_is_left_out(text: str) -> None:
    found, problems = read(section("1 hold", head=f"play: {text}\n"))
    assert len(problems) == 1
    assert all(item.kind == "part" for item in found.play)


def test_without_play_the_one_part_goes_round() -> None:
    assert (head().play, head().repeats) == ((), True)


@pytest.mark.parametrize(
    ("heading", "name", "title", "counts", "why"),
    [
        ("== 1", "1", "", 1, "a number"),
        ("==1: walks", "1", "walks", 1, "a title"),
        ("== A1: 6:00 at last", "A1", "6:00 at last", 1, "a title with a clock"),
        ('== "First Eight": go', "First Eight", "go", 1, "a name with a blank"),
        ('== "tag"', "tag", "", 1, "a name that is a word of ours"),
        ("== section 1", "1", "", 1, "with the word before it"),
        ("== 1, 1 count: short", "1", "short", 1, "with its length"),
    ],
)
def test_a_section(heading: str, name: str, title: str, counts: int, why: str) -> None:
    (found,) = routine(sheet(heading, "1 hold")).parts[0].sections
    assert (found.name, found.title, found.counts) == (name, title, counts), why


def test_extras() -> None:
    text = sheet(
        "== intro, starts 6:00: in",
        "1 hold",
        '== tag "Long Way", starts 1:30, 1 counts: round',
        "1 hold",
        "== intro second",
        "1 hold",
        "== ending Bow",
        "feel: swung",
        "1a hold, hold",
    )
    found = routine(text).extras
    assert [(one.kind, one.name, one.title, one.starts, one.feel) for one in found] == [
        ("intro", "", "in", Fraction(1, 2), None),
        ("tag", "Long Way", "round", Fraction(1, 8), None),
        ("intro", "second", "", None, None),
        ("ending", "Bow", "", None, "swung"),
    ]


def test_headings_belong_to_the_part_above_them() -> None:
    a = ("== part A", "== 1", "1 hold", "== tag T", "1 hold", "== 2", "1 hold")
    found = routine(sheet(*a, "== part B", "== part C", "== 1", "1 hold"))
    assert [(part.name, [one.name for one in part.sections]) for part in found.parts] == [
        ("A", ["1", "2"]),
        ("B", []),
        ("C", ["1"]),
    ]


def test_sections_before_the_first_part_have_a_part_without_a_name() -> None:
    found = routine(sheet("== 1", "1 hold", "== part A", "== 1", "1 hold"))
    assert [part.name for part in found.parts] == ["", "A"]


def test_an_option_belongs_to_the_part_above_it_or_to_the_one_it_names() -> None:
    text = sheet(
        "== part A",
        "== 1",
        "1 hold",
        "== option 1, count 1",
        "1 clap",
        "== part B",
        "== 1",
        "1 hold",
        "== option 1 of part A, counts 1-1: twice",
        "1 snap",
    )
    assert [(one.part, one.first, one.last, one.title) for one in routine(text).options] == [
        ("A", 1, 1, ""),
        ("A", 1, 1, "twice"),
    ]


@given(st.text())
def test_a_name_is_told_as_it_is_read(name: str) -> None:
    clean = name.encode("utf-8", "replace").decode()
    told = name_told(clean)
    match = NAME.fullmatch(told)
    assert match is not None
    assert taken(told) == clean


@pytest.mark.parametrize(
    ("text", "facing"),
    [("12:00", "0"), ("1:30", "1/8"), ("9:00", "3/4"), ("10:30", "7/8"), ("1:15:30", "151/1440"), ("20/41", "20/41")],
)
def test_a_facing(text: str, facing: str) -> None:
    assert facing_of(text) == Fraction(facing)
    assert facing_told(Fraction(facing)) == text


@pytest.mark.parametrize("text", ["", "13:00", "3", "noon", "3:60", "1/0"])
def test_what_is_no_facing(text: str) -> None:
    assert facing_of(text) is None


@given(st.fractions(0, 1, max_denominator=10**12))
def test_a_facing_is_told_as_it_is_read(facing: Fraction) -> None:
    assert facing_of(facing_told(facing % 1)) == facing % 1


@pytest.mark.parametrize(
    ("text", "turn"),
    [("1/8 right", "1/8"), ("full left", "-1"), ("1 1/2 right", "3/2"), ("2 left", "-2"), ("11/16 left", "-11/16")],
)
def test_a_turn(text: str, turn: str) -> None:
    assert turn_of(text) == Fraction(turn)
    assert turn_told(Fraction(turn)) == text


@pytest.mark.parametrize("text", ["", "1/8", "right", "1/0 right", "a bit right", "12345/7 right"])
def test_what_is_no_turn(text: str) -> None:
    assert turn_of(text) is None


def test_no_turn_at_all_is_told_too() -> None:
    assert turn_of(turn_told(Fraction(0))) == 0
