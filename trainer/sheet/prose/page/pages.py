"""A sheet's lines to blocks of items: the main dance with its sections, the extras, the options, what tells the order.

Lines that speak of the order and options are kept apart first; in the rest the counts are found (`counted.py`), then
the runs of counts with their headings (`runs.py`), then what belongs to each count (`blocks.py`).
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.sheet.prose.counts.chain import Link, chain
from trainer.sheet.prose.counts.counted import counted
from trainer.sheet.prose.counts.how_many import says_how_many
from trainer.sheet.prose.counts.intros_counted import dances_an_intro
from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.counts.scan import Place, run_together
from trainer.sheet.prose.counts.wrapped_marks import rejoined
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.heads.options import is_option
from trainer.sheet.prose.lexis.vocabulary import JOINERS
from trainer.sheet.prose.page.blocks import Block, Bound, block_of, blocks_of
from trainer.sheet.prose.page.heads_led import with_ways_ended
from trainer.sheet.prose.page.heads_placed import with_heads_placed
from trainer.sheet.prose.page.kinds import classify, speaks_of_parts
from trainer.sheet.prose.page.runs import runs_of
from trainer.sheet.prose.page.talk_parted import part_closing_talk, part_talk, without_talk
from trainer.sheet.prose.page.titles_parted import part_titles
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Fill, Item, Token
from trainer.terms import Feel

_ROLLING = re.compile(
    r"\brolling (?:count|8|eight|timing|rhythm|feel)|(?:count|timing|rhythm|feel) (?:is |: |= )?rolling\b|"
    r"\brolling [&,.|)]"
)


_LONG_LINE = 9
"""Tokens of a line that tells steps too."""
_ORDER_WORDS = {"wall", "walls", "restart", "restarts", "tag", "tags", "bridge", "start", "begin", "top"}


@dataclass(frozen=True, slots=True)
class Page:
    """A sheet, taken apart."""

    phrase: int
    feel: Feel
    header: tuple[Line, ...]
    """The lines before the first step."""
    blocks: tuple[Block, ...]
    order: tuple[Line, ...]
    """The lines that speak of the order, extra headings included."""
    options: tuple[Line, ...]
    remarks: tuple[Line, ...]
    passed_over: int = 0
    """Runs of numbers that were taken for talk."""


SpeaksOfOrder = Callable[[Sequence[Token]], bool]


def page_of(
    lines: Sequence[Line],
    speaks_of_order: SpeaksOfOrder,
    fill: Fill,
    *,
    total: int | None = None,
    phrased: bool | None = None,
) -> Page:
    """Take a sheet's clean lines apart.

    `total` is the stated length of the main dance in counts, `phrased` whether the sheet speaks of parts, where lines
    besides these may say so.
    """
    texts, order, options = _sorted_lines(lines, speaks_of_order)
    phrase = phrase_of(lines, texts)
    texts = rejoined(texts)
    texts, links = counted(texts, order, phrase, total, fill)
    texts = with_heads_placed(texts, links, phrase, fill)
    feel = _feel(lines, links)
    order_numbers = {line.number: line for line in order}
    runs, header, remarks = runs_of(texts, links, phrase, order_numbers)
    part_titles(runs, fill)
    header += part_talk(runs, texts, fill)
    classify(runs, total, parts=speaks_of_parts(lines) if phrased is None else phrased, phrase=phrase)
    danced, said = without_talk(runs, texts, fill)
    remarks += [*said, *part_closing_talk(danced, texts, fill)]
    blocks = [with_ways_ended(block) for block in blocks_of(danced, phrase, feel, fill)]
    passed_over = len(runs) - len(danced)
    return Page(phrase, feel, tuple(header), tuple(blocks), tuple(order), tuple(options), tuple(remarks), passed_over)


def items_of(
    lines: Sequence[Sequence[Token]], phrase: int, feel: Feel, fill: Fill, *, first: int = 1, leaning: float = 0.0
) -> Block:
    """Return the items of words that stand outside the dance, such as a tag told in a sentence.

    Without count marks the words are one item without slots. `first` is the number that the first count has; `leaning`
    is what the dance speaks for, counts before their words or after them.
    """
    texts = rejoined([Line(tokens[0].line, tuple(tokens), 0) for tokens in lines if tokens])
    # "(12)" of an extra is 1 and 2, where its counts are none of its wall's.
    pairs = first <= 1 and any(run_together(token, 2) and token.text[0] == "1" for one in texts for token in one.tokens)
    marks = [mark for index, line in enumerate(texts) for mark in marks_in(line.tokens, index, pairs=pairs)]
    links = chain(_counted_from_one(marks, first), phrase)
    if not links or (first <= 1 and len(marks) == 1 and says_how_many(marks[0], texts)):
        words = tuple(token for line in texts for token in line.tokens)
        item = Item((), words, words[0].span) if words else None
        return Block(
            "inline", "", (), (item,) if item else (), (Bound(0, None),), 0, (), words[-1].line if words else 0
        )
    runs, _, _ = runs_of(texts, links, phrase, {})
    for run in runs:
        run.kind = "inline"
    return block_of("inline", "", runs, phrase, feel, fill, leaning)


def _counted_from_one(marks: Sequence[Mark], first: int) -> list[Mark]:
    """Return marks that carry on the numbers of a wall as if counted from 1."""
    sure = [mark for mark in marks if mark.closed] or marks
    start = next((mark.start.number for mark in sure if mark.start.number), 1) or 1
    if first <= 1 and any(mark.start.number == 1 and mark.strength >= 1 for mark in marks):
        start = 1
    shift = first - 1 if first > 1 and start >= first else start - 1 if start > 1 else 0
    if not shift:
        return list(marks)
    return [replace(mark, places=_shifted(mark.places, shift), other=_shifted(mark.other, shift)) for mark in marks]


def _shifted(places: Sequence[Place], shift: int) -> tuple[Place, ...]:
    return tuple(Place(None if place.number is None else place.number - shift, place.sub) for place in places)


def _sorted_lines(lines: Sequence[Line], speaks_of_order: SpeaksOfOrder) -> tuple[list[Line], list[Line], list[Line]]:
    """Return the lines of steps, of the order, and the options."""
    texts, order, options = [], [], []
    for before, line in zip((None, *lines), lines, strict=False):
        if is_option(line.tokens):
            options.append(line)
            continue
        if before is not None and options and options[-1].tokens[-1] is before.tokens[-1] and _wraps(before, line):
            options[-1] = replace(options[-1], tokens=(*options[-1].tokens, *line.tokens))
            continue
        if speaks_of_order(line.tokens) and not _tells_an_eight(line):
            order.append(line)
            continue
        texts.append(line)
    return texts, order, options


def _wraps(before: Line, line: Line) -> bool:
    """Whether a sentence that the margin broke goes on in the line below."""
    last, first = before.tokens[-1], line.tokens[0]
    near = first.line == last.line + 1 and first.kind == "word" and first.text[0].islower()
    wide = last.column + len(last.text) > _MARGIN and before.indent == line.indent
    return near and last.text not in (".", "!", "?", ":") and (wide or last.low in JOINERS)


_MARGIN = 56
"""A line that ends beyond this column may have been broken there."""


def _tells_an_eight(line: Line) -> bool:
    """Whether a line names a section and counts it at once, whatever is said at its end: "off you go again"."""
    head = line.tokens[:4]
    if _tells_bars(line) or dances_an_intro(line.tokens):
        return True
    plain = extra_kind(head) is None and extra_kind(head[:2]) is None
    if not plain or not any(is_section_name(head[:length]) for length in (2, 3, 4)):
        return False
    numbers = [mark.start.number or 0 for mark in marks_in(line.tokens, 0)]
    return len(numbers) > 3 and sum(a < b for a, b in pairwise(numbers)) >= len(numbers) - 2


def _tells_bars(line: Line) -> bool:
    """Whether a line heads bars and goes on with their steps: "Bars 11 and 12. The same a second time: step left"."""
    words = [token.low for token in line.tokens]
    if words[0] not in ("bar", "bars") or len(words) < _LONG_LINE or set(words) & _ORDER_WORDS:
        return False
    return any(token.text in (".", ":") for token in line.tokens[2:6])


def phrase_of(lines: Sequence[Line], texts: Sequence[Line] | None = None) -> int:
    """Return 6 for a waltz, 4 where every fourth count runs over into the next first one, else 8.

    `texts` are the lines of steps, where they are known.
    """
    texts = lines if texts is None else texts
    words = " ".join(line.words for line in lines)
    if "waltz" in words or _WALTZ_ABROAD.search(words) or " 3/4 time" in words or "3/4 time" in words:
        return 6
    for line in texts[:12]:
        for before, token in zip((None, *line.tokens), line.tokens, strict=False):
            if (
                token.text == "3/4"
                and before is not None
                and before.low in ("time", ",", "|", ".", "•", "/", "in", "walls", "-", "(", "of")
            ):
                nearby = line.words
                if "turn" not in nearby:
                    return 6
    if _counts_sixes(texts) or _counts_on_in_threes(texts):
        return 6
    return 4 if _counts_fours(texts) else 8


_WALTZ_ABROAD = re.compile(r"\b(?:vals|valse|walzer|wals|valzer)\b")


def _counts_on_in_threes(texts: Sequence[Line]) -> bool:
    """Whether counts that go on past six are told three at once, or six: 1-2-3, 4-5-6, 7, 8, 9, 10-12."""
    marks = [mark for index, line in enumerate(texts) for mark in marks_in(line.tokens, index)]
    spans = [mark.places for mark in marks if mark.strength >= _SURE and len(mark.places) > 1]
    wholes = [[place.number or 0 for place in span if not place.sub] for span in spans]
    beyond = sum(numbers[0] > _SIX for numbers in wholes if numbers)
    threes = all(len(numbers) in (3, _SIX) and numbers[0] % 3 == 1 for numbers in wholes)
    return beyond > 1 and len(wholes) > beyond and threes and max(numbers[-1] for numbers in wholes) % 3 == 0


def _counts_sixes(texts: Sequence[Line]) -> bool:
    """Whether the counts of a sheet go to six again and again, and never on to seven."""
    marks = [mark for index, line in enumerate(texts) for mark in marks_in(line.tokens, index)]
    sure = [mark for mark in marks if mark.strength >= _SURE]
    numbers = [place.number for mark in sure for place in mark.places if place.number]
    told = numbers.count(_SIX)
    in_threes = all(len([place for place in mark.places if not place.sub]) in (3, _SIX) for mark in sure)
    return max(numbers, default=0) == _SIX and (told > 2 or (told > 1 and in_threes))


def _counts_fours(texts: Sequence[Line]) -> bool:
    """Whether counts go to four and over into the next one, again and again: "2 3", "4&1", "2 3", "4&1"."""
    marks = [mark for index, line in enumerate(texts) for mark in marks_in(line.tokens, index)]
    sure = [mark for mark in marks if mark.strength >= _SURE]
    over = sum(Place(_FOUR, "&") in mark.places and mark.end == Place(_FOUR + 1, "") for mark in sure)
    within = [all((place.number or 0) <= _FOUR + 1 for place in mark.places) for mark in sure]
    # A danced intro may be counted to eight above.
    mostly = over >= _OVER * len(sure) and all(within[-over:])
    return over >= _FOUR and (all(within) or mostly)


_FOUR = 4
_OVER = 0.4
"""So many of the counts run over into the next bar."""
_SIX = 6
_SURE = 1.4
"""The strength of a mark that is a count for sure."""


def _feel(lines: Sequence[Line], links: Sequence[Link]) -> Feel:
    """Return rolling where the sheet says so or counts & and a in one beat; an a alone is a straight one."""
    if any(_ROLLING.search(line.words) for line in lines):
        return "rolling"
    for link in links:
        places = link.mark.places
        if any(a.sub == "&" and b.sub == "a" and a.number == b.number for a, b in pairwise(places)):
            return "straight" if any(place.sub == "e" for place in places) else "rolling"
    return "straight"
