"""Lists of walls are told in plain sentences where their rows are understood, and left where they are not."""

import tomllib
from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.opening import opened
from trainer.sheet.prose.habits.sides_told import with_sides
from trainer.sheet.prose.listings.listing import with_listed_walls
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.reading import read

_LISTS = tomllib.loads((Path(__file__).parent / "listings.toml").read_text())["list"]
_HEAD = "LANTERN LANE\n32 counts, 4 walls\n"


def _told(typed: str) -> list[str]:
    lines = clean_lines(_HEAD + typed)
    before = {line.words for line in clean_lines(_HEAD)}
    anew = with_listed_walls(lines)
    if anew == lines:
        return []
    return [" ".join(token.text for token in line.tokens) for line in anew if line.words not in before]


def test_there_are_lists() -> None:
    assert len(_LISTS) > 10


@pytest.mark.parametrize("case", _LISTS, ids=[case["why"] for case in _LISTS])
def test_a_list_is_told_in_sentences(case: dict[str, object]) -> None:
    assert _told(str(case["typed"])) == case["told"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("Tag: four sways, right, left, right, left", "tag : sway right , sway left , sway right , sway left"),
        ("two stomps: L and R", "stomp l , stomp r"),
        ("three walks, right, left", "three walks , right , left"),
        ("Tag: stomp R, stomp L, then hold for two.", "tag : stomp r , stomp l , hold 2 counts ."),
        ("Hold for two. Stomp on three", "hold for two . stomp on three"),
    ],
)
def test_sides_told_after_their_moves(words: str, told: str) -> None:
    assert [line.words for line in with_sides(clean_lines(words))] == [told]


def test_an_extra_has_a_name_of_its_own_in_a_list_of_walls() -> None:
    steps = "\n".join(f"{n}-{n + 1}  walk R, walk L" for n in range(1, 17, 2))
    walls = "12:00 complete, 12:00 complete, 12:00 complete, then the close."
    routine = opened(
        Path("lane.txt"), f"{_HEAD}\n{steps}\n\nWALLS\n{walls}\n\nTHE CLOSE (at home)\n1  stomp R\n"
    ).routine
    assert [(extra.kind, extra.counts) for extra in routine.extras] == [("ending", 1)]
    last = routine.order[-1]
    assert last.passes == (3,)
    assert [insert.kind for cut in last.departures for insert in cut.inserts] == ["ending"]


@pytest.mark.parametrize("between", [" . ", " - ", " > ", " / ", "   ", " : "])
@pytest.mark.parametrize("head", ["", "wall, starts, ends\n"])
def test_walls_that_only_begin_and_end(head: str, between: str) -> None:
    """The hours with which walls end, each the start of the next, are no counts after which they are left."""
    steps = "\n".join(["1-4 R side, L behind, R side, touch L", "5-8 L side, R behind, 1/4 L L fwd, touch R"] * 2)
    hours = [("1st", "12", "6"), ("2nd", "6", "12"), ("3rd", "12", "6"), ("4th", "6", "12")]
    rows = "\n".join(between.join(row) for row in hours)
    routine, problems = read(f"Half a Plum\n16 counts, 2 walls, weight on L\n\n{steps}\n\n{head}{rows}\n")
    assert not loud(problems)
    assert not any(line.departures for line in routine.order)
