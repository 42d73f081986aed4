"""Start, stop, tempo, loop: what is pulled, and where the dance is told to stand."""

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.sound.rooms import EIGHT, ENDLESS, LANTERN, ONE, Room, at_once
from tests.sound.test_score import onsets
from trainer.practice.take import Place, Take, looped, resumed, whole
from trainer.sound.clicks import LONGEST
from trainer.sound.device.simulated import BLOCK, HandClock, Library
from trainer.sound.device.watched import Watched
from trainer.sound.levels import Levels
from trainer.sound.program import AHEAD, FADE
from trainer.sound.transport import SOON, Transport
from trainer.timing import RATE


def test_before_anything_is_loaded_it_stands_still_and_cannot_start(quiet: tuple[Transport, HandClock]) -> None:
    transport, _ = quiet
    now = transport.now()
    assert (now.running, now.finished, now.beat, now.place) == (False, False, 0, Place(0, Fraction(0), Fraction(0)))
    with pytest.raises(ValueError, match="nothing is loaded"):
        transport.start()


def test_loaded_it_stands_at_the_first_count(quiet: tuple[Transport, HandClock]) -> None:
    transport, _ = quiet
    transport.load(EIGHT, Fraction(96))
    now = transport.now()
    assert (now.running, now.beat, now.place, now.tempo) == (False, 0, Place(0, Fraction(16), Fraction(0)), 96)
    assert now.sound == "without sound, as chosen"


