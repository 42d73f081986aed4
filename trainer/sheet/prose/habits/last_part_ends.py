"""The last part of a play that ends otherwise: "The end of the last B. In place of the last two counts step ...".

It is told as the ending it is: "Ending: dance the last B without its last 2 counts, then step ...". So it is where a
heading, or the sentence itself, names the last of a part and its end, and says which of its last counts are not danced.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token, TokenKind

_PART = rf"[a-h]|{'|'.join(SONG_PARTS)}"
_NAMED = re.compile(
    rf"\b(?:(?:last|final|closing) (?:part )?(?P<part>{_PART})|(?P<before>{_PART}) for the (?:very )?last time)\b"
)
_ENDED = re.compile(
    r"\b(?:end|ends|ending|finish|finishes|finale|close|closes|closing|different|differently|otherwise)\b"
)
_MANY = rf"(?P<many>\d|{'|'.join(word for word, number in NUMBERS.items() if number <= 8)})"
_RANGE = r"(?P<first>\d+) (?:-|to|and|&|,) (?P<last>\d+)"
_NOT_DANCED = (
    r"(?:in ?place of|instead of|in ?stead of|replace|replacing|leave out|leaving out|leave off|omit|skip|drop|without|"
    r"swap|change|(?:do not|don't|never) (?:dance|do))"
)
_OF_IT = rf"(?: of (?:the |this )?(?:(?:last|final) )?(?:part )?(?:{_PART}|it|that|dance)\b)?"
_COUNTS = rf"(?:the |its )?(?:(?:last|final) {_MANY} (?:counts?|beats?|cts?)|(?:counts? |beats? )?{_RANGE}){_OF_IT}"
_LEFT = (
    re.compile(rf"\b{_NOT_DANCED} (?:only )?{_COUNTS}"),
    re.compile(rf"\b{_COUNTS} (?:becomes?|are|is|change to|changes to|turn into)\b"),
)
_LEADS = {
    ",", ":", ";", ".", "-", "with", "by", "for", "and", "do", "dance", "you", "we", "just", "this", "then", "simply",
    "here", "only", "but", "instead", "use", "these", "make", "them", "it", "take", "put", "in",
}  # fmt: skip
_NEAR = 3
"""Lines of the sheet between the heading and what it heads at most."""
_HEADING = 14
"""Tokens of a heading."""


@dataclass(frozen=True, slots=True)
class _Ending:
    part: Token
    counts: int
    steps: tuple[Token, ...]


def with_last_part_ended(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, what is danced at the end of the last of a part told as the ending."""
    for at, line in enumerate(lines):
        above = lines[at - 1].tokens if at and line.number - lines[at - 1].number <= _NEAR else ()
        for head in ((), above) if len(above) <= _HEADING else ((),):
            told = _told(head, line.tokens)
            if told is not None:
                place = line.tokens[0]
                written = replace(line, tokens=_written(place, told), source="")
                return (*lines[: at - bool(head)], written, *lines[at + 1 :])
    return tuple(lines)


def _told(head: Sequence[Token], tokens: Sequence[Token]) -> _Ending | None:
    """Return how the last of a part ends, as a line tells it with its heading, or without one."""
    said = (*head, *tokens)
    words = " ".join(token.low for token in said)
    named = _NAMED.search(words)
    left = next((found for pattern in _LEFT if (found := pattern.search(words)) is not None), None)
    if named is None or left is None or not _ENDED.search(words):
        return None
    group = "part" if named["part"] else "before"
    part = said[words[: named.start(group)].count(" ")]
    counts = _counts(left)
    first = max(words[: left.end()].count(" ") + 1, len(head))
    while first < len(said) and said[first].low in _LEADS:
        first += 1
    steps = said[first:]
    end = next((at for at, token in enumerate(steps) if token.text in (".", "!")), len(steps))
    danced = any(token.low in STEP_WORDS for token in steps[:2])
    lettered = len(part.text) > 1 or part.text.isupper()
    return _Ending(part, counts, tuple(steps[:end])) if counts and danced and lettered else None


def _counts(found: re.Match[str]) -> int:
    """Return how many counts are not danced."""
    if found["many"]:
        return int(found["many"]) if found["many"].isdecimal() else NUMBERS[found["many"]]
    return max(int(found["last"]) - int(found["first"]) + 1, 0)


def _written(place: Token, told: _Ending) -> tuple[Token, ...]:
    """Return the tokens that tell an ending."""
    words = f"Ending : dance the last {told.part.text} without its last {told.counts} counts , then".split()
    return (*(_token(place, text) for text in words), *told.steps)


def _token(place: Token, text: str) -> Token:
    kind: TokenKind = "number" if text.isdecimal() else "word" if text.isalpha() else "mark"
    return replace(place, kind=kind, text=text, low=text.lower(), glued=kind == "mark", value=None)
