"""Extras that are called a wait and are danced all the same: "Little wait: four counts. On one step right to the side".

Told as a tag wherever the name stands; of a wait in which nobody steps nothing changes. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_WAITS = {"wait", "pause", "rest", "breath", "breather", "stop", "halt", "waiting", "linger"}
_ARTICLES = {"the", "our", "a"}
_STANDING = {"hold", "still", "on", "stand", "count", "counts", "weight", "and", "the", "wait", "left", "right"}
_LONGEST = 3
"""Words of such a name."""
_STEPS = 2


def with_waits_danced(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such names told as a tag."""
    names = {name for at in range(len(lines)) if (name := _name(lines, at))}
    if len(names) != 1:
        return tuple(lines)
    name = names.pop()
    return tuple(_told(line, name) for line in lines)


def _name(lines: Sequence[Line], at: int) -> tuple[str, ...]:
    """Return the words of a wait that a line names before steps of its own, in it or right below."""
    tokens = lines[at].tokens
    colon = next((place for place, token in enumerate(tokens[: _LONGEST + 2]) if token.text == ":"), 0)
    words = tuple(token.low for token in tokens[:colon] if token.low not in _ARTICLES)
    if not words or len(words) > _LONGEST or words[-1] not in _WAITS:
        return ()
    said = list(tokens[colon + 1 :])
    for above, below in zip(lines[at:], lines[at + 1 : at + 4], strict=False):
        if below.number != above.tokens[-1].line + 1:
            break
        said += below.tokens
    stepped = sum(token.low in STEP_WORDS - _STANDING for token in said)
    return words if stepped >= _STEPS and len(marks_in(said, 0)) >= _STEPS else ()


def _told(line: Line, name: Sequence[str]) -> Line:
    tokens: list[Token] = []
    at = 0
    while at < len(line.tokens):
        if tuple(token.low for token in line.tokens[at : at + len(name)]) == tuple(name):
            first = line.tokens[at]
            tokens.append(word_like(first, "Tag" if first.text[0].isupper() else "tag"))
            at += len(name)
        else:
            tokens.append(line.tokens[at])
            at += 1
    told = tuple(tokens)
    return replace(line, tokens=told, source="") if told != line.tokens else line
