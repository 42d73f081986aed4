"""The fair copy reads back equal, whatever the routine."""

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from sheets import events, routine, section, sheet
from strategies import routines

from trainer.dance.figures import figures
from trainer.routine import Event, Extra, FigureMark, Part, Routine, Section
from trainer.sheet.fair import fair
from trainer.sheet.reading import is_fair, read


@settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(routines())
def test_the_fair_copy_of_any_routine_reads_back_equal(written: Routine) -> None:
    copy = fair(written)
    found, _ = read(copy)
    assert found == written
    assert fair(found) == copy


@settings(max_examples=20, deadline=None, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large])
@given(routines())
def test_json_of_any_routine_reads_back_equal(written: Routine) -> None:
    assert Routine.model_validate_json(written.model_dump_json()) == written


def body(text: str) -> list[str]:
    """The lines of a fair copy under the head, single-spaced."""
    lines = fair(routine(text)).split("\n\n", 1)[1].splitlines()
    return [" ".join(line.split()) for line in lines]


@pytest.mark.parametrize(
    ("lines", "told", "why"),
    [
        (["1-4 R walk, L walk, R walk, L walk"], ["1-2 R walk, L walk", "3-4 R walk, L walk"], "two counts a line"),
        (["1-4 R vine"], ["1-4 R vine"], "a figure in one"),
        (["1&2& R walk, L walk, R walk, L walk"], ["1&2& R walk, L walk, R walk, L walk"], "with what is between"),
        (["1 R walk @3:00", "2 L walk"], ["1 R walk @3:00", "2 L walk"], "a facing ends a line"),
        (["1 R walk ; low", "2 L walk"], ["1 R walk ; low", "2 L walk"], "so does styling"),
        (["> a", "1 R walk", "2 L walk"], ["> a", "1 R walk", "2 L walk"], "and do words"),
        (
            ["> a", "1-4 R walk, L walk, R walk, L walk"],
            ["> a", "1-4 R walk, L walk, R walk, L walk"],
            "all that words are about stands in one line",
        ),
        (
            ["1&2 coaster: R back, L together, R forward"],
            ["1&2 R coaster step"],
            "a figure that is danced as usual has its name alone",
        ),
        (
            ["1&2 coaster: R back, L together, R side", "3 L walk"],
            ["1&2 coaster step: R back, L together, R side", "3 L walk"],
            "another one is spelled out",
        ),
        (
            ["1 coaster: R back @3:00", "&2 coaster (from step 2): L together, R forward"],
            ["1 coaster step: R back @3:00", "&2 coaster step (from step 2): L together, R forward"],
            "one that a facing divides goes on",
        ),
        (
            ["1-7 swing: R side, L behind, R side, L touch, vine: L side, R behind, L side"],
            ["1-4 swing: R side, L behind, R side, L touch", "5-7 L vine"],
            "a name alone does not follow one that is spelled out",
        ),
        (["1-8 R vine, L vine"], ["1-4 R vine", "5-8 L vine"], "each figure in its line"),
        (["1-2 R pivot turn turning 1/2 left"], ["1-2 R pivot turn turning 1/2 left"], "how far is said"),
        (["1-2 pivot turn: R forward, L pivot"], ["1-2 pivot turn: R forward, L pivot"], "a pivot that does not turn"),
        (["1 R ball cross"], ["1 R ball cross"], "one step that is called like a figure"),
        (["1-2 R step drag (large step)"], ["1-2 R step drag (large step)"], "remarks stay with the figure"),
        (["1-2 drag: R side, L drag (low)"], ["1-2 drag: R side, L drag (low)"], "unless they are about a later step"),
    ],
)
def test_lines(lines: list[str], told: list[str], why: str) -> None:
    assert body(section(*lines)) == ["== 1", *told], why


def test_a_figure_that_fits_a_line_in_two_ways_is_spelled_out() -> None:
    # Vines of 3 and 4 under one line of words could be of 4 and 3 as well.
    text = section("> vines", "1-7 vine: R side, L behind, R side, vine: L side, R behind, L side, R touch together")
    assert body(text)[2].startswith("1-7 vine: R side, L behind, R side, vine: L side")


def test_a_figure_over_the_end_of_a_section_keeps_the_one_with_it() -> None:
    hold = "1-7 hold, hold, hold, hold, hold, hold, hold"
    text = sheet("== 1", hold, "8&1 R coaster step", "== 2", "2 hold")
    assert body(text)[-4:] == ["7-8&1 hold, R coaster step", "", "== 2", "2 hold"]
    stated = text.replace("coaster step", "coaster step @3:00")
    assert body(stated)[-4:] == ["7-8&1 hold, R coaster step @3:00", "", "== 2", "2 hold"]


