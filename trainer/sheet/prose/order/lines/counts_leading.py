"""Counts that lead the steps of an extra clause by clause, told bare: "add four counts. On 1-2 step ... On 3-4 ...".

The words around them would make each a place in the wall: "on counts 3 and 4 step left" alone tells a change of what is
danced there.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS
from trainer.sheet.prose.words import Token

_LEADS = {"and", "then", "on", "for", "in", "over", "during", "the", "count", "counts", "beat", "beats", "cts", "ct"}
"""Words that may stand between the beginning of a clause and its counts."""
_OPENS = {".", ";", ":", ",", "!"}
_BRACKETS = {"(": ")", "[": "]"}
_JOINS = {"-", "&", "and", "to", "through", ","}
_SPANS = {"to", "through"}
_TRIPLES = {"shuffle", "chasse", "triple", "coaster", "sailor", "mambo", "lock", "ball", "samba", "cha"}
"""Words of figures that take the half beat of "one and two"."""
_FORMS = {"you", "we", "do", "dance", "a", "an", "the", "take", "big", "your", "hold", "make"}
"""Words between the counts and the first word of a step."""
_REPLACES = {"instead", "replace", "replaced", "replaces", "place", "become", "becomes", "change", "changes", "swap"}
_MOST = 16
"""Counts of an extra that is told inside a sentence."""


@dataclass(frozen=True, slots=True)
class _Lead:
    """Counts that lead a clause: where their words begin, where they stand, where the clause goes on."""

    start: int
    first: int
    last: int
    end: int
    counts: tuple[int, int]


def with_counts_leading(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a line of the order, the counts that lead the steps of its extra without the words around them."""
    run = _run(tokens)
    several = any(lead.counts[0] < lead.counts[1] for lead in run)
    if len(run) < 2 or not several or not _calls_for_an_extra(tokens[: run[0].start]):
        return tuple(tokens)
    done: list[Token] = []
    at = 0
    for lead, after in zip(run, [*run[1:], None], strict=True):
        clause = {token.low for token in tokens[lead.end : after.start if after else len(tokens)]}
        spans = _SPANS if clause & _TRIPLES else _SPANS | {"and"}
        counts = [_dash(token) if token.low in spans else token for token in tokens[lead.first : lead.last]]
        done += [*tokens[at : lead.start], *counts]
        at = lead.end
    return (*done, *tokens[at:])


def _dash(token: Token) -> Token:
    """Return a dash for a word between two counts: "1 to 4 walk" would tell how far one dances."""
    return replace(token, kind="mark", text="-", low="-")


def _run(tokens: Sequence[Token]) -> list[_Lead]:
    """Return the first counts in a row that begin with 1 and go on from clause to clause."""
    run: list[_Lead] = []
    for lead in _leads(tokens):
        if run and lead.counts[0] == run[-1].counts[1] + 1:
            run.append(lead)
        elif len(run) < 2:
            run = [lead] if lead.counts[0] == 1 else []
    return run


def _leads(tokens: Sequence[Token]) -> Iterator[_Lead]:
    for at in range(len(tokens)):
        if (not at or tokens[at - 1].text in _OPENS) and (lead := _lead(tokens, at)) is not None:
            yield lead


def _lead(tokens: Sequence[Token], at: int) -> _Lead | None:
    """Return the counts that lead the clause beginning at a token, where steps follow them."""
    first = at
    while first < len(tokens) and tokens[first].low in _LEADS:
        first += 1
    closing = _BRACKETS.get(tokens[first].text) if first < len(tokens) else None
    first += closing is not None
    values: list[int] = []
    last = look = first
    while look < len(tokens):
        value, beyond, ordinal = number_at(tokens, look)
        if beyond == look or ordinal or not 0 < value <= _MOST or (values and value <= values[-1]):
            break
        values.append(value)
        last = look = beyond
        while look < len(tokens) and tokens[look].low in _JOINS:
            look += 1
    if not values:
        return None
    last += last < len(tokens) and tokens[last].text == "&" and tokens[last].glued
    end = last + (closing is not None)
    if closing is not None and [token.text for token in tokens[last:end]] != [closing]:
        return None
    end += end < len(tokens) and tokens[end].text in (",", ":")
    step = end
    while step < len(tokens) and tokens[step].low in _FORMS and tokens[step].low not in STEP_WORDS:
        step += 1
    if step >= len(tokens) or not (tokens[step].low in STEP_WORDS or "hold" in {one.low for one in tokens[end:step]}):
        return None
    return _Lead(at, first, last, end, (values[0], values[-1]))


def _calls_for_an_extra(tokens: Sequence[Token]) -> bool:
    """Whether words put an extra in, and no steps in place of others."""
    if not tokens or any(token.low in _REPLACES for token in tokens):
        return False
    atoms = [atom for part in sentences(tokens) for atom in sentence_of(part, LETTERS).atoms]
    return any(atom.kind == "act" and atom.act in "TGX" for atom in atoms)
