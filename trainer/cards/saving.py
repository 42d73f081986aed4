"""Writing a card to a file: never over a sheet, nor over any file that is not a card itself, and never half."""

import os
from pathlib import Path

from trainer.practice.keeping import replace_file
from trainer.problems import TrainerError

_TITLE = "The card could not be written"
_PDF_SIGN = b"/Creator (Callahead card)"
_HTML_SIGN = b'<meta name="generator" content="Callahead card">'
_HEAD = 2_000


def target(path: Path, sheet: Path) -> Path:
    """Return where a card is to be written.

    Raises TrainerError where that is the sheet, something that is no file, or a file that is not a card.
    """
    try:
        place = path.resolve()
        if not place.exists():
            if not place.parent.is_dir():
                raise TrainerError(_TITLE, f"there is no folder {path.parent}.")
            return place
        if place.samefile(sheet):
            raise TrainerError(_TITLE, f"{path} is the sheet itself; give another name.")
        if not place.is_file():
            raise TrainerError(_TITLE, f"{path} is no file; give the name of one.")
        if not _is_card(place):
            raise TrainerError(_TITLE, f"{path} is there already and is not a card; give another name.")
    except (OSError, ValueError, RuntimeError) as error:
        raise _failed(path, error) from error
    return place


def save(place: Path, content: bytes) -> None:
    """Write a card whole; TrainerError where the disk does not let it."""
    try:
        mode = place.stat().st_mode & 0o777 if place.exists() else 0o666 & ~_umask()
        replace_file(place, content)
        place.chmod(mode)
    except OSError as error:
        raise _failed(place, error) from error


def _is_card(place: Path) -> bool:
    """Whether a file is a card of an earlier time, or holds nothing."""
    content = place.read_bytes()
    if content.startswith(b"%PDF-"):
        return _PDF_SIGN in content
    return not content or (content.startswith(b"<!DOCTYPE html>") and _HTML_SIGN in content[:_HEAD])


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _failed(path: Path, error: Exception) -> TrainerError:
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return TrainerError(_TITLE, f"{path}: {reason}")
