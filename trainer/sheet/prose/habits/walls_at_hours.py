"""Walls listed with bare hours: "W1 12, W2 6, W3 12", "w1-12 / w2-9", "Walls: 1 12, 2 6", told by the clock.

A bare number behind a wall may be its length as well, so that it is an hour only where the walls are listed from the
first on, every one of them with 12, 3, 6 or 9, and the first at 12. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.listings.naming import WALLS, naming_of
from trainer.sheet.prose.listings.starting import HOURS, LEADS, as_hour
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LEAST = 3
"""Walls of a list."""
_LABEL = 4
"""Tokens at the start of a line among which the list is named."""
_LABELS = {"walls", "rounds", "starts", "faces", "facing", "facings", "times", "order", "sequence"}
_PARTING = {",", ";", "/", ":", "(", ")", "]", BREAK, ">", "-", ".", "•", "=", "~", "and", "then"}
_COUNTING = {
    "counts",
    "count",
    "cts",
    "ct",
    "beats",
    "beat",
    "c",
    "x",
    "&",
    "+",
    "st",
    "nd",
    "rd",
    "th",
    "bars",
    "o'clock",
}


def with_walls_at_hours(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the bare hours of such a list as clock times."""
    done = list(lines)
    first = 0
    while first < len(lines):
        last = first + 1
        while last < len(lines) and lines[last].number == lines[last - 1].tokens[-1].line + 1:
            last += 1
        for line, hours in _hours_of(lines[first:last]).items():
            tokens = tuple(as_hour(one) if at in hours else one for at, one in enumerate(lines[first + line].tokens))
            done[first + line] = replace(lines[first + line], tokens=tokens)
        first = last
    return tuple(done)


def _hours_of(lines: Sequence[Line]) -> dict[int, set[int]]:
    """Return for lines of a paragraph where the hours of its walls stand; none where it lists no walls so."""
    found: list[tuple[int, int]] = []
    values: list[str] = []
    for place, line in enumerate(lines):
        for number, hour in _walls(line.tokens):
            if number != len(found) + 1:
                if number == 1 or len(found) < _LEAST:
                    found, values = [], []
                if number != len(found) + 1:
                    continue
            if hour is None:
                return {}
            found.append((place, hour))
            values.append(line.tokens[hour].text)
    if len(found) < _LEAST or values[0] != "12" or len(set(values)) == 1:
        return {}
    return {place: {hour for one, hour in found if one == place} for place, _ in found}


def _walls(tokens: Sequence[Token]) -> Iterator[tuple[int, int | None]]:
    """Yield the number of each wall that a line lists, and where its hour stands: None where it has another number."""
    labelled = any(token.low in _LABELS for token in tokens[:_LABEL])
    for at in range(len(tokens)):
        opens = not at or tokens[at - 1].text in _PARTING or tokens[at - 1].low in _LABELS
        worded = tokens[at].low in WALLS
        naming = naming_of(tokens[at:]) if worded or (labelled and opens and tokens[at].kind == "number") else None
        if naming is None or naming.number is None or naming.facing is not None:
            continue
        hour = at + naming.last
        while hour < len(tokens) and tokens[hour].low in LEADS:
            hour += 1
        if hour < len(tokens) and tokens[hour].kind == "number":
            yield naming.number, hour if _is_hour(tokens, hour) else None


def _is_hour(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number is an hour by itself, and neither counts nor the start of a range."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    ranged = after is not None and after.text == "-" and at + 2 < len(tokens) and tokens[at + 2].kind == "number"
    return tokens[at].text in HOURS and not ranged and (after is None or after.low not in _COUNTING)
