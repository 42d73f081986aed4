"""A page without its layout, and where its letters stand in the sheet."""

from pathlib import Path

from tests.sheet.prose.by_walls import as_danced
from trainer.sheet.opening import opened
from trainer.sheet.prose.text.laid_out import laid_out

PLAIN = """LANTERN STEPS
16 counts, 1 wall. Weight on left.

THE WALKS
1-2 Walk forward right, left
3&4 Shuffle forward right, left, right
5-6 Rock left forward, recover on right
7&8 Step left back, close right beside left, step left forward

THE ROCKS
1-2 Step right to the side, touch left beside right
3-4 Step left to the side, touch right beside left
5-6 Rock right back, recover on left
7-8 Stomp right in place, stomp left in place
"""


def test_rules_under_headings_and_round_bullets_are_layout() -> None:
    ruled = PLAIN.replace("THE WALKS\n", "THE WALKS\n---------\n").replace("THE ROCKS\n", "THE ROCKS\n=========\n")
    assert laid_out(ruled).text == PLAIN
    bullets = "\n".join(f"o {line}" if line[1:2] in "-&" and line[:1].isdigit() else line for line in PLAIN.split("\n"))
    assert as_danced(bullets, 2) == as_danced(ruled, 2) == as_danced(PLAIN, 2)


def test_a_margin_of_tabs_is_layout() -> None:
    tabbed = "\n".join(f"\t{line}" if line else line for line in PLAIN.split("\n"))
    assert laid_out(tabbed).text == PLAIN
    assert laid_out(tabbed).place(5, 1) == (5, 2)


def test_what_is_found_stands_where_the_sheet_has_it() -> None:
    ruled = PLAIN.replace("THE WALKS\n", "THE WALKS\n---------\n").replace("Rock right back", "Rock left back")
    assert [problem.line for problem in opened(Path("sheet.txt"), ruled).problems if problem.level != "note"] == [14]
