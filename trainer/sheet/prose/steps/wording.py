"""The tables of wording.toml, read once."""

import tomllib
import unicodedata
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def wording() -> Mapping[str, Any]:
    """Return the tables of wording.toml."""
    return tomllib.loads((files("trainer.sheet.prose.steps") / "wording.toml").read_text(encoding="utf-8"))


def bare(word: str) -> str:
    """Return a word in small letters without accents: chassé is chasse."""
    if word.isascii():
        return word
    parts = unicodedata.normalize("NFD", word)
    return "".join(letter for letter in parts if not unicodedata.combining(letter))
