"""How much of the dance a row says it dances, told piece by piece: "A, B and C 1-4", "1-16, the bridge, 17-32".

The pieces follow one another from the first count on without a gap: this is what tells them from other words. Such a
run is put as one number of counts, and an extra between two pieces as one after so many. Common practice, no source.
"""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from itertools import accumulate

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, STEP_WORDS
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.order.lines.piece_words import LISTED, TO, Piece
from trainer.sheet.prose.order.lines.pieces import Pieces
from trainer.sheet.prose.order.lines.rows import HOURS, WALL_WORDS
from trainer.sheet.prose.words import Token

_LONGEST = 120
"""Tokens of a row that are looked at."""
_DANCES = frozenset({"dance", "do", "danced", "dancing", "just", "only"})
_OPENS = _DANCES | {"|", ",", ":", "-", "=", ")", ".", ">", "starts"}
_ADDS = frozenset({"+", "&", "and", "then", "plus"})
_BETWEEN = _ADDS | {",", ";", "/", ".", "-", "followed", "by", ">", "the", "a", "with"}
_UP_TO = frozenset({"to", "as", "up", "until", "till", "through", "thru", "ending", "end", "just", "i", "=", "that"})
_CLOSES = {"(": ")", "[": "]"}


@dataclass(frozen=True, slots=True)
class _Cover:
    """A run of pieces."""

    last: int
    """Index after it."""
    counts: int
    pieces: int = 0
    inserts: tuple[tuple[int, int, int], ...] = ()
    """Counts danced before an extra, and the indexes of its words."""
    named: bool = False
    """At least one piece names a section, or more than a number of counts."""
    read: bool = False
    """It is one piece that needs no putting."""
    half: tuple[Token, ...] = ()
    """The half counts after its last one that are danced too: "4&a"."""


