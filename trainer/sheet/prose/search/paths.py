"""Reading as a shortest path: of all readings of all items, the cheapest way through weight and facing.

Two prices, compared in order: laws broken (a loaded foot steps, a stated facing is missed, a count is empty), then
small preferences. Where a law must be broken the path branches: the foot as said, or the whole line mirrored; the
turns, or the stated facing. What the cheapest path believes against the sheet's words is a finding; what it leaves
as said, the laws of `dance.proof` find.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.dance.facing import clock, turned
from trainer.problems import Problem
from trainer.sheet.prose.search.footings import LOADED, Cost, footings
from trainer.sheet.prose.search.states import Goal, Node, Path, Said, State
from trainer.sheet.prose.search.ties import likelier, path_to, with_goal, with_others
from trainer.sheet.prose.words import Draft, Item, Reading, Slot
from trainer.terms import Foot, Weight

__all__ = ["Goal", "Path", "Said", "State", "cheapest", "mirrored"]

MIRRORED = 2.4
"""A whole line is read with its feet swapped."""

DISBELIEVED = 1.6
"""A stated facing is missed, or believed against the turns."""

_WIDTH = 48
"""States kept after each item."""

_WORSE = 4.5
"""States that broke so much more law than the best are given up."""

_OTHER: dict[Weight, Weight] = {"R": "L", "L": "R", "B": "B"}


def cheapest(
    items: Sequence[Item], readings: Sequence[Sequence[Reading]], starts: Sequence[tuple[State, float]], goal: Goal
) -> Path:
    """Return the cheapest path through the readings of a block's items.

    `starts` are the states that it may begin in, each with a preference against it.
    """
    nodes = [Node(state, (0.0, dislike), (), (), None, None) for state, dislike in starts]
    for index, (item, choices) in enumerate(zip(items, readings, strict=True)):
        best: dict[State, Node] = {}
        for node in nodes:
            for reading in choices:
                for following in _danced(node, item, reading, index):
                    known = best.get(following.state)
                    if known is None or following.cost < known.cost:
                        best[following.state] = following
        if best:
            least = min(node.cost[0] for node in best.values())
            near = [node for node in best.values() if node.cost[0] <= least + _WORSE]
            nodes = sorted(near, key=lambda node: node.cost)[:_WIDTH]
    path = path_to(min(nodes, key=lambda node: with_goal(node, goal)), goal)
    path = with_others(path, nodes, goal)
    return replace(path, items=tuple(items))


def _danced(node: Node, item: Item, reading: Reading, index: int) -> list[Node]:
    """Return the nodes after an item read in one way from a node: as said, and mirrored where that breaks less."""
    slots = item.slots or _free_slots(reading)
    found: list[Node] = []
    for variant in _variants(reading):
        found += _walk(node, item, slots, variant, reading, (reading.breaches, reading.preference), index)
    least = min((one.cost[0] for one in found), default=0.0)
    if least >= node.cost[0] + LOADED and any(draft and draft.foot in ("R", "L") for draft in reading.drafts):
        swapped = tuple(draft and mirrored(draft) for draft in reading.drafts)
        problem = _mirror_problem(item, node.state)
        price = (reading.breaches + MIRRORED, reading.preference)
        found += [
            replace(one, problems=(problem, *one.problems))
            for one in _walk(node, item, slots, swapped, reading, price, index)
        ]
    return found


def _free_slots(reading: Reading) -> tuple[Slot, ...]:
    """The slots of words without counts: one a draft."""
    labels = ("1", "2", "3", "4", "5", "6", "7", "8")
    return tuple(Slot(labels[place % 8], Fraction(place)) for place in range(len(reading.drafts)))  # type: ignore[arg-type]


def _variants(reading: Reading) -> list[tuple[Draft | None, ...]]:
    """Return a reading's drafts, and their mirror where the words leave the starting foot open."""
    drafts = reading.drafts
    if not any(draft and draft.mirror_of_start for draft in drafts):
        return [drafts]
    right = tuple(
        draft and replace(draft, foot=draft.mirror_of_start[0]) if draft and draft.mirror_of_start else draft
        for draft in drafts
    )
    left = tuple(draft and mirrored(draft) if draft and draft.mirror_of_start else draft for draft in right)
    return [right, left]


def mirrored(draft: Draft) -> Draft:
    """Return a draft with the feet swapped; its turns and directions stay as said."""
    return replace(
        draft,
        foot=draft.foot.mirrored if draft.foot else None,
        weight=_OTHER[draft.weight] if draft.weight else None,
        also=tuple((foot.mirrored if foot else None, move, way) for foot, move, way in draft.also),
    )


