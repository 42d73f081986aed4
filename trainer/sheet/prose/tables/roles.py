"""What each column of a table means: told from its cells, and only where they leave it open from the table's head.

A column of counts goes on as counts do. One that never falls, or is filled only where the counts begin again, numbers
sections. Hours, walls of the room and letters of the compass are facings; R and L are feet.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.tables.cells import (
    COMPASS,
    QUARTERS,
    SIDES,
    Cell,
    facing_of,
    feet_of,
    is_count,
    is_ditto,
    is_nothing,
    numbers_in,
)
from trainer.sheet.prose.tables.grid import Table
from trainer.sheet.prose.tables.heads import (
    COUNT_HEADS,
    FACING_HEADS,
    FIGURE_HEADS,
    LEFT_HEADS,
    NOTE_HEADS,
    RIGHT_HEADS,
    SECTION_HEADS,
    is_heading,
)
from trainer.sheet.prose.tables.labelled import labels_sections
from trainer.sheet.prose.tables.summaries import summed_up
from trainer.sheet.prose.tables.words import AMOUNTS, only_turns

Role = Literal[
    "count", "foot", "left", "right", "facing", "from", "section", "number", "words", "figure", "notes", "weight"
]

_MOSTLY = 0.7
_TITLE = 4
"""Words of a name at most."""
_LONG = 3
"""Tokens of a cell that says more than how many counts there are."""


@dataclass(frozen=True, slots=True)
class Columns:
    """The roles of a table's columns, and how its facings are written."""

    roles: tuple[Role, ...]
    key: dict[str, Fraction]
    words: tuple[str, ...]
    """The table's head, a text for each column; empty texts where it has none."""

    def places(self, *roles: Role) -> list[int]:
        """Return the columns that have one of these roles."""
        return sorted(
            (place for place, role in enumerate(self.roles) if role in roles), key=lambda p: self.roles[p] != "figure"
        )


def columns_of(table: Table, head: Sequence[str], key: dict[str, Fraction]) -> Columns | None:
    """Return what the columns of a table mean; None where none of them counts."""
    width = table.width
    head = (*head, *[""] * (width - len(head)))[:width]
    counting = _counting(table, head)
    if counting is None:
        return None
    roles: list[Role] = [
        "count" if place == counting else _role(table, place, head[place], counting, key) for place in range(width)
    ]
    roles = _without_turns_again(_settled(_with_ways(roles, table, key), table, head), table)
    telling = [(place, role) for place, role in enumerate(roles) if role in ("words", "figure", "notes")]
    for place, role in summed_up(table, counting, telling).items():
        roles[place] = role
    return Columns(tuple(roles), key, tuple(head))


def _counting(table: Table, head: Sequence[str]) -> int | None:
    """Return the column that goes on as counts do, best of all."""
    best: tuple[float, int] | None = None
    for place in range(table.width):
        cells = [cell for cell in table.column(place) if cell]
        counts = [cell for cell in cells if is_count(cell)]
        if not counts or len(counts) < _MOSTLY * len([c for c in cells if not is_heading(c) or is_count(c)]):
            continue
        if len(counts) < 0.25 * len(table.rows) or _are_hours(cells) or labels_sections(table, place):
            continue
        words = set(head[place].split())
        score = _goes_on(counts) + 0.4 * bool(words & COUNT_HEADS) - 0.4 * bool(words & SECTION_HEADS)
        score += 0.2 * (len(counts) / len(table.rows)) + 0.1 * any(len(cell) > 1 for cell in counts)
        # "1." numbers the rows where another cell has several counts.
        score += 0.05 * (sum(len(numbers_in(cell)) > 1 for cell in counts) > len(counts) / 2)
        if best is None or score > best[0]:
            best = (score, place)
    return best[1] if best is not None and best[0] > 0.5 else None


def _goes_on(counts: Sequence[Cell]) -> float:
    """Return the share of counts that go on from the one before, or begin again after a whole section."""
    # A half beat in a row of its own belongs to the count before it.
    ends = [edges(cell) for cell in counts if numbers_in(cell)] or [edges(cell) for cell in counts]
    if len(ends) == 1:
        return 0.8
    good = sum(
        after[0] == before[1] + 1
        or (after[0] == before[1] and after[2])
        or (after[0] <= 1 and before[1] % 2 == 0)
        or (after[0] <= 1 and before[1] % 3 == 0)
        for before, after in pairwise(ends)
    )
    return good / (len(ends) - 1)


