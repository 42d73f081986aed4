"""What the sentences claim of single walls, brought together into order lines, each wall in one of them.

A wall's departures stand in the order danced. What is said to come at the end of a wall that is cut short comes at the
cut.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.problems import Problem
from trainer.routine import Departure, Insert, OrderLine, Span
from trainer.sheet.prose.order.claims.extras import Ref
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.terms import Label, LeaveKind

Key = tuple[str, int]
"""Part and number of a pass."""


@dataclass(slots=True)
class Claim:
    """What one statement says of one place in a wall; places are counts of the part."""

    span: Span
    unit: int
    """Which line of the sheet's order it was read from."""
    after: int
    before: Label | None = None
    at_end: bool = False
    implied: bool = False
    """It is not said where in the wall: "bridge on wall 3" is at its end, unless another sentence places it."""
    change: str = ""
    first: int = 0
    inserts: list[Insert | Ref] = field(default_factory=list)
    """Holds, and extras as the sentences name them; `Claims.settle` finds which are meant."""
    leave: LeaveKind = "continue"
    facing: Fraction | None = None
    skips: bool = False
    borrowed: bool = False
    """What is done was said before, and is only placed here."""
    unnamed: Body | None = None
    """Steps that were told without a name, taken for those of a tag."""


@dataclass(slots=True)
class Wall:
    """All that is claimed of one pass."""

    key: Key
    length: int
    span: Span
    unit: int
    starts: Fraction | None = None
    claims: list[Claim] = field(default_factory=list)
    cue: str = ""


def order_problem(span: Span, message: str, hint: str = "") -> Problem:
    """Return a finding about the order."""
    return Problem(level="error", kind="order", line=span.line, column=span.column, message=message, hint=hint)


def departures_of(wall: Wall, problems: list[Problem]) -> tuple[Departure, ...]:
    """Return the departures of a wall in the order danced; what contradicts itself becomes a problem."""
    _settle_halves(wall)
    cut = _cut(wall, problems)
    merged: dict[tuple[int, str | None, str], Claim] = {}
    for claim in wall.claims:
        if cut is not None and claim is not cut and claim.after > cut.after:
            if claim.at_end:
                claim.after, claim.before = cut.after, cut.before
            elif not (claim.change or claim.inserts):
                continue
            else:
                problems.append(
                    order_problem(
                        claim.span,
                        f"{_name(wall)} ends after {cut.after} counts: it has no count {claim.after}",
                        "The place must come before the restart",
                    )
                )
                continue
        key = (claim.after, claim.before, claim.change)
        if key in merged:
            _join(merged[key], claim)
        else:
            merged[key] = claim
    _join_changes(merged)
    found = sorted(merged.values(), key=lambda claim: (claim.after, claim.before is None, claim.leave != "continue"))
    return tuple(_departure(claim, wall) for claim in found if _matters(claim, wall))


def _settle_halves(wall: Wall) -> None:
    """Let what is claimed of a count come where another line puts it more exactly: "after 4a" beside "after 4"."""
    exact = {claim.after: claim.before for claim in wall.claims if claim.before is not None and not claim.change}
    for claim in wall.claims:
        if claim.before is None and not claim.change:
            claim.before = exact.get(claim.after)


def _cut(wall: Wall, problems: list[Problem]) -> Claim | None:
    """The claim at which the wall is left; two that disagree are a problem, the first holds."""
    cuts = [claim for claim in wall.claims if claim.leave != "continue" and claim.after < wall.length]
    ends = [claim for claim in wall.claims if claim.leave == "end"]
    first = next(iter([*cuts, *ends]), None)
    for other in cuts[1:]:
        if first is not None and other.after != first.after:
            problems.append(
                order_problem(
                    other.span,
                    f"{_name(wall)} cannot be left after {other.after} counts: "
                    f"it was said to be left after {first.after}",
                    "Only one of the two can be right",
                )
            )
            wall.claims.remove(other)
    return first


def _name(wall: Wall) -> str:
    part, number = wall.key
    return f"Wall {number}" if not part else f"{part} number {number}"


def _join(claim: Claim, other: Claim) -> None:
    """Add what another claim says of the same place."""
    claim.inserts += [one for one in dict.fromkeys(other.inserts) for _ in range(_lacks(claim, other, one))]
    for insert in other.inserts:
        if insert in claim.inserts and other.inserts.count(insert) > 1:
            continue
        once = claim.borrowed or other.borrowed
        again = not once and claim.unit == other.unit and isinstance(insert, Insert) and insert.kind != "ending"
        if insert not in claim.inserts or again:
            claim.inserts.append(insert)
    if claim.leave == "continue" or (claim.leave == "end" and other.leave == "restart" and not _ends(claim)):
        # "You stop here" is said more fully below: "... and begin again".
        claim.leave = other.leave
    if claim.facing is None:
        claim.facing = other.facing


