"""Sections under a noun of the teacher's own and a number, "Reach 4", "Strain Two", "Passage III".

Such heads open their lines and count from one; what is called so elsewhere is told as "section 4", and as "sections 1
to 3" where more are named. So is what the sheet says it has as many of as there are numbered heads: "in six verses of
six counts" over "i." to "vi.". Those named by ordinals are `sections_by_ordinals`. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import ROMAN, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import number_like, word_like
from trainer.sheet.prose.words import Token

_FEWEST = 3
_MOST = 16
_SHORTEST = 3
"""Letters of such a noun."""
_OTHERS = {
    "wall", "walls", "count", "counts", "beat", "beats", "tag", "tags", "bridge", "ending", "option", "step", "steps",
    "bar", "bars", "time", "track", "page", "restart", "part", "parts", "verse", "chorus", "the", "and", "for", "intro",
    "section", "figure", "phrase", "block", "set", "eight", "group", "line", "row", "sequence", "change",
    "round", "rotation", "measure", "measures", "level", "break", "extra", "number", "day", "week",
}  # fmt: skip
"""What is numbered besides sections, and what needs no other name."""
_LONGEST_TITLE = 8
"""Tokens of a title behind the number of a head."""
_MANY = {"all", "these", "those", "of", "both", "every", "each", "last", "next", "this", "that", "whole"}
"""Behind these, as behind a number, the noun alone stands for sections: "all six decks", "the last deck"."""
_SIGNS = {"no", "nr", "number", "#", "."}
"""What may stand between a noun and its number."""
_BEHIND = {".", ":", ",", "-", "(", "[", "/", "=", BREAK, "|", ")", "]", ">", "*", "~"}
"""What may follow the number of a head."""
_JOINS = {",", "and", "&", "+", "to", "through", "thru", "-", "till", "until", "or"}
_RANGES = {"through", "thru", "till", "until"}


def with_sections_by_nouns(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such sections called by number wherever they are no heads."""
    heads = [_head(line) for line in lines]
    nouns = {noun for noun, _ in heads if noun and _counts_up([number for one, number in heads if one == noun])}
    nouns |= _said_to_have(lines)
    if not nouns:
        return tuple(lines)
    return tuple(
        line if noun in nouns or not _names(line, nouns) else replace(line, tokens=tuple(_told(line.tokens, nouns)))
        for line, (noun, _) in zip(lines, heads, strict=True)
    )


def _said_to_have(lines: Sequence[Line]) -> set[str]:
    """Return the noun of which the sheet says it has as many as there are heads that are only numbered."""
    numbers = [number for line in lines if (number := _numbered(line.tokens))]
    if not _counts_up(numbers):
        return set()
    found: set[str] = set()
    for line in lines[:_HEAD]:
        for at, token in enumerate(line.tokens[:-1]):
            noun = token.low.removesuffix("s")
            of_length = at > 1 and token.low.endswith("s") and line.tokens[at + 1].low == "of"
            if of_length and noun not in _OTHERS - _SUNG and noun not in STEP_WORDS:
                many, last, _ = number_at(line.tokens, at - 1)
                found |= {noun} if last == at and many == len(numbers) else set()
    sung = any(token.low == "chorus" for line in lines for token in line.tokens)
    return found - _SUNG if sung else found


_HEAD = 8
"""Lines among which a sheet says what it has."""
_SUNG = {"verse"}
"""Sections where the sheet has no chorus, too."""


def _numbered(tokens: Sequence[Token]) -> int:
    """Return the number that opens a head and is followed by a mark and a title; 0 where none does."""
    title = next((token for token in tokens[2:4] if token.text != BREAK), None)
    if len(tokens) < _FEWEST or tokens[1].text not in (".", ")", ":") or title is None or title.kind != "word":
        return 0
    return ROMAN.get(tokens[0].low, int(tokens[0].text[:2]) if tokens[0].text.isdecimal() else 0)


