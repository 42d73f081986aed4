"""From a file to text."""

import os
from pathlib import Path

import pytest

from trainer.problems import TrainerError
from trainer.sheet.page import MOST_BYTES, clean, load

TEXT = "title: Déjà Vu ½\n== 1\n1-2  R walk, L walk\n"


def refused(path: Path) -> str:
    with pytest.raises(TrainerError) as caught:
        load(path)
    assert caught.value.title == "This sheet cannot be read"
    return caught.value.message.replace(str(path), "SHEET")


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (TEXT.encode(), "UTF-8"),
        (b"\xef\xbb\xbf" + TEXT.encode(), "a byte-order mark"),
        (TEXT.encode("utf-16"), "UTF-16 with its mark"),
        (TEXT.encode("utf-16-le"), "UTF-16 without"),
        (TEXT.encode("utf-16-be"), "the other way round"),
        (TEXT.encode("cp1252"), "Windows' Western alphabet"),
        (TEXT.replace("\n", "\r\n").encode(), "Windows' line ends"),
        (TEXT.replace("\n", "\r").encode(), "line ends of old"),
        (TEXT.replace(" ", "\u00a0").encode(), "blanks that do not break"),
    ],
)
def test_text_of_every_kind_is_the_same_text(tmp_path: Path, data: bytes, why: str) -> None:
    path = tmp_path / "a.sheet"
    path.write_bytes(data)
    assert load(path) == TEXT, why


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"%PDF-1.7 ...", "SHEET is a PDF, not text; save it as plain text first."),
        (
            b"PK\x03\x04....",
            "SHEET is a packed file, such as a document of a word processor, not text; save it as plain text first.",
        ),
        (b"\x89PNG\r\n\x1a\n", "SHEET is a picture, not text; save it as plain text first."),
        (b"{\\rtf1 hello}", "SHEET is a document of a word processor, not text; save it as plain text first."),
        (bytes(range(256)), "SHEET is not text."),
        (b"\x00\x01\x02", "SHEET is not text."),
        (b"walk\x81\x8d forward", "SHEET is not text."),
        (b"a" * (MOST_BYTES + 1), "SHEET is far bigger than any step sheet."),
    ],
)
def test_what_is_no_sheet_is_refused_in_a_sentence(tmp_path: Path, data: bytes, message: str) -> None:
    path = tmp_path / "a.sheet"
    path.write_bytes(data)
    assert refused(path) == message


def test_a_missing_file_and_a_folder(tmp_path: Path) -> None:
    assert refused(tmp_path / "none.sheet") == "there is no file SHEET."
    assert refused(tmp_path) == "SHEET is a folder; name a sheet in it."


def test_a_pipe_is_not_waited_for(tmp_path: Path) -> None:
    path = tmp_path / "pipe"
    os.mkfifo(path)
    assert refused(path) == "there is no file SHEET."


def test_a_file_that_cannot_be_opened(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "a.sheet"
    path.write_text("title: A")

    def denied(self: Path) -> bytes:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "read_bytes", denied)
    assert refused(path) == "SHEET cannot be opened: Permission denied."


def test_cleaning_keeps_every_letter_in_its_place() -> None:
    assert clean("\ufeffa\u00a0b\r\nc\x0cd\ud800") == "a b\nc\nd\ufffd"
    assert clean(clean("a\r\r\nb\u2028c")) == "a\n\nb\nc"
