"""Lists of walls are told in plain sentences where their rows are understood, and left where they are not."""

import tomllib
from pathlib import Path

import pytest

from trainer.sheet.prose.layout import clean_lines
from trainer.sheet.prose.listings.listing import with_listed_walls
from trainer.sheet.prose.sides_told import with_sides

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