def _counts_up(numbers: Sequence[int]) -> bool:
    return len(numbers) >= _FEWEST and list(numbers) == list(range(1, len(numbers) + 1))


def _head(line: Line) -> tuple[str, int]:
    """Return the noun and number that open a line; an empty text and 0 where none do."""
    at = next((at for at, token in enumerate(line.tokens) if token.kind != "mark"), len(line.tokens))
    if at == len(line.tokens):
        return "", 0
    noun = line.tokens[at]
    proper = noun.kind == "word" and len(noun.low) >= _SHORTEST and noun.low.isalpha()
    if not proper or noun.low in _OTHERS or noun.low in STEP_WORDS:
        return "", 0
    number, last = _number(line.tokens, at + 1)
    ends = last == len(line.tokens) or line.tokens[last].text in _BEHIND or _titled(line.tokens[last - 1 :])
    return (noun.low, number) if 0 < number <= _MOST and ends else ("", 0)


def _titled(tokens: Sequence[Token]) -> bool:
    """Whether a title stands behind the number of a head: "DECK 1  Boarding"; steps begin with no capital there."""
    number, title = tokens[0], tokens[1:]
    apart = title[0].column - number.column - len(number.text) > 1
    named = title[0].kind == "word" and title[0].text[0].isupper()
    return (apart or named) and len(title) <= _LONGEST_TITLE and not any(token.kind == "number" for token in title)


def _number(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return a section's number that begins at a token, in figures, words or Roman, and the index after it."""
    first = at
    while at < len(tokens) and tokens[at].low in _SIGNS:
        at += 1
    if at >= len(tokens):
        return 0, first
    if (tokens[at].text.isupper() or len(tokens[at].text) > 1) and tokens[at].low in ROMAN:
        return ROMAN[tokens[at].low], at + 1
    number, last, placed = number_at(tokens, at)
    return (number, last) if last > at and not placed else (0, first)


def _names(line: Line, nouns: set[str]) -> bool:
    return any(_noun(token, nouns) for token in line.tokens)


def _noun(token: Token, nouns: set[str]) -> str:
    """Return which of the nouns a word is, also as one of several; an empty text if none."""
    low = token.low
    return next((noun for noun in nouns if low in (noun, noun + "s", noun + "es")), "")


def _told(tokens: Sequence[Token], nouns: set[str]) -> Iterator[Token]:
    """Yield the words of a line, such sections told by their numbers."""
    at = 0
    while at < len(tokens):
        noun = _noun(tokens[at], nouns)
        numbers, last = _list(tokens, at, nouns) if noun else ([], at)
        if not numbers:
            counted = noun and at and (tokens[at - 1].low in _MANY or number_at(tokens, at - 1)[1] == at)
            yield word_like(tokens[at], "section" if tokens[at].low == noun else "sections") if counted else tokens[at]
            at += 1
            continue
        several = sum(isinstance(one, int) for one in numbers) > 1
        yield word_like(tokens[at], "sections" if several else "section")
        for one in numbers:
            yield number_like(tokens[at], one) if isinstance(one, int) else one
        at = last


def _list(tokens: Sequence[Token], at: int, nouns: set[str]) -> tuple[list[int | Token], int]:
    """Return the numbers of the sections named from a noun on, with what joins them, and the index after them."""
    number, last = _number(tokens, at + 1)
    if not number:
        return [], at
    told: list[int | Token] = [number]
    while last + 1 < len(tokens) and tokens[last].low in _JOINS:
        joins = [tokens[last]]
        here = last + 1
        if tokens[here].low in ("and", "&") and tokens[last].text == ",":
            joins, here = [tokens[here]], here + 1
        if here < len(tokens) and _noun(tokens[here], nouns):
            here += 1
        more, end = _number(tokens, here)
        if not more or more <= number:
            break
        join = word_like(joins[0], "to") if joins[0].low in _RANGES else joins[0]
        told += [join, more]
        number, last = more, end
    return told, last
