"""Sentences of a story that tell parts by rounds: "three As, with a B after each of them", "A and B alternate".

A round may be told to lack what the others have, or to have it twice.
"""

import re
from collections.abc import Iterator, Sequence

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.repeats import many_of
from trainer.sheet.prose.plays.story_clauses import clauses_of, items_in, so_many, times_behind
from trainer.sheet.prose.plays.symbols import Text
from trainer.sheet.prose.plays.told_items import Play, Told

_AFTER_EACH = re.compile(
    r"\b(?:after|behind|following|to|with|for) (?:each(?! other)|every)(?: single)?(?: 1| one)?(?: of (?:them|these|"
    r"those))?\b|"
    r"\beach(?: 1| one)? of (?:them|these|those)\b|\b(?:each|every 1) (?:is |being |gets |has |with |followed )|"
    r"\b(?:each|every 1) of the #1 (?P<few>\d)\b"
)
_OF_SO_MANY = re.compile(
    r"(?:(?:and|then|now|so|here) )*(?:after )?each of the (?:(?:#1|next|following|opening) )?(?P<few>\d)"
    r"(?= (?:full |whole |plain )?@\d (?:is|has|gets|are|comes?|takes|,|we|you|there))"
)
"""Opens a sentence that tells rounds: "each of the first two verses is followed by a chorus"."""
_SO = r"(?:(?:a|an|one|the|part|always|then|we|you|there|is|dance|do) )*"
_EVERY = re.compile(
    r"^(?:(?:remember|note|know|that|and|so|in|this|dance|,|:) )*(?:every|each) @(?P<a>\d) [^@$,;]*?"
    rf"(?:followed by|brings|gets|has|with|then) {_SO}(?:(?P<many>\d) )?{_SO}@(?P<b>\d)(?: (?:after|"
    rf"behind) it)? ?[.!;]|"
    rf"^(?:and |so )*(?:after|behind) (?:every|each) @(?P<c>\d) (?:comes|follows|goes|is|we|you|there)\b "
    rf"{_SO}@(?P<d>\d) ?[.!;]"
)
"""A rule that is told before the play: "every A in this dance is followed by a B"."""
_EXCEPT = re.compile(
    r"\b(?:except|save|but not|only not|but)(?: (?:for|after|behind|that|with))* the (?:#(\d)|last|final)(?: (?:1|"
    r"one))?"
    r"(?: @\d)?(?: ,)?(?: (?:(?:which|that|where|and|there|it|@\d) )*"
    r"(?:has|gets|have|is followed by|are|is|comes?|takes)(?: danced)? (?P<many>\d|none|no|twice))?"
)
"""The one after which more come, or none: "except the third, which has two"."""
_AFTER_EVERY = re.compile(
    r"\b(?:after|behind|following|to|with) (?:each(?! other)|every)(?: single)?(?: 1| one)?(?: of (?:them|these|those)|"
    r" @(?P<part>\d)|\b)|"
    r"\beach(?: 1| one)? of (?:them|these|those)\b"
)
_IN_TURN = re.compile(
    r"\b(?:in turns?|alternat\w+|by turns|turn about|turn and turn|take turns?|taking turns?|"
    r"chang\w+ with (?:each other|1 another))\b|"
    r"\b(?:each|every) @\d+ (?:is |gets |has |comes |always |we |you |goes )*(?:followed by|with|then|before) |"
    r"@\d+ (?:follows|comes after|is danced after) (?:each|every) @\d+\b"
)
_OF_EACH = re.compile(
    r"\b(?:in turns?|alternately|by turns|in alternation) ,? ?(?:(\d+) times|(twice|thrice))\b|"
    r"\b(?:(\d+) times|(twice|thrice)|(\d+)(?: (?:more|further))?) (?:of )?(?:each|apiece|both)\b|"
    r"\beach(?: of (?:them|these|both|the 2))?(?: (?:1|part|has|have|is|are|been|was|being|comes?|danced|done|sung))* "
    r"(?:(\d+) times|(twice|thrice))\b|\b(\d) (?:rounds|pairs|goes)\b"
)
_LEADS = re.compile(
    r"\b(?:(?:beginn|start|lead|open)ing(?: off)?|begins?|starts?|begun|started|led) (?:with|by|on|from) (?:the |"
    r"part )?@(\d)|"
    r"@(\d) (?:always )?(?:#1|leading|leads|in the lead|goes #1|going #1|comes #1|coming #1|opening|starting|"
    r"beginning|ahead)\b"
)
"""Which of the two comes first."""
_TWO = 2


