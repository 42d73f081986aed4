"""What is remembered of sound."""

import json

import pytest

from trainer.sound.device import DEFAULT_DELAYS
from trainer.sound.levels import Levels
from trainer.sound.settings import SoundSettings


def test_settings_come_back_from_json_as_they_were() -> None:
    settings = SoundSettings(device="silent", output="Hall speakers", levels=Levels(master=0.3)).calibrated(0.18)
    assert SoundSettings.read(json.loads(json.dumps(settings.as_row()))) == settings


def test_a_delay_is_kept_for_each_output() -> None:
    settings = SoundSettings(output="Headphones").calibrated(0.21)
    hall = SoundSettings("miniaudio", "Hall speakers", delays=settings.delays)
    assert settings.delay == 0.21
    assert hall.delay == DEFAULT_DELAYS["miniaudio"]
    assert hall.calibrated(0.02).delays == {"miniaudio: Headphones": 0.21, "miniaudio: Hall speakers": 0.02}


@pytest.mark.parametrize(
    "row",
    [
        pytest.param({}, id="nothing"),
        pytest.param({"device": "gramophone", "output": 3, "levels": [], "delays": "long"}, id="of other kinds"),
        pytest.param({"delays": {"miniaudio: ": 1e9}, "levels": {"master": -1}}, id="out of range"),
        pytest.param({"delays": {"miniaudio: ": True}, "device": ["miniaudio"]}, id="truth and a list"),
    ],
)
def test_what_makes_no_sense_keeps_its_default(row: dict[str, object]) -> None:
    assert SoundSettings.read(row) == SoundSettings()
