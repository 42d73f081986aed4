"""From the statements of all sentences to claims: what one leaves out is taken from those before it.

A heading such as "RESTARTS:" or "There is one tag." says what the sentences after it are about, until another does.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.routine import Insert, Span
from trainer.sheet.prose.order.claims.calling import call, check_onward, more_steps
from trainer.sheet.prose.order.claims.carried import left_after
from trainer.sheet.prose.order.claims.claimant import LEAVES, Claimant
from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.claims_after import ends_there, only_goes_on
from trainer.sheet.prose.order.claims.context import Context, borrow_acts, within_its_section
from trainer.sheet.prose.order.claims.danced_again import as_inline
from trainer.sheet.prose.order.claims.extras import KINDS, LETTERS, Ref
from trainer.sheet.prose.order.claims.hinted import hinted
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.loose import settle_loose
from trainer.sheet.prose.order.claims.opening_words import only_tells_the_stance
from trainer.sheet.prose.order.claims.otherwise import danced_otherwise, may_change
from trainer.sheet.prose.order.claims.same import (
    adds_to_it,
    call_for_the_same,
    goes_as_ever,
    kept,
    put_in_as_on,
    repeated,
    repeats,
    says_the_same,
)
from trainer.sheet.prose.order.claims.skipped import danced_for_skipped
from trainer.sheet.prose.order.claims.told_first import ToldFirst
from trainer.sheet.prose.order.claims.turning_on import steps_only
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Found, Spec
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.holds import only_says_there_is, without_bare_holds
from trainer.sheet.prose.order.statements.statement import (
    Statement,
    first_named,
    length_for_place,
    more_of_the_next,
    only_leads_on,
)
from trainer.sheet.prose.order.statements.stops import closes_there
from trainer.terms import ExtraKind


class Teller:
    """Takes the statements of all sentences in reading order."""

    def __init__(self, ledger: Ledger) -> None:
        self._ledger = ledger
        self.announced: list[tuple[str, Span]] = []
        """Restarts and extras that a sentence only says there are, with where it says so."""
        self._context = Context()
        self._first = ToldFirst()
        self._latest: list[Insert | Ref] = []
        """What was put in at the place told last."""
        self._claimed: list[Claim] = []
        """What was claimed last, of one wall or several."""
        self._headed: tuple[Atom | None, list[Claim]] | None = None
        """Walls that the line above names, with claims that it makes of them without a place."""

    def line(self, unit: int, owner: int | None) -> None:
        """Begin another line; `owner` is the index of the extra that it heads."""
        before = self._context
        claims = before.claims[0] if len(before.claims) == 1 else []
        bare = claims if all(map(_only_says_there_is_one, claims)) else []
        self._headed = (before.walls, bare) if bare else None
        acts = [act for act in before.acts if not (before.anew and act.act == "R")]
        heads = before.heads if before.claims or before.owner is not None else (acts or before.heads)
        if before.owner is not None and not before.claims and (kind := self._ledger.extras.empty(before.owner)):
            # "FINISH" alone on its line heads the sentences below it.
            heads = [Atom("act", 0, 0, act=LETTERS[kind])]
        waiting = before.waiting if not before.claims else None
        if waiting is not None and waiting.place is None and before.anew:
            waiting = None
        walls = before.named if not before.claims else None
        self._context = Context(unit, owner, walls=walls, heads=heads if owner is None else [], waiting=waiting)

    def retract(self) -> None:
        """Forget the latest statement of this line: "... no, just restart"."""
        if self._context.claims:
            self._ledger.forget(self._context.claims.pop())

    def take(self, sentence: Sentence, statement: Statement) -> None:
        """Take one statement of the line."""
        self._ledger.total = max(self._ledger.total, statement.total)
        self._head_anew(sentence)
        if statement.walls is not None and statement.walls.every == "them":
            meant = self._context.walls
            statement.walls = replace(meant, at="end") if meant is not None else None
        _leave_the_wall_before(statement)
        place = statement.place
        fades = [act.act for act in statement.acts] == ["Q"]
        if place is not None and place.here and fades and not self._ledger.mid_dance(place.here):
            # "The song fades here" below the dance is at no place.
            statement.place = None
        self._first.take(sentence, statement, self._context)
        if self._passes_over(sentence, statement):
            return
        self._face_in_its_part(statement)
        self._place_by_its_steps(statement)
        settle_loose(sentence, statement, self._context.heads)
        statement.acts = without_bare_holds(statement.acts)
        self._latest = put_in_as_on(sentence, self._ledger.walls) or self._latest
        same = bool(self._latest) and says_the_same(sentence, statement)
        if same:
            kinds = {act.act for act in statement.acts}
            self.announced = [one for one in self.announced if one[0] not in kinds]
            call_for_the_same(statement)
        length_for_place(statement)
        within_its_section(self._context, statement, self._ledger.known.phrase)
        more_of_the_next(sentence, statement)
        if self._claimed and repeats(sentence, statement):
            self._context.claims.append(repeated(self._ledger, statement, self._claimed, self._context.unit))
            return
        if statement.walls is None and self._only_defines(sentence, statement):
            self._define(sentence, statement)
            return
        if statement.walls is None:
            self._without_walls(sentence, statement)
            return
        if self._context.waiting is not None:
            self._merge(self._context.waiting, statement)
        statement.bodies = list(steps_only(sentence, statement))
        told = (
            statement.acts or statement.changes or statement.place or statement.walls.at == "end" or statement.replaced
        )
        instead = set("Nb") & set(sentence.letters) and any("-" in one.texts for one in statement.bodies)
        if statement.bodies and not (told or instead) and not self._context.acts and not self._context.heads:
            # "The dance turns a quarter right each wall" is a remark.
            statement.bodies = []
        self._claim(sentence, statement)
        if self._context.claims and self._latest and adds_to_it(sentence, statement):
            for claim in self._context.claims[-1]:
                claim.inserts = [*self._latest, *claim.inserts]
        self._latest = kept(self._context.claims[-1] if self._context.claims else (), self._latest, same=same)

    def _passes_over(self, sentence: Sentence, statement: Statement) -> bool:
        """Take note of a statement that is a remark, or only says what there is; whether it was one."""
        if statement.acts and statement.walls is None and all(act.declares for act in statement.acts):
            self._announce(sentence, statement)
            return True
        if re.match(r"[TGX]=n-?c?[,.]?$", sentence.letters):
            # "Tag = 4 counts" calls for none.
            self._announce(sentence, statement)
            return True
        if only_tells_the_stance(sentence, statement) or _is_advice(sentence, statement):
            return True
        if self._only_says_that(sentence, statement):
            self._context.heads, self._context.acts = [], []
            self._announce(sentence, statement)
            return True
        walls = statement.walls
        if (
            walls is not None
            and walls.every == "short"
            and not (statement.place or statement.bodies or statement.change or statement.inserts)
        ):
            # "So A* ends at 12 o'clock, and B follows."
            self._context.walls = self._context.walls or walls
            return True
        if self._is_of_the_rest(sentence, statement):
            return True
        if statement.only_begins:
            # "From there every wall begins at one of the two sides" is a remark.
            return True
        if only_says_there_is(statement):
            # "Hold on wall 5! ... Hold two counts there" tells first in which wall.
            self._context.walls = statement.walls
            return True
        if self._only_fades(statement):
            self._context.walls = self._context.named = statement.walls
            act = statement.acts[0]
            slows = "slow" in sentence.words(act.first, act.last).lower()
            if statement.walls is not None and not statement.goes_on and not slows:
                self._ledger.fades(statement.walls, self._context.unit)
            self._context.acts = [replace(statement.acts[0], act="X")]
            return True
        return self._only_begins_again(statement)

    def _is_of_the_rest(self, sentence: Sentence, statement: Statement) -> bool:
        """Whether it only says that all walls but those told of go as ever: "in every other wall the kick remains"."""
        walls = statement.walls
        if walls is None or statement.acts or statement.changes or statement.place:
            return False
        if goes_as_ever(sentence, statement):
            # "The fourth round then follows in the ordinary way."
            return True
        if walls.every != "even":
            return False
        words = sentence.words(walls.first, walls.last).lower().split()
        return "other" in words and any(self._context.claims)

    def _only_begins_again(self, statement: Statement) -> bool:
        """Whether no more is said than that the dance begins anew: "you're on the left wall and off you go again"."""
        walls = statement.walls
        bare = not (statement.place or statement.bodies or statement.changes or statement.inserts or statement.title)
        faced = walls is not None and walls.nth is not None and walls.vague and not walls.every
        again = any(act.act == "R" and not act.declares for act in statement.acts)
        return faced and bare and again and not self._context.heads and not self._context.claims

    def _face_in_its_part(self, statement: Statement) -> None:
        """Let "leave it after sixteen, when you are at 12 o'clock" face so in the wall told of, and name none."""
        walls, told = statement.walls, self._context.walls
        if walls is None or walls.nth is None or not walls.vague or told is None:
            return
        at, seen = statement.place.span if statement.place is not None else None, walls.span
        reached = at is not None and seen is not None and (at.line, at.column) < (seen.line, seen.column)
        open_still = bool(told.walls) and told.nth is None and statement.place is not None and not self._context.claims
        if told.part or open_still or (reached and bool(told.walls) and told.nth is None):
            statement.faces.append((walls.nth, False))
            statement.walls = None

    def _place_by_its_steps(self, statement: Statement) -> None:
        """Let "it comes right after the left stomp" be a place for what the sentences after it tell."""
        place, walls = statement.place, statement.walls or self._context.walls
        wide = place is None or (place.section is not None and place.count is None and not place.before)
        if statement.title is None or walls is None or not wide or statement.acts or statement.bodies or statement.only:
            return
        if statement.counted is not None and statement.counted.spec is not None:
            statement.place, statement.title, statement.counted = statement.counted.spec, None, None
            return
        found = self._ledger.find(statement.title, walls.part)
        if isinstance(found, Found):
            statement.place, statement.title = Spec(statement.title.span, count=found.after), None

    def _head_anew(self, sentence: Sentence) -> None:
        """Begin on another extra where a sentence is headed by it: "... go on. ENDING: ..."."""
        claims = [claim for made in self._context.claims for claim in made]
        headed = sentence.letters.startswith("X:") and self._context.owner is None
        if headed and sentence.tokens[0].low == "to" and ends_there(self._context.claims):
            return
        if headed and claims and not any(claim.leave == "end" for claim in claims):
            self._context = Context(self._context.unit)

    def _only_says_that(self, sentence: Sentence, statement: Statement) -> bool:
        """Whether a sentence after what was told of a wall begins on another extra: "There is also a tag"."""
        context = self._context
        done = context.claims and any(claim.inserts or claim.leave != "continue" for claim in context.claims[-1])
        bare = not (statement.walls or statement.place or statement.bodies or statement.leave or statement.changes)
        if not done or not bare or not statement.inserts:
            return False
        words = [token.low for token in sentence.tokens]
        after = words[words.index("there") + 1 :][:1] if "there" in words else []
        says = "there's" in words or after in (["is"], ["are"], ["'"])
        return says and words[-1] not in ("there", "here", "then")

    def _only_defines(self, sentence: Sentence, statement: Statement) -> bool:
        """Whether a sentence after a list of walls says what the tag is: "W1 all, W2 all + tag. Tag: ..."."""
        if not (statement.bodies and statement.inserts) or statement.place is not None or statement.change is not None:
            return False
        act = statement.inserts[0]
        kind = KINDS.get(act.act)
        refs = [one for made in self._context.claims for claim in made for one in claim.inserts if isinstance(one, Ref)]
        called = any(ref.kind == kind and ref.number == act.number > 0 for ref in refs)
        heads = act.first == 0 and sentence.letters[act.last : act.last + 1] in (":", "=")
        return (self._context.listed or called) and heads

    def _only_fades(self, statement: Statement) -> bool:
        """Whether no more is said than in which wall the music ends; how is told after."""
        more = statement.place or statement.bodies or statement.changes or statement.loose
        within = statement.walls is not None and statement.walls.at != "end" and self._context.owner is None
        return within and not more and [act.act for act in statement.acts] == ["Q"]

    def _announce(self, sentence: Sentence, statement: Statement) -> None:
        # "Tag = 4 counts" says how long it is, and heads nothing.
        heads = [act for act in statement.acts if sentence.letters[act.last : act.last + 1] != "="]
        self._context.acts = [act for act in heads if act.act != "Q"] or self._context.acts
        starts = [act for act in statement.acts if act.act == "R"]
        self._context.anew = bool(starts) and not any(_is_called_restart(sentence, act) for act in starts)
        if self._context.owner is None:
            told = [act for act in statement.acts if act.declares or act.act != "R" or _is_noun(sentence, act)]
            self.announced += [(act.act, sentence.span(act.first, act.last)) for act in told]

    def _without_walls(self, sentence: Sentence, statement: Statement) -> None:
        """A statement without walls: of those said before, or more of the claim before, or of walls still to come."""
        context = self._context
        _face_there(statement, context)
        self._lead_on(sentence, statement)
        told = self._is_placed(sentence, statement)
        if told and context.walls is not None:
            if context.walls.every == "short" and statement.bodies and context.claims:
                # "A* is only eight counts long. Dance A as far as ..." tells the same more fully.
                self._ledger.forget(context.claims.pop())
            statement.walls = context.walls
            if context.replaced and statement.bodies and not (statement.replaced or statement.inserts):
                statement.replaced = list(context.replaced)
            self._claim(sentence, statement)
        elif context.replaced and statement.bodies and not statement.inserts and context.walls is not None:
            # "In wall 2 there are no claps. Do two stomps instead."
            statement.walls, statement.replaced = context.walls, [*context.replaced, *statement.replaced]
            self._claim(sentence, statement)
        elif context.claims and not (context.unclaimed and statement.bodies):
            self._go_on(sentence, statement)
        elif (
            (statement.bodies or any(act.act == "H" and act.counts for act in statement.acts))
            and context.walls is not None
            and (context.walls.at == "end" or closes_there(sentence, statement, context.walls))
        ):
            # "When you finish the third wall you are facing the back. The singer draws breath there: sway ..."
            statement.walls, statement.faces = context.walls, [*context.faces, *statement.faces][:1]
            self._claim(sentence, statement)
            if not context.claims:
                # The order of play calls for it, and dances it where no wall is known by number.
                self._define(sentence, statement)
        elif statement.faces and context.walls is not None and statement.faces[0][1] and not statement.acts:
            statement.walls = context.walls
            self._claim(sentence, statement)
        elif statement.place is not None or statement.acts or statement.bodies or statement.again:
            if statement.bodies or statement.again:
                self._define(sentence, statement)
            if statement.place is not None or statement.leave:
                context.waiting = statement
            self._announce(sentence, statement)

    def _is_placed(self, sentence: Sentence, statement: Statement) -> bool:
        """Whether a statement tells a place, or takes the one told before it."""
        context = self._context
        told = statement.place is not None or statement.change is not None or statement.title is not None
        if told:
            self._take_head()
        leaves = bool(statement.leave) and not told and not context.claims and context.walls is not None
        if leaves and context.place is not None:
            # "On wall 6 as far as the sailor (32 counts). Start again from there."
            told, statement.place = True, context.place
        elif leaves and not statement.inserts and context.walls is not None:
            # "It is wall 5. We dance the vines and the walks, sixteen counts, and start again from the top."
            spec = hinted(self._ledger, sentence, context.walls.part)
            if spec is not None:
                told, statement.place, statement.bodies = True, spec, []
        if context.open and not told and (statement.bodies or statement.acts) and context.walls is not None:
            told, statement.place = True, context.place
            # "Changing weight each time" is said of the steps.
            statement.changes = False
        return told

    def _take_head(self) -> None:
        """Let "Restart with step change - wall 2" head the lines below it, which say where and how."""
        if self._context.walls is None and self._headed is not None and not self._context.claims:
            self._context.walls, bare = self._headed
            self._ledger.forget(bare)
            kinds = [one.kind for claim in bare for one in claim.inserts if isinstance(one, Ref)]
            self._context.heads = [Atom("act", 0, 0, act=LETTERS[kinds[0]] if kinds else "R")]

    def _lead_on(self, sentence: Sentence, statement: Statement) -> None:
        """Let "Then section 4." go on where the claims before it left the dance, and be no place of its own."""
        if not self._context.claims or statement.place is None or not only_leads_on(sentence, statement):
            return
        part = self._context.walls.part if self._context.walls is not None else ""
        first = first_named(sentence, statement.place)
        found = self._ledger.find(replace(first, before=True), part)
        if isinstance(found, Found) and all(claim.after == found.after for claim in self._context.claims[-1]):
            statement.place, statement.goes_on = None, True

    def _merge(self, waiting: Statement, statement: Statement) -> None:
        """Add to a statement what a sentence before said without its walls."""
        if statement.place is None and statement.walls is not None and statement.walls.at != "end":
            statement.place = waiting.place
        if not statement.acts and not statement.changes:
            added = statement.bodies and statement.walls is not None and statement.walls.at == "end"
            statement.acts = [act for act in waiting.acts if not (added and act.act == "R")]
        if waiting.place is None or not waiting.place.here:
            self._context.waiting = None

    def _claim(self, sentence: Sentence, statement: Statement) -> None:
        context = self._context
        told = bool(statement.acts)
        borrow_acts(context, sentence, statement)
        context.walls = statement.walls
        context.listed |= statement.place is not None and statement.place.share == 1 and statement.walls is not None
        if statement.acts:
            context.acts = [act for act in statement.acts if act.act != "Q"]
        made = Claimant(self._ledger, sentence, statement, context.unit, context.owner).make(context.place)
        context.replaced = [] if made else statement.replaced
        context.unclaimed = not made and statement.walls is not None and statement.walls.at == "end"
        context.faces = [] if made else [face for face in statement.faces if not face[1]]
        context.open = not made and statement.place is not None
        for claim in made:
            claim.borrowed = not told
            for before in context.claims[-1] if context.claims else ():
                straight = claim.change and claim.first == before.after + 1 and not before.inserts
                if straight and before.borrowed:
                    # "Dance up to count 14. Counts 15 and 16 are ...".
                    before.leave = "continue"
                elif straight and before.leave == "restart":
                    # "Restart: wall 5, after count 27. Replace 28-30 with ...": it is left after what is changed.
                    before.leave, claim.leave = "continue", "restart"
        if made and context.claims and statement.place is not None and _places(made, context.claims[-1]):
            # "The sixth wall begins at 9:00. Dance its first 12 counts and close with:", under "ENDING".
            self._ledger.forget(context.claims.pop())
        if made:
            context.sentence = sentence
            context.claims.append(made)
            self._claimed = made
        if statement.title is not None and statement.counted is not None:
            statement.place = statement.place or statement.counted.spec
        context.place = statement.place or context.place

    def _go_on(self, sentence: Sentence, statement: Statement) -> None:
        """Add a statement without walls or place to the claims before it: "Then start again, facing 12"."""
        claims = self._context.claims[-1]
        owner = self._owner()
        part = self._context.walls.part if self._context.walls is not None else ""
        faces = [facing for facing, _ in statement.faces]
        if statement.onward is not None and self._context.walls is not None:
            check_onward(self._ledger, statement.onward, self._context.walls.part, claims[0].after, set())
        told = False
        self._dance_otherwise(sentence, statement, claims, part)
        if only_goes_on(sentence, statement, claims, self._ledger.ruler(part)):
            return
        posed = any(body.poses and {"it", "pose"} & body.texts for body in statement.bodies[:1])
        if posed and any(claim.leave == "end" for claim in claims):
            # "... is the end of the dance. Hold it if you can!"
            statement.bodies = []
        _take_back_stops(statement, claims)
        _take_back_leaves(statement, claims)
        for place, claim in enumerate(claims):
            if statement.leave and claim.leave == "continue":
                claim.leave = LEAVES[statement.leave]
                left_after(self._ledger, claim, self._context.walls.part if self._context.walls else "")
            if faces and claim.facing is None:
                claim.facing = faces[place] if len(faces) == len(claims) else faces[0]
            for act in statement.inserts:
                if act.act == "H":
                    self._hold_there(sentence, claim, act)
                elif not _calls_for(claim, act):
                    call(self._ledger.extras, owner, act, claim, statement.bodies[0] if statement.bodies else None)
                    told = True
        if statement.again is not None and owner is None:
            more_steps(self._ledger, sentence, statement.again, claims, part)
        if statement.bodies and owner is None:
            self._steps_there(sentence, statement, claims, told=told)

    def _dance_otherwise(self, sentence: Sentence, statement: Statement, claims: Sequence[Claim], part: str) -> None:
        """Change what leads to a restart: "wall 3, count 4 of section 2. Instead of kicking step left"."""
        if danced_for_skipped(self._ledger, sentence, statement, claims, self._context.place, part):
            statement.bodies = []
            return
        if not statement.replaced or statement.inserts or not all(map(may_change, claims)):
            return
        steps = [*statement.bodies, *statement.replaced]
        if all(danced_otherwise(self._ledger, one, self._context.place, steps, part) for one in claims):
            statement.bodies = []

    def _steps_there(self, sentence: Sentence, statement: Statement, claims: Sequence[Claim], *, told: bool) -> None:
        """Let steps told after a claim be those of the ending there, or of the extra just called for."""
        body = statement.bodies[0]
        part = self._context.walls.part if self._context.walls is not None else ""
        ending = [claim for claim in claims if claim.leave == "end" and not claim.inserts]
        left = all(one.leave == "restart" and not (one.inserts or one.change) for one in claims)
        left = left and statement.leave == "R" and not told
        if left and sentence.letters.startswith(">") and not {"N", "V", "b"} & set(sentence.letters):
            # "You dance the first two eights only. Then step right, step left, and begin again."
            for claim in claims:
                call(self._ledger.extras, None, Atom("act", 0, 0, act="T"), claim, body)
        elif ending and not statement.inserts:
            for claim in ending:
                call(self._ledger.extras, None, Atom("act", 0, 0, act="X"), claim, body)
        elif not told:
            more_steps(self._ledger, sentence, body, claims, part)

    def _hold_there(self, sentence: Sentence, claim: Claim, act: Atom) -> None:
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

    def _owner(self) -> tuple[ExtraKind, str, int | None, object] | None:
        owner = self._context.owner
        return self._ledger.known.extras[owner] if owner is not None else None

    def _define(self, sentence: Sentence, statement: Statement) -> None:
        """Keep the steps of an extra whose place is told elsewhere: "Tag: stomp R, stomp L"."""
        told = [*statement.inserts, *self._context.acts, *self._context.heads]
        act = next((act for act in told if act.act in KINDS), None)
        if act is None or self._context.owner is not None:
            return
        if statement.again is not None:
            again = as_inline(self._ledger, sentence, statement.again, act, "")
            if isinstance(again, Inline):
                self._ledger.extras.add(again, act.number)
            return
        body = statement.bodies[0]
        self._ledger.extras.add(Inline(KINDS[act.act], "", act.counts or body.counts, body.tokens), act.number)


def _only_says_there_is_one(claim: Claim) -> bool:
    """Whether it was only said that a wall has a restart, a tag or a bridge: the place stands below it."""
    if not claim.implied or claim.change:
        return False
    bare = all(isinstance(one, Ref) and one.kind in ("tag", "bridge") and not one.name for one in claim.inserts)
    return bare and (bool(claim.inserts) == (claim.leave == "continue")) and claim.leave in ("continue", "restart")


_ADVISING = {"say", "shout", "think", "listen", "watch", "practise", "practice", "remember", "mind", "call"}


def _is_advice(sentence: Sentence, statement: Statement) -> bool:
    """Whether one is only told to say or to mind something: "Say it out loud BEFORE the heels, not after."."""
    more = statement.walls or statement.acts or statement.changes
    return sentence.tokens[0].low in _ADVISING and not more


def _face_there(statement: Statement, context: Context) -> None:
    """Let "You are facing 6 o'clock at that point." tell the facing of what was told before."""
    bare = not (statement.acts or statement.bodies or statement.changes)
    if statement.place is not None and statement.place.here and statement.faces and bare and context.claims:
        statement.place = None


def _leave_the_wall_before(statement: Statement) -> None:
    """Let "leave out the fourth eight and start wall 5" tell of the wall before that one."""
    leads = [act.number for act in statement.acts if act.act == "R" and act.number > 1]
    if statement.walls is None and leads and (statement.skips or (statement.place is not None and statement.only)):
        statement.walls = Atom("walls", 0, 0, walls=(leads[0] - 1,), span=statement.token.span)


def _take_back_stops(statement: Statement, claims: Sequence[Claim]) -> None:
    """Let a wall after the stop be danced: "The band stops at the end of wall 6. Hold 4 and begin wall 7."."""
    later = statement.inserts and any(act.act == "R" and act.number for act in statement.acts)
    onward = statement.goes_on and not statement.leave
    for claim in claims:
        if onward and claim.borrowed and claim.leave == "restart":
            # "Do sections 1 and 2 and then sway. Pick it up again at section 3": it was not left.
            claim.leave = "continue"
        if later and claim.leave == "end" and not claim.inserts:
            claim.leave = "continue"


def _take_back_leaves(statement: Statement, claims: Sequence[Claim]) -> None:
    """Let how a wall is left be told last: "it is broken off after the roll; ... and you start over"."""
    for claim in claims:
        begins_anew = claim.leave == "end" and statement.leave == "R" and not claim.inserts and not statement.inserts
        ends = claim.leave == "restart" and claim.borrowed and statement.leave == "Q" and not claim.inserts
        if begins_anew or ends:
            claim.leave = "continue"


def _is_called_restart(sentence: Sentence, act: Atom) -> bool:
    """Whether the word of the trade is used: "Return to section 1 on the new wall" closes every wall."""
    return sentence.words(act.first, act.last).lower().startswith(("restart", "re-start", "re start", "rs", "r/s"))


def _is_noun(sentence: Sentence, act: Atom) -> bool:
    """Whether a restart is a thing told of: "Start again!" below the steps is none."""
    first = sentence.lexemes[act.first].first
    before = sentence.tokens[first - 1].low if first else ""
    return sentence.tokens[first].low == "restarts" or before in ("a", "one", "the", "another", "that", "this")


def _places(made: Sequence[Claim], before: Sequence[Claim]) -> bool:
    """Whether claims only tell the place of what those before them put at the end, since none was told yet."""
    if len(made) != len(before):
        return False
    return all(
        one.borrowed and other.at_end and one.after < other.after and other.inserts and one.inserts == other.inserts
        for one, other in zip(made, before, strict=True)
    )


def _calls_for(claim: Claim, act: Atom) -> bool:
    """Whether a claim calls for the extra already: "Tag after wall 2. The tag has 4 counts"."""
    return not act.number and any(isinstance(one, Ref) and one.kind == KINDS[act.act] for one in claim.inserts)
