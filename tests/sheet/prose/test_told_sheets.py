"""What whole sheets tell of their order, sentence by sentence as their teachers wrote it.

Each row: the dance (counts, phrase or parts), the order lines, what they tell, what is particular about them. The places,
walls and extras agree with the truth files that were written beside these sheets.
"""

import pytest

from tests.sheet.prose.telling_text import as_text, known, told_of
from trainer.sheet.prose.order.telling import Known
from trainer.sheet.prose.tokens import lines_of


def _heading(text: str, line: int) -> tuple[object, ...]:
    """The tokens of an extra's heading, as the page found it."""
    return lines_of("\n" * (line - 1) + text)[-1]


BISCUIT = known(32, walls=4)
WINDFALL = Known(
    phrase=8,
    sections=tuple((name, 8, "") for name in ("A1", "A2", "A3", "A4", "B1", "B2")),
    parts=(("A", 32), ("B", 16)),
)
COPPER = known(64, walls=4)
SALTMARSH = Known(
    phrase=8,
    sections=tuple((name, 8, "") for name in ("A1", "A2", "A3", "A4", "B1", "B2")),
    parts=(("A", 32), ("B", 16)),
    extras=(("tag", "Tag", 8, ()),),
)
PLUM = Known(
    phrase=8,
    sections=tuple((name, 8, "") for name in ("A1", "A2", "A3", "A4", "B1", "B2", "C1")),
    parts=(("A", 32), ("B", 16), ("C", 8)),
    walls=2,
)
THISTLE = Known(
    phrase=8,
    sections=tuple((name, 8, "") for name in ("A1", "A2", "B1", "B2", "C1")),
    parts=(("A", 16), ("B", 16), ("C", 8)),
    extras=(("intro", "Intro", 4, ()),),
)
FIGURES = Known(phrase=8, sections=tuple((name, 8, "") for name in ("i", "ii", "iii", "iv")), walls=4)
NETTLE = known(
    48, walls=2, ends={7: 2, 8: 4, 9: 6, 10: 8, 12: 10, 14: 14, 15: 16, 18: 18, 19: 20, 20: 22, 21: 24, 24: 26, 41: 48}
)

