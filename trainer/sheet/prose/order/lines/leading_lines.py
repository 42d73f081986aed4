"""A line that only leads from where a wall is left to the steps below it: "Then:", "Finish like this:", "After that:".

It is told at the end of the line above. So are steps without counts that stand by themselves below a line of the order
that leads to them: "... and close with these three beats:". Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.order.lines.plain_steps import are_steps
from trainer.sheet.prose.text.layout import Line

_LEADS = {
    "then", "and", "after", "that", "it", "this", "these", "finish", "end", "ending", "so", "like", "with", "do",
    "dance", "we", "you", "steps", "the", "now", "add", "as", "follows", "in", "way", "next", "here", "there", "close",
}  # fmt: skip
_LONGEST = 6
_SURE = 1.0
"""The strength of a mark that is a count, and no number among words."""


def with_leading_lines(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, each that only leads to the counts below it joined with the one above that tells the order."""
    done: list[Line] = []
    for line, after in zip(lines, (*lines[1:], None), strict=False):
        leads = bool(done) and after is not None and _only_leads(done[-1], line, after)
        if leads or (done and _is_led_to(done[-1], line, after)):
            done[-1] = replace(done[-1], tokens=(*done[-1].tokens, *line.tokens))
        else:
            done.append(line)
    return done


def _is_led_to(before: Line, line: Line, after: Line | None) -> bool:
    """Whether steps without counts stand alone below a line that tells the order and leads to them."""
    if before.tokens[-1].text != ":" or line.number != before.tokens[-1].line + 1 or not is_order(before.tokens):
        return False
    alone = after is None or after.number > line.number + 1 or _only_closes(after)
    counted = any(mark.strength >= _SURE for mark in marks_in(line.tokens, 0, 3))
    return alone and not counted and not is_order(line.tokens) and are_steps(line.tokens)


def _only_closes(line: Line) -> bool:
    """Whether a line ends the sentence above with a word or two on how it is danced: "and breathe!"."""
    small = line.tokens[0].low in ("and", "&") and len(line.tokens) <= _LONGEST
    return small and all(token.kind in ("word", "mark", "amp") for token in line.tokens) and not is_order(line.tokens)


def _only_leads(before: Line, line: Line, after: Line) -> bool:
    words = [token.low for token in line.tokens if token.kind == "word"]
    plain = line.tokens[-1].text == ":" and len(line.tokens) <= _LONGEST and bool(words) and set(words) <= _LEADS
    if not plain or line.number != before.tokens[-1].line + 1 or after.number != line.number + 1:
        return False
    marks = marks_in(after.tokens, 0, 3)
    return bool(marks) and marks[0].first == 0 and is_order(before.tokens)
