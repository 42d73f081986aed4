"""Numbers told apart: "over two counts", "for two", "on 7", "on counts 7 and 8", "over the last two", "4 hip rolls"."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task


def with_durations(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with every number of a length or place as a task: ("for", n), ("at", counts), ("last", n)."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        lex = lexes[at]
        nth, end = _ordinal(lexes, at)
        if nth:
            _drop(done, ("on", "the", "with", "in", "for", "over", "at"))
            done.append(Lex("task", ("nth", nth), "nth", lex.span))
            at = end
        elif is_task(lex, "count") and _number(lexes, at + 1):
            numbers, at = _numbers(lexes, at + 1)
            done.append(Lex("task", ("at", tuple(numbers)), "on", lex.span))
        elif lex.kind == "number":
            at = _told(lexes, at, done)
        else:
            done.append(lex)
            at += 1
    return done


_ORDINALS = {"first": 1, "second": 2, "third": 3, "fourth": 4, "last": -1}
_SUFFIXES = {"st", "nd", "rd", "th"}


def _ordinal(lexes: Sequence[Lex], at: int) -> tuple[int, int]:
    """Return which step of a figure is meant by "the third step", "the 3rd count" or "the last step"; -1 is the last.

    0 where none stands at `at`; the second value is the index after it.
    """
    lex = lexes[at]
    nth, end = _ORDINALS.get(lex.low, 0), at + 1
    if lex.kind == "number" and end < len(lexes) and lexes[end].low in _SUFFIXES:
        nth, end = lex.value, end + 1
    step = end < len(lexes) and (
        is_task(lexes[end], "count") or (lexes[end].kind == "move" and lexes[end].low == "step")
    )
    if nth and not step and lex.kind != "number" and _ends_alone(lexes, at):
        return nth, end
    return (nth, end + 1) if nth and step else (0, at)


def _ends_alone(lexes: Sequence[Lex], at: int) -> bool:
    """Whether an ordinal after "on the" ends the words about a turn of a figure: "vine left, ¼ left on the third"."""
    led = at > 1 and [lex.low for lex in lexes[at - 2 : at]] == ["on", "the"]
    after = lexes[at + 1] if at + 1 < len(lexes) else None
    ends = after is None or after.kind in ("break", "open", "close", "facing") or is_task(after, "and", "then", "with")
    return led and ends and any(lex.kind == "turning" for lex in lexes[:at])


_REST = ("other", "remaining", "next")
_EVENLY = {
    "even", "equal", "small", "little", "short", "slow", "quick", "easy", "gentle", "light", "steady", "smooth",
    "walking", "measured", "plain", "relaxed", "neat", "tidy",
}  # fmt: skip
"""How some steps are, between their number and themselves: "a full circle in eight even steps"."""


def _told(lexes: Sequence[Lex], at: int, done: list[Lex]) -> int:
    """Put a number into `done` as what it is, and return the index after it and what belongs to it."""
    lex = lexes[at]
    before = [
        one.low for one in lexes[max(at - 3, 0) : at] if one.low not in ("the", "a", "of", "other", "remaining", "next")
    ]
    lead = before[-1] if before else ""
    after = lexes[at + 1] if at + 1 < len(lexes) else None
    following = lexes[at + 2] if at + 2 < len(lexes) else None
    how = (
        after is not None and after.low in _EVENLY and following is not None and lead in ("in", "over", "with", "using")
    )
    step = following if how else after
    steps = step is not None and step.kind == "move" and step.low == "step"
    counted = after is not None and is_task(after, "count")
    counts_it = (steps or counted) and following is not None and following.kind == "figure"
    if counts_it:
        # "A four count vine".
        return at + 2
    if steps and lead in ("walk", "run", "forward", "back"):
        # "Walk two steps forward".
        done.append(lex)
        return at + 2
    if lead == "last" and lex.value < 5:
        _drop(done, ("last", "the", "over", "for", "on"))
        done.append(Lex("task", ("last", lex.value), "last", lex.span))
        return at + 1
    if lead == "for" and _number(lexes, at + 2) and lexes[at + 1].low in ("and", "&", "-"):
        # "For 5 and 6".
        numbers, end = _numbers(lexes, at)
        _drop(done, ("for",))
        done.append(Lex("task", ("for", numbers[-1] - numbers[0] + 1), "for", lex.span))
        return end
    if counted or lead in ("for", "over") or (steps and (lead == "in" or how)):
        # "For two counts", "a full turn over three steps".
        _drop(done, ("for", "over", "the", "in", *_REST, *(("with", "using") if how else ())))
        done.append(Lex("task", ("for", lex.value), "for", lex.span))
        return at + 1 + (counted or steps) + (how and steps)
    if lead == "on" and lex.low.isdecimal():
        numbers, end = _numbers(lexes, at)
        done.append(Lex("task", ("at", tuple(numbers)), "on", lex.span))
        return end
    done.append(lex)
    return at + 1


def _drop(done: list[Lex], words: tuple[str, ...]) -> None:
    while done and done[-1].low in words:
        done.pop()


def _number(lexes: Sequence[Lex], at: int) -> bool:
    return at < len(lexes) and lexes[at].kind == "number"


def _numbers(lexes: Sequence[Lex], at: int) -> tuple[list[int], int]:
    numbers = [lexes[at].value]
    at += 1
    while _number(lexes, at + 1) and lexes[at].low in ("and", "&", "-", ","):
        numbers.append(lexes[at + 1].value)
        at += 2
    return numbers, at
