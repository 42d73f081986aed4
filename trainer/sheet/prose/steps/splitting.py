"""An item's lexemes to clauses.

A clause ends at punctuation and at "and" or "then", but also inside a row of words where a second move or a second
acting foot begins: "step R lock L step R" is three.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.dance.figures import figures
from trainer.sheet.prose.steps.both_turn import with_both_turning
from trainer.sheet.prose.steps.building import Builder
from trainer.sheet.prose.steps.circles import with_sides_of_circles
from trainer.sheet.prose.steps.clauses import GESTURES, Clause
from trainer.sheet.prose.steps.durations import with_durations
from trainer.sheet.prose.steps.each_one import without_each_move
from trainer.sheet.prose.steps.feet import with_feet
from trainer.sheet.prose.steps.legs_moved import with_legs_moved
from trainer.sheet.prose.steps.lex import STRANGE_VERB, Lex, is_task
from trainer.sheet.prose.steps.rocks_behind import with_rocks_first
from trainer.sheet.prose.steps.rolled import with_rolls
from trainer.sheet.prose.steps.rowed import with_alternations, with_crosses, with_rows
from trainer.sheet.prose.steps.said_beside import without_what_is_beside
from trainer.sheet.prose.steps.shoulders import with_shoulders
from trainer.sheet.prose.steps.strutted import with_figures_in_one
from trainer.sheet.prose.steps.swivelled_back import with_swivels_back
from trainer.sheet.prose.steps.toes_turned import without_toes_turned
from trainer.sheet.prose.steps.turn_placed import with_turns_placed
from trainer.sheet.prose.steps.turns import Turning, with_turnings
from trainer.sheet.prose.steps.turns_of_steps import with_turns_of_steps
from trainer.sheet.prose.steps.turns_spelled import with_turns_spelled
from trainer.sheet.prose.steps.ways import with_ways_of_one_step
from trainer.sheet.prose.steps.weights import with_weights
from trainer.sheet.prose.steps.wordkinds import HANDLERS
from trainer.terms import Direction, Foot, Move

_OF_STEPS = {"move", "part", "way", "foot", "side", "run", "ref", "to", "figure", "turning"}
"""Lexemes that begin a clause of their own after a phrase of turning."""


def clauses_of(lexes: Sequence[Lex]) -> tuple[Clause, ...]:
    """Return the clauses of an item."""
    builder = Builder()
    told = without_what_is_beside(with_turns_of_steps(with_ways_of_one_step(lexes)))
    said = with_rolls(with_legs_moved(without_each_move(without_toes_turned(told))))
    turned = with_turns_spelled(
        with_turnings(with_turns_placed(with_both_turning(with_weights(with_rocks_first(said)))))
    )
    rowed = with_alternations(with_durations(with_shoulders(with_figures_in_one(turned))))
    for lex in with_rows(_gestures_first(_spelled_out(_without_dash(with_feet(with_crosses(rowed)))))):
        _take(builder, lex)
    return _stepped(_garbled(_told_apart(with_sides_of_circles(with_swivels_back(builder.done())))))


def _without_dash(lexes: Sequence[Lex]) -> Sequence[Lex]:
    """Return the lexemes without the only dash where it parts the foot that opens an item from what it does."""
    dashes = [at for at, lex in enumerate(lexes) if lex.kind == "break" and lex.value == "-"]
    if dashes != [1] or len(lexes) < 3 or lexes[0].kind not in ("foot", "side"):
        return lexes
    does = lexes[2].kind in _DOES and lexes[2].value not in (Move.HOLD, Move.CLAP, Move.SNAP)
    return [lexes[0], *lexes[2:]] if does else lexes


_DOES = {"move", "part", "way", "prep", "turning", "figure"}


def _spelled_out(lexes: Sequence[Lex]) -> Sequence[Lex]:
    """Return the lexemes with a colon where "so" leads to the feet: "right lock back, so right left right touch"."""
    return [
        lex._replace(kind="break", value=":", low=":")
        if lex.low == "so" and at and at + 1 < len(lexes) and lexes[at + 1].kind in ("run", "side", "foot")
        else lex
        for at, lex in enumerate(lexes)
    ]


def _told_apart(clauses: tuple[Clause, ...]) -> tuple[Clause, ...]:
    """Join so many of a move with their feet behind a comma: "four stomps, RLRL" are four."""
    done: list[Clause] = []
    for clause in clauses:
        before = done[-1] if done else None
        feet = (
            clause.kind == "step" and clause.run and not (clause.moves or clause.ways or clause.refs or clause.figure)
        )
        several = (
            before is not None
            and before.kind == "step"
            and len(clause.run) in (before.times, before.counts)
            and before.moves
        )
        if feet and several and before is not None and not (before.feet or before.run) and clause.turning is None:
            done[-1] = replace(before, run=clause.run, words=f"{before.words} {clause.words}")
        elif before is not None and _one_each(before, clause):
            # "Two toe struts forward, right then left".
            done[-1:] = [replace(before, feet=(foot,), sure=True, times=1) for foot in clause.run]
        else:
            done.append(clause)
    return tuple(done)


def _one_each(before: Clause, clause: Clause) -> bool:
    """Whether a row of feet tells the foot of each of so many figures, or of each of those that one foot dances."""
    feet = clause.kind == "step" and clause.run and not (clause.moves or clause.ways or clause.refs or clause.turning)
    if before.kind != "figure" or before.feet or before.run or before.turning or not feet:
        return False
    figure = figures().get(before.figure)
    if before.times == 1 and figure is not None and figure.of_one_foot:
        # "Toe struts forward: right, left, right, left".
        return before.introduces in ("", ":")
    return before.times == len(clause.run) > 1 and not before.introduces


_WITH_A_STEP = {Move.SWAY, Move.BUMP, Move.STOMP}
"""What may be danced with a step that is told after it."""


_SIDES: dict[Direction | str, Foot] = {Direction.RIGHT: Foot.RIGHT, Direction.LEFT: Foot.LEFT}


def _stepped(clauses: tuple[Clause, ...]) -> tuple[Clause, ...]:
    """Return the clauses, those marked that say with what step the one before them is danced, or open with weight."""
    done = list(clauses)
    if done and done[0].weighted is not None and done[0].kind == "words":
        done[0] = replace(done[0], weighted=done[0].weighted._replace(opens=True))
    for at, (before, clause) in enumerate(pairwise(clauses), 1):
        sways = bool(before.moves) and before.moves[-1].value in _WITH_A_STEP and before.turning is None
        # "Sway right, stepping right to the side": behind a comma it tells the foot that is on that side.
        named = [*before.feet, *(_SIDES[way] for way in before.ways if way in _SIDES)]
        near = clause.joined or (bool(clause.feet) and list(clause.feet) == named[:1])
        steps = clause.ing and near and [lex.value for lex in clause.moves] == [Move.STEP]
        if sways and steps and clause.turning is None and not clause.run:
            done[at] = replace(clause, stepped=True)
        elif _sways_on_it(before, clause):
            done[at] = replace(clause, ing=True)
    return tuple(done)


def _sways_on_it(before: Clause, clause: Clause) -> bool:
    """Whether a foot steps aside "and sways" to the same side: as "swaying" does, it may share the step's count."""
    steps = (
        before.kind == "step" and before.way is Direction.SIDE and [x.value for x in before.moves] in ([], [Move.STEP])
    )
    sways = clause.kind == "step" and clause.anded and [lex.value for lex in clause.moves] == [Move.SWAY]
    aside = clause.feet or ((clause.to,) if clause.to is not None else ())
    return steps and sways and clause.turning is None and aside == before.feet != ()


