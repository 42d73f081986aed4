"""The weighted foot does not step: within sections, into and out of extras, through restarts, at the seam of walls."""

from typing import Any

import pytest

from tests.dance.making import (
    EIGHT,
    after,
    changed,
    dance,
    extra,
    hold,
    phrased,
    said,
    section,
    steps,
    tag,
    unread,
    wall,
)
from trainer.dance.proof import proofread
from trainer.problems import loud
from trainer.routine import PlayItem, Section, Span

BELL = extra("tag", "Bell", "1 R sway, 2 L sway", line=100)
ODD = extra("tag", "Odd", "1 R, 2 L, 3 R", line=100)
LEFT = extra("tag", "Left", "1 L, 2 R", line=100, before="R")
PAIR = extra("tag", "Pair", "1 R, 2 L", line=100)
LAMP = extra("change", "Lamp", "7 R touch, 8 - hold", line=110)

SOUND = [
    # sections, fields, why
    ((section("1", EIGHT),), {}, "walks"),
    ((section("1", "1 R, 2 L touch, 3 L, 4 R touch"),), {}, "steps and touches"),
    ((section("1", "1 R rock, 2 L recover, 3 R kick, & R ball, 4 L"),), {}, "rock, recover, kick ball change"),
    ((section("1", "1 L hop, 2 R, 3 - scoot, 4 L"),), {}, "hops and scoots land on the foot that carries"),
    ((section("1", "& R, 1 L >B, 2 R, 3 L"),), {}, "out, out: either may go on"),
    ((section("1", "1 B jump, 2 B jump >L"),), {}, "jump apart and together"),
    ((section("1", "1 R stomp, 2 L stomp >R, 3 L, 4 R touch"),), {}, "stomps with and without weight"),
    ((section("1", "1 R touch, 2 - unwind >R, 3 - bounce, 4 - bump >L"),), {}, "the end weight of open moves"),
    ((section("1", EIGHT),), {"order": (wall(2, after(4, leave="restart")),)}, "a restart on the right foot"),
    ((section("1", EIGHT),), {"order": (wall(2, after(8, tag("Bell"))),), "extras": (BELL,)}, "a tag"),
    ((section("1", EIGHT),), {"order": (wall(2, after(5, hold(2))),)}, "a hold in the middle"),
    (
        (section("1", EIGHT),),
        {"order": (wall(2, changed(7, 8, "Lamp", leave="restart")),), "extras": (LAMP,)},
        "a changed restart",
    ),
]


@pytest.mark.parametrize(("sections", "fields", "why"), SOUND)
def test_a_sound_dance_is_silent(sections: Any, fields: dict[str, Any], why: str) -> None:
    assert said(dance(*sections, **fields)) == [], why


FAULTS = [
    # lines of a section, 5-8 after it as walks; message, the foot that was meant, why
    ("1 R, 2 L, 3 L touch, 4 L", "Count 3 asks L for a touch, but L has the weight since count 2.", "R", "a touch"),
    ("1 R, 2 R, 3 R, 4 L", "Count 2 asks R to step, but R has the weight since count 1.", "L", "one wrong foot"),
    ("1 L, 2 R, 3 L, 4 R", "Count 1 asks L to step, but L has the weight from the start.", "", "all swapped"),
    ("1 R, 2 L, 3 L, 4 R", "Count 3 asks L to step, but L has the weight since count 2.", "R", "half of it swapped"),
    ("1 R, 2 L, 3 - hold, 4 L", "Count 4 asks L to step, but L has the weight since count 2.", "R", "a hold too many"),
    ("1 R, 2 L, 3 R touch >R, 4 L", "Count 3 leaves the weight on R, but a touch leaves it on L.", "", "a weight told"),
    ("1 R, 2 L, 3 R |R_sweep, 4 L", "Count 3 asks R for a sweep, but R carries the weight there.", "", "a gesture"),
    ("1 R, & L, 2 R, & R, 3 L", "Count 2& asks R to step, but R has the weight since count 2.", "L", "on an &"),
]


@pytest.mark.parametrize(("line", "message", "meant", "why"), FAULTS)
def test_one_fault_is_one_finding(line: str, message: str, meant: str, why: str) -> None:
    rest = steps("5 R, 6 L", "7 R, 8 L", line=12, first=5)
    first = section("1", line, line=10)
    beats = tuple(one.but(beat=one.beat + first.counts - 4) for one in rest)
    whole = first.but(events=(*first.events, *beats), counts=first.counts + 4)
    found = [one for one in loud(proofread(dance(whole))) if one.kind == "weight"]
    assert [(one.line, one.message) for one in found] == [(11, message)], why
    assert found[0].hint == (f"Did you mean {meant}?" if meant else "")


