"""The pages look as they did when they were looked at and found good; every glyph is one cell wide."""

import pytest
from wcwidth import wcwidth  # outside check: width of glyphs in a terminal

from tests.screens.looks import FOLDER, KEPT, looks, name_of


@pytest.mark.parametrize("size", KEPT, ids=lambda size: f"{size[0]}x{size[1]}")
async def test_a_page_is_its_golden_file_and_all_glyphs_of_all_pages_are_one_cell_wide(size):
    found = await looks(size)
    for page in KEPT[size]:
        name = name_of(page, size)
        assert found[page] == (FOLDER / name).read_text(encoding="utf-8"), (
            f"{name} looks different now: if that is meant, draw it anew (python -m tests.screens.looks) and look at it"
        )
    assert len(found) >= 12
    for page, text in found.items():
        lines = text.splitlines()
        assert len(lines) == size[1], page
        assert all(len(line) <= size[0] for line in lines), page
        assert {glyph for glyph in set(text) - {"\n"} if wcwidth(glyph) != 1} == set(), page


def test_no_golden_file_is_left_over():
    assert {path.name for path in FOLDER.iterdir()} == {
        name_of(page, size) for size, pages in KEPT.items() for page in pages
    }
