"""Changing the text of a sheet: nothing of the dancer's is lost, whatever was changed, and where.

A text goes back to its file in the encoding and with the line ends that it came in, by replacing the file whole. It is
not written over a file that another program has changed since, nor over a bundled one: a copy in the data folder takes
its place.
"""

from dataclasses import dataclass
from pathlib import Path

from trainer.practice.keeping import replace_file
from trainer.practice.shelf import Shelf
from trainer.problems import TrainerError
from trainer.sheet.page import found

_TITLE = "The sheet was not written"


@dataclass(frozen=True, slots=True)
class Draft:
    """A sheet as it was opened to be changed."""

    path: Path
    text: str
    """With plain line ends."""
    data: bytes
    """What its file held."""
    encoding: str
    line_end: str
    bundled: bool
    """One of the program's own, of which a copy is written instead."""


def draft_of(path: Path, shelf: Shelf | None) -> Draft:
    """Open a sheet to change it; raises TrainerError where it cannot be read."""
    page = found(path)
    ends = "\r\n" if "\r\n" in page.text else "\r" if "\r" in page.text else "\n"
    mark = page.text.startswith("\ufeff")
    text = page.text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    encoding = "utf-8-sig" if mark and page.encoding == "utf-8" else page.encoding
    return Draft(path, text, page.data, encoding, ends, shelf is not None and shelf.is_bundled(path))


def changed_meanwhile(draft: Draft) -> bool:
    """Return whether the file is no longer as it was opened; one that is gone is, too."""
    try:
        return draft.path.read_bytes() != draft.data
    except FileNotFoundError:
        return True
    except OSError as error:
        raise TrainerError(_TITLE, f"{draft.path} can no longer be read: {error.strerror}.") from error


def write(draft: Draft, text: str) -> Path:
    """Write a text in place of the draft's, and return its file; what another program wrote there is kept beside it.

    Raises TrainerError where that cannot be; the old file is whole then.
    """
    content = _encoded(draft, text)
    file = draft.path.resolve()  # where a link points to, so that the link stays
    try:
        if file.exists() and (there := file.read_bytes()) not in (draft.data, content):
            replace_file(_beside(file), there)
        replace_file(file, content)
    except OSError as error:
        raise TrainerError(_TITLE, f"{draft.path}: {error.strerror}.") from error
    return draft.path


def keep_copy(draft: Draft, text: str, shelf: Shelf) -> Path:
    """Keep a text as a sheet of the dancer's own, on the shelf, and return its file."""
    copy = shelf.keep_text(text, draft.path.name)
    shelf.entry_of(copy)
    return copy


def _encoded(draft: Draft, text: str) -> bytes:
    """Return a text as its file had it; in UTF-8 where a letter was added that the old encoding lacks."""
    lines = text.replace("\n", draft.line_end)
    try:
        return lines.encode(draft.encoding)
    except UnicodeEncodeError:
        return lines.encode("utf-8", "backslashreplace")


def _beside(path: Path) -> Path:
    """Return a free name for what somebody else wrote in a file."""
    number = 1
    while (aside := path.with_name(f"{path.stem}-other-{number}{path.suffix}")).exists():
        number += 1
    return aside
