"""Extras headed in other words or another order: "INSERT on walls 2 and 4 after section 2, 4 counts:".

"END wall 8 starts at the back" tells of the ending, and not of the end of a wall.

What is called an insert is a tag; a length that stands at the end of the heading, behind the place, is told behind the
name: "TAG (4 counts) on walls 2 and 4 after section 2:". Behind a place it would be a count of it. "Tag (1-4):" is as
long; "Tag/Bridge" names one extra, and no two.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_INSERTS = {"insert", "insertion", "inset", "inserts"}
_NOUN_BEFORE = {
    "on",
    "in",
    "for",
    "after",
    "at",
    "wall",
    "walls",
    ":",
    "(",
    "-",
    "=",
    "of",
    "before",
    "between",
    ",",
    "during",
}
_NAMES = {"tag", "bridge"}
_ENDINGS = {"END", "FINISH", "ENDING", "FINALE", "LAST"}
_WALLS = {"wall", "w"}
_COUNTS = {"count", "counts", "beat", "beats", "cts", "ct"}
_PARTS = {",", ";", "-"}
_ENDS = {":", ".", "="}
_LEAST = 4
"""Tokens before the length that tell where the extra is danced."""


def with_extras_headed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such headings told as the reader knows them."""
    return tuple(_end_apart(_length_first(_ranged(_as_tag(_called_once(line))))) for line in lines)


def _called_once(line: Line) -> Line:
    """Return a line with the first name of an extra that opens it with both, parted by a stroke: "Tag/Bridge: ..."."""
    names = [token.low for token in line.tokens[:3]]
    both = len(names) > 2 and {names[0], names[2]} == _NAMES and names[1] in ("/", "or")
    return replace(line, tokens=(line.tokens[0], *line.tokens[3:])) if both else line


def _ranged(line: Line) -> Line:
    """Return a line with the counts of an extra in brackets behind its name told as its length: "Tag (1-4): sway"."""
    tokens = line.tokens
    lows = [token.low for token in tokens[:6]]
    ranged = len(lows) > 5 and lows[0] in _NAMES and lows[1:4] == ["(", "1", "-"] and lows[5] == ")"
    # Without a colon they are the counts of its steps: "Tag (1-4)   R stomp, hold".
    ranged = ranged and [token.text for token in tokens[6:7]] == [":"]
    if not ranged or tokens[4].kind != "number":
        return line
    counts = replace(tokens[4], kind="word", text="counts", low="counts", glued=False)
    return replace(line, tokens=(*tokens[:2], replace(tokens[4], glued=True), counts, *tokens[5:]))


def _end_apart(line: Line) -> Line:
    """Return a line with a colon behind the name of an ending in capitals, before a wall in small letters."""
    first, after = line.tokens[0], line.tokens[1] if len(line.tokens) > 1 else None
    if first.text not in _ENDINGS or after is None or after.text not in _WALLS:
        return line
    colon = replace(first, kind="mark", text=":", low=":", glued=True)
    return replace(line, tokens=(first, colon, *line.tokens[1:]))


def _as_tag(line: Line) -> Line:
    first = line.tokens[0]
    after = line.tokens[1].low if len(line.tokens) > 1 else ""
    if first.low not in _INSERTS or after not in _NOUN_BEFORE:
        return line
    told = (replace(first, text="Tag", low="tag"), *line.tokens[1:])
    return replace(line, tokens=told) if is_order(told) else line


def _length_first(line: Line) -> Line:
    tokens = line.tokens
    if tokens[0].low not in _NAMES or len(tokens) < _LEAST or not is_order(tokens):
        return line
    end = next((at for at, token in enumerate(tokens) if token.text in _ENDS and at > _LEAST), len(tokens))
    start = next((at for at in range(end - 1, _LEAST, -1) if tokens[at].text in _PARTS), 0)
    value, last, ordinal = number_at(tokens, start + 1) if start else (0, 0, True)
    length = start and not ordinal and last == end - 1 and tokens[last].low in _COUNTS
    if not length or any(token.low in _COUNTS for token in tokens[1:start]):
        return line
    opening = replace(tokens[0], kind="mark", text="(", low="(", glued=False)
    number = replace(tokens[start + 1], kind="number", text=str(value), low=str(value), glued=True)
    closing = replace(opening, text=")", low=")", glued=True)
    told: tuple[Token, ...] = (tokens[0], opening, number, tokens[last], closing, *tokens[1:start], *tokens[end:])
    return replace(line, tokens=told)
