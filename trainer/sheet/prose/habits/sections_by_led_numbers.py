"""Sections under numbers with a naught before them, "01 TWO BASICS", called so: "to 4 of 02", "01 and 02 only".

Such a number is never a count; elsewhere than at the head of its section it is told as "section 2".
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_FEWEST = 3
_JOINS = {",", "and", "&", "+", "to", "through", "-", "till", "until", "then", "or"}
_NOUNS = {
    "section",
    "sections",
    "sec",
    "part",
    "parts",
    "block",
    "blocks",
    "set",
    "sets",
    "no",
    "number",
    "nr",
    "s",
    "#",
}
"""Before these a number needs no other word, or is no section."""
_OTHERS = {"count", "counts", "beat", "beats", "wall", "walls", "w", "/", ":", ".", "+", "tel", "phone"}


def with_sections_by_led_numbers(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such numbers told as sections in all lines that they do not head."""
    heads = {at: int(line.tokens[0].text) for at, line in enumerate(lines) if _is_led(line, 0)}
    numbers = [number for at, number in heads.items()]
    if len(numbers) < _FEWEST or numbers != list(range(1, len(numbers) + 1)):
        return tuple(lines)
    return tuple(line if at in heads else replace(line, tokens=tuple(_told(line))) for at, line in enumerate(lines))


def _is_led(line: Line, at: int) -> bool:
    """Whether a naught stands before a number of one digit."""
    token = line.tokens[at]
    place = token.column - 2
    if token.kind != "number" or len(token.text) != 1 or token.line != line.number or place < 0:
        return False
    before = line.source[place - 1 : place] if place else ""
    return line.source[place : place + 1] == "0" and not before.isalnum() and before not in (":", ".", "/")


def _told(line: Line) -> Iterator[Token]:
    """Yield the words of a line, each row of such numbers behind a word for sections."""
    tokens = line.tokens
    told = False
    for at, token in enumerate(tokens):
        listed = told and at > 1 and tokens[at - 1].low in _JOINS and _is_led(line, at - 2)
        if _is_led(line, at) and not listed and (not at or tokens[at - 1].low not in _NOUNS | _OTHERS - {"+"}):
            several = at + 2 < len(tokens) and tokens[at + 1].low in _JOINS and _is_led(line, at + 2)
            yield word_like(token, "sections" if several else "section")
            yield replace(token, glued=False)
            told = True
        else:
            yield token
