"""Extras that a sheet tells apart by a word, "the big tag" and "the small tag", told by numbers."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import number_like
from trainer.sheet.prose.words import Token

_EXTRAS = {"tag", "bridge"}
_NO_NAMES = {
    "the", "a", "an", "our", "this", "that", "no", "one", "two", "three", "four", "six", "eight", "each", "every",
    "another", "first", "second", "third", "last", "final", "next", "same", "then", "add", "do", "dance", "restart",
    "count", "counts", "and", "or", "with", "after", "before", "for", "plus", "of", "in", "on", "at", "to", "is",
    "are", "extra", "step", "single", "only", "any", "some", "your", "my", "its", "their", "repeat", "wall", "beat",
    "start", "new", "other",
}  # fmt: skip
"""Words that may stand before an extra, and tell it from no other."""
_OPENS = {":", "=", "(", "-", "|", ",", "after", "at", "is", "comes", "danced", "."}
"""What stands between the name of an extra and its steps or its walls."""
_ARTICLES = {"the", "a", "our", "this"}


def with_described_extras(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with "small tag" as "tag 2", where lines begin with several such names of a kind."""
    heads: dict[str, list[str]] = {}
    for line in lines:
        tokens = line.tokens[1:] if line.tokens and line.tokens[0].low in _ARTICLES else line.tokens
        opened = len(tokens) == 2 or (len(tokens) > 2 and tokens[2].low in _OPENS)
        if opened and (word := _describes(tokens, 0)) and word not in heads.setdefault(tokens[1].low, []):
            heads[tokens[1].low].append(word)
    numbers = {
        (word, kind): number for kind, words in heads.items() if len(words) > 1 for number, word in enumerate(words, 1)
    }
    return tuple(_told(line, numbers) for line in lines) if numbers else tuple(lines)


def _told(line: Line, numbers: Mapping[tuple[str, str], int]) -> Line:
    tokens = _numbered(line.tokens, numbers)
    return line if tokens == line.tokens else replace(line, tokens=tokens, source="")


def _describes(tokens: Sequence[Token], at: int) -> str:
    """Return the word before the name of an extra that tells it from others, or nothing."""
    named = at + 1 < len(tokens) and _may_tell(tokens[at]) and tokens[at + 1].low in _EXTRAS
    return tokens[at].low if named else ""


def _may_tell(token: Token) -> bool:
    return token.kind == "word" and len(token.low) > 1 and token.low not in _NO_NAMES


def _numbered(tokens: Sequence[Token], numbers: Mapping[tuple[str, str], int]) -> tuple[Token, ...]:
    done: list[Token] = []
    for at, token in enumerate(tokens):
        before = (tokens[at - 1].low, token.low) if at else ("", "")
        if before in numbers:
            word = tokens[at - 1]
            # A line that begins without a capital would go on with the one above.
            text = token.text.capitalize() if word.text[:1].isupper() else token.text
            name = replace(token, text=text, column=word.column, glued=word.glued)
            done[-1:] = [name, number_like(token, numbers[before])]
        else:
            done.append(token)
    return tuple(done)
