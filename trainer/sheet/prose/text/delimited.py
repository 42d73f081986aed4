"""Spreadsheets saved as text: lines whose cells are parted by semicolons or commas, some of them in quotes.

The marks become strokes, so that such lines are read as any other table; columns stay true. Prose has commas too: the
lines must hold equally many of them, and a column of nothing but counts.
"""

import re
from collections import Counter
from collections.abc import Sequence

STROKE = "|"
_COUNT = re.compile(r"\s*(?:(?:\d[\d\sae&,/\-]*|&|a|and)\s*)?$")
"""One class repeated, and none within another: a wide row must not be matched in a thousand ways."""
_LIST = re.compile(r"\(\d+[,;]|\S {2,}\d+[&ae]?,")
"""A list of counts in brackets, or set wide: "Walks (1,2,3&4)"."""
_LEAST = 4
"""Fewer lines are no spreadsheet."""


def with_strokes(raw: Sequence[str]) -> list[str]:
    """Return the lines; cells parted by semicolons or commas are parted by strokes, and out of their quotes.

    So are those of rows that are parted by any other sign with blanks about it: "1 / right / forward / front".
    """
    done = _with_spaced(_with_pointed_hours(raw))
    for mark in ";,":
        if any(STROKE in line for line in done):
            break
        rows = {at for table in _tables(done, mark) for at in table}
        for at, line in enumerate(done) if rows else ():
            # What stands above a table in the same file is parted alike: "Title,Pebble Lane".
            if at in rows or not any(line[place + 1 : place + 2] == " " for place in _places(line, mark)):
                done[at] = _parted(line, mark)
    return done


_POINTED = re.compile(r"(?<=[ \t])[-=]> (12|[369])(?=\s|$)")
"""An hour that an arrow leads to, as wide as the clock that is written in its place."""


def _with_pointed_hours(raw: Sequence[str]) -> list[str]:
    """Return the lines, hours after an arrow as clocks where a whole sheet writes them so: "L forward -> 12"."""
    arrows = [line for line in raw if "-> " in line or "=> " in line]
    pointed = [line for line in arrows if _POINTED.search(line)]
    if len(pointed) < _LEAST or len(pointed) < len(arrows):
        return list(raw)
    return [_POINTED.sub(lambda found: f"{found[1]}:00", line) for line in raw]


_SPACED = ("/", "-", "::", "~", ">", "\\", "=", ":", "*", "•", "//", "->", "--", "+", "^")
"""Signs that part the cells of a row where blanks stand about them."""


def _with_spaced(raw: Sequence[str]) -> list[str]:
    """Return the lines, the signs with blanks about them that part the cells of a table as strokes."""
    done = list(raw)
    for sign in _SPACED:
        if any(STROKE in line for line in done):
            break
        parted = f" {sign} "
        if sum(parted in line for line in done) < _LEAST:
            continue
        for at in _spaced_rows(done, parted):
            done[at] = done[at].replace(parted, f" {STROKE.ljust(len(sign))} ")
    return done


def _spaced_rows(raw: Sequence[str], parted: str) -> list[int]:
    """Return the rows of a table whose cells a sign parts: as many in each, and one column of counts alone."""
    sizes = Counter(line.count(parted) for line in raw if line.count(parted) > 1)
    for size, number in sizes.most_common(2):
        rows = [at for at, line in enumerate(raw) if line.count(parted) == size]
        columns = list(zip(*(raw[at].split(parted) for at in rows), strict=True))
        counting = next((column for column in columns if _are_counts(column)), None)
        if number < _LEAST or counting is None or _ranges(columns):
            continue
        first = next(at for at, cell in enumerate(counting) if _COUNT.match(cell))
        # Above the first count only a head belongs to the table; facts hold numbers: "16 ct / 4 wall / wt L".
        return [at for place, at in enumerate(rows) if place >= first or not re.search(r"\d", raw[at])]
    return []


