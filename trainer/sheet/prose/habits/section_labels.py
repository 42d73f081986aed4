"""Labels that head the sections of a sheet, "(a)", "b)", "(ii)", "Fig. 3", "Line B", told as "section 2".

Such labels are known by their order alone: they open lines that steps follow, counted from 1, and each is the next
one. What is written like them in a line about the order is the section. Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import ROMAN, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.page.kinds import speaks_of_parts
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_STRIPPED = re.compile(r"^\s*(\(?)([a-h])[).]\s+$", re.IGNORECASE)
"""A label that was taken off the line as a bullet."""
_LETTERS = "abcdefgh"
_OPENERS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_LEAST = 3
_SURE = 1.4
"""The strength of counts that stand behind their words, in brackets or in a cell of their own."""
_HIGHEST = 12
_NAME = 6
"""Tokens in which a label that heads an extra names it; "weight ending on left" ends some steps."""
_PLACES = {
    "after", "of", "in", "before", "from", "through", "until", "to", "till", "between", "and", "&", "+", ",", "-", "do",
    "dance", "then", "only", "just", "with", "is", ":", "including", "into", "plus", "end", "start", "as", "=",
    "number", "numbers",
}  # fmt: skip
"""Before these a number in round brackets is a section, and no count."""
_JOINS = {",", "-", "&", "+", "and", "with", "is"}
_JOINED_LETTERS = {"and", "&", "+", ",", "-", "to", "plus", "with", "is", "as", "=", "till", "until", "through"}
"""Before these a small letter is a section only where another stands before it; else it may be a word, or a step."""
_WALLS = {"w", "wall"}
_ROW_SIGNS = {BREAK, ":", ")"}
_SURE_PLACES = {"after", "before", "between"}
_BARE = " letter"
_SMALL = " small letter"
_ROMAN = " roman"
_ROMAN_ENDS = (BREAK, ".", ":", "-")
"""A numeral that heads a section stands alone, or before one of these."""
_COUNT_DOTS = (".", "/", ":")
"""These may part a section's numeral from a count of it: "ii.4", "iv/4"."""
_COUNT_JOINS = ("-", "&", "and", "to")
_LISTED = {
    "only",
    "and",
    "&",
    "to",
    "then",
    "till",
    "until",
    "+",
    "-",
    ",",
    ".",
    ";",
    ")",
    "(",
    "on",
    "in",
    "during",
    "when",
}
"""After these a bare letter may name a section."""
_LISTED_SMALL = {*_LISTED, ":", "as", "again", "once", "twice", "alone", "before", "|"}
"""After these a small one may, too."""
_NO_WORDS = {
    "count", "counts", "ct", "cts", "beat", "beats", "bar", "bars", "wall", "walls", "page", "no", "nr", "part", "w",
    "tag", "sec", "sect", "section", "approx", "p", "pg", "step", "steps", "the", "and", "or", "then", "from", "after",
    "of", "in", "with", "parts", *SONG_PARTS, *STEP_WORDS,
}  # fmt: skip
"""Short forms before a number that label no section, or are read as they are."""


class _Label(NamedTuple):
    """A label: how it is written, its place in the series, and the token after it."""

    dress: str
    number: int
    end: int


def with_section_labels(lines: Sequence[Line], *, worded: bool = False) -> tuple[Line, ...]:
    """Return the lines with the labels of sections, and what is written like them in the order, told as sections.

    With `worded` only those are that have a word before their number, "Fig. 3".

    Bare letters may be the parts of a phrased dance: they are sections where no line speaks of parts.
    """
    parts = speaks_of_parts(lines)
    labels = {at: label for at, line in enumerate(lines) if (label := _head(line)) and _heads_steps(lines, at, label)}
    for dress in dict.fromkeys(label.dress for label in labels.values()):
        heads = {at: label for at, label in labels.items() if label.dress == dress}
        if [label.number for label in heads.values()] == list(range(1, len(heads) + 1)) and len(heads) >= _LEAST:
            if (parts and dress.endswith(_BARE)) or (worded and not dress.isalpha()):
                continue
            return tuple(
                replace(line, tokens=_as_head(line.tokens, heads[at]))
                if at in heads
                else replace(line, tokens=_told(line.tokens, dress, len(heads), more=_goes_on(lines, at)))
                for at, line in enumerate(lines)
            )
    return tuple(lines)


def _head(line: Line) -> _Label | None:
    """Return the label that opens a line."""
    if stripped := _STRIPPED.match(line.source[: line.indent]):
        return _Label(f"{stripped[1]}letter)", _LETTERS.index(stripped[2].lower()) + 1, 0)
    return _label(line.tokens, 0)


