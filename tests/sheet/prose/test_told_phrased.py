"""Orders of play of phrased dances, and what is told of their parts; headings of extras whose steps stand below them."""

import pytest

from tests.sheet.prose.telling_text import as_text, told_of
from trainer.sheet.prose.order.telling import Known
from trainer.sheet.prose.tokens import lines_of
from trainer.terms import ExtraKind

SECTIONS = tuple((name, 8, "") for name in ("A1", "A2", "A3", "A4", "B1", "B2"))
PARTS = (("A", 32), ("B", 16))
TAG = (("tag", "Tag", 4, ()),)
SONG = Known(
    phrase=8,
    sections=tuple((name, 8, "") for name in ("Verse1", "Verse2", "Chorus1", "Chorus2", "Middle1")),
    parts=(("Verse", 16), ("Chorus", 16), ("Middle", 8)),
)

PLAYS = [
    ("Order of play: A A B A A B Tag B", ["play A A B A A B Tag B"], "letters parted by blanks"),
    ("Sequence: A, A, B, Tag, A, B, B", ["play A A B Tag A B B"], "by commas"),
    ("Sequence - AAB Tag AABB", ["play A A B Tag A A B B"], "written in one"),
    ("A-A-B-A-A-B-B", ["play A A B A A B B"], "by dashes, with no word before"),
    ("Phrasing: A B A B tag A B B", ["play A B A B Tag A B B"], "phrasing"),
    ("Sequence: A x 2, B, A x 2, B x2", ["play A A B A A B B"], "how often after the letter"),
    ("Order: 2 x A, B, 2 x A, B", ["play A A B A A B"], "how often before the letter"),
    ("Order: A B A(16) B B", ["play A B A B B", "A2: after 16 next"], "a cut in brackets"),
    ("Order: A, B, A16, B, B", ["play A B A B B", "A2: after 16 next"], "a cut glued to the letter"),
    ("Order: A B A (first 16 counts only) B B", ["play A B A B B", "A2: after 16 next"], "a cut in words"),
    ("Order: A B A (to section 3) B B", ["play A B A B B", "A2: after 24 next"], "a cut by sections"),
    ("Order: A B A (without the last 8) B B", ["play A B A B B", "A2: after 24 next"], "a cut from the end"),
    ("Order: A (12:00) B (6:00) A (6:00) B (12:00)", ["play A B A B", "A1@12:00", "B1@6:00", "A2@6:00", "B2@12:00"], "where each part begins"),
    ("Order: A B A B, and repeat", ["play A B A B repeat"], "again and again"),
    ("Sequence: A, B, hold 4, A, B", ["play A B hold 4 A B"], "a hold between parts"),
    ("The order is: Part A, Part A, Part B, Part A, Part B, Part B", ["play A A B A B B"], "with the word part"),
    ("A A B A B B\nRestart: on the third A after 16 counts", ["play A A B A B B", "A3: after 16 restart"], "a restart in a part"),
    ("Order: A B A A B B\nOn the second A dance 16 counts, then start again", ["play A B A A B B", "A2: after 16 next"], "a restart where the same part comes next"),
    ("Order: A B A A B B\nIn the 3rd A, after 16 counts go straight to B", ["play A B A A B B", "A3: after 16 next"], "on to the next part"),
    ("Order: A B A A B B\nAfter the second B: stomp R, stomp L, hold 2", ["play A B A A B B", "B2: after 16 tag Tag 2", "tag Tag 2: stomp R, stomp L, hold 2"], "a tag told by its part"),
    ("Order: A B A A B B\nWall 4: restart after 8 counts", ["play A B A A B B", "A3: after 8 restart"], "the fourth part danced is the third A"),
    ("Order: A B A A B B\nWall 9: restart after 8 counts", ["play A B A A B B", "error 2:1 There is no wall 9: the order of play has 6 parts"], "more walls than parts"),
    ("Order: A B A A B B\nRestart on the fourth B after 8 counts", ["play A B A A B B", "error 2:9 There is no B number 4: the order of play has only three Bs"], "more Bs than are danced"),
    ("Order: A B A (first 40) B B", ["play A B A B B", "error 1:21 There is no count 40: part A has 32 counts"], "a cut beyond the part"),
    ("A is 32 counts, B is 16 counts.", [], "lengths only"),
    ("Parts: A (32), B (16)", [], "lengths in brackets"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "expected", "reason"), PLAYS)