def by_turns(text: Text, around: Around, play: Play) -> bool:
    """Take a sentence that tells two parts by turns and how often; return whether it is one."""
    given = text.symbols
    parts = [
        at
        for at in items_in(text, around, 0, len(given))
        # "A and B in turn, twice (A, B, A, B)".
        if given[at].part >= 0 and text.of(0, at).count("(") == text.of(0, at).count(")")
    ]
    if not play.items and (rule := _EVERY.search(text.text)) is not None:
        main, other = (int(next(rule[name] for name in names if rule[name])) for names in (("a", "c"), ("b", "d")))
        play.each = (main, other, int(rule["many"] or 1) if (rule["many"] or "1").isdecimal() else 1)
        return True
    told = _after_each(text, around, parts) or _by_numbers(text, around, parts) or _in_turn(text, parts)
    if not told and (again := _after_each_told(text, parts, play)):
        first, told = again
        del play.items[first:]
    play.items += told
    return bool(told)


def _after_each_told(text: Text, parts: Sequence[int], play: Play) -> tuple[int, list[Told]] | None:
    """Read "after every A comes a B" behind "A is danced three times": where these begin, and what is danced in all."""
    found = _AFTER_EVERY.search(text.text)
    run = next((n for n, item in enumerate(reversed(play.items)) if item.part != play.items[-1].part), len(play.items))
    if found is None or run < _TWO or play.items[-1].part < 0:
        return None
    main = play.items[-1].part
    others = [at for at in parts if text.symbols[at].part != main]
    if found["part"] not in (None, str(main)) or not others or any(one.extra for one in text.symbols):
        return None
    if len({text.symbols[at].part for at in others}) > 1:
        return None
    often = _often(text, [1] * run, found.start())
    told = [(item, times) for item, times in zip(play.items[-run:], often, strict=True)]
    first = len(play.items) - run
    return first, [one for item, times in told for one in (item, *_told(text, others[:1], times))]


def _after_each(text: Text, around: Around, parts: Sequence[int]) -> list[Told]:
    """Read "A comes three times, and B after each", "four verses, each with one chorus, except the third, ..."."""
    opened = _OF_SO_MANY.match(text.text)
    found = opened or _AFTER_EACH.search(text.text)
    if found is None or any(one.extra for one in text.symbols) or not parts:
        return []
    main = text.symbols[parts[0]].part
    others = [at for at in parts if text.symbols[at].part != main]
    excepted = _EXCEPT.search(text.text)
    again = [at for at in parts[1:] if text.symbols[at].part == main]
    if len(others) != 1 or (again and not (found["few"] or excepted)):
        return []
    first = parts[0]
    end = next(last for begin, last in clauses_of(text.symbols) if begin <= first < last)
    many = max(so_many(text, around, first), times_behind(text.of(first + 1, end)))
    if many < _TWO or text.starts[first] > max(found.start(), opened.end() + 1 if opened else 0):
        return []
    each = max(so_many(text, around, others[0]), times_behind(text.of(others[0] + 1, others[0] + 6)))
    often = _often(text, [each if number <= int(found["few"] or many) else 0 for number in range(1, many + 1)], 0)
    return [one for times in often for one in (_told(text, [first], 1) + _told(text, others[:1], times))]


def _often(text: Text, often: list[int], begins: int) -> list[int]:
    """Return how often a part comes in each round, with the exception that the sentence makes."""
    excepted = _EXCEPT.search(text.text, begins)
    if excepted and (number := int(excepted[1] or len(often))) <= len(often):
        many = excepted["many"] or ""
        often[number - 1] = int(many) if many.isdecimal() else _TWO if "twice" in many else 0
    return often


def _by_numbers(text: Text, around: Around, parts: Sequence[int]) -> list[Told]:
    """Read "you dance A five times and B four times, always taking turns"."""
    if (
        _IN_TURN.search(text.text) is None
        or len(parts) < _TWO
        or text.symbols[parts[0]].part == text.symbols[parts[1]].part
    ):
        return []
    ends = (parts[1], parts[_TWO] if len(parts) > _TWO else len(text.symbols))
    often = [
        max(so_many(text, around, at), times_behind(text.of(at + 1, end))) for at, end in zip(parts, ends, strict=False)
    ]
    told = [one for at, many in zip(parts, often, strict=False) for one in _told(text, [at], many)]
    return alternated(told) if min(often) >= _TWO else []


