"""Tokens as symbols, the alphabet in which a play is sought.

A part is `@` and its place, an extra `$` and its place, a number its figures, an ordinal `#` and its figures; every
other word stands for itself. Symbols joined by blanks are the text that the patterns of this package are sought in.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.words import Token

_PLACES = {"st", "nd", "rd", "th"}
_KINDS = {
    "tag": "tag", "tags": "tag", "bridge": "bridge", "bridges": "bridge", "ending": "ending", "endings": "ending",
    "end": "ending", "finish": "ending", "finale": "ending", "outro": "ending", "coda": "ending", "intro": "intro",
    "introduction": "intro", "interlude": "tag", "interludes": "tag", "intermezzo": "tag", "interval": "tag",
    "breather": "tag", "curtain": "ending", "opener": "intro", "prelude": "intro", "overture": "intro",
    "prologue": "intro",
}  # fmt: skip
_VERBS = {"end", "finish"}
_LEADS_A_NOUN = {"the", "little", "a", "our", "this", "big", "short", "own", "grand", "final"}
"""Behind these a finish is a thing: "for a big finish", "our finish"."""
_GOES_ON = {
    "again", "alone", "and", "as", "at", "begins", "but", "came", "comes", "follows", "for", "from", "goes", "has",
    "in", "is", "means", "minus", "once", "only", "or", "stands", "stops", "then", "three", "till", "times", "to",
    "twice", "until", "up", "was", "with", "without", "x", "four", "five", "danced", "follow", "starts", "began",
    "before", "after", "short", "cut", "through", "first", "plus", "ends", "two", "one", "six", "lasts", "takes",
    "we", "you", "they", "i", "followed", "opens", "closes", "leads", "belongs", "gets", "faces",
}  # fmt: skip
"""What may follow a part called A at the start of a sentence; before other words it is an article."""
_OF_THE_SONG = {
    *SONG_PARTS, "break", "bit", "piece", "passage", "burst", "stretch", "section", "phrase", "interlude", "pause",
    "tune", "fiddle", "guitar", "piano", "drum", "quiet", "loud", "soft",
}  # fmt: skip
"""What the song has, behind one more word: "A short chorus follows"."""
BEFORE_NAMES = ("the", "our")
"""Behind these a name that a heading gives in capitals may stand in small letters: "and behind it the rumble"."""
_NO_VERBS = {"series", "chassis", "its", "always", "this", "perhaps", "sometimes", "besides", "twos"}
_POINTS = {"the", "that", "this", "each", "every"}
_FEW = 3
"""Letters of a play written in one word: "ABAB"; fewer may be a word."""


@dataclass(frozen=True, slots=True)
class Named:
    """What the sheet calls its parts and extras."""

    parts: tuple[str, ...]
    """Names of the parts."""
    lengths: tuple[int, ...]
    """Counts of each."""
    sections: tuple[tuple[int, ...], ...]
    """Counts of the sections of each."""
    aliases: Mapping[str, int] = field(default_factory=dict)
    """Other names of parts, in small letters, to their places."""
    own: tuple[tuple[str, ...], ...] = ()
    """Words of extras that have names of their own."""
    sung: bool = False
    """The play is told by names of the song: "verse, chorus, verse"."""
    pause: int = 0
    """Counts of the pause that the play names and another sentence tells; 0: there is none."""
    answers: bool = False
    """The sheet asks and answers: A opens an answer."""
    turns: tuple[tuple[Fraction, ...], ...] = ()
    """How far each part has turned after so many of its counts, from none on."""
    turning: bool = False
    """An extra turns."""
    titles: tuple[tuple[tuple[str, ...], ...], ...] = ()
    """Words of the headings of the sections of each, in small letters."""


@dataclass(frozen=True, slots=True)
class Extra:
    """An extra as the play names it."""

    kind: str
    """tag, bridge, ending, intro; an extra with a name of its own is a tag."""
    number: str = ""
    own: tuple[str, ...] = ()
    """Its own name."""


@dataclass(frozen=True, slots=True)
class Symbol:
    """A token, or a few, as one symbol."""

    text: str
    token: Token
    extra: Extra | None = None
    part: int = -1
    """Place of the part; -1: it is none."""
    steps: bool = False
    """A word that speaks of steps."""
    after: int = 0
    """Index after its last token."""


def symbols(tokens: Sequence[Token], named: Named) -> tuple[Symbol, ...]:
    """Return the symbols of some tokens."""
    found: list[Symbol] = []
    at = 0
    while at < len(tokens):
        more = _extra(tokens, at, named) or _parts(tokens, at, named) or [_plain(tokens, at)]
        found += more
        at = more[-1].after
    return tuple(
        one for at, one in enumerate(found) if not (_parts_from_times(found, at) or _between_ordinals(found, at))
    )


def _between_ordinals(found: Sequence[Symbol], at: int) -> bool:
    """Whether an article stands between two numbers of passes: "after the first and the third A"."""
    around = [one.text for one in found[max(at - 2, 0) : at + 2]]
    listed = len(around) == 4 and around[1] in ("and", "or", ",") and found[at].text == "the"
    return listed and around[0].startswith("#") and around[3].startswith("#")


def _parts_from_times(found: Sequence[Symbol], at: int) -> bool:
    """Whether a comma parts a name from how often more it is danced: "then B, twice more"."""
    if at == 0 or found[at].text != "," or found[at - 1].part < 0:
        return False
    ahead = [one.text for one in found[at + 1 : at + 4]]
    return ahead[:2] in (["twice", "more"], ["thrice", "more"]) or ahead[1:] in (["times", "more"], ["more", "times"])


def _opens(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token opens a sentence or a line."""
    while at and tokens[at - 1].text in ('"', "'", "(") and tokens[at - 1].line == tokens[at].line:
        at -= 1
    return at == 0 or tokens[at - 1].text in (".", "!", "?") or tokens[at].line != tokens[at - 1].line


