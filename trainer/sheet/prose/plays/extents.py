"""Which counts of a part words tell of: "last 8", "second half", "from count 17", "sections 3-4", "without its A2".

Sought in the text of symbols (`symbols.py`), from its start on. Counts are those of the part, from 1.
"""

import re
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import accumulate

from trainer.sheet.prose.lexis.part_pieces import Stretch
from trainer.sheet.prose.plays.symbols import Named

_UNIT = r"(?:counts?|beats?|cts?|ct|steps)"
_PIECE = r"(?:sections?|secs?|sects?|sets?|eights?|8s|sixes|blocks?|phrases?|figures?|pieces?|s)"
_AND = r"(?:and|&|\+|to|-|through|thru|up to)"
_LAST = r"(?:very )?(?:last|final|closing)"
_TO_END = r"(?: (?:to|until|till|through to) (?:the |its )?(?:very )?end| (?:on|onwards?|upwards?))"
_LESS = (
    r"(?:without|w ?/ ?o|minus|less|not|no|omit(?:s|ting)?|skip(?:s|ping)?|leav(?:es?|ing) (?:out|off)|"
    r"drop(?:s|ping)?|except(?:ing)?(?: for)?|all but|missing|lacks|lacking|cut(?:s|ting)?(?: off| out)?)"
)
_GONE = re.compile(
    r" (?:(?:is|are|being|gets) )?(?:left (?:out|off)|omitted|dropped|skipped|missing|cut(?: off| out)?|off)\b"
)


@dataclass(frozen=True, slots=True)
class Extent:
    """Some counts of a part, as words tell of them."""

    stretches: tuple[Stretch, ...]
    end: int
    """Where in the text its words end."""
    left_out: bool = False
    """It is told by what is left out."""
    share: bool = False
    """It is told as a share of the whole: "3/4"."""
    called: bool = False
    """It is told by nothing but the name of a section."""

    @property
    def opens(self) -> int:
        """How many counts it has where it is no more than the part's beginning; else 0."""
        return self.stretches[0][1] if len(self.stretches) == 1 and self.stretches[0][0] == 1 else 0