class Covers:
    """Finds in a row what tells how much of the dance is danced."""

    def __init__(self, known: Known) -> None:
        lengths = [counts for _, counts, _ in known.sections] if not known.parts else []
        self._ends = tuple(accumulate(lengths, initial=0))
        self._names = frozenset(
            word for _, name, _, _ in known.extras for word in name.lower().split() if not word.isdecimal()
        )

    def told(self, tokens: Sequence[Token]) -> tuple[Token, ...]:
        """Return a row whose pieces are put as one number of counts; as it stands where it has none."""
        whole = self._ends[-1]
        if not whole or len(self._ends) < 2 or not 2 < len(tokens) < _LONGEST:
            return tuple(tokens)
        row = _is_row(tokens)
        for at in range(_after_walls(tokens), len(tokens)):
            if not self._may_open(tokens, at) or not (row or tokens[at - 1].low in _DANCES):
                continue
            if _ranges_over_steps(tokens, at):
                break
            cover = self._from(tokens, at)
            if cover is not None and not cover.last:
                break
            if cover is not None and (row or (cover.pieces > 1 and cover.named)):
                return (*tokens[:at], *self._put(tokens, at, cover), *tokens[cover.last :])
        return tuple(tokens)

    def _may_open(self, tokens: Sequence[Token], at: int) -> bool:
        before = tokens[at - 1]
        if tokens[at].text in HOURS and (before.text == ":" or before.kind == "number"):
            # "3: 6, 16, restart": the facing that the wall begins with.
            return False
        return before.text in _OPENS or before.low in _OPENS or before.kind in ("facing", "clock", "number")

    def _from(self, tokens: Sequence[Token], at: int) -> _Cover | None:
        """Return the longest run of pieces from an index on, if it says more than a number of counts does."""
        pieces = Pieces(tokens, self._ends, celled=tokens[at - 1].text == "|")

        @cache
        def runs(place: int, counts: int, said: Piece | None) -> _Cover | None:
            best: _Cover | None = None
            for piece in pieces.at(place, counts, said):
                if said is not None and (_numbers_a_step(tokens, place, piece.last) or _puts_in(tokens, piece.last)):
                    continue
                cover = _Cover(piece.last, piece.counts, 1, (), piece.named, piece.read)
                for then, insert in self._joins(tokens, piece.last):
                    more = runs(then, piece.counts, piece)
                    if more is not None and more.last > cover.last:
                        added = ((piece.counts, *insert),) if insert else ()
                        cover = replace(
                            more,
                            pieces=more.pieces + 1,
                            inserts=(*added, *more.inserts),
                            named=more.named or piece.named,
                            read=False,
                        )
                if best is None or cover.last > best.last:
                    best = cover
            return best

        cover = runs(at, 0, None)
        if cover is None:
            return None
        if cover.named and not cover.inserts and (half := _half_counts(tokens, cover.last)):
            return replace(cover, last=cover.last + len(half), half=half)
        closed = self._aside(tokens, cover.last)
        if pieces.go_on(closed) or pieces.lists_on(at, closed) or (cover.named and _goes_as_far_as(tokens, closed)):
            # What follows leaves a gap, or is no section of the dance: the row stays as it stands.
            return replace(cover, last=0)
        # "12, 9, 6" are no counts one after the other.
        said = cover.pieces > 1 and any(token.low in _ADDS | TO for token in tokens[at : cover.last])
        extra = cover.named and self._is_an_extra(tokens, cover.last)
        told = (cover.named and not cover.read) or cover.inserts or said or extra
        return replace(cover, last=closed) if told or closed > cover.last else None

    def _joins(self, tokens: Sequence[Token], at: int) -> Iterator[tuple[int, tuple[int, int] | None]]:
        """Yield where the next piece may begin, with the indexes of the extra before it if there is one."""
        yield at, None
        first = at
        while first < len(tokens) and tokens[first].low in _BETWEEN:
            first += 1
            yield first, None
        last = first
        while last < len(tokens) and last < first + 6 and self._of_an_extra(tokens[last]):
            last += 1
        if held := _hold_to(tokens, first):
            last = held
        elif not extra_kind(tokens[first:last]):
            return
        then = last
        while then < len(tokens) and tokens[then].low in _BETWEEN | {"|"}:
            then += 1
        yield then, (first, last)

    def _is_an_extra(self, tokens: Sequence[Token], at: int) -> bool:
        """Whether an extra follows in a cell of its own: "sections 1 to 2 | the tag"."""
        first = at
        while first < len(tokens) and tokens[first].low in _BETWEEN | {"|"}:
            first += 1
        return first > at and bool(extra_kind(tokens[first : first + 1]))

    def _of_an_extra(self, token: Token) -> bool:
        return bool(extra_kind((token,))) or token.low in self._names or token.low in ("count", "counts", "no")

    def _aside(self, tokens: Sequence[Token], at: int) -> int:
        """Return the index after a bracket that only says up to which step that is: "28 counts (to the kick ...)"."""
        if at >= len(tokens) or tokens[at].text not in _CLOSES:
            return at
        closing = next((place for place in range(at, len(tokens)) if tokens[place].text == _CLOSES[tokens[at].text]), 0)
        inside = tokens[at + 1 : closing]
        told = any(token.kind in ("number", "clock", "facing") for token in inside)
        only = inside and inside[0].low in _UP_TO and not told
        return closing + 1 if only else at

    def _put(self, tokens: Sequence[Token], at: int, cover: _Cover) -> Iterator[Token]:
        first = tokens[at]
        whole = self._ends[-1]
        mark = replace(first, kind="mark", text=",", low=",", glued=False, value=None)
        # "24 counts, the ending" would be how long that is.
        leads = not cover.inserts and tokens[at - 1].low not in _DANCES and self._is_an_extra(tokens, cover.last)
        danced = (_word(first, "dance"),) if leads else ()
        for place, (counts, begins, ends) in enumerate(cover.inserts):
            yield from (() if not place else (mark,))
            yield from tokens[begins:ends]
            yield from (_word(first, "after"), _word(first, "count"), _number(first, counts))
        if cover.half:
            section = bisect_left(self._ends, cover.counts)
            yield from (_word(first, "to"), _word(first, "count"))
            yield from (_number(first, cover.counts - self._ends[section - 1]), *cover.half)
            yield from (_word(first, "of"), _word(first, "section"), _number(first, section))
        elif not cover.inserts or cover.counts < whole:
            yield from ((mark,) if cover.inserts else ())
            yield from (
                (_word(first, "all"),)
                if cover.counts == whole
                else (*danced, _number(first, cover.counts), _word(first, "counts"))
            )


def _hold_to(tokens: Sequence[Token], at: int) -> int:
    """Return the index after a hold of so many counts, "hold for 4 counts"; 0 where none stands."""
    words = [token.low for token in tokens[at : at + _HOLD]]
    number = next((place for place, word in enumerate(words) if place and word not in _STILL), 0)
    if not number or words[0] not in _HOLDS or not (words[number].isdecimal() or words[number] in NUMBERS):
        return 0
    last = next((place for place in range(number + 1, len(words)) if words[place] not in _COUNTED), len(words))
    return at + last


