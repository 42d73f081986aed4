"""Half beats told among the words of a count: "2 walk left a right beside 3 left back", "a = left side . 2 = recover".

An a is an article nearly everywhere, and an & or "and" joins two feet. One between two steps is a count where the words
about it are a step each, and too many for the one count before it: "on & close the right, on a step left forward", too.
An a after the & of a count belongs to it where its words are a step more: "on 4 & a run right, left, right".
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.counts.scan import Place
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Fill, Token

_STRENGTH = 1.7
_SURE = 1.0
"""The strength of a mark that is no number among words."""
_CROWDED = 0.5
"""Words that fill one count so badly are more than one step."""
_FITS = 0.5
"""Two steps that fill a count each so well together are steps."""
_WAY = 2
"""So many half beats among words are the sheet's way of telling them."""
_FEET = {"l", "r", "left", "right", "lf", "rf"}
_SHARING = {"clap", "claps", "hold", "freeze", "pose", "snap", "click", "smile", "wait", "pause", "dip", "shout"}
_LASTING = {"sweep", "sweeping", "drag", "dragging", "look", "looking", "spiral", "spiralling", "raise", "raising"}
"""What a body does while a step lasts: the sign before it joins, and is no half beat."""
_NEAR = 6
"""Words among which a step names its foot."""
_TURNS = {"half", "quarter", "eighth", "third"}
_SIGNS = ("=", ":")
_BEFORE_ARTICLE = {
    "turn", "turning", "make", "making", "with", "for", "after", "do", "doing", "into", "in", "take", "taking", "as",
    "then", "of", "on", "to", "at", "and", "from", "using", "is", "by", "step", "half", "quarter", "like", "without",
}  # fmt: skip
_AFTER_ARTICLE = {
    "quarter", "half", "full", "small", "little", "big", "long", "turn", "step", "touch", "slight", "third", "bit",
    "coaster", "sailor", "shuffle", "chasse", "clap", "jazz", "vine", "grapevine", "bump", "kick", "pivot", "hitch",
}  # fmt: skip

_TELLS_A_STEP = _FEET | {
    "step", "turn", "close", "cross", "recover", "rock", "run", "walk", "point", "touch", "tap", "kick", "pivot",
    "sway", "the", "replace", "hitch", "sweep", "lock", "drag", "you", "spin", "slide", "place", "put", "bring", "make",
    "stomp",
}  # fmt: skip
"""Words after "on a" that tell a step there; an article before them would tell what is done on it."""


def with_half_beats(texts: Sequence[Line], marks: Sequence[Mark], fill: Fill) -> list[Mark]:
    """Return the marks with those of half beats among the words that follow a count.

    Where the sheet has several, one before a foot is one too: "4 R cross over a L side".
    """
    done = _with_found(texts, marks, fill, usual=False)
    more = len(done) - len(marks)
    return _with_found(texts, done, fill, usual=True) if more >= _WAY else done


def _with_found(texts: Sequence[Line], marks: Sequence[Mark], fill: Fill, *, usual: bool) -> list[Mark]:
    done: list[Mark] = []
    number = 0
    marked = sum(len(mark.places) == 1 and mark.places[0].sub != "" and mark.first < _WAY for mark in marks) >= _WAY
    for at, mark in enumerate(marks):
        before = marks[at - 1] if at else None
        after = marks[at + 1] if at + 1 < len(marks) else None
        number = mark.end.number or number
        line = texts[mark.line].tokens
        end = after.first if after is not None and after.line == mark.line else len(line)
        mark = _with_an_a(line, mark, end, fill)
        done.append(mark)
        if after is not None and (halves := _on_own_lines(texts, mark, after)):
            done += halves
            continue
        if not number or mark.end.sub == "a" or not _is_sure(before, mark):
            continue
        if before is not None and _goes_on_above(texts, before, mark) and fill(line[mark.last : end], _WAY) < _FITS:
            continue
        if _follows(mark, number, after):
            if after is not None and after.line == mark.line and _are_of_the_next(line, mark, after, fill):
                continue
            # Where halves open lines of their own, "Count 3&: recover", an "and" among words is none.
            spoken = (
                not (marked and mark.first < _WAY)
                and mark.start.number is not None
                and _may_be_spoken(line, mark, after, end, fill)
            )
            halves = _both(line, mark, end, fill) or _between(line, mark, end, fill, usual=usual, spoken=spoken)
            done += halves or (_over_lines(texts, mark, after, fill) if spoken and after is not None else [])
    return done


