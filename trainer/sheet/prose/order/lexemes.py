"""Tokens of a sentence about the order to lexemes: a letter for each word's kind, its number, and where it stands.

The letters together make a short text that `grammar.py` finds phrases in. Numbers in figures and words become `n`
(`o` where they say a place: 3rd, third), clocks and walls by direction `f`, names of parts `p`, of sections `q`.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.sheet.prose.order.vocabulary import (
    FILLERS,
    LONGEST,
    NUMBERS,
    ORDINALS,
    PHRASES,
    ROMAN,
    STEP_WORDS,
)
from trainer.sheet.prose.words import Token

_SUFFIXES = {"&": "&", "and": "&", "a": "a", "e": "e"}
_MARKS = {
    ",": ",", ":": ":", "-": "-", "/": "/", "(": "(", "[": "(", "{": "(", "<": "(", ")": ")", "]": ")", "}": ")",
    ">": ")", "*": "*", "=": "=", "|": "|", "+": "&", ";": ";", ".": ".", "!": ".", "?": ".", "•": ";", "#": "#",
    "~": "*", "_": "*",
}  # fmt: skip
_OCLOCK = {"o'clock", "oclock", "h", "clock", "o'clk"}
_WAYS = {
    "back": Fraction(1, 2), "rear": Fraction(1, 2), "front": Fraction(0), "home": Fraction(0),
    "opposite": Fraction(1, 2), "right": Fraction(1, 4), "left": Fraction(3, 4),
}  # fmt: skip
_SIGNS = {"number", "no", "nr", "#"}
_WALL_WORDS = {"wall", "walls"}
_ONES = {"short", "the", "this", "that", "which", "last", "next", "first", "every", "each", "only", "new", "other"}
"""Words after which "one" stands for a wall or an extra."""
_OVER = {"over", "done", "through", "complete", "completed", "finished"}
_TOWARDS = {"facing", "face", "faces", "faced", "looking", "look", "at", "to", "towards", "on", "see", "sees", "turned"}
_COMING = {"come", "comes", "came", "are", "you're", "ur"}
_PLACES = {"st", "nd", "rd", "th"}


@dataclass(frozen=True, slots=True)
class Lexeme:
    """A word or phrase of a sentence with its kind."""

    kind: str
    """One letter, see `vocabulary.py`; a mark stands for itself."""
    first: int
    """Index of its first token in the sentence."""
    last: int
    """Index after its last token."""
    number: int = 0
    """Of a number its value; of a section's or part's name its place, from 1."""
    suffix: str = ""
    """&, e or a that follows a count straight."""
    facing: Fraction | None = None
    text: str = ""
    """Of a part or section its name as known; of a facing "wall" where it names a wall of the room."""


@dataclass(frozen=True, slots=True)
class Names:
    """Names that a sheet gives to its parts and sections, in small letters."""

    parts: Mapping[str, str]
    """Small letters to the part's name."""
    sections: Mapping[str, int]
    """Small letters to the section's place, from 1."""
    titles: Mapping[tuple[str, ...], str] = field(default_factory=dict)
    """Words of the sections' headings to the section's name."""
    labels: Mapping[str, str] = field(default_factory=dict)
    """Labels in capitals that number the sections to the section's name; empty where there is no such section."""
    bar: int = 4
    """Counts of a bar."""


