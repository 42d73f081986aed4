"""So many eights of a dance, as a sentence of the order counts them: "after 3 x 8", "after 8 counts x 2"."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.words import Token

_MOST_EIGHTS = 16
_COUNTS = {"count", "counts", "ct", "cts", "beat", "beats"}
_OFTEN = {"twice": 2, "double": 2, "thrice": 3, "x2": 2, "x3": 3, "x4": 4, "2x": 2, "3x": 3, "4x": 4}
_LOTS = {"x", "*", "times", "lots", "sets", "groups", "rows", "series", "of"}


def _eights_often(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> list[Lexeme]:
    """So many eights where it is said how often eight is counted: "after 8 counts x 2", "after twice 8 counts"."""
    if [one.kind for one in found[-1:]] not in (["A"], ["E"], ["U"], ["Z"]):
        return []
    often, then = _often(tokens, at)
    if often and then < len(tokens) and number_at(tokens, then)[0] in (6, 8):
        return [Lexeme("n", at, then, often), Lexeme("s", then, _past_counts(tokens, then + 1))]
    if number_at(tokens, at)[0] not in (6, 8) or number_at(tokens, at)[2]:
        return []
    then = _past_counts(tokens, at + 1)
    often, last = _often(tokens, then + (then < len(tokens) and tokens[then].text == ","))
    return [Lexeme("n", then, last, often), Lexeme("s", at, last)] if often else []


def _often(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    """Return how often something is counted, and the index after that; 0 where it is not said: "x 2", "two lots of"."""
    if at >= len(tokens):
        return 0, at
    if tokens[at].low in _OFTEN:
        return _OFTEN[tokens[at].low], at + 1
    signed = at + 1 < len(tokens) and tokens[at].low in ("x", "*")
    value, last, ordinal = number_at(tokens, at + signed)
    if last == at + signed or ordinal or not 0 < value <= _MOST_EIGHTS:
        return 0, at
    end = last
    while end < len(tokens) and tokens[end].low in _LOTS:
        end += 1
    plain = end + 1 < len(tokens) and number_at(tokens, end)[0] in (6, 8) and tokens[end + 1].low in _COUNTS
    return (value, end) if signed or end > last or plain else (0, at)


def _past_counts(tokens: Sequence[Token], at: int) -> int:
    return at + (at < len(tokens) and tokens[at].low in _COUNTS)


def _summed(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> list[Lexeme]:
    """Eights that are added up: "wall two: eight plus eight"."""
    value, last, ordinal = number_at(tokens, at)
    if value not in (6, 8) or ordinal or (found and found[-1].kind not in ":,D(-=u;"):
        return []
    often = 1
    while last < len(tokens) and tokens[last].low in ("plus", "+") and number_at(tokens, last + 1)[0] == value:
        often, last = often + 1, number_at(tokens, last + 1)[1]
    return [Lexeme("n", at, last, often * value), Lexeme("c", last, _past_counts(tokens, last))] if often > 1 else []


def eights_lexemes(tokens: Sequence[Token], at: int, found: Sequence[Lexeme] = ()) -> list[Lexeme]:
    """So many eights of a dance: "after 3 x 8"."""
    if often := _eights_often(tokens, at, found):
        return often
    if summed := _summed(tokens, at, found):
        return summed
    value, last, ordinal = number_at(tokens, at)
    low = [one.low for one in tokens[last : last + 3]] + [""] * 3
    if last > at and not ordinal and value <= 20 and low[0] in ("8", "6") and tokens[last].kind == "number":
        # "The first two 8s", "3 8's".
        plural = 1 if low[1] == "s" else 2 if low[1:] in (["'", "s"], ["’", "s"]) else 0
        if plural and tokens[last + 1].glued:
            return [Lexeme("n", at, last, value), Lexeme("s", last, last + 1 + plural)]
    if (
        last == at
        or ordinal
        or value > 20
        or low[0] not in ("x", "times")
        or low[1] not in ("8", "eight", "eights", "6")
    ):
        return []
    return [Lexeme("n", at, last, value), Lexeme("s", last, last + 2)]
