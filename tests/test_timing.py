"""Counts, seconds and frames, held against music21's tempo marks and mido's ticks."""

from fractions import Fraction
from itertools import pairwise

import mido
import music21
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from trainer.timing import RATE, Segment, TempoMap, frames_of, frames_per_beat, seconds_of, tempo_of

tempi = st.fractions(Fraction(10), Fraction(300), max_denominator=1000)
beats = st.fractions(Fraction(-8), Fraction(5000), max_denominator=12)


@st.composite
def maps(draw: st.DrawFn) -> TempoMap:
    made = TempoMap.steady(draw(tempi), frame=draw(st.integers(0, 10**6)), beat=Fraction(draw(st.integers(-8, 8))))
    for _ in range(draw(st.integers(0, 5))):
        frame = made.segments[-1].frame + draw(st.integers(1, 10 * RATE))
        made = made.changed(frame, draw(tempi))
    return made


@given(maps(), beats)
@settings(max_examples=150)
def test_position_at_a_time_inverts_time_of_a_count(tempo: TempoMap, beat: Fraction) -> None:
    assert tempo.beat_at(tempo.frame_at(beat)) == beat


@given(maps(), st.integers(-(10**6), 10**9))
@settings(max_examples=100)
def test_time_of_a_count_inverts_position_at_a_time(tempo: TempoMap, frame: int) -> None:
    assert tempo.frame_at(tempo.beat_at(frame)) == frame


@given(maps(), st.lists(beats, min_size=2, max_size=6, unique=True))
@settings(max_examples=100)
def test_later_counts_have_later_frames(tempo: TempoMap, some: list[Fraction]) -> None:
    frames = [tempo.frame_at(beat) for beat in sorted(some)]
    assert all(early < late for early, late in pairwise(frames))


@given(maps(), st.integers(0, 10 * RATE), tempi, beats)
@settings(max_examples=100)
def test_a_change_leaves_everything_before_it_as_it_was(
    tempo: TempoMap, later: int, other: Fraction, beat: Fraction
) -> None:
    frame = tempo.segments[-1].frame + later
    changed = tempo.changed(frame, other)
    # What lies before a map's beginning is only its first tempo carried back, and goes with that.
    if tempo.segments[0].frame <= tempo.frame_at(beat) <= frame:
        assert changed.frame_at(beat) == tempo.frame_at(beat)
    assert changed.tempo_at(frame) == other
    assert changed.keeps(other, frame)


@given(maps(), beats, beats)
@settings(max_examples=60)
def test_beats_with_other_numbers_have_the_same_frames(tempo: TempoMap, beat: Fraction, less: Fraction) -> None:
    assert tempo.renumbered(less).frame_at(beat - less) == tempo.frame_at(beat)
    assert tempo.renumbered(less).beat_at(tempo.frame_at(beat)) == beat - less


def test_a_change_drops_the_changes_planned_after_it() -> None:
    planned = TempoMap.steady(Fraction(60)).changed_at_beat(Fraction(8), Fraction(90))
    assert [one.frame for one in planned.segments] == [0, 8 * RATE]
    pressed = planned.changed(4 * RATE, Fraction(120))
    assert pressed.segments == (
        Segment(0, Fraction(0), Fraction(RATE)),
        Segment(4 * RATE, Fraction(4), Fraction(24_000)),
    )


def test_a_change_before_the_beginning_is_refused() -> None:
    with pytest.raises(ValueError, match="a tempo map does not change before it begins"):
        TempoMap.steady(Fraction(60), frame=100).changed(99, Fraction(90))
    with pytest.raises(ValueError, match="a tempo map is only added to"):
        TempoMap.steady(Fraction(60), frame=100).changed_at_beat(Fraction(-1), Fraction(90))


def test_a_tempo_of_nothing_is_refused() -> None:
    with pytest.raises(ValueError, match="a tempo is above 0 counts a minute"):
        frames_per_beat(Fraction(0))


