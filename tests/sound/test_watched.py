"""A device that is missing, breaks, comes back, or sleeps: the dance goes on, and says so."""

from collections.abc import Callable
from fractions import Fraction

import numpy as np
import pytest

from tests.sound.test_score import onsets
from tests.sound.test_transport import ENDLESS, ONE, Room, at_once
from trainer.sound.clicks import Samples
from trainer.sound.device import DeviceError, open_device
from trainer.sound.device.silent import Silent
from trainer.sound.device.simulated import BLOCK, HandClock, Library
from trainer.sound.device.watched import Watched
from trainer.sound.transport import Transport
from trainer.timing import RATE


def dancing(seconds: float = 5.0) -> Room:
    """Return a room that has danced for some seconds, a count a second."""
    room = Room()
    room.transport.load(ENDLESS, ONE)
    room.transport.start()
    room.run(seconds)
    return room


def test_a_device_that_was_never_there_leaves_a_silent_dance_and_says_why() -> None:
    clock = HandClock()
    library = Library(clock)
    library.there = False
    transport = Transport(Watched("simulated", library.opener, clock=clock, spawn=at_once), clock=clock)
    transport.load(ENDLESS, ONE)
    assert transport.now().sound == "no sound device, going on in silence: none was found"
    transport.start()
    library.run(6.0, transport.now)
    now = transport.now()
    assert now.running
    assert abs(now.beat - 2) < Fraction(1, 50)
    transport.set_tempo(Fraction(120))
    library.run(1.0, transport.now)
    assert abs(transport.now().beat - 4) < Fraction(1, 50)
    transport.close()


def test_a_device_that_appears_later_is_joined_at_the_beat_that_has_come() -> None:
    clock = HandClock()
    library = Library(clock)
    library.there = False
    transport = Transport(Watched("simulated", library.opener, clock=clock, spawn=at_once), clock=clock)
    transport.load(ENDLESS, ONE)
    transport.start()
    library.run(6.0, transport.now)
    library.there = True
    library.run(6.0, transport.now)
    now = transport.now()
    assert now.sound == ""
    assert abs(now.beat - 8) < Fraction(1, 20)
    assert len(onsets(np.concatenate(library.streams[0].played))) >= 2


def test_a_device_lost_in_the_middle_is_noticed_after_a_second_and_the_dance_goes_on() -> None:
    room = dancing()
    before = room.transport.now()
    room.library.break_off()
    room.run(0.9)
    assert room.transport.now().sound == ""
    room.run(0.3)
    now = room.transport.now()
    assert now.sound == "sound lost, going on in silence: the device takes no more sound"
    assert room.library.streams[0].closed
    room.run(3.8)
    now = room.transport.now()
    assert now.sound == "sound lost, going on in silence: none was found"
    assert now.running
    assert abs(now.beat - before.beat - 5) < Fraction(1, 50)


def test_a_device_that_comes_back_plays_what_is_due_then_and_nothing_before_it_is_joined() -> None:
    room = dancing()
    room.library.break_off()
    room.run(4.0)
    beat = room.transport.now().beat
    room.transport.set_tempo(Fraction(120))
    room.library.there = True
    room.run(4.0)
    now = room.transport.now()
    assert now.sound == ""
    assert abs(now.beat - beat - 8) < Fraction(1, 10)
    stream = room.library.streams[-1]
    played = np.concatenate(stream.played)
    score = room.transport._program.score
    joined = room.device._joined
    assert score is not None
    assert joined is not None
    first = 4 * BLOCK
    assert not played[: 3 * BLOCK].any()
    assert np.array_equal(played[first:], score.render(first + joined.shift, len(played) - first))
    assert len(onsets(played[first:])) >= 2


def test_a_join_does_not_move_the_beat() -> None:
    room = dancing()
    room.library.break_off()
    room.run(3.0)
    room.library.there = True
    steps = []
    last = float(room.transport.now().beat)
    for _ in range(120):
        room.run(0.05)
        beat = float(room.transport.now().beat)
        steps.append(beat - last)
        last = beat
    assert room.transport.now().sound == ""
    assert max(abs(step - 0.05) for step in steps) < 0.005


def test_it_can_be_lost_and_found_many_times_and_stopped_and_started_meanwhile() -> None:
    room = dancing()
    for number in range(4):
        room.library.break_off()
        room.run(2.5)
        room.transport.stop()
        room.transport.load(ENDLESS, Fraction(90 + number))
        room.transport.start()
        room.library.there = True
        room.run(5.0)
        assert room.transport.now().sound == ""
    assert room.transport.now().running
    played = np.concatenate(room.library.streams[-1].played)
    assert onsets(played[-2 * RATE :])


