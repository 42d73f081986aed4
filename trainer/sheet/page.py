r"""From a file to text: what is no text, too big or in another encoding is dealt with here.

UTF-8, UTF-16 with a mark or without, and, where it is neither, Windows' Western alphabet. Line ends become \n, a
byte-order mark goes, blanks of every width become plain ones; otherwise a letter stays where it stands.
"""

import re
from pathlib import Path
from typing import NamedTuple

from trainer.problems import TrainerError

MOST_BYTES = 1_000_000
"""The longest dances need a hundredth of this."""

MOST_LINES = 20_000

_TITLE = "This sheet cannot be read"
_OTHER_FILES = {
    b"%PDF": "a PDF",
    b"PK\x03\x04": "a packed file, such as a document of a word processor",
    b"\xd0\xcf\x11\xe0": "a document of a word processor",
    b"{\\rtf": "a document of a word processor",
    b"\x89PNG": "a picture",
    b"\xff\xd8\xff": "a picture",
    b"GIF8": "a picture",
    b"RIFF": "a sound or a picture",
    b"ID3": "a sound",
    b"OggS": "a sound",
    b"fLaC": "a sound",
}
_BLANKS = re.compile("[\u00a0\u1680\u2000-\u200a\u202f\u205f\u3000]")
_LINE_ENDS = re.compile("\r\n?|[\x0b\x0c\x1c-\x1e\x85\u2028\u2029]")
_CONTROLS = re.compile("[\x00-\x08\x0e-\x1b\x7f]")
_SURROGATES = re.compile("[\ud800-\udfff]")


class Page(NamedTuple):
    """A file as it was found."""

    data: bytes
    text: str
    """Decoded, and nothing else."""
    encoding: str


def load(path: Path) -> str:
    """Return the text of a sheet, cleaned; raises what `found` raises."""
    return clean(found(path).text)


def found(path: Path) -> Page:
    """Return a sheet with every letter that is in its file, for whoever writes it again.

    Raises TrainerError in a plain sentence where there is no such file, or it is a folder, too big, or no text.
    """
    try:
        if path.is_dir():
            raise TrainerError(_TITLE, f"{path} is a folder; name a sheet in it.")
        if not path.is_file():
            raise TrainerError(_TITLE, f"there is no file {path}.")
        if path.stat().st_size > MOST_BYTES:
            raise TrainerError(_TITLE, f"{path} is far bigger than any step sheet.")
        data = path.read_bytes()
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise TrainerError(_TITLE, f"{path} cannot be opened: {reason}.") from error
    return _decoded(data, path)


def clean(text: str) -> str:
    """Return a text with plain line ends and blanks, and without a byte-order mark."""
    text = _LINE_ENDS.sub("\n", text.removeprefix("\ufeff"))
    return _SURROGATES.sub("\ufffd", _BLANKS.sub(" ", text))


def _decoded(data: bytes, path: Path) -> Page:
    for start, kind in _OTHER_FILES.items():
        if data.startswith(start):
            raise TrainerError(_TITLE, f"{path} is {kind}, not text; save it as plain text first.")
    for encoding in _encodings(data):
        try:
            text = data.decode(encoding)
        except UnicodeDecodeError:
            continue
        if not _CONTROLS.search(text):
            return Page(data, text, encoding)
    raise TrainerError(_TITLE, f"{path} is not text.")


def _encodings(data: bytes) -> tuple[str, ...]:
    """Return the encodings that may be tried; halves of zeros tell UTF-16 where no mark does."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return ("utf-16",)
    if b"\0" in data:
        return ("utf-16-le",) if data[1::2].count(0) > data[::2].count(0) else ("utf-16-be",)
    return ("utf-8", "cp1252")
