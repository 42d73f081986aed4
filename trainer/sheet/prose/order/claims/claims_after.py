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


def go_on_with_the_change(before: Sequence[Claim], claim: Claim) -> None:
    """Let a wall that was left where a change begins go on with it."""
    for one in before:
        if not claim.change or claim.first != one.after + 1 or one.inserts:
            continue
        if one.borrowed:
            # "Dance up to count 14. Counts 15 and 16 are ...".
            one.leave = "continue"
        elif one.leave == "restart":
            # "Restart: wall 5, after count 27. Replace 28-30 with ...": it is left after what is changed.
            one.leave, claim.leave = "continue", "restart"


def only_says_there_is_one(claim: Claim) -> bool:
    """Whether it was only said that a wall has a restart, a tag or a bridge: the place stands below it."""
    if not claim.implied or claim.change:
        return False
    if claim.leave == "end":
        # "ENDING (wall 8)", its place told below.
        return len(claim.inserts) == 1 and claim.inserts[0].kind == "ending"
    bare = all(isinstance(one, Ref) and one.kind in ("tag", "bridge") and not one.name for one in claim.inserts)
    return bare and (bool(claim.inserts) == (claim.leave == "continue")) and claim.leave in ("continue", "restart")


def only_place(made: Sequence[Claim], before: Sequence[Claim]) -> bool:
    """Whether claims only tell the place of what those before them put at the end, since none was told yet."""
    if len(made) != len(before):
        return False
    return all(
        one.borrowed and other.at_end and one.after < other.after and other.inserts and one.inserts == other.inserts
        for one, other in zip(made, before, strict=True)
    )
