"""Half beats behind the number of their line, whatever sign stands between: "2/a  L fwd, R tog", "3 + &: ...", "6, a".

In a sheet that tells one beat a line such a label is a count and its half; it is read as "2a" and "3&". Common
practice, no source.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_OPENERS = {"ct", "cts", "count", "counts", "cnt", "beat", "beats", "on", "b", "c"}
_JOINTS = frozenset("/-.+,;~_•|'*")
_HALVES = {"&": "&", "and": "&", "n": "&", "a": "a", "e": "e"}
_ENDS = frozenset({":", "-", ".", ")", "]", "=", BREAK, ">", "–"})
_GAP = 2
"""Blanks that part a label from its words."""
_OFTEN = 2
_LEAST = 6
"""Lines that begin with numbers, of a sheet that tells one beat a line."""


@dataclass(frozen=True, slots=True)
class _Label:
    """A count and its half at a line's start: the tokens of the number and of the half."""

    number: int
    half: int
    joint: str


def with_half_labels(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, counts with a half beat at their start written together, where the sheet has them so."""
    lines = [_with_ampersands(line) for line in lines]
    labels = [_label(line.tokens) for line in lines]
    often = Counter(label.joint for label in labels if label is not None)
    numbered = sum(_number_at(line.tokens) is not None for line in lines)
    if numbered < _LEAST:
        return list(lines)
    return [
        replace(line, tokens=_joined(line.tokens, label))
        if label is not None and often[label.joint] >= _OFTEN
        else line
        for line, label in zip(lines, labels, strict=True)
    ]


def _with_ampersands(line: Line) -> Line:
    """Return a line that opens with nothing but counts and pluses, these as half beats: "+ 7 8  close L, ..."."""
    end = 0
    while end < len(line.tokens) and (line.tokens[end].kind == "number" or line.tokens[end].text == "+"):
        end += 1
    counts = line.tokens[:end]
    after = line.tokens[end] if end < len(line.tokens) else None
    apart = after is not None and (
        after.text in (BREAK, ":") or after.column - counts[-1].column > _GAP if counts else 0
    )
    numbers = [int(token.text) for token in counts if token.kind == "number" and len(token.text) < 3]
    edged = end > 1 and "+" in (counts[0].text, counts[-1].text)
    if not (apart and edged and numbers) or any(b != a + 1 for a, b in pairwise(numbers)):
        return line
    told = tuple(
        replace(token, kind="amp", text="&", low="&") if token.text == "+" else token for token in line.tokens[:end]
    )
    return replace(line, tokens=(*told, *line.tokens[end:]))


def _number_at(tokens: Sequence[Token]) -> int | None:
    """Return the index of the number that a line begins with, behind a word for a count."""
    at = int(bool(tokens) and tokens[0].low in _OPENERS)
    return at if at < len(tokens) and tokens[at].kind == "number" and len(tokens[at].text) < 3 else None


def _label(tokens: Sequence[Token]) -> _Label | None:
    number = _number_at(tokens)
    if number is None:
        return None
    at = number + 1
    while at < len(tokens) and tokens[at].text in _JOINTS and tokens[at].text != BREAK and at - number < _GAP:
        at += 1
    if at + 1 >= len(tokens) or tokens[at].low not in _HALVES:
        return None
    half, after = tokens[at], tokens[at + 1]
    apart = after.column - half.column - len(half.text) >= _GAP
    if after.kind == "number" or not (apart or after.text in _ENDS):
        return None
    joint = "".join(token.text for token in tokens[number + 1 : at])
    if not joint and half.glued:
        return None
    return _Label(number, at, joint)


def _joined(tokens: Sequence[Token], label: _Label) -> tuple[Token, ...]:
    half = tokens[label.half]
    sub = _HALVES[half.low]
    joined = replace(half, glued=True, text=sub, low=sub, kind="amp" if sub == "&" else "word")
    return (*tokens[: label.number + 1], joined, *tokens[label.half + 1 :])
