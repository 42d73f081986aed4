"""Steps that a sentence names only to say that they are danced as ever: "stomp R, stomp L as usual, but on 7 hold"."""

import re

from trainer.sheet.prose.order.grammar.atoms import Sentence

_AS_EVER = re.compile(r"[,(]?J[),]*(?:[>&]|$)")
"""What stands behind such steps; what is danced otherwise follows it."""


def dances_as_usual(sentence: Sentence, first: int, last: int, other: int) -> bool:
    """Whether steps from one lexeme to another are danced as ever, and others are told from `other` on."""
    match = _AS_EVER.match(sentence.letters, last)
    if match is None or other <= first:
        return False
    told = sentence.letters.index("J", last)
    return sentence.words(told, told + 1).lower().startswith("as ")
