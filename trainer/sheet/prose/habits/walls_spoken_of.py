"""The noun by which a sheet calls its walls, found by what is said of it: "heat 2 begins at 9", "in the third heat".

No list tells which noun that is: numbers or ordinals stand beside it, and tell when something comes or where it
begins. One that heads steps is none, and a sheet that numbers its walls as walls has none. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain

from trainer.sheet.prose.lexis.numerals import SIGNS, number_at
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, ROMAN, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_SHORTEST = 3
"""Letters of such a noun."""
_HIGHEST = 16
"""What has higher numbers are counts."""
_WALL = "wall"
_NO_NOUN = words_in("""
    count beat bar measure minute second hour clock year month week day page track version issue term lesson level
    tag bridge ending intro restart option change break extra step part section figure phrase block set eight six line
    row group column song verse chorus time turn half quarter side foot way place note word number side
    last first next same one back front home easy new least much more still about everything what where
    has have is are was be do does not take come say start begin end dance danced face facing add hold wait drop move go
    walk the and for your it you we she they this that these those which so if but or all also just only then again
    each every both full whole after before until till when through over round around at to from on in of with by as
    pair couple spot
    up out off down into than past near between aft beyond beside per plus none nd rd th st
""")
"""What else stands beside numbers: units, what heads steps or is danced, and small words."""
_TABLES = (_NO_NOUN, SONG_PARTS, STEP_WORDS, NUMBERS, ORDINALS, ROMAN)
_THROUGH = words_in("through round around over")
"""So nouns end that are made of a step: "run-through", "go-round"."""
_HAD = words_in("the a an your both left right lf rf in")
_COUNTED = words_in("count counts ct cts beat beats bar bars o'clock times x eights more steps hours h")
"""Behind a number these tell what it counts: "repeat 2 times"."""
_ITS = words_in("""
    begins begin starts start faces facing looks ends finishes stops is only has restart restarts there breaks opens
    commences will gets sets goes closes runs comes
""")
"""Behind such a noun and its number these say what becomes of it."""
_LEADS_ON = words_in(", ( - which that the one")
"""What may stand before them."""
_IN = words_in("""
    in on during after before when for until till once while of as with ends end begins begin starts start
    completing finishing finished finish into throughout
""")
_BETWEEN = words_in("the very only our your this both just that")
_WHERE = words_in("end start beginning close middle top halfway outset")
_SO_FAR = words_in("to till until through finish complete")
"""Before the end of something these say how far the dance is danced."""
_BREAKS = words_in("""
    restart restarts restarted again anew afresh tag tags bridge bridges ending begins starts start begin stop stops
    faces add
""")
_ORDER = _BREAKS | words_in("finish finale extra dance danced whole full complete all everything top once")
"""A sentence about the order has one of these words."""
_NO_HEAD = _BREAKS | words_in("facing leave instead place starting beginning from")
"""A line that opens with a noun and has one of these heads no steps."""
_FACED = words_in("@ front back home facing looking from faces")
_FACED_WITHIN = 6
_MARKS = words_in("( : , - @ [ {") | {BREAK}
_JOINS = words_in("and & or to which you we as")
_SENTENCE_ENDS = words_in(". ! ? ;")
_REACH = 24
"""Tokens at most to either side of a noun that are of its sentence."""
_NEAR = 12
"""Tokens behind a head in which its steps begin."""
_HEADS_STEPS, _COUNTS = -1, -100
_SURE = 2


@dataclass(frozen=True, slots=True)
class _Place:
    """A noun with its number: the first token of both, and the index after them."""

    noun: str
    number: int
    first: int
    last: int


def walls_spoken_of(lines: Sequence[Line]) -> str:
    """Return the noun by which the sheet calls its walls, a hyphen in it; an empty text where they are walls."""
    tokens = tuple(chain.from_iterable(line.tokens for line in lines))
    said: dict[str, list[int]] = {}
    for place in _places(tokens):
        if place.noun == _WALL:
            return ""
        said.setdefault(place.noun, []).append(_says(tokens, place))
    scores = {noun: sum(one for one in ones if one > 0) for noun, ones in said.items() if _is_known(ones)}
    return max(scores, key=lambda noun: scores[noun], default="")


def _is_known(said: Sequence[int]) -> bool:
    """Whether most of what is said of a noun is said of times through the dance, and nothing of steps."""
    told = [one for one in said if one != _HEADS_STEPS]
    return sum(told) >= max(_SURE, len(said) / 2) and len(said) - len(told) < 2


def _places(tokens: Sequence[Token]) -> Iterator[_Place]:
    """Yield where nouns stand with a number behind or an ordinal before."""
    for at in range(len(tokens)):
        noun, first = _noun_ending(tokens, at)
        if not noun:
            continue
        number, last = _number_behind(tokens, at + 1)
        if number:
            yield _Place(noun, number, first, last)
        elif not _does(tokens, at + 1):
            number, start = _ordinal_before(tokens, first)
            if number:
                yield _Place(noun, number, start, at + 1)


def _noun_ending(tokens: Sequence[Token], at: int) -> tuple[str, int]:
    """Return the noun that ends at a token, as one of its kind, and its first token; an empty text where none does."""
    token = tokens[at]
    if token.kind != "word" or not token.low.isalpha():
        return "", at
    one = singular(token.low)
    dash = tokens[at - 1] if at > 1 else None
    if dash is not None and dash.text == "-" and dash.glued and token.glued and tokens[at - 2].kind == "word":
        before = tokens[at - 2].low
        stepped = one not in _THROUGH and (before in STEP_WORDS or one in STEP_WORDS)
        return ("", at) if stepped or before in NUMBERS else (f"{before}-{one}", at - 2)
    known = any(low in table for low in (token.low, one) for table in _TABLES)
    return ("" if known or len(one) < _SHORTEST else one), at


def singular(low: str) -> str:
    """Return a noun as one of its kind: "laps" as "lap", "passes" as "pass"."""
    if low.endswith(("sses", "ches", "xes", "shes")):
        return low[:-2]
    return low[:-1] if low.endswith("s") and not low.endswith("ss") else low


def _number_behind(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the number of a noun, which begins at a token, and the index after it; 0 where there is none."""
    first = at
    if at < len(tokens) and tokens[at].line != tokens[at - 1].line and not _goes_on(tokens, at):
        return 0, first
    while at < len(tokens) and tokens[at].low in SIGNS | {"."} and (tokens[at].text != "." or at > first):
        at += 1
    if at < len(tokens) and tokens[at].text.isupper() and tokens[at].low in ROMAN:
        return ROMAN[tokens[at].low], at + 1
    number, last, placed = number_at(tokens, at)
    if placed or not number or not _ends_there(tokens, at, last):
        return 0, first
    several = singular(tokens[first - 1].low) != tokens[first - 1].low
    joined = [token.low for token in tokens[last : last + 1]] in (["-"], ["to"], ["&"])
    # "On the spot 4-6": counts of a step.
    counts = joined and not several and number_at(tokens, last + 1)[0] > number
    return (0, first) if counts else (number, last)


