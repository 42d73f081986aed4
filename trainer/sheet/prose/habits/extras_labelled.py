"""Counts of an extra labelled as those of the dance are: "The tag. After wall 2 ... Counts 1-2: side right".

"Counts 1-2: step ..." in a sentence about a wall tells what two counts of it become. Where the dance's own steps stand
behind such labels, those of an extra do too: they are told there without the word. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like
from trainer.sheet.prose.words import Token

_LABEL = re.compile(
    r"(?:(?<=^)|(?<=[.:;)!,] )|(?<=[.:;)!,] and )|(?<=[.:;)!,] then ))"
    r"(?:(?:on|for|at|in) )?(?:the )?(?:counts?|beats?|cts?) "
    r"(?P<counts>\d(?: (?:[-&/ae]|and|to) \d| & \d| [&ae](?= [:,.-]))*) (?P<stop>[:,.-])(?= \D)"
)
_FEWEST = 4
"""Such labels in the steps of the dance."""
_ADDS = re.compile(
    r"\b(?:tags?|bridges?|ending|finish|finale|coda|interlude|more|extra|added|additional|further|last|end)\b"
)
_CHANGES = re.compile(
    r"\b(?:instead|chang\w*|different\w*|replac\w*|other|otherwise|new|becomes?|altered|in (?:the )?place of|rather|"
    r"alternative\w*|skip|leave out|omit)\b"
)
"""What is said of a wall whose own counts are danced in another way."""


@dataclass(frozen=True, slots=True)
class _Label:
    """A label of counts that a word leads: its tokens, from that word to the mark behind it."""

    start: int
    counts: int
    """Where its counts begin."""
    end: int
    """The token behind the mark."""


def with_extras_labelled(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such labels of an extra told as bare counts; where the dance has none all stay."""
    labels = [_labels(line) for line in lines]
    first = next((at for at, line in enumerate(lines) if at and _opens_extra(_lead(line, labels[at]))), len(lines))
    if sum(map(len, labels[:first])) < _FEWEST:
        return tuple(lines)
    return tuple(
        replace(line, tokens=_bare(line.tokens, found), source="") if at >= first and _begins(line, found) else line
        for at, (line, found) in enumerate(zip(lines, labels, strict=True))
    )


def _begins(line: Line, labels: Sequence[_Label]) -> bool:
    """Whether a line tells of an extra and then its counts, from the first on."""
    return bool(labels) and line.tokens[labels[0].counts].text == "1" and _opens_extra(_lead(line, labels))


def _labels(line: Line) -> tuple[_Label, ...]:
    words = " ".join(token.low.replace(" ", "_") for token in line.tokens)
    return tuple(
        _Label(_index(words, one.start()), _index(words, one.start("counts")), _index(words, one.end("stop")) + 1)
        for one in _LABEL.finditer(words)
    )


def _index(words: str, at: int) -> int:
    """Return the index of the token that a place in the words of a line lies in, or behind."""
    return words[:at].count(" ")


def _lead(line: Line, labels: Sequence[_Label]) -> tuple[Token, ...]:
    """Return what a line says before its first label, or all that it says."""
    return line.tokens[: labels[0].start] if labels else line.tokens


def _opens_extra(lead: Sequence[Token]) -> bool:
    """Whether words tell of steps that are danced besides those of the walls."""
    words = " ".join(token.low for token in lead)
    named = extra_kind(lead) not in (None, "change") or (is_order(lead) and _ADDS.search(words) is not None)
    return named and not _CHANGES.search(words)


def _bare(tokens: Sequence[Token], labels: Sequence[_Label]) -> tuple[Token, ...]:
    """Return tokens with labels of no more than their counts and a colon."""
    done: list[Token] = []
    behind = 0
    for label in labels:
        done += tokens[behind : label.start]
        counts = tokens[label.counts : label.end - 1]
        done += (mark_like(one, "-") if one.low in ("and", "to") else one for one in counts)
        done.append(mark_like(tokens[label.end - 1], ":"))
        behind = label.end
    return (*done, *tokens[behind:])
