"""Numbers of a sentence about the order: counts, places, shares of a wall, bars and eights."""

from collections.abc import Sequence
from fractions import Fraction

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, STEP_WORDS
from trainer.sheet.prose.words import Token

_SUFFIXES = {"&": "&", "and": "&", "a": "a", "e": "e"}
_PLACES = {"st", "nd", "rd", "th"}
_BARS = {"bar", "bars", "measure", "measures"}
SIGNS = {"number", "no", "nr", "#"}
_ONES = {"short", "the", "this", "that", "which", "last", "next", "first", "every", "each", "only", "new", "other"}
"""Words after which "one" stands for a wall or an extra."""


def bars_lexemes(tokens: Sequence[Token], at: int, bar: int) -> list[Lexeme]:
    """Several bars from one to another, as their counts: "bars 5 to 8"; from the first on they are so many."""
    if tokens[at].low not in ("bars", "measures") or at + 3 >= len(tokens):
        return []
    first, then, placed = number_at(tokens, at + 1)
    if then == at + 1 or placed or then + 1 >= len(tokens) or tokens[then].low not in ("to", "-", "through", "and"):
        return []
    value, last, _ = number_at(tokens, then + 1)
    if last == then + 1 or value <= first:
        return []
    if tokens[then].low == "and" and value != first + 1:
        return []
    if first == 1 and tokens[then].low != "and":
        return [Lexeme("n", at, last, value * bar, text="bars")]
    return [
        Lexeme("c", at, at + 1),
        Lexeme("n", at + 1, then, (first - 1) * bar + 1),
        Lexeme("-", then, then + 1),
        Lexeme("n", then + 1, last, value * bar),
    ]


def bars_lexeme(tokens: Sequence[Token], at: int, bar: int) -> Lexeme | None:
    """A place or length in bars, as the counts that it comes to: "bar 8", "four bars"."""
    if tokens[at].low in _BARS and at + 1 < len(tokens):
        value, last, ordinal = number_at(tokens, at + 1)
        return Lexeme("n", at, last, value * bar, text="bar") if last > at + 1 and not ordinal else None
    value, last, ordinal = number_at(tokens, at)
    if tokens[at].low == "a" and at + 1 < len(tokens) and tokens[at + 1].low in ("bar", "measure"):
        return Lexeme("n", at, at + 2, bar, text="bar")
    named = last + 1 < len(tokens) and number_at(tokens, last + 1)[1] > last + 1
    if last > at and last < len(tokens) and tokens[last].low in _BARS and not named:
        # "After the fourth bar" comes as many counts as after four bars.
        return Lexeme("n", at, last + 1, value * bar, text="bar" if ordinal else "bars")
    return None


