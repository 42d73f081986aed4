"""The laws of weight, as a check of one event in a state: the foot that carries the weight cannot step.

The state is the foot that carries before the event: R, L, B (both: either may act next), or None where it is not
known. A step puts the weight on the foot that makes it; a gesture (touch, point, kick) is made by the free foot and
takes none. No breach: hop and scoot, which land on the foot that carries; jumps, which may land on both; and the open
moves (stomp, sway, bump, rolls, swivel, bounce, unwind), whose end weight is whatever the sheet or the next step makes
it. What each move does stands in figures.toml. Source: NTA/CDL glossary ("and step" marks a change of weight); open
moves from memory.
"""

from functools import cache

from trainer.dance.figures import WeightRule, foot_weight, moves
from trainer.routine import Event
from trainer.terms import Foot, Move, Weight

_ANY: frozenset[Weight] = frozenset({"R", "L", "B"})
OTHER: dict[Weight, Weight] = {"R": "L", "L": "R", "B": "B"}
"""The foot on the other side, as in a mirror."""
_NOUNS = {Move.HEEL: "heel touch", Move.TOE: "toe touch"}


def may_act(move: Move, foot: Foot, before: Weight | None) -> bool:
    """Return whether a foot can make a move in a state: a step and a gesture need it free, a hop needs it to carry."""
    rule, own = _rule(move), foot_weight(foot)
    if before not in ("R", "L") or own not in ("R", "L"):
        return True
    if rule in ("takes", "none"):
        return before != own
    return rule != "same" or before == own


@cache
def weights_after(move: Move, foot: Foot, before: Weight | None) -> frozenset[Weight]:
    """Return the feet that can carry after a move: one for a step or a gesture, all three for an open move.

    A step may also leave the weight on both feet, where a sheet says so. A gesture by one foot means that the other
    carries, also after weight on both.
    """
    rule, own = _rule(move), foot_weight(foot)
    if rule == "takes":
        return _ANY if own in (None, "B") else frozenset({own, "B"})
    if rule == "none" and before not in ("R", "L") and own in ("R", "L"):
        return frozenset({OTHER[own]})
    if rule == "same" and before not in ("R", "L") and own:
        return frozenset({own})
    if rule in ("none", "same", "still") and before and (before != "B" or rule == "none"):
        return frozenset({before})
    return _ANY


def leaves_weight(move: Move) -> bool:
    """Return whether a move leaves the weight where it was: gestures, hops, holds and the like."""
    return _rule(move) in ("none", "same", "still")


def breach(event: Event, before: Weight | None, *, count: str = "", since: str = "") -> str | None:
    """Return which law an event breaks, in a sentence, or None; an unread event breaks none.

    `count` is what the event is called ("count 7"), `since` tells from when it has been so ("since count 6").
    """
    if event.move is None or event.foot is None:
        return None
    count = count or f"count {event.label}"
    has = f"{before} has the weight {since}".rstrip()
    move, foot = event.move, event.foot
    if not may_act(move, foot, before):
        if _rule(move) == "takes":
            return f"{count} asks {foot} to step, but {has}"
        if _rule(move) == "none":
            return f"{count} asks {foot} for a {_noun(move)}, but {has}"
        return f"{count} asks for a {_noun(move)} on {foot}, but {has} and it lands on the foot that carries"
    if event.weight is not None and event.weight not in weights_after(move, foot, before):
        return _wrong_after(event, move, before, count)
    for gesture in event.also:
        if _rule(gesture.move) == "none" and event.weight and gesture.foot == event.weight:
            return (
                f"{count} asks {gesture.foot} for a {_noun(gesture.move)}, but {gesture.foot} carries the weight there"
            )
    return None


def _wrong_after(event: Event, move: Move, before: Weight | None, count: str) -> str:
    told = f"{count} leaves the weight on {_feet(event.weight)}"
    if _rule(move) == "takes":
        return f"{told}, but a step by {event.foot} takes it on {event.foot}"
    if _rule(move) == "none" and before not in ("R", "L"):
        return f"{told}, but a {_noun(move)} by {event.foot} is made on the other foot"
    return f"{told}, but a {_noun(move)} leaves it on {_feet(before or foot_weight(event.foot or Foot.NONE))}"


def _feet(weight: Weight | None) -> str:
    return "both feet" if weight == "B" else str(weight)


def _noun(move: Move) -> str:
    return _NOUNS.get(move, move.value)


def _rule(move: Move) -> WeightRule:
    return moves()[move].weight
