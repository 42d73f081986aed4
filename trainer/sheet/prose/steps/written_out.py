"""Steps in brackets that are danced several times, written out: "(side, touch, side, touch) x2", "2 x (heel, close)".

Without brackets the number may be that of the last step, or of all: then it is written out loosely, for where the last
step alone does not fill its counts.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.words import Token

_TIMES = {"twice": 2, "thrice": 3, "two": 2, "three": 3, "four": 4, "2": 2, "3": 3, "4": 4}
_OPEN = {"(": ")", "[": "]", "{": "}"}
_MARKS = {",", ":", ".", "-", ";"}
_LISTS = {",", "/", ";", "+"}


def written_out(text: Sequence[Token]) -> tuple[Token, ...]:
    """Return words with each bracket that is to be danced several times as often as that."""
    done: list[Token] = []
    at = 0
    while at < len(text):
        before, first = _times_at(text, at)
        opens = first if before and first < len(text) and text[first].text in _OPEN else at
        end = _closing(text, opens) if text[opens].text in _OPEN else 0
        if not end or not _is_listed(text[opens + 1 : end]):
            done.append(text[at])
            at += 1
            continue
        after, last = _times_at(text, end + 1)
        times = before if opens > at else after
        if times < 2:
            done.append(text[at])
            at += 1
            continue
        done += _several(text[opens + 1 : end], times)
        at = end + 1 if opens > at else last
    return tuple(done)


def written_out_loosely(text: Sequence[Token]) -> tuple[Token, ...]:
    """Return a list of steps that ends, or begins, with how often, as often as that; other words as they are."""
    for last in range(len(text) - 1, max(len(text) - 5, 0), -1):
        times, end = _times_at(text, last)
        if times and all(token.text in _MARKS for token in text[end:]) and _is_listed(text[:last]):
            return tuple(_several(_trimmed(text[:last]), times))
    times, first = _times_at(text, 0)
    return tuple(_several(_trimmed(text[first:]), times)) if times and _is_listed(text[first:]) else tuple(text)


def _times_at(text: Sequence[Token], at: int) -> tuple[int, int]:
    """Return how often is said at a token, and the token after it: "x2", "2x", "twice", "two times:"."""
    low = [token.low for token in text[at : at + 3]]
    end = 0
    times = 0
    if low[:1] in (["twice"], ["thrice"]):
        times, end = _TIMES[low[0]], at + 1
    elif len(low) > 1 and low[0] == "x" and low[1] in _TIMES:
        times, end = _TIMES[low[1]], at + 2
    elif len(low) > 1 and low[0] in _TIMES and low[1] in ("x", "times"):
        times, end = _TIMES[low[0]], at + 2
    if not times:
        return 0, at
    return times, end + (end < len(text) and text[end].text == ":")


def _closing(text: Sequence[Token], at: int) -> int:
    """Return the bracket that closes one, 0 where another opens before it."""
    for end in range(at + 1, len(text)):
        if text[end].text in _OPEN:
            return 0
        if text[end].text == _OPEN[text[at].text]:
            return end
    return 0


def _is_listed(words: Sequence[Token]) -> bool:
    """Whether words list several steps; signs alone list none."""
    return bool(_trimmed(words)) and any(token.text in _LISTS or token.low in ("and", "then") for token in words[1:-1])


def _trimmed(words: Sequence[Token]) -> Sequence[Token]:
    first, last = 0, len(words)
    while first < last and words[first].text in _MARKS:
        first += 1
    while last > first and (words[last - 1].text in _MARKS or words[last - 1].low in ("all", "of", "this")):
        last -= 1
    return words[first:last]


def _several(words: Sequence[Token], times: int) -> list[Token]:
    comma = replace(words[-1], kind="mark", text=",", low=",", glued=True, value=None)
    done = [*words]
    for _ in range(times - 1):
        done += [comma, *words]
    return done
