"""Sections of a song's parts labelled by initials, "V1:", "C2.", under the parts' names: told as "section 1:".

Such labels are known by their order alone: under VERSE stand V1, V2 and so on, under CHORUS C1. They open lines of
steps, or stand alone over them. What names them elsewhere stays: the play knows parts by their initials.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_PART = re.compile(rf"^(?:[^\w ]+ )*(?:the )?(?P<name>{'|'.join((*SONG_PARTS, 'bridge', 'break'))})\b")
_CLOSES = {":", ".", ")", "-", "=", BREAK}
_HEAD = 14
"""Tokens of a part's heading."""
_LEAST = 3
_ALONE = 2
"""Tokens of a label that stands alone."""


def with_initialled_sections(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, labels that are a part's initial and a number told as its sections."""
    heads: dict[int, int] = {}
    name, last = "", 0
    for at, line in enumerate(lines):
        if number := _label(line.tokens, name):
            if number != last + 1:
                return tuple(lines)
            heads[at] = last = number
        elif (part := _PART.match(line.words)) and len(line.tokens) <= _HEAD:
            name, last = part["name"], 0
    if len(heads) < _LEAST:
        return tuple(lines)
    return tuple(
        replace(line, tokens=_section(line.tokens, heads[at])) if at in heads else line for at, line in enumerate(lines)
    )


def _label(tokens: Sequence[Token], name: str) -> int:
    """Return the number behind a part's initial that opens a line of steps; 0 where none stands."""
    said = tokens[:3]
    alone = len(tokens) == _ALONE or (len(tokens) == _LEAST and said[-1].text in _CLOSES)
    if not name or not (alone or len(tokens) > _LEAST) or said[0].low != name[0]:
        return 0
    numbered = said[0].text.isupper() and said[1].kind == "number" and said[1].glued and said[1].text.isdecimal()
    steps = any(token.low in STEP_WORDS for token in tokens[3:])
    return int(said[1].text) if numbered and (alone or (said[2].text in _CLOSES and steps)) else 0


def _section(tokens: tuple[Token, ...], number: int) -> tuple[Token, ...]:
    word = replace(tokens[0], kind="word", text="section", low="section")
    digits = replace(tokens[1], text=str(number), low=str(number), glued=False)
    if len(tokens) <= _LEAST:
        return word, digits
    colon = replace(digits, kind="mark", text=":", low=":", glued=True)
    return word, digits, colon, *tokens[3:]
