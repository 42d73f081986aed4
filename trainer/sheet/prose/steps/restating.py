"""Words that say once more what was just danced: "together, beside the other foot", "forward and out".

They are no step of their own where the counts leave none for them.
"""

from collections.abc import Iterator
from dataclasses import replace

from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.path import Path
from trainer.sheet.prose.steps.roles import Role
from trainer.sheet.prose.steps.ways import joined_way
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move

_PRICE = 0.3
"""What it costs that words of a step are none; a gap in the counts costs far more."""

_EXPLAINING = (
    "the step is ", "the last is ", "the last step is ", "that is ", "that's ", "this is ", "which is ", "it is ",
)  # fmt: skip
_TOWARDS = {"to the front", "to the back", "towards the back", "towards the front", "to the rear"}


def restating(clause: Clause) -> Iterator[Role]:
    """Yield that a clause only says again, or more closely, what the step before it was."""
    yield from _idle(clause)
    if clause.stepped:
        yield Role("restate", preference=0.05)
    if clause.run or clause.turning is not None or clause.times > 1 or clause.counts:
        return
    if clause.words in _TOWARDS:
        # "... left, right, left, to the front": the wall.
        yield Role("nothing", preference=-0.05 if clause.joined else 0.25)
    explains = clause.words.startswith(_EXPLAINING)
    # In one row of words with the step before it, it would be a part of it already.
    bare = not (clause.moves or clause.feet or clause.joined)
    if (bare and (clause.ways or clause.refs)) or (explains and clause.feet) or _only_step(clause):
        yield Role("restate", preference=0.05 if explains else _PRICE)


def _idle(clause: Clause) -> Iterator[Role]:
    """Yield that words of a way are of no step at all."""
    if isinstance(clause.way, str) and "diagonal" in str(clause.words) and not (clause.moves or clause.feet):
        # "Shuffle left, right, left, a bit to the left diagonal".
        yield Role("nothing", preference=0.4)
    if clause.words.split()[0] in _GOES and not (clause.moves or clause.feet or clause.refs or clause.joined):
        # "Toe strut right, toe strut left, going forward".
        yield Role("nothing", preference=0.1)
    if clause.opens and _heralds(clause):
        yield Role("nothing", preference=0.2)
    if clause.other and clause.way is Direction.BACK and not (clause.moves or clause.feet or clause.refs):
        # "And back the other way, side left, ...".
        yield Role("nothing", preference=0.05)
    if clause.ing and clause.way is Direction.TOGETHER and not clause.joined:
        # "Balance forward on left, bringing right to it": the figure has it already.
        yield Role("nothing", preference=0.4)
    if clause.ing and any(words in clause.words for words in _AT_ONE):
        # "Sway right, left, right, left, stepping the right out to the side on the first one".
        yield Role("nothing", preference=0.05)
    described = bool(clause.feet and clause.moves) and clause.moves[0].ing and clause.words.split()[0] in _FEET
    if described and clause.moves[0].low not in _STEPPING and clause.turning is None and not clause.joined:
        # "Lock step forward right, left, right, left locking behind".
        yield Role("nothing", preference=0.4)


_AT_ONE = ("on the first", "on first", "the first time", "on the first one", "for the first")
_STEPPING = {"step", "stepping", "steps"}
_FEET = {"l", "r", "left", "right", "lf", "rf", "with"}
_GOES = {"going", "moving", "travelling", "traveling", "all"}


_SETS_OFF = {"go", "we", "move", "travel", "come", "do", "reverse"}
_ADVERBS = ("backwards", "forwards", "sideways", "sidewards", "hall", "room", "floor", "set")
_COURSES = {Direction.FORWARD, Direction.BACK, Direction.SIDE}


def _heralds(clause: Clause) -> bool:
    """Whether a clause that opens a sentence tells only which way its steps go: "go backwards, step right back"."""
    if clause.moves or clause.feet or clause.refs or clause.run or clause.joined or clause.turning is not None:
        return False
    words = clause.words.split()
    return clause.way in _COURSES and (words[0] in _SETS_OFF or words[-1] in _ADVERBS)


def _only_step(clause: Clause) -> bool:
    """Whether a clause says nothing but "step": "cross right behind left and step"."""
    nothing_else = not (clause.ways or clause.feet or clause.refs or clause.to)
    return nothing_else and len(clause.moves) == 1 and clause.moves[0].low == "step"


_STEPPED = {Move.STEP, Move.SWAY, Move.BUMP, Move.STOMP}
"""What may be danced with a step: "sway right stepping right to the side"."""


def restated(path: Path, role: Role, clause: Clause) -> Path | None:
    """Return the path with its last event told more closely; None where the words do not go with it."""
    before = path.drafts[-1] if path.drafts else None
    stepped = _STEPPED if clause.stepped else {Move.STEP}
    if before is None or before.foot not in (Foot.RIGHT, Foot.LEFT) or before.moves[0] not in stepped:
        return None
    if clause.feet and before.foot is not clause.feet[0]:
        return None
    if any(ref.foot is before.foot for ref in clause.refs):
        return None
    way = before.direction
    for more in (*clause.ways, *(ref.way for ref in clause.refs)):
        way = _closer(way, more, explains=bool(clause.feet))
        if way is None:
            return None
    return path.with_last(_told(before, way))


def _closer(way: Direction | None, more: Direction | str, *, explains: bool) -> Direction | None:
    """Return the way of a step that is told in two goes; None where they are two steps."""
    if not isinstance(more, Direction):
        return way
    if way is None or way is more or explains:
        return more if way is None or explains else way
    joined = joined_way(way, more)
    return joined if isinstance(joined, Direction) else None


def _told(draft: Draft, way: Direction | None) -> Draft:
    return replace(draft, direction=way)
