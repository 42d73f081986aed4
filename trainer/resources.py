"""Finds the bundled routines and sounds, in an installed package and in a checkout alike."""

from importlib.resources import files
from pathlib import Path

from trainer.problems import TrainerError


def folder(name: str) -> Path:
    """Return the folder of bundled data called `name` ("routines" or "sounds").

    Raises TrainerError, saying where it looked, when neither the package nor the checkout has it.
    """
    inside = Path(str(files("trainer"))) / name
    beside = Path(str(files("trainer"))).parent / name
    for place in (inside, beside):
        if place.is_dir():
            return place
    raise TrainerError("Something is missing", f"the folder {name} was looked for in {inside} and in {beside}")
