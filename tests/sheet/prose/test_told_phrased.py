"""Orders of play of phrased dances, and what is told of their parts; headings of extras whose steps stand below."""

from typing import Any

import pytest

from tests.sheet.prose.telling_text import NOT_UNDERSTOOD, as_text, known, rows_of, told_of
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.text.tokens import lines_of

SECTIONS = tuple((name, 8, "") for name in ("A1", "A2", "A3", "A4", "B1", "B2"))
PHRASED = Known(phrase=8, sections=SECTIONS, parts=(("A", 32), ("B", 16)), extras=(("tag", "Tag", 4, ()),))
SONG = Known(
    phrase=8,
    sections=tuple((name, 8, "") for name in ("Verse1", "Verse2", "Chorus1", "Chorus2", "Middle1")),
    parts=(("Verse", 16), ("Chorus", 16), ("Middle", 8)),
)


@pytest.mark.parametrize("row", rows_of("told_phrased.toml", "play"), ids=lambda row: row["text"])
def test_an_order_of_play(row: dict[str, Any]) -> None:
    assert as_text(told_of(row["text"], PHRASED)) == row["tells"], row["reason"]


def test_parts_may_have_names_of_the_song() -> None:
    text = "Order: Verse, Chorus, Verse, Middle, Chorus, Chorus\nDuring the 2nd chorus restart after 8 counts"
    assert as_text(told_of(text, SONG)) == [
        "play Verse Chorus Verse Middle Chorus Chorus",
        "Chorus2: after 8 next",
    ]


def test_an_order_of_play_may_be_told_in_sentences_with_facings() -> None:
    text = (
        "How it goes: Verse from the front, Chorus from the back, Verse front, and then the Middle, which looks at the "
        "front. After the Middle HOLD for 2 counts, until she sings again. Then Chorus front and Chorus back."
    )
    assert as_text(told_of(text, SONG)) == [
        "play Verse Chorus Verse Middle hold 2 Chorus Chorus",
        "Chorus1@6:00",
        "Verse1@12:00",
        "Chorus2@12:00",
        "Verse2@12:00",
        "Chorus3@6:00",
    ]


@pytest.mark.parametrize("row", rows_of("told_phrased.toml", "heading"), ids=lambda row: row["text"])
def test_the_heading_of_an_extra_says_where(row: dict[str, Any]) -> None:
    dance = known(32, extras=((row["kind"], "It", row.get("counts"), lines_of(row["text"])[0]),))
    assert as_text(told_of(row["text"], dance)) == row["tells"], row["reason"]


def test_the_facing_of_a_danced_intro_is_told() -> None:
    heading = lines_of("Danced intro (starts at 6:00)")[0]
    dance = Known(phrase=8, sections=SECTIONS, extras=(("intro", "Intro", 16, heading),))
    assert str(told_of("", dance).intro_starts) == "1/2"


def test_an_extra_that_is_danced_nowhere_is_left_to_the_laws_of_the_order() -> None:
    dance = Known(phrase=8, sections=SECTIONS, extras=(("tag", "Tag", 4, lines_of("\n\nTag (4 counts)")[-1]),))
    assert as_text(told_of("", dance)) == []


def test_sections_that_are_numbered_through_belong_to_their_parts() -> None:
    sections = tuple((str(number), 8, "") for number in range(1, 5))
    dance = Known(phrase=8, sections=sections, parts=(("Verse", 16), ("Chorus", 16)))
    text = "Order: Verse, Chorus, Verse, Chorus\nOn the second chorus, after 8 counts, hold 2 and go on"
    assert as_text(told_of(text, dance)) == ["play Verse Chorus Verse Chorus", "Chorus2: after 8 hold 2"]


def test_a_dance_of_unknown_length_tells_no_places() -> None:
    dance = Known(phrase=8, sections=())
    assert as_text(told_of("Restart on wall 3 after 16 counts", dance)) == [f"warning 1:9 {NOT_UNDERSTOOD}"]
