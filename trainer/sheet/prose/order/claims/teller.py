"""From the statements of all sentences to claims: what one leaves out is taken from those before it.

A heading such as "RESTARTS:" or "There is one tag." says what the sentences after it are about, until another does.
"""

import re
from dataclasses import replace

from trainer.routine import Insert, Span
from trainer.sheet.prose.order.claims.by_names import for_those_not_danced, place_by_names
from trainer.sheet.prose.order.claims.claimant import Claimant
from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.claims_after import (
    ends_there,
    go_on_with_the_change,
    only_place,
    only_says_there_is_one,
)
from trainer.sheet.prose.order.claims.context import Context, borrow_acts, within_its_section
from trainer.sheet.prose.order.claims.danced_again import as_inline
from trainer.sheet.prose.order.claims.ends_reached import ends_here, place_what_is_reached
from trainer.sheet.prose.order.claims.extras import KINDS, LETTERS, Ref
from trainer.sheet.prose.order.claims.hinted import hinted
from trainer.sheet.prose.order.claims.in_doubt import leave_in_doubt
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.left_out import only_tells_what_is_left
from trainer.sheet.prose.order.claims.left_over import put_at_the_end
from trainer.sheet.prose.order.claims.loose import settle_loose
from trainer.sheet.prose.order.claims.measured import only_measures
from trainer.sheet.prose.order.claims.more_told import begins_the_next, go_on
from trainer.sheet.prose.order.claims.opening_words import only_tells_the_stance
from trainer.sheet.prose.order.claims.reached import left_there, only_goes_so_far, take_length
from trainer.sheet.prose.order.claims.remarks import (
    is_advice,
    is_called_restart,
    is_noun,
    is_of_the_rest,
    only_begins_again,
    only_defines,
    only_fades,
    only_says_that,
)
from trainer.sheet.prose.order.claims.same import (
    adds_to_it,
    call_for_the_same,
    kept,
    put_in_as_on,
    repeated,
    repeats,
    says_the_same,
)
from trainer.sheet.prose.order.claims.settled import (
    face_in_its_part,
    face_there,
    keep_open_place,
    lead_on,
    leave_the_odd_one,
    leave_the_wall_before,
    mean_all_of_them,
    place_by_its_steps,
)
from trainer.sheet.prose.order.claims.told_first import ToldFirst
from trainer.sheet.prose.order.claims.turning_on import steps_only
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.holds import hold_instead, holds_told_once, only_says_there_is
from trainer.sheet.prose.order.statements.statement import (
    Statement,
    length_for_place,
    more_of_the_next,
)
from trainer.sheet.prose.order.statements.stops import closes_there

