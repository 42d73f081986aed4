"""The word by which a sheet calls its sections: "Pattern 1 ... Pattern 2", "Verse one", "Round 3".

A word that opens lines with 1, 2, 3 after it, or first, second, third before it, in order, is that word; it then stands
for "section" wherever a number follows it or an ordinal stands before it, in headings, back references and the order.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.lexis.vocabulary import ROMAN
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.views.ordinal_sections import with_ordinal_sections
from trainer.sheet.prose.words import Token

_OTHERS = {
    "count", "counts", "ct", "cts", "beat", "beats", "bar", "bars", "wall", "walls", "page", "step", "steps", "part",
    "parts", "tag", "tags", "bridge", "restart", "option", "note", "and", "on", "for", "the", "after", "section",
    "sections", "sec", "time", "times", "round", "intro", "wait", "level", "right", "left", "r", "l", "version",
    "eights", "a", "walk", "w",
}  # fmt: skip
"""Words that are followed by numbers for other reasons, or are understood as they are."""
_NUMBERS = ("no", "nr", "number")
_ROMANS = {"I", "II", "III", "IV", "V", "VI", "VII", "VIII"}
_SECTIONS = ("section", "sections")
_PLACES = ("of", "in", "after", "before", "from", "through", "until")
_JOINED = (*_PLACES, "between", "and", "to", "till", "do", "then", "is", "&", "+", "-", "with", "only", "section")
_JOINED_AFTER = ("and", "to", "&", "+", "-", "only", ".", ",", ")", ";", "till", "until", "again")
"""Beside a numeral these tell that it names a section."""
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "last", "next")


def with_section_words(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with the sheet's own word for a section read as "section"."""
    romans = _heads_by(lines, lambda tokens: next((ROMAN[one.low] for one in tokens[:1] if one.text in _ROMANS), 0))
    lines = [replace(line, tokens=tuple(_with_romans(line.tokens, headed=romans))) for line in lines]
    if _heads_by(lines, _by_sign):
        lines = [replace(line, tokens=tuple(_with_signs(line.tokens))) for line in lines]
    lines = with_ordinal_sections(lines)
    words = _own_words(lines)
    if not words:
        return tuple(lines)
    plurals = {_plural(word) for word in words}
    return tuple(replace(line, tokens=_read(line.tokens, words, plurals)) for line in lines)


def _heads_by(lines: Iterable[Line], number: Callable[[Sequence[Token]], int]) -> bool:
    """Whether lines open with 1, 2, 3 ... in order, as `number` reads each behind what decorates it; 0: no number."""
    found = [
        number(line.tokens[next((at for at, one in enumerate(line.tokens) if one.kind != "mark"), 0) :])
        for line in lines
    ]
    return list(dict.fromkeys(one for one in found if one))[:3] == [1, 2, 3]


def _by_sign(tokens: Sequence[Token]) -> int:
    """The number of a line that opens with a sign and its number: "No. 2) Grapevines"."""
    if not tokens or tokens[0].low not in _NUMBERS:
        return 0
    after = [one for one in tokens[1:3] if one.text != "."][:1]
    return (count_told(after[0]) or 0) if after else 0


def _with_signs(tokens: Sequence[Token]) -> Iterator[Token]:
    """Yield tokens, the sign of a section's number within a line read as "section": "between no. 2 and no. 3"."""
    for at, token in enumerate(tokens):
        opens = all(one.kind == "mark" for one in tokens[:at])
        if not opens and token.low in _NUMBERS and _by_sign(tokens[at : at + 3]):
            yield replace(token, text="section", low="section")
        elif not (
            token.text == "." and at > 1 and tokens[at - 1].low in _NUMBERS and _by_sign(tokens[at - 1 : at + 2])
        ):
            yield token


def _with_romans(tokens: Sequence[Token], *, headed: bool) -> Iterator[Token]:
    """Yield tokens with the word for a section before a numeral that stands for one: "7-8 of III".

    Where sections are headed by such numerals, they are those wherever the order may speak of them.
    """
    for at, token in enumerate(tokens):
        before = tokens[at - 1].low if at else ""
        after = tokens[at + 1].low if at + 1 < len(tokens) else "."
        sure = len(token.text) > 1 and before in _PLACES
        if headed and at and token.text in _ROMANS:
            joined = before in _JOINED or after in _JOINED_AFTER
            sure |= joined and (len(token.text) > 1 or after in _JOINED_AFTER)
        if token.text in _ROMANS and (before == "of" or sure) and before not in _SECTIONS:
            yield replace(token, text="section", low="section")
            yield replace(token, glued=False)
        else:
            yield token


def _plural(word: str) -> str:
    return f"{word}es" if word.endswith(("x", "s", "ch", "sh")) else f"{word}s"


def _own_words(lines: Iterable[Line]) -> set[str]:
    """Return the words that open at least three lines with 1, 2, 3 ... after them."""
    numbers: dict[str, list[int]] = {}
    for line in lines:
        words = [token for token in line.tokens[:5] if token.kind in ("word", "number") and token.low not in _NUMBERS][
            :2
        ]
        if len(words) == 2 and words[0].kind == "word" and words[0].low not in _OTHERS:
            value = count_told(words[1])
            if value is not None:
                numbers.setdefault(words[0].low, []).append(value)
        place, word = _ordinal_before(line.tokens[:5])
        if word and word not in _OTHERS:
            numbers.setdefault(word, []).append(place)
    found = {word for word, values in numbers.items() if list(dict.fromkeys(values))[:3] == [1, 2, 3]}
    # "A1, A2, B1, B2, B3": letters of several parts are no word for a section.
    lettered = any(len(token.text) == 1 and token.text.isupper() for token in _opening_twos(lines))
    return {word for word in found if len(word) > 1 or not lettered}


def _opening_twos(lines: Iterable[Line]) -> Iterator[Token]:
    """Yield the capitals before a number, of the line that opens with 1 or 2 for the second time."""
    seen: dict[str, str] = {}
    for line in lines:
        if len(line.tokens) > 1 and line.tokens[1].kind == "number" and line.tokens[1].text in ("1", "2"):
            before = seen.setdefault(line.tokens[1].text, line.tokens[0].text)
            if before != line.tokens[0].text:
                yield line.tokens[0]


def _ordinal_before(tokens: Sequence[Token]) -> tuple[int, str]:
    """Return the place and the word of a line that opens with both: "The first piece is ...", "In the fourth piece"."""
    at = next((at for at, token in enumerate(tokens) if token.low not in _LEADING), len(tokens))
    if at + 1 >= len(tokens) or tokens[at].low not in _ORDINALS[:8] or tokens[at + 1].kind != "word":
        return 0, ""
    return _ORDINALS.index(tokens[at].low) + 1, tokens[at + 1].low


_LEADING = {"the", "in", "our", "now", "then", "and", "for", "on"}


def _read(tokens: Sequence[Token], words: set[str], plurals: set[str]) -> tuple[Token, ...]:
    done = []
    for at, token in enumerate(tokens):
        last = at + 1
        while last < len(tokens) and (tokens[last].low in _NUMBERS or (last > at + 1 and tokens[last].text == ".")):
            last += 1
        after = tokens[last] if last < len(tokens) else None
        before = tokens[at - 1] if at else None
        numbered = (after is not None and count_told(after) is not None) or (
            before is not None and before.low in _ORDINALS
        )
        if token.low in words | plurals and numbered:
            token = replace(token, low="sections" if token.low in plurals - words else "section")
        done.append(token)
    return tuple(done)
