"""A sheet's lines to blocks of items: the main dance with its sections, the extras, the options, what tells the order.

Lines that speak of the order and options are kept apart first. In the rest the chain finds the counts; where counts
begin again a run begins. What stands between two runs heads the next or ends the last. A run whose heading names an
extra is an extra; once the stated total of counts is complete nothing more belongs to the main dance.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import pairwise

from trainer.dance.counts import OFFSETS, label_of
from trainer.problems import Problem
from trainer.routine import Span
from trainer.sheet.prose.chain import Link, chain, summed_up
from trainer.sheet.prose.headings import Heading, extra_kind, heading_score, is_option, is_section_name
from trainer.sheet.prose.layout import BREAK, Line
from trainer.sheet.prose.marks import Mark, Place, marks_in, writes_pairs
from trainer.sheet.prose.pieces import Fill, Piece, Stream, parted
from trainer.sheet.prose.references import repeats_a_section
from trainer.sheet.prose.words import Item, Slot, Token
from trainer.terms import ExtraKind, Feel

_ROLLING = re.compile(
    r"\brolling (?:count|8|eight|timing|rhythm|feel)|(?:count|timing|rhythm|feel) (?:is |: |= )?rolling\b|"
    r"\brolling [&,.|)]"
)

_PARTS = re.compile(
    r"\bphrased\b|\bparts? [a-d]\b|\b[a-d](?: ?[,\-/>&+]* ?(?:[a-d]|tag|bridge|intro|t)\b){2,}|"
    r"\b[a-d] ?[=:(] ?\d+|\bverse\b|\bchorus\b"
)

SpeaksOfOrder = Callable[[Sequence[Token]], bool]


@dataclass(frozen=True, slots=True)
class Bound:
    """Where a section begins in its block."""

    beat: int
    heading: Heading | None


@dataclass(frozen=True, slots=True)
class Block:
    """Items counted through from 0: the main dance, a part, an extra or an option."""

    kind: ExtraKind | str
    """main, option, or the kind of extra."""
    part: str
    headings: tuple[Heading, ...]
    items: tuple[Item, ...]
    bounds: tuple[Bound, ...]
    counts: int
    """Length in counts; 0 where the words have no counts."""
    problems: tuple[Problem, ...] = ()
    last_line: int = 0
    """The sheet's number of its last line."""


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


@dataclass(slots=True)
class _Run:
    """Links whose counts go on, with the words around them; filled line by line."""

    links: list[Link] = field(default_factory=list)
    headings: list[Heading] = field(default_factory=list)
    inner: list[tuple[int, Heading]] = field(default_factory=list)
    """Headings within the run, with the index of the link that they stand before."""
    words: list[list[Token]] = field(default_factory=lambda: [[]])
    kind: str = "main"
    part: str = ""


