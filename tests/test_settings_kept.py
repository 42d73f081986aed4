"""The settings on disk: never half written, and a file that cannot be understood is kept."""

import json

import pytest

from trainer.practice.settings import FILE, Settings, kept_settings
from trainer.problems import TrainerError


def test_what_is_set_is_there_the_next_time(tmp_path):
    assert kept_settings(tmp_path).read() == Settings()
    chosen = Settings(screen_at="7:30", window_mm=210, distance_m=3.5, motion=False, colours="light in one colour")
    kept_settings(tmp_path).write(chosen)
    assert kept_settings(tmp_path).read() == chosen
    assert json.loads((tmp_path / FILE).read_text(encoding="utf-8"))["screen_at"] == "7:30"


DAMAGED = [
    (b"{", "cut off"),
    (b'{"version": 1, "screen_at": "2:00"}', "a clock that is no wall"),
    (b'{"version": 1, "window_mm": 0}', "a window of no height"),
    (b'{"version": 1, "distance_m": 1e999}', "endlessly far away"),
    (b'{"version": 1, "colours": "red"}', "a colour that there is not"),
    (b'{"version": 1, "volume": 3}', "something unknown"),
]


@pytest.mark.parametrize(("content", "why"), DAMAGED)
def test_a_damaged_file_is_kept_and_said(tmp_path, content, why):
    (tmp_path / FILE).write_bytes(content)
    kept = kept_settings(tmp_path)
    assert kept.read() == Settings(), why
    aside = tmp_path / "settings-damaged-1.json"
    assert kept.notice == (
        f"The file of the settings could not be understood. It was kept as {aside}, and a new one begun."
    )
    assert aside.read_bytes() == content


def test_a_folder_that_is_a_file_is_an_error_in_words(tmp_path):
    (tmp_path / "in the way").write_text("", encoding="utf-8")
    with pytest.raises(TrainerError, match=r"^The settings could not be kept"):
        kept_settings(tmp_path / "in the way").write(Settings())


def test_turned_four_times_the_room_stands_as_before():
    clocks = [Settings()]
    for _ in range(4):
        clocks.append(clocks[-1].turned())
    assert [one.screen_at for one in clocks] == ["12:00", "3:00", "6:00", "9:00", "12:00"]
    assert Settings(screen_at="10:30").turned().screen_at == "1:30"
