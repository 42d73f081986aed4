"""A page that was broken at a narrow margin has its teacher's lines again."""

import textwrap

import pytest

from trainer.sheet.prose.text.laid_out import without_wraps

_ROWS = """Copperleaf
32 counts, four walls, improver, begin after 16 counts with the weight on the left foot

Section 1: side, behind, shuffle, rock
1-2 Step right to the right side, step left behind right
3&4 Shuffle to the right side: right, left beside it, right
5-6 Rock left across right, recover back onto the right foot
7&8 Shuffle to the left with a quarter turn to the left (9:00)

Wall 3: dance 16 counts and restart, facing 6 o'clock as you did at its beginning
Wall 5: after the whole dance there is a tag of 4 counts, sway right, left, right, left"""

_PROSE = """Copperleaf has four walls, and the dance begins after 16 counts of the fiddle. Let the left foot have it.

Walk forward right on 1 and left on 2, then shuffle forward on 3&4. Rock forward on the left on 5, recover on 6,
and coaster step back on 7&8. You have not turned at all, and the left foot is free to go on from there again."""


@pytest.mark.parametrize("width", [38, 42, 47, 55])
@pytest.mark.parametrize("hanging", ["", "    "])
def test_rows_are_whole_again(width: int, hanging: str) -> None:
    """Rows, headings and statements of walls stay apart; what the margin broke is one line."""
    lines = _ROWS.split("\n")
    broken = [textwrap.wrap(line, width, subsequent_indent=hanging, break_on_hyphens=False) or [""] for line in lines]
    assert without_wraps("\n".join(part for one in broken for part in one)).text == _ROWS


def test_a_place_is_where_it_stands_in_the_sheet() -> None:
    """What is said of a joined line points to the line of the sheet."""
    broken = "\n".join("\n".join(textwrap.wrap(line, 42)) for line in _ROWS.split("\n"))
    page = without_wraps(broken)
    at = next(number for number, line in enumerate(page.text.split("\n"), 1) if line.startswith("1-2"))
    line, column = page.place(at, page.text.split("\n")[at - 1].index("behind") + 1)
    assert broken.split("\n")[line - 1][column - 1 :].startswith("behind")


def test_a_halved_word_is_whole() -> None:
    """A word that a hyphen breaks is one word, a compound keeps its hyphen."""
    broken = textwrap.wrap(_PROSE.replace("\n\n", " ").replace("\n", " "), 40)
    said = "\n".join(broken).replace("fiddle", "fid-\ndle", 1)
    assert "fiddle" in without_wraps(said).text


def test_lines_of_their_own_stay() -> None:
    """Short lines that no margin broke are the teacher's."""
    text = "\n".join(f"{count} step right, touch left" for count in range(1, 33))
    assert without_wraps(text).text == text


def test_rows_that_leaders_make_even_stay() -> None:
    """Lines whose leaders lead to the same column were not broken there."""
    said = (
        "VINE TO THE RIGHT, TOUCH LEFT BESIDE",
        "VINE TO THE LEFT, MAKE A HALF TURN AND",
        "STEP FORWARD, TOUCH LEFT BESIDE",
    )
    text = "\n".join(f"{words} {'.' * (46 - len(words))} 4 COUNTS" for words in said * 4)
    assert without_wraps(text).text == text