def test_an_order_of_play(text: str, expected: list[str], reason: str) -> None:
    dance = Known(phrase=8, sections=SECTIONS, parts=PARTS, extras=TAG)  # type: ignore[arg-type]
    assert as_text(told_of(text, dance)) == expected, reason


def test_parts_may_have_names_of_the_song() -> None:
    text = "Order: Verse, Chorus, Verse, Middle, Chorus, Chorus\nDuring the 2nd chorus restart after 8 counts"
    assert as_text(told_of(text, SONG)) == [
        "play Verse Chorus Verse Middle Chorus Chorus",
        "Chorus2: after 8 next",
    ]


HEADINGS: list[tuple[ExtraKind, int | None, str, list[str], str]] = [
    ("tag", 4, "TAG (end of wall 2)", ["2: after 32 tag It"], "the place in brackets"),
    ("tag", 4, "4 count tag at the end of walls 2 and 4 (facing 6:00 and 12:00)", ["2: after 32 tag It @6:00", "4: after 32 tag It @12:00"], "two walls, two facings"),
    ("tag", 4, "After wall 3:", ["3: after 32 tag It"], "no more than the place"),
    ("tag", 8, "Tag - danced once, at the end of the fifth wall, 8 counts", ["5: after 32 tag It"], "the place between other words"),
    ("tag", 4, "Tag & restart: wall 4 after 16 counts", ["4: after 16 tag It restart"], "a tag and a restart"),
    ("bridge", 8, "BRIDGE - wall 3 after section 2, then carry on with section 3", ["3: after 16 bridge It"], "inside a wall"),
    ("bridge", 8, "Bridge (between sections 2 and 3 of the 4th wall)", ["4: after 16 bridge It"], "between sections"),
    ("change", 2, "CHANGE FOR WALL 3, counts 15-16 (then restart)", ["3: 15-16 become It restart"], "the counts that are changed"),
    ("change", 2, "Wall 5: instead of counts 31-32", ["5: 31-32 become It"], "instead of counts"),
    ("ending", 3, "ENDING: wall 8, after 24 counts", ["8: after 24 ending It end"], "the end"),
    ("ending", None, "To finish at the front: wall 9 after count 16", ["9: after 16 ending It end"], "to finish"),
    ("ending", 3, "Ending", [], "an ending without a place is danced when the music ends"),
    ("intro", 16, "Danced intro, starts facing 6:00", [], "a danced intro"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "counts", "heading", "expected", "reason"), HEADINGS)
def test_the_heading_of_an_extra_says_where(
    kind: ExtraKind, counts: int | None, heading: str, expected: list[str], reason: str
) -> None:
    sections = tuple((str(place), 8, "") for place in range(1, 5))
    dance = Known(phrase=8, sections=sections, extras=((kind, "It", counts, lines_of(heading)[0]),))
    assert as_text(told_of(heading, dance)) == expected, reason


def test_the_facing_of_a_danced_intro_is_told() -> None:
    heading = lines_of("Danced intro (starts at 6:00)")[0]
    dance = Known(phrase=8, sections=SECTIONS, extras=(("intro", "Intro", 16, heading),))
    assert str(told_of("", dance).intro_starts) == "1/2"


def test_an_extra_that_is_danced_nowhere_is_a_warning() -> None:
    dance = Known(phrase=8, sections=SECTIONS, extras=(("tag", "Tag", 4, lines_of("\n\nTag (4 counts)")[-1]),))
    assert as_text(told_of("", dance)) == ["warning 3:1 It is not said where the tag is danced"]
