"""What is said of the start of the dance beside its order: "Weight on L before count 1", "left free at count 1"."""

from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.statements.statement import Statement

_STANDING = {"weight", "wt", "weighted", "free", "feet", "together"}


def only_tells_the_stance(sentence: Sentence, statement: Statement) -> bool:
    """Whether a sentence only says on which foot the dance is begun: its count 1 is no place for what comes after."""
    place = statement.place
    bare = not (statement.walls or statement.acts or statement.changes or statement.inserts or statement.only)
    first = place is not None and place.count == 1 and place.section is None and not place.title
    return bare and first and any(token.low in _STANDING for token in sentence.tokens)
