"""Every glyph that is drawn takes one cell, and every line of a drawing is equally long."""

from fractions import Fraction

import pytest
from wcwidth import wcwidth  # outside check: width of glyphs in a terminal

from trainer.screens import blocks, dial, pixels

ALPHABET = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789ae&+-/:.%←→↑↓ 1½"


def test_all_glyphs_are_one_cell_wide() -> None:
    assert {wcwidth(glyph) for glyph in pixels.GLYPHS} == {1}


@pytest.mark.parametrize("rows", [1, 2, 4, 5, 8, 11, 17, 26])
def test_letters_use_those_glyphs_only_and_all_lines_are_equally_long(rows: int) -> None:
    lines = blocks.render(ALPHABET, rows=rows)
    assert len(lines) == rows
    assert {len(line) for line in lines} == {blocks.width_of(ALPHABET, rows=rows)}
    assert set("".join(lines)) <= set(pixels.GLYPHS)


@pytest.mark.parametrize(("columns", "rows"), [(22, 11), (33, 17), (55, 26), (12, 6), (1, 1)])
def test_dials_use_those_glyphs_only_and_all_lines_are_equally_long(columns: int, rows: int) -> None:
    for turn in (Fraction(0), Fraction(1, 4), Fraction(-1), Fraction(9, 4)):
        lines = dial.render(columns, rows, facing=Fraction(1, 8), turn=turn)
        assert [len(line) for line in lines] == [columns] * rows
        assert set("".join(lines)) <= set(pixels.GLYPHS)
