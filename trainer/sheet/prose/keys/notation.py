"""Sentences above the steps that say how the sheet is written: "one row eight counts", "Counts run on 1 to 32".

Their numbers count nothing, and they head no section; they are left out. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.steps.lexicon import lexemes
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_NOUNS = words_in(
    "line lines row rows box boxes column columns cell cells bracket brackets sign signs arrow arrows symbol symbols "
    "square squares stroke strokes"
)
_SAYS = words_in(
    "= is are means mean holds shows show gives give stands stand one tells tell has have goes go : - as to"
)
_ABOUT = words_in(
    "count counts cnt cnts ct cts beat beats clock facing face faces wall walls weight foot number numbers turned"
)
_COUNTS = words_in("count counts cnt cnts beats numbers numbering")
_RUN = words_in("run runs go goes continue carry carries numbered straight on through are")
_ORDER = words_in(
    "restart restarts tag tags bridge start starts begin begins again wait intro then after r l rf lf same dance"
)
_STOPS = frozenset(".;")
_SHORTEST = 12
"""Counts of a dance; fewer are those of a row or a box."""
_FIRST = 12
"""Lines of a sheet's head."""


def without_notation(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines; in those above the steps the sentences that only explain how they are written are left out."""
    done: list[Line] = []
    above = True
    for line in lines:
        above = above and line.number <= _FIRST and not _tells_steps(line)
        tokens = _kept(line.tokens) if above else line.tokens
        if tokens:
            done.append(line if len(tokens) == len(line.tokens) else replace(line, tokens=tokens))
    return tuple(done)


def _tells_steps(line: Line) -> bool:
    """Whether a line opens with a count that has words beside it."""
    return line.tokens[0].kind == "number" and len(line.tokens) > 2


def _kept(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    kept: list[Token] = []
    for sentence in _sentences(tokens):
        if not _explains(sentence):
            kept += sentence
    return tuple(kept)


def _sentences(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    sentence: list[Token] = []
    for at, token in enumerate(tokens):
        sentence.append(token)
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if token.text in _STOPS and (after is None or (not after.glued and after.text[:1].isupper())):
            yield sentence
            sentence = []
    if sentence:
        yield sentence


def _states_size(sentence: Sequence[Token]) -> bool:
    """Whether a sentence says how many counts the dance has, or how many walls."""
    facts = header_facts([tuple(sentence)])
    return (facts.counts or 0) >= _SHORTEST or facts.walls is not None


def _explains(sentence: Sequence[Token]) -> bool:
    """Whether a sentence tells of the page and not of the dance."""
    lows = {token.low for token in sentence}
    if lows & _ORDER:
        return False
    empty = any(a.text in "([{" and b.text in ")]}" for a, b in pairwise(sentence))
    noted = (empty or lows & _NOUNS) and lows & _SAYS and lows & _ABOUT
    if noted and _states_size(sentence):
        # "Forty-eight counts in eight lines of six, four walls."
        return False
    if noted and not any(lex.kind in ("move", "figure") for lex in lexemes(sentence)):
        return True
    opened = sentence[0].low in _COUNTS and len(sentence) > 1 and sentence[1].low in _RUN
    return opened and any(token.kind == "number" for token in sentence)