def _walk(
    node: Node,
    item: Item,
    slots: Sequence[Slot],
    drafts: Sequence[Draft | None],
    reading: Reading,
    cost: Cost,
    index: int,
) -> list[Node]:
    base = (node.cost[0] + cost[0], node.cost[1] + cost[1])
    fringe = [Node(node.state, base, (), (), node, reading)]
    for slot, draft in zip(slots, drafts, strict=False):
        best: dict[State, Node] = {}
        for one in fringe:
            for following in _event(one, slot, draft, index):
                known = best.get(following.state)
                best[following.state] = following if known is None else likelier(known, following)
        fringe = sorted(best.values(), key=lambda one: one.cost)[:12]
    if reading.leaves:
        fringe = [replace(one, state=replace(one.state, pending=one.state.pending + reading.leaves)) for one in fringe]
    return fringe


def _event(node: Node, slot: Slot, draft: Draft | None, index: int) -> Iterator[Node]:
    """Yield the nodes after one event, for each foot, end of weight and turn that its words allow."""
    if draft is None:
        said = Said(slot, None, None, None, None, Fraction(0), Fraction(0), None, index)
        yield _after(node, node.state, node.cost, said)
        return
    for move, rank in zip(draft.moves, range(len(draft.moves)), strict=True):
        for foot, weight, price in footings(move, draft, node.state.weight):
            for turn in draft.turns:
                whole = turn + node.state.pending if node.state.pending else turn
                cost = (
                    node.cost[0] + price[0],
                    node.cost[1] + price[1] + 0.05 * rank + _unlikely(turn, draft, foot),
                )
                then = draft.then if turn == draft.turns[0] else -draft.then
                yield from _faced(node, Said(slot, draft, move, foot, weight, whole, then, draft.facing, index), cost)


def _unlikely(turn: Fraction, draft: Draft, foot: Foot) -> float:
    """Return the preference against a turn whose side or amount is open; a pivot turns away from the stepping foot."""
    if draft.other_foot_than_last and len(draft.turns) > 1 and foot in (Foot.RIGHT, Foot.LEFT):
        return 0.01 * (abs(turn) != abs(draft.turns[0])) + 0.05 * ((turn > 0) != (foot is Foot.RIGHT))
    return 0.01 * (turn != draft.turns[0])


def _faced(node: Node, said: Said, cost: Cost) -> Iterator[Node]:
    """Yield the nodes after an event, its turn made and its stated facing compared."""
    draft = said.draft
    assert draft is not None
    facing = turned(node.state.facing, said.turn) if said.turn else node.state.facing
    weight = said.weight or node.state.weight
    stated = draft.facing
    if stated is None or stated == facing:
        yield _after(node, State(weight, facing), cost, said)
        return
    yield _after(node, State(weight, facing), (cost[0] + DISBELIEVED, cost[1]), said)
    missing = (stated - facing) % 1
    believed = replace(said, turn=said.turn + (missing - 1 if missing > Fraction(1, 2) else missing))
    problem = _facing_problem(draft, facing, stated)
    # Believing the statement costs a trifle more: the turns are the truth where nothing else decides.
    price = (cost[0] + DISBELIEVED, cost[1] + 0.4)
    yield _after(node, State(weight, stated), price, believed, problem)


def _after(node: Node, state: State, cost: Cost, said: Said, *problems: Problem) -> Node:
    """Return the node that one event more leads to."""
    found = (*node.problems, *problems) if problems else node.problems
    return Node(state, cost, (*node.said, said), found, node.before, node.reading)


def _mirror_problem(item: Item, state: State) -> Problem:
    label = item.slots[0].label if item.slots else "1"
    free = {"R": "L", "L": "R"}.get(state.weight, "either foot")
    return Problem(
        level="error",
        kind="weight",
        line=item.span.line,
        column=item.span.column,
        message=f"count {label} asks {state.weight} to step, but {state.weight} has the weight already",
        hint=f"The feet of this line seem to be swapped: start it on {free}",
    )


def _facing_problem(draft: Draft, facing: Fraction, stated: Fraction) -> Problem:
    span = draft.facing_span or draft.span
    return Problem(
        level="error",
        kind="facing",
        line=span.line if span else 0,
        column=span.column if span else 0,
        message=f"the turns end at {clock(facing)}, but the sheet says {clock(stated)}",
        hint="What follows fits the stated facing: mend the turn of this line",
    )
