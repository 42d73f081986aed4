"""Which lines speak of the order, and which are steps or headings; and laws that hold for any words at all."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sheet.prose.telling_text import NOT_UNDERSTOOD, as_text, known, told_of
from trainer.sheet.prose.lexis.vocabulary import PHRASES
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.order.told import carries_on, header_facts, is_order, read_order, without_order
from trainer.sheet.prose.text.tokens import lines_of, tokens_of
from trainer.sheet.prose.words import Token

ORDER = [
    "W go 12, 9, 6, 3. No tags, no restarts :)",
    "Order of play: A A B A A B Tag B",
    "SEQUENCE: A B A C A(first 16) B B C",
    "How to dance it: Intro (4), A, B, A, B, C, A (8 counts only), B, B",
    "TAG (8 counts), once only, after the second B",
    "THE WALLS",
    "How the walls go",
    "3  begins at 6, counts 1-16 with a change: replace counts 15-16 with: touch R beside L, hold. Restart, facing 12",
    "8  begins at 12, counts 1-24, then the finish",
    "There is one tag. At the end of the second wall: stomp right (1), stomp left (2). Then start again.",
    "BRIDGE: on wall 2 after count 12 do: L fwd, touch R beside L, hold (3 counts) and carry on.",
    "Third wall: leave out block four and start over (you will be looking at the back).",
    "Wall 1 starts 12:00 | Wall 2 starts 9:00 | Wall 3 starts 6:00: dance 12 counts and restart (at 3:00)",
    "Tag (after wall 4): 1-2 right heel, close. 3-4 left heel, close.",
    "The dance turns a quarter right each wall. On the fourth wall dance figures i and ii, then restart.",
    "ENDING: W7, after count 8 of section 2 turn 1/2 L and stomp Rf",
    "  ** Restart here on wall 4 **",
    "After wall 2 hold for 4 counts",
    "RS: W3 (16 cts, 9:00) & W6 (32 cts + 2ct tag: stomp R, stomp L)",
    "No tags or restarts",
    "One restart",
    "Sequence of walls: front, right, back, left and so on.",
    "wall 3 restarts after 8a of Sec 1 (facing 12)",
    "When you start wall 5, dance 8 counts and begin again.",
]


@pytest.mark.parametrize("line", ORDER)
def test_a_line_that_speaks_of_the_order(line: str) -> None:
    assert is_order(tokens_of(line))


NO_ORDER = [
    ("1-2 Walk forward right, left", "steps"),
    ("3-4 Step left forward, hold", "a hold among steps"),
    ("5-8 Rock forward on left, recover, hold 2", "a hold with its length"),
    ("7-8 stomp RF fwd, stomp LF tog (wt LF)", "weight in brackets"),
    ("1&2&   Rf heel fwd, Rf back, Lf heel fwd, Lf back", "back is a way"),
    ("5-6 Step right forward, pivot ½ left to face the back wall (6:00)", "a wall that is faced"),
    ("Step your right foot to the side (1) and bring the left foot together (2).", "counts inside a sentence"),
    ("57-60 jazz box 1/4 R: R across L, L bk, 1/4 R with R side, L across R", "running counts"),
    ("5-8 Repeat counts 1-4 on the other foot", "steps repeated"),
    ("Counts 5 - 8: Repeat counts 1-4 of this section but forward", "steps repeated, with words for counts"),
    ("Do the Monterey again (five to eight) to twelve o'clock.", "again"),
    ("7-8 Jump both feet apart, jump together ending weight on L", "ending with weight"),
    ("Heel bounce x 4 making 1/4 turn L, ending weight on L [12:00] (5-8)", "ending with weight, count at the end"),
    ("5. FINISH THE PATTERN (4 counts only)", "a section's heading"),
    ("S2 - shuf fwd x2, piv, stomps", "a section's heading"),
    ("PART A", "a part's heading"),
    ("[Part B, section 2]", "a part's heading in brackets"),
    ("TAG", "the heading of a tag says nothing of its place"),
    ("Part A has 32 counts and takes you to the opposite wall, Part B has 16 counts", "lengths of parts"),
    ("BISCUIT TIN STOMP -- 32 ct, 4 W, beg", "a head"),
    ("32 counts, 4 walls, beginner, one tag, two restarts", "a head that announces"),
    ("Wall count: 4  //  Count: 40 (5 x 8)  //  Phrasing: one tag, two restarts", "a head that announces"),
    ("Intro: 36 counts. Weight on left foot. One bridge, one restart.", "a head that announces"),
    ("48 counts / 2 walls / waltz time, begins after 24 counts", "a head with a wait"),
    ("Start on count 17, left foot carries you.", "a head with a start"),
    ("A = 32, B = 16, T = tag 8. Wall count 1.", "a head of a phrased dance"),
    ("Option for 3-4: no turns, just walk back right, left", "an option"),
    ("(easier: do both triples without turning)", "an option in brackets"),
    ("3-4 Bump hips right, left (1-2 again)", "again in brackets"),
    ("1-4 Walk round in a circle to the left, ending at the front wall", "walks to a wall"),
    ("", "nothing"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "reason"), NO_ORDER)
def test_a_line_that_does_not(line: str, reason: str) -> None:
    assert not is_order(tokens_of(line)), reason
    assert without_order(tokens_of(line)) == (tokens_of(line), ()), reason


BESIDE = [
    ("7-8 Step L, touch R (restart here on wall 3)", "7-8 Step L, touch R", "restart here on wall 3", "in brackets"),
    ("7&8 Coaster step R *Restart here wall 4", "7&8 Coaster step R", "Restart here wall 4", "after a star"),
    ("Section 3: heels [Restart here on wall 5]", "Section 3: heels", "Restart here on wall 5", "in a heading"),
    ("7-8 Stomp R, L (tag at the end of wall 2)", "7-8 Stomp R, L", "tag at the end of wall 2", "a tag"),
    ("7-8 Stomp R, L. On wall 3 restart here.", "7-8 Stomp R, L", "On wall 3 restart here.", "a sentence"),
    ("32 counts, 4 walls, restart W3 after 16", "32 counts, 4 walls,", "restart W3 after 16", "a head"),
    ("32 ct 4 wall beg. Restart W3 after 16.", "32 ct 4 wall beg", "Restart W3 after 16.", "a head's sentence"),
    ("1-2 Rock (restart on wall 2), recover", "1-2 Rock, recover", "restart on wall 2", "in the middle"),
]  # fmt: skip


def _text(tokens: tuple[Token, ...]) -> str:
    return "".join((" " if at and not token.glued else "") + token.text for at, token in enumerate(tokens))


@pytest.mark.parametrize(("line", "steps", "remark", "reason"), BESIDE)
def test_a_remark_on_the_order_beside_steps_is_parted_from_them(
    line: str, steps: str, remark: str, reason: str
) -> None:
    tokens = tokens_of(line)
    assert not is_order(tokens), reason
    rest, found = without_order(tokens)
    assert (_text(rest), _text(found)) == (steps, remark), reason


BROKEN = [
    ("Restart on wall 3 after the second section, and on\nwall 5 after 8 counts", True, "a joining word at the end"),
    ("There is a restart on the third wall, and it comes after\n16 counts, facing the back.", True, "a number goes on"),
    ("At the end of the fourth\nwall add: stomp, stomp", True, "the wall stands in the second line"),
    ("Restart on wall 3 after 16 counts.\nwall 5 after 8 counts", False, "the sentence has ended"),
    ("Restart on wall 3 after 16 counts\nThanks to all", False, "a capital begins something new"),
    ("Restart here on wall 4, facing the back wall of the hall\n1-2 Step R, touch L", False, "steps"),
    ("Restarts: W3\n\nafter 16", False, "an empty line between"),
    ("7-8 Step R forward, touch L and\nclap", False, "steps only"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "goes_on", "reason"), BROKEN)
def test_a_broken_line_about_the_order_goes_on(text: str, goes_on: bool, reason: str) -> None:
    first, *_, last = [line for line in lines_of(text) if line]
    assert carries_on(first, last) is goes_on, reason


def test_a_marker_beside_steps_takes_the_counts_of_its_line() -> None:
    dance = known(32, ends={5: 2, 6: 4, 7: 6, 8: 8, 10: 16, 12: 32})
    assert as_text(told_of("\n" * 7 + "restart here on wall 3", dance)) == ["3: after 8 restart"]


def test_the_third_time_at_a_side_wall_needs_the_turn_of_the_dance() -> None:
    text = "The third time you face 9 o'clock, restart after 8 counts"
    assert as_text(told_of(text, known(32, walls=4, net=Fraction(1, 4)))) == ["12: after 8 restart"]
    assert as_text(told_of(text, known(32, walls=4, net=Fraction(3, 4)))) == ["10: after 8 restart"]
    assert as_text(told_of(text, known(32, walls=4)))[:1] == [f"warning 1:5 {NOT_UNDERSTOOD}"]


def test_a_wall_may_be_called_by_the_words_of_a_sections_heading() -> None:
    dance = Known(phrase=8, sections=(("1", 8, "side rocks"), ("2", 8, "jazz box"), ("3", 8, "heel grinds")))
    assert as_text(told_of("On wall 3 restart after the jazz box", dance)) == ["3: after 16 restart"]


_PHRASE_WORDS = sorted({word for phrase in PHRASES for word in phrase})
_OTHERS = [
    "1",
    "2",
    "3",
    "8",
    "16",
    "17",
    "32",
    "99",
    "1-16",
    "15-16",
    "3rd",
    "second",
    "A",
    "B",
    "C",
    "W3",
    "S2",
    "12:00",
    "9",
    "(3)",
    "6",
    "o'clock",
    "stomp",
    "R",
    "L",
    "touch",
]
_WORDS = st.sampled_from([*_PHRASE_WORDS, *_OTHERS, *".,:;|-()*&/+=!?"])
_TEXT = st.lists(_WORDS, max_size=40).map(" ".join)
_PHRASED = Known(
    phrase=8,
    sections=(("A1", 8, "walks"), ("A2", 8, ""), ("B1", 8, "")),
    parts=(("A", 16), ("B", 8)),
    extras=(("tag", "Tag", 4, tuple(tokens_of("Tag (4 counts) after the 2nd A"))),),
)


@settings(max_examples=100, deadline=None)
@given(st.lists(_TEXT, max_size=4).map("\n".join), st.sampled_from([known(32, walls=4), _PHRASED, known(0)]))
def test_any_words_are_read_without_an_error(text: str, dance: Known) -> None:
    told = told_of(text, dance)
    seen = {(line.part, number) for line in told.order for number in line.passes}
    assert len(seen) == sum(len(line.passes) for line in told.order), "a pass stands in one order line only"
    for line in told.order:
        places = [one.after for one in line.departures]
        assert places == sorted(places), "departures stand in the order danced"
        assert all(number >= 1 for number in line.passes)
    names = {(inline.kind, inline.name) for inline in told.inlines}
    assert len(names) == len(told.inlines), "no two extras share a name"


@settings(max_examples=100, deadline=None)
@given(st.text(max_size=120))
def test_any_text_is_no_order_or_order_but_never_an_error(text: str) -> None:
    tokens = [line for line in lines_of(text) if line]
    read_order(tokens, known(32))
    header_facts(tokens)
    for line in tokens:
        rest, remark = without_order(line)
        assert len(rest) + len(remark) <= len(line)
        assert isinstance(is_order(line), bool)


def test_a_very_long_line_is_read_too() -> None:
    text = "Restart on wall 3 after 16 counts. " + "and so on " * 4000
    assert as_text(told_of(text, known(32)))[:1] == ["3: after 16 restart"]
