"""A small number of which it is not said what it counts: "the first two bits (16 counts)", "wall 3 after 2".

Such a number counts sections where so many counts are told, or where few would be danced of the wall.
"""

from trainer.sheet.prose.order.claims.claims import Key
from trainer.sheet.prose.order.claims.fitting import fit_of
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.places import Fault, Found, Spec
from trainer.sheet.prose.order.statements.statement import Statement


def in_sections(
    ledger: Ledger, sentence: Sentence, told: Statement, key: Key, found: Found | Fault | None
) -> Found | Fault | None:
    """Return the end of so many sections where a bare number tells them, else the place as it was found."""
    place = told.place
    if (
        place is None
        or place.count is None
        or not isinstance(found, Found)
        or not (told.leave in ("R", "n") or told.only)
    ):
        return found
    ends = ledger.ruler(key[0]).ends
    bare = place == Spec(place.span, place.text, place.count, place.count_span, block=place.block) and place.block < 2
    if not bare or found.after != place.count or not place.count < min(ledger.known.phrase, len(ends)):
        return found
    if _is_of_counts(sentence, place):
        return found
    after = fit_of(ledger, sentence, told, key).best((ends[place.count - 1], place.count))
    return Found(after) if after is not None else found


def _is_of_counts(sentence: Sentence, place: Spec) -> bool:
    """Whether a number is said to be one of counts: "count 4", "after 4 counts"."""
    at = next((at for at in range(len(sentence.letters)) if sentence.span(at, at + 1)[:2] == place.span[:2]), None)
    if at is None:
        return True
    letters = sentence.letters
    return letters[at - 1 : at] == "c" or letters[at + 1 : at + 3].lstrip("-")[:1] in ("c", "&")
