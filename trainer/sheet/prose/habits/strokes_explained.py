"""Sentences that only say what a stroke among the steps stands for: "three counts before the stroke, three after it".

They tell no step, and their numbers count nothing: they are left out before the page is read.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_STROKES = re.compile(
    r"\b(?:the|a|an|each|every|by|with) (?:\w+ )?(?:strokes?|slash(?:es)?|solidus|bar ?lines?|vertical lines?)\b|"
    r"^(?:strokes?|slash(?:es)?|bar ?lines?)\b"
)
_SAMPLE = re.compile(
    r"\b(?:each|every|all|a|one) (?:\w+ ){0,2}(?:lines?|rows?|numbers?|items?|paragraphs?)\b.*\b(?:counts|beats)\b"
    r".*\b1 ,? ?2 ,? ?3\b(?: , | / | \W | )4\b"
)
"""Every line counts so: "each line has six counts, 1 2 3 / 4 5 6"."""
_OF_COUNTS = re.compile(r"\b(?:counts?|beats?|bars?|three|four|3|4|half|halves|parts?|stands?|means?|is|are)\b")
_ENDS = (".", "!", "?")


def without_strokes_explained(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without such sentences, where strokes part steps in other lines."""
    told = [any(_explains(part) for part in _sentences(line.tokens)) for line in lines]
    parted = sum(any(token.text in ("/", "|", BREAK) for token in line.tokens) for line in lines)
    if sum(told) != 1 or parted <= 1:
        return tuple(lines)
    kept: list[Line] = []
    for line, explains in zip(lines, told, strict=True):
        rest = [part for part in _sentences(line.tokens) if not _explains(part)] if explains else [line.tokens]
        tokens = tuple(token for part in rest for token in part)
        if tokens:
            kept.append(replace(line, tokens=tokens) if explains else line)
    return tuple(kept)


def _explains(part: Sequence[Token]) -> bool:
    words = " ".join(token.low for token in part)
    if _SAMPLE.search(words) and not any(token.low in STEP_WORDS for token in part):
        return True
    return bool(_STROKES.search(words)) and bool(_OF_COUNTS.search(words))


def _sentences(tokens: tuple[Token, ...]) -> Iterator[tuple[Token, ...]]:
    start = 0
    for at, token in enumerate(tokens):
        if token.text in _ENDS or at == len(tokens) - 1:
            yield tokens[start : at + 1]
            start = at + 1
