"""The thin device: takes whole, a tempo key begins again at the present eight, no endless loop."""

import importlib.util
import sys
import time
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from tests.sound.live import server
from tests.sound.pulse import Recorder, needed
from tests.sound.scenes import lantern
from tests.sound.test_score import onsets
from trainer.dance.unroll import unroll
from trainer.practice.take import Take
from trainer.sound.device import open_device
from trainer.sound.device.simpleaudio_output import LONGEST, Library, SimpleaudioOutput
from trainer.sound.device.simulated import HandClock
from trainer.sound.transport import Transport
from trainer.timing import RATE

LANTERN = unroll(lantern(), 2)
SIXTEEN = Take(LANTERN, Fraction(16), Fraction(32))
ONE = Fraction(60)


class NoSoundError(Exception):
    """What the stand-in raises."""


class Played:
    """A stand-in for the library: what was handed to it, and when."""

    def __init__(self, clock: HandClock) -> None:
        self.clock = clock
        self.buffers: list[np.ndarray[tuple[int, int], np.dtype[np.int16]]] = []
        self.stopped = 0
        self.broken = False

    def load(self) -> Library:
        return Library(self.play_buffer, NoSoundError)

    def play_buffer(self, data: bytes, channels: int, width: int, rate: int) -> "Played":
        if self.broken:
            raise NoSoundError("the device is busy")
        assert (channels, width, rate) == (2, 2, RATE)
        self.buffers.append(np.frombuffer(data, dtype="<i2").reshape(-1, 2))
        return self

    def stop(self) -> None:
        self.stopped += 1


@pytest.fixture
def thin() -> tuple[Transport, HandClock, Played]:
    clock = HandClock()
    played = Played(clock)
    return Transport(SimpleaudioOutput(clock, played.load), clock=clock), clock, played


def test_a_take_is_handed_over_whole_and_the_clock_counts_from_then(thin: tuple[Transport, HandClock, Played]) -> None:
    transport, clock, played = thin
    transport.load(SIXTEEN, ONE)
    transport.start()
    score = transport._program.score
    assert score is not None
    clicks = [frame - onsets(played.buffers[0])[0] for frame in onsets(played.buffers[0])]
    due = [sound.frame - score.first for sound in score.sounds_between(0, 60 * RATE)]
    assert clicks == due
    assert len(due) > 20
    clock.now += 7
    assert abs(transport.now().beat - 3) < Fraction(1, 10)
    assert transport.now().sound == ""
    clock.now += 14
    assert transport.now().finished


def test_a_tempo_key_begins_again_at_the_present_eight(thin: tuple[Transport, HandClock, Played]) -> None:
    transport, clock, played = thin
    transport.load(SIXTEEN, ONE)
    transport.start()
    clock.now += 4 + 11
    transport.set_tempo(Fraction(30))
    now = transport.now()
    assert now.running
    assert (now.place.beat, now.place.before) == (24, 4)
    assert played.stopped == 1
    assert onsets(played.buffers[1])[1] - onsets(played.buffers[1])[0] == 2 * RATE


def test_a_stop_stops_it_and_levels_wait_for_the_next_start(thin: tuple[Transport, HandClock, Played]) -> None:
    transport, _, played = thin
    transport.load(SIXTEEN, ONE)
    transport.start()
    transport.set_levels(transport._levels)
    assert len(played.buffers) == 1
    transport.stop()
    assert played.stopped == 1
    transport.close()
    assert played.stopped == 1


def test_a_loop_ends_when_its_five_minutes_are_full(thin: tuple[Transport, HandClock, Played]) -> None:
    transport, clock, played = thin
    transport.load(Take(LANTERN, Fraction(16), Fraction(24), None), ONE)
    transport.start()
    assert LONGEST - 10 * RATE < len(played.buffers[0]) <= LONGEST
    clock.now += 400
    assert transport.now().finished


def test_one_that_cannot_play_leaves_a_silent_dance_and_says_why(thin: tuple[Transport, HandClock, Played]) -> None:
    transport, clock, played = thin
    played.broken = True
    transport.load(SIXTEEN, ONE)
    transport.start()
    clock.now += 6
    now = transport.now()
    assert now.sound == "no sound device, going on in silence: the device is busy"
    assert abs(now.beat - 2) < Fraction(1, 4)
    played.broken = False
    transport.start()
    assert transport.now().sound == ""


def test_where_it_is_not_installed_the_dance_is_silent() -> None:
    def load() -> Library:
        raise ImportError("No module named 'simpleaudio'")

    clock = HandClock()
    transport = Transport(SimpleaudioOutput(clock, load), clock=clock)
    transport.load(SIXTEEN, ONE)
    transport.start()
    clock.now += 5
    assert transport.now().sound == "no sound device, going on in silence: No module named 'simpleaudio'"
    assert transport.now().beat > 0


@pytest.mark.skipif(sys.version_info < (3, 12), reason="from Python 3.12 on it crashes the interpreter")
def test_it_is_not_loaded_where_it_crashes() -> None:
    device = open_device("simpleaudio")
    device.open(lambda first, frames: np.zeros((frames, 2), dtype=np.float32))
    assert device.sound(0.0) == "no sound device, going on in silence: it does not work with this Python"


@pytest.mark.live
@pytest.mark.skipif(sys.version_info >= (3, 12), reason="from Python 3.12 on simpleaudio crashes the interpreter")
@pytest.mark.skipif(importlib.util.find_spec("simpleaudio") is None, reason="simpleaudio is not installed")
def test_it_really_plays_through_alsa(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    needed()
    (tmp_path / "asound.conf").write_text("pcm.!default { type pulse }\nctl.!default { type pulse }\n")
    # The library reads its usual configuration, then ours.
    monkeypatch.setenv("ALSA_CONFIG_PATH", f"/usr/share/alsa/alsa.conf:{tmp_path / 'asound.conf'}")
    with server(tmp_path) as sound:
        recorder = Recorder(sound)
        transport = Transport(open_device("simpleaudio"))
        transport.load(Take(LANTERN, Fraction(16), Fraction(20)), Fraction(240))
        transport.start()
        score = transport._program.score
        assert score is not None
        assert transport.now().sound == ""
        playing = transport._device._playing  # type: ignore[attr-defined]
        end = time.monotonic() + 30
        while playing.is_playing() and time.monotonic() < end:
            time.sleep(0.05)
        heard = onsets(recorder.stop())
        transport.close()
    due = [one.frame for one in score.sounds_between(0, 20 * RATE)]
    # The sink may swallow what it is given while it starts; from there on every click is there.
    assert len(heard) >= len(due) - 1
    assert np.diff(heard).tolist() == np.diff(due[-len(heard) :]).tolist()
