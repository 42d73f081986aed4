"""Clauses: each is one step, one figure's name, one phrase of turning, or words beside the steps."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.routine import Span
from trainer.sheet.prose.steps.feet import Reference
from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.steps.turns import Turning
from trainer.sheet.prose.steps.weights import Weighted
from trainer.terms import Direction, Foot, Move

GESTURES = frozenset(
    {
        Move.SWEEP, Move.RONDE, Move.HITCH, Move.HOOK, Move.FLICK, Move.KICK, Move.DRAG, Move.SLIDE, Move.SCUFF,
        Move.BRUSH, Move.SWING, Move.CLAP, Move.SNAP, Move.BUMP, Move.SWAY, Move.POSE, Move.SHIMMY, Move.BEND,
        Move.HIP_ROLL, Move.BODY_ROLL, Move.KNEE_POP, Move.BOUNCE, Move.TOUCH, Move.POINT, Move.TAP, Move.PUSH,
        Move.TWIST, Move.SWIVEL,
    }
)  # fmt: skip
"""Moves that may share the count of a step."""

ClauseKind = Literal["step", "figure", "turn", "words"]


@dataclass(frozen=True, slots=True)
class Clause:
    """A clause with what its words say, each sort by itself, in the order said."""

    kind: ClauseKind
    span: Span
    moves: tuple[Lex, ...] = ()
    """Moves, and parts of the foot that stand for one."""
    ways: tuple[Direction | str, ...] = ()
    feet: tuple[Foot, ...] = ()
    sure: bool = False
    """The first foot is surely a foot, not a direction."""
    run: tuple[Foot, ...] = ()
    refs: tuple[Reference, ...] = ()
    ref_first: bool = False
    """The reference opens the clause: "behind left" may mean the left foot behind."""
    to: Foot | None = None
    """The side that it goes to."""
    figure: str = ""
    side_after: bool = False
    """Its foot is said after the figure's name, where it may be the side of a turn: "paddle turn left"."""
    turning: Turning | None = None
    turn_inside: bool = False
    """The turn stands before the acting foot: "step ¼ turn right L forward"."""
    weighted: Weighted | None = None
    facing: Fraction | None = None
    facing_span: Span | None = None
    times: int = 1
    counts: int = 0
    """How many counts it is said to last; 0: not said."""
    at: tuple[int, ...] = ()
    """The counts on which it is said to fall."""
    nth: int = 0
    """It falls on the step of that number in its figure, -1 the last: "on the third step"; 0: not said."""
    last: int = 0
    """It falls on so many last counts: "over the last two"."""
    ing: bool = False
    """Its verb, or its turn, is a form in -ing, or "with" opens it: it goes with the step before."""
    joined: bool = False
    """No punctuation parts it from the clause before."""
    anded: bool = False
    """Only an "and" parts it from the clause before."""
    follows: bool = False
    """No punctuation parts it from the clause after."""
    leads: bool = False
    """A step in -ing follows a turn in the same row of words: "turn ¼ right stepping right forward" is one event."""
    stepped: bool = False
    """It tells the step with which the sway or stomp before it is danced: "sway right stepping right to the side"."""
    equals: bool = False
    """An equals sign stands before it: "clap = back" tells a wall."""
    introduces: str = ""
    """":" where a colon follows, "(" where a bracket or a dash does: it may be the name of what is spelled out then."""
    aside: bool = False
    """In brackets."""
    again: bool = False
    finish: bool = False
    body: bool = False
    """It tells of arms, shoulders, the head: a count of styling, if it has one."""
    opens: bool = False
    """It is the first of its sentence."""
    upbeat: bool = False
    """An & among the words, which may stand for a step of its own: "heel & heel &"."""
    offbeat: bool = False
    """Some of its item's counts are no whole ones, so that an & among the words may be one of them."""
    start: Foot | None = None
    """The foot that the steps before it, or its own, start with: "in four walks, starting right"."""
    half: str = ""
    """half, later: only that part of a figure."""
    slow: bool = False
    each: bool = False
    """Each time, on each step."""
    other: bool = False
    """On the other foot."""
    unknown: tuple[Span, ...] = ()
    known: int = 0
    """Words that say something about steps."""
    typos: int = 0
    garbled: bool = False
    """It stands among others whose words are as strange, in an item with slips of the pen."""
    odd: bool = False
    """A word that nobody knows, and that the sheet uses once, stands in the place of its verb: "zub left forward"."""
    words: str = ""

    @property
    def way(self) -> Direction | str | None:
        """The first way said."""
        return self.ways[0] if self.ways else None
