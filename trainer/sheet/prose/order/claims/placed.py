"""The counts of a part at which a statement has something happen, and those that a change of steps replaces."""

from dataclasses import replace

from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.claims.otherwise import left_before
from trainer.sheet.prose.order.grammar.places import Fault, Found, Spec
from trainer.sheet.prose.order.statements.statement import Statement
from trainer.terms import ExtraKind


def place_of(
    ledger: Ledger,
    told: Statement,
    owner: tuple[ExtraKind, str, int | None, object] | None,
    part: str,
    before: Spec | None,
) -> Found | Fault | None:
    """Return the place of a statement, the end of the part where it says none; None where it has to say one.

    `owner` is the extra that its line heads, `before` the place said before in the same line.
    """
    counted = told.counted.spec if told.counted is not None else None
    if told.place is not None:
        return _told(ledger, told, told.place, counted, part)
    if told.title is not None:
        titled = ledger.find(told.title, part) if counted is None else ledger.find(counted, part)
        if titled is not None:
            return titled
    at_end = told.walls is not None and told.walls.at == "end"
    if told.title is None and counted is not None and not at_end:
        # "Restart after the two waffles (24 counts)": the counts tell what the words do not.
        return ledger.find(counted, part)
    if told.replaced and (left := left_before(ledger.ruler(part), told)) is not None:
        return left
    line = told.token.line
    here = ledger.mid_dance(line) and (owner is None or not part)
    if here and not at_end and (told.acts or told.changes):
        return ledger.find(Spec(told.token.span, here=line), part)
    if told.leave in ("R", "n") and not at_end and not told.inserts and not told.changes:
        return ledger.find(before, part) if before is not None else None
    if told.changes and told.change is not None:
        return changed_range(ledger, told.change, part, None)
    if told.onward is not None and not at_end and told.inserts:
        return ledger.find(told.onward, part)
    if told.title is not None and told.leave == "Q" and not at_end:
        # "The music stops after the heels", which are not found.
        return None
    length = ledger.ruler(part).length
    return Found(length) if length else None


def _told(ledger: Ledger, told: Statement, place: Spec, counted: Spec | None, part: str) -> Found | Fault | None:
    """Return the place that a statement tells, with what else it says of it."""
    steps = place.title and (place.section or place.named)
    if steps and counted is not None and not ledger.ruler(part).is_called(place):
        # "After the crossing steps of the fourth eight (after 4)".
        return ledger.find(replace(place, title=(), count=counted.count), part)
    found = ledger.find(place, part)
    if isinstance(found, Found) and found.after == ledger.ruler(part).length and told.replaced:
        # "Leave out the claps and start again after the jazz box", which the last section's heading names.
        return left_before(ledger.ruler(part), told) or found
    if further := _further(ledger, told, found, part):
        return further
    named = place.named or place.section is not None
    if counted is not None and isinstance(found, Found) and counted.count == found.after:
        # "4&a of section 3 (20 counts)" tells the half counts once.
        return found
    if counted is not None and isinstance(found, Found) and named and _lies_in(ledger, counted, found, part):
        return ledger.find(counted, part)
    return found


def _further(ledger: Ledger, told: Statement, found: Found | Fault | None, part: str) -> Found | None:
    """Return the later of two places, told by its steps: "dance section 1, then carry on as far as the kick"."""
    if told.title is None or told.counted is not None or not isinstance(found, Found):
        return None
    titled = ledger.find(told.title, part)
    return titled if isinstance(titled, Found) and titled.after > found.after else None


def _lies_in(ledger: Ledger, counted: Spec, end: Found, part: str) -> bool:
    """Whether counts in brackets lie in the section that was named: "the hold in part 2 (12 counts)"."""
    begins = max((at for at in (0, *ledger.ruler(part).ends) if at < end.after), default=0)
    return begins < (counted.count or 0) <= end.after


def changed_range(ledger: Ledger, spec: Spec, part: str, place: int | None) -> Found | Fault | None:
    """Return the counts that a change replaces; the last counts are those before the place where there is one."""
    if spec.from_end:
        last = ledger.ruler(part).length if place is None else place
        if spec.section is not None or spec.named:
            end = ledger.find(replace(spec, count=None, from_end=False), part)
            if not isinstance(end, Found):
                return end
            last = end.after
        return Found(last, first=last - (spec.count or 1) + 1)
    found = ledger.find(spec, part)
    whole = spec.count is None and not spec.title and (spec.section is not None or bool(spec.named))
    if isinstance(found, Found) and whole:
        # "Dance Figure 8 like this" changes all of it.
        return replace(found, first=max(end for end in (0, *ledger.ruler(part).ends) if end < found.after) + 1)
    if isinstance(found, Found) and not found.first:
        return replace(found, first=found.after)
    return found
