"""Hours in the left margin, beside only those lines where the facing changes: they state the facing of their lines.

    @9    R behind, L forward turning 1/4 left      4a5
          L forward, R forward                      6 7

Such an hour stands before the words, whatever signs surround it, and the words begin where lines without an hour
begin. It goes to the end of its line's words, as a facing. A column that has an hour in every row is left to the
tables and to `facings.py`.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.facing.walls_named import HOURS, LOOKS, OCLOCK
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_FEWEST = 2
"""So many lines with an hour, and without one, show that the margin holds hours."""
_AROUND = OCLOCK | LOOKS | {"h", "to", "at", "o", "oc"}
"""Words beside the hour in its cell."""
_TURNING = {
    "turn", "turning", "turns", "pivot", "pivots", "quarter", "half", "full", "unwind", "monterey", "paddle", "paddles",
    "rolling", "spin", "sailor", "hinge",
}  # fmt: skip
_SPAN = 4
"""Lines above and below in which one without an hour stands."""


def with_margin_clocks(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with each hour of the left margin at the end of its line's words."""
    hours = {index: hour for index, line in enumerate(lines) if (hour := _hour_of(line)) is not None}
    counting = {_opening(line) for line in lines if _opens_with_a_count(line)}
    hours = {index: hour for index, hour in hours.items() if _opening(lines[index]) not in counting}
    bare = [int(lines[index].tokens[0].text) for index in hours if lines[index].tokens[0].kind == "number"]
    if len(bare) > 1 and bare == sorted(bare):
        return tuple(lines)
    beside = {index for index in hours if _is_beside(lines, index, hours)}
    without = {
        near
        for index in beside
        for near in range(max(index - _SPAN, 0), min(index + _SPAN + 1, len(lines)))
        if near not in hours and _begins_at(lines[near], _body(lines[index])[0].column)
    }
    if len(beside) < _FEWEST or len(without) < _FEWEST:
        return tuple(lines)
    if _are_starts(lines, {index: hours[index] for index in sorted(beside)}):
        return _before_their_lines(lines, {index: hours[index] for index in beside})
    return tuple(_moved(line, hours[index]) if index in beside else line for index, line in enumerate(lines))


def _are_starts(lines: Sequence[Line], hours: dict[int, Fraction]) -> bool:
    """Whether hours tell where their lines begin: else some change on lines that do not turn, and fewer do so then."""
    ends = starts = 0
    for (index, hour), (after, other) in pairwise(hours.items()):
        if hour != other:
            ends += not any(_turns(line) for line in lines[index + 1 : after + 1])
            starts += not any(_turns(line) for line in lines[index:after])
    return ends > starts


def _turns(line: Line) -> bool:
    """Whether the words of a line may tell a turn."""
    if any(one.low == "no" and other.low in ("turn", "turns", "turning") for one, other in pairwise(line.tokens)):
        return False
    return any(token.kind == "fraction" or token.low in _TURNING for token in line.tokens)


def _before_their_lines(lines: Sequence[Line], hours: dict[int, Fraction]) -> tuple[Line, ...]:
    """Return the lines with each hour at the end of the line above, which ends so, if that tells steps beside it."""
    done = [_moved(line, hours[index]) if index in hours else line for index, line in enumerate(lines)]
    shown = list(done)
    for index in hours:
        facing = next(token for token in done[index].tokens if token.kind == "facing" and token.value == hours[index])
        kept = tuple(token for token in done[index].tokens if token is not facing)
        shown[index] = replace(
            shown[index], tokens=tuple(token for token in shown[index].tokens if token is not facing)
        )
        above = shown[index - 1] if index else None
        if above is not None and kept and above.number == done[index].number - 1 and _begins_at(above, kept[0].column):
            shown[index - 1] = replace(above, tokens=_with_facing(above, facing))
    return tuple(shown)


def _led(line: Line) -> int:
    """Return how many tokens of a line's start are an hour by itself with what surrounds it, 0 where none is.

    A plain number needs a cell of its own: "9 | cross behind"; after others words may follow at once: "@7.30 step".
    """
    at = hours = 0
    for at, token in enumerate(line.tokens):
        if token.text == BREAK and hours:
            return at
        hour = token.kind == "clock" or (token.kind == "number" and token.text in HOURS)
        if hour and not hours:
            hours = 1
        elif hours and token.kind == "mark" and not token.glued:
            return 0  # "3 - 4 rock forward"
        elif token.kind != "mark" and (token.low not in _AROUND or not hours):
            break
    return at if hours and at > 1 and not line.tokens[at].glued else int(_opens_with_a_clock(line))


