"""What is remembered of sound."""

import subprocess
import sys
from pathlib import Path

import pytest

from trainer.sound.device import DEFAULT_DELAYS
from trainer.sound.levels import Levels
from trainer.sound.settings import FILE, SoundSettings, kept_sound


def test_what_is_set_is_there_the_next_time(tmp_path: Path) -> None:
    assert kept_sound(tmp_path).read() == SoundSettings()
    settings = SoundSettings(device="silent", output="Hall speakers", levels=Levels(master=0.3)).calibrated(0.18)
    kept_sound(tmp_path).write(settings)
    assert kept_sound(tmp_path).read() == settings


def test_a_first_start_is_not_loud() -> None:
    assert SoundSettings().levels.master == 0.5


def test_a_delay_is_kept_for_each_output() -> None:
    settings = SoundSettings(output="Headphones").calibrated(0.21)
    hall = settings.but(output="Hall speakers")
    assert (settings.delay, settings.measured) == (0.21, True)
    assert (hall.delay, hall.measured) == (DEFAULT_DELAYS["miniaudio"], False)
    assert hall.calibrated(0.02).delays == {"miniaudio: Headphones": 0.21, "miniaudio: Hall speakers": 0.02}
    assert hall.calibrated(7.0).delay == 1.0


DAMAGED = [
    (b"[]", "of another kind"),
    (b'{"device": "gramophone"}', "a device that there is not"),
    (b'{"delays": {"miniaudio: ": 1e9}}', "a delay out of range"),
    (b'{"levels": {"master": -1}}', "a level out of range"),
    (b'{"levels": {"beat": NaN}}', "a level that is no number"),
    (b'{"levels": {"drum": 1}}', "a click that there is not"),
    (b'{"output": 3}', "an output that is a number"),
]


@pytest.mark.parametrize(("content", "why"), DAMAGED, ids=[row[1] for row in DAMAGED])
def test_a_damaged_file_is_kept_and_said(tmp_path: Path, content: bytes, why: str) -> None:
    (tmp_path / FILE).write_bytes(content)
    kept = kept_sound(tmp_path)
    assert kept.read() == SoundSettings(), why
    assert kept.notice.startswith("The file of the sound settings could not be understood.")
    assert (tmp_path / "sound-damaged-1.json").read_bytes() == content


def test_what_is_remembered_is_read_without_a_sound_library() -> None:
    code = "import sys, trainer.sound.settings; print(*sys.modules)"
    loaded = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True).stdout.split()
    assert not {"numpy", "miniaudio", "textual"} & set(loaded)
