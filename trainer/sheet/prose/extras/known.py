"""What is known of the dance when its order is read: sections, their counts and words, the turns made by each count."""

from collections import Counter
from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cache

from trainer.dance.figures import figures, moves
from trainer.sheet.prose.extras.walls import turns_after, weights_after
from trainer.sheet.prose.heads.headings import Heading
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.page.blocks import Block
from trainer.sheet.prose.search.paths import Path
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Item, Token
from trainer.terms import ExtraKind

_OF_STEPS = frozenset({
    "and", "back", "behind", "beside", "forward", "side", "left", "right", "to", "turn", "half", "quarter", "full",
    "the", "over", "across", "in", "place", "together", "heel", "toe", "pivot", "walk", "walks", "run", "foot", "on",
    "of", "a", "with", "recover", "clap", "hip", "hips", "front", "out", "down", "up", "home", "apart", "weight",
    "diagonal",
})  # fmt: skip
"""Words that the names of figures have from their steps."""

_LONGEST = 16
"""Counts of steps that are danced for others."""
_MISFIT = 1.0
_NEAR = 0.05
"""So badly words fill counts that tell no steps for them, and so little worse than the best is as good."""
_NAME = 4
"""Words of a section's name that stands before its steps."""
Extras = Sequence[tuple[ExtraKind, str, int | None, tuple[Token, ...]]]


def known_of(
    mains: Sequence[Block],
    paths: Mapping[str, Path],
    extras: Extras,
    facts: tuple[int, int | None],
    lines: Sequence[Line],
) -> Known:
    """Return what is known of a dance whose parts were read; `facts` are the counts of a phrase, and the walls."""
    phrase, walls = facts
    words = {line.number: line.tokens for line in lines}
    parts = tuple((block.part, block.counts) for block in mains) if len(mains) > 1 else ()
    return Known(
        phrase=phrase,
        sections=tuple(section for block in mains for section in _sections(block, words)),
        parts=parts,
        extras=tuple(extras),
        walls=walls,
        ends={
            item.span.line: int(item.slots[-1].beat // 1) + 1 for block in mains for item in block.items if item.slots
        },
        spots=tuple(sorted(_spot(item) for block in mains for item in block.items if item.slots)),
        turned={block.part if parts else "": _turned(block, paths[block.part]) for block in mains},
        turned_on={
            block.part if parts else "": turns_after(paths[block.part], block.counts, halves=True) for block in mains
        },
        stands={block.part if parts else "": weights_after(paths[block.part], block.counts) for block in mains},
        anded={block.part if parts else "": _anded(block) for block in mains},
        steps=tuple(step for block in mains for step in _steps(block, block.part if parts else "", words)),
        lasts=_lasts,
    )


@cache
def _lasts(words: tuple[Token, ...]) -> frozenset[int]:
    """Return the lengths that words of steps fill best, where they fill any."""
    if not words:
        return frozenset()
    prices = {counts: fills(words, counts) for counts in range(1, _LONGEST + 1)}
    least = min(prices.values())
    return (
        frozenset(counts for counts, price in prices.items() if price <= least + _NEAR)
        if least < _MISFIT
        else frozenset()
    )


def _spot(item: Item) -> tuple[int, int, int, bool]:
    """Where an item begins, with its count or its words, the counts danced by its end, whether that is an & or a."""
    begins = min((span.line, span.column) for span in (item.span, *(token.span for token in item.text[:1])))
    last = item.slots[-1].beat
    return *begins, int(last // 1) + 1, last % 1 > 0


def _sections(block: Block, lines: Mapping[int, Sequence[Token]]) -> list[tuple[str, int, str]]:
    beats = [*(bound.beat for bound in block.bounds), block.counts]
    first = {
        bound.beat: next((item for item in block.items if _begins(item, bound.beat)), None) for bound in block.bounds
    }
    return [
        (
            f"{block.part}{place}",
            upto - bound.beat,
            _title(bound.heading, lines.get(item.span.line, ()) if (item := first[bound.beat]) else ()),
        )
        for place, (bound, upto) in enumerate(zip(block.bounds, beats[1:], strict=True), 1)
    ]


def _begins(item: Item, beat: int) -> bool:
    return bool(item.slots) and item.slots[0].beat >= beat


def _title(heading: Heading | None, line: Sequence[Token]) -> str:
    """Return the words over a section, or the name that its first line opens with: "The Lane. Shuffle forward ..."."""
    if heading is not None and heading.tokens[-1].text != ".":
        return heading.words
    end = next((at for at, token in enumerate(line[: _NAME + 1]) if token.text in (".", ":")), 0)
    named = end > 0 and line[0].text[0].isupper() and all(token.kind == "word" for token in line[:end])
    return " ".join(token.low for token in line[:end]) if named else heading.words if heading else ""


def _turned(block: Block, path: Path) -> tuple[Fraction, ...]:
    return turns_after(path, block.counts)


def _anded(block: Block) -> frozenset[int]:
    """The counts with an e, & or a after them, but for those that close a section."""
    ends = {bound.beat for bound in block.bounds}
    between = {int(slot.beat // 1) + 1 for item in block.items for slot in item.slots if slot.beat % 1}
    return frozenset(between - ends)


def _steps(
    block: Block, part: str, lines: Mapping[int, Sequence[Token]]
) -> list[tuple[str, int, int, tuple[str, ...]]]:
    """Each item with the counts before and after it, and its words; an item alone on its line has all of the line's."""
    found = []
    many = Counter(item.span.line for item in block.items)
    for item in block.items:
        if item.slots:
            first, last = int(item.slots[0].beat // 1), int(item.slots[-1].beat // 1) + 1
            line = lines.get(item.span.line, ()) if many[item.span.line] == 1 else ()
            words = tuple(token.low for token in (*item.text, *line) if token.kind in ("word", "fraction"))
            found.append((part, max(first, 0), last, words))
            found += [(part, *one) for one in _single_steps(item)]
    return found


def _single_steps(item: Item) -> list[tuple[int, int, tuple[str, ...]]]:
    """Each of several steps that are told one a count with its words; none where they are those of a figure."""
    texts = {token.text for token in item.text}
    clauses: list[list[str]] = [[]]
    for token in item.text:
        if token.text in (",", ";") or token.low in ("and", "then") or token.kind == "amp":
            clauses += [[]] if clauses[-1] else []
        elif token.kind in ("word", "fraction"):
            clauses[-1].append(token.low)
    clauses = [words for words in clauses if words]
    told = {word for words in clauses for word in words}
    if len(item.slots) < 2 or len(clauses) != len(item.slots) or texts & {":", "="} or told & _of_figures():
        return []
    beats = [int(slot.beat // 1) for slot in item.slots]
    return [(max(beat, 0), beat + 1, tuple(words)) for beat, words in zip(beats, clauses, strict=True)]


@cache
def _of_figures() -> frozenset[str]:
    """Words of figures that are names of no single step: one of them names all its counts."""
    plain = {word for row in moves().values() for name in row.words for word in name.split()}
    named = {word for row in figures().values() for name in row.words for word in name.split()}
    return frozenset(named - plain - _OF_STEPS)
