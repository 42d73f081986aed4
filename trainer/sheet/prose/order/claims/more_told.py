"""More of the claims before a sentence: what it adds to them that names no wall and no place.

"Then start again, facing 12", "hold 4 there", "sway R, L" are said of what was told last.
"""

from collections.abc import Sequence
from fractions import Fraction

from trainer.routine import Insert
from trainer.sheet.prose.order.claims.calling import call, check_onward, more_steps
from trainer.sheet.prose.order.claims.carried import left_after
from trainer.sheet.prose.order.claims.claimant import LEAVES
from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.claims_after import only_goes_on
from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.extras import KINDS, Ref
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.otherwise import danced_otherwise, may_change
from trainer.sheet.prose.order.claims.skipped import danced_for_skipped
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.statement import Statement


def go_on(ledger: Ledger, context: Context, sentence: Sentence, statement: Statement) -> None:
    """Add a statement without walls or place to the claims before it: "Then start again, facing 12"."""
    claims = context.claims[-1]
    owner = ledger.known.extras[context.owner] if context.owner is not None else None
    part = context.walls.part if context.walls is not None else ""
    faces = [facing for facing, _ in statement.faces]
    _face_each(context, faces)
    if statement.onward is not None and context.walls is not None:
        check_onward(ledger, statement.onward, context.walls.part, claims[0].after, set())
    told = False
    _dance_otherwise(ledger, context, sentence, statement)
    if only_goes_on(sentence, statement, claims, ledger.ruler(part)):
        return
    _without_pose(statement, claims)
    if _calls_it_the_ending(ledger, sentence, statement, claims):
        return
    _take_back_stops(statement, claims)
    _take_back_leaves(ledger, statement, claims)
    for place, claim in enumerate(claims):
        if statement.leave and claim.leave == "continue":
            claim.leave = LEAVES[statement.leave]
            left_after(ledger, claim, context.walls.part if context.walls else "")
        if faces and claim.facing is None:
            claim.facing = faces[place] if len(faces) == len(claims) else faces[0]
        for act in statement.inserts:
            if act.act == "H":
                _hold_there(sentence, claim, act)
            elif not _calls_for(claim, act):
                call(ledger.extras, owner, act, claim, statement.bodies[0] if statement.bodies else None)
                told = True
    if statement.again is not None and owner is None:
        more_steps(ledger, sentence, statement.again, claims, part)
    if statement.bodies and owner is None:
        _steps_there(ledger, context, sentence, statement, told=told)


