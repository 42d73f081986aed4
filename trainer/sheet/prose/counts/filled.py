"""Counts told only where a figure ends: "vine right with a touch on four", "walk right, left, right, on 4 kick".

The counts that nobody names are filled in where the words between two marks fill just as many: before a mark at the
end of its clause they are its own, before one that opens its clause they belong to the mark before, or to one put in.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from trainer.sheet.prose.counts.chain import points_ahead
from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.counts.scan import Place
from trainer.sheet.prose.heads.headings import is_section_name
from trainer.sheet.prose.heads.heads_parted import head_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Fill, Token

_FITS = 0.4
"""Words that fill counts so well are meant for them."""
_WORSE = 0.3
"""Words that fill the told counts worse by so much are danced on more."""
_SURE = 3
"""Counts; so many may be filled in once in a sheet, fewer only where it is the sheet's way."""
_MOST = 60
"""Tokens of a figure between two marks."""
_SURE_STRENGTH = 2.0
_JOINS = {"and", "then", "so", "but", "now", "while"}
_STARTS = {"from", "starting", "beginning", "begin", "start"}
_CLOSING = (",", ".", ";", ":", ")", "]", "!", "?", BREAK)
_BETWEEN = (".", "!", "?", ":", BREAK)
_TITLE = 12
"""Tokens of a section's heading."""


@dataclass(frozen=True, slots=True)
class _Stretch:
    """The words before a mark that no other mark has, and where they begin."""

    line: int
    first: int
    words: tuple[Token, ...]
    held: int
    """The last count before them, 0 at the start of a section."""
    led: bool
    """The mark before them opens its clause: they are its words."""


def with_filled(texts: Sequence[Line], marks: Sequence[Mark], phrase: int, fill: Fill) -> list[Mark]:
    """Return the marks with the counts that the sheet leaves out where figures take more than the one told."""
    if _leads_lines(marks, phrase):
        return list(marks)
    done: list[Mark] = []
    changed: list[int] = []
    last: Mark | None = None
    reached = 0
    passed: set[int | None] = set()
    for at, mark in enumerate(marks):
        if points_ahead(marks, at):
            done.append(mark)
            continue
        goes_on = last is not None and mark.start.number == reached + 1
        if _is_weak(texts, mark) and not goes_on:
            done.append(mark)
            passed.add(mark.start.number)
            continue
        stretch = _stretch(texts, last, mark, phrase, reached)
        missing = (mark.start.number or 0) - stretch.held - 1 if not mark.start.sub else 0
        told = set(range(stretch.held + 1, mark.start.number or 0))
        if 0 < missing < phrase and not told & passed and _may_end(texts, last, mark, phrase):
            changed += [missing + 1] if _fill_in(done, last, mark, stretch, texts, fill) else []
        if not done or done[-1].line != mark.line or done[-1].last < mark.last:
            done.append(mark)
        last, passed = done[-1], set()
        # A half beat that stands alone in its mark follows the number before it.
        reached = reached if last.end.number is None else last.end.number
    done = [_from_here_on(texts, done, at, phrase, fill) for at in range(len(done))]
    return done if len(changed) > 1 or max(changed, default=0) >= _SURE else _as_told(marks, done)


def _leads_lines(marks: Sequence[Mark], phrase: int) -> bool:
    """Whether the sheet's lines begin with their counts: then no words stand before them."""
    heads = {id(mark) for mark, after in pairwise(marks) if mark.line == after.line and _heads_a_section(mark, phrase)}
    sure = [mark for mark in marks if mark.strength >= 1 and id(mark) not in heads]
    return sum(mark.first == 0 for mark in sure) > 0.5 * len({mark.line for mark in sure})


def _as_told(marks: Sequence[Mark], done: Sequence[Mark]) -> list[Mark]:
    """Return the marks as they were, but for those that say from where a figure is danced on."""
    onward = {(mark.line, mark.first): mark for mark in done if mark.strength == _SURE_STRENGTH and mark.spread}
    return [onward.get((mark.line, mark.first), mark) for mark in marks]


def _may_end(texts: Sequence[Line], last: Mark | None, mark: Mark, phrase: int) -> bool:
    """Whether a mark may be the last count of a figure: no range, no length, no count that the mark before has."""
    line = texts[mark.line].tokens
    if mark.spread or (mark.first and line[mark.first - 1].low == "for"):
        return False
    if last is None or last.line != mark.line or _heads_a_section(last, phrase):
        return True
    end = last.end.number or 0
    goes_on = end < (mark.start.number or 0)
    return mark.start not in last.places and not mark.closed and (goes_on or end % phrase == 0)


def _heads_a_section(mark: Mark, phrase: int) -> bool:
    """Whether a range at the start of a line is that of its whole section: "[9-16] ... stepping back (3), ..."."""
    return mark.first == 0 and mark.spread and len(mark.places) == phrase


def _is_weak(texts: Sequence[Line], mark: Mark) -> bool:
    """Whether a mark is no more than a number among words: "turn one quarter"."""
    if mark.start.number is None:
        return False
    line = texts[mark.line].tokens
    return mark.strength < 1 and not _closes(line, mark) and not _opens(line, mark)


