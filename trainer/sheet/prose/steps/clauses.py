"""An item's lexemes to clauses: each is one step, one figure's name, one phrase of turning, or words beside the steps.

A clause ends at punctuation and at "and" or "then", but also inside a row of words where a second move or a second acting
foot begins: "step R lock L step R" is three.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import Literal

from trainer.routine import Span
from trainer.sheet.prose.steps.feet import Reference, with_feet
from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.steps.turns import Turning, with_turnings
from trainer.sheet.prose.steps.weights import Weighted, with_weights
from trainer.terms import Direction, Foot, Move

GESTURES = frozenset(
    {
        Move.SWEEP, Move.RONDE, Move.HITCH, Move.HOOK, Move.FLICK, Move.KICK, Move.DRAG, Move.SLIDE, Move.SCUFF, Move.BRUSH,
        Move.SWING, Move.CLAP, Move.SNAP, Move.BUMP, Move.SWAY, Move.POSE, Move.SHIMMY, Move.BEND, Move.HIP_ROLL, Move.BODY_ROLL,
        Move.KNEE_POP, Move.BOUNCE, Move.TOUCH, Move.POINT, Move.TAP, Move.PUSH, Move.TWIST, Move.SWIVEL, Move.DROP,
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
    last: int = 0
    """It falls on so many last counts: "over the last two"."""
    ing: bool = False
    """Its verb, or its turn, is a form in -ing, or "with" opens it: it goes with the step before."""
    joined: bool = False
    """No punctuation parts it from the clause before."""
    follows: bool = False
    """No punctuation parts it from the clause after."""
    introduces: str = ""
    """":" where a colon follows, "(" where a bracket or a dash does: it may be the name of what is spelled out then."""
    aside: bool = False
    """In brackets."""
    again: bool = False
    finish: bool = False
    upbeat: bool = False
    """An & among the words, which may stand for a step of its own: "heel & heel &"."""
    start: Foot | None = None
    """The foot that the steps before it, or its own, start with: "in four walks, starting right"."""
    half: str = ""
    """half, later: only that part of a figure."""
    slow: bool = False
    other: bool = False
    """On the other foot."""
    unknown: tuple[Span, ...] = ()
    known: int = 0
    """Words that say something about steps."""
    typos: int = 0
    words: str = ""

    @property
    def way(self) -> Direction | str | None:
        """The first way said."""
        return self.ways[0] if self.ways else None


def clauses_of(lexes: Sequence[Lex]) -> tuple[Clause, ...]:
    """Return the clauses of an item."""
    builder = _Builder()
    for lex in with_feet(_with_durations(with_turnings(with_weights(lexes)))):
        builder.take(lex)
    return builder.done()


def _with_durations(lexes: Sequence[Lex]) -> list[Lex]:
    """Tell numbers apart: "over two counts", "for two", "on 7", "on counts 7 and 8", "over the last two", "4 hip rolls"."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        lex = lexes[at]
        before = [one for one in lexes[max(at - 3, 0) : at] if one.low not in ("the", "a", "of")]
        lead = before[-1].low if before else ""
        if lex.kind == "task" and lex.value == "count" and at + 1 < len(lexes) and lexes[at + 1].kind == "number":
            numbers, at = _numbers(lexes, at + 1)
            done.append(Lex("task", ("at", tuple(numbers)), "on", lex.span))
            continue
        if lex.kind != "number":
            done.append(lex)
            at += 1
            continue
        after = lexes[at + 1] if at + 1 < len(lexes) else None
        if (
            after is not None
            and after.kind == "move"
            and after.low == "step"
            and lead in ("walk", "run", "forward", "back")
        ):
            # "Walk two steps forward".
            done.append(lex)
            at += 2
            continue
        if after is not None and after.kind == "move" and after.low == "step" and lead in ("over", "in"):
            # "A full turn over three steps".
            while done and done[-1].low in ("over", "in"):
                done.pop()
            done.append(Lex("task", ("for", lex.value), "for", lex.span))
            at += 2
            continue
        counted = after is not None and after.kind == "task" and after.value == "count"
        if lead == "last" and lex.value < 5:
            while done and done[-1].low in ("last", "the", "over", "for", "on"):
                done.pop()
            done.append(Lex("task", ("last", lex.value), "last", lex.span))
        elif counted or lead in ("for", "over"):
            while done and done[-1].low in ("for", "over", "the"):
                done.pop()
            done.append(Lex("task", ("for", lex.value), "for", lex.span))
            at += counted
        elif lead == "on" and lex.low.isdigit():
            numbers, at = _numbers(lexes, at)
            done.append(Lex("task", ("at", tuple(numbers)), "on", lex.span))
            continue
        else:
            done.append(lex)
        at += 1
    return done


