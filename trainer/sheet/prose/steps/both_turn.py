"""Both feet that turn on the floor, which is a pivot: "RF+LF ½ turn left, weight on LF", "both feet turn ½ left"."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task

_JOINS = ("+", "/", "&")
_FILL = ("on", "of", "the", "your", "balls", "ball")


def with_both_turning(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes without the names of both feet before a turn; the turn is then a pivot's."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        end = _both(lexes, at)
        turn = next((place for place in range(end, min(end + 3, len(lexes))) if lexes[place].kind == "turn"), 0)
        turns = end > at and end < len(lexes) and lexes[end].kind in ("amount", "turn") and bool(turn)
        if turns and not any(lex.kind in ("break", "open", "close") for lex in lexes[end:turn]):
            while done and done[-1].low in _FILL:
                done.pop()
            done += lexes[end:turn]
            done.append(lexes[turn]._replace(value="pivot"))
            at = turn + 1
            continue
        done.append(lexes[at])
        at += 1
    return done


def _both(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after the names of both feet that stand at an index, or the index itself."""
    if is_task(lexes[at], "both"):
        return at + 1 + (at + 1 < len(lexes) and lexes[at + 1].kind == "part")
    if lexes[at].low == "balls of both feet":
        return at + 1
    first = _foot(lexes, at)
    if first == at or first >= len(lexes) or not (lexes[first].low in _JOINS or is_task(lexes[first], "and")):
        return at
    second = _foot(lexes, first + 1)
    others = second > first + 1 and lexes[first + 1].value is not lexes[at].value
    return second if others else at


def _foot(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after a foot, or the index itself where none stands."""
    if at >= len(lexes) or lexes[at].kind not in ("side", "foot"):
        return at
    return at + 1 + (at + 1 < len(lexes) and lexes[at + 1].kind == "part")
