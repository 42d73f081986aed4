"""Extras that no sentence places, though their own lines do: what is told among their steps is read as order too.

"TAG" over "It comes once, after the second B. Point right to the side (1) ..." tells its place in a line of steps. The
sentences of such lines that name walls or parts are read once more as if they headed the extra; what they tell is kept
where it places extras that were placed nowhere, and makes nothing wrong.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.problems import loud
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.claims.extras import LETTERS
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.grammar.titles import names_of
from trainer.sheet.prose.order.told import Known, Told, read_order
from trainer.sheet.prose.page.blocks import Block
from trainer.sheet.prose.reading_state import kind_of, name_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_NEAR = 2
"""Lines between the steps of an extra and the line that places it."""
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
    beside = {
        (kind_of(block), name_of(block, blocks)): _places(block, blocks, known, order)
        for block in blocks
        if block.items and not more.get((kind_of(block), name_of(block, blocks)), True)
    }
    if not any(more.values()) and not any(beside.values()):
        return told
    heads = tuple((*one[:3], (*one[3], *more.get(one[:2], ()))) for one in known.extras)
    heads = tuple((*one[:3], _headed(one[3], beside.get(one[:2], ()))) for one in heads)
    order = [line for line in order if not any(line is one for lines in beside.values() for one in lines)]
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


def _headed(heading: tuple[Token, ...], lines: Sequence[tuple[Token, ...]]) -> tuple[Token, ...]:
    """Return the heading of an extra with the lines that tell its place as sentences of it."""
    for line in lines:
        stop = replace(line[0], kind="mark", text=".", low=".", glued=True)
        heading = (*heading, stop, *line) if heading else line
    return heading


def _places(
    block: Block, blocks: Sequence[Block], known: Known, order: Sequence[tuple[Token, ...]]
) -> tuple[tuple[Token, ...], ...]:
    """Return the lines beside an extra that tell where it comes: under its name, one above it, or those below."""
    under = tuple(_places_under(block, known, order))
    return under or tuple(_places_above(block, known, order))[-1:] or tuple(_places_below(block, blocks, known, order))


def _places_under(block: Block, known: Known, order: Sequence[tuple[Token, ...]]) -> Iterator[tuple[Token, ...]]:
    """Yield the lines between the name of an extra and its steps that speak of walls, and put in nothing else.

    On a page with an empty line under each heading they stand apart from both.
    """
    names = names_of(known)
    head = max((heading.line for heading in block.headings), default=None)
    first = min(item.span.line for item in block.items)
    own = LETTERS.get(kind_of(block), "")
    for line in order:
        if head is None or not head < line[0].line <= line[-1].line < first:
            continue
        atoms = [atom for part in sentences(line) for atom in sentence_of(part, names).atoms]
        others = any(atom.act in "TGX" and atom.act != own for atom in atoms if atom.act)
        if not others and any(atom.kind == "walls" and (atom.walls or atom.every) for atom in atoms):
            yield line


def _places_above(block: Block, known: Known, order: Sequence[tuple[Token, ...]]) -> Iterator[tuple[Token, ...]]:
    """Yield the line just above an extra, or beside its name, that says no more than after which walls it comes.

    "The Little Link, danced after walls 3 and 7:" stands over the counts of what is nowhere called a tag.
    """
    names = names_of(known)
    top = _top(block)
    for line in order:
        if not (line and line[0].line <= top <= line[-1].line + 1):
            continue
        atoms = [atom for part in sentences(line) for atom in sentence_of(part, names).atoms]
        walls = [atom for atom in atoms if atom.kind == "walls" and atom.at == "end"]
        if walls and not any(atom.kind in ("place", "change") or atom.act in set("TGXRQnH") - {""} for atom in atoms):
            yield line


def _places_below(
    block: Block, blocks: Sequence[Block], known: Known, order: Sequence[tuple[Token, ...]]
) -> Iterator[tuple[Token, ...]]:
    """Yield the lines below an extra's steps that say no more than in which walls it comes: "After walls 1 and 3."."""
    names = names_of(known)
    last = max(block.last_line, *(token.line for item in block.items for token in item.text), _top(block))
    end = min((_top(other) for other in blocks if _top(other) > last), default=order[-1][-1].line + 1 if order else 0)
    below = [line for line in order if line and last < line[0].line < end]
    for line in below:
        atoms = [atom for part in sentences(line) for atom in sentence_of(part, names).atoms]
        walls = [atom for atom in atoms if atom.kind == "walls" and (atom.walls or atom.every)]
        told = any(atom.kind == "change" or atom.act in set("TGXRQnH") for atom in atoms if atom.act)
        if not walls or told or line[0].line > last + _NEAR:
            return
        yield line
        last = line[-1].line


def _top(block: Block) -> int:
    return min([heading.line for heading in block.headings] + [item.span.line for item in block.items])


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