@dataclass(frozen=True, slots=True)
class Measure:
    """The counts of a part."""

    place: int
    """Its place among the parts."""
    sections: tuple[int, ...]
    titles: tuple[tuple[str, ...], ...] = ()
    """The words of the headings of its sections."""

    @property
    def counts(self) -> int:
        """All its counts."""
        return sum(self.sections)

    def numbered(self, numbers: Iterable[int]) -> tuple[Stretch, ...] | None:
        """Return the counts of some sections; None where it has no such section."""
        ends = [0, *accumulate(self.sections)]
        wanted = sorted(set(numbers))
        if not wanted or wanted[0] < 1 or wanted[-1] > len(self.sections):
            return None
        return _joined([(ends[number - 1] + 1, ends[number]) for number in wanted])

    def last(self, counts: int) -> tuple[Stretch, ...] | None:
        """Return the last so many counts."""
        return ((self.counts - counts + 1, self.counts),) if 0 < counts <= self.counts else None

    def between(self, first: int, last: int) -> tuple[Stretch, ...] | None:
        """Return the counts from one to another."""
        return ((first, last),) if 1 <= first < last <= self.counts else None

    def titled(self, text: str, start: int) -> tuple[int, int]:
        """Return the section that is called by the words of a text from a place on, and where they end; 0: none."""
        words = list(_NAME.finditer(text, start))[:_WORDS]
        words = words[: next((at for at, one in enumerate(words) if one.start() != _goes_on(words, at, start)), None)]
        for many in range(len(words), 0, -1):
            named = tuple(one[0] for one in words[:many])
            hits = [at for at, title in enumerate(self.titles, 1) if _holds(title, named)]
            if len(hits) == 1 and not set(named) <= _PLAIN:
                return hits[0], words[many - 1].end()
        return 0, start

    def begins(self, number: int) -> int:
        """Return the first count of a section; 0 where it has no such section."""
        found = self.numbered([number])
        return found[0][0] if found else 0

    def without(self, stretches: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
        """Return all other counts."""
        gone = {count for first, last in stretches for count in range(first, last + 1)}
        return _joined([(count, count) for count in range(1, self.counts + 1) if count not in gone])


def _goes_on(words: Sequence[re.Match[str]], at: int, start: int) -> int:
    """Where a word of a name must begin, right behind the one before it."""
    return words[at - 1].end() + 1 if at else start


def _holds(title: tuple[str, ...], words: tuple[str, ...]) -> bool:
    many = len(words)
    return any(title[at : at + many] == words for at in range(len(title) - many + 1))


_NAME = re.compile(r"[a-z][a-z']*")
_WORDS = 4
"""Words of a section's name."""
_PLAIN = {
    "the", "of", "to", "and", "in", "on", "at", "a", "section", "part", "right", "left", "forward", "back", "half",
    "last", "first", "only", "side", "then", "turn", "counts", "count", "from", "it", "is",
}  # fmt: skip
"""Words by which no section is called."""


def _joined(stretches: Iterable[Stretch]) -> tuple[Stretch, ...]:
    done: list[Stretch] = []
    for first, last in stretches:
        if done and done[-1][1] + 1 == first:
            done[-1] = (done[-1][0], last)
        else:
            done.append((first, last))
    return tuple(done)


_Told = tuple[Stretch, ...] | None
_Row = tuple[str, Callable[[re.Match[str], Measure], _Told]]


def _listed(text: str) -> list[int]:
    """Return the numbers that a text lists, those between two that a dash or a "to" joins among them."""
    numbers: list[int] = []
    ranged = False
    for word in re.findall(r"\d+|to|-|through|thru", re.sub(r"@\d+ |#", "", text)):
        if not word.isdecimal():
            ranged = True
            continue
        numbers += range(numbers[-1] + 1, int(word)) if ranged and numbers else []
        numbers.append(int(word))
        ranged = False
    return numbers


def _from(count: int, match: re.Match[str], measure: Measure) -> _Told:
    last = int(match["last"]) if match["last"] else measure.counts
    return measure.between(count, last) if count else None


def _counts_or_sections(match: re.Match[str], measure: Measure) -> _Told:
    first, last = int(match[2]), int(match[3])
    if not (match[1] or match[4]) and last <= len(measure.sections):
        return measure.numbered(range(first, last + 1))
    return measure.between(first, last)


def _sections(match: re.Match[str], measure: Measure) -> _Told:
    numbers = _listed(match[1])
    if match["on"]:
        numbers += range(numbers[-1] + 1, len(measure.sections) + 1)
    return measure.numbered(numbers)


def _share(match: re.Match[str], measure: Measure) -> _Told:
    over, under = (int(match[1]), int(match[2])) if match[1] else (int(match[3]), 3 if match[4] else 4)
    counts, rest = divmod(measure.counts * over, under) if under else (0, 1)
    return measure.between(1, counts) if over < under and not rest else None


_BEGIN = r"(?:from|start(?:s|ed|ing)?|begin(?:s|ning)?|begun|commencing|pick(?:s|ed|ing)? (?:it )?up|enter(?:s|ing)?)"
_AT_AN_HOUR = r"(?!(?:start|begin)\w* (?:at|facing) (?:3|6|9|12)\b)"
"""No count: "the As begin at 12, 6, 6" tells where one faces."""
_UNTIL = rf"(?: (?:to|until|till|-|through)(?: {_UNIT})? (?P<last>\d+)|{_TO_END})?"
_ROWS: tuple[_Row, ...] = (
    (rf"{_LAST} (\d) {_PIECE}\b", lambda m, part: part.numbered(_last_of(int(m[1]), part))),
    (rf"{_LAST} (?:section|sec|set|block|phrase|figure|piece)\b", lambda m, part: part.numbered(_last_of(1, part))),
    (rf"{_LAST} (\d+)(?: {_UNIT})?\b", lambda m, part: part.last(int(m[1]))),
    (rf"(?:#2|other|latter|back|{_LAST}) half\b", lambda m, part: part.last(part.counts // 2)),
    (rf"{_LAST} (?:quarter|(third))\b", lambda m, part: part.last(part.counts // (3 if m[1] else 4))),
    (r"(?:#1 |opening |front )?half\b", lambda m, part: part.between(1, part.counts // 2)),
    (
        rf"(#\d(?: (?:{_AND}|,)(?: the)? #\d)*)(?: {_PIECE}| 8)(?P<on>{_TO_END})?\b",
        _sections,
    ),
    (rf"{_PIECE} (#?\d(?: (?:{_AND}|,)(?: {_PIECE})?(?: @\d+)? #?\d)*)(?P<on>{_TO_END})?\b(?! {_UNIT})", _sections),
    (rf"({_UNIT} )?(\d+) (?:-|to|until|through|thru|till)(?: {_UNIT})? (\d+)( {_UNIT})?\b", _counts_or_sections),
    (rf"{_UNIT} (\d+){_TO_END}\b(?P<last>)", lambda m, part: _from(int(m[1]), m, part)),
    (
        rf"{_AT_AN_HOUR}{_BEGIN}(?: (?:at|on|with|from|in))?(?: the)?(?: {_UNIT})? (\d+){_UNTIL}(?! {_PIECE})\b",
        lambda m, part: _from(int(m[1]), m, part),
    ),
    (
        rf"{_BEGIN}(?: (?:at|on|with|from|in))?(?: the)?(?: start of)?(?: {_PIECE} #?| #| @\d+ )(\d)(?: {_PIECE}| 8)?"
        rf"{_UNTIL}\b",
        lambda m, part: _from(part.begins(int(m[1])), m, part),
    ),
    (r"(\d)/(\d)\b|([123]) (?:quarters?|fourths|(thirds?))\b", _share),
    (r"@\d+ (\d+) (?:-|to) (?:@\d+ )?(\d\d)\b", lambda m, part: part.between(int(m[1]), int(m[2]))),
    (rf"(@\d+ \d(?: (?:{_AND}|,)(?: the)?(?: @\d+)? \d)*)(?P<on>{_TO_END})?\b", _sections),
    (rf"#1 (\d) {_PIECE}\b", lambda m, part: part.numbered(range(1, int(m[1]) + 1))),
    (rf"#1 (\d+)(?: {_UNIT})?\b", lambda m, part: part.between(1, int(m[1]))),
)


def _last_of(many: int, part: Measure) -> range:
    return range(len(part.sections) - many + 1, len(part.sections) + 1)


_COMPILED = [(re.compile(pattern), read) for pattern, read in _ROWS]
_LEFT_OUT = re.compile(rf"{_LESS}(?: (?:the|its|for|of|sections?(?= @)))* ")
_BARE = re.compile(rf"(\d+)(?: {_UNIT})?\b")


def extent_at(text: str, measure: Measure) -> Extent | None:
    """Return the counts of a part that a text opens by telling of; None: it tells of none that the part has."""
    less = _LEFT_OUT.match(text)
    start = less.end() if less else 0
    found = _plain(text, start, measure)
    if less and found is None and (bare := _BARE.match(text, start)) and 0 < int(bare[1]) < measure.counts:
        found = Extent(measure.last(int(bare[1])) or (), bare.end())
    if found is None:
        return None
    gone = _GONE.match(text, found.end)
    if not (less or gone):
        return found
    rest = measure.without(found.stretches)
    return Extent(rest, gone.end() if gone else found.end, left_out=True) if rest else None


def _plain(text: str, start: int, measure: Measure) -> Extent | None:
    for pattern, read in _COMPILED:
        match = pattern.match(text, start)
        if match is None or any(int(place) != measure.place for place in re.findall(r"@(\d+)", match[0])):
            continue
        if stretches := read(match, measure):
            return Extent(stretches, match.end(), share=read is _share)
    return _titled(text, start, measure)


_THE = re.compile(r"(?:(?:only|just|the|its|section|part) )*")
_BEHIND_A_TITLE = re.compile(r" (?:section|bit|part|steps|eight)\b")
_FROM = re.compile(rf"{_BEGIN}(?: (?:at|on|with|from|in))?(?: the)?(?: start of(?: the)?)? ")


def _titled(text: str, start: int, measure: Measure) -> Extent | None:
    """Return the section that words name by its heading, or all from it on: "the box", "from the rocking chair"."""
    begin = _FROM.match(text, start)
    led = _THE.match(text, begin.end() if begin else start)
    number, end = measure.titled(text, led.end() if led else start)
    if not number:
        return None
    stretches = measure.numbered(range(number, len(measure.sections) + 1) if begin else [number])
    behind = _BEHIND_A_TITLE.match(text, end)
    return Extent(stretches or (), behind.end() if behind else end, called=begin is None)


def measure_of(named: Named, part: int) -> Measure:
    """Return the counts of a part."""
    return Measure(part, named.sections[part], named.titles[part] if named.titles else ())