def page_of(lines: Sequence[Line], speaks_of_order: SpeaksOfOrder, fill: Fill, *, total: int | None = None) -> Page:
    """Take a sheet's clean lines apart; `total` is the stated length of the main dance in counts."""
    texts, order, options = _sorted_lines(lines, speaks_of_order)
    phrase = _phrase(lines, texts)
    pairs = writes_pairs(line.tokens for line in texts)
    marks = [
        mark for index, line in enumerate(texts) for mark in marks_in(line.tokens, index, phrase // 2, pairs=pairs)
    ]
    marks = _pairs_where_and_is_written(_without_numbering(marks, texts))
    marks = _with_whole_sections(marks, texts, phrase)
    links = chain(marks, phrase)
    texts, links = _without(texts, links, summed_up(marks, phrase))
    links = _unfolded(_within(links, phrase, total), phrase)
    feel = _feel(lines, links)
    order_numbers = {line.number: line for line in order}
    runs, header, remarks = _runs(texts, links, phrase, order_numbers)
    _classify(runs, total, _speaks_of_parts(lines))
    blocks = _blocks(runs, phrase, feel, fill)
    return Page(phrase, feel, tuple(header), tuple(blocks), tuple(order), tuple(options), tuple(remarks))


def _pairs_where_and_is_written(marks: Sequence[Mark]) -> list[Mark]:
    """Return "1 and 2" as two counts in a sheet that writes & for the half beat."""
    if not any(place.sub == "&" for mark in marks if not mark.other and len(mark.places) > 1 for place in mark.places):
        return list(marks)
    return [replace(mark, places=mark.other, other=()) if mark.other else mark for mark in marks]


def _with_whole_sections(marks: Sequence[Mark], texts: Sequence[Line], phrase: int) -> list[Mark]:
    """Return the marks with one more for each line that says to repeat a section and gives no counts."""
    opened = {mark.line for mark in marks if mark.first <= 1 and mark.strength >= 1.4}
    telling = [index for index, line in enumerate(texts) if index not in opened and _tells_a_section(line)]
    counted = {mark.line for mark in marks if mark.strength >= 1}
    if len(telling) > 1 and sum(mark.strength >= 1.4 for mark in marks) < len(telling):
        marks, counted = [], set()
    more = [
        Mark(
            index,
            len(line.tokens),
            len(line.tokens),
            tuple(Place(n, "") for n in range(1, phrase + 1)),
            2.0,
            number=line.number,
        )
        for index, line in enumerate(texts)
        if index not in counted and (repeats_a_section(line.tokens) or (not counted and _tells_a_section(line)))
    ]
    return sorted((*marks, *more), key=lambda mark: (mark.line, mark.first))


def _tells_a_section(line: Line) -> bool:
    """Whether a line names a section and tells its steps at once: "1st 8 - walk fwd r l r, kick l"."""
    for index, token in enumerate(line.tokens[:7]):
        if token.text in ("-", ":", BREAK, ".", ")") and index and is_section_name(line.tokens[:index]):
            return len(line.tokens) - index > 5
    return False


def _unfolded(links: Sequence[Link], phrase: int) -> tuple[Link, ...]:
    """Return links with numbers that go on where counts run over the edge of a section: 8&1, 2-3 becomes 8&9, 10-11."""
    done: list[Link] = []
    shift = 0
    last: Link | None = None
    for link in links:
        if link.restarts:
            shift = 0
        elif last is not None and last.mark.end.number == phrase + 1 and link.mark.start.number in (1, 2):
            shift += phrase
        last = link
        places = tuple(Place(None if p.number is None else p.number + shift, p.sub) for p in link.mark.places)
        done.append(replace(link, mark=replace(link.mark, places=places)) if shift else link)
    return tuple(done)


def _within(links: Sequence[Link], phrase: int, total: int | None) -> tuple[Link, ...]:
    """Return the links without those that go on wrongly once the dance's stated counts are complete."""
    if total is None:
        return tuple(links)
    kept: list[Link] = []
    base = high = 0
    for link in links:
        if link.restarts:
            base += -(-high // (phrase // 2)) * (phrase // 2)
            high = 0
        if link.broken and base + high >= total:
            continue
        high = max(high, *(place.number or 0 for place in link.mark.places))
        kept.append(link)
    return tuple(kept)


def _without_numbering(marks: Sequence[Mark], texts: Sequence[Line]) -> list[Mark]:
    """Return the marks without those that only number sections or paragraphs: 1. 2. 3. through the sheet, once."""
    numbering = [mark for mark in marks if _numbers_a_line(mark, texts[mark.line])]
    values = [mark.start.number for mark in numbering]
    numbers = [value or 0 for value in values]
    rises = numbers == sorted(set(numbers)) and numbers[:1] == [1] and numbers[-1] <= len(numbers) + 3
    others = [mark for mark in marks if mark.strength >= 1.4 and mark not in numbering]
    if len(values) < 2 or not rises or len(others) < 1.5 * len(values):
        return list(marks)
    gone = {id(mark) for mark in numbering}
    return [mark for mark in marks if id(mark) not in gone]


def _numbers_a_line(mark: Mark, line: Line) -> bool:
    """Whether a mark is a lone number with a full stop or bracket at a line's start."""
    if mark.first or len(mark.places) != 1 or mark.start.sub or mark.last < 2:
        return False
    if line.tokens[0].text in "([":
        return len(line.tokens) > mark.last
    return not mark.closed and line.tokens[1].text in (".", ")") and line.tokens[1].glued


def _without(texts: list[Line], links: Sequence[Link], gone: Sequence[Mark]) -> tuple[list[Line], tuple[Link, ...]]:
    """Return lines and links without marks that only sum up."""
    for mark in reversed(gone):
        if any(link.mark is mark for link in links):
            continue
        line = texts[mark.line]
        texts[mark.line] = replace(line, tokens=line.tokens[: mark.first] + line.tokens[mark.last :])
        width = mark.last - mark.first
        links = [
            replace(link, mark=replace(link.mark, first=link.mark.first - width, last=link.mark.last - width))
            if link.mark.line == mark.line and link.mark.first >= mark.last
            else link
            for link in links
        ]
    return texts, tuple(links)


def items_of(lines: Sequence[Sequence[Token]], phrase: int, feel: Feel, fill: Fill, *, first: int = 1) -> Block:
    """Return the items of words that stand outside the dance, such as a tag told in a sentence.

    Without count marks the words are one item without slots. `first` is the number that the first count has.
    """
    texts = [Line(tokens[0].line, tuple(tokens), 0) for tokens in lines if tokens]
    marks = [mark for index, line in enumerate(texts) for mark in marks_in(line.tokens, index)]
    links = chain(_counted_from_one(marks, first), phrase)
    if not links:
        words = tuple(token for line in texts for token in line.tokens)
        item = Item((), words, words[0].span) if words else None
        return Block(
            "inline", "", (), (item,) if item else (), (Bound(0, None),), 0, (), words[-1].line if words else 0
        )
    runs, _, _ = _runs(texts, links, phrase, {})
    for run in runs:
        run.kind = "inline"
    return _block("inline", "", runs, phrase, feel, fill)


def _counted_from_one(marks: Sequence[Mark], first: int) -> list[Mark]:
    """Return marks that carry on the numbers of a wall as if counted from 1."""
    start = next((mark.start.number for mark in marks if mark.start.number), 1) or 1
    shift = first - 1 if first > 1 and start >= first else start - 1 if start > 1 else 0
    if not shift:
        return list(marks)
    return [
        replace(mark, places=tuple(Place(None if p.number is None else p.number - shift, p.sub) for p in mark.places))
        for mark in marks
    ]


def _sorted_lines(lines: Sequence[Line], speaks_of_order: SpeaksOfOrder) -> tuple[list[Line], list[Line], list[Line]]:
    """Return the lines of steps, of the order, and the options."""
    texts, order, options = [], [], []
    for line in lines:
        if is_option(line.tokens):
            options.append(line)
            continue
        if speaks_of_order(line.tokens):
            order.append(line)
            continue
        texts.append(line)
    return texts, order, options


def _phrase(lines: Sequence[Line], texts: Sequence[Line]) -> int:
    """Return 6 for a waltz, else 8."""
    words = " ".join(line.words for line in lines)
    if "waltz" in words or " 3/4 time" in words or "3/4 time" in words:
        return 6
    for line in texts[:12]:
        for before, token in zip((None, *line.tokens), line.tokens, strict=False):
            if (
                token.text == "3/4"
                and before is not None
                and before.low in ("time", ",", "|", ".", "•", "/", "in", "walls", "-", "(")
            ):
                nearby = line.words
                if "turn" not in nearby:
                    return 6
    return 8


def _feel(lines: Sequence[Line], links: Sequence[Link]) -> Feel:
    """Return rolling where the sheet says so or counts & and a in one beat; an a alone is a straight one."""
    if any(_ROLLING.search(line.words) for line in lines):
        return "rolling"
    for link in links:
        places = link.mark.places
        if any(a.sub == "&" and b.sub == "a" and a.number == b.number for a, b in pairwise(places)):
            return "straight" if any(place.sub == "e" for place in places) else "rolling"
    return "straight"


def _runs(
    texts: Sequence[Line], links: Sequence[Link], phrase: int, order: dict[int, Line]
) -> tuple[list[_Run], list[Line], list[Line]]:
    """Return the runs of counts with the words around their marks, the lines before them, and remarks."""
    runs: list[_Run] = []
    header: list[Line] = []
    remarks: list[Line] = []
    by_line: dict[int, list[Link]] = {}
    for link in links:
        by_line.setdefault(link.mark.line, []).append(link)
    indent = min((texts[index].indent for index in by_line), default=0)
    waiting: list[Line] = []
    for index, line in enumerate(texts):
        here = by_line.get(index)
        if here is None:
            waiting.append(line)
            continue
        before = texts[index - 1] if index else None
        _place_waiting(waiting, here[0], runs, header, order, indent, phrase, texts)
        waiting = []
        _take_line(line, here, runs, phrase, before)
    _place_rest(waiting, runs, remarks, indent)
    return runs, header, remarks


def _place_waiting(
    waiting: list[Line],
    link: Link,
    runs: list[_Run],
    header: list[Line],
    order: dict[int, Line],
    indent: int,
    phrase: int,
    texts: Sequence[Line],
) -> None:
    """Give the lines without counts that stand before a line with counts their role."""
    opens = link.restarts or not runs
    bound = opens or _at_bound(link.mark, phrase)
    if opens:
        runs_before = bool(runs)
        run = _Run(kind="new")
        first = link.mark.number
        heads, goes_on, leads = _roles(waiting, first, order, indent, texts) if bound else ([], waiting, [])
        if not runs_before:
            above = _touching(waiting, link.mark.number)
            heads, goes_on, leads = _roles(above, first, order, indent, texts)
            goes_on, leads = [], [*goes_on, *leads] if any(line.indent >= indent for line in above) else []
            heads += [line for line in waiting if line not in above and _names_section(line, waiting)]
            heads.sort(key=lambda line: line.number)
            heads = [
                line
                for line in heads
                if line is waiting[-1] or (is_section_name(line.tokens) and len(line.tokens) < 18)
            ]
            known = {id(line) for line in heads} | {id(line) for line in leads}
            header += [line for line in waiting if id(line) not in known]
        else:
            for line in goes_on:
                runs[-1].words[-1] += line.tokens
        run.headings += [Heading(line.number, line.tokens) for line in heads]
        for line in leads:
            run.words[0] += line.tokens
        runs.append(run)
        return
    heads, goes_on, leads = _roles(waiting, link.mark.number, order, indent, texts) if bound else ([], waiting, [])
    for line in heads:
        runs[-1].inner.append((len(runs[-1].links), Heading(line.number, line.tokens)))
    for line in [*goes_on, *leads]:
        runs[-1].words[-1] += line.tokens


def _touching(waiting: Sequence[Line], first: int) -> list[Line]:
    """Return the lines that stand just above a line, no empty line between."""
    touching: list[Line] = []
    for line in reversed(waiting):
        if line.number != first - 1 - len(touching):
            break
        touching.insert(0, line)
    return touching


def _names_section(line: Line, waiting: Sequence[Line]) -> bool:
    """Whether a line that stands apart above the first counts names a part or section."""
    return line is waiting[-1] or (is_section_name(line.tokens) and len(line.tokens) < 9)


def _roles(
    waiting: Sequence[Line], first: int, order: dict[int, Line], indent: int, texts: Sequence[Line]
) -> tuple[list[Line], list[Line], list[Line]]:
    """Return which lines are headings, which go on from the counts before, which lead on to the counts after."""
    heads: list[Line] = []
    goes_on: list[Line] = []
    leads: list[Line] = []
    last = waiting[-1].number if waiting else 0
    for line in order.values():
        nearest = max((other.number for other in texts if other.number < first and other not in waiting), default=0)
        if nearest < line.number < first and extra_kind(line.tokens) and line.number >= last - 1:
            heads.append(line)
    for place, line in enumerate(waiting):
        before = waiting[place - 1] if place else next((t for t in reversed(texts) if t.number < line.number), None)
        ranged = any(mark.spread and len(mark.places) > 3 for mark in marks_in(line.tokens, 0))
        if heading_score(line, before, indent) + 1.5 * ranged >= 0.8:
            heads.append(line)
            leads.clear() if not leads else goes_on.extend(leads)
            leads = []
        elif heads:
            leads.append(line)
        else:
            goes_on.append(line)
    heads.sort(key=lambda line: line.number)
    return heads, goes_on, leads


def _at_bound(mark: Mark, phrase: int) -> bool:
    start = mark.start
    if start.number is None:
        return False
    return (start.number if start.sub else start.number - 1) % phrase in (0, 1)


def _take_line(line: Line, here: Sequence[Link], runs: list[_Run], phrase: int, before: Line | None) -> None:
    """Add a line with counts to the run, or runs, that it belongs to."""
    at = 0
    for place, link in enumerate(here):
        mark = link.mark
        words = list(line.tokens[at : mark.first])
        opens = link.restarts or (not runs[-1].links and len(runs) == 1)
        if opens and place:
            runs.append(_Run(kind="new"))
            head, rest = _cut_sentence(words)
            runs[-2].words[-1] += head
            words = rest
        run = runs[-1]
        if opens or (place == 0 and _at_bound(mark, phrase)):
            head, words = _head_of(words)
            if head:
                heading = Heading(line.number, tuple(head))
                if run.links:
                    run.inner.append((len(run.links), heading))
                else:
                    run.headings.append(heading)
        run.words[-1] += words
        run.links.append(link)
        run.words.append([])
        at = mark.last
    runs[-1].words[-1] += line.tokens[at:]


def _cut_sentence(words: list[Token]) -> tuple[list[Token], list[Token]]:
    """Part words in the middle of a line at the last full stop."""
    for index in range(len(words) - 1, -1, -1):
        if words[index].text in (".", BREAK):
            return words[: index + 1], words[index + 1 :]
    return [], words


def _head_of(words: list[Token]) -> tuple[list[Token], list[Token]]:
    """Part the heading from words before the first count of a section: "S1:", "FIRST EIGHT: On"."""
    for index, token in enumerate(words[:12]):
        if token.text in (":", BREAK, "-", ".", ">") or (token.text in (")", "]") and index + 1 < len(words)):
            head = words[: index + 1]
            if is_section_name(head) and any(part.kind in ("word", "number") for part in head):
                return head, words[index + 1 :]
    if words and len(words) <= 6 and is_section_name(words):
        return words, []
    return [], words


def _place_rest(waiting: Sequence[Line], runs: list[_Run], remarks: list[Line], indent: int) -> None:
    """Give the lines after the last counts their role: words that go on, an extra without counts, or remarks."""
    last = runs[-1].links[-1].mark.number if runs else 0
    open_extra: _Run | None = None
    for line in waiting:
        kind = extra_kind(line.tokens)
        if kind and heading_score(line, None, indent) >= 0.8:
            open_extra = _Run(kind="new", headings=[Heading(line.number, line.tokens)])
            runs.append(open_extra)
        elif open_extra is not None:
            open_extra.words[0] += line.tokens
        elif line.number == last + 1 and runs and line.tokens[0].kind == "word" and line.tokens[0].text[0].islower():
            runs[-1].words[-1] += line.tokens
            last = line.number
        else:
            remarks.append(line)


def _speaks_of_parts(lines: Sequence[Line]) -> bool:
    """Whether a sheet says that it is phrased, or gives its parts in an order: else A. and B. only number sections."""
    return any(_PARTS.search(line.words) for line in lines)


def _classify(runs: Sequence[_Run], total: int | None, parts: bool) -> None:
    """Give each run its kind and part."""
    danced = 0
    part = ""
    phrased = parts and len({heading.part for run in runs for heading in run.headings if heading.part}) > 1
    kind = "main"
    for run in runs:
        kinds = [heading.extra for heading in run.headings if heading.extra]
        complete = total is not None and danced >= total and not phrased
        if phrased:
            named = [heading.part for heading in run.headings if heading.part]
            if named:
                part, kind = named[-1], "main"
        if kinds and not (total is not None and danced < total and danced and _is_named_section(run)):
            kind = kinds[-1]
        elif complete:
            kind = kind if kind != "main" else "tag"
        elif run.headings and kind != "main" and not kinds:
            kind = "main"
        elif kind == "intro" and not run.headings:
            kind = "intro"
        run.kind = kind
        run.part = part if kind == "main" else ""
        if kind == "main":
            danced += _length(run)


def _is_named_section(run: _Run) -> bool:
    """Whether a heading numbers its section, so that "5. Finish the pattern" is no ending."""
    return any(heading.tokens[0].kind == "number" for heading in run.headings)


def _length(run: _Run) -> int:
    """The counts of a run, without the 1 of a last 8&1."""
    length = max((place.number for link in run.links for place in link.mark.places if place.number), default=0)
    places = run.links[-1].mark.places if run.links else ()
    over = (
        len(places) > 2
        and places[-1].number == length
        and bool(places[-2].sub)
        and length in (7, 9, 17, 25, 33, 41, 49, 57, 65)
    )
    return length - 1 if over else length


def _blocks(runs: Sequence[_Run], phrase: int, feel: Feel, fill: Fill) -> list[Block]:
    """Join the runs of the main dance, of each part, and of each extra."""
    groups: list[tuple[str, str, list[_Run]]] = []
    for run in runs:
        last = groups[-1] if groups else None
        same_main = run.kind == "main" and next((group for group in groups if group[:2] == ("main", run.part)), None)
        if same_main:
            same_main[2].append(run)
        elif last is not None and last[0] == run.kind != "main" and not run.headings:
            last[2].append(run)
        else:
            groups.append((run.kind, run.part, [run]))
    return [_block(kind, part, members, phrase, feel, fill) for kind, part, members in groups]


def _block(kind: str, part: str, runs: Sequence[_Run], phrase: int, feel: Feel, fill: Fill) -> Block:
    items: list[Item] = []
    bounds: list[Bound] = []
    problems: list[Problem] = []
    leaning = _leaning(runs, fill)
    base = 0
    last_line = 0
    for place, run in enumerate(runs):
        if not run.links:
            words = tuple(run.words[0])
            if words:
                items.append(Item((), words, words[0].span))
            bounds.append(Bound(base, run.headings[-1] if run.headings else None))
            continue
        stream = Stream(tuple(tuple(words) for words in run.words), tuple(link.mark for link in run.links))
        pieces, _ = parted(stream, fill, leaning)
        goes_on = bool(place) and base % phrase and not run.headings
        if not goes_on:
            bounds.append(Bound(base, run.headings[-1] if run.headings else None))
        bounds += _inner_bounds(run, base, phrase)
        items += _items(pieces, base, phrase, feel, fill)
        problems += _broken_counts(run)
        length = _length(run)
        if kind == "main" and (place + 1 < len(runs) or any(link.broken for link in run.links)):
            half = phrase // 2
            length = -(-length // half) * half
        base += length
        last_line = max(run.links[-1].mark.number, *(token.line for words in run.words for token in words), 0)
    headings = tuple(heading for run in runs for heading in run.headings)
    return Block(kind, part, headings, tuple(items), tuple(bounds), base, tuple(problems), last_line)


def _leaning(runs: Sequence[_Run], fill: Fill) -> float:
    """Return what the sections of a block together speak for, counts before words above 0."""
    total = 0.0
    for run in runs:
        if run.links:
            stream = Stream(tuple(tuple(words) for words in run.words), tuple(link.mark for link in run.links))
            total += parted(stream, fill)[1]
    return max(-3.0, min(3.0, 0.3 * total))


def _inner_bounds(run: _Run, base: int, phrase: int) -> list[Bound]:
    """Where sections begin within a run of counts that go on: at its headings, else at each phrase."""
    if run.inner:
        found = []
        for index, heading in run.inner:
            start = run.links[index].mark.start if index < len(run.links) else None
            if start is not None and start.number is not None:
                beat = start.number if start.sub else start.number - 1
                found.append(Bound(base + beat // phrase * phrase, heading))
        return found
    length = _length(run)
    if length % phrase == 1 and length > phrase:
        length -= 1
    return [Bound(base + beat, None) for beat in range(phrase, length, phrase)]


def _items(pieces: Sequence[Piece], base: int, phrase: int, feel: Feel, fill: Fill) -> list[Item]:
    items = []
    last = 0
    for piece in pieces:
        places = piece.mark.places
        if piece.mark.other and fill(piece.text, len(piece.mark.other)) < fill(piece.text, len(places)):
            places = piece.mark.other
        slots = []
        for place in places:
            number = place.number if place.number is not None else last
            if place.number is not None and place.number > phrase and last and place.number - last > phrase - 1:
                number = place.number
            slots.append(_slot(number, place.sub, base, phrase, feel))
            last = number
        items.append(Item(tuple(slots), _with_labels(piece, slots), _span_of(piece)))
    return items


def _with_labels(piece: Piece, slots: Sequence[Slot]) -> tuple[Token, ...]:
    """Return a piece's words with counts named in them ("the quarter is on 31") as they are called."""
    called = {
        str(place.number): slot.label
        for place, slot in zip(piece.mark.places, slots, strict=False)
        if not place.sub and str(place.number) != slot.label
    }
    return tuple(
        replace(token, text=called[token.text], low=called[token.text])
        if token.text in called and index and piece.text[index - 1].low in ("on", "count", "counts", "and", "in")
        else token
        for index, token in enumerate(piece.text)
    )


def _slot(number: int, sub: str, base: int, phrase: int, feel: Feel) -> Slot:
    at = base + number - 1
    if not sub:
        return Slot(label_of(at % phrase + 1), Fraction(at))
    offsets = OFFSETS[feel]
    return Slot(sub, at + offsets.get(sub, Fraction(1, 2)))  # type: ignore[arg-type]  # e, & or a


def _span_of(piece: Piece) -> Span:
    first = piece.text[0] if piece.text else None
    if first is not None and first.line == piece.mark.number:
        return Span(first.line, first.column, len(first.text))
    return Span(piece.mark.number, 1, 1)


def _broken_counts(run: _Run) -> list[Problem]:
    """Return a finding for each mark that leaves a gap or counts something twice."""
    problems = []
    for before, link in zip((None, *run.links), run.links, strict=False):
        if not link.broken:
            continue
        start = link.mark.start
        if before is None:
            message = f"the counts begin with {start.number}, not with 1"
        elif (start.number or 0) <= (before.mark.end.number or 0):
            message = f"count {start.number} comes again: the line before ends with {before.mark.end.number}"
        else:
            message = f"from {before.mark.end.number} the counts go on with {start.number}: something is missing"
        problems.append(
            Problem(
                level="error",
                kind="counts",
                line=link.mark.number,
                column=1,
                message=message,
                hint="Each count stands once, in order",
            )
        )
    return problems