def lexemes(tokens: Sequence[Token], names: Names) -> tuple[Lexeme, ...]:
    """Return the lexemes of one sentence; words that change nothing are left out."""
    found: list[Lexeme] = []
    at = 0
    while at < len(tokens):
        if spelled := _spelled_parts(tokens[at], names):
            found += [Lexeme("p", at, at + 1, text=part) for part in spelled]
            at += 1
            continue
        if _starting_wall(tokens, at):
            found += [Lexeme("y", at, at + 1)] * (found[-1:] == [] or found[-1].kind != "B")
            found.append(Lexeme("w", at, at + 1))
            at += 1
            continue
        if eights := _times_eight(tokens, at):
            found += eights
            at = eights[-1].last
            continue
        lexeme = (
            _named(tokens, at, names, found)
            or _titled(tokens, at, names, found)
            or _facing(tokens, at)
            or _bars(tokens, at, names.bar)
            or _eights(tokens, at)
            or _share(tokens, at)
            or _number(tokens, at, found)
            or _phrase(tokens, at, found)
        )
        at = lexeme.last
        if lexeme.kind:
            found.append(lexeme)
    return tuple(found)


def _starting_wall(tokens: Sequence[Token], at: int) -> bool:
    """Whether "starting wall" was taken for the front although a number follows: "before starting wall 3"."""
    token = tokens[at]
    numbered = at + 1 < len(tokens) and tokens[at + 1].kind == "number"
    return token.kind == "facing" and token.low in ("start wall", "starting wall") and numbered


def _spelled_parts(token: Token, names: Names) -> list[str]:
    """The parts of a word such as AABA; none where it is no such word."""
    parts = set(names.parts.values())
    fits = len(token.text) > 1 and token.text not in parts and set(token.text) <= parts
    return list(token.text) if fits and token.kind == "word" else []


def _named(tokens: Sequence[Token], at: int, names: Names, found: Sequence[Lexeme]) -> Lexeme | None:
    """A part, or a section by a name that is no number."""
    token = tokens[at]
    if token.kind != "word":
        return None
    glued = at + 1 < len(tokens) and tokens[at + 1].glued and tokens[at + 1].kind == "number"
    if glued and (place := names.sections.get(token.low + tokens[at + 1].text)) and token.low not in ("s", "w"):
        return Lexeme("q", at, at + 2, place, text=token.text + tokens[at + 1].text)
    before = [lexeme.kind for lexeme in found[-3:]]
    listed = before[-1:] == ["s"] or (before[-2:-1] == ["x"] and before[-1] in ("&", ",", "-", "/"))
    if listed and (len(token.text) == 1 or token.low in ROMAN):
        place = names.sections.get(token.low) or ROMAN.get(token.low) or ord(token.low[0]) - ord("a") + 1
        return Lexeme("x", at, at + 1, place, text=token.text)
    if token.low in ("part", "parts"):
        # Of a dance in parts the word goes with the part's name; else "part one" is a section.
        return Lexeme("" if names.parts else "s", at, at + 1)
    defined = at + 1 < len(tokens) and tokens[at + 1].text in ("=", ":")
    if token.text == "T" and (names.parts or defined) and "t" not in names.parts:
        return Lexeme("T", at, at + 1)
    name = names.parts.get(token.low) or (names.parts.get(token.low[:-1]) if token.low.endswith("s") else None)
    if name is None or (len(token.text) == 1 and token.text != name):
        return None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    plural = after is not None and after.text == "'"
    return Lexeme("p", at, at + 1 + plural, text=name)


def _facing(tokens: Sequence[Token], at: int) -> Lexeme | None:
    token = tokens[at]
    low = [one.low for one in tokens[at : at + 4]] + [""] * 4
    if token.kind in ("clock", "facing") and token.value is not None:
        named = next((word for word in ("walls", "wall") if token.low.endswith(word)), "")
        if named:
            return Lexeme("f", at, at + 1, facing=token.value, text=named)
        return _faced(tokens, at, at + 1 + (low[1] in _OCLOCK), token.value)
    if (
        token.low == "o"
        and at + 1 < len(tokens)
        and tokens[at + 1].glued
        and (hour := _hour(tokens[at + 1])) is not None
    ):
        return Lexeme("f", at, at + 2, facing=hour)
    hour = _hour(token)
    if hour is not None:
        if low[1] in _OCLOCK:
            return _faced(tokens, at, at + 2, hour)
        if low[1] == "o" and low[2:4] == ["'", "clock"]:
            return _faced(tokens, at, at + 4, hour)
    if low[0] in ("new", "other") and low[1] in ("front", "back"):
        return Lexeme("", at, at + 2)
    if low[0] == "back" and low[1] in ("at", "on", "to", "facing") and {"front", "home", "12"} & set(low[2:4]):
        return Lexeme("", at, at + 1)
    way = _WAYS.get(low[0])
    if way is None or low[1] in ("of", "foot", "rock", "toe", "heel"):
        return None
    return _way(tokens, at, way, low)


