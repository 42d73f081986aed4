"""Words set into lines of a width: the runs of a text in several faces, with dials among the words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from trainer.cards.marks import Dial, Face, Ink, Mark, Metrics, Strip, Text
from trainer.dance.facing import clock

LEADING = 1.34
"""Height of a line, in sizes of its type."""
_BASELINE = 1.02
_RADIUS = 0.36
"""Of a dial among words."""
_DIAL = 2 * _RADIUS + 0.28
_BLANK = 0.26
PARTING = "·"
"""Parts two texts on one line; at the end of a line it is left out."""


@dataclass(frozen=True, slots=True)
class Run:
    """A piece of a text in one face and ink; with a facing, its dial and clock."""

    text: str
    face: Face = "regular"
    ink: Ink = "ink"
    facing: Fraction | None = None
    whole: bool = False
    """It stays on one line, if that is long enough."""
    kept: bool = False
    """What follows stays on its line."""


def faced(facing: Fraction, ink: Ink = "ink", face: Face = "regular") -> Run:
    """Return a dial with its clock time."""
    return Run(clock(facing), face, ink, facing)


@dataclass(frozen=True, slots=True)
class _Word:
    run: Run
    text: str
    width: float
    glued: bool = False
    """A piece of the word before: no blank stands before it."""
    kept: bool = False
    """The next word stays on its line."""


def paragraph(runs: Sequence[Run], width: float, size: float, metrics: Metrics, *, right: bool = False) -> Strip:
    """Return runs set into lines of a width, in points; `right` sets them flush right."""
    marks: list[Mark] = []
    lines = list(_lines(list(_words(runs, width / size, metrics)), width / size))
    for number, line in enumerate(lines):
        y = (number * LEADING + _BASELINE) * size
        x = width - size * _length(line) if right else 0.0
        for place, word in enumerate(line):
            if word.text == PARTING and place == len(line) - 1:
                break
            x += _BLANK * size if place and not word.glued else 0
            marks += _drawn(word, x, y, size)
            x += word.width * size
    return Strip(len(lines) * LEADING * size, tuple(marks))


def _words(runs: Sequence[Run], width: float, metrics: Metrics) -> Iterator[_Word]:
    for run in runs:
        if run.facing is not None:
            yield _Word(run, run.text, _DIAL + metrics.width(run.text, run.face))
            continue
        texts = run.text.split()
        for place, text in enumerate(texts):
            last = place == len(texts) - 1
            kept = run.kept if last else run.whole or _one_turn(text, texts[place + 1])
            pieces = list(_broken(text, run.face, width, metrics))
            for index, piece in enumerate(pieces):
                end = index == len(pieces) - 1
                yield _Word(run, piece, metrics.width(piece, run.face), glued=index > 0, kept=kept and end)


def _one_turn(text: str, following: str) -> bool:
    """Whether two words are the size and the side of a turn: "¼ left"."""
    return following.startswith(("right", "left")) and (text == "full" or text[-1:] in "½¼¾⅛⅜⅝⅞⅓⅔")


def _broken(text: str, face: Face, width: float, metrics: Metrics) -> Iterator[str]:
    """Yield a word, or where it is wider than a line the pieces that are not."""
    if metrics.width(text, face) <= width:
        yield text
        return
    piece = ""
    for letter in text:
        if piece and metrics.width(piece + letter, face) > width:
            yield piece
            piece = ""
        piece += letter
    yield piece


def _lines(words: Sequence[_Word], width: float) -> Iterator[list[_Word]]:
    line: list[_Word] = []
    for unit in _units(words):
        if line and _length([*line, *unit]) > width + 1e-6:
            yield line
            line = []
        if not line and _length(unit) > width + 1e-6:
            *full, line = _piled(unit, width)
            yield from full
            continue
        line = [*line, *unit]
    if line:
        yield line


def _units(words: Sequence[_Word]) -> Iterator[list[_Word]]:
    """Yield the words that stay on one line together."""
    unit: list[_Word] = []
    for word in words:
        unit.append(word)
        if not word.kept:
            yield unit
            unit = []
    if unit:
        yield unit


def _piled(unit: Sequence[_Word], width: float) -> list[list[_Word]]:
    """Return words that should have stayed together, but are longer than a line, in lines."""
    lines: list[list[_Word]] = [[]]
    for word in unit:
        if lines[-1] and _length([*lines[-1], word]) > width + 1e-6:
            lines.append([])
        lines[-1].append(word)
    return lines


def _length(line: Sequence[_Word]) -> float:
    return sum(word.width + (_BLANK if place and not word.glued else 0) for place, word in enumerate(line))


def _drawn(word: _Word, x: float, y: float, size: float) -> Iterator[Mark]:
    run = word.run
    if run.facing is not None:
        yield Dial(x + _RADIUS * size, y - 0.36 * size, _RADIUS * size, (run.facing,), run.ink)
        x += _DIAL * size
    yield Text(x, y, word.text, run.face, size, run.ink)
