"""Steps danced in place of others right behind the count that a wall goes up to, told as new steps of those counts.

"Section 2 up to count 6. In place of the walk and the touch: step L back, touch R beside L" goes up to count 6 and
changes counts 7-8. Each step that is named so has a count, where the new steps have no counts of their own.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.grammar.instead import instead_of
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line

_PLACE = re.compile(
    r"\b(?:up to|as far as|to|until|till|through|after)(?: and including)? (?:the )?(?:count|beat) (?P<count>\d)"
    r"(?: of (?:the )?[a-z]+ (?:\d+|[ivx]+|one|two|three|four|five|six))? ?[.,;)]* ?(?:(?:and|but|then|there) )*"
    r"(?P<lead>(?:in place of|in the place of|instead of) (?:the |that |its )(?P<steps>[a-z]+(?: [a-z]+){0,6}?) ?"
    r"(?:[:,]|(?<!and )(?<!& )(?<!the )(?=(?:(?:you|we|just|simply|do|dance) )*"
    r"(?:step|touch|stomp|hold|rock|cross|point|sway|tap|clap|kick|close)\b(?! and\b))))"
)
_AND = re.compile(r" (?:and|&|,)(?: the)? ")
_LAST = 8


def with_steps_in_place(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such steps told as those of the counts behind the place."""
    return tuple(_told(line) if is_order(line.tokens) else line for line in lines)


def _told(line: Line) -> Line:
    words = " ".join(token.low.replace(" ", "_") for token in line.tokens)
    found = _PLACE.search(words)
    if found is None:
        return line
    named = _AND.split(found["steps"])
    first = int(found["count"]) + 1
    last = first + len(named) - 1
    if last > _LAST or not all(set(one.split()) & STEP_WORDS or one.endswith("s") for one in named):
        return line
    begins = words[: found.start("lead")].count(" ")
    ends = begins + len(found["lead"].split())
    rest = line.tokens[ends:]
    if any(mark.start.number for mark in marks_in(rest, 0)[:1]):
        return line  # the new steps have counts of their own
    comma = replace(line.tokens[begins], kind="mark", text=",", low=",", glued=True, value=None)
    return replace(line, tokens=(*line.tokens[:begins], comma, *instead_of(line.tokens[begins], first, last), *rest))