def edges(cell: Cell) -> tuple[int, int, bool]:
    """Return the first and the last whole count of a cell, and whether it begins with a part of a count."""
    numbers = numbers_in(cell)
    part = cell[0].kind == "amp" or cell[0].low in ("a", "e", "and", "&")
    if not numbers:
        return 0, 0, True
    first, last = numbers[0] - part, numbers[-1]
    if len(numbers) == 1 and len(str(last)) > 2:
        first, last = int(str(last)[0]), int(str(last)[-1])
    return first, last, part


def _are_hours(cells: Sequence[Cell]) -> bool:
    numbers = [token.text for cell in cells for token in cell if token.kind == "number"]
    return bool(numbers) and set(numbers) <= QUARTERS and not _rises(numbers)


def _rises(numbers: Sequence[str]) -> bool:
    return len(numbers) > 2 and numbers == sorted(set(numbers), key=int)


def _role(table: Table, place: int, head: str, counting: int, key: dict[str, Fraction]) -> Role:
    """Return what a column means that does not count."""
    cells = [cell for cell in table.column(place) if cell]
    words = set(head.split())
    told = [cell for cell in cells if not is_ditto(cell) and not is_nothing(cell)]
    footed = _share(told, lambda cell: bool(feet_of(cell))) >= _MOSTLY
    if head in LEFT_HEADS | RIGHT_HEADS and not footed:
        return "left" if head in LEFT_HEADS else "right"
    if words & {"weight", "wt"} and footed:
        return "weight"
    titled = place < counting and (bool(words & SECTION_HEADS) or (not head and place == 0))
    numbering = _numbers_sections(table, place, counting, headed=bool(words & SECTION_HEADS), titled=titled)
    if numbering and not words & (FACING_HEADS - {"wall"}):
        return numbering
    if _says_how_many(table, place, counting):
        return "number"
    if _is_facing(told, words, key):
        return "from" if words & {"from", "start", "starts", "begin", "before"} else "facing"
    if footed:
        return "foot"
    if words & NOTE_HEADS and not words & {"step", "steps"}:
        return "notes"
    named = place < counting and not head and any(_has_words(table, other) for other in range(counting, table.width))
    return "figure" if words & FIGURE_HEADS or named else "words"


def _has_words(table: Table, place: int) -> bool:
    """Whether most cells of a column are words, more than one."""
    cells = [cell for cell in table.column(place) if cell]
    return _share(cells, lambda cell: sum(len(token.text) > 2 for token in cell) > 1) >= _MOSTLY


def _share(cells: Sequence[Cell], holds: Callable[[Cell], bool]) -> float:
    return sum(map(holds, cells)) / len(cells) if cells else 0.0


def _is_facing(told: Sequence[Cell], words: set[str], key: dict[str, Fraction]) -> bool:
    """Whether the cells that say something are facings; letters that are feet too need more to be facings."""
    faced = [cell for cell in told if facing_of(cell, key) is not None]
    if not faced or len(faced) < _MOSTLY * len(told):
        return False
    lows = {token.low for cell in faced for token in cell}
    if all(feet_of(cell) for cell in faced):
        return bool(words & FACING_HEADS)
    single = {low for low in lows if len(low) == 1 and low.isalpha()}
    if single & set(SIDES) - set(COMPASS) and not single & {"f", "h"} and not words & FACING_HEADS:
        return False
    numbers = {token.text for cell in faced for token in cell if token.kind == "number"}
    return numbers <= QUARTERS or bool(words & FACING_HEADS) or "o'clock" in lows


def _numbers_sections(table: Table, place: int, counting: int, *, headed: bool, titled: bool) -> Role | None:
    """Return "section" for a column that changes only where the counts begin again, "number" for running numbers.

    `titled` says that it may hold names of several words.
    """
    rows = [row for row in table.rows if row.cells[counting] and is_count(row.cells[counting])]
    opens = [_opens(row.cells[counting]) for row in rows]
    cells = [row.cells[place] for row in rows]
    filled = [at for at, cell in enumerate(cells) if cell and not is_ditto(cell)]
    if not filled or place > counting + 1:
        return None
    names = [
        at
        for at in filled
        if (_is_name(cells[at]) or (titled and _is_title(cells[at])))
        and (place < counting or len(filled) < len(rows) or headed)
    ]
    if len(names) < 0.8 * len(filled):
        return None
    if not headed and _share([cells[at] for at in filled], lambda cell: bool(feet_of(cell))) > 0.5:
        return None
    texts = [" ".join(token.low for token in cells[at]) for at in filled]
    fresh = [at for at, text, before in zip(filled, texts, [None, *texts], strict=False) if text != before]
    if all(opens[at] or extra_kind(cells[at]) for at in fresh) and len(fresh) <= max(sum(opens), 1) + 1:
        return "section"
    rising = [int(text) for text in (text.strip(" .():#") for text in texts) if text.isdecimal()]
    if len(rising) == len(texts) and all(b == a + 1 for a, b in pairwise(rising)) and len(rising) > 2:
        return "number"
    return None