def eight_lexeme(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """An eight of the dance by its number: "after eight no. 2"."""
    value, last, ordinal = number_at(tokens, at)
    if last == at or ordinal:
        return None
    low = [one.low for one in tokens[last : last + 4]] + [""] * 4
    after = number_at(tokens, last) if last < len(tokens) else (0, last, True)
    beside = at > 0 and tokens[at - 1].low in ("of", "in", "after") and tokens[at].kind == "word"
    if value in (6, 8) and beside and 0 < after[0] <= _MOST_EIGHTS and not after[2]:
        # "After count 4 of eight two".
        return Lexeme("s", at, last)
    if value in (6, 8):
        signed = 1 if low[0] in SIGNS else 0
        beyond = last + signed + (signed and low[1] == ".")
        if signed and beyond < len(tokens) and number_at(tokens, beyond)[1] > beyond:
            return Lexeme("s", at, beyond)
    return None


def last_eight(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """The last eight of a dance as a section: "the first four counts of the last eight"."""
    if tokens[at].low not in ("8", "eight", "6", "six") or [one.kind for one in found[-1:]] != ["L"]:
        return None
    if len(found) < 2 or found[-2].kind not in "I,(:":
        return None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    return Lexeme("s", at, at + 1) if after is None or after.kind == "mark" or after.low in ("and", "then") else None


_ADDED = {"extra", "additional", "added", "bonus", "spare"}
_MORE = {"more", "further"}
_THERE = {
    "there",
    "there's",
    "are",
    "come",
    "comes",
    "add",
    "added",
    "adds",
    "put",
    "insert",
    "has",
    "have",
    "gets",
    "by",
}
_HELD = {"hold", "holds", "wait", "waits", "pause", "freeze", "stand", "for", "do", "dance"}
_COUNTS = {"count", "counts", "ct", "cts", "beat", "beats"}


def added_lexemes(tokens: Sequence[Token], at: int) -> list[Lexeme]:
    """So many counts more than the dance has, an extra without a name: "there are four extra counts"."""
    _, last, ordinal = number_at(tokens, at)
    if last == at or ordinal or last + 1 >= len(tokens) or tokens[last + 1].low not in _COUNTS:
        return []
    before = {token.low for token in tokens[max(at - 4, 0) : at]}
    added = tokens[last].low in _ADDED or (tokens[last].low in _MORE and bool(before & _THERE))
    if not added or before & _HELD:
        return []
    value = number_at(tokens, at)[0]
    return [Lexeme("n", at, last, value), Lexeme("c", last + 1, last + 2), Lexeme("T", last, last + 2)]


def share_lexeme(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """Three quarters of a wall; of a turn it is no share, nor is "the two half pivots"."""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    if tokens[at].low == "half" and after in _TURNS and tokens[at - 1 if at else at].low in NUMBERS:
        return Lexeme("m", at, at + 1)
    low = [one.low for one in tokens[at : at + 6]] + [""] * 6
    size = 3 if low[0] == "three" and low[1] == "-" else 2
    named = low[0] in ("three", "3") and low[size - 1] in ("quarters", "quarter")
    last = size if named else 1
    if (named or tokens[at].value == Fraction(3, 4)) and tokens[at].kind != "facing" and tokens[at].kind != "clock":
        return Lexeme("h", at, at + last, 3) if low[last] in ("of", "through", "way") and "turn" not in low else None
    return None


def half_lexeme(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """A half beat told before its count, or in quotes after it: "the 'a' of 4", "the & after 12", "the "4 & a" of"."""
    look = at + (tokens[at].low == "the")
    quoted = look < len(tokens) and tokens[look].text in _QUOTES
    look += quoted
    if look >= len(tokens) or not (quoted or look > at):
        return None
    if quoted and tokens[look].kind == "number":
        close = next((end for end in range(look, min(look + 5, len(tokens))) if tokens[end].text in _QUOTES), 0)
        halves = [token.low for token in tokens[look + 1 : close]]
        told = {(): "", ("&",): "&", ("and",): "&", ("a",): "a", ("&", "a"): "a", ("and", "a"): "a", ("e",): "e"}
        suffix = told.get(tuple(halves))
        return Lexeme("n", at, close + 1, int(tokens[look].text), suffix) if close and suffix is not None else None
    suffix = _SUFFIXES.get(tokens[look].low)
    look += 1 + quoted
    if suffix is None or look + 1 >= len(tokens) or tokens[look].low not in ("of", "after", "following"):
        return None
    look += 1 + (tokens[look + 1].low in ("count", "beat"))
    value, last, ordinal = number_at(tokens, look) if look < len(tokens) else (0, look, True)
    return Lexeme("n", at, last, value, suffix) if value and not ordinal else None


_TURNS = {"pivot", "pivots", "turn", "turns", "monterey", "montereys", "unwind", "spin", "spins"}
_MOST_EIGHTS = 16
_QUOTES = ('"', "'")


def number_lexeme(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    value, last, ordinal = number_at(tokens, at)
    if last == at:
        return None
    if tokens[at].low == "one" and (_stands_for_a_wall(tokens, at) or (found and found[-1].kind in "oL")):
        # "The first one is on wall 2", "the third wall is a short one".
        return Lexeme("", at, last)
    if tokens[at].low == "one" and _is_somewhere(tokens, last):
        # "One is in wall 2 and one in wall 5."
        return Lexeme("", at, last)
    if tokens[at].low == "one" and [token.low for token in tokens[last : last + 2]] in (["of", "the"], ["of", "our"]):
        # "The third wall, which is one of the front ones".
        return Lexeme("", at, last)
    if ordinal:
        if at and tokens[at - 1].low == "a" and last < len(tokens) and tokens[last].low == "time":
            # "The same half diamond a second time" is no pass of the dance.
            return Lexeme("?", at, last + 1)
        return Lexeme("o", at, last, value)
    suffix = ""
    after = tokens[last] if last < len(tokens) else None
    if _counts_things(tokens, at, found) and after is not None and after.low in STEP_WORDS:
        # "Figures 1 to 4 and the two quarter turns".
        return Lexeme("?", at, last)
    if after is not None and after.text == "&" and last + 1 < len(tokens) and tokens[last + 1].low in ("of", "in"):
        return Lexeme("n", at, last + 1, value, "&")
    if (beyond_halves := _two_halves(tokens, last)) > last:
        return Lexeme("n", at, beyond_halves, value, "a")
    small = after is not None and after.text == after.low
    if (
        after is not None
        and small
        and after.low in _SUFFIXES
        and (after.glued or (after.low in "ea" and _closes(tokens, last)))
    ):
        beyond = tokens[last + 1] if last + 1 < len(tokens) else None
        if beyond is None or not beyond.glued or beyond.kind != "number":
            suffix = _SUFFIXES[after.low]
            last += 1
    return Lexeme("n", at, last, value, suffix)


_THESE = {"the", "your", "those", "these", "our", "both", "last", "first"}


def _counts_things(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> bool:
    """Whether a number in words tells how many steps there are: "the two claps", or after a list of numbers."""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    several = after.endswith("s") and after not in ("steps", "cross", "across", "press")
    if several and at and tokens[at - 1].low in _THESE and tokens[at].kind == "word":
        return True
    listed = "".join(one.kind for one in found[-3:]).rstrip(",&").endswith("n")
    led = at > 0 and tokens[at - 1].low in ("the", "your", "those", "our", "both")
    return listed and led and tokens[at].kind == "word" and found[-1].kind in ",&"


def _is_somewhere(tokens: Sequence[Token], at: int) -> bool:
    """Whether words say in which wall something is: "is in wall 2", "on the fifth wall"."""
    lows = [token.low for token in tokens[at : at + 6]]
    led = lows[:1] in (["in"], ["on"]) or lows[:2] in (["is", "in"], ["is", "on"], ["comes", "in"], ["is", "after"])
    return led and bool({"wall", "walls", "round"} & set(lows))


def _stands_for_a_wall(tokens: Sequence[Token], at: int) -> bool:
    before = tokens[at - 1].low if at else ""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    return before in _ONES and after not in ("count", "counts", "wall", "of", "eight", "-", "section", "more")


def _two_halves(tokens: Sequence[Token], at: int) -> int:
    """Return the index after an & and an a that follow a count, "4&a", "as far as 4 & a."; else `at`."""
    halves = tokens[at : at + 2]
    told = len(halves) == 2 and halves[0].text in ("&", "and") and halves[1].text == "a"
    return at + 2 if told and (halves[0].glued or _closes(tokens, at + 1)) else at


def _closes(tokens: Sequence[Token], at: int) -> bool:
    """Whether a lone "a" or "e" ends what is said of a count: "4 a of section 2"."""
    return at + 1 == len(tokens) or tokens[at + 1].low in ("of", "in", ",", ".", ")", "then")


def number_at(tokens: Sequence[Token], at: int) -> tuple[int, int, bool]:
    """Return a number that begins at a token, the index after it, and whether it says a place ("3rd", "third").

    The index is `at` itself where no number begins there, or nothing stands there.
    """
    if at >= len(tokens):
        return 0, at, False
    token = tokens[at]
    if token.kind == "number":
        if len(token.text) > 4:
            return 0, at, False
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if after is not None and after.glued and after.low in _PLACES:
            return int(token.text), at + 2, True
        return int(token.text), at + 1, False
    if token.low in ORDINALS:
        return ORDINALS[token.low], at + 1, True
    value = NUMBERS.get(token.low)
    if value is None or token.low == "zero":
        return 0, at, False
    last = at + 1
    if 20 <= value < 100:
        beyond = last + (last < len(tokens) and tokens[last].text == "-")
        unit = tokens[beyond].low if beyond < len(tokens) else ""
        if 1 <= NUMBERS.get(unit, 0) <= 9:
            return value + NUMBERS[unit], beyond + 1, False
        if 1 <= ORDINALS.get(unit, 0) <= 9:
            return value + ORDINALS[unit], beyond + 1, True
    return value, last, False
