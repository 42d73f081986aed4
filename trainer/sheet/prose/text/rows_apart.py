"""The rows of a page without empty ones between, with those that a page set apart would have.

An empty row stands above what heads something, above a sentence that begins a row of prose, and where talk begins below
steps. Only empty rows are put in, so all that is said stays at its place. Common practice, no source.
"""

import re
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise
from statistics import median

from trainer.sheet.prose.text.rows import Row

_PAGE = 10
"""Rows of a page at least that may be judged by its gaps."""
_FEW = 0.04
"""Of all rows so many at most are empty on a page that is set close,"""
_STRAY = 2
"""or so many."""

_STEPS_LEFT = re.compile(r"\s*(?:[-*•]\s*)?[\[({<]?\d{1,2}(?:\s*[-&,+]\s*[\da&]+)+[\])}>:.]?\s+\S")
_STEPS_RIGHT = re.compile(r"\S.*[\[({<]\d{1,2}(?:\s*[-&,+]\s*[\da&]+)*[\])}>]\W*$")
_ENDS = (".", "!", "?", '."', '!"', ".)", "!)")

_SHORT = 60
"""Letters of a heading at most."""
_BRIEF = 30
"""Letters of a row at most that may head others without a sign of it, where"""
_USUAL = 40
"""a row has so many as a rule."""
_CAPITALS = re.compile(r"[^a-z]*[A-Z]{3,}[^a-z]*")
_LED = re.compile(
    r"\W*(?:(?:the |a |danced )?(?:sections?|sect?|set|part|verse|chorus|walls?|tags?|restarts?|bridges?|ending|finish|"
    r"finale|intro|notes?|order|sequence|n\.?b|p\.?s|remember|please note)\b|[A-H]\b\s*[:,(-])",
    re.IGNORECASE,
)
"""What a row begins with that heads others, or tells something of its own."""
_NUMBERED = re.compile(
    r"\W*(?:"
    r"(?:ok |now |the |and )*(?:first|second|third|fourth|fifth|sixth|seventh|eighth|last|next|\d(?:st|nd|rd|th)) "
    r"(?P<counted>[a-z]+|\d)\b|"
    r"(?:the )?(?P<named>[a-z]+(?: no\.?)?) (?:\d+|[ivx]+|one|two|three|four|five|six|seven|eight|[a-h])\b|"
    r"(?:\d|[ivx]+)[.):] (?P<listed>[a-z]+)|"
    r"(?P<part>[a-h])(?:\W*$|, ))",
    re.IGNORECASE,
)

_WIDE = 45
"""Letters of a line of prose at least, but for the last of a paragraph,"""
_FULL = 0.75
"""and so much of the longest."""
_MANY = 4
"""Rows that a margin broke, of a page of prose."""


def with_rows_apart(rows: Sequence[Row]) -> list[Row]:
    """Return the rows of a page set close with empty ones between what seems to be apart; any other as it is."""
    said = [row.text for row in rows if row.text.strip()]
    if len(said) < _PAGE or len(rows) - len(said) > max(_FEW * len(said), _STRAY):
        return list(rows)
    width = max(map(len, said))
    prose = sum(_broken_off(text, width) for text in said) >= _MANY
    texts = [row.text for row in rows]
    heads, counted = _headings(texts, said), [tells_counts(text) for text in texts]
    done = [rows[0]]
    for at, (above, row) in enumerate(pairwise(rows), 1):
        if not above.text.strip() or not row.text.strip():
            apart = False
        elif heads[at]:
            listed = heads[at - 1] and _shape(above.text) == _shape(row.text) and _indent(above) <= _indent(row)
            apart = not listed and not (prose and _broken_off(above.text, width))
        else:
            talk = counted[at - 1] and row.text[0].isupper() and not any(counted[at : at + 2])
            apart = talk or (not heads[at - 1] and _begins(above.text, row.text, prose=prose))
        done += [Row("", row.pieces[:1]), row] if apart else [row]
    return done


def _headings(texts: Sequence[str], said: Sequence[str]) -> list[bool]:
    """Return of each row whether it heads others: by its form, as one of a row of numbers, or by being so short."""
    shapes = Counter(filter(None, map(_shape, said)))
    brief = median(map(len, said)) >= _USUAL
    return [_heads(text) or shapes[_shape(text)] > 1 or (brief and _is_brief(text)) for text in texts]


def _heads(row: str) -> bool:
    text = row.strip()
    if len(text) > _SHORT or tells_counts(row) or text.endswith((".", ",", ";")):
        return False
    return bool(_CAPITALS.fullmatch(text) or text.endswith(":") or _LED.match(text))


def _is_brief(row: str) -> bool:
    """Whether a row is so short, and says no step and no end of a sentence, that it may head what is below it."""
    text = row.strip()
    ended = text.endswith((".", ",", ";", ")"))
    return bool(text) and len(text) <= _BRIEF and text[0].isalpha() and not ended and not tells_counts(row)


def _shape(row: str) -> str:
    """Return what a row numbers that begins with a number of its own: "card" of "Card 1", "eight" of "First eight"."""
    match = _NUMBERED.match(row)
    if match is None or match.lastgroup is None or _STEPS_LEFT.match(row):
        return ""
    return match.lastgroup if match.lastgroup == "part" else f"{match.lastgroup} {match[match.lastgroup].lower()}"


def _begins(above: str, row: str, *, prose: bool) -> bool:
    """Whether a row begins something of its own: by its first word, or with a sentence of a page of prose."""
    said = above.rstrip()
    if _LED.match(row) and not _STEPS_LEFT.match(row) and said.endswith((*_ENDS, ")")):
        return True
    return prose and said.endswith(_ENDS)


def _broken_off(row: str, width: int) -> bool:
    """Whether a row may go on in the next: it is long, and ends no sentence."""
    return len(row) > max(_WIDE, _FULL * width) and not row.rstrip().endswith(_ENDS)


def tells_counts(row: str) -> bool:
    """Whether a row tells steps with their counts at its start or its end."""
    return bool(_STEPS_LEFT.match(row) or _STEPS_RIGHT.match(row))


def _indent(row: Row) -> int:
    return len(row.text) - len(row.text.lstrip())
