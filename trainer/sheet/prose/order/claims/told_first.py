"""Steps told before it is said where they are danced: "Stomp right, stomp left. These counts come after wall 2."."""

from collections.abc import Sequence

from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement
from trainer.sheet.prose.words import Token

_POINTING = {"these", "those", "this", "that", "it", "they", "you", "we", "all", "do", "dance"}
_DONE = {
    "danced", "dance", "done", "do", "come", "comes", "tag", "bridge", "happens", "happen", "put", "added", "belongs",
    "belong", "inserted", "steps", "counts", "beats", "goes", "go", "is", "are", "used", "once", "twice",
}  # fmt: skip
_EARLY = 4


class ToldFirst:
    """Keeps the steps that sentences tell before one that says after which walls they are danced."""

    def __init__(self) -> None:
        self._tokens: tuple[Token, ...] = ()

    def take(self, sentence: Sentence, statement: Statement, context: Context) -> None:
        """Keep steps told by themselves, or give those kept to the walls that a statement places them after."""
        placed = statement.walls is not None and statement.walls.at == "end" and not statement.bodies
        if self._tokens and placed and _points(sentence.tokens):
            counts = next((one.spec.count for one in statement.loose if one.spec is not None and one.act == "c"), None)
            held = [act for act in statement.acts if act.act in "TG"]
            statement.acts = held or [*statement.acts, Atom("act", 0, 0, act="T", counts=counts, vague=True)]
            statement.bodies = [Body(0, 0, self._tokens, counts)]
            statement.loose = []
            self._tokens = ()
            return
        self._tokens = self._kept(sentence, statement, context)

    def _kept(self, sentence: Sentence, statement: Statement, context: Context) -> tuple[Token, ...]:
        more = statement.walls or statement.place or statement.acts or statement.changes or statement.replaced
        begun = context.claims or context.walls or context.heads or context.acts or context.owner is not None
        if begun:
            return ()
        if self._tokens and not (statement.walls or statement.place) and sentence.letters.startswith((">", "&")):
            # "Then dance the same to the left."
            return (*self._tokens, _comma(self._tokens[-1]), *sentence.tokens)
        if self._tokens and statement.acts and not (statement.walls or statement.place or statement.bodies):
            # "That is the tag."
            return self._tokens
        opens = bool(statement.bodies) and statement.bodies[0].first == 0
        return tuple(sentence.tokens) if opens and not more else ()


def _comma(token: Token) -> Token:
    return Token("mark", ",", ",", token.line, token.column, glued=True)


def _points(tokens: Sequence[Token]) -> bool:
    """Whether a sentence speaks of what was told before it."""
    lows = [token.low for token in tokens]
    return bool(set(lows[:_EARLY]) & _POINTING) and bool(set(lows) & _DONE)
