"""The words of a row: feet of their own column go to the clauses that they dance, one by one where they can.

Of several ways to tell the same cells the one whose words fill the row's counts best is taken.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.tables.cells import Cell, feet_of, is_nothing, words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_PARTING = frozenset({",", ";", "+", "/", "and", "then", "&", ">"})
_TURNS = words_in(
    "turn turning quarter half three quarters full eighth a of to the - another over shoulder cw ccw "
    "clockwise anticlockwise counterclockwise counter anti acw"
)
AMOUNTS = frozenset({"quarter", "half", "full", "eighth", "quarters"})
_SIDES = frozenset({"left", "right", "l", "r"})
_FOOTLESS = frozenset({"hold", "clap", "snap", "click", "pause", "wait", "take", "weight", "wt", "both", "jump", "no"})
_UNREAD = 1.5
"""What words cost that are not understood."""
_CLEARLY = 0.3
"""So much better must other words fill the counts."""
_GIVEN = frozenset({"r", "l", "rf", "lf", "both"})


def named(cell: Cell) -> Cell:
    """Return the name of a figure as it stands before what spells it out."""
    return cell if cell[-1].text == ":" else (*cell, mark_like(cell[-1], ":"))


def aside(cell: Cell) -> Cell:
    """Return a cell as an aside, in brackets."""
    return cell if cell[0].text == "(" else (mark_like(cell[0], "("), *cell, mark_like(cell[-1], ")"))


def danced(feet: Cell, words: Cell, counts: int) -> Cell:
    """Return the words of a cell with the feet of another; `counts` is the number of counts that they fill."""
    if is_nothing(words):
        first = (feet or words)[:1]
        acting = feet_of(feet)
        if acting:
            return acting
        return tuple(word_like(token, "hold") for token in first)
    acting = feet_of(feet)
    if not acting:
        return words if is_nothing(feet) else (*feet, *words)
    if len(acting) == 1:
        return with_foot(words, acting[0])
    counts = max(counts, 1)
    single = _one_by_one(acting, words)
    unreads = [_is_unread(clause) for clause, _ in _clauses(words)]
    unread = any(unreads)
    if unreads and all(unreads):
        # Feet alone would make steps of words that nobody can read.
        return words
    if unread or (single and fills(single, counts) < _UNREAD):
        return single or words
    return min(_together(acting, words), key=lambda way: round(fills(way, counts), 1))


def _is_unread(words: Cell) -> bool:
    """Whether words say no step, however many counts they fill; feet beside them would hide that."""
    return min(fills(words, counts) for counts in (1, 2, 3)) >= _UNREAD


def titled(words: Cell, first: int, counts: int) -> Cell:
    """Return words of more rows than one; where the first row only names what the others spell out, as such a name."""
    if not 0 < first < len(words):
        return words
    whole = (*named(words[:first]), *words[first:])
    return whole if fills(whole, counts) < fills(words, counts) - _CLEARLY else words


def _together(feet: Cell, words: Cell) -> list[Cell]:
    """Return the ways to tell feet before or after words that are not told foot by foot."""
    opening, closing = mark_like(feet[0], "("), mark_like(feet[-1], ")")
    listed = tuple(token for foot in feet for token in (foot, mark_like(foot, ",")))[:-1]
    return [
        (*with_foot(words, feet[0]), opening, *listed, closing),
        (*words, opening, *listed, closing),
        (*feet, *words),
    ]


def _one_by_one(feet: Cell, words: Cell) -> Cell:
    """Return the clauses of words with a foot each; nothing where they are not as many."""
    at = max((place for place, token in enumerate(words) if token.text == ":"), default=-1) + 1
    clauses = _clauses(words[at:])
    stepped = [place for place, (clause, _) in enumerate(clauses) if clause and clause[0].low not in _FOOTLESS]
    if len(clauses) == len(feet):
        stepped = list(range(len(clauses)))
    if len(stepped) != len(feet):
        return ()
    told: list[Token] = list(words[:at])
    left = list(feet)
    for place, (clause, end) in enumerate(clauses):
        told += with_foot(clause, left.pop(0)) if place in stepped else clause
        told += [mark_like(token, ",") if token.low in ("+", "/", ">", "&") else token for token in end]
    return tuple(told)


def _clauses(words: Sequence[Token]) -> list[tuple[Cell, Cell]]:
    """Part words at what stands between clauses; each with what parts it from the next."""
    parts: list[tuple[list[Token], list[Token]]] = [([], [])]
    for token in words:
        if token.low in _PARTING or token.kind == "amp":
            if parts[-1][0]:
                parts[-1][1].append(token)
            continue
        if parts[-1][1]:
            parts.append(([], []))
        parts[-1][0].append(token)
    merged: list[tuple[Cell, Cell]] = []
    for clause, end in parts:
        last = merged[-1] if merged else None
        if last is not None and only_turns(last[0]):
            merged[-1] = ((*last[0], *last[1], *clause), tuple(end))
        elif clause:
            merged.append((tuple(clause), tuple(end)))
    return merged


def only_turns(words: Sequence[Token]) -> bool:
    """Whether words tell a turn's size, and its side perhaps, and nothing else."""
    return _after_turn(words) == len(words) > 0


def with_foot(words: Cell, foot: Token) -> Cell:
    """Return a clause with its foot: after a turn that opens it, unless the clause names its foot itself."""
    at = _after_turn(words)
    while at < len(words) and words[at].low in (",", ";", "and", "then", "&"):
        at += 1
    if at == len(words):
        at = 0
    named = words[at].low in _GIVEN or (words[at].low in _SIDES and at + 1 < len(words) and words[at + 1].low == "foot")
    if named or words[at].low in ("hold", "clap", "pause") or (words[at].low in _SIDES and _same(words[at], foot)):
        return words
    placed = replace(foot, line=words[at].line, column=words[at].column)
    return (*words[:at], placed, replace(words[at], glued=False), *words[at + 1 :])


def _same(word: Token, foot: Token) -> bool:
    return word.low[0] == foot.low[0]


def _after_turn(words: Sequence[Token]) -> int:
    """Return the index after the size and side of a turn that opens a clause; 0 where none does."""
    at = 0
    sized = False
    while at < len(words):
        token = words[at]
        if token.kind == "fraction" or token.low in AMOUNTS:
            sized = True
        elif token.low in _SIDES:
            if not sized and not any(word.low in ("turn", "turning") for word in words[:at]):
                break
            after = words[at + 1] if at + 1 < len(words) else None
            if len(token.text) == 1 and after is not None and after.low in ("foot",):
                break
        elif token.low not in _TURNS:
            break
        at += 1
    return at if sized else 0


def joined(above: Cell, below: Cell, *, apart: bool) -> Cell:
    """Return a cell with what stands in it one row lower; a word broken by a hyphen is one again."""
    if not above or not below:
        return above or below
    broken = len(above) > 1 and above[-1].text == "-" and above[-1].glued and above[-2].kind == below[0].kind == "word"
    if broken and below[0].text[0].islower():
        whole = replace(above[-2], text=above[-2].text + below[0].text, low=above[-2].low + below[0].low)
        return (*above[:-2], whole, *below[1:])
    if apart and above[-1].text not in (",", ";", ":", "."):
        return (*above, mark_like(below[0], ","), *below)
    return (*above, *below)


def parted_by_break(first: Sequence[Token], second: Sequence[Token]) -> list[Token]:
    """Return two stretches of tokens with a break between them."""
    if not first or not second:
        return [*first, *second]
    return [*first, mark_like(second[0], BREAK), *second]
