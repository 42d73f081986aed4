"""Counts that a teacher sets apart from running words by the way they are written: ONE right TWO left, *one*, '1', /1/.

A way of writing is known as the sheet's way of counting by its numbers: nearly all that are written so go on from the
one before, or begin again at one. They are told as counts in brackets, "(1) right (2) left", and a half beat written
the same way with them: "(3 & 4)", "(&)".
"""

from collections.abc import Container, Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.scan import NUMBERS, count_told
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HALVES = {"and": "&", "&": "&", "n": "&", "+": "&"}
_QUARTERS = ("a", "e")
_AROUND = ("*", "_", "'", '"', "/", "~", "^", "=", "#", "`", "-", "!")
"""Signs that are written on both sides of a count."""
_TO = {"to", "through", "thru", "-"}
_PARTING = ("-", ")", "=", ">")
"""Signs that part a count from its words."""
_OFTEN = 2
"""So many lines with an "and" in capitals among counts are the sheet's way of counting."""
_LEAST = 8
"""So many numbers that go on make a way of counting."""
_MOST_PART = 0.7
"""The share of the numbers of a way that go on."""
_APART = 28
"""Tokens between a count and the one it goes on from, at most."""
_NO_HEADS = {"and", "then", "count", "counts", "beat", "beats", "right", "left", *NUMBERS}
"""Words in capitals before a number in capitals that it is a count beside."""
_INSIDE = 8
"""Tokens of the counts between two signs."""


@dataclass(frozen=True, slots=True)
class _Count:
    """A number written in some way: where it stands, and from which token to which (exclusive) with its signs."""

    line: int
    first: int
    last: int
    values: tuple[int, ...]
    place: int
    """How many tokens of the sheet stand before it."""


def with_counts_set_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts in capitals or between signs of their own as counts in brackets."""
    for sign in _AROUND:
        lines = _told(lines, list(_signed(lines, sign)))
    quiet = {index for index, line in enumerate(lines) if not _shouts(line)}
    loud = [count for count in _spelled(lines, "loud") if count.line in quiet]
    return _told(_with_halves_beside_figures(lines, quiet), loud)


def with_counts_in_words(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts in plain words as counts in brackets: "One step right, two step left"."""
    done = tuple(lines)
    for way in ("title", "small"):
        runs = _runs(list(_spelled(done, way)))
        done = _told(done, [count for run in runs if len(run) > 2 for count in run])
    return done


def _told(lines: Sequence[Line], counts: Sequence[_Count]) -> tuple[Line, ...]:
    """Return the lines with some counts in brackets, if they are a way of counting."""
    numbers = [count for count in counts if count.values]
    runs = [run for run in _runs(numbers) if len(run) > 1]
    going_on = sum(map(len, runs))
    told = sum(len(count.values) for run in runs for count in run)
    if told < _LEAST or going_on < _MOST_PART * len(numbers):
        return tuple(lines)
    by_line: dict[int, list[_Count]] = {}
    for count in counts:
        # A half beat stands near the count that it follows.
        if count.values or any(0 < count.place - one.place <= _APART for one in numbers):
            by_line.setdefault(count.line, []).append(count)
    return tuple(
        replace(line, tokens=_in_brackets(line.tokens, by_line[index])) if index in by_line else line
        for index, line in enumerate(lines)
    )


def _in_brackets(tokens: tuple[Token, ...], counts: Sequence[_Count]) -> tuple[Token, ...]:
    """Return tokens with some counts in brackets, and without the sign that parts a count from its words."""
    done: list[Token] = []
    at = 0
    for count in counts:
        done += tokens[at : count.first]
        inner = [_as_figure(token) for token in tokens[count.first : count.last] if token.text not in _AROUND[:-2]]
        at = count.last
        bracketed = bool(done) and done[-1].text in "([" and at < len(tokens) and tokens[at].text in ")]"
        if bracketed:
            done += inner
            continue
        first, last = tokens[count.first], tokens[count.last - 1]
        done += [
            replace(first, kind="mark", text="(", low="("),
            *inner,
            replace(last, kind="mark", text=")", low=")", glued=True),
        ]
        at += at < len(tokens) and tokens[at].text in _PARTING
    return (*done, *tokens[at:])


