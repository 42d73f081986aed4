"""What sounds on which frame: by hand, by law, and found again in the samples."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from tests.sound.scenes import eight, lantern, plain, rolling, waltz
from trainer.dance.timeline import Timeline
from trainer.dance.unroll import unroll
from trainer.practice.take import Take, looped, onward, whole
from trainer.sound.clicks import KINDS, LONGEST, kit
from trainer.sound.score import SLOW_ROLLING, Levels, Score, Sound
from trainer.timing import RATE, frames_per_beat

LANTERN = unroll(lantern(), 5)
FULL = Levels(master=1.0)
ONE = Fraction(60)
"""A tempo at which a count is a second."""


def onsets(samples: NDArray[np.float32]) -> list[int]:
    """Return the frames of the first sample of every click, after at least 5 ms of silence."""
    sounding = np.flatnonzero(samples[:, 0])
    if not len(sounding):
        return []
    return [int(frame) for frame in sounding[np.insert(np.diff(sounding) > RATE // 200, 0, True)]]


def heard(take: Take, first: int, last: int, tempo: Fraction = ONE) -> list[tuple[Fraction, str]]:
    """Return the sounds between two beats of a take as (beat, kind)."""
    score = Score.starting(take, tempo)
    per = frames_per_beat(tempo)
    found = score.sounds_between(round((first + take.count_in) * per), round((last + take.count_in) * per))
    return [((sound.frame / per - take.count_in).limit_denominator(12), sound.kind) for sound in found]


def test_a_take_from_the_top_has_its_count_in_its_sections_its_beats_and_its_steps() -> None:
    take = Take(LANTERN, Fraction(16), Fraction(32))
    assert heard(take, -4, 99) == [
        (-4, "count-in"), (-3, "count-in"), (-2, "count-in"), (-1, "count-in"),
        (0, "section"), *((beat, "beat") for beat in range(1, 8)),
        (8, "section"), (9, "beat"), (10, "beat"), (Fraction(21, 2), "step"), (11, "beat"), (12, "beat"), (13, "beat"),
        (14, "beat"), (Fraction(29, 2), "step"), (15, "beat"),
    ]  # fmt: skip


def test_a_pick_up_sounds_in_the_count_in_and_not_at_the_end_of_what_lies_before_it() -> None:
    assert (Fraction(-1, 2), "step") in heard(Take(LANTERN, Fraction(40), Fraction(48)), -4, 99)
    assert heard(Take(LANTERN, Fraction(32), Fraction(40)), 7, 99) == [(7, "beat")]


def test_a_loop_has_its_pick_up_in_the_seam_before_each_round() -> None:
    take = Take(LANTERN, Fraction(40), Fraction(48), rounds=2)
    assert [beat for beat, kind in heard(take, -4, 99) if kind == "step"] == [Fraction(-1, 2), Fraction(15, 2)]
    seam = heard(replace(take, seam=4), 7, 14)
    assert seam == [
        (7, "beat"), *((beat, "count-in") for beat in range(8, 12)), (Fraction(23, 2), "step"), (12, "section"),
        (13, "beat"),
    ]  # fmt: skip


def test_an_extra_begins_like_a_section_and_a_change_and_a_hold_do_not() -> None:
    take = whole(LANTERN)
    sections = [int(beat) + 16 for beat, kind in heard(take, 0, 200) if kind == "section"]
    wall_2, wall_3, wall_4, wall_5 = (int(one.start) for one in LANTERN.passes[1:])
    assert sections == [
        16, 24, 32, 40,
        wall_2, wall_2 + 8, wall_2 + 16, wall_2 + 20, wall_2 + 40,
        wall_3, wall_3 + 8, wall_3 + 16, wall_3 + 26,
        wall_4, wall_4 + 8, wall_4 + 16,
        wall_5, wall_5 + 8, wall_5 + 16, wall_5 + 24,
    ]  # fmt: skip


def test_a_take_entered_late_counts_in_to_its_entry_and_then_goes_round_whole() -> None:
    take = Take(LANTERN, Fraction(16), Fraction(32), rounds=2, entry=Fraction(24))
    beats = [beat for beat, _ in heard(take, -4, 99) if beat.denominator == 1]
    assert beats == list(range(-4, 24))
    assert [beat for beat, kind in heard(take, 0, 99) if kind == "section"] == [0, 8, 16]


@pytest.mark.parametrize(
    ("tempo", "subs", "why"),
    [
        (SLOW_ROLLING, 0, "not slow"),
        (SLOW_ROLLING - 1, 12, "of 16 sub-beats the 4 that are danced sound as such"),
        (ONE, 0, "the tempo it is danced at"),
    ],
)
def test_sub_beats_of_a_rolling_dance_sound_at_a_slow_tempo(tempo: Fraction, subs: int, why: str) -> None:
    kinds = [kind for _, kind in heard(Take(unroll(rolling(), 1), Fraction(0), Fraction(8)), 0, 8, tempo)]
    assert kinds.count("sub") == subs, why
    assert kinds.count("step") == 4


def test_a_straight_dance_has_no_sub_beats_however_slow() -> None:
    assert not [kind for _, kind in heard(whole(LANTERN), 0, 60, Fraction(20)) if kind == "sub"]


def test_a_waltz_is_counted_in_by_three() -> None:
    beats = heard(onward(unroll(waltz(), 1), Fraction(0)), -8, 2)
    assert beats == [*((beat, "count-in") for beat in range(-3, 0)), (0, "section"), (1, "beat")]


def test_clicks_in_the_samples_are_on_their_frames_to_the_sample() -> None:
    score = Score.starting(whole(LANTERN), Fraction(113), frame=777)
    samples = score.render(0, 60 * RATE)
    due = [sound.frame for sound in score.sounds_between(0, 60 * RATE)]
    assert len(due) > 100
    assert onsets(samples) == due
    # By hand: the count-in begins at 777, count 1 four counts of 60/113 s later.
    assert due[0] == 777
    assert due[4] == 777 + round(Fraction(4 * 60 * RATE, 113))


scores = st.builds(
    lambda timeline, first, length, rounds, seam, tempo, changes: Score.starting(
        Take(timeline, first, first + length, rounds, seam),
        tempo,
        frame=100,
        changes=[(Fraction(4 * (at + 1)), other) for at, other in enumerate(changes)],
    ),
    st.sampled_from([LANTERN, unroll(waltz(), 5), unroll(rolling(), 12)]),
    st.integers(0, 20).map(Fraction),
    st.integers(1, 40),
    st.none() | st.integers(1, 4),
    st.integers(0, 4),
    st.fractions(Fraction(20), Fraction(260), max_denominator=100),
    st.lists(st.fractions(Fraction(20), Fraction(260), max_denominator=100), max_size=3),
)

followed = st.builds(
    lambda score, first, length: replace(
        score, then=Take(score.take.timeline, first, first + length) if score.take.rounds else None
    ),
    scores,
    st.integers(0, 20).map(Fraction),
    st.integers(1, 40),
)


@given(followed, st.lists(st.integers(1, 9000), min_size=1, max_size=12), st.integers(0, 20 * RATE))
@settings(max_examples=40, deadline=None)
def test_cutting_into_blocks_changes_no_sample(score: Score, blocks: list[int], first: int) -> None:
    whole_piece = score.render(first, sum(blocks))
    starts = np.cumsum([0, *blocks[:-1]])
    pieces = [score.render(first + int(start), block) for start, block in zip(starts, blocks, strict=True)]
    assert np.array_equal(np.concatenate(pieces), whole_piece)


@given(followed, st.lists(st.integers(0, 40 * RATE), min_size=1, max_size=6))
@settings(max_examples=40, deadline=None)
def test_cutting_a_stretch_neither_loses_nor_doubles_a_sound(score: Score, cuts: list[int]) -> None:
    edges = [0, *sorted(cuts), 40 * RATE]
    parts = [sound for low, high in pairwise(edges) for sound in score.sounds_between(low, high)]
    assert parts == score.sounds_between(0, 40 * RATE)


@pytest.mark.parametrize("seam", [0, 1, 3, 4])
def test_every_sound_is_found_when_its_frame_alone_is_asked_for(seam: int) -> None:
    take = Take(LANTERN, Fraction(40), Fraction(48), 3, seam)
    score = Score.starting(take, Fraction(113))
    sounds = score.sounds_between(0, 60 * RATE)
    assert len([sound for sound in sounds if sound.kind == "count-in"]) == 4 + 2 * seam
    for sound in sounds:
        assert score.sounds_between(sound.frame, sound.frame + 1) == [sound]
        assert score.render(sound.frame, 1).any()


@given(scores)
@settings(max_examples=40, deadline=None)
def test_every_sound_is_on_the_nearest_frame_to_its_beat_and_in_order(score: Score) -> None:
    sounds = score.sounds_between(0, 30 * RATE)
    frames = [sound.frame for sound in sounds]
    assert frames == sorted(set(frames))
    for frame in frames:
        beat = score.tempo.beat_at(frame)
        near = Fraction(round(beat * 12), 12)
        assert abs(score.tempo.frame_at(near) - frame) <= Fraction(1, 2)


@given(st.fractions(Fraction(20), Fraction(260), max_denominator=1000), st.integers(0, 10**6))
@settings(max_examples=60, deadline=None)
def test_loop_k_begins_at_k_times_its_exact_length_however_large_k(tempo: Fraction, number: int) -> None:
    take = Take(LANTERN, Fraction(16), Fraction(24), None)
    score = Score.starting(take, tempo)
    exact = 4 * frames_per_beat(tempo) + number * 8 * frames_per_beat(tempo)
    assert Sound(round(exact), "section") in score.sounds_between(round(exact) - 2, round(exact) + 2)


def test_another_tempo_leaves_what_began_before_it() -> None:
    score = Score.starting(whole(LANTERN), Fraction(120))
    at = 5 * RATE + 17
    slower = score.retimed(at, Fraction(40))
    assert slower.sounds_between(0, at) == score.sounds_between(0, at)
    after = slower.sounds_between(at, at + 10 * RATE)
    gaps = {late.frame - early.frame for early, late in pairwise(after) if "step" not in (early.kind, late.kind)}
    assert gaps == {3 * RATE // 2}


def test_planned_tempi_begin_on_their_beats() -> None:
    take = looped(LANTERN, Fraction(16), Fraction(24), 2)
    score = Score.starting(take, Fraction(60), changes=[(Fraction(8), Fraction(120))])
    beats = [sound.frame for sound in score.sounds_between(0, 60 * RATE) if sound.kind in ("section", "beat")]
    assert np.diff(beats).tolist() == [RATE] * 8 + [RATE // 2] * 7


def test_the_end_of_a_take_is_known_and_an_endless_one_has_none() -> None:
    take = Take(LANTERN, Fraction(16), Fraction(24), 2)
    assert Score.starting(take, ONE, frame=10).last == 10 + 20 * RATE
    assert Score.starting(take, ONE, frame=10).first == 10
    assert Score.starting(replace(take, rounds=None), ONE).last is None


def densest() -> Timeline:
    """Return the fullest section a sheet can have: e & a on every count."""
    return plain([eight("1", " ".join(f"{count} e & a" for count in range(1, 9)))])


@pytest.mark.parametrize("tempo", [60, 120, 240, 300])
def test_the_fullest_section_at_full_level_peaks_below_minus_one_dbfs(tempo: int) -> None:
    score = Score.starting(Take(densest(), Fraction(0), Fraction(8), None), Fraction(tempo), levels=FULL)
    assert float(np.abs(score.render(0, 20 * RATE)).max()) <= 10 ** (-1 / 20)


def test_a_first_start_is_not_loud() -> None:
    score = Score.starting(whole(LANTERN), ONE)
    assert 0.1 < float(np.abs(score.render(0, 10 * RATE)).max()) <= 0.25, "-12 dBFS at most"


@pytest.mark.parametrize("kind", KINDS)
def test_a_level_of_nothing_silences_its_kind_alone(kind: str) -> None:
    levels = replace(FULL, **{kind.replace("-", "_"): 0.0})
    take = Take(unroll(rolling(), 1), Fraction(0), Fraction(8))
    score = Score.starting(take, Fraction(40), levels=levels)
    expected = [sound.frame for sound in score.sounds_between(0, 20 * RATE) if sound.kind != kind]
    assert onsets(score.render(0, 20 * RATE)) == expected


def test_a_level_above_full_is_refused() -> None:
    with pytest.raises(ValueError, match="the level of beat lies between 0 and 1"):
        Levels(beat=1.1)


def test_no_click_is_longer_than_is_looked_back_for() -> None:
    assert max(len(samples) for samples in kit().values()) == LONGEST
