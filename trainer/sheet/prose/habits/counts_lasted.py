"""Counts that a step lasts, told among the words of a line that opens with them all, as a range.

"1-2-3 Step left; sweep right during counts 2 and 3" is told "on counts 2-3": no half beat stands between them.
Behind the counts of a numbered bar, "Bar 10 (4 5 6) step right, draw left in over 5 and 6", it is told how many.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEADS = {"during", "through", "throughout", "over", "across", "on", "for", "in", "upon", "while", "with"}
_COUNTS = {"count", "counts", "beat", "beats", "both", "the"}
_AND = {"and", "&", "to", "till", "until", "through"}
_BAR = 2
"""Tokens that number a bar."""
_LEAST = 3
"""Counts of a line at least: of two, both are all."""


def with_counts_lasted(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the counts that a step lasts told as ranges in lines that open with more of them."""
    return tuple(_told(line) for line in lines)


def _told(line: Line) -> Line:
    if not any(token.low in _LEADS for token in line.tokens):
        return line
    opening = next(iter(marks_in(line.tokens, 0)), None)
    label = _label(line.tokens)
    if opening is None or opening.first > label or any(place.sub for place in opening.places):
        return line
    if opening.ends == "." or any(token.kind == "word" for token in line.tokens[label : opening.last]):
        # "Counts 1 to 8. On 1 and 2 walk" is told count by count.
        return line
    counts = {place.number for place in opening.places}
    if opening.spread and opening.places[-1].number:
        counts = set(range(opening.places[0].number or 0, opening.places[-1].number + 1))
    if len(counts) < _LEAST:
        return line
    done: list[Token] = list(line.tokens[: opening.last])
    at = opening.last
    depth = 0
    while at < len(line.tokens):
        depth += {"(": 1, ")": -1}.get(line.tokens[at].text, 0)
        # What stands in brackets is an aside, and is read as one.
        found = _within(line.tokens, at) if not depth else None
        if found is None or not {found[0], found[1]} <= counts:
            done.append(line.tokens[at])
            at += 1
            continue
        lead, end = line.tokens[at], found[2]
        if label:
            done += [replace(lead, text=word, low=word) for word in ("over", "two", "counts")]
            at = end
            continue
        done += [
            replace(lead, text="on", low="on"),
            replace(lead, text="counts", low="counts"),
            _number(line.tokens[end - 3], found[0]),
            replace(lead, kind="mark", text="-", low="-", glued=True),
            _number(line.tokens[end - 1], found[1], glued=True),
        ]
        at = end
    return replace(line, tokens=tuple(done)) if done != list(line.tokens) else line


def _label(tokens: Sequence[Token]) -> int:
    """Return how many tokens number a bar before the bracket with its counts: "Bar 10 (4 5 6)"."""
    numbered = len(tokens) > _BAR and tokens[0].low in ("bar", "measure") and tokens[1].kind == "number"
    return _BAR if numbered and tokens[_BAR].text in "([" else 0


def _within(tokens: Sequence[Token], at: int) -> tuple[int, int, int] | None:
    """Return two counts in a row that are told at a token, and the token behind them; None where none are."""
    if tokens[at].low not in _LEADS:
        return None
    on = at + 1
    while on < len(tokens) and tokens[on].low in _COUNTS:
        on += 1
    said = tokens[on : on + 3]
    if len(said) < _LEAST or said[1].low not in _AND or any(token.glued for token in said[1:]):
        return None
    first, last = count_told(said[0]), count_told(said[2])
    named = on > at + 1 or said[0].kind == "number"
    return (first, last, on + 3) if named and first and last == first + 1 else None


def _number(token: Token, value: int, *, glued: bool = False) -> Token:
    return replace(token, kind="number", text=str(value), low=str(value), glued=glued)
