"""Extras called for by a claim, and what a statement says beside its place, held against that place."""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.order.claims.claims import Claim
from trainer.sheet.prose.order.claims.danced_again import as_inline
from trainer.sheet.prose.order.claims.extras import KINDS, LETTERS, Extras, Ref
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Fault, Found, Spec
from trainer.sheet.prose.order.grammar.telling import Inline
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement
from trainer.terms import ExtraKind

_HIGHEST = 99
"""The last count of no wall is higher."""


def change_in_its_section(sentence: Sentence, statement: Statement) -> None:
    """Let "wall 2 section 2: replace counts 7-8" tell the counts of that section, not a place of its own.

    "Wall 5, section 3: 7-8 are touch, hold" changes counts too: those of a tag would begin with 1.
    """
    spec = statement.place
    if spec is not None and spec.section and spec.count is None and not statement.inserts and statement.bodies:
        told = _range_of(statement.bodies[0])
        later = re.search("[AEBU](?:s[nx]|o-?s|q)", sentence.letters)
        statement.changes |= told is not None and (told.first or 1) > 1 and later is None
        if _is_told_whole(sentence, statement):
            # "In wall 3, section 4 is: rock right (1), ..., hold (8)" is danced for all of it.
            statement.changes, statement.change, statement.place = True, spec, None
            return
    if statement.changes and statement.change is None and statement.bodies:
        statement.change = _range_of(statement.bodies[0])
    place, change = statement.place, statement.change
    if place is None or change is None or place.count is not None or change.section is not None or change.from_end:
        return
    if (place.section is not None or place.named) and (change.count or 0) <= 8:
        statement.change = replace(change, section=place.section, named=place.named, text=place.text)
        statement.place = None


def _is_told_whole(sentence: Sentence, statement: Statement) -> bool:
    """Whether the steps that a section is said to be have all its counts, from 1 to 8, or to 6."""
    body = statement.bodies[0]
    named = re.search("(?:s[nx]|o-?s|q):$", sentence.letters[: body.first]) is not None
    counts = [
        place.number for mark in marks_in(body.tokens, 0) for place in mark.places if place.number and not place.sub
    ]
    return named and len(counts) in (6, 8) and counts == list(range(1, len(counts) + 1)) and not statement.leave


def _range_of(body: Body) -> Spec | None:
    """The counts that steps begin with: "section 4 changes: 7-8 touch, hold"."""
    tokens = body.tokens
    if len(tokens) < 4 or tokens[0].kind != "number":
        return None
    if tokens[2].kind == "number" and tokens[1].text in "-&":
        first, last = int(tokens[0].text), int(tokens[2].text)
        return Spec(tokens[0].span, count=last, first=first) if first < last <= _HIGHEST else None
    # "On 7 touch R, on 8 hold".
    counts = [place.number for mark in marks_in(tokens, 0) for place in mark.places if place.number and not place.sub]
    rises = counts[:1] == [int(tokens[0].text[:2])] and counts == list(range(counts[0], counts[0] + len(counts)))
    return Spec(tokens[0].span, count=counts[-1], first=counts[0]) if rises and counts[0] > 1 < len(counts) else None


def check_onward(ledger: Ledger, onward: Spec, part: str, after: int, reported: set[str]) -> None:
    """Hold where the dance is said to go on against the place before."""
    found = ledger.find(onward, part)
    if isinstance(found, Fault):
        ledger.report(found, reported)
    elif found is not None and found.after != after:
        message = f"After {after} counts the dance goes on with count {after + 1}, not {found.after + 1}"
        ledger.report(Fault(message, onward.span), reported)


def called_as_there(ledger: Ledger, spec: Spec, part: str, before: Spec | None) -> Spec:
    """Return changed counts that are called as in the section of the place said before: "instead of 8"."""
    ruler = ledger.ruler(part)
    place = ledger.find(before, part) if before is not None else None
    if not isinstance(place, Found) or spec.section is not None or spec.named or spec.from_end or not spec.count:
        return spec
    begins = max((end for end in (0, *ruler.ends) if end <= place.after), default=0)
    first = spec.first or spec.count
    if begins == place.after and first > 1 and spec.count <= ruler.phrase:
        # "16 counts with a changed count 8": the section that ends there has it.
        begins = max((end for end in (0, *ruler.ends) if end < place.after), default=0)
    elif spec.count > ruler.phrase or begins + first <= place.after:
        return spec
    return replace(spec, count=begins + spec.count, first=begins + spec.first if spec.first else None)


def counts_the_extra(ledger: Ledger, statement: Statement, part: str) -> bool:
    """Whether a wall's counts are told with those of the extra that it holds: 36 of a dance of 32 and a bridge of 4."""
    count = statement.place.count if statement.place is not None else None
    more = (count or 0) - ledger.ruler(part).length
    return more > 0 and more in ledger.extra_lengths()


def call(
    extras: Extras,
    owner: tuple[ExtraKind, str, int | None, object] | None,
    act: Atom,
    claim: Claim,
    body: Body | Inline | None,
) -> None:
    """Let a claim call for the extra that an act names; steps that stand with it make one, or counts danced again."""
    kind = KINDS[act.act]
    name = ""
    if owner is not None and owner[0] in (kind, "tag", "bridge", "ending") and kind != "change":
        kind, name = owner[0], owner[1]
    elif isinstance(body, Inline):
        name = extras.add(body, act.number)
    elif body is not None:
        if kind == "ending" and body.poses:
            return
        blocks = [known for k, known, _, _ in extras.known.extras if k == kind]
        alike = [known for known in blocks if act.number and known.split()[-1] == str(act.number)]
        inline = Inline(kind, "", act.counts or body.counts, body.tokens)
        name = alike[0] if alike else extras.add(inline, act.number)
    # "Half tag: sway right, sway left" is told with steps of its own.
    share = act.share if body is None else None
    claim.inserts += [Ref(kind, claim.span, act.number, act.counts, name=name, share=share)] * act.times


def more_steps(ledger: Ledger, sentence: Sentence, steps: Body | Atom, claims: Sequence[Claim], part: str) -> None:
    """Steps, or counts danced again, told in a sentence of their own.

    They are those of the extra just called for, or more of the one told last.
    """
    extras = ledger.extras
    bare = [insert for claim in claims for insert in claim.inserts if isinstance(insert, Ref) and not insert.name]
    if bare and not extras.named(bare[0].kind):
        inline = _told_after(ledger, sentence, steps, bare[0], part)
        if inline is None:
            return
        name = extras.add(inline, bare[0].number)
        for claim in claims:
            claim.inserts = [
                replace(one, name=name) if isinstance(one, Ref) and not one.name else one for one in claim.inserts
            ]
        return
    last = extras.inlines[-1] if extras.inlines else None
    called = {insert.name for claim in claims for insert in claim.inserts if isinstance(insert, Ref)}
    if last is not None and last.name in called and isinstance(steps, Body):
        extras.inlines[-1] = replace(last, body=(*last.body, *steps.tokens), counts=last.counts or steps.counts)


def _told_after(ledger: Ledger, sentence: Sentence, steps: Body | Atom, ref: Ref, part: str) -> Inline | None:
    if isinstance(steps, Body):
        return Inline(ref.kind, "", ref.counts or steps.counts, steps.tokens)
    found = as_inline(ledger, sentence, steps, Atom("act", 0, 0, act=LETTERS[ref.kind]), part)
    return found if isinstance(found, Inline) else None
