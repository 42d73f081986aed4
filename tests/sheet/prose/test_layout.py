"""Lines lose their decoration and keep their numbers; tables fall into cells; facings become single tokens."""

import pytest

from trainer.dance.facing import clock
from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.reading import read
from trainer.terms import Direction


def cleaned(text: str) -> list[str]:
    return [line.words for line in clean_lines(text)]


@pytest.mark.parametrize(
    ("text", "words", "why"),
    [
        ("> 1-2 walk R, L", ["1 - 2 walk r , l"], "an e-mail's quote mark is no step"),
        ("• Walk R\n* Walk L", ["walk r", "walk l"], "bullets"),
        ("1&2\tR shuffle\t(3)", ["1 & 2 | r shuffle | ( 3 )"], "tabs part cells"),
        ("R side .......... 1-2", ["r side | 1 - 2"], "dot leaders part cells"),
        ("walk\n-------\nrun", ["walk", "run"], "a rule is no line"),
        ("walk\nPage 2 of 3\nrun", ["walk", "run"], "a page footer is no line"),
        (
            "cross the right foot be-\nhind the left",
            ["cross the right foot behind", "the left"],
            "a broken word is joined",
        ),
        ("step R –\nturn", ["step r -", "turn"], "a dash that stands alone breaks no word"),
        (
            "1,2,3 cross L, step R\n4,5,6 cross R, step L\n1,2,3 walk L, R\n4,5,6 walk R, L",
            [
                "1 , 2 , 3 cross l , step r",
                "4 , 5 , 6 cross r , step l",
                "1 , 2 , 3 walk l , r",
                "4 , 5 , 6 walk r , l",
            ],
            "commas of a sentence part no cells",
        ),
        (
            'Title,Mugs\n1,"R, L",12\n2,hold,12\n3,R,12\n4,L,9',
            ["title | mugs", "1 | r , l | 12", "2 | hold | 12", "3 | r | 12", "4 | l | 9"],
            "commas of a spreadsheet part cells, but those in quotes",
        ),
        ("3 | & | side 9\nSide 2", ["3 | & | side 9"], "a step to the side is no page footer"),
        ("**5&6** Kick R, step, step", ["5 & 6 kick r , step , step"], "bold counts that open a line are counts"),
        ("Walk (**1**), walk", ["walk ( * * 1 * * ) , walk"], "bold counts inside a line stay signed"),
        ("½ turn\u00a0L, don’t stop", ["½ turn l , don't stop"], "typographic marks are read as plain ones"),
    ],
)
def test_lines_are_cleaned(text: str, words: list[str], why: str) -> None:
    assert cleaned(text) == words, why


def test_lines_keep_their_numbers_and_columns() -> None:
    lines = clean_lines("Title\n\n   • Walk R")
    assert [(line.number, line.tokens[0].column) for line in lines] == [(1, 1), (3, 6)]


def facings(text: str) -> list[str]:
    lines = with_facings(clean_lines(text))
    return [
        clock(token.value)
        for line in lines
        for token in line.tokens
        if token.kind == "facing" and token.value is not None
    ]


@pytest.mark.parametrize(
    ("text", "found", "why"),
    [
        ("pivot 1/2 L (6:00)", ["6:00"], "a clock in brackets"),
        ("pivot 1/2 L [3]", ["3:00"], "an hour in brackets, where all such numbers are hours"),
        ("step (1), pivot (2), walk (3)", [], "numbers in brackets that are counts"),
        ("you now face 9", ["9:00"], "an hour after a word of looking"),
        ("facing three o'clock", ["3:00"], "an hour in words"),
        ("so that you now face the back wall", ["6:00"], "a wall of the room"),
        ("(home)", ["12:00"], "home is the front"),
        ("step to the side", [], "the side is no wall"),
        ("(6h)", ["6:00"], "short for o'clock"),
        ("turn 1/8 L <10:30>", ["10:30"], "a diagonal"),
        ("shuffle | 1&2 | 12\npivot | 3-4 | 6\nwalk | 5-6 | 6", ["12:00", "6:00", "6:00"], "a column of hours"),
    ],
)
def test_facings_are_found(text: str, found: list[str], why: str) -> None:
    assert facings(text) == found, why


def test_a_teachers_head_and_a_step_behind_are_read_as_meant() -> None:
    routine, problems = read(
        "Mugs\nIntro: 16 counts\nCount: 8  Wall: 1  Level: Beginner\nMusic: Cups (100 bpm)\n\nSection 1: Up the lane\n"
        "1-4 Step right to right side, cross left behind right, step right to right side, touch left beside right\n"
        "5-8 Step left to left side, cross right behind left, step left to left side, touch right beside left\n\n"
        "Restart: on wall 3 after 4 counts\n"
    )
    assert (routine.wait, routine.counts, routine.walls, routine.extras) == (16, 8, 1, ()), "the intro is a wait"
    assert [line.departures[0].after for line in routine.order] == [4]
    directions = [event.direction for event in routine.events()]
    assert directions[1] is directions[5] is Direction.BEHIND, "a cross behind does not go in front"
    assert problems == ()
