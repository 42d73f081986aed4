"""Plays told in many ways on one small dance, and its two parts under many names: rows of `plays_told.toml`.

`play` writes what is danced: A and B the parts in the order of their headings, with the counts of one that is cut
short, T the tag. In `names` the headings of a part that has two stand in two texts.
"""

import tomllib
from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.routine import Routine
from trainer.sheet.opening import opened

_ROWS = tomllib.loads(Path(__file__).with_name("plays_told.toml").read_text(encoding="utf-8"))
_SIDE = """1-2 step right to the side, touch left beside right
3-4 step left to the side, touch right beside left
5-6 step right forward, pivot half left
7-8 walk right, left"""
_ROCKS = """1-2 rock right to the side, recover left
3&4 right coaster step
5-6 step left forward, touch right beside left
7-8 step right back, step left beside right"""
_STOMPS = """1-2 step right forward, touch left beside right
3-4 step left back, touch right beside left
5-6 rock right back, recover left
7-8 stomp right, stomp left"""
_CHAIR = """1-4 rocking chair right
5-6 rock right to the side, recover left
7-8 cross right over left, step left to the side"""
_TAG = "TAG\n1-4 sway right, left, right, left\n"
_HEAD = "Quick Test\nphrased, improver\nWeight on the left. Wait 16 counts."


def _read(text: str) -> Routine:
    sheet = opened(Path("sheet.txt"), text)
    assert not loud(sheet.problems), [problem.message for problem in loud(sheet.problems)]
    return sheet.routine


def _played(routine: Routine) -> str:
    """Write what is danced, the parts as A and B."""
    letters = {part.name: letter for part, letter in zip(routine.parts, "AB", strict=True)}
    counts = {part.name: part.counts for part in routine.parts}
    passes: dict[str, int] = {}
    told = []
    for item in routine.play:
        if item.kind != "part":
            told.append(item.kind[0].upper())
            continue
        passes[item.name] = passes.get(item.name, 0) + 1
        mine = [line for line in routine.order if line.part == item.name and passes[item.name] in line.passes]
        departures = [one for line in mine for one in line.departures]
        cut = [str(int(one.after)) for one in departures if one.after is not None and one.after < counts[item.name]]
        told.append(letters[item.name] + "".join(cut))
        told += [insert.kind[0].upper() for one in departures for insert in one.inserts]
    return " ".join(told)


@pytest.mark.parametrize("row", _ROWS["orders"], ids=lambda row: row["order"][:40])
def test_an_order_is_read_as_it_is_told(row: dict[str, str]) -> None:
    routine = _read(f"{_HEAD}\n{row['order']}\n\nPART A\n{_SIDE}\n\nPART B\n{_STOMPS}\n\n{_TAG}")
    assert _played(routine) == row["play"]


@pytest.mark.parametrize("row", _ROWS["names"], ids=lambda row: row["a"][0])
def test_parts_go_by_the_names_that_the_order_gives_them(row: dict[str, list[str]]) -> None:
    heads = [part if len(part) > 1 else [*part, ""] for part in (row["a"], row["b"])]
    steps = [
        f"{one}\n{told}".strip()
        for one, told in zip((*heads[0], *heads[1]), (_SIDE, _ROCKS, _STOMPS, _CHAIR), strict=True)
    ]
    routine = _read("\n\n".join([f"{_HEAD}\n{row['order']}", *steps, _TAG]))
    assert [part.counts for part in routine.parts] == [16, 16]
    assert _played(routine) == "A B A B T A8 B"
