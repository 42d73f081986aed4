"""Words on how far the dance turns from wall to wall, which are no steps: "all of it, a quarter R on each time"."""

from collections.abc import Sequence

from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement
from trainer.sheet.prose.words import Token

_TURNING = {
    "quarter", "quarters", "half", "halves", "right", "left", "r", "l", "turn", "turns", "turned", "turning",
    "on", "further", "farther", "forward", "one", "two", "three", "a", "an", "the", "to", "in", "of", "and",
    "each", "every", "time", "times", "wall", "walls", "per", "round", "new", "always", "again", "after",
    "then", "so", "it", "goes", "going", "clockwise", "anticlockwise", "cw", "ccw", "same", "more", "with",
}  # fmt: skip
_OVER_AND_OVER = {"each", "every", "per", "always"}


def steps_only(sentence: Sentence, statement: Statement) -> Sequence[Body]:
    """Return what a statement of several walls tells of steps, without what only says how far each wall turns."""
    walls = statement.walls
    many = walls is not None and (len(walls.walls) > 1 or walls.every in ("every", "odd", "even"))
    again = any(token.low in _OVER_AND_OVER for token in sentence.tokens)
    added = any(act.act in ("T", "G", "X") for act in statement.acts)
    if added or not (many or again):
        return statement.bodies
    return [body for body in statement.bodies if not _only_turns(body.tokens)]


def _only_turns(tokens: Sequence[Token]) -> bool:
    amount = any(token.kind == "fraction" or token.low in ("quarter", "half", "quarters") for token in tokens)
    return amount and all(
        token.low in _TURNING or token.kind in ("fraction", "mark", "facing", "clock", "amp") for token in tokens
    )
