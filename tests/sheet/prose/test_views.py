"""Views of a page, the sheet's own word for a section, and how words between counts are parted."""

import pytest

from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.order.told import is_order
from trainer.sheet.prose.page.parting import Words, searched
from trainer.sheet.prose.reader import read_prose
from trainer.sheet.prose.text.layout import Line, clean_lines
from trainer.sheet.prose.views.section_words import with_section_words
from trainer.sheet.prose.views.views import views_of

WRAPPED = """\
Step forward with the right on one and hitch the left knee on two; step back with the
left on three and touch the right beside it on four. Walk back right on five, left on
six, right on seven, and touch the left on eight.

On the third wall, which begins at the back, stop after the first four counts. Begin
again from the top, still facing the back.
"""


def lines_of(text: str) -> tuple[Line, ...]:
    return with_facings(clean_lines(text))


def test_a_wrapped_paragraph_has_three_views() -> None:
    plain, telling, everything = views_of(lines_of(WRAPPED), is_order)
    assert [line.number for line in plain] == [1, 2, 3, 5, 6]
    assert [line.number for line in telling] == [1, 2, 3, 5], "the order as one line, the steps as they stand"
    assert [line.number for line in everything] == [1, 2, 5], "each sentence of the steps begins a line"
    assert [token for line in plain for token in line.tokens] == [token for line in everything for token in line.tokens]


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (
            "1-2  walk R, L\n3&4  shuffle R\n5-6  rock L fwd, recover R\n7&8  coaster L",
            "lines of counts are no paragraph",
        ),
        ("Walk right.\nWalk left.\nTouch right.", "short lines end where something ends"),
        ("1 | step R | 12:00\n2 | step L | 12:00", "cells are no paragraph"),
    ],
)
def test_other_pages_have_one_view(text: str, why: str) -> None:
    assert len(list(views_of(lines_of(text), is_order))) == 1, why


@pytest.mark.parametrize(
    ("text", "at", "why"),
    [
        (
            "Pattern 1\nPattern 2\nPattern 3\nafter pattern 2",
            {"section 1", "section 2", "section 3", "after section 2"},
            "",
        ),
        (
            "Six no. 1\nSix no. 2\nSix no. 3",
            {"section no . 1", "section no . 2", "section no . 3"},
            "a number with no.",
        ),
        ("Round one\nRound two", {"round one", "round two"}, "two are too few to know"),
        ("Wall 1\nWall 2\nWall 3", {"wall 1", "wall 2", "wall 3"}, "a wall is no section"),
        ("Rock 1\nStep 2\nTouch 3", {"rock 1", "step 2", "touch 3"}, "no word comes again"),
    ],
)
def test_the_word_that_numbers_sections_is_read_as_section(text: str, at: set[str], why: str) -> None:
    assert {line.words for line in with_section_words(lines_of(text))} == at, why


def parted(words: list[str], usual: list[int]) -> list[str]:
    """Part words in gaps around marks of one count each; return the words of each mark."""
    gaps = [tuple(token for line in clean_lines(text) for token in line.tokens) if text else () for text in words]

    def joined(mark: int, head: Words, tail: Words) -> Words:
        return (*head, *tail)

    texts, _ = searched(gaps, usual, joined, lambda mark, text: fills(text, 1))
    return [" ".join(token.text for token in text if token.kind == "word") for text in texts]


def test_one_sentence_tells_counts_after_its_words_and_the_next_before() -> None:
    # "rock right forward on one and recover left on two. On three step back right, on four touch left."
    words = ["rock right forward", "recover left", ".", "step back right ,", "touch left ."]
    found = parted(words, [0, 0, 0, 0, 0])
    assert found == ["rock right forward", "recover left", "step back right", "touch left"]


def test_what_fits_stays_as_the_sheet_parts_it() -> None:
    words = ["", "step right ,", "touch left", "step left ,", "touch right"]
    assert parted(words, [0, 3, 2, 3, 2]) == ["step right", "touch left", "step left", "touch right"]


HEAD = """\
LOW WATER
32 counts, 4 walls. Weight on L. Rolling count: every beat is 1 & a, and we only use the a.

"""
SECTION = """\
SECTION {n}
1-2  walk R, L
3&4  shuffle forward R L R
5-6  rock L forward, recover R
7&8  L coaster step
"""


def test_a_head_that_explains_the_counts_is_no_dance() -> None:
    routine, _ = read_prose(HEAD + SECTION.format(n=1) + "\n" + SECTION.format(n=2))
    assert [section.counts for section in routine.parts[0].sections] == [8, 8]


def test_a_section_may_be_told_as_another_once_more() -> None:
    text = HEAD + SECTION.format(n=1) + "\nSECTION 2\nSection 1 once more, all eight counts.\n"
    routine, problems = read_prose(text)
    first, second = routine.parts[0].sections
    assert [event.move for event in second.events] == [event.move for event in first.events]
    assert not problems


def test_an_extra_may_carry_on_the_numbers_of_its_wall() -> None:
    text = (
        HEAD.replace("32", "16")
        + SECTION.format(n=1)
        + "\n"
        + SECTION.format(n=2)
        + "\nChange: on wall 3 leave out counts 15-16 and put in this instead, then go on with wall 4:\n"
        + "15   L step together\n16   hold\n"
    )
    routine, _ = read_prose(text)
    (change,) = routine.extras
    assert change.kind == "change"
    assert [event.label for event in change.events] == ["7", "8"]
    assert sum(section.counts for section in routine.parts[0].sections) == 16


def test_a_colon_after_a_count_still_parts_the_words() -> None:
    text = (
        HEAD
        + "SECTION 1\n"
        + "Walk right on 1 and left on 2. Left coaster step on 3&4: left back, right together, left "
    )
    routine, problems = read_prose(text + "forward. Walk right on 5, left on 6, right on 7, touch left on 8.\n")
    events = routine.parts[0].sections[0].events
    assert [event.label for event in events] == ["1", "2", "3", "&", "4", "5", "6", "7", "8"]
    assert not problems