def _with_an_a(line: Sequence[Token], mark: Mark, end: int, fill: Fill) -> Mark:
    """Return a mark that ends with an & with the a after it as its last count, where its words have a step for each."""
    words = line[mark.last + 1 : end]
    if mark.end.sub != "&" or not words or line[mark.last].text != "a" or mark.end.number is None or mark.other:
        return mark
    counts = len(mark.places)
    if fill(words, counts + 1) >= _FITS or fill(line[mark.last : end], counts) < _CROWDED:
        return mark
    return replace(mark, last=mark.last + 1, places=(*mark.places, Place(mark.end.number, "a")))


def _over_lines(texts: Sequence[Line], mark: Mark, after: Mark, fill: Fill) -> list[Mark]:
    """Return the mark of an "and" between two counts that go on, on whatever lines it and its words stand."""
    goes_on = after.start == Place((mark.end.number or 0) + 1, "") and not mark.end.sub
    if not goes_on or not 0 < after.line - mark.line <= _WAY or after.number - mark.number > _WAY:
        return []
    words = [
        (index, at, token)
        for index in range(mark.line, after.line + 1)
        for at, token in enumerate(texts[index].tokens)
        if (index, at) >= (mark.line, mark.last) and (index, at) < (after.line, after.first)
    ]
    tokens = [token for _, _, token in words]
    for place in range(1, len(words) - 1):
        index, at, token = words[place]
        if token.low != "and" or not _names_a_foot(tokens[place + 1 :]):
            continue
        if _is_a_step_more(tokens[:place], tokens[place + 1 :], 1, _CROWDED, fill):
            return [_half(mark, texts[index].tokens, at, index, 1)]
    return []


def _on_own_lines(texts: Sequence[Line], mark: Mark, after: Mark) -> list[Mark]:
    """Return the mark of a line between those of two counts that go on: "a = right beside left"."""
    goes_on = after.start.number == (mark.end.number or 0) + 1 and not mark.end.sub
    if not goes_on or after.line != mark.line + 2 or mark.first or after.first:
        return []
    line = texts[mark.line + 1].tokens
    if len(line) < 3 or line[0].text not in ("a", "&") or line[1].text not in (*_SIGNS, "-", BREAK):
        return []
    return [_half(mark, line, 0, mark.line + 1, 2)]


def _half(mark: Mark, line: Sequence[Token], at: int, index: int, length: int) -> Mark:
    """Return the mark of a half beat after a count, told at a token of a line."""
    sub = {"on": "a", "and": "&"}.get(line[at].low, line[at].text)
    place = Place(mark.end.number, sub)
    return Mark(index, at, at + length, (place,), _STRENGTH, number=line[at].line, column=line[at].column)


def _is_sure(before: Mark | None, mark: Mark) -> bool:
    """Whether a mark is more than a number among words: it opens its line, or goes on from the count before it."""
    if mark.first == 0 or mark.strength >= _SURE:
        return True
    return before is not None and before.line == mark.line and mark.start.number == (before.end.number or 0) + 1


def _goes_on_above(texts: Sequence[Line], before: Mark, mark: Mark) -> bool:
    """Whether a count stands at the end of the line above, its words with those of the next: "on 13 and | 14 rock"."""
    above = texts[before.line].tokens[before.last :]
    goes_on = mark.start == Place((before.end.number or 0) + 1, "")
    return goes_on and before.line + 1 == mark.line and not mark.first and [token.low for token in above] == ["and"]


def _follows(mark: Mark, number: int, after: Mark | None) -> bool:
    """Whether the next mark is on another line, or goes on from one with that number."""
    if after is None or after.line != mark.line:
        return True
    return after.start.number in (None, number + 1, 1)


def _are_of_the_next(line: Sequence[Token], mark: Mark, after: Mark, fill: Fill) -> bool:
    """Whether words between two marks are those of the second: "pivot half left on 6, and walk R and L on 7 and 8".

    So they may be between two in brackets: "brush (4), step right and turn a quarter left onto the left foot (5-6)".
    """
    on = {line[mark.first].low, line[after.first].low} == {"on"}
    if len(after.places) < _WAY or not mark.first or not (on or (mark.closed and after.closed)):
        return False
    between = line[mark.last : after.first]
    fits = any(fill(between, len(places)) < _FITS for places in (after.places, after.other) if places)
    return fits and any(token.low == "and" for token in between)