_SEVERAL = {"tags", "restarts", "bridges", "breaks", "extras"}
"""A heading with one of them may name kinds each of which is told by itself."""


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

    @property
    def walls(self) -> Atom | None:
        """The walls that the sentences of this line so far tell of."""
        return self._context.walls

    @property
    def tells_of_walls(self) -> bool:
        """Whether the sentences of this line so far tell of some wall."""
        return self._context.walls is not None and self._context.walls.at != "end"

    def line(self, unit: int, owner: int | None) -> None:
        """Begin another line; `owner` is the index of the extra that it heads."""
        self.close()
        before = self._context
        claims = before.claims[0] if len(before.claims) == 1 else []
        bare = claims if all(map(only_says_there_is_one, claims)) else []
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
        if owner is not None:
            # "CHANGE AND RESTART" over the line that leads to the steps of the change.
            changed = self._ledger.known.extras[owner][0] == "change"
            heads = [act for act in heads if changed and act.act == "R"]
        several = before.several and bool(heads)
        self._context = Context(unit, owner, walls=walls, heads=heads, several=several, waiting=waiting)

    def close(self) -> None:
        """Leave the wall of which it was only told how far it goes."""
        if self._context.reached is not None and not self._context.claims:
            sentence, statement = self._context.reached
            statement.walls = statement.walls or self._context.walls
            self._claim(sentence, left_there(statement))
        self._context.reached = None
        leave_in_doubt(self._ledger, self._context)

    def retract(self) -> None:
        """Forget the latest statement of this line: "... no, just restart"."""
        if self._context.claims:
            self._ledger.forget(self._context.claims.pop())

    def take(self, sentence: Sentence, statement: Statement) -> None:
        """Take one statement of the line."""
        self._ledger.total = max(self._ledger.total, statement.total)
        self._context.keep(sentence, statement)
        self._head_anew(sentence)
        if statement.walls is not None and statement.walls.every == "them":
            meant = self._context.walls
            statement.walls = replace(meant, at="end") if meant is not None else None
        leave_the_wall_before(statement)
        place = statement.place
        fades = [act.act for act in statement.acts] == ["Q"]
        if place is not None and place.here and fades and not self._ledger.mid_dance(place.here):
            # "The song fades here" below the dance is at no place.
            statement.place = None
        self._first.take(sentence, statement, self._context)
        if self._passes_over(sentence, statement) or begins_the_next(self._ledger, self._context, sentence, statement):
            return
        face_in_its_part(self._context, statement)
        place_by_its_steps(self._ledger, self._context, statement)
        take_length(self._context, sentence, statement)
        put_at_the_end(self._context, sentence, statement)
        settle_loose(sentence, statement, self._context.heads)
        statement.acts = holds_told_once(sentence, statement)
        mean_all_of_them(self._context, sentence, statement)
        leave_the_odd_one(self._context, sentence, statement)
        self._latest = put_in_as_on(sentence, self._ledger.walls) or self._latest
        same = bool(self._latest) and says_the_same(sentence, statement)
        if same:
            kinds = {act.act for act in statement.acts}
            self.announced = [one for one in self.announced if one[0] not in kinds]
            call_for_the_same(statement)
        length_for_place(sentence, statement)
        within_its_section(self._context, statement, self._ledger.known.phrase)
        more_of_the_next(sentence, statement)
        if self._claimed and repeats(sentence, statement):
            self._context.claims.append(repeated(self._ledger, statement, self._claimed, self._context.unit))
            return
        self._end_at_its_steps(sentence, statement)
        if statement.walls is None and only_defines(self._context, sentence, statement):
            self._define(sentence, statement)
            return
        if statement.walls is None:
            self._without_walls(sentence, statement)
            return
        if self._context.waiting is not None:
            self._merge(self._context.waiting, statement)
        place_by_names(self._ledger, self._context, sentence, statement)
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

    def _end_at_its_steps(self, sentence: Sentence, statement: Statement) -> None:
        """Let the dance end at the steps that are named before those of the ending."""
        if statement.replaced:
            hold_instead(sentence, statement)
        context, walls = self._context, statement.walls or self._context.walls
        open_end = any(one.leave == "end" and not one.inserts for one in (context.claims or [[]])[-1])
        if ends_here([*statement.acts, *context.acts, *context.heads]) or open_end:
            place_what_is_reached(self._ledger, sentence, statement, walls.part if walls is not None else "")

    def _passes_over(self, sentence: Sentence, statement: Statement) -> bool:
        """Take note of a statement that is a remark, or only says what there is; whether it was one."""
        if statement.acts and statement.walls is None and all(act.declares for act in statement.acts):
            self._announce(sentence, statement)
            return True
        if re.match(r"[TGX]=n-?c?[,.]?$", sentence.letters):
            # "Tag = 4 counts" calls for none.
            self._announce(sentence, statement)
            return True
        if only_measures(self._ledger, self._context, sentence, statement) or only_tells_what_is_left(
            self._ledger, self._context, statement
        ):
            return True
        if only_tells_the_stance(sentence, statement) or is_advice(sentence, statement):
            return True
        if only_says_that(self._context, sentence, statement):
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
        if is_of_the_rest(self._context, sentence, statement):
            return True
        if statement.only_begins:
            # "From there every wall begins at one of the two sides" is a remark.
            return True
        if only_says_there_is(statement):
            # "Hold on wall 5! ... Hold two counts there" tells first in which wall.
            self._context.walls = statement.walls
            return True
        if only_fades(self._context, statement):
            self._context.walls = self._context.named = statement.walls
            act = statement.acts[0]
            slows = "slow" in sentence.words(act.first, act.last).lower()
            if statement.walls is not None and not statement.goes_on and not slows:
                self._ledger.fades(statement.walls, self._context.unit)
            self._context.acts = [replace(statement.acts[0], act="X")]
            return True
        return only_begins_again(self._context, sentence, statement)

    def _head_anew(self, sentence: Sentence) -> None:
        """Begin on another extra where a sentence is headed by it: "... go on. ENDING: ..."."""
        claims = [claim for made in self._context.claims for claim in made]
        headed = sentence.letters.startswith("X:") and self._context.owner is None
        if headed and sentence.tokens[0].low == "to" and ends_there(self._context.claims):
            return
        if headed and claims and not any(claim.leave == "end" for claim in claims):
            self._context = Context(self._context.unit)

    def _announce(self, sentence: Sentence, statement: Statement) -> None:
        # "Tag = 4 counts" says how long it is, and heads nothing.
        heads = [act for act in statement.acts if sentence.letters[act.last : act.last + 1] != "="]
        self._context.acts = [act for act in heads if act.act != "Q"] or self._context.acts
        starts = [act for act in statement.acts if act.act == "R"]
        self._context.several |= any(token.low in _SEVERAL for token in sentence.tokens)
        self._context.anew = bool(starts) and not any(is_called_restart(sentence, act) for act in starts)
        if self._context.owner is None:
            told = [act for act in statement.acts if act.declares or act.act != "R" or is_noun(sentence, act)]
            self.announced += [(act.act, sentence.span(act.first, act.last)) for act in told]

    def _without_walls(self, sentence: Sentence, statement: Statement) -> None:
        """A statement without walls: of those said before, or more of the claim before, or of walls still to come."""
        context = self._context
        face_there(statement, context)
        lead_on(self._ledger, self._context, sentence, statement)
        told = self._is_placed(sentence, statement)
        if told and context.walls is not None:
            if context.walls.every == "short" and statement.bodies and context.claims:
                # "A* is only eight counts long. Dance A as far as ..." tells the same more fully.
                self._ledger.forget(context.claims.pop())
            statement.walls = context.walls
            if context.replaced and statement.bodies and not (statement.replaced or statement.inserts):
                statement.replaced = list(context.replaced)
            self._claim(sentence, statement)
        elif self._tells_for_others(sentence, statement):
            statement.walls, statement.replaced = context.walls, [*context.replaced, *statement.replaced]
            place_by_names(self._ledger, self._context, sentence, statement)
            self._claim(sentence, statement)
        elif context.claims and not (context.unclaimed and statement.bodies):
            go_on(self._ledger, self._context, sentence, statement)
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
            # "Then begin the dance again from section 1." below the steps of a tag waits for no wall.
            again = statement.place is None and sentence.letters.startswith(">R")
            only_begins = again and len(sentence.letters.rstrip(".!")) > len(">R")
            kinds = any(token.low in _SEVERAL for token in sentence.tokens) and bool(statement.inserts)
            if statement.place is not None or (statement.leave and not only_begins and not kinds):
                context.waiting = statement
            self._announce(sentence, statement)

    def _tells_for_others(self, sentence: Sentence, statement: Statement) -> bool:
        """Whether a statement tells what is danced for steps that another says are not."""
        context = self._context
        if context.replaced and context.walls is not None:
            hold_instead(sentence, statement)
        return for_those_not_danced(context, statement)

    def _is_placed(self, sentence: Sentence, statement: Statement) -> bool:
        """Whether a statement tells a place, or takes the one told before it."""
        context = self._context
        keep_open_place(self._ledger, context, statement)
        told = statement.place is not None or statement.change is not None or statement.title is not None
        if told:
            self._take_head()
        leaves = bool(statement.leave) and not told and not context.claims and context.walls is not None
        if leaves and context.place is not None:
            # "On wall 6 as far as the sailor (32 counts). Start again from there."
            told, statement.place = True, context.place
        elif leaves and not statement.inserts and context.walls is not None and context.walls.at != "end":
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
        reached = only_goes_so_far(context, sentence, statement)
        borrow_acts(context, sentence, statement)
        context.walls = statement.walls
        context.listed |= statement.place is not None and statement.place.share == 1 and statement.walls is not None
        if statement.acts:
            context.acts = [act for act in statement.acts if act.act != "Q"]
        made = Claimant(self._ledger, sentence, statement, context.unit, context.owner).make(context.place)
        bare = all(not (one.inserts or one.change) and one.leave == "continue" for one in made)
        context.replaced = statement.replaced if bare and not statement.bodies else []
        if made:
            context.bare, context.short = [], False
        elif statement.walls is not None and statement.walls.walls:
            context.bare.append(statement.walls)
        context.unclaimed = not made and statement.walls is not None and statement.walls.at == "end"
        context.faces = [] if made else [face for face in statement.faces if not face[1]]
        context.open = not made and statement.place is not None
        if reached and not made:
            context.reached = (sentence, statement)
        for claim in made:
            claim.borrowed = not told
            go_on_with_the_change(context.claims[-1] if context.claims else (), claim)
        if made and context.claims and statement.place is not None and only_place(made, context.claims[-1]):
            # "The sixth wall begins at 9:00. Dance its first 12 counts and close with:", under "ENDING".
            self._ledger.forget(context.claims.pop())
        if made:
            context.went_on = statement.goes_on and not statement.leave
            context.sentence = sentence
            context.claims.append(made)
            self._claimed = made
        if statement.title is not None and statement.counted is not None:
            statement.place = statement.place or statement.counted.spec
        context.place = statement.place or context.place

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