def _numbers(lexes: Sequence[Lex], at: int) -> tuple[list[int], int]:
    numbers = [lexes[at].value]
    at += 1
    while at + 1 < len(lexes) and lexes[at].low in ("and", "-", ",") and lexes[at + 1].kind == "number":
        numbers.append(lexes[at + 1].value)
        at += 2
    return numbers, at


@dataclass(slots=True)
class _Open:
    """The clause being built."""

    kind: ClauseKind = "words"
    span: Span | None = None
    moves: list[Lex] = field(default_factory=list)
    ways: list[Direction | str] = field(default_factory=list)
    feet: list[Foot] = field(default_factory=list)
    run: tuple[Foot, ...] = ()
    refs: list[Reference] = field(default_factory=list)
    values: dict[str, object] = field(default_factory=dict)
    words: list[str] = field(default_factory=list)
    unknown: list[Span] = field(default_factory=list)
    known: int = 0
    typos: int = 0
    glue: int = 0

    @property
    def said(self) -> bool:
        """Whether it holds anything of a step."""
        return bool(
            self.moves or self.ways or self.feet or self.run or self.refs or "to" in self.values or self.kind != "words"
        )

    @property
    def acts(self) -> bool:
        """Whether an acting foot or a figure stands in it."""
        return bool(self.feet or self.run)


_SAME_WAY = {
    (Direction.CROSS, Direction.BEHIND): Direction.BEHIND,
    (Direction.CROSS, Direction.CROSS): Direction.CROSS,
    (Direction.BACK, Direction.BEHIND): Direction.BEHIND,
    (Direction.BACK, Direction.BACK): Direction.BACK,
    (Direction.FORWARD, Direction.FORWARD): Direction.FORWARD,
    (Direction.FORWARD, Direction.CROSS): Direction.CROSS,
    (Direction.CROSS, Direction.FORWARD): Direction.CROSS,
    (Direction.BACK, Direction.CROSS): Direction.CROSS,
    (Direction.IN_PLACE, Direction.TOGETHER): Direction.TOGETHER,
    (Direction.TOGETHER, Direction.IN_PLACE): Direction.TOGETHER,
    (Direction.TOGETHER, Direction.TOGETHER): Direction.TOGETHER,
    (Direction.OUT, Direction.SIDE): Direction.SIDE,
    (Direction.SIDE, Direction.SIDE): Direction.SIDE,
    (Direction.SIDE, Direction.OUT): Direction.SIDE,
    (Direction.BACK, Direction.IN_PLACE): Direction.IN_PLACE,
    (Direction.BACK, Direction.TOGETHER): Direction.TOGETHER,
    (Direction.IN, Direction.TOGETHER): Direction.TOGETHER,
    (Direction.IN, Direction.IN_PLACE): Direction.IN,
    (Direction.FORWARD, Direction.IN_PLACE): Direction.FORWARD,
    (Direction.FORWARD, Direction.OUT): Direction.OUT,
    (Direction.OUT, Direction.FORWARD): Direction.OUT,
    (Direction.BACK, Direction.IN): Direction.IN,
    (Direction.OUT, Direction.CROSS): Direction.FORWARD,
    (Direction.IN, Direction.CROSS): Direction.CROSS,
    (Direction.BACK, Direction.OUT): Direction.OUT,
    (Direction.OUT, Direction.BACK): Direction.OUT,
}
"""Two ways that one step may have, and the one that counts."""