ROWS = [
    (BISCUIT, "W go 12, 9, 6, 3. No tags, no restarts :)", ["1@12:00", "2@9:00", "3@6:00", "4@3:00"], "the walls listed by clock"),
    (COPPER, "THE WALLS\n1  begins at 12, all 64\n2  begins at 3, all 64\n3  begins at 6, counts 1-16 with a change: replace counts 15-16 with: touch R beside L, hold. Restart, facing 12\n6  begins at 6, counts 1-32, then restart, facing 9\n7  begins at 9, all 64",
     ["1@12:00", "2@3:00", "3@6:00: 15-16 become Change restart @12:00", "6@6:00: after 32 restart @9:00", "7@9:00", "change Change (2): touch R beside L, hold"], "a row for each wall, with a changed restart"),
    (Known(8, COPPER.sections, extras=(("ending", "Finish", 3, _heading("THE FINISH (you are at 9 o'clock, R is free)", 3)),)),  # type: ignore[arg-type]
     "8  begins at 12, counts 1-24, then the finish\n\nTHE FINISH (you are at 9 o'clock, R is free)", ["8@12:00: after 24 ending Finish end"], "an ending whose steps stand below"),
    (known(32, walls=2), "There is one tag. At the end of the second wall you will be back at the front: stomp right (1), stomp left (2), clap twice (3,4). Then start again.",
     ["2: after 32 tag Tag @12:00", "tag Tag: stomp right (1), stomp left (2), clap twice (3,4)"], "counts inside the steps; starting again at a wall's end is no restart"),
    (known(48, phrase=6, walls=2), "RESTART: on wall 4 (starting at 6:00) after count 24, facing 12:00.\nBRIDGE: on wall 2 after count 12 do: L fwd, touch R beside L, hold, R back, touch L beside R, hold (6 counts) and carry on.",
     ["2: after 12 bridge Bridge", "4@6:00: after 24 restart @12:00", "bridge Bridge (6): L fwd, touch R beside L, hold, R back, touch L beside R, hold"], "a waltz; the length after the steps"),
    (known(32, walls=2), "Restart: 2nd wall, after 16 counts. You will be facing 3:00.\nTag: wall 4, dance 30 counts, then hold 2 counts and start from the top.",
     ["2: after 16 restart @3:00", "4: after 30 hold 2 restart"], "a tag that is a hold before a restart"),
    (known(32, walls=2), "Sequence of walls: front, right, back, left and so on.\nThird wall: leave out block four and start over (you will be looking at the back).",
     ["1@12:00", "2@3:00", "3@6:00: after 24 restart @6:00"], "the plain round holds up to the wall that is cut"),
    (known(40, walls=2), "BRIDGE: during the 3rd wall, after count 16 (you face 12), add a 4 count bridge: L step side, hold, R drag, R touch, then carry on with count 17.\nRESTART during wall 5 after 24 counts, facing 9. Change count 8 of section 3 to a R touch beside L... no, just restart.\nBig finish: on wall 6 dance up to count 32, then stomp R fwd and pose.",
     ["3: after 16 bridge Bridge @12:00", "5: after 24 restart @9:00", "6: after 32 ending Ending end", "bridge Bridge (4): L step side, hold, R drag, R touch", "ending Ending: stomp R fwd and pose"], "a sentence taken back"),
    (known(24, phrase=6, walls=4), "Wall 1 starts 12:00 | Wall 2 starts 9:00 | Wall 3 starts 6:00: dance 12 counts and restart (at 3:00) | Wall 4 starts 3:00\nAfter wall 4 (you face 12:00) there is a tag of 3 counts: sway L, sway R, hold",
     ["1@12:00", "2@9:00", "3@6:00: after 12 restart @3:00", "4@3:00: after 24 tag Tag @12:00", "tag Tag (3): sway L, sway R, hold"], "walls in a line of cells"),
    (known(32, walls=2), "Restarts: walls 2 & 5, both after 16 counts", ["2,5: after 16 restart"], "two walls at once"),
    (known(32, walls=2), "Plan: W1 all. W2 all. W3 16 then restart. W4 all + tag. W5 all. W6 16 then restart.\nTag (after wall 4): 1-2 right heel, close. 3-4 left heel, close.",
     ["3,6: after 16 restart", "4: after 32 tag Tag", "tag Tag: 1-2 right heel, close 3-4 left heel, close"], "the tag said twice is danced once"),
    (known(32, walls=4), "Sequence notes: wall 2 restart after section 2.", ["2: after 16 restart"], "remarks before it"),
    (FIGURES, "How the walls go\nThe dance turns a quarter right each wall. On the fourth wall (which starts facing nine o'clock) dance figures i and ii, then restart. After the sixth wall add this four-count tag: rocking chair with the right foot.",
     ["4@9:00: after 16 restart", "6: after 32 tag Tag", "tag Tag (4): rocking chair with the right foot"], "sections in Roman numerals"),
    (known(40, walls=4), "TAG, 4 counts, end of W2 (you face 6h): Rf out, Lf out, Rf in, Lf in\nRESTARTS: W3 after 16, W5 after 16\nENDING: W7, after count 8 of section 2 turn 1/2 L and stomp Rf",
     ["2: after 40 tag Tag @6:00", "3,5: after 16 restart", "7: after 16 ending Ending end", "tag Tag (4): Rf out, Lf out, Rf in, Lf in", "ending Ending: turn 1/2 L and stomp Rf"], "shorthand with 6h"),
    (SALTMARSH, "A = 32, B = 16, T = tag 8. Wall count 1.\nOrder: A, A, T, B, A, B, B", ["play A A Tag B A B B"], "T for the tag"),
    (known(32, walls=2), "There is a restart on wall 4, after the second eight; you'll be looking at 9:00 and it becomes your new front.", ["4: after 16 restart @9:00"], "a new front is no facing"),
    (NETTLE, "\n" * 21 + "  ** Restart here on wall 4 **\n" + "\n" * 25 + "The tag: 2 counts, after walls 1 and 3 - bump hips right, left.",
     ["1,3: after 48 tag Tag", "4: after 24 restart", "tag Tag (2): bump hips right, left"], "a marker that stands at its place"),
    (known(48, phrase=6, walls=4), "Wall 2 (begins 9:00): after 12 counts restart. Wall 6: stop after section seven and strike a pose.", ["2@9:00: after 12 restart", "6: after 42 end"], "an end with a pose"),
    (PLUM, "Phrased, 3 parts. A (32), B (16), C (8). Two walls. Start on count 17, left foot carries you.\nSEQUENCE: A B A C A(first 16) B B C", ["play A B A C A B B C", "A3: after 16 next"], "lengths of parts are no order; one A is cut short"),
    (known(16, walls=4), "Order of the walls: 12, 9, 6, 3\nAfter wall 2 hold for 4 counts", ["1@12:00", "2@9:00: after 16 hold 4"], "a list and a hold"),
    (THISTLE, "How to dance it: Intro (4), A, B, A, B, C, A (8 counts only), B, B", ["play A B A B C A B B", "A3: after 8 next"], "a danced intro opens the list"),
    (known(40, walls=4), "RS: W3 (16 cts, 9:00) & W6 (32 cts + 2ct tag: stomp R, stomp L)", ["3: after 16 restart @9:00", "6: after 32 tag Tag restart", "tag Tag (2): stomp R, stomp L"], "all in brackets"),
    (known(36, walls=4), "Bridge: third wall, between sections 2 and 3: clap four times (4 counts), then go on with section 3.\nRestart: fifth wall, after section 4. Facing 9 o'clock when you restart.",
     ["3: after 16 bridge Bridge", "5: after 32 restart @9:00", "bridge Bridge (4): clap four times"], "between sections"),
    (known(16, walls=2), "wall 3 restarts after 8a of Sec 1 (facing 12)", ["3: after 8 restart @12:00"], "the a that closes a section"),
]  # fmt: skip