_HOLD = 8
"""Tokens of a hold at most."""
_HOLDS = frozenset({"hold", "wait", "pause", "freeze"})
_STILL = frozenset({"still", "for", "there", "a", "of"})
_COUNTED = frozenset({"count", "counts", "ct", "cts", "beat", "beats", "more"})


def _half_counts(tokens: Sequence[Token], at: int) -> tuple[Token, ...]:
    """Return the half counts that are written right behind a number: "&a" of "4&a"."""
    last = at
    while last < len(tokens) and tokens[last].glued and tokens[last].low in ("&", "a", "e"):
        last += 1
    return tuple(tokens[at:last])


def _goes_as_far_as(tokens: Sequence[Token], at: int) -> bool:
    """Whether a count follows up to which the last piece is danced: "section 3 up to and including 4&a"."""
    at += at < len(tokens) and tokens[at].text == "("
    last = at
    while last < len(tokens) and tokens[last].low in _AS_FAR:
        last += 1
    counted = last > at and last < len(tokens) and tokens[last].kind == "number"
    return counted and tokens[at].low not in ("and", "including")


_AS_FAR = frozenset(
    {
        "only",
        "up",
        "to",
        "until",
        "till",
        "through",
        "as",
        "far",
        "and",
        "including",
        "count",
        "counts",
        "beat",
        "beats",
    }
)


def _numbers_a_step(tokens: Sequence[Token], at: int, last: int) -> bool:
    """Whether a number is the count of the step after it: "1-22, then 23 stomp right, 24 stomp left"."""
    at += at < last and tokens[at].low in ("the", "your", "both")
    last_mark = last + (last < len(tokens) and tokens[last].text == ":")
    after = tokens[last_mark] if last_mark < len(tokens) else None
    bare = last == at + 1 and (tokens[at].kind == "number" or tokens[at].low in NUMBERS)
    return bare and after is not None and (after.low in STEP_WORDS or after.text in ("R", "L"))


def _ranges_over_steps(tokens: Sequence[Token], at: int) -> bool:
    """Whether a range is that of the counts of the steps behind it: "instead of counts 29-32: 1-2 stomp R, stomp L"."""
    said = tokens[at : at + 4]
    ranged = len(said) == 4 and said[1].text == "-" and {said[0].kind, said[2].kind} == {"number"}
    return ranged and (said[3].low in STEP_WORDS or said[3].text in ("R", "L"))


def _puts_in(tokens: Sequence[Token], last: int) -> bool:
    """Whether counts are said to be more than those of the dance, their steps behind: "and then 3 more counts: ..."."""
    at = last
    while at < len(tokens) and tokens[at].low in _MORE:
        at += 1
    return last < at < len(tokens) and tokens[at].text == ":" and not _MORE.isdisjoint({tokens[last].low} - _COUNTS)


_COUNTS = frozenset({"count", "counts", "beats"})
_MORE = _COUNTS | {"more", "extra", "further", "last", "final", "other", "closing"}


def _after_walls(tokens: Sequence[Token]) -> int:
    """Return the index after the numbers of several walls at the start: "Walls 1, 2 and 3 are full walls"."""
    if tokens[0].low != "walls" or len(tokens) < 2 or tokens[1].kind != "number":
        return 1
    at = 1
    while at < len(tokens) and (tokens[at].kind == "number" or tokens[at].low in LISTED | TO):
        at += 1
    told = at < len(tokens) and (tokens[at].low in _ARE or (tokens[at].text == ":" and at > _ONE_WALL))
    return at if told else 1


_ONE_WALL = 2
"""Tokens of "walls 4" alone."""


_ARE = frozenset({"are", "is", "go", "full", "complete", "all", "as", "have", "whole", "run", "stay"})


def _is_row(tokens: Sequence[Token]) -> bool:
    """Whether tokens are a row that names its wall first: "3 | 6:00 | ...", "wall 3: ...", "3rd  back ..."."""
    first = tokens[0].low in WALL_WORDS
    return tokens[first].kind in ("number", "clock", "facing") or number_at(tokens, first)[2]


def _word(token: Token, text: str) -> Token:
    return replace(token, kind="word", text=text, low=text, glued=False, value=None)


def _number(token: Token, value: int) -> Token:
    return replace(token, kind="number", text=str(value), low=str(value), glued=False, value=None)
