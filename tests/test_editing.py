"""Changing the text of a sheet on disk: nothing is lost, in any encoding, whoever else writes there."""

import os
import stat
import sys

import pytest

from trainer.practice.editing import changed_meanwhile, draft_of, keep_copy, write
from trainer.practice.shelf import Shelf
from trainer.problems import TrainerError
from trainer.resources import folder
from trainer.sheet.page import load

TEXT = "title: Kettle\n1-2 Step right, ½ left\n"

FILES = [
    (TEXT.encode(), "as most are"),
    (TEXT.replace("\n", "\r\n").encode(), "line ends of Windows"),
    (TEXT.replace("\n", "\r").encode(), "line ends of old Macs"),
    (TEXT.encode("utf-8-sig"), "a byte-order mark"),
    (TEXT.encode("utf-16"), "UTF-16"),
    (TEXT.encode("utf-16-le"), "UTF-16 without a mark"),
    (TEXT.encode("cp1252"), "Windows' Western alphabet"),
]


@pytest.fixture
def shelf(tmp_path):
    return Shelf(folder("routines"), tmp_path / "data")


def entries(path):
    return sorted(one.name for one in path.iterdir())


@pytest.mark.parametrize(("data", "why"), FILES)
def test_a_sheet_is_written_as_it_was_found(tmp_path, shelf, data, why):
    file = tmp_path / "kettle.txt"
    file.write_bytes(data)
    draft = draft_of(file, shelf)
    assert draft.text == TEXT, why
    write(draft, draft.text)
    assert file.read_bytes() == data, why
    write(draft, draft.text + "3-4 Hold\n")
    assert load(file) == TEXT + "3-4 Hold\n", why
    assert entries(tmp_path) == ["kettle.txt"]


def test_a_letter_that_the_old_encoding_lacks_is_kept(tmp_path, shelf):
    file = tmp_path / "kettle.txt"
    file.write_bytes(TEXT.encode("cp1252"))
    write(draft_of(file, shelf), TEXT + "→ left\n")
    assert load(file) == TEXT + "→ left\n"


def test_what_another_program_wrote_meanwhile_is_kept_beside_it(tmp_path, shelf):
    file = tmp_path / "kettle.txt"
    file.write_text(TEXT, encoding="utf-8")
    draft = draft_of(file, shelf)
    assert not changed_meanwhile(draft)
    file.write_text("theirs\n", encoding="utf-8")
    assert changed_meanwhile(draft)
    write(draft, "mine\n")
    assert load(file) == "mine\n"
    assert load(tmp_path / "kettle-other-1.txt") == "theirs\n"
    file.write_text("theirs again\n", encoding="utf-8")
    write(draft, "mine\n")
    assert load(tmp_path / "kettle-other-2.txt") == "theirs again\n"


def test_a_file_that_is_gone_is_written_again(tmp_path, shelf):
    file = tmp_path / "kettle.txt"
    file.write_text(TEXT, encoding="utf-8")
    draft = draft_of(file, shelf)
    file.unlink()
    assert changed_meanwhile(draft)
    write(draft, "mine\n")
    assert load(file) == "mine\n"


def test_where_it_cannot_be_written_it_is_said_and_the_old_file_is_whole(tmp_path, shelf):
    place = tmp_path / "sheets"
    place.mkdir()
    file = place / "kettle.txt"
    file.write_text(TEXT, encoding="utf-8")
    draft = draft_of(file, shelf)
    file.unlink()
    place.rmdir()
    with pytest.raises(TrainerError, match="The sheet was not written"):
        write(draft, "mine\n")
    assert load(keep_copy(draft, "mine\n", shelf)) == "mine\n", "and it can be kept as a copy"


@pytest.mark.skipif(sys.platform == "win32", reason="modes and links of POSIX")
def test_mode_and_link_stay(tmp_path, shelf):
    file, link = tmp_path / "kettle.txt", tmp_path / "link.txt"
    file.write_text(TEXT, encoding="utf-8")
    file.chmod(0o640)
    link.symlink_to(file)
    write(draft_of(link, shelf), "mine\n")
    assert (link.is_symlink(), load(file)) == (True, "mine\n")
    assert stat.S_IMODE(os.stat(file).st_mode) == 0o640


def test_a_bundled_sheet_is_copied_under_its_own_name(shelf):
    path = folder("routines") / "herring-lane-hello.sheet"
    draft = draft_of(path, shelf)
    assert draft.bundled
    copy = keep_copy(draft, draft.text + "# mine\n", shelf)
    assert copy.name == "herring-lane-hello.sheet"
    assert keep_copy(draft, draft.text + "# mine\n", shelf) == copy, "the same text once"
    assert keep_copy(draft, draft.text + "# other\n", shelf).name == "herring-lane-hello-2.sheet"
    assert next(shelf.path(entry) for entry in shelf.entries if entry.kind == "own") == copy, "and stands on the shelf"
    assert not draft_of(copy, shelf).bundled


def test_what_is_no_sheet_is_not_opened(tmp_path, shelf):
    with pytest.raises(TrainerError):
        draft_of(tmp_path / "nothing.txt", shelf)
