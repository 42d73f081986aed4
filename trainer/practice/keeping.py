"""Small files that the program writes for itself: never half written, and never lost when they cannot be understood.

A file is written by replacing it whole: a crash leaves the old one or the new one. A file that cannot be understood is
kept beside the new one and said.
"""

import os
import shutil
import tempfile
from contextlib import suppress
from pathlib import Path
from typing import Generic, TypeVar

from pydantic import BaseModel, ValidationError

from trainer.problems import TrainerError

M = TypeVar("M", bound=BaseModel)


class Kept(Generic[M]):
    """One value in a JSON file of its own; errors of the disk are raised as TrainerError."""

    def __init__(self, file: Path, model: type[M], name: str) -> None:
        """Keep a `model`, whose fields all have defaults; `name` is what a dancer calls it: "shelf"."""
        self.file = file
        self.notice = ""
        """What the dancer should know about the file, else empty."""
        self._model = model
        self._name = name

    def read(self) -> M:
        """Return what is kept; the defaults where there is nothing yet or nothing that can be understood."""
        try:
            return self._model.model_validate_json(self.file.read_bytes())
        except FileNotFoundError:
            return self._model()
        except ValidationError:
            return self._begin_anew()
        except OSError as error:
            raise TrainerError(f"The {self._name} could not be read", f"{self.file}: {error.strerror}") from error

    def write(self, value: M) -> None:
        """Put a value in place of the one before."""
        try:
            self.file.parent.mkdir(parents=True, exist_ok=True)
            replace_file(self.file, (value.model_dump_json(indent=2) + "\n").encode())
        except OSError as error:
            raise TrainerError(f"The {self._name} could not be kept", f"{self.file}: {error.strerror}") from error

    def _begin_anew(self) -> M:
        """Put a file that cannot be understood out of the way under a free name."""
        number = 1
        while (aside := self.file.with_name(f"{self.file.stem}-damaged-{number}.json")).exists():
            number += 1
        try:
            self.file.rename(aside)
        except OSError as error:
            raise TrainerError(f"The {self._name} could not be read", f"{self.file}: {error.strerror}") from error
        self.notice = (
            f"The file of the {self._name} could not be understood. It was kept as {aside}, and a new one begun."
        )
        return self._model()


def replace_file(file: Path, content: bytes) -> None:
    """Write a file so that at every moment either the old content or the new one is there whole; its mode stays."""
    handle, name = tempfile.mkstemp(prefix=".new-", dir=file.parent)
    try:
        with os.fdopen(handle, "wb") as written:
            written.write(content)
            written.flush()
            os.fsync(written.fileno())
        with suppress(FileNotFoundError):
            shutil.copymode(file, name)
        Path(name).replace(file)
    except OSError:
        with suppress(OSError):
            Path(name).unlink()
        raise
