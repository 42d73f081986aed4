"""The real device on a null sink: what is heard is the score, to the sample."""

import time
from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest

from tests.sound.live import LOOP, Hall, compare, in_three_tries, say, server
from tests.sound.pulse import Recorder, needed
from trainer.sound.device import open_device, outputs

pytestmark = [pytest.mark.live, pytest.mark.xdist_group("live")]


def test_clicks_are_on_their_sample_through_tempo_keys_and_a_seam(tmp_path: Path) -> None:
    needed()

    def attempt() -> bool:
        hall = Hall(sound, LOOP, Fraction(240))
        hall.dance(2.2)
        hall.key(150)
        hall.dance(1.2)
        hall.key(288)
        hall.dance(2.0)
        score = hall.score
        recorded, begins = hall.close()
        if hall.voided:
            return False
        errors = compare(score, recorded, begins, hall.stopped)
        screen, keys = hall.screen_errors(recorded, begins), hall.key_delays(begins)
        say(errors, screen, keys)
        assert set(errors) == {0}
        assert score.tempo.beat_at(hall.stopped) > 12, "a seam was danced"
        return True

    with server(tmp_path) as sound:
        in_three_tries(attempt)


def test_an_output_is_chosen_by_its_name_and_one_that_has_gone_is_the_system_s_choice(tmp_path: Path) -> None:
    needed()
    with server(tmp_path) as sound:
        names = outputs()
        assert len(names) == 1
        assert outputs("silent") == []
        for name in (names[0], "a loudspeaker that was sold"):
            recorder = Recorder(sound)
            device = open_device(output=name)
            device.open(lambda first, frames: np.full((frames, 2), 0.25, dtype=np.float32))
            end = time.monotonic() + 20
            while device.sound(time.monotonic()):
                assert time.monotonic() < end, device.sound(time.monotonic())
                time.sleep(0.05)
            time.sleep(0.3)
            device.close()
            assert 0.25 in recorder.stop(), name
