"""One piece of what a wall dances: a section by number, letter or name, several of them, part of one, or counts.

Each piece goes on where the one before it ended: places are counts danced, from 0.
"""

from collections.abc import Iterator

from trainer.sheet.prose.order.lines.piece_words import COUNTS, LISTED, OWN, SECTIONS, TO, Piece, PieceWords

_UP_TO = (
    ("up", "to", "the", "end", "of"), ("until", "the", "end", "of"), ("to", "the", "end", "of"),
    ("up", "to", "and", "including"), ("only", "as", "far", "as"), ("only", "up", "to"), ("only", "to"),
    ("only", "until"), ("just", "up", "to"), ("just", "to"), ("right", "up", "to"), ("through", "to"), ("up", "to"),
    ("as", "far", "as"), ("to",), ("through",), ("until",), ("till",), ("thru",), ("only",),
)  # fmt: skip
_COUNTED = (("count",), ("counts",), ("beat",), ("beats",), ("ct",), ("cts",))
_ALL_OF = (("all", "of"), ("the", "whole", "of"), ("the", "whole"), ("the", "full"), ("full",), ("whole",))
_IN_FULL = (
    ("complete",), ("in", "full"), ("whole",), ("in", "whole"), ("entire",), ("all",), ("fully",), ("right", "through"),
)  # fmt: skip
_REST = frozenset({"rest", "remainder", "remaining", "other", "last", "second", "next"})
_OTHERS = frozenset({"rest", "remainder"})
_WITHOUT = (
    ("without",), ("not",), ("all", "but"), ("all", "except"), ("leave", "out"), ("leave", "off"), ("omit",), ("no",),
    ("leaving", "out"), ("leaving", "off"), ("skip",), ("minus",), ("all", "without"), ("everything", "but"),
)  # fmt: skip
_DANCES = frozenset({"dance", "do", "danced", "just", "only", ":"})
_FEW = 4
"""Nobody leaves a wall after fewer counts: bare numbers below are sections."""


