"""From a statement whose walls are known to claims: places become counts, steps extras, facings find their wall."""

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.routine import Insert
from trainer.sheet.prose.order.claims.by_names import after_steps_named, when_turned
from trainer.sheet.prose.order.claims.calling import (
    call,
    called_as_there,
    change_in_its_section,
    check_onward,
    counts_the_extra,
)
from trainer.sheet.prose.order.claims.carried import carried_on
from trainer.sheet.prose.order.claims.claims import Claim, Key, Wall, order_problem
from trainer.sheet.prose.order.claims.danced_again import as_inline
from trainer.sheet.prose.order.claims.ends_once import end_only_the_last
from trainer.sheet.prose.order.claims.extras import Ref
from trainer.sheet.prose.order.claims.hinted import hinted
from trainer.sheet.prose.order.claims.in_sections import in_sections
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.left_out import left_out
from trainer.sheet.prose.order.claims.otherwise import placed_by_steps, says_for_what
from trainer.sheet.prose.order.claims.placed import changed_range, place_of
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Fault, Found, Spec
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.bodies import Body, body_of
from trainer.sheet.prose.order.statements.holds import between_hold_and, hold_filled, only_hands, only_leads_on
from trainer.sheet.prose.order.statements.statement import Statement
from trainer.sheet.prose.order.statements.stops import names_the_last, only_stops
from trainer.terms import ExtraKind, LeaveKind

LEAVES: dict[str, LeaveKind] = {"R": "restart", "Q": "end", "n": "next", "": "continue"}


_LABEL = re.compile(r"[(,]?[IYy]{0,2}f\)?[:,\-]")
"""A facing straight after its wall, and what is told of that after a mark."""


