"""Moves of a number whose sides are told after it: "four sways, right, left, right, left" is sway right, sway left ...

Only where the sides are as many as the number says; otherwise the words stay.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import NUMBERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_MOVES = {
    "sways": "sway", "stomps": "stomp", "walks": "walk", "stamps": "stomp", "bumps": "bump", "kicks": "kick",
    "taps": "tap", "points": "point", "rocks": "rock",
}  # fmt: skip
_SIDES = frozenset({"left", "right", "l", "r"})
_BETWEEN = frozenset({",", "and", "&", "-", "/", "then"})
_BEFORE = frozenset({",", ":", "-", "("})
_THAT_IS = ["i", ".", "e", "."]
_WAITS = frozenset({"hold", "wait", "pause"})
_ENDS = frozenset({",", ".", ";", "!", ")"})
_NAME = 4
"""Tokens of a line that name an extra."""
_MOST = 8


def with_sides(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each side told as a move of its own."""
    return tuple(_with_sides(_with_counts(_with_brackets(line))) for line in lines)


def _with_brackets(line: Line) -> Line:
    """Return a line with "(30 counts)" for ", i.e. 30 counts": the place again that was just told in words."""
    tokens = line.tokens
    at = next((at for at in range(len(tokens) - 5) if [token.low for token in tokens[at : at + 4]] == _THAT_IS), 0)
    if (
        not at
        or (tokens[at + 4].low not in NUMBERS and tokens[at + 4].kind != "number")
        or tokens[at + 5].low != "counts"
    ):
        return line
    opens = replace(tokens[at], kind="mark", text="(", low="(")
    closes = replace(tokens[at + 5], kind="mark", text=")", low=")", glued=True)
    before = tokens[: at - 1] if tokens[at - 1].text == "," else tokens[:at]
    return replace(line, tokens=(*before, opens, *tokens[at + 4 : at + 6], closes, *tokens[at + 6 :]))


def _with_counts(line: Line) -> Line:
    """Return a line that tells an extra without counts, "hold 2 counts" for "then hold for two": it is no count."""
    tokens = line.tokens
    if extra_kind(tokens[:_NAME]) is None or any(_counts(*pair) for pair in pairwise(tokens)):
        return line
    short = [
        at
        for at in range(2, len(tokens))
        if tokens[at].low in NUMBERS
        and tokens[at - 1].low == "for"
        and tokens[at - 2].low in _WAITS
        and (at + 1 == len(tokens) or tokens[at + 1].text in _ENDS)
    ]
    if not short:
        return line
    done: list[Token] = []
    for at, token in enumerate(tokens):
        if at + 1 in short or (at + 3 in short and token.low in ("then", "and")):
            continue
        number = str(NUMBERS[token.low]) if at in short else ""
        done.append(replace(token, kind="number", text=number, low=number) if number else token)
        if number:
            done.append(replace(token, text="counts", low="counts", glued=False))
    return replace(line, tokens=tuple(done))


def _counts(word: Token, number: Token) -> bool:
    """Whether a step is tied to its count in words: "on one"."""
    return word.low == "on" and (number.kind == "number" or number.low in NUMBERS)


def _with_sides(line: Line) -> Line:
    if not any(token.low in _MOVES for token in line.tokens):
        return line
    done: list[Token] = []
    at = 0
    while at < len(line.tokens):
        told, last = _told(line.tokens, at)
        done += told
        at = last
    return replace(line, tokens=tuple(done)) if len(done) != len(line.tokens) else line


def _told(tokens: Sequence[Token], at: int) -> tuple[list[Token], int]:
    """Return what is told from an index on, and the index after it: one token, or the moves with their sides."""
    plain = [tokens[at]], at + 1
    many = NUMBERS.get(tokens[at].low, 0)
    hips = at + 1 < len(tokens) and tokens[at + 1].low in ("hip", "hips")
    named = at + 1 + hips
    if not 1 < many <= _MOST or named + 1 >= len(tokens) or tokens[named].low not in _MOVES:
        return plain
    place = named + 1
    if tokens[place].text not in _BEFORE:
        return plain
    place += 1
    sides: list[Token] = []
    while place < len(tokens) and len(sides) < many:
        if tokens[place].low in _SIDES:
            sides.append(tokens[place])
        elif tokens[place].low not in _BETWEEN or not sides:
            return plain
        place += 1
    if len(sides) < many or (tokens[named + 1].text == "(" and (place >= len(tokens) or tokens[place].text != ")")):
        return plain
    place += tokens[named + 1].text == "("
    move = tokens[named]
    word = _MOVES[move.low]
    told: list[Token] = []
    for side in sides:
        told += [replace(move, text=word, low=word, line=side.line, column=side.column), side]
        told.append(replace(side, kind="mark", text=",", low=",", glued=True))
    if hips:
        told = [
            token
            for one in told
            for token in ((replace(one, text="hip", low="hip"), one) if one.low == word else (one,))
        ]
    return told[:-1], place
