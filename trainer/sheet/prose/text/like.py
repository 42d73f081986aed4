"""Tokens that a sheet does not hold, at the place of one that it does: what is told in other words is told there."""

from dataclasses import replace

from trainer.sheet.prose.words import Token


def mark_like(token: Token, text: str) -> Token:
    """Return a mark that the sheet does not hold, at the place of a token."""
    return replace(token, kind="mark", text=text, low=text, glued=False, value=None)


def word_like(token: Token, text: str) -> Token:
    """Return a word that the sheet does not hold, at the place of a token."""
    return replace(token, kind="word", text=text, low=text.lower(), glued=False, value=None)


def number_like(token: Token, number: int) -> Token:
    """Return a number that the sheet does not hold, at the place of a token."""
    return replace(token, kind="number", text=str(number), low=str(number), glued=False, value=None)
