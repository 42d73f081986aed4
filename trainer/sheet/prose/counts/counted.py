"""Which numbers of a sheet count the dance: its marks, mended by what other lines say, and the chain through them."""

import re
from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.chain import Link, chain, goes_on, summed_up
from trainer.sheet.prose.counts.filled import with_filled
from trainer.sheet.prose.counts.half_beats import with_first_half, with_half_beats
from trainer.sheet.prose.counts.headed_rows import below_headings
from trainer.sheet.prose.counts.how_many import without_how_many
from trainer.sheet.prose.counts.inner_counts import without_pointers
from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.counts.mistyped import with_mistyped
from trainer.sheet.prose.counts.numbered import without_numbering
from trainer.sheet.prose.counts.pairs_written import writes_pairs
from trainer.sheet.prose.counts.partly_told import with_parts
from trainer.sheet.prose.counts.rhythms import without_explained
from trainer.sheet.prose.counts.scan import Place
from trainer.sheet.prose.counts.summaries import named_ranges, without_sums
from trainer.sheet.prose.counts.whole_lines import whole_lines
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.heads.referring_words import goes_as_before, names_a_section, points_back, repeats_a_section
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Fill

_FIRST = re.compile(
    r"(?:sections?|sec|set|block|phrase|figure|part|group|pattern|s|verse|p|first|1 st|the first) ?"
    r"(?:no ?\.? ?)?[-#:.(]? ?"
    r"(?:1|i|one|a|eight|8|6|six|set|section|part|half|pattern|block|figure)\b"
    r"(?! ?[&/+]| ?,(?! ?(?:the )?(?:1 st|first|eight|section|\d+ counts?)\b))|"
    r"(?:one|i) ?(?:[:.)]|- )"
)

_LENGTH = re.compile(r" \( ?(?:\d+|[a-z]+) (?:counts?|beats?|cts?)\b[^()]*\)$")
"""How long an extra is, behind its name: "FINISH (2 counts)"."""
_HEADING = 14
"""Tokens of a heading of an extra that may be set apart from its steps."""
_NAME = 3
"""Tokens of an extra's name before its first count: "FINISH | 8"."""

_GOES_ON = 2
"""Numbers that go on from others in their line."""
_OPENS = 1.5
"""The strength of a mark that is a count for sure."""
_LEAST = 3
"""Lines that begin with counts, of a section one of whose counts is mistyped."""
_LONG_HEAD = 24
"""Tokens of a line that heads an intro; one that counts its steps may be longer."""
_RANGE = re.compile(r"[(\[] (?:(?:counts?|beats?) )?1 (?:-|to) (\d+) [)\]]")
_HEADED = 7
"""Tokens of the name of a section and its range."""
_TITLE = 6
"""Tokens of a line that is a name and no more."""


