"""Where a list of walls stands: one wall a line, one a sentence, or all of them one after the other in a line."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, takewhile

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.listings.naming import WALLS, Naming, naming_of
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_FEWEST = 3
"""Rows of a list."""
_IN_A_LINE = 4
"""Items of a list that does not name its walls."""
_APART = 2
"""Lines from one row to the next, at most."""
_LABELS = words_in("sequence order walls wall pattern structure says reads goes is are list card lengths counts so")
_HEADS = words_in("walls rounds times order list sequence through rotations passes")
_PARTS = (",", "/", BREAK, ">", ";", "-")
_LISTING = (",", ";", "/")
_LABEL = 6
"""Words before the first item, at most."""


@dataclass(frozen=True, slots=True)
class Source:
    """The words of a row."""

    line: Line
    tokens: tuple[Token, ...]
    """What stands after the wall's name."""
    facing: Token | None = None
    worded: bool = False
    """Its wall is named by more than a number."""


@dataclass(frozen=True, slots=True)
class Listed:
    """A list as it stands."""

    first: int
    """Index of its first line."""
    last: int
    """Index after its last line."""
    rows: tuple[Source, ...]
    rest: tuple[Token, ...] = ()
    """What stands after the list in its last line."""
    flowing: bool = False
    """Its rows do not stand one a line."""
    unnamed: bool = False
    """Its rows do not name their walls, and an extra may stand between two of them."""


def listed_from(lines: Sequence[Line], at: int) -> Iterator[Listed]:
    """Yield the lists that may begin at a line."""
    rows, last = _rows(lines, at)
    if len(rows) >= _FEWEST:
        yield Listed(at, last, tuple(rows))
        return
    yield from _in_sentences(lines, at)
    yield from _by_facings(lines, at)
    yield from _in_a_line(lines, at)


def _rows(lines: Sequence[Line], first: int) -> tuple[list[Source], int]:
    """Return the lines from an index on that name the walls 1, 2, 3 ... in turn, and the index after the last."""
    found: list[Source] = []
    more = 0
    unnumbered = False
    for place in range(first, len(lines)):
        line = lines[place]
        naming = naming_of(line.tokens) or (None if found else _after_head(line.tokens))
        if naming is None and found and _is_more(line, found[-1]):
            found[-1] = replace(found[-1], tokens=(*found[-1].tokens, *line.tokens))
            more += 1
            continue
        if naming is None or (found and line.number > lines[place - 1].number + _APART):
            break
        if not found:
            unnumbered = naming.number is None
            if unnumbered and (naming.facing is None or naming.facing.value != 0):
                break
        if naming.number not in (None, len(found) + 1) or (naming.number is None) != unnumbered:
            break
        found.append(Source(line, line.tokens[naming.last :], naming.facing, naming.worded))
    return found, first + len(found) + more


def _is_more(line: Line, row: Source) -> bool:
    """Whether a line is more of the row above it: set in further, and it opens neither counts nor an extra."""
    marks = marks_in(line.tokens, 0, 2)
    if not row.tokens or line.number != row.tokens[-1].line + 1 or (marks and not marks[0].first):
        return False
    opens = next((token for token in row.line.tokens if token.kind == "number"), row.line.tokens[0])
    head = next((at for at, token in enumerate(line.tokens) if token.text in (":", "=")), 0)
    return line.tokens[0].column > opens.column and not (head and extra_kind(line.tokens[:head]))


def _after_head(tokens: Sequence[Token]) -> Naming | None:
    """Return the name of the first wall where it stands beside what heads the list: "Walls:  1 front, all of it"."""
    colon = next((at for at, token in enumerate(tokens[:_LABEL]) if token.text == ":"), 0)
    if not colon or tokens[colon - 1].low not in _HEADS:
        return None
    naming = naming_of(tokens[colon + 1 :])
    return replace(naming, last=naming.last + colon + 1) if naming is not None and naming.number == 1 else None


def _in_sentences(lines: Sequence[Line], first: int) -> Iterator[Listed]:
    """Yield a paragraph whose sentences name the walls in turn: "Wall one, complete. Wall two, complete. ..."."""
    opening = naming_of(lines[first].tokens)
    if opening is None or opening.number != 1 or not opening.worded:
        return
    last = first + 1
    while last < len(lines) and lines[last].number == lines[last - 1].tokens[-1].line + 1:
        last += 1
    tokens = tuple(token for line in lines[first:last] for token in line.tokens)
    found: list[Source] = []
    rest: list[Token] = []
    for part in sentences(tokens):
        naming = naming_of(part)
        if naming is not None and naming.worded and naming.number == len(found) + 1 and not rest:
            found.append(Source(lines[first], part[naming.last :], naming.facing, worded=True))
        elif rest or (naming is None and len(found) >= _FEWEST):
            rest += [*part, replace(part[-1], kind="mark", text=".", low=".", glued=True)]
        else:
            return
    if len(found) >= _FEWEST:
        yield Listed(first, last, tuple(found), tuple(rest), flowing=True)


