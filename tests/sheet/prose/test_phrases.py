"""From words to readings: the items of many sheets, notes of weight and facing, gestures, what stays unread, laws."""

import re
from fractions import Fraction
from pathlib import Path
from typing import ClassVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sheet.prose.walking import danced, item, told, walked
from trainer.sheet.prose.facing.facings import with_facings
from trainer.sheet.prose.items.phrases import Gloss, fills, item_readings, last_said
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Draft, Item, Reading
from trainer.terms import Foot, Move

SHEETS = Path(__file__).parents[2] / "data" / "wordings" / "sheets.tsv"
QUARTER, HALF = Fraction(1, 4), Fraction(1, 2)


def best(words: str, labels: str = "") -> Reading:
    return item_readings(item(words, labels), Gloss())[0]


def draft(words: str, labels: str = "1", place: int = -1) -> Draft:
    found = best(words, labels).drafts[place]
    assert found is not None
    return found


def _sheets() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for line in SHEETS.read_text(encoding="utf-8").splitlines()[1:]:
        if line.startswith("["):
            name = line.strip("[]")
        else:
            found.setdefault(name, []).append(line)
    return found


def _ends(events: str) -> list[tuple[str, str, Fraction]]:
    """Foot, weight and where a turn ends: half right and half left end alike."""
    return [(foot, after, Fraction(turn or 0) % 1) for foot, after, turn in re.findall(r"(\S)/(\S)([+-]\S+)?", events)]


class TestSheets:
    """Every item of the sheets with a truth reads as its truth says, from the weight that it has there."""

    def test_there_are_sheets(self) -> None:
        assert len(_sheets()) == 27

    @pytest.mark.parametrize("name", list(_sheets()))
    def test_items(self, name: str) -> None:
        before = None
        for line in _sheets()[name]:
            labels, weight, events, words = line.split("\t")
            found = danced(item(words, labels + " "), weight, before=before)
            assert found is not None, line
            assert _ends(told(found[0])) == _ends(events), line
            before = last_said([found[1]])


_SWAPPED = {
    "R": "L", "L": "R", "RF": "LF", "LF": "RF", "Rf": "Lf", "Lf": "Rf",
    "right": "left", "left": "right", "Right": "Left", "Left": "Right",
}  # fmt: skip
_NO_LOADED_FOOT = re.compile(
    r"bump|hips?\b|sway|unwind|jump|bounce|pivot|1/2 turn|1/4 (?:left|right), |turning|Jazz box, ", re.IGNORECASE
)
"""Words whose feet are free all the same: hips, pivots and turns, and names without a foot."""


@pytest.mark.parametrize("name", list(_sheets()))
def test_swapped_feet_are_never_danceable(name: str) -> None:
    """Whatever else a wording may mean, it must not hide that the loaded foot would have to step."""
    for line in _sheets()[name]:
        labels, weight, _, words = line.split("\t")
        swapped = re.sub(r"\b[A-Za-z]+\b", lambda match: _SWAPPED.get(match[0], match[0]), words)
        if swapped != words and not _NO_LOADED_FOOT.search(words):
            assert danced(item(swapped, labels + " "), weight) is None, line


NOT_READ = [
    ("1-2", "RQ xvvr, tzt lfs idd", "no word of it is known"),
    ("3-4", "Rgl the rkside, and so forth", "rkside is no slip for side: two letters are too much"),
    ("5-6", "frub L skiv, recover R", "a foot alone does not make a step of unknown words"),
    ("3-4", "zibble quonk", "one clause, two counts"),
    ("1-2", "Rzgh hgll grimp wgth 1/4 turn right, step left in place", "a turn alone does not either"),
    (
        "1-4",
        "Lxfr owwer, Rf stuup, Lf cross behind Rf, Rf sweep from front to back",
        "nor does a gesture that might last",
    ),
    ("1-2", "wobble the gasket, L side", "first clause"),
    ("1-2", "R side, snorkel", "last clause"),
    ("1-2", "rock forward on R, frunge", "a rock does not imply its recover over unknown words"),
]


@pytest.mark.parametrize(("labels", "words", "why"), NOT_READ)
def test_unread_words_are_told(labels: str, words: str, why: str) -> None:
    reading = best(words, labels)
    assert reading.breaches >= 1.9, why
    assert reading.unread, why


GARBLED = [
    ("8&a", "wurgle plint L, R, L", "the feet are understood, their step is not"),
    ("8", "R grubble spint", "a slip of the pen beside an invented word is none"),
    ("6", "pxvot a qqarxer lzfq", "same, of a turn"),
    ("3-4", "crat rugh oblert, hold and click your fingers", "other words fill the counts"),
    ("2", "left across right, quolm hesper to the yarb", "words after a step that are all invented"),
    ("5", "step right forward. Snerp lev furb", "a sentence of its own"),
]


@pytest.mark.parametrize(("labels", "words", "why"), GARBLED)
def test_invented_words_in_the_place_of_a_step_are_told(labels: str, words: str, why: str) -> None:
    reading = best(words, labels)
    assert reading.breaches >= 1.0, why
    assert reading.unread, why


