"""Lines that are keys, found by their pairs; the sheet is read without them, its short forms written out.

A key is a line, or lines under each other, most of whose pieces pair a short form with its words. A single pair is one
only with a sign of equality. Short forms of several letters are written out wherever they stand, so that tables, the
order and the walls are read by their words too, and single letters where they stand by themselves, written as in the
key; what else is explained goes to the sheet's vocabulary (`gloss.py`).
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.sheet.prose.keys.gaps_parted import with_gaps_parted
from trainer.sheet.prose.keys.notation import without_notation
from trainer.sheet.prose.keys.pairs import Pair, Piece, pieces_of
from trainer.sheet.prose.keys.shortened import shortens
from trainer.sheet.prose.keys.signed import with_signed_names
from trainer.sheet.prose.keys.walls import wall_key, walls_of, with_named_walls
from trainer.sheet.prose.keys.weights_noted import without_weights_noted
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_ENOUGH = 3
"""Pairs that make a key."""
_MOSTLY = 0.6
"""Of its pieces so many are pairs."""
_HEADING = 6
"""Tokens of a line that heads a key."""
_HEADS = words_in(
    "key keys abbreviation abbreviations abbrev abbrevs abbr legend shorthand short glossary terms symbols meaning "
    "meanings means letters code codes words what explained"
)
_SIDES = words_in("r l right left rf lf")
_MOST_WORDS = 4
"""Of a meaning that is written out."""


@dataclass(frozen=True, slots=True)
class Keyed:
    """A sheet's lines with its short forms written out, and what its keys say."""

    lines: tuple[Line, ...]
    keys: tuple[Line, ...]
    """The lines, or the pieces of lines, that are keys."""


def with_keys(lines: Sequence[Line]) -> Keyed:
    """Take the keys out of a sheet's lines, and write its short forms out."""
    lines, walls = _without_walls(without_weights_noted(with_gaps_parted(with_signed_names(lines))))
    pieces = [pieces_of(line.tokens) for line in lines]
    runs = [_run(own) for own in pieces]
    telling = _telling(lines, pieces, runs)
    if not telling and not walls:
        return Keyed(without_notation(lines), ())
    names: dict[str, tuple[Token, ...]] = {}
    keys: list[Line] = []
    kept: list[Line] = []
    for index, line in enumerate(lines):
        if index not in telling:
            if not (index + 1 in telling and _heads_key(line, lines[index + 1])):
                kept.append(line)
            continue
        first, last = telling[index]
        if rest := _rest(line, first, last):
            kept.append(rest)
        pairs = _pairs(runs[index])
        walls |= walls_of(pairs, line.tokens[first:last])
        if not all(pair.name.text in walls for pair in pairs):
            keys.append(replace(line, tokens=line.tokens[first:last]))
        for pair in pairs:
            if pair.name.text in walls:
                continue
            name = pair.name.text if len(pair.name.text) == 1 else pair.name.low
            if (meaning := _written_out(pair)) and name not in names:
                names[name] = meaning
    read = [replace(line, tokens=_read(with_named_walls(line.tokens, walls), names)) for line in kept]
    return Keyed(without_notation(read), tuple(keys))


def _without_walls(lines: Sequence[Line]) -> tuple[list[Line], dict[str, Fraction]]:
    """Return the lines without those that name the walls one by one, and the walls."""
    walls: dict[str, Fraction] = {}
    kept: list[Line] = []
    for line in lines:
        found = wall_key(line.tokens)
        if found is None:
            kept.append(line)
            continue
        first, last, own = found
        walls |= own
        if rest := _rest(line, first, last):
            kept.append(rest)
    return kept, walls


def _run(pieces: Sequence[Piece]) -> list[Piece]:
    """Return the pieces of a line from the first pair to the last."""
    told = [at for at, piece in enumerate(pieces) if piece.pairs]
    return list(pieces[told[0] : told[-1] + 1]) if told else []


def _pairs(run: Sequence[Piece]) -> list[Pair]:
    return [pair for piece in run for pair in piece.pairs]


