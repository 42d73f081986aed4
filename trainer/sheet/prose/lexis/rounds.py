"""A wall called a round, a pass or a repetition of its number: "in round 4", "passes 2 and 5", "repetition no. 3"."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.numerals import SIGNS, number_at
from trainer.sheet.prose.words import Token

_ONE = {"round", "pass", "repetition", "rotation", "rep", "lap", "cycle"}
_MANY = {"rounds", "passes", "repetitions", "rotations", "reps", "laps", "cycles"}
_PASSES = {
    "sequence", "sequences", "cycle", "cycles", "lap", "laps", "circuit", "circuits",
}  # fmt: skip
"""Behind an ordinal these are times through the dance."""
_NO_NUMBER = {
    "count", "counts", "ct", "cts", "beat", "beats", "times", "time", "x", "bars", "bar", "eights", "more", "o'clock",
    "quarters", "quarter", "steps",
}  # fmt: skip
"""After a number these say that it is how many, or an hour."""
_AROUND = {
    "turn", "turns", "turning", "walk", "walking", "walks", "way", "all", "half", "quarter", "swing", "look", "circle",
    "time", "times", "come", "coming", "left", "right", "go", "goes", "going", "each", "every", "per", "a", "one",
}  # fmt: skip
"""Before a round these say that it is no wall: "turn round 2 times", "each round 32 counts"."""


def round_lexeme(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """Return the word for a wall where its number follows; an ordinal before it has named the wall already."""
    if (
        found
        and found[-1].kind == "o"
        and tokens[at].low in _PASSES
        and [one.low for one in tokens[at + 1 : at + 2]] != ["of"]
    ):
        # "For the second and the fourth sequence".
        return Lexeme("t", at, at + 1)
    many = tokens[at].low in _MANY
    if not many and tokens[at].low not in _ONE:
        return None
    before = tokens[at - 1].low if at else ""
    over = [token.low for token in tokens[max(at - 2, 0) : at]] == ["round", "and"]
    if before in _AROUND or over or (found and found[-1].kind in "on"):
        # "It goes round and round 12 9 6 3."
        return None
    first = at + 1
    while first < len(tokens) and (tokens[first].low in SIGNS or (first > at + 1 and tokens[first].text == ".")):
        first += 1
    if first == len(tokens) or (many and tokens[first].low == "one"):
        return None
    value, last, ordinal = number_at(tokens, first)
    after = tokens[last].low if last < len(tokens) else ""
    if last == first or ordinal or value > _HIGHEST or after in _NO_NUMBER:
        return None
    return Lexeme("W" if many else "w", at, first)


_HIGHEST = 24
"""Few dances have more walls, and a larger number is of counts."""
