"""The order of a phrased dance in numbered rows, "1 A", "2 A", "3 B", told without the numbers: they count no walls.

Rows name one part each, or an extra, and are numbered on from 1, whatever stands between them; two parts at least are
named, and each heads its steps elsewhere. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_FEWEST = 4
"""Rows of a play."""
_LONGEST = 12
"""Tokens of a row."""
_LONGEST_WITH_STEPS = 80
"""Tokens of a row that tells the steps of its extra: "6. Tag: step R to side, touch L beside R"."""
_LETTERS = frozenset("ABCDEFGH")
_MARKS = {".", ")", ":", "-", BREAK}


def with_plays_unnumbered(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such rows without their numbers."""
    rows: list[tuple[int, int, str]] = []
    for at, line in enumerate(lines):
        number, first = _numbered(line.tokens)
        name = _named(line.tokens[first:]) if first else ""
        if name and number == len(rows) + 1:
            rows.append((at, first, name))
        elif name and number == 1:
            rows = [(at, first, name)]
    parts = {name for _, _, name in rows if name != "extra"}
    apart = [line for at, line in enumerate(lines) if at not in {row for row, _, _ in rows}]
    if len(rows) < _FEWEST or len(parts) < 2 or not all(any(_heads(line, part) for line in apart) for part in parts):
        return tuple(lines)
    done = list(lines)
    for at, first, _ in rows:
        done[at] = replace(lines[at], tokens=lines[at].tokens[first:], source="")
    return tuple(done)


def _numbered(tokens: Sequence[Token]) -> tuple[int, int]:
    """Return the number of a row and the token behind it; 0 and 0 where it has none."""
    if len(tokens) < 2 or len(tokens) > _LONGEST_WITH_STEPS or not tokens[0].text.isdecimal():
        return 0, 0
    first = 1 + (tokens[1].text in _MARKS)
    if len(tokens) > _LONGEST and not _tells_its_steps(tokens[first:]):
        return 0, 0
    return (int(tokens[0].text), first) if first < len(tokens) else (0, 0)


def _named(tokens: Sequence[Token]) -> str:
    """Return the part that is all a row names, or "extra" for an extra; an empty text where it says more."""
    first = 1 if tokens[0].low == "part" and len(tokens) > 1 else 0
    token, rest = tokens[first], tokens[first + 1 :]
    if _tells_its_steps(tokens):
        return "extra"
    if [one.low for one in rest[-2:]] == ["and", "out"]:
        rest = rest[:-2]
    if any(one.low in STEP_WORDS or one.kind == "clock" for one in _unbracketed(rest)):
        return ""
    if token.text in _LETTERS or token.low in SONG_PARTS:
        return token.low
    return "extra" if extra_kind(tokens[:2]) else ""


def _unbracketed(tokens: Sequence[Token]) -> Iterator[Token]:
    """Yield the tokens outside brackets: "A, first 16 counts (both vines and the walks)"."""
    depth = 0
    for token in tokens:
        depth += token.text == "("
        if not depth:
            yield token
        depth -= token.text == ")" and depth > 0


def _tells_its_steps(tokens: Sequence[Token]) -> bool:
    """Whether a row names an extra and tells its steps behind a mark, without counts of their own."""
    named = len(tokens) > 2 and extra_kind(tokens[:1]) is not None and tokens[1].text in (":", "(", "-", "=", ",")
    return named and not any(token.kind == "number" and token.text == "1" for token in tokens)


def _heads(line: Line, part: str) -> bool:
    words = [token.low for token in line.tokens if token.kind == "word" and token.low not in ("part", "the")]
    return words[:1] == [part]
