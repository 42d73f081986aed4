"""Walls told by the labels of their sections, and by arrows."""

import tomllib
from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.routine import Routine
from trainer.sheet.reading import read

_WALLS = tomllib.loads((Path(__file__).parent / "labelled_walls.toml").read_text(encoding="utf-8"))["walls"]
_DANCE = """PLUM GATE
32 counts, 4 walls, intro 16, weight on L

{0}
1-4 vine R, touch L
5-8 vine L, touch R
{1}
1-4 R rocking chair
5-8 R forward, pivot 1/2 L, R forward, pivot 1/4 L
{2}
1-4 vine R, touch L
5-8 vine L, touch R
{3}
1-4 R rocking chair
5-8 R forward, pivot 1/2 L, R forward, pivot 1/2 L

{4}
1-4 R sway, L sway, R sway, L sway

{5}
"""
_POINTED = """PLUM GATE
32 counts, 4 walls, intro 16, weight on L
{key}

1) 1-4 vine R, touch L {front}
5-8 vine L, touch R {front}
2) 1-4 R rocking chair {front}
5-6 R forward, pivot ½ {left} {rear}
7-8 R forward, pivot ¼ {left} {side}
3) 1-4 vine R, touch L {side}
5-8 L side, R together, L forward ¼ {left}, hold {front}
4) 1-2 R forward ¼ {right}, hold {side}
3-4 L together, hold {side}
5-8 R rocking chair {side}

wall 1 {front}: all
wall 2 {side}: all
wall 3 {rear}: 1-16, restart
"""


def _departures(routine: Routine) -> list[tuple[object, ...]]:
    return [
        (line.passes, one.after, [insert.kind for insert in one.inserts], one.leave)
        for line in routine.order
        for one in line.departures
    ]


@pytest.mark.parametrize("case", _WALLS, ids=lambda case: case["typed"][:30])
def test_walls_by_labels(case: dict[str, object]) -> None:
    sections = case["sections"]
    assert isinstance(sections, list)
    routine, problems = read(_DANCE.format(*sections, case["tag"], case["typed"]))
    assert _departures(routine) == [((3,), 24, [], "restart"), ((4,), 16, ["tag"], "continue")]
    assert not loud(problems)


@pytest.mark.parametrize(
    ("key", "arrows", "shape"),
    [
        ("", "↑→↓", "{}"),
        ("", "↑→↓", "  {}"),
        ("", "↑→↓", "[{}]"),
        ("", "↑→↓", "({})"),
        ("Arrows = the wall you face: ↑ front → right ↓ back ← left", "↑→↓", "   {}"),
        ("(↑ 12, → 3, ↓ 6, ← 9)", "↑→↓", "   {}"),
        ("", "▲►▼", "   {}"),
        ("", "⇑⇒⇓", " | {}"),
        ("", "↑→↓", "facing {}"),
        ("", "↑→↓", "@{}"),
    ],
)
def test_arrows_are_facings(key: str, arrows: str, shape: str) -> None:
    front, side, rear = (shape.format(arrow) for arrow in arrows)
    routine, problems = read(
        _POINTED.format(key=key, front=front, side=side, rear=rear, left="↺", right="↻").replace("½ ↺", "½↺")
    )
    plain, _ = read(_POINTED.format(key="", front="(12:00)", side="(3:00)", rear="(6:00)", left="left", right="right"))
    assert [event.but(words="", span=None, stated=None) for event in routine.events()] == [
        event.but(words="", span=None, stated=None) for event in plain.events()
    ]
    assert routine.order[2].starts == plain.order[2].starts
    assert _departures(routine) == [((3,), 16, [], "restart")]
    assert not loud(problems)


def test_arrows_among_steps_are_no_facings() -> None:
    text = "PLUM\n8 counts, 1 wall\n↑ = forward, ← = to the left\n\n1 R ↑\n2 L ↑\n3 R side\n4 L ←"
    routine, _ = read(text)
    assert not any(event.facing for event in routine.events())