_OF_STEPS = {"move", "part", "way", "foot", "side", "run", "ref", "to", "figure", "turning"}
"""Lexemes that begin a clause of their own after a phrase of turning."""

_DISTRIBUTED = {Move.SWIVEL, Move.TWIST, Move.BUMP, Move.SWAY, Move.HIP_ROLL, Move.FAN, Move.KNEE_POP}


class _Builder:
    """Takes lexemes one by one and closes a clause wherever the next begins."""

    def __init__(self) -> None:
        self.made: list[Clause] = []
        self.open = _Open()
        self.depth = 0
        self.joined = False
        self.leading: dict[str, object] = {}

    def done(self) -> tuple[Clause, ...]:
        """Return all clauses."""
        self._close(follows=False)
        return tuple(self.made)

    def take(self, lex: Lex) -> None:
        """Take the next lexeme."""
        if lex.kind in ("break", "open", "close"):
            if lex.value != ":" or not self._only_feet():
                self._break(lex)
            return
        if lex.kind == "task" and lex.value in ("and", "then"):
            self._close(follows=False)
            self.joined = False
            if lex.low == "&":
                self.made.append(Clause("words", lex.span, upbeat=True, words="&"))
            return
        if self.open.kind == "turn" and lex.kind == "figure":
            # "½ Monterey", "¼ turning right jazz box": the turn is the figure's.
            self.open.kind = "words"
        elif self.open.kind == "turn" and lex.kind in _OF_STEPS:
            self._next(lex)
        if self.open.span is None:
            self.open.span = lex.span
        handler = getattr(self, f"_{lex.kind}", None)
        if handler is not None:
            handler(lex)
        if self.open.span is None:
            self.open.span = lex.span
        self.open.words.append(lex.low)
        self.open.typos += lex.typo

    def _only_feet(self) -> bool:
        """Whether the clause holds nothing but a foot: "RF: side, LF: behind"."""
        now = self.open
        return bool(now.feet) and not (now.moves or now.ways or now.refs or now.run or now.kind == "figure")

    def _break(self, lex: Lex) -> None:
        self._close(follows=False)
        self.joined = False
        if self.made and (lex.kind == "open" or lex.value in (":", "=", "-", "|")):
            self.made[-1] = replace(self.made[-1], introduces=":" if lex.value in (":", "=") else "(")
        if lex.kind == "open":
            self.depth += 1
        elif lex.kind == "close":
            self.depth = max(self.depth - 1, 0)

    def _next(self, lex: Lex) -> None:
        """Close the clause because another begins in the same row of words."""
        self._close(follows=True)
        self.open.span = lex.span
        self.joined = True

    # One method for each kind of lexeme.

    def _move(self, lex: Lex) -> None:
        now = self.open
        if self._sharing(lex):
            self._next(lex)
            self.open.values["ing"] = True
        elif any(move.kind == "move" for move in now.moves) or (now.kind == "figure" and not self._leads_feet(lex)):
            self._next(lex)
        elif now.kind == "figure":
            now.known += 1
            return
        elif lex.way is not None and now.ways and (now.feet or now.refs) and now.ways[0] != lex.way:
            self._next(lex)
        now = self.open
        now.moves.append(lex)
        if now.kind == "words":
            now.kind = "step"
        if lex.ing and not now.acts and not now.ways:
            now.values.setdefault("ing", True)
        now.known += 1
        if lex.way is not None:
            now.ways.append(lex.way)

    def _sharing(self, lex: Lex) -> bool:
        """Whether a gesture in -ing, or after "with", begins: it goes with the step before it."""
        if lex.value not in GESTURES:
            return False
        return bool(
            self.open.said and (lex.ing or self.open.values.get("with_last")) and self.open.moves + self.open.feet
        )

    def _leads_feet(self, lex: Lex) -> bool:
        """Whether a verb in a figure's clause only leads to its feet: "triple half turn stepping R L R"."""
        return lex.value in (Move.STEP, Move.WALK, Move.RUN) and lex.ing and not self.open.run

    def _part(self, lex: Lex) -> None:
        now = self.open
        if now.kind == "figure":
            return
        if any(move.kind == "part" for move in now.moves) and not any(move.kind == "move" for move in now.moves):
            self._next(lex)
            now = self.open
        now.known += 1
        if not any(move.kind == "move" for move in now.moves) or lex.value in ("toe", "heel"):
            now.moves.append(lex)
            if now.kind == "words":
                now.kind = "step"

    def _way(self, lex: Lex) -> None:
        now = self.open
        way: Direction | str = lex.value
        now.known += 1
        if now.ways and now.kind != "figure":
            if now.moves and now.moves[-1].way is not None:
                # "Bring it back", "close left to the side": the verb tells the way.
                return
            joined = _joined_way(now.ways[-1], way)
            if joined is None:
                self._next(lex)
                self.open.kind = "step"
                self.open.ways.append(way)
                self.open.known += 1
                return
            now.ways[-1] = joined
            return
        now.ways.append(way)
        if now.kind == "words":
            now.kind = "step"

    def _foot(self, lex: Lex) -> None:
        self._acting(lex, sure=True)

    def _side(self, lex: Lex) -> None:
        self._acting(lex, sure=False)

    def _acting(self, lex: Lex, *, sure: bool) -> None:
        now = self.open
        now.known += 1
        if now.run:
            self._next(lex)
            now = self.open
        elif now.feet:
            if _spread(now) and not sure and now.feet[-1] == lex.value:
                # "Right hip right".
                return
            if (
                not sure
                and now.values.get("to") is None
                and (now.values.get("sure") or now.feet[-1] == lex.value)
                and not _spread(now)
            ):
                now.values["to"] = lex.value
                now.values["trailing"] = True
                return
            if now.kind == "figure":
                now.feet.append(lex.value)
                return
            self._next(lex)
            now = self.open
        if not now.feet:
            now.values["sure"] = sure
            now.values["ref_first"] = False
        now.feet.append(lex.value)
        if now.kind == "words":
            now.kind = "step"

    def _run(self, lex: Lex) -> None:
        now = self.open
        if now.run or (now.feet and now.kind != "figure"):
            self._next(lex)
            now = self.open
        now.run = lex.value
        now.known += len(lex.value)
        if now.kind == "words":
            now.kind = "step"

    def _ref(self, lex: Lex) -> None:
        now = self.open
        now.known += 2
        verb_tells = bool(now.moves) and now.moves[-1].way is not None
        if verb_tells and now.kind == "step":
            # "Close left behind right": the reference tells more than the verb.
            now.ways.clear()
        if (now.refs and now.kind != "figure") or (
            now.kind != "figure"
            and now.ways
            and (now.feet or now.moves)
            and _joined_way(now.ways[-1], lex.value.way) is None
        ):
            self._next(lex)
            now = self.open
        if not now.said:
            now.values["ref_first"] = True
        now.refs.append(lex.value)
        if now.kind == "words":
            now.kind = "step"

    def _to(self, lex: Lex) -> None:
        self.open.values.setdefault("to", lex.value)
        self.open.known += 1
        if self.open.kind == "words":
            self.open.kind = "step"

    def _figure(self, lex: Lex) -> None:
        now = self.open
        if now.kind == "figure" or now.moves:
            feet = now.feet[-1:] if len(now.feet) > 1 else []
            if now.values.pop("trailing", None):
                # "Sweep L into L sailor": the second L starts the figure.
                feet = [now.values.pop("to")]  # type: ignore[list-item]
            self._next(lex)
            now = self.open
            now.feet.extend(feet)
        now.kind = "figure"
        now.values["figure"] = lex.value
        now.known += 2

    def _turning(self, lex: Lex) -> None:
        now = self.open
        now.known += 1
        turning: Turning = lex.value
        if now.kind == "figure":
            before = now.values.get("turning")
            now.values["turning"] = turning if not isinstance(before, Turning) else before.joined(turning)
            return
        if (
            now.moves
            and not now.acts
            and not now.refs
            and turning.word != "pivot"
            and now.values.get("turning") is None
        ):
            # "Walk half circle left R L R L", "step ¼ turn left": the turn stands inside its step.
            now.values["turning"] = turning
            now.values["turn_inside"] = True
            return
        if turning.before is not None and len(now.feet) == 1 and not now.moves and not now.ways:
            now.feet.clear()
        if self.open.said:
            self._next(lex)
        self.open.kind = "turn"
        self.open.values["turning"] = turning
        self.open.values["ing"] = lex.ing

    def _weighted(self, lex: Lex) -> None:
        self.open.values["weighted"] = lex.value
        self.open.known += 1

    def _facing(self, lex: Lex) -> None:
        self.open.values["facing"] = lex.value
        self.open.values["facing_span"] = lex.span

    def _number(self, lex: Lex) -> None:
        if 1 < lex.value <= 16:
            self.open.values.setdefault("times", lex.value)

    def _task(self, lex: Lex) -> None:
        now = self.open
        now.values["with_last"] = lex.value == "with"
        if isinstance(lex.value, tuple):
            kind, value = lex.value
            if kind == "start" and now.kind == "figure" and not now.feet:
                now.feet.append(value)
                now.values["sure"] = True
            else:
                now.values["counts" if kind == "for" else str(kind)] = value
        elif lex.value == "with" and not now.said:
            now.values["ing"] = True
        elif lex.value in ("again", "finish", "slow", "other"):
            now.values[lex.value] = True
        elif lex.value in ("half", "later"):
            now.values["half"] = lex.value

    def _glue(self, lex: Lex) -> None:
        self.open.glue += 1

    def _style(self, lex: Lex) -> None:
        self.open.glue += 1

    def _unknown(self, lex: Lex) -> None:
        self.open.unknown.append(lex.span)

    def _close(self, *, follows: bool) -> None:
        now = self.open
        self.open = _Open()
        if now.span is None:
            return
        values = {key: value for key, value in now.values.items() if key not in ("with_last", "trailing")}
        if now.kind == "words" and now.words and now.words[-1].isdigit() and not {"x", "times"} & set(now.words):
            # A number by itself is no number of times.
            values.pop("times", None)
        if not now.said and not values and not now.unknown:
            return
        self.made.append(
            Clause(
                kind=now.kind,
                span=now.span,
                moves=tuple(now.moves),
                ways=tuple(now.ways),
                feet=tuple(now.feet),
                run=now.run,
                refs=tuple(now.refs),
                unknown=tuple(now.unknown),
                known=now.known,
                typos=now.typos,
                words=" ".join(now.words),
                joined=self.joined,
                follows=follows,
                aside=self.depth > 0,
                **values,  # type: ignore[arg-type]
            )
        )
        self.joined = follows


def _spread(now: _Open) -> bool:
    """Whether right and left are the ways of a body's move: "bump hips right left"."""
    return any(move.value in _DISTRIBUTED for move in now.moves)


def _joined_way(first: Direction | str, second: Direction | str) -> Direction | str | None:
    """Return the way of one step that has both, or None where they are two steps."""
    if isinstance(first, Direction) and isinstance(second, Direction):
        if first in _DIAGONAL_WAYS or second in _DIAGONAL_WAYS:
            return first if first in _DIAGONAL_WAYS else second
        return _SAME_WAY.get((first, second))
    return second if not isinstance(second, Direction) else first


_DIAGONAL_WAYS = {Direction.FORWARD_RIGHT, Direction.FORWARD_LEFT, Direction.BACK_RIGHT, Direction.BACK_LEFT}


def moves_said(clause: Clause) -> Iterable[Lex]:
    """Return the lexemes of a clause's proper moves, parts of the foot left out."""
    return (move for move in clause.moves if move.kind == "move")
