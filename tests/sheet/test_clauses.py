"""One clause: what it says, and what the weight is after it."""

from fractions import Fraction

import pytest
from sheets import events, section, sheet

from trainer.routine import Event, Gesture
from trainer.sheet.fair_clauses import clause
from trainer.terms import Direction, Foot, Move, Weight

QUARTER = Fraction(1, 4)


def one(text: str, head: str = "") -> Event:
    (event,) = events(section(f"1 {text}", head=head))
    return event


def said(text: str) -> tuple[str | None, str | None, str | None, str, str]:
    """Foot, move, direction, turn and the part of it after the step."""
    event = one(text)
    direction = event.direction.value if event.direction else None
    return event.foot and event.foot.value, event.move and event.move.value, direction, str(event.turn), str(event.then)


@pytest.mark.parametrize(
    ("text", "found", "why"),
    [
        ("R walk", ("R", "walk", None, "0", "0"), "foot and move"),
        ("R forward", ("R", "step", "forward", "0", "0"), "without a move it is a step"),
        ("R step forward", ("R", "step", "forward", "0", "0"), "which may be said"),
        ("L rock back", ("L", "rock", "back", "0", "0"), "foot, move, direction"),
        ("R right", ("R", "step", "right", "0", "0"), "R is a foot, right a direction"),
        ("R in place", ("R", "step", "in place", "0", "0"), "a direction of two words"),
        ("R in", ("R", "step", "in", "0", "0"), "and its first word alone"),
        ("R forward right", ("R", "step", "forward right", "0", "0"), "a diagonal"),
        ("R Forward", ("R", "step", "forward", "0", "0"), "capitals make no difference in words"),
        ("B jump out", ("B", "jump", "out", "0", "0"), "both feet"),
        ("hold", ("-", "hold", None, "0", "0"), "no foot"),
        ("- hold", ("-", "hold", None, "0", "0"), "no foot, said outright"),
        ("hip bump left", ("-", "bump", "left", "0", "0"), "another name of a move"),
        ("R knee-pop", ("R", "knee pop", None, "0", "0"), "a hyphen is a blank"),
        ("R forward turning 1/4 right", ("R", "step", "forward", "1/4", "0"), "a turn to the right is positive"),
        ("R forward turning ¼ left", ("R", "step", "forward", "-1/4", "0"), "in one letter, to the left"),
        ("R forward turning 1 1/4 left", ("R", "step", "forward", "-5/4", "0"), "more than a whole turn"),
        ("R forward turning 1 ½ left", ("R", "step", "forward", "-3/2", "0"), "with such a letter"),
        ("R forward turning full right", ("R", "step", "forward", "1", "0"), "a whole turn is 1, not 0"),
        ("R forward turning 2 right", ("R", "step", "forward", "2", "0"), "two whole turns"),
        ("R behind then turning 1/2 left", ("R", "step", "behind", "-1/2", "-1/2"), "on the standing foot after it"),
        ("R side turning 1/4 left then turning 1/2 left", ("R", "step", "side", "-3/4", "-1/2"), "both"),
        ("R side turning 1/4 left then turning 1/4 right", ("R", "step", "side", "0", "1/4"), "that undo each other"),
        ("L pivot turning 1/2 left", ("L", "pivot", None, "-1/2", "0"), "a pivot"),
        ("L pivot 1/2 left", ("L", "pivot", None, "-1/2", "0"), "which needs no `turning`"),
        ("unwind full right", ("-", "unwind", None, "1", "0"), "nor does an unwind"),
        ("turn 3/8 left", ("-", "turn", None, "-3/8", "0"), "nor a turn"),
    ],
)
def test_a_clause_says(text: str, found: tuple[str | None, ...], why: str) -> None:
    assert said(text) == found, why


def test_a_plus_adds_what_else_happens() -> None:
    event = one("R forward + L sweep back + clap then turning 1/4 right (slow, arms up)")
    assert event.also == (
        Gesture(foot=Foot.LEFT, move=Move.SWEEP, direction=Direction.BACK),
        Gesture(foot=Foot.NONE, move=Move.CLAP),
    )
    assert (event.turn, event.asides, event.weight) == (QUARTER, ("slow", "arms up"), "R")


def test_remarks_that_hold_commas_stand_in_quotes() -> None:
    assert one('R walk ("slow, and low", (so), "weight L")').asides == ("slow, and low", "(so)", "weight L")


