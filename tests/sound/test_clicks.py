"""The clicks: the same bytes every time, loud enough and not too loud, found by their first sample."""

from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from trainer.problems import TrainerError
from trainer.resources import folder
from trainer.sound.clicks import KINDS, Kind, kit, main, write

BELOW_FULL = 10 ** (-1 / 20)
"""-1 dBFS."""


def test_the_script_makes_the_bundled_files_again_byte_by_byte(tmp_path: Path) -> None:
    made = write(tmp_path / "new")
    assert [path.name for path in made] == [f"{kind}.wav" for kind in KINDS]
    assert sorted(path.name for path in folder("sounds").iterdir()) == sorted(path.name for path in made)
    for path in made:
        assert path.read_bytes() == (folder("sounds") / path.name).read_bytes()


def test_the_script_is_run_with_a_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([str(tmp_path)]) == 0
    assert capsys.readouterr().out.splitlines() == [str(tmp_path / f"{kind}.wav") for kind in KINDS]
    assert main([]) == 2
    assert capsys.readouterr().err == "usage: python -m trainer.sound.clicks OUT\n"


@pytest.mark.parametrize("kind", KINDS)
def test_a_click_begins_with_a_sample_that_can_be_found_and_ends_softly(kind: Kind) -> None:
    samples = kit()[kind]
    assert samples.dtype == np.float32
    assert samples.shape[1] == 2
    assert np.array_equal(samples[:, 0], samples[:, 1])
    assert 5e-4 < abs(samples[0, 0]) < 5e-3, "audible as a first sample, but no step"
    assert np.abs(samples[-48:]).max() < 1e-3
    assert abs(float(samples.mean())) < 1e-2


def test_two_clicks_at_once_stay_below_minus_one_dbfs() -> None:
    loudest = max(float(np.abs(samples).max()) for samples in kit().values())
    assert 2 * loudest <= BELOW_FULL


def test_the_kinds_fall_in_loudness_from_the_first_count_to_the_sub_beat() -> None:
    peaks = [float(np.abs(kit()[kind]).max()) for kind in ("section", "beat", "step", "sub")]
    assert peaks == sorted(peaks, reverse=True)
    assert len(set(peaks)) == 4


def test_each_kind_has_a_pitch_of_its_own() -> None:
    pitches = []
    for kind in KINDS:
        spectrum = np.abs(np.fft.rfft(kit()[kind][:, 0], 48_000))
        pitches.append(int(spectrum.argmax()))
    # A whole tone apart is plain to anybody: a ratio of 9/8.
    ordered = sorted(pitches)
    assert all(high / low > 9 / 8 for low, high in pairwise(ordered)), pitches


@pytest.fixture
def copied(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """Read the sounds from a folder of the test's own."""
    write(tmp_path)
    monkeypatch.setattr("trainer.sound.clicks.folder", lambda name: tmp_path)
    kit.cache_clear()
    yield tmp_path
    kit.cache_clear()


@pytest.mark.parametrize(
    ("content", "message"),
    [
        (None, "A sound is missing: .*beat.wav"),
        (b"RIFF", "A sound is missing: .*beat.wav"),
        (b"no sound at all, but some words", "A sound is missing: .*beat.wav"),
    ],
)
def test_a_sound_that_is_not_there_is_told_by_its_name(content: bytes | None, message: str, copied: Path) -> None:
    (copied / "beat.wav").unlink()
    if content is not None:
        (copied / "beat.wav").write_bytes(content)
    with pytest.raises(TrainerError, match=message):
        kit()


def test_a_sound_of_another_rate_is_refused(copied: Path) -> None:
    data = bytearray((copied / "beat.wav").read_bytes())
    data[24:28] = (44_100).to_bytes(4, "little")
    (copied / "beat.wav").write_bytes(bytes(data))
    with pytest.raises(TrainerError, match="should be stereo, 16 bits, 48000 Hz"):
        kit()
