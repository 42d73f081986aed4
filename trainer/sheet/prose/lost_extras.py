"""Extras that no sentence places, though their own lines do: what is told among their steps is read as order too.

"TAG" over "It comes once, after the second B. Point right to the side (1) ..." tells its place in a line of steps. The
sentences of such lines that name walls or parts are read once more as if they headed the extra; what they tell is kept
where it places extras that were placed nowhere, and makes nothing wrong.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.problems import loud
from trainer.sheet.prose.blocks import Block
from trainer.sheet.prose.layout import Line
from trainer.sheet.prose.marks import marks_in
from trainer.sheet.prose.order.grammar import sentence_of
from trainer.sheet.prose.order.sentences import sentences
from trainer.sheet.prose.order.titles import names_of
from trainer.sheet.prose.reading_state import kind_of, name_of
from trainer.sheet.prose.told import Known, Told, read_order
from trainer.sheet.prose.words import Token

_COUNT = 1.2
"""The strength of a mark that is a count for sure: a sentence with two of them tells steps."""


def with_lost_extras(
    told: Told, order: Sequence[tuple[Token, ...]], known: Known, blocks: Sequence[Block], lines: Sequence[Line]
) -> Told:
    """Return what is told of the order, the sentences in the lines of extras that nothing places read with it."""
    danced = _danced(told)
    more = {
        (kind_of(block), name_of(block, blocks)): tuple(_told_among_steps(block, known, lines))
        for block in blocks
        if block.items and (kind_of(block), name_of(block, blocks)) not in danced
    }
    above = {
        (kind_of(block), name_of(block, blocks)): line
        for block in blocks
        if block.items and not more.get((kind_of(block), name_of(block, blocks)), True)
        for line in _places_above(block, known, order)
    }
    if not any(more.values()) and not above:
        return told
    heads = tuple((*one[:3], (*one[3], *more.get(one[:2], ()))) for one in known.extras)
    heads = tuple((*one[:3], _headed(one[3], above.get(one[:2], ()))) for one in heads)
    order = [line for line in order if not any(line is one for one in above.values())]
    again = read_order(order, replace(known, extras=heads))
    found = len(_danced(again)) > len(danced) and len(loud(again.problems)) <= len(loud(told.problems))
    return again if found and _doubled(again) <= _doubled(told) else told


def _doubled(told: Told) -> int:
    """Return at how many places two extras of a kind are danced: mostly one that was taken apart."""
    departures = [one for line in told.order for one in line.departures]
    kinds = [[insert.kind for insert in one.inserts] for one in departures]
    return sum(len(set(one)) < len(one) for one in kinds)


def _danced(told: Told) -> set[tuple[str, str]]:
    """Return the kind and name of each extra that is danced somewhere."""
    departures = [one for line in told.order for one in line.departures]
    inserts = {(insert.kind, insert.name) for one in departures for insert in one.inserts}
    changes = {("change", one.change) for one in departures if one.change}
    return inserts | changes | {(item.kind, item.name) for item in told.play if item.kind != "part"}


def _headed(heading: tuple[Token, ...], line: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the heading of an extra with the line that tells its place as a sentence of it."""
    if not heading or not line:
        return heading or line
    return *heading, replace(line[0], kind="mark", text=".", low=".", glued=True), *line


def _places_above(block: Block, known: Known, order: Sequence[tuple[Token, ...]]) -> Iterator[tuple[Token, ...]]:
    """Yield the line just above an extra, or beside its name, that says no more than after which walls it comes.

    "The Little Link, danced after walls 3 and 7:" stands over the counts of what is nowhere called a tag.
    """
    names = names_of(known)
    top = min([heading.line for heading in block.headings] + [item.span.line for item in block.items])
    for line in order:
        if not (line and line[0].line <= top <= line[-1].line + 1):
            continue
        atoms = [atom for part in sentences(line) for atom in sentence_of(part, names).atoms]
        walls = [atom for atom in atoms if atom.kind == "walls" and atom.at == "end"]
        if walls and not any(atom.kind in ("place", "change") or atom.act in set("TGXRQnH") - {""} for atom in atoms):
            yield line


def _told_among_steps(block: Block, known: Known, lines: Sequence[Line]) -> Iterator[Token]:
    """Yield the sentences in the lines of an extra that name walls or parts."""
    if not block.headings:
        return
    heading = block.headings[-1].tokens
    names = names_of(known)
    own = [line for line in lines if heading[0].line <= line.number <= block.last_line]
    for part in (part for tokens in _broken_at_counts(own) for part in sentences(tokens)):
        if part[0] is heading[0] or sum(mark.strength >= _COUNT for mark in marks_in(part, 0)) > 1:
            continue
        if any(atom.kind == "walls" and (atom.walls or atom.every) for atom in sentence_of(part, names).atoms):
            yield replace(part[0], kind="mark", text=".", low=".", glued=True)
            yield from part


def _broken_at_counts(lines: Sequence[Line]) -> list[list[Token]]:
    """Return the words of some lines, apart where a line begins with its counts: no sentence goes on in it."""
    found: list[list[Token]] = [[]]
    for line in lines:
        if any(mark.first == 0 and mark.strength >= _COUNT for mark in marks_in(line.tokens, 0)):
            found.append([])
        found[-1] += line.tokens
    return found