def _says_how_many(table: Table, place: int, counting: int) -> bool:
    """Whether a column holds how many counts each row has."""
    rows = [(row.cells[place], row.cells[counting]) for row in table.rows if row.cells[place] and row.cells[counting]]
    told = [
        (numbers_in(cell)[0], edges(counts))
        for cell, counts in rows
        if len(numbers_in(cell)) == 1 and len(cell) < _LONG
    ]
    right = sum(number == last - first + 1 for number, (first, last, _) in told)
    return len(told) > 2 and right >= _MOSTLY * len(rows) and any(number > 1 for number, _ in told)


def _is_name(cell: Cell) -> bool:
    """Whether a cell may name a section: a number, a letter, a section's name; "1/4 L" is a turn, "6:00" an hour."""
    if any(token.kind in ("fraction", "clock", "facing") for token in cell):
        return False
    short = len(cell) < 3 and all(t.kind == "number" or len(t.text) < 5 or t.kind == "mark" for t in cell)
    return is_section_name(cell) or short


def _is_title(cell: Cell) -> bool:
    """Whether a cell is a name of a few words in capitals: "Change Purse"."""
    return len(cell) <= _TITLE and all(token.kind == "word" and token.text[0].isupper() for token in cell)


def _opens(cell: Cell) -> bool:
    first, _, _ = edges(cell)
    return first <= 1 or first % 8 == 1


def _settled(roles: list[Role], table: Table, head: Sequence[str]) -> list[Role]:
    """Return roles of which one column at least tells the steps, and no two the facing or the foot."""
    words = [place for place, role in enumerate(roles) if role in ("words", "figure")]
    if not [place for place in words if roles[place] == "words"] and words:
        roles[words[-1]] = "words"
    if roles.count("facing") > 1:
        ranked = sorted(
            (place for place, role in enumerate(roles) if role == "facing"), key=lambda p: _faces(head[p], p)
        )
        for place in ranked[1:]:
            roles[place] = "notes"
    full = {place: sum(not is_nothing(cell) for cell in table.column(place)) for place in words}
    most = max(full.values(), default=0)
    for place in words:
        sparse = full[place] < 0.34 * most
        if sparse and roles[place] == "words" and not _tells_steps(head[place]):
            roles[place] = "notes"
    return roles


def _without_turns_again(roles: list[Role], table: Table) -> list[Role]:
    """Return roles in which a column of turns is beside the steps whose words tell each of its turns themselves."""
    words = [place for place, role in enumerate(roles) if role in ("words", "figure")]
    turning = [place for place in words if _tells_turns(table.column(place))]
    if len(turning) != 1 or len(words) < _COLUMNS:
        return roles
    rows = [row.cells for row in table.rows if only_turns(row.cells[turning[0]])]
    told = [any(_turns(cells[place]) for place in words if place not in turning) for cells in rows]
    return ["notes" if place in turning and all(told) else role for place, role in enumerate(roles)]


_COLUMNS = 2
"""A column of turns, and one of steps."""


def _tells_turns(column: Sequence[Cell]) -> bool:
    """Whether the cells of a column tell a turn each, or that there is none."""
    cells = [cell for cell in column if cell and not is_nothing(cell) and [token.low for token in cell] != ["none"]]
    return len(cells) > 1 and all(map(only_turns, cells))


def _turns(cell: Cell) -> bool:
    """Whether words tell how far a step turns."""
    return any(token.kind == "fraction" or token.low in AMOUNTS for token in cell)


def _with_ways(roles: list[Role], table: Table, key: dict[str, Fraction]) -> list[Role]:
    """Return roles where letters tell the way of each step, F forward, and not a facing, as no other words do."""
    counted = sum(bool(cell) and is_count(cell) for cell in table.column(roles.index("count")))
    told = [
        sum(not is_nothing(cell) for cell in table.column(place))
        for place, role in enumerate(roles)
        if role in ("words", "figure", "left", "right")
    ]
    if "foot" not in roles or max(told, default=0) >= 0.5 * counted:
        return roles
    lettered = [
        place
        for place, role in enumerate(roles)
        if role == "facing" and key == {} and any(cell and cell[0].low in SIDES for cell in table.column(place))
    ]
    return ["words" if place in lettered[:1] else role for place, role in enumerate(roles)]


def _faces(head: str, place: int) -> tuple[bool, int]:
    words = set(head.split())
    return (not words & {"ends", "end", "after", "done", "now", "facing"}, -place)


def _tells_steps(head: str) -> bool:
    return bool(
        set(head.split()) & {"step", "steps", "turn", "turns", "direction", "way", "what", "action", "footwork"}
    )
