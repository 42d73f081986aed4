"""Which foot may act in a draft, and which may carry after it, each at its price: laws broken, then preference."""

from trainer.dance.figures import moves
from trainer.sheet.prose.words import Draft
from trainer.terms import Foot, Move, Weight

LOADED = 2.0
"""The foot that carries is asked to act, or the free one to hop."""

NOTE_BROKEN = 1.2
"""A note of weight is passed over."""

Cost = tuple[float, float]


def footings(move: Move, draft: Draft, weight: Weight) -> list[tuple[Foot, Weight, Cost]]:
    """Return which foot may act and which may carry afterwards, each at its price."""
    row = moves()[move]
    found: list[tuple[Foot, Weight, Cost]] = []
    for foot, dislike in _feet(draft, row.weight, weight, footless=row.footless):
        for after, price in _ends(row.weight, row.ends, foot, weight):
            breaches, preference = price
            if draft.weight is not None and draft.weight != after:
                breaches += NOTE_BROKEN
            breaches += _loaded(move, foot, weight) + LOADED * _crossed(draft, after)
            found.append(
                (
                    _acting(move, foot, after if after == draft.weight else None, weight),
                    after,
                    (breaches, preference + dislike),
                )
            )
        if draft.weight == "B" and row.weight == "takes" and foot in (Foot.RIGHT, Foot.LEFT) and foot.value != weight:
            # "Step left beside right, weight on both".
            found.append((foot, "B", (0.0, dislike)))
    if (
        draft.weight is not None
        and row.weight in ("open", "still", "both")
        and not any(f[1] == draft.weight for f in found)
    ):
        found += [
            (_acting(move, foot, draft.weight, weight), draft.weight, (LOADED * _crossed(draft, draft.weight), dislike))
            for foot, dislike in _feet(draft, row.weight, weight, footless=row.footless)
        ]
    return found


def _loaded(move: Move, foot: Foot, weight: Weight) -> float:
    """Return what it costs that a foot which carries stomps; the other open moves may be made on it."""
    return LOADED if move is Move.STOMP and foot.value == weight else 0.0


def _crossed(draft: Draft, after: Weight) -> bool:
    """Whether a gesture is asked of the foot that carries then."""
    return any(
        foot is not None and foot.value == after and moves()[move].weight == "none" for foot, move, _ in draft.also
    )


def _acting(move: Move, foot: Foot, noted: Weight | None, weight: Weight) -> Foot:
    """Return the foot that acts: where an unwind or a turn moves the weight, the one that it is moved to."""
    if noted in (None, "B", weight) or foot is not Foot.NONE or move not in _MOVING:
        return foot
    return Foot(noted)


_MOVING = {Move.UNWIND, Move.TURN, Move.BOUNCE, Move.SWIVEL, Move.TWIST, Move.HIP_ROLL, Move.BODY_ROLL, Move.SWAY}


def _feet(draft: Draft, rule: str, weight: Weight, *, footless: bool) -> list[tuple[Foot, float]]:
    """Return the feet that may act, each with a preference against it."""
    if draft.foot is not None:
        return [(draft.foot, 0.0)]
    free = {"R": Foot.LEFT, "L": Foot.RIGHT}.get(weight)
    if rule == "same":
        return [(Foot(weight), 0.0)]
    if rule == "both":
        return [(Foot.BOTH, 0.0)]
    if rule == "still" or (footless and rule == "open" and not draft.weight):
        return [(Foot.NONE, 0.0)]
    if free is None:
        return [(Foot.RIGHT, 0.0), (Foot.LEFT, 0.0)]
    return [(free, 0.0)]


def _ends(rule: str, ends: str, foot: Foot, weight: Weight) -> list[tuple[Weight, Cost]]:
    """Return the weights after an event of a kind of move, each at its price."""
    own: Weight | None = foot.value if foot in (Foot.RIGHT, Foot.LEFT) else None  # type: ignore[assignment]
    loaded = own is not None and own == weight
    other: Weight = "L" if own == "R" else "R"
    if rule == "takes":
        if foot is Foot.BOTH:
            return [("B", (0.0, 0.0))]
        if own is None:
            return [(weight, (0.5, 0.0))]
        return [(own, (LOADED if loaded else 0.0, 0.0))]
    if rule == "none":
        if own is None:
            return [(weight, (0.0, 0.0))]
        return [(weight, (LOADED, 0.0))] if loaded else [(other, (0.0, 0.0))]
    if rule == "same":
        return [(own or weight, (0.0 if own in (None, weight) or weight == "B" else LOADED, 0.0))]
    if rule == "both":
        return [("B", (0.0, 0.0)), ("R", (0.0, 0.2)), ("L", (0.0, 0.2))]
    if rule == "still":
        return [(weight, (0.0, 0.0))]
    first = own if ends == "foot" and own is not None else weight
    both: tuple[Weight, Weight] = ("R", "L")
    return [(first, (0.0, 0.0)), *((one, (0.0, 0.15)) for one in both if one != first)]
