"""Half beats told by themselves in running words: on &, on the a, for the "and", on the & of 2, on the a before 3.

An a alone is an article nearly everywhere; it is a count where "the" or quotes stand before it, or where nothing that
it could belong to follows. A number told with it ("of 2", "after 2", "before 3") is its beat; else it goes with the
count before it.
"""

from collections.abc import Sequence

from trainer.sheet.prose.counts.scan import NUMBERS, Place
from trainer.sheet.prose.words import Token

_LEADS = {"on", "for", "at", "with", "by", "upon", "over", "and", "then", "in"}
_HALVES = {"&": "&", "and": "&", "a": "a", "e": "e"}
_QUOTES = ("'", '"')
_BEATS = {"count", "beat", "half", "upbeat", "half-beat"}
_SPOKEN_OF = {"is", "are", "comes", "falls", "means", "stands", "will", "should", "always"}
"""After a half these tell how it is counted: "and the a comes late"."""
_ANNOUNCES = {"begins", "begin", "starts", "start", "opens", "enters"}
_DONE_THEN = {"recover", "close", "replace", "together"}
_CLOSES = {",", ".", ";", ")", "]", ":"}


def half_alone(line: Sequence[Token], at: int) -> tuple[Place, int] | None:
    """Return the half beat told from a token on, and the index after it; None where there is none."""
    if line[at].low not in _LEADS or at + 1 == len(line):
        return None
    if at and line[at - 1].low in _ANNOUNCES:
        # "The last eight begins on the "and" after that hold: close left on "and" ..." tells it once more.
        return None
    half = at + 1
    called = half < len(line) and line[half].low == "the"
    half += called
    quoted = half < len(line) and line[half].text in _QUOTES
    half += quoted
    if half >= len(line) or line[half].low not in _HALVES or line[half].text == "A":
        return None
    last = half + 1
    after = line[last].text if last < len(line) else ""
    if quoted and after not in _QUOTES:
        return None
    if not (called or quoted) and not _is_bare(line, at, half):
        return None
    last += quoted
    if last < len(line) and line[last].low in _BEATS:
        last += 1
    if last < len(line) and line[last].low in _SPOKEN_OF:
        return None
    sub = _HALVES[line[half].low]
    beat, told = _beat(line, last)
    return Place(beat, sub), told


def _is_bare(line: Sequence[Token], at: int, half: int) -> bool:
    """Whether an &, and or a is a count without "the": "on & step left", "close left on a, step right on 3"."""
    if line[at].low not in ("on", "for", "at"):
        return False
    after = line[half + 1] if half + 1 < len(line) else None
    if line[half].kind == "amp":
        return after is None or not (after.kind == "number" or after.low in NUMBERS)
    if line[half].low == "a" and (after is None or after.low in _DONE_THEN):
        # "On 8 rock right back and on a recover left", "step left on a" at the margin: these are no articles.
        return True
    return after is not None and (after.text in _CLOSES or (after.low == "of" and _value(line, half + 2) is not None))


def _beat(line: Sequence[Token], at: int) -> tuple[int | None, int]:
    """Return the beat that a half is told to belong to, None for the one before it, and the index after that."""
    word = line[at].low if at < len(line) else ""
    ahead = at + 1
    if ahead < len(line) and line[ahead].low in ("count", "beat"):
        ahead += 1
    value = _value(line, ahead) if word in ("of", "after", "before", "between") else None
    if value is None:
        return None, at
    if word == "before":
        return value - 1, ahead + 1
    if word != "between":
        return value, ahead + 1
    upto = _value(line, ahead + 2)
    joined = ahead + 1 < len(line) and line[ahead + 1].low in ("and", "&")
    return (value, ahead + 3) if joined and upto == value + 1 else (None, at)


def _value(line: Sequence[Token], at: int) -> int | None:
    token = line[at] if at < len(line) else None
    if token is None or (token.kind != "number" and token.low not in NUMBERS):
        return None
    return int(token.text) if token.kind == "number" else NUMBERS[token.low]
