"""Steps danced for a section that was said to be left out: "there is no Figure 8. Instead sway left (1), hold (2)"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.places import Found, Spec
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.statement import Statement


def danced_for_skipped(
    ledger: Ledger, sentence: Sentence, told: Statement, claims: Sequence[Claim], place: Spec | None, part: str
) -> bool:
    """Turn claims that leave a wall before a section into changes of that section; whether they were such."""
    instead = bool({"b", "V"} & set(sentence.letters))
    if not told.bodies or told.inserts or told.leave or not instead or place is None:
        return False
    if not all(one.skips and one.leave == "restart" and not (one.inserts or one.change) for one in claims):
        return False
    last = end_of(ledger, place, part)
    body = told.bodies[-1] if told.replaced else told.bodies[0]
    for claim in claims:
        first = claim.after + 1
        inline = Inline("change", "", last - claim.after, body.tokens, first, last, part)
        claim.change, claim.first, claim.after = ledger.extras.add(inline, 0), first, last
        claim.leave, claim.skips, claim.at_end = "continue", False, False
    return True


def end_of(ledger: Ledger, place: Spec, part: str) -> int:
    """The last of the counts that are left out."""
    if place.upto_count is not None:
        return place.upto_count
    section = place.upto if place.upto is not None else place.section
    named = section is not None or bool(place.named)
    found = ledger.find(replace(place, before=False, section=section), part) if named and not place.from_end else None
    return found.after if isinstance(found, Found) else ledger.ruler(part).length
