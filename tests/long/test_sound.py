"""Minutes on the real device: the program in a terminal, and a sound server that dies and returns.

What was measured is printed; run with `-s` to see it.
"""

import time
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from tests.long.floor_terminal import DOWN, UP, FloorTerminal
from tests.sound.live import LOOP, Hall, say, server
from tests.sound.pulse import Recorder, needed
from tests.sound.test_score import onsets
from trainer.dance.unroll import unroll
from trainer.resources import folder
from trainer.sheet.opening import open_sheet
from trainer.sound.device import open_device
from trainer.sound.score import Score
from trainer.sound.transport import Transport
from trainer.timing import RATE

pytestmark = pytest.mark.live

STRETCH = 20
"""Seconds danced at a time; a stretch in which the server reports an underrun is void, and danced again."""
TRIES = 3
"""Times as many stretches are danced at most."""


def _score(transport: Transport) -> Score:
    score = transport._program.score
    assert score is not None
    return score


def danced(place: Path, seconds: int, beside: str) -> FloorTerminal:
    """Dance so long in all in the program, printing every stretch and the worst cases."""
    with server(place) as sound:
        floor = FloorTerminal(sound, place, beside=beside)
        try:
            floor.open()
            counted = tried = 0
            while counted * STRETCH < seconds:
                assert tried * STRETCH < TRIES * seconds, "too many stretches were made void by underruns"
                tried += 1
                counts = floor.stretch(STRETCH, (DOWN, UP)[tried % 2])
                counted += counts
                print(f"stretch {tried}: {'counts' if counts else 'void, the server reported an underrun'}")  # noqa: T201
        finally:
            floor.close()
    say(floor.clicks, np.array(floor.pictures), floor.keys)
    looks = np.array(floor.looks) * 1000
    print(f"looks {looks.min():+.1f} to {looks.max():+.1f} ms, median {np.median(looks):+.1f}")  # noqa: T201
    return floor


def test_for_three_minutes_pictures_come_with_their_clicks(tmp_path: Path) -> None:
    needed()
    floor = danced(tmp_path, 180, "quiet")
    assert set(floor.clicks) == {0}
    assert len(floor.clicks) > 180
    # The worst are printed; a machine that has other work to do may show its picture late.
    low, middle, high = np.percentile(floor.pictures, (5, 50, 95))
    # ITU-R BT.1359-1: sound may be 45 ms early, so the picture late, and 125 ms late.
    assert -0.125 < low <= high < 0.045
    assert abs(middle) < 0.033
    assert np.median(floor.keys) < 0.3


def test_beside_a_busy_thread_every_click_is_on_its_sample(tmp_path: Path) -> None:
    needed()
    floor = danced(tmp_path, 60, "busy")
    assert set(floor.clicks) == {0}
    assert len(floor.clicks) > 60
    # Drawing takes turns with the other thread; the looks that it begins with are still in time.
    low, high = np.percentile(floor.looks, (5, 95))
    assert -0.125 < low <= high < 0.045


def wait_for(done: Callable[[], bool], transport: Transport, seconds: float = 30) -> None:
    """Look at the dance until something is so."""
    end = time.monotonic() + seconds
    while not done():
        assert time.monotonic() < end, transport.now().sound
        time.sleep(1 / 30)


def test_a_server_that_dies_and_returns_is_joined_on_the_sample(tmp_path: Path) -> None:
    needed()
    with server(tmp_path) as sound:
        hall = Hall(sound, LOOP, Fraction(180))
        transport = hall.transport
        hall.dance(3)
        sound.stop()
        hall.recorder.stop()
        died, before = time.monotonic(), transport.now().beat
        wait_for(lambda: bool(transport.now().sound), transport)
        print(f"noticed after {time.monotonic() - died:.2f} s: {transport.now().sound}")  # noqa: T201
        hall.dance(4)
        silent = transport.now()
        assert silent.running
        assert silent.sound.startswith("sound lost, going on in silence: ")
        assert abs(float(silent.beat - before) / 3 - (time.monotonic() - died)) < 0.25
        sound.start()
        back, recorder = time.monotonic(), Recorder(sound)
        wait_for(lambda: not transport.now().sound, transport)
        print(f"joined {time.monotonic() - back:.2f} s after the server's return")  # noqa: T201
        hall.dance(5)
        now = transport.now()
        assert abs(float(now.beat - before) / 3 - (time.monotonic() - died)) < 0.25
        score = _score(transport)
        transport.stop()
        time.sleep(0.4)
        heard = onsets(recorder.stop())
        transport.close()
    due = [one.frame for one in score.sounds_between(score.first, score.first + 60 * RATE)]
    apart = np.diff(heard[1:-1]).tolist()
    assert len(apart) >= 8
    assert any(apart == np.diff(due[at : at + len(apart) + 1]).tolist() for at in range(len(due)))


def test_where_there_is_no_server_and_no_card_the_dance_is_silent(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PULSE_SERVER", f"unix:{tmp_path / 'nowhere'}")
    (tmp_path / "asound.conf").write_text("")
    monkeypatch.setenv("ALSA_CONFIG_PATH", str(tmp_path / "asound.conf"))
    monkeypatch.setenv("JACK_NO_START_SERVER", "1")
    transport = Transport(open_device())
    routine = open_sheet(folder("routines") / "tide-under-the-door.sheet").routine
    timeline = unroll(routine)
    assert timeline.passes
    transport.load(LOOP, Fraction(120))
    wait_for(lambda: transport.now().sound.startswith("no sound device"), transport)
    print(transport.now().sound)  # noqa: T201
    transport.start()
    begun = time.monotonic()
    wait_for(lambda: transport.now().beat > 2, transport)
    assert abs(time.monotonic() - begun - 3) < 0.2
    transport.close()
