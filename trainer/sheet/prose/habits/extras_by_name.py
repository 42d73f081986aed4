"""Extras that go by a name of the teacher's own alone: "LANTERN, end of wall 2, 4 counts", "all, then the Locker".

Nothing in the sheet says that the name is a tag's. What tells it is that it heads few counts of steps, and that either
the heading says behind which wall these are danced, or another line has them danced there, or the head of the sheet
counts it among what the dance has ("one small Lantern"). The name is told as the word for the extra wherever it stands,
before anything else is asked of the lines; sections with names of their own are led by no place and called by no wall.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.habits.names_over_steps import (
    ARTICLES,
    CELLS,
    COUNTED,
    NUMBER,
    ORDINAL,
    PUTTING_IN,
    QUOTES,
    SIZES,
    WALLS,
    Head,
    Name,
    heads_of,
    is_section_head,
    length_of,
    said_at,
)
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_PLACE = re.compile(
    rf"\b(?:ends? of|after|behind|following|between|when|once|only|on|in) (?:the )?(?:end of )?(?:the )?"
    rf"(?:{WALLS} (?:no ?\.? ?|# ?)?{NUMBER}\b|{ORDINAL} (?!{COUNTED}\b|\d)[a-z]+\b)|"
    rf"\b{WALLS} {NUMBER}(?: \w+)?(?: only| ?[,(:]? ?(?:after|between|once|begins|starts))\b|"
    rf"\bends? of (?:the )?(?:{ORDINAL} )?(?!{COUNTED}\b|section)\w+|\b(?:after|behind) (?:the )?{ORDINAL} [a-h]\b|"
    rf"\b{ORDINAL} {WALLS}(?: \w+)? (?:only|begins|starts|holds|gets|has|takes|comes)\b|"
    rf"^\W*{WALLS} {NUMBER}\b|\bafter (?:every|each|the last) \w+"
)
"""Words that say after or in which wall something is danced."""
_OTHERWISE = re.compile(
    r"\b(?:tags?|bridges?|ending|finale|in place of|instead|replac\w+|restarts?|rst|rs|not danced|parts? [a-h])\b"
)
"""Words of a heading that say themselves what stands under it."""
_ANEW = re.compile(r"\b(?:restarts?|rst|rs|start again|begin again|from the top)\b")
_GOES_ON = re.compile(
    r"\b(?:carry|go|goes|going|continue|then|straight|and) (?:straight )?(?:on )?(?:with|from)\b|\bbetween\b|\bgo on\b|"
    r"\bcarry on\b|\bthen on\b|\bcontinue\b|\bresume\b"
)
_LAST = re.compile(
    r"\b(?:is|as) the (?:very )?last\b|\blast (?:wall|one|time|round)\b|\bends? the dance\b|\bto finish\b|"
    r"\bthe end\b(?! of)|\b(?:music|song|track|tune) (?:stops|ends|fades|leaves|is over|runs out)\b|"
    r"\bwalls in all\b|\bafter the last\b"
)
_WALL_NAMED = re.compile(
    rf"(?<!end of )(?<!after )(?<!end of the )(?<!after the )(?:\b{WALLS} (?P<number>\d+|{'|'.join(NUMBERS)})|"
    rf"\b(?P<ordinal>{'|'.join(ORDINALS)}) {WALLS})\b"
)
"""A wall in which something is danced; behind one is another thing."""
_CLOSINGS = {
    "close", "closing", "goodbye", "terminus", "finis", "fin", "adieu", "epilogue", "postlude", "farewell", "bow",
    "curtain", "exit", "goodnight", "curtsey", "curtsy", "finisher",
}  # fmt: skip
"""Names of what ends a dance."""
_WHOLE = re.compile(r"\b(?:all|whole|complete|full|everything|lot|(?:24|32|36|40|48|56|64|72|80|96)(?: counts?)?)\b")
"""A wall danced whole."""
_FIRST = re.compile(r"\b(?:first|once|begins?|before|starts?|opens?)\b")
_OTHER = {"tag": "bridge", "bridge": "tag"}
"""What a second extra of a kind is told as: both are put in where the order says."""
_DANCE = 16
"""Words of steps above an extra, at least."""
_FEW = 16
"""Counts of an extra at most."""
_CALLED = 12
"""Those of one that no heading places."""
_STEPS = 2
"""Counts and words of steps of a line that tells some, at least."""
_PARTS = 3
"""So many letters of parts a line of play tells, at least."""
_NEAR = 8
"""Tokens around a name that say when it is danced."""

Said = Sequence[tuple[int, int]]
"""Where a name is said: the place of the line, and of the token."""


def with_extras_by_name(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with such names told as the words for extras."""
    heads = heads_of(lines)
    names = [head.name for head in heads]
    single = [head for head in heads if names.count(head.name) == 1]
    kinds = {head.name: kind for head in single if (kind := _kind(head, lines, heads))}
    if not kinds or "intro" in kinds.values():
        # A story of the play that opens with a piece of its own is read by the names of its pieces.
        return tuple(lines)
    taken = {extra_kind(line.tokens[:2]) for line in lines[1:]}
    told: dict[Name, str] = {}
    for name, kind in kinds.items():
        free = next((one for one in (kind, _OTHER.get(kind, kind)) if one not in {*taken, *told.values()}), "")
        if free:
            told[name] = free
    opened = {head.at: head for head in single if head.name in told}
    return tuple(_renamed(line, told, opened.get(at)) if at else line for at, line in enumerate(lines))


