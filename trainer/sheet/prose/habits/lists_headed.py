"""Heads of lists of what is special: "Tags & Restarts:", "Tags, restarts, ending", "Changes".

Such a line only says what sort of things the lines below it tell; where the first of them says for itself what happens,
the head is left out, for it is no extra of that name.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_KINDS = {
    "tag", "tags", "restart", "restarts", "bridge", "bridges", "hold", "holds", "pause", "pauses", "ending", "endings",
    "change", "changes", "finish", "extra", "extras", "break", "breaks", "stop", "stops",
}  # fmt: skip
_AROUND = {
    "and", "or", "the", "&", "/", ",", "+", "-", ":", "(", ")", "!", ".", "info", "information", "notes", "note",
    "list", "details", "overview", "summary", "in", "of", "this", "dance", "to", "for", "remember", "please", "read",
    "easy", "all", "on", "these", "our", "here", "are", "your", "special", "walls", "*",
}  # fmt: skip
_LONGEST = 12
"""Tokens of a head."""
_SAYS_WHAT = re.compile(
    r"\b(?:tag|bridge|restarts?|start|begin|hold|pause|wait|freeze|stop|ends?|ending|finish|last|replace|change[sd]?|"
    r"instead|add|become|from the top|go back|repeat)\b"
)
"""A line with one of these, and a wall or a place, tells by itself what happens."""
_SAYS_WHEN = re.compile(
    r"\bw ?\d|\b(?:walls?|rounds?|rotations?|times?|sequences?|repetitions?|passe?s?|counts?|sections?)\b"
)

_NAMED = re.compile(r"(tag|bridge)(?: (\d|[a-c]))? ?:?")
_AT_ITS_END = re.compile(r"\b(?:after|end of) (?:\w+ ){0,3}(?:w ?\d|walls?|rounds?|rotations?|time)\b")


def without_heads_of_lists(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without those that only head a list of what is special."""
    heads = {at for at in range(1, len(lines) - 1) if _only_heads(lines[at], lines[at + 1], lines)}
    return tuple(line for at, line in enumerate(lines) if at not in heads)


def _only_heads(line: Line, after: Line, lines: Sequence[Line]) -> bool:
    """Whether a line heads what the line below it tells by itself."""
    if not _tells_by_itself(after):
        return False
    return _heads_a_list(line.tokens) or _names_what_is_named(line, after, lines)


def _names_what_is_named(line: Line, after: Line, lines: Sequence[Line]) -> bool:
    """Whether "TAG 1" stands over "At the end of wall 2 there is a tag: ...", and no other line calls it so."""
    found = _NAMED.fullmatch(line.words)
    if found is None or not re.search(rf"\b{found[1]}\b", after.words) or not _AT_ITS_END.search(after.words):
        return False
    return found[2] is None or all(
        one is line or one is after or f"{found[1]} {found[2]}" not in one.words for one in lines
    )


def _heads_a_list(tokens: Sequence[Token]) -> bool:
    """Whether a line only names kinds of extras: two of them, or one that it calls several."""
    lows = [token.low for token in tokens]
    kinds = [low for low in lows if low in _KINDS]
    if not kinds or len(lows) > _LONGEST or not set(lows) <= _KINDS | _AROUND:
        return False
    return len({kind.removesuffix("s") for kind in kinds}) > 1 or all(kind.endswith("s") for kind in kinds)


def _tells_by_itself(line: Line) -> bool:
    """Whether a line says both what happens and when."""
    return bool(_SAYS_WHAT.search(line.words)) and bool(_SAYS_WHEN.search(line.words))
