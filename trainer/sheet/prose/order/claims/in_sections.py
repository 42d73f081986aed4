"""A small number of which it is not said what it counts: "the first two bits (16 counts)", "wall 3 after 2".

Such a number counts sections where so many counts are told, or where few would be danced of the wall.
"""

from dataclasses import replace

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
    place, at = told.place, _index(sentence, told.place)
    if place is None or place.count is None or at is None or not isinstance(found, Found):
        return found
    ends = ledger.ruler(key[0]).ends
    few = found.after == place.count < min(ledger.known.phrase, len(ends))
    if not few or not _is_bare(place) or _is_of_counts(sentence, at):
        return found
    if told.leave not in ("R", "n") and not told.only:
        # An extra after the first two counts is as likely as one after two sections.
        return Found(ends[place.count - 1]) if place.block and sentence.letters[at + 1 : at + 2] == "?" else found
    fit = fit_of(ledger, sentence, told, key)
    # The number itself does not tell what it counts.
    others = [count for count in fit.counts if count != place.count]
    after = replace(fit, counts=others).best((ends[place.count - 1], place.count))
    return Found(after) if after is not None else found


def _is_bare(place: Spec) -> bool:
    """Whether a place is told by no more than a number, or a range from one."""
    plain = Spec(place.span, place.text, place.count, place.count_span, first=place.first, block=place.block)
    return place == plain and place.block < _SECOND and place.first in (None, 1)


_SECOND = 2


def _index(sentence: Sentence, place: Spec | None) -> int | None:
    """The index of the lexeme with a place's number."""
    if place is None:
        return None
    return next((at for at in range(len(sentence.letters)) if sentence.span(at, at + 1)[:2] == place.span[:2]), None)


def _is_of_counts(sentence: Sentence, at: int) -> bool:
    """Whether a number is said to be one of counts: "count 4", "after 4 counts"."""
    letters = sentence.letters
    return letters[at - 1 : at] == "c" or letters[at + 1 : at + 3].lstrip("-")[:1] in ("c", "&")
