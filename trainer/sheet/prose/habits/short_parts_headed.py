"""A part cut short that has a heading of its own: "SHORT CHORUS, 8 counts" over "Counts 1 to 8 of the Chorus".

It is told as what it is, "Short Chorus = counts 1 to 8 of the Chorus", and heads no steps. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like
from trainer.sheet.prose.words import Token

_SHORT = {"short", "half", "little", "shortened", "mini"}
_PARTS = {*SONG_PARTS, *"abcdefgh"}
_OPENS = {"counts", "count", "the", "only", "just", "sections", "section"}
_LONGEST = 9
"""Tokens of the heading."""


def with_short_parts_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each such heading with what stands below it as one line."""
    done: list[Line] = []
    for line in lines:
        above = done[-1] if done else None
        if above is not None and _heads(above) and _tells(above, line):
            sign = mark_like(above.tokens[1], "=")
            done[-1] = replace(above, tokens=(*above.tokens[:2], sign, *_first_sentence(line)), source="")
        else:
            done.append(line)
    return tuple(done)


def _heads(line: Line) -> bool:
    tokens = line.tokens
    return 1 < len(tokens) <= _LONGEST and tokens[0].low in _SHORT and tokens[1].low in _PARTS


def _tells(head: Line, line: Line) -> bool:
    """Whether a line says which counts of the part those are."""
    words = [token.low for token in _first_sentence(line)]
    of = words.index("of") if "of" in words else len(words)
    return words[0] in _OPENS and head.tokens[1].low in words[of:] and bool({"counts", "sections"} & set(words[:of]))


def _first_sentence(line: Line) -> Sequence[Token]:
    end = next((at for at, token in enumerate(line.tokens) if token.text == "."), len(line.tokens))
    return line.tokens[:end]