class Pieces(PieceWords):
    """Reads the pieces of one row."""

    def at(self, at: int, start: int, before: Piece | None) -> Iterator[Piece]:
        """Yield the pieces that begin at an index with so many counts danced; `before` is the one before."""
        yield from self._without(at, start)
        yield from self._several(at, start)
        yield from self._part_of(at, start)
        yield from self._sections(at, start, before)
        yield from self._counts(at, start, before)
        yield from self._half(at, start)

    def _sections(self, at: int, start: int, before: Piece | None) -> Iterator[Piece]:
        """A section, a range of them, or letters run together; and part of the one that comes next."""
        yield from self._run_together(at, start)
        # "it's the last: dance 1 and 2, then ..."
        alone = self._celled or (at > 0 and self._low(at - 1) in _DANCES)
        bare = before.sections if before is not None else alone and not start and self._bare_list(at)
        at = self._after(at, *_ALL_OF)
        for place, last in self._ref(at, bare=bare):
            if self._ends[place - 1] != start:
                continue
            end = self._ends[place]
            worded = self._low(at) in SECTIONS or self._tokens[at].kind != "number"
            known = self._low(at) in SECTIONS - OWN or self._number(at)[2]
            yield Piece(last, end, sections=True, read=known)
            if (full := self._after(last, *_IN_FULL)) > last:
                yield Piece(full, end, sections=True)
            upto = self._after(last + 1, ("the", "end", "of"), ("end", "of"))
            ranged = self._low(last) in TO
            for other, beyond in self._ref(upto, bare=worded or bare) if ranged else ():
                if other > place and self._alike(last - 1, beyond - 1):
                    yield Piece(beyond, self._ends[other], sections=True, read=known)
                    yield from self._cut(beyond, self._ends[other - 1], self._ends[other])
            # "Sets one to seven" is a range, and no set one up to count seven.
            if not (ranged and self._number(last - 1)[1] == last and self._number(last + 1)[1] > last + 1):
                yield from self._cut(last, start, end)

    def _alike(self, one: int, other: int) -> bool:
        """Whether two names of sections are of one kind: two numbers, two letters."""
        return (self._tokens[one].kind == "number") == (self._tokens[other].kind == "number")

    def _bare_list(self, at: int) -> bool:
        """Whether numbers without a word are sections: "1, 2", "1 to 3"; nobody leaves a wall after so few counts."""
        values: list[int] = []
        while True:
            value, last, ordinal = self._number(at)
            if last == at or ordinal:
                return False
            values.append(value)
            apart = self._low(last) in LISTED | TO
            at = last
            while self._low(at) in LISTED | TO:
                at += 1
            if not apart or self._number(at)[1] == at:
                break
        ranged = len(values) == 2 and values[0] == 1 and 1 < values[1] < _FEW
        return ranged or (len(values) > 1 and values == list(range(1, len(values) + 1)))

    def _run_together(self, at: int, start: int) -> Iterator[Piece]:
        """Letters of sections as one word: "ABC"."""
        text = self._tokens[at].text if at < len(self._tokens) else ""
        series = "".join(chr(ord("A") + place) for place in range(min(len(self._ends) - 1, 26)))
        if len(text) > 1 and text in series and self._ends[series.index(text)] == start:
            yield Piece(at + 1, self._ends[series.index(text) + len(text)], sections=True)

    def _cut(self, at: int, start: int, end: int) -> Iterator[Piece]:
        """Part of a section after its name: "C 1-4", "C up to count 4", "C (first 4)", "C to 4"."""
        opened = self._low(at) in ("(", "[", ",")
        place = at + opened
        bracket = opened and self._low(at) != ","
        told = self._after(place, *_UP_TO)
        named = self._after(told, *_COUNTED, ("the", "first"), ("first",))
        named = self._after(named, *_COUNTED)
        value, last, _ = self._number(named)
        if last == named:
            return
        if value == 1 and self._low(last) in TO:
            value, last = self._number(last + 1)[:2]
        elif told == place and named == place:
            # "C 4" alone is no place.
            return
        elif self._low(at) == "," and told == place and named == place:
            return
        value = value - start if value > end - start else value
        if self._low(last) in COUNTS:
            last += 1
        if bracket:
            if self._low(last) not in (")", "]"):
                return
            last += 1
        if self._low(last) in ("of", "in") and (again := next(self._ref(last + 1, bare=False), None)):
            # "As far as count 4 of section 2" names the section once more.
            if self._ends[again[0] - 1] != start:
                return
            last = again[1]
        if 0 < value <= end - start:
            yield Piece(last, start + value, sections=True)

    def _part_of(self, at: int, start: int) -> Iterator[Piece]:
        """Part of a section before its name: "4 counts of C", "counts 1-4 of section 3", "first half of 3"."""
        place = self._after(at, *_UP_TO)
        place = self._after(place, ("the", "first"), ("first",), *_COUNTED)
        place = self._after(place, *_COUNTED)
        value, last, _ = self._number(place)
        half = self._low(place) == "half"
        if half:
            last = place + 1
        elif last == place:
            return
        elif value == 1 and self._low(last) in TO:
            value, last = self._number(last + 1)[:2]
        last += self._low(last) in COUNTS
        if self._low(last) not in ("of", "from", "in"):
            return
        for section, beyond in self._ref(last + 1, bare=True):
            begins, end = self._ends[section - 1 : section + 1]
            value = (end - begins) // 2 if half else value
            if begins == start and 0 < value <= end - begins:
                yield Piece(beyond, start + value, sections=True)

    def _several(self, at: int, start: int) -> Iterator[Piece]:
        """So many sections: "the first two", "two sections", "the last two sections"."""
        place = self._after(at, ("the",))
        first = self._low(place) in ("first", "1st") and not start
        later = self._low(place) in _REST and start > 0
        place += first or later
        value, last, ordinal = self._number(place)
        worded = self._low(last) in SECTIONS
        if last == place or ordinal or start not in self._ends:
            return
        if not worded and not (first and value < _FEW and self._low(last) not in COUNTS):
            return
        begun = self._ends.index(start)
        if worded and self._number(last + 1)[1] > last + 1 and not (first or later):
            return
        if (first or later or not start) and 0 < value < len(self._ends) - begun:
            known = worded and self._low(last) not in OWN
            yield Piece(last + worded, self._ends[begun + value], sections=True, read=known)

    def _counts(self, at: int, start: int, before: Piece | None) -> Iterator[Piece]:
        """Counts: a range that goes on from the last one, so many of them, the rest."""
        whole = self._ends[-1]
        place = self._after(at, ("the",))
        rest = self._low(place) in _OTHERS or self._low(place) == "remaining"
        if start and rest:
            value, last, _ = self._number(place + 1)
            last += self._low(last) in COUNTS
            if last == place + 1 or value == whole - start:
                yield Piece(self._after(last, ("of", "the", "dance"), ("of", "it")), whole)
        worded = self._low(place) in COUNTS
        place += worded
        ordered = self._low(place) in ("first", *_REST) and (start > 0) == (self._low(place) != "first")
        place += ordered
        value, last, ordinal = self._number(place)
        if last == place or ordinal:
            return
        if self._low(last) in TO:
            upto, beyond, _ = self._number(last + 1)
            if beyond > last + 1 and value == start + 1 and value < upto <= whole:
                yield Piece(beyond + (self._low(beyond) in COUNTS), upto, named=False)
            return
        if value == start + 1 and start and self._low(last) in ("on", "onwards", "onward"):
            yield Piece(last + 1, whole)
        elif not worded and 0 < value <= whole - start and (ordered or not start or self._adds(before)):
            yield Piece(last + (self._low(last) in COUNTS), start + value, named=False)

    def _adds(self, before: Piece | None) -> bool:
        """Whether a plain number may be added to what is danced: only to another such, "16 + 4"."""
        return before is not None and not before.named

    def _half(self, at: int, start: int) -> Iterator[Piece]:
        """A half of the dance: "half", "the first half", "the other half"."""
        place = self._after(at, ("the",))
        ordered = self._low(place) in ("first", *_REST)
        place += ordered
        whole = self._ends[-1]
        if self._low(place) != "half" or whole % 2 or self._low(place + 1) in ("of", "a", "turn", "way"):
            return
        if not start or start == whole // 2:
            yield Piece(place + 1, start + whole // 2, named=ordered)

    def _without(self, at: int, start: int) -> Iterator[Piece]:
        """All but the last sections: "without C and D", "all but 3 and 4"."""
        place = self._after(at, *_WITHOUT)
        if start or place == at:
            return
        places: list[int] = []
        while True:
            found = next(self._ref(place, bare=bool(places) or self._low(place + 1) in LISTED), None)
            if found is None:
                break
            places.append(found[0])
            last = place = found[1]
            while self._low(place) in LISTED:
                place += 1
        if places and places == list(range(places[0], len(self._ends))) and places[0] > 1:
            yield Piece(last, self._ends[places[0] - 1])
