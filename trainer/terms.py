"""The closed lists of the trade: feet, moves, directions, feels, labels.

What a move does to the weight stands in `dance/figures.toml`; a test holds the two lists together.
R and L are feet, right and left are directions, everywhere in the program.
"""

from enum import StrEnum
from typing import Literal

Weight = Literal["R", "L", "B"]
"""The foot that carries the dancer; B is both, and either may step next."""


class Foot(StrEnum):
    """The foot that acts on a count."""

    RIGHT = "R"
    LEFT = "L"
    BOTH = "B"
    NONE = "-"

    @property
    def mirrored(self) -> "Foot":
        """The same foot of a dancer seen in a mirror."""
        return _MIRRORED[self]


_MIRRORED = {Foot.RIGHT: Foot.LEFT, Foot.LEFT: Foot.RIGHT, Foot.BOTH: Foot.BOTH, Foot.NONE: Foot.NONE}

Label = Literal["1", "2", "3", "4", "5", "6", "7", "8", "e", "&", "a"]
Feel = Literal["straight", "swung", "rolling"]
Time = Literal["4/4", "3/4", "2/4"]
Status = Literal["sure", "unsure", "unread"]


class Move(StrEnum):
    """What the acting foot or the body does on one count."""

    STEP = "step"
    WALK = "walk"
    RUN = "run"
    ROCK = "rock"
    RECOVER = "recover"
    REPLACE = "replace"
    LOCK = "lock"
    BALL = "ball"
    SKATE = "skate"
    PRESS = "press"
    LUNGE = "lunge"
    DROP = "drop"
    LEAP = "leap"
    PIVOT = "pivot"
    STOMP = "stomp"
    STAMP = "stamp"
    TOUCH = "touch"
    POINT = "point"
    TAP = "tap"
    HEEL = "heel"
    TOE = "toe"
    DIG = "dig"
    KICK = "kick"
    FLICK = "flick"
    SWING = "swing"
    HITCH = "hitch"
    HOOK = "hook"
    SCUFF = "scuff"
    BRUSH = "brush"
    SWEEP = "sweep"
    RONDE = "ronde"
    DRAG = "drag"
    SLIDE = "slide"
    PUSH = "push"
    HOP = "hop"
    SCOOT = "scoot"
    JUMP = "jump"
    SWAY = "sway"
    BUMP = "bump"
    HIP_ROLL = "hip roll"
    BODY_ROLL = "body roll"
    SWIVEL = "swivel"
    TWIST = "twist"
    FAN = "fan"
    SPLIT = "split"
    BOUNCE = "bounce"
    KNEE_POP = "knee pop"
    BEND = "bend"
    SHIMMY = "shimmy"
    UNWIND = "unwind"
    TURN = "turn"
    HOLD = "hold"
    CLAP = "clap"
    SNAP = "snap"
    POSE = "pose"


class Direction(StrEnum):
    """Where the acting foot goes; FORWARD_RIGHT and its like are diagonals of travel, no turn."""

    FORWARD = "forward"
    BACK = "back"
    SIDE = "side"
    RIGHT = "right"
    LEFT = "left"
    CROSS = "cross"
    BEHIND = "behind"
    TOGETHER = "together"
    IN_PLACE = "in place"
    OUT = "out"
    IN = "in"
    FORWARD_RIGHT = "forward right"
    FORWARD_LEFT = "forward left"
    BACK_RIGHT = "back right"
    BACK_LEFT = "back left"

    @property
    def mirrored(self) -> "Direction":
        """The same direction seen in a mirror."""
        words = {"right": "left", "left": "right"}
        return Direction(" ".join(words.get(word, word) for word in self.split()))


InsertKind = Literal["tag", "bridge", "ending", "hold"]
PlayKind = Literal["part", "tag", "bridge", "ending", "hold"]
ExtraKind = Literal["intro", "tag", "bridge", "change", "ending"]
LeaveKind = Literal["continue", "restart", "next", "end"]
