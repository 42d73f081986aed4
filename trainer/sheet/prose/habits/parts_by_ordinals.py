"""Parts under an ordinal and a noun of the teacher's own, "FIRST TUNE, second strain", told as parts A and B.

Such a name heads several lines of steps, one for each section of its part, or the sheet says how long each part is;
else what ordinals head are sections.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_FEWEST = 2
_MOST = 6
_SHORTEST = 3
_OTHERS = {
    "wall", "walls", "time", "times", "round", "rotation", "repetition", "half", "section", "part", "eight", "eights",
    "count", "counts", "beat", "beats", "block", "set", "figure", "phrase", "line", "row", "step", "steps", "foot",
    "tag", "bridge", "ending", "pass", "group", "sequence", "restart", "bar", "bars", "pattern", "turn", "six",
    "quarter", *SONG_PARTS,
}  # fmt: skip
_BEHIND = {",", ":", "(", "-", ".", "=", BREAK}
_LENGTHS = {"has", "is", "=", ":", "lasts", "takes", "of"}
_ARTICLES = {"the", "our"}

Name = tuple[str, str]
"""An ordinal and its noun."""


def with_parts_by_ordinals(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such names told as parts."""
    heads = Counter(name for line in lines if (name := _head(line)))
    for noun in {noun for _, noun in heads}:
        parts = sorted((ORDINALS[ordinal], ordinal) for ordinal, one in heads if one == noun)
        rising = [number for number, _ in parts] == list(range(1, len(parts) + 1))
        names = [(ordinal, noun) for _, ordinal in parts]
        sections = all(heads[name] >= 1 for name in names) and max(heads[name] for name in names) > 1
        if _FEWEST <= len(parts) <= _MOST and rising and (sections or _measured(lines, names)):
            return tuple(replace(line, tokens=tuple(_told(line.tokens, names))) for line in lines)
    return tuple(lines)


def _head(line: Line) -> Name | None:
    """Return the ordinal and noun that open a line as its head: "* FIRST TUNE, second strain"."""
    words = [token for token in line.tokens if token.text not in ("*", "-", "•", "#", "the", "The", "THE")][:3]
    if len(words) < 2 or (len(words) > 2 and words[2].text not in _BEHIND):
        return None
    return _name(words, 0)


def _name(tokens: Sequence[Token], at: int) -> Name | None:
    if at + 1 >= len(tokens) or tokens[at].low not in ORDINALS or tokens[at + 1].kind != "word":
        return None
    noun = tokens[at + 1].low
    own = len(noun) >= _SHORTEST and noun.isalpha() and noun not in _OTHERS and noun not in STEP_WORDS
    return (tokens[at].low, noun) if own else None


def _measured(lines: Sequence[Line], names: Sequence[Name]) -> bool:
    """Whether the sheet says how long each part is: "The First Tune has 32 beats, the Second Tune has 16"."""
    told = {
        name
        for line in lines
        for at in range(len(line.tokens) - 3)
        if (name := _name(line.tokens, at)) in names
        and line.tokens[at + 2].low in _LENGTHS
        and line.tokens[at + 3].kind == "number"
    }
    return told == set(names)


def _told(tokens: Sequence[Token], names: Sequence[Name]) -> Iterator[Token]:
    """Yield the words of a line, each name as "Part A", its article left out."""
    at = 0
    while at < len(tokens):
        first = at + (tokens[at].low in _ARTICLES)
        name = _name(tokens, first)
        if name in names:
            yield word_like(tokens[first], "Part")
            yield word_like(tokens[first + 1], "ABCDEF"[names.index(name)])
            at = first + 2
        else:
            yield tokens[at]
            at += 1
