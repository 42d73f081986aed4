"""A take as a file: its clicks found by their first sample."""

from fractions import Fraction
from pathlib import Path

import numpy as np
import pytest
import soundfile

from tests.sound.scenes import lantern
from tests.sound.test_score import onsets
from trainer.dance.unroll import unroll
from trainer.practice.take import Take, whole
from trainer.problems import TrainerError
from trainer.sound.export import CHUNK, write_wav
from trainer.sound.score import Score
from trainer.timing import RATE

LANTERN = unroll(lantern(), 5)


def test_every_click_of_the_file_is_on_its_frame(tmp_path: Path) -> None:
    score = Score.starting(whole(LANTERN), Fraction(131))
    frames = write_wav(score, tmp_path / "lantern.wav")
    samples, rate = soundfile.read(tmp_path / "lantern.wav", dtype="float32")
    assert (rate, samples.shape) == (RATE, (frames, 2))
    assert score.last is not None
    assert frames == score.last + RATE > 3 * CHUNK
    assert onsets(samples) == [sound.frame for sound in score.sounds_between(0, frames)]
    assert np.abs(samples - score.render(0, frames)).max() <= 0.5 / 32768 + 1e-7
    assert [path.name for path in tmp_path.iterdir()] == ["lantern.wav"]


def test_a_part_of_an_endless_take_is_written_and_the_whole_is_refused(tmp_path: Path) -> None:
    score = Score.starting(Take(LANTERN, Fraction(16), Fraction(24), None), Fraction(100))
    assert write_wav(score, tmp_path / "loop.wav", 4800, 52_800) == 48_000
    assert soundfile.info(str(tmp_path / "loop.wav")).frames == 48_000
    with pytest.raises(ValueError, match="an endless take needs a last frame"):
        write_wav(score, tmp_path / "loop.wav")


def test_a_file_that_cannot_be_written_is_said_and_what_stood_there_stays(tmp_path: Path) -> None:
    score = Score.starting(Take(LANTERN, Fraction(16), Fraction(24)), Fraction(100))
    with pytest.raises(TrainerError, match=r"The sound file cannot be written: .*no-folder/x\.wav"):
        write_wav(score, tmp_path / "no-folder" / "x.wav")
    (tmp_path / "folder.wav").mkdir()
    with pytest.raises(TrainerError, match="The sound file cannot be written"):
        write_wav(score, tmp_path / "folder.wav")
    assert [path.name for path in tmp_path.iterdir()] == ["folder.wav"]
