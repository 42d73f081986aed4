"""The standing foot beside a turn, which does not step: "on the ball of the left", "on the left foot"."""

from collections.abc import Sequence

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.terms import Move


def unstood(done: list[Lex]) -> None:
    """Take "on the left foot" back that stands before a turn: it only names the standing foot."""
    look = len(done)
    if look and done[look - 1].low in ("making", "make"):
        look -= 1
    if look and done[look - 1].kind == "part":
        look -= 1
    if not look or done[look - 1].kind not in ("side", "foot"):
        return
    first = look - 1
    while first and done[first - 1].low in ("of", "the", "your", "ball", "on"):
        first -= 1
        if done[first].low == "on":
            break
    if first < look - 1 and done[first].low == "on" and (not first or done[first - 1].kind in ("break", "task")):
        del done[first:look]


def past_standing(lexes: Sequence[Lex], end: int, *, far: bool) -> int:
    """Return the index after "on the ball of the left", which only names the standing foot.

    `far`: the turn is one that a step does not make, so that "on the left" does too.
    """
    look = end
    while look < len(lexes) and (lexes[look].low in _ON or lexes[look].value == "ball"):
        look += 1
    if look > end and look < len(lexes) and is_task(lexes[look], "both"):
        after = look + 1
        return after + (after < len(lexes) and lexes[after].kind == "part")
    on_ball = any(lex.value == "ball" or lex.low in _BALLS for lex in lexes[end:look])
    balls = on_ball or (look > end and lexes[end].low == "on")
    while look < len(lexes) and lexes[look].low in ("of", "the", "your"):
        look += 1
    if not balls or look >= len(lexes) or lexes[look].kind not in ("side", "foot"):
        return end
    after = look + 1
    named = after + (after < len(lexes) and lexes[after].kind == "part")
    if not far and not on_ball and not _points_then(lexes, named):
        return end
    if far and not on_ball and named < len(lexes):
        rest = lexes[named]
        if rest.kind == "break" and named + 1 < len(lexes) and lexes[named + 1].kind in ("side", "foot"):
            # "Triple half turn left on left, right, left": the first of a row.
            return end
        if not (rest.kind in ("break", "open", "close", "facing") or rest.ing or is_task(rest, "and", "then")):
            return end
    return after + (after < len(lexes) and lexes[after].kind == "part")


_BALLS = ("on the ball", "on the balls", "on ball")
_ON = ("on", "the", *_BALLS)

_POINTING = {Move.POINT, Move.TOUCH, Move.KICK, Move.HITCH, Move.SWEEP, Move.FLICK, Move.HOOK}


def _points_then(lexes: Sequence[Lex], at: int) -> bool:
    """Whether the free foot makes a gesture next: "turn ¼ left on the left foot and point right"."""
    joined = at < len(lexes) and is_task(lexes[at], "and", "with")
    return joined and at + 1 < len(lexes) and lexes[at + 1].kind == "move" and lexes[at + 1].value in _POINTING
