"""Counts of one wall told with their steps and no more: they are danced in place of those that stand there.

"Wall 4: 15 stomp left, 16 hold", "in wall 4 stomp left on 15 and hold on 16", and in a table of walls the cell alone.
Which counts they replace is put in: "instead of counts 15-16:".
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.grammar.instead import instead_of
from trainer.sheet.prose.order.lines.lines import LETTERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEADS = re.compile(r"[I>,&?*\-]*")
"""What may stand before the wall."""
_STEPS = re.compile(r"[f?u()]*[:,\-]*(?P<told>[?u,>&]*[IcnmH(][:,\-=Icn&UmHD?u()>b]*)(?:$|[JR][^mHTGX]*$)")
"""Counts and steps behind the wall, then at most that it goes on or begins anew."""
_ONLY_NAMED = re.compile(r"[Inow?Mf0,()]*")
"""A sentence that only says which wall is danced otherwise: "On wall 4 there is a little change."."""
_LENGTH = re.compile(r"n-?c|Hn|[mH]?Un")
"""A number that says how long."""
_TURNED = re.compile(r"[?u,>]*m[?um]*[I>(]*c?n(?:-n)?[)?u]*b?m.*")
"""What stood on a count and what it is now: "the kick on count 12 becomes a step"; such a sentence says it all."""
_PHRASE = 8
"""Counts that a section may number again: which section is meant is left open."""
_HEAD = 12
"""Lines that may hold the facts of the header."""


def with_counts_in_place(lines: Sequence[Line]) -> list[Line]:
    """Return lines, what a wall dances on counts of its own told as danced instead of them."""
    total = header_facts([line.tokens for line in lines[:_HEAD]]).counts
    return [replace(line, tokens=told) if (told := _in_line(line.tokens, total)) else line for line in lines]


def counts_in_place(cell: Sequence[Token]) -> tuple[Token, ...]:
    """Return what a cell of a table of walls says, counts with their steps told as danced instead of those counts."""
    return _with_counts(cell, sentence_of(cell, LETTERS), 0, None)


def _in_line(tokens: Sequence[Token], total: int | None) -> tuple[Token, ...]:
    """Return the tokens of a line with the counts that a wall dances otherwise named; none where it tells none."""
    if not any(token.low.startswith("w") for token in tokens) or not any(token.kind == "number" for token in tokens):
        return ()
    done = tuple(tokens)
    named = False
    for part in sentences(tokens):
        told = sentence_of(part, LETTERS)
        walls = next((atom for atom in told.atoms if atom.kind == "walls"), None)
        after = 0
        if walls is not None:
            named = bool(walls.walls) and not walls.at and bool(_ONLY_NAMED.fullmatch(told.letters))
            if not walls.walls or walls.at or not _LEADS.fullmatch(told.letters[: walls.first]):
                continue
            after = walls.last
        elif not named:
            continue
        changed = _with_counts(part, told, after, total)
        if changed != tuple(part):
            at = next(at for at, token in enumerate(done) if token is part[0])
            done = (*done[:at], *changed, *done[at + len(part) :])
    return done if done != tuple(tokens) else ()


def _with_counts(tokens: Sequence[Token], told: Sentence, after: int, total: int | None) -> tuple[Token, ...]:
    """Return the tokens with the counts named that their steps stand for; `after` is the lexeme that they begin at."""
    found = _STEPS.fullmatch(told.letters, after)
    counts = _counts_told(told, *found.span("told")) if found else ()
    if found is None or not counts or counts[0] <= _PHRASE or (total is not None and counts[-1] > total):
        return tuple(tokens)
    at = told.lexemes[found.start("told")].first
    while at < len(tokens) and tokens[at].text in (",", ":", "-"):
        at += 1
    return (*tokens[:at], *instead_of(tokens[at], counts[0], counts[-1]), *tokens[at:])


def _turns(letters: str) -> bool:
    return letters.count("n") <= letters.count("-") + 1 and _TURNED.match(letters) is not None


def _counts_told(told: Sentence, first: int, last: int) -> tuple[int, ...]:
    """Return the counts that steps are told on, one after the other; none where the numbers are no such counts."""
    letters = told.letters[first:last]
    if not set("mH") & set(letters) or _LENGTH.search(letters) or _turns(letters):
        return ()
    numbers = [first + at for at, letter in enumerate(letters) if letter == "n"]
    values = [told.number(at) for at in numbers]
    if len(values) == 2 and told.letters[numbers[0] + 1 : numbers[1]] in ("-", "U"):
        return tuple(range(values[0], values[1] + 1)) if 0 < values[1] - values[0] < _PHRASE else ()
    bare = len(values) == 1 and told.letters[numbers[0] - 1 : numbers[0]] not in ("c", "I", "(")
    rising = all(after == before + 1 for before, after in pairwise(values))
    return tuple(values) if values and rising and not bare else ()
