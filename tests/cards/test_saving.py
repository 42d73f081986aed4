"""Where a card may be written: never over the sheet or another file, whole, and with the reason where it cannot be."""

import os
from pathlib import Path

import cards
import pytest

from trainer.cards.pdf import as_pdf
from trainer.cards.saving import save, target
from trainer.cards.web import as_html
from trainer.problems import TrainerError


@pytest.fixture
def sheet(tmp_path: Path) -> Path:
    path = tmp_path / "small.sheet"
    path.write_text("title: Small\n", encoding="utf-8")
    return path


def test_a_new_file_may_be_written(sheet: Path, tmp_path: Path) -> None:
    place = target(tmp_path / "card.pdf", sheet)
    save(place, b"%PDF-")
    assert place.read_bytes() == b"%PDF-"
    assert [path.name for path in sorted(tmp_path.iterdir())] == ["card.pdf", "small.sheet"]


def test_a_new_file_can_be_read_by_those_who_may_read_others(sheet: Path, tmp_path: Path) -> None:
    save(target(tmp_path / "card.pdf", sheet), b"%PDF-")
    beside = tmp_path / "beside"
    beside.touch()
    assert (tmp_path / "card.pdf").stat().st_mode == beside.stat().st_mode


def test_a_card_of_an_earlier_time_is_replaced(sheet: Path, tmp_path: Path) -> None:
    card = cards.bundled("herring-lane-hello")
    (tmp_path / "card.pdf").write_bytes(as_pdf(card, "a4").content)
    (tmp_path / "card.html").write_text(as_html(card, "a4"), encoding="utf-8")
    (tmp_path / "empty").touch()
    for name in ("card.pdf", "card.html", "empty"):
        save(target(tmp_path / name, sheet), b"new")
        assert (tmp_path / name).read_bytes() == b"new"


@pytest.mark.parametrize("link", [None, os.symlink, os.link])
def test_the_sheet_is_never_written_over(link: object, sheet: Path, tmp_path: Path) -> None:
    path = sheet
    if link is not None:
        path = tmp_path / "card.pdf"
        link(sheet, path)  # type: ignore[operator]
    with pytest.raises(TrainerError, match="is the sheet itself"):
        target(path, sheet)


@pytest.mark.parametrize(
    "content",
    [
        b"dear diary",
        b"%PDF-1.4 of somebody else",
        b"<!DOCTYPE html><p>a page",
        b'title: Mine\nnote: <meta name="generator" content="Callahead card"> /Creator (Callahead card)\n',
    ],
)
def test_a_file_that_is_no_card_is_left_alone(content: bytes, sheet: Path, tmp_path: Path) -> None:
    path = tmp_path / "mine"
    path.write_bytes(content)
    with pytest.raises(TrainerError, match="is not a card"):
        target(path, sheet)
    assert path.read_bytes() == content


def test_a_folder_and_a_missing_folder_are_errors(sheet: Path, tmp_path: Path) -> None:
    with pytest.raises(TrainerError, match="is no file"):
        target(tmp_path, sheet)
    with pytest.raises(TrainerError, match="there is no folder"):
        target(tmp_path / "nowhere" / "card.pdf", sheet)
    with pytest.raises(TrainerError, match="no file"):
        target(Path("/dev/null"), sheet)


def test_a_path_that_no_disk_takes_is_an_error(sheet: Path, tmp_path: Path) -> None:
    for name in ("a" * 300, "a\0b"):
        with pytest.raises(TrainerError, match="could not be written"):
            save(target(tmp_path / name, sheet), b"")


def test_a_loop_of_links_is_an_error(sheet: Path, tmp_path: Path) -> None:
    (tmp_path / "one").symlink_to(tmp_path / "two")
    (tmp_path / "two").symlink_to(tmp_path / "one")
    with pytest.raises(TrainerError, match="could not be written"):
        save(target(tmp_path / "one", sheet), b"")


def test_a_disk_that_lets_nothing_be_written_is_an_error(
    sheet: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(file: Path, content: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("trainer.cards.saving.replace_file", full)
    with pytest.raises(TrainerError, match="No space left on device"):
        save(target(tmp_path / "card.pdf", sheet), b"")
