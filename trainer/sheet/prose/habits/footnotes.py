"""Marks at a step that a note of the order takes up: "7&8 coaster step  (+)", "(+) Wall 3 only: go back to count 1".

The mark stands once at the end of a line of steps, or alone on a line, and again before a note or within one: "dance as
far as the * and start again". It goes, and the note says "here" in its stead, of the line that was marked. A note that
names its count itself only loses its mark.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.habits.footmarks import MARK, Footmark, footmarks, until
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.tokens import plain
from trainer.sheet.prose.words import Token

_OPENS = re.compile(rf"^\s*(?P<mark>{MARK})(?:\s|[:=.)\-]|(?=[A-Za-z]))[\s:=.\-]*(?=\w)")
_WITHIN = re.compile(rf"(?<=\s)(?:the )?(?P<mark>{MARK})(?=[\s.,;:]|$)")
_CALLED = re.compile(
    r"\b(?:the|this) (?:mark|sign|star|asterisk|cross|plus|dagger|"
    r"(?:point|place|spot) marked|marked (?:point|place|spot))\b",
    re.IGNORECASE,
)
"""What a mark may be called where there is but one."""
_PLACED = re.compile(
    r"\b(?:counts?|beats?|cts?|sections?|sec|eight) (?:no\.? ?)?\d|"
    r"\b(?:after|first|last|up to) \d+\b(?! ?(?:st|nd|rd|th)\b)|"
    r"\bends? of\b|\bat the end\b|\bafter (?:the )?(?:\w+ )?wall\b",
    re.IGNORECASE,
)
"""A note that says itself where it holds."""
_LINE_END = 9_999
"""A column behind all others of a line."""
_SPOTS = (["point"], ["place"], ["spot"])
_HERE = re.compile(r"\b(?:here|this (?:point|place|spot))\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Note:
    """A line that takes up a mark: the columns of what goes from it, from 0, last exclusive, and what it marks."""

    number: int
    first: int
    last: int
    marked: Footmark
    says: bool
    """It must say "here" for what goes."""


def with_footnotes(text: str, lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the clean lines of a text without such marks, the notes pointing to what they mark."""
    raw = plain(text).split("\n")
    marked = footmarks(raw, lines)
    notes: dict[int, _Note] = {}
    used: dict[int, Footmark] = {}
    for mark, place in marked.items():
        found = _notes(raw, lines, mark, place, lone=len(marked) == 1)
        notes |= {one.number: one for one in found}
        if found:
            used[place.number] = place
    done = []
    for line in lines:
        if line.number in used:
            line = _without_mark(line, used[line.number])
        if line.number in notes:
            line = replace(line, tokens=_pointing(line.tokens, notes[line.number]))
        if line.tokens:
            done.append(line)
    return tuple(done)


def _without_mark(line: Line, mark: Footmark) -> Line:
    """Return a line without the mark that stands in it; its cells stay where they are."""
    if not line.source[mark.last :].strip():
        return replace(line, tokens=until(line, mark.first), source=line.source[: mark.first].rstrip())
    kept = tuple(token for token in line.tokens if not mark.first < token.column <= mark.last)
    blank = " " * (mark.last - mark.first)
    return replace(line, tokens=kept, source=line.source[: mark.first] + blank + line.source[mark.last :])


def _notes(raw: Sequence[str], lines: Sequence[Line], mark: str, marked: Footmark, *, lone: bool) -> list[_Note]:
    """Return the notes of the order that take up a mark."""
    found = []
    for place, line in enumerate(lines):
        if line.number == marked.number:
            continue
        source = raw[line.number - 1]
        opens = _OPENS.match(source)
        after = lines[place + 1] if place + 1 < len(lines) else None
        wrapped = after.tokens if after is not None and after.number == line.number + 1 else ()
        if opens and opens["mark"].replace(" ", "") == mark:
            rest = tuple(token for token in line.tokens if token.column > opens.end())
            if rest and (is_order(rest) or is_order((*rest, *wrapped))):
                said = source[opens.end() :]
                says = not _PLACED.search(said) and not _HERE.search(said)
                found.append(_Note(line.number, opens.start("mark"), opens.end(), marked, says))
            continue
        if mark[1:-1].isdecimal() or mark[1:].startswith("see"):
            continue
        within = [one for one in _WITHIN.finditer(source) if one["mark"].replace(" ", "") == mark]
        within += _CALLED.finditer(source) if lone else []
        if within and is_order(line.tokens):
            found.append(_Note(line.number, within[0].start(), within[0].end(), marked, says=True))
    return found


def _pointing(tokens: Sequence[Token], note: _Note) -> tuple[Token, ...]:
    """Return the tokens of a note, its mark as the word "here", and every "here" of it said of the line marked."""
    line, column = note.marked.number, note.marked.upto or _LINE_END
    done: list[Token] = []
    said = not note.says
    for token in tokens:
        taken = note.first < token.column <= note.last
        if (taken or token.column > note.last) and not said:
            here = replace(token, kind="word", text="here", low="here", glued=False, value=None)
            done.append(replace(here, line=line, column=column))
            said = True
        if not taken:
            done.append(token)
    told = [token.low for token in done]
    for at, word in enumerate(told):
        if word == "here" or (word == "this" and told[at + 1 : at + 2] in _SPOTS):
            first = at - (at > 0 and told[at - 1] in ("at", "from", "to"))
            last = at + 1 + (word == "this")
            done[first:last] = [replace(token, line=line, column=column) for token in done[first:last]]
    return tuple(done)
