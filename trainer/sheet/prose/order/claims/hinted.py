"""How far a wall is danced where a sentence tells it in passing: "you only do the vines + the walks (16 cts), then".

It is asked only of what is left early and has no place that the grammar knows.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.places import Found, Spec
from trainer.sheet.prose.words import Token

_COUNTS = re.compile(r"(?<![TGHL#wWt>I])(n)-?c|cn")
_MORE = {"another", "extra", "more", "additional", "further", "last", "final", "shorter", "early", "missing", "short"}
"""What says beside a number that it is no place."""
_BEFORE = {"the", "your", "our", "both", "just", "only", "and", "&", "+", ","}
"""What stands before the name of a section."""
_SURELY = {"the", "your", "our"}
_LONGEST = 3
"""Words of what a section is called by."""


def hinted(ledger: Ledger, sentence: Sentence, part: str) -> Spec | None:
    """Return how much is danced where just one number of counts tells it, or else the sections named by their steps."""
    length = ledger.ruler(part).length
    told = {spec.count: spec for spec in _counts(sentence) if spec.count is not None and 0 < spec.count < length}
    if told:
        return next(iter(told.values())) if len(told) == 1 else None
    return _named(ledger, sentence.tokens, part)


def _counts(sentence: Sentence) -> list[Spec]:
    """Return the numbers of counts that belong to no extra and to no other length."""
    found = []
    for match in _COUNTS.finditer(sentence.letters):
        at = match.start(1) if match[1] else match.end() - 1
        taken = any(atom.first <= at < atom.last and atom.kind in ("act", "change", "total") for atom in sentence.atoms)
        first, last = sentence.lexemes[match.start()].first, sentence.lexemes[match.end() - 1].last
        beside = {
            token.low for token in (*sentence.tokens[max(first - 2, 0) : first], *sentence.tokens[last : last + 1])
        }
        if not taken and not beside & _MORE:
            found.append(Spec(sentence.span(at, at + 1), count=sentence.number(at)))
    return found


def _named(ledger: Ledger, tokens: Sequence[Token], part: str) -> Spec | None:
    """Return the furthest of the sections and steps that are named, each of them known."""
    ruler = ledger.ruler(part)
    furthest = 0
    span = tokens[0].span
    for at, token in enumerate(tokens[:-1]):
        if token.low not in _BEFORE or tokens[at + 1].low not in STEP_WORDS:
            continue
        words = []
        for word in tokens[at + 1 : at + 1 + _LONGEST]:
            if word.low not in STEP_WORDS:
                break
            words.append(word.low)
        found = ledger.find(Spec(token.span, title=tuple(words)), part)
        if not isinstance(found, Found) or found.before is not None:
            if token.low in _SURELY:
                return None
            continue
        if found.after > furthest:
            furthest, span = found.after, token.span
    return Spec(span, count=furthest) if 0 < furthest < ruler.length else None
