"""From a file to a proofread routine: the one door for the commands and the screens."""

from dataclasses import dataclass
from pathlib import Path

from pydantic import ValidationError

from trainer.dance.proof import proofread
from trainer.problems import Problem, TrainerError, each_once, loud
from trainer.routine import Routine
from trainer.sheet import page
from trainer.sheet.reading import read


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet as it was opened: its text, what was read of it, and what is wrong in it."""

    path: Path
    text: str
    routine: Routine
    problems: tuple[Problem, ...]

    @property
    def sound(self) -> bool:
        """Whether there is no error and no warning; notes do not count."""
        return not loud(self.problems)


def open_sheet(path: Path) -> Sheet:
    """Read and proofread a sheet, or a routine that was written as JSON (a file that ends in .json).

    Raises TrainerError when the file cannot be read as text, or the JSON is no routine.
    """
    text = page.load(path)
    if path.suffix == ".json":
        routine = _from_json(path, text)
        return Sheet(path, text, routine, proofread(routine))
    return opened(path, text)


def opened(path: Path, text: str) -> Sheet:
    """Read and proofread a text; `path` says where it is from."""
    routine, problems = read(text)
    return Sheet(path, text, routine, each_once(problems, proofread(routine)))


def _from_json(path: Path, text: str) -> Routine:
    try:
        return Routine.model_validate_json(text)
    except ValidationError as error:
        faults = "\n".join(f"{'.'.join(map(str, one['loc']))}: {one['msg']}" for one in error.errors())
        raise TrainerError("This is no routine", f"{path} does not hold a routine as JSON:\n{faults}") from error
