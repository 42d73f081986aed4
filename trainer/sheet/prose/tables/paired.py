"""Lines whose cells pair counts with steps elsewhere than beside each other, told as counts and steps in turn.

Steps and then their counts ("side R; close L;  1; 2;"), or counts first; counts and steps in turn across the page,
the counts going on from cell to cell; one line of counts in bars over lines of steps in the same bars. Common practice.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.tables.cells import Cell, is_count, numbers_in
from trainer.sheet.prose.tables.words import parted_by_break
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_MOSTLY = 0.7
"""So many of the lines in cells are set out alike, where it is the sheet's way."""

_Pairs = list[tuple[Cell, Cell]]
"""Counts, each with its steps."""


def with_pairs(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, those that pair counts with steps told in turn."""
    done = _stacked(_over_bars(lines))
    for pairs_in in (_side_by_side, _in_turn):
        found = {at: pairs for at, line in enumerate(done) if (pairs := pairs_in(_cells(line)))}
        rows = sum(any(is_count(cell) for cell in _cells(line)) and len(_cells(line)) > 2 for line in done)
        if len(found) > 1 and len(found) >= _MOSTLY * rows and _goes_on([found[at] for at in sorted(found)]):
            done = [_told(line, found[at]) if at in found else line for at, line in enumerate(done)]
    return done


def _cells(line: Line) -> list[Cell]:
    return [cell for cell in line.cells if cell]


def _side_by_side(cells: Sequence[Cell]) -> _Pairs:
    """Return the pairs of a line with steps and then their counts, or counts and then their steps."""
    half = len(cells) // 2
    if half < 2 or 2 * half != len(cells):
        return []
    first, second = cells[:half], cells[half:]
    if all(map(is_count, second)) and all(map(_says, first)):
        return list(zip(second, first, strict=True))
    return list(zip(first, second, strict=True)) if all(map(is_count, first)) and all(map(_says, second)) else []


def _in_turn(cells: Sequence[Cell]) -> _Pairs:
    """Return the pairs of a line in which counts and steps stand in turn."""
    half = len(cells) // 2
    if half < 2 or 2 * half != len(cells):
        return []
    counts, steps = cells[::2], cells[1::2]
    if not all(map(is_count, counts)):
        counts, steps = steps, counts
    return list(zip(counts, steps, strict=True)) if all(map(is_count, counts)) and all(map(_says, steps)) else []


def _says(cell: Cell) -> bool:
    """Whether a cell tells steps: words, of which one is more than a letter, or is a foot beside others."""
    return (
        not is_count(cell) and any(token.kind == "word" for token in cell) and (len(cell) > 1 or len(cell[0].text) > 2)
    )


def _goes_on(rows: Sequence[_Pairs]) -> bool:
    """Whether counts go on from one pair to the next within the lines."""
    pairs = [(numbers_in(one[0]), numbers_in(other[0])) for row in rows for one, other in pairwise(row)]
    told = [one[-1] + 1 == other[0] for one, other in pairs if one and other]
    return bool(told) and sum(told) >= _MOSTLY * len(told)


def _told(line: Line, pairs: _Pairs) -> Line:
    """Return a line with its counts before their steps; it is no longer a row of a table."""
    tokens: list[Token] = []
    for counts, steps in pairs:
        over = [replace(token, line=steps[0].line, column=steps[0].column) for token in counts]
        tokens = parted_by_break(tokens, parted_by_break(over, steps))
    return replace(line, tokens=tuple(tokens), source="")


def _stacked(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, those of steps told with the counts that stand alone in the line below: as many of each."""
    pairs: dict[int, _Pairs] = {}
    for at, (line, below) in enumerate(pairwise(lines)):
        steps, counts = _listed(line), _listed(below)
        near = below.number == line.number + 1 and len(steps) == len(counts) > 1
        if near and all(map(is_count, counts)) and all(map(_says, steps)):
            pairs[at] = list(zip(counts, steps, strict=True))
    bare = sum(all(map(is_count, _listed(line))) for line in lines)
    first = min(pairs, default=0)
    led = first and lines[first - 1].number == lines[first].number - 1 and all(map(is_count, _listed(lines[first - 1])))
    if len(pairs) < 2 or len(pairs) < bare or led or not _goes_on(list(pairs.values())):
        return list(lines)
    return [
        _told(line, pairs[at]) if at in pairs else line for at, line in enumerate(lines) if at - 1 not in pairs
    ]  # fmt: skip


def _listed(line: Line) -> list[Cell]:
    """Return what the signs of a line part: its cells, else what stands between its semicolons, else its commas."""
    for sign in (BREAK, ";", ","):
        cells: list[list[Token]] = [[]]
        for token in line.tokens:
            if token.text == sign:
                cells.append([])
            else:
                cells[-1].append(token)
        if len(cells) > 1:
            return [tuple(cell) for cell in cells if cell]
    return [line.tokens]


def _over_bars(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, one of counts in bars gone and its counts told before the steps in the bars of those below."""
    done = list(lines)
    bars = [at for at, line in enumerate(lines) if len(_cells(line)) > 1 and all(map(is_count, _cells(line)))]
    if len(bars) != 1:
        return done
    counts = _cells(lines[bars[0]])
    rows = range(bars[0] + 1, len(lines))
    below: list[int] = []
    held = 0
    for at in rows:
        here = _cells(lines[at])
        if held == len(counts) or not all(map(_says, here)):
            break
        below.append(at)
        held += len(here)
    if held != len(counts) or len(below) < 2:
        return done
    at = 0
    for row in below:
        steps = _cells(lines[row])
        done[row] = _told(lines[row], list(zip(counts[at : at + len(steps)], steps, strict=True)))
        at += len(steps)
    del done[bars[0]]
    return done
