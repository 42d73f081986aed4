"""Steps told at once for several places of a wall, or for a bar: "in bar 5 and in bar 7 dance left forward, ...".

Each place is told by itself, by its counts: "in counts 13-15 dance ... . In counts 19-21 dance ...". What a sentence
adds of other bars, "bars 6 and 8 as written", changes nothing. Sentences that only say which counts a bar has,
"bars 1, 3, 5, 7 are counts 1 2 3", tell no steps.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_RANGE = r"\d+(?: (?:-|to) \d+)?"
_UNIT = r"(?:bars?|measures?|counts)"
_IN = r"(?:in|on|for|during)"
_MORE = rf"(?: (?:,|and|&|again|also|{_IN}|{_UNIT}|{_RANGE}))*"
_PLACES = re.compile(
    rf"(?:then |so |and )?{_IN} (?:both )?(?P<unit>{_UNIT}) (?P<all>{_RANGE}{_MORE}) (?:[:,] )?(?:you |we |they )?"
    r"(?=dance |do |step |walk |cross |rock |touch |sway |stomp |hold |[:|] )(?:: )?"
)
_LIST = r"(?: (?:\d+|,|and|&|-|to))"
_AS_EVER = r"as (?:written|usual|ever|before|always|normal|told)|unchanged|the same|normally"
_UNCHANGED = re.compile(
    rf"(?:,|;|-|and|with) (?:the )?(?:others?|rest|{_UNIT}{_LIST}+) (?:(?:are|is|stay|stays|go|remain) )?"
    rf"(?:danced )?(?:{_AS_EVER})$"
)
_EXPLAINS = re.compile(
    rf"(?:the )?(?:odd|even|first|second|other|all)? ?(?:bars?|measures?){_LIST}* "
    rf"(?:are|is|=|has|have|being) (?:always )?(?:the )?counts?{_LIST}+$"
)
_STOPS = (".", ";", "!")


def with_places_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, what is told of several places at once told of each."""
    if not any(token.low in _WORDS for line in lines for token in line.tokens):
        return tuple(lines)
    bar = 3 if phrase_of(lines) % 3 == 0 else 4
    done = (replace(line, tokens=tuple(_told(line.tokens, bar))) for line in lines)
    return tuple(line for line in done if line.tokens)


_WORDS = {"bar", "bars", "measure", "measures", "counts"}


def _told(tokens: Sequence[Token], bar: int) -> Iterator[Token]:
    start = 0
    for end in range(len(tokens) + 1):
        if end == len(tokens) or tokens[end].text in _STOPS:
            stop = tokens[end : end + 1]
            sentence = tokens[start:end]
            start = end + 1
            if _EXPLAINS.match(_words(sentence)):
                continue
            yield from _sentence(sentence, stop, bar)


def _words(tokens: Sequence[Token]) -> str:
    return " ".join(token.low for token in tokens)


def _sentence(sentence: Sequence[Token], stop: Sequence[Token], bar: int) -> Iterator[Token]:
    """Yield a sentence, once for each of the places that it tells steps for."""
    colon = next((at + 1 for at, token in enumerate(sentence) if token.text == ":"), 0)
    for first in dict.fromkeys((0, colon)):
        found = _PLACES.match(_words(sentence[first:]) + " ")
        if found is None:
            continue
        begins = first + found[0].count(" ")
        steps = _without_the_rest(sentence[begins:])
        ranges = _ranges(found["all"], bar if not found["unit"].startswith("count") else 0)
        if not any(token.low in STEP_WORDS for token in steps) or not ranges:
            continue
        yield from sentence[:first]
        for place, (low, high) in enumerate(ranges):
            end = stop or [replace(sentence[-1], kind="mark", text=".", low=".")]
            yield from _in_counts(sentence[first], low, high)
            yield from steps
            yield from end if place < len(ranges) - 1 else stop
        return
    yield from sentence
    yield from stop


def _without_the_rest(steps: Sequence[Token]) -> Sequence[Token]:
    """Return steps without what is said of places that stay as they are."""
    rest = _UNCHANGED.search(_words(steps))
    kept = list(steps[: _words(steps)[: rest.start()].count(" ")] if rest is not None else steps)
    while kept and kept[-1].text in (BREAK, ","):
        kept.pop()
    while kept and (kept[0].text in (BREAK, ":", ",") or kept[0].low in ("dance", "do")):
        kept.pop(0)
    return kept


def _ranges(words: str, bar: int) -> list[tuple[int, int]]:
    """Return the counts of each place; none where they are single counts, or one after the other."""
    found = [(int(one[1]), int(one[2] or one[1])) for one in re.finditer(r"(\d+)(?: (?:-|to) (\d+))?", words)]
    if not bar:
        several = len(found) > 1 and all(low < high for low, high in found)
        return found if several and all(a[1] < b[0] for a, b in pairwise(found)) else []
    return [((low - 1) * bar + 1, high * bar) for low, high in found]


def _in_counts(first: Token, low: int, high: int) -> Iterator[Token]:
    """Yield the words of a place."""
    word = replace(first, kind="word", glued=False, value=None)
    number = replace(word, kind="number")
    yield replace(word, text="in", low="in")
    yield replace(word, text="counts", low="counts")
    yield replace(number, text=str(low), low=str(low))
    yield replace(word, kind="mark", text="-", low="-")
    yield replace(number, text=str(high), low=str(high))
    yield replace(word, text="dance", low="dance")