def _extra(tokens: Sequence[Token], at: int, named: Named) -> list[Symbol]:
    token = tokens[at]
    for words in named.own:
        last = at + len(words)
        if tuple(one.low for one in tokens[at:last]) == words and (
            token.text[0].isupper()
            or token.text.isdecimal()
            or words in (("t",), ("break",))
            or (at and tokens[at - 1].low in BEFORE_NAMES)
        ):
            return [Symbol("$" + "_".join(words), token, Extra("tag", own=words), after=last)]
    kind = _KINDS.get(token.low)
    if kind is None or (token.low in _VERBS and not _is_noun(tokens, at)):
        return []
    if token.low in ("ending", "finish") and _ends_there(tokens, at):
        return []
    number, last = "", at + 1
    after = tokens[last] if last < len(tokens) else None
    if after is not None and (after.kind == "number" or after.low in NUMBERS) and not after.glued:
        beyond = tokens[last + 1].low if last + 1 < len(tokens) else ""
        # "Tag 2A" is a tag, and A twice.
        many = last + 1 < len(tokens) and tokens[last + 1].glued and tokens[last + 1].text in named.parts
        listed = many or (beyond in (")", ".") and last + 2 < len(tokens) and tokens[last + 2].text in named.parts)
        if not listed and beyond not in ("x", "times", "counts", "count", "beats", "more"):
            number, last = str(NUMBERS.get(after.low, after.low)), last + 1
    return [Symbol("$" + kind + number, token, Extra(kind, number), after=last)]


def _ends_there(tokens: Sequence[Token], at: int) -> bool:
    """Whether an ending is what one does somewhere: "B, A and B, ending at the back"."""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    if at and tokens[at - 1].low in ("of", "by"):
        # "B has the honour of ending things".
        return after in ("it", "things", "the", "us", "all", "everything", "this")
    return at > 0 and after in ("at", "facing", "on", "up") and tokens[at - 1].low in (",", "-", "(", "and", "then")


def _is_noun(tokens: Sequence[Token], at: int) -> bool:
    before = tokens[at - 1].low if at and not (len(tokens[at - 1].text) == 1 and tokens[at - 1].text.isupper()) else ""
    after = tokens[at + 1].text if at + 1 < len(tokens) else "."
    if before in _LEADS_A_NOUN or [token.low for token in tokens[max(at - 2, 0) : at]] == ["way", "of"]:
        return after not in ("of",) and before != "the" if tokens[at].low == "end" else True
    return tokens[at].text[0].isupper() and after in (".", ":", ",", "-", "=", "(", "|")


