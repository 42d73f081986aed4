"""Names of the song that a sheet gives its lettered parts in passing: "A is the verse", "two verses (A)".

A part that is named twice at once, by its letter and its name, is danced once.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

from trainer.sheet.prose.plays.paragraphs import paragraphs
from trainer.sheet.prose.plays.sung import SONG_NAMES, forms_of
from trainer.sheet.prose.plays.symbols import Symbol
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ARTICLE = r"(?:(?:the|a|an|its|our|his|her|my|song's|word) )*"
_SONG = "|".join(sorted(SONG_NAMES, key=len, reverse=True))
_WORD = rf"(?P<word>{_SONG})"
_PART = r"(?:parts? )?@(?P<part>\d)"
_NAMING = (
    re.compile(rf"{_PART} (?:is|be|are|means|=|stands for|for|as|will be|for) {_ARTICLE}{_WORD}\b"),
    re.compile(rf"{_PART}'s {_ARTICLE}{_WORD}\b"),
    re.compile(rf"\b{_WORD} (?:is|are|means|mean|=|be|for|will be|called) (?:the )?{_PART}(?!\d)"),
    re.compile(rf"\b{_WORD} [(,] (?:that is |danced as |which is |i\.e\. |meaning )?{_PART}(?= [),.:;]|$| \d+ counts)"),
    re.compile(rf"\b{_WORD} (?:[^@.;,:]{{1,30}} )?, danced as {_PART}"),
    re.compile(rf"\band {_PART} {_ARTICLE}{_WORD}\b"),
    re.compile(rf"\b{_WORD} {_PART}(?= [),.:;]|$)"),
)


def names_in_passing(lines: Sequence[Line], parts: Sequence[str]) -> Mapping[str, int]:
    """Return the song's names of lettered parts, in small letters, singular and plural."""
    told: list[tuple[str, int]] = []
    letters = 0
    for group in paragraphs(lines, parts):
        texts = [_text(sentence.tokens, parts) for sentence in group]
        sung = any(_SUNG.search(text) for text in texts)
        for text in texts:
            names = list(dict.fromkeys(_named_in(text)))
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


def _letter(one: Symbol) -> bool:
    return len(one.token.text.removesuffix("'s")) == 1
