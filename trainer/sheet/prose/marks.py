"""Every place in a sheet that may be a count mark: "1&2", "5-6", "(3 and 4)", "7 8 &", "456", "Count 5", "one".

A mark is found by its form; how likely it is one is its `strength`. Which of them are the counts of the dance is
told by the chain (`chain.py`): counts rise, fill their sections and start again.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import NamedTuple

from trainer.sheet.prose.layout import BREAK
from trainer.sheet.prose.words import Token

HIGHEST = 160
"""No sheet counts on further."""


class Place(NamedTuple):
    """A count as written: its number and "", "e", "&" or "a"; number None where an & stands alone."""

    number: int | None
    sub: str


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

    @property
    def start(self) -> Place:
        """Its first count."""
        return self.places[0]

    @property
    def end(self) -> Place:
        """Its last count."""
        return self.places[-1]


_NUMBERS = {
    word: number
    for number, word in enumerate(
        [
            "one",
            "two",
            "three",
            "four",
            "five",
            "six",
            "seven",
            "eight",
            "nine",
            "ten",
            "eleven",
            "twelve",
            "thirteen",
            "fourteen",
            "fifteen",
            "sixteen",
        ],
        1,
    )
}
_OPENERS = {"count", "counts", "ct", "cts", "beat", "beats", "cnt", "cnts"}
_NOT_BEFORE = {
    "wall", "walls", "w", "section", "sections", "sec", "s", "set", "part", "block", "phrase", "x", "after",
    "figure", "figures",
    "tag", "page", "option", "version", "until", "till", "through", "restart", "about", "wait", "intro",
    "plus", "another",
    "verse", "chorus", "step", "steps", "up", "first", "last", "next", "only", "line", "bar", "bars", "eights", "eight",
    "number", "no", "level", "of", "ending", "second", "third", "fourth", "fifth", "sixth", "seventh",
    "eighth", "st", "nd", "rd",
    "th",
}  # fmt: skip
_NOT_AFTER = {
    "count", "counts", "ct", "cts", "c", "wall", "walls", "w", "x", "times", "bars", "bar", "more", "o'clock",
    "oclock", "st",
    "nd", "rd", "th", "h", "beats", "beat", "bpm", "sections", "eights", "hip", "heel", "easy", "direction",
    "directions", "way",
    "eighths", "quarters", "time", "claps", "steps", "walks", "runs", "parts", "tags", "restarts", "restart",
    "tag", "bridge",
    "bounces", "bumps", "no", "number", "minutes", "weeks", "people", "or",
}  # fmt: skip
_OPEN = {"(": ")", "[": "]", "{": "}", "<": ">"}


def writes_pairs(lines: Iterable[Sequence[Token]]) -> bool:
    """Return whether a sheet writes two counts as one number: 12 34 56 78."""
    numbers = [token.text for line in lines for token in line if token.kind == "number"]
    pairs = [number for number in numbers if number in ("34", "56", "78")]
    return len(pairs) > 2 and len(set(pairs)) > 1 and not {"9", "11", "13", "33", "35"} & set(numbers)


def marks_in(line: Sequence[Token], index: int, bar: int = 0, *, pairs: bool = False) -> list[Mark]:
    """Return the possible marks of a line of tokens, from left to right, without overlaps.

    With `pairs` "12" is the counts 1 and 2. With `bar`, the counts of a bar, a line that begins with "bar 3" is marked
    by the counts of that bar.
    """
    found = []
    at = 0
    barred = _bar_mark(line, index, bar) if bar else None
    if barred is not None:
        found.append(barred)
        at = barred.last
    while at < len(line):
        mark = _mark_at(line, at, index, pairs=pairs)
        if mark is None:
            at += 1
            continue
        found.append(mark)
        at = mark.last
    if barred is not None and any(mark.closed for mark in found[1:]):
        # The bar is only a heading: its counts are given one by one.
        return found[1:]
    return found


def _bar_mark(line: Sequence[Token], index: int, bar: int) -> Mark | None:
    """Return the counts of "bar 3" or "bars 3-4" at a line's start."""
    if len(line) < 2 or line[0].low not in ("bar", "bars"):
        return None
    scan = _Scan(line, 1, in_bracket=False)
    scan.run()
    numbers = [place.number for place in scan.places if place.number and not place.sub]
    if not numbers:
        return None
    last = scan.at
    while last < len(line) and line[last].text in ("-", ":", ".", ")", BREAK):
        last += 1
    places = tuple(Place(count, "") for number in numbers for count in range((number - 1) * bar + 1, number * bar + 1))
    return Mark(index, 0, last, places, 2.0, spread=True, number=line[0].line)


