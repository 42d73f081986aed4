"""The phrases of a sentence put together: on these walls, at this place, these things are done, facing there.

"Restart: W3 after 16, W5 after 8" are two statements with one thing done; "wall 5: after 19 the bridge, after 28 hold
2" are two of one wall. A statement keeps what its sentence says; `teller.py` fills in what is left out.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.again import is_again, is_twice, only_explains
from trainer.sheet.prose.order.statements.bodies import Body, bodies_of, outside
from trainer.sheet.prose.order.statements.holds import steps_beside_holds
from trainer.sheet.prose.order.statements.lead_acts import only_starts, restarts_one, starts_next
from trainer.sheet.prose.order.statements.opens import opens
from trainer.sheet.prose.order.statements.restated import (
    counts_in_brackets,
    counts_told_before,
    names_the_step,
    only_name_steps,
)
from trainer.sheet.prose.order.statements.statement import (
    INSERTS,
    LEAVES,
    Statement,
    are_same_walls,
    changes_there,
    goes_on_there,
    is_called_last,
    is_finer,
    is_further,
    leads_on,
    lies_there,
    numbers_before_facings,
    section_of,
    walls_follow,
)
from trainer.sheet.prose.order.statements.stops import (
    closes_the_telling,
    is_the_end,
    names_same,
    only_halts,
    wall_stops,
)


def _is_left_likewise(before: Statement, one: Statement, letters: str) -> bool:
    """Whether only the facing is told of a wall, as of one that restarts: "wall 3 restarts to 3:00, wall 6 to 6:00".

    That "wall 6 is a front wall again" tells how it begins.
    """
    if one.walls is None or "U" not in letters[one.walls.last : one.walls.last + 2]:
        return False
    told = one.acts or one.place or one.changes or one.bodies or one.goes_on or one.begins
    turned = all(stated.faces and not any(starts for _, starts in stated.faces) for stated in (before, one))
    return before.walls is not None and before.leave == "R" and turned and not told


def statements_of(sentence: Sentence) -> list[Statement]:
    """Return the statements of a sentence in order."""
    bodies = steps_beside_holds(sentence, bodies_of(sentence))
    parts: list[Atom | Body] = sorted([*outside(sentence, bodies), *bodies], key=lambda part: part.first)
    parts = numbers_before_facings(sentence, parts)
    builder = _Builder(sentence, parts)
    for at in range(len(parts)):
        builder.take(at)
    return [one for one in builder.done() if one.says_something or one.loose]


class _Builder:
    """Takes the phrases of a sentence one by one and begins a new statement where one is complete."""

    def __init__(self, sentence: Sentence, parts: Sequence[Atom | Body]) -> None:
        self._sentence = sentence
        self._parts = parts
        self._statements: list[Statement] = []
        self._now = Statement(sentence.tokens[0])
        self._lead: list[Atom] = []
        self._place_first: bool | None = None
        self._onward_at = -1
        self._shared: list[tuple[Fraction, bool]] = []
        """Facings told for all walls of the sentence: "each time facing the front"."""

    def done(self) -> list[Statement]:
        """Return the statements; an act told first goes for all that have none of their own."""
        statements = [*self._statements, self._now]
        for one in statements:
            told = one.place or (one.walls and not one.goes_on)
            if (
                not one.acts
                and not one.changes
                and self._lead
                and told
                and not only_starts(self._sentence, one, statements)
            ):
                one.acts = list(self._lead)
        if any(act.act == "R" and not restarts_one(self._sentence, act, statements) for act in self._lead):
            for one in statements[1:]:
                at_end = one.walls is not None and one.walls.at == "end"
                if one.acts and not one.leave and not one.goes_on and (one.place or one.loose) and not at_end:
                    one.acts.append(next(act for act in self._lead if act.act == "R"))
        for before, one in pairwise(statements):
            if starts_next(before, one):
                one.acts, one.faces = [], [(facing, True) for facing, _ in one.faces]
        self._share(statements)
        return statements

    def _share(self, statements: Sequence[Statement]) -> None:
        """Give statements what the sentence says of all of them."""
        walls = [one for one in statements if one.walls is not None]
        for one in walls:
            one.faces = one.faces or list(self._shared)
            if len(walls) > 1:
                # "The tag is danced twice: after wall 2 and after wall 5" says how many there are.
                one.acts = [replace(act, times=1 + is_twice(self._sentence, one.walls)) for act in one.acts]
        for before, one in pairwise(statements):
            if _is_left_likewise(before, one, self._sentence.letters):
                one.acts = [act for act in before.acts if act.act == "R"]
        bare = [one for one in statements if (one.walls or one.place) and not (one.acts or one.changes or one.measures)]
        last = statements[-1]
        if bare and last.acts and not last.bodies and last not in bare:
            # "W3 after 16 and W5 after 8: restart" says the act once, at the end.
            for one in bare:
                if not (one.place and one.place.share == 1) and (one.place or one.loose):
                    one.acts = list(last.acts)

    def take(self, at: int) -> None:
        """Add the phrase at an index."""
        part = self._parts[at]
        there = isinstance(part, Atom) and goes_on_there(self._sentence, self._now, part)
        if isinstance(part, Atom) and (there or leads_on(self._sentence, self._now, part)):
            self._take_onward(part)
            self._onward_at = part.first
            return
        if isinstance(part, Atom) and part.kind == "only" and part.first == self._onward_at:
            return
        if isinstance(part, Atom) and is_again(self._sentence, self._now, self._lead, part):
            self._now.again = part
            self._now.bodies.clear()
            if self._now.walls is not None and not any(act.act in "TG" for act in [*self._now.acts, *self._lead]):
                self._now.acts.append(Atom("act", 0, 0, act="T", vague=True))
            return
        if isinstance(part, Body) and self._is_not_danced(part, at):
            return
        if isinstance(part, Atom) and counts_in_brackets(self._sentence, self._now, self._parts, at):
            self._now.counted = part
            return
        if isinstance(part, Atom) and (counts := counts_told_before(self._sentence, self._now, self._parts, at)):
            self._now.counted, self._now.place = counts, part.spec
            return
        if opens(self._sentence, self._parts, self._now, self._lead, at):
            own = self._act_of_the_place(at)
            self._new(
                keep=isinstance(part, Atom)
                and part.kind in ("place", "change")
                and not walls_follow(self._sentence, self._parts, at)
            )
            self._now.acts += own
        if not self._now.says_something and not self._now.loose:
            self._now.token = self._sentence.tokens[self._sentence.lexemes[part.first].first]
        if isinstance(part, Body):
            self._now.bodies.append(part)
            return
        getattr(self, f"_take_{part.kind}")(part)

    def _is_not_danced(self, part: Body, at: int) -> bool:
        """Whether steps only name the place reached, are explained, or are those for which others are danced."""
        if names_the_step(self._sentence, self._now, self._parts, at):
            return True
        if part.replaced:
            self._now.replaced.append(part)
            return True
        return only_explains(self._sentence, self._now, part)

    def _act_of_the_place(self, at: int) -> list[Atom]:
        """Take the extra that stands before its own place from what was told before it: "36, bridge after set 2"."""
        part, before = self._parts[at], self._parts[at - 1] if at else None
        if not isinstance(part, Atom) or not isinstance(before, Atom) or part.kind != "place":
            return []
        straight = before.last == part.first and self._sentence.letters[part.first] in "ABZ"
        if not straight or before.act not in INSERTS or self._now.acts != [before]:
            return []
        self._now.acts, self._now.measures = [], True
        return [before]

    def _new(self, *, keep: bool) -> None:
        walls = self._now.walls if keep else None
        self._statements.append(self._now)
        self._now = Statement(self._sentence.tokens[0], walls=walls)

    def _take_walls(self, atom: Atom) -> None:
        now = self._now
        if atom.but and now.place is not None and now.place.share == 1:
            # "The dance is done in full on every wall but the fourth."
            now.place = None
        if atom.every == "them":
            now.walls = replace(now.walls, at="end") if now.walls is not None else atom
            return
        if is_called_last(self._sentence, now, atom):
            now.acts.append(Atom("act", 0, 0, act="X"))
            return
        if now.walls is not None and are_same_walls(self._sentence, now, atom):
            if now.walls.every == "last" and not now.acts:
                # "Final wall (wall 9): dance 14 counts, then ..." ends the dance.
                now.acts.append(Atom("act", 0, 0, act="X"))
            if now.walls.nth is not None:
                now.faces.append((now.walls.nth, not now.walls.ends))
            now.walls = replace(atom, at=atom.at or now.walls.at)
            return
        if now.walls is not None and now.walls.walls and atom.walls:
            first = now.walls
            atom = replace(first, last=atom.last, walls=first.walls + atom.walls)
        now.walls = atom
        if now.begins and now.faces:
            now.faces[-1] = (now.faces[-1][0], True)

    def _take_place(self, atom: Atom) -> None:
        if is_finer(self._sentence, self._now, atom) and self._now.place is not None and atom.spec is not None:
            spec, told = atom.spec, self._now.place
            if told.block and told.count is not None and (self._now.changes or spec.on):
                # "The end of the second eight: after count 6": the sixth count of the second.
                told = replace(told, section=told.block, block=0)
            at = told.at or spec.on
            suffix = spec.suffix or told.suffix
            self._now.place = replace(told, count=spec.count, count_span=spec.span, suffix=suffix, at=at)
            return
        if self._now.place is not None and atom.spec is not None and changes_there(self._sentence, self._now, atom):
            told, spec = self._now.place, atom.spec
            where = replace(told, section=section_of(told), block=0, count=spec.count, first=spec.first)
            self._now.change, self._now.place, self._now.changes = replace(where, count_span=spec.span), None, True
            return
        if self._now.place is not None and atom.spec is not None and lies_there(self._sentence, self._now, atom):
            told, spec = self._now.place, atom.spec
            self._now.place = replace(told, section=section_of(spec), text=spec.text, count_span=told.span)
            return
        if atom in self._parts and is_further(self._sentence, self._parts, self._now, self._parts.index(atom)):
            self._now.place = atom.spec
            return
        if self._now.changes and self._now.change is None and atom.spec is not None and atom.spec.first:
            self._now.change = atom.spec
            return
        walls = self._now.walls
        if walls is not None and walls.declares and not self._now.acts and self._now.place is None:
            # "Wall 8 is the end: after 16 counts ..."
            self._now.acts.append(Atom("act", 0, 0, act="X"))
        if self._now.bodies and not self._now.acts and only_name_steps(self._sentence, self._now.bodies):
            # "We do the vines, we do the walks, and after the touch on count 16 we stomp".
            self._now.bodies.clear()
        self._now.place = self._now.place or atom.spec
        self._now.skips |= atom.act == "K"
        letters = self._sentence.letters
        # "You dance 16 counts of wall 3": no more of it.
        self._now.only |= (
            letters[atom.last : atom.last + 2] in ("Iw", "jw") and letters[atom.first] == "n" and "D" in letters
        )
        if not self._now.walls and not self._now.acts:
            self._place_first = True

    def _take_title(self, atom: Atom) -> None:
        self._now.title = self._now.title or atom.spec
        self._now.only |= "D" in self._sentence.letters[atom.first : atom.last]

    def _take_loose(self, atom: Atom) -> None:
        self._now.loose.append(atom)

    def _take_act(self, atom: Atom) -> None:
        first = not self._statements and self._now.walls is None and self._now.place is None
        if first and not self._now.bodies:
            self._lead.append(atom)
        if atom.act in LEAVES and self._now.bodies:
            self._now.body_before_leave = True
        letter = self._sentence.letters[atom.first]
        if is_the_end(self._sentence, self._now, atom, later=bool(self._statements)):
            return
        if closes_the_telling(self._sentence, self._now, atom) or only_halts(self._sentence, atom):
            return
        if self._comes_later(atom):
            return
        after = self._sentence.letters[atom.last : atom.last + 1]
        alone = letter == "E" and atom.act == "Q" and after != "A"
        whole = self._now.place is None or self._now.place.share == 1
        if alone and self._now.walls is not None and whole:
            # "Tag on wall 3 (at the end)".
            self._now.walls = replace(self._now.walls, at="end")
            return
        if atom.act == "Q" and self._now.walls is not None and self._now.walls.every == "short":
            # "Short A is sixteen counts and ends where it began": the part does, and the next follows.
            atom = replace(atom, act="n")
        if atom.act in "QX" and wall_stops(self._sentence, self._now, atom):
            # "Wall 2 stops after 24 counts": the wall does, not the dance.
            atom = replace(atom, act="n" if self._now.walls is not None and self._now.walls.part else "R", ends=True)
        same = next((at for at, one in enumerate(self._now.acts) if names_same(one, atom)), None)
        if same is not None:
            # "Bridge: during wall 3, after count 16, add a 4 count bridge" is one.
            one = self._now.acts[same]
            self._now.acts[same] = replace(
                one, counts=one.counts or atom.counts, declares=one.declares and atom.declares
            )
            return
        self._now.acts.append(atom)

    def _comes_later(self, atom: Atom) -> bool:
        """Whether a new start is only what comes after an extra: "at its end there are six counts before it starts"."""
        at_end = self._now.walls is not None and self._now.walls.at == "end"
        return at_end and atom.act == "R" and self._sentence.letters[: atom.first].endswith("B")

    def _take_face(self, atom: Atom) -> None:
        assert atom.facing is not None
        if self._now.walls is None and self._now.place is None and any(act.act == "X" for act in self._now.acts):
            # "To finish at the front: ..." is where the steps lead, not where they begin.
            return
        letters = self._sentence.letters
        if self._now.place is not None and not self._now.bodies and re.search("[bV]", letters[atom.last :]):
            # "As far as the pivot on 6, at 3 o'clock, and instead ..." is faced before the steps that are changed.
            return
        of_extra = letters[: atom.first].rstrip(",")[-1:] in ("T", "G")
        # "The tag, which begins at 6:00".
        named = _WALL_BEGINS.search(letters[: atom.first])
        # "After wall 5, begin at 6" is where what follows the wall begins; "after wall 5, which begins at 6" is not.
        follows = self._now.walls is not None and self._now.walls.at == "end" and self._now.walls.last + 1 == atom.first
        of_extra |= follows and self._sentence.tokens[self._sentence.lexemes[atom.first].first - 1].text in ",("
        begins = ((atom.starts or bool(named)) and not of_extra) or (
            self._now.begins and not self._now.acts and "," not in letters[: atom.first]
        )
        self._now.faces.append((atom.facing, begins))
        first = self._sentence.lexemes[atom.first].first
        near = self._sentence.tokens[max(first - 3, 0) : first]
        us = re.search(_LEAVES_US, " ".join(token.low for token in self._sentence.tokens[max(first - 7, 0) : first]))
        whole = self._now.place is not None and self._now.place.share == 1
        then = whole and ">" in letters[: atom.first] and not self._now.acts
        # "Dance it all, then you are at six o'clock".
        self._now.brings |= any(token.low in _BRINGS for token in near) or us is not None or then
        if atom.every or letters[atom.last : atom.last + 1] in ("t", "k"):
            self._shared.append((atom.facing, begins))

    def _take_begins(self, atom: Atom) -> None:
        self._now.begins = True

    def _take_total(self, atom: Atom) -> None:
        self._now.total = self._now.total or atom.number

    def _take_not(self, atom: Atom) -> None:
        pass

    def _take_change(self, atom: Atom) -> None:
        if atom.declares and any(act.act in "TGXQ" for act in [*self._now.acts, *self._lead]):
            if self._now.walls is not None and atom.spec is not None and not atom.spec.first:
                # "Big finish, wall 7 count 24: ...".
                self._now.place = self._now.place or atom.spec
            return
        self._now.changes = True
        if self._sentence.letters[atom.last - 1] == "b":
            # "The coaster (counts 15&16) becomes ..." names what is not danced.
            self._now.bodies.clear()
        self._now.change = self._now.change or atom.spec

    def _take_onward(self, atom: Atom) -> None:
        self._now.goes_on = True
        if any(act.act == "H" for act in self._now.acts):
            # "Wall 5 stops after the kick, holds 2, and then goes on" is not left.
            self._now.acts = [act for act in self._now.acts if not (act.ends and act.act in "Rn")]
        spec = replace(atom.spec, before=True) if atom.spec is not None else None
        letters = self._sentence.letters
        numbers = [at for at in range(atom.first, atom.last) if letters[at] in "nx"]
        several = len(numbers) > 1 and "Z" not in letters[atom.first : atom.last]
        if spec is not None and spec.section is not None and spec.count is None and several:
            # "Then sections 3 and 4": on with the first of them.
            spec = replace(spec, section=self._sentence.number(numbers[0]))
        if spec is not None and spec.first and spec.section is None:
            # "Carry on with counts 13 to 48": from the first of them.
            spec = replace(spec, count=spec.first, first=None)
        self._now.onward = self._now.onward or spec

    def _take_only(self, atom: Atom) -> None:
        after = self._sentence.tokens[self._sentence.lexemes[atom.last - 1].last :][:1]
        # "In wall three, and only there, ..." and "wall 3 only: ..." say nothing of how much is danced.
        beside = self._now.walls is not None and self._now.walls.last == atom.first
        beside = beside and self._sentence.letters[atom.first : atom.last] == "u"
        these = beside and self._sentence.letters[atom.last : atom.last + 1] in tuple(":,-()")
        self._now.only |= not these and not any(token.low in ("there", "then", "here", "once") for token in after)


_WALL_BEGINS = re.compile("(?:^|[^AI])wny$")
"""The letters of "wall 3 begins", before a facing."""
_LEAVES_US = (
    r"\b(?:leaves|brings|lands|puts|gets) (?:us|you|everyone|everybody|all of us|all of you|the class)[^.,;:]*$"
)
_BRINGS = {"brings", "bring", "leaves", "leaving", "takes", "puts", "bringing", "returns", "ends", "finishes", "lands"}
"""What a wall does whose last facing is told: "all the way, which brings you to 12"."""