def test_a_puller_that_raises_is_a_loss_with_its_cause_and_never_reaches_the_library() -> None:
    clock = HandClock()
    library = Library(clock)
    device = Watched("simulated", library.opener, clock=clock, spawn=at_once)
    calls = []

    def pull(first: int, frames: int) -> Samples:
        calls.append(first)
        if len(calls) == 10:
            raise IndexError("a hole in the score")
        return np.ones((frames, 2), dtype=np.float32)

    device.open(pull)
    library.run(3.0, lambda: device.sound(clock()), every=0.05)
    assert device.sound(clock()).startswith("sound lost, going on in silence: IndexError: a hole in the score")
    stream = library.streams[0]
    assert isinstance(stream.stream.error, IndexError)
    assert not stream.played[-1].any()
    # It is opened again like any lost device.
    library.run(4.0, lambda: device.sound(clock()), every=0.05)
    assert device.sound(clock()) == ""
    assert library.streams[-1].played[-1].all()


def test_one_that_opens_and_never_calls_is_lost_after_five_seconds() -> None:
    clock = HandClock()
    library = Library(clock, jitter=lambda count: 1e9)
    device = Watched("simulated", library.opener, clock=clock, spawn=at_once)
    device.open(lambda first, frames: np.zeros((frames, 2), dtype=np.float32))
    library.run(4.9, lambda: device.sound(clock()))
    assert device.sound(clock()) == "waiting for the sound device"
    assert device.heard(clock()) is None
    library.run(0.3, lambda: device.sound(clock()))
    assert device.sound(clock()) == "no sound device, going on in silence: the device takes no more sound"
    assert device.heard(clock()) is not None


@pytest.mark.parametrize("asleep", [30.0, 7200.0])
def test_time_that_a_suspended_machine_slept_is_not_danced(asleep: float) -> None:
    room = dancing()
    before = float(room.transport.now().beat)
    # The clock went on, the device did not: its callbacks are as many blocks late from here on.
    room.library.streams[0]._opened += asleep
    room.clock.now += asleep
    woke = room.transport.now()
    assert woke.running
    assert abs(float(woke.beat) - before) < 0.1
    room.run(3.0)
    now = room.transport.now()
    assert now.sound == ""
    assert abs(float(now.beat) - before - 3) < 0.1


def test_a_device_that_does_not_wake_up_is_lost_and_the_beat_goes_on_from_where_it_slept() -> None:
    room = dancing()
    before = float(room.transport.now().beat)
    room.library.break_off()
    room.clock.now += 3600
    assert abs(float(room.transport.now().beat) - before) < 0.1
    room.run(8.0)
    now = room.transport.now()
    assert now.sound.startswith("sound lost")
    assert before < float(now.beat) < before + 8.1


def test_a_screen_that_did_not_look_for_a_while_finds_the_dance_where_it_is() -> None:
    room = dancing()
    before = float(room.transport.now().beat)
    room.library.run(10.0)
    assert abs(float(room.transport.now().beat) - before - 10) < 0.01
    assert room.transport.now().sound == ""


def test_after_a_long_rest_the_time_is_told_at_once_by_a_quartz_that_is_off() -> None:
    room = Room(ppm=100)
    room.run(5.0)
    room.library.run(1800.0)
    room.transport.load(ENDLESS, ONE)
    room.transport.start()
    room.run(0.2)
    assert room.transport.now().sound == ""
    last = room.library.streams[0].stream.last
    true = last.frames + (room.clock.now - last.time) * room.library.rate
    heard = room.device.heard(room.clock.now)
    assert heard is not None
    assert abs(heard - true) < 0.005 * RATE


def test_closing_ends_an_opening_that_is_under_way() -> None:
    clock = HandClock()
    library = Library(clock)
    waiting: list[Callable[[], None]] = []
    device = Watched("simulated", library.opener, clock=clock, spawn=lambda work, wait: waiting.append(work))
    device.open(lambda first, frames: np.zeros((frames, 2), dtype=np.float32))
    device.close()
    while waiting:
        waiting.pop()()
    assert library.streams[0].closed
    device.close()


def test_a_name_that_is_none_is_silent_and_says_so() -> None:
    device = open_device("gramophone")
    assert isinstance(device, Silent)
    assert device.sound(0.0) == "there is no sound device called gramophone"


def test_silence_keeps_the_time_exactly() -> None:
    clock = HandClock(7.0)
    device = open_device("silent", clock=clock)
    device.open(lambda first, frames: np.zeros((frames, 2), dtype=np.float32))
    clock.now = 7.5
    assert device.heard(8.0) == RATE
    assert device.free(8.0) == RATE + 1
    assert device.sound(8.0) == "without sound, as chosen"
    device.close()


def test_the_library_says_why_it_is_not_there() -> None:
    library = Library(HandClock())
    library.there = False
    with pytest.raises(DeviceError, match="none was found"):
        library.opener(lambda first, frames: np.zeros((frames, 2), dtype=np.float32))
