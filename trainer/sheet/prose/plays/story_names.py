"""Names of the song that a sheet gives its lettered parts in passing: "A is the verse", "two verses (A)".

A part that is named twice at once, by its letter and its name, is danced once.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from trainer.sheet.prose.plays.paragraphs import paragraphs
from trainer.sheet.prose.plays.sung import SONG_NAMES, forms_of
from trainer.sheet.prose.plays.symbols import Named, Symbol
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ARTICLE = r"(?:(?:the|a|an|its|our|his|her|my|song's|word) )*"
_SONG = "|".join(sorted(SONG_NAMES, key=len, reverse=True))
_WORD = rf"(?P<word>{_SONG})"
_PART = r"(?:parts? )?@(?P<part>\d)"
_NAMING = (
    re.compile(rf"{_PART} (?:is|be|are|means|=|stands for|for|as|will be|for) {_ARTICLE}{_WORD}\b"),
    re.compile(rf"{_PART}'s {_ARTICLE}{_WORD}\b"),
    re.compile(rf"\b{_WORD} (?:is|are|means|mean|=|be|for|will be|called) (?:the |our |my )?{_PART}(?!\d)"),
    re.compile(
        rf"\b{_WORD} [(,] (?:that is |danced as |which is |i\.e\. |meaning |our |my )?{_PART}(?= [),.:;]|$| \d+ counts)"
    ),
    re.compile(rf"\b{_WORD} (?:[^@.;,:]{{1,30}} )?, danced as {_PART}"),
    re.compile(rf"\band {_PART} {_ARTICLE}{_WORD}\b"),
    re.compile(rf"\b{_WORD} {_PART}(?= [),.:;]|$)"),
    re.compile(
        rf"(?:is|are|means?|be|was) {_ARTICLE}(?:part )?@\d(?: ,)? (?:and|while|but) {_ARTICLE}{_WORD} "
        rf"{_ARTICLE}{_PART}"
    ),
)


def names_in_passing(lines: Sequence[Line], parts: Sequence[str]) -> Mapping[str, int]:
    """Return the song's names of lettered parts, in small letters, singular and plural."""
    told: list[tuple[str, int]] = []
    letters = 0
    for group in paragraphs(lines, parts):
        texts = [_text(sentence.tokens, parts) for sentence in group]
        sung = any(_SUNG.search(text) for text in texts)
        for text, sentence in zip(texts, group, strict=True):
            names = [*_paired_in(sentence.tokens, parts).items()] or list(dict.fromkeys(_named_in(text)))
            told += [(min(forms_of(word), key=len), part) for word, part in names]
            letters += len(_LETTER.findall(text)) if sung else 0
    once = dict(told)
    if len(once) != len(told) or len(set(once.values())) < 2 or letters - len(told) > _LETTERED:
        # Where the parts go by their letters all along, the names of the song are labels beside them.
        return {}
    return {form: part for word, part in once.items() for form in forms_of(word)}


_LETTER = re.compile(r"@\d(?! \d)")
_SUNG = re.compile(rf"\b(?:{_SONG})\b")
_LETTERED = 2


def _text(tokens: Sequence[Token], parts: Sequence[str]) -> str:
    words = []
    for token in tokens:
        letter = token.text.removesuffix("'s").removesuffix("’s")
        if letter in parts and len(letter) == 1:
            words.append(f"@{parts.index(letter)}" + ("'s" if letter != token.text else ""))
        else:
            words.append(token.low)
    return " ".join(words)


_LINKS = {
    "is", "are", "be", "means", "mean", "meaning", "for", "as", "that's", "our", "my", "with", "by", "dance", "danced",
    "do", "use", "get", "gets", "goes", "belongs", "equals", "=",
}  # fmt: skip
"""What gives a part the name of one of the song's."""
_PLAIN = {"the", "to", "for", "with", "as", "part", "a", "an", "our"}
_CALLS = {"call", "calls", "calling", "called", "name", "names", "naming", "named"}
_TELLS_ORDER = {
    "then", "next", "twice", "thrice", "time", "again", "once", "follow", "first", "second", "third", "half", "another",
    "two", "three", "four", "start", "begin", "open", "after", "before", "last", "final", "finally", "more", "2", "3",
}  # fmt: skip
"""Words, less the s at their end, of a sentence that tells the order of its parts and not their names."""
_LEAD = 3
"""Words before the first name among which these are sought."""


def _paired_in(tokens: Sequence[Token], parts: Sequence[str]) -> dict[str, int]:
    """Return the names that a sentence gives to all parts in turn before it tells anything else.

    "The verse means A and the chorus means B", "calling A the verse and B the chorus, ...".
    """
    places = _names_at(tokens, parts)
    pairs = list(zip(places[::2], places[1::2], strict=False))
    found: dict[str, int] = {}
    for one, two in pairs:
        first, second = (_place_of(tokens[at], parts) for at in (one, two))
        if min(first, second) >= 0 or max(first, second) < 0:
            return {}
        found[tokens[one if first < 0 else two].low] = max(first, second)
    if len(set(found.values())) != len(parts) or len(found) != len(parts):
        return {}
    begins = max((at + 1 for at in range(places[0]) if tokens[at].text == ","), default=0)
    lows = [token.low for token in tokens[max(places[0] - _LEAD, begins) : places[-1]]]
    between = [{token.low for token in tokens[one + 1 : two]} for one, two in pairs]
    linked = _CALLS & set(lows) or (
        bool(between) and bool(_LINKS & between[0]) and all(_LINKS & words or words <= _PLAIN for words in between)
    )
    return found if linked and not _TELLS_ORDER & {word.rstrip("s") for word in lows} else {}


