"""Sections whose lines keep their words: each tells what it counts, its counts before, behind or amid its words."""

from collections.abc import Iterator
from itertools import groupby, pairwise

from trainer.sheet.prose.page.endings import said_in
from trainer.sheet.prose.page.streams import Stream
from trainer.sheet.prose.words import Token

_LINES = 2
"""Lines with counts that such a section has at least."""
_MARGIN = 130
"""No margin at which lines are broken is wider."""
_NARROW = 45
"""Or narrower."""


def keeps_lines(stream: Stream) -> bool:
    """Whether some lines of a section begin with their counts and some do not, and no margin broke them."""
    firsts = {mark.number: words for words, mark in reversed(list(zip(stream.words, stream.marks, strict=False)))}
    lines = [number for number, _ in groupby(mark.number for mark in stream.marks)]
    if len(lines) < _LINES or len(firsts) < len(lines):
        return False
    opened = sum(not said_in([token for token in firsts[line] if token.line == line]) for line in lines)
    above = said_in([token for token in stream.words[0] if token.line < lines[0]])
    return 0 < opened < len(lines) and not above and not _in_sentences(stream) and not _broken(stream)


def _in_sentences(stream: Stream) -> bool:
    """Whether a section is written in sentences, with capital letters or stops, and some line goes on with one."""
    words = [token for words in stream.words for token in words]
    stops = sum(token.text == "." for token in words)
    said = said_in(stream.words[0])
    capital = said[0].text[0].isupper() if said else stops >= len({mark.number for mark in stream.marks})
    edges = [(before, after) for before, after in pairwise(words) if after.line > before.line and after.kind == "word"]
    stopped = any(before.text in _STOPS for before, _ in edges)
    goes_on = any(before.text not in _STOPS and after.text[0].islower() for before, after in edges)
    return (capital or stopped or _begins_within(stream)) and goes_on


def _begins_within(stream: Stream) -> bool:
    """Whether a sentence begins amid a line: "touch left on 4. On 5 step back", "on the spot. On 4 take a step"."""
    followed = zip(stream.marks, stream.words[1:], (*stream.marks[1:], None), strict=True)
    for mark, words, after in followed:
        said = said_in([token for token in words if token.line == mark.number])
        on = after is not None and after.number == mark.number
        if mark.ends == "." and (said[0].text[0].isupper() if said else on):
            return True
        if after is not None and words and words[-1].text == "." and words[-1].line == after.number:
            return True
    return False


_STOPS = {".", ";", ":"}


def lines_of(stream: Stream) -> Iterator[Stream]:
    """Yield the counts of each line with its words, and those of the lines below that have no counts."""
    first = 0
    opening: tuple[Token, ...] = stream.words[0]
    for _, group in groupby(stream.marks, key=lambda mark: mark.number):
        last = first + len(list(group))
        line = stream.marks[last].number if last < len(stream.marks) else None
        words = stream.words[last]
        cut = next((at for at, token in enumerate(words) if line is not None and token.line >= line), len(words))
        yield Stream((opening, *stream.words[first + 1 : last], words[:cut]), stream.marks[first:last])
        first, opening = last, words[cut:]


def _broken(stream: Stream) -> bool:
    """Whether a margin broke most lines: the word below would have had no room at their ends."""
    tokens = sorted((token for words in stream.words for token in words), key=lambda one: (one.line, one.column))
    ends = [_end(token) for token in tokens]
    margin = max(ends, default=0)
    edges = [(before, after) for before, after in pairwise(tokens) if after.line == before.line + 1]
    full = sum(_end(before) + 1 + len(after.text) > margin for before, after in edges)
    return _NARROW <= margin <= _MARGIN and 2 * full > len(edges)


def _end(token: Token) -> int:
    return token.column + len(token.text)