def _as_figure(token: Token) -> Token:
    """Return a number in words in figures, and an "and" in capitals as a half beat."""
    if token.kind == "word" and token.low in NUMBERS:
        return replace(token, kind="number", text=str(NUMBERS[token.low]), low=str(NUMBERS[token.low]))
    if token.text == "AND":
        return replace(token, kind="amp", text="&", low="&")
    return replace(token, text=token.low)


def _with_halves_beside_figures(lines: Sequence[Line], quiet: Container[int]) -> tuple[Line, ...]:
    """Return the lines, an "and" in capitals as a half beat where counts are figures: "3 right AND left 4 right"."""
    loud = [
        index
        for index, line in enumerate(lines)
        if index in quiet
        and any(token.text == "AND" and not _is_in_a_title(line.tokens, at) for at, token in enumerate(line.tokens))
        and sum(token.kind == "number" for token in line.tokens) > 1
    ]
    if len(loud) < _OFTEN:
        return tuple(lines)
    return tuple(
        replace(line, tokens=tuple(_half_told(line.tokens))) if index in loud else line
        for index, line in enumerate(lines)
    )


def _half_told(tokens: Sequence[Token]) -> Iterator[Token]:
    for at, (before, token, after) in enumerate(zip((None, *tokens), tokens, (*tokens[1:], None), strict=False)):
        if token.text != "AND" or _is_in_a_title(tokens, at):
            yield token
        elif (before is not None and before.kind == "number") or (after is not None and after.kind == "number"):
            yield _as_figure(token)
        else:
            yield replace(token, kind="mark", text="(", low="(")
            yield _as_figure(token)
            yield replace(token, kind="mark", text=")", low=")", glued=True)


