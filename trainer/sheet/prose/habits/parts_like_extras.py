"""Parts whose heads give them the name of an extra as well: "Part C - Bridge", "B: the break".

The letter is what the play calls such a part by. Beside another head by a letter the name behind it is left out, unless
the sheet has an extra of that name too.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line

_HEAD = re.compile(
    r"((?:part )?([a-h]))(?: [-:(|]| ,)? ?(?:the |a )?(\w+)(?: part)?(?: \))?"
    r"(?: [-:,(|]?.{0,3}\d+ (?:counts?|cts|beats)(?: \))?)?[:.]?"
)
_EXTRAS = {"bridge", "tag", "break", "ending", "outro", "finale", "interlude", "coda"}


def with_parts_not_extras(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, heads of parts without the name of an extra behind their letter."""
    heads = {at: found for at, line in enumerate(lines) if (found := _HEAD.fullmatch(line.words))}
    letters = {found[2] for found in heads.values()} | {
        found[1] for line in lines if (found := re.fullmatch(r"(?:part )?([a-h])(?: [-:(,|]?.{0,12})?", line.words))
    }
    if len(letters) < 2:
        return tuple(lines)
    opened = {line.tokens[0].low for line in lines}
    return tuple(
        replace(line, tokens=line.tokens[: len(heads[at][1].split())], source="")
        if at in heads and heads[at][3] in _EXTRAS - opened
        else line
        for at, line in enumerate(lines)
    )