def _fill_in(
    done: list[Mark], last: Mark | None, mark: Mark, stretch: _Stretch, texts: Sequence[Line], fill: Fill
) -> bool:
    """Put in the counts before a mark, if the words there are danced on them; return whether they are."""
    number = mark.start.number or 0
    told = tuple(Place(count, "") for count in range(stretch.held + 1, number))
    line = texts[mark.line].tokens
    words = stretch.words
    if not 1 < len(words) <= _MOST:
        return False
    if _opens(line, mark):
        counts = len(told) + stretch.led
        own = len(last.places) if stretch.led and last is not None else 1
        if counts <= own or not _fits(words, counts, own, fill):
            return False
        if stretch.led and last is not None and done[-1] is last:
            done[-1] = replace(last, places=(*last.places, *told), strength=max(last.strength, _SURE_STRENGTH))
        else:
            done.append(
                Mark(
                    stretch.line, stretch.first, stretch.first, told, _SURE_STRENGTH, number=texts[stretch.line].number
                )
            )
        return True
    if not _fits(words, len(told) + len(mark.places) + stretch.led, len(mark.places) + stretch.led, fill):
        return False
    if stretch.led and last is not None and done[-1] is last:
        done[-1] = replace(last, places=(*last.places, *told), strength=max(last.strength, _SURE_STRENGTH))
        return True
    other = (*told, *mark.other) if mark.other else ()
    strength = max(mark.strength, _SURE_STRENGTH)
    done.append(replace(mark, places=(*told, *mark.places), other=other, strength=strength))
    return True


def _fits(words: Sequence[Token], counts: int, told: int, fill: Fill) -> bool:
    """Whether words are danced on so many counts and not on those that are told."""
    price = fill(words, counts)
    return price < _FITS and fill(words, told) >= price + _WORSE


def _stretch(texts: Sequence[Line], last: Mark | None, mark: Mark, phrase: int, reached: int) -> _Stretch:
    """Return the words between a mark and the one before it, or the heading between them, after count `reached`."""
    start = mark.line
    while start > (last.line if last is not None else 0) and not _parts(texts, start, last):
        start -= 1
    same = last is not None and (start == last.line)
    if same and last is not None:
        first, words = last.last, _between(texts, last.line, last.last, mark)
    else:
        first, words = 0, _between(texts, start, 0, mark)
    number = mark.start.number or 0
    end = reached if last is not None else None
    anew = not same or (end or 0) >= number or not (end or 0) % phrase
    head, rest = head_of(list(words)) if anew else ([], list(words))
    headed = bool(head) or not same
    goes_on = end is not None and end < number and not (headed and number <= phrase)
    held = (end or 0) if goes_on else (number - 1) // phrase * phrase if number > phrase else 0
    led = bool(goes_on and same and last is not None and _opens(texts[last.line].tokens, last))
    return _Stretch(start, first + len(head), tuple(rest), held, led)


def _between(texts: Sequence[Line], index: int, first: int, mark: Mark) -> tuple[Token, ...]:
    """Return the words from a place on up to a mark."""
    if index == mark.line:
        return tuple(texts[index].tokens[first : mark.first])
    inner = [token for line in texts[index + 1 : mark.line] for token in line.tokens]
    return (*texts[index].tokens[first:], *inner, *texts[mark.line].tokens[: mark.first])


def _parts(texts: Sequence[Line], index: int, last: Mark | None) -> bool:
    """Whether a line begins something new: after a heading or an empty line."""
    line, before = texts[index], texts[index - 1]
    # "Section 1: left vine and touch 1-4" is more than a title.
    counted = last is not None and last.line == index - 1 and last.spread and last.first > 0
    titled = len(before.tokens) <= _TITLE and is_section_name(before.tokens) and not counted
    return line.heads or before.heads or titled or line.number > before.tokens[-1].line + 1


def _opens(line: Sequence[Token], mark: Mark) -> bool:
    """Whether a mark opens its clause: "on four you kick"."""
    before = line[mark.first - 1] if mark.first else None
    if before is not None and before.low in _STARTS:
        return True
    edge = before is None or before.text in _CLOSING or before.low in _JOINS
    return edge and (mark.ends == ":" or not _closes(line, mark))


def _closes(line: Sequence[Token], mark: Mark) -> bool:
    """Whether a mark ends its clause: "with a touch on four,"."""
    if mark.closed and mark.first:
        return True
    before = line[mark.first - 1].text if mark.first else "."
    if before in _BETWEEN and line[mark.first].text[0].isupper():
        # "On four, kick the left."
        return False
    after = line[mark.last] if mark.last < len(line) else None
    return mark.ends == "." or after is None or after.text in (*_CLOSING, "(") or after.low in _JOINS


def _from_here_on(texts: Sequence[Line], marks: Sequence[Mark], at: int, phrase: int, fill: Fill) -> Mark:
    """Return a mark, with the counts up to the next where it says that a figure begins there: "from 5, walk back"."""
    mark = marks[at]
    line = texts[mark.line].tokens
    if len(mark.places) > 1 or mark.start.number is None or not mark.first:
        return mark
    after = marks[at + 1] if at + 1 < len(marks) else None
    # "A quarter turn left on 1: left forward, right beside left and left in place. On 4-5-6 ..."
    told = mark.ends == ":" and after is not None and (after.start.number or 0) > mark.start.number + 1
    if not told and not {token.low for token in line[max(mark.first - 2, 0) : mark.first]} & _STARTS:
        return mark
    number = mark.start.number
    end = -(-number // phrase) * phrase
    if after is not None and after.start.number is not None and number < after.start.number <= end:
        end = after.start.number - 1
    until = after.first if after is not None and after.line == mark.line else len(line)
    if told:
        until = next((place for place in range(mark.last, until) if line[place].text == "."), until)
    words = tuple(line[mark.last : until])
    if not 1 < len(words) <= _MOST or not _fits(words, end - number + 1, 1, fill):
        return mark
    places = tuple(Place(count, "") for count in range(number, end + 1))
    return replace(mark, places=places, strength=_SURE_STRENGTH, spread=True)