def test_empty_brackets_say_nothing() -> None:
    assert one("R walk ( , )").asides == ()


@pytest.mark.parametrize(
    ("line", "weights", "why"),
    [
        ("1-2 R walk, L walk", "RL", "steps"),
        ("1-2 R touch, R walk", "LR", "a touch takes none"),
        ("1-2 R walk, hold", "RR", "a hold keeps it"),
        ("1 R stomp", "R", "what is open is on its foot where the table says so"),
        ("1 R stomp (weight L)", "L", "unless a note says otherwise"),
        ("1 R stomp (weight on L)", "L", "in these words too"),
        ("1 R sway (weight both)", "B", "both"),
        ("1-2 R bump, L bump", "LL", "a bump keeps it"),
        ("1-2 jump out, R walk", "BR", "from both feet either may go"),
        ("1-2 jump out, R touch", "BL", "and one that lifts leaves it on the other"),
        ("1-2 L hop, hold", "LL", "a hop lands on its foot"),
        ("1 R touch (weight R)", "R", "a note against the table is what the sheet says"),
        ("1-2 R walk, R touch", "RR", "a fault moves no weight"),
        ('1-2 ??"what", R touch', "-L", "after what is unread the next step tells"),
        ('1-3 ??"what", hold, R walk', "-LR", "also over a hold"),
        ('1-2 ??"what", hold', "-L", "or the foot that the dance starts on, where none does"),
    ],
)
def test_the_weight_after(line: str, weights: str, why: str) -> None:
    assert "".join(event.weight or "-" for event in events(section(line))) == weights, why


def test_the_dance_starts_on_the_foot_of_its_head() -> None:
    assert one("hold", head="starts: weight on R\n").weight == "R"


def test_a_block_of_its_own_starts_where_its_first_step_can() -> None:
    text = section("1-2 R walk, L walk", "== tag A", "1-2 hold, L walk", "== bridge B", "1-2 hold, R kick")
    assert [event.weight for event in events(text)][2:] == ["R", "L", "L", "L"]


CLAPS = [
    "== 1",
    "1-4 R walk, L walk, R walk, L walk",
    "== tag T",
    "1-2 clap, clap",
    "== change C",
    "3 hold",
    "== order",
]


@pytest.mark.parametrize(
    ("line", "tag", "change", "why"),
    [
        ("wall 2: after 1, tag T, continue", "R", "L", "after the first step"),
        ("wall 2: after 2, tag T, continue", "L", "L", "after the second"),
        ("wall 2: after 2 before 3, tag T, continue", "L", "L", "the same said otherwise"),
        ("wall 2: count 4 becomes change C, continue", "L", "R", "where the change begins"),
        ("third A: after 1, tag T, next", "L", "L", "a part that is not there tells nothing"),
        ("wall 2: after 0, tag T, continue", "L", "L", "nor does a place before all steps"),
    ],
)
def test_an_extra_that_moves_no_foot_stands_as_its_place_does(line: str, tag: str, change: str, why: str) -> None:
    found = events(sheet(*CLAPS, line))
    assert [event.weight for event in found][4:] == [tag, tag, change], why


def test_so_it_does_between_parts() -> None:
    body = ("== part A", "== 1", "1 R walk", "== part B", "== 1", "1 L walk", "== tag T", "1 clap")
    for play, weight in (("A tag T B", "R"), ("A B tag T", "L"), ("A hold 2 tag T", "L")):
        assert events(sheet(*body, head=f"play: {play}\n"))[-1].weight == weight


def test_an_option_starts_where_its_counts_do() -> None:
    text = section("1-2 R walk, L walk", "3-4 R walk, L walk", "== option 1, count 4", "4 hold")
    assert events(text)[-1].weight == "R"


