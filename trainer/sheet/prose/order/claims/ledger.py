"""What is claimed of each wall, the extras told, and what was found wrong on the way."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.problems import Problem
from trainer.routine import Insert, Span
from trainer.sheet.prose.order.claims.claims import Claim, Key, Wall, order_problem
from trainer.sheet.prose.order.claims.extras import Extras, Ref
from trainer.sheet.prose.order.grammar.atoms import Atom
from trainer.sheet.prose.order.grammar.places import Fault, Found, Ruler, Spec
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.terms import ExtraKind, InsertKind

_LEAST = 3
"""So many walls in a row are a list."""
_LISTED = 4
"""So many walls told one by one from the first are all that are danced."""

Passes = Callable[[Atom], tuple[list[Key], str]]
"""Walls of a sentence to passes, and a sentence that says what is wrong with them."""


class Ledger:
    """What is claimed of each wall, and what was found wrong on the way."""

    def __init__(self, known: Known, passes: Passes) -> None:
        self.known = known
        self.passes = passes
        self.start_of: Callable[[int], Fraction | None] = lambda number: None
        """The facing with which a wall begins, as far as walls told before cut others short; None: not known."""
        self.lost: list[int] = []
        """Walls of which it is not known how much is danced: facings told of later ones cannot be held against them."""
        self.extras = Extras(known)
        self.problems: list[Problem] = []
        self.unread: list[Span] = []
        self.unplaced: list[tuple[Key, Problem | Span]] = []
        """Walls that are left at a place not said, with what to report if no other sentence says it."""
        self.walls: dict[Key, Wall] = {}
        self.total = 0
        """How many walls are danced, where it is told."""
        self.closing: set[int] = set()
        """Lines of the order that say that the dance is over."""
        self._fading: list[tuple[Key, Span, int]] = []
        """Walls in which no more is said than that the music ends, with where, and the line of the order."""
        self._ends = dict(known.ends)
        self._rulers: dict[str, Ruler] = {}

    def ruler(self, part: str) -> Ruler:
        """Return the ruler of a part."""
        if part not in self._rulers:
            self._rulers[part] = Ruler(self.known, part)
        return self._rulers[part]

    def wall(self, key: Key, span: Span, unit: int) -> Wall:
        """Return what is claimed of a pass."""
        if key not in self.walls:
            self.walls[key] = Wall(key, self.ruler(key[0]).length, span, unit)
        return self.walls[key]

    def extra_lengths(self) -> set[int]:
        """Return how many counts the extras have that are known so far: a wall may be told longer by them."""
        headed = {counts for _, _, counts, _ in self.known.extras if counts}
        return headed | {inline.counts for inline in self.extras.inlines if inline.counts}

    def cut(self, number: int) -> tuple[int, bool] | None:
        """Return how many counts are danced of a wall of a dance without parts, as told so far, and whether with an &.

        None: all of it.
        """
        wall = self.walls.get(("", number))
        cuts = (
            [(claim.after, claim.before is not None) for claim in wall.claims if claim.leave != "continue"]
            if wall is not None
            else []
        )
        return min(cuts, default=None)

    def forget(self, claims: Sequence[Claim]) -> None:
        """Take claims back."""
        for wall in self.walls.values():
            wall.claims = [claim for claim in wall.claims if not any(claim is one for one in claims)]

    def fades(self, walls: Atom, unit: int) -> None:
        """Take note that the music ends in a wall."""
        keys, _ = self.passes(walls)
        if len(keys) == 1 and walls.span is not None:
            self._fading.append((keys[0], walls.span, unit))

    def _holds_within(self, key: Key) -> bool:
        """Whether a wall goes on after a hold: "Stop in wall 3! After the first eight keep still for 2 beats"."""
        claims = self.walls[key].claims if key in self.walls else []
        return any(one.leave == "continue" and any(put.kind == "hold" for put in one.inserts) for one in claims)

    def _end_unplaced(self) -> None:
        """End the dance with the wall in which the music fades, or with the last of so many, if no sentence does."""
        last = max((number for part, number in self.walls if not part), default=0)
        fading = [one for one in self._fading if one[0][0] or (one[0][1] >= last and not self._holds_within(one[0]))]
        claims = [claim for wall in self.walls.values() for claim in wall.claims]
        if any(claim.leave == "end" for claim in claims) or self.known.parts:
            return
        named = self.extras.named("ending")
        span = self.extras.span_of("ending")
        listed = sorted(number for part, number in self.walls if not part) == list(range(1, last + 1))
        if listed and last >= _LISTED:
            self.total = max(self.total, last)
        if not fading and self.total >= max(last, 2) and len(named) == 1 and span is not None:
            fading = [(("", self.total), span, -1)]
        if len(fading) == 1:
            key, span, unit = fading[0]
            wall = self.wall(key, span, unit)
            if wall.length and not any(claim.leave != "continue" for claim in wall.claims):
                wall.claims.append(Claim(span, unit, wall.length, at_end=True, leave="end"))

    def _close(self) -> None:
        """Let the one ending of a sheet be danced where the dance ends: "40 counts, then the end"."""
        endings = self.extras.named("ending")
        claims = [claim for wall in self.walls.values() for claim in wall.claims]
        called = any(isinstance(one, Ref) and one.kind == "ending" for claim in claims for one in claim.inserts)
        ends = [claim for claim in claims if claim.leave == "end"]
        if len(endings) == 1 and len(ends) == 1 and not called:
            ends[0].inserts.append(Ref("ending", ends[0].span, name=endings[0][0]))

    def _leave_walls_that_end(self) -> None:
        """Let several walls that are said to end be left: no dance is over twice."""
        ends = [
            (key, claim)
            for key, wall in self.walls.items()
            for claim in wall.claims
            if claim.leave == "end" and claim.after < wall.length and not claim.inserts and not key[0]
        ]
        if len({key for key, _ in ends}) > 1:
            for _, claim in ends:
                claim.leave = "restart"

    def _end_with_endings(self) -> None:
        """End the dance where an ending is danced at a place of which it was only said how far the wall goes."""
        for wall in self.walls.values():
            for claim in wall.claims:
                ended = any(isinstance(one, Ref) and one.kind == "ending" for one in claim.inserts)
                if ended and claim.leave == "restart":
                    claim.leave = "end"

    def _end_with_last(self) -> None:
        """Let steps without a name end the dance in the last wall told, where the list is whole or says so.

        "7: section 1, one last stomp", "Wall 7 (last): to count 16, step forward".
        """
        numbers = [number for part, number in self.walls if not part]
        last = max(numbers, default=0)
        listed = last >= _LEAST and sorted(numbers) == list(range(1, last + 1))
        ended = any(claim.leave == "end" for wall in self.walls.values() for claim in wall.claims)
        if not last or ended:
            return
        wall = self.walls["", last]
        for claim in wall.claims:
            ref = claim.inserts[-1] if claim.inserts else None
            told = listed and claim.leave == "continue"
            if claim.unnamed is None or not isinstance(ref, Ref) or not (told or claim.unit in self.closing):
                continue
            if claim.after < wall.length and ref.kind == "tag":
                claim.inserts[-1] = replace(ref, kind="ending", name=self.extras.as_ending(ref.name))
                claim.leave = "end"

    def settle(self) -> None:
        """Find the extras that the claims call for."""
        self._leave_walls_that_end()
        self._end_with_endings()
        self._end_with_last()
        self._end_unplaced()
        self._close()
        for key, report in self.unplaced:
            wall = self.walls.get(key)
            if wall is not None and any(claim.leave != "continue" for claim in wall.claims):
                continue
            if isinstance(report, Problem):
                self.problems.append(report)
            else:
                self.unread.append(report)
        reported: set[str] = set()
        for wall in self.walls.values():
            _measure_holds(wall)
            for claim in wall.claims:
                if claim.implied:
                    self._move_to_its_place(claim, wall)
            _leave_at_its_place(wall)
            for claim in wall.claims:
                claim.inserts = list(self._settled(claim, reported))

    def _move_to_its_place(self, claim: Claim, wall: Wall) -> None:
        """Take back extras that another sentence places in the wall; the facing told with them is faced there."""
        kept = [one for one in claim.inserts if not self._placed(one, claim, wall)]
        if claim.inserts and not kept and not claim.change:
            claim.facing = None
        claim.inserts = kept

    def _placed(self, insert: Insert | Ref, claim: Claim, wall: Wall) -> bool:
        """Whether another sentence says where in the wall an extra comes of which this one only says that it does."""
        placed = [
            other
            for other in wall.claims
            if other is not claim
            and (not other.at_end or (claim.implied and not other.implied and other.unit == claim.unit))
        ]
        others = [one for other in placed for one in other.inserts]
        return isinstance(insert, Ref) and any(isinstance(one, Ref) and one.kind == insert.kind for one in others)

    def used(self) -> set[tuple[str, str]]:
        """Return the kind and name of every extra that some wall dances."""
        found: set[tuple[str, str]] = set()
        for wall in self.walls.values():
            for claim in wall.claims:
                found |= {(one.kind, one.name) for one in claim.inserts if isinstance(one, Insert)}
                found |= {("change", claim.change)} if claim.change else set()
        return found

    def _settled(self, claim: Claim, reported: set[str]) -> Sequence[Insert]:
        done: list[Insert] = []
        for insert in claim.inserts:
            if isinstance(insert, Insert):
                done.append(insert)
                continue
            found = self.extras.find(insert)
            if isinstance(found, tuple):
                kind, name = found
                self.extras.measure(kind, name, insert.counts)
                done.append(Insert(kind=insert_kind(kind), name=name))
            elif insert.number and self._is_told_by_another(claim, insert):
                continue
            elif insert.kind != "ending" and found not in reported and not _holds(claim):
                # "Tag: hold 4 counts" has no other steps; an ending may be no more than the last count danced.
                reported.add(found)
                self.problems.append(order_problem(insert.span, found))
        return done

    def _is_told_by_another(self, claim: Claim, ref: Ref) -> bool:
        """Whether an extra is said to be another: "Tag 2: after wall 5. Dance Tag 1 twice"."""
        others = [one for one in claim.inserts if isinstance(one, Ref) and one.kind == ref.kind]
        told = [one for one in others if one.number not in (0, ref.number)]
        return len(told) > 1 and all(isinstance(self.extras.find(one), tuple) for one in told)

    def report(self, found: Fault, reported: set[str]) -> None:
        """Add a finding about a place, once for each statement."""
        problem = order_problem(found.span, found.message)
        if found.message not in reported and problem not in self.problems:
            reported.add(found.message)
            self.problems.append(problem)

    def find(self, spec: Spec, part: str) -> Found | Fault | None:
        """Return the counts of a place in a part."""
        here = self._called_here(spec) if not part else None
        return here or self.ruler(part).find(spec)

    def _called_here(self, spec: Spec) -> Found | None:
        """Return the place of counts called as in the section that their marker stands in: "after 8&", "for 7, 8"."""
        line, phrase = spec.span.line, self.known.phrase
        plain = spec == Spec(spec.span, spec.text, spec.count, spec.count_span, spec.suffix, spec.first)
        if not plain or not spec.count or spec.count > phrase or not self.mid_dance(line):
            return None
        danced = self._ends[max(one for one in self._ends if one <= line)]
        wide = spec.count - spec.first if spec.first else 0
        # The 1 of an 8&1 stands in the next section; counts that are changed may still be to come.
        ends = (danced, danced - 1, danced + wide + 1) if wide else (danced, danced - 1)
        last = next((n for n in ends if (n - 1) % phrase + 1 == spec.count), None)
        return Found(last, first=last - wide if wide else 0) if last is not None else None

    def mid_dance(self, line: int) -> bool:
        """Whether a line of the sheet stands between the steps of the main dance."""
        return bool(self._ends) and min(self._ends) <= line < max(self._ends)


def _leave_at_its_place(wall: Wall) -> None:
    """Let a wall of which it was only said that one restarts be left at the one change, or extra, told within it."""
    bare = [one for one in wall.claims if one.implied and one.leave == "restart" and not (one.inserts or one.change)]
    within = [one for one in wall.claims if one.after < wall.length and (one.inserts or one.change)]
    if bare and len(within) == 1 and within[0].leave == "continue":
        within[0].leave = "restart"
        wall.claims = [one for one in wall.claims if one not in bare]


def insert_kind(kind: ExtraKind) -> InsertKind:
    """Return what an extra is called where it is put in."""
    kinds: dict[ExtraKind, InsertKind] = {"bridge": "bridge", "ending": "ending"}
    return kinds.get(kind, "tag")


def _holds(claim: Claim) -> bool:
    return any(isinstance(insert, Insert) and insert.kind == "hold" for insert in claim.inserts)


def _measure_holds(wall: Wall) -> None:
    """Let a pause that is told without its length be the hold of so many counts that is told at its place."""
    holds = [(claim, one) for claim in wall.claims for one in claim.inserts if isinstance(one, Insert)]
    for claim, hold in holds:
        bare = hold.kind == "hold" and hold.counts == 1
        longer = [
            one for other, one in holds if other is not claim and other.after == claim.after and one.kind == "hold"
        ]
        if bare and any((one.counts or 0) > 1 for one in longer):
            claim.inserts.remove(hold)