def _garbled(clauses: tuple[Clause, ...]) -> tuple[Clause, ...]:
    """Return the clauses with those marked that say feet and strange words only: two or more, and some nobody knows.

    A clause of nothing but strange words counts as one beside them. What nobody knows are slips of the pen, and words
    that stand nowhere else in the sheet.
    """
    strange = [
        clause.kind == "step" and bool(clause.unknown) and not (clause.moves or clause.ways or clause.refs)
        for clause in clauses
    ]
    unknown = any(clause.typos for clause in clauses) or sum(clause.odd for clause in clauses) > 1
    beside = any(strange) and any(clause.kind == "words" and clause.unknown and not clause.known for clause in clauses)
    if sum(strange) + beside < 2 or not unknown:
        return clauses
    return tuple(replace(one, garbled=True) if odd else one for one, odd in zip(clauses, strange, strict=True))


def _gestures_first(lexes: Sequence[Lex]) -> list[Lex]:
    """Put a gesture in -ing or after "with" before its foot: "LF sweeping round" is "sweeping LF round"."""
    done = list(lexes)
    for at in range(1, len(done)):
        foot, gesture = done[at - 1], done[at]
        begins = at == 1 or done[at - 2].kind in ("break", "open") or is_task(done[at - 2], "and", "then", "with")
        # "Vine right with a left touch": the foot is the touch's, not the vine's.
        led = at > 1 and is_task(done[at - 2], "with")
        makes = gesture.kind == "move" and (gesture.ing or led) and gesture.value in GESTURES
        if (
            begins
            and makes
            and foot.kind in ("foot", "side")
            and not any(one.kind in _FEET for one in done[at + 1 : at + 3])
        ):
            done[at - 1], done[at] = gesture, foot._replace(kind="foot")
    return done


_FEET = {"foot", "side", "run"}


def _whole(builder: Builder) -> bool:
    """Whether the open clause is a turn of a whole circle or more."""
    turning = builder.open.values.get("turning")
    return isinstance(turning, Turning) and turning.amount is not None and turning.amount >= 1


def _take(builder: Builder, lex: Lex) -> None:
    if lex.kind in ("break", "open", "close"):
        if lex.value != ":" or not builder.only_feet():
            builder.breaks(lex)
        return
    if is_task(lex, "and", "then"):
        builder.close(follows=False)
        builder.joined, builder.anded = False, lex.value == "and" and lex.low != "&"
        if lex.low == "&":
            builder.made.append(Clause("words", lex.span, upbeat=True, words="&"))
        return
    if builder.open.kind == "turn" and lex.kind == "figure":
        # "½ Monterey", "¼ turning right jazz box": the turn is the figure's.
        builder.open.kind = "words"
    elif (
        builder.open.kind == "turn"
        and lex.kind == "way"
        and (
            "counts" in builder.open.values
            or ((lex.low in ("forward", "back") or lex.value is Direction.IN_PLACE) and _whole(builder))
        )
    ):
        # "A full turn in two steps forward", "full turn left travelling forward": the way is that of its own steps.
        return
    elif builder.open.kind == "turn" and lex.kind == "way" and lex.low in ("to the front", "to the back"):
        # "Turn a quarter left to the front": the wall.
        return
    elif builder.open.kind == "turn" and (lex.kind in _OF_STEPS or lex.value == STRANGE_VERB):
        builder.next(lex)
    builder.placed(lex)
    handler = HANDLERS.get(lex.kind)
    if handler is not None:
        handler(builder, lex)
    builder.placed(lex)
    builder.open.words.append(lex.low)
    builder.open.typos += lex.typo
