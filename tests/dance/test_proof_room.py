"""Facings of the order in the room, and declared walls against the plain dance."""

from fractions import Fraction
from typing import Any

import pytest

from tests.dance.making import (
    after,
    changed,
    extra,
    hold,
    phrased,
    said,
    section,
    tag,
    wall,
)
from tests.dance.test_proof_facing import at, turning
from trainer.dance.order_facings import directions
from trainer.routine import Span

ORDER = [
    # order lines, line, message, why: each wall turns a quarter, on its last count
    ((wall(3, starts=at("6:00")),), None, "", "wall 3 begins at the back"),
    ((wall(3, after(4, leave="restart", facing=at("6:00"))),), None, "", "the facing at the start of the wall"),
    ((wall(3, after(8, hold(2), facing=at("9:00"))),), None, "", "the facing at the moment of departure"),
    ((wall(3, after(8, tag("Bell"), facing=at("3:00"))),), None, "", "the facing after the tag"),
    ((wall(3, after(0, tag("Bell"), facing=at("12:00"))),), None, "", "a tag before count 1"),
    ((wall(3, starts=at("3:00")),), 200, "Wall 3 is said to begin at 3:00, but begins at 6:00.", "not there"),
    (
        (wall(3, after(4, leave="restart", facing=at("12:00"))),),
        200,
        "Wall 3 after 4 is said to face 12:00, but it begins at 6:00 and is left at 6:00.",
        "neither the start nor the moment",
    ),
    (
        (wall(2, starts=at("12:00")), wall(3, starts=at("6:00"), line=201), wall(4, starts=at("9:00"), line=202)),
        200,
        "Wall 2 is said to begin at 12:00, but begins at 3:00.",
        "one wrong statement",
    ),
    (
        (wall(2, starts=at("3:00")), wall(3, starts=at("3:00"), line=201), wall(4, starts=at("6:00"), line=202)),
        201,
        "Wall 3 is said to begin at 3:00, but begins at 6:00.",
        "off by the same from wall 3 on",
    ),
    (
        (wall(2, starts=at("9:00")), wall(3, starts=at("6:00"), line=201), wall(4, starts=at("3:00"), line=202)),
        200,
        "Wall 2 is said to begin at 9:00, but begins at 3:00.",
        "each wall turns the other way",
    ),
    (
        (wall(2, starts=at("1:30")), wall(3, starts=at("4:30"), line=201), wall(4, starts=at("3:00"), line=202)),
        200,
        "Wall 2 is said to begin at 1:30, but begins at 3:00.",
        "a list that agrees with nothing is told where it begins",
    ),
]


def test_a_facing_told_after_two_changes_in_a_row_is_the_one_there() -> None:
    extras = (extra("change", "Lamp", "3 R +1/4"), extra("change", "Oil", "4 L"))
    for stated, found in ((at("9:00"), 0), (at("4:30"), 1)):
        order = (wall(3, changed(3, 3, "Lamp"), changed(4, 4, "Oil", leave="restart", facing=stated)),)
        told = said(turning("1 R, 2 L, 3 R, 4 L, 5 R, 6 L, 7 R, 8 L +1/4", extras=extras, order=order))
        assert [kind for _, kind, _ in told] == ["order"] * found


@pytest.mark.parametrize(("order", "line", "message", "why"), ORDER)
def test_facings_of_the_order_are_stated_in_the_room(order: Any, line: int | None, message: str, why: str) -> None:
    bell = extra("tag", "Bell", "1 R, 2 L +1/2")
    extras = (bell,) if any("Bell" in str(one) for one in order) else ()
    found = said(turning("1 R, 2 L, 3 R, 4 L, 5 R, 6 L, 7 R, 8 L +1/4", extras=extras, order=order))
    kind = "order" if " after " in message else "facing"
    assert found[:1] == ([(line, kind, message)] if line else []), why
    assert len(found) <= (2 if "nothing" in why else 1)


def test_a_line_for_two_walls_is_told_once() -> None:
    order = (wall((2, 4), after(4, leave="restart", facing=at("1:30")), starts=at("4:30")),)
    found = said(turning("1 R, 2 L, 3 R, 4 L, 5 R, 6 L +1/4", order=order))
    assert [message.split(" is said")[0] for _, _, message in found] == ["Wall 2", "Wall 2 after 4"]


