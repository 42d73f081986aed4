"""A danced intro told in the middle of a line: "Eight beats, danced once. Introduction: (1) sway right".

The sentence that begins with its name, up to a colon, and counts from 1, stands in a line of its own. One whose steps
have no counts is told as such a line: "Wait for the drum, then dance the opening: stomp right, hold, stomp left, hold".
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.uncounted.lasting import are_told_steps
from trainer.sheet.prose.words import Token

_ENDS = {".", "!", ";"}
_NAME = 12
"""Tokens from the start of the sentence to its colon."""
_LONG_NAME = 24
"""Tokens before the colon of an intro without counts."""
_LEAST = 3
"""Counts of an intro that is told so, or commas between its steps."""
_SURE = 1.0
"""The strength of a mark that is a count, and no number among words."""
_OPENS = re.compile(
    r"\b(?:dance|do|begin with|start with|comes?) (?:the|an?|this|our) (?:short |little |danced )?"
    r"(?:opening|intro|introduction|prelude|overture|lead - in)\b|"
    r"^(?:the|this) (?:dance|routine) (?:opens|begins|starts) with\b.*\bonce\b|"
    r"^before (?:the|we|you|it)\b.*\bonce\b"
)
"""What calls steps an intro in a sentence, besides what heads one."""
_NOT_ONCE = re.compile(r"\b(?:tags?|bridges?|restarts?|endings?|walls? [2-9])\b")


def with_intros_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each such intro on its own."""
    done: list[Line] = []
    for line in lines:
        if told := tuple(_uncounted(line)):
            done += told
            continue
        cut = _cut(line)
        if cut:
            done.append(replace(line, tokens=line.tokens[:cut], source=""))
        done.append(replace(line, tokens=line.tokens[cut:], source="") if cut else line)
    return tuple(done)


def _cut(line: Line) -> int:
    """Return where the sentence of an intro begins within a line, 0 where none does."""
    for at in range(1, len(line.tokens)):
        if line.tokens[at - 1].text not in _ENDS:
            continue
        name = [token.text for token in line.tokens[at : at + _NAME]]
        colon = name.index(":") if ":" in name else 0
        if not colon or extra_kind(line.tokens[at : at + colon]) != "intro":
            continue
        marks = marks_in(line.tokens[at:], 0)
        if len(marks) >= _LEAST and marks[0].start.number == 1:
            return at
    return 0


def _uncounted(line: Line) -> Iterator[Line]:
    """Yield the lines of one that tells an intro without counts; none where it does not."""
    tokens = line.tokens
    colon = next((at for at, token in enumerate(tokens) if token.text == ":"), 0)
    first = next((at + 1 for at in range(colon - 1, -1, -1) if tokens[at].text in _ENDS), 0)
    last = next((at for at in range(colon, len(tokens)) if tokens[at].text in _ENDS), len(tokens))
    if not (colon and 0 < colon - first <= _LONG_NAME and _calls_an_intro(tokens[first:colon])):
        return
    steps = _without_length(tokens[colon + 1 : last])
    commas = sum(token.text == "," for token in steps)
    if commas < _LEAST or not are_told_steps(steps) or any(mark.strength >= _SURE for mark in marks_in(steps, 0)):
        return
    name = replace(tokens[first], kind="word", text="Intro", low="intro", value=None, glued=False)
    rest = tokens[last + 1 :]
    if extra_kind(rest) == "intro" and not are_told_steps(rest):
        rest = ()  # "The opening is done this once and never again" heads nothing
    told = (tokens[:first], (name, tokens[colon], *steps), rest)
    yield from (replace(line, tokens=part, source="") for part in told if part)


def _calls_an_intro(lead: Sequence[Token]) -> bool:
    """Whether the words before a colon say that an intro is danced."""
    said = " ".join(token.low for token in lead)
    return not _NOT_ONCE.search(said) and (extra_kind(lead) == "intro" or bool(_OPENS.search(said)))


def _without_length(steps: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return steps without the length in brackets behind them: "sway right, left (8 counts)"."""
    opens = next((at for at in range(len(steps) - 1, -1, -1) if steps[at].text == "("), 0)
    inside = [token.low for token in steps[opens + 1 : -1]]
    told = len(inside) > 1 and inside[0].isdecimal() and inside[1] in ("counts", "count", "beats", "cts")
    return steps[:opens] if opens and steps[-1].text == ")" and told else steps