def _parts(tokens: Sequence[Token], at: int, named: Named) -> list[Symbol]:
    token = tokens[at]
    if token.text[:1] in ("x", "X") and token.text[1:] in named.parts and at and tokens[at - 1].kind == "number":
        # "2xA, B, 2xB".
        times = Symbol("x", token, after=at + 1)
        return [
            times,
            Symbol(
                f"@{named.parts.index(token.text[1:])}", token, part=named.parts.index(token.text[1:]), after=at + 1
            ),
        ]
    place = next((named.aliases[name] for name in _singular_or_plural(token.low) if name in named.aliases), -1)
    if place >= 0 and (len(token.text) > 1 or token.text.isupper() or _among_initials(tokens, at, named)):
        return [Symbol(f"@{place}", token, part=place, after=at + 1)]
    plural = token.text[:-1].rstrip("'") if token.text.endswith("s") and token.text[:-1].isupper() else ""
    for name in (token.text, plural, *_singular(token)):
        if name in named.parts and not _is_article(tokens, at, named) and not _is_as(tokens, at):
            place = named.parts.index(name)
            return [Symbol(f"@{place}", token, part=place, after=at + 1)]
    if _is_small(tokens, at, named):
        place = named.parts.index(token.text.upper())
        return [Symbol(f"@{place}", token, part=place, after=at + 1)]
    if len(token.text) == len(set(token.text)) == 2 and set(token.text) <= set(named.parts):
        return _spelled(token, at, named, 2)
    beside = any(_is_letters(other, named) for other in (*tokens[max(at - 2, 0) : at], *tokens[at + 1 : at + 3]))
    return _spelled(token, at, named, _FEW - 1 if beside else _FEW)


def _singular_or_plural(low: str) -> Iterator[str]:
    """Yield a word, and what it may be the plural of: "five choruses"."""
    yield low
    yield from (low.removesuffix(end) for end in ("s", "es") if low.endswith(end) and len(low) > _FEW + len(end))


def _singular(token: Token) -> Iterator[str]:
    """Yield the names that a word of several letters may be, or be the plural of: "two Verses", "both choruses"."""
    if len(token.text) > 1:
        name = token.text.capitalize()
        yield name
        yield from (name.removesuffix(end) for end in ("s", "es") if name.endswith(end) and len(name) > _FEW + len(end))


_JOINS = {"then", "and", "plus"}
"""Words that part the letters of a list: "a a b, then the tag, then a b b"."""


def _is_small(tokens: Sequence[Token], at: int, named: Named) -> bool:
    """Whether a small letter stands for a short part: between others of a list, or where it is explained."""
    token = tokens[at]
    if len(token.text) != 1 or not token.text.islower() or token.text.upper() not in named.parts:
        return False
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    lettered = at > 0 and tokens[at - 1].text in named.parts and tokens[max(at - 2, 0)].low not in _POINTS
    if token.text == "a" and not lettered and after is not None and after.text in named.parts and not after.glued:
        # "That leaves an A, a B and an A".
        return False
    if after is not None and (after.text == "=" or (token.text != "a" and after.low in (":", "means", "is", "stands"))):
        return True
    around = [
        next((one for one in run if one.text not in (",", "-", "/", ">", "|", "+", "(", '"')), None)
        for run in (tokens[max(at - 2, 0) : at][::-1], tokens[at + 1 : at + 3])
    ]
    letters = [one is not None and len(one.text) == 1 and one.text.upper() in named.parts for one in around]
    ahead = [one.text for one in tokens[at + 1 : at + 6] if one.text not in (",", "-", "/", ">", "|", "+")][:2]
    if len(ahead) > 1 and all(len(text) == 1 and text.upper() in named.parts for text in ahead):
        # "order is a a b": a list that begins behind words.
        return True
    open_end = [
        one is None or one.kind != "word" or one.line != token.line or (token.text != "a" and one.low in _JOINS)
        for one in around
    ]
    return any(letters) and all(letter or end for letter, end in zip(letters, open_end, strict=True))


def _among_initials(tokens: Sequence[Token], at: int, named: Named) -> bool:
    """Whether a small initial of a part stands beside another: "goes v c v c"."""
    around = [token.low for token in (*tokens[max(at - 2, 0) : at], *tokens[at + 1 : at + 3]) if token.text != ","]
    return tokens[at].text != "a" and any(
        (len(low) == 1 and low in named.aliases) or low in ("tag", "bridge") for low in around
    )


def _is_letters(token: Token, named: Named) -> bool:
    """Whether a word is nothing but letters of parts: then it names them."""
    return token.kind == "word" and set(token.text) <= {name for name in named.parts if len(name) == 1}


def _is_article(tokens: Sequence[Token], at: int, named: Named) -> bool:
    """Whether A opens a sentence as an article, or an answer."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if tokens[at].text != "A" or after is None or not _opens(tokens, at):
        return False
    if named.answers and after.text in (":", "."):
        return True
    if after.low in NUMBERS and at + 2 < len(tokens) and tokens[at + 2].text in ("-", "count", "beat"):
        # "A two-count tag".
        return True
    if after.low.endswith("s") and not after.low.endswith(("ss", "us")) and after.low not in _NO_VERBS:
        # "A returns for a short visit": no noun in the singular ends so.
        return False
    same = after.line == tokens[at].line
    heard = at + 2 < len(tokens) and tokens[at + 2].low in _OF_THE_SONG
    return same and after.kind == "word" and after.text[0].islower() and (heard or after.low not in _GOES_ON)


def _is_as(tokens: Sequence[Token], at: int) -> bool:
    """Whether "As" opens a sentence and is no plural: "As for the order"."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if tokens[at].text != "As" or not _opens(tokens, at) or after is None:
        return False
    return after.kind == "word" and after.low not in (
        "and",
        "are",
        "or",
        "have",
        "come",
        "begin",
        "start",
        "face",
        "end",
    )


