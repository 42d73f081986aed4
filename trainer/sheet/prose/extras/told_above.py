"""What tells the order and the extras above the first section, read as if it stood below the last one.

Most teachers put what happens in which wall, and the steps of tags and endings, below the dance; some put it first.
Where its steps end and those of the dance begin is then said by headings only. Moved below, its lines keep their
distance from each other; `in_place` gives what was read there its own lines again.
"""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from trainer.problems import Problem, in_order
from trainer.routine import Routine, Span, Written
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order, without_order
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_FAR = 100_000
"""Added to the numbers of lines that are read below the dance; no sheet is so long."""
_NAME = 8
"""Tokens at the start of a line among which an extra is named."""
_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_STEPS = 3
"""So many counts that rise from 1 are steps of the dance."""


def told_below(lines: Sequence[Line]) -> tuple[Line, ...] | None:
    """Return the lines with those about order and extras moved below the dance; None where none stand above it."""
    groups = _paragraphs(lines)
    headed = next((at for at, group in enumerate(groups) if at and _is_headed(group)), None)
    kept: list[Line] = list(groups[0]) if groups else []
    moved: list[Line] = []
    named = False
    for at, group in enumerate(groups[1:], 1):
        head = group[0].tokens
        opening = extra_kind(head[:_NAME]) == "intro" and _counts_steps(group)
        speaks = _names_an_extra(head) or (not (_is_headed(group) or opening) and any(map(_speaks, group)))
        named |= headed is not None and at < headed and bool(moved) and _counts_steps(group)
        length = 0
        if at == headed or (not (speaks or named) and _opens_the_dance(group)):
            break
        if (speaks or (named and not opening)) and not _states_facts(group):
            length = _until_a_section(group)
            moved += group[:length]
            if length < len(group):
                break
        else:
            kept += group
        named = speaks and len(group) == 1 and _names_an_extra(head) and not _tells_steps(head)
    else:
        return None
    below = [*groups[at][length:], *(line for later in groups[at + 1 :] for line in later)]
    return (*kept, *below, *map(_far, moved)) if moved else None


def in_place(routine: Routine, problems: Sequence[Problem]) -> tuple[Routine, tuple[Problem, ...]]:
    """Return what was read with lines moved below, every place where it stands in the sheet."""
    near = (replace(one, line=one.line - _FAR) if one.line > _FAR else one for one in problems)
    return _near(routine), in_order(near)


def _near(value: Any) -> Any:
    """Return a value of a routine with its spans where they stand in the sheet."""
    if isinstance(value, Span):
        return value._replace(line=value.line - _FAR) if value.line > _FAR else value
    if isinstance(value, Written):
        changed = {name: _near(one) for name, one in value.__dict__.items() if isinstance(one, Written | tuple)}
        return value.but(**{name: one for name, one in changed.items() if one is not value.__dict__[name]})
    if isinstance(value, tuple):
        anew = [_near(one) for one in value]
        return tuple(anew) if any(one is not other for one, other in zip(anew, value, strict=True)) else value
    return value


def _paragraphs(lines: Sequence[Line]) -> list[list[Line]]:
    """Part lines where an empty line stands between them."""
    groups: list[list[Line]] = []
    for line in lines:
        if groups and line.number <= groups[-1][-1].tokens[-1].line + 1:
            groups[-1].append(line)
        else:
            groups.append([line])
    return groups


def _far(line: Line) -> Line:
    tokens = tuple(replace(token, line=token.line + _FAR) for token in line.tokens)
    return replace(line, number=line.number + _FAR, tokens=tokens)


def _names_an_extra(tokens: Sequence[Token]) -> bool:
    """Whether words name an extra whose steps may follow; a danced opening stands where it is danced."""
    return extra_kind(tokens[:_NAME]) not in (None, "intro")


def _speaks(line: Line) -> bool:
    """Whether a line speaks of the order, or carries a remark on it."""
    return is_order(line.tokens) or bool(without_order(line.tokens)[1])


def _tells_steps(tokens: Sequence[Token]) -> bool:
    """Whether the name of an extra has its steps behind it: "Tag: step right, touch left"."""
    colon = next((at for at, token in enumerate(tokens) if token.text in (":", "-", "=", ".")), len(tokens))
    return any(token.low in STEP_WORDS for token in tokens[colon + 1 :])


def _heads(tokens: Sequence[Token]) -> bool:
    """Whether words name a section of the dance, themselves or with what opens them."""
    if is_order(tokens) or extra_kind(tokens[:_NAME]) or _opens_with_counts(tokens):
        return False
    return any(is_section_name(tokens[:length]) for length in range(1, 4))


def _is_headed(group: Sequence[Line]) -> bool:
    """Whether a paragraph opens with the heading of a section, by its words or by the counts of the lines below it."""
    return bool(group) and (_heads(group[0].tokens) or _ranges_over(group))


def _ranges_over(group: Sequence[Line]) -> bool:
    """Whether the range that a line opens with is that of the lines below it: "[1-8] STOMPS" above "1-2 Stomp R, L"."""
    if len(group) < 2 or is_order(group[0].tokens) or extra_kind(group[0].tokens[:_NAME]):
        return False
    above, below = (_first_numbers(line.tokens) for line in group[:2])
    if not above or not below:
        return False
    first, last = above[0], above[-1]
    return last - first >= _STEPS and below[0] in (1, first) and below[-1] - below[0] < last - first


def _first_numbers(tokens: Sequence[Token]) -> tuple[int, ...]:
    """Return the first and the last count that a line opens with; empty where it opens with none."""
    marks = marks_in(tokens, 0, 3)
    if not marks or marks[0].first or marks[0].strength < _SURE:
        return ()
    numbers = [place.number for place in marks[0].places if place.number]
    return (numbers[0], numbers[-1]) if numbers else ()


def _opens_with_counts(tokens: Sequence[Token]) -> bool:
    """Whether a line begins with the counts of its steps: "1 | step right forward", not "1. Vines"."""
    marks = marks_in(tokens, 0, 3)
    if not marks or marks[0].first or marks[0].strength < _SURE or marks[0].last >= len(tokens):
        return False
    after = tokens[marks[0].last]
    return after.text == BREAK or after.low in STEP_WORDS


def _counts_steps(group: Sequence[Line]) -> bool:
    """Whether a paragraph tells steps with counts."""
    stepping = any(token.low in STEP_WORDS for line in group for token in line.tokens)
    return stepping and any(mark.strength >= _SURE for line in group for mark in marks_in(line.tokens, 0))


def _opens_the_dance(group: Sequence[Line]) -> bool:
    """Whether a paragraph tells the first steps of the dance."""
    if _is_headed(group):
        return True
    numbers = [
        place.number
        for line in group
        for mark in marks_in(line.tokens, 0)
        if mark.strength >= _SURE
        for place in mark.places
        if place.number
    ]
    return len(numbers) >= _STEPS and numbers[:2] == [1, 2]


def _until_a_section(group: Sequence[Line]) -> int:
    """Return how many lines of a paragraph stand before one that heads a section of the dance."""
    for at in range(1, len(group)):
        after = group[at + 1] if at + 1 < len(group) else None
        counted = after is not None and any(mark.strength >= _SURE for mark in marks_in(after.tokens, 0))
        if counted and _is_headed(group[at:]):
            return at
    return len(group)


def _states_facts(group: Sequence[Line]) -> bool:
    """Whether a paragraph states facts of a sheet's head."""
    if _names_an_extra(group[0].tokens):
        return False
    facts = header_facts([line.tokens for line in group if not _speaks(line)])
    return facts.walls is not None or bool(facts.level)