def _kind(head: Head, lines: Sequence[Line], heads: Sequence[Head]) -> str:
    """Return what extra a heading names; an empty text for none."""
    if _OTHERWISE.search(head.rest) or extra_kind(lines[head.at].tokens) == "change":
        return ""
    length = length_of(head, lines)
    said = [
        (at, place) for at, line in enumerate(lines) if at not in (0, head.at) for place in said_at(line, head.name)
    ]
    known = extra_kind(lines[head.at].tokens[head.first : head.last])
    if known and not said:
        # "Interlude: ..." alone is told by its word.
        return ""
    put = [(at, place) for at, place in said if _puts_in(lines[at], place, len(head.name), above=at < head.at)]
    if put and 0 < length <= _FEW and _opens(head, said, lines):
        return "intro"
    above = sum(token.low in STEP_WORDS for line in lines[1 : head.at] for token in line.tokens) >= _DANCE
    placed = above and _PLACE.search(head.rest) and not _ANEW.search(head.rest)
    closes = above and head.name[-1] in _CLOSINGS and _is_behind_sections(head, lines)
    called = put and length <= _CALLED and (_follows_all(put, lines) or _stands_apart(head, length, lines, heads))
    if not (placed or closes or called):
        return ""
    if _ends(head, put, lines):
        return "ending"
    if length > _FEW:
        return ""
    within = _GOES_ON.search(head.steps) or any(_GOES_ON.search(lines[at].words) for at, _ in put)
    return known or ("bridge" if within else "tag")


def _puts_in(line: Line, place: int, length: int, *, above: bool) -> bool:
    """Whether a line has what it names at a place danced, or counts it among what the dance has."""
    tokens = line.tokens
    led = next(
        (
            at
            for at in range(place - 1, -1, -1)
            if tokens[at].low not in ARTICLES | SIZES and tokens[at].kind != "number"
        ),
        -1,
    )
    counted = any(token.low in ("a", "an", "one", "1") for token in tokens[led + 1 : place])
    behind = tokens[place + length] if place + length < len(tokens) else None
    if above and (counted or (behind is not None and (behind.text == "=" or behind.kind == "number"))):
        return True
    if led < 0:
        return False
    row = tokens[0].kind == "number" or re.match(rf"{WALLS}\b", tokens[0].low) or tokens[0].low in ORDINALS
    return tokens[led].low in PUTTING_IN or bool(row and tokens[led].text in CELLS) or _parts(tokens) >= _PARTS


def _parts(tokens: Sequence[Token]) -> int:
    """Return how many parts of a phrased dance a line names."""
    return sum((len(token.text) == 1 and token.text in "ABCDEFGH") or token.low in SONG_PARTS for token in tokens)


def _stands_apart(head: Head, length: int, lines: Sequence[Line], heads: Sequence[Head]) -> bool:
    """Whether a heading is none in the row of the sections: those are numbered, or longer, and stand above it."""
    above = [other for other in heads if other.at < head.at and other.name != head.name]
    longer = [length < length_of(other, lines) for other in above[:2]]
    return sum(map(is_section_head, lines[1 : head.at])) > 1 or longer == [True, True]


