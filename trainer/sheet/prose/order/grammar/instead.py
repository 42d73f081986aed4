"""The words in which counts that a wall dances otherwise are told, whichever words the sheet has for it."""

from dataclasses import replace

from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token


def instead_of(near: Token, first: int, last: int) -> list[Token]:
    """Return the words that some counts are danced otherwise, at the place of a token: "instead of counts 15-16:"."""
    glued = [replace(mark_like(near, mark), glued=True) for mark in "-:"]
    lead = [word_like(near, word) for word in ("instead", "of", "counts" if last > first else "count")]
    more = [glued[0], replace(number_like(near, last), glued=True)] if last > first else []
    return [*lead, number_like(near, first), *more, glued[1]]
