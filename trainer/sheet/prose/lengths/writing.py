"""Lengths told as counts: "vine R, touch L (4) + vine L, touch R (4)" as "... [1 2 3 4] + ... [5 6 7 8]"."""

from collections.abc import Callable, Collection, Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.items.phrases import gloss_of
from trainer.sheet.prose.lengths.numbers import numerals_of
from trainer.sheet.prose.lengths.ways import Told, Way, best_way
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Token

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_BARE = {"to", "at", "till", "until"}
"""Words beside a number that may be the count reached as well as an hour."""
_WHOLE_LINES = 3
_NAME = 6
"""Tokens in which an extra is named."""


def with_lengths(
    lines: Sequence[Line], keys: Sequence[Line], tells_order: Callable[[Sequence[Token]], bool]
) -> tuple[Line, ...]:
    """Return the lines, numbers that say how long words last, or which count they reach, as the counts of the words.

    `keys` are the lines that explain the short forms of the sheet.
    """
    phrase = phrase_of(lines)
    ways = [
        (page, _way(page, keys, phrase, tells_order)) for page in dict.fromkeys((tuple(lines), with_hours_apart(lines)))
    ]
    lines, way = max(ways, key=lambda found: found[1].fitting if found[1] is not None else 0)
    if way is None:
        return tuple(lines)
    done = list(lines)
    for one, labels in reversed(list(_counted(lines, way.told, phrase))):
        numeral = one.numeral
        line = done[numeral.index]
        marks = _as_mark(line.tokens[numeral.first], labels)
        done[numeral.index] = replace(
            line, tokens=(*line.tokens[: numeral.first], *marks, *line.tokens[numeral.last :]), source=""
        )
    return tuple(done)


def _way(
    lines: Sequence[Line], keys: Sequence[Line], phrase: int, tells_order: Callable[[Sequence[Token]], bool]
) -> Way | None:
    """Return what the numbers of a sheet tell of lengths; None where most of its counts are told one by one."""
    told_in = {index for index, line in enumerate(lines) if not (_tells_facts(line) or tells_order(line.tokens))}
    numbered = {one.index for opening in (True, False) for one in numerals_of(lines, opening=opening)} & told_in
    gloss = gloss_of(
        [line.tokens for index, line in enumerate(lines) if index not in numbered], [line.tokens for line in keys]
    )
    way = best_way(lines, told_in, phrase, gloss)
    return way if way is not None and _counts_besides(lines, told_in, way) <= way.fitting else None


def with_hours_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with bare numbers that may be hours as numbers: "(6)", "= 6", "(to 6)"."""
    return tuple(replace(line, tokens=tuple(part for token in line.tokens for part in _apart(token))) for line in lines)


def _apart(token: Token) -> tuple[Token, ...]:
    """Return the tokens of a facing that is a bare number with its signs, else the token."""
    if token.kind != "facing":
        return (token,)
    parts = tokens_of(token.text, token.line, token.column)
    bare = all(part.kind == "number" or part.low in _BARE or part.kind == "mark" for part in parts)
    return (replace(parts[0], glued=token.glued), *parts[1:]) if bare else (token,)


def _counts_besides(lines: Sequence[Line], told_in: Collection[int], way: Way) -> int:
    """Return how many marks of a sheet count its steps one by one, and are no lengths."""
    own = {(one.numeral.index, at) for one in way.told for at in range(one.numeral.first, one.numeral.last)}
    marks = [mark for index in told_in for mark in marks_in(lines[index].tokens, index)]
    apart = [mark for mark in marks if not any((mark.line, at) in own for at in range(mark.first, mark.last))]
    return sum(mark.strength >= _SURE or len(mark.places) > 1 for mark in apart)


def _tells_facts(line: Line) -> bool:
    """Whether a line tells facts of the whole dance: "32 counts, 4 walls, weight on left"."""
    facts = header_facts([line.tokens])
    told = (facts.counts, facts.walls, facts.wait, facts.starts, facts.level or None)
    return sum(fact is not None for fact in told) > 1


def _counted(lines: Sequence[Line], told: Sequence[Told], phrase: int) -> Iterator[tuple[Told, list[str]]]:
    """Yield each number with the counts of its words."""
    at = 0
    whole = _whole_lines(told, phrase)
    for place, one in enumerate(told):
        extra = extra_kind(lines[one.numeral.index].tokens[:_NAME]) and not _same_line(told, place)
        begins = place and _begins(lines, told[place - 1], one)
        if one.base >= 0:
            at = one.base
        elif extra or at % phrase == 0 or (whole and not _same_line(told, place)) or (begins and at % (phrase // 2)):
            at = 0
        labels = one.filling.labels
        yield one, [str(at + int(label)) if label.isdecimal() else label for label in labels]
        at += sum(label.isdecimal() for label in labels)


def _whole_lines(told: Sequence[Told], phrase: int) -> bool:
    """Whether nearly each line lasts one phrase: then one that does not is no part of the line below it."""
    lengths: dict[int, int] = {}
    for one in told:
        counts = sum(label.isdecimal() for label in one.filling.labels)
        lengths[one.numeral.index] = lengths.get(one.numeral.index, 0) + counts
    whole = sum(length == phrase for length in lengths.values())
    return whole >= max(_WHOLE_LINES, len(lengths) - 2)


def _same_line(told: Sequence[Told], place: int) -> bool:
    return bool(place) and told[place - 1].numeral.index == told[place].numeral.index


def _begins(lines: Sequence[Line], before: Told, one: Told) -> bool:
    """Whether an empty line, or a line without numbers, stands between two numbers."""
    above, here = before.numeral.index, one.numeral.index
    return here > above + 1 or lines[here].number > lines[above].tokens[-1].line + 1


def _as_mark(token: Token, labels: Sequence[str]) -> Iterator[Token]:
    """Yield counts in brackets in the place of a token."""
    yield replace(token, kind="mark", text="[", low="[", value=None)
    for label in labels:
        kind = "number" if label.isdecimal() else "amp" if label == "&" else "word"
        yield replace(token, kind=kind, text=label, low=label, glued=False, value=None)  # type: ignore[arg-type]
    yield replace(token, kind="mark", text="]", low="]", glued=False, value=None)
