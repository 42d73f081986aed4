"""The clauses of a sentence of a story, and how often what they name is danced."""

import re
from collections.abc import Iterator, Sequence

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.repeats import many_of
from trainer.sheet.prose.plays.symbols import Symbol, Text

_MARKS = {",", ";", ":", "(", ")", "-", ".", "!", "?", '"', "|"}
_WORDS = {"then", "but", "so", "because", "while", "where", "which", "until", "though", "although", "unless"}
ARTICLES = {
    "the", "a", "an", "another", "1", "2", "3", "4", "5", "more", "last", "final", "full", "whole", "complete",
    "entire", "single", "plain", "part", "parts", "this", "that", "its", "our", "your", "his", "her", "further",
    "extra", "short", "half", "twice", "once", "closing", "opening", "times", "x", "one", "two", "both",
}  # fmt: skip
"""What describes a part before its name."""
_TIMES = re.compile(
    r"^(?:(?:is|are|was|were|gets?|comes?|goes?|go|follows?|also|then|now|here|there|danced|done|performed|played|sung|"
    r"taken|heard|answers|comes back|returns|to|be|it|this|that|behind it|after it|straight|must|should|will|has|"
    r"have|alone|running|through|right|itself|on|both|"
    r"all|as|well|too|even|we|you|they|make|do|dance|takes?|for) )*"
    r"(?:(\d+) times|(twice|thrice|doubled)|x (\d+)|(\d+) x(?! [@$]))\b(?! more\b| (?:of|the|that) [@$])"
)
_PLACES = re.compile(r"^(?:goes|comes|is|is danced|gets danced) #\d(?:(?: ,)?(?: and| ,) #\d)+")
"""The places of a part in the play: "A goes third and fourth"."""
_SO_MANY_SO = re.compile(
    r"(?:^| )(?<!#)([2-6]) (?!counts?|beats?|sections?|eights?|sets?|times|x|of|and|or|half)[a-z'-]+ $"
)
_SO_MANY = re.compile(r"(?:^| )([2-6]) (?:(?:more|further|full|whole|complete|last|final|times|extra|other) )*$")
_LEAD = 4
"""Symbols before a part in which its number is sought."""


def clauses_of(given: Sequence[Symbol]) -> Iterator[tuple[int, int]]:
    """Yield where the clauses of a sentence begin and end."""
    first = 0
    for at, one in enumerate(given):
        joins = one.text in ("and", "&") and at > first and not _opens_item(given, at + 1)
        parts = one.text in _WORDS and not _is_no_link(given, at)
        marks = one.text in _MARKS and not (one.text == "-" and one.token.glued)
        if marks or parts or joins:
            if at > first:
                yield first, at
            first = at + 1
    if first < len(given):
        yield first, len(given)


def _is_no_link(given: Sequence[Symbol], at: int) -> bool:
    """Whether a word that links clauses links none here: "B is then danced", "everything so far"."""
    before, after = given[at - 1].text if at else "", given[at + 1].text if at + 1 < len(given) else ""
    word = given[at].text
    return (word == "then" and before in ("is", "are", "was")) or (word == "so" and after == "far")


def _opens_item(given: Sequence[Symbol], at: int) -> bool:
    """Whether a part or an extra follows, nothing but what describes it before."""
    while at < len(given) and (given[at].text in ARTICLES or given[at].text.startswith("#")):
        at += 1
    return at < len(given) and (given[at].part >= 0 or given[at].extra is not None)


def items_in(text: Text, around: Around, first: int, last: int) -> list[int]:
    """Return the places of the parts and extras between two places, what names a part's section left out."""
    return [
        at
        for at in range(first, last)
        if text.symbols[at].extra is not None or (text.symbols[at].part >= 0 and not around.is_section(at))
    ]


def joined(text: Text, before: int, at: int) -> bool:
    """Whether nothing but "and" stands between two parts."""
    words = [one.text for one in text.symbols[before + 1 : at] if one.text not in ARTICLES]
    return words in (["and"], ["&"], ["+"])


def so_many(text: Text, around: Around, at: int) -> int:
    """Return how many of a part are named: "two As", "2 more Bs", "two times A"."""
    many = around.prefix(at)
    lead = text.of(max(at - _LEAD, 0), at) + " "
    plural = text.symbols[at].token.low.endswith("s") and len(text.symbols[at].token.text) > 1
    match = _SO_MANY.search(lead) or (_SO_MANY_SO.search(lead) if plural else None) if many < 2 else None
    return int(match[1]) if match else many


def places_behind(tail: str) -> int:
    """Return how many places in the play are told of a part: "A goes third and fourth"; 0: none are."""
    places = _PLACES.match(tail)
    return places[0].count("#") if places else 0


def times_behind(tail: str) -> int:
    """Return how often a part is danced, as the words behind it say: "is danced twice"; 0: they do not say."""
    match = _TIMES.match(tail)
    return many_of(match.groups()) if match else 0
