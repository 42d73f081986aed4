"""How many counts words may take that no count is told with: one a step, halves where a figure has some."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from trainer.dance.counts import is_number
from trainer.sheet.prose.header.gloss import Gloss
from trainer.sheet.prose.items.phrases import fills, item_readings
from trainer.sheet.prose.items.unmarked import groups_of, patterns_of
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, STEP_WORDS
from trainer.sheet.prose.words import Item, Token

_MOST = 16
"""Counts that words without any are given at once."""
_POOR = 1.2
"""Words that fill counts so badly are not danced on them."""
_UNUSUAL = 0.3
"""What it costs that a figure is not danced on the counts that it mostly has."""
_ALIKE = 0.02
_STRETCHED = 0.03
"""What each count more or less costs than the words likely take: a hold may be long."""
_TOLD_TIMES = 0.2
"""The same, where they say how often something is danced."""
_TIMES = {"times", "twice", "thrice"}
_LONGEST = 60
"""Tokens of words whose figures are looked for."""
_FEET = {
    "r", "l", "rf", "lf", "rt", "lt", "right", "left", "foot", "hold", "pause", "clap", "rest", "wait", "recover",
    "touch", "together", "beside", "forward", "fwd", "back", "side", "behind", "across", "over", "front",
}  # fmt: skip
_MEASURES = {"times", "time", "twice", "once", "counts", "count", "beats", "beat", "each"}
_LINKS = {
    "the", "a", "an", "to", "with", "and", "on", "of", "your", "then", "it", "is", "at", "in", "into", "onto", "by",
    "next", "take", "make", "do", "dance", "ending", "finishing", "this", "time", "same", "both", "first", "now", "you",
}  # fmt: skip
"""Words that stand among those of steps and in talk alike."""
_MIXED = 0.4
"""So much of what else is said in a line of steps are words of steps."""


@dataclass(frozen=True, slots=True)
class Lasting:
    """The counts that words take, and what speaks against it."""

    price: float
    labels: tuple[str, ...]
    """From 1 on, halves among them."""

    @property
    def counts(self) -> int:
        """How many whole counts these are."""
        return sum(map(is_number, self.labels))


def are_told_steps(words: Sequence[Token]) -> bool:
    """Whether words tell steps, and do not only talk: most of them are words of steps."""
    said = [token.low for token in words if token.kind == "word" and token.low not in _LINKS and not _measures(token)]
    steps = sum(word in STEP_WORDS or word in _FEET for word in said)
    return steps >= max(1.0, _MIXED * len(said))


def _measures(token: Token) -> bool:
    """Whether a word only says how often or how long: "clap four times", "hold for two counts"."""
    return token.low in NUMBERS or token.low in _MEASURES


def is_of_steps(word: str) -> bool:
    """Whether a word is one of steps, or stands among those of steps."""
    return word in STEP_WORDS or word in _FEET or word in _LINKS


@lru_cache(maxsize=1024)
def lastings(words: tuple[Token, ...], gloss: Gloss, phrase: int) -> tuple[Lasting, ...]:
    """Return the ways to count some words, the shortest first; for each number of counts the likeliest."""
    best: dict[int, Lasting] = {}
    halved = 0
    if len(words) <= _LONGEST:
        for place, reading in enumerate(item_readings(Item((), words, words[0].span), gloss)):
            if reading.breaches >= 1 or None in reading.drafts:
                continue
            groups = groups_of(reading.drafts)
            if not place:
                halved = sum(_is_halved(name, steps, phrase) for name, steps in groups)
            for way in _counted(groups, phrase, len(reading.drafts)):
                _keep(best, Lasting(reading.preference + way.price, way.labels))
    for counts in range(1, _MOST + 1):
        price = fills(words, counts, gloss) + _UNUSUAL * halved
        if price < _POOR:
            _keep(best, Lasting(price, tuple(map(str, range(1, counts + 1)))))
    ways = [best[counts] for counts in sorted(best)]
    least = min((way.price for way in ways), default=0.0)
    likely = [way.counts for way in ways if way.price <= least + _ALIKE]
    # "Clap four times" is four counts, where a hold may be as long as it likes.
    more = _TOLD_TIMES if any(token.low in _TIMES for token in words) else _STRETCHED
    return tuple(
        replace(way, price=way.price + more * min(abs(way.counts - counts) for counts in likely)) for way in ways
    )


def _keep(best: dict[int, Lasting], way: Lasting) -> None:
    counts = way.counts
    if counts and (counts not in best or way.price < best[counts].price):
        best[counts] = way


def _is_halved(name: str, steps: int, phrase: int) -> bool:
    """Whether a figure is mostly danced on half beats."""
    pattern = next(iter(_patterns(name, steps, phrase)))
    return not all(map(is_number, pattern))


def _patterns(name: str, steps: int, phrase: int) -> list[tuple[str, ...]]:
    """Return the patterns of a figure, the usual one first: a waltz has a step on each beat."""
    found: list[tuple[str, ...]] = [pattern for pattern in patterns_of(name, steps) if is_number(pattern[0])]
    found = list(dict.fromkeys(found))
    return sorted(found, key=lambda pattern: not all(map(is_number, pattern))) if phrase % 3 == 0 else found


def _counted(groups: Sequence[tuple[str, int]], phrase: int, events: int) -> Iterator[Lasting]:
    """Yield for each number of counts the likeliest patterns of a row of figures."""
    found: dict[int, Lasting] = {0: Lasting(0.0, ())}
    for name, steps in groups:
        longer: dict[int, Lasting] = {}
        for place, pattern in enumerate(_patterns(name, steps, phrase)):
            used = sum(map(is_number, pattern))
            for counts, way in found.items():
                if counts + used > _MOST:
                    continue
                numbered = _from(pattern, counts)
                _keep(longer, Lasting(way.price + _UNUSUAL * bool(place), (*way.labels, *numbered)))
        found = longer
    yield from (way for way in found.values() if len(way.labels) == events)


def _from(pattern: Sequence[str], counts: int) -> Iterator[str]:
    """Yield the labels of a pattern, its counts after so many others."""
    at = counts
    for label in pattern:
        at += is_number(label)
        yield str(at) if is_number(label) else label
