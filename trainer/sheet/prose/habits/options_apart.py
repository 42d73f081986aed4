"""Sentences behind the steps of a line that give another way to dance them, told as lines of their own.

"... pivot a half turn left (4). If your knees are tired, march right, left, right, left instead for 1 to 4."
Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.heads.options import is_option
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_ENDS = {".", "!"}
_SHORT = {"no", "nr", "vs", "ct", "cts", "st", "approx", "fwd", "r", "l"}
_FEWEST = 3
"""Words of a sentence that gives another way."""
_HEAD = 3
"""Lines of the head, which tell no steps."""
_ORDER = {"wall", "walls", "tag", "restart", "bridge", "ending", "w"}


def with_options_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each sentence that is an option behind steps with a line to itself."""
    return tuple(piece for at, line in enumerate(lines) for piece in (_parted(line) if at >= _HEAD else (line,)))


def _parted(line: Line) -> Iterator[Line]:
    sentences = list(_sentences(line.tokens))
    options = [place > 0 and _is_option(sentence) for place, sentence in enumerate(sentences)]
    if not any(options) or not any(token.kind == "number" for token in sentences[0]) or _orders(line.tokens):
        yield line
        return
    held: list[Token] = []
    for sentence, option in zip(sentences, options, strict=True):
        if option:
            if held:
                yield replace(line, tokens=tuple(held))
            held = []
            yield replace(line, tokens=tuple(sentence))
        else:
            held += sentence
    if held:
        yield replace(line, tokens=tuple(held))


def _sentences(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    sentence: list[Token] = []
    for at, token in enumerate(tokens):
        sentence.append(token)
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        before = tokens[at - 1].low if at else ""
        if token.text in _ENDS and after is not None and after.text[0].isupper() and before not in _SHORT:
            yield sentence
            sentence = []
    if sentence:
        yield sentence


def _is_option(sentence: Sequence[Token]) -> bool:
    words = [token for token in sentence if token.kind == "word"]
    return len(words) >= _FEWEST and BREAK not in [token.text for token in sentence] and is_option(sentence)


def _orders(tokens: Sequence[Token]) -> bool:
    return any(token.low in _ORDER for token in tokens)
