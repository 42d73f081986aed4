"""Every place in a sheet that may be a count mark: "1&2", "5-6", "(3 and 4)", "7 8 &", "456", "Count 5", "one".

A mark is found by its form; how likely it is one is its `strength`. Which of them are the counts of the dance is
told by the chain (`chain.py`): counts rise, fill their sections and start again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import pairwise

from trainer.sheet.prose.counts.examples import is_example, past_example, shows_how_to_count
from trainer.sheet.prose.counts.figures_counted import several_of
from trainer.sheet.prose.counts.half_marks import half_alone
from trainer.sheet.prose.counts.numbers_in_talk import only_talks
from trainer.sheet.prose.counts.onward import numbers_steps, refers, repeats_counts
from trainer.sheet.prose.counts.ordinals import ordinal_told
from trainer.sheet.prose.counts.scan import HIGHEST, Place, Scan, is_numbered
from trainer.sheet.prose.lexis.somebody import is_somebody
from trainer.sheet.prose.lexis.vocabulary import NUMBERED, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token


@dataclass(frozen=True, slots=True)
class Mark:
    """A possible count mark: tokens first to last (exclusive) of a line."""

    line: int
    """Index into the lines, not the sheet's number."""
    first: int
    last: int
    places: tuple[Place, ...]
    strength: float
    spread: bool = False
    """A range such as 1-8, whose inner counts may be given too: then it is a heading or summary."""
    other: tuple[Place, ...] = ()
    """The other understanding of "1 and 2": without the &."""
    closed: bool = False
    """It stands alone in brackets, or alone in its cell."""
    number: int = 0
    """The sheet's number of its line."""
    spelled: bool = False
    """Its counts are told in words."""
    ends: str = ""
    """The colon or full stop that follows it."""
    column: int = 1
    """The column of its first count in that line."""

    @property
    def start(self) -> Place:
        """Its first count."""
        return self.places[0]

    @property
    def end(self) -> Place:
        """Its last count."""
        return self.places[-1]


_OPENERS = {"count", "counts", "ct", "cts", "beat", "beats", "cnt", "cnts"}
_NOT_BEFORE = {
    "wall", "walls", "w", "section", "sections", "sec", "s", "set", "part", "block", "phrase", "x", "after",
    "figure", "figures", "tag", "page", "lesson", "chapter", "handout", "sheet", "week", "session", "issue",
    "volume", "option", "version", "until", "till", "restart", "about", "wait", "intro", "plus", "another",
    "verse", "chorus", "step", "steps", "up", "first", "last", "next", "only", "line", "bar", "bars", "eights",
    "eight", "number", "no", "level", "of", "ending", "second", "third", "fourth", "fifth", "sixth", "seventh",
    "eighth", "st", "nd", "rd", "th", *NUMBERED,
}  # fmt: skip
_STEPS_AFTER = {"heel", "hip", "easy", "claps", "walks", "runs", "bounces", "bumps", "steps"}
"""A lone number before these is how many; a range is counts: "2 heel bounces", "21-24 heel R, together"."""
_THINGS = {
    "thing", "things", "other", "others", "last", "final", "little", "small", "big", "extra", "exception",
    "exceptions", "reminder", "tip", "tips", "change", "changes", "word", "words", "note", "notes", "of", "only",
}  # fmt: skip
"""Before these a number in words is how many: "One thing to remember"."""
_LONGEST = 24  # no step or figure is given more counts at once
_HEAD = 5  # tokens of "A (16):"; "A (1) walk" counts its first step
_LASTS = {"for", "at", "with", "by"}
"""Before a one in words that is a count: "walk right for one and left for two"."""
_LASTING = {"during", "over", "throughout", "through", "across", "both"}
"""Before two counts in words: something lasts through both, and no half beat is between them."""
_NAMES_OF_EXTRAS = {
    "tag", "bridge", "intro", "introduction", "ending", "finish", "coda", "finale", "end", "extra", "outro",
    "interlude", "opening", "opener", "prelude", "overture", "link", "addition", "change",
}  # fmt: skip
_OPEN = {"(": ")", "[": "]", "{": "}", "<": ">"}


