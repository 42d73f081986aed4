"""Headings of a phrased dance that name a part and number its section, in whatever marks: "<A/1>", ":: A first ::".

Such lines are known by their order alone: a letter and a number open them, and each is the next of its part or the
first of another. All are read as "A1", and so is each of these names elsewhere, however it is written.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import NamedTuple

from trainer.sheet.prose.counts.scan import NOT_AFTER, NUMBERS
from trainer.sheet.prose.lexis.vocabulary import EIGHT_PLACES, ROMAN
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LETTERS = set("abcdefgh")
_PLACES = ("st", "nd", "rd", "th")
_BETWEEN = {"/", "-", ".", "_", ":", ",", "no", "section", "eight", "#"}
"""What may part the letter of a part from the number of its section."""
_CLOSING = set(">])}|/~*:=\"'_-.,#") | {"•", "+"}
_SIGNED = ("~", "A", "~")
_CLOSES = {sign: sign for sign in "~*=-_#|:/"} | {"[": "]", "{": "}", "<": ">", "(": ")"}
_GOING_ON = {"-", "&", "and", "to", ","}
_COUNTED_ON = [2, 3, 4]
"""Numbers behind the first count of a line that counts its steps."""
_FEWEST = 2
"""Parts of a phrased dance."""
_RANGE = 5
"""Tokens of counts in brackets: "(9-16)"."""
_SHARE = 6
"""Tokens behind an ordinal in which the part is named that it tells a share of."""
_HIGHEST = 8
_LEAST = 3


class _Label(NamedTuple):
    """The name of a section: its part, its number in it, and the token after it."""

    letter: str
    number: int
    end: int


def with_part_labels(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with the names of sections, and of their parts, told as "A1"."""
    lines, heads = _said_once(lines)
    if not _are_in_order(list(heads.values())):
        # "B.1, B.2 to the sailor" under the last of them names its section, and heads none.
        heads = _in_order(heads)
    if not _are_in_order(list(heads.values())):
        heads = _by_their_place(lines)
    if not _are_in_order(list(heads.values())):
        return tuple(lines)
    names = {(label.letter, label.number) for label in heads.values()}
    margin = min(line.indent for line in lines)
    return tuple(
        replace(line, tokens=_as_head(line.tokens, heads[at]), indent=margin, source=_source(line, heads[at]))
        if at in heads
        else replace(line, tokens=_named(line.tokens, names))
        for at, line in enumerate(lines)
    )


def _source(line: Line, label: _Label) -> str:
    """Return the source of a line that a label heads; none where its counts in brackets stand beside it: no columns."""
    return "" if _is_range(line.tokens[label.end : label.end + _RANGE]) else line.source


def _is_range(tokens: Sequence[Token]) -> bool:
    said = [token.text for token in tokens]
    return len(said) == _RANGE and said[0] in "([" and said[2] == "-" and said[1].isdecimal() and said[3].isdecimal()


def _lone(lines: Sequence[Line], heads: Mapping[int, _Label]) -> dict[int, _Label]:
    """Return the letters that alone, and parted from their steps, head the parts below those with numbered sections."""
    found: dict[int, _Label] = {}
    for at, line in enumerate(lines):
        said = line.tokens[: 2 + (line.tokens[0].low == "part")]
        letter = said[-2] if len(said) > 1 else said[0]
        parted = said[-1].text in (BREAK, ":", ".", "-", ")") and len(line.tokens) > len(said)
        due = chr(ord("A") + len({label.letter for label in (*heads.values(), *found.values())}))
        if at > min(heads) and letter.text == due and parted:
            found[at] = _Label(due, 1, len(said))
    return found


def _by_their_place(lines: Sequence[Line]) -> dict[int, _Label]:
    """Return the labels of sections that only name their part, between signs: "~A~ Walks", "~A~ Rocks", "~B~ Sways"."""
    found: dict[int, _Label] = {}
    told: dict[str, int] = {}
    for at, line in enumerate(lines):
        said = [token.text for token in line.tokens[:3]]
        alone = len(said) == len(_SIGNED) and said[0] in _CLOSES and said[2] == _CLOSES[said[0]]
        # "| A | 1-4 | ..." is a row of a table, whose first column names the part.
        alone = alone and not (said[0] == BREAK and [one.kind for one in line.tokens[3:4]] == ["number"])
        if alone and said[1].isupper() and said[1].lower() in _LETTERS:
            told[said[1]] = told.get(said[1], 0) + 1
            found[at] = _Label(said[1], told[said[1]], len(_SIGNED))
    return found if max(told.values(), default=0) > 1 else {}


