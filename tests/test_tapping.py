"""A tempo from taps."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from trainer.practice.tapping import LAST, tapped, with_tap

TAPS = [
    ([], None, "none"),
    ([1.0, 1.6], None, "two may be an accident"),
    ([1.0, 1.6, 2.2], 100, "three in time"),
    ([0.0, 0.5, 1.0, 1.5, 2.1, 2.5, 3.0], 119, "one late tap matters little"),
    ([1.0, 1.0, 1.0], None, "no time between them"),
]


@pytest.mark.parametrize(("taps", "tempo", "why"), TAPS)
def test_a_tempo_is_told_from_three_taps_on(taps, tempo, why):
    assert tapped(taps) == tempo, why


@given(tempo=st.integers(30, 220), start=st.floats(0, 1e6), size=st.integers(3, 40))
def test_even_taps_give_their_own_tempo(tempo, start, size):
    taps: tuple[float, ...] = ()
    for place in range(size):
        taps = with_tap(taps, start + place * 60 / tempo)
    assert len(taps) == min(size, LAST)
    assert tapped(taps) == Fraction(tempo)


def test_a_pause_begins_anew():
    assert with_tap((1.0, 1.5, 2.0), 4.2) == (4.2,)
    assert with_tap((1.0, 1.5, 2.0), 4.0) == (1.0, 1.5, 2.0, 4.0)
