"""The last counts, or the last section, danced once more when a wall is over, told by their numbers.

"After wall 2 repeat the last 8 counts" of a dance of 32 is "after wall 2 repeat counts 25-32". Inside a wall "the last
8" are those before the place that was reached: nothing is told of them here.
"""

import re
from bisect import bisect_left
from collections.abc import Sequence
from itertools import accumulate

from trainer.sheet.prose.lexis.vocabulary import NUMBERS
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_WALL = r"(?:walls?|rounds?|rotations?|times?)\b"
_OVER = re.compile(
    rf"\b(?:after|end of|behind|following|done|finished|over)\b.*\b{_WALL}|{_WALL}.*\bat (?:the|its) end\b|\btag\b"
)
"""What says that the wall is over."""
_INSIDE = re.compile(
    r"\b(?:up to|until|restart|as far as|instead)\b|"
    r"\b(?:after|at|to|on) (?:the )?(?:first )?(?:section|count|\d+ counts)\b"
)
_LAST = r"(?:the |its |your |these |those )?(?:very )?(?:last|final) "
_COUNTED = r"(?: (?:counts?|beats?))?(?: of the (?:dance|wall|section))?(?: \( [^()]* \))?"
_AGAIN = re.compile(
    rf"\b(?:repeat|repeats|repeating|redo) {_LAST}(?P<many>\w+){_COUNTED}(?= |$)|"
    rf"(?:\b(?:do|dance|add|take|come|comes) )?\b{_LAST}(?P<more>\w+){_COUNTED}"
    r" (?:(?:are|is|come|comes|get|gets) )?(?:danced |done )?(?:once |one )?"
    r"(?:again|more time|more|over again|extra time|twice|repeated)(?= |$)"
)
_SECTION = {"section", "set", "eight", "8", "six", "6"}


def with_last_counts_again(tokens: Sequence[Token], ends: Sequence[int]) -> tuple[Token, ...]:
    """Return a sentence with such counts told by their numbers; `ends` are the counts by the end of each section."""
    words = " ".join(token.low for token in tokens)
    found = _AGAIN.search(words)
    if found is None or not ends or _INSIDE.search(words):
        return tuple(tokens)
    # "The tag comes after wall 3. Repeat the last 8 counts."
    alone = found.start() == 0 and not words[found.end() :].strip(" .!")
    if not alone and not _OVER.search(words[: found.start()]):
        return tuple(tokens)
    whole = ends[-1]
    many = found["many"] or found["more"]
    counts = whole - (0, *ends)[-2] if many in _SECTION else _number(many)
    if not 0 < counts < whole:
        return tuple(tokens)
    starts = list(accumulate((len(token.low) + 1 for token in tokens), initial=0))
    first, last = (bisect_left(starts, at) for at in found.span())
    near = tokens[first]
    told = (
        word_like(near, "repeat"),
        word_like(near, "counts"),
        number_like(near, whole - counts + 1),
        mark_like(near, "-"),
        number_like(near, whole),
    )
    return (*tokens[:first], *told, *tokens[last:])


def _number(word: str) -> int:
    return int(word) if word.isdecimal() else NUMBERS.get(word, 0)
