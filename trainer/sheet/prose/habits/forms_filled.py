"""A new start told as a form that is filled in, a line for each entry, told as one line.

"Restart / When: wall 5 / Where: after section 3 / Facing: 3:00" is "Restart: wall 5, after section 3, facing 3:00".
Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HEADS = {"restart", "restarts"}
_BESIDE = {"details", "detail", "info", "no", "number", "one", "note", "notes"}
_WALL = {"when", "wall", "walls", "which", "round", "time", "repetition", "during"}
_PLACE = {
    "where",
    "after",
    "count",
    "counts",
    "place",
    "point",
    "at",
    "danced",
    "dance",
    "how",
    "far",
    "section",
    "beats",
}
_FACING = {"facing", "face", "direction", "faces", "looking"}
_ENDS = (":", "?", "=")
_LABEL = 3
"""Words of a label."""
_LEAST = 2
"""Entries of a form."""


def with_forms_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each form of a new start in one."""
    done: list[Line] = []
    at = 0
    while at < len(lines):
        entries: list[tuple[Token, ...]] = []
        end = at + 1
        if _is_head(lines[at].tokens):
            while end < len(lines) and lines[end].number <= lines[end - 1].number + 1:
                entry = _entry(lines[end].tokens)
                if not entry:
                    break
                entries.append(entry)
                end += 1
        told = [entry for entry in entries if entry[0].low == "wall" or any(one.low == "wall" for one in entry)]
        if len(entries) < _LEAST or not told:
            done.append(lines[at])
            at += 1
            continue
        done.append(replace(lines[at], tokens=_joined(lines[at].tokens[0], entries)))
        at = end
    return tuple(done)


def _is_head(tokens: Sequence[Token]) -> bool:
    """Whether a line only heads what is told of a restart: "Restart", "RESTARTS: 1", "Restart details"."""
    rest = [token for token in tokens[1:] if token.kind not in ("mark", "number")]
    return tokens[0].low in _HEADS and all(token.low in _BESIDE for token in rest)


def _entry(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return what an entry tells as words of a sentence; nothing where a line is no entry."""
    first = next((at for at, token in enumerate(tokens) if token.kind == "word"), len(tokens))
    end = next((at for at in range(first, len(tokens)) if tokens[at].text in _ENDS), 0)
    label = {token.low for token in tokens[first:end] if token.kind == "word"}
    value = tuple(tokens[end + 1 :])
    if not label or len(label) > _LABEL or not value or first > 1:
        return ()
    if label <= _WALL:
        named = any(token.low in ("wall", "walls", "round", "time", "repetition") for token in value)
        return value if named else _with_wall(value)
    if label <= _FACING:
        return (_word(value[0], "facing"), *value)
    if not label <= _PLACE:
        return ()
    counted = [token for token in value if token.kind == "number"]
    bare = len(value) == 1 and bool(counted)
    counts = (_word(value[0], "counts"),) if bare and "section" not in label else ()
    section = (_word(value[0], "section"),) if bare and "section" in label else ()
    after = () if value[0].low in ("after", "up", "to", "as", "at", "until") else (_word(value[0], "after"),)
    return (*after, *section, *value, *counts)


def _with_wall(value: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the number of a wall with the word for it: "5th wall", "wall 5"."""
    ordinal = value[-1].low in ORDINALS or value[-1].low in ("st", "nd", "rd", "th")
    number = value[0].kind == "number" or value[0].low in NUMBERS
    if ordinal:
        return (*value, _word(value[-1], "wall"))
    return (_word(value[0], "wall"), *value) if number else ()


def _joined(head: Token, entries: Sequence[tuple[Token, ...]]) -> tuple[Token, ...]:
    tokens: list[Token] = [replace(head, text="Restart", low="restart"), _mark(head, ":")]
    for entry in entries:
        tokens += [*entry, _mark(entry[-1], ",")]
    return tuple(tokens[:-1])


def _word(token: Token, word: str) -> Token:
    return replace(token, kind="word", text=word, low=word, glued=False, value=None)


def _mark(token: Token, mark: str) -> Token:
    return replace(token, kind="mark", text=mark, low=mark, glued=True, value=None)
