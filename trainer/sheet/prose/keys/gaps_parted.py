"""Explanations in one line that two blanks part: "tog = together  tch = touch  bhd = behind".

Between the columns of a table a gap is wider; in a key a break is put where the sheet leaves two blanks, if most
of what stands between such gaps explains a short form. A piece without a sign is a form that needs
no explaining: "fwd  bk".
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.keys.pairs import SIGNS, told_by
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_GAP = 2
"""Blanks that part two explanations."""
_PIECES = 3
"""Pieces that gaps part, at least."""
_MOSTLY = 0.6
"""Of the pieces so many explain something, where a sign may be that of a list as well: "rk - rock"."""
_EQUATIONS = 2
"""So many signs of equality explain for sure."""


def with_gaps_parted(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, in those that explain short forms a break at each gap."""
    return [_parted(line) for line in lines]


def _parted(line: Line) -> Line:
    tokens = line.tokens
    gaps = [at for at in range(1, len(tokens)) if _is_gap(tokens[at - 1], tokens[at])]
    if len(gaps) + 1 < _PIECES or not any(token.text in SIGNS for token in tokens):
        return line
    pieces = [tokens[first:last] for first, last in zip((0, *gaps), (*gaps, len(tokens)), strict=True)]
    equations = sum(_explains(piece, "=") for piece in pieces)
    explaining = sum(_explains(piece) and bool(told_by(piece)) for piece in pieces)
    single = all(_signs(piece).count("=") <= 1 for piece in pieces)
    if not (single and equations >= _EQUATIONS) and explaining < max(_PIECES, _MOSTLY * len(pieces)):
        return line
    parted = [*pieces[0]]
    for piece in pieces[1:]:
        parted += [replace(piece[0], kind="mark", text=BREAK, low=BREAK, glued=False), *piece]
    return replace(line, tokens=tuple(parted))


def _is_gap(before: Token, token: Token) -> bool:
    blanks = token.column - before.column - len(before.text)
    return blanks >= _GAP and BREAK not in (before.text, token.text) and before.line == token.line


def _signs(piece: Sequence[Token]) -> list[str]:
    return [token.text for token in piece if token.text in SIGNS]


def _explains(piece: Sequence[Token], sign: str = "") -> bool:
    """Whether a piece has one sign, behind a word: the one given, or any."""
    signs = _signs(piece)
    return len(signs) == 1 and signs[0] == (sign or signs[0]) and piece[0].kind == "word"
