"""The shelf on disk: entries that last, a file that is never half written, a damaged one that is kept."""

import json
from datetime import date
from pathlib import Path

import pytest

from trainer.practice import keeping
from trainer.practice.shelf import FILE, PASTED, Shelf
from trainer.problems import TrainerError


@pytest.fixture
def bundled(tmp_path: Path) -> Path:
    folder = tmp_path / "routines"
    folder.mkdir()
    for name in ("quay.sheet", "fog.sheet", "notes.txt"):
        (folder / name).write_text("title: x\n", encoding="utf-8")
    return folder


@pytest.fixture
def data(tmp_path: Path) -> Path:
    return tmp_path / "data" / "callahead"


def test_bundled_sheets_get_their_entries_once(bundled, data):
    first = Shelf(bundled, data)
    first.stock()
    second = Shelf(bundled, data)
    second.stock()
    assert [entry.name for entry in second.entries] == ["fog.sheet", "quay.sheet"]
    assert [entry.id for entry in first.entries] == [entry.id for entry in second.entries]
    assert second.path(second.entries[0]) == bundled / "fog.sheet"


def test_a_new_bundled_sheet_comes_to_a_shelf_that_is_there(bundled, data):
    Shelf(bundled, data).stock()
    (bundled / "gate.sheet").write_text("title: y\n", encoding="utf-8")
    later = Shelf(bundled, data)
    later.stock()
    assert [entry.name for entry in later.entries] == ["fog.sheet", "gate.sheet", "quay.sheet"]


def test_a_bundled_sheet_that_is_gone_is_not_shown_but_remembered(bundled, data):
    shelf = Shelf(bundled, data)
    shelf.stock()
    entry = shelf.entry_of(bundled / "fog.sheet")
    (bundled / "fog.sheet").unlink()
    assert [one.name for one in Shelf(bundled, data).entries] == ["quay.sheet"]
    (bundled / "fog.sheet").write_text("title: x\n", encoding="utf-8")
    assert Shelf(bundled, data).entry_of(bundled / "fog.sheet").id == entry.id


def test_a_sheet_of_ones_own_stays_where_it_is(bundled, data, tmp_path):
    own = tmp_path / "mine.txt"
    own.write_text("title: mine\n", encoding="utf-8")
    shelf = Shelf(bundled, data)
    shelf.stock()
    entry = shelf.entry_of(own)
    assert shelf.entry_of(tmp_path / "routines" / ".." / "mine.txt") == entry, "one file, one entry"
    assert [one.name for one in Shelf(bundled, data).entries] == ["fog.sheet", "quay.sheet", str(own.resolve())]
    assert shelf.path(entry) == own.resolve()


def test_the_day_is_remembered(bundled, data):
    shelf = Shelf(bundled, data)
    shelf.stock()
    shelf.was_danced(shelf.entry_of(bundled / "quay.sheet"), date(2026, 3, 4))
    again = Shelf(bundled, data)
    assert [(entry.name, entry.danced) for entry in again.entries] == [
        ("fog.sheet", None),
        ("quay.sheet", date(2026, 3, 4)),
    ]


def test_the_cautions_are_shown_until_they_were_read(bundled, data):
    shelf = Shelf(bundled, data)
    assert not shelf.cautions_read
    shelf.cautions_were_read()
    assert shelf.cautions_read
    assert Shelf(bundled, data).cautions_read


def test_what_another_window_wrote_meanwhile_is_kept(bundled, data):
    one, other = Shelf(bundled, data), Shelf(bundled, data)
    one.stock()
    other.cautions_were_read()
    one.was_danced(one.entries[0], date(2026, 3, 4))
    last = Shelf(bundled, data)
    assert last.cautions_read
    assert last.entries[0].danced == date(2026, 3, 4)


DAMAGED = [
    (b"", "empty"),
    (b"{", "cut off"),
    (b"\xff\xfe\x00", "not text"),
    (b"[]", "of another form"),
    (b'{"version": 2, "entries": []}', "of a later program"),
    (b'{"version": 1, "entries": [{"id": "x", "kind": "own", "name": "a"}]}', "with an id that is none"),
    (b'{"version": 1, "colour": "red"}', "with something unknown"),
]


@pytest.mark.parametrize(("content", "why"), DAMAGED)
def test_a_damaged_file_is_kept_and_said(bundled, data, content, why):
    data.mkdir(parents=True)
    (data / FILE).write_bytes(content)
    shelf = Shelf(bundled, data)
    aside = data / "shelf-damaged-1.json"
    said = f"The file of the shelf could not be understood. It was kept as {aside}, and a new one begun."
    assert shelf.notice == said, why
    assert aside.read_bytes() == content, why
    shelf.stock()
    assert [entry.name for entry in Shelf(bundled, data).entries] == ["fog.sheet", "quay.sheet"], why


def test_a_second_damaged_file_does_not_replace_the_first(bundled, data):
    data.mkdir(parents=True)
    for content in (b"first", b"second"):
        (data / FILE).write_bytes(content)
        Shelf(bundled, data)
    assert [(data / f"shelf-damaged-{n}.json").read_bytes() for n in (1, 2)] == [b"first", b"second"]


def test_a_write_that_fails_leaves_the_old_file_whole(bundled, data, monkeypatch):
    shelf = Shelf(bundled, data)
    shelf.stock()
    before = (data / FILE).read_bytes()

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(keeping.os, "fsync", full)
    with pytest.raises(TrainerError) as raised:
        shelf.cautions_were_read()
    assert str(raised.value) == f"The shelf could not be kept: {data / FILE}: No space left on device"
    assert (data / FILE).read_bytes() == before
    assert [path.name for path in data.iterdir()] == [FILE], "no half-written file is left behind"
    assert not shelf.cautions_read


