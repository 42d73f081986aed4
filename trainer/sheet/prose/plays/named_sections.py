"""Parts of which an order of play dances some sections, called by their names: "A (short, A1 to A3)", "B, A1 A2, B".

They are told as what the part is danced up to, "A (up to section 3)", which needs no comma and no other part's letter.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEAST = 3
"""Parts that a line has at least which tells an order of play."""
_LETTERS = "ABCDEFGH"
_JOINS = {",", "and", "&", "+", "/"}
_UP_TO = {"to", "-", "through", "thru", "till", "until"}
_BESIDE = {
    "short",
    "shorter",
    "shortened",
    "cut",
    "only",
    "just",
    "half",
    "dance",
    "danced",
    ":",
    ",",
    "sections",
    ";",
    "counts",
    "cts",
    "count",
}
_OPENERS = {"(": ")", "[": "]"}


def with_named_sections(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, in those that tell an order of play each part cut to sections by name cut to its last one."""
    return tuple(replace(line, tokens=tuple(_told(line.tokens))) if _plays(line.tokens) else line for line in lines)


def _plays(tokens: Sequence[Token]) -> bool:
    return sum(_is_part(tokens, at) for at in range(len(tokens))) >= _LEAST


def _is_part(tokens: Sequence[Token], at: int) -> bool:
    letter = tokens[at].kind == "word" and len(tokens[at].text) == 1 and tokens[at].text in _LETTERS
    return letter and not _number(tokens, at)


def _number(tokens: Sequence[Token], at: int) -> int:
    """Return the number of a section that a token begins to name: "A3"; 0 where it names none."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    named = after is not None and after.kind == "number" and after.glued and len(after.text) == 1
    return int(after.text) if named and after is not None and tokens[at].text in tuple(_LETTERS) else 0


def _told(tokens: Sequence[Token]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        token = tokens[at]
        marked = at + 1 < len(tokens) and tokens[at + 1].text == "*"
        opens = at + 1 + marked
        if _is_part(tokens, at) and opens < len(tokens) and tokens[opens].text in _OPENERS:
            last, end = _in_brackets(tokens, at, opens)
        elif token.text in tuple(_LETTERS) and not (at and tokens[at - 1].text in _OPENERS):
            last, end = _row(tokens, at, token.text)
            last = last if last > 1 else 0
        else:
            last, end = 0, at
        if last:
            yield from _cut(token, last)
            at = end
        else:
            yield token
            at += 1


def _in_brackets(tokens: Sequence[Token], at: int, opens: int) -> tuple[int, int]:
    """Return the last section that brackets after a part name, and the index after them; 0 where they say else."""
    closer = _OPENERS[tokens[opens].text]
    close = next((index for index in range(opens + 1, len(tokens)) if tokens[index].text == closer), len(tokens))
    first = opens + 1
    while first < close and (tokens[first].low in _BESIDE or tokens[first].kind == "number"):
        first += 1
    last, end = _row(tokens, first, tokens[at].text)
    only = all(token.low in _BESIDE for token in tokens[end:close])
    return (last, close + 1) if last and only and close < len(tokens) else (0, at)


def _row(tokens: Sequence[Token], at: int, part: str) -> tuple[int, int]:
    """Return the last of the sections of a part named in a row from its first on, and the index after them."""
    if at >= len(tokens) or tokens[at].text != part or _number(tokens, at) != 1:
        return 0, at
    last, end = 1, at + 2
    while end < len(tokens):
        joined = tokens[end].low in _JOINS | _UP_TO
        here = end + joined
        number = _number(tokens, here) if here < len(tokens) and tokens[here].text == part else 0
        if not number or not (number == last + 1 or (tokens[end].low in _UP_TO and number > last)):
            break
        last, end = number, here + 2
    return last, end


def _cut(part: Token, last: int) -> Iterator[Token]:
    yield part
    yield replace(part, kind="mark", text="(", low="(", glued=False)
    for text in ("up", "to", "section"):
        yield replace(part, kind="word", text=text, low=text, glued=text == "up")
    yield replace(part, kind="number", text=str(last), low=str(last), glued=False)
    yield replace(part, kind="mark", text=")", low=")", glued=True)