def _label(tokens: Sequence[Token], at: int) -> _Label | None:
    """Return the label at a token."""
    said = tokens[at : at + 3]
    if bare := _bare(said, opens=at == 0) or _small(said, opens=at == 0):
        return bare._replace(end=at + bare.end)
    if roman := _roman(said, opens=at == 0):
        return roman._replace(end=at + roman.end)
    if len(said) < 2:
        return None
    if len(said) > 2 and said[1].text == "." and said[1].glued and said[2].kind == "number":
        word = said[0].low.removesuffix("s")
        fits = said[0].kind == "word" and len(word) > 1 and said[0].low not in _NO_WORDS
        return _Label(word, int(said[2].text), at + 3) if fits and len(said[2].text) < 3 else None
    opens = said[0].text in _OPENERS
    value = said[1:] if opens else said
    closed = value[1].text if len(value) > 1 else ""
    kind, number = _value(value[0])
    if not number or closed != (_OPENERS[said[0].text] if opens else ")"):
        return None
    return _Label(f"{said[0].text if opens else ''}{kind}{closed}", number, at + 2 + opens)


def _bare(said: Sequence[Token], *, opens: bool) -> _Label | None:
    """Return a label that is a capital letter, alone or after the word for a section: "B.", "B", "Line B"."""
    noun = _noun(said[0]) if said else ""
    letter = said[bool(noun) : bool(noun) + 1]
    if not letter or letter[0].text not in _LETTERS.upper() or len(letter[0].text) > 1:
        return None
    after = said[1 + bool(noun) : 2 + bool(noun)]
    if opens and after and after[0].text not in ".:-":
        return None
    if after and after[0].kind == "number" and after[0].glued:
        return None
    return _Label(f"{noun}{_BARE}", _LETTERS.upper().index(letter[0].text) + 1, 1 + bool(noun))


def _noun(token: Token) -> str:
    """Return the word that may stand for a section before its letter, singular; none that has its own use."""
    noun = token.low.removesuffix("s")
    return noun if token.kind == "word" and len(noun) > 2 and not {noun, token.low} & _NO_WORDS else ""


def _small(said: Sequence[Token], *, opens: bool) -> _Label | None:
    """Return a label that is a small letter alone among words: "between b and c"."""
    if opens or not said or said[0].kind != "word" or said[0].glued or said[0].text not in tuple(_LETTERS):
        return None
    if len(said) > 1 and (said[1].text == ")" or (said[1].glued and said[1].kind == "number")):
        return None
    return _Label(_SMALL, _LETTERS.index(said[0].text) + 1, 1)


def _is_placed(tokens: Sequence[Token], at: int) -> bool:
    """Whether a small letter stands where a place is told, or goes on with letters that do: "after b", "then c, d"."""
    before = tokens[at - 1].low if at else ""
    after = tokens[at + 1].low if at + 1 < len(tokens) else "."
    if before in _SURE_PLACES and tokens[at].text != "a":
        return True
    if before not in _PLACES or after not in _LISTED_SMALL:
        return False
    joined = before in _JOINED_LETTERS
    return not joined or (at > 1 and tokens[at - 2].text in tuple(_LETTERS) and _is_placed(tokens, at - 2))


def _roman(said: Sequence[Token], *, opens: bool) -> _Label | None:
    """Return a label that is a Roman numeral without brackets: "iv ..... weave", "II. Locks"."""
    number = ROMAN.get(said[0].low, 0) if said and said[0].text in (said[0].low, said[0].text.upper()) else 0
    after = said[1] if len(said) > 1 else None
    if not number or (after is not None and after.text == ")"):
        return None
    if opens and after is not None and after.text not in _ROMAN_ENDS:
        return None
    return _Label(_ROMAN, number, 1 + (opens and after is not None and after.text in (BREAK, ".")))


def _value(token: Token) -> tuple[str, int]:
    if token.kind == "number" and len(token.text) < 3:
        return "number", int(token.text)
    if token.low in ROMAN:
        return "roman", ROMAN[token.low]
    if len(token.low) == 1 and token.low in _LETTERS:
        return "letter", _LETTERS.index(token.low) + 1
    return "", 0


def _heads_steps(lines: Sequence[Line], at: int, label: _Label) -> bool:
    """Whether steps counted from 1 follow a label, in its line or the next, and it names no extra."""
    rest = lines[at].tokens[label.end if label.end else 0 :]
    # "Station A: warm-up", "Station E: the finish" are titles of what the label numbers.
    titles = ("intro", "ending") if label.dress.endswith(_BARE) and label.dress != _BARE else ()
    if label.number > _HIGHEST or extra_kind(rest[:_NAME]) not in (None, *titles) or is_order(rest):
        return False
    own = marks_in(rest, 0)
    below = marks_in(lines[at + 1].tokens, 0, 3)[:1] if at + 1 < len(lines) else []
    marks = [*own[:1], *(mark for mark in below if mark.first == 0 or mark.strength >= _SURE)]
    return any(mark.start.number == 1 for mark in marks)


def _as_head(tokens: tuple[Token, ...], label: _Label) -> tuple[Token, ...]:
    rest = tokens[label.end :]
    colon = replace(tokens[0], kind="mark", text=":", low=":", glued=True)
    return (*_section(tokens[0], label.number), *(() if rest and rest[0].kind == "mark" else (colon,)), *rest)


