"""A lexeme: a word or phrase of a sheet with what it is to a dancer."""

from typing import Any, Literal, NamedTuple

from trainer.routine import Span
from trainer.terms import Direction

LexKind = Literal[
    "foot", "side", "run", "part", "move", "way", "prep", "ref", "to", "figure", "amount", "turn", "turning", "number",
    "facing", "weighted", "task", "glue", "style", "unknown", "break", "open", "close",
]  # fmt: skip
"""What a lexeme is.

foot: surely a foot. side: right or left, a foot or a direction. run: several feet. part: of the body. way: a direction.
prep: a way that names a foot only as a reference if one follows. ref: such a reference. to: "to the right". turn: a
word of turning; turning: a whole phrase of turning. weighted: a note of weight. task: a word of grammar. break:
punctuation.
"""


class Lex(NamedTuple):
    """A word or phrase with what it is."""

    kind: LexKind
    value: Any
    """Its meaning: Foot, Move, Direction, Fraction ... as its kind has it."""
    low: str
    span: Span
    ing: bool = False
    """A form in -ing: "sweeping"."""
    way: Direction | None = None
    """The way that the word itself tells: "close" goes together."""
    typo: bool = False
    """Read through a slip of the pen."""


STRANGE = "strange"
"""The value of a word that no table knows and that the sheet uses once."""
STRANGE_VERB = "strange verb"
"""The same, where a foot follows."""


def is_task(lex: Lex, *tasks: str) -> bool:
    """Return whether a lexeme is a word of grammar with one of some tasks."""
    return lex.kind == "task" and lex.value in tasks
