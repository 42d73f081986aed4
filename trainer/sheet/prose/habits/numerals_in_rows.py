"""Roman numerals in rows of walls, where sections are headed by such: "w3  I II III, the bridge, IV V".

Each is told as its section. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import ROMAN
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import number_like, word_like
from trainer.sheet.prose.words import Token

_NUMERALS = {"I", "II", "III", "IV", "V", "VI", "VII", "VIII"}
_WALLS = {"wall", "walls", "w"}
_ENDS = {BREAK, ".", ":", "-"}
_AFTER_I = {"to", "-", "and", "&", "+", ",", "only", "then", ".", ";", ")", "|"}
"""Behind these a lone "I" is a numeral, and nobody who speaks."""
_SECTIONS = {"section", "sections", "set", "block", "part", "of"}
_LEAST = 3


def with_numerals_in_rows(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such numerals as sections."""
    heads = [ROMAN[line.tokens[0].low] for line in lines if _is_head(line)]
    if len(heads) < _LEAST or heads[:_LEAST] != list(range(1, _LEAST + 1)):
        return tuple(lines)
    return tuple(
        replace(line, tokens=tuple(_told(line.tokens, max(heads))), source="") if _is_row(line) else line
        for line in lines
    )


def _is_head(line: Line) -> bool:
    tokens = line.tokens
    return tokens[0].text in _NUMERALS and (len(tokens) == 1 or tokens[1].text in _ENDS)


def _is_row(line: Line) -> bool:
    """Whether a line begins with the number of a wall and has several numerals, or one by itself."""
    tokens = line.tokens
    walled = len(tokens) > _LEAST and tokens[0].low in _WALLS and tokens[1].kind == "number"
    return walled and any(token.text in _NUMERALS for token in tokens)


def _told(tokens: Sequence[Token], most: int) -> Iterator[Token]:
    for at, token in enumerate(tokens):
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        numeral = token.text in _NUMERALS and ROMAN[token.low] <= most and tokens[at - 1].low not in _SECTIONS
        lone = token.text == "I" and after is not None and after.low not in _AFTER_I and after.text not in _NUMERALS
        if not at or not numeral or lone:
            yield token
            continue
        yield word_like(token, "section")
        yield number_like(token, ROMAN[token.low])
