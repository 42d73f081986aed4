"""What a story tells of the way, held against the play that was read of it: how many, which, where facing, to the end.

A sentence may be read and still be misread, so what it says beside the order is asked of the play: "two more Bs" are
two, "again" dances something, "the third A" is the third, "which brings you home" ends at the front. Each is one of
`_CHECKS`: it looks at a sentence with the items before and after it, and says whether something told there is lost.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.sheet.prose.plays.paragraphs import speaks_of_steps
from trainer.sheet.prose.plays.repeats import SUM
from trainer.sheet.prose.plays.symbols import Text
from trainer.sheet.prose.plays.told_items import Told
from trainer.sheet.prose.words import Token

_WORDS = r"(?:(?!of\b|and\b|or\b|counts?\b|beats?\b|sections?\b|eights?\b|sets?\b|times?\b|x\b)[a-z'-]+ )"
_SO_MANY = re.compile(rf"(?<!#)\b([2-6]) {_WORDS}{{0,3}}(?:of )?(?:part )?@(\d)(?! \d|'s)")
"""So many of a part: "two consecutive Bs"."""
_BEFORE = re.compile(
    r"\b(?:twice|thrice|double|doubled|both|(?:pair|couple) of) (?:(?:the|part|parts|of) )*@(\d)(?! and)"
)
_BEHIND = re.compile(
    r"@(\d) (?:(?!and\b|then\b|but\b|which\b|that\b)[a-z'-]+ ){0,4}?(?:([2-6]) times(?! more)|twice(?! more)|thrice|"
    r"doubled)\b"
)
_AGAIN = re.compile(
    r"\b(?:again|once more|repeat(?:s|ed|ing)?|over again|one more|the same|ditto|likewise|#2 time|twice|thrice|"
    r"[2-6] times|"
    r"doubled?|another)\b"
)
_DENIED = re.compile(
    r"\b(?:not|no|never|nothing|don't|doesn't|isn't|without|nobody|neither|nor|if|when|whenever|because|so that|easy|"
    r"hard|same|every|each|any|always|wall|walls|feet|steps?|counts?)\b"
)
_FACED_AGAIN = re.compile(
    r"\b(?:home|front|back|side|12:00|6:00|3:00|9:00|wall|o'clock)(?: wall)? (?:again|once more)\b"
)
_IN_ANOTHER_ORDER = re.compile(
    r"\b(?:swap\w*|exchang\w+|revers\w+|inverted|vice versa|backwards|back to front|upside down|change places|"
    r"(?:the )?other way (?:round|about|around)|opposite order|in reverse)\b"
)
_TELLS = re.compile(
    r"\b(?:then|next|follow\w*|comes?|dance|danced|again|twice|begins?|starts?|opens?|another|finally|finish\w*|go|"
    r"goes|do|"
    r"leads?|first|after (?:that|this|it)|belongs?|inserted?|repeat\w*|once|add\w*)\b"
)
_IN_GENERAL = re.compile(
    r"\b(?:following (?:way|order)|as follows|every|each|any|all|both|always|never|don't|do not|not|no|note|"
    r"remember|mind|careful|if|when|because|whenever|"
    r"would|should|means|called|ends?|ended|faces?|facing|turns?|lasts?|takes?|brings?|easy|hard|same|feels?|who|what|"
    r"why|how|starting|begin on|starts? on|mistake|wrong|hurry|rush|listen|count|counts|sections?|is (?:the|a|an|"
    r"our|your))\b"
)
_TOTAL = re.compile(
    r"\b(\d+) (?:blocks|parts|items|goes|passes|pieces|dances|units)(?: \w+)?(?: ,)? (?:in all|altogether|all told|"
    r"in total)\b"
)
_TURNED = re.compile(
    r"\b(?:bring|take|put|turn|leav|land|carr|get|send|lead|deliver|return)\w* (?:you|us|everyone|everybody|them|me) "
    r"(?:(?!to face|@)[a-z-]+ ){0,3}?(?P<a>home|front|back(?! (?:to|home|at|on|at the front|in|round|around)\b)|"
    r"12:00|6:00|3:00|9:00)\b|"
    r"\b(?:you|we|everyone|everybody)(?:'re| are| will be| should be|'ll be| finish| end| stand| look|"
    r" face)(?: \w+){0,3} "
    r"(?:facing |at |to |looking at )?(?:the )?(?P<b>home|front|back(?! (?:to|home|at|on|in)\b)|12:00|6:00|3:00|"
    r"9:00)\b|"
    r"\b(?:ending|finishing|ends|finishes|end|finish) (?:up )?(?:facing |at |to )?(?:the )?"
    r"(?P<c>home|front|back(?! (?:to|home|at|on|in)\b)|12:00|6:00|3:00|9:00)\b"
)
_AND_ON = re.compile(
    r"(?: of the (?:hall|room|floor|stage))?(?: ,)? (?:(?:and|then|to|again|back|the|wall|once|more|home) )*"
    r"(?P<on>home|front|back|12:00|6:00|3:00|9:00)\b"
)
"""Where it goes on: "to the back and home to the front"."""
_HOURS = {
    "home": Fraction(0), "front": Fraction(0), "12:00": Fraction(0), "back": Fraction(1, 2), "6:00": Fraction(1, 2),
    "3:00": Fraction(1, 4), "9:00": Fraction(3, 4),
}  # fmt: skip
_CLOSES = re.compile(
    r"@(\d) (?:(?!ends? (?:at|on|facing)|is|has|at|on\b)[a-z'-]+ ){0,3}?(?:to (?:close|finish|end)|(?:ends?|"
    r"finish(?:es)?|closes?) "
    r"(?:the|it|everything|things|our|all))\b|"
    r"\b(?:dance|song|it|we|you|all|everything|and) (?:ends?|finish(?:es)?|closes?|concludes?)(?: up| off)? (?:with|"
    r"on) "
    r"(?:(?!and\b)[a-z0-9'-]+ ){0,4}?@(\d)\b"
)
_LAST_WORD = re.compile(
    r"@(\d) (?:has|gets|is left|takes|brings|makes|is given|it is) [^@$.;]*\b(?:ending|last|closing|finish|final|"
    r"finale|close)\b"
)
_BEHIND_ONE = re.compile(
    r"\b(?:after|behind|following) (?:(?:the|that|this|your|our|part|whole|full) )*@(\d)\b(?! (?:and|,|comes?|"
    r"follows?|is|we|you|then|"
    r"twice|\d|once|again))"
)
_BETWEEN_HALVES = re.compile(r"\bbetween the (?:2 )?halves\b|\bhalf ?way\b|\bin the middle of the (?:dance|song)\b")
_AT_THE_END = re.compile(
    r"\b(?:after|behind|following|on) (?:the|that|this) (?:very )?(?:last|final) (?:@|beat|note)|\bto (?:finish|end|"
    r"close)\b"
)
_SPOKEN_OF = re.compile(
    r"\b(?:after|before|behind|following|not|no|without|of|in|than|like|from|until|till|every|each|when|since|once|"
    r"as|instead|by)"
    r" (?:[^@$,.;:]+ ){0,4}$"
)
_PLACE = re.compile(r"@(\d) (?:goes|comes|stands|is danced) #(\d)\b(?! (?:time|half|of|one))")
_CUT = re.compile(
    r"\b(?:only|just|first|#1|to|till|until|at|after|for|mere) (?:the )?(?:#1 )?(\d\d?) counts\b|"
    r"\bcount (\d\d?)\b(?! (?:of|in))"
)
_TELLS_EXTRA = re.compile(
    r"\$|\b(?:wait|intro|introduction|music|band|singer|drum\w*|extra|add|parts? @\d (?:is|has)|hold|has|have|is)\b"
)
_PLACES_SWAPPED = re.compile(r"\b(?:swap|swaps|change|changes|exchange|trade)s? (?:places|over|round|roles)\b")
_TWO = 2


@dataclass(slots=True)
class Account:
    """What was read of one sentence of a story."""

    tokens: tuple[Token, ...]
    text: Text
    before: tuple[Told, ...]
    """The items told before it."""
    after: tuple[Told, ...]
    changed: bool
    """It cut an item, put one in or left one out."""
    final: Sequence[Told] = field(default=())
    """The whole play."""
    last: bool = False
    """No sentence behind it tells more."""

    @property
    def told(self) -> list[Told]:
        """The items that it added."""
        known = {id(item) for item in self.before}
        return [item for item in self.after if id(item) not in known]

    @property
    def idle(self) -> bool:
        """Whether it changed nothing of the play."""
        return not self.told and not self.changed


Turns = Callable[[Told], Fraction | None]
"""The turn of an item; None: it is not known."""


def lost_in(accounts: Sequence[Account], turns: Turns | None) -> list[Account]:
    """Return the sentences in which something is told that the play does not keep.

    Without turns the play was read from lists, beside which sentences speak of it in many ways.
    """
    if turns is None:
        return [one for one in accounts if _dances_nothing_again(one) or _sums_otherwise(one)]
    return [one for one in accounts if any(check(one) for check in _CHECKS) or _faces_elsewhere(one, turns)]


def _parts(items: Sequence[Told]) -> list[int]:
    return [item.part for item in items if item.part >= 0]


def _last_run(items: Sequence[Told], part: int) -> int:
    """How many of a part come in its last row, extras between them left out."""
    run = 0
    for one in reversed(_parts(items)):
        if one == part:
            run += 1
        elif run:
            break
    return run


def _counts_otherwise(one: Account) -> bool:
    """More of a part are named than were read."""
    text = one.text.text
    named = [(int(match[2]), int(match[1])) for match in _SO_MANY.finditer(text)]
    named += [(int(match[1]), 3 if match[0].startswith("thrice") else _TWO) for match in _BEFORE.finditer(text)]
    for match in _BEHIND.finditer(text):
        named.append((int(match[1]), int(match[2] or (3 if match[0].endswith("thrice") else _TWO))))
    return any(not _holds_many(one, part, many) for part, many in named)


def _holds_many(one: Account, part: int, many: int) -> bool:
    told, after = (_parts(items).count(part) for items in (one.told, one.after))
    if re.search(rf"\b(?:those|these|the|both|all) (?:last )?{many} [^@]*@{part}", one.text.text):
        return after >= many
    return (
        told >= many
        or _last_run(one.after, part) >= many
        or many in (after, _parts(one.final).count(part))
        or (after >= many and one.idle)
    )


def _dances_nothing_again(one: Account) -> bool:
    """Something is danced again, and no item was added."""
    text = _FACED_AGAIN.sub("", one.text.text)
    if (total := SUM.match(text)) is not None and _is_in_all(one, total):
        return False
    return one.idle and bool(one.before) and _AGAIN.search(text) is not None and _DENIED.search(text) is None


def _is_in_all(one: Account, total: re.Match[str]) -> bool:
    """Whether a sum is that of the play; one of something that goes by another name may be that of any part."""
    parts = _parts(one.final)
    sums = [parts.count(int(total[2]))] if total[2] else [len(parts), *(parts.count(part) for part in set(parts))]
    return int(total[1]) in sums


def _sums_otherwise(one: Account) -> bool:
    """Another sum of a part is told than the play has: "that makes four Bs in all"."""
    total = SUM.match(one.text.text)
    return one.idle and total is not None and not _is_in_all(one, total)


def _orders_otherwise(one: Account) -> bool:
    """Parts are told in another order, and nothing says which."""
    if _IN_ANOTHER_ORDER.search(one.text.text) is None:
        return False
    told, before = _parts(one.told), _parts(one.before)
    if len(told) >= _TWO and ":" in one.text.text.split():
        return False
    return not told or told != before[-len(told) :][::-1]


def _is_passed_over(one: Account) -> bool:
    """Parts are named as the order names them, and nothing was read of it."""
    text = one.text.text
    parts = [at for at, each in enumerate(one.text.symbols) if each.part >= 0]
    return (
        one.idle
        and bool(parts)
        and one.text.symbols[-1].text != "?"
        and _TELLS.search(text) is not None
        and _IN_GENERAL.search(text) is None
    )


def _totals_otherwise(one: Account) -> bool:
    """The number of all parts, or of one of them, is another than told."""
    if one.idle and SUM.match(one.text.text):
        return _sums_otherwise(one)
    match = _TOTAL.search(one.text.text)
    return match is not None and int(match[1]) not in (len(_parts(one.final)), len(one.final))


def _closes_otherwise(one: Account) -> bool:
    """Another part is said to close the dance."""
    match = _CLOSES.search(one.text.text) or _LAST_WORD.search(one.text.text)
    parts = _parts(one.final)
    if match is None or not parts or not one.last or "@" in one.text.text[match.end() :]:
        return False
    return parts[-1] != int(match[1] or match[match.lastindex or 1])


def _follows_what_is_not_danced(one: Account) -> bool:
    """Something comes after a part that was not danced so far."""
    danced = _parts(one.after)
    asked = one.text.symbols[-1].text == "?"
    return (bool(one.told) or asked) and any(
        int(match[1]) not in danced for match in _BEHIND_ONE.finditer(one.text.text)
    )


def _is_short_of_nothing(one: Account) -> bool:
    """A part is danced short, and nothing says how much of it."""
    return any(item.part >= 0 and item.mark in ("short", "small") and item.cut is None for item in one.told)


def _loses_steps(one: Account) -> bool:
    """Steps are told that close the dance, or that come between its halves, and are not put there."""
    text = one.text.text
    steps = sum(speaks_of_steps(each.token) for each in one.text.symbols)
    if _BETWEEN_HALVES.search(text) is not None and not any(item.cut for item in one.told):
        return steps >= _TWO and bool(one.told) and one.told[-1] is one.after[-1]
    return one.idle and steps >= _TWO and _AT_THE_END.search(text) is not None and _DENIED.search(text) is None


def _ends_on_another(one: Account) -> bool:
    """The sentence that tells the last of the play closes with another part."""
    named = [at for at, each in enumerate(one.text.symbols) if each.part >= 0]
    parts = _parts(one.final)
    if not one.last or not one.told or not named or not parts:
        return False
    spoken = _SPOKEN_OF.search(one.text.of(0, named[-1]) + " ") is not None
    closing = one.text.symbols[named[-1]].part
    again = any(one.text.symbols[at].part == closing for at in named[:-1])
    return parts[-1] != closing and not spoken and not again


def _stands_elsewhere(one: Account) -> bool:
    """A part is said to have a place in the play that another has: "B goes second"."""
    parts = _parts(one.final)
    found = ((int(match[1]), int(match[2])) for match in _PLACE.finditer(one.text.text))
    return any(place > len(parts) or parts[place - 1] != part for part, place in found)


def _is_cut_otherwise(one: Account) -> bool:
    """Counts are told at which a part stops, and none of the play does."""
    text = one.text.text
    if not one.told or _TELLS_EXTRA.search(text):
        return False
    cuts = {item.cut for item in one.final if item.cut} | {item.counts for item in one.final if item.counts}
    cuts |= {int(item.extra.number) for item in one.final if item.extra is not None and item.extra.number.isdecimal()}
    end = len(text)
    if any(item.body for item in one.told):
        # "... and we finish with one stomp of R forward on count 1": the count of a step.
        starts = zip(one.text.symbols, one.text.starts, strict=True)
        end = next((at for each, at in starts if each.part < 0 and speaks_of_steps(each.token)), end)
    return any(int(match[1] or match[2]) not in cuts for match in _CUT.finditer(text, 0, end))


def _numbers_what_is_not_danced(one: Account) -> bool:
    """The third of a part is named, and the play has two: "before the third A wait two counts"."""
    if _DENIED_THERE.search(one.text.text):
        return False
    parts = _parts(one.final)
    return bool(parts) and any(
        parts.count(int(match[2])) < int(match[1]) for match in _NUMBERED.finditer(one.text.text)
    )


def _changes_nothing(one: Account) -> bool:
    """Steps are told for others, and neither a cut nor steps were read of it."""
    found = _FOR_OTHERS.search(one.text.text)
    if found is not None and _PLACES_SWAPPED.search(one.text.text):
        # Parts change places, and no steps.
        return False
    if found is None or one.changed or any(item.body or item.cut for item in one.told):
        return False
    behind = [each for each, at in zip(one.text.symbols, one.text.starts, strict=True) if at > found.start()]
    return sum(each.part < 0 and speaks_of_steps(each.token) for each in behind) >= _TWO


def _waits_nowhere(one: Account) -> bool:
    """Counts without dancing are told between parts, and nothing of the kind was read."""
    return (
        _STILL.search(one.text.text) is not None
        and bool(one.before)
        and bool(_parts(one.told))
        and all(item.part >= 0 for item in one.told)
    )


_NUMBERED = re.compile(r"#(\d) @(\d)(?! \d)")
_DENIED_THERE = re.compile(r"\b(?:no|not|never|without|would|if|isn't|nobody)\b")
_FOR_OTHERS = re.compile(r"\b(?:replac\w+|swap\w*|instead of|in place of)\b")
_STILL = re.compile(
    r"\b\d (?:counts?|beats?) (?:in|on|during|for|of|where|with) (?:which |that )?(?:nobody|no one|nothing|standing|"
    r"silence|stillness|no (?:step|dancing|movement))"
)

_CHECKS: tuple[Callable[[Account], bool], ...] = (
    _counts_otherwise,
    _dances_nothing_again,
    _orders_otherwise,
    _is_passed_over,
    _totals_otherwise,
    _closes_otherwise,
    _follows_what_is_not_danced,
    _ends_on_another,
    _stands_elsewhere,
    _is_short_of_nothing,
    _loses_steps,
    _is_cut_otherwise,
    _numbers_what_is_not_danced,
    _changes_nothing,
    _waits_nowhere,
)


def _faces_elsewhere(one: Account, turns: Turns) -> bool:
    """The sentence closes with where one faces then, and the play faces elsewhere there."""
    last = max((at for at, each in enumerate(one.text.symbols) if each.part >= 0 or each.extra is not None), default=-1)
    text = one.text.of(last + 1, len(one.text.symbols))
    found = [match for match in _TURNED.finditer(text)]
    if not found or one.idle:
        return False
    match = found[-1]
    told = next(match[name] for name in "abc" if match[name])
    behind = match.end()
    while (on := _AND_ON.match(text, behind)) is not None:
        told, behind = on["on"], on.end()
    total = Fraction(0)
    for item in one.after:
        turn = turns(item)
        if turn is None:
            return False
        total += turn
    return total % 1 != _HOURS[told]
