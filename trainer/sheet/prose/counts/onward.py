"""Numbers that only refer to counts: "and go on with count 25", "dance up to count 12", "leave out counts 7 and 8"."""

from collections.abc import Sequence

from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_LIMITS = {"until", "till", "til", "before", "past", "including", "upto", "since"}
"""Before a count these always name one that is told elsewhere."""
_LINKS = {"with", "from", "at", "to", "through", "after", "into"}
"""Before a count these name one that is told elsewhere where the clause goes on, leaves or replaces."""
_LEADING = {"on", "again", "up", "back", "down", "far", "straight", "in", "onwards"}
"""Just before a link these go on: "on with count 25", "up to count 12", "back in at count 17"."""
_ONWARD = {
    "go", "goes", "going", "carry", "carries", "carrying", "continue", "continues", "continuing", "resume", "resumes",
    "resuming", "proceed", "proceeds", "return", "returns", "returning", "rejoin", "rejoins", "leave", "leaves",
    "skip", "skips", "omit", "stop", "stops", "replace", "replaces", "replacing", "restart", "dance",
}  # fmt: skip
_RESUMES = {
    "carry",
    "continue",
    "continues",
    "continuing",
    "resume",
    "resumes",
    "resuming",
    "proceed",
    "rejoin",
    "pick",
}
"""With these a bare number is a count too: "then resume at 25"."""
_BEING = {"be", "are", "you're", "youre", "ur", "now", "finish", "end", "ends", "back", "looking", "is", "'re"}
"""Before "at" and a number: where one stands then."""
_NUMBERED = {"count", "counts", "ct", "cts", "beat", "beats", "bar", "bars", "step", "steps", "section", "sections"}
_REACH = 7
"""Tokens of a clause before its preposition in which the verb of going on stands."""
_ENDS = {".", ";", ":", "(", "[", "|"}


def refers(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token before a number, a noun for counts or a link, stands in a clause that only refers to them."""
    if not 0 <= at < len(tokens):
        return False
    named = tokens[at].low in _NUMBERED
    link = at - 1 if named else at
    if not named and tokens[at].low not in _LINKS:
        # "CLOSE (replaces 8&a)".
        return tokens[at].low in ("replaces", "replacing")
    while link >= 0 and tokens[link].low in ("the", "and", "very", "main"):
        link -= 1
    if link < 0:
        return False
    if tokens[link].low in _LIMITS:
        return True
    if tokens[link].low not in _LINKS and (tokens[link].low != "as" or not link or tokens[link - 1].low != "far"):
        return False
    if named and link and tokens[link - 1].low in _LEADING:
        return tokens[link].low != "after"
    if not named and link and tokens[link].low == "at" and tokens[link - 1].low in _BEING:
        # "You should be at 9".
        return True
    for token in reversed(tokens[max(0, link - _REACH) : link]):
        if token.text in _ENDS:
            return False
        if token.low in (_ONWARD if named else _RESUMES):
            return True
    return False


_AGAIN = {"repeat", "repeats", "again", "same", "more", "redo", "ditto", "idem"}
_BESIDE = _AGAIN | {
    "one", "once", "time", "times", "the", "counts", "count", "steps", "all", "of", "as", "do", "dance", "from", "a",
    "second", "it",
}  # fmt: skip
"""Words between what points back and the counts that it points to."""


def repeats_counts(tokens: Sequence[Token], at: int, end: int) -> bool:
    """Whether counts are those that are danced again: "5-8 repeat one more time 1-4", "5-8 do 1-4 again"."""
    words: list[str] = []
    for token in reversed(tokens[max(0, at - _REACH) : at]):
        if token.low not in _BESIDE:
            break
        words.append(token.low)
    if set(words) & _AGAIN:
        return True
    after = [token.low for token in tokens[end : end + 3]]
    again = (
        after[:1] == ["again"] or after[:2] in (["once", "more"], ["once", "again"]) or after == ["one", "more", "time"]
    )
    return words[:1] in (["do"], ["dance"]) and again


def numbers_steps(line: Sequence[Token], at: int) -> bool:
    """Whether "Steps 5 to 8" opens a sentence: the steps have the numbers of their counts."""
    opens = not at or line[at - 1].text in (".", ";", ":", BREAK, "(", "[", "-")
    if not opens or line[at].low != "steps" or at + 3 >= len(line):
        return False
    first, sign, last = line[at + 1 : at + 4]
    return first.kind == last.kind == "number" and (sign.text in ("-", ",") or sign.low in ("to", "and"))
