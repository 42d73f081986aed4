"""Counts of one pass of a part that are danced otherwise: "in the last Chorus swap the walks on 5, 6 for this: ...".

The play keeps the part as it is; the sentence is told anew as one of its wall, which the order of the dance reads.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.routine import Routine
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.plays.paragraphs import Sentence, speaks_of_steps
from trainer.sheet.prose.plays.symbols import Named, Symbol, Text, symbols, text_of
from trainer.sheet.prose.plays.told_items import Play
from trainer.sheet.prose.words import Token

_NTH = r"(?:#(?P<{0}>\d+)|last|final|closing)"
_OF_IT = r"(?:(?:the|that|this|our|your|very|part|only|single|one|of|them|these|those) )*"
_DANCE = r"(?:(?:we|you|they|all|one|everybody) )?(?:dance|do|come to|reach|meet|have|hear|get to|is|comes?)(?: \w+)?"
_PASSES = (
    re.compile(rf"(?:\b(?:mind|watch|note|remember|only|but|and) )*(?:\b(?P<in>in|on|for|during) )?{_OF_IT}"
               rf"{_NTH.format('a')} (?:part )?@(?P<pa>\d)(?: only)?"),
    re.compile(rf"(?:\bonly )?(?:\b(?:when|as|once) )?{_DANCE} (?:the )?@(?P<pb>\d) for the (?:very )?"
               rf"{_NTH.format('b')} time"),
    re.compile(rf"(?:\b(?:in|on|for) )?(?:\bthe )?(?:very )?{_NTH.format('c')} time (?:that |round )?(?:,? ?)"
               rf"{_DANCE} (?:the )?@(?P<pc>\d)"),
    re.compile(r"(?:\b(?P<in2>in|on|for|during) )?(?:this|that) (?:one )?@(?P<pd>\d)(?: only)?"),
    re.compile(r"\b@(?P<pe>\d) number (?P<e>\d+)"),
)  # fmt: skip
"""One pass of a part: "in that last Chorus", "when you dance the Chorus for the third time"."""
_OTHERWISE = re.compile(
    r"\b(?:swap\w*|exchang\w+|replac\w+|substitut\w+|instead|in (?:the )?place of|rather than|becomes?|"
    r"chang(?:e|ed|es)|turns? into|differ\w*|otherwise|alter\w*|(?:do not|don't|not) [^.;:]{1,60} but)\b|"
    r"\bcounts? \d[^:.;]*? (?:is|are|goes?|reads?)\b"
)
_ANNOUNCED = re.compile(r"\b(?:change|changed|changes|difference|different|differs|otherwise|altered|twist|surprise)\b")
_COUNTED = re.compile(r"\bcounts? \d|\b\d+ ?[,&-]|\b\d+ and \d|\b\d+ to \d|\b(?:on|beats?) \d|\blast \d+ counts\b")
_CUT = re.compile(
    r"\b(?:stops?|stopp\w+|leave off|leave (?:it|out)|drop|breaks? off|cut|shortened|only (?:the )?\d+ counts|up to|"
    r"as far as|until|finish after|ends? after|goes? (?:on|straight))\b"
)
_FEW = 2


@dataclass(frozen=True, slots=True)
class Change:
    """A sentence that tells what one pass of a part dances otherwise."""

    tokens: tuple[Token, ...]
    part: int
    number: int
    """Which of its passes; 0: the last; -1: the one told last before it."""
    items: int
    """How many items of its paragraph's play are told before it."""
    first: int
    last: int
    """Where its tokens name the pass."""


def change_in(sentence: Sentence, more: Sequence[Sentence], play: Play, named: Named) -> tuple[Change, int] | None:
    """Return what a sentence tells of changed counts, and how many sentences behind it tell their steps.

    "The last B has one change. On counts 5-6 of B2 step forward and pivot half" takes the next sentence with it.
    """
    given = symbols(sentence.tokens, named)
    if sum(one.part >= 0 for one in given) != 1 or any(one.extra is not None for one in given):
        return None
    text = text_of(given)
    found = next((match for match in (one.search(text.text) for one in _PASSES) if match is not None), None)
    if found is None or _CUT.search(text.text):
        return None
    taken = 0
    tokens = sentence.tokens
    if not _tells_steps(given, text, found.end()):
        behind = symbols(more[0].tokens, named) if more else ()
        if _ANNOUNCED.search(text.text) is None or not _goes_on(behind):
            return None
        tokens, taken = (*tokens[:-1], replace(tokens[-1], text=":", low=":", kind="mark"), *more[0].tokens), 1
    elif _OTHERWISE.search(text.text) is None:
        return None
    told = found.groupdict()
    part = next(int(told[name]) for name in ("pa", "pb", "pc", "pd", "pe") if told.get(name))
    number = next((int(told[name]) for name in "abce" if told.get(name)), -1 if told.get("pd") else 0)
    first, last = _tokens_of(text, found)
    return Change(tokens, part, number, len(play.items), first, last), taken


