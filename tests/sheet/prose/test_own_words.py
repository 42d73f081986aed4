"""A sheet's own names for its extras and sections, and what is broken at its margin."""

import pytest

from trainer.sheet.prose.habits.nicknames import with_nicknames
from trainer.sheet.prose.habits.walls_spoken_of import walls_spoken_of
from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.reader import read_prose
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.prose.views.section_words import with_section_words


@pytest.mark.parametrize(
    ("heading", "said", "read"),
    [
        ("THE LID (that's our tag, 4 counts)", "Wall 2 all of it, then THE LID", "then the tag"),
        ("Lantern Bit = the bridge", "wall 3: 16 counts, Lantern Bit, carry on", "16 counts , bridge , carry"),
        ("THE BOW - ending", "wall 6: 8 counts then THE BOW", "then the ending"),
        ('Tag "The Kettle"', "after wall 2 dance The Kettle", "dance the tag"),
        ("Extra, 4 counts", "2  all, then the Extra", "then the tag"),
        ("Jingle (4 counts)", "at the end of wall 3 add the Jingle", "add the tag"),
    ],
)
def test_a_name_of_an_extra_is_read_as_the_extra(heading: str, said: str, read: str) -> None:
    lines = with_nicknames(clean_lines(f"TITLE OF IT\n{heading}\n{said}"))
    assert read in lines[2].words


@pytest.mark.parametrize(
    "heading",
    [
        "Jam Jar - 24 counts, 1 tag",
        "WALKS, 8 counts",
        "Section 2 (the tag comes here)",
        "WALKS: touch and tag along",
        "walk (tag)",
    ],
)
def test_what_is_no_name_is_left_alone(heading: str) -> None:
    lines = clean_lines(f"TITLE\n{heading}\nJam Jar WALKS walk Section 2")
    assert with_nicknames(lines) == lines


def test_extras_of_a_kind_keep_apart_by_number() -> None:
    lines = with_nicknames(clean_lines("TITLE\nTHE LID (tag)\nTHE LABEL (tag)\nwall 2 LID, wall 4 LABEL"))
    assert "wall 2 tag 1 , wall 4 tag 2" in lines[3].words


def test_a_word_for_sections_is_known_in_the_plural() -> None:
    lines = with_section_words(clean_lines("BOX ONE: a\nBOX TWO: b\nBOX THREE: c\nBoxes One and Two only"))
    assert lines[3].words == "sections one and two only"


@pytest.mark.parametrize(
    ("text", "line"),
    [
        ('step the right home on\n"and" close the left', 'on " and " close the left'),
        ("shuffle forward on three-\nand-four, rock", "three - and - four , rock"),
    ],
)
def test_a_count_broken_at_the_margin_is_whole(text: str, line: str) -> None:
    assert clean_lines(text)[1].words == line


def test_facts_go_on_over_the_margin() -> None:
    lines = clean_lines("MARROW OF THE SHOW is an improver dance of thirty-two\ncounts and two walls")
    facts = header_facts([line.tokens for line in lines])
    assert (facts.counts, facts.walls) == (32, 2)


def test_the_length_of_a_part_is_not_that_of_the_dance() -> None:
    part = "has sixteen counts\n" + "1-4 walk R, L, R, L\n5-8 walk R, L, R, L\n" * 2
    routine, problems = read_prose(f"KITES\n\nA {part}\nB {part}\nPlay: A, B, A, B\n")
    assert routine.counts is None
    assert [part.counts for part in routine.parts] == [16, 16]
    assert not [problem for problem in problems if problem.kind == "counts"]


@pytest.mark.parametrize(
    ("text", "noun"),
    [
        ("In heat 3, which begins at the front, restart.", "heat"),
        ("After ambles 2 and 5 comes the tag.", "amble"),
        ("At the end of the fourth run-through add the tag.", "run-through"),
        ("Saunter II (12:00): all\nSaunter III: restart after 8", "saunter"),
    ],
)
def test_the_noun_of_walls_is_the_one_of_which_the_order_is_told(text: str, noun: str) -> None:
    assert walls_spoken_of(clean_lines(text)) == noun


@pytest.mark.parametrize(
    "text",
    [
        "Wall 3: restart after shelf 2. In shelf 1 we clap.",
        "SHELF 1\n1-2 step right, touch left\nSHELF 2\n1-2 step left, touch right\nRestart after shelf 1.",
        "On the second bring the left up, and start again.",
        "Step in place on the spot 4-6, then restart. Begin again from rung 1 after rung 24.",
        "The first refrain ends at 9:00, the second refrain is the last.",
    ],
)
def test_what_heads_steps_or_counts_them_is_no_noun_of_walls(text: str) -> None:
    assert walls_spoken_of(clean_lines(text)) == ""