def _in_a_line(lines: Sequence[Line], at: int) -> Iterator[Listed]:
    """Yield a line that tells the walls without their names: "Sequence: 32, 32, 16, 32 + tag, 32"."""
    line = lines[at]
    start = _after_label(line.tokens)
    stop = next((end for end in range(start, len(line.tokens)) if line.tokens[end].text == "."), len(line.tokens))
    body, rest = line.tokens[start:stop], line.tokens[stop + 1 :]
    # Cells below cells are a table that lies on its side.
    near = [lines[place].tokens for place in (at - 1, at + 1) if 0 <= place < len(lines)]
    celled = any(token.text == BREAK for tokens in near for token in tokens)
    for mark in _PARTS:
        if mark == BREAK and celled:
            continue
        items = _parted(body, mark)
        if len(items) >= _FEWEST and (rows := _named_in_turn(line, line.tokens[:start], items)):
            yield Listed(at, at + 1, rows, rest, flowing=True)
        if len(items) >= _IN_A_LINE and not _are_counts(items):
            rows = tuple(Source(line, item) for item in items)
            yield Listed(at, at + 1, rows, rest, flowing=True, unnamed=True)


_RISING = 3
_BARS = {"bar", "bars", "measure", "measures"}


def _named_in_turn(line: Line, label: Sequence[Token], items: Sequence[tuple[Token, ...]]) -> tuple[Source, ...]:
    """Return the walls of a line each of which is named; none where they are not.

    "W1 32, W2 16, W3 32, tag, W4 32"; under a label that speaks of walls a number is enough: "Walls: 1 all, 2 all".
    """
    walled = any(token.low in WALLS for token in label)
    rows: list[Source] = []
    if any(token.low in _BARS for item in items for token in item):
        # How many counts a bar has is known to the sentences of the order: "wall 3 to bar 8".
        return ()
    for item in items:
        name = naming_of(item)
        if name is not None and name.facing is not None:
            return ()
        if name is None and rows:
            # "32, tag, W4": the extra ends the wall before it.
            comma = replace(item[0], kind="mark", text=",", low=",", glued=True)
            rows[-1] = replace(rows[-1], tokens=(*rows[-1].tokens, comma, *item))
        elif name is None or name.number != len(rows) + 1 or name.last == len(item) or not (name.worded or walled):
            return ()
        else:
            rows.append(Source(line, item[name.last :], name.facing, name.worded))
    return tuple(rows) if len(rows) >= _FEWEST else ()


def _are_counts(items: Sequence[tuple[Token, ...]]) -> bool:
    """Whether items are numbers that rise by one: the counts of a step, "13, 14, 15, 16".

    So are three of them at the start of a line: "five, six, seven, and touch right beside left on eight".
    """
    numbers = [count_told(item[0]) for item in takewhile(lambda item: len(item) == 1, items)]
    rising = None not in numbers and all(after == (before or 0) + 1 for before, after in pairwise(numbers))
    return rising and (len(numbers) == len(items) or len(numbers) >= _RISING)


def _by_facings(lines: Sequence[Line], at: int) -> Iterator[Listed]:
    """Yield a paragraph that tells each wall by where it begins: "12:00 whole, 3:00 whole, 6:00 to count 16"."""
    start = _after_label(lines[at].tokens)
    if any(token.low in _ROOM for token in lines[at].tokens[:start]):
        # "Directions are the studio compass: N mirror, E windows, S door, W barre" lists no walls.
        return
    opening = naming_of(lines[at].tokens[start:])
    if opening is None or opening.facing is None or opening.facing.value != 0:
        return
    last = at + 1
    while last < len(lines) and lines[last].number == lines[last - 1].tokens[-1].line + 1:
        last += 1
    tokens = tuple(token for line in lines[at:last] for token in line.tokens)[start:]
    stop = next((end for end in range(len(tokens)) if tokens[end].text == "."), len(tokens))
    for mark in _LISTING:
        rows: list[Source] = []
        for item in _parted(tokens[:stop], mark):
            name = naming_of(item)
            if name is not None and name.facing is not None:
                rows.append(Source(lines[at], item[name.last :], name.facing))
            elif rows:
                # "12:00 complete, then the close"
                rows[-1] = replace(rows[-1], tokens=(*rows[-1].tokens, *item))
        if len(rows) >= _FEWEST:
            yield Listed(at, last, tuple(rows), tokens[stop + 1 :], flowing=True)
            return


_ROOM = {"compass", "directions", "studio", "hall", "room", "clock", "names", "called", "bearings"}


def _after_label(tokens: Sequence[Token]) -> int:
    """Return the index after the words that say that a list comes, 0 where there are none."""
    for at in range(min(_LABEL, len(tokens) - 1), 0, -1):
        # "Order: full wall, full wall, 16 counts": what a mark of the list follows is an item of it.
        parted = any(token.text in _PARTS for token in tokens[at + 1 : at + 2])
        worded = tokens[at].low in _LABELS and not (parted and any(token.text == ":" for token in tokens[:at]))
        labelled = tokens[at].text in (":", BREAK) or worded
        if labelled and not any(token.kind == "number" for token in tokens[:at]):
            told = any(token.low in _LABELS for token in tokens[: at + 1])
            return at + 1 if told else 0
    return int(tokens[0].low in _LABELS)


def _parted(tokens: Sequence[Token], mark: str) -> list[tuple[Token, ...]]:
    """Return what stands between marks outside brackets."""
    items: list[list[Token]] = [[]]
    depth = 0
    for token in tokens:
        depth += (token.text in "([") - (token.text in ")]")
        if token.text == mark and not depth and not (mark == "-" and token.glued):
            items.append([])
        else:
            items[-1].append(token)
    return [tuple(item) for item in items if item]