def _way(tokens: Sequence[Token], at: int, way: Fraction, low: Sequence[str]) -> Lexeme | None:
    """A wall of the room by its name, or a word that says where one looks."""
    if low[1] in _WALL_WORDS:
        return Lexeme("f", at, at + 2, facing=way, text=low[1])
    if low[1:3] == ["-", "hand"] and low[3] in _WALL_WORDS:
        return Lexeme("f", at, at + 4, facing=way, text=low[3])
    before = [one.low for one in tokens[max(at - 2, 0) : at]]
    if low[0] in ("right", "left"):
        return None
    if low[0] == "home" and before[-1:] and before[-1] in _COMING:
        return Lexeme("f", at, at + 1, facing=way)
    aimed = before[-1:] == ["the"] or (bool(before) and before[-1] in _TOWARDS - {"to", "on"})
    return Lexeme("f", at, at + 1, facing=way) if aimed or low[0] == "front" else None


def _faced(tokens: Sequence[Token], at: int, last: int, facing: Fraction) -> Lexeme:
    """A clock time; with the word wall after it it names a wall of the room."""
    after = tokens[last] if last < len(tokens) else None
    numbered = last + 1 < len(tokens) and tokens[last + 1].kind == "number"
    if after is not None and after.low in _WALL_WORDS and not numbered:
        return Lexeme("f", at, last + 1, facing=facing, text=after.low)
    return Lexeme("f", at, last, facing=facing)


def _bars(tokens: Sequence[Token], at: int, bar: int) -> Lexeme | None:
    """A place or length in bars, as the counts that it comes to: "bar 8", "four bars"."""
    if tokens[at].low in ("bar", "bars") and at + 1 < len(tokens):
        value, last, ordinal = number_at(tokens, at + 1)
        return Lexeme("n", at, last, value * bar, text="bar") if last > at + 1 and not ordinal else None
    value, last, ordinal = number_at(tokens, at)
    if last > at and not ordinal and last < len(tokens) and tokens[last].low in ("bar", "bars"):
        return Lexeme("n", at, last + 1, value * bar, text="bars")
    return None


