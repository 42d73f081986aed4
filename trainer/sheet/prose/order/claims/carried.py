"""Steps that carry on the counts of the wall which they stand in: a change of it, or an extra called as it is."""

from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.places import Fault
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.bodies import Body


def carried_on(ledger: Ledger, claim: Claim, part: str, body: Body, *, replaces: bool) -> bool | Fault:
    """Make a claim one of changed counts where its steps are counted on from its place: "14 counts, then touch (15)".

    Where the sentence says that something is not danced, they may be counts before the place too.
    """
    ruler = ledger.ruler(part)
    said = [int(token.text) for token in body.tokens if token.kind == "number" and len(token.text) < 4]
    if not said or said != sorted(said):
        return False
    begins = max((end for end in (0, *ruler.ends) if end < claim.after), default=0)
    called = [number + begins for number in said]
    if said[0] == claim.after + 1:
        numbers = said
    elif (claim.after not in ruler.ends and called[0] == claim.after + 1) or (replaces and called[-1] == claim.after):
        numbers = called
    elif 1 < said[0] < said[-1] and called[-1] == claim.after and claim.leave == "restart":
        # "In the second eight walk back on 5 and 6, then step left on 7, hold on 8, and restart".
        numbers = called
    elif replaces and claim.at_end and said[0] > 1:
        # "Don't do the jazz box, instead do a rocking chair (29-32)".
        numbers = said
    else:
        return False
    if numbers[-1] > ruler.length > 0:
        at = next(token for token in body.tokens if token.text == str(said[-1]))
        return Fault(f"There is no count {numbers[-1]}: {ruler.whole} has {ruler.length} counts", at.span)
    if claim.leave in ("restart", "next") and claim.after in ledger.known.anded.get(part, ()) and not claim.before:
        # "As far as the pivot on 6, then (7) ...": the half count after 6 is not danced.
        return False
    first, last = numbers[0], numbers[-1]
    inline = Inline("change", "", last - first + 1, body.tokens, first, last, part)
    claim.change, claim.first, claim.after = ledger.extras.add(inline, 0), first, last
    return True


def left_after(ledger: Ledger, claim: Claim, part: str) -> None:
    """Let steps taken for a tag be a change where a later sentence says that the wall is left: "... Restart."."""
    if claim.unnamed is None or not claim.inserts:
        return
    tag = claim.inserts[-1]
    if carried_on(ledger, claim, part, claim.unnamed, replaces=False) is True:
        claim.inserts.remove(tag)
        claim.unnamed = None


def called_from(ledger: Ledger, claim: Claim, inline: Inline, part: str) -> int:
    """Return the count of the wall that an extra's first count is called as ("on 5 step right"); 0: called from 1."""
    ruler = ledger.ruler(part)
    said = [int(token.text) for token in inline.body if token.kind == "number" and len(token.text) < 4]
    begins = max((end for end in (0, *ruler.ends) if end <= claim.after), default=0)
    if inline.first or not said or said != sorted(said) or said[0] == 1 or claim.after in (begins, ruler.length):
        return 0
    return claim.after + 1 if said[0] in (claim.after + 1, claim.after + 1 - begins) else 0