def test_the_parts_of_a_phrased_dance_are_stated_as_if_begun_at_12() -> None:
    routine = phrased("A B A", order=(wall(2, starts=at("12:00"), part="A"),))
    parts = (
        routine.parts[0].but(sections=(section("A1", "1 R @12:00, 2 L +1/2 @6:00", line=10),)),
        routine.parts[1].but(sections=(section("B1", "1 R @12:00, 2 L -1/4 @9:00", line=20),)),
    )
    assert said(routine.but(parts=parts)) == [
        (200, "facing", "Wall 3, part A, is said to begin at 12:00, but begins at 3:00.")
    ]
    assert said(routine.but(parts=parts, order=(wall(2, starts=at("3:00"), part="A"),))) == []


def test_a_wall_that_is_squared_up_may_be_told_either_way() -> None:
    for told in ("1:30", "3:00"):
        order = (wall(2, starts=at(told)),)
        assert said(turning("1 R, 2 L +1/8", order=order, squares=Fraction(1, 8))) == []


WALLS = [
    # lines, fields, message, why
    ("1 R, 2 L", {"walls": 1}, "", "one wall"),
    ("1 R, 2 L +1/4", {"walls": 4}, "", "a quarter makes four walls"),
    ("1 R, 2 L -3/8", {"walls": 8}, "", "three eighths make eight"),
    ("1 R, 2 L +1/8", {"walls": 4, "squares": Fraction(1, 8)}, "", "an eighth squared up makes four"),
    ("1 R, 2 L +1/8", {"walls": 4, "order": (wall((2, 3, 4), squared=Fraction(1, 8)),)}, "", "so does its wall list"),
    (
        *("1 R, 2 L +1/2", {"walls": 4}),
        "The sheet declares 4 walls, but the dance turns 1/2 right and has 2.",
        "a half makes two",
    ),
    ("1 R, 2 L", {"walls": 2}, "The sheet declares 2 walls, but the dance ends where it began and has 1.", "no turn"),
    (
        "1 R, 2 L +3/4",
        {"walls": 1},
        "The sheet declares 1 wall, but the dance turns 1/4 left and has 4.",
        "one wall",
    ),
]


@pytest.mark.parametrize(("lines", "fields", "message", "why"), WALLS)
def test_declared_walls_are_those_of_the_plain_dance(lines: str, fields: Any, message: str, why: str) -> None:
    found = said(turning(lines, header=(("walls", Span(6, 8, 1)),), **fields))
    assert found == ([(6, "facing", message)] if message else []), why


def test_declared_walls_are_never_held_against_a_phrased_dance() -> None:
    assert said(phrased("A B", walls=4)) == []


def test_directions_of_a_dance_that_hardly_comes_home() -> None:
    assert directions(Fraction(1, 1000)) == 64


def test_a_departure_of_wall_1_after_a_danced_intro() -> None:
    intro = extra("intro", "", "1 R, 2 L -1/4", starts="3:00")
    order = (wall(1, after(8, tag("Bell"), facing=at("3:00"))),)
    bell = extra("tag", "Bell", "1 R, 2 L")
    quarter = "1 R, 2 L, 3 R, 4 L, 5 R, 6 L, 7 R, 8 L +1/4"
    assert said(turning(quarter, extras=(intro, bell), order=order)) == []
    late = (wall(1, after(8, tag("Bell"), facing=at("6:00"))),)
    assert [line for line, _, _ in said(turning(quarter, extras=(intro, bell), order=late))] == [200]


def test_a_wall_list_that_leaves_diagonals_is_sound() -> None:
    order = tuple(wall(number, starts=at(told)) for number, told in ((2, "3:00"), (3, "6:00"), (4, "9:00")))
    assert said(turning("1 R, 2 L +1/8", order=order, walls=4)) == []


def test_an_extra_after_a_wall_that_begins_elsewhere_is_not_found_again() -> None:
    bow = extra("ending", "Bow", "1 R @12:00, 2 L touch")
    order = (
        wall(3, starts=at("9:00")),
        wall(4, starts=at("12:00"), line=201),
        wall(5, after(8, tag("Bow", "ending"), leave="end"), starts=at("3:00"), line=202),
    )
    routine = turning("1 R, 2 L, 3 R, 4 L, 5 R, 6 L, 7 R, 8 L +1/4", extras=(bow,), order=order)
    # Wall 3 begins at 6:00, and every wall from there on a quarter before the list; the bow faces where the list leads.
    bowed = bow.but(events=(bow.events[0].but(facing=at("6:00")), bow.events[1]))
    assert [line for line, _, _ in said(routine.but(extras=(bowed,)))] == [200]
    # What the ending states is still held against the list.
    assert [line for line, _, _ in said(routine)] == [101, 200]
