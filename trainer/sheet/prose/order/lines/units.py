"""The lines that tell the order, and headings of extras, in reading order; rows of walls as one sentence."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.order.claims.extras import same_words
from trainer.sheet.prose.order.claims.next_count import with_next_line
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.order.lines.lines import LETTERS
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token


def read_of(tokens: Sequence[Token], read: int) -> Sequence[Token]:
    """Return the sentences that an order of play takes up: those after it tell something else."""
    end = next((at for at in range(read, len(tokens)) if tokens[at].text == "."), len(tokens))
    return tokens[: max(end, 1)]


def joined(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a row that names its wall first as one sentence: what its other cells say is told of that wall."""
    if not _names_walls(tokens):
        return tuple(tokens)
    return tuple(replace(token, text=":", low=":") if token.text == BREAK else token for token in tokens)


def _names_walls(tokens: Sequence[Token]) -> bool:
    """Whether the first cell of a row names walls and nothing else: "Wall 3", "Wall three", "Third time", "W2 & W4"."""
    if len(tokens) > 2 and tokens[0].low in ("wall", "w") and tokens[1].kind == "number":
        return True
    end = next((at for at, token in enumerate(tokens[: _LONGEST + 1]) if token.text == BREAK), 0)
    if not 0 < end < len(tokens) - 1:
        return False
    head = sentence_of(tokens[:end], LETTERS)
    named = head.atoms[0] if len(head.atoms) == 1 else None
    return named is not None and bool(named.walls) and named.first == 0 and named.last == len(head.letters.rstrip("U"))


_LONGEST = 6
"""Tokens of a cell that names walls."""


def units(lines: Sequence[tuple[Token, ...]], known: Known) -> list[tuple[tuple[Token, ...], int | None]]:
    """Return lines and headings of extras in reading order, each with the extra that it heads."""
    heads: list[tuple[tuple[Token, ...], int | None]] = [
        (tokens, place) for place, (_, _, _, tokens) in enumerate(known.extras) if tokens
    ]
    plain = [tuple(line) for line in lines if line and not any(same_words(line, head) for head, _ in heads)]
    others = [(line, None) for line in with_next_line(plain)]
    return sorted([*heads, *others], key=lambda unit: (unit[0][0].line, unit[0][0].column))
