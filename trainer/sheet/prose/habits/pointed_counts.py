"""Counts with a point between them and no blank, "3.4 > rock R", "(5.6)", "1.2.3.4", "3.&.4", told with dashes.

"2.3" may be count 3 of section 2; where most such numbers of a sheet rise by one, they are counts, and go on.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEAST = 3
"""Rows of such counts show that they are the sheet's way."""
_MOSTLY = 0.8
_HIGHEST = 64
_POINTS = (".", "•", ":", "'", "_", "~", "*", "=")
_SINGLE = "'"
_HALVES = ("+", "&", "a", "e")


def with_pointed_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts with points between them told with dashes."""
    if any(_SINGLE in row for row in map(_signs, lines)) and any("-" in row for row in map(_signs, lines)):
        # Where "1-2" are counts, "3'4" has its half beat.
        return tuple(lines)
    rows = [row for line in lines for row in _rows(line.tokens)]
    rising = [row for row in rows if _rises(row)]
    if len(rising) < _LEAST or len(rising) < _MOSTLY * len(rows) or not any(_number(row[0]) > 1 for row in rising):
        return tuple(lines)
    return tuple(replace(line, tokens=_told(line.tokens)) for line in lines)


def _signs(line: Line) -> set[str]:
    """Return what stands between two numbers that are written on to each other and rise by one."""
    return {
        sign.text
        for before, sign, after in zip(line.tokens, line.tokens[1:], line.tokens[2:], strict=False)
        if before.kind == after.kind == "number" and sign.glued and after.glued and _rises([before, after])
    }


def _rows(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    """Yield the numbers written on to each other with points between."""
    at = 0
    while at < len(tokens):
        end = _end(tokens, at)
        if end > at + 1:
            yield [token for token in tokens[at:end] if token.kind == "number"]
        at = end


def _end(tokens: Sequence[Token], at: int) -> int:
    """Return the index after numbers and halves from a token on with points between; the next where there are none."""
    if tokens[at].kind != "number" or tokens[at].glued:
        return at + 1
    end = at + 1
    while end + 1 < len(tokens) and tokens[end].text in _POINTS and tokens[end].glued and _goes_on(tokens[end + 1]):
        end += 2
        while end + 1 < len(tokens) and tokens[end].low in _HALVES and tokens[end].glued and tokens[end + 1].glued:
            # "7.8&1", "3.&4".
            end += 2 if tokens[end + 1].kind == "number" else 1
    return end


def _goes_on(token: Token) -> bool:
    return token.glued and (token.kind == "number" or token.low in _HALVES)


def _rises(row: Sequence[Token]) -> bool:
    """Whether numbers go on one by one."""
    numbers = [_number(token) for token in row]
    return (
        len(numbers) > 1 and numbers == list(range(numbers[0], numbers[0] + len(numbers))) and numbers[-1] <= _HIGHEST
    )


def _number(token: Token) -> int:
    return int(token.text[:4])


def _told(tokens: Sequence[Token]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        end = _end(tokens, at)
        row = tokens[at:end]
        if len(row) == 1 or not _rises([token for token in row if token.kind == "number"]):
            done += row
        else:
            done += _with_dashes(row)
        at = end
    return tuple(done)


def _with_dashes(row: Sequence[Token]) -> Iterator[Token]:
    for at, token in enumerate(row):
        if token.text not in _POINTS:
            yield replace(token, kind="amp", text="&", low="&") if token.text == "+" else token
        elif not any(one.low in _HALVES for one in (row[at - 1], row[at + 1])):
            yield replace(token, text="-", low="-")