def _tells_steps(given: Sequence[Symbol], text: Text, end: int) -> bool:
    """Whether steps are told, and which of the part's are not danced: by their counts or their names."""
    steps = sum(speaks_of_steps(one.token) for one in given)
    named = steps > _FEW or _COUNTED.search(text.text) is not None
    return steps >= _FEW and named


def _goes_on(given: Sequence[Symbol]) -> bool:
    """Whether a sentence tells the steps of a change that the one before announced."""
    steps = sum(speaks_of_steps(one.token) for one in given)
    alone = all(one.part < 0 and one.extra is None for one in given)
    return alone and steps >= _FEW and _CUT.search(text_of(given).text) is None


def _tokens_of(text: Text, found: re.Match[str]) -> tuple[int, int]:
    """Where the tokens of a match begin and end."""
    within = [at for at, start in enumerate(text.starts) if found.start() <= start < found.end()]
    return (text.symbols[within[0] - 1].after if within[0] else 0), text.symbols[within[-1]].after


def changed_passes(changes: Sequence[Change], play: Play, own: Sequence[Change]) -> Iterator[tuple[Change, int]]:
    """Yield each change of a play with the number of the part that it changes, counted over all parts.

    `own` are those that the play's own paragraph tells.
    """
    for one in changes:
        at = _item(one, play, own=any(other is one for other in own))
        if at is not None:
            yield one, sum(item.part >= 0 for item in play.items[: at + 1])


def lost_changes(changes: Sequence[tuple[Change, int]], play: Play, routine: Routine, named: Named) -> list[Change]:
    """Return the changes of which the routine knows nothing: the pass is danced there as any other."""
    parts = play.parts
    departs = {
        (line.part, number)
        for line in routine.order
        for number in line.passes
        if any(one.change or one.inserts for one in line.departures)
    }
    return [one for one, number in changes if (named.parts[one.part], parts[:number].count(one.part)) not in departs]


def _item(one: Change, play: Play, *, own: bool) -> int | None:
    if one.number > 0:
        return play.nth(one.part, one.number)
    if one.number < 0 and not own:
        return None
    before = play.items[: one.items] if own and one.number < 0 else play.items
    return next((at for at in range(len(before) - 1, -1, -1) if before[at].part == one.part), None)


def told_of_its_wall(one: Change, number: int) -> tuple[Token, ...]:
    """Return a change as a sentence of its wall: "In wall 10 swap the walks on 5, 6 of the second eight for this"."""
    head = one.tokens[one.first]
    wall = replace(head, kind="word", text="wall", low="wall", glued=False, value=None)
    count = replace(wall, kind="number", text=str(number), low=str(number))
    led = one.tokens[one.first : one.first + 1] if head.low in ("in", "on", "for", "during", "only") else ()
    rest = _replaced(_placed_first(_instead_of(_becoming(_unannounced(list(one.tokens[one.last :]))))))
    return (*led, wall, count, *rest)


def _unannounced(tokens: list[Token]) -> list[Token]:
    """Leave out what only says that something is danced otherwise: "has one small change:"."""
    colon = next((at for at, token in enumerate(tokens[:_NEAR]) if token.text == ":"), 0)
    only = any(_ANNOUNCED.match(token.low) for token in tokens[:colon]) and all(
        token.kind == "word" and not speaks_of_steps(token) for token in tokens[:colon]
    )
    return tokens[colon:] if only else tokens


