"""Lines of advice about steps told already: "Tip: keep the rocks small", "Watch out: on 6 & people turn too far".

They tell no step of their own, whatever counts they name; a line that speaks of walls or extras is no advice.
"""

import re
from collections.abc import Callable, Sequence

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ADVICE = re.compile(
    r"^\W*(?:(?:a |one |my |the |our )?(?:little |small |quick |last |top |style |styling |teaching |dance |teacher's |"
    r"teachers |coach's |beginner |beginners' )*(?:tips?|hints?|pointers?)(?: for (?:beginners|teachers|learners))?|"
    r"watch(?: out| it| for| your \w+)?|look out|(?:be |take )?careful|take care|beware|caution|mind(?: out| you)?|"
    r"common (?:mistakes?|errors?|faults?)|(?:usual|typical) (?:mistakes?|errors?|faults?)|teaching (?:notes?|points?)|"
    r"technique)(?: here)? ?[:!]"
)
_STOPS = (".", "!", "?", ":", ")")


def without_tips(lines: Sequence[Line], tells_order: Callable[[Sequence[Token]], bool]) -> tuple[Line, ...]:
    """Return the lines without those of advice, and what goes on with one below it; the first line is the title."""
    kept: list[Line] = []
    open_ended: Line | None = None
    for line in lines:
        goes_on = open_ended is not None and line.number == open_ended.number + 1 and line.tokens[0].text[0].islower()
        advice = bool(kept) and bool(_ADVICE.match(line.words)) and not tells_order(line.tokens)
        if not (advice or goes_on):
            kept.append(line)
            open_ended = None
        else:
            open_ended = None if line.tokens[-1].text in _STOPS else line
    return tuple(kept)