def _mark_at(line: Sequence[Token], at: int, index: int, *, pairs: bool) -> Mark | None:
    bracket = _OPEN.get(line[at].text)
    start = at + 1 if bracket else at
    opened = False
    if start < len(line) and line[start].low in _OPENERS:
        start, opened = start + 1, True
    elif start < len(line) and line[start].low == "on" and not bracket:
        start, opened = start + 1, True
        if start < len(line) and line[start].low in _OPENERS:
            start += 1
    scan = _Scan(line, start, in_bracket=bool(bracket), pairs=pairs)
    scan.run()
    if not scan.places:
        return None
    end = scan.at
    closed = bool(bracket) and end < len(line) and line[end].text == bracket
    if bracket and not closed:
        return None
    if not closed and not _allowed(line, at, start, end, opened, scan):
        return None
    last = end + 1 if closed else end
    whole_cell = _edge(line, at - 1) and _edge(line, last)
    strength = _strength(line, at, last, scan, opened=opened, closed=closed or whole_cell)
    while last < len(line) and line[last].text in ("-", ":", ".", ")", "=", ";", ">") and not closed:
        last += 1
    return Mark(
        index,
        at,
        last,
        tuple(scan.places),
        strength,
        scan.spread,
        tuple(scan.other),
        closed or whole_cell,
        line[at].line,
    )


class _Scan:
    """Reads numbers, ranges and sub-beats from a token on, as far as they go on as counts do."""

    def __init__(self, line: Sequence[Token], at: int, *, in_bracket: bool, pairs: bool = False) -> None:
        self.line = line
        self.at = at
        self.in_bracket = in_bracket
        self.pairs = pairs
        self.places: list[Place] = []
        self.other: list[Place] = []
        self.spread = False
        self.spelled = False

    def run(self) -> None:
        """Fill `places`; `at` is left after the last token taken."""
        if self._leading():
            return
        number = self._number(self.at)
        if number is None:
            return
        self._take_number(number)
        while self._more():
            pass

    def _token(self, at: int) -> Token | None:
        return self.line[at] if at < len(self.line) else None

    def _number(self, at: int) -> int | None:
        token = self._token(at)
        if token is None:
            return None
        if self.pairs and token.text in ("12", "34", "56", "78"):
            return int(token.text[0])
        if token.kind == "number" and len(token.text) <= 3 and not (token.text.startswith("0")):
            return int(token.text)
        if token.kind == "word" and token.low in _NUMBERS:
            return _NUMBERS[token.low]
        return None

    def _take_number(self, number: int) -> None:
        token = self.line[self.at]
        digits = token.text
        self.spelled = self.spelled or token.kind == "word"
        self.at += 1
        if (
            len(digits) >= (2 if self.pairs else 3)
            and digits.isdigit()
            and all(int(b) - int(a) == 1 for a, b in pairwise(digits))
        ):
            self.places += [Place(int(digit), "") for digit in digits]
            return
        self.places.append(Place(number, ""))

    def _leading(self) -> bool:
        """Take a leading & or a; True when it stands alone."""
        token = self._token(self.at)
        if token is None or not (token.kind == "amp" or (token.text in ("and", "a") and self.in_bracket)):
            return False
        sub = "a" if token.low == "a" else "&"
        after = self._number(self.at + 1)
        if after is not None and after <= HIGHEST:
            self.places.append(Place(after - 1, sub))
            self.at += 1
            return False
        nxt = self._token(self.at + 1)
        alone = nxt is None or nxt.text in (")", "]", "}", BREAK, ":", "-", ".")
        before = self._token(self.at - 1) if self.at else None
        if alone or before is None or before.text == BREAK:
            self.places.append(Place(None, sub))
            self.at += 1
        return True

    def _more(self) -> bool:
        """Take one more element; False when the run of counts has ended."""
        token = self._token(self.at)
        last = self.places[-1].number
        if token is None or last is None:
            return False
        if token.text in ("-", "/") or token.low in ("to", "through", "thru"):
            return self._range(last)
        apart = token.text == "," or (token.text in (".", "•") and not self.spelled and not token.glued)
        if apart and self._number(self.at + 1) == last + 1 and not self._is_text_after(self.at + 1):
            self.at += 1
            self._take_number(last + 1)
            return True
        if token.kind == "amp" or token.low == "and" or (token.text == "+" and token.glued):
            return self._and(last, token)
        if token.low in ("a", "e") and self._is_sub(token):
            self.places.append(Place(last, token.low))
            self.at += 1
            self._over(last)
            return True
        if self._number(self.at) == last + 1 and (token.kind == "number" or self.spelled):
            self._take_number(last + 1)
            return True
        return False

    def _range(self, last: int) -> bool:
        upto = self._number(self.at + 1)
        if upto is None or upto <= last or upto > HIGHEST:
            return False
        if (
            self.line[self.at].low in ("through", "thru", "to")
            and not self.in_bracket
            and not self.spelled
            and upto - last > 7
        ):
            return False
        self.spread = self.spread or upto - last > 1 or not self.places[:-1]
        self.at += 1
        self.spelled = self.spelled or self.line[self.at].kind == "word"
        self.places += [Place(number, "") for number in range(last + 1, upto + 1)]
        self.at += 1
        return True

    def _and(self, last: int, token: Token) -> bool:
        following = self._number(self.at + 1)
        nxt = self._token(self.at + 1)
        if following == last + 1:
            if token.low == "and":
                self.other = [*self.places, Place(following, "")]
            self.places.append(Place(last, "&"))
            self.at += 1
            self._take_number(following)
            return True
        if token.low == "and":
            return False
        if token.kind == "amp" or token.text == "+":
            if nxt is not None and nxt.low == "a" and (nxt.glued or self._number(self.at + 2) == last + 1):
                self.places += [Place(last, "&"), Place(last, "a")]
                self.at += 2
                return True
            if token.kind != "amp" and not (token.glued and not (nxt is not None and nxt.glued)):
                return False
            self.places.append(Place(last, "&"))
            self.at += 1
            self._over(last)
            return True
        return False

    def _over(self, last: int) -> None:
        """Take the 1 of 8&1, the first count of the next section; it is kept as 9, in a waltz as 7."""
        token = self._token(self.at)
        if last in (6, 8) and token is not None and token.text == "1" and token.glued:
            self.places.append(Place(last + 1, ""))
            self.at += 1

    def _is_sub(self, token: Token) -> bool:
        nxt = self._token(self.at + 1)
        if token.glued and (nxt is None or not nxt.glued or nxt.kind != "word"):
            return True
        if token.low == "e":
            return False
        return (
            nxt is None
            or nxt.text in (BREAK, ":", ")", "]", "}", "&")
            or (nxt.kind == "number" and int(nxt.text) == (self.places[-1].number or 0) + 1)
        )

    def _is_text_after(self, at: int) -> bool:
        """Whether the number at `at` is a number of things: "5, 6 counts"."""
        nxt = self._token(at + 1)
        return nxt is not None and nxt.low in _NOT_AFTER


