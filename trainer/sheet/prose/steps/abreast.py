"""A row of steps and a row of feet, told one after the other: "side, close, side, tap: R L R L".

Each foot belongs to the step that stands at its place in the other row. Only where both are as long, holds and claps
aside, and where no step of the row has a foot of its own; else the words stay.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.words import Token
from trainer.terms import Move

Read = Callable[[Sequence[Token]], Sequence[Lex]]
"""Words to lexemes."""

_FEET = {"r", "l", "right", "left", "rf", "lf"}
_PARTS_FEET = {",", "-", "/", "&", "and", "then"}
_HARD = {".", ";", ":", "(", ")", "[", "]", "|", "!", "?", "="}
_SOFT = {",", "-", "/", "&", "+", "and", "then", ">"}
_LEADS = {"with", "feet", "foot", "on", "as", "using", "going", "the", "by", "your"}
"""Words between both rows: "side, close, side, touch with R, L, R, L"."""
_FOOTLESS = {Move.HOLD, Move.CLAP, Move.SNAP}
_SAYS = {"move", "way", "part", "prep"}
_MAY = _SAYS | {"glue", "style", "amount", "turn"}
_LEAST = 2
_LEAST_APART = 3
"""Feet that let two words of a move and its way be two steps: "step back step kick"."""


def with_feet_abreast(tokens: tuple[Token, ...], read: Read) -> tuple[Token, ...]:
    """Return words with each foot of a row before its step of the row of steps beside it."""
    at = 0
    while at < len(tokens):
        feet, end = _bracketed(tokens, at) or _feet_at(tokens, at)
        if len(feet) < _LEAST:
            at = max(end, at + 1)
            continue
        if woven := _woven(tokens, at, end, feet, read):
            return woven
        at = end
    return tokens


def _feet_at(tokens: Sequence[Token], at: int) -> tuple[list[Token], int]:
    """Return the feet in a row from an index on, nothing but marks between them, and the index after them."""
    feet: list[Token] = []
    end = look = at
    while look < len(tokens):
        token = tokens[look]
        if token.low in _FEET:
            feet.append(token)
        elif token.kind == "word" and len(token.low) > 1 and set(token.low) <= {"r", "l"}:
            feet += [replace(token, text=letter, low=letter.lower()) for letter in token.text]
        elif not feet or token.low not in _PARTS_FEET:
            break
        else:
            look += 1
            continue
        look += 1
        end = look
    return feet, end


_GESTURES = {"touch", "tap", "kick", "brush", "scuff", "point", "hitch", "close", "step", "stomp", "touching"}


def _bracketed(tokens: Sequence[Token], at: int) -> tuple[list[Token], int] | None:
    """Return the feet of a bracket that names, at some, what they do: "side, close, side, touch (R, L, R, touch L)"."""
    close = next((look for look in range(at, len(tokens)) if tokens[look].text == ")"), 0)
    inside = tokens[at:close]
    if not at or tokens[at - 1].text != "(" or not any(token.low in _GESTURES for token in inside):
        return None
    feet, end = _feet_at([token for token in inside if token.low not in _GESTURES], 0)
    return (feet, close) if end == sum(token.low not in _GESTURES for token in inside) else None


def _woven(tokens: tuple[Token, ...], at: int, end: int, feet: Sequence[Token], read: Read) -> tuple[Token, ...]:
    """Return the words with a row of feet given to the row of steps before it, or after it; nothing where none is."""
    if end < len(tokens) and tokens[end].text not in _HARD | _SOFT and at:
        return ()
    last = at
    while last and (tokens[last - 1].low in _LEADS or tokens[last - 1].text in _SOFT | {":", "("}):
        last -= 1
    bracket = last < at and any(token.text == "(" for token in tokens[last:at])
    if bracket and [token.low for token in tokens[max(last - 3, 0) : last - 1]] == ["to", "the"]:
        # "Side, close, side, touch to the right (R, L, R, touch L)".
        last -= 3 * (tokens[last - 1].low in _FEET)
    first = last
    while first and tokens[first - 1].text not in _HARD and tokens[first - 1].kind != "number":
        first -= 1
    closes = end + (bracket and end < len(tokens) and tokens[end].text == ")")
    if row := _row(tokens[first:last], len(feet), read, apart=last < at):
        return (*tokens[:first], *_paired(feet, row), *tokens[closes:])
    if at and tokens[at - 1].text not in _HARD:
        return ()
    start = end + (end < len(tokens) and tokens[end].text in (":", "-", ")", ","))
    stop = next((look for look in range(start, len(tokens)) if tokens[look].text in _HARD), len(tokens))
    if start == end or not (row := _row(tokens[start:stop], len(feet), read, apart=True)):
        return ()
    opened = bool(at) and tokens[at - 1].text == "(" and tokens[end].text == ")"
    return (*tokens[: at - opened], *_paired(feet, row), *tokens[stop:])


def _row(words: tuple[Token, ...], many: int, read: Read, *, apart: bool) -> list[tuple[tuple[Token, ...], bool]]:
    """Return the steps of a row, each with whether it needs a foot, where those that do are so many."""
    if not words or any(token.low in _FEET or token.kind not in ("word", "mark", "amp", "fraction") for token in words):
        return []
    whole = [lex for lex in read(words) if lex.kind not in ("glue", "style")]
    if len(whole) < _LEAST:
        # A figure's name, or one step: its feet are its own.
        return []
    ways = [_at_marks(words), _at_words(words, read, merged=True)]
    if many >= _LEAST_APART:
        ways.append(_at_words(words, read, merged=False))
    for steps in ways if apart or not any(token.text in _SOFT for token in words) else ():
        told = [_told(step, read) for step in steps]
        if len(steps) > 1 and None not in told and sum(map(bool, told)) == many:
            return [(step, bool(one)) for step, one in zip(steps, told, strict=True)]
    return []


def _at_marks(words: Sequence[Token]) -> list[tuple[Token, ...]]:
    """Return the words parted at their marks."""
    steps: list[list[Token]] = [[]]
    for token in words:
        if token.text in _SOFT:
            steps.append([])
        else:
            steps[-1].append(token)
    return [tuple(step) for step in steps if step]


def _at_words(words: Sequence[Token], read: Read, *, merged: bool) -> list[tuple[Token, ...]]:
    """Return each word as a step, a way with the move before it as one where they are `merged`."""
    steps: list[list[Token]] = []
    moved = False
    for token in words:
        if token.text in _SOFT:
            moved = False
            continue
        said = next(iter(read((token,))), None)
        if steps and moved and merged and said is not None and said.kind in ("way", "prep"):
            steps[-1].append(token)
        else:
            steps.append([token])
        moved = said is not None and said.kind == "move" and said.value not in _FOOTLESS
    return [tuple(step) for step in steps]


def _told(step: Sequence[Token], read: Read) -> bool | None:
    """Whether a step needs a foot; None where the words are no single step."""
    lexes = read(step)
    said = [lex for lex in lexes if lex.kind in _SAYS]
    if not said or any(lex.kind not in _MAY for lex in lexes):
        return None
    return not any(lex.value in _FOOTLESS for lex in said)


def _paired(feet: Sequence[Token], row: Sequence[tuple[tuple[Token, ...], bool]]) -> list[Token]:
    """Return each step after its foot, commas between them."""
    done: list[Token] = []
    left = list(feet)
    for step, footed in row:
        if done:
            done.append(replace(step[0], kind="mark", text=",", low=","))
        if footed:
            foot = left.pop(0)
            done.append(replace(foot, line=step[0].line, column=step[0].column))
        done += step
    return done
