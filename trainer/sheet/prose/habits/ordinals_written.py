"""Ordinals as they are written elsewhere: "1a wall", "2ª wall", "3. wall", "4e wall" are the 1st to the 4th.

So they are in an older manner, behind what they number: "after Figure the Third", "phrase the fourth".
Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ENDS = {"a", "ª", "º", "°", "e", "o", "de", "ème", "eme", "er", "ste", ".", "ra", "da", "ta"}
_NUMBERED = {"figure", "phrase", "section", "part", "set", "block", "verse", "movement", "strain", "eight"}
"""What a sheet of the older manner numbers."""
_WALLS = {"wall", "walls", "round", "time", "repetition"}
_HIGHEST = 24
_INSIDE = 3
"""So far inside a line no number is that of the line."""
_PADDING = tuple(Token("word", "in", "in", 0, 0) for _ in range(_INSIDE))
_HEAD = 3
"""Tokens of a heading by an ordinal: "Figure the Third"."""


def with_ordinals(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, the ordinals before a word for a wall as English writes them, behind a noun as numbers."""
    dotted = any(_dotted(line.tokens, at) for line in lines for at in range(2, len(line.tokens) - 1))
    told = [
        replace(line, tokens=tuple(_told(line.tokens, at, dotted=dotted) for at in range(len(line.tokens))))
        for line in lines
    ]
    told = [replace(line, tokens=_at_the_head(line.tokens)) for line in told]
    return [replace(line, tokens=tuple(_in_front(line.tokens))) for line in told]


def _at_the_head(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens of a heading with its ordinal first: "FIGURE THE FIRST. Waltz" as "First figure. Waltz"."""
    noun, the, ordinal = [*(token.low for token in tokens[:3]), "", "", ""][:3]
    parted = len(tokens) == _HEAD or (len(tokens) > _HEAD and tokens[_HEAD].text in (".", ":", ",", "-"))
    if noun in _NUMBERED and the == "the" and ordinal in ORDINALS and parted:
        return (tokens[2], tokens[0], *tokens[_HEAD:])
    return tokens


def _in_front(tokens: Sequence[Token]) -> Iterator[Token]:
    """Yield tokens, "figure the third" and "figures the third and fourth" by their numbers, but for a heading."""
    named = False
    said = next((at for at, token in enumerate(tokens) if token.kind != "mark"), 0)
    for at, token in enumerate(tokens):
        before = tokens[at - 1].low if at else ""
        after = tokens[at + 1].low if at + 1 < len(tokens) else ""
        if token.low == "the" and after in ORDINALS and at > said + 1 and before.removesuffix("s") in _NUMBERED:
            named = True
        elif token.low in ORDINALS and named:
            number = str(ORDINALS[token.low])
            yield replace(token, kind="number", text=number, low=number, value=None)
        else:
            named = named and token.low in ("and", ",", "to", "&")
            yield token


def _dotted(tokens: Sequence[Token], at: int) -> bool:
    """Whether a stop inside a sentence makes an ordinal of the number before it: "after 2. and 4. wall"."""
    if tokens[at].text != "." or not tokens[at].glued or tokens[at - 1].kind != "number" or at < _INSIDE:
        return False
    while at + 1 < len(tokens) and tokens[at + 1].low in ("and", "&", ",", "or"):
        at += 2
        if at + 1 >= len(tokens) or tokens[at].kind != "number":
            return False
        at += tokens[at + 1].text == "."
    return at + 1 < len(tokens) and tokens[at + 1].low in _WALLS and tokens[at + 1].text.islower()


def _told(tokens: Sequence[Token], at: int, *, dotted: bool) -> Token:
    token = tokens[at]
    if dotted and at and at + 1 < len(tokens) and _dotted((*_PADDING, *tokens), at + len(_PADDING)):
        return replace(token, kind="word", text="th", low="th")
    if not at or token.low not in _ENDS or not token.glued or at + 1 >= len(tokens):
        return token
    number, wall = tokens[at - 1], tokens[at + 1]
    numbered = number.kind == "number" and number.text.isdecimal() and 0 < int(number.text) <= _HIGHEST
    after = tokens[at + 2] if at + 2 < len(tokens) else None
    named = wall.low in _WALLS and not (after is not None and after.kind == "number")
    # "1. Wall 3 restarts" numbers its line.
    alone = token.text != "." or (wall.text.islower() and (after is None or after.kind == "mark"))
    # "3. Wall: 24 counts" is the third; "1. Walls: 4" numbers its line.
    alone = alone or (wall.low in ("wall", "round", "repetition") and after is not None and after.text == ":")
    return replace(token, kind="word", text="th", low="th") if numbered and named and alone else token