@pytest.mark.parametrize(("dance", "text", "expected", "reason"), ROWS)
def test_a_sheet_tells_its_order(dance: Known, text: str, expected: list[str], reason: str) -> None:
    assert as_text(told_of(text, dance)) == expected, reason


def test_a_tag_that_the_order_of_play_dances_already_is_not_danced_twice() -> None:
    dance = Known(
        phrase=8,
        sections=WINDFALL.sections,
        parts=WINDFALL.parts,
        extras=(("tag", "Tag", 8, _heading("TAG (8 counts), once only, after the second B", 5)),),  # type: ignore[arg-type]
    )
    text = "Order of play: A A B A A B Tag B\n\n\n\nTAG (8 counts), once only, after the second B"
    assert as_text(told_of(text, dance)) == ["play A A B A A B Tag B"]


FAULTS = [
    (BISCUIT, "W go 12, 9, 6, 3. No tags, restart W3 after S5 :)", ["1@12:00", "2@9:00", "3@6:00", "4@3:00", "error 1:45 There is no S5: the dance has four sections"], "a section too many"),
    (COPPER, "6  begins at 6, counts 1-72, then restart, facing 9", ["error 1:26 There is no count 72: the dance has 64 counts"], "a count too many in a wall's row"),
    (known(32), "There is one tag. After section nine of the second wall you will be back at the front: stomp right (1), stomp left (2).", ["error 1:25 There is no section nine: the dance has four sections"], "a section in words"),
    (known(48, phrase=6), "RESTART: on wall 4 (starting at 6:00) after count 50, facing 12:00.", ["error 1:51 There is no count 50: the dance has 48 counts"], "a count of a waltz"),
    (known(32), "Third wall: leave out block six and start over (you will be looking at the back).", ["error 1:23 There is no block six: the dance has four sections"], "a section left out"),
    (known(24, phrase=6), "Wall 1 starts 12:00 | Wall 3 starts 6:00: dance 42 counts and restart (at 3:00)", ["1@12:00", "error 1:49 There is no count 42: the dance has 24 counts"], "in a line of cells"),
    (known(32), "Restarts: walls 2 & 5, both after 61 counts", ["error 1:35 There is no count 61: the dance has 32 counts"], "told once for both walls"),
    (known(32), "Plan: W1 all. W2 all. W3 36 then restart. W4 all.", ["error 1:26 There is no count 36: the dance has 32 counts"], "in a list of walls"),
    (known(32), "Sequence notes: wall 2 restart after section 9.", ["error 1:38 There is no section 9: the dance has four sections"], "with a remark before"),
    (known(40), "RESTARTS: W3 after 60, W5 after 16", ["5: after 16 restart", "error 1:20 There is no count 60: the dance has 40 counts"], "one of two"),
    (known(48), "The tag: 2 counts, after section 8 of walls 1 and 3 - bump hips right, left.", ["error 1:26 There is no section 8: the dance has six sections"], "the place of a tag"),
    (known(36), "Restart: fifth wall, after section 14. Facing 9 o'clock when you restart.", ["error 1:28 There is no section 14: the dance has five sections"], "a slip of a digit"),
    (known(32), "Restart on wall 3 after count 20 of section 2", ["error 1:31 There is no count 20 in section 2: it has 8 counts"], "a count that its section does not have"),
    (known(32), "Bridge: wall 3 after count 16, clap twice, then carry on with count 25", ["3: after 16 bridge Bridge", "bridge Bridge: clap twice", "error 1:69 After 16 counts the dance goes on with count 17, not 25"], "the place told twice, and not alike"),
    (known(32), "Restart on wall 4 after 16 counts.\nOn wall 4 restart after 24 counts.", ["4: after 16 restart", "error 2:1 Wall 4 cannot be left after 24 counts: it was said to be left after 16"], "one wall left twice"),
    (known(32), "Ending: wall 6, after 16 counts stomp R.\nRestart on wall 8 after 16 counts.", ["6: after 16 ending Ending end", "8: after 16 restart", "ending Ending: stomp R", "error 2:9 There is no wall 8: the dance ends in wall 6"], "a wall after the end"),
    (known(32), "Tag after wall 2 and wall 4.", ["error 1:5 The sheet has no tag: its steps are missing"], "a tag without steps"),
    (known(32), "Tag 1 after wall 1: clap, clap. Tag 3 after wall 3.", ["1: after 32 tag Tag 1", "tag Tag 1: clap, clap", "error 1:39 There is no tag 3: the sheet has one tag"], "a tag by a number that there is not"),
    (known(32), "Restart on wall 3.", ["error 1:9 It is not said after which count wall 3 restarts"], "a restart without a place"),
    (known(32), "Restart on wall 0 after 16 counts", ["error 1:9 There is no wall 0"], "walls are counted from 1"),
]  # fmt: skip


@pytest.mark.parametrize(("dance", "text", "expected", "reason"), FAULTS)
def test_an_order_that_cannot_be_danced_is_found_where_it_stands(
    dance: Known, text: str, expected: list[str], reason: str
) -> None:
    assert as_text(told_of(text, dance)) == expected, reason


def test_a_tag_after_a_part_that_is_never_danced_is_found_at_its_heading() -> None:
    dance = Known(
        phrase=8,
        sections=WINDFALL.sections,
        parts=WINDFALL.parts,
        extras=(("tag", "Tag", 8, _heading("TAG (8 counts), once only, after the fourth B", 5)),),  # type: ignore[arg-type]
    )
    text = "Order of play: A A B A A B Tag B\n\n\n\nTAG (8 counts), once only, after the fourth B"
    assert as_text(told_of(text, dance)) == [
        "play A A B A A B Tag B",
        "error 5:28 There is no B number 4: the order of play has only three Bs",
    ]
