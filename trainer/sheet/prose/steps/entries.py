"""Every phrase that can be read, with its lexeme: from the tables of moves and figures, and from wording.toml."""

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache
from itertools import product
from typing import Any

from trainer.dance.figures import figures, moves
from trainer.routine import Span
from trainer.sheet.prose.steps.lex import Lex, LexKind
from trainer.sheet.prose.steps.slips import Trade
from trainer.sheet.prose.steps.wording import bare, wording
from trainer.terms import Direction, Move

_NOT_NAMES = {
    "rock step", "walks", "runs", "full turn", "spiral", "pivot turn", "hip bumps", "heel swivels", "cross unwind",
    "behind unwind", "out out", "in in", "step drag", "ball change", "ball step", "toe swivels", "hip twists",
}  # fmt: skip
"""Figures whose names are read word by word: their parts are moves and turns of their own."""

_KEPT_NAMES = {"ball change", "step pivot step", "step turn step"}


@cache
def phrases_by_first() -> Mapping[str, tuple[tuple[tuple[str, ...], Lex], ...]]:
    """Return every phrase by its first word, the longest first."""
    found: dict[tuple[str, ...], Lex] = {}
    for phrase, lex in _entries():
        found.setdefault(tuple(bare(phrase).replace("-", " ").split()), lex)
    by_first: dict[str, list[tuple[tuple[str, ...], Lex]]] = {}
    for words, lex in found.items():
        by_first.setdefault(words[0], []).append((words, lex))
    return {first: tuple(sorted(entries, key=lambda entry: -len(entry[0]))) for first, entries in by_first.items()}


def _lex(kind: LexKind, value: Any, low: str, *, ing: bool = False, way: Direction | None = None) -> Lex:
    return Lex(kind, value, low, Span(0, 0, 0), ing, way)


def _entries() -> Iterator[tuple[str, Lex]]:
    """Yield phrases with their lexemes; the first entry of a phrase counts."""
    yield from _turn_entries()
    yield from _figure_entries()
    yield from _move_entries()
    table = wording()
    for value, phrase in _listed("references"):
        yield phrase, _lex("prep", Direction(value), phrase)
    for value, phrase in _listed("ways"):
        yield phrase, _lex("way", value if value == "diagonal" else Direction(value), phrase)
    for value, phrase in _listed("parts"):
        yield phrase, _lex("part", value, phrase)
    for value, phrase in _listed("tasks"):
        yield phrase, _lex("task", value, phrase)
    places = table["places"]
    for words in product(places["leads"], places["ordinals"], places["things"]):
        yield " ".join(filter(None, words)), _lex("glue", None, words[-1])
    for phrase in (*table["glue"]["phrases"], *table["glue"]["words"].split()):
        yield phrase, _lex("glue", None, phrase)
    for word in table["styling"]["words"].split():
        yield word, _lex("style", None, word)


def _listed(section: str) -> Iterator[tuple[str, str]]:
    """Yield the pairs of meaning and phrase of a table."""
    for value, phrases in wording()[section].items():
        for phrase in phrases:
            yield value, phrase


_MORE = ("one more", "yet another", "one last", "one further")
_SINGLE = ("eighth", "quarter", "half")
"""Amounts that may be turned once more: "pivot one more quarter"."""


def _turn_entries() -> Iterator[tuple[str, Lex]]:
    for value, phrase in _listed("turning"):
        yield phrase, _lex("turn", value, phrase, ing=phrase.split()[0].endswith("ing"))
    for value, phrase in _listed("amounts"):
        yield phrase, _lex("amount", Fraction(value), phrase)
        for more in _MORE if phrase in _SINGLE else ():
            yield f"{more} {phrase}", _lex("amount", Fraction(value), phrase)
    for value, phrase in _listed("numbers"):
        yield phrase, _lex("number", int(value), phrase)


def _move_entries() -> Iterator[tuple[str, Lex]]:
    for key, phrase in _listed("verbs"):
        name, _, way = key.partition(":")
        yield from _inflected(phrase, Move(name), Direction(way) if way else None)
    for move, row in moves().items():
        if move in (Move.PIVOT, Move.TURN, Move.UNWIND):
            continue
        for phrase in row.words:
            if "weight" in phrase:
                # Read word by word: a note of weight.
                continue
            if phrase in ("ball", "heel", "toe"):
                yield phrase, _lex("part", phrase, phrase)
                yield phrase + "s", _lex("part", phrase, phrase + "s")
            yield from _inflected(phrase, move, Direction.TOGETHER if phrase == "close" else None)


def _figure_entries() -> Iterator[tuple[str, Lex]]:
    for name, row in figures().items():
        for phrase in row.words:
            if name in _NOT_NAMES and phrase not in _KEPT_NAMES:
                continue
            yield phrase, _lex("figure", name, phrase)
            yield phrase + ("es" if phrase.endswith(("s", "x", "sh", "ch")) else "s"), _lex("figure", name, phrase)
            if " " not in phrase and phrase.endswith("e"):
                yield phrase[:-1] + "ing", _lex("figure", name, phrase)


_NO_GERUNDS = ("swing", "spring", "bring")


def _inflected(phrase: str, move: Move, way: Direction | None) -> Iterator[tuple[str, Lex]]:
    """Yield a verb's forms: of several words the first is inflected, and the last gets its plural."""
    first, _, rest = phrase.partition(" ")
    tail = f" {rest}" if rest else ""
    itself = first.endswith("ing") and phrase not in _NO_GERUNDS
    yield phrase, _lex("move", move, phrase, ing=itself, way=way)
    for form in (*_third(first), *_past(first)):
        yield form + tail, _lex("move", move, phrase, way=way)
    for form in _gerunds(first):
        yield form + tail, _lex("move", move, phrase, ing=True, way=way)
    for form in _third(phrase) if rest else ():
        yield form, _lex("move", move, phrase, way=way)


def _third(word: str) -> tuple[str, ...]:
    if word.endswith(("s", "x", "sh", "ch", "z")):
        return (word + "es",)
    return (word[:-1] + "ies", word + "s") if word.endswith("y") else (word + "s",)


def _past(word: str) -> tuple[str, ...]:
    return (word + "d",) if word.endswith("e") else (word + "ed", word + word[-1] + "ed")


def _gerunds(word: str) -> tuple[str, ...]:
    if word.endswith("e"):
        return (word[:-1] + "ing",)
    return (word + "ing", word + word[-1] + "ing", word + "in")


@cache
def trade() -> Trade:
    """Return the words of the trade of four letters and more, by their first letter."""
    words = {
        phrase[0]
        for entries in phrases_by_first().values()
        for phrase, lex in entries
        if lex.kind in _SLIPPING and len(phrase) == 1
    }
    words |= {"right", "left"}
    by_letter: dict[str, list[str]] = {}
    for word in sorted(words):
        if len(word) > 3 and word.isalpha():
            by_letter.setdefault(word[0], []).append(word)
    return {letter: tuple(found) for letter, found in by_letter.items()}


_SLIPPING = {"move", "way", "prep", "figure", "turn", "amount"}