def _ranges(columns: Sequence[Sequence[str]]) -> bool:
    """Whether a sign joins two counts before their words, and parts no cells: "1 - 2 - step right forward".

    Where words stand behind the second count, it is no cell of its own: "1 - 2a Step right forward ... - 6:00".
    """
    counts = [_are_counts(column) for column in columns]
    told = [
        (re.search(r"(\d+)\W*$", first), re.match(r"\W*(\d+)", second))
        for first, second in zip(columns[0], columns[1], strict=True)
    ]
    goes_on = [int(first[1]) + 1 == int(second[1]) for first, second in told if first and second]
    pairs = not counts[1] or 2 * (1 + sum(counts[1:])) > len(counts)
    return sum(goes_on) > 0.5 * len(columns[0]) and pairs


def _tables(raw: Sequence[str], mark: str) -> list[list[int]]:
    """Return the lines of each table, as indexes; lines without text belong to none and part none."""
    counts = {at: len(_places(line, mark)) for at, line in enumerate(raw) if line.strip()}
    found: list[list[int]] = []
    for size, number in Counter(counts.values()).most_common(3):
        rows = _alike(raw, [at for at, held in counts.items() if held == size], mark)
        if size and number > 1 and _is_table([raw[at] for at in rows], mark):
            found.append(rows)
    return found


def _alike(raw: Sequence[str], rows: Sequence[int], mark: str) -> list[int]:
    """Return the rows without sentences that happen to hold as many marks: there a blank follows each."""
    spaced = {at for at in rows if all(raw[at][place + 1 : place + 2] == " " for place in _places(raw[at], mark))}
    return [at for at in rows if at not in spaced] if len(spaced) < 0.5 * len(rows) else list(rows)


def _is_table(rows: Sequence[str], mark: str) -> bool:
    """Whether one column holds nothing but counts, and cells follow each other as a program writes them."""
    marks = [place for row in rows for place in _places(row, mark)]
    if len(marks) == len(rows) and mark == ",":
        return False
    spaced = sum(
        row[place + 1 : place + 2] == " " and row[place + 2 : place + 3] != " "
        for row in rows
        for place in _places(row, mark)
    )
    if mark == "," and spaced > 0.2 * len(marks):
        return False
    if sum(bool(_LIST.search(row)) for row in rows) > 0.5 * len(rows):
        return False
    cells = [_parted(row, mark).split(STROKE) for row in rows]
    across = any(sum(bool(cell.strip() and _COUNT.match(cell)) for cell in row) > _LEAST for row in cells[:-1])
    return across or (len(rows) >= _LEAST and any(_are_counts(column) for column in zip(*cells, strict=True)))


def _are_counts(cells: Sequence[str]) -> bool:
    filled = [cell for cell in cells if cell.strip()]
    counted = [cell for cell in filled if _COUNT.match(cell)]
    return len(filled) >= 0.5 * len(cells) and len(counted) >= max(0.7 * len(filled), _LEAST - 1)


def _places(line: str, mark: str) -> list[int]:
    """Return where a mark stands outside of quotes."""
    if '"' not in line:
        return [at for at, letter in enumerate(line) if letter == mark] if mark in line else []
    found = []
    quoted = False
    for at, letter in enumerate(line):
        if letter == '"' and _opens_or_closes(line, at, mark, quoted):
            quoted = not quoted
        elif letter == mark and not quoted:
            found.append(at)
    return [] if quoted else found


def _opens_or_closes(line: str, at: int, mark: str, quoted: bool) -> bool:
    """Whether a quote opens a cell, or closes one: a ditto alone in its cell does neither."""
    before, after = line[:at].rstrip(" "), line[at + 1 :].lstrip(" ")
    starts = not before or before[-1] == mark
    ends = not after or after[0] == mark
    return ends if quoted else starts and not ends


def _parted(line: str, mark: str) -> str:
    letters = list(line)
    for place in _places(line, mark):
        letters[place] = STROKE
    for cell in re.finditer(r'(?<=[|])\s*"([^|"]+)"\s*(?=[|]|$)|^\s*"([^|"]+)"\s*(?=[|])', "".join(letters)):
        first = cell.group().index('"') + cell.start()
        last = cell.group().rindex('"') + cell.start()
        letters[first] = letters[last] = " "
    return "".join(letters)