def counted(
    texts: Sequence[Line], order: Sequence[Line], phrase: int, total: int | None, fill: Fill
) -> tuple[list[Line], tuple[Link, ...]]:
    """Return the lines without marks that only sum up, and the marks that are counts, in order.

    `order` are the lines between them that tell the order; `phrase` is 8, in a waltz 6; `total` is the stated length
    of the main dance in counts.
    """
    pairs = writes_pairs([line.tokens for line in texts])
    marks = [
        mark
        for index, line in enumerate(texts)
        if not (line.heads or line.mute)
        for mark in marks_in(line.tokens, index, phrase // 2, pairs=pairs)
        if mark.first >= _head_end(line)
    ]
    marks = with_half_beats(texts, without_pointers(texts, marks), fill)
    texts, marks = with_parts(texts, without_explained(texts, marks, fill), phrase)
    marks = _below_the_head(_pairs_where_and_is_written(without_numbering(marks, texts)), texts, phrase)
    marks = with_first_half(marks)
    marks = with_filled(texts, marks, phrase, fill)
    fresh = _under_extras(texts, order)
    marks = _with_whole_sections(marks, texts, phrase, fresh, fill)
    marks = without_how_many(marks, texts, fresh)
    links = with_mistyped(chain(marks, phrase, fresh), marks, phrase)
    whole = whole_lines(texts, marks, links, fresh, (phrase, total), fill)
    if whole:
        links = with_mistyped(chain(marks, phrase, fresh | whole), marks, phrase)
    sums = summed_up(marks, phrase, fresh | whole)
    kept, links = without_sums(texts, links, sums, named_ranges(texts, marks))
    return kept, _unfolded(_within(links, phrase, total, fresh), phrase)


def _under_extras(texts: Sequence[Line], order: Sequence[Line]) -> set[int]:
    """Return which lines stand right under one that tells of an extra, or begin with its name: their counts are its."""
    found = set()
    for index, line in enumerate(texts):
        first = next(iter(marks_in(line.tokens, index)), None)
        if first is None:
            continue
        before = texts[index - 1] if index else None
        above = max((one for one in order if one.number < line.number), key=lambda one: one.number, default=None)
        below = next(iter(marks_in(texts[index + 1].tokens, 0)), None) if index + 1 < len(texts) else None
        if below is not None and _heads_changed_counts(line, below):
            continue
        if (0 < first.first <= _NAME and extra_kind(line.tokens[: first.first])) or _head_end(line):
            found.add(index)
        elif above is not None and (before is None or before.number < above.number):
            told = above.tokens[-1].text != ":" and any(mark.strength >= 1.4 for mark in marks_in(above.tokens, 0))
            told &= not _heads_changed_counts(above, first)
            named = extra_kind(above.tokens) or (before is not None and _names_an_extra(before))
            # An empty line may stand below a heading, or the head of a table.
            near = 2 if len(above.tokens) <= _HEADING else 1
            if line.number <= above.tokens[-1].line + near and named and not told:
                found.add(index)
        elif _stands_under_a_name(texts, index):
            found.add(index)
    return found


def _stands_under_a_name(texts: Sequence[Line], index: int) -> bool:
    """Whether the paragraph that a line with counts stands in is headed by the name of an extra alone."""
    at = index
    while at and texts[at - 1].number >= texts[at].number - 1 - _names_an_extra(texts[at - 1]):
        at -= 1
        if _names_an_extra(texts[at]) or _heads_changed_counts(texts[at], next(iter(marks_in(texts[index].tokens, 0)))):
            return True
        if marks_in(texts[at].tokens, at):
            return False
    return False


def _heads_changed_counts(head: Line, first: Mark) -> bool:
    """Whether a line names the counts of a section that are changed, the ones counted below it, and no others."""
    told = {place for mark in marks_in(head.tokens, 0) if len(mark.places) > 1 for place in mark.places}
    begins = (first.start in told or not told) and first.start != Place(1, "")
    return begins and extra_kind(head.tokens) == "change" and len(head.tokens) < _LONG_HEAD


def _head_end(line: Line) -> int:
    """Return where the counts of an extra begin in the line that says where it stands, 0 in other lines.

    "Change (instead of 7&8 of B): 7 behind": the 7&8 of the head are none of its counts.
    """
    opening, closing = (next((at for at, one in enumerate(line.tokens) if one.text == mark), 0) for mark in "()")
    end = closing + 2
    colon = [one.text for one in line.tokens[closing + 1 : end]] == [":"]
    if not 0 < opening <= _NAME or not colon or extra_kind(line.tokens[:closing]) is None:
        return 0
    counts = [mark for mark in marks_in(line.tokens, 0) if mark.first >= end]
    return end if any(mark.first == end or mark.closed for mark in counts) else 0


def _names_an_extra(line: Line) -> bool:
    """Whether a line is no more than the name of an extra, without counts, or says which it replaces: "ENDING"."""
    if extra_kind(line.tokens) == "change" and line.tokens[-1].text in (")", "]", ".", ":"):
        opening = next((at for at, token in enumerate(line.tokens) if token.text in ("(", "[")), _TITLE)
        if opening < _TITLE and not marks_in(line.tokens[:opening], 0):
            return True
    words = " ".join(token.low for token in line.tokens)
    replaced = _REPLACED.search(words) or _LENGTH.search(words)
    length = len(line.tokens) if replaced is None else words[: replaced.start()].count(" ") + 1
    return extra_kind(line.tokens) is not None and length <= _TITLE and not marks_in(line.tokens[:length], 0)


_REPLACED = re.compile(
    r" (?:[,(:\-] )?(?:in place of|instead of|replac(?:es|ing)|takes? the place of) [\d &+ae,()-]*(?:\)|$)"
)
"""The counts that an extra is danced for, at the end of the line that names it: "CLOSE, in place of 8&a"."""


def _pairs_where_and_is_written(marks: Sequence[Mark]) -> list[Mark]:
    """Return "1 and 2" as two counts in a sheet that writes & for the half beat."""
    if not any(place.sub == "&" for mark in marks if not mark.other and len(mark.places) > 1 for place in mark.places):
        return list(marks)
    return [replace(mark, places=mark.other, other=()) if mark.other else mark for mark in marks]


def _below_the_head(marks: Sequence[Mark], texts: Sequence[Line], phrase: int) -> list[Mark]:
    """Return the marks without those of the head that only explain how it is counted: "every beat is 1 & a".

    The head ends with the first line that names a section, or begins with the count 1 and goes on below, if no four
    counts in a row are told above it, and no three lines there begin with counts.
    """
    if not texts:
        return list(marks)
    if (headed := below_headings(texts, marks)) is not None:
        return headed
    head = next((index for index, line in enumerate(texts) if _opens_the_dance(line)), len(texts))
    head = min(head, next((one.line for one, after in pairwise(marks) if _opens_a_line(one, after)), head)) % len(texts)
    above = [mark for mark in marks if mark.line < head]
    going_on = _counting(above)
    told = {place.number for mark in above for place in mark.places if mark.strength >= 1 or mark.line in going_on}
    lines = {mark.line for mark in above if mark.first == 0 and mark.strength >= _OPENS}
    told_there = set(range(1, phrase // 2 + 1)) <= told and not _only_explained(above, phrase)
    if not above or told_there or len(lines) >= _LEAST:
        return list(marks)
    return [mark for mark in marks if mark.line >= head]


def _only_explained(above: Sequence[Mark], phrase: int) -> bool:
    """Whether counts stand in the words of one line, and go no further than half a phrase: "I call 1, 2a, 3, 4a"."""
    numbers = {place.number or 0 for mark in above for place in mark.places}
    return max(numbers) <= phrase // 2 and len({mark.line for mark in above}) == 1 and above[0].first > 0


def _opens_a_line(mark: Mark, after: Mark) -> bool:
    """Whether a line begins with the first count, and the next mark goes on from it at the start of its line."""
    opens = mark.first == after.first == 0 and mark.line < after.line and min(mark.strength, after.strength) >= _OPENS
    return opens and mark.start == Place(1, "") and goes_on(mark.end, after.start)


def _opens_the_dance(line: Line) -> bool:
    """Whether a line heads the first section or part, or a danced intro."""
    words = line.words.strip("*_~= ")
    if line.heads or _FIRST.match(words):
        return True
    counted = sum(mark.closed for mark in marks_in(line.tokens, 0)) > _GOES_ON
    name = line.tokens if counted else line.tokens[:3]
    return (counted or len(line.tokens) < _LONG_HEAD) and extra_kind(name) == "intro"


def _with_whole_sections(
    marks: Sequence[Mark], texts: Sequence[Line], phrase: int, fresh: Collection[int], fill: Fill
) -> list[Mark]:
    """Return the marks with one more for each line that says to repeat a section and gives no counts."""
    opened = {mark.line for mark in marks if mark.first <= 1 and mark.strength >= 1.4}
    telling = [index for index, line in enumerate(texts) if index not in opened and _tells_a_section(line)]
    counted = {mark.line for mark in marks if mark.strength >= 1} | _counting(marks)
    inside = sum(mark.line in telling for mark in marks)
    uncounted = not counted
    bare = sum(mark.strength >= 1.4 for mark in marks) < len(telling) and inside < 2 * len(telling)
    if len(telling) > 1 and bare and not _counted_below(telling, marks, phrase):
        # The counts of an extra are its own, also where the sections have none.
        marks = [mark for mark in marks if _of_an_extra(mark.line, telling, fresh)]
        counted, uncounted = {mark.line for mark in marks}, True
    more = [
        Mark(
            index,
            len(line.tokens),
            len(line.tokens),
            tuple(Place(n, "") for n in range(1, _length(line, phrase) + 1)),
            2.0,
            number=line.number,
        )
        for index, line in enumerate(texts)
        if index not in counted
        and not line.mute
        and (
            _goes_as_another(texts, marks, index)
            or _fills_a_section(texts, marks, index, phrase, fill)
            or _is_said_again(texts, index)
            or (uncounted and _tells_a_section(line))
        )
    ]
    return sorted((*marks, *more), key=lambda mark: (mark.line, mark.first))


def _of_an_extra(index: int, telling: Sequence[int], fresh: Collection[int]) -> bool:
    """Whether a line stands in an extra: no section is told since it began."""
    begins = max((first for first in fresh if first <= index), default=-1)
    return begins >= 0 and not any(begins < section <= index for section in telling)


def _counted_below(telling: Sequence[int], marks: Sequence[Mark], phrase: int) -> bool:
    """Whether numbers rise through a whole section below most lines that only name one: "A. We go to the side."."""
    whole = 0
    for first, last in zip(telling, (*telling[1:], telling[-1] + _LONG), strict=True):
        due = 1
        for mark in marks:
            if first <= mark.line < last and mark.start.number == due:
                due = (mark.end.number or due) + 1
        whole += due > phrase
    return whole > len(telling) / 2


_FILLED = 0.25
"""Words that fill a whole section so well need no counts."""
_LONG = 12
"""Lines of a section at most."""


def _counting(marks: Sequence[Mark]) -> set[int]:
    """Return the lines with at least four numbers that go on as counts do: "right to side 1, left behind 2, ..."."""
    steps = Counter(
        mark.line
        for before, mark in pairwise(marks)
        if mark.line == before.line and mark.start.number == (before.end.number or 0) + 1
    )
    return {line for line, number in steps.items() if number > _GOES_ON}


def _goes_as_another(texts: Sequence[Line], marks: Sequence[Mark], index: int) -> bool:
    """Whether a line tells its section by another, and it is not told all the same, counted from 1, right below it."""
    below = next((mark for mark in marks if mark.line == index + 1), None)
    near = below is not None and texts[index + 1].number <= texts[index].tokens[-1].line + 1
    told = near and below is not None and below.start.number == 1
    if told and below is not None and not (below.first == 0 and len(below.places) > 1):
        # The next section may begin there: "2. The same, other foot" above "Section 3: 1 step right".
        told = not is_section_name(texts[index + 1].tokens[:_NAME])
    return not told and (goes_as_before(texts[index].tokens) or repeats_a_section(texts[index].tokens))


def _fills_a_section(texts: Sequence[Line], marks: Sequence[Mark], index: int, phrase: int, fill: Fill) -> bool:
    """Whether a line names its section and tells a whole one without counts, and none stand below it.

    "Third 8: vine right with a touch, vine left with a touch." among others that are counted.
    """
    line = texts[index]
    head = next((at for at, one in enumerate(line.tokens[:_TITLE]) if one.text in (":", BREAK)), 0)
    if not head or not is_section_name(line.tokens[:head]) or extra_kind(line.tokens[:head]):
        return False
    words = line.tokens[head + 1 :]
    if sum(token.low in STEP_WORDS for token in words) < phrase // 2 or fill(words, phrase) >= _FILLED:
        return False
    counted = {mark.line for mark in marks}
    for at in range(index + 1, len(texts)):
        first = texts[at].tokens[0]
        headed = first.kind == "word" and is_section_name(texts[at].tokens[:_NAME])
        # The head of a table may have stood between.
        near = texts[at - 1].tokens[-1].line + 1 + (at == index + 1)
        if headed or texts[at].number > near:
            return True
        if at in counted:
            # It is only headed so.
            return False
    return True


def _length(line: Line, phrase: int) -> int:
    """Return the counts of a line that tells a section: fewer than a phrase where it says so, "Tag (1-4) stomp"."""
    told = _RANGE.search(" ".join(token.low for token in line.tokens[:_HEADED]))
    return min(int(told[1]), phrase) if told is not None else phrase


def _is_said_again(texts: Sequence[Line], index: int) -> bool:
    """Whether a line under the heading of a section points back to another section: "Pattern 7 once more"."""
    if not index:
        return False
    line, head = texts[index], texts[index - 1]
    headed = head.number == line.number - 1 and is_section_name(head.tokens) and extra_kind(head.tokens) is None
    return headed and len(head.tokens) < 12 and points_back(line.tokens) and names_a_section(line.tokens)


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
            shift = -link.called_from
        elif last is not None and last.mark.end.number == phrase + 1 and link.mark.start.number in (1, 2):
            shift += phrase
        last = link
        places = tuple(Place(None if p.number is None else p.number + shift, p.sub) for p in link.mark.places)
        done.append(replace(link, mark=replace(link.mark, places=places)) if shift else link)
    return tuple(done)


def _within(links: Sequence[Link], phrase: int, total: int | None, fresh: Collection[int]) -> tuple[Link, ...]:
    """Return the links without those that go on wrongly once the dance's stated counts are complete.

    The counts of extras, which stand on the lines `fresh`, are none of the dance.
    """
    if total is None:
        return tuple(links)
    kept: list[Link] = []
    base = high = 0
    extra = False
    for link in links:
        if link.resumes:
            base = high = 0
            extra = False
        elif link.restarts:
            base += 0 if extra else -(-high // (phrase // 2)) * (phrase // 2)
            high = 0
            extra = link.mark.line in fresh
        if link.broken and base + high >= total:
            continue
        high = max(high, *(place.number or 0 for place in link.mark.places))
        kept.append(link)
    return tuple(kept)
