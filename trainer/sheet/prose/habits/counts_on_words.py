"""Counts told in words behind each step of a sentence: "left forward on one, draw the right to it on two and three".

On a page that tells its bars so, and in what is told of walls, each stands as a count in brackets, "(1)", "(2-3)"; of
two counts only where what is done lasts: "shuffle on three and four" has its half beat. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, number_like
from trainer.sheet.prose.words import Token

_LINES = 4
"""Lines at least that tell their counts so."""
_EACH = 2
"""Such counts of one line."""
_HIGHEST = 8
_PARTS = {",", ".", ";", ":", "(", ")", "[", "-", "!"}
_BARS = {"bar", "measure", "bars", "measures"}
_OF_WALLS = {"wall", "walls", "time", "tag", "ending"}
_GOES_ON = {"and", "then", "without", "but", "while", "with"}
_LASTS = {
    "draw", "draws", "drawing", "drag", "drags", "dragging", "sweep", "sweeps", "sweeping", "hold", "holds", "wait",
    "waits", "pause", "keep", "stay", "still", "slide", "sliding", "rest", "trail", "bring", "collect",
}  # fmt: skip


def with_counts_on_words(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such counts in brackets, if the page tells them so."""
    told = {at for at, line in enumerate(lines) if len(_places(line.tokens)) >= _EACH}
    if sum(lines[at].tokens[0].low in _BARS for at in told) < _LINES:
        # What is told of walls holds for itself.
        told = {at for at in told if any(token.low in _OF_WALLS for token in lines[at].tokens)}
    return tuple(
        replace(line, tokens=_bracketed(line.tokens), source="") if at in told else line
        for at, line in enumerate(lines)
    )


def _places(tokens: Sequence[Token]) -> list[tuple[int, int, int, int]]:
    """Return such counts: where each begins and ends among the tokens, its first and its last number."""
    found: list[tuple[int, int, int, int]] = []
    begun = 0
    for at, token in enumerate(tokens):
        if token.text in _PARTS:
            begun = at + 1
        first = _number(tokens, at + 1)
        if token.low != "on" or not first or at == begun:
            continue
        then = at + 2
        last = _number(tokens, then + 1) if then < len(tokens) and tokens[then].low in ("and", "to") else 0
        if last == first + 1 and _LASTS & {one.low for one in tokens[begun:at]} and _ends(tokens, then + 2):
            found.append((at, then + 2, first, last))
        elif _ends(tokens, then) and not last:
            found.append((at, then, first, first))
    return found


def _number(tokens: Sequence[Token], at: int) -> int:
    number = NUMBERS.get(tokens[at].low, 0) if at < len(tokens) and tokens[at].kind == "word" else 0
    return number if number <= _HIGHEST else 0


def _ends(tokens: Sequence[Token], at: int) -> bool:
    return at >= len(tokens) or tokens[at].text in _PARTS or tokens[at].low in _GOES_ON


def _bracketed(tokens: Sequence[Token]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    for begin, end, first, last in _places(tokens):
        near = tokens[begin]
        inside = [number_like(near, first)]
        if last > first:
            inside += [replace(mark_like(near, "-"), glued=True), replace(number_like(near, last), glued=True)]
        inside[0] = replace(inside[0], glued=True)
        more = 2 * ([one.low for one in tokens[end : end + 2]] in (["without", "weight"], ["no", "weight"]))
        # What is said of the weight belongs to the step before the count.
        done += [*tokens[at:begin], *tokens[end : end + more], mark_like(near, "("), *inside]
        done.append(replace(mark_like(near, ")"), glued=True))
        at = end + more
    return (*done, *tokens[at:])
