"""Parts of a phrased dance that go by letters from the end of the alphabet, "Part P", "Part Q", told as A and B.

Each letter stands behind "part" somewhere, at the start of a line at least once; no other letter does. Common practice,
no source.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LETTERS = "ABCDEFGH"
_OTHERS = "JKMNOPQSUVWXYZ"
"""Neither feet, nor "I", nor the T of a tag."""
_FEWEST = 2
_OPENING = 4
"""So near to the start of a line a part is headed."""


def with_usual_letters(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, parts under other letters called A, B and so on."""
    named = list(_named(lines))
    letters = list(dict.fromkeys(letter for _, letter in named))
    headed = {letter for headed, letter in named if headed}
    if not (_FEWEST <= len(letters) <= len(_LETTERS) and headed == set(letters) <= set(_OTHERS)):
        return tuple(lines)
    usual = dict(zip(sorted(letters), _LETTERS, strict=False))
    return tuple(replace(line, tokens=tuple(_told(token, usual) for token in line.tokens)) for line in lines)


def _named(lines: Sequence[Line]) -> Iterator[tuple[bool, str]]:
    """Yield the letters behind "part", each with whether it stands where a line opens."""
    for line in lines:
        for at, (before, token) in enumerate(zip(line.tokens, line.tokens[1:], strict=False)):
            if before.low == "part" and len(token.text) == 1 and token.text.isupper():
                yield at < _OPENING, token.text


def _told(token: Token, usual: Mapping[str, str]) -> Token:
    """Return a word with the usual letters: "P", "Ps", "P1", "PPQ"; "A" is an article in such a sheet."""
    if token.text == "A":
        return replace(token, text="a")
    if not re.fullmatch(rf"[{''.join(usual)}]+(?:['’]?s|\d{{0,2}})", token.text):
        return token
    text = "".join(usual.get(sign, sign) for sign in token.text)
    return replace(token, text=text, low=text.lower())
