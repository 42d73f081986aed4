"""What the rows of a list leave open, settled by each other and by what is told below it."""

from collections import Counter
from collections.abc import Mapping, Sequence

from trainer.sheet.prose.listings.legends import Legend, Name
from trainer.sheet.prose.listings.told_row import Put, ToldRow

_MANY = 3
"""So many rows of the same length are whole."""


def settled(rows: Sequence[ToldRow], legends: Mapping[Name, Legend], stated: int) -> bool:
    """Settle the rows of a dance of so many stated counts, 0 if not stated; return whether all of it makes sense."""
    for row in rows:
        _take(row, legends)
        if row.below:
            row.whole, row.counts, row.sections, row.but = True, 0, 0, ()
    worded = any(row.whole and not (row.counts or row.sections or row.raw) for row in rows)
    longest = 0 if any(row.whole and not (row.counts or row.raw) for row in rows) else max(row.counts for row in rows)
    longest = max(longest, stated)
    most = max(row.sections for row in rows)
    plain = not any(row.tells for row in rows)
    if plain and not any(row.puts for row in rows):
        return False
    for row in rows:
        goes_on = row.leave != "restart"
        row.whole |= bool(row.counts and row.counts == longest) and goes_on
        row.whole |= bool(row.sections and row.sections == most) and goes_on and most > 1 and not worded
        row.whole |= not row.tells and (plain or bool(row.puts) or row is not rows[0]) and not row.leave
        if row.half and not row.counts and longest:
            row.counts = longest // 2
    if 2 * sum(any(put.steps for put in row.puts) for row in rows) > len(rows):
        # Sections, rather than walls with steps of their own.
        return False
    told = Counter(row.counts for row in rows if row.counts)
    if told[longest] == 1 and longest != stated and max(told.values()) >= _MANY:
        # "40, 40, 56, 40, 40": no row is longer than the dance.
        return False
    placed = all(row.whole or row.counts or row.sections or row.but for row in rows)
    return placed and any(row.whole for row in rows) and max(row.counts for row in rows) <= longest


def _take(row: ToldRow, legends: Mapping[Name, Legend]) -> None:
    """Take what the names of a row stand for."""
    puts: list[Put] = []
    for put in row.puts:
        legend = legends.get(put.key)
        if legend is None:
            puts.append(put)
        elif legend.kind == "apart":
            continue
        elif legend.kind == "restart":
            row.leave, row.counts = "restart", row.counts or legend.counts
        elif legend.kind == "change" and "change" in put.key:
            row.raw = row.words
        elif legend.kind == "change":
            row.whole = True
            row.changes.append(put.key)
        elif legend.kind == "hold":
            puts.append(Put(hold=legend.counts))
        else:
            puts.append(put)
    row.puts = puts
