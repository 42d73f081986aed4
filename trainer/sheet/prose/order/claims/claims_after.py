"""Claims read again in the light of the next sentence: a wall that goes on after its hold, or that is the last."""

import re
from collections.abc import Sequence

from trainer.routine import Insert
from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.extras import Ref
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.places import Ruler
from trainer.sheet.prose.order.statements.holds import only_leads_on
from trainer.sheet.prose.order.statements.statement import Statement


def only_goes_on(sentence: Sentence, statement: Statement, claims: Sequence[Claim], ruler: Ruler) -> bool:
    """Whether a sentence after what was put in only says how the wall goes on: "Then clap, clap and start wall 7"."""
    if not statement.bodies or statement.inserts:
        return False
    follows = bool({token.low for token in sentence.tokens} & _FOLLOWS) and not statement.bodies[0].counted
    held = bool(re.match("[&>]", sentence.letters)) and all(
        claim.inserts and isinstance(claim.inserts[-1], Insert) for claim in claims
    )
    # "In wall 2, after 16, on 1 stomp right, on 2 stomp left. After that come the heels."
    stepped = follows and all(claim.inserts and _has_steps(claim.inserts[-1]) for claim in claims)
    leads = all(only_leads_on(statement.bodies[0], ruler, claim.after, sentence) for claim in claims)
    return (held or stepped) and leads and bool(claims)


_FOLLOWS = {"follow", "follows", "come", "comes", "next", "continue", "usual", "normal", "resume", "resumes", "ever"}
"""Words of what the dance goes on with."""


def _has_steps(insert: Insert | Ref) -> bool:
    """Whether an extra is a hold, or one whose steps were told."""
    return isinstance(insert, Insert) or bool(insert.name)


def ends_there(made: Sequence[Sequence[Claim]]) -> bool:
    """End the dance where one wall was cut without a word of how it goes on: "front, first two only. To close: ..."."""
    last = made[-1] if made else ()
    if len(last) != 1 or not last[0].borrowed or last[0].leave != "restart" or last[0].inserts or last[0].change:
        return False
    last[0].leave = "end"
    return True