def _eights(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """An eight of the dance by its number: "after eight no. 2"."""
    value, last, ordinal = number_at(tokens, at)
    if last == at or ordinal:
        return None
    low = [one.low for one in tokens[last : last + 4]] + [""] * 4
    if value in (6, 8):
        signed = 1 if low[0] in _SIGNS else 0
        beyond = last + signed + (signed and low[1] == ".")
        if signed and beyond < len(tokens) and number_at(tokens, beyond)[1] > beyond:
            return Lexeme("s", at, beyond)
    return None


def _times_eight(tokens: Sequence[Token], at: int) -> list[Lexeme]:
    """So many eights of a dance: "after 3 x 8"."""
    value, last, ordinal = number_at(tokens, at)
    low = [one.low for one in tokens[last : last + 3]] + [""] * 3
    if (
        last == at
        or ordinal
        or value > 20
        or low[0] not in ("x", "times")
        or low[1] not in ("8", "eight", "eights", "6")
    ):
        return []
    return [Lexeme("n", at, last, value), Lexeme("s", last, last + 2)]


def _titled(tokens: Sequence[Token], at: int, names: Names, found: Sequence[Lexeme]) -> Lexeme | None:
    """A section by the words of its heading, where a place may be told: "after Lanterns", "do LANTERNS"."""
    if (label := _labelled(tokens, at, names)) is not None:
        return label
    before = [one.kind for one in found[-2:]]
    if before[-1:] == ["u"]:
        before = ["D"]
    if not before or tokens[at].kind != "word":
        return None
    listed = before[-1] in ("&", ",") and before[-2:-1] == ["q"]
    if before[-1] not in "AEUBZJDIjKu>" and not listed:
        return None
    for words in sorted(names.titles, key=len, reverse=True):
        own = [token.low for token in tokens[at : at + len(words)]]
        if tuple(own) == words:
            written = tokens[at].text[0].isupper() or len(words) > 1
            if words in PHRASES and not tokens[at].text.isupper():
                continue
            if before[-1] in "AEUBZ" or written or listed:
                return Lexeme("q", at, at + len(words), text=names.titles[words])
    return None


def _labelled(tokens: Sequence[Token], at: int, names: Names) -> Lexeme | None:
    """A section by the label that numbers it in words: "after TWO", "I to IV"."""
    text = tokens[at].text
    if text not in names.labels:
        return None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    listed = after is None or after.kind in ("mark", "amp") or after.low in ("to", "and", "with", "only", "then")
    if len(text) == 1 and not listed:
        return None
    return Lexeme("q", at, at + 1, text=names.labels[text] or text)


def _hour(token: Token) -> Fraction | None:
    written = token.kind == "number" and len(token.text) < 3
    number = int(token.text) if written else NUMBERS.get(token.low, 0)
    return Fraction(number % 12, 12) if 1 <= number <= 12 else None


def _share(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """Three quarters of a wall; of a turn it is no share."""
    low = [one.low for one in tokens[at : at + 6]] + [""] * 6
    size = 3 if low[0] == "three" and low[1] == "-" else 2
    named = low[0] in ("three", "3") and low[size - 1] in ("quarters", "quarter")
    last = size if named else 1
    if (named or tokens[at].value == Fraction(3, 4)) and tokens[at].kind != "facing" and tokens[at].kind != "clock":
        return Lexeme("h", at, at + last, 3) if low[last] in ("of", "through", "way") and "turn" not in low else None
    return None


def _number(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    value, last, ordinal = number_at(tokens, at)
    if last == at:
        return None
    if tokens[at].low == "one" and (_stands_for_a_wall(tokens, at) or (found and found[-1].kind in "oL")):
        # "The first one is on wall 2", "the third wall is a short one".
        return Lexeme("", at, last)
    if ordinal:
        return Lexeme("o", at, last, value)
    suffix = ""
    after = tokens[last] if last < len(tokens) else None
    if after is not None and after.low in _SUFFIXES and (after.glued or (after.low in "ea" and _closes(tokens, last))):
        beyond = tokens[last + 1] if last + 1 < len(tokens) else None
        if beyond is None or not beyond.glued or beyond.kind != "number":
            suffix = _SUFFIXES[after.low]
            last += 1
    return Lexeme("n", at, last, value, suffix)


def _stands_for_a_wall(tokens: Sequence[Token], at: int) -> bool:
    before = tokens[at - 1].low if at else ""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    return before in _ONES and after not in ("count", "counts", "wall", "of", "eight", "-", "section", "more")


def _closes(tokens: Sequence[Token], at: int) -> bool:
    """Whether a lone "a" or "e" ends what is said of a count: "4 a of section 2"."""
    return at + 1 == len(tokens) or tokens[at + 1].low in ("of", "in", ",", ".", ")", "then")


def number_at(tokens: Sequence[Token], at: int) -> tuple[int, int, bool]:
    """Return a number that begins at a token, the index after it, and whether it says a place ("3rd", "third").

    The index is `at` itself where no number begins there.
    """
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


def _phrase(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme:
    token = tokens[at]
    if (word := _little(tokens, at, found)) is not None:
        return word
    words: list[str] = []
    ends: list[int] = []
    for index in range(at, min(at + 2 * LONGEST, len(tokens))):
        if tokens[index].low in FILLERS and index > at:
            continue
        words.append(tokens[index].low)
        ends.append(index + 1)
        if len(words) == LONGEST:
            break
    for length in range(len(words), 0, -1):
        kind = PHRASES.get(tuple(words[:length]))
        if kind is not None and _fits(kind, tokens, at, length):
            return Lexeme(kind, at, ends[length - 1])
    return Lexeme(_plain_kind(token, tokens, at, found), at, at + 1)


def _little(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """A word that another reading of it must not hide: the sign of a number, a wall that is over."""
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.low in _SIGNS and after is not None and token.text != "#":
        beyond = at + 1 + (after.text == "." and after.glued)
        if beyond < len(tokens) and number_at(tokens, beyond)[1] > beyond:
            return Lexeme("", at, beyond)
    walls = [one.kind for one in found[-2:]]
    over = token.low in _OVER and (after is None or after.kind == "mark" or after.low in ("and", "you", "add", "do"))
    passed = walls[-1:] == ["t"] and token.low in ("over", "done")
    if over and (walls[-2:] == ["w", "n"] or walls[-1:] == ["w"] or passed):
        return Lexeme("E", at, at + 1)
    return None


def _plain_kind(token: Token, tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> str:
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.low == "w" and after is not None and after.kind == "number":
        return "w"
    if token.low in FILLERS:
        return ""
    if (
        token.text == "R"
        and [one.kind for one in found[-3:]] == ["w", "n", "n"]
        and (not after or after.kind == "mark")
    ):
        # "W3 16 R" is shorthand for a restart, no right foot.
        return "R"
    if token.kind == "fraction" or token.low in STEP_WORDS:
        return "m"
    if token.kind == "amp":
        return "&"
    if token.text == "." and at and tokens[at - 1].low in _SHORT and _abbreviates(tokens, at):
        return ""
    return _MARKS.get(token.text, "?")


def _fits(kind: str, tokens: Sequence[Token], at: int, length: int) -> bool:
    """Whether a short word means what it may mean: S and c only beside their number."""
    token = tokens[at]
    if length > 1 or len(token.low) > 1:
        return True
    if kind == "c":
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        numbered = after is not None and after.glued and after.kind == "number"
        return numbered or (token.glued and at > 0 and tokens[at - 1].kind == "number")
    if kind == "s":
        return at + 1 < len(tokens) and tokens[at + 1].kind == "number"
    return True


def sentences(tokens: Sequence[Token]) -> list[tuple[Token, ...]]:
    """Return the sentences of a line: parted at full stops, semicolons, cell borders and bullets."""
    found: list[tuple[Token, ...]] = []
    start = 0
    for at, token in enumerate(tokens):
        if token.text in (".", "!", "?", ";", "|", "•") and not _abbreviates(tokens, at):
            if at > start:
                found.append(tuple(tokens[start:at]))
            start = at + 1
    if start < len(tokens):
        found.append(tuple(tokens[start:]))
    return found


_SHORT = {
    "sec",
    "sect",
    "no",
    "nr",
    "ct",
    "cts",
    "wt",
    "approx",
    "ca",
    "w",
    "s",
    "cnt",
    "incl",
    "fig",
    "figs",
    "nos",
    "pt",
    "n",
    "b",
}


def _abbreviates(tokens: Sequence[Token], at: int) -> bool:
    """Whether a full stop ends a short form ("Sec. 2") or a list's number ("3. restart") rather than a sentence."""
    if tokens[at].text != "." or at == 0 or not tokens[at].glued:
        return False
    before = tokens[at - 1]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    return after is not None and before.low in _SHORT and (after.kind == "number" or after.text in (",", ")"))
