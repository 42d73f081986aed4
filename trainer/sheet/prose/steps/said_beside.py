"""What is said beside the steps in the words of steps: where the hands are, what it looks like, which foot is free now.

"Hands on hips", "arms crossed in front of you", "like stepping over a rope", "small steps" tell no step; "leaving the
right foot free" tells where the weight is.
"""

from collections.abc import Sequence
from itertools import groupby, pairwise

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.sheet.prose.steps.weights import Weighted
from trainer.terms import Direction, Foot, Move

_LEADS = {"leaving", "leave", "leaves", "so", "with", "that", "the", "your", "now", "which"}
_STANDS = {"is", "stay", "stays", "remain", "remains", "being", "now", "left"}
_SIZES = {"small", "little", "tiny", "short", "smaller", "big", "long", "larger", "bigger"}
_PREPARES = {"prep", "preps", "prepping", "prepare", "prepares", "preparing"}
_OF_FEET = {"foot", "side", "run", "turn", "turning", "figure", "amount", "part", "facing", "number"}


def without_what_is_beside(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes, those that tell no step as style, and a free foot as a note of weight."""
    done: list[Lex] = []
    sways = False
    for breaks, group in groupby(lexes, key=lambda lex: lex.kind in ("break", "open", "close")):
        row = list(group)
        done += row if breaks else _told(row) if not (sways and _only_to_a_side(row)) else _without_to(row)
        if any(lex.kind == "move" for lex in row):
            sways = [lex for lex in row if lex.kind == "move"][-1].value in (Move.SWAY, Move.BUMP)
    return done


def _only_to_a_side(row: Sequence[Lex]) -> bool:
    """Whether words say only to which side: "sway to the right, to the left, and to the right"."""
    rest = [lex for lex in row if lex.kind != "glue" and not is_task(lex, "and", "then")]
    return len(rest) == 2 and is_task(rest[0], "to") and rest[1].kind == "side"


def _without_to(row: Sequence[Lex]) -> list[Lex]:
    return [lex for lex in row if not is_task(lex, "to") and lex.kind != "glue"]


def _told(row: list[Lex]) -> list[Lex]:
    """Return the lexemes between two breaks."""
    row = _with_heels_in_front(_with_loaded_foot(_with_free_foot(row)))
    if _only_sizes(row):
        return [lex._replace(kind="style", value=None) for lex in row]
    at = _beside_from(row)
    return [*row[:at], *(lex if is_task(lex, "and", "then") else _styled(lex) for lex in row[at:])]


def _styled(lex: Lex) -> Lex:
    return lex if lex.kind in ("glue", "part", "weighted") else lex._replace(kind="style", value=None)


def _beside_from(row: Sequence[Lex]) -> int:
    """Return where words begin that tell no step, up to the end of the row; its length where none do."""
    first = next(
        (at for at, lex in enumerate(row) if not (lex.kind == "glue" or is_task(lex, "and", "with"))), len(row)
    )
    if first < len(row) and _is_body(row[first]) and not any(_of_steps(lex) for lex in row[first + 1 :]):
        return first
    if (prepared := _prepared_from(row)) is not None:
        return prepared
    for at, (lex, after) in enumerate(pairwise(row)):
        if lex.low == "like" and after.kind == "move" and after.ing:
            return at
        if is_task(lex, "with") and all(one.value is Move.HOLD for one in row[:at] if one.kind not in ("glue", "task")):
            # "Hold with your hand to your cap" is a hold, whatever a cap is.
            held = any(one.value is Move.HOLD for one in row[:at])
            if held and not any(_of_steps(one) or one.kind == "move" for one in row[at:] if not _is_body(one)):
                return at
    return len(row)


def _prepared_from(row: Sequence[Lex]) -> int | None:
    """Return where a turn is only prepared for, up to the end of the row: "prep R with the upper body"."""
    at = next((at for at, lex in enumerate(row) if lex.low in _PREPARES), None)
    if at is None or any(lex.kind in ("move", "figure", "run", "way") for lex in row[at + 1 :]):
        # "Prep R forward" is a step.
        return None
    return at


def _with_heels_in_front(row: list[Lex]) -> list[Lex]:
    """Return a row in which a heel that is set down "in front" digs there: it is not lowered under the weight."""
    done = list(row)
    for at, (lex, after) in enumerate(pairwise(row)):
        if lex.value is Move.DROP and after.kind == "way" and after.low in ("in front", "forward", "out in front"):
            done[at : at + 2] = [
                lex._replace(value=Move.HEEL, low="heel"),
                after._replace(value=Direction.FORWARD, low="forward"),
            ]
    return done


def _is_body(lex: Lex) -> bool:
    return lex.kind == "part" and lex.value == "arm" and lex.low != "face"


def _of_steps(lex: Lex) -> bool:
    """Whether a lexeme behind a part of the body may be of a step, a turn or a gesture of its own."""
    if _is_body(lex) or (lex.value is Move.BUMP and lex.low in ("hip", "hips")):
        return False
    return lex.kind in _OF_FEET or lex.kind == "move" or is_task(lex, "then", "both")


def _only_sizes(row: Sequence[Lex]) -> bool:
    """Whether words only say how big the steps are: "small steps"."""
    rest = [lex for lex in row if lex.kind != "glue" and not is_task(lex, "with", "in")]
    if len(rest) < 2 or any(lex.low not in _SIZES for lex in rest[:-1]):
        return False
    step = rest[-1]
    return step.kind == "move" and step.value is Move.STEP and step.span.length > len(step.low) == len("step")


def _with_loaded_foot(row: list[Lex]) -> list[Lex]:
    """Return a row in which "so that the left foot has the weight" is a note of weight: nobody steps there."""
    weight = next((at for at, lex in enumerate(row) if is_task(lex, "weight")), 0)
    at = weight
    while at and row[at - 1].low in _HAS | {"the", "your", "all", "now", "full"}:
        at -= 1
    if not any(lex.low in _HAS for lex in row[at:weight]):
        return row
    at -= at > 0 and row[at - 1].kind == "part" and row[at - 1].value == "foot"
    first = at - 1
    while first > 0 and row[first - 1].low in _LEADS:
        first -= 1
    # "R step, left has weight" opens its row, or is what the steps lead to: "so that", "and".
    led = first >= 0 and (first == 0 or row[first].low in ("so", "that", "which") or is_task(row[first - 1], "and"))
    if not led or row[at - 1].kind not in ("foot", "side") or row[at - 1].value not in (Foot.RIGHT, Foot.LEFT):
        return row
    note = Weighted("R" if row[at - 1].value is Foot.RIGHT else "L", moved=False)
    return [*row[:first], Lex("weighted", note, "weight", row[at - 1].span), *row[weight + 1 :]]


_HAS = {"has", "have", "having", "carries", "carry", "bears", "holds", "gets"}


def _with_free_foot(row: list[Lex]) -> list[Lex]:
    """Return a row in which "leaving the right foot free" is a note that the left one has the weight."""
    free = next((at for at, lex in enumerate(row) if at and lex.low == "free" and lex.kind == "glue"), 0)
    at = free
    while at and (row[at - 1].low in _STANDS or (row[at - 1].kind == "part" and row[at - 1].value == "foot")):
        at -= 1
    if not at or row[at - 1].kind not in ("foot", "side") or not isinstance(row[at - 1].value, Foot):
        return row
    first = at - 1
    while first and row[first - 1].low in _LEADS:
        first -= 1
    led = any(lex.low in _LEADS - {"the", "your"} for lex in row[first : at - 1]) or (
        first == 0 or is_task(row[first - 1], "and")
    )
    foot = row[at - 1].value
    if not led or foot not in (Foot.RIGHT, Foot.LEFT):
        return row
    note = Weighted("L" if foot is Foot.RIGHT else "R", moved=False)
    return [*row[:first], Lex("weighted", note, "weight", row[at - 1].span), *row[free + 1 :]]
