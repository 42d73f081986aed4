"""The unrolled routine as plain lines for reading: a heading for each wall, section and extra, a line for each count."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any


def listing(rows: Iterable[Mapping[str, Any]]) -> Iterator[str]:
    """Yield the lines of `unroll` for a terminal, from the rows of `dance.rows.as_rows`."""
    wall = heading = None
    for row in rows:
        if row["wall"] != wall:
            if wall is not None:
                yield ""
            wall, heading = row["wall"], None
            part = f", part {row['part']}" if row["part"] else ""
            yield f"wall {wall}{part}"
        here = row["extra"] or f"section {row['section']}"
        if here != heading:
            heading = here
            yield f"  {here}"
        foot, weight = row["foot"] or "?", row["weight"] or "?"
        turn = f"  turning {row['turn']}" if row["turn"] else ""
        yield f"    {row['count']:>2}  {foot}  weight {weight}  {row['facing']:>5}  {row['step']}{turn}"