def _edge(line: Sequence[Token], at: int) -> bool:
    return at < 0 or at >= len(line) or line[at].text == BREAK


def _allowed(line: Sequence[Token], at: int, start: int, end: int, opened: bool, scan: _Scan) -> bool:
    """Whether the neighbours let the tokens be a count at all."""
    before = line[at - 1] if at else None
    after = line[end] if end < len(line) else None
    places = scan.places
    if any(place.number is not None and place.number > HIGHEST for place in places):
        return False
    if before is not None and line[at].glued and (before.kind == "word" or before.text in ("/", ".", "#")):
        return False
    if before is not None and before.low in _NOT_BEFORE and len(scan.other or places) < 3 and not opened:
        return False
    if any(
        token.low in ("repeat", "repeats", "as", "same", "of", "like", "wall", "total")
        for token in _announcing(line, at)
    ):
        return False
    if after is not None and after.low in _NOT_AFTER and not opened:
        return False
    if after is not None and after.kind == "word" and after.glued and len(after.text) == 1 and after.low in "cwhx":
        return False
    if after is not None and after.text == "/" and after.glued:
        return False
    lone = (
        len(places) == 1
        and line[start].low == "one"
        and after is not None
        and after.kind == "word"
        and not _edge(line, at - 1)
    )
    return opened or not lone


def _announcing(line: Sequence[Token], at: int) -> Sequence[Token]:
    """The word before a mark, and the one before that where it is "counts"."""
    if at > 1 and line[at - 1].low in _OPENERS:
        return line[at - 2 : at]
    return line[max(at - 1, 0) : at]


def _strength(line: Sequence[Token], at: int, last: int, scan: _Scan, *, opened: bool, closed: bool) -> float:
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
