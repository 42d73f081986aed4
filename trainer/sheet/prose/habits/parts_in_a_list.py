"""Parts of a phrased dance by the names that a list of the play repeats, "Harbour, Hill, tag, Hill", told as A and B.

Each of the names opens a line besides: "Harbour, first eight.", "HILL is sixteen counts". Common practice, no source.
"""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_LETTERS = "ABCDEFGH"
_FEWEST = 2
_MOST = 4
_LISTED = 4
"""So many places in a list make a play."""
_SHORTEST = 3
_BETWEEN = {
    ",", "-", "+", ">", "/", "|", "(", ")", ";", "*", "and", "then", "x", "the", "a", "short", "first", "only",
    "counts", "twice", "&", "one", "two", "times", "last", "again", "half", "of", "eights", "sections", "by", "cut",
}  # fmt: skip
_BEHIND = {",", ".", ":", "(", "-", "=", "is", "has", "lasts", "|"}
_ARTICLES = {"the", "our", "part", "#", "*", "-"}


def with_listed_names(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such names told as letters."""
    for place, line in enumerate(lines):
        names = _listed(line)
        others = [other for at, other in enumerate(lines) if at not in (0, place)]
        if names and all(any(_opens(other, name) for other in others) for name in names) and not _lettered(lines):
            headed = [name for other in others if (name := next((one for one in names if _opens(other, one)), ""))]
            letters = dict(zip(dict.fromkeys(headed), _LETTERS, strict=False))
            return tuple(
                replace(other, tokens=tuple(_told(other, letters))) if at else other for at, other in enumerate(lines)
            )
    return tuple(lines)


def _lettered(lines: Sequence[Line]) -> bool:
    """Whether the sheet calls its parts by letters as well."""
    return any(
        before.low in ("part", "parts") and token.text in tuple(_LETTERS)
        for line in lines
        for before, token in zip(line.tokens, line.tokens[1:], strict=False)
    )


def _listed(line: Line) -> tuple[str, ...]:
    """Return the names that a line lists as a play does; none where it lists no play."""
    for plain, run in groupby(line.tokens, _may_stand_in_a_list):
        often = Counter(token.low for token in run if _is_name(token)) if plain else Counter[str]()
        if often.total() >= _LISTED and _FEWEST <= len(often) <= _MOST and max(often.values()) > 1:
            return tuple(often)
    return ()


def _may_stand_in_a_list(token: Token) -> bool:
    return _is_name(token) or token.low in _BETWEEN or token.kind == "number" or bool(extra_kind((token,)))


def _is_name(token: Token) -> bool:
    word = token.kind == "word" and len(token.text) >= _SHORTEST and token.text[0].isupper()
    known = token.low in STEP_WORDS or token.low in SONG_PARTS or token.low in NUMBERS or token.low in ORDINALS
    return word and not known and token.low not in _BETWEEN and not extra_kind((token,))


def _opens(line: Line, name: str) -> bool:
    """Whether a line opens with a name, and goes on as a heading does."""
    first = next((at for at, token in enumerate(line.tokens) if token.low not in _ARTICLES), 0)
    token, behind = line.tokens[first], line.tokens[first + 1 : first + 2]
    opens = token.low == name and token.text[0].isupper()
    return opens and (not behind or behind[0].low in _BEHIND or behind[0].kind == "number") and not _listed(line)


def _told(line: Line, letters: Mapping[str, str]) -> Iterator[Token]:
    """Yield the words of a line with the letters; a name that opens the line is told as "Part A"."""
    opened = next((name for name in letters if _opens(line, name)), "")
    for at, token in enumerate(line.tokens):
        form = token.low if token.low in letters else token.low.removesuffix("s")
        if form not in letters or not token.text[0].isupper():
            yield token
            continue
        if form == opened and all(other.low in _ARTICLES - {"part"} for other in line.tokens[:at]):
            yield word_like(token, "Part")
        yield word_like(token, letters[form] + ("s" if form != token.low else ""))