def test_a_figure_may_be_divided_and_run_over_the_end_of_the_dance() -> None:
    text = section(
        "2-6 hold, hold, hold, hold, hold",
        "7 anchor: R behind @12:00",
        "8&1 anchor (from step 2): L step, R step, L step",
    )
    found = routine(text)
    assert [event.figure and (event.figure.id, event.figure.index) for event in found.events()] == [
        (1, 3),
        *[None] * 5,
        *((1, index) for index in range(3)),
    ]
    assert routine(fair(found)) == found


def test_a_last_one_of_its_own_does_not_look_like_the_one_of_what_follows() -> None:
    text = sheet("== tag A", "1-8 hold, hold, hold, hold, hold, hold, hold, hold", "& R walk", "1 hold")
    assert [line for line in body(text) if line.startswith(("8", "1 "))] == ["1 hold"]
    assert routine(fair(routine(text))) == routine(text)


def test_a_length_that_the_counts_do_not_show_stands_in_the_heading() -> None:
    written = Routine(title="A", parts=(Part(sections=(Section(name="1", counts=8, events=()),)),))
    assert "== 1, 8 counts\n" in fair(written)
    assert read(fair(written))[0] == written


@pytest.mark.parametrize("name", figures())
def test_every_figure_has_its_name_alone_in_a_fair_copy(name: str) -> None:
    figure = figures()[name]
    form = figure.forms[0]
    labels, foot = form.counts[0], "R " if figure.needs_foot else ""
    turn = figure.turn or (form.turning[0] if form.turning else None)
    turning = f" turning {abs(turn)} {'right' if turn > 0 else 'left'}" if turn else ""
    text = section(f"{' '.join(labels)} {foot}{name}{turning}")
    assert {event.figure and event.figure.name for event in events(text)} == {name}
    told = " ".join(body(text))
    assert ":" not in told
    assert name in told


def test_no_parts_and_a_part_without_sections_are_two_things() -> None:
    for parts in ((), (Part(),), (Part(name="A"),), (Part(), Part(name="A"))):
        written = Routine(title="A", parts=parts)
        assert read(fair(written))[0] == written


def test_extras_keep_their_order_wherever_the_intro_stands() -> None:
    hold = Event.model_validate({"label": "1", "beat": 0, "foot": "-", "weight": "L", "move": "hold"})
    tag = Extra(kind="tag", name="A", counts=1, events=(hold,))
    intro = Extra(kind="intro", name="", counts=1, events=(hold,))
    part = Part(sections=(Section(name="1", counts=1, events=(hold,)),))
    for extras in ((intro, tag), (tag, intro)):
        written = Routine(title="A", parts=(part,), extras=extras)
        assert read(fair(written)) == (written, ())


@pytest.mark.parametrize(
    ("text", "fair_", "why"),
    [
        ("title: A\n== 1\n1 hold\n", True, "keys, then headings"),
        ("title: A\ntempo: 96\n", True, "a head alone"),
        ("# ours\ntitle: A\n", True, "with a remark"),
        ("A Dance\n\n1-2 walk right, left\n", False, "prose"),
        ("A Dance\n== Section 1 ==\n1-2 walk right, left\n", False, "ruled headings"),
        ("title: A\n1-2 walk right, left\n", False, "counts without a heading"),
    ],
)
def test_what_is_taken_for_a_fair_copy(text: str, fair_: bool, why: str) -> None:
    assert is_fair(text) == fair_, why


def test_the_1_of_what_follows_is_weighed_as_it_is_danced() -> None:
    text = """title: ""
time: 4/4
feel: straight
starts: weight on L

== Lantern
e2      R forward, L forward
3-4     R forward, L forward

== Wick
1e1     spiral: R forward, spiral: R forward, hold (weight R)
"""
    found, _ = read(text)
    assert fair(found) == text


def test_a_figure_that_goes_over_keeps_apart_what_was_said_of_its_steps() -> None:
    def step(label: str, beat: Fraction, index: int, words: str = "") -> Event:
        mark = FigureMark(id=1, name="anchor step", index=index)
        return Event(
            label=label, beat=beat, foot="R", weight="R", move="step", direction="back", figure=mark, words=words
        )

    unread = Event(
        label="&", beat=Fraction(1, 2), foot=None, weight=None, move=None, direction=None, status="unread",
        figure=FigureMark(id=1, name="anchor step", index=1),
    )  # fmt: skip
    last = Event(label="2", beat=Fraction(1), foot="L", weight="L", move="step", direction="in place", figure=None)
    sections = (
        Section(name="1", counts=1, events=(step("1", Fraction(0), 0, "his words"), unread)),
        Section(name="2", counts=2, events=(step("1", Fraction(0), 2), last)),
    )
    written = Routine(title="", starts="L", parts=(Part(name="", sections=sections),))
    assert read(fair(written))[0] == written