def _may_be_spoken(line: Sequence[Token], mark: Mark, after: Mark | None, end: int, fill: Fill) -> bool:
    """Whether an "and" among the words from a mark up to a token may be a half: no other count has it.

    "On 2 rock behind, and recover on the a." "Right on one, rock left and recover right on two-a."
    """
    if len(mark.places) > 1 or (after is not None and after.start.sub and after.line - mark.line < _WAY):
        return False
    halved = after is not None and any(place.sub for place in after.places)
    return not (halved and after is not None and fill(line[mark.last : end], len(after.places)) < _CROWDED)


def _both(line: Sequence[Token], mark: Mark, end: int, fill: Fill) -> list[Mark]:
    """Return the marks of an & and an a among the words of one count: "2 LF behind & RF side a LF across"."""
    if mark.end.sub:
        return []
    for at in range(mark.last + 1, end - 3):
        if line[at].text != "&":
            continue
        for then in range(at + 2, end - 1):
            after = line[then + 1]
            opens = after.low in _FEET or after.low in _TURNS or after.kind == "fraction"
            if line[then].text != "a" or line[then - 1].low in _BEFORE_ARTICLE or not opens:
                continue
            told = fill(line[mark.last : at], len(mark.places)) + fill(line[at + 1 : then], 1)
            if told + fill(line[then + 1 : end], 1) < _FITS:
                return [_half(mark, line, at, mark.line, 1), _half(mark, line, then, mark.line, 1)]
    return []


def _between(line: Sequence[Token], mark: Mark, end: int, fill: Fill, *, usual: bool, spoken: bool) -> list[Mark]:
    """Return the mark of the half beat among the words from a mark up to a token, if there is one."""
    for at in range(mark.last + 1, end - 1):
        token, before = line[at], line[at - 1]
        if token.text not in ("a", "&", "and", "And") or (token.text != "a" and mark.end.sub == "&"):
            continue
        if token.low == "and" and not spoken:
            continue
        if before.text == token.text == line[at + 1].text:
            # A row of such signs is no half beat.
            continue
        if line[at + 1].low in _LASTING and token.text != "a":
            continue
        signed = line[at + 1].text in _SIGNS
        led = token.text == "a" and before.low == "on" and line[at + 1].low in _TELLS_A_STEP
        left, right = line[mark.last : at - led], line[at + 1 + signed : end]
        if led and _is_a_step_more(left, right, len(mark.places), _CROWDED, fill):
            return [_half(mark, line, at - 1, mark.line, 2)]
        article = token.text == "a" and (before.low in _BEFORE_ARTICLE or line[at + 1].low in _AFTER_ARTICLE)
        if article and not signed:
            continue
        opens = before.text in (".", ",", ";", "/", BREAK)
        crowded = 0.0 if usual and token.low != "and" and line[at + 1].low in _FEET else _CROWDED
        if token.low == "and" and not _names_a_foot(right):
            continue
        if not (signed and opens) and not _is_a_step_more(left, right, len(mark.places), crowded, fill):
            continue
        return [_half(mark, line, at, mark.line, 1 + signed)]
    return []


def _names_a_foot(words: Sequence[Token]) -> bool:
    """Whether words after an "and" name a foot or are a step's name alone, and do not only say where one faces."""
    end = next((at for at, token in enumerate(words) if token.kind == "facing" or token.text in (".", ";")), len(words))
    said = [token for token in words[:end] if token.kind != "mark"]
    faces = end < len(words) and words[end].kind == "facing"
    if said and said[0].low in _SHARING:
        # "Tap left beside right and clap": both on one count.
        return False
    return any(token.low in _FEET for token in said[:_NEAR]) or (len(said) <= _WAY and not faces)


def _is_a_step_more(left: Sequence[Token], right: Sequence[Token], counts: int, crowded: float, fill: Fill) -> bool:
    """Whether words on both sides of a half beat are steps each, and together too many for the counts before it."""
    if not left or not right:
        return False
    apart = fill(left, counts) + fill(right, 1)
    return apart < _FITS and (not crowded or fill((*left, *right), counts) > apart + crowded)


def with_first_half(marks: Sequence[Mark]) -> list[Mark]:
    """Return the marks; a half beat told by itself before the first count of all is that of the count before it."""
    opens = (
        len(marks) > 1 and marks[0].places == (Place(None, marks[0].start.sub),) and marks[0].start.sub in ("&", "a")
    )
    if not opens or marks[1].start != Place(1, "") or marks[1].line > marks[0].line + 1:
        return list(marks)
    return [replace(marks[0], places=(Place(0, marks[0].start.sub),)), *marks[1:]]
