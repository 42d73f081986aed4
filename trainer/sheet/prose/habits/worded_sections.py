"""Sections that a sheet heads by a number in words alone, "one", "Two:", "~ three ~", told as "section 2".

Such heads stand alone on their lines, rise from one, and counts that begin with 1 follow each. Where the order names a
place by such a word, "in four, counts 5 to 8", "after two", it is the section. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LEAST = 3
_BEFORE = {
    "in", "after", "of", "from", "to", "until", "till", "before", "during", "through", "at", "dance", "do", "then",
    "skip", "with", "into", "only", "end", "between", ":", "for",
}  # fmt: skip
"""Before these words a number may be a section's."""
_JOINS = {"and", "&", "+", ",", "to", "-"}
_AFTER = {
    ",", ".", ";", ":", ")", "(", "-", BREAK, "then", "and", "&", "only", "to", "is", "are", "again", "we", "you",
    "add", "put", "as", "restart", "start", "has", "there", "become",
    "becomes", "change", "changes", "in", "on",
}  # fmt: skip
_COUNTS = {"count", "counts", "cts", "beat", "beats"}


def with_worded_sections(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such heads, and where the order names them, told as sections."""
    heads = {at: number for at, line in enumerate(lines) if (number := _head(lines, at))}
    if len(heads) < _LEAST or list(heads.values()) != list(range(1, len(heads) + 1)):
        return tuple(lines)
    # A name with a capital letter is one wherever it stands: "third (6:00) One, then restart".
    named = {token.text for at in heads for token in lines[at].tokens if token.text != token.low}
    return tuple(
        replace(line, tokens=_section(line.tokens[0], heads[at])) if at in heads else _told(line, len(heads), named)
        for at, line in enumerate(lines)
    )


def _head(lines: Sequence[Line], at: int) -> int:
    """Return the number of the section that a line heads, 0 where it heads none."""
    words = [token for token in lines[at].tokens if token.kind != "mark"]
    if len(words) != 1 or words[0].low not in NUMBERS or at + 1 == len(lines):
        return 0
    marks = marks_in(lines[at + 1].tokens, 0)
    return NUMBERS[words[0].low] if any(mark.start.number == 1 for mark in marks[:2]) else 0


def _told(line: Line, most: int, named: set[str]) -> Line:
    done: list[Token] = []
    for at, token in enumerate(line.tokens):
        called = _names_one(line.tokens, at, most) or (at > 0 and token.text in named and _ends_there(line.tokens, at))
        done += _section(token, NUMBERS[token.low]) if called else (token,)
    told = tuple(done)
    return replace(line, tokens=told) if told != line.tokens and is_order(told) else line


def _names_one(tokens: Sequence[Token], at: int, most: int) -> bool:
    """Whether a word stands where the order names a section: "in four, counts 5 to 8", "after one and two"."""
    if not 1 <= NUMBERS.get(tokens[at].low, 0) <= most or tokens[at].kind != "word":
        return False
    before = tokens[at - 1].low if at else ""
    if not _ends_there(tokens, at):
        return False
    return before in _BEFORE or (before in _JOINS and at > 1 and _names_one(tokens, at - 2, most))


def _ends_there(tokens: Sequence[Token], at: int) -> bool:
    """Whether no thing that a word may number follows it."""
    after = tokens[at + 1].low if at + 1 < len(tokens) else "."
    if after in _COUNTS:
        return at + 2 < len(tokens) and tokens[at + 2].kind == "number"
    return after in _AFTER


def _section(place: Token, number: int) -> tuple[Token, Token]:
    word = replace(place, kind="word", text="section", low="section", value=None)
    return word, replace(place, kind="number", text=str(number), low=str(number), glued=False, value=None)