def _said_once(lines: Sequence[Line]) -> tuple[tuple[Line, ...], dict[int, _Label]]:
    """Return the lines and the labels that head them; a label that rows of a table say again and again, once."""
    heads = {at: label for at, line in enumerate(lines) if (label := _head(line.tokens)) is not None}
    if len(heads) > 1 and len({label.letter for label in heads.values()}) < _FEWEST:
        # "A1", "A2" and then "B", which has but one section.
        heads = dict(sorted({**_lone(lines, heads), **heads}.items()))
    again = {
        at
        for (above, before), (at, label) in pairwise(heads.items())
        if at == above + 1 and _in_a_cell(lines[at], label) and before[:2] == label[:2]
    }
    first = {at: label for at, label in heads.items() if at not in again}
    if not again or not _are_in_order(list(first.values())):
        return tuple(lines), heads
    cut = (
        replace(line, tokens=_blank(line.tokens, heads[at])) if at in again else line for at, line in enumerate(lines)
    )
    return tuple(cut), first


def _in_a_cell(line: Line, label: _Label) -> bool:
    """Whether a label stands in a cell of its own."""
    return any(token.text == BREAK for token in line.tokens[label.end - 1 : label.end + 1])


def _blank(tokens: tuple[Token, ...], label: _Label) -> tuple[Token, ...]:
    """Return the tokens of a row with the cell of its label empty."""
    return tuple(token for at, token in enumerate(tokens) if at >= label.end or token.text == BREAK)


def _in_order(heads: Mapping[int, _Label]) -> dict[int, _Label]:
    """Return the labels up to the first that is told again."""
    kept: dict[int, _Label] = {}
    for at, label in heads.items():
        if (label.letter, label.number) in {(one.letter, one.number) for one in kept.values()}:
            break
        kept[at] = label
    return kept


def _are_in_order(labels: Sequence[_Label]) -> bool:
    """Whether labels name the sections of two parts or more, each the next one of its part or the first of another."""
    if len(labels) < _LEAST or len({label.letter for label in labels}) < 2 or labels[0].number != 1:
        return False
    return all(
        after.number == 1 if after.letter != before.letter else after.number == before.number + 1
        for before, after in pairwise(labels)
    )


def _head(tokens: Sequence[Token]) -> _Label | None:
    """Return the name of a section that opens a line, behind marks around it."""
    at = next((at for at, token in enumerate(tokens) if token.kind != "mark"), len(tokens))
    label = _label(tokens, at)
    if label is None:
        return None
    end = label.end
    after = tokens[end : end + 1]
    if tokens[end - 1].low in (*EIGHT_PLACES, *_PLACES) and after and after[0].kind != "mark":
        return None  # "A, first eight" numbers eights, which are known as they are
    if _begins_counts(tokens, end):
        return None
    while end < len(tokens) and tokens[end].text in _CLOSING and not _parts_words(tokens, end):
        end += 1
    return label._replace(end=end)


def _begins_counts(tokens: Sequence[Token], at: int) -> bool:
    """Whether the number before a token is the first of some counts, and no section's: "A.  1-4 walk", "B: 1 side"."""
    numbers = [int(token.text) for token in tokens[at:] if token.kind == "number" and token.text.isdecimal()]
    if tokens[at - 1].text == "1" and numbers[: len(_COUNTED_ON)] == _COUNTED_ON:
        return True
    if at + 1 >= len(tokens) or tokens[at].low not in _GOING_ON or tokens[at + 1].kind != "number":
        return False
    return at + 2 == len(tokens) or tokens[at + 2].low not in NOT_AFTER


def _parts_words(tokens: Sequence[Token], at: int) -> bool:
    """Whether a full stop parts a name from what is told in its line: "A2. Turn a quarter left"."""
    return tokens[at].text == "." and at + 1 < len(tokens) and tokens[at + 1].kind == "word"


