"""Numbers that count nothing: "the old one", "on one wall", "counts 5-8 of the second eight are easy to rush"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_POINTS = {"this", "that", "each", "every", "which", "another", "any", "either", "no", "these"}
_DETERMINERS = {"the", "a", "an", "this", "that", "your", "my", "our", "of", "each", "every"}
_KINDS = {
    "old", "new", "other", "last", "next", "first", "second", "third", "fourth", "same", "wrong", "easy", "easier",
    "hard", "harder", "little", "big", "bigger", "small", "smaller", "long", "longer", "short", "shorter", "nice",
    "good", "lovely", "favourite", "favorite", "rolling", "full", "only", "previous", "following", "tricky", "fun",
    "quick", "slow", "main", "real", "plain", "basic", "simple", "quicker", "slower", "former", "present", "current",
    "extra", "spare", "odd", "additional", "whole", "complete", "entire", "proper", "shortened",
    "gentle", "bouncy", "lively", "popular", "quiet", "sweet", "cheeky", "great", "better", "best", "late", "early",
}  # fmt: skip
_LED = {"that", "to", "who", "which", "with", "where", "you", "we", "i", "everybody", "everyone", "people", "i'm"}
"""After "the one" these tell which: "the one to watch is count 3"."""
_HAS = {
    "has", "have", "had", "take", "takes", "took", "need", "needs", "want", "wants", "like", "likes", "get", "gets",
    "got", "deserve", "deserves", "hear", "hears", "miss", "misses", "make", "makes", "find", "see", "know",
}  # fmt: skip
"""Before a one in words these tell what somebody has or takes: "the drummer takes one"."""
_SUBJECT = 3
"""Words before such a verb that say who, none of them of a step."""
_MORE = {"more", "further", "last", "final", "extra", "whole", "full", "short", "single", "other", "lone"}
_PART = re.compile(r"^(?:[A-H](?:'?s)?|[Vv]erses?|[Cc]horus(?:es)?|[Rr]efrains?)$")
_PLACES = {"wall", "foot", "leg", "side", "spot", "page", "place", "line", "knee", "hand", "hip", "heel", "toe"}
_CHANGES = {"replaces", "replace", "replacing", "instead", "place", "change", "changes", "for", "leave", "omit", "skip"}
_COUNTS = {"counts", "count", "beats", "numbers", "numbering", "counting"}
_MAKES = {"are", "make", "form", "is", "makes", "give", "count"}
_IN = {"in", "start", "starts", "begin", "begins", "come", "comes", "off", "enter"}
_RUN = {"run", "runs", "go", "goes", "are", "is", "start", "starts", "begin", "begins"}
_UP = {"from", "numbered", "on", "always", "counted", "again", "at", "with"}
_STRETCHES = {"eight", "8", "six", "6", "section", "set", "part", "half", "dance", "bar", "phrase", "block", "page"}


def only_talks(line: Sequence[Token], at: int, start: int, end: int, *, opened: bool) -> bool:
    """Return whether numbers from `start` to `end` are talk; the mark begins at a token, with a word where `opened`."""
    after = line[end] if end < len(line) else None
    one = end == start + 1 and line[start].low in ("one", "1")
    if end + 1 < len(line) and line[end].low == "together" and line[end + 1].low in _MAKES:
        # "(17 and 18 together are called a chasse.)"
        return True
    if _tells_how_counts_go(line, at) or (one and _comes_in(line, start)):
        return True
    if one and line[start].kind == "word" and _stands_for_a_noun(line, start):
        return True
    if end == start + 1 and _is_a_time(line, start):
        return True
    if end == start + 1 and line[start].low in NUMBERS and _tells_how_many_parts(line, end):
        return True
    if end == start + 1 and line[start].kind == "amp" and at and line[at - 1].low == "the":
        # "Don't rush the &": what a step is danced on has "on" or "for" before it.
        return True
    if one and opened and after is not None and after.low in _PLACES:
        # "Dance it on one wall", "balance on one foot".
        return True
    return after is not None and after.low == "of" and _names_a_stretch(line, end + 1) and not _replaces(line[:at])


def _tells_how_counts_go(line: Sequence[Token], at: int) -> bool:
    """Whether a mark only says how the sheet counts: "within a phrase the counts run from 1 to 8"."""
    before = [token.low for token in line[max(at - 4, 0) : at]]
    goes = next((place for place, low in enumerate(before) if low in _RUN), 0)
    return goes > 0 and before[goes - 1] in _COUNTS and all(low in _UP for low in before[goes + 1 :])


def _comes_in(line: Sequence[Token], at: int) -> bool:
    """Whether the first step is said to fall on the 1: "16 counts, then in on the 1", "we start on the 1"."""
    before = [token.low for token in line[max(at - 3, 0) : at]]
    return before[1:] == ["on", "the"] and before[0] in _IN and not any(token.low in STEP_WORDS for token in line[:at])


def _is_a_time(line: Sequence[Token], at: int) -> bool:
    """Whether a number in words behind "at" is an hour of the evening: "tea urn on at nine"; no step is told there."""
    if line[at].kind != "word" or at < _SUBJECT or line[at - 1].low != "at":
        return False
    first = max((place for place in range(at) if line[place].text in (".", "!", "?")), default=-1) + 1
    ends = at + 1 == len(line) or line[at + 1].kind == "mark"
    return ends and not any(token.low in STEP_WORDS - {"on"} or token.kind == "number" for token in line[first:at])


def _tells_how_many_parts(line: Sequence[Token], at: int) -> bool:
    """Whether the name of a part follows a number in words: "there is one more A", "then two Bs"."""
    while at < len(line) and line[at].low in _MORE:
        at += 1
    if at == len(line):
        return False
    after = line[at + 1] if at + 1 < len(line) else None
    alone = after is None or after.kind == "mark" or after.low not in STEP_WORDS
    return bool(_PART.match(line[at].text)) and alone


def _stands_for_a_noun(tokens: Sequence[Token], at: int) -> bool:
    """Whether a one stands for a noun: "the old one", "in this one", "the one to watch"."""
    before = tokens[at - 1].low if at else ""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    if after in NUMBERS or (at + 1 < len(tokens) and tokens[at + 1].kind in ("number", "amp")):
        return False
    if before in _POINTS or (before == "the" and after in _LED):
        return after not in ("wall", "walls")
    if before in _HAS and not (after and tokens[at + 1].kind == "word"):
        return not any(token.low in STEP_WORDS for token in tokens[max(at - 1 - _SUBJECT, 0) : at - 1])
    determined = any(token.low in _DETERMINERS for token in tokens[max(at - 3, 0) : at - 1])
    return before in _KINDS and determined


def _names_a_stretch(line: Sequence[Token], at: int) -> bool:
    """Whether words after "of" name a part of the dance: "counts 5-8 of the second eight are easy to rush"."""
    ahead = [token.low for token in line[at : at + 4]]
    named = next((place for place, low in enumerate(ahead) if low in _STRETCHES), None)
    return named is not None and (named > 0 or ahead[0] in ("section", "part"))


def _replaces(words: Sequence[Token]) -> bool:
    """Whether words say that what follows them is danced otherwise: "(replaces counts 5 to 8 of section four)"."""
    return any(token.low in _CHANGES for token in words)
