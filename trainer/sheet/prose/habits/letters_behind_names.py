"""Parts headed by their own names, the letter behind: "THE PLOT (Part A, 32 counts)".

They are told as "Part A (32 counts)", and so are the names elsewhere. So it is where two lines at least
are headed so, each with another letter, from A on. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.habits.parts_called import told_with_names
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, word_like

_LETTERS = "abcdefgh"
_HEAD = re.compile(
    r"^(?:[^\w ] )*(?P<name>(?:the |our |my )?[a-z']+(?: [a-z']+){0,2}) [(\[,:|=-] part (?P<letter>[a-h])\b"
)
_LONGEST = 22
"""Tokens of such a heading."""
_FEWEST = 2
_PARTED = (",", ":", "-", BREAK)
_COUNTS = {"counts", "count", "cts", "beats"}


def with_letters_before_names(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such headings with the part's letter and length, and their names as letters elsewhere."""
    heads = {at: match for at, line in enumerate(lines) if at and (match := _head(line))}
    letters = [match["letter"] for match in heads.values()]
    if len(letters) < _FEWEST or letters != list(_LETTERS[: len(letters)]):
        return tuple(lines)
    names = {match["name"].split()[-1]: match["letter"].upper() for match in heads.values()}
    called = {f"{name}{end}": letter for name, letter in names.items() for end in ("", "s", "es")}
    return tuple(
        _turned(line, heads[at]) if at in heads else told_with_names(line, called) if at else line
        for at, line in enumerate(lines)
    )


def _head(line: Line) -> re.Match[str] | None:
    match = _HEAD.match(line.words) if len(line.tokens) <= _LONGEST else None
    return match if match and not set(match["name"].split()) & STEP_WORDS else None


def _turned(line: Line, match: re.Match[str]) -> Line:
    """Return a heading as "Part A", with its length where that stands behind the letter."""
    first = line.words[: match.start("name")].count(" ")
    letter = line.words[: match.start("letter")].count(" ")
    rest = [token for token in line.tokens[letter + 1 : letter + 4] if token.text not in _PARTED]
    told = len(rest) > 1 and rest[0].kind == "number" and rest[1].low in _COUNTS
    length = (mark_like(rest[0], "("), *rest[:2], mark_like(rest[1], ")")) if told else ()
    return replace(line, tokens=(word_like(line.tokens[first], "Part"), line.tokens[letter], *length), source="")
