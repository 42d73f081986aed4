"""Labels and their places in a beat; facings, turns and their clocks."""

from fractions import Fraction

import pytest

from trainer.dance.counts import label_of, number_at, offset, spoken
from trainer.dance.facing import (
    amount,
    between,
    clock,
    is_diagonal,
    mirrored,
    read_clock,
    turn_text,
    turned,
    walls_home,
)
from trainer.terms import Feel

OFFSETS = [
    # feel, label, beats after its number, source
    ("straight", "e", "1/4", "sixteenths 1 e & a: eijkhout.net, music and timing"),
    ("straight", "&", "1/2", "ROUNDALAB & URDC Common Glossary 2001: half a beat"),
    ("straight", "a", "3/4", "ROUNDALAB & URDC Common Glossary 2001: the last quarter of the beat"),
    ("swung", "&", "2/3", "2:1, ratio r/(1+r); Friberg & Sundstrom 2002 measured up to 3.5:1"),
    ("swung", "a", "2/3", "common practice, no source"),
    ("rolling", "&", "1/3", "Golden State Dance Teachers Association teaching; by arithmetic"),
    ("rolling", "a", "2/3", "Golden State Dance Teachers Association teaching; by arithmetic"),
    ("swung", "e", None, "there is none"),
    ("rolling", "e", None, "there is none"),
    ("rolling", "7", "0", "a whole count"),
]


@pytest.mark.parametrize(("feel", "label", "falls", "source"), OFFSETS)
def test_where_a_label_falls(feel: Feel, label: str, falls: str | None, source: str) -> None:
    assert offset(label, feel) == (None if falls is None else Fraction(falls)), source


def test_counts_start_again_after_the_phrase() -> None:
    assert [number_at(beat, 8) for beat in (0, 7, 8, Fraction(15, 2), Fraction(-1, 2))] == [1, 8, 1, 8, 8]
    assert [number_at(beat, 6) for beat in (0, 5, 6)] == [1, 6, 1]


def test_only_1_to_8_are_called() -> None:
    assert [label_of(number) for number in (1, 8)] == ["1", "8"]
    for number in (0, 9):
        with pytest.raises(ValueError, match="counts are called 1 to 8"):
            label_of(number)


SPOKEN = [
    (["1", "&", "2", "a"], ["count 1", "count 1&", "count 2", "count 2a"]),
    (["&", "a", "3"], ["the & before count 3", "the a before count 3", "count 3"]),
    (["&"], ["the &"]),
    ([], []),
]


@pytest.mark.parametrize(("labels", "told"), SPOKEN)
def test_what_counts_are_called_in_a_sentence(labels: list[str], told: list[str]) -> None:
    assert spoken(labels) == told


CLOCKS = [
    ("0", "12:00"),
    ("1/8", "1:30"),
    ("1/4", "3:00"),
    ("3/8", "4:30"),
    ("1/2", "6:00"),
    ("5/8", "7:30"),
    ("3/4", "9:00"),
    ("7/8", "10:30"),
    ("1/16", "12:45"),
    ("1/24", "12:30"),
    ("1/32", "12:22:30"),
    ("719/720", "11:59"),
]


@pytest.mark.parametrize(("facing", "told"), CLOCKS)
def test_a_facing_has_a_clock_time_and_back(facing: str, told: str) -> None:
    assert clock(Fraction(facing)) == told
    assert read_clock(told) == Fraction(facing)


@pytest.mark.parametrize("text", ["", "13:00", "0:00", "3", "3:60", "three", "12:00pm", "-3:00", "1:30:60"])
def test_what_is_no_clock_time(text: str) -> None:
    assert read_clock(text) is None


TURNS = [
    ("1/4", "1/4", "1/4 right"),
    ("-1/8", "1/8", "1/8 left"),
    ("1", "full", "full right"),
    ("-1", "full", "full left"),
    ("2", "2", "2 right"),
    ("-3/2", "1 1/2", "1 1/2 left"),
    ("0", "0", ""),
]


@pytest.mark.parametrize(("turn", "size", "told"), TURNS)
def test_a_turn_in_words(turn: str, size: str, told: str) -> None:
    assert amount(Fraction(turn)) == size
    assert turn_text(Fraction(turn)) == told


def test_the_smallest_turn_between_two_facings() -> None:
    eighths = [Fraction(eighth, 8) for eighth in range(8)]
    for start in eighths:
        for end in eighths:
            turn = between(start, end)
            assert Fraction(-1, 2) < turn <= Fraction(1, 2)
            assert turned(start, turn) == end


def test_diagonals_lie_between_the_walls() -> None:
    assert [eighth for eighth in range(8) if is_diagonal(Fraction(eighth, 8))] == [1, 3, 5, 7]
    assert not is_diagonal(Fraction(1, 16))


def test_the_mirror_swaps_the_sides_and_keeps_front_and_back() -> None:
    told = {clock(Fraction(eighth, 8)): clock(mirrored(Fraction(eighth, 8))) for eighth in range(8)}
    assert told == {
        **{"12:00": "12:00", "6:00": "6:00", "3:00": "9:00", "9:00": "3:00"},
        **{"1:30": "10:30", "10:30": "1:30", "4:30": "7:30", "7:30": "4:30"},
    }


def test_walls_to_come_home() -> None:
    # From a quarter turn a wall: four walls (line dance association of California, "wall").
    assert [walls_home(Fraction(turn)) for turn in ("0", "1/4", "1/2", "-1/4", "5/4", "-3/8", "1")] == [
        1,
        4,
        2,
        4,
        4,
        8,
        1,
    ]