def test_a_folder_that_is_a_file_is_an_error_in_words(bundled, tmp_path):
    (tmp_path / "data").write_text("in the way", encoding="utf-8")
    with pytest.raises(TrainerError, match="The shelf could not be read"):
        Shelf(bundled, tmp_path / "data")


def test_the_file_is_plain_json_with_its_version(bundled, data):
    Shelf(bundled, data).stock()
    written = json.loads((data / FILE).read_text(encoding="utf-8"))
    assert (written["version"], written["cautions_read"], len(written["entries"])) == (1, False, 2)


TURNS = [
    ("0 1/2 1/2 0", 1, "a full turn in two steps"),
    ("0 1/2 0 1/2", 0, "a step between them: two half turns"),
    ("1/2 -1/2 0 0", 0, "there and back"),
    ("1 0 -1 0", 2, "inside one count, either way"),
    ("1/4 1/2 1/4 0", 1, "a rolling vine"),
    ("3/4 3/4 1/2 0", 2, "two turns in three steps"),
    ("-2 0 0 0", 2, "a double turn"),
]


@pytest.mark.parametrize(("turns", "found", "why"), TURNS)
def test_full_turns_are_counted(turns, found, why):
    from tests.dances import event
    from trainer.practice.care import full_turns
    from trainer.routine import Part, Routine, Section

    labels = ("1", "2", "3", "4")
    events = tuple(event(labels[i], i, "RL"[i % 2], turn=turn) for i, turn in enumerate(turns.split()))
    assert (
        full_turns(Routine(title="x", parts=(Part(sections=(Section(name="1", counts=4, events=events),)),))) == found
    ), why


def test_what_is_taken_off_keeps_its_file_and_comes_back_as_the_same(bundled, data, tmp_path):
    own = tmp_path / "mine.txt"
    own.write_text("title: mine\n", encoding="utf-8")
    shelf = Shelf(bundled, data)
    shelf.stock()
    entry = shelf.entry_of(own)
    shelf.was_danced(entry, date(2026, 3, 4))
    shelf.remove(entry)
    assert [one.name for one in Shelf(bundled, data).entries] == ["fog.sheet", "quay.sheet"]
    assert own.read_text(encoding="utf-8") == "title: mine\n"
    back = Shelf(bundled, data).entry_of(own)
    assert (back.id, back.danced, back.removed) == (entry.id, date(2026, 3, 4), False)
    assert Shelf(bundled, data).entries[-1] == back


def test_a_bundled_routine_is_not_taken_off(bundled, data):
    shelf = Shelf(bundled, data)
    shelf.stock()
    with pytest.raises(ValueError, match=r"^fog\.sheet is bundled$"):
        shelf.remove(shelf.entries[0])
    assert len(Shelf(bundled, data).entries) == 2


PASTES = [
    ("Gulls on the Roof\n32 counts\n", "gulls-on-the-roof.txt", "the first line"),
    ("\n  \n---\nNets & Oars!\n", "nets-oars.txt", "the first line with a word in it"),
    ("title: Low Tide\n", "low-tide.txt", "a title line gives the title"),
    ("../../etc/passwd", "etc-passwd.txt", "no way out of the folder"),
    ("Žuta čaša\r\nR walk\r\n", "žuta-čaša.txt", "letters of any language; ends of lines stay"),
    ("\U00020000" * 300, "\U00020000" * 40 + ".txt", "a long line is cut below what a file name may have"),
    ("?!", "text.txt", "no word at all"),
    ("half \ud800", "half.txt", "half a character is written out"),
]


@pytest.mark.parametrize(("text", "name", "why"), PASTES)
def test_a_pasted_text_is_kept_under_a_name_of_its_own(bundled, data, text, name, why):
    file = Shelf(bundled, data).keep_text(text)
    assert file == data / PASTED / name, why
    assert file.read_bytes() == text.encode("utf-8", "backslashreplace"), why


def test_a_pasted_text_never_replaces_another(bundled, data):
    shelf = Shelf(bundled, data)
    files = [shelf.keep_text(f"Low Tide\n{words}") for words in ("one", "two", "one")]
    assert [file.name for file in files] == ["low-tide.txt", "low-tide-2.txt", "low-tide.txt"]
    assert [file.read_text(encoding="utf-8") for file in files[:2]] == ["Low Tide\none", "Low Tide\ntwo"]


def test_a_text_that_cannot_be_kept_is_said(bundled, data):
    data.mkdir(parents=True)
    (data / PASTED).write_text("in the way", encoding="utf-8")
    with pytest.raises(TrainerError) as raised:
        Shelf(bundled, data).keep_text("Low Tide")
    assert str(raised.value) == f"The text could not be kept: {data / PASTED}: File exists"


def test_a_copy_of_a_bundled_sheet_elsewhere_is_that_routine(bundled, data, tmp_path):
    shelf = Shelf(bundled, data)
    shelf.stock()
    copy = tmp_path / "quay.sheet"
    copy.write_bytes((bundled / "quay.sheet").read_bytes())
    assert shelf.entry_of(copy) == shelf.entry_of(bundled / "quay.sheet")
    assert len(shelf.entries) == 2
    copy.write_text("title: my own\n", encoding="utf-8")
    assert shelf.entry_of(copy).kind == "own", "once changed it is another one"