def test_two_faults_are_two_findings() -> None:
    whole = section("1", "1 R, 2 L", "3 L, 4 R", "5 R, 6 L", "7 L, 8 R", "1 R, 2 L, 3 R, 4 L", line=10)
    assert [line for line, _, _ in said(dance(whole))] == [12, 14]


def test_without_lines_a_swapped_run_of_less_than_four_counts_is_still_one_finding() -> None:
    whole = section("1", "1 R, 2 L, 3 L, 4 R, 5 R, 6 L, 7 R, 8 L")
    events = tuple(one.but(span=None) for one in whole.events)
    assert said(dance(whole.but(events=events, span=None))) == [
        (0, "weight", "Count 3 asks L to step, but L has the weight since count 2.")
    ]


def test_a_fault_on_every_wall_is_found_once() -> None:
    whole = section("1", "1 R, 2 L touch, 3 R, 4 L", line=10)
    assert said(dance(whole, order=(wall(5, after(4, hold(1))),))) == [
        (11, "weight", "Count 3 asks R to step, but R has the weight since count 1.")
    ]


GOES_ON = "the dance does not go on"
CLOSES = [
    # sections, fields, line, message, why
    (
        (section("1", "1 R, 2 L, 3 R", line=10),),
        {},
        11,
        "The dance does not close: count 1 asks R to step, but R has the weight since count 3.",
        "the plain seam: at the last event",
    ),
    (
        (section("1", EIGHT, line=10), section("2", "1 R, 2 L, 3 R, 4 L touch", line=20)),
        {"order": (wall(2, after(12, tag("Bell"))),), "extras": (BELL,)},
        21,
        "The dance does not close: count 1 asks R to step, but R has the weight since count 3 of section 2.",
        "the tag does not make it two",
    ),
    (
        (section("1", EIGHT, line=10),),
        {"order": (wall(2, after(5, leave="restart", line=201), line=201),)},
        201,
        "Wall 2 is left on the wrong foot: count 1 asks R to step, but R has the weight since count 5.",
        "a restart on the wrong count",
    ),
    (
        (section("1", EIGHT, line=10),),
        {"order": (wall(2, after(8, tag("Odd"))),), "extras": (ODD,)},
        101,
        f"After tag Odd {GOES_ON}: count 1 asks R to step, but R has the weight since count 3 of tag Odd.",
        "a tag that ends on the wrong foot",
    ),
    (
        (section("1", EIGHT, line=10),),
        {"order": (wall(2, after(8, tag("Left"))),), "extras": (LEFT,)},
        101,
        "Count 1 asks L to step, but L has the weight since count 8 of section 1.",
        "a tag with its feet swapped breaks the law at its start and at its end",
    ),
    (
        (section("1", EIGHT, line=10),),
        {
            "order": (wall(2, after(5, tag("Pair"), line=202)), wall(3, after(4, tag("Pair")))),
            "extras": (PAIR,),
        },
        202,
        "In wall 2 tag Pair does not fit: count 1 asks R to step, but R has the weight since count 5 of section 1.",
        "the tag fits elsewhere: the order is wrong",
    ),
    (
        (section("1", EIGHT, line=10),),
        {"starts": "R", "header": (("starts", Span(3, 9, 11)),)},
        3,
        "Count 1 asks R to step, but R has the weight from the start.",
        "count 1 fits at the seam of the walls: the header is wrong",
    ),
    (
        (section("1", "1 L, 2 R", line=10),),
        {},
        11,
        "Count 1 asks L to step, but L has the weight from the start.",
        "feet swapped throughout",
    ),
    (
        (section("1", "1 L, 2 R", "3 R, 4 L", "5 R, 6 L", line=10),),
        {"order": (wall(2, after(4, leave="restart")),)},
        11,
        "Count 1 asks L to step, but L has the weight from the start.",
        "a swapped first line fits at no seam",
    ),
    (
        (section("1", EIGHT, line=10), section("2", "1 R, 2 R, 3 R, 4 L", line=20)),
        {"order": (wall(2, after(9, hold(1))),)},
        21,
        "Count 2 asks R to step, but R has the weight since count 1.",
        "wrong in its section is wrong after a hold",
    ),
    (
        (section("1", EIGHT, line=10), section("2", "1 R, 2 L", line=20)),
        {"order": (wall((2, 3), changed(3, 4, "Lamp")),), "extras": (extra("change", "Lamp", "3 R, 4 - hold"),)},
        101,
        f"After change Lamp {GOES_ON}: count 5 asks R to step, but R has the weight since count 3 of change Lamp.",
        "a change that ends on the wrong foot",
    ),
]


@pytest.mark.parametrize(("sections", "fields", "line", "message", "why"), CLOSES)
def test_the_dance_closes_through_every_tag_and_restart(
    sections: Any, fields: dict[str, Any], line: int, message: str, why: str
) -> None:
    assert said(dance(*sections, **fields)) == [(line, "weight", message)], why


