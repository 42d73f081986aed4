"""The counts at the start of a line: "1&2", "5-6", "2a3&4", "&3-4", "9-16", "1 & 2"."""

import re
from dataclasses import dataclass
from typing import cast

from trainer.routine import Span
from trainer.sheet.findings import Findings
from trainer.sheet.lines import Line
from trainer.terms import Label

MOST_IN_A_LINE = 64
"""Labels of one line; a longer one is no count line."""

_PREFIX = re.compile(r"(?:[\d&]|[ea](?![a-zA-Z])|[ea](?=[ea](?![a-zA-Z]))|\s*[-–—]\s*(?=\d)|[\s,])+")
_TOKEN = re.compile(r"(\d+)\s*[-–—]\s*(\d+)|(\d+)|([&ea])")


@dataclass(frozen=True, slots=True)
class Typed:
    """A label as the sheet has it: a number of any size, or one of e, & and a."""

    sub: Label | None
    """Of e, & and a."""
    number: int
    """0 of e, & and a."""
    span: Span
    glued: bool
    """No blank stands between it and the label before."""


def starts_with_counts(text: str) -> bool:
    """Return whether a line begins as a count line does."""
    match = _PREFIX.match(text)
    return match is not None and _TOKEN.search(match[0]) is not None


@dataclass(frozen=True, slots=True)
class Labels:
    """The counts at the start of a line."""

    typed: tuple[Typed, ...]
    end: int
    """The place after them in the line."""
    sound: bool
    """Whether they could all be read."""


def read_labels(line: Line, findings: Findings) -> Labels:
    """Return the labels of a count line."""
    match = _PREFIX.match(line.text)
    end = match.end() if match else 0
    typed: list[Typed] = []
    before, sound = 0, True
    for token in _TOKEN.finditer(line.text, 0, end):
        span = line.span(token.start(), token.end())
        glued = bool(typed) and token.start() == before
        before = token.end()
        if token[4]:
            typed.append(Typed(cast("Label", token[4]), 0, span, glued))
            continue
        numbers = [int(digits) for digits in (token[1] or token[3], token[2] or token[3]) if len(digits) < 5]
        if len(numbers) < 2 or not numbers[0] or numbers[1] - numbers[0] >= MOST_IN_A_LINE:
            findings.error("counts", span, f"{token[0]} is no count of a dance.")
            sound = False
            continue
        first, last = numbers
        if last < first:
            hint = f"Write {last}-{first}, or each count by itself."
            findings.error("counts", span, f"{token[0]} runs backwards.", hint)
            first, last, sound = last, first, False
        typed += [Typed(None, number, span, glued and number == first) for number in range(first, last + 1)]
    if len(typed) > MOST_IN_A_LINE:
        findings.error("counts", line.span(0, end), f"One line has more than {MOST_IN_A_LINE} counts.")
        sound = False
    return Labels(tuple(typed[:MOST_IN_A_LINE]), end, sound)