class Claimant:
    """Makes the claims of one statement."""

    def __init__(self, ledger: Ledger, sentence: Sentence, statement: Statement, unit: int, owner: int | None) -> None:
        assert statement.walls is not None
        self._ledger = ledger
        self._sentence = sentence
        self._statement = statement
        self._unit = unit
        self._owner = ledger.known.extras[owner] if owner is not None else None
        self._reported: set[str] = set()
        self._part = ""
        self._walls = statement.walls
        self._span = self._walls.span or statement.token.span
        change_in_its_section(sentence, statement)

    def make(self, before: Spec | None) -> list[Claim]:
        """Make a claim for each wall; `before` is the place said before in the same line."""
        if self._walls.nth is not None and not self._says_more and self._statement.place is None:
            # "For a wall begun at 12:00" tells of no wall.
            return []
        keys, wrong = self._ledger.passes(self._walls)
        if wrong:
            self._ledger.problems.append(order_problem(self._span, wrong))
        elif not keys and self._says_more:
            self._ledger.unread.append(self._span)
        self._hold_next(keys)
        made = []
        for place, key in enumerate(keys):
            claim = self._claim(key, before, first=place == 0)
            if claim is None:
                continue
            wall = self._ledger.wall(key, self._span, self._unit)
            self._face(wall, claim, place, len(keys))
            if self._says_more:
                wall.claims.append(claim)
                made.append(claim)
        end_only_the_last(made, self._ledger.ruler(self._part).length)
        return made

    def _hold_next(self, keys: Sequence[Key]) -> None:
        """Hold "then begin the fourth wall" against the wall that was told of."""
        leads = [act for act in self._statement.acts if act.act == "R" and act.number]
        if len(keys) == 1 and not keys[0][0] and leads and leads[0].number != keys[0][1] + 1:
            number = keys[0][1]
            message = f"After wall {number} comes wall {number + 1}, not wall {leads[0].number}"
            # A statement may have been begun in the sentence before: its words are no lexemes of this one.
            here = leads[0] in self._sentence.atoms
            span = self._sentence.span(leads[0].first, leads[0].last) if here else self._span
            self._ledger.report(Fault(message, span), self._reported)

    @property
    def _says_more(self) -> bool:
        """Whether more is said than with what the wall begins."""
        told = self._statement
        return bool(told.acts or told.changes or told.bodies or self._owner is not None or told.goes_on)

    def _claim(self, key: Key, before: Spec | None, *, first: bool) -> Claim | None:
        self._part = key[0]
        found = place_of(self._ledger, self._statement, self._owner, key[0], before)
        found = in_sections(self._ledger, self._sentence, self._statement, key, found)
        if found is None and self._statement.leave in ("R", "n") and not self._statement.inserts:
            found = self._hinted(key)
        if isinstance(found, Fault) and not self._says_more and counts_the_extra(self._ledger, self._statement, key[0]):
            return None
        if isinstance(found, Fault):
            self._ledger.report(found, self._reported)
            if not key[0]:
                self._ledger.lost.append(key[1])
            return None
        if found is None:
            if (
                claim := placed_by_steps(self._ledger, self._sentence, self._statement, self._unit, key[0])
            ) is not None:
                claim.leave = LEAVES[self._statement.leave]
                return claim
            if first:
                self._unplaced(key)
            return None
        told = self._statement
        if told.skips and not self._skips_to_the_end(key[0]):
            claim = Claim(self._span, self._unit, found.after, found.before)
            return left_out(self._ledger, self._sentence, claim, told, key)
        at_end = told.place is None and found.after == self._ledger.ruler(key[0]).length
        # "Wall 5: dance counts 1-28, then:" over four counts is danced for the last four.
        leave = "restart" if self._fills_the_wall(found, key[0]) else LEAVES[told.leave]
        claim = Claim(self._span, self._unit, found.after, found.before, at_end, leave=leave)
        claim.skips = told.skips
        more = "k" in self._sentence.letters[self._walls.last : self._walls.last + 3]
        # "Tag after walls 1, 3 and 5, but on wall 5 do it twice": it comes there once more.
        claim.implied = at_end and self._walls.at != "end" and not more
        if told.changes or self._owns("change"):
            self._change(claim, key, told.place or before)
        if (
            not claim.change
            and self._owner is None
            and not says_for_what(self._ledger, self._sentence, told, claim, key)
        ):
            return None
        self._insert(claim)
        self._check_onward(key[0], found)
        counted = told.counted.spec if told.counted is not None else None
        # "Sets 1 and 2 (through 8a)" counts within the set.
        phrase = self._ledger.known.phrase
        within = counted is not None and counted.count == (found.after - 1) % phrase + 1
        if counted is not None and counted.count != found.after and not within:
            message = f"The place comes after {found.after} counts, not {counted.count}"
            self._ledger.report(Fault(message, counted.span), self._reported)
        return claim

    def _hinted(self, key: Key) -> Found | Fault | None:
        """The place that the sentence tells in passing; what names it is danced as ever."""
        if (named := after_steps_named(self._ledger, self._sentence, self._statement, key)) is not None:
            return named
        if (turned := when_turned(self._ledger, self._sentence, self._statement, key)) is not None:
            return turned
        part = key[0]
        spec = hinted(self._ledger, self._sentence, part)
        if spec is None:
            return None
        self._statement.place, self._statement.bodies = spec, []
        return self._ledger.find(spec, part)

    def _skips_to_the_end(self, part: str) -> bool:
        """Whether nothing is danced after the sections left out, or the sentence says that the wall ends."""
        spec = self._statement.place
        if spec is not None and spec.upto_count is not None:
            return spec.upto_count == self._ledger.ruler(part).length
        if spec is None or spec.upto is None or any(act.act == "R" and act.last for act in self._statement.acts):
            return True
        end = self._ledger.find(replace(spec, section=spec.upto, before=False, upto=None), part)
        return not isinstance(end, Found) or end.after == self._ledger.ruler(part).length

    def _unplaced(self, key: Key) -> None:
        """A restart without a place: a fault of the sheet if nothing is said of it, else words not understood."""
        said = self._statement.place is not None or "?" in self._sentence.letters
        if self._statement.leave and self._owner is None and not said:
            what = f"wall {key[1]}" if not key[0] else f"{key[0]} number {key[1]}"
            message = f"It is not said after which count {what} restarts"
            self._ledger.unplaced.append((key, order_problem(self._span, message, 'Say "after 16 counts"')))
        elif self._statement.acts:
            self._ledger.unplaced.append((key, self._span))

    def _owns(self, kind: ExtraKind) -> bool:
        return self._owner is not None and self._owner[0] == kind

    def _insert(self, claim: Claim) -> None:
        """Give a claim the extras that are danced at its place."""
        told = self._statement
        bodies = list(told.bodies) if not claim.change else []
        named = [act for act in told.inserts if act.act != "H" and not self._is_a_hold(act)]
        if not named:
            bodies = self._filling_holds(bodies)
        if any(act.act == "H" for act in told.inserts):
            ruler = self._ledger.ruler(self._part)
            bodies = [body for body in bodies if not only_leads_on(body, ruler, claim.after, self._sentence)]
        if bodies and not named:
            bodies = self._with_hold_first(bodies)
        if any(act.act in "XQ" for act in told.acts):
            ruler = self._ledger.ruler(self._part)
            bodies = [body for body in bodies if not names_the_last(self._sentence, body, ruler, claim.after)]
        if told.inserts and not named:
            bodies = [body for body in bodies if not body.holds]
        if not named and self._owner is not None and self._owner[0] not in ("intro", "change"):
            claim.inserts.append(Ref(self._owner[0], claim.span, name=self._owner[1]))
        elif bodies and not named:
            self._unnamed(claim, bodies[0])
            bodies = []
        self._call_all(claim, named, bodies)
        if any(act.act == "X" for act in named) or self._owns("ending"):
            claim.leave = "end"

    def _call_all(self, claim: Claim, named: Sequence[Atom], bodies: list[Body]) -> None:
        """Give a claim the holds and the extras that are named, with the steps that are told of them in turn."""
        told = self._statement
        for act in told.inserts:
            is_named = act in named
            if act.times == len(told.walls.walls if told.walls else ()):
                # "Tag x2, end of walls 3 and 6" says how many there are.
                act = replace(act, times=1)
            if act.act == "H":
                claim.inserts.append(Insert(kind="hold", counts=act.counts or 1))
            elif is_named:
                repeats = act.act != "X" or named == [act]
                body = (self._again(act) if repeats else None) or (bodies.pop(0) if bodies else None)
                call(self._ledger.extras, self._owner, act, claim, body)

    def _filling_holds(self, bodies: list[Body]) -> list[Body]:
        """Take steps that fill a hold for what is danced in it, claps without counts of their own for a part of it."""
        for body in list(bodies):
            hold = hold_filled(self._sentence, self._statement, body)
            if hold is None:
                continue
            if hold.counts in self._ledger.known.lasts(body.tokens):
                self._statement.acts = [act for act in self._statement.acts if act is not hold]
            elif only_hands(body):
                bodies = [one for one in bodies if one is not body]
        return bodies

    def _with_hold_first(self, bodies: list[Body]) -> list[Body]:
        """Take a hold told right before steps for the first of them: "hold two counts, then rock right, recover"."""
        told = self._statement
        for act in told.acts:
            straight = between_hold_and(self._sentence, act, bodies[0])
            opens = self._sentence.letters[act.first : act.first + 1] == "H" and bool(straight)
            if act.act == "H" and act.counts and act.last <= bodies[0].first and opens and set(straight) <= set(",>&"):
                body = body_of(self._sentence, act.first, bodies[0].last)
                if body is not None:
                    told.acts = [one for one in told.acts if one is not act]
                    told.bodies = [body if one is bodies[0] else one for one in told.bodies]
                    return [body, *bodies[1:]]
        return bodies

    def _is_a_hold(self, act: Atom) -> bool:
        """Whether an extra is no more than the hold told after it: "tag at the end of wall 2: hold 4 counts"."""
        told = self._statement
        if told.bodies or told.again is not None or self._owner is not None or act.act not in "TG":
            return False
        holds = [one for one in told.acts if one.act == "H" and one.counts and one.first > act.first]
        # A hold carried from another sentence may stand beyond the end of this one.
        before = self._sentence.letters[holds[0].first - 1 : holds[0].first] if holds else ""
        return bool(before) and before not in ">&"

    def _again(self, act: Atom) -> Inline | None:
        """The extra that an act names where it is counts of the dance danced once more."""
        again = self._statement.again
        if again is None or act.act not in "TGX":
            return None
        found = as_inline(self._ledger, self._sentence, again, act, self._part)
        if isinstance(found, Fault):
            self._ledger.report(found, self._reported)
            return None
        return found

    def _unnamed(self, claim: Claim, body: Body) -> None:
        """Steps without a name: an ending where the dance stops, else a tag."""
        told = self._statement
        replaces = "V" in self._sentence.letters
        replaces = replaces or "b" in self._sentence.letters or "N" in self._sentence.letters
        is_now = replaces or _is_told(self._sentence, body)
        if (told.leave in ("R", "n") or is_now) and self._carries_on(claim, body, replaces=replaces):
            return
        if replaces and told.leave == "R":
            # What is danced instead cannot be told from here: "the step that follows, instead of closing, is ...".
            return
        if told.leave == "Q":
            if not body.poses:
                call(self._ledger.extras, None, Atom("act", 0, 0, act="X"), claim, body)
        elif not body.bows and (
            not told.leave
            or told.body_before_leave
            or (told.walls is not None and told.walls.every == "short")
            or (told.leave == "R" and only_stops(self._sentence, told))
        ):
            call(self._ledger.extras, None, Atom("act", 0, 0, act="T"), claim, body)
            claim.unnamed = body

    def _carries_on(self, claim: Claim, body: Body, *, replaces: bool) -> bool:
        found = carried_on(self._ledger, claim, self._part, body, replaces=replaces)
        if isinstance(found, Fault):
            self._ledger.report(found, self._reported)
        return found is True

    def _change(self, claim: Claim, key: Key, before: Spec | None) -> None:
        """Make a claim one of changed counts."""
        told = self._statement
        spec = told.change or (told.place if self._owns("change") else None)
        if spec is None or (spec.here and spec.here < self._sentence.tokens[-1].line):
            # A mark at the steps points to where others begin.
            self._change_from_here(claim)
            return
        if (
            told.skips
            and self._owner is not None
            and self._change_of_skipped(claim, self._owner[1], self._owner[2] or 0)
        ):
            return
        spec = called_as_there(self._ledger, spec, key[0], before)
        found = changed_range(self._ledger, spec, key[0], claim.after if told.place is not None else None)
        if not isinstance(found, Found):
            if found is not None:
                self._ledger.report(found, self._reported)
            return
        name, found = self._change_name(found, key[0])
        if not name:
            return
        apart = claim.after not in (found.after, found.first - 1)
        if told.place is not None and not self._owns("change") and apart and told.leave:
            # The wall is left later than at the change: two departures of one statement.
            extra = Claim(claim.span, claim.unit, found.after, change=name, first=found.first)
            self._ledger.wall(key, claim.span, self._unit).claims.append(extra)
            return
        claim.change, claim.first, claim.after = name, found.first, found.after

    def _change_of_skipped(self, claim: Claim, name: str, counts: int) -> bool:
        """Let "Figure 8 is not danced. Instead:", over its own steps, replace so many of the counts left out."""
        last = claim.after + counts
        if not counts or last > self._ledger.ruler(self._part).length:
            return False
        claim.change, claim.first, claim.after = name, claim.after + 1, last
        claim.skips, claim.at_end = False, False
        return True

    def _change_from_here(self, claim: Claim) -> None:
        """Let "14, then the change, then restart" replace the counts after the place by the sheet's own change."""
        named = self._ledger.extras.named("change")
        length = self._ledger.ruler(self._part).length
        told = self._statement
        if told.place is None or told.bodies or len(named) != 1:
            return
        name, counts = named[0]
        first, last = claim.after + 1, claim.after + (counts or 0)
        known = self._ledger.known
        if counts and (claim.after - counts) % known.phrase + 1 == known.begins.get(name, 1) > 1:
            # "Sections 1 and 2 with the changed ending", which is counted 7-8.
            first, last = claim.after - counts + 1, claim.after
        if first <= last <= length:
            claim.change, claim.first, claim.after = name, first, last

    def _fills_the_wall(self, found: Found, part: str) -> bool:
        """Whether the steps below a sentence that says how much of a wall is danced make up the rest of it."""
        told = self._statement
        if (
            self._owner is None
            or self._owner[0] not in ("tag", "bridge")
            or not told.only
            or told.goes_on
            or told.leave
        ):
            return False
        named = any(act.act in "TG" for act in told.acts)
        return not named and found.after + (self._owner[2] or 0) == self._ledger.ruler(part).length > found.after

    def _change_name(self, found: Found, part: str) -> tuple[str, Found]:
        """The name of the change meant, and its range, which a block's length may widen."""
        extras = self._ledger.extras
        if self._owner is not None and self._owner[0] == "change":
            counts = self._owner[2]
            if counts and found.first == found.after:
                found = replace(found, first=found.after - counts + 1)
            begins = found.first + self._ledger.known.begins.get(self._owner[1], 1) - 1
            if counts and found.first < begins <= found.after - counts + 1:
                # "Figure 2 ends like this instead:", and below it are counts 7 and 8.
                found = replace(found, first=begins, after=begins + counts - 1)
            return self._owner[1], found
        if self._statement.bodies:
            body = self._statement.bodies[0]
            first, last = found.first, found.after
            return extras.add(Inline("change", "", last - first + 1, body.tokens, first, last, part), 0), found
        named = extras.named("change")
        return (named[0][0] if named else ""), found

    def _check_onward(self, part: str, place: Found) -> None:
        """Hold "then carry on with count 17" against the place."""
        if self._statement.onward is not None:
            check_onward(self._ledger, self._statement.onward, part, place.after, self._reported)

    def _face(self, wall: Wall, claim: Claim, place: int, many: int) -> None:
        """Give a wall and a claim the facings stated."""
        faces: list[tuple[Fraction, bool]] = self._statement.faces
        if many > 1 and len(faces) == many:
            # "Which start at 3:00 and 6:00": the word stands once for all.
            faces = [(faces[place][0], faces[place][1] or faces[0][1])]
        for at, (facing, begins) in enumerate(faces):
            begins = begins or (at == 0 and len(faces) > 1 and self._is_labelled)
            if not begins and not self._says_more and (self._walls.at == "end" or self._is_placed):
                continue
            plain = claim.after >= wall.length and not claim.inserts and not claim.change and claim.leave != "end"
            begins = begins or self._is_the_start(wall, claim, facing)
            if self._statement.brings and not begins:
                claim.facing = facing if claim.facing is None else claim.facing
            elif begins or (self._walls.at != "end" and (not self._says_more or (plain and self._statement.only))):
                wall.starts = facing if wall.starts is None else wall.starts
            elif claim.facing is None:
                claim.facing = facing

    @property
    def _is_labelled(self) -> bool:
        """Whether a facing is a label of the wall: "wall 4 (12:00): complete, then the tag at 6:00"."""
        return self._walls.at != "end" and bool(_LABEL.match(self._sentence.letters, self._walls.last))

    @property
    def _is_placed(self) -> bool:
        """Whether it is told where in the wall one is: "having made the half turn of figure 4 you are at 6:00"."""
        place = self._statement.place
        return place is not None and place.share is None

    def _is_the_start(self, wall: Wall, claim: Claim, facing: Fraction) -> bool:
        """Whether "wall 2 (6:00): all of it, then the tag" names the facing that the wall begins with."""
        if self._walls.at == "end" or wall.key[0] or claim.after < wall.length:
            return False
        return self._ledger.start_of(wall.key[1]) == facing


def _is_told(sentence: Sentence, body: Body) -> bool:
    """Whether steps say what some counts are: "to count 14, then 15-16 is R behind L"."""
    lows = [token.low for token in sentence.tokens[sentence.lexemes[body.first].first :][:6]]
    return bool({"is", "are"} & set(lows)) and body.tokens[0].kind == "number"
