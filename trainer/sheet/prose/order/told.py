"""The order of walls told in prose: tags, bridges, restarts, changes, holds, endings, phrased sequences, wall tables.

`read_order` takes the lines that speak of the order and what is known of the dance; `is_order` tells such lines from
steps; `header_facts` reads counts, walls, wait, tempo and the like from a sheet's head.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.problems import Problem
from trainer.routine import Insert, PlayItem, Span
from trainer.sheet.prose.header.facts import Facts, header_facts
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.claims.carried import called_from
from trainer.sheet.prose.order.claims.changes_worded import changes_named_steps, with_changes_counted
from trainer.sheet.prose.order.claims.claims import (
    Claim,
    after_the_end,
    danced,
    forget_facings,
    lines_of_order,
    order_problem,
    within_the_dance,
)
from trainer.sheet.prose.order.claims.danced_twice import told_twice
from trainer.sheet.prose.order.claims.excepted import leave_out, without_exceptions
from trainer.sheet.prose.order.claims.extras import KINDS, Ref, same_words
from trainer.sheet.prose.order.claims.half_left_out import (
    HalfLeftOut,
    half_left_out,
    leave_before_it,
    without_its_turn,
)
from trainer.sheet.prose.order.claims.ledger import Ledger, insert_kind
from trainer.sheet.prose.order.claims.next_count import with_next_count
from trainer.sheet.prose.order.claims.once_more import told_once_more
from trainer.sheet.prose.order.claims.passes import Passes
from trainer.sheet.prose.order.claims.places_otherwise import with_places_counted
from trainer.sheet.prose.order.claims.straight_on import told_straight_on
from trainer.sheet.prose.order.claims.teller import Teller
from trainer.sheet.prose.order.claims.unclaimed import Unclaimed
from trainer.sheet.prose.order.claims.unturned import told_unturned
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.grammar.telling import Inline, Known, Told
from trainer.sheet.prose.order.grammar.titles import names_of
from trainer.sheet.prose.order.lines.closings import closes
from trainer.sheet.prose.order.lines.counts_leading import with_counts_leading
from trainer.sheet.prose.order.lines.counts_listed import with_counts_listed
from trainer.sheet.prose.order.lines.covers import Covers
from trainer.sheet.prose.order.lines.last_counts_again import with_last_counts_again
from trainer.sheet.prose.order.lines.lengths_told import lengths_told
from trainer.sheet.prose.order.lines.lines import carries_on, is_order, without_order
from trainer.sheet.prose.order.lines.music_pauses import without_music_pauses
from trainer.sheet.prose.order.lines.next_walls import with_next_walls
from trainer.sheet.prose.order.lines.over_steps import named_from
from trainer.sheet.prose.order.lines.places_plain import with_places_plain
from trainer.sheet.prose.order.lines.rows import Rows
from trainer.sheet.prose.order.lines.said_besides import without_asides
from trainer.sheet.prose.order.lines.sections_ranged import with_sections_ranged
from trainer.sheet.prose.order.lines.standing_still import told_standing_still
from trainer.sheet.prose.order.lines.steps_held_on import told_held_on
from trainer.sheet.prose.order.lines.times_told import with_times_told
from trainer.sheet.prose.order.lines.units import joined, read_of, units
from trainer.sheet.prose.order.lines.wall_lists import Lengths, lengths_of, of_last_listed, starts_list, walls_listed
from trainer.sheet.prose.order.lines.walls_in_turn import with_walls_in_turn
from trainer.sheet.prose.order.play.play import run_of
from trainer.sheet.prose.order.play.run import Run
from trainer.sheet.prose.order.statements.statements import statements_of
from trainer.sheet.prose.sayings.told_plainly import told_plainly
from trainer.sheet.prose.words import Token

__all__ = [
    "Facts",
    "Inline",
    "Known",
    "Rows",
    "Told",
    "carries_on",
    "header_facts",
    "is_order",
    "read_order",
    "without_order",
]

_LONGEST = 400
"""Tokens of a sentence that are looked at; no order is told in longer ones."""


def read_order(lines: Sequence[tuple[Token, ...]], known: Known) -> Told:
    """Return what the lines tell of the order; remarks among them are passed over."""
    return _Reader(lines, known).told()


class _Reader:
    """Reads the lines in order: the play first, since walls are counted by it, then all sentences."""

    def __init__(self, lines: Sequence[tuple[Token, ...]], known: Known) -> None:
        self._known = known
        self._names = names_of(known)
        self._units = units(lines, known)
        self._play, self._played_by = self._find_play()
        self._passes = Passes(known, self._play.parts, repeats=self._play.repeats)
        self._ledger = Ledger(known, self._passes.of)
        self._passes.cut = self._ledger.cut
        self._ledger.start_of = self._passes.start_of
        self._passes.short = self._play.short
        self._teller = Teller(self._ledger)
        self._listed: list[tuple[Fraction, Span]] = []
        self._unclaimed = Unclaimed()
        self._excepted: dict[int, tuple[int, ...]] = {}
        """By line of the order the walls that it leaves out of a series."""
        self._used: set[tuple[str, str]] = set()
        self._swaps: list[tuple[int, Span]] = []
        """Sentences that change steps which they name: the line of the order, and where."""

    def told(self) -> Told:
        """Return what the lines tell."""
        rows, covers = Rows(), Covers(self._known)
        halves: dict[int, HalfLeftOut] = {}
        self._ledger.problems += [order_problem(fault.span, fault.message) for fault in self._play.faults]
        self._claim_play()
        for unit, (tokens, owner) in enumerate(self._units):
            tokens = with_next_walls(told_plainly(tuple(tokens)))
            if not tokens:
                continue
            tokens = with_counts_leading(tokens)
            if closes(tokens):
                self._ledger.closing.add(unit)
            if (half := half_left_out(tokens)) is not None:
                halves[unit], tokens = half, without_its_turn(tokens, half.token)
            tokens = without_music_pauses(tokens)
            left_out = without_exceptions(tokens)
            tokens, self._excepted[unit] = left_out.tokens, left_out.walls
            if not self._known.parts:
                tokens = with_places_plain(tokens, self._ledger.ruler("").ends, self._known.phrase)
            listed, rest = walls_listed(tokens[:_LONGEST])
            parts = listed or sentences(joined(rows.line(covers.told(with_next_count(tokens)))))
            named = named_from([part[:_LONGEST] for part in parts], self._names) if owner is not None else 0
            self._teller.line(unit, owner if not named else None)
            for place, part in enumerate(parts):
                if place and place == named:
                    self._teller.line(unit, owner)
                self._sentence(part[:_LONGEST], unit)
            if rest:
                self._teller.line(unit, owner)
            for part in sentences(rest):
                self._sentence(part, unit)
        self._teller.close()
        for unit, half in halves.items():
            leave_before_it(self._ledger, unit, half)
        self._ledger.settle()
        leave_out(self._ledger.walls, self._excepted)
        told = {claim.unit for wall in self._ledger.walls.values() for claim in wall.claims}
        self._ledger.unread += [span for unit, span in self._swaps if unit not in told]
        self._used = self._ledger.used()
        play = self._settled_play()
        self._list_starts()
        walls = within_the_dance(danced(list(self._ledger.walls.values())), self._passes.only_in_series)
        self._ledger.unread += self._unclaimed.lost(
            {key[1] for key, wall in self._ledger.walls.items() if wall.claims or wall.starts is not None}
        )
        forget_facings(walls, after=min(self._ledger.lost, default=None))
        problems = self._ledger.problems
        order = lines_of_order(walls, problems)
        problems += after_the_end(walls)
        problems += self._not_understood(problems)
        inlines = tuple(self._inlines())
        repeats = self._play.repeats if play else True
        partial = tuple(self._ledger.extras.partial.values())
        return Told(order, play, repeats, inlines, tuple(problems), self._intro_starts(), partial)

    def _inlines(self) -> Iterator[Inline]:
        """Yield the extras told in sentences that are danced; one that carries on a wall's counts is called so."""
        wholes = {(one.kind, one.whole) for one in self._ledger.extras.partial.values()}
        for inline in self._ledger.extras.inlines:
            key = (inline.kind, inline.name)
            if key in self._used | wholes:
                calls = (
                    called_from(self._ledger, claim, inline, wall.key[0])
                    for wall in self._ledger.walls.values()
                    for claim in wall.claims
                    if any(isinstance(one, Insert) and (one.kind, one.name) == key for one in claim.inserts)
                )
                yield replace(inline, called=next(calls, 0))

    def _find_play(self) -> tuple[Run, Sequence[Token]]:
        """The order of play of a phrased dance, and the sentence that tells it."""
        best: tuple[Run, Sequence[Token]] = (Run(), ())
        if not self._known.parts:
            return best
        for tokens, _ in self._units:
            runs = [
                (part, run_of(sentence_of(part[:_LONGEST], self._names), self._known))
                for part in (tokens, *sentences(tokens))
            ]
            if any(run is not None and runs[0][1] is not None and run.opens(runs[0][1]) for _, run in runs[1:]):
                runs = runs[1:]
            for part, run in runs:
                if run is not None and not run.only_lengths(self._known) and run.weight > best[0].weight:
                    best = run, read_of(part, run.read)
        return best

    def _sentence(self, tokens: Sequence[Token], unit: int) -> None:
        if same_words(tokens, self._played_by) or (self._played_by and tokens[0] in self._played_by):
            return
        starts, last = starts_list(tokens)
        if starts:
            self._listed += [(facing, tokens[0].span) for facing in starts]
            tokens = of_last_listed(tokens, last, len(starts))
            if not tokens:
                return
        tokens = told_held_on(without_asides(tokens))
        if not tokens:
            return
        tokens = self._counted(
            told_standing_still(tokens) or with_counts_listed(with_walls_in_turn(with_times_told(tokens)))
        )
        tokens = told_straight_on(tokens, len(self._known.sections)) or tokens
        tokens = told_once_more(tokens, self._names) or tokens
        if not self._known.parts:
            sizes, told = [counts for _, counts, _ in self._known.sections], self._teller.tells_of_walls
            tokens = told_twice(tokens, self._names, sizes, of_a_wall=told) or tokens
        sentence = sentence_of(tokens, self._names)
        whole = self._ledger.ruler("").length if not self._known.parts else 0
        lengths = (lengths_of(sentence, whole) or lengths_told(sentence, whole)) if whole else None
        if lengths is not None:
            self._claim_lengths(lengths, sentence, unit)
            return
        if not self._known.parts and told_unturned(self._ledger, sentence, self._teller.walls, unit):
            return
        if sentence.letters.startswith("N,"):
            self._teller.retract()
        if not self._known.parts:
            self._unclaimed.hear(sentence)
        for statement in statements_of(sentence):
            self._teller.take(sentence, statement)
        walls = next((atom for atom in sentence.atoms if atom.kind == "walls" and atom.walls), None)
        if walls is not None and changes_named_steps(tokens):
            self._swaps.append((unit, walls.span or tokens[0].span))

    def _counted(self, tokens: Sequence[Token]) -> Sequence[Token]:
        """Return a sentence with its places told by their counts; of a dance in parts only what is danced again."""
        if self._known.parts:
            named = {token.text for token in tokens} & {name for name, _ in self._known.parts}
            return with_last_counts_again(tokens, self._ledger.ruler(named.pop()).ends) if len(named) == 1 else tokens
        ruler = self._ledger.ruler("")
        numbered = with_sections_ranged(with_last_counts_again(tokens, ruler.ends), ruler.ends)
        placed = with_places_counted(numbered, self._known, ruler)
        return with_changes_counted(placed, self._known, ruler)

    def _claim_lengths(self, lengths: Lengths, sentence: Sentence, unit: int) -> None:
        """Walls told by their lengths: a short one restarts, an extra follows the wall before it."""
        number = 0
        whole = self._ledger.ruler("").length
        for counts, letter, at in lengths.steps:
            span = sentence.span(at, at + 1)
            number += counts is not None
            if not number or counts == whole or (counts is not None and counts - whole in self._ledger.extra_lengths()):
                # A wall of 36 holds all 32 of the dance and the bridge of 4 that is told of it.
                continue
            wall = self._ledger.wall(("", number), span, unit)
            if counts is not None and counts > whole:
                message = f"There is no count {counts}: the dance has {whole} counts"
                self._ledger.problems.append(order_problem(span, message))
            elif counts is not None:
                wall.claims.append(Claim(span, unit, counts, leave="restart"))
            else:
                ref = Ref(KINDS[letter], span)
                wall.claims.append(Claim(span, unit, whole, at_end=True, inserts=[ref]))

    def _claim_play(self) -> None:
        """Parts that the play cuts short go on with the next; facings told in it are starts."""
        counts: dict[str, int] = {}
        for step in self._play.steps:
            if not step.part:
                continue
            counts[step.part] = counts.get(step.part, 0) + 1
            key = (step.part, counts[step.part])
            if step.cut is not None:
                claim = Claim(step.span, -1, step.cut, leave="next")
                self._ledger.wall(key, step.span, -1).claims.append(claim)
            if step.starts is not None:
                self._ledger.wall(key, step.span, -1).starts = step.starts

    def _settled_play(self) -> tuple[PlayItem, ...]:
        """The play with its extras found; what is told of an extra's place is held against it."""
        items: list[PlayItem] = []
        for step in self._play.steps:
            if step.part:
                items.append(PlayItem(kind="part", name=step.part, span=step.span))
            elif step.hold:
                items.append(PlayItem(kind="hold", counts=step.hold, span=step.span))
            elif step.ref is not None:
                found = self._ledger.extras.find(step.ref)
                if isinstance(found, tuple):
                    self._used.add(found)
                    items.append(PlayItem(kind=insert_kind(found[0]), name=found[1], span=step.span))
                else:
                    self._ledger.problems.append(order_problem(step.span, found))
        if items:
            self._hold_against(items)
            self._next_for_restart()
        return tuple(items)

    def _hold_against(self, items: Sequence[PlayItem]) -> None:
        """Take out of the walls the extras that the play dances there already; one told elsewhere is a fault."""
        follows: dict[tuple[str, str], list[tuple[str, int]]] = {}
        counts: dict[str, int] = {}
        last = ("", 0)
        for item in items:
            if item.kind == "part":
                counts[item.name] = counts.get(item.name, 0) + 1
                last = (item.name, counts[item.name])
            else:
                follows.setdefault((item.kind, item.name), []).append(last)
        for key, wall in self._ledger.walls.items():
            for claim in wall.claims:
                for insert in list(claim.inserts):
                    places = follows.get((insert.kind, insert.name)) if isinstance(insert, Insert) else None
                    if not places or not claim.at_end:
                        continue
                    claim.inserts.remove(insert)
                    if insert.kind == "ending" and claim.leave == "end":
                        # The play dances it as its last item.
                        claim.leave = "continue"
                    if key not in places:
                        message = (
                            f"The order of play dances {insert.name} after {_pass(places[0])}, not after {_pass(key)}"
                        )
                        self._ledger.problems.append(order_problem(claim.span, message))

    def _next_for_restart(self) -> None:
        """A restart where the same part comes next anyway goes on with that one."""
        for key, wall in self._ledger.walls.items():
            for claim in wall.claims:
                if claim.leave == "restart" and self._passes.follows_itself(key):
                    claim.leave = "next"

    def _list_starts(self) -> None:
        """Listed facings hold for the walls up to the first that is left early: after it the plain round is broken."""
        walls = self._ledger.walls
        first_cut = min(
            (wall.key[1] for wall in walls.values() if any(c.leave != "continue" or c.inserts for c in wall.claims)),
            default=len(self._listed),
        )
        for number, (facing, span) in enumerate(self._listed[: max(first_cut, 0)], 1):
            wall = self._ledger.wall(("", number), span, -2)
            if wall.starts is None:
                wall.starts = facing

    def _not_understood(self, found: Sequence[Problem]) -> list[Problem]:
        """A finding for each line that speaks of the order, was not understood, and of which nothing else is said."""
        lines = {problem.line for problem in found}
        # An extra that is danced nowhere is found by the laws of the order, at its heading.
        lines |= {
            tokens[0].line for kind, name, _, tokens in self._known.extras if tokens and (kind, name) not in self._used
        }
        problems = []
        for span in self._unread():
            if span.line in lines:
                continue
            lines.add(span.line)
            message = "What is told of the order here was not understood"
            hint = 'Say it so: "wall 3: after 16 counts restart", "tag after wall 2"'
            problems.append(
                Problem(level="warning", kind="order", line=span.line, column=span.column, message=message, hint=hint)
            )
        return problems

    def _unread(self) -> list[Span]:
        """Instructions that were not understood: announced and never told."""
        told: set[str] = set()
        for wall in self._ledger.walls.values():
            for claim in wall.claims:
                told |= {"R"} if claim.leave in ("restart", "next") else set()
                told |= {"X", "Q"} if claim.leave == "end" else set()
        used = {kind for kind, _ in self._used}
        told |= {letter for letter, kind in KINDS.items() if kind in used}
        left = [
            span
            for act, span in self._teller.announced
            if act in "RTG" and act not in told and not self._ledger.problems
        ]
        return [*self._ledger.unread, *left]

    def _intro_starts(self) -> Fraction | None:
        for kind, _, _, tokens in self._known.extras:
            if kind == "intro" and tokens:
                sentence = sentence_of(tokens[:_LONGEST], self._names)
                for atom in sentence.atoms:
                    if atom.kind == "face":
                        return atom.facing
        return None


def _pass(key: tuple[str, int]) -> str:
    part, number = key
    return f"{part} number {number}" if number else "the start"