def test_it_counts_in_and_dances_to_its_end(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.load(EIGHT, ONE)
    transport.start()
    start = clock.now + (1 + FADE) / RATE
    assert transport.now().place == Place(0, Fraction(16), Fraction(4))
    for seconds, beat in ((1, -3), (4, 0), (4.5, Fraction(1, 2)), (11.5, Fraction(15, 2))):
        now = transport.now(start + seconds)
        assert (now.running, now.finished) == (True, False)
        assert abs(now.beat - beat) <= Fraction(1, RATE)
    end = transport.now(start + 12.1)
    assert (end.running, end.finished, end.beat, end.place) == (False, True, 8, Place(0, Fraction(24), Fraction(0)))
    assert transport.now(start + 99).finished
    transport.start()
    assert (transport.now().running, transport.now().finished) == (True, False)


def test_position_at_the_time_of_a_count_is_that_count(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.load(whole(LANTERN), Fraction(97))
    transport.start()
    start = clock.now + (1 + FADE) / RATE
    for beat in (Fraction(0), Fraction(1, 2), Fraction(77, 3), Fraction(150)):
        at = start + float((beat + 4) * 60 / 97)
        assert abs(transport.now(at).beat - beat) < Fraction(1, 10_000)


def test_a_screen_that_takes_its_time_looks_ahead_and_never_back(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.load(EIGHT, ONE)
    transport.start()
    clock.now += 5
    transport.delay = 0.1
    there = transport.now().beat
    transport.lead = 0.04
    ahead = transport.now().beat
    assert float(ahead - there) == pytest.approx(0.04, abs=1 / RATE)
    transport.lead = 0.01
    assert transport.now().beat == ahead, "it stands until the time has come"
    clock.now += 0.03
    assert float(transport.now().beat) == pytest.approx(float(ahead), abs=1 / RATE)
    clock.now += 0.5
    assert float(transport.now().beat - ahead) == pytest.approx(0.5, abs=2 / RATE)


def test_it_tells_how_long_until_the_next_click_is_heard(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.delay = 0.25
    assert transport.until_click() is None, "nothing is loaded"
    transport.load(Take(LANTERN, Fraction(24), Fraction(32)), ONE)
    assert transport.until_click() is None, "it stands"
    transport.start()
    start = clock.now + (1 + FADE) / RATE
    assert transport.until_click() == pytest.approx(0.25 + (1 + FADE) / RATE)
    # Counts 1 2 3 & 4 of section 2 after four counts of count-in.
    for seconds, due in ((0.4, 0.85), (4.3, 0.95), (6.3, 0.45), (6.8, 0.45)):
        clock.now = start + seconds
        transport.now()
        assert transport.until_click() == pytest.approx(due, abs=1 / RATE)
        later = transport.now(clock.now + due + 1 / RATE).beat
        assert later.limit_denominator(2) - later <= 0, "at a click there is something new to show"
    clock.now = start + 6.3
    transport.now()
    clock.now += 0.5
    assert transport.until_click() == SOON, "a click that was heard since the last look is not passed over"
    clock.now = start + 11.9
    transport.now()
    assert transport.until_click() is None, "the last click was heard"


def test_a_stop_stands_where_it_was_heard_and_a_start_begins_the_take_anew(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.load(EIGHT, ONE)
    transport.start()
    clock.now += 6.5
    transport.stop()
    clock.now += 60
    stood = transport.now()
    assert not stood.running
    assert abs(stood.beat - Fraction(5, 2)) < Fraction(1, 100)
    transport.load(resumed(EIGHT, stood.place), ONE)
    transport.start()
    clock.now += 1
    assert -3.1 < transport.now().beat < -2.9


def test_a_tempo_key_when_stopped_is_how_it_will_start(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.load(EIGHT, ONE)
    transport.set_tempo(Fraction(30))
    assert transport.now().tempo == 30
    transport.start()
    clock.now += 4
    assert abs(transport.now().beat + 2) < Fraction(1, 100)


@pytest.mark.parametrize("tempo", [Fraction(0), Fraction(-3)])
def test_a_tempo_of_nothing_is_refused(quiet: tuple[Transport, HandClock], tempo: Fraction) -> None:
    with pytest.raises(ValueError, match="a tempo is above 0 counts a minute"):
        quiet[0].set_tempo(tempo)


def test_beats_keep_small_denominators_through_hundreds_of_keys(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.load(ENDLESS, Fraction(317, 3))
    transport.start()
    for key in range(300):
        clock.now += 0.37
        transport.set_tempo(Fraction(1000 + key * 7919 % 991, 17))
    assert transport.now().beat.denominator <= 60 * RATE * 1000


def test_the_screen_waits_for_the_sound_by_its_delay(quiet: tuple[Transport, HandClock]) -> None:
    transport, clock = quiet
    transport.load(EIGHT, ONE)
    transport.start()
    clock.now += 5
    early = transport.now().beat
    transport.delay = 0.25
    assert abs(early - transport.now().beat - Fraction(1, 4)) < Fraction(1, 1000)


def test_what_is_pulled_is_the_score_bit_by_bit(room: Room) -> None:
    room.transport.load(whole(LANTERN), Fraction(144))
    room.transport.start()
    score = room.transport._program.score
    assert score is not None
    room.run(20)
    played = room.played
    assert np.array_equal(played, score.render(0, len(played)))
    assert onsets(played) == [one.frame for one in score.sounds_between(0, len(played))]


@given(st.lists(st.tuples(st.integers(40, 3000), st.integers(30, 240)), min_size=1, max_size=8))
@settings(max_examples=15, deadline=None)
def test_tempo_keys_lose_no_click_double_none_and_let_begun_ones_ring_out(keys: list[tuple[int, int]]) -> None:
    room = Room()
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.run(2.0)
    for wait, tempo in keys:
        room.transport.set_tempo(Fraction(tempo))
        room.run(wait / 1000)
    room.run(3.0)
    score = room.transport._program.score
    assert score is not None
    played = room.played
    assert np.array_equal(played, score.render(0, len(played)))


@pytest.mark.parametrize("part", [0.01, 0.3, 0.59, 0.61, 0.99])
def test_the_first_changed_frame_is_the_next_that_can_be_changed(room: Room, part: float) -> None:
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.run(3.0)
    last = room.library.streams[0].stream.last
    room.clock.now = last.time + part * BLOCK / RATE
    room.transport.set_tempo(Fraction(60))
    changed = room.transport._program.since
    assert changed - last.pulled in (0, BLOCK)
    assert changed >= last.pulled
    # Never more than a block later than what has been pulled already: 300 ms less the device's own buffer.
    assert changed - (last.frames + (room.clock.now - last.time) * RATE) <= 2 * BLOCK


def test_a_change_that_comes_too_late_is_made_anew(room: Room) -> None:
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.run(3.0)
    # The device's thread takes two blocks between the choice of the frame and the swap.
    free = room.device.free

    def overtaken(at: float) -> int:
        frame = free(at)
        room.device.free = free  # type: ignore[method-assign]
        room.library.streams[0].call()
        room.library.streams[0].call()
        return frame

    room.device.free = overtaken  # type: ignore[method-assign]
    room.transport.set_tempo(Fraction(60))
    late = room.transport._program
    room.run(3.0)
    score = room.transport._program.score
    assert room.transport._program is not late
    assert score is not None
    assert score.tempo.keeps(Fraction(60), score.tempo.segments[-1].frame)
    played = room.played
    assert np.array_equal(played, score.render(0, len(played)))


def test_the_screen_slows_when_the_ear_hears_it(room: Room) -> None:
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.run(3.0)
    room.transport.set_tempo(Fraction(30))
    since = room.transport._program.since
    before = room.transport.now()
    assert before.tempo == 120
    while (now := room.transport.now()).tempo == 120:
        room.run(0.01)
    heard = room.device.heard(room.clock.now)
    assert heard is not None
    assert since - 1 <= heard <= since + 0.011 * RATE
    assert now.tempo == 30


def test_a_stop_fades_in_five_milliseconds_without_a_step(room: Room) -> None:
    room.transport.load(ENDLESS, Fraction(233))
    room.transport.start()
    room.run(2.0)
    # Stop where a click rings across the first frame that can be changed.
    score = room.transport._program.score
    assert score is not None
    while True:
        free = room.device.free(room.clock.now)
        if any(0 < free - one.frame < LONGEST // 4 for one in score.sounds_between(free - LONGEST, free)):
            break
        room.run(0.1)
    room.transport.stop()
    room.run(1.0)
    played = room.played
    assert not played[free + FADE :].any()
    assert played[free : free + FADE // 2].any()
    unfaded = score.render(free, FADE)
    gain = np.arange(FADE, 0, -1, dtype=np.float32) / FADE
    assert np.allclose(played[free : free + FADE], unfaded * gain[:, None], atol=1e-6)
    assert np.array_equal(played[free - 4800 : free], score.render(free - 4800, 4800))


def test_a_start_right_after_a_stop_fades_the_old_and_begins_the_new(room: Room) -> None:
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.run(2.2)
    room.transport.stop()
    room.transport.load(EIGHT, Fraction(90))
    room.transport.start()
    begins = room.transport._program.score
    assert begins is not None
    room.run(12.0)
    played = room.played
    after = [frame for frame in onsets(played) if frame >= begins.first]
    assert after == [one.frame for one in begins.sounds_between(0, len(played))]
    assert room.transport.now().finished


def test_loading_while_dancing_stops_it(room: Room) -> None:
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.run(2.0)
    room.transport.load(EIGHT, Fraction(90))
    room.run(1.0)
    pulled = len(room.played)
    room.run(2.0)
    assert not room.transport.now().running
    assert not room.played[pulled:].any()


def test_a_loop_goes_on_past_everything_that_was_resolved_ahead() -> None:
    room = Room(keep=False)
    room.transport.load(looped(LANTERN, Fraction(16), Fraction(48)), Fraction(173))
    room.transport.start()
    score = room.transport._program.score
    assert score is not None
    room.run(5 * AHEAD / RATE)
    room.library.keep = True
    at = room.library.streams[0].stream.last.pulled
    room.run(10)
    played = room.played
    assert np.array_equal(played, score.render(at, len(played)))
    assert len(onsets(played)) > 25


def test_planned_tempi_are_heard_and_a_key_drops_those_to_come(room: Room) -> None:
    room.transport.load(ENDLESS, ONE, changes=[(Fraction(2), Fraction(120)), (Fraction(40), Fraction(30))])
    room.transport.start()
    room.run(9.0)
    assert room.transport.now().tempo == 120
    # The tempo that was planned for later, but from now on.
    room.transport.set_tempo(Fraction(30))
    room.run(1.0)
    assert room.transport.now().tempo == 30
    room.transport.set_tempo(Fraction(90))
    room.run(60.0)
    assert room.transport.now().tempo == 90


def test_levels_change_from_the_next_click_on(room: Room) -> None:
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.run(3.0)
    room.transport.set_levels(Levels(master=0.0))
    since = room.transport._program.since
    room.run(2.0)
    played = room.played
    assert not played[since + LONGEST :].any()
    score = room.transport._program.score
    assert score is not None
    begun = score.at_levels(Levels()).render(since - LONGEST, LONGEST)
    assert np.array_equal(played[since - LONGEST : since], begun)


def test_until_the_device_has_settled_it_stands_at_the_count_in() -> None:
    clock = HandClock()
    library = Library(clock, late=1.4)
    transport = Transport(Watched("simulated", library.opener, clock=clock, spawn=at_once), clock=clock)
    transport.load(EIGHT, ONE)
    transport.start()
    library.run(1.3, transport.now)
    assert transport.now().beat == -4
    assert transport.now().sound == "waiting for the sound device"
    library.run(3.0, transport.now)
    now = transport.now()
    assert now.sound == ""
    # Four blocks and 3 s on: the count-in began with the first block.
    assert -2.0 < now.beat < -0.5


def test_an_hour_of_looping_on_another_quartz_ends_on_its_frame() -> None:
    room = Room(ppm=100, keep=False)
    room.transport.load(ENDLESS, Fraction(120))
    room.transport.start()
    room.library.run(3600, room.transport.now, every=0.5)
    now = room.transport.now()
    score = room.transport._program.score
    assert score is not None
    pulled = room.library.streams[0].stream.last
    true = pulled.frames + (room.clock.now - pulled.time) * room.library.rate
    assert abs(float(score.tempo.frame_at(now.beat)) - true) < 0.001 * RATE
    assert now.place.round == int(now.beat // 8)


def test_closing_twice_gives_the_device_back_once(room: Room) -> None:
    room.transport.close()
    room.transport.close()
    assert room.library.streams[0].closed
