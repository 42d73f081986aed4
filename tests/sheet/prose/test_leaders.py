"""Dot leaders part cells, set close or spaced; o'clock may be shortened."""

import pytest

from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.text.layout import clean_lines


@pytest.mark.parametrize(
    "line",
    [
        "RECOVER ON LT ....... 5-6",
        "RECOVER ON LT . . . . . . 5-6",
        "RECOVER ON LT _____ 5-6",
        "RECOVER ON LT _ _ _ _ 5-6",
    ],
)
def test_a_leader_parts_the_words_from_their_counts(line: str) -> None:
    (one,) = clean_lines(line)
    assert [" ".join(token.text for token in cell) for cell in one.cells] == ["RECOVER ON LT", "5 - 6"]


@pytest.mark.parametrize("said", ["3 o'clock", "3 oclock", "3 o'c", "3 o'cl"])
def test_a_shortened_o_clock_states_a_facing(said: str) -> None:
    (line,) = with_facings(clean_lines(f"1-2  turn a quarter right, step on left    {said}"))
    assert line.tokens[-1].kind == "facing"
