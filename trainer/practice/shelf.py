"""The shelf: which routines a dancer has at hand, kept in shelf.json in the user's data folder.

An entry is a uuid, so that whatever is remembered of a routine later outlives its title and its place. Bundled routines
get an entry when they are first seen; a sheet of the dancer's own gets one when it is added or first rehearsed, and
stays where it is. A pasted text becomes a file in the data folder. What is taken off the shelf keeps its file and, out
of sight, its entry: added again it is the same routine.
"""

import re
from collections.abc import Callable, Iterable
from datetime import date
from itertools import count
from pathlib import Path
from typing import Literal
from uuid import UUID, uuid4

import platformdirs
from pydantic import BaseModel, ConfigDict, Field

from trainer.practice.keeping import Kept, replace_file
from trainer.problems import TrainerError

FILE = "shelf.json"
PASTED = "pasted"
"""The folder of pasted texts in the data folder."""

Kind = Literal["bundled", "own"]


class Entry(BaseModel):
    """One routine on the shelf."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    id: UUID = Field(default_factory=uuid4)
    kind: Kind
    name: str
    """The file name of a bundled routine, the whole path of an own one."""
    danced: date | None = None
    """The day on which it was last danced; None: never."""
    removed: bool = False
    """Whether the dancer took it off the shelf."""


class Record(BaseModel):
    """What shelf.json holds."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    version: Literal[1] = 1
    cautions_read: bool = False
    entries: tuple[Entry, ...] = ()


class Shelf:
    """The routines at hand; every change is on disk when its method returns.

    Methods that change something raise TrainerError when the folder cannot be written.
    """

    def __init__(self, bundled: Path, data: Path | None = None) -> None:
        """Open the shelf over the folder of bundled routines; `data` None: the user's data folder."""
        self._bundled = bundled
        self._data = data if data is not None else platformdirs.user_data_path("callahead", appauthor=False)
        self._kept = Kept(self._data / FILE, Record, "shelf")
        self._record = self._kept.read()

    @property
    def notice(self) -> str:
        """What the dancer should know about the file, else empty."""
        return self._kept.notice

    @property
    def cautions_read(self) -> bool:
        """Whether the cautions were shown and read."""
        return self._record.cautions_read

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The routines at hand: bundled ones by their file names, then own ones in the order added."""
        present = {path.name for path in self._bundled.glob("*.sheet")}
        shown = [entry for entry in self._record.entries if not entry.removed]
        known = [entry for entry in shown if entry.kind == "own" or entry.name in present]
        return tuple(sorted(known, key=lambda entry: (entry.kind, entry.name if entry.kind == "bundled" else "")))

    def path(self, entry: Entry) -> Path:
        """Return where the sheet of an entry is."""
        return self._bundled / entry.name if entry.kind == "bundled" else Path(entry.name)

    def stock(self) -> None:
        """Give every bundled routine that is new its entry."""
        names = sorted(path.name for path in self._bundled.glob("*.sheet"))
        if any(_find(self._record, "bundled", name) is None for name in names):
            self._change(lambda record: _with(record, [("bundled", name) for name in names]))

    def entry_of(self, path: Path) -> Entry:
        """Return the entry of a sheet, made now where it has none, put back where it was taken off."""
        whole = path.resolve()
        kind: Kind = "bundled" if self.is_bundled(path) or self._is_copy(whole) else "own"
        name = whole.name if kind == "bundled" else str(whole)
        entry = _find(self._record, kind, name)
        if entry is None or entry.removed:
            self._change(lambda record: _put_back(_with(record, [(kind, name)]), kind, name))
            entry = _find(self._record, kind, name)
        assert entry is not None
        return entry

    def is_bundled(self, path: Path) -> bool:
        """Return whether a file is one of the program's own, which it never writes."""
        return path.resolve().parent == self._bundled.resolve()

    def _is_copy(self, whole: Path) -> bool:
        """Whether a file is a bundled one somewhere else: in the folder that the program was installed from, say."""
        own = self._bundled / whole.name
        try:
            return own.is_file() and own.read_bytes() == whole.read_bytes()
        except OSError:
            return False  # what cannot be read is not known to be the same

    def keep_text(self, text: str, name: str = "") -> Path:
        """Copy a text into the data folder and return the file: a pasted one, or a changed sheet by its own name.

        A pasted text is named after its first line. A text that is there already is not copied again; no file is ever
        written over.
        """
        folder = self._data / PASTED
        content = text.encode("utf-8", "backslashreplace")
        stem, ending = (Path(name).stem, Path(name).suffix) if name else (_file_stem(text), ".txt")
        try:
            folder.mkdir(parents=True, exist_ok=True)
            for number in count(1):
                file = folder / (f"{stem}{ending}" if number == 1 else f"{stem}-{number}{ending}")
                if not file.exists():
                    replace_file(file, content)
                    return file
                if file.is_file() and file.read_bytes() == content:
                    return file
        except OSError as error:
            raise TrainerError("The text could not be kept", f"{folder}: {error.strerror}") from error
        raise AssertionError("numbers never end")

    def remove(self, entry: Entry) -> None:
        """Take an own routine off the shelf; its file stays where it is.

        Raises ValueError for a bundled one.
        """
        if entry.kind != "own":
            raise ValueError(f"{entry.name} is bundled")
        self._change(lambda record: _changed(record, entry.id, removed=True))

    def was_danced(self, entry: Entry, day: date) -> None:
        """Remember the day on which a routine was danced."""
        self._change(lambda record: _changed(record, entry.id, danced=day))

    def cautions_were_read(self) -> None:
        """Remember that the cautions need not be shown again."""
        self._change(lambda record: record.model_copy(update={"cautions_read": True}))

    def _change(self, change: Callable[[Record], Record]) -> None:
        """Change what is on disk now, which another window of the program may have changed meanwhile."""
        record = change(self._kept.read())
        self._kept.write(record)
        self._record = record


def _find(record: Record, kind: Kind, name: str) -> Entry | None:
    return next((one for one in record.entries if (one.kind, one.name) == (kind, name)), None)


def _with(record: Record, wanted: Iterable[tuple[Kind, str]]) -> Record:
    """Return the record with an entry for each kind and name that has none."""
    new = tuple(Entry(kind=kind, name=name) for kind, name in wanted if _find(record, kind, name) is None)
    return record.model_copy(update={"entries": (*record.entries, *new)})


def _changed(record: Record, which: UUID, **values: object) -> Record:
    """Return the record with an entry's values changed."""
    entries = (one.model_copy(update=values) if one.id == which else one for one in record.entries)
    return record.model_copy(update={"entries": tuple(entries)})


def _put_back(record: Record, kind: Kind, name: str) -> Record:
    entry = _find(record, kind, name)
    return record if entry is None or not entry.removed else _changed(record, entry.id, removed=False)


def _file_stem(text: str) -> str:
    """Return a file name, without its ending, made of the letters and digits of the first line that has any.

    Forty characters of at most four bytes leave room in the 255 bytes that common file systems allow (no source).
    """
    for line in text.splitlines():
        words = "-".join(re.findall(r"[^\W_]+", line.partition("title:")[2] or line))
        if words:
            return words[:40].strip("-").lower()
    return "text"