READ_ALL_THE_SAME = [
    ("1-4", "stationary samba: R close, L press back, R recover, hold", "the name of what is spelled out then"),
    ("1-3", "walk R, L, R, mind the kettle", "chatter with one strange word"),
    ("1-2", "step R side, step L together (wibbly wobbly jelly)", "strange words in brackets"),
    ("1", "step R side with plenty of ziggle", "an unknown word within a step"),
    ("1-2", "step R side, step L together (like a zebra)", "an unknown aside"),
    ("1-2", "step R side, step L together, zebrawise", "an unknown word too much, all counts filled"),
    ("1-2", "step R side, look over your shoulder, step L together", "words of styling"),
    ("1-2", "you are now ready to step right forward, and left forward", "chatter"),
]


@pytest.mark.parametrize(("labels", "words", "why"), READ_ALL_THE_SAME)
def test_words_beside_the_steps_break_no_law(labels: str, words: str, why: str) -> None:
    assert best(words, labels).breaches == 0, why


class TestCounts:
    """An item has as many drafts as slots, whatever its words."""

    def test_an_empty_count_is_a_breach(self) -> None:
        reading = best("R forward, L forward", "1-4")
        assert reading.breaches >= 2.2
        assert reading.drafts[-1] is None

    def test_a_step_too_much_is_a_breach(self) -> None:
        assert best("R forward, L forward, R forward", "1-2").breaches == 1.5

    def test_without_slots_the_words_tell(self) -> None:
        assert len(best("stomp R, stomp L, hold").drafts) == 3

    def test_a_name_before_its_steps_adds_none(self) -> None:
        assert len(best("R sailor: R behind, L side, R side").drafts) == 3

    def test_no_words_at_all(self) -> None:
        assert best("", "1-2").drafts == (None, None)


class TestNotes:
    def test_a_note_of_weight_stays_with_its_step(self) -> None:
        assert draft("step R fwd, pivot 1/2 L (weight on L)", "1-2").weight == "L"

    def test_weight_on_both(self) -> None:
        assert draft("jump feet apart, weight on both").weight == "B"

    def test_a_gesture_with_weight_may_be_a_step(self) -> None:
        assert Move.STEP in draft("slide L together (weight on L)").moves

    def test_no_weight_makes_a_touch(self) -> None:
        assert draft("step beside left, no weight").moves == (Move.TOUCH,)

    def test_a_facing_stays_with_its_step(self) -> None:
        line = with_facings(clean_lines("1/4 R stepping R fwd (3:00), 1/4 R stepping L side (6:00)"))[0]
        one = item("", "1-2")
        reading = item_readings(Item(one.slots, line.tokens, one.span), Gloss())[0]
        assert [found.facing for found in reading.drafts if found] == [QUARTER, HALF]

    def test_a_facing_on_a_diagonal_lets_a_diagonal_step_turn(self) -> None:
        line = with_facings(clean_lines("Step L to L diagonal <10:30>"))[0]
        one = item("", "1")
        found = item_readings(Item(one.slots, line.tokens, one.span), Gloss())[0].drafts[0]
        assert found is not None
        assert found.turns == (Fraction(0), Fraction(-1, 8), Fraction(1, 8))


class TestGestures:
    ALSO: ClassVar = [
        ("R across sweeping L", Foot.LEFT, Move.SWEEP, "in -ing"),
        ("R across with L sweep", Foot.LEFT, Move.SWEEP, "with"),
        ("recover LF (hook RF)", Foot.RIGHT, Move.HOOK, "in brackets"),
        ("touch R beside L w/ clap", Foot.NONE, Move.CLAP, "w/"),
        ("step R side and sway right", Foot.NONE, Move.SWAY, "the same foot sways"),
    ]

    @pytest.mark.parametrize(("words", "foot", "move", "why"), ALSO)
    def test_shares_a_count(self, words: str, foot: Foot, move: Move, why: str) -> None:
        found = draft(words)
        assert [(one, gesture) for one, gesture, _ in found.also] == [(foot, move)], why

    def test_has_its_own_count_where_there_is_one(self) -> None:
        assert [one and one.moves[0] for one in best("R across, sweep L", "1-2").drafts] == [Move.STEP, Move.SWEEP]