def _names_at(tokens: Sequence[Token], parts: Sequence[str]) -> list[int]:
    """Places of the first names of the song and letters of parts, two for each part."""
    named = [
        at
        for at, token in enumerate(tokens)
        if token.low in SONG_NAMES or (_place_of(token, parts) >= 0 and not _is_article(tokens, at))
    ]
    most = 2 * len(parts)
    # "Verse one is A, the chorus is B, verse two is A, ..." tells the order.
    return named[:most] if all(_place_of(tokens[at], parts) < 0 for at in named[most:]) else []


def _place_of(token: Token, parts: Sequence[str]) -> int:
    letter = token.text.removesuffix("'s").removesuffix("’s")
    return parts.index(letter) if letter in parts and len(letter) == 1 else -1


def behind_naming(tokens: Sequence[Token], named: Named) -> int:
    """Return the index after the words that only name the parts, before a sentence tells anything else; 0: none do."""
    found = _paired_in(tokens, named.parts)
    known = found and all(named.aliases.get(word) == part for word, part in found.items())
    return _names_at(tokens, named.parts)[-1] + 1 if known else 0


def _is_article(tokens: Sequence[Token], at: int) -> bool:
    return tokens[at].text == "A" and at + 1 < len(tokens) and tokens[at + 1].low in SONG_NAMES


def _named_in(text: str) -> Iterator[tuple[str, int]]:
    for pattern in _NAMING:
        for match in pattern.finditer(text):
            yield match["word"], int(match["part"])


_EXPLAINS = re.compile(r"^(?:(?:\(|,|that|is|danced|as|which|i|\.|e|meaning|parts?|:|-) )*$")
_NAMES = re.compile(
    r"^(?:is|be|are|means|=|stands for|for|as|will be|'s|means part|mean)?(?: |^)"
    r"(?:(?:the|a|an|its|our|his|her|my|part|word) )*$"
)


def without_doubles(given: Sequence[Symbol]) -> tuple[Symbol, ...]:
    """Return symbols, a part that is named by its letter and its name at once named once or, where that is all, not."""
    done = list(given)
    places = [at for at, one in enumerate(given) if one.part >= 0]
    drop: set[int] = set()
    for before, after in pairwise(places):
        if given[before].part != given[after].part or before in drop or _letter(given[before]) == _letter(given[after]):
            continue
        between = " ".join(one.text for one in given[before + 1 : after])
        if between and _EXPLAINS.match(between + " ") and not _letter(given[before]):
            drop.add(after)
        elif not _letter(given[before]) and _is_danced_to(given, before, between):
            drop.add(before)
        elif _NAMES.match(between + " ") or _NAMES.match(between):
            drop |= {before, after}
    for one, two, a, b in zip(places, places[1:], places[2:], places[3:], strict=False):
        pairs = [given[at].part for at in (one, two, a, b)]
        lettered = [_letter(given[at]) for at in (one, two, a, b)]
        if (
            pairs[:2] == pairs[2:]
            and pairs[0] != pairs[1]
            and lettered == [False, False, True, True]
            and "(" in [s.text for s in given[two:a]]
        ):
            drop |= {a, b}
    for at in drop:
        done[at] = Symbol(done[at].token.low or "?", done[at].token, after=done[at].after)
    return tuple(done)


_DANCED_TO = re.compile(
    r"^(?:(?:after|behind) it |that follows |which follows |there )?(?:, )?(?:(?:we|you|they) )?(?:(?:dance|do|use|"
    r"take|have) )?(?:(?:a|an|the|one|1|part) )*$"
)
_NEAR = 4
"""Words before a name of the song that say what it leads to."""
_NTH = re.compile(r"(?:#\d|next|last|final|its|this|that|their|another)(?: (?:and|last|final))* $")


def _is_danced_to(given: Sequence[Symbol], at: int, between: str) -> bool:
    """Whether a name of the song only says to what its part is danced: "for the verse we dance A".

    "The second verse is A as well" tells what comes then.
    """
    first = max((on + 1 for on in range(max(at - _NEAR, 0), at) if _parts_words(given[on])), default=max(at - _NEAR, 0))
    lead = [one.text for one in given[first:at]]
    led = bool({"for", "to", "during", "in", "on", "with"} & set(lead))
    nth = _NTH.search(" ".join(lead) + " ") is not None
    return (led and _DANCED_TO.match(between + " ") is not None) or (
        nth and between in ("is", "is part", "means", "gets", "is the")
    )


def _letter(one: Symbol) -> bool:
    return len(one.token.text.removesuffix("'s")) == 1


def _parts_words(one: Symbol) -> bool:
    return one.part >= 0 or one.token.kind == "mark"
