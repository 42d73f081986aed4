"""What each kind of lexeme does to the clause that is being built: whether it goes into it, or begins the next."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from trainer.sheet.prose.steps.building import Builder, Open
from trainer.sheet.prose.steps.clauses import GESTURES
from trainer.sheet.prose.steps.lex import STRANGE, STRANGE_VERB, Lex, LexKind
from trainer.sheet.prose.steps.turns import Turning
from trainer.sheet.prose.steps.verbs import after_lock, begins_next, in_a_row, leads_feet, more_of_last, sharing
from trainer.sheet.prose.steps.ways import joined_way
from trainer.terms import Direction, Foot, Move

_DISTRIBUTED = {Move.SWIVEL, Move.TWIST, Move.BUMP, Move.SWAY, Move.HIP_ROLL, Move.FAN, Move.KNEE_POP}


def _move(builder: Builder, lex: Lex) -> None:
    now = builder.open
    if more_of_last(now, lex):
        now.known += 1
        return
    if begins_next(now, lex):
        builder.next(lex)
    elif sharing(builder, lex):
        builder.next(lex)
        builder.open.values["ing"] = True
    elif any(move.kind == "move" for move in now.moves) or (now.kind == "figure" and not leads_feet(builder, lex)):
        builder.next(lex)
    elif now.kind == "figure":
        now.known += 1
        return
    elif lex.way is not None and now.ways and now.ways[0] != lex.way and (now.feet or now.refs or in_a_row(now, lex)):
        builder.next(lex)
    now = builder.open
    if (
        lex.ing
        and lex.value not in GESTURES
        and builder.joined
        and not now.said
        and builder.made
        and builder.made[-1].kind == "turn"
    ):
        builder.made[-1] = replace(builder.made[-1], leads=True)
    now.moves.append(lex)
    if now.kind == "words":
        now.kind = "step"
    if lex.ing and not now.acts and not now.ways:
        now.values.setdefault("ing", True)
    now.known += 1
    if lex.way is not None:
        now.ways.append(lex.way)


def _part(builder: Builder, lex: Lex) -> None:
    now = builder.open
    if now.kind == "figure":
        return
    if now.moves and now.moves[-1].value in (Move.HOOK, Move.HITCH, Move.FLICK) and not now.feet:
        builder.next(lex)
        now = builder.open
    if any(move.kind == "part" for move in now.moves) and not any(move.kind == "move" for move in now.moves):
        builder.next(lex)
        now = builder.open
    now.known += 1
    if not any(move.kind == "move" for move in now.moves) or lex.value in ("toe", "heel"):
        now.moves.append(lex)
        if now.kind == "words":
            now.kind = "step"


def _way(builder: Builder, lex: Lex) -> None:
    now = builder.open
    way: Direction | str = lex.value
    now.known += 1
    if builder.joined and after_lock(now, way):
        # "Forward lock forward".
        builder.next(lex)
        now = builder.open
        now.known += 1
    if now.ways and now.kind != "figure":
        if now.moves and now.moves[-1].way is not None:
            # "Bring it back", "close left to the side": the verb tells the way.
            return
        joined = joined_way(now.ways[-1], way)
        if joined is None:
            builder.next(lex)
            builder.open.kind = "step"
            builder.open.ways.append(way)
            builder.open.known += 1
            return
        now.ways[-1] = joined
        return
    now.ways.append(way)
    if now.kind == "words":
        now.kind = "step"


def _foot(builder: Builder, lex: Lex) -> None:
    _acting(builder, lex, sure=True)


def _side(builder: Builder, lex: Lex) -> None:
    _acting(builder, lex, sure=False)


def _acting(builder: Builder, lex: Lex, *, sure: bool) -> None:
    now = builder.open
    now.known += 1
    led = bool(now.values.get("with_last"))
    if now.feet and not now.run:
        if _second_foot(now, lex, sure=sure):
            return
        builder.next(lex)
    elif now.run:
        builder.next(lex)
    now = builder.open
    if not now.feet:
        now.values["sure"] = sure
        now.values["side_after"] = now.kind == "figure"
        now.values["ref_first"] = False
        now.values["with"] = led
    now.feet.append(lex.value)
    if now.kind == "words":
        now.kind = "step"


def _second_foot(now: Open, lex: Lex, *, sure: bool) -> bool:
    """Take a second right or left that is no second acting foot; False where it is one."""
    if any(move.value == "ball" for move in now.moves):
        # "R ball, L" without its comma.
        return False
    if _spread(now) and now.feet == [Foot.BOTH] and not sure:
        # "Twist both feet right".
        now.feet[:] = [lex.value]
        return True
    if _spread(now) and now.feet[-1] == lex.value:
        # "Right hip right", "sway right onto the right foot".
        return True
    if sure and _goes_to_a_side(now):
        # "Step right with RF": the first is the way, the second acts.
        now.values.update(to=now.feet[0], sure=True)
        now.feet[:] = [lex.value]
        return True
    sideways = not sure and now.values.get("to") is None and not _spread(now)
    if sideways and (now.values.get("sure") or now.feet[-1] == lex.value):
        now.values["to"] = lex.value
        now.values["trailing"] = True
        return True
    if now.kind == "figure":
        now.feet.append(lex.value)
        return True
    return False


def _goes_to_a_side(now: Open) -> bool:
    """Whether "with" parts the foot that is about to be told from a right or left that a verb goes to."""
    led = bool(now.values.get("with_last")) and len(now.feet) == 1 and now.kind == "step" and "to" not in now.values
    return led and bool(now.moves) and not now.values.get("sure") and not (now.ways or now.refs or _spread(now))


def _run(builder: Builder, lex: Lex) -> None:
    now = builder.open
    if _spread(now) and now.feet == [Foot.BOTH] and not now.run:
        # "Twist both heels right, left, right".
        now.feet.clear()
    if now.run or (now.feet and now.kind != "figure"):
        builder.next(lex)
        now = builder.open
    now.run = lex.value
    now.known += len(lex.value)
    if now.kind == "words":
        now.kind = "step"


def _ref(builder: Builder, lex: Lex) -> None:
    now = builder.open
    now.known += 2
    verb_tells = bool(now.moves) and now.moves[-1].way is not None
    if verb_tells and now.kind == "step":
        # "Close left behind right": the reference tells more than the verb.
        now.ways.clear()
    if (now.refs and now.kind != "figure") or (
        now.kind != "figure"
        and now.ways
        and (now.feet or now.moves)
        and joined_way(now.ways[-1], lex.value.way) is None
    ):
        builder.next(lex)
        now = builder.open
    if not now.said:
        now.values["ref_first"] = True
    now.refs.append(lex.value)
    if now.kind == "words":
        now.kind = "step"


def _to(builder: Builder, lex: Lex) -> None:
    builder.open.values.setdefault("to", lex.value)
    builder.open.known += 1
    if builder.open.kind == "words":
        builder.open.kind = "step"


def _figure(builder: Builder, lex: Lex) -> None:
    now = builder.open
    if now.kind == "figure" or now.moves:
        feet = now.feet[-1:] if len(now.feet) > 1 else []
        if now.values.pop("trailing", None):
            # "Sweep L into L sailor": the second L starts the figure.
            feet = [now.values.pop("to")]  # type: ignore[list-item]
        builder.next(lex)
        now = builder.open
        now.feet.extend(feet)
    now.kind = "figure"
    now.values["figure"] = lex.value
    now.known += 2


def _turning(builder: Builder, lex: Lex) -> None:
    now = builder.open
    now.known += 1
    turning: Turning = lex.value
    if now.kind == "figure":
        before = now.values.get("turning")
        now.values["turning"] = turning if not isinstance(before, Turning) else before.joined(turning)
        return
    if len(now.moves) == 1 and now.moves[0].value is Move.SWING and not (now.acts or now.ways or now.refs):
        # "Swing half a turn right as you step right": the verb only tells how to turn.
        now.moves.clear()
        now.kind = "words"
    if now.moves and not now.acts and not now.refs and turning.word != "pivot" and now.values.get("turning") is None:
        # "Walk half circle left R L R L", "step ¼ turn left": the turn stands inside its step.
        now.values["turning"] = turning
        now.values["turn_inside"] = True
        return
    if turning.before is not None and len(now.feet) == 1 and not now.moves and not now.ways:
        now.feet.clear()
    feet = tuple(now.feet) if builder.only_feet() and len(now.feet) == 1 and turning.word != "pivot" else ()
    if feet:
        # "LF 1/4 L stepping forward": the foot is that of the step after the turn.
        now.feet.clear()
    elif now.said:
        builder.next(lex)
    builder.open.kind = "turn"
    builder.open.values["turning"] = turning
    builder.open.values["ing"] = lex.ing
    if feet:
        builder.open.typos += lex.typo
        builder.next(lex)
        builder.open.feet += feet


def _weighted(builder: Builder, lex: Lex) -> None:
    builder.open.values["weighted"] = lex.value
    builder.open.known += 1


def _facing(builder: Builder, lex: Lex) -> None:
    builder.open.values["facing"] = lex.value
    builder.open.values["facing_span"] = lex.span


def _number(builder: Builder, lex: Lex) -> None:
    if 1 < lex.value <= 16:
        builder.open.values.setdefault("times", lex.value)


def _task(builder: Builder, lex: Lex) -> None:
    now = builder.open
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
    elif lex.value in ("again", "finish", "slow", "other", "each"):
        now.values[lex.value] = True
    elif lex.value in ("half", "later"):
        now.values["half"] = lex.value


def _style(builder: Builder, lex: Lex) -> None:
    if lex.value == "arm":
        builder.open.values["body"] = True


def _unknown(builder: Builder, lex: Lex) -> None:
    now = builder.open
    now.unknown.append(lex.span)
    after_foot = bool(now.feet or now.run) and not (now.ways or now.refs or "to" in now.values)
    goal = after_foot and now.words[-1] == "to"
    if lex.value in (STRANGE, STRANGE_VERB) and (goal or (not now.moves and (after_foot or not now.said))):
        now.values["odd"] = True


def _spread(now: Open) -> bool:
    """Whether right and left are the ways of a body's move: "bump hips right left"."""
    return any(move.value in _DISTRIBUTED for move in now.moves)


HANDLERS: Mapping[LexKind, Callable[[Builder, Lex], None]] = {
    "move": _move,
    "part": _part,
    "way": _way,
    "foot": _foot,
    "side": _side,
    "run": _run,
    "ref": _ref,
    "to": _to,
    "figure": _figure,
    "turning": _turning,
    "weighted": _weighted,
    "facing": _facing,
    "number": _number,
    "task": _task,
    "style": _style,
    "unknown": _unknown,
}
