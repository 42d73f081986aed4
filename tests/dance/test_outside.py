"""Facings, walls, clock glyphs and times held against libraries that know nothing of dancing."""

import unicodedata
from fractions import Fraction
from itertools import accumulate
from math import gcd

import mido
import music21
import networkx
import pytest
from sympy.combinatorics import Permutation, PermutationGroup

from tests.dance.making import EIGHT, after, dance, extra, section, tag, wall
from trainer.dance.facing import clock, turned, walls_home
from trainer.dance.order_facings import directions
from trainer.dance.rows import as_rows
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.routine import Routine
from trainer.timing import TempoMap

EIGHTHS = range(8)
EIGHTH_RIGHT = Permutation([1, 2, 3, 4, 5, 6, 7, 0])
"""Each of the eight facings, counted from 12:00 to the right, goes to the next."""

GLYPHS = {
    # facing in eighths: code point of its clock face in Unicode
    **{0: 0x1F55B, 1: 0x1F55C, 2: 0x1F552, 3: 0x1F55F, 4: 0x1F555, 5: 0x1F562, 6: 0x1F558, 7: 0x1F565},
}
HOURS = [
    *("TWELVE", "ONE", "TWO", "THREE", "FOUR", "FIVE", "SIX", "SEVEN", "EIGHT", "NINE", "TEN", "ELEVEN"),
]


def turning(eighths: int) -> Routine:
    """Walls of eight counts with one net turn, spread over two counts."""
    first = eighths // 2
    turns = [f"+{first}/8" if first else "", f"+{eighths - first}/8" if eighths - first else ""]
    return dance(section("1", f"1 R {turns[0]}, 2 L, 3 R, 4 L {turns[1]}, 5 R, 6 L, 7 R, 8 L"))


@pytest.mark.parametrize("eighths", EIGHTHS)
def test_facings_turn_as_the_cyclic_group_of_eighths(eighths: int) -> None:
    power = EIGHTH_RIGHT**eighths
    for facing in EIGHTHS:
        assert turned(Fraction(facing, 8), Fraction(eighths, 8)) == Fraction(power(facing), 8)
    assert PermutationGroup([EIGHTH_RIGHT]).is_abelian


@pytest.mark.parametrize("eighths", EIGHTHS)
def test_a_dance_comes_home_after_the_order_of_its_turn(eighths: int) -> None:
    order = (EIGHTH_RIGHT**eighths).order()
    timeline = unroll(turning(eighths))
    assert len(timeline.passes) == walls_home(Fraction(eighths, 8)) == directions(Fraction(eighths, 8)) == order
    assert order == 8 // gcd(8, eighths)
    assert timeline.passes[-1].end_facing == 0


@pytest.mark.parametrize("eighths", EIGHTHS)
def test_the_walls_of_a_dance_are_one_cycle_of_the_graph_of_facings(eighths: int) -> None:
    graph = networkx.DiGraph((facing, (facing + eighths) % 8) for facing in EIGHTHS)
    cycles = {frozenset(cycle) for cycle in networkx.simple_cycles(graph)}
    assert frozenset(int(one.facing * 8) for one in unroll(turning(eighths)).passes) in cycles


def test_a_restart_leaves_with_the_turn_done_so_far_and_a_tag_adds_its_own() -> None:
    bell = extra("tag", "Bell", "1 R sway, 2 L sway +3/8")
    order = (wall(2, after(3, leave="restart")), wall(3, after(8, tag("Bell"))))
    timeline = unroll(turning(3).but(extras=(bell,), order=order), 5)
    # Three eighths are danced as one on count 1 and two on count 4; the tag turns three more.
    net = [3, 1, 3 + 3, 3]
    assert [int(one.facing * 8) for one in timeline.passes] == [0, *(turn % 8 for turn in accumulate(net))]


