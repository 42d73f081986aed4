"""Count marks by their form, and the chain that tells which of them are counts of the dance."""

import pytest

from trainer.sheet.prose.counts.chain import chain
from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.counts.pairs_written import writes_pairs
from trainer.sheet.prose.counts.scan import Place
from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.text.layout import Line, clean_lines


def shown(places: tuple[Place, ...]) -> str:
    return " ".join(f"{'' if place.number is None else place.number}{place.sub}" for place in places)


def lines_of(text: str) -> tuple[Line, ...]:
    return with_facings(clean_lines(text))


def marks_of(text: str) -> list[Mark]:
    return [mark for index, line in enumerate(lines_of(text)) for mark in marks_in(line.tokens, index)]


@pytest.mark.parametrize(
    ("text", "places", "why"),
    [
        ("1&2 shuffle", ["1 1& 2"], "a group"),
        ("1 & 2 shuffle", ["1 1& 2"], "a group with blanks"),
        ("5-8: jazz box", ["5 6 7 8"], "a range"),
        ("&3-4 out, out", ["2& 3 4"], "an & before"),
        ("2a3&a4 rolling", ["2 2a 3 3& 3a 4"], "a and &a"),
        ("123 twinkle", ["1 2 3"], "a bar of waltz"),
        ("walk (1234)", ["1 2 3 4"], "counts run together"),
        ("back 5678", ["5 6 7 8"], "counts run together after their words"),
        ("123&4 walks", ["1 2 3 3& 4"], "run together before a group"),
        ("5&678 triple", ["5 5& 6 7 8"], "run together after a group"),
        ("One thing to remember", [], "a number of things in words"),
        ("1n2 shuffle", ["1 1& 2"], "n for and"),
        ("1 2& basic", ["1 2 2&"], "a count and a group"),
        ("Count 5: step L", ["5"], "the word count"),
        ("8&1 sailor", ["8 8& 9"], "over the edge of a section"),
        ("rock (5, 6)", ["5 6"], "in brackets"),
        ("triple (three and four)", ["3 3& 4"], "in words"),
        ("wall 3 begins", [], "a wall's number is no count"),
        ("hold for 4 counts", [], "a length is no count"),
        ("1/2 turn L", [], "a turn's amount is no count"),
        ("heel bounce x 4", [], "a number of times is no count"),
        ("the 2nd time", [], "an ordinal is no count"),
        ("VERSE (A)", [], "a part's letter is no a"),
        ("recover on the a, and on the & close", ["a", "&"], "halves by themselves"),
        ('close left on the "and"', ["&"], "a half in quotes"),
        ("close left on the and of 2", ["2&"], "a half with its beat"),
        ("close left on the a before 3", ["2a"], "a half before its beat"),
        ("move on a diagonal, and the a comes late", [], "an article is no count"),
        ("on the A wall", [], "a part's letter is no half"),
        ("rock on 2-a, then 3-and-4", ["2 2a", "3 3& 4"], "halves after a hyphen"),
        ("turn one-and-a-half", ["1"], "an amount is no group"),
        ("close on five, six, and seven", ["5 6 6& 7"], "a list, or a group"),
        ("counts such as 3&4 are split", [], "an example of how to count"),
    ],
)
def test_marks_are_known_by_their_form(text: str, places: list[str], why: str) -> None:
    assert [shown(mark.places) for mark in marks_of(text)] == places, why


@pytest.mark.parametrize(
    ("text", "counts", "why"),
    [
        (
            "1-8 Walks and rocks\n1-2 walk R, L\n3-4 rock\n5-8 box",
            ["1 2", "3 4", "5 6 7 8"],
            "a range that heads its counts",
        ),
        ("1. WALKS\n1-4 walk\n5-8 back\n2. BOX\n1-4 box\n5-8 again", ["1 2 3 4", "5 6 7 8"] * 2, "numbers of sections"),
        ("5-8 jazz box, turning a quarter on 7", ["5 6 7 8"], "a count inside the one before"),
        ("1-4 four hip rolls\n5-8 4 hip rolls", ["1 2 3 4", "5 6 7 8"], "a number of things"),
        ("9-10 rock\n11&12 shuffle\n13-14 rock", ["9 10", "11 11& 12", "13 14"], "counted on through the dance"),
    ],
)
def test_the_chain_takes_what_goes_on_as_counts_do(text: str, counts: list[str], why: str) -> None:
    assert [shown(link.mark.places) for link in chain(marks_of(text), 8)] == counts, why


def test_a_count_twice_is_kept_and_marked_as_broken() -> None:
    links = chain(marks_of("1-2 walk\n3-4 rock\n5-6 step\n6-7 stomp"), 8)
    assert [(shown(link.mark.places), link.broken) for link in links][-1] == ("6 7", True)


@pytest.mark.parametrize(
    ("text", "pairs", "why"),
    [
        ("walk (1234)\nback (5678)", True, "runs of four"),
        ("heel, home (12) heel, home (34) 5678", True, "pairs beside a run"),
        ("12&34 rock", True, "a half after a pair"),
        ("1&23 rock", True, "a pair after a half"),
        ("9&10 rock, 11&12", False, "counts that go on past eight"),
        ("23&24 shuffle", False, "counts of the whole dance"),
        ("tempo 123, 12 counts", False, "other numbers"),
    ],
)
def test_pairs_of_counts_run_together_are_known(text: str, pairs: bool, why: str) -> None:
    assert writes_pairs([line.tokens for line in lines_of(text)]) is pairs, why