class TestUnsureAndUnread:
    def test_an_unsure_step_has_two_readings(self) -> None:
        event = one("?(R walk turning 1/4 left | L touch (low))")
        assert (event.status, event.foot, event.weight, event.turn) == ("unsure", Foot.RIGHT, "R", -QUARTER)
        assert event.other is not None
        assert (event.other.status, event.other.foot, event.other.weight) == ("sure", Foot.LEFT, "L")
        assert (event.other.turn, event.other.asides, event.other.label) == (0, ("low",), "1")

    def test_or_one(self) -> None:
        event = one("?(R walk)")
        assert (event.status, event.other) == ("unsure", None)

    def test_what_could_not_be_read_keeps_its_words(self) -> None:
        event = one('??"something, with \\"both\\" hands" (low)')
        assert (event.status, event.foot, event.weight, event.move) == ("unread", None, None, None)
        assert (event.words, event.asides) == ('something, with "both" hands', ("low",))

    def test_without_words_of_its_own_it_has_those_above(self) -> None:
        (event,) = events(section("> the crate step", "1 ??"))
        assert event.words == "the crate step"

    def test_the_other_reading_may_be_unread(self) -> None:
        event = one('?(R walk | ??"or so")')
        assert event.other is not None
        assert (event.other.status, event.other.words, event.other.weight) == ("unread", "or so", None)


class TestAFigure:
    def test_notes_fall_on_its_ends(self) -> None:
        found = events(section("1-4 R vine turning 1/4 right + clap then turning 1/4 right (low)"))
        assert [event.asides for event in found] == [("low",), (), (), ()]
        assert [len(event.also) for event in found] == [0, 0, 0, 1]
        assert [(str(event.turn), str(event.then)) for event in found[2:]] == [("1/4", "0"), ("1/4", "1/4")]

    def test_its_open_end_may_be_noted(self) -> None:
        found = events(section("1-2 R cross unwind turning 1/2 left (weight R)"))
        assert [event.weight for event in found] == ["L", "R"]

    def test_it_may_be_called_by_other_names(self) -> None:
        assert {event.figure and event.figure.name for event in events(section("1&2 R Coaster"))} == {"coaster step"}

    @pytest.mark.parametrize(
        ("name", "found", "why"),
        [
            ("coaster step", "coaster step", "a name of the table"),
            ("coaster", "coaster step", "by another name"),
            ("R coaster step", "coaster step", "with its foot"),
            ("Crate Step", "Crate Step", "the sheet's own, as it is written"),
            ('"coaster"', "coaster", "in quotes exactly as written"),
            ('"odd: (name)"', "odd: (name)", "whatever it is"),
        ],
    )
    def test_spelled_out_it_keeps_its_name(self, name: str, found: str, why: str) -> None:
        told = events(section(f"1-2 {name}: R back, L together"))
        assert [event.figure and (event.figure.id, event.figure.name, event.figure.index) for event in told] == [
            (1, found, 0),
            (1, found, 1),
        ], why

    def test_it_may_go_on_in_the_next_line(self) -> None:
        text = section("1 coaster: R back @12:00", "2-3 coaster (from step 2): L together, R forward")
        assert [event.figure and (event.figure.id, event.figure.index) for event in events(text)] == [
            (1, 0),
            (1, 1),
            (1, 2),
        ]

    def test_one_that_goes_on_from_nothing_is_its_own(self) -> None:
        (event,) = events(section("1 coaster (from step 3): R forward"))
        assert event.figure is not None
        assert (event.figure.id, event.figure.index) == (1, 2)


STEPS = [
    # event, weight before, clause, why
    ({"foot": "R", "move": "step", "direction": "side", "weight": "R"}, "L", "R side", "a step is its direction"),
    ({"foot": "R", "move": "step", "weight": "R"}, "L", "R step", "or a step"),
    ({"foot": "-", "move": "hold", "weight": "L"}, "L", "hold", "no foot"),
    ({"foot": "-", "move": "hold", "weight": "L"}, None, "hold (weight L)", "a weight that nothing tells is noted"),
    ({"foot": "R", "move": "touch", "weight": "L"}, None, "R touch", "a touch tells it"),
    ({"foot": "-", "move": "step", "weight": "L"}, "L", "- step", "a foot that is missing is marked"),
    ({"foot": "R", "move": "sway", "weight": "R"}, "L", "R sway (weight R)", "what is open is always noted"),
    ({"foot": "R", "move": "touch", "weight": "R"}, "L", "R touch (weight R)", "and what is not as the table has it"),
    ({"foot": "R", "move": "walk", "weight": "R", "asides": ("a, b",)}, "L", 'R walk ("a, b")', "remarks in quotes"),
]


@pytest.mark.parametrize(("fields", "before", "text", "why"), STEPS, ids=[row[2] for row in STEPS])
def test_an_event_is_told(fields: dict[str, object], before: Weight | None, text: str, why: str) -> None:
    event = Event.model_validate({"label": "1", "beat": 0, **fields})
    assert clause(event, before, "") == text, why
