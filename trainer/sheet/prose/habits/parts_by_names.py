"""Parts that a sheet heads by their place in the song and then calls by names: "The Verse, which we call Porridge".

Each name stands for the part that it is given to. So it is where two parts at least are given names, each another one,
and other lines call them so; a name that heads its part itself is none of these. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEWEST = 2
_SHORTEST = 3
_CALLED = {"call", "calls", "called", "named", "name", "nicknamed", "christened", "dubbed", "titled", "aka", "alias"}
_BETWEEN = {
    ",", "(", "-", ":", ".", "which", "that", "this", "we", "i", "you", "they", "is", "are", "will", "be", "shall",
    "it", "the", "our", "my", "also", "here", "everyone", "everybody", "she", "he", "hereafter", "always", "known",
    "as", "a", "an", "\"",
}  # fmt: skip
"""What may stand between a part, the word for its name, and the name."""
_HEADING = 2
"""Words of a heading that is no more than a name and a length."""
_GIVES = {"=", ":", "-"}
_MOST = 6
"""Words between a part and its name."""
_PARTS = {*SONG_PARTS, *"abcdefgh"}


def with_parts_by_names(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, the names of parts told as the parts."""
    given = {name: (line.number, first, last, part) for line in lines for name, first, last, part in _given(line)}
    parts = {part.low for _, _, _, part in given.values()}
    if not _FEWEST <= len(given) == len(parts) or not parts <= set(map(_opens_with, lines)):
        return list(lines)
    elsewhere = [line for line in lines[1:] if line.number not in {number for number, *_ in given.values()}]
    heads = {_opens_with(line) for line in elsewhere if sum(token.kind == "word" for token in line.tokens) <= _HEADING}
    called = all(any(token.low in (name, f"{name}s") for line in elsewhere for token in line.tokens) for name in given)
    if not called or heads & set(given):
        return list(lines)
    names = {form: part for name, (*_, part) in given.items() for form in (name, f"{name}s")}
    cuts = {(number, first): last for number, first, last, _ in given.values()}
    return [
        _told(line, names, {first: last for (number, first), last in cuts.items() if number == line.number})
        for line in lines
    ]


def _given(line: Line) -> list[tuple[str, int, int, Token]]:
    """Return each name that a line gives to a part, where the words that give it begin and end, and the part."""
    found = _headed(line)
    for at, token in enumerate(line.tokens):
        first = next((back for back in range(at, max(at - _MOST, 0), -1) if line.tokens[back - 1].low in _PARTS), 0)
        if token.low not in _CALLED or not first or not all(one.low in _BETWEEN for one in line.tokens[first:at]):
            continue
        part = line.tokens[first - 1]
        last = next((on for on in range(at + 1, len(line.tokens)) if line.tokens[on].low not in _BETWEEN), 0)
        name = line.tokens[last]
        alone = len(part.low) > 1 or part.text.isupper()
        named = name.kind == "word" and name.text[0].isupper() and len(name.low) >= _SHORTEST
        if last and alone and named and name.low not in STEP_WORDS | _PARTS:
            found.append((name.low, first, last + 1, part))
    return found


def _headed(line: Line) -> list[tuple[str, int, int, Token]]:
    """Return the name that a heading gives to its part with a sign: "VERSE = the Ladle (32 counts)"."""
    tokens = line.tokens[1:] if line.tokens[0].low in ("the", "part", "our") else line.tokens
    if not tokens:
        return []
    lettered = line.tokens[0].low == "part" and tokens[0].low in _PARTS
    known = lettered or tokens[0].low in SONG_PARTS
    if len(tokens) < _HEADING + 1 or not known or tokens[1].text not in _GIVES:
        return []
    at = 2 + (tokens[2].low in _BETWEEN)
    named = at < len(tokens) and tokens[at].kind == "word" and tokens[at].text[0].isupper()
    alone = sum(token.kind == "word" for token in tokens[at:]) <= _HEADING
    if not named or not alone or tokens[at].low in STEP_WORDS | _PARTS or len(tokens[at].low) < _SHORTEST:
        return []
    begins = len(line.tokens) - len(tokens)
    return [(tokens[at].low, begins + 1, begins + at + 1, tokens[0])]


def _opens_with(line: Line) -> str:
    """Return the word that a line opens with, its article left out."""
    words = [token.low for token in line.tokens if token.kind == "word"]
    return next((word for word in words[:2] if word not in ("the", "part", "our")), "")


def _told(line: Line, names: dict[str, Token], cuts: dict[int, int]) -> Line:
    """Return a line with the parts that it names, without the words that give the names."""
    tokens: list[Token] = []
    skip = 0
    for at, token in enumerate(line.tokens):
        skip = max(skip, cuts.get(at, 0))
        if at < skip:
            continue
        part = names.get(token.low)
        tokens.append(replace(token, text=part.text, low=part.low) if part and token.text[0].isupper() else token)
    return replace(line, tokens=tuple(tokens), source="") if tokens != list(line.tokens) else line
