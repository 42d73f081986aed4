"""How far walls are danced told in bars, "bars 1-8", or in a table under the head "bars": told in counts instead."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_BARS = {"bars", "measures"}
_WALLS = {"wall", "walls", "round", "rounds", "time", "pass", "no"}
_BAR = {"bar", "measure"}
_BETWEEN = {*_BAR, *_BARS, "and", "&", "the"}
_PAIR = 2
_PUT_IN = (
    "insert", "add", "put", "follow", "extra", "interpolat", "tag", "bridge", "include", "append", "further", "more",
)  # fmt: skip
"""What tells counts that are put in."""
_NOT_A_LENGTH = {"after", "first", "to", "until", "through", "till"}
_MORE = {"more", "extra", "further", "additional", "single", "whole", "full", "waltz"}
_TO = {"-", "to", "through", "thru"}
_WAYS = {"all", "only", "just"}
_MOST = 40
"""Bars of a dance at most."""
_SHORT = 12
"""Tokens of a table's head."""


def with_bars_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, bars from the first on that tell how much of a wall is danced as counts."""
    if not any(token.low in _BARS | _BAR for line in lines for token in line.tokens):
        return tuple(lines)
    bar = 3 if phrase_of(lines) % 3 == 0 else 4
    done: list[Line] = []
    column = -1
    for line in lines:
        if (place := _column(line)) >= 0:
            column = place
            told = tuple(_counts(token) if token.low in _BARS else token for token in line.tokens)
        elif column >= 0 and line.tokens[0].kind == "number" and (cell := _cell(line.tokens, column)) is not None:
            first, last = cell
            told = (*line.tokens[:first], *_in_counts(line.tokens[first:last], bar), *line.tokens[last:])
        else:
            column = -1
            told = _in_sentences(line.tokens, bar) if is_order(line.tokens) else line.tokens
        done.append(replace(line, tokens=tuple(told)))
    return tuple(done)


def _column(line: Line) -> int:
    """Return the column of a table of walls that is headed bars; -1 where the line is no such head."""
    lows = [token.low for token in line.tokens]
    if len(lows) > _SHORT or not _BARS & set(lows) or lows[0] not in _WALLS or any(low.isdecimal() for low in lows):
        return -1
    place = next(at for at, low in enumerate(lows) if low in _BARS)
    if BREAK in lows:
        return lows[:place].count(BREAK)
    # Heads two blanks apart are words each; what stands last heads the last column.
    return _MOST if place == len(lows) - 1 else place


def _cell(tokens: Sequence[Token], column: int) -> tuple[int, int] | None:
    """Return where a cell of a row stands; the last cell of steps and numbers where the column is beyond."""
    cuts = [-1, *(at for at, token in enumerate(tokens) if token.text == BREAK), len(tokens)]
    column = min(column, len(cuts) - 2)
    return (cuts[column] + 1, cuts[column + 1]) if column > 0 else None


def _in_counts(cell: Sequence[Token], bar: int) -> tuple[Token, ...]:
    """Return a cell that begins with bars in counts: "1-8, then restart", "all 16", "8"."""
    at = 0
    while at < len(cell) and cell[at].low in _WAYS:
        at += 1
    if at >= len(cell) or not _is_number(cell[at]):
        return tuple(cell)
    ranged = at + 2 < len(cell) and cell[at + 1].low in _TO and _is_number(cell[at + 2])
    if not ranged:
        return (*cell[:at], _times(cell[at], bar), *cell[at + 1 :])
    first = _number(cell[at], (int(cell[at].text) - 1) * bar + 1)
    return (*cell[:at], first, cell[at + 1], _times(cell[at + 2], bar), *cell[at + 3 :])


def _in_sentences(tokens: Sequence[Token], bar: int) -> tuple[Token, ...]:
    """Return a sentence with each run of bars from the first on as counts."""
    done: list[Token] = []
    at = 0
    puts_in = any(token.low.startswith(_PUT_IN) for token in tokens)
    while at < len(tokens):
        said = tokens[at : at + 4]
        run = len(said) == 4 and said[0].low in _BARS and said[1].text == "1" and said[2].low in _TO
        if run and _is_number(said[3]):
            done += [_counts(said[0]), said[1], said[2], _times(said[3], bar)]
            at += 4
        elif last_bar := _listed(tokens, at):
            dash = replace(said[1], kind="mark", text="-", low="-", glued=True)
            done += [_counts(said[0]), said[1], dash, _times(tokens[last_bar], bar)]
            at = last_bar + 1
        elif puts_in and (length := _length(tokens, at)) is not None:
            counts, last = length
            number = _number(replace(said[0], kind="number"), counts * bar)
            done += [number, *tokens[at + 1 : last - 1], _counts(tokens[last - 1])]
            at = last
            if [token.low for token in tokens[at : at + 1]] == ["of"] and at + 2 < len(tokens):
                # "A bar of three counts"
                at += 3 if tokens[at + 2].low in ("counts", "beats") else 0
        elif (between := _between(tokens, at)) is not None:
            done += between[0]
            at = between[1]
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)


def _listed(tokens: Sequence[Token], at: int) -> int:
    """Return the index of the last of bars told one by one from the first on, "bars 1, 2 and 3"; 0 where none are."""
    last, numbers = 0, 0
    for look in range(at + 1, len(tokens)):
        if _is_number(tokens[look]) and int(tokens[look].text) == numbers + 1:
            last, numbers = look, numbers + 1
        elif tokens[look].low not in (",", "and", "&"):
            break
    return last if tokens[at].low in _BARS and numbers >= _PAIR else 0


def _length(tokens: Sequence[Token], at: int) -> tuple[int, int] | None:
    """Return how many bars are told as a length, and the token behind them: "one bar", "two extra bars"; or None."""
    last = at + 1
    while last < len(tokens) and tokens[last].low in _MORE:
        last += 1
    named = last < len(tokens) and tokens[last].low in _BARS | _BAR
    if not named or (at and tokens[at - 1].low in _BARS | _BAR | _NOT_A_LENGTH):
        return None
    bars = int(tokens[at].text) if _is_number(tokens[at]) else NUMBERS.get(tokens[at].low, 0)
    bars = bars or (tokens[at].low in ("a", "an"))
    return (bars, last + 1) if bars else None


def _between(tokens: Sequence[Token], at: int) -> tuple[tuple[Token, ...], int] | None:
    """Return "between bars 8 and 9" as "after bar 8", with the index after it; None where it does not stand here."""
    look = at + 1
    named: list[Token] = []
    while look < len(tokens) and (tokens[look].low in _BETWEEN or _is_number(tokens[look])):
        named.append(tokens[look])
        look += 1
    numbers = [token for token in named if _is_number(token)]
    bars = any(token.low in _BAR or token.low in _BARS for token in named)
    if tokens[at].low != "between" or not bars or len(numbers) != _PAIR or not _is_number(named[-1]):
        return None
    if int(numbers[1].text) != int(numbers[0].text) + 1:
        return None
    after = replace(tokens[at], text="after", low="after")
    return (after, replace(after, text="bar", low="bar"), numbers[0]), look


def _is_number(token: Token) -> bool:
    return token.kind == "number" and token.text.isdecimal() and int(token.text) <= _MOST


def _times(token: Token, bar: int) -> Token:
    return _number(token, int(token.text) * bar)


def _number(token: Token, value: int) -> Token:
    return replace(token, text=str(value), low=str(value))


def _counts(token: Token) -> Token:
    return replace(token, text="counts", low="counts")
