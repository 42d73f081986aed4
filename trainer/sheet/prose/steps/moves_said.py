"""Which moves the verb of a step, or a bare part of the foot, may mean: the likeliest first."""

from trainer.sheet.prose.steps.clauses import Clause
from trainer.terms import Direction, Foot, Move

PARTS = {"toe": Move.TOE, "heel": Move.HEEL, "ball": Move.BALL, "knee": Move.FAN}


def moves_of(clause: Clause) -> tuple[tuple[Move, ...], bool]:
    """Return the moves that a step clause may mean, and whether it says any."""
    said = [lex.value for lex in clause.moves if lex.kind == "move"]
    if said:
        move = said[0]
        part = next((lex.value for lex in clause.moves if lex.kind == "part"), None)
        if part in ("toe", "heel") and clause.moves[0].low in _PUTTING:
            return (PARTS[part],), True
        if move is Move.PRESS and part in ("toe", "ball"):
            return (Move.PRESS, Move.TOUCH), True
        if move is Move.SWEEP and clause.feet and clause.refs:
            # "Sweep right behind left" may end on the floor.
            return (Move.SWEEP, Move.STEP), True
        if move is Move.STOMP and clause.words.endswith(_UP):
            return (Move.STAMP,), True
        named = any(foot in (Foot.RIGHT, Foot.LEFT) for foot in clause.feet)
        if move is Move.JUMP and named:
            return (Move.LEAP, Move.STEP), True
        in_turn = clause.times == 1 or len(set(clause.run)) > 1
        if move is Move.STAMP and clause.moves[0].low == "stamp" and in_turn:
            # A stamp may take the weight or not, as a stomp (facts: "differs by writer"); twice on a foot it does not.
            return (Move.STAMP, Move.STOMP), True
        closes = clause.ways == (Direction.TOGETHER,) and clause.to is None
        goes = not clause.ways or closes or any(way in _TRAVELS for way in clause.ways)
        meets = all(ref.way is Direction.TOGETHER for ref in clause.refs)
        if move is Move.SLIDE and meets and goes:
            return (Move.SLIDE, Move.STEP), True
        return (move,), True
    parts = [lex.value for lex in clause.moves]
    if parts:
        move = PARTS[parts[0]]
        plural = clause.moves[0].low in ("heels", "toes")
        if plural and not (clause.feet or clause.run) and clause.way in (Direction.OUT, Direction.IN):
            # "Heels out, in": those of both feet, with the weight on them.
            return (Move.SPLIT,), True
        struts = clause.joined and not clause.feet and not clause.ways and move in (Move.HEEL, Move.TOE)
        return (move, Move.DROP) if struts else (move,), True
    return (Move.STEP,), False


_PUTTING = {"put", "set", "plant", "place", "bring"}
"""Verbs that leave it to the part of the foot whether it takes weight: "put your right heel forward"."""


_UP = (" r up", " l up", " right up", " left up", " foot up")
"""Ends of a stomp that comes up again: "stomp right up"."""


_TRAVELS = {Direction.SIDE, Direction.FORWARD, Direction.BACK, Direction.RIGHT, Direction.LEFT}