def begins_the_next(ledger: Ledger, context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Take how the next wall begins for no leaving of one that goes on: "carry on ... You start wall 5 at 12"."""
    starts = [act.act for act in statement.acts] == ["R"] and not statement.bodies
    walls = context.walls.walls if context.walls is not None and not context.walls.part else ()
    told = statement.walls is None and bool(context.claims) and context.went_on
    if not (told and starts and len(walls) == 1 and statement.acts[0].number == walls[0] + 1):
        return False
    wall = ledger.wall(("", walls[0] + 1), sentence.span(0, 1), context.unit)
    wall.starts = statement.faces[0][0] if statement.faces and wall.starts is None else wall.starts
    return True


def _face_each(context: Context, faces: Sequence[Fraction]) -> None:
    """Face each of the walls told of in turn: "... wall 3, 8 counts in. ... wall 6, 24 in. You face 6:00 and 3:00."."""
    told = [claim for made in context.claims for claim in made]
    if len(faces) > 1 and len(context.claims[-1]) != len(faces) == len(told):
        for claim, facing in zip(told, faces, strict=True):
            claim.facing = facing if claim.facing is None else claim.facing


def _dance_otherwise(ledger: Ledger, context: Context, sentence: Sentence, statement: Statement) -> None:
    """Change what leads to a restart: "wall 3, count 4 of section 2. Instead of kicking step left"."""
    claims, part = context.claims[-1], context.walls.part if context.walls is not None else ""
    if danced_for_skipped(ledger, sentence, statement, claims, context.place, part):
        statement.bodies = []
        return
    if not statement.replaced or statement.inserts or not all(map(may_change, claims)):
        return
    steps = [*statement.bodies, *statement.replaced]
    if all(danced_otherwise(ledger, one, context.place, steps, part) for one in claims):
        statement.bodies = []


def _steps_there(ledger: Ledger, context: Context, sentence: Sentence, statement: Statement, *, told: bool) -> None:
    """Let steps told after a claim be those of the ending there, or of the extra just called for."""
    body, claims = statement.bodies[0], context.claims[-1]
    part = context.walls.part if context.walls is not None else ""
    ending = [claim for claim in claims if claim.leave == "end" and not claim.inserts]
    left = all(one.leave == "restart" and not (one.inserts or one.change) for one in claims)
    left = left and statement.leave == "R" and not told
    if left and sentence.letters.startswith(">") and not {"N", "V", "b"} & set(sentence.letters):
        # "You dance the first two eights only. Then step right, step left, and begin again."
        for claim in claims:
            call(ledger.extras, None, Atom("act", 0, 0, act="T"), claim, body)
    elif ending and not statement.inserts:
        for claim in ending:
            call(ledger.extras, None, Atom("act", 0, 0, act="X"), claim, body)
    elif not told:
        more_steps(ledger, sentence, body, claims, part)


def _hold_there(sentence: Sentence, claim: Claim, act: Atom) -> None:
    """Add a hold; one told by itself is what an extra is that has no steps: "Bridge in wall 4: ... Hold for 4."."""
    bare = [one for one in claim.inserts if isinstance(one, Ref) and not (one.name or one.number or one.letter)]
    if bare and not sentence.letters.startswith(">"):
        claim.inserts.remove(bare[0])
    hold = Insert(kind="hold", counts=act.counts or 1)
    if claim.inserts[-1:] == [hold] and not sentence.letters.startswith(">"):
        # "The music stops for 4 counts. Hold for 4 counts."
        return
    if claim.inserts[-1:] == [Insert(kind="hold", counts=1)] and not sentence.letters.startswith(">"):
        # "Pause in wall 3, after count 30. Leave the foot there for three counts."
        claim.inserts.pop()
    claim.inserts.append(hold)


def _without_pose(statement: Statement, claims: Sequence[Claim]) -> None:
    """Take a pose after the end of the dance for none of its steps: "... is the end. Hold it if you can!"."""
    posed = any(body.poses and {"it", "pose"} & body.texts for body in statement.bodies[:1])
    if posed and any(claim.leave == "end" for claim in claims):
        statement.bodies = []


def _calls_it_the_ending(ledger: Ledger, sentence: Sentence, statement: Statement, claims: Sequence[Claim]) -> bool:
    """Let "That's the big finish!" make an ending of the steps that were told last, and of none of its own."""
    names = [act.act for act in statement.inserts] == ["X"] and sentence.tokens[0].low in _POINTING
    bare = all(claim.unnamed is not None and claim.leave != "end" and claim.inserts for claim in claims)
    if not names or not bare or statement.leave:
        return False
    for claim in claims:
        claim.inserts.pop()
        call(ledger.extras, None, Atom("act", 0, 0, act="X"), claim, claim.unnamed)
        claim.leave = "end"
    return True


_POINTING = {"that", "that's", "thats", "this", "these"}


def _take_back_stops(statement: Statement, claims: Sequence[Claim]) -> None:
    """Let a wall after the stop be danced: "The band stops at the end of wall 6. Hold 4 and begin wall 7."."""
    later = statement.inserts and any(act.act == "R" and act.number for act in statement.acts)
    onward = statement.goes_on and not statement.leave
    placed = statement.onward is not None or bool(statement.inserts or statement.bodies)
    for claim in claims:
        if onward and claim.borrowed and claim.leave == "restart" and (placed or claim.inserts):
            # "Do sections 1 and 2 and then sway. Pick it up again at section 3": it was not left.
            claim.leave = "continue"
        if later and claim.leave == "end" and not claim.inserts:
            claim.leave = "continue"


def _only_ends(claim: Claim) -> bool:
    """Whether it was only said that something ends there: "Fourth wall: finish after S3. Restart from S1."."""
    return all(isinstance(one, Ref) and one.kind == "ending" and not one.name for one in claim.inserts)


def _take_back_leaves(ledger: Ledger, statement: Statement, claims: Sequence[Claim]) -> None:
    """Let how a wall is left be told last: "it is broken off after the roll; ... and you start over"."""
    for claim in claims:
        bare = not claim.inserts or (_only_ends(claim) and not ledger.extras.named("ending"))
        begins_anew = claim.leave == "end" and statement.leave == "R" and bare and not statement.inserts
        if begins_anew:
            claim.inserts = []
        ends = claim.leave == "restart" and claim.borrowed and statement.leave == "Q" and not claim.inserts
        if begins_anew or ends:
            claim.leave = "continue"


def _calls_for(claim: Claim, act: Atom) -> bool:
    """Whether a claim calls for the extra already: "Tag after wall 2. The tag has 4 counts"."""
    return not act.number and any(isinstance(one, Ref) and one.kind == KINDS[act.act] for one in claim.inserts)
