"""The drawings are those that were looked at and found good; drawing_golden.py draws them anew."""

import subprocess
import sys

import pytest
from drawing_golden import FOLDER, drawings, text
from wcwidth import wcwidth  # outside check: width of glyphs in a terminal

from trainer.screens import pixels


@pytest.mark.parametrize("name", [name for name, _ in drawings()])
def test_a_drawing_is_its_golden_file(name: str) -> None:
    assert text(dict(drawings())[name]) == (FOLDER / name).read_text(encoding="utf-8")


def test_no_golden_file_is_left_over() -> None:
    assert {path.name for path in FOLDER.iterdir()} == {name for name, _ in drawings()}


def test_all_glyphs_are_one_cell_wide() -> None:
    assert len(set(pixels.GLYPHS)) == 16
    assert {wcwidth(glyph) for glyph in pixels.GLYPHS} == {1}


def test_drawing_loads_neither_screens_nor_sound_nor_numpy() -> None:
    code = (
        "import sys; from trainer.screens import blocks, dial, marks, room; blocks.render('R', rows=5); "
        "print({'textual', 'rich', 'numpy', 'miniaudio'} & set(sys.modules))"
    )
    assert (
        subprocess.run(
            [sys.executable, "-c", code], cwd=FOLDER.parents[2], capture_output=True, text=True, check=True
        ).stdout
        == "set()\n"
    )