def _section(place: Token, number: int) -> tuple[Token, Token]:
    word = replace(place, kind="word", text="section", low="section")
    return word, replace(word, kind="number", text=str(number), low=str(number), glued=False)


def _told(tokens: Sequence[Token], dress: str, most: int, *, more: bool) -> tuple[Token, ...]:
    """Return the tokens of a line about the order, or of `more` of one, with what is written as the labels are."""
    told = tuple(_with_sections(tokens, dress, most))
    return told if more or is_order(told) else tuple(tokens)


def _goes_on(lines: Sequence[Line], at: int) -> bool:
    """Whether a line goes on in small letters with what the line above it tells of the order."""
    before, line = lines[at - 1 : at], lines[at]
    small = line.tokens[0].kind == "word" and line.tokens[0].text.islower()
    open_ended = bool(before) and before[0].tokens[-1].text not in ".:;!?"
    return small and open_ended and line.number == before[0].number + 1 and is_order(before[0].tokens)


def _with_sections(tokens: Sequence[Token], dress: str, most: int) -> Iterator[Token]:
    """Yield the tokens of a line, each label among them as a section."""
    at = 0
    while at < len(tokens):
        label = _label(tokens, at)
        if label is not None and _names_one(tokens, at, label, dress, most):
            yield from _section(tokens[at], label.number)
            at = label.end
            if dress == _ROMAN:
                counts, at = _counts_of_it(tokens, at)
                yield from counts
        else:
            yield _plural(tokens, at, dress)
            at += 1


def _counts_of_it(tokens: Sequence[Token], at: int) -> tuple[list[Token], int]:
    """Return the counts that stand right behind a section's numeral told as such, "iv 4", "vi 7 8", and their end."""
    first = at + (len(tokens) > at + 1 and tokens[at].text in _COUNT_DOTS)
    told: list[Token] = []
    end = first
    while end < len(tokens) and _is_count(tokens[end]):
        dash = replace(tokens[end], kind="mark", text="-", low="-", glued=True)
        told += [dash, tokens[end]] if told and _is_count(told[-1]) else [replace(tokens[end], glued=False)]
        end += 1
        if len(tokens) > end + 1 and tokens[end].text in _COUNT_JOINS and _is_count(tokens[end + 1]):
            told.append(tokens[end])
            end += 1
    count = replace(tokens[at - 1], kind="word", text="count", low="count", glued=False)
    return ([count, *told], end) if told else ([], at)


def _is_count(token: Token) -> bool:
    return token.kind == "number" and len(token.text) == 1


def _names_one(tokens: Sequence[Token], at: int, label: _Label, dress: str, most: int) -> bool:
    """Whether a label inside a line is one of the sheet's sections, and no count or letter of another kind."""
    before = tokens[at - 1].low if at else ""
    after = tokens[label.end].low if label.end < len(tokens) else "."
    if label.dress == _SMALL:
        return "letter" in dress and not dress.endswith(_BARE) and label.number <= most and _is_placed(tokens, at)
    if label.dress == _BARE and (dress.endswith(_BARE) or "letter" in dress):
        return bool(at) and before in _PLACES and after in _LISTED and label.number <= most + 1
    if dress == label.dress == _ROMAN:
        # A single letter may be a word of its own, "I", or a step, "x".
        followed = after.isdecimal() or after in _COUNT_DOTS or after in _LISTED
        if _goes_up(tokens, at) or (at and _goes_up(tokens, at - 1)) or (_opens_row(tokens, at) and followed):
            return True
        return before in _PLACES if len(tokens[at].text) > 1 else before in _PLACES - _JOINS and followed
    if dress == "number)" and sum(one.text == "(" for one in tokens[:at]) > sum(one.text == ")" for one in tokens[:at]):
        # "(the walks on 3 and 4)".
        return False
    return label.dress == dress and label.number <= _HIGHEST and ("number" not in dress or before in _PLACES)


def _goes_up(tokens: Sequence[Token], at: int) -> bool:
    """Whether two numerals in capitals stand side by side in order: "I II III"."""
    pair = [ROMAN.get(token.low, 0) if token.text.isupper() else 0 for token in tokens[at : at + 2]]
    return len(pair) > 1 and 0 < pair[0] == pair[1] - 1


def _opens_row(tokens: Sequence[Token], at: int) -> bool:
    """Whether a numeral in capitals stands right behind the wall of a row and its facing: "w7  from 12  I only"."""
    before = tokens[at - 1] if at else None
    walled = tokens[0].low in _WALLS and tokens[at].text.isupper()
    return bool(walled and before and (before.kind in ("number", "clock", "facing") or before.text in _ROW_SIGNS))


def _plural(tokens: Sequence[Token], at: int, dress: str) -> Token:
    """Return a token; the word of several labels as that of several sections: "figs 1 to 4"."""
    noun = dress.removesuffix(_BARE)
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if not noun or tokens[at].low not in (noun, f"{noun}s") or after is None or after.text == ".":
        return tokens[at]
    word = "sections" if tokens[at].low == f"{noun}s" else "section"
    return replace(tokens[at], text=word, low=word)
