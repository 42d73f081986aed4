"""Sections left out in the middle of a wall: what comes after them is danced in their place, "on wall 3 leave out B".

So it is told as a change, made of the counts of the dance that are danced after those left out.
"""

from dataclasses import replace

from trainer.sheet.prose.order.claims.claims import Claim, Key
from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.skipped import end_of
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.statement import Statement


def only_tells_what_is_left(ledger: Ledger, context: Context, told: Statement) -> bool:
    """Whether only the sections are told that are danced in a wall of which some were said to be left out."""
    claims = context.claims[-1] if context.claims else ()
    again = {one.name for one in ledger.extras.inlines if one.again is not None}
    same = told.walls is None or (context.walls is not None and told.walls.walls == context.walls.walls)
    more = told.acts or told.bodies or told.changes or told.faces or told.skips
    return same and bool(claims) and all(one.change in again for one in claims) and not more and told.place is not None


def left_out(ledger: Ledger, sentence: Sentence, claim: Claim, told: Statement, key: Key) -> Claim | None:
    """Return a claim that leaves a wall before some sections as one that goes on after them; None where it cannot."""
    place, part = told.place, key[0]
    length = ledger.ruler(part).length
    last = end_of(ledger, place, part) if place is not None else length
    # "Omit section 2 (walks and a kick)" names its steps.
    named = all(sentence.letters[body.first - 1 : body.first] == "(" for body in told.bodies)
    if place is None or not named or not claim.after < last < length:
        ledger.unread.append(place.span if place is not None else claim.span)
        return None
    head = next((token for token in sentence.tokens if token.span[:2] == place.span[:2]), sentence.tokens[0])
    first = claim.after + 1
    inline = Inline("change", "", length - last, (head,), first, length, part, again=(last + 1, length))
    alike = (one.name for one in ledger.extras.inlines if replace(one, name="", body=inline.body) == inline)
    name = next(alike, "") or ledger.extras.add(inline, 0)
    claim.change, claim.first, claim.after = name, first, length
    claim.leave, claim.before, claim.at_end = "continue", None, False
    wall = ledger.walls.get(key)
    return None if wall is not None and any(one.change == name for one in wall.claims) else claim
