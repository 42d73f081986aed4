"""Marks at a step that a note of the order takes up: "7&8 coaster step  (+)", "(+) Wall 3 only: go back to count 1".

The mark stands once at the end of a line of steps, or alone on a line, and again before a note or within one: "dance as
far as the * and start again". It goes, and the note says "here" in its stead, of the line that was marked. A note that
names its count itself only loses its mark.
"""

import re
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.layout import BREAK, Line
from trainer.sheet.prose.marks import marks_in
from trainer.sheet.prose.order.lines import is_order
from trainer.sheet.prose.tokens import plain
from trainer.sheet.prose.words import Token

_SIGN = r"(?:[*+#†‡§^~!°@¤•¹²³]{1,3}|x{2,3}|X{1,3})"
_INNER = rf"(?:{_SIGN}|[A-Za-z]|\d|see (?:the )?(?:note|below))"
_MARK = rf"(?:\( ?{_INNER} ?\)|\[ ?{_INNER} ?\]|\{{ ?{_INNER} ?\}}|<{_INNER}>|{_SIGN})"
_ENDS = re.compile(rf"(?<![A-Za-z0-9])(?P<mark>{_MARK})\s*$|(?P<glued>[*+#†‡§^°¹²³]{{1,3}})\s*$")
_OPENS = re.compile(rf"^\s*(?P<mark>{_MARK})(?:\s|[:=.)\-]|(?=[A-Za-z]))[\s:=.\-]*(?=\w)")
_WITHIN = re.compile(rf"(?<=\s)(?:the )?(?P<mark>{_MARK})(?=[\s.,;:]|$)")
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
_ALONE = re.compile(r"^\s*(?:\( ?\w ?\)|\[ ?\w ?\]|\{ ?\w ?\}|<\w>)\s*$")
_TWICE = 2
_SPOTS = (["point"], ["place"], ["spot"])
_HERE = re.compile(r"\b(?:here|this (?:point|place|spot))\b", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class _Note:
    """A line that takes up a mark: the columns of what goes from it, from 0, last exclusive, and the line marked."""

    number: int
    first: int
    last: int
    marked: int
    says: bool
    """It must say "here" for what goes."""


def with_footnotes(text: str, lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the clean lines of a text without such marks, the notes pointing to what they mark."""
    raw = plain(text).split("\n")
    ends = _ends(raw, lines)
    notes: dict[int, _Note] = {}
    used: dict[int, int] = {}
    for mark, (number, column) in ends.items():
        found = _notes(raw, lines, mark, number, lone=len(ends) == 1)
        notes |= {one.number: one for one in found}
        if found:
            used[number] = column
    done = []
    for line in lines:
        if line.number in used:
            column = used[line.number]
            line = replace(line, tokens=_until(line, column), source=line.source[:column].rstrip())
        if line.number in notes:
            line = replace(line, tokens=_pointing(line.tokens, notes[line.number]))
        if line.tokens:
            done.append(line)
    return tuple(done)


def _ends(raw: Sequence[str], lines: Sequence[Line]) -> dict[str, tuple[int, int]]:
    """Return the marks at the ends of lines, or alone on them, that stand so once: number and column from 0."""
    found: dict[str, list[tuple[int, int]]] = {}
    clean = {line.number: line for line in lines}
    # "[A]", "[B]" and "[C]" alone on their lines name sections.
    named = sum(bool(_ALONE.match(source)) for source in raw) > 1
    for number, source in enumerate(raw, 1):
        match = None if named and _ALONE.match(source) else _ENDS.search(source)
        if match is None:
            continue
        mark = (match["mark"] or match["glued"]).replace(" ", "")
        column = match.start("mark") if match["mark"] else match.start("glued")
        before = source[:column].strip()
        line = clean.get(number)
        if before.startswith(mark[0]) or (line is not None and before and is_order(line.tokens)):
            continue
        if line is not None and before and mark[1:-1].isalnum() and not marks_in(_until(line, column), 0):
            # A letter or number behind a title names its section.
            continue
        found.setdefault(mark, []).append((number, column))
    # Letters that stand so again and again, "[F]", "[B]", are walls.
    often = {mark[0] for mark, places in found.items() if len(places) > 1 and mark[1:-1].isalpha()}
    return {
        mark: places[0]
        for mark, places in found.items()
        if len(places) == 1 and not _counts(mark, raw, found) and not (mark[1:-1].isalpha() and mark[0] in often)
    }


def _until(line: Line, column: int) -> tuple[Token, ...]:
    """Return the tokens of a line up to a column from 0."""
    kept = tuple(token for token in line.tokens if token.column <= column)
    while kept and kept[-1].text == BREAK:
        kept = kept[:-1]
    return kept


def _counts(mark: str, raw: Sequence[str], found: Collection[str]) -> bool:
    """Whether a number in brackets is one of the sheet's counts: more stand so than as marks and before notes."""
    if not any(sign.isdigit() for sign in mark):
        return False
    alike = [one for one in found if one[0] == mark[0] and one[1:-1].isdigit()]
    written = re.compile(rf"\{mark[0]} ?\d")
    return sum(len(written.findall(source)) for source in raw) > _TWICE * len(alike)


def _notes(raw: Sequence[str], lines: Sequence[Line], mark: str, marked: int, *, lone: bool) -> list[_Note]:
    """Return the notes of the order that take up a mark."""
    found = []
    for place, line in enumerate(lines):
        if line.number == marked:
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
        if mark[1:-1].isdigit():
            continue
        within = [one for one in _WITHIN.finditer(source) if one["mark"].replace(" ", "") == mark]
        within += _CALLED.finditer(source) if lone else []
        if within and is_order(line.tokens):
            found.append(_Note(line.number, within[0].start(), within[0].end(), marked, says=True))
    return found


def _pointing(tokens: Sequence[Token], note: _Note) -> tuple[Token, ...]:
    """Return the tokens of a note, its mark as the word "here", and every "here" of it said of the line marked."""
    done: list[Token] = []
    said = not note.says
    for token in tokens:
        taken = note.first < token.column <= note.last
        if (taken or token.column > note.last) and not said:
            done.append(replace(token, kind="word", text="here", low="here", glued=False, line=note.marked, value=None))
            said = True
        if not taken:
            done.append(token)
    told = [token.low for token in done]
    for at, word in enumerate(told):
        if word == "here" or (word == "this" and told[at + 1 : at + 2] in _SPOTS):
            first = at - (at > 0 and told[at - 1] in ("at", "from", "to"))
            last = at + 1 + (word == "this")
            done[first:last] = [replace(token, line=note.marked) for token in done[first:last]]
    return tuple(done)