def _follows_all(put: Said, lines: Sequence[Line]) -> bool:
    """Whether a wall dances all there is before what it is said to put in: no section can be that."""
    before = (" ".join(token.low for token in lines[at].tokens[max(place - _NEAR, 0) : place]) for at, place in put)
    return any(_WHOLE.search(words) for words in before)


def _opens(head: Head, said: Said, lines: Sequence[Line]) -> bool:
    """Whether a heading stands above the sections and is said to be danced once before them, and never again."""
    counted = [line for line in lines[1 : head.at] if len(marks_in(line.tokens, 0)) > _STEPS]
    steps = any(sum(token.low in STEP_WORDS for token in line.tokens) > _STEPS * _STEPS for line in counted)
    around = [
        " ".join(token.low for token in lines[at].tokens[max(place - _NEAR, 0) : place + _NEAR]) for at, place in said
    ]
    once = len(around) <= _STEPS and sum(bool(_FIRST.search(words)) for words in around) == 1
    return once and not steps and not _is_behind_sections(head, lines)


def _is_behind_sections(head: Head, lines: Sequence[Line]) -> bool:
    """Whether no section stands below a heading."""
    return not any(line.tokens[0].kind == "word" and is_section_head(line) for line in lines[head.at + 1 :])


def _ends(head: Head, put: Said, lines: Sequence[Line]) -> bool:
    """Whether nothing is danced behind an extra: its name says so, or the last wall has it."""
    if head.name[-1] in _CLOSINGS or head.name[0] in ("last", "final") or _LAST.search(head.rest):
        return True
    walls = {_wall(match) for line in lines for match in _WALL_NAMED.finditer(line.words)}
    walls |= {_row(line) for line in lines if len(line.tokens) > 1 and line.tokens[1].text in (BREAK, ":")}
    own = _WALL_NAMED.search(head.rest)
    if own is not None and len(walls) > 1 and _wall(own) == max(walls) and not _GOES_ON.search(head.steps):
        return True
    return len(put) == 1 and _closes_the_last(*put[0], len(head.name), max(walls, default=0), lines)


def _closes_the_last(at: int, place: int, length: int, last: int, lines: Sequence[Line]) -> bool:
    """Whether the one line that puts an extra in is the last row of walls, or a line of play that it ends."""
    line = lines[at]
    behind = any(token.kind == "word" for token in line.tokens[place + length :])
    if _parts(line.tokens) >= _PARTS and not behind:
        return True
    wall = _row(line)
    later = any(_row(other) == wall + 1 for other in lines[at + 1 :])
    listed = _row(lines[at - 1]) == wall - 1
    # "Wall 2 ends with the Barn Door" dances all of it first.
    whole = _WHOLE.search(line.words) or re.search(
        r"\b(?:ends?|finish(?:es)?|closes?|gets) (?:with )?(?:the|a)\b", line.words
    )
    return wall > 1 and (wall == last or (listed and not later)) and not whole


def _row(line: Line) -> int:
    """Return the wall whose row a line is; 0 for none."""
    found = re.match(rf"(?:{WALLS} )?({NUMBER})\b", line.words)
    return int(NUMBERS.get(found[1], found[1])) if found else 0


def _wall(named: re.Match[str]) -> int:
    """Return the number of a wall that is named."""
    return int(NUMBERS.get(named["number"], named["number"])) if named["number"] else ORDINALS[named["ordinal"]]


def _renamed(line: Line, told: Mapping[Name, str], head: Head | None) -> Line:
    """Return a line with the names in it told as the words for their extras; they are shown as they are written."""
    places = {at: name for name in told for at in said_at(line, name)}
    if head is not None:
        places[head.first] = head.name
    if not places:
        return line
    tokens: list[Token] = []
    at = 0
    while at < len(line.tokens):
        if at not in places:
            tokens.append(line.tokens[at])
            at += 1
            continue
        name = replace(line.tokens[at], low=told[places[at]])
        at += len(places[at])
        if tokens and tokens[-1].text in QUOTES and [one.text for one in line.tokens[at : at + 1]] == [tokens[-1].text]:
            # A name in quotes loses them.
            tokens.pop()
            at += 1
        tokens.append(name)
    return replace(line, tokens=tuple(tokens))