def _is_in_a_title(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word stands between others in capitals: "WALKS AND COASTER"."""
    around = (*tokens[max(at - 1, 0) : at], *tokens[at + 1 : at + 2])
    return len(around) > 1 and all(one.kind == "word" and len(one.text) > 1 and one.text.isupper() for one in around)


def _runs(counts: Sequence[_Count]) -> list[list[_Count]]:
    """Return counts in runs that go on from one to the next, each from its first count."""
    runs: list[list[_Count]] = []
    for count in counts:
        before = runs[-1][-1] if runs else None
        near = before is not None and count.place - before.place <= _APART
        if before is not None and near and count.values[0] == before.values[-1] + 1:
            runs[-1].append(count)
        else:
            runs.append([count])
    return [run for run in runs if run[0].values[0] in (1, 5, 9, 13, 17, 21, 25, 29) or len(run) > 2]


def _spelled(lines: Sequence[Line], way: str) -> Iterator[_Count]:
    """Yield the numbers in words that are written in capitals, with a capital, or small."""
    passed = 0
    for index, line in enumerate(lines):
        at = _behind_a_head(line.tokens) if way == "loud" else 0
        while at < len(line.tokens):
            last, values = _group(line.tokens, at, way)
            if last > at:
                yield _Count(index, at, last, values, passed + at)
            at = max(last, at + 1)
        passed += len(line.tokens)


def _behind_a_head(tokens: Sequence[Token]) -> int:
    """Return the token behind the number that a noun in capitals opens a line with: "LINE THREE, cross and point"."""
    if len(tokens) < 2 or tokens[1].low not in NUMBERS:
        return 0
    noun = tokens[0]
    heads = noun.kind == "word" and len(noun.text) > 2 and noun.text.isupper() and noun.low not in _NO_HEADS
    return 2 if heads and noun.low not in STEP_WORDS and tokens[1].text.isupper() else 0


def _group(tokens: Sequence[Token], at: int, way: str) -> tuple[int, tuple[int, ...]]:
    """Return where the counts end that begin with a token, and their numbers: "THREE AND FOUR", "ONE TO FOUR"."""
    first = at
    if way == "loud" and tokens[at].text == "AND":
        first += 1
        if first == len(tokens) or not _is_a_number(tokens[first], way):
            return first, ()
    if not _is_a_number(tokens[first], way):
        return at, ()
    values = [NUMBERS[tokens[first].low]]
    last = first + 1
    while (ahead := _joined(tokens, last, values[-1], way)) > last:
        values.append(NUMBERS[tokens[ahead - 1].low])
        last = ahead
    return last, tuple(values)


def _joined(tokens: Sequence[Token], at: int, value: int, way: str) -> int:
    """Return where the next number of a group ends that a token joins to it; the token's index where none does."""
    token = tokens[at] if at < len(tokens) else None
    if token is None:
        return at
    number = at
    if token.low in _TO or token.low in _HALVES or token.text == "," or (token.low in _QUARTERS and way == "loud"):
        number = at + 1
    after = tokens[number] if number < len(tokens) else None
    if after is None or NUMBERS.get(after.low, 0) <= value:
        return at
    following = NUMBERS[after.low] == value + 1 or token.low in _TO
    small = way == "title" and after.low == after.text
    return number + 1 if following and (small or _is_written(after, way)) else at


def _is_a_number(token: Token, way: str) -> bool:
    return token.low in NUMBERS and _is_written(token, way)


def _is_written(token: Token, way: str) -> bool:
    if token.kind != "word":
        return False
    if way == "loud":
        return token.text.isupper()
    return token.text.istitle() if way == "title" else token.text.islower()


def _shouts(line: Line) -> bool:
    """Whether a line has more words in capitals beside its counts than small ones: capitals set nothing apart there."""
    words = [
        token.text
        for token in line.tokens
        if token.kind == "word" and len(token.text) > 1 and token.low not in NUMBERS and token.low not in _HALVES
    ]
    return 2 * sum(word.isupper() for word in words) > len(words)


def _signed(lines: Sequence[Line], sign: str) -> Iterator[_Count]:
    """Yield the counts that stand between two signs alike: *1*, "one", **3 & 4**."""
    passed = 0
    for index, line in enumerate(lines):
        tokens = line.tokens
        after = 0
        for at in [place for place, token in enumerate(tokens) if token.text == sign]:
            if at < after:
                continue
            inner, after = _between(tokens, at, sign)
            values = tuple(value for token in tokens[inner[0] : inner[1]] if (value := count_told(token)) is not None)
            if after > at and (values or _is_half(tokens[inner[0] : inner[1]])):
                yield _Count(index, at, after, values, passed + at)
        passed += len(tokens)


def _between(tokens: Sequence[Token], at: int, sign: str) -> tuple[tuple[int, int], int]:
    """Return the first token and the end of counts between signs, and where the signs after them end."""
    nothing = ((at, at), at)
    if tokens[at].text != sign or (at and tokens[at].glued and tokens[at - 1].text not in "(,.;"):
        return nothing
    first = at
    while first < len(tokens) and tokens[first].text == sign:
        first += 1
    end = first
    while end < min(len(tokens), first + _INSIDE) and _may_be_inside(tokens[end]):
        end += 1
    width = first - at
    closing = tokens[end : end + width]
    if end == first or not tokens[first].glued or len(closing) < width or not closing[0].glued:
        return nothing
    return ((first, end), end + width) if all(token.text == sign for token in closing) else nothing


def _may_be_inside(token: Token) -> bool:
    low = token.low
    return count_told(token) is not None or low in _HALVES or low in _QUARTERS or low in _TO or token.text == ","


def _is_half(tokens: Sequence[Token]) -> bool:
    return len(tokens) == 1 and (tokens[0].low in _HALVES or tokens[0].low in _QUARTERS)