@pytest.mark.parametrize("eighths", EIGHTHS)
def test_a_facing_reads_as_the_clock_face_of_its_name(eighths: int) -> None:
    name = unicodedata.name(chr(GLYPHS[eighths])).removeprefix("CLOCK FACE ")
    hour, _, half = name.removesuffix(" OCLOCK").partition("-")
    told = f"{HOURS.index(hour) or 12}:{'30' if half == 'THIRTY' else '00'}"
    assert clock(Fraction(eighths, 8)) == told


COMMON_PRACTICE = [
    # turns in eighths, the facing they lead to from 12:00, common practice, no source
    ([-1], "10:30", "one eighth left of 12:00 is 10:30"),
    ([2, 1, 1, 1, 1], "9:00", "a quarter and four eighths the same way make three quarters"),
    ([2], "3:00", "a quarter right of the front is 3:00"),
    ([4], "6:00", "the back is 6:00"),
]


@pytest.mark.parametrize(("turns", "faces", "why"), COMMON_PRACTICE)
def test_facts_marked_common_practice(turns: list[int], faces: str, why: str) -> None:
    facing = Fraction(0)
    for turn in turns:
        facing = turned(facing, Fraction(turn, 8))
    assert clock(facing) == faces, why


def test_forty_eight_counts_are_six_sections_of_eight() -> None:
    sections = [section(str(number), EIGHT) for number in range(1, 7)]
    assert dance(*sections).parts[0].counts == 48


def danced() -> Timeline:
    """Counts, &s and as on thirds, quarters and halves of a beat, over three walls."""
    thirds = section("1", "1 R, & L, a R, 2 L, a R, 3 L, 4 R", feel="rolling", counts=4)
    quarters = section("2", "1 L, e R, & L, a R, 2 L, & R, 3 L, 4 R touch", counts=4)
    return unroll(dance(thirds, quarters, wait=16), 3)


@pytest.mark.parametrize("tempo", ["66", "88", "90", "96", "112", "180", "331/3"])
def test_seconds_of_counts_are_those_of_midi_ticks(tempo: str) -> None:
    exact = Fraction(tempo)
    for row in as_rows(danced(), exact):
        ticks = Fraction(row["beat"]) * 480
        assert ticks.denominator == 1
        seconds = mido.tick2second(int(ticks), 480, mido.bpm2tempo(float(exact)))
        # A MIDI file rounds a beat to whole microseconds: half of one is lost on each.
        assert row["seconds"] == pytest.approx(seconds, abs=0.5e-6 * float(Fraction(row["beat"])) + 1e-9)


@pytest.mark.parametrize("tempo", [66, 88, 112])
def test_seconds_of_counts_are_those_of_a_metronome_mark(tempo: int) -> None:
    mark = music21.tempo.MetronomeMark(number=tempo)
    for row in as_rows(danced(), Fraction(tempo)):
        assert row["seconds"] == pytest.approx(mark.durationToSeconds(Fraction(row["beat"])), abs=1e-9)


def test_two_tempi_in_one_dance_are_those_of_two_metronome_marks() -> None:
    timeline = unroll(dance(section("1", *["1 R, 2 L, 3 R, 4 L, 5 R, 6 L"] * 4), time="3/4"), 2)
    stream = music21.stream.Stream([music21.tempo.MetronomeMark(number=90)])
    for count in range(48):
        if count == 24:
            stream.append(music21.tempo.MetronomeMark(number=96))
        stream.append(music21.note.Note(quarterLength=1))
    notes = [row for row in stream.secondsMap if isinstance(row["element"], music21.note.Note)]
    times = TempoMap.steady(Fraction(90)).changed_at_beat(timeline.passes[1].start, Fraction(96))
    assert [times.seconds_at(one.beat) for one in timeline.danced()] == pytest.approx(
        [row["offsetSeconds"] for row in notes], abs=1e-9
    )
    assert times.seconds_at(timeline.ends) == pytest.approx(31.0)