def _label(tokens: Sequence[Token], at: int) -> _Label | None:
    """Return the name of a section at a token: "A/1", "A first", "first of A", "1A"."""
    number, end = _number(tokens, at)
    if number and [token.low for token in tokens[end : end + 1]] == ["of"]:
        letter = _letter(tokens, end + 1)
        return _Label(letter, number, end + 2) if letter else None
    if number and end < len(tokens) and tokens[end].glued and tokens[end].text.isupper() and _letter(tokens, end):
        return _Label(_letter(tokens, end), number, end + 1)
    letter = _letter(tokens, at)
    if not letter:
        return None
    at += 1
    while at < len(tokens) and tokens[at].low in _BETWEEN:
        at += 1
    number, end = _number(tokens, at)
    if number and tokens[at].kind == "word" and end < len(tokens) and tokens[end].kind == "number":
        return None  # "A, first 16 counts" tells how much of A is danced
    if number and tokens[at].kind == "word" and _is_of_the_next(tokens, end):
        return None  # "B, first half of A" tells how much of A is danced
    return _Label(letter, number, end) if number else None


def _is_of_the_next(tokens: Sequence[Token], at: int) -> bool:
    """Whether the words behind an ordinal make it a share of the next letter: "half of A", "two eights of A"."""
    ahead = tokens[at : at + _SHARE]
    of = next((on for on, token in enumerate(ahead) if token.kind == "mark" or token.low == "of"), len(ahead))
    if [token.low for token in ahead[of : of + 1]] == ["of"]:
        return bool(_letter(tokens, at + of + 1 + (ahead[of + 1 : of + 2] != () and ahead[of + 1].low == "part")))
    return [token.low for token in ahead[:1]] == ["half"] and bool(_letter(tokens, at + 1))


def _letter(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].low.upper() if at < len(tokens) and tokens[at].low in _LETTERS else ""


def _number(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the number of a section at a token, and the token after it; 0 where none stands."""
    if at >= len(tokens):
        return 0, at
    token, end = tokens[at], at + 1
    value = EIGHT_PLACES.get(token.low) or NUMBERS.get(token.low) or ROMAN.get(token.low) or 0
    if token.kind == "number":
        value = int(token.text)
        if end < len(tokens) and tokens[end].low in _PLACES and tokens[end].glued:
            end += 1
    return (value, end) if value <= _HIGHEST else (0, at)


def _as_head(tokens: tuple[Token, ...], label: _Label) -> tuple[Token, ...]:
    letter, number = _name(label, tokens[0])
    if tokens[0].text == tokens[label.end - 1].text == BREAK:
        return (tokens[0], letter, number, *tokens[label.end - 1 :])  # a row between strokes keeps its cells
    # No gap may seem to stand where only the marks of the label stood: "A1: side".
    last = tokens[label.end - 1]
    rest = tokens[label.end :]
    rest = rest[1:] if rest[:1] and rest[0].text == BREAK else rest
    colon = replace(last, kind="mark", text=":", low=":", glued=True)
    if _is_range(rest[:_RANGE]) and len(rest) > _RANGE and rest[_RANGE].text != BREAK:
        rest = (*rest[:_RANGE], replace(colon, text=BREAK, low=BREAK, glued=False), *rest[_RANGE:])
    parted = not rest or (rest[0].kind == "mark" and rest[0].text not in ("(", "[", "{", "<", "*"))
    return (letter, replace(number, column=last.column), *(() if parted else (colon,)), *rest)


def _named(tokens: tuple[Token, ...], names: set[tuple[str, int]]) -> tuple[Token, ...]:
    """Return tokens with each name of a section as "A1"; a bare "A 1" may be anything and stays."""
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        label = _label(tokens, at)
        if label is not None and (label.letter, label.number) in names and _is_name(tokens[at : label.end + 1]):
            done += _name(label, tokens[at])
            at = label.end
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)


def _is_name(tokens: Sequence[Token]) -> bool:
    """Whether tokens that may be a name, and the one after them, are one: not "A: 4 x 8 counts", not "A 1"."""
    said, after = (tokens[:-1], tokens[-1]) if len(tokens) > 2 else (tokens, None)
    of = any(token.low == "of" for token in said)
    if len(said) > 1 and said[-1].kind == "word" and said[-1].text[0].isupper() and said[-2].text == ".":
        return False  # "another B. One last A follows" ends a sentence
    letter = said[-1] if of else said[0]
    if not letter.text.isupper() or (after is not None and after.low in NOT_AFTER):
        return False
    return of or said[-1].kind == "word" or all(token.glued and token.text not in ":," for token in said[1:])


def _name(label: _Label, place: Token) -> tuple[Token, Token]:
    letter = replace(place, kind="word", text=label.letter, low=label.letter.lower())
    number = str(label.number)
    return letter, replace(letter, kind="number", text=number, low=number, glued=True)
