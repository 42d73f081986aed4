"""How many counts clauses may fill and at what price: a quick estimate, without looking at the events themselves.

It guides the search over the clauses (`joining.py`), and it is what the search for counts asks of words
(`phrases.fills`).
"""

from collections.abc import Sequence
from functools import lru_cache
from math import inf

from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.roles import Role
from trainer.sheet.prose.steps.taking import alone, roles_of
from trainer.terms import Move

HEAVY = 10.0
"""One broken law weighs as much as so much preference."""

_ANY = 48
"""The most counts that a repeat is thought to fill."""

Profile = tuple[tuple[int, float], ...]
"""Pairs of counts filled and price."""


@lru_cache(maxsize=8192)
def profile_of(clause: Clause, after_gesture: bool, single: bool, recovered: bool = False) -> Profile:
    """Return the numbers of counts that a clause may fill, each at its least price; `single`: it is the only step.

    Where it is `recovered` by the clause after it, its recover is told there and no other one is implied.
    """
    least: dict[int, float] = {}

    def offer(counts: int, price: float) -> None:
        if price < least.get(counts, inf):
            least[counts] = price

    for role in roles_of(clause, single):
        price = role.breaches * HEAVY + role.preference
        if role.act == "events":
            if (role.after_gesture and not after_gesture) or (recovered and _implies_recover(role)):
                continue
            if role.repeats > 1:
                for counts in range(len(role.drafts), _ANY):
                    offer(counts, price + 0.05)
            for more in range(role.pad_most + 1):
                offer(len(role.drafts) + more, price + role.pad_cost * more)
        elif role.act == "again":
            for counts in range(1, _ANY):
                offer(counts, price + 0.05)
        elif role.act == "pad":
            offer(role.value - 1, price)
        else:
            offer(0, price)
    return tuple(sorted(least.items()))


def prices_to_go(clauses: Sequence[Clause], most: int) -> list[list[float]]:
    """Return for each clause, and for the end, what it costs from there on to fill 0, 1, 2 ... counts."""
    after = [0.0] + [inf] * most
    found = [after]
    single = alone(clauses)
    for index in range(len(clauses) - 1, -1, -1):
        profile = profile_of(clauses[index], _gesture(clauses, index - 1), single, _recovers(clauses[index + 1 :]))
        row = [inf] * (most + 1)
        for counts, price in profile:
            if counts > most:
                break
            for rest in range(most - counts + 1):
                total = price + after[rest]
                if total < row[rest + counts]:
                    row[rest + counts] = total
        after = row
        found.append(row)
    found.reverse()
    return found


def _implies_recover(role: Role) -> bool:
    last = role.drafts[-1] if role.drafts else None
    return role.implied and last is not None and last.moves[0] is Move.RECOVER


def _recovers(clauses: Sequence[Clause]) -> bool:
    """Whether clauses begin with a recover."""
    first = clauses[0] if clauses else None
    return first is not None and first.kind == "step" and bool(first.moves) and first.moves[0].value is Move.RECOVER


def _gesture(clauses: Sequence[Clause], index: int) -> bool:
    """Whether a clause is a gesture that takes no weight, so that an & after it may close the foot."""
    if index < 0:
        return True
    if clauses[index].kind != "step" or not clauses[index].moves:
        return False
    move = clauses[index].moves[0]
    return move.kind == "part" or move.value is Move.RECOVER or move_rows()[move.value].weight == "none"