def _lacks(claim: Claim, other: Claim, insert: Insert | Ref) -> int:
    """Return how often more an extra is danced that is said again, with how often: "... On wall 6 dance it twice"."""
    return max(other.inserts.count(insert) - claim.inserts.count(insert), 0) if insert in claim.inserts else 0


def _ends(claim: Claim) -> bool:
    return any(insert.kind == "ending" for insert in claim.inserts)


def _join_changes(merged: dict[tuple[int, str | None, str], Claim]) -> None:
    """Let a change that ends where the wall is left carry the leaving."""
    for key, claim in list(merged.items()):
        if not claim.change:
            continue
        plain = merged.get((claim.after, claim.before, ""))
        if plain is not None:
            _join(claim, plain)
            del merged[claim.after, claim.before, ""]
            merged[key] = claim


def _matters(claim: Claim, wall: Wall) -> bool:
    """Whether a place is more than the plain end of a wall, or a mere check."""
    if claim.inserts or claim.change or claim.leave == "end" or claim.facing is not None:
        return True
    return claim.leave != "continue" and claim.after < wall.length


def _departure(claim: Claim, wall: Wall) -> Departure:
    leave = claim.leave
    if leave in ("restart", "next") and claim.after >= wall.length:
        leave = "continue"
    return Departure(
        after=claim.after,
        before=claim.before,
        change=claim.change,
        first=claim.first,
        inserts=tuple(insert for insert in claim.inserts if isinstance(insert, Insert)),
        leave=leave,
        facing=claim.facing,
        span=claim.span,
    )


def lines_of_order(walls: Iterable[Wall], problems: list[Problem]) -> tuple[OrderLine, ...]:
    """Return the order lines; walls that one sentence told the same of share a line."""
    lines: list[tuple[int, OrderLine]] = []
    for wall in sorted(walls, key=lambda wall: (wall.key[1], wall.key[0])):
        departures = departures_of(wall, problems)
        if not departures and wall.starts is None and not wall.cue:
            continue
        part, number = wall.key
        line = OrderLine(
            part=part, passes=(number,), starts=wall.starts, departures=departures, cue=wall.cue, span=wall.span
        )
        like = next(
            (
                at
                for at, (unit, other) in enumerate(lines)
                if unit == wall.unit and departures and other.but(passes=line.passes) == line
            ),
            None,
        )
        if like is None:
            lines.append((wall.unit, line))
        else:
            unit, other = lines[like]
            lines[like] = unit, other.but(passes=(*other.passes, number))
    return tuple(line for _, line in lines)


def danced(walls: Sequence[Wall]) -> list[Wall]:
    """Return the walls without those after the end of which only a sentence on all walls speaks."""
    ends = [wall.key for wall in walls if any(claim.leave == "end" for claim in wall.claims)]
    last = {part: min(number for p, number in ends if p == part) for part, _ in ends}
    told = {wall.span for wall in walls if wall.key[1] <= last.get(wall.key[0], wall.key[1])}
    return [
        wall
        for wall in walls
        if wall.claims or wall.key[1] <= last.get(wall.key[0], wall.key[1]) or wall.span not in told
    ]


def after_the_end(walls: Sequence[Wall]) -> list[Problem]:
    """Return a finding for the first wall that is told of though the dance has ended before it."""
    ends = [wall for wall in walls if any(claim.leave == "end" for claim in wall.claims)]
    if not ends:
        return []
    last = min(ends, key=lambda wall: wall.key[1])
    part, number = last.key
    later = [wall for wall in walls if wall.key[0] == part and wall.key[1] > number]
    if not later:
        return []
    wall = min(later, key=lambda wall: wall.key[1])
    message = f"There is no wall {wall.key[1]}: the dance ends in wall {number}"
    return [order_problem(wall.claims[0].span if wall.claims else wall.span, message)]


def within_the_dance(walls: Sequence[Wall], in_series: Callable[[int], bool]) -> list[Wall]:
    """Return the walls without those of a series that come after the last: "eight times, a tag after every second"."""
    ends = [wall.key[1] for wall in walls if not wall.key[0] and any(claim.leave == "end" for claim in wall.claims)]
    last = min(ends, default=None)
    return [wall for wall in walls if last is None or wall.key[0] or wall.key[1] <= last or not in_series(wall.key[1])]


def forget_facings(walls: Iterable[Wall], *, after: int | None) -> None:
    """Take back the facings of walls that come after one of which it is not known how much is danced."""
    for wall in walls:
        if after is not None and wall.key[1] > after:
            wall.starts = None
            for claim in wall.claims:
                claim.facing = None
