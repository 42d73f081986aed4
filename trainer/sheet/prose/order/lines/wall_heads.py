"""Walls that stand as headings, with what is danced of them on the lines below: "Wall 3 (6:00)" over "counts 1 to 16".

Such lines are one sentence of the order. Lines that only say that all other walls are danced whole say nothing new.
"""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS, is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LONGEST = 14
"""Tokens of a heading."""
_MOST = 6
"""Lines below it."""
_HEAD = re.compile(
    r"[*\-]*(?:\?[,:.]?){0,2}(?:R[:,\-]?)?I?(?:wn|ow|wo)(?:[(:,\-]?[?IyY]{0,3}f?\)?|u|S|[:,\-]){0,4}(?:(?<=[:,\-])R)?[.]?"
)
_COUNTS = r"[AEU]*(?:c?nUn|c?n-n|on-?c?|cn|n-?c)|[AEU]+(?:c?n|[os][sn]|q)|sn"
_BELOW = re.compile(rf"[*\-]*[>&,]*(?:D?[ua]*(?:{_COUNTS})c?|an|[RYI]).*")
_AFTER = re.compile(r"[>,]*A(?:on|s[nx]|os|cn|n-?c|q)")
"""A sentence that begins with its place may tell steps too: "After the first eight we must wait: clap, clap"."""
_LENGTH = r"[DuU]*(?:an?-?c?|n-?c|c?n(?:[U\-]n)?-?c?)"
_WHOLE = re.compile(rf"[*\-]*[^wRTGXQ]{{0,4}}[:,\-=]*I?{_LENGTH}[.]?|[*\-]*v?[oa]*[wW][:,\-=]*{_LENGTH}[.]?")
_OTHERS = {"others", "rest", "else", "remaining"}
_WALLS = {"wall", "walls", "time", "times", "ones", "pass", "passes"}
_PLAIN = {"full", "whole", "all", "everything", "complete", "entire"}


def with_headed_walls(lines: Sequence[Line]) -> list[Line]:
    """Return lines, each that only names a wall joined with those below that tell how far it is danced."""
    done: list[Line] = []
    at = 0
    while at < len(lines):
        line = lines[at]
        others = bool(done) and _names_others(line.tokens) and is_order(done[-1].tokens)
        below = _below(lines, at) if others or _heads(line.tokens) else []
        at += 1 + len(below)
        if others and (below or _is_whole(line.tokens)) and all(_is_whole(one.tokens) for one in below):
            continue
        if below:
            line = _joined(line, [one for one in below if not (_names_others(one.tokens) and _is_whole(one.tokens))])
        done.append(line)
    return done


def _heads(tokens: Sequence[Token]) -> bool:
    return len(tokens) <= _LONGEST and bool(_HEAD.fullmatch(sentence_of(tokens, LETTERS).letters))


def _names_others(tokens: Sequence[Token]) -> bool:
    """Whether a line speaks of all walls but those told of: "All the others", "the rest: the whole 32"."""
    told = any(
        token.low in _OTHERS or (token.low == "other" and after.low in _WALLS)
        for token, after in pairwise(tokens[: _EARLY + 1])
    )
    return told and len(tokens) <= _LONGEST and not _steps(tokens)


_EARLY = 4


def _is_whole(tokens: Sequence[Token]) -> bool:
    """Whether a line says no more than how long a wall is that is danced whole."""
    letters = sentence_of(tokens, LETTERS).letters
    whole = any(token.low in _PLAIN for token in tokens) or re.search(r"nUn|n-n|n-?c", letters)
    return bool(whole) and bool(_WHOLE.fullmatch(letters))


def _steps(tokens: Sequence[Token]) -> bool:
    return any("m" in sentence_of(part, LETTERS).letters for part in sentences(tokens))


def _below(lines: Sequence[Line], at: int) -> list[Line]:
    """Return the lines straight below one that tell no steps, the first of them how far a wall is danced."""
    found: list[Line] = []
    for line in lines[at + 1 : at + 1 + _MOST]:
        above = found[-1] if found else lines[at]
        first = sentence_of(next(iter(sentences(line.tokens)), line.tokens), LETTERS).letters
        told = _BELOW.fullmatch(first) or (found and _names_others(line.tokens) and _is_whole(line.tokens))
        if line.number != above.tokens[-1].line + 1 or not told or _heads(line.tokens):
            break
        if not found and _names_walls(line.tokens):
            # "The second wall begins at 3:00." over "Restart on wall 3 after 16 counts." heads nothing.
            break
        if _steps(line.tokens) and (found or not _AFTER.match(first) or bool(marks_in(line.tokens[:2], 0))):
            break
        found.append(line)
    return found


def _names_walls(tokens: Sequence[Token]) -> bool:
    """Whether a line's first sentence says in which wall it is danced."""
    first = sentence_of(next(iter(sentences(tokens)), tokens), LETTERS)
    return any(atom.kind == "walls" and atom.walls for atom in first.atoms)


def _joined(head: Line, below: Sequence[Line]) -> Line:
    tokens = list(head.tokens)
    while tokens[-1].text in (":", "-", ".", ","):
        tokens.pop()
    for line in below:
        mark = ":" if line is below[0] else "."
        tokens += [replace(line.tokens[0], kind="mark", text=mark, low=mark, glued=True), *line.tokens]
    return replace(head, tokens=tuple(tokens))
