"""A sentence as a text of letters, and what was found in it: which walls, which place, what is done, facing where."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.routine import Span
from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.order.grammar.places import Spec
from trainer.sheet.prose.words import Token

AtomKind = Literal[
    "walls", "place", "loose", "act", "face", "begins", "not", "change", "onward", "only", "title", "total"
]


@dataclass(frozen=True, slots=True)
class Atom:
    """A phrase that says something of the order."""

    kind: AtomKind
    first: int
    """Index of its first lexeme."""
    last: int
    walls: tuple[int, ...] = ()
    at: str = ""
    """Of walls: "end", or empty: within them."""
    part: str = ""
    every: str = ""
    """Of walls: "every", "odd", "even", "last", instead of numbers."""
    span: Span | None = None
    """Of walls: where they stand."""
    nth: Fraction | None = None
    """Of walls: the numbers count the walls that begin at this facing."""
    ends: bool = False
    """Of walls by their facing: the wall ends with it."""
    but: bool = False
    """Of walls: all others are danced whole."""
    vague: bool = False
    """Of walls by their facing: it is not said which of them; of an extra: nor of which kind it is."""
    spec: Spec | None = None
    """Of a place, a loose number (a place or a length), a change, or where the dance goes on."""
    act: str = ""
    """T tag, G bridge, H hold, X ending, R restart, Q stop, n next part, M change."""
    number: int = 0
    """Of a tag or bridge: its number; of a restart: the wall it leads to; of a total: how many walls are danced."""
    counts: int | None = None
    """Of an extra: its length as said."""
    share: Spec | None = None
    """Of an extra: those of its counts that are danced; None: all."""
    times: int = 1
    declares: bool = False
    """It only says that there is one; of walls, that "end" stands after them; of a change, that it is a guess."""
    facing: Fraction | None = None
    starts: bool = False
    """Of a facing: that with which the wall begins."""


class Letters:
    """A sentence as lexemes, and as a text of their letters."""

    def __init__(self, tokens: Sequence[Token], lexemes: Sequence[Lexeme]) -> None:
        self.tokens = tokens
        self.lexemes = lexemes
        self.letters = "".join(lexeme.kind for lexeme in lexemes)

    def number(self, at: int) -> int:
        """Return the number of a lexeme."""
        return self.lexemes[at].number

    def words(self, first: int, last: int) -> str:
        """Return the words of some lexemes as written."""
        tokens = self.tokens[self.lexemes[first].first : self.lexemes[last - 1].last]
        return "".join((" " if index and not one.glued else "") + one.text for index, one in enumerate(tokens))

    def span(self, first: int, last: int) -> Span:
        """Return where some lexemes stand: from the first to the end of the last on its line."""
        start, end = self.tokens[self.lexemes[first].first], self.tokens[self.lexemes[last - 1].last - 1]
        length = end.column + len(end.text) - start.column if end.line == start.line else len(start.text)
        return Span(start.line, start.column, max(length, 1))


class Sentence(Letters):
    """A sentence with the phrases found in it, in order."""

    def __init__(self, letters: Letters, atoms: Sequence[Atom]) -> None:
        super().__init__(letters.tokens, letters.lexemes)
        self.atoms = atoms