class TestTurns:
    SAID: ClassVar = [
        ("1/4 L stepping L forward", (-QUARTER,), "amount and side"),
        ("making a quarter turn left step L forward", (-QUARTER,), "in words"),
        ("turn ¼ to the left, L forward", (-QUARTER,), "a comma before the step"),
        ("L forward turning ¼ over left shoulder", (-QUARTER,), "after the step, by the shoulder"),
        ("90 degrees left with L forward", (-QUARTER,), "degrees"),
        ("three quarters right stepping R side", (Fraction(3, 4),), "three quarters"),
        ("L forward, ¼ turn", (-QUARTER, QUARTER), "no side: either, and first that of its foot"),
        ("1 1/4 turn left L forward", (-Fraction(5, 4),), "more than a whole turn"),
        ("turn clockwise 3/8 R forward", (Fraction(3, 8),), "clockwise"),
        ("R fwd without turning", (Fraction(0),), "no turn"),
    ]

    @pytest.mark.parametrize(("words", "turns", "why"), SAID)
    def test_of_a_step(self, words: str, turns: tuple[Fraction, ...], why: str) -> None:
        assert draft(words).turns == turns, why

    def test_a_turn_at_the_end_waits_for_the_next_item(self) -> None:
        assert any(
            reading.leaves == QUARTER for reading in item_readings(item("R forward, turn 1/4 right", "1"), Gloss())
        )

    def test_on_a_count(self) -> None:
        turns = [one.turns[0] for one in best("Jazz box R with a quarter turn right on 8", "5-8").drafts if one]
        assert turns == [0, 0, 0, QUARTER]

    def test_a_spiral_turns_the_standing_foot(self) -> None:
        assert draft("R fwd, full spiral L").then == -1

    def test_a_pivot_takes_the_other_foot(self) -> None:
        assert draft("R fwd, pivot ½ left", "1-2").other_foot_than_last


class TestFigures:
    def test_events_bear_their_figure(self) -> None:
        drafts = best("R coaster step, L side", "1 & 2 3").drafts
        assert [one and (one.figure, one.figure_start) for one in drafts] == [
            ("coaster step", True),
            ("coaster step", False),
            ("coaster step", False),
            ("", False),
        ]

    def test_spelled_out_events_bear_it_too(self) -> None:
        drafts = best("L sailor: L behind R, R side, L side", "1&2").drafts
        assert [one and one.figure for one in drafts] == ["sailor step"] * 3

    def test_a_basic_with_a_way_is_a_waltz(self) -> None:
        assert draft("LF back basic", "1-3", 0).figure == "waltz basic"


WORDS = st.sampled_from(
    [
        "R",
        "L",
        "RF",
        "LF",
        "right",
        "left",
        "step",
        "touch",
        "cross",
        "rock",
        "recover",
        "turn",
        "1/4",
        "½",
        "half",
        "pivot",
        "full",
        "twice",
        "x2",
        "and",
        "&",
        "then",
        ",",
        ".",
        ";",
        ":",
        "(",
        ")",
        "-",
        "/",
        "over",
        "behind",
        "beside",
        "to",
        "the",
        "on",
        "with",
        "weight",
        "sailor",
        "coaster",
        "jazz",
        "box",
        "vine",
        "hold",
        "2",
        "4",
        "counts",
        "for",
        "last",
        "3",
        "zzz",
        "kick",
        "ball",
        "change",
        "monterey",
        "both",
        "feet",
        "again",
        "repeat",
    ]
)


class TestLaws:
    """Whatever the words: no exception, a draft for every slot, the best reading first."""

    @settings(max_examples=150, deadline=None)
    @given(st.lists(WORDS, max_size=25), st.sampled_from(["", "1", "1-2", "1&2", "1-4", "1&2&3&4", "1-8"]))
    def test_words_of_the_trade_in_any_order(self, words: list[str], labels: str) -> None:
        self._holds(" ".join(words), labels)

    @settings(max_examples=60, deadline=None)
    @given(st.text(max_size=80), st.sampled_from(["", "1", "1&2"]))
    def test_any_text(self, text: str, labels: str) -> None:
        self._holds(text.replace("\n", " "), labels)

    @staticmethod
    def _holds(words: str, labels: str) -> None:
        one = item(words, labels)
        readings = item_readings(one, Gloss())
        assert readings
        assert len(readings) <= 12
        prices = [(reading.breaches, reading.preference) for reading in readings]
        assert prices == sorted(prices)
        assert all(price >= 0 for pair in prices for price in pair)
        if labels:
            assert {len(reading.drafts) for reading in readings} == {len(one.slots)}

    @settings(max_examples=60, deadline=None)
    @given(st.lists(WORDS, max_size=15), st.integers(1, 8))
    def test_the_quick_estimate_is_never_negative(self, words: list[str], n: int) -> None:
        assert fills(tokens_of(" ".join(words)), n) >= 0


class TestFills:
    ROWS: ClassVar = [
        ("R forward, L forward", 2, "two steps in two counts"),
        ("R sailor step", 3, "a figure"),
        ("hold", 4, "a hold lasts"),
        ("jazz box with ¼ turn right", 4, "a figure with its turn"),
        ("R sailor: R behind, L side, R side", 3, "spelled out"),
    ]

    @pytest.mark.parametrize(("words", "n", "why"), ROWS)
    def test_fits(self, words: str, n: int, why: str) -> None:
        fitting = fills(tokens_of(words), n)
        assert fitting < 0.3, why
        assert all(fills(tokens_of(words), n + more) > fitting for more in (-1, 2) if words != "hold"), why


def test_walked_and_read_agree_that_a_loaded_foot_cannot_step() -> None:
    assert walked(best("R forward, R forward", "1-2"), "L") is None
