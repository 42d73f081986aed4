"""Titles in capitals behind the range of their section: an & among them is a word, "[25-32] ROCK &, ROCK, SAILOR".

Known where more than one line opens with a range in brackets and goes on in capitals. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import word_like

_CLOSES = {"[": "]", "(": ")", "{": "}"}
_FEWEST = 2
_RANGE = 5
"""Tokens of a range in brackets."""


def with_ands_in_titles(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, an & in such a title told as a word."""
    titled = {at for at, line in enumerate(lines) if _is_titled(line)}
    if len(titled) < _FEWEST:
        return tuple(lines)
    return tuple(
        replace(
            line,
            tokens=tuple(word_like(token, "and") if token.kind == "amp" else token for token in line.tokens),
            source="",
        )
        if at in titled and any(token.kind == "amp" for token in line.tokens)
        else line
        for at, line in enumerate(lines)
    )


def _is_titled(line: Line) -> bool:
    """Whether a line is a range in brackets and a title in capitals."""
    tokens = line.tokens
    if len(tokens) <= _RANGE or tokens[4].text != _CLOSES.get(tokens[0].text) or tokens[2].text != "-":
        return False
    words = [token.text for token in tokens[_RANGE:] if token.kind == "word" and len(token.text) > 1]
    return tokens[1].kind == tokens[3].kind == "number" and len(words) > 1 and all(word.isupper() for word in words)
