"""What the shelf says of a routine, how it is found, and in which order routines are listed.

Searching, every word typed must be found in the title, the level, the teacher, the tune or the file's name, whatever
its case and accents.
"""

import unicodedata
from collections.abc import Iterable, Mapping
from math import inf
from pathlib import Path
from typing import TYPE_CHECKING, Literal, get_args
from uuid import UUID

from trainer.dance.facing import walls_home
from trainer.practice.care import full_turns
from trainer.practice.shelf import Entry
from trainer.problems import TrainerError, loud

if TYPE_CHECKING:
    from trainer.routine import Routine
    from trainer.sheet.opening import Sheet

Column = Literal["routine", "level", "counts", "walls", "a minute", "last danced"]
COLUMNS: tuple[Column, ...] = get_args(Column)

LEVELS = ("beginner", "improver", "novice", "intermediate", "advanced")
"""From easy to hard, as most teachers use them (common practice, no source)."""


def in_order(entries: Iterable[Entry], rows: Mapping[UUID, tuple[str, ...]], by: Column | None) -> list[Entry]:
    """Return entries by a column of their rows: the easy, the small, the danced last first; what says nothing last.

    Without a column they stay as they are.
    """
    if by is None:
        return list(entries)
    place = COLUMNS.index(by)
    named = sorted(entries, key=lambda entry: plain(rows[entry.id][0]))
    if by == "last danced":
        return sorted(named, key=lambda entry: rows[entry.id][place], reverse=True)
    return sorted(named, key=lambda entry: _rank(by, rows[entry.id][place]))


def _rank(by: Column, cell: str) -> tuple[bool, float, str]:
    """Return what a cell is sorted by: whether it says nothing, its number or level, its words; words after numbers."""
    words = plain(cell)
    if by == "level":
        known = [place for place, level in enumerate(LEVELS) if level in words]
        # "easy intermediate" comes before "intermediate", "high improver" after "improver".
        shade = 0.3 * (("high" in words) - any(easy in words for easy in ("easy", "absolute", "ultra", "low")))
        return not words, max(known, default=len(LEVELS)) + shade, words
    return not words, _number(cell), words


def _number(cell: str) -> float:
    try:
        return float(cell)
    except ValueError:
        return inf


def plain(text: str) -> str:
    """Return a text without case and accents, to be searched."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(letter for letter in apart if not unicodedata.combining(letter))


def matches(words: list[str], path: Path, read: "Sheet | TrainerError | None") -> bool:
    """Return whether every word, already plain, is in what is known of a routine."""
    known = [path.stem.replace("-", " ")]
    if read is not None and not isinstance(read, TrainerError):
        known += [read.routine.title, read.routine.level, read.routine.by, read.routine.tune]
    everything = plain("\n".join(known))
    return all(word in everything for word in words)


def row(entry: Entry, path: Path, read: "Sheet | TrainerError | None") -> tuple[str, ...]:
    """Return the cells of an entry; before its sheet was read, its file's name."""
    danced = entry.danced.isoformat() if entry.danced else ""
    if read is None or isinstance(read, TrainerError):
        return (path.stem.replace("-", " "), "", "", "", "", danced if read is None else read.title)
    routine = read.routine
    tempo = f"{float(routine.tempo):g}" if routine.tempo else ""
    return (routine.title or path.stem, routine.level, counts_of(routine), walls_of(routine), tempo, danced)


def counts_of(routine: "Routine") -> str:
    """Return the counts of a dance, as declared or else as its sections add up to."""
    return str(routine.counts or sum(part.counts for part in routine.parts))


def walls_of(routine: "Routine") -> str:
    """Return the directions a dance begins in, as declared or else as it turns; "phrased" where it is in parts."""
    if routine.walls is not None:
        return str(routine.walls)
    if routine.phrased:
        return "phrased"
    turns = (event.turn for part in routine.parts for section in part.sections for event in section.events)
    return str(walls_home(sum(turns, start=routine.squares * 0)))


def about(entry: Entry, read: "Sheet | TrainerError | None") -> str:
    """Return what else a dancer wants to know before choosing, in at most three lines."""
    if read is None:
        return "reading ..."
    if isinstance(read, TrainerError):
        return f"{read.title}. {read.message}"
    routine = read.routine
    tune = f"to {routine.tune}" if routine.tune else ""
    turns = full_turns(routine)
    spins = f"{turns} full turns on each wall: learn them slowly, with room round you" if turns > 1 else ""
    found = len(loud(read.problems))
    faults = f"{found} finding{'s' if found != 1 else ''} in the sheet" if found else ""
    where = entry.name if entry.kind == "own" else ""
    lines = (", ".join(words for words in (tune, routine.by, routine.time) if words), spins, faults, where)
    return "\n".join(line for line in lines if line)
