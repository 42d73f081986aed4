"""Rows of words without punctuation: where one step ends and the next begins, and a second foot that only meets."""

from collections.abc import Callable, Sequence
from itertools import pairwise

from trainer.routine import Span
from trainer.sheet.prose.steps.feet import Reference
from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.terms import Direction, Move

_FEET = {"foot", "side"}
_TOUCHING = {Move.TOUCH, Move.TAP, Move.POINT, Move.SCUFF, Move.HITCH, Move.DRAG}
_ENDS = {"break", "open", "close"}


def with_crosses(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with an "x" that opens a step as the way that its foot goes: "x R over L".

    A foot that crosses the other does so over it: "L cross R".
    """
    done = list(lexes)
    for at, lex in enumerate(done):
        if lex.low == "x" and lex.kind == "prep" and _opens(done, at) and _is(done, at + 1, _FEET):
            done[at] = lex._replace(kind="way")
        elif lex.kind == "way" and lex.value is Direction.CROSS and _crosses_the_other(done, at):
            done[at] = lex._replace(kind="prep")
    return done


def _crosses_the_other(lexes: Sequence[Lex], at: int) -> bool:
    """Whether a way stands between two feet, and no more is said of them."""
    alone = _is(lexes, at - 1, _FEET) and _opens(lexes, at - 1) and _is(lexes, at + 1, _FEET)
    ends = at + 2 >= len(lexes) or _is(lexes, at + 2, _ENDS) or is_task(lexes[at + 2], "and", "then")
    return alone and ends and lexes[at - 1].value != lexes[at + 1].value


def with_alternations(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with the steps parted of a row in which the feet change: "left behind right side left over".

    Three steps or more, each a foot and where it goes or what it does, and no word else: "left behind right" alone is
    one step.
    """
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        end = next((to for to in range(at, len(lexes)) if _ends_row(lexes, to)), len(lexes))
        if end > at and lexes[at].kind == "figure" and len(_changing(lexes[at + 1 : end])) > _STEPS_IN_A_ROW:
            # "Rocking chair R fwd L rec R bk L rec": the name of what is spelled out then.
            done += [lexes[at], Lex("break", ":", ":", lexes[at].span)]
            at += 1
        starts = _changing(lexes[at:end])
        for index in range(at, end):
            if index - at in starts[1:]:
                lex = lexes[index]
                done.append(Lex("task", "then", "", Span(lex.span.line, lex.span.column, 1)))
            done.append(lexes[index])
        done += lexes[end : end + 1]
        at = end + 1
    return done


def _ends_row(lexes: Sequence[Lex], at: int) -> bool:
    return lexes[at].kind in _ENDS or is_task(lexes[at], "and", "then")


def _changing(row: Sequence[Lex]) -> list[int]:
    """Return where the steps of a row of feet that change begin; empty where it is none."""
    starts = [at for at, lex in enumerate(row) if lex.kind in _FEET]
    if len(row) > 1 and starts[-1:] == [len(row) - 1] and row[-2].kind == "prep":
        # "... right over left": the last foot is only where the step goes.
        starts.pop()
    if len(starts) < _STEPS_IN_A_ROW or starts[0] or any(lex.kind not in _FEET | _GOING or lex.ing for lex in row):
        return []
    last = starts[-1]
    if last == len(row) - 1 and row[last - 1].kind == "move" and last - starts[-2] > _WAYS_OF_A_STEP - 2:
        # "Right back left together right back touch left": the verb is that of the last foot.
        starts[-1] -= 1
    groups = [row[start:end] for start, end in zip(starts, [*starts[1:], len(row)], strict=True)]
    # "Right heel right home": what taps the floor may step then.
    changes = all(
        one[0].value != other[0].value or other[0].kind == "move" or any(lex.kind in ("move", "part") for lex in one)
        for one, other in pairwise(groups)
    )
    goes = all(1 < len(group) <= _WAYS_OF_A_STEP for group in groups)
    return starts if changes and goes else []


_GOING = {"way", "prep", "glue", "to", "move", "part"}
_STEPS_IN_A_ROW = 3
_WAYS_OF_A_STEP = 4


def with_rows(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with the steps of a row parted by a word of "then"."""
    done: list[Lex] = []
    lexes = _footed_turn(_turning_as(_instead(lexes)))
    for at, lex in enumerate(lexes):
        if any(rule(lexes, at) for rule in _BEGINS):
            done.append(Lex("task", "then", "", Span(lex.span.line, lex.span.column, 1)))
        done.append(_met(lexes, at))
    return _gone_before(_turned_after(_outs(done)))


def _footed_turn(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without the comma between a foot and the turning step it makes: "R, 1/4 turn right step"."""
    if len(lexes) < 4 or lexes[0].kind not in _FEET or lexes[1].value != "," or lexes[2].kind != "turning":
        return list(lexes)
    end = next((at for at in range(2, len(lexes)) if _is(lexes, at, _ENDS)), len(lexes))
    if any(lex.kind in _FEET for lex in lexes[2:end]) or not any(lex.kind == "move" for lex in lexes[2:end]):
        return list(lexes)
    return [lexes[0], *lexes[2:]]


def _turning_as(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without the comma before a turn that says at which step of a figure it falls.

    "A left sailor step, making a quarter turn left as the left goes behind".
    """
    done: list[Lex] = []
    lexes = _made_as(lexes)
    for at, lex in enumerate(lexes):
        as_step = _is(lexes, at + 1, {"turning"}) and at + 2 < len(lexes) and lexes[at + 2].low.startswith("as")
        if lex.kind == "break" and lex.value == "," and as_step and _is(lexes, at - 1, {"figure"}):
            continue
        done.append(lex)
    return done


def _made_as(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without the turn named once more: "a quarter left, the turn made as the left goes behind"."""
    for at, lex in enumerate(lexes):
        again = lex.kind == "turning" and lex.value.amount is None and lex.value.side is None
        first, last = at, at + 1
        while first and lexes[first - 1].kind == "glue":
            first -= 1
        while last < len(lexes) and lexes[last].kind == "glue":
            last += 1
        led = first > 1 and lexes[first - 1].value == "," and lexes[first - 2].kind == "turning"
        if again and led and last < len(lexes) and lexes[last].low.startswith("as") and last > at + 1:
            return [*lexes[: first - 1], *lexes[last:]]
    return list(lexes)


def _instead(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without what is danced no more: "instead of the touch close left" ends with the close."""
    at = next((at for at, lex in enumerate(lexes) if lex.low == "instead of"), None)
    if at is None:
        return list(lexes)
    end = at + 1
    while end < len(lexes) and lexes[end].kind in ("glue", "style"):
        end += 1
    if end == len(lexes) or lexes[end].kind not in ("move", "figure"):
        return list(lexes)
    rest = list(lexes[end + 1 :])
    while rest and rest[0].kind == "break" and rest[0].value == ",":
        rest.pop(0)
    finish = Lex("task", "finish", "finish", lexes[at].span)
    return [*lexes[:at], *([finish] if rest else []), *rest] if _opens_late(lexes, at) else [*lexes[:at], finish, *rest]


def _opens_late(lexes: Sequence[Lex], at: int) -> bool:
    """Whether "instead of" comes before what is danced instead."""
    return _opens(lexes, at) or lexes[at - 1].low == "but"


def _is(lexes: Sequence[Lex], at: int, kinds: set[str]) -> bool:
    return 0 <= at < len(lexes) and lexes[at].kind in kinds


def _opens(lexes: Sequence[Lex], at: int) -> bool:
    return not at or lexes[at - 1].kind in _ENDS or is_task(lexes[at - 1], "and", "then")


def _other_foot_acts(lexes: Sequence[Lex], at: int) -> bool:
    """Whether a move after a way and a foot is that of the foot after it: "side R touch L"."""
    if lexes[at].kind != "move" or lexes[at].ing or not _is(lexes, at + 1, _FEET):
        return False
    if _is(lexes, at - 1, {"way"}):
        # "R forward touch L", but "R side rock L ..." is one step.
        led = _is(lexes, at - 2, _FEET) and _opens(lexes, at - 2) and lexes[at].value in _TOUCHING
        ends = at + 2 == len(lexes) or _is(lexes, at + 2, _ENDS) or is_task(lexes[at + 2], "and", "then")
        return led and ends and lexes[at - 2].value != lexes[at + 1].value
    if not _is(lexes, at - 1, _FEET):
        return False
    led = _is(lexes, at - 2, {"way"}) and (_opens(lexes, at - 2) or _is(lexes, at - 3, {"glue", "style"}))
    return led and lexes[at - 1].value != lexes[at + 1].value and lexes[at].way is None


def _locks_between(lexes: Sequence[Lex], at: int) -> bool:
    """Whether "lock" stands between two steps of one foot, or is the second of them: "R lock R"."""
    if at > 1 and lexes[at - 1].value is Move.LOCK and _is(lexes, at - 2, _FEET):
        return lexes[at].kind in _FEET and lexes[at].value == lexes[at - 2].value
    locks = lexes[at].value is Move.LOCK and _is(lexes, at - 1, _FEET) and at + 1 < len(lexes)
    return locks and _locks_between(lexes, at + 1)


def _goes_on(lexes: Sequence[Lex], at: int) -> bool:
    """Whether "together" after "back" is a step of its own, for a third follows: "back together forward"."""
    together = lexes[at].kind == "way" and lexes[at].value is Direction.TOGETHER
    after_back = _is(lexes, at - 1, {"way"}) and lexes[at - 1].value is Direction.BACK
    return together and after_back and _is(lexes, at + 1, {"way"}) and lexes[at + 1].value in _THIRD


_THIRD = {Direction.FORWARD, Direction.CROSS, Direction.SIDE}


def _closes_between(lexes: Sequence[Lex], at: int) -> bool:
    """Whether a step of "side close side touch" begins here: its close, its second side, or what follows that."""
    return any(_side_and_close(lexes, at - before) for before in (1, 2, 3))


def _side_and_close(lexes: Sequence[Lex], at: int) -> bool:
    """Whether "side close side", no mark between, begins at a lexeme, and a move after it."""
    row = lexes[at : at + 4] if at >= 0 else ()
    if len(row) < _WAYS_OF_A_STEP or [lex.kind for lex in row] != ["way", "move", "way", "move"]:
        return False
    sides = row[0].value is row[2].value is Direction.SIDE
    return sides and row[1].way is Direction.TOGETHER and row[3].way is None and not any(lex.ing for lex in row)


_BEGINS: tuple[Callable[[Sequence[Lex], int], bool], ...] = (
    _other_foot_acts,
    _locks_between,
    _goes_on,
    _closes_between,
)


def _met(lexes: Sequence[Lex], at: int) -> Lex:
    """Return a foot that the acting one only comes to as a reference: "R joins L"."""
    lex = lexes[at]
    meets = at > 1 and lexes[at - 1].kind == "move" and lexes[at - 1].way is Direction.TOGETHER
    ends = at + 1 >= len(lexes) or _is(lexes, at + 1, _ENDS) or is_task(lexes[at + 1], "and", "then")
    if meets and ends and _is(lexes, at, _FEET) and _is(lexes, at - 2, _FEET) and lexes[at - 2].value != lex.value:
        return Lex("ref", Reference(Direction.TOGETHER, lex.value, sure=True), lex.low, lex.span)
    return lex


def _turned_after(lexes: list[Lex]) -> list[Lex]:
    """Put a turn without a side that stands between a foot and its figure after both: "right quarter sailor"."""
    for at in range(1, len(lexes) - 1):
        lex = lexes[at]
        unsided = lex.kind == "turning" and lex.value.side is None
        if unsided and lexes[at - 1].kind in _FEET and lexes[at + 1].kind == "figure":
            lexes[at], lexes[at + 1] = lexes[at + 1], lex
    return lexes


def _gone_before(lexes: list[Lex]) -> list[Lex]:
    """Put the way of a step before the turn between both: "step L 1/4 L to side" is "step L to side 1/4 L"."""
    for at in range(2, len(lexes) - 1):
        lex, way = lexes[at], lexes[at + 1]
        ends = at + 2 >= len(lexes) or _is(lexes, at + 2, _ENDS | {"facing"}) or is_task(lexes[at + 2], "and", "then")
        pair = {lexes[at - 1].kind, lexes[at - 2].kind}
        steps = pair == {"move", "side"} or pair == {"move", "foot"}
        bare = steps and Move.STEP in (lexes[at - 1].value, lexes[at - 2].value)
        if lex.kind == "turning" and way.kind == "way" and bare and ends and lex.value.word in ("", "turn"):
            lexes[at], lexes[at + 1] = way, lex
    return lexes


def _outs(lexes: Sequence[Lex]) -> list[Lex]:
    """Give each of two equal ways its foot of the row after them: "out out R L"."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        pair = lexes[at : at + 3]
        if (
            len(pair) == 3
            and [one.kind for one in pair] == ["way", "way", "run"]
            and pair[0].value == pair[1].value
            and len(pair[2].value) == 2
        ):
            for way, foot in zip(pair[:2], pair[2].value, strict=True):
                done += [way, Lex("foot", foot, "foot", pair[2].span), Lex("task", "then", "", pair[2].span)]
            done.pop()
            at += 3
            continue
        done.append(lexes[at])
        at += 1
    return done
