"""Walls in a list under a heading of restarts, that only say how far they are danced: told as restarts.

"Restarts:" over "- wall 2, count 16" is "Restart: wall 2, count 16". Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HEAD = re.compile(r"^\W*(?:\d |(?:two|three|four) |the |there are (?:\d|two|three|four) )?re ?-? ?starts?\b\W*$")
_WALL = re.compile(r"^\W*(?:(?:on |in |during )?(?:the )?(?:wall|w) \d+|(?:the )?(?:\d (?:st|nd|rd|th)|\w+) wall)\b")
_FAR = re.compile(r"\b(?:counts?|cts?|beats?|sections?|sec|s|eights?|after|@|at|to|set|figure|block)\b|@|\b\d+ ?\W*$")
_BEGINS = re.compile(r"\b(?:begin|start)(?:s|ning|ing)? (?:at|from|on|facing) (?:the )?\S+(?: o'clock| wall)?")
"""Where a wall begins says nothing of how far it goes."""
_TELLS = re.compile(r"\b(?:re ?-? ?starts?|again|tags?|bridges?|ending|begin|start|top|hold|change|instead|end)\b")


def with_restarts_listed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, those of such a list opened with what is done there."""
    done: list[Line] = []
    head: Token | None = None
    below = 0
    for line in lines:
        if _HEAD.match(line.words):
            head = next(token for token in line.tokens if token.low.startswith("re"))
        elif head is not None and line.number == below + 1 and _is_item(line):
            colon = replace(head, kind="mark", text=":", low=":", glued=True, line=line.number)
            word = replace(head, text="Restart", low="restart", line=line.number)
            first = next(at for at, token in enumerate(line.tokens) if token.kind in ("word", "number"))
            line = replace(line, tokens=(word, colon, *line.tokens[first:]))
        else:
            head = None
        below = line.tokens[-1].line
        done.append(line)
    return tuple(done)


def _is_item(line: Line) -> bool:
    """Whether a line names a wall and how far it is danced, and not what comes then."""
    named = _WALL.match(line.words)
    rest = _BEGINS.sub("", line.words[named.end() :]) if named else ""
    return bool(_FAR.search(rest)) and not _TELLS.search(rest)