def _becoming(tokens: list[Token]) -> list[Token]:
    """Tell "counts 5 and 6 are step R, pivot" as "counts 5 and 6 become" them."""
    becomes = next((at for at, token in enumerate(tokens) if token.low in ("become", "becomes")), 0)
    counts = next((at for at in range(becomes) if tokens[at].low in ("counts", "count")), 0)
    if counts and any(map(speaks_of_steps, tokens[:counts])):
        # "The two walks, counts 5 and 6, become".
        place = [token for token in tokens[counts:becomes] if token.text not in ("(", ")")]
        while place[-1].text == ",":
            place.pop()
        return [*_in_figures(place), *tokens[becomes:]]
    at = next((at for at, token in enumerate(tokens) if token.low in ("are", "is")), 0)
    counted = any(token.kind == "number" or token.low in NUMBERS for token in tokens[:at])
    steps = [speaks_of_steps(token) for token in tokens[at + 1 : at + 3]]
    if not counted or not any(steps) or any(_OTHERWISE.match(token.low) for token in tokens):
        return tokens
    return [*tokens[:at], replace(tokens[at], text="become", low="become"), *tokens[at + 1 :]]


def _instead_of(tokens: list[Token]) -> list[Token]:
    """Tell "where the walks come, step R" as "instead of the walks, step R"."""
    at = next((at for at, token in enumerate(tokens) if token.low == "where"), len(tokens))
    comma = next((on for on in range(at, min(at + _NEAR, len(tokens))) if tokens[on].text == ","), 0)
    if not comma or tokens[comma - 1].low not in _STOOD:
        return tokens
    lead = [replace(tokens[at], text=word, low=word) for word in ("instead", "of")]
    stood = next(on for on in range(at, comma) if tokens[on].low in _STOOD)
    behind = [token for token in tokens[comma:] if token.low != "instead"]
    return [*tokens[:at], *lead, *tokens[at + 1 : stood], *behind]


_NEAR = 10
_STOOD = {"come", "comes", "are", "stand", "stands", "were", "was", "is", "be", "usually", "normally", "otherwise"}


def _placed_first(tokens: list[Token]) -> list[Token]:
    """Tell counts in brackets for the steps before them: "replace the walks (counts 5-6 of B2) with"."""
    opened = next((at for at, token in enumerate(tokens) if token.text in "(["), -1)
    closed = next((at for at in range(opened + 1, len(tokens)) if tokens[at].text in ")]"), 0)
    counted = any(token.kind == "number" for token in tokens[opened + 1 : closed])
    first = next((at for at in range(opened - 1, max(opened - _NEAR, 0), -1) if tokens[at].low in _LEADS), 0)
    if opened < 0 or not counted or not first:
        return tokens
    return [*tokens[:first], *tokens[opened + 1 : closed], *tokens[closed + 1 :]]


def _replaced(tokens: list[Token]) -> list[Token]:
    """Tell the counts alone that are changed: "swap the walks on 5, 6 of B2 for this: ..." is "replace 5, 6 of B2"."""
    verb = next((at for at, token in enumerate(tokens[:_NEAR]) if token.low in _SWAPS), len(tokens))
    link = next((at for at in range(verb + 1, len(tokens)) if tokens[at].low in _FOR), 0)
    on = next((at for at in range(verb + 1, link) if tokens[at].low in ("on", "at", "in")), 0)
    place = tokens[on + 1 : link]
    if not on or not any(token.kind == "number" or token.low in NUMBERS for token in place):
        return tokens
    behind = link + 1
    while behind < len(tokens) and tokens[behind].low in _THIS:
        behind += 1
    told = [replace(tokens[verb], text="replace", low="replace")]
    if not place[0].low.startswith("count"):
        told.append(replace(tokens[verb], text="counts", low="counts"))
    with_ = replace(tokens[link], text="with", low="with")
    colon = replace(with_, kind="mark", text=":", low=":", glued=True)
    return [*tokens[:verb], *told, *_in_figures(place), with_, colon, *tokens[behind:]]


def _in_figures(place: Sequence[Token]) -> list[Token]:
    """Tell counts by their figures, and two as from one to the other: "five, six of B2" is "5-6 of B2"."""
    done: list[Token] = []
    for at, token in enumerate(place):
        number = NUMBERS.get(token.low)
        if number is not None and token.kind == "word":
            token = replace(token, kind="number", text=str(number), low=str(number))
        around = (*place[at - 1 : at], *place[at + 1 : at + 2]) if at else ()
        between = len(around) > 1 and all(one.kind == "number" or one.low in NUMBERS for one in around)
        if between and token.low in (",", "and", "&"):
            token = replace(token, kind="mark", text="-", low="-", glued=True)
        done.append(token)
    return done


_SWAPS = {"swap", "replace", "exchange", "change", "substitute", "trade"}
_FOR = {"for", "with", "by", "to", "into"}
_THIS = {"this", "these", "the", "following", ":", "instead"}
_LEADS = {"the", "those", "these", "your", "our"}
