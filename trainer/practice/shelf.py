"""The shelf: which routines a dancer has at hand, kept in shelf.json in the user's data folder.

An entry is a uuid, so that whatever is remembered of a routine later outlives its title and its place. Bundled routines
get an entry when they are first seen; a sheet of the dancer's own gets one when it is first rehearsed, and stays where
it is. The file is written by replacing it whole: a crash leaves the old one or the new one. A file that cannot be
understood is kept beside the new one and said.
"""

import os
import tempfile
from collections.abc import Callable, Iterable
from contextlib import suppress
from datetime import date
from pathlib import Path
from typing import Literal
from uuid import UUID, uuid4

import platformdirs
from pydantic import BaseModel, ConfigDict, Field, ValidationError

from trainer.problems import TrainerError

FILE = "shelf.json"

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
        self.notice = ""
        """What the dancer should know about the file, else empty."""
        self._record = self._read()

    @property
    def cautions_read(self) -> bool:
        """Whether the cautions were shown and read."""
        return self._record.cautions_read

    @property
    def entries(self) -> tuple[Entry, ...]:
        """The routines at hand: bundled ones by their file names, then own ones in the order added."""
        present = {path.name for path in self._bundled.glob("*.sheet")}
        known = [entry for entry in self._record.entries if entry.kind == "own" or entry.name in present]
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
        """Return the entry of a sheet, made now where it has none."""
        whole = path.resolve()
        kind: Kind = "bundled" if whole.parent == self._bundled.resolve() else "own"
        name = whole.name if kind == "bundled" else str(whole)
        if _find(self._record, kind, name) is None:
            self._change(lambda record: _with(record, [(kind, name)]))
        entry = _find(self._record, kind, name)
        assert entry is not None
        return entry

    def was_danced(self, entry: Entry, day: date) -> None:
        """Remember the day on which a routine was danced."""

        def dated(record: Record) -> Record:
            entries = (one.model_copy(update={"danced": day}) if one.id == entry.id else one for one in record.entries)
            return record.model_copy(update={"entries": tuple(entries)})

        self._change(dated)

    def cautions_were_read(self) -> None:
        """Remember that the cautions need not be shown again."""
        self._change(lambda record: record.model_copy(update={"cautions_read": True}))

    def _change(self, change: Callable[[Record], Record]) -> None:
        """Change what is on disk now, which another window of the program may have changed meanwhile."""
        record = change(self._read())
        try:
            self._data.mkdir(parents=True, exist_ok=True)
            _replace(self._data / FILE, record.model_dump_json(indent=2) + "\n")
        except OSError as error:
            raise TrainerError("The shelf could not be kept", f"{self._data / FILE}: {error.strerror}") from error
        self._record = record

    def _read(self) -> Record:
        file = self._data / FILE
        try:
            return Record.model_validate_json(file.read_bytes())
        except FileNotFoundError:
            return Record()
        except ValidationError:
            return self._begin_anew(file)
        except OSError as error:
            raise TrainerError("The shelf could not be read", f"{file}: {error.strerror}") from error

    def _begin_anew(self, file: Path) -> Record:
        """Put a file that cannot be understood out of the way under a free name."""
        number = 1
        while (aside := file.with_name(f"shelf-damaged-{number}.json")).exists():
            number += 1
        try:
            file.rename(aside)
        except OSError as error:
            raise TrainerError("The shelf could not be read", f"{file}: {error.strerror}") from error
        self.notice = f"The shelf's file could not be understood. It was kept as {aside}, and a new one begun."
        return Record()


def _find(record: Record, kind: Kind, name: str) -> Entry | None:
    return next((one for one in record.entries if (one.kind, one.name) == (kind, name)), None)


def _with(record: Record, wanted: Iterable[tuple[Kind, str]]) -> Record:
    """Return the record with an entry for each kind and name that has none."""
    new = tuple(Entry(kind=kind, name=name) for kind, name in wanted if _find(record, kind, name) is None)
    return record.model_copy(update={"entries": (*record.entries, *new)})


def _replace(file: Path, text: str) -> None:
    """Write a file so that at every moment either the old text or the new one is there whole."""
    handle, name = tempfile.mkstemp(prefix=".shelf-", dir=file.parent)
    try:
        with os.fdopen(handle, "w", encoding="utf-8") as written:
            written.write(text)
            written.flush()
            os.fsync(written.fileno())
        Path(name).replace(file)
    except OSError:
        with suppress(OSError):
            Path(name).unlink()
        raise