def marks_in(line: Sequence[Token], index: int, bar: int = 0, *, pairs: bool = False) -> list[Mark]:
    """Return the possible marks of a line of tokens, from left to right, without overlaps.

    With `pairs` "12" is the counts 1 and 2. With `bar`, the counts of a bar, a line that begins with "bar 3" is marked
    by the counts of that bar.
    """
    found = _found(tuple(line), bar, pairs)
    return list(found) if not index else [replace(mark, line=index) for mark in found]


@lru_cache(maxsize=4096)
def _found(line: tuple[Token, ...], bar: int, pairs: bool) -> tuple[Mark, ...]:
    """Return the marks of a line as those of line 0; each line is asked for its marks many times."""
    found: list[Mark] = []
    at = 0
    barred = bar_mark(line, bar) if bar else None
    if barred is not None:
        found.append(barred)
        at = barred.last
    while at < len(line):
        mark = _mark_at(line, at, pairs=pairs)
        if mark is None:
            at = past_example(line, at)
            continue
        found.append(mark)
        at = mark.last
    if barred is not None and (any(mark.closed for mark in found[1:]) or _are_told(line, found[1:], barred.last)):
        # The bar is only a heading: its counts are given one by one.
        return tuple(found[1:])
    return tuple(found)


def _are_told(line: Sequence[Token], marks: Sequence[Mark], first: int) -> bool:
    """Whether the counts of a bar stand in its cells one by one: "bar 2 | 5 rock L | 6 recover R | 7 L back"."""
    celled = [mark for mark in marks if mark.first == first or line[mark.first - 1].text == BREAK]
    rising = [after.start.number == (before.start.number or 0) + 1 for before, after in pairwise(celled)]
    return len(celled) > 1 and all(rising)


def bar_mark(line: Sequence[Token], bar: int) -> Mark | None:
    """Return the counts of "bar 3" or "bars 3-4" at a line's start."""
    if len(line) < 2 or line[0].low not in ("bar", "bars", "measure", "measures"):
        return None
    scan = Scan(line, 1, in_bracket=False)
    scan.run()
    numbers = [place.number for place in scan.places if place.number and not place.sub]
    if not numbers:
        return None
    last = scan.at
    while last < len(line) and line[last].text in ("-", ":", ".", ")", BREAK):
        last += 1
    places = tuple(Place(count, "") for number in numbers for count in range((number - 1) * bar + 1, number * bar + 1))
    return Mark(0, 0, last, places, 2.0, spread=True, number=line[0].line, column=line[0].column)


