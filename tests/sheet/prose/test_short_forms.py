"""Keys of every make: short forms are read by the words that a sheet gives for them, before or after the dance."""

import tomllib
from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.routine import Event
from trainer.sheet.prose.keys.finding import with_keys
from trainer.sheet.prose.keys.shortened import shortens
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.reading import read

_KEYS = tomllib.loads((Path(__file__).parent / "keys.toml").read_text(encoding="utf-8"))["key"]
_DANCE = """PLUM GATE
16 counts, 4 walls, intro 16, weight on L

{above}
1-2 R side, L touch
3-4 L side, R kick
5-6 R behind, L side
7-8 R cross, L scuff

1-2 L walk, R walk
3-4 rock L forward, recover R
5-6 L back, R together
7-8 L forward, pivot 1/4 R

Wall 3: restart after count 8.
{below}
"""
_SHORT = {
    "touch": "tc", "kick": "kk", "behind": "bh", "scuff": "scf", "walk": "wk", "recover": "rv", "together": "tg",
    "pivot": "pv", "rock": "rk", "side": "sd", "cross": "xx",
}  # fmt: skip


def _events(text: str) -> list[Event]:
    routine, problems = read(text)
    assert not loud(problems)
    assert [(line.passes, line.departures[0].after) for line in routine.order] == [((3,), 8)]
    return [event.but(words="", span=None) for event in routine.events()]


@pytest.mark.parametrize("where", ["above", "below"])
@pytest.mark.parametrize("key", _KEYS, ids=lambda key: key["text"][:40])
def test_a_key(key: dict[str, str], where: str) -> None:
    dance = _DANCE
    for word, short in _SHORT.items():
        dance = dance.replace(word, short)
    plain = _events(_DANCE.format(above="", below=""))
    assert _events(dance.format(**{"above": "", "below": "", where: key["text"]})) == plain


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("R rock, L recover, R cross, L side", "feet are no short forms"),
        ("to touch, step side, back behind", "plain words are none"),
        ("A = 32, B = 16, T = 8", "lengths"),
        ("step slide step, tap toe, side step", "moves beside each other"),
        ("Sailor step R, kick ball change, L coaster", "figures"),
        ("Music: Plum Gate, Level: improver, Walls: 4", "facts"),
    ],
)
def test_what_is_no_key(text: str, why: str) -> None:
    assert not with_keys(clean_lines(text)).keys, why


@pytest.mark.parametrize("meaning", ["cross over", "crossed over", "crossing over"])
def test_an_x_stands_for_cross(meaning: str) -> None:
    (name,) = tokens_of("xo")
    assert shortens(name, tokens_of(meaning), sure=True)
    assert not shortens(name, tokens_of("touch over"), sure=True)
