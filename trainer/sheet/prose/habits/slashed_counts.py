"""Counts with a stroke between them where they look like parts of a turn: "1/2  rock R", "3/4  rock L", "5/6  step".

"1/2" may be a half turn; where it opens lines among others that count on with strokes, "5/6" or "1/2/3/4", or where
"3/4" opens the line after it, it is the counts 1 and 2. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_PAIRS = {"1/2", "3/4", "7/8"}
_OPENS = {"(", "["}
_COUNTS = {"beat", "beats", "count", "counts", "ct", "cts", "bt", "bts"}
"""Behind these no turn is told: "beat 3/4 : shuffle"."""
_CLOSES = {")", "]"}
_LEAST = 2
"""Lines that open with counts and strokes, besides those that look like turns."""


def with_slashed_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, their counts told as numbers with strokes between."""
    opened = [_opening(line.tokens) for line in lines]
    sure = sum(
        pair not in _PAIRS or line.tokens[0].low in _COUNTS for pair, line in zip(opened, lines, strict=True) if pair
    )
    alike = [pair for pair in opened if pair in _PAIRS]
    if not alike or sure < (_LEAST if "1/2" not in alike else 1):
        return tuple(lines)
    return tuple(replace(line, tokens=_counted(line.tokens)) for line in lines)


def _opening(tokens: Sequence[Token]) -> str:
    """Return the two counts that open a line, a stroke between them; nothing where none do."""
    at = int(bool(tokens) and (tokens[0].text in _OPENS or tokens[0].low in _COUNTS))
    if at < len(tokens) and tokens[at].kind == "fraction":
        return tokens[at].text if tokens[at].text in _PAIRS else ""
    said = tokens[at : at + 3]
    if [token.kind for token in said] != ["number", "mark", "number"] or said[1].text != "/":
        return ""
    follows = int(said[2].text) == int(said[0].text) + 1
    return f"{said[0].text}/{said[2].text}" if follows else ""


def _counted(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a line's tokens with each pair that opens it, or stands alone in brackets, as two counts."""
    done: list[Token] = []
    for at, token in enumerate(tokens):
        bracketed = at and tokens[at - 1].text in _OPENS and at + 1 < len(tokens) and tokens[at + 1].text in _CLOSES
        opens = at == 0 or (at == 1 and (tokens[0].text in _OPENS or tokens[0].low in _COUNTS))
        if token.kind != "fraction" or token.text not in _PAIRS or not (bracketed or opens):
            done.append(token)
            continue
        first, last = token.text.split("/")
        number = replace(token, kind="number", text=first, low=first, value=None)
        stroke = replace(number, kind="mark", text="/", low="/", column=token.column + 1, glued=True)
        done += (number, stroke, replace(number, text=last, low=last, column=token.column + 2, glued=True))
    return tuple(done)