def _mark_at(line: Sequence[Token], at: int, *, pairs: bool) -> Mark | None:
    if line[at].kind == "amp" and at and line[at].glued and line[at - 1].kind == "number":
        # "In place of 8&a": the half beats are those of a number that is no count here.
        return None
    bracket = _OPEN.get(line[at].text)
    start = at + 1 if bracket else at
    opened = False
    # "16 counts 4 walls" says how many.
    measured = start > 0 and line[start - 1].kind == "number"
    if start < len(line) and (line[start].low in _OPENERS or numbers_steps(line, start)) and not measured:
        start, opened = start + 1, True
    elif start < len(line) and line[start].low == "on" and not bracket:
        start, opened = start + 1, True
        if start < len(line) and line[start].low in _OPENERS:
            start += 1
    half = half_alone(line, at)
    told = ordinal_told(line, at) if half is None else ((half[0],), half[1])
    if told is not None:
        places, last = told
        while last < len(line) and line[last].text == ":":
            last += 1
        return Mark(0, at, last, places, 1.7, number=line[last - 1].line, column=line[last - 1].column)
    scan = Scan(line, start, in_bracket=bool(bracket), pairs=pairs)
    scan.run()
    if not scan.places or refers(line, start - 1) or is_example(line, at) or shows_how_to_count(line, at):
        return None
    if scan.other and start and line[start - 1].low in _LASTING:
        scan.places, scan.other = scan.other, []
    end = scan.at
    closed = bool(bracket) and end < len(line) and line[end].text == bracket
    if (bracket and not closed) or _is_a_length(line, at if bracket else at - 1):
        return None
    if not closed and not _allowed(line, at, start, end, opened, scan):
        return None
    last = end + 1 if closed else end
    whole_cell = _edge(line, at - 1) and _edge(line, last)
    strength = _strength(line, at, last, scan, opened=opened, closed=closed or whole_cell)
    while last < len(line) and line[last].text in ("-", ":", ".", ")", "=", ";", ">") and not closed:
        last += 1
    return Mark(
        0,
        at,
        last,
        tuple(scan.places),
        strength,
        scan.spread,
        tuple(scan.other),
        closed or whole_cell,
        line[start].line,
        scan.spelled,
        next((token.text for token in line[end:last] if token.text in (":", ".")), "") if not closed else "",
        line[start].column,
    )


def _is_a_length(line: Sequence[Token], at: int) -> bool:
    """Whether a bracket that opens at a token says how much of a part, or how long an extra: "A(16)", "Tag (4)"."""
    if at < 0 or line[at].text not in _OPEN:
        return False
    before = line[at - 1] if at else None
    if before is None:
        return False
    named = line[at].glued or (at == 1 and len(line) <= _HEAD)
    part = named and len(before.text) == 1 and before.text in "ABCDEFGH*"
    return part or (at == 1 and before.low in _NAMES_OF_EXTRAS)


def _edge(line: Sequence[Token], at: int) -> bool:
    return at < 0 or at >= len(line) or line[at].text == BREAK


def _allowed(line: Sequence[Token], at: int, start: int, end: int, opened: bool, scan: Scan) -> bool:
    """Whether the neighbours let the tokens be a count at all."""
    before = line[at - 1] if at else None
    after = line[end] if end < len(line) else None
    places = scan.places
    if _is_beyond(scan) or (len(places) > 1 and repeats_counts(line, at, end)):
        return False
    tied = before is not None and line[at].glued and (before.kind == "word" or before.text in ("/", ".", "#"))
    if tied and not _ends_a_half(line, at):
        return False
    # "Heel forward x 2; 3, 4 toe back": how often, and then counts.
    apart = at + 1 < len(line) and line[at + 1].text == ";"
    few = len(scan.other or places) < 3 or apart or (before is not None and before.low in NUMBERED)
    if before is not None and before.low in _NOT_BEFORE and few and not opened and not _ends_a_step(line, at):
        return False
    if at > 1 and line[at - 1].text == "." and line[at - 2].low in ("no", "nr"):
        return False
    if before is not None and line[at].low == "one" and few and before.low in _KINDS_OF_DANCES:
        return False
    if any(
        token.low in ("repeat", "repeats", "as", "same", "of", "like", "wall", "total")
        for token in _announcing(line, at)
    ) and not _made_of(line, at, scan):
        return False
    many = scan.spread or len(places) > 1
    if only_talks(line, at, start, end, opened=opened):
        return False
    if after is not None and is_numbered(after) and not opened and not (many and after.low in _STEPS_AFTER):
        return False
    if after is not None and after.kind == "word" and after.glued and len(after.text) == 1 and after.low in "cwhx":
        return False
    if after is not None and after.text == "/" and after.glued:
        return False
    if len(places) == 1 and after is not None and _is_how_many(line, at, end, spelled=scan.spelled, opened=opened):
        return False
    lone = (
        len(places) == 1
        and line[start].low == "one"
        and after is not None
        and after.kind == "word"
        and not _edge(line, at - 1)
        and not (before is not None and before.low in _LASTS and after.low in ("and", "then", "while"))
    )
    return opened or not lone or _counts_on(line, at)