def test_a_tag_that_leads_nowhere_well_is_wrong_itself() -> None:
    order = (wall(2, after(4, tag("Odd"))), wall(3, after(8, tag("Odd"))))
    assert said(dance(section("1", EIGHT, line=10), extras=(ODD,), order=order)) == [
        (
            *(101, "weight"),
            f"After tag Odd {GOES_ON}: count 5 asks R to step, but R has the weight since count 3 of tag Odd.",
        )
    ]


def test_a_tag_that_goes_on_well_elsewhere_is_in_the_wrong_place() -> None:
    step = extra("tag", "Step", "1 - hold, 2 R", line=100)
    order = (wall(2, after(4, tag("Step"), line=202)), wall(3, after(8, tag("Step"), tag("Left"), line=203)))
    left = extra("tag", "Left", "1 L", line=110, before="R")
    routine = dance(section("1", EIGHT, line=10), extras=(step, left), order=order)
    assert said(routine) == [
        (
            202,
            "weight",
            "In wall 2 tag Step does not fit: count 5 asks R to step, but R has the weight since count 2 of tag Step.",
        )
    ]


def test_the_parts_of_a_phrased_dance_join() -> None:
    assert said(phrased("A B A")) == []
    odd = phrased("A B A")
    parts = (odd.parts[0], odd.parts[1].but(sections=(section("B1", "1 R, 2 L, 3 R", line=20),)))
    told = "count 1 asks R to step, but R has the weight since count 3 of section B1 of part B."
    assert said(odd.but(parts=parts)) == [(21, "weight", f"The dance does not close: {told}")]


def test_an_extra_of_the_play_is_told_at_its_line() -> None:
    play = (
        PlayItem(kind="part", name="A"),
        PlayItem(kind="tag", name="Odd", span=Span(7, 9, 7)),
        PlayItem(kind="part", name="B"),
        PlayItem(kind="tag", name="Odd", span=Span(7, 20, 7)),
        PlayItem(kind="ending", name="Bow"),
    )
    bow = extra("ending", "Bow", "1 L touch, 2 L", line=110, before="R")
    routine = phrased("", ODD, bow).but(play=play)
    assert said(routine) == [
        (
            7,
            "weight",
            "In wall 1 tag Odd does not fit: count 1 asks R to step, but R has the weight since count 3 of tag Odd.",
        )
    ]


ENDS_WRONG = "count 1 asks R to step, but R has the weight since count 3 of the danced intro."
INTROS = [
    # the weight that the sheet states, that with which the intro was read, its events, findings, why
    ("L", "L", "1 R, 2 L", [], "both agree"),
    ("L", "R", "1 L, 2 R, 3 L", [], "the weight was meant for count 1"),
    ("R", "R", "1 L, 2 R, 3 L", [], "the weight was meant for the intro"),
    ("L", "L", "1 R, 2 L, 3 R", [(101, "weight", f"After the danced intro {GOES_ON}: {ENDS_WRONG}")], "it ends wrong"),
]


@pytest.mark.parametrize(("stated", "before", "events", "found", "why"), INTROS)
def test_the_stated_weight_is_before_the_intro_or_before_count_1(
    stated: Any, before: Any, events: str, found: Any, why: str
) -> None:
    intro = extra("intro", "", events, line=100, before=before)
    assert said(dance(section("1", EIGHT, line=10), extras=(intro,), starts=stated)) == found, why


def test_nothing_is_said_of_what_could_not_be_read() -> None:
    events = (*steps("1 R"), unread("2", 1, line=1), *steps("3 R, 4 L", first=3))
    (found,) = said(dance(Section(name="1", counts=4, events=events)))
    assert found[1] == "text"


def test_an_event_read_in_two_ways_breaks_a_law_only_if_both_do() -> None:
    whole = section("1", "1 R, 2 R, 3 R, 4 L", line=10)
    first, second, third, fourth = whole.events
    unsure = second.but(status="unsure", other=fourth.but(label="2", beat=second.beat))
    assert said(dance(whole.but(events=(first, unsure, third, fourth)))) == []
    hopeless = second.but(status="unsure", other=second)
    assert len(said(dance(whole.but(events=(first, hopeless, third, fourth))))) == 1


def test_an_extra_that_opens_with_a_hold_need_not_know_which_foot_carries() -> None:
    bell = extra("tag", "Bell", "1 - hold, 2 - clap, 3 L, 4 R touch", line=100)
    order = (wall(2, after(5, tag("Bell"), leave="restart")),)
    last = steps("3 L, 4 R touch", before="R", line=102, first=3)
    bell = bell.but(events=(*bell.events[:2], *last))
    assert [one[2] for one in said(dance(section("1", EIGHT, line=10), extras=(bell,), order=order))] == []
