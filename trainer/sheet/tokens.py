"""The words of a clause with their places, and a cursor that takes them one after the other."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.sheet.texts import closings
from trainer.terms import Foot

_WORD = re.compile(r'[^\s()"+]+')
_AMOUNT = re.compile(r"(\d{1,4})(?:/(\d{1,4}))?")
_GLYPHS = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅛": Fraction(1, 8), "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8), "⅞": Fraction(7, 8),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Token:
    """A word of a clause, a quoted text, a + or what stands in brackets."""

    kind: Literal["word", "quoted", "aside", "plus"]
    text: str
    start: int
    """Its place in the line."""
    end: int


class UnreadableError(Exception):
    """A clause cannot be read: why, and at which token (None: all of it)."""

    def __init__(self, message: str, hint: str, token: Token | None, word: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.hint = hint
        self.token = token
        self.word = word
        """An unknown word, for which a near one may be meant."""


def tokens_of(text: str, offset: int = 0) -> list[Token]:
    """Return the tokens of a clause that begins at a place of its line; hyphens inside a word divide it."""
    spans = closings(text)
    tokens: list[Token] = []
    at = 0
    while at < len(text):
        if at in spans:
            kind: Literal["quoted", "aside"] = "quoted" if text[at] == '"' else "aside"
            tokens.append(Token(kind, text[at : spans[at]], offset + at, offset + spans[at]))
            at = spans[at]
        elif match := _WORD.match(text, at):
            tokens += _parts(match[0], offset + at)
            at = match.end()
        else:
            if not text[at].isspace():
                tokens.append(Token("plus" if text[at] == "+" else "word", text[at], offset + at, offset + at + 1))
            at += 1
    return tokens


def _parts(word: str, start: int) -> list[Token]:
    if not word.strip("-"):
        return [Token("word", word, start, start + len(word))]
    found = re.finditer(r"[^-]+", word)
    return [Token("word", part[0], start + part.start(), start + part.end()) for part in found]


class Cursor:
    """Takes the tokens of a clause from the left."""

    def __init__(self, tokens: Sequence[Token]) -> None:
        self._tokens = tokens
        self._at = 0

    @property
    def next(self) -> Token | None:
        """The token that comes next."""
        return self._tokens[self._at] if self._at < len(self._tokens) else None

    @property
    def done(self) -> bool:
        """Whether none is left."""
        return self.next is None

    def take(self) -> Token | None:
        """Take the next token."""
        token = self.next
        self._at += token is not None
        return token

    def takes(self, word: str) -> bool:
        """Take the next token if it is that word, and say so."""
        fits = self.next is not None and self.next.text.casefold() == word
        self._at += fits
        return fits

    def skip(self, words: int) -> None:
        """Leave out so many tokens."""
        self._at += words

    def words(self) -> list[str]:
        """Return the words that come next, in small letters, up to a bracket, a quote or a +."""
        found = []
        for token in self._tokens[self._at : self._at + 8]:
            if token.kind != "word":
                break
            found.append(token.text.casefold())
        return found

    def foot(self) -> Foot | None:
        """Take R, L, B or -, if one comes next; R and L are capitals, so that they are seen to be feet."""
        if self.next is not None and self.next.text in ("R", "L", "B", "-"):
            self._at += 1
            return Foot(self._tokens[self._at - 1].text)
        return None

    def at_amount(self) -> bool:
        """Whether the size of a turn comes next."""
        return self.next is not None and (self.next.text.casefold() == "full" or _number(self.next) is not None)

    def amount(self) -> tuple[Fraction, Token | None]:
        """Take the size of a turn: 1/4, 1 1/4, 2, full; and return its last token too."""
        token = self.take()
        if token is not None and token.text.casefold() == "full":
            return Fraction(1), token
        value = _number(token)
        if value is None:
            raise UnreadableError("How far? A turn is 1/4, 1/2, 3/4, full, 1 1/4 ...", "", token)
        rest = _number(self.next) if value.denominator == 1 else None
        if rest is not None and rest < 1:
            token = self.take()
            value += rest
        return value, token


def _number(token: Token | None) -> Fraction | None:
    if token is None:
        return None
    if token.text in _GLYPHS:
        return _GLYPHS[token.text]
    match = _AMOUNT.fullmatch(token.text)
    if match is None or (match[2] is not None and not int(match[2])):
        return None
    return Fraction(int(match[1]), int(match[2] or 1))
