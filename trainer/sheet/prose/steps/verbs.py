"""What a verb does to the clause being built: whether it goes on with it, shares its count, or begins the next."""

from trainer.sheet.prose.steps.building import Builder, Open
from trainer.sheet.prose.steps.clauses import GESTURES
from trainer.sheet.prose.steps.lex import Lex
from trainer.terms import Direction, Move

_AFTER_PARTS = {Move.HOOK, Move.HITCH, Move.FLICK, Move.KICK, Move.SCUFF, Move.CLAP, Move.HOLD, Move.STOMP}
_CLOSES = {Move.TOUCH, Move.TAP, Move.STAMP, Move.STOMP, Move.SCUFF, Move.BRUSH}
_HIPS = {"hip", "hips"}
_WAYLESS = {Move.HOLD, Move.CLAP, Move.SNAP}
_ALONG = {
    Direction.FORWARD, Direction.BACK, Direction.FORWARD_RIGHT, Direction.FORWARD_LEFT, Direction.BACK_RIGHT,
    Direction.BACK_LEFT,
}  # fmt: skip


def more_of_last(now: Open, lex: Lex) -> bool:
    """Take a verb that only goes on with the one before it: "bring the left knee up", "bump right hip twice"."""
    if not now.moves:
        return False
    if lex.value is Move.HITCH and now.feet and now.moves[-1].low == "bring":
        now.moves[:] = [lex]
        now.ways.clear()
        return True
    if lex.value in _CLOSES and now.moves[-1].way is Direction.TOGETHER and now.values.get("with_last"):
        # "Close with a touch" puts no weight down.
        now.moves[:] = [lex]
        return True
    return lex.low in _HIPS and now.moves[-1].value is Move.BUMP


def begins_next(now: Open, lex: Lex) -> bool:
    """Whether a move cannot belong to the words before it, so that it is the next."""
    if now.moves and all(move.kind == "part" for move in now.moves) and lex.value in _AFTER_PARTS:
        # "Heel hook heel together": the heel is a count of its own.
        return True
    return _closes_a_row(now, lex) or _begins_after_way(now, lex)


def _closes_a_row(now: Open, lex: Lex) -> bool:
    """Whether a gesture is the one after a row of steps told by their feet: "right left right touch"."""
    stepped = len(now.run) >= _ROW and now.kind == "step" and not (now.moves or now.ways or now.refs)
    return stepped and lex.value in _CLOSING and not (lex.ing or lex.low.endswith("s"))


_ROW = 3
"""Feet of a row of steps."""
_CLOSING = {Move.TOUCH, Move.TAP, Move.SCUFF, Move.BRUSH, Move.KICK, Move.HITCH, Move.HOOK}
"""Gestures that close a row of steps."""


def after_lock(now: Open, way: Direction | str) -> bool:
    """Whether a way after a bare "lock" is that of the step after it."""
    locks = bool(now.moves) and now.moves[-1].value is Move.LOCK and now.kind == "step"
    return locks and not now.feet and not now.ways and way in _ALONG


def _begins_after_way(now: Open, lex: Lex) -> bool:
    """Whether a move cannot go the way just said: "side together forward hold"."""
    if now.kind == "figure" or now.moves or lex.ing:
        return False
    if lex.value in _WAYLESS and lex.low in ("hold", "pause", "clap", "snap", "click"):
        return bool(now.ways or now.refs)
    return lex.value is Move.LOCK and bool(now.ways) and (now.ways[-1] in _ALONG or isinstance(now.ways[-1], str))


def in_a_row(now: Open, lex: Lex) -> bool:
    """Whether a closing verb follows a bare way: "cross back side close"."""
    bare = now.ways[-1] in (Direction.SIDE, Direction.BACK, Direction.CROSS, Direction.BEHIND)
    return bare and lex.way is Direction.TOGETHER and now.words[-1:] != ["up"]


def sharing(builder: Builder, lex: Lex) -> bool:
    """Whether a gesture in -ing, or after "with", begins: it goes with the step before it."""
    if lex.value is Move.HOLD and builder.open.kind == "figure" and builder.open.values.get("with_last"):
        # "Rumba box with holds".
        return True
    if lex.value not in GESTURES:
        return False
    if builder.open.values.get("with") and not (builder.open.moves or builder.open.ways or builder.open.refs):
        # "With R sweeping back": the gesture's own foot stands before it.
        builder.open.values["ing"] = True
        return False
    return bool(
        builder.open.said
        and (lex.ing or builder.open.values.get("with_last"))
        and builder.open.moves + builder.open.feet
    )


def leads_feet(builder: Builder, lex: Lex) -> bool:
    """Whether a verb in a figure's clause only leads to its feet: "triple half turn stepping R L R"."""
    return lex.value in (Move.STEP, Move.WALK, Move.RUN) and lex.ing and not builder.open.run
