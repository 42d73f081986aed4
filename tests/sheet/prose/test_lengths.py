"""Lengths of steps told as counts, and what is wrong with them found where it stands."""

from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.opening import opened
from trainer.sheet.prose.lengths.writing import with_lengths
from trainer.sheet.prose.order.told import is_order
from trainer.sheet.prose.text.layout import clean_lines

_LENGTHS = """Half a Plum
16 counts, 4 walls, weight on L

First eight
4 b.  vine R, touch L
2 b.  side L, touch R
2 b.  shuffle R to the side (R L R)
Second eight
2 b.  rock back L, recover R
2 b.  shuffle L to the side (L R L)
2 b.  step fwd R, 1/4 pivot L (facing 9)
2 b.  R heel, R hook
"""


@pytest.mark.parametrize(
    ("told", "counts"),
    [
        ("vine R, touch L (4) + vine L, touch R (4) + side R, touch L (2)", "[ 1 2 3 4 ] [ 5 6 7 8 ] [ 1 2 ]"),
        ("walk R, L (2), shuffle fwd R L R (2), rock fwd L, recover R (2)", "[ 1 2 ] [ 3 & 4 ] [ 5 6 ]"),
        ("kick ball change R (2), stomp R, stomp L (2), clap, clap (2)", "[ 1 & 2 ] [ 3 4 ] [ 5 6 ]"),
        ("walk R, L, R, kick L ... 4, walk back L, R, L, touch R ... 8, side R, touch L ... 10",
         "[ 1 2 3 4 ] [ 5 6 7 8 ] [ 9 10 ]"),
    ],
)  # fmt: skip
def test_lengths_become_counts(told: str, counts: str) -> None:
    (line,) = with_lengths(clean_lines(told), (), is_order)
    texts = [token.text for token in line.tokens]
    marks = " ".join(texts).split("[")[1:]
    assert " ".join(f"[{mark.split(']')[0]}]" for mark in marks) == counts


@pytest.mark.parametrize(
    "told",
    [
        pytest.param("1-2 walk R, L\n3-4 rock R, recover L\n5-6 side R, touch L", id="counts before steps"),
        pytest.param("walk R (1), walk L (2), walk R (3), touch L (4)", id="counts one by one"),
        pytest.param("16 counts, 4 walls, wait 16 counts", id="facts"),
    ],
)
def test_counts_are_no_lengths(told: str) -> None:
    lines = clean_lines(told)
    assert with_lengths(lines, (), is_order) == lines


def test_a_wrong_length_is_found_at_its_line() -> None:
    assert loud(opened(Path("sheet.txt"), _LENGTHS).problems) == []
    wrong = _LENGTHS.replace("2 b.  R heel", "4 b.  R heel")
    found = loud(opened(Path("sheet.txt"), wrong).problems)
    assert [problem.line for problem in found if problem.kind == "counts" and problem.line] == [12]