def interleaved(told: Sequence[Told], rule: tuple[int, int, int]) -> list[Told]:
    """Return some parts with those that are said to come after every one of them; none where others are among them."""
    main, other, many = rule
    if len(told) < _TWO or any(item.part != main for item in told):
        return []
    return [one for item in told for one in (item, *(Told(item.token, other) for _ in range(many)))]


def _in_turn(text: Text, parts: Sequence[int]) -> list[Told]:
    """Read "A and B are danced in turn, three times each, and a last A is added"."""
    found, each, leads = _IN_TURN.search(text.text), _OF_EACH.search(text.text), _LEADS.search(text.text)
    if found is None or each is None:
        return []
    if leads:
        inside = [at for at in parts if leads.start() <= text.starts[at] < leads.end()]
        apart = [at for at in parts if text.symbols[at].part not in {text.symbols[one].part for one in inside}]
        parts = [at for at in parts if at not in inside] if len(parts) > _TWO else [*inside, *apart]
    pair, rest = list(parts[:_TWO]), parts[_TWO:]
    if len({text.symbols[at].part for at in pair}) != _TWO:
        return []
    if leads and text.symbols[pair[1]].part == int(leads[1] or leads[2]):
        pair.reverse()
    return _told(text, pair, many_of(each.groups())) + _told(text, rest, 1)


def _told(text: Text, parts: Sequence[int], times: int) -> list[Told]:
    return [Told(text.symbols[at].token, text.symbols[at].part) for _ in range(times) for at in parts]


def says_by_turns(text: Text) -> bool:
    """Whether a sentence says of the parts told before it that they alternate."""
    return _IN_TURN.search(text.text) is not None and sum(one.part >= 0 for one in text.symbols) < _TWO


def alternated(told: Sequence[Told]) -> list[Told]:
    """Return the items of two parts by turns, the more frequent first; none where there are too many of one.

    "A is danced four times and B three times. The two alternate."
    """
    parts = list(dict.fromkeys(item.part for item in told))
    if len(parts) != _TWO or -1 in parts:
        return []
    first, second = ([item for item in told if item.part == part] for part in parts)
    if len(first) < len(second):
        first, second = second, first
    if len(first) - len(second) > 1:
        return []
    mixed = [item for pair in zip(first, second, strict=False) for item in pair]
    return [*mixed, *first[len(second) :]]


_ROUND = re.compile(r"\b(?:the|this) (?:#(\d)|last|final) (?:time|round|go|turn|pass|set|block|one)\b")
_GOES = re.compile(
    r"\bthe (?:(?:#(?P<number>\d)|last|final) )?@(?P<part>\d) (?:is|are) (?:\w+ )?(?:left out|left off|omitted|"
    r"skipped|dropped|"
    r"missing|not danced|cut)\b|"
    r"\b(?:leave out|skip|omit|drop|without|leave off) (?:only )?the (?:(?:#(?P<number2>\d)|last|"
    r"final) )?@(?P<part2>\d)\b|"
    r"\b(?:leave|leaving|miss|missing|drop|dropping|cut|cutting) (?:the )?(?:(?:#(?P<number4>\d)|last|final) )?"
    r"@(?P<part4>\d) (?:out|off)\b|"
    r"\bthe (?:(?:#(?P<number3>\d)|last|final) )?@(?P<part3>\d) (?:stays away|falls away|drops out|is missing)\b"
)


def left_out(text: Text, play: Play) -> bool:
    """Leave a part out of one of the rounds told before, as is told: "the third time the second B is left out"."""
    which, goes = _ROUND.search(text.text), _GOES.search(text.text)
    if which is None or goes is None or not play.rounds:
        return False
    first, many = play.rounds[-1]
    rounds = (len(play.items) - first) // many if many else 0
    begin = first + many * ((int(which[1]) if which[1] else rounds) - 1)
    part = int(_group(goes, "part"))
    places = [at for at in range(begin, min(begin + many, len(play.items))) if play.items[at].part == part]
    number = int(_group(goes, "number") or len(places))
    if begin < first or not 0 < number <= len(places):
        return False
    del play.items[places[number - 1]]
    return True


def _group(match: re.Match[str], name: str) -> str:
    return next(iter(_groups(match, name)), "")


def _groups(match: re.Match[str], name: str) -> Iterator[str]:
    yield from (match[one] for one in (name, f"{name}2", f"{name}3", f"{name}4") if match[one])