def test_a_change_at_a_beat_puts_it_on_its_whole_frame() -> None:
    tempo = TempoMap.steady(Fraction(97)).changed_at_beat(Fraction(1), Fraction(60))
    assert tempo.frame_at(Fraction(1)) == round(Fraction(60 * RATE, 97))


@pytest.mark.parametrize("tempo", [54, 66, 84, 96, 100, 112, 128, 180, 200])
def test_the_length_of_a_count_is_that_of_a_tempo_mark(tempo: int) -> None:
    ours = seconds_of(frames_per_beat(Fraction(tempo)))
    assert ours == pytest.approx(music21.tempo.MetronomeMark(number=tempo).secondsPerQuarter(), abs=1e-12)


@pytest.mark.parametrize("beat", [Fraction(1, 3), Fraction(2, 3), Fraction(1, 4), Fraction(3, 4), Fraction(31, 3)])
def test_fractions_of_a_count_fall_where_music21_has_them(beat: Fraction) -> None:
    mark = music21.tempo.MetronomeMark(number=96)
    ours = TempoMap.steady(Fraction(96)).seconds_at(beat)
    assert ours == pytest.approx(mark.durationToSeconds(music21.duration.Duration(beat)), abs=1e-9)


def test_two_tempi_in_one_piece_end_when_music21_says() -> None:
    # facts: 24 quarters at 90, then 24 at 96: 31 seconds.
    stream = music21.stream.Stream()
    for offset, tempo in ((0, 90), (24, 96)):
        stream.insert(offset, music21.tempo.MetronomeMark(number=tempo))
    for offset in range(48):
        stream.insert(offset, music21.note.Note(quarterLength=1))
    ours = TempoMap.steady(Fraction(90)).changed_at_beat(Fraction(24), Fraction(96))
    assert ours.seconds_at(Fraction(48)) == stream.secondsMap[-1]["endTimeSeconds"] == 31.0
    # The count before the change and the one after it.
    assert ours.seconds_at(Fraction(23)) == pytest.approx(23 * 60 / 90, abs=1e-12)
    assert ours.seconds_at(Fraction(25)) == pytest.approx(16 + 60 / 96, abs=1e-12)


@pytest.mark.parametrize(("tempo", "exact"), [(60, True), (96, True), (112, False), (180, False)])
def test_times_agree_with_the_ticks_of_a_midi_file(tempo: int, *, exact: bool) -> None:
    # The standard keeps whole microseconds a quarter: 60 and 96 are exact, others are off by up to half of one a count.
    ours = TempoMap.steady(Fraction(tempo))
    for beat in (Fraction(1), Fraction(1, 3), Fraction(64), Fraction(256)):
        ticks = beat * 480
        theirs = mido.tick2second(float(ticks), 480, mido.bpm2tempo(tempo))
        assert ours.seconds_at(beat) == pytest.approx(theirs, abs=1e-9 if exact else 0.5e-6 * float(beat))


def test_two_tempi_agree_with_a_midi_file() -> None:
    file = mido.MidiFile(ticks_per_beat=480)
    track = mido.MidiTrack()
    file.tracks.append(track)
    track.append(mido.MetaMessage("set_tempo", tempo=mido.bpm2tempo(60)))
    track.append(mido.MetaMessage("set_tempo", tempo=mido.bpm2tempo(96), time=480 * 32))
    track.append(mido.MetaMessage("end_of_track", time=480 * 32))
    ours = TempoMap.steady(Fraction(60)).changed_at_beat(Fraction(32), Fraction(96))
    assert ours.seconds_at(Fraction(64)) == pytest.approx(file.length, abs=1e-9)


def test_units_go_both_ways() -> None:
    assert tempo_of(frames_per_beat(Fraction(97, 3))) == Fraction(97, 3)
    assert frames_of(seconds_of(12_345)) == 12_345
    assert frames_of(0.5) == 24_000