def _telling(
    lines: Sequence[Line], pieces: Sequence[Sequence[Piece]], runs: Sequence[Sequence[Piece]]
) -> dict[int, tuple[int, int]]:
    """Return the indexes of lines that are keys, or hold one, each with the tokens of it."""
    made_in = [[pair for pair in _pairs(run) if shortens(pair.name, pair.meaning, sure=True)] for run in runs]
    dense = [bool(made) and len(_pairs(run)) >= _MOSTLY * len(run) for made, run in zip(made_in, runs, strict=True)]
    found: dict[int, tuple[int, int]] = {}
    at = 0
    while at < len(lines):
        end = at
        while end < len(lines) and dense[end] and (end == at or _whole(pieces[end], runs[end])):
            end += 1
        group = range(at, end)
        made = [pair for index in group for pair in made_in[index]]
        sure = [pair for pair in made if pair.signed]
        if len(made) >= _ENOUGH or len(sure) > 1 or (sure and _whole(pieces[at], runs[at])):
            found |= {index: _place(lines[index], runs[index]) for index in group}
        at = max(end, at + 1)
    return found


def _whole(pieces: Sequence[Piece], run: Sequence[Piece]) -> bool:
    """Whether a line is nothing but a key."""
    return len(run) == len(pieces)


def _place(line: Line, run: Sequence[Piece]) -> tuple[int, int]:
    first, last = run[0].first, run[-1].last
    while last < len(line.tokens) and line.tokens[last].text in (".", ",", ";", BREAK, ")", "/"):
        last += 1
    return first, last


def _heads_key(line: Line, key: Line) -> bool:
    """Whether a line only says that a key comes below it."""
    words = {token.low for token in line.tokens}
    return len(line.tokens) <= _HEADING and bool(words & _HEADS) and key.number <= line.number + 3


def _rest(line: Line, first: int, last: int) -> Line | None:
    """Return what a line says beside its key."""
    tokens = (*line.tokens[:first], *line.tokens[last:])
    return replace(line, tokens=tokens) if any(token.kind != "mark" for token in tokens) else None


def _written_out(pair: Pair) -> tuple[Token, ...]:
    """Return the words to write for a short form; none where it is left to the sheet's vocabulary."""
    name = pair.name
    lows = [token.low for token in pair.meaning if token.kind == "word" and token.low not in ("the", "your")]
    if lows in (["right", "foot"], ["left", "foot"]) and name.low not in _SIDES:
        # The order is told in the sheet's name for a foot as well.
        return (replace(name, low="rf" if lows[0] == "right" else "lf"),)
    if not shortens(name, pair.meaning, sure=True):
        return ()
    at = next((at for at, token in enumerate(pair.meaning) if token.text in "(["), len(pair.meaning))
    words = [token for token in pair.meaning[:at] if token.kind == "word"]
    while len(words) > 1 and words[0].low in ("a", "an", "the"):
        words = words[1:]
    short = [token.low for token in words]
    if not words or len(words) > _MOST_WORDS or name.low in short or set(short) & _SIDES:
        return ()
    return tuple(words)


def _read(tokens: tuple[Token, ...], names: Mapping[str, tuple[Token, ...]]) -> tuple[Token, ...]:
    """Return tokens with short forms written out; a single word keeps the letters that the teacher wrote."""
    if not any(token.low in names for token in tokens):
        return tokens
    done: list[Token] = []
    for at, token in enumerate(tokens):
        words = names.get(token.text if len(token.text) == 1 else token.low, ()) if token.kind == "word" else ()
        if len(token.text) == 1 and _is_joined(tokens, at):
            words = ()
        if len(words) == 1:
            done.append(replace(token, low=words[0].low))
        elif words:
            done += [
                replace(token, text=word.text, low=word.low, glued=token.glued and not place)
                for place, word in enumerate(words)
            ]
        else:
            done.append(token)
    return tuple(done)


def _is_joined(tokens: Sequence[Token], at: int) -> bool:
    """Whether a letter is joined to the number before or after it: "s3", "16c"."""
    before = tokens[at].glued and at > 0 and tokens[at - 1].kind == "number"
    return before or (at + 1 < len(tokens) and tokens[at + 1].glued and tokens[at + 1].kind == "number")
