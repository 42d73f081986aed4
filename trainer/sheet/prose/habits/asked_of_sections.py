"""Sheets told in questions and answers: "Q: What is in the first eight?", "A: Rock right to the side, ... (1-4)".

The labels go, and a question that is answered by steps counted from 1 heads them: "section 1:". What is asked of extras
is told by `answered_yes`. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import ORDINALS, STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.page.kinds import speaks_of_parts
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_ASKS = {"q", "question", "you", "pupil", "dancer", "them"}
_ANSWERS = {"a", "answer", "ans", "me", "teacher", "i"}
_CLOSES = {":", ".", ")", "-", BREAK}
_LEAST = 2
_LONGEST = 14
"""Tokens of a question."""
_COUNTS = 4
"""So many counts at least are told in an answer."""


def with_asked_sections(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without the labels of questions and answers, questions about sections as their headings."""
    plain = _without_labels(lines)
    if speaks_of_parts(plain):
        return plain
    heads = [at for at, line in enumerate(plain) if _asks_for_steps(plain, at, line)]
    told = [_ordinal(plain[at].tokens) or place for place, at in enumerate(heads, 1)]
    if len(heads) < _LEAST or told != list(range(1, len(heads) + 1)):
        return plain
    numbers = dict(zip(heads, told, strict=True))
    return tuple(
        replace(line, tokens=_section(line.tokens[0], numbers[at])) if at in numbers else line
        for at, line in enumerate(plain)
    )


def _without_labels(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without Q and A before them, where both stand again and again."""
    asked = [at for at, line in enumerate(lines) if _labelled(line, _ASKS) and line.tokens[-1].text == "?"]
    answered = [at for at, line in enumerate(lines) if _labelled(line, _ANSWERS)]
    if min(len(asked), len(answered)) < _LEAST or not all(at + 1 in answered for at in asked):
        return tuple(lines)
    both = {*asked, *answered}
    return tuple(replace(line, tokens=line.tokens[2:]) if at in both else line for at, line in enumerate(lines))


def _labelled(line: Line, labels: set[str]) -> bool:
    return len(line.tokens) > _LEAST and line.tokens[0].low in labels and line.tokens[1].text in _CLOSES


def _asks_for_steps(lines: Sequence[Line], at: int, line: Line) -> bool:
    """Whether a line is a question that the next one answers with steps counted from 1."""
    asks = line.tokens[-1].text == "?" and len(line.tokens) <= _LONGEST and extra_kind(line.tokens) is None
    if not asks or at + 1 == len(lines) or is_order(line.tokens):
        return False
    answer = lines[at + 1].tokens
    marks = [mark for mark in marks_in(answer, 0) if mark.strength >= 1]
    counts = {place.number for mark in marks for place in mark.places if place.number}
    steps = any(token.low in STEP_WORDS for token in answer)
    return steps and bool(marks) and marks[0].start.number == 1 and len(counts) >= _COUNTS and not is_order(answer)


def _ordinal(tokens: Sequence[Token]) -> int:
    """Return the number of the section that a question names: "And the second?"; 0 where it names none."""
    return next((ORDINALS[token.low] for token in tokens if token.low in ORDINALS), 0)


def _section(place: Token, number: int) -> tuple[Token, ...]:
    word = replace(place, kind="word", text="section", low="section", value=None)
    digits = replace(word, kind="number", text=str(number), low=str(number), glued=False)
    return word, digits, replace(word, kind="mark", text=":", low=":", glued=True)
