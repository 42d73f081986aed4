"""Pictures of the app: drawn cell by cell, and small enough when they move."""

import re
from xml.etree import ElementTree

from tests.drawn import Look, Run, moving, still, text_of
from tests.pictures import PICTURES, SIZE, STILL

GROUND = "#000000"


def look(*lines: str) -> Look:
    return tuple((Run(0, line, "#ffffff", GROUND, False),) for line in lines)


def test_a_block_glyph_is_the_pixels_that_it_stands_for():
    picture = still(look("▛ █"), "corner")
    path = re.search(r' d="([^"]+)"', picture)
    assert path is not None
    assert path[1] == "M0 0h2v1h-2zM4 0h2v1h-2zM0 1h1v1h-1zM4 1h2v1h-2z"


def test_words_stand_in_their_cells_and_are_no_markup():
    picture = still(look("  a <b>  c"), "words & more")
    words = re.findall(r'<text x="(\d+)" y="13" textLength="(\d+)"[^>]*>([^<]*)</text>', picture)
    assert words == [("16", "40", "a &lt;b&gt;"), ("72", "8", "c")]
    assert ElementTree.fromstring(picture)[0].text == "words & more"


def test_what_does_not_change_is_drawn_once_and_a_row_that_comes_back_too():
    picture = moving([(0, look("one", "a")), (1, look("one", "b")), (2, look("one", "a"))], 4, "three")
    assert [picture.count(f">{words}</text>") for words in ("one", "a", "b")] == [1, 1, 1]
    assert "0%{visibility:visible}25%{visibility:hidden}50%{visibility:visible}" in picture
    assert "0%{visibility:hidden}25%{visibility:visible}50%{visibility:hidden}" in picture
    assert "prefers-reduced-motion" in picture


def test_the_text_of_a_page_has_its_lines():
    assert text_of(look("ab  ", "")) == "ab\n\n"


def test_the_pictures_of_the_readme_are_whole_and_the_moving_one_is_small():
    names = {f"{name.replace(' ', '-')}-{SIZE[0]}x{SIZE[1]}.svg" for name in (*STILL, "moving")}
    assert {path.name for path in PICTURES.iterdir()} == names
    for path in PICTURES.iterdir():
        ElementTree.parse(path)
        assert path.stat().st_size < 300_000, path.name