def _ends_there(tokens: Sequence[Token], first: int, last: int) -> bool:
    """Whether a number is that of the noun before it, and tells not how many of something there are."""
    behind = tokens[last] if last < len(tokens) else None
    if behind is None or behind.line != tokens[last - 1].line:
        return True
    if behind.text == "-" and behind.glued and last + 1 < len(tokens) and tokens[last + 1].glued:
        return tokens[last + 1].kind != "word"
    if behind.low in _COUNTED or behind.kind == "number":
        return False
    if tokens[first].kind == "number" or tokens[first].low in ROMAN:
        return True
    # "Circuit two" is one of them, "come two verses" and "the short one" are none.
    alone = tokens[first].low == "one" and first > 1 and tokens[first - 2].low in ("a", "the")
    return not alone and (behind.kind == "mark" or behind.low in _ITS | _IN | _ORDER | _JOINS)


def _goes_on(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number that opens a line goes on with the line above, and heads no row of its own."""
    here = (tokens[at - 1].line, tokens[at].line)
    if any(token.text == BREAK and token.line in here for token in tokens[max(at - _NEAR, 0) : at + _NEAR]):
        return False
    behind = tokens[at + 1].text if at + 1 < len(tokens) else "."
    row = next(token for token in tokens[max(at - _REACH, 0) :] if token.line == here[0]).kind == "number"
    return behind not in (".", ")") and not (row and behind == ",")


def _ordinal_before(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return the ordinal that ends before a noun, as a number, and where it begins; 0 where none does."""
    for first in range(max(at - 3, 0), at):
        number, last, placed = number_at(tokens, first)
        if placed and last == at:
            return number, first
    return 0, at


def _does(tokens: Sequence[Token], at: int) -> bool:
    """Whether something stands behind a word that only a verb has: "on the second bring the left"."""
    return at < len(tokens) and tokens[at].low in _HAD


def _heads_steps(tokens: Sequence[Token], place: _Place) -> bool:
    """Whether a noun opens a line that tells nothing of the order, and steps follow."""
    line = tokens[place.first].line
    first = place.first
    while first and tokens[first - 1].line == line:
        first -= 1
    if any(token.kind != "mark" and token.low != "the" for token in tokens[first : place.first]):
        return False
    beyond = tokens[place.last : place.last + _NEAR]
    told = any(token.low in _NO_HEAD for token in beyond if token.line == line)
    return not told and sum(token.low in STEP_WORDS for token in beyond) > 1


def _says(tokens: Sequence[Token], place: _Place) -> int:
    """Return how surely something is said of a time through the dance; less than naught where steps are headed."""
    if place.number > _HIGHEST:
        return _COUNTS
    if _heads_steps(tokens, place):
        return _HEADS_STEPS
    before, behind = _sentence(tokens, place)
    words = {token.low for token in (*before, *behind)}
    faced = any(token.kind in ("clock", "facing") or token.low in _FACED for token in behind[:_FACED_WITHIN])
    told = bool(_ORDER & words) or faced
    ours = next((token.low for token in behind if token.low not in _LEADS_ON), "")
    if behind and (ours in _ITS or (behind[0].low in _MARKS and faced)):
        return _SURE
    lead = [token.low for token in before if token.kind == "word" and token.low not in _BETWEEN][-3:]
    if lead[-1:] == ["of"] and lead[-2:-1] and lead[-2] in _WHERE:
        return 0 if lead[0] in _SO_FAR else _SURE
    if lead and (lead[-1] in _IN | _ORDER or lead[-2:] == ["on", "to"]):
        return _SURE if told else 1
    if not before or before[-1].kind == "mark" or before[-1].line != tokens[place.first].line:
        return int(told)
    return int(faced)


def _sentence(tokens: Sequence[Token], place: _Place) -> tuple[list[Token], list[Token]]:
    """Return the tokens of a sentence before and behind a noun with its number."""
    first = place.first
    while first and place.first - first < _REACH and tokens[first - 1].text not in _SENTENCE_ENDS:
        first -= 1
    last = place.last
    while last < len(tokens) and last - place.last < _REACH and tokens[last].text not in _SENTENCE_ENDS:
        last += 1
    return list(tokens[first : place.first]), list(tokens[place.last : last])
