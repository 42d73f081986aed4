"""Parts that are danced again as one: "the pair A + B three times", "dance it twice" of the part told last."""

import re
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.plays.repeats import ALL, HEADED, SAME, many_of
from trainer.sheet.prose.plays.symbols import Symbol, text_of

_PAIR = {"pair", "couple", "twosome", "combination", "block"}
_ROUNDS = {"rounds", "sets", "lots", "goes", "passes", "times", "turns"}
_OF = {"of", "parts", "part", ":", ",", "(", "the", "sections"}
_JOINS = {",", "+", "&", "and", "-", "/", "then", "with", ">", "followed", "by", "part", "the"}
_IT = (
    r"^(?:(?:and|then|now|so|but|you|we|one|please|here|,|-) )*"
    r"(?:(?:this|that|the same|it|they|these|both|the pair|the 2|all 3|the block|the whole|the lot|those|the)"
    r"(?: 2| 3| parts?| one| whole| of them| pair| couple| sequence| order| block| unit| lot| round)* "
    r"(?:is|are|comes?|goes|go|must be) |"
    r"(?:dance|do|perform|play|take|make|go|run|it's)(?: through| over)? ?)"
    r"(?:(?:danced?|done|it|this|that|them|these|both|part|parts|one|the|same|again|whole|do|through|over|all|played|"
    r"comes|to|be|lot|pair|2) )*"
)
_AGAIN = re.compile(
    _IT + r"(?:(\d+) times|x (\d+)|(twice|thrice))(?: over| through| in all| altogether| running)?[ .!,;]*$"
)
_ONCE_MORE = re.compile(
    r"^(?:(?:and|then|now|so|you|we|one|please|here|,|-) )*(?:(?:repeat|dance|do|perform|play|take) )?"
    r"(?:(?:it|this|that|part|the|same|one|a|#2|time|both|of|them|these|those|[2-6]|pair|all|parts|very|lot) )*"
    r"(?:again|ditto|(?:for )?(?:a|the|1) (?:very )?(?:last|final) time|once more|1 more time|once again|over again|"
    r"a #2 time|#2 time|"
    r"(?<=repeat )|(?<=repeat it )|(?<=repeat this )|(?<=repeat that )|(?<=repeat this part )|(?<=repeat that part ))"
    r"[ .!,;-]*$"
)
_THEN = re.compile(
    r"; |, (?=(?:and )?then |(?:and )?(?:after|do|dance|repeat|you do|we do|next|finally|lastly|once more|last) )|"
    r", (?=and @)|[,-] (?=(?:(?:and|then|now) )*(?:ditto|both (?:again|of them|once|a last)|"
    r"the (?:pair|2) (?:of|again|for|once)|the (?:very )?same|those [2-6]|all (?:of )?that)\b)|"
    r"(?:\bditto|\bagain|\bonce more) [,-] (?=(?:and |then )*[@$])|"
    r"(?:(?<=\d)|(?<=twice)|(?<=times)) (?=and (?:then|finally|lastly) )"
)


def clauses(given: Sequence[Symbol]) -> list[tuple[Symbol, ...]]:
    """Return the clauses of a sentence one of which dances what was told before it again; else all of it.

    "Dance A, then B; do this three times; then A".
    """
    text = text_of(given)
    cuts = sorted({match.end() for match in _THEN.finditer(text.text)})
    ends = [next((at for at, start in enumerate(text.starts) if start >= cut), len(given)) for cut in cuts]
    parts = [tuple(given[a:b]) for a, b in pairwise([0, *ends, len(given)]) if b > a]
    if any(_repeats(part) for part in parts[:-1]) or any(times_of_it(part) for part in parts):
        return parts
    return [tuple(given)]


def _repeats(part: Sequence[Symbol]) -> bool:
    """Whether what a clause names, or all before it, is danced again as one."""
    text = text_of(part)
    last = max((at for at, one in enumerate(part) if one.part >= 0), default=-1)
    if last < 0:
        return bool(SAME.search(text.text))
    rest = text.of(last + 1, len(part))
    several = sum(one.part >= 0 for one in part) > 1
    return several and bool(ALL.match(rest) or HEADED.match(text.text) or SAME.search(rest))


def with_pairs(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Return symbols, two parts that are called a pair in brackets: they are danced together."""
    done: list[Symbol] = []
    at = 0
    while at < len(given):
        rounds = given[at].text in _ROUNDS and given[at + 1 : at + 2] and given[at + 1].text == "of"
        items = _paired(given, at + 1) if given[at].text in _PAIR or rounds else ()
        if rounds and items and items[-1] == items[0] + 1:
            items = ()
        if not items:
            done.append(given[at])
            at += 1
            continue
        one = given[items[0]]
        if rounds:
            done.append(replace(given[at], text="times"))
        done += [_mark(one, "("), *given[items[0] : items[-1] + 1], _mark(given[items[-1]], ")")]
        at = items[-1] + 1
    return tuple(done)


def _mark(one: Symbol, text: str) -> Symbol:
    mark = replace(one.token, kind="mark", text=text, low=text)
    return Symbol(text, mark, after=one.after)


def _paired(given: Sequence[Symbol], at: int) -> tuple[int, ...]:
    """Indexes of the two different parts that follow, nothing but joining words between."""
    while at < len(given) and given[at].text in _OF:
        at += 1
    if at >= len(given) or given[at].part < 0:
        return ()
    second = at + 1
    while second < len(given) and given[second].text in _JOINS:
        second += 1
    if second >= len(given) or given[second].part in (-1, given[at].part):
        return ()
    return at, second


_BOTH = re.compile(r"(?:^|[ ,])(?:both|pair|the 2|those 2|these 2)\b")


def pair_again(given: Sequence[Symbol]) -> bool:
    """Whether a clause that names no part dances the two told last once more: "both again", "the pair a last time"."""
    return times_of_it(given) == _TWICE and _BOTH.search(text_of(given).text) is not None


_TWICE = 2


def times_of_it(given: Sequence[Symbol]) -> int:
    """Return how often the part told last is danced, as a sentence says that names none; 0: it says nothing of it.

    "Dance it twice." "Repeat it."
    """
    if any(one.part >= 0 or one.extra is not None for one in given):
        return 0
    text = text_of(given).text.replace("once once", "once")
    if match := _AGAIN.match(text):
        return many_of(match.groups())
    return 2 if _ONCE_MORE.match(text) else 0


_IN_EACH = re.compile(
    r"(?:and |so |now )?(?:in|for|during|on|with|to) (?:each|every|all)\b"
    r"(?: (?:of|1|them|these|those|the|verse|round|go|verses|rounds))*|"
    r"(?:each|every) (?:verse|round|go|block|set|lap|half)(?: is| are| has| goes| consists| contains| comprises)\b"
)
_ANNOUNCED = re.compile(r"\b([2-6]) (?:\w+ )?(?:verses|rounds|goes|stanzas|strophes|turns|blocks|laps|halves)\b")


def rounds_told(text: str, before: str) -> int:
    """Return how often what a sentence tells is danced, as it is said of the rounds before it; 0: it is not said.

    "You will hear three verses. In each of them we dance A and then B."
    """
    match = _ANNOUNCED.search(before) if _IN_EACH.match(text) and "@" not in before else None
    return int(match[1]) if match else 0
