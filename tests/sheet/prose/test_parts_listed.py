"""The parts of a phrased dance listed one a line, in each of the ways that teachers number such a list."""

import pytest

from trainer.problems import loud
from trainer.sheet.reading import read

_PAGE = """Half a Plum
phrased: A 16, B 8, tag 4. Weight on L

{head}
{rows}

{one}
1-2  walk fwd R, L
3-4  walk fwd R, L
5-6  R rock fwd, L recover
7-8  R back, L together
{two}
1-4  R side, L behind, R side, L touch
5-8  L side, R behind, L side, R touch

{three}
1-2  R stomp, L stomp
3-4  R stomp, hold
5-6  L stomp, R stomp
7-8  L stomp, hold

Tag
1-2  R side, L together
3-4  R side, L together
"""
_SHORT, _LONG = ("A1", "A2", "B1"), ("A / one", "A / two", "B / one")


@pytest.mark.parametrize(
    ("head", "labels", "rows"),
    [
        ("Running order", _LONG, ("first   A", "second  A, then the tag", "third   B", "fourth  A")),
        ("Walls", _SHORT, ("1: A", "2: A + tag", "3: B", "4: A")),
        ("Order of play", _SHORT, ("Wall 1: A", "Wall 2: A, tag", "Wall 3: B", "Wall 4: A")),
        ("Walls", _LONG, ("1st  A", "2nd  A and tag", "3rd  B", "4th  A")),
        ("Running order", _SHORT, ("1) A (12:00)", "2) A, tag (6:00)", "3) B (12:00)", "4) A (12:00)")),
        ("Walls", _SHORT, ("1  A", "2  A  tag", "3  B", "4  A")),
        ("Walls", _LONG, ("time 1 - A", "time 2 - A, then tag", "time 3 - B", "time 4 - A")),
        ("Order of play", _SHORT, ("A", "A, tag", "B", "A")),
        ("Running order", _SHORT, ("A (first)", "A (second), then the tag", "B (third)", "A (fourth)")),
        (
            "Walls",
            _SHORT,
            ("round one: part A", "round two: part A, then the tag", "round three: part B", "round four: A"),
        ),
        ("Order of play", _LONG, ("I    A", "II   A, tag", "III  B", "IV   A")),
    ],
    ids=lambda value: value[1] if isinstance(value, tuple) else value,
)
def test_a_list_of_parts(head: str, labels: tuple[str, str, str], rows: tuple[str, ...]) -> None:
    one, two, three = labels
    text = _PAGE.format(head=head, rows="\n".join(f"  {row}" for row in rows), one=one, two=two, three=three)
    routine, problems = read(text)
    assert not loud(problems)
    assert [item.name for item in routine.play] == ["A", "A", "Tag", "B", "A"]
