"""Counts of the dance that are the steps of a tag or bridge, as the extra that they make."""

from trainer.sheet.prose.order.claims.extras import KINDS
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Fault, Found, Spec
from trainer.sheet.prose.order.grammar.telling import Inline


def as_inline(ledger: Ledger, sentence: Sentence, again: Atom, act: Atom, part: str) -> Inline | Fault | None:
    """Return the extra that counts of the dance make; None where nothing is known to measure by."""
    spec = again.spec
    found = ledger.find(spec, part) if spec is not None else None
    if spec is None or not isinstance(found, Found):
        return found if isinstance(found, Fault) else None
    first = found.first or _first_of(ledger, spec, found.after, part)
    tokens = sentence.tokens[sentence.lexemes[again.first].first : sentence.lexemes[again.last - 1].last]
    counts = found.after - first + 1
    return Inline(KINDS[act.act], "", counts, tuple(tokens), part=part, again=(first, found.after))


def _first_of(ledger: Ledger, spec: Spec, last: int, part: str) -> int:
    """The first count of a section, or of a run of counts: "the first four counts of section 1"."""
    if spec.count is not None:
        return last - spec.count + 1
    return max((end for end in (0, *ledger.ruler(part).ends) if end < last), default=0) + 1
