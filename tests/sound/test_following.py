"""One take after another without a stop: no click is lost and none doubled."""

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sound.rooms import EIGHT, ENDLESS, LANTERN, Room
from tests.sound.test_score import onsets
from trainer.practice.take import Take, looped, section_range, whole
from trainer.timing import RATE


@given(
    st.lists(
        st.tuples(st.sampled_from(["loop", "dance", "slower", "faster"]), st.integers(40, 4000)), min_size=1, max_size=9
    )
)
@settings(max_examples=25, deadline=None)
def test_going_on_in_another_take_loses_no_click_and_doubles_none(keys: list[tuple[str, int]]) -> None:
    room = Room()
    room.transport.load(whole(LANTERN), Fraction(180))
    room.transport.start()
    room.run(2.0)
    seen = []
    for key, wait in keys:
        place = room.transport.now().place
        if key == "loop":
            first, last = section_range(LANTERN, place.beat)
            # What is danced when the next frame that can be changed sounds may lie behind the section already.
            left = last - place.beat + place.before
            assert room.transport.carry_on(looped(LANTERN, first, last)) or left < Fraction(3, 2)
        elif key == "dance":
            assert room.transport.carry_on(whole(LANTERN))
        else:
            room.transport.set_tempo(Fraction(120 if key == "slower" else 240))
        for _ in range(wait // 33):
            room.run(1 / 30)
            seen.append(room.transport.now())
    room.run(1.0)
    score = room.transport._program.score
    assert score is not None
    played = room.played
    since = room.transport._program.since
    assert np.array_equal(played[since:], score.render(since, len(played) - since))
    # Beats go by evenly: between two clicks lies a count of one of the three tempi, or a part of one.
    apart = np.diff(onsets(played))
    assert apart.min() >= 60 * RATE // 240 // 2 - 1
    assert apart.max() <= 60 * RATE // 120 + 1
    for before, after in pairwise(seen):
        if before.take is after.take:
            assert 0 <= after.beat - before.beat < Fraction(1, 2)


def test_a_take_that_follows_begins_on_the_frame_where_the_other_ends(room: Room) -> None:
    then = replace(whole(LANTERN), first=Fraction(48))
    room.transport.load(whole(LANTERN), Fraction(120))
    room.transport.start()
    room.run(4.0)
    assert room.transport.carry_on(replace(whole(LANTERN), last=Fraction(24)), then)
    room.transport.set_tempo(Fraction(150))
    room.run(1.0)
    score = room.transport._program.score
    assert score is not None
    assert score.following is not None
    assert score.following.tempo.frame_at(Fraction(0)) == score.tempo.frame_at(Fraction(8))
    assert room.transport.now().take is not then
    room.run(2.0)
    now = room.transport.now()
    assert now.take is then
    assert 48 < now.place.beat < 56
    # After the seam it is an everyday take: a key, a loop, and to its end.
    room.transport.set_tempo(Fraction(240))
    room.run(1.0)
    assert room.transport.carry_on(looped(LANTERN, Fraction(48), Fraction(64)))
    room.run(1.0)
    kinds = [one.kind for one in score.sounds_between(score.first, score.first + 20 * RATE)]
    assert kinds.count("count-in") == 4
    played = room.played
    assert np.diff(onsets(played)).max() <= 60 * RATE // 120
    room.transport.stop()
    room.transport.start()
    room.run(0.5)
    assert room.transport.now().place.before > 0


def test_a_take_that_follows_is_danced_to_its_end(room: Room) -> None:
    room.transport.load(whole(LANTERN), Fraction(240))
    room.transport.start()
    room.run(2.0)
    then = replace(whole(LANTERN), first=Fraction(48), last=Fraction(56))
    assert room.transport.carry_on(replace(whole(LANTERN), last=Fraction(24)), then)
    room.run(6.0)
    now = room.transport.now()
    assert (now.running, now.finished, now.take, now.place.beat) == (False, True, then, 56)


def test_what_cannot_be_gone_on_in_changes_nothing(room: Room) -> None:
    assert not room.transport.carry_on(EIGHT), "nothing is loaded"
    room.transport.load(whole(LANTERN), Fraction(120))
    assert not room.transport.carry_on(EIGHT), "it stands"
    room.transport.start()
    room.run(2.0)
    program = room.transport._program
    assert not room.transport.carry_on(Take(LANTERN, Fraction(48), Fraction(64))), "it does not hold the count"
    assert room.transport._program is program
    with pytest.raises(ValueError, match="an endless take is followed by nothing"):
        room.transport.carry_on(ENDLESS, EIGHT)


def test_a_loop_that_comes_too_late_is_made_anew(room: Room) -> None:
    room.transport.load(whole(LANTERN), Fraction(120))
    room.transport.start()
    room.run(5.0)
    free = room.device.free
    asked = 0

    def overtaken(at: float) -> int:
        # The frame is chosen at the second asking; the first sees whether it can be done.
        nonlocal asked
        frame, asked = free(at), asked + 1
        if asked == 2:
            room.library.streams[0].call()
            room.library.streams[0].call()
        return frame

    loop = looped(LANTERN, Fraction(16), Fraction(24))
    room.device.free = overtaken  # type: ignore[method-assign]
    assert room.transport.carry_on(loop)
    late = room.transport._program
    room.run(3.0)
    score = room.transport._program.score
    assert score is not None
    assert (room.transport._program is late, score.take) == (False, loop)
    assert room.transport.now().place.round == 1
    played = room.played
    assert np.array_equal(played, score.render(0, len(played)))
