"""The end of the search: what a path costs with its goal, and readings that tie and differ in what is danced."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.search.footings import Cost
from trainer.sheet.prose.search.states import Goal, Node, Path, Said

OPEN_END = 1.5
"""The block does not end on the foot that what follows needs, or leaves a turn that no step makes."""


def with_goal(node: Node, goal: Goal) -> Cost:
    """Return what a path costs that ends so."""
    breaches, dislike = node.cost
    if goal.weight is not None and node.state.weight not in (goal.weight, "B"):
        breaches += OPEN_END
    if goal.facings and node.state.facing not in goal.facings:
        breaches += 1.0
    if node.state.pending:
        breaches += OPEN_END
    return breaches, dislike


def path_to(node: Node, goal: Goal) -> Path:
    """Return the path that leads to a node."""
    cost = with_goal(node, goal)
    chain: list[Node] = []
    at: Node | None = node
    while at is not None:
        chain.append(at)
        at = at.before
    chain.reverse()
    return Path(
        tuple(said for one in chain for said in one.said),
        tuple(problem for one in chain for problem in one.problems),
        cost,
        chain[0].state,
        node.state,
        tuple(one.reading for one in chain if one.reading is not None),
    )


def likelier(known: Node, following: Node) -> Node:
    """Return the cheaper of two nodes that come out alike, with the other's last event where that is as good."""
    first, second = (following, known) if following.cost < known.cost else (known, following)
    mine, other = first.said[-1], second.said[-1]
    if mine.other is not None or not _tie(first.cost, second.cost) or not differ(mine, other):
        return first
    if first.said[:-1] != second.said[:-1]:
        return first
    return replace(first, said=(*first.said[:-1], replace(mine, other=other)))


def _tie(cost: Cost, other: Cost) -> bool:
    return cost[0] == other[0] and other[1] - cost[1] <= _AS_GOOD


_AS_GOOD = 0.011
"""Two readings that differ by no more preference are as likely."""


def differ(one: Said, other: Said) -> bool:
    """Whether two readings of an event differ in what is danced: the foot, the weight or the turn."""
    return (one.foot, one.weight, one.turn) != (other.foot, other.weight, other.turn)


def with_others(path: Path, nodes: Sequence[Node], goal: Goal) -> Path:
    """Return a path with the events marked that another path, as good to the end, dances otherwise."""
    best = path.cost
    for node in nodes:
        if not _tie(best, with_goal(node, goal)):
            continue
        other = path_to(node, goal)
        if len(other.said) != len(path.said) or other.start != path.start:
            continue
        places = [place for place, pair in enumerate(zip(path.said, other.said, strict=True)) if differ(*pair)]
        if 0 < len(places) <= _OF_ONE_FIGURE:
            said = list(path.said)
            for place in places:
                said[place] = replace(said[place], other=said[place].other or other.said[place])
            return replace(path, said=tuple(said))
    return path


_OF_ONE_FIGURE = 3
"""Events that differ between two readings of one figure at most."""
