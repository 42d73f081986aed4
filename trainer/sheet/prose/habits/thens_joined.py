"""A sentence of steps in a line of its own, "Then stomp forward.", below one that says how much of a wall is danced.

It goes on with the line above, as it would without the break. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line

_THEN = {"then", "afterwards", "thereafter"}
_LEADS = {"and", "but"}
_COUNTS = {"count", "counts", "beat", "beats"}
_FEWEST = 3
"""Words of a sentence; what is shorter heads something."""


def with_thens_joined(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such sentences in the line above that speaks of a wall."""
    done: list[Line] = []
    for line in lines:
        if done and _goes_on(done[-1], line):
            above = done[-1]
            done[-1] = replace(above, tokens=(*above.tokens, *line.tokens), source="")
        else:
            done.append(line)
    return tuple(done)


def _goes_on(above: Line, line: Line) -> bool:
    near = line.number == above.tokens[-1].line + 1 and above.tokens[-1].text == "." and line.indent == above.indent
    opens = line.tokens[line.tokens[0].low in _LEADS :][:1]
    if not (near and opens and opens[0].low in _THEN) or len(line.tokens) < _FEWEST:
        return False
    if any(one.low in _COUNTS and count_told(two) for one, two in pairwise(line.tokens)):
        # "Then, on count one, stomp forward" is a row of its own.
        return False
    steps = any(token.low in STEP_WORDS for token in line.tokens)
    counted = any(mark.closed or not mark.first for mark in marks_in(line.tokens, 0))
    return steps and not counted and not is_order(line.tokens) and is_order(above.tokens)