def _ends_a_half(line: Sequence[Token], at: int) -> bool:
    """Whether a number is tied to the half beat of another count: the 6 of "4a6" or "4&a6", mistyped for 5."""
    half = line[at - 1].low in ("a", "e") and line[at - 1].glued and at > 1
    return half and (line[at - 2].kind == "amp" or line[at - 2].kind == "number")


def _ends_a_step(line: Sequence[Token], at: int) -> bool:
    """Whether a step ends before a count with a word that else names what is numbered: "sailor step 5 step left"."""
    return at > 1 and line[at - 1].low in ("step", "steps", "up") and line[at - 2].low in STEP_WORDS - {"step", "steps"}


def _counts_on(line: Sequence[Token], at: int) -> bool:
    """Whether a one opens a clause that another with a two follows: "then one left foot to side, two drag right"."""
    opens = line[at - 1].text in (",", ";", ":") or line[at - 1].low == "then"
    return opens and any(one.text in (",", ";") and two.low == "two" for one, two in pairwise(line[at + 1 :]))


def _is_beyond(scan: Scan) -> bool:
    """Whether no dance counts so far, or no step so many: "counts run on 1 to 32" speaks of the whole dance."""
    high = any(place.number is not None and place.number > HIGHEST for place in scan.places)
    return high or (scan.spread and len(scan.places) > _LONGEST)


def _is_how_many(line: Sequence[Token], at: int, end: int, *, spelled: bool, opened: bool) -> bool:
    """Whether a number is no count, by the words after it: "four toe struts", "One thing", "Eight with pivots"."""
    if not opened and several_of(line, end):
        return True
    if not spelled:
        return False
    after = line[end]
    names = at == 0 and line[0].text in ("Eight", "Six") and after.low in ("with", "to", "that", "for", "of", "where")
    names |= line[at].low == "one" and not opened and is_somebody(after)
    return names or after.low in ("eighth", "quarter", "half") or (after.low in _THINGS and not opened)


_KINDS_OF_DANCES = {"easy", "new", "little", "nice", "good", "lovely", "harder", "easier", "simple", "gentle"}
"""Words before a "one" that is a dance: "an easy one", "here is the new one"."""


def _made_of(line: Sequence[Token], at: int, scan: Scan) -> bool:
    """Whether counts stand after "of" as those of a step: "a sailor step takes care of 3&4"."""
    halved = len(scan.places) > 2 and any(place.sub for place in scan.places)
    return halved and at > 1 and line[at - 1].low == "of" and line[at - 2].low in _TAKES_CARE


_TAKES_CARE = {"care", "step", "shuffle", "chasse", "sailor", "triple", "coaster", "charge", "use", "out"}


def _announcing(line: Sequence[Token], at: int) -> Sequence[Token]:
    """The word before a mark, and the one before that where it is "counts"."""
    if at > 1 and line[at - 1].low in _OPENERS:
        return line[at - 2 : at]
    return line[max(at - 1, 0) : at]


def _strength(line: Sequence[Token], at: int, last: int, scan: Scan, *, opened: bool, closed: bool) -> float:
    """Return how much speaks for a count mark: 0.3 for a number in running words, 2 and more for a plain mark."""
    strength = 0.3
    if len(scan.places) > 1:
        strength += 1.2 if not scan.spelled else 0.8
    if any(place.sub for place in scan.places) or (scan.spelled and len(scan.places) > 2):
        strength += 0.5
    if opened or closed:
        strength += 1.4
    elif _edge(line, at - 1):
        strength += 1.3 if not scan.spelled else 0.9
    elif _edge(line, last) or line[at - 1].text in ".;:•":
        strength += 0.7
    if last < len(line) and line[last].text == ":":
        strength += 0.5
    return strength
