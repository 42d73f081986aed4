"""The words in which teachers tell the order of walls (`vocabulary.toml`), and numbers in words.

Each phrase has a letter for its kind; `grammar.py` seeks its patterns in texts of these letters. A word that is in no
list is `?`, one that speaks of steps `m`.
"""

import tomllib
from importlib.resources import files
from typing import Any

from trainer.dance.figures import moves
from trainer.sheet.prose.number_words import NUMBERS as NUMBERS
from trainer.sheet.prose.number_words import ORDINALS as ORDINALS
from trainer.sheet.prose.number_words import ROMAN as ROMAN


def _table() -> dict[str, Any]:
    return tomllib.loads((files("trainer.sheet.prose.lexis") / "vocabulary.toml").read_text(encoding="utf-8"))


_TABLE = _table()

FILLERS: frozenset[str] = frozenset(_TABLE["fillers"])
"""Words that change nothing."""

HINTS: frozenset[str] = frozenset(_TABLE["hints"])
"""Words one of which every line about the order has."""

HEADS: frozenset[str] = frozenset(_TABLE["heads"])
"""Words of a line that heads a list of walls."""

JOINERS: frozenset[str] = frozenset(_TABLE["joiners"])
"""Words that do not end a sentence."""

PHRASES: dict[tuple[str, ...], str] = {
    tuple(phrase.split()): kind for kind, phrases in _TABLE["phrases"].items() for phrase in phrases
} | {("again",): ""}
PHRASES |= {
    (verb, *thing, *adverb.split()): "R"
    for verb in _TABLE["beginning"]
    for adverb in _TABLE["anew"]
    for thing in (
        (),
        *(("whole",) * many + (what,) for what in ("dance", "waltz", "routine", "sequence") for many in (0, 1)),
    )
}
"""The words of a phrase to the letter of its kind."""

LONGEST = max(map(len, PHRASES))
"""Words of the longest phrase."""

_MOVES = {word for row in moves().values() for name in row.words for word in name.split()}
_SEVERAL = frozenset({
    "pivots", "hitches", "flicks", "scuffs", "brushes", "swivels", "sweeps", "taps", "skates", "spirals", "bounces",
    "hops", "twists", "lunges", "stamps", "digs", "kicks", "bumps", "unwinds",
})  # fmt: skip
"""Steps as things of which there are several; "closes" and "runs" are more often something else."""
NUMBERED = frozenset({"sections", "walls", "figures", "blocks", "parts", "sets", "rounds"})
"""Several of these are numbered, and no counts: "dance sections 1 to 5"."""

STEP_WORDS: frozenset[str] = frozenset(_TABLE["steps"]) | _MOVES | _SEVERAL
"""Words that speak of steps: the names of moves, feet, directions."""

SONG_PARTS = ("verse", "chorus", "middle", "refrain", "hook", "instrumental", "solo")
"""Names of a song's parts that the parts of a dance are called by."""

TEENS = ("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
"""Numbers as findings say them."""

EIGHT_PLACES = {word: number for word, number in ORDINALS.items() if number <= 8}
"""Places of the sections of a part: no part has more than eight."""
