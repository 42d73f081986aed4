"""Keys that name walls, marks about hours at the ends of lines, and sentences about how a sheet is written."""

import pytest

from trainer.problems import loud
from trainer.routine import Event, Routine
from trainer.sheet.prose.keys.notation import without_notation
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.reading import read

_DANCE = """PLUM GATE
32 counts, 4 walls, intro 16, weight on L
{above}

01-04 vine R, touch L {front}
05-08 vine L, touch R
09-12 R rocking chair
13-14 R forward, pivot 1/2 L {back}
15-16 R forward, pivot 1/4 L {right}
17-20 vine R, touch L
21-24 L side, R together, L forward 1/4 L, hold {front}
25-26 R forward 1/4 R, hold {right}
27-28 L together, hold
29-32 R rocking chair {right}

wall 1 {front}: all
wall 2 {right}: all
wall 3 {back}: 1-16, restart
{below}
"""
_EIGHTS = """PLUM GATE
32 counts, 4 walls, intro 16, weight on L

1) 1-4 vine R, touch L; 5-8 vine L, touch R {front}
2) 1-4 R rocking chair; 5-6 R forward, pivot 1/2 L; 7-8 R forward, pivot 1/4 L {side}
3) 1-4 vine R, touch L; 5-6 L side, R together; 7-8 L forward 1/4 L, hold {front}
4) 1-2 R forward 1/4 R, hold; 3-4 L together, hold; 5-8 R rocking chair {side}
"""


def _events(routine: Routine) -> list[Event]:
    return [event.but(words="", span=None, stated=None) for event in routine.events()]


@pytest.mark.parametrize("where", ["above", "below"])
@pytest.mark.parametrize(
    ("key", "names", "shape"),
    [
        ("Fr / Rt / Bk / Lt = front, right-hand, back, left-hand wall of the hall", "Fr Rt Bk", ".. {}"),
        ("F B LH RH = front, back, left-hand, right-hand wall", "F RH B", "   {}"),
        ("F = front wall, B = back wall, RH = right-hand wall, LH = left-hand wall", "F RH B", "   {}"),
        ("FW front wall, BW back wall, RW right wall, LW left wall", "FW RW BW", "  [{}]"),
        ("FW = front, BW = back, RW = right, LW = left (walls of the room)", "FW RW BW", "({})"),
        ("walls: FR front, BA back, RI right, LE left", "FR RI BA", "   {}"),
        ("N = 12, E = 3, S = 6, W = 9", "N E S", "   {}"),
        ("N S E W = front, back, right, left wall", "N E S", "   ({})"),
        ("N is the front wall, S the back wall, E the right-hand wall, W the left-hand wall", "N E S", "   [{}]"),
        ("FT = 12:00, RT = 3:00, BK = 6:00, LT = 9:00", "FT RT BK", "   {}"),
        ("(F) front wall (R) right wall (B) back wall (L) left wall", "F R B", "   ({})"),
        ("F/R/B/L: front/right/back/left wall", "F R B", "   [{}]"),
        (
            "St = the stage wall (front), Ba = the bar (back wall), Wi = windows (right wall), Do = door (left wall)",
            "St Wi Ba",
            "   {}",
        ),
        ("D = door (12:00), W = window (3:00), K = kitchen (6:00), P = piano (9:00)", "D W K", "   {}"),
    ],
)
def test_a_key_of_walls(key: str, names: str, shape: str, where: str) -> None:
    front, right, back = (shape.format(name) for name in names.split())
    texts = {"above": "", "below": "", where: key}
    routine, problems = read(_DANCE.format(front=front, right=right, back=back, **texts))
    plain, _ = read(_DANCE.format(front="(12:00)", right="(3:00)", back="(6:00)", above="", below=""))
    assert _events(routine) == _events(plain)
    assert [line.starts for line in routine.order] == [line.starts for line in plain.order]
    assert not loud(problems)


@pytest.mark.parametrize(
    "shape",
    ["/{}/", "   /{}/", "*{}*", "~{}~", "  = {}", '   "{}"', "  '{}'", "   _{}_", "   >{}<", "   {}h", "  -> {}"],
)
def test_marks_about_hours(shape: str) -> None:
    routine, problems = read(_EIGHTS.format(front=shape.format(12), side=shape.format(3)))
    plain, _ = read(_EIGHTS.format(front="(12:00)", side="(3:00)"))
    assert _events(routine) == _events(plain)
    assert not loud(problems)


@pytest.mark.parametrize(
    "sentence",
    [
        "Counts run on 1 to 32, line = 4 cnts.",
        "One box one count, one row eight counts.",
        "Each line is 4 counts.",
        "Numbers in brackets show the wall you face",
        "[ ] = clock once you have turned",
        "Left column = counts, right column = where you face.",
        "Bar lines as in music, 4 beats to the bar.",
    ],
)
def test_sentences_about_the_page_are_left_out(sentence: str) -> None:
    assert without_notation(clean_lines(sentence)) == ()


@pytest.mark.parametrize(
    "sentence",
    [
        "Walls: 4, line dance, 32 counts",
        "Count 16 then on",
        "A 32 count line dance in one wall",
        "Third 8: right toe strut, jazz box with a quarter turn right (5-8) now facing 3",
        "Restart after count 16, facing the line of chairs",
    ],
)
def test_sentences_about_the_dance_stay(sentence: str) -> None:
    lines = clean_lines(sentence)
    assert without_notation(lines) == lines