def _spelled(token: Token, at: int, named: Named, few: int) -> list[Symbol]:
    """The parts of a play that is written in one word: "AABTABB"."""
    letters = [name for name in named.parts if len(name) == 1]
    if token.kind != "word" or len(token.text) < few or not set(token.text) <= {*letters, "T"}:
        return []
    if len(set(token.text) & set(letters)) < min(2, len(letters)) and few >= _FEW:
        return []
    found = []
    for letter in token.text:
        if letter in letters:
            place = named.parts.index(letter)
            found.append(Symbol(f"@{place}", token, part=place, after=at + 1))
        else:
            own = ("t",) if ("t",) in named.own else ()
            found.append(Symbol("$t" if own else "$tag", token, Extra("tag", own=own), after=at + 1))
    return found


def _compound(tokens: Sequence[Token], at: int) -> Symbol | None:
    """Two words of one number: "twenty-eight"."""
    ten, last = NUMBERS.get(tokens[at].low, 0), at + 1
    last += last < len(tokens) and tokens[last].text == "-"
    one = NUMBERS.get(tokens[last].low, 0) if last < len(tokens) else 0
    together = 20 <= ten < 100 and 0 < one < 10 and last < len(tokens)
    return Symbol(str(ten + one), tokens[at], after=last + 1) if together else None


def _is_count(token: Token | None) -> bool:
    return token is not None and (token.kind == "number" or token.low in ("count", "beat", *NUMBERS))


def _follows(tokens: Sequence[Token], at: int) -> bool:
    """Whether what comes next begins at a token: "after that a short A", not "after that B"."""
    return at < len(tokens) and tokens[at].text in (
        "a",
        "an",
        ",",
        "comes",
        "come",
        "we",
        "you",
        "it",
        "there",
        "do",
        "dance",
    )


def _plain(tokens: Sequence[Token], at: int) -> Symbol:
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.low == "at" and after is not None and after.low == "once":
        # "And then at once B" says nothing of how often.
        return Symbol("straight", token, after=at + 2)
    if (
        token.low == "after"
        and after is not None
        and after.low in ("that", "this", "which")
        and _follows(tokens, at + 2)
    ):
        return Symbol("then", token, after=at + 2)
    if token.low == "at" and at and tokens[at - 1].low in ("stop", "stops", "stopping") and _is_count(after):
        # "A, stop at 16" is no pause.
        return Symbol("until", token, after=at + 1)
    if token.low in ORDINALS:
        return Symbol(f"#{ORDINALS[token.low]}", token, after=at + 1)
    if (compound := _compound(tokens, at)) is not None:
        return compound
    if token.low in NUMBERS or (token.kind == "number" and token.text.isdecimal()):
        number = NUMBERS.get(token.low, 0) or int(token.text[:4])
        if after is not None and after.low in _PLACES and after.glued:
            return Symbol(f"#{number}", token, after=at + 2)
        return Symbol(str(number), token, after=at + 1)
    if token.text in "[]{}":
        return Symbol("(" if token.text in "[{" else ")", token, after=at + 1)
    if token.text in ("1/2", "½") and after is not None and after.text.isupper():
        return Symbol("half", token, after=at + 1)
    steps = token.kind == "fraction" or (token.low in STEP_WORDS and token.low not in NUMBERS)
    return Symbol(token.low.replace(" ", "_") or "?", token, steps=steps, after=at + 1)


@dataclass(frozen=True, slots=True)
class Text:
    """Symbols with their text, in which patterns are sought by their places among the symbols."""

    symbols: tuple[Symbol, ...]
    text: str
    starts: tuple[int, ...]
    """Where in the text each symbol begins."""

    def of(self, first: int, last: int) -> str:
        """Return the text of some of the symbols."""
        return " ".join(one.text for one in self.symbols[first:last])


def text_of(given: Sequence[Symbol]) -> Text:
    """Return symbols as text."""
    starts, at = [], 0
    for one in given:
        starts.append(at)
        at += len(one.text) + 1
    return Text(tuple(given), " ".join(one.text for one in given), tuple(starts))
