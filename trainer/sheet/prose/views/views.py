"""Views of a page: its lines as they stand, or the sentences of its wrapped paragraphs.

A teacher's paragraph is wrapped where the margin is; what is told in it are sentences. Which of the views is meant
is not decided here: the reader reads them and keeps what reads best (`reader.py`). Where lines head others by numbers,
each view has them as headings (`range_heads.py`), and the first stands without that too.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.page.range_heads import with_range_heads
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_NARROW = 30
"""Columns; a line that ends before has not met the margin."""
_FULL = 0.62
"""The share of a paragraph's width that a wrapped line fills."""
_SHORT = {"st", "nd", "rd", "th", "ct", "cts", "fwd", "bk", "approx", "no", "w", "r", "l", "rf", "lf", "p", "vs", "rec"}
"""Words that a full stop may only shorten."""


def views_of(lines: Sequence[Line], tells_order: Callable[[Sequence[Token]], bool]) -> Iterator[tuple[Line, ...]]:
    """Yield the lines as they stand; then with wrapped paragraphs as sentences: those that tell the order, and all."""
    plain = tuple(lines)
    headed = with_range_heads(plain)
    if headed != plain:
        yield headed
    yield plain
    paragraphs = [(group, _is_wrapped(group)) for group in _paragraphs(lines)]
    if not any(wrapped for _, wrapped in paragraphs):
        return
    telling: list[Line] = []
    everything: list[Line] = []
    for group, wrapped in paragraphs:
        sentences = _sentences(group) if wrapped else group
        order = next((at for at, one in enumerate(sentences) if tells_order(one.tokens)), None) if wrapped else None
        if order is not None:
            sentences = [*sentences[:order], _one_line(sentences[order:])]
        telling += group if order is None else sentences
        everything += sentences
    seen = [headed, plain]
    for view in (with_range_heads(telling), with_range_heads(everything)):
        if view not in seen:
            seen.append(view)
            yield view


def _paragraphs(lines: Sequence[Line]) -> list[list[Line]]:
    """Part lines where an empty line stands between them, at a colon, and where cells begin or end."""
    groups: list[list[Line]] = []
    for line in lines:
        before = groups[-1][-1] if groups else None
        if (
            before is not None
            and line.number <= before.tokens[-1].line + 1
            and before.tokens[-1].text != ":"
            and _has_cells(line) == _has_cells(before)
        ):
            groups[-1].append(line)
        else:
            groups.append([line])
    return groups


def _has_cells(line: Line) -> bool:
    return any(token.text == BREAK for token in line.tokens)


def _is_wrapped(group: Sequence[Line]) -> bool:
    """Whether the lines of a paragraph are broken at the margin, and not where something ends."""
    if len(group) < 2 or _has_cells(group[0]):
        return False
    ends = [line.tokens[-1].column + len(line.tokens[-1].text) - line.indent for line in group]
    width = max(ends)
    if width < _NARROW or any(end < _FULL * width for end in ends[:-1]):
        return False
    inside = sum(
        before.tokens[-1].text not in (".", ":", ";", "!", "?") or _small(after.tokens[0])
        for before, after in pairwise(group)
    )
    return inside >= 0.5 * (len(group) - 1)


def _small(token: Token) -> bool:
    return token.kind == "word" and token.text[0].islower()


def _sentences(group: Sequence[Line]) -> list[Line]:
    """Return the sentences of a paragraph as lines; each keeps the number of the line that it begins on."""
    tokens = [token for line in group for token in line.tokens]
    found: list[Line] = []
    start = 0
    for at in range(len(tokens)):
        if at + 1 == len(tokens) or _ends(tokens, at):
            words = tuple(tokens[start : at + 1])
            indent = next(line.indent for line in group if words[0] in line.tokens)
            found.append(replace(group[0], number=words[0].line, tokens=words, indent=indent))
            start = at + 1
    return found


def _one_line(sentences: Sequence[Line]) -> Line:
    """Return sentences as one line: what follows a sentence about the order in its paragraph belongs to it."""
    return replace(sentences[0], tokens=tuple(token for line in sentences for token in line.tokens))


def _ends(tokens: Sequence[Token], at: int) -> bool:
    """Whether a sentence ends with a token: a full stop and a capital after it."""
    token, after = tokens[at], tokens[at + 1]
    if token.text not in (".", "!", "?", ")"):
        return False
    if token.text == ")":
        return at > 0 and tokens[at - 1].text in (".", "!", "?") and _opens(after)
    before = tokens[at - 1] if at else None
    short = token.text == "." and before is not None and before.low in _SHORT and before.line == token.line
    return not short and not after.glued and _opens(after)


def _opens(token: Token) -> bool:
    return token.text[0].isupper() or token.kind == "number" or token.text in ("(", "[", '"')
