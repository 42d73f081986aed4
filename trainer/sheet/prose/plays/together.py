"""Parts that are danced again as one: "the pair A + B three times", "dance it twice" of the part told last."""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.plays.repeats import many_of
from trainer.sheet.prose.plays.symbols import Symbol, text_of

_PAIR = {"pair", "couple", "twosome", "combination", "block"}
_OF = {"of", "parts", "part", ":", ",", "(", "the", "sections"}
_JOINS = {",", "+", "&", "and", "-", "/", "then", "with", ">", "followed", "by", "part", "the"}
_IT = (
    r"^(?:(?:and|then|now|so|but|you|we|one|please|here|,|-) )*"
    r"(?:(?:this|that|the same|it|the) (?:part |one |whole )?(?:is |comes |goes |must be )|"
    r"(?:dance|do|repeat|perform|play|take|make|go through|run through|go over|it's) ?)"
    r"(?:(?:danced?|done|it|this|that|part|one|the|same|again|whole|do|through|over|all|played|comes|to|be) )*"
)
_AGAIN = re.compile(
    _IT + r"(?:(\d+) times|x (\d+)|(twice|thrice))(?: over| through| in all| altogether| running)?[ .!,;]*$"
)
_ONCE_MORE = re.compile(
    r"^(?:(?:and|then|now|so|you|we|one|please|here|,|-) )*(?:(?:repeat|dance|do|perform|play|take) )?"
    r"(?:(?:it|this|that|part|the|same|one|a|#2|time) )*(?:again|once more|1 more time|once again|over again|#2 time|"
    r"(?<=repeat )|(?<=repeat it )|(?<=repeat this )|(?<=repeat that )|(?<=repeat this part )|(?<=repeat that part ))"
    r"[ .!,;]*$"
)


def with_pairs(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Return symbols, two parts that are called a pair in brackets: they are danced together."""
    done: list[Symbol] = []
    at = 0
    while at < len(given):
        items = _paired(given, at + 1) if given[at].text in _PAIR else ()
        if not items:
            done.append(given[at])
            at += 1
            continue
        one = given[items[0]]
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
