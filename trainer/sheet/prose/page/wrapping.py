"""Items over more lines than one: lines broken at the margin, and wraps that hang under the first line."""

from collections.abc import Sequence

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import is_section_name
from trainer.sheet.prose.text.layout import Line

_LONG = 12
"""Tokens of a line that may have been broken at the margin."""
_MARGIN = 45
"""A line that ends beyond this column may have been broken there."""
_WRAPS = 5
"""Lines of an item that hang under its first."""
_NAMES = 3
"""Tokens that name a section."""
_CLOSING = (".", ",", ";", "!")
_NEVER_LAST = {
    "the", "a", "an", "of", "and", "or", "with", "to", "is", "are", "has", "have", "in", "your", "for", "its", "you",
    "by", "from", "this", "that", "at", "as", "then", "both",
}  # fmt: skip


def runs_on(line: Line) -> bool:
    """Whether a line ends with a word that cannot end a heading: it was broken at the margin; 8&a is none."""
    last = line.tokens[-1]
    counted = last.glued and len(last.text) == 1 and line.tokens[-2:][0].kind in ("amp", "number")
    return last.low in _NEVER_LAST and last.text != "A" and not counted


def opens_paragraph(before: Line | None, line: Line) -> bool:
    return before is None or line.number > before.tokens[-1].line + 1


def wraps(line: Line, texts: Sequence[Line]) -> bool:
    """Whether a long line was broken at the margin: the line under it goes on in small letters, or with its counts."""
    last = line.tokens[-1]
    if len(line.tokens) < _LONG or last.text in (".", ":", "!", "?") or last.column < _MARGIN:
        return False
    if last.text in (")", "]") and is_section_name(line.tokens[:_NAMES]):
        # "Danced intro (8 counts, weight on left to begin)" is whole, in whatever letters its steps begin.
        return False
    below = next((other for other in texts if other.number == last.line + 1), None)
    if below is None:
        return False
    return (below.tokens[0].kind == "word" and below.tokens[0].text[0].islower()) or _closes_counts(below)


def _closes_counts(line: Line) -> bool:
    """Whether a line opens with the counts of words above it: in brackets, and a mark or nothing follows."""
    mark = next(iter(marks_in(line.tokens, 0)), None)
    if mark is None or not mark.closed or mark.first > 1:
        return False
    return mark.ends == "." or all(token.text in _CLOSING for token in line.tokens[mark.last :][:1])


def hangs(line: Line, indent: int, texts: Sequence[Line]) -> bool:
    """Whether a line is the first of an item with hanging wraps, or a wrap, the counts at the end of the last."""
    wrapped = [line]
    for step in (-1, 1):
        for _ in range(_WRAPS):
            end = wrapped[0 if step < 0 else -1]
            if step < 0 and end.indent <= indent + 1:
                break
            near = next((other for other in texts if other.number == end.number + step), None)
            if near is None or (step > 0 and near.indent <= indent + 1):
                return False
            wrapped = [near, *wrapped] if step < 0 else [*wrapped, near]
            marks = marks_in(near.tokens, 0) if step > 0 else []
            if marks and marks[-1].last == len(near.tokens):
                return marks[0].first > 0 and wrapped[0].indent == indent and not is_section_name(wrapped[0].tokens[:3])
    return False