def _opens_with_a_clock(line: Line) -> bool:
    return len(line.tokens) > 1 and line.tokens[0].kind == "clock" and not line.tokens[1].glued


def _hour_of(line: Line) -> Fraction | None:
    """Return the hour that a line with words begins with."""
    length = _led(line)
    body = line.tokens[length + (line.tokens[length].text == BREAK) :] if length else ()
    if not body or body[0].kind in ("number", "amp"):
        return None
    told = next(token for token in line.tokens if token.kind in ("number", "clock"))
    return told.value if told.kind == "clock" else HOURS[told.text]


def _opening(line: Line) -> tuple[str, int, str]:
    """Return what stands before the first number, or clock, of a line that begins with one, where, and which it is."""
    at = next((at for at, token in enumerate(line.tokens) if token.kind != "mark"), 0)
    return " ".join(token.text for token in line.tokens[:at]), line.tokens[0].column, line.tokens[at].kind


def _opens_with_a_count(line: Line) -> bool:
    """Whether a line begins with a number that is no hour, whatever stands before it."""
    at = next((at for at, token in enumerate(line.tokens) if token.kind != "mark"), 0)
    facts = not at and len(line.tokens) > 1 and line.tokens[1].text != BREAK
    return not facts and line.tokens[at].kind == "number" and line.tokens[at].text not in HOURS


def _is_beside(lines: Sequence[Line], index: int, hours: dict[int, Fraction]) -> bool:
    """Whether a line near an hour begins, without one, where the words beside the hour begin."""
    column = _body(lines[index])[0].column
    low, high = max(index - _SPAN, 0), min(index + _SPAN + 1, len(lines))
    return any(near not in hours and _begins_at(lines[near], column) for near in range(low, high))


def _body(line: Line) -> tuple[Token, ...]:
    """Return a line's tokens after its hour."""
    rest = line.tokens[_led(line) :]
    return rest[1:] if rest[0].text == BREAK else rest


def _begins_at(line: Line, column: int) -> bool:
    return abs(line.tokens[0].column - column) <= 1


def _moved(line: Line, hour: Fraction) -> Line:
    """Return a line with the hour that it begins with behind the cell that holds most words."""
    told = next(token for token in line.tokens if token.kind in ("number", "clock"))
    facing = replace(told, kind="facing", value=hour, glued=False)
    body = _body(line)
    return replace(line, tokens=_with_facing(replace(line, tokens=body), facing), indent=body[0].column - 1)


def _with_facing(line: Line, facing: Token) -> tuple[Token, ...]:
    """Return the tokens of a line with a facing behind the cell that holds most words."""
    cells = line.cells
    longest = max(range(len(cells)), key=lambda at: sum(token.kind == "word" for token in cells[at]))
    tokens: list[Token] = []
    for at, cell in enumerate(cells):
        tokens += [replace(line.tokens[0], kind="mark", text=BREAK, low=BREAK, glued=False)] * bool(at)
        tokens += cell
        tokens += [facing] * (at == longest)
    return tuple(tokens)


def with_rows_alike(before: Sequence[Line], lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return lines, rows by themselves read as those of the tables whose first column holds hours: "12 | 1 2 | R side".

    `before` are the lines as they stood before tables were told as lines.
    """
    first = {line.number: line.tokens[0] for line in before if _hour_first(line)}
    told = {line.number for line in lines if line.number in first and not _hour_first(line)}
    columns = {first[number].column for number in told}
    if len(told) < _FEWEST + 1 or len(columns) != 1:
        return tuple(lines)
    return tuple(
        _moved(line, HOURS[line.tokens[0].text])
        if _hour_first(line) and len(line.cells) == _CELLS and line.tokens[0].column in columns
        else line
        for line in lines
    )


def _hour_first(line: Line) -> bool:
    """Whether the first cell of a row with counts in its second is an hour."""
    cells = line.cells
    if len(cells) < 2 or len(cells[0]) != 1 or not cells[1] or cells[0][0].text not in HOURS:
        return False
    return all(token.kind in ("number", "amp", "mark") or token.low in ("a", "and") for token in cells[1])


_CELLS = 3
"""The hour, the counts and the words of a row."""
