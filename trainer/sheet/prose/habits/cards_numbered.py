"""Cards, pages or slides that a sheet is told on, numbered before their headings: "CARD 2 - PART A" is "PART A".

So it is where one word with a rising number opens at least three lines, and two of them name parts or extras.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.text.layout import BREAK, Line

_LEAST = 3
_NAMED = 2
_SIGNS = ("-", ":", ".", ")", "|", BREAK, "/", ">", "=", ",")
_SECTIONS = {
    "section", "sec", "set", "part", "eight", "wall", "walls", "count", "counts", "step", "steps", "block", "phrase",
    "tag", "bridge", "restart", "bar", "bars", "verse", "chorus", "figure", "s", "w", "line", "row", "round", "beat",
}  # fmt: skip
"""What numbers pieces of the dance."""


def with_cards_unnumbered(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without the numbers of their cards."""
    opened: dict[str, list[int]] = defaultdict(list)
    for at, line in enumerate(lines):
        if _ends(line):
            opened[line.tokens[0].low].append(at)
    for places in opened.values():
        numbers = [int(lines[at].tokens[1].text) for at in places]
        named = sum(_names(lines[at]) for at in places)
        if len(places) >= _LEAST and numbers == list(range(1, len(numbers) + 1)) and named >= _NAMED:
            cut = set(places)
            return tuple(
                replace(line, tokens=line.tokens[_ends(line) :], source="") if at in cut else line
                for at, line in enumerate(lines)
            )
    return tuple(lines)


def _ends(line: Line) -> int:
    """Return the index after the number of a card and its sign; 0 where a line opens on none."""
    tokens = line.tokens
    if len(tokens) < _LEAST + 1 or tokens[0].kind != "word" or tokens[0].low in _SECTIONS:
        return 0
    numbered = tokens[1].kind == "number" and tokens[1].text.isdecimal() and tokens[2].text in _SIGNS
    return _LEAST if numbered else 0


def _names(line: Line) -> bool:
    """Whether a part or an extra is named behind the number of a card."""
    rest = line.tokens[_ends(line) :]
    return rest[0].low == "part" or extra_kind(rest) is not None
