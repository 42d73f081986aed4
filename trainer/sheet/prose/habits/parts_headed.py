"""Headings of the parts of a phrased dance, in whatever marks and with whatever length, told as "Part A, 16 counts".

A line heads a part where it says no more than the part's name, its length, and perhaps a remark that tells nothing of
the order: "[B] 16 counts, no turns", "VERSE (16)", "== C, eight counts ==". So it is where two parts at least are
headed so, each once, steps stand below each, and other lines name them again and again, as an order of play does.
"""

import re
from collections.abc import Mapping, Sequence, Set
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.lexis.vocabulary import ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LONGEST = 14
"""Tokens of such a heading."""
_FEWEST = 2
_SHORTEST = 4
"""Counts of a part; "A 2" is a section."""
_NAMED_AGAIN = 3
"""So often at least an order of play names parts."""
_BREAK = "break"
_SPELLED = "|".join(sorted(NUMBERS, key=len, reverse=True))
_HEAD = re.compile(
    rf"^(?:[^\w ]+ )*(?:(?:part|the|our|figure) )*(?P<name>[a-h]|break|{'|'.join(SONG_PARTS)})"
    r"(?: (?:eight|8)(?! counts?))?(?: part)?"
    rf"(?:(?: [^\w ]+| is| has| of)* (?P<length>\d+|{_SPELLED})(?: (?:- )?(?:counts?|cts?|c|beats?|steps))?"
    r"(?: long| each time)?)?"
    r"(?P<said>(?: .*)?)$"
)
_EXTRA = re.compile(
    r"^(?:[^\w ]+ )*(?:the )?(?P<name>tag|bridge|ending)(?: [^\w ]+| is| has| of)* (?P<length>\d+) "
    r"(?:counts?|cts?|c|beats?)(?: [^\w ]+)*$"
)
"""The heading of an extra that says no more than its length."""
_OF_THE_ORDER = {
    "after", "before", "once", "twice", "only", "repeat", "repeats", "wall", "walls", "first", "last", "short", "then",
    "times", "restart", "tag", "bridge", "danced", "dance", "until", "half", "without", "omit", "leave", "order", "and",
    "is", "are", "has", "or", "to", "x", "cut", "time",
}  # fmt: skip
"""What a remark in a heading must not say: it may tell something of the play."""
_WALL_FACED = re.compile(
    r" (?:on|to|at|by|facing|takes you to|brings you to|back to)(?: the| its| a| your| one| you)*"
    r"(?: (?:opposite|same|other|own|back|front|side|home|new|next|starting|original))? walls?(?= |$)"
    r"|(?:^| )(?:changes|turns|keeps|new|same|opposite) walls?(?= |$)|\b(?:one|two|three|four|\d) walls?(?=$| [^\w ])"
)
"""Which wall a part ends on, or how many it has, tells nothing of the play: "ends on the opposite wall"."""
_TURNS = {"turn", "turns", "turning", "no", "opposite", "front", "back", "facing", "side", "stays", "forward"}


class _Head(NamedTuple):
    """A heading: the part's name in small letters, and its length as it is told, or an empty text."""

    name: str
    length: str


def with_headed_parts(lines: Sequence[Line]) -> Sequence[Line]:
    """Return the lines with the headings of parts told alike."""
    likely = {at: head for at, line in enumerate(lines) if (head := _head(line)) is not None}
    heads = {at: head for at, head in likely.items() if _stands_over_steps(lines, at, likely)}
    parted = _parted(lines) - {head.name for head in heads.values()}
    if not parted and not any(head.name in SONG_PARTS for head in heads.values()):
        # A break between a song's verses is one of its parts; between A and B it is put in.
        heads = {at: head for at, head in heads.items() if head.name != _BREAK}
    if not any("phrased" in line.words for line in lines):
        # Figures by letters are sections of a dance that has no parts.
        heads = {at: head for at, head in heads.items() if "figure" not in lines[at].words.split()[:2]}
    names = [head.name for head in heads.values()]
    several = len(names) + (len(parted) if _BREAK in names else 0) >= _FEWEST
    if not several or len(set(names)) < len(names) or not _are_played(lines, heads, parted):
        return lines
    extras = {at: match for at, line in enumerate(lines) if (match := _EXTRA.match(line.words)) is not None}
    done = [_with_extra(line, extras[at]) if at in extras else line for at, line in enumerate(lines)]
    return [
        replace(line, tokens=_told(line.tokens, heads[at])) if at in heads else line for at, line in enumerate(done)
    ]


def _parted(lines: Sequence[Line]) -> set[str]:
    """The parts of a song that are headed by their sections only: "VERSE, first eight", "Verse 1, section 2"."""
    heads = [line.words.split() for at, line in enumerate(lines[:-1]) if _is_of_a_section(line, lines[at + 1])]
    names = [next(word for word in words if word in SONG_PARTS) for words in heads]
    return {name for name in names if names.count(name) >= _FEWEST}


def _is_of_a_section(line: Line, below: Line) -> bool:
    words = line.words.split()
    opens = any(word in SONG_PARTS for word in words[:_FEWEST]) and len(words) <= _LONGEST // 2
    return opens and bool({*ORDINALS, "section", "eight"} & set(words)) and _tells_steps(below)


def _with_extra(line: Line, match: re.Match[str]) -> Line:
    """Return the heading of an extra with its name as headings have it: "tag: 4 counts" is "Tag (4 counts)"."""
    first = replace(line.tokens[0], kind="word", glued=False, value=None)
    name = replace(first, text=match["name"].capitalize(), low=match["name"])
    signs = [replace(first, kind="mark", text=sign, low=sign, glued=True) for sign in "()"]
    length = replace(first, kind="number", text=match["length"], low=match["length"], glued=True)
    return replace(line, tokens=(name, signs[0], length, replace(first, text="counts", low="counts"), signs[1]))


def _head(line: Line) -> _Head | None:
    match = _HEAD.match(line.words) if len(line.tokens) <= _LONGEST else None
    if match is None:
        return None
    first = line.words[: match.start("name")].count(" ")
    word = line.tokens[first]
    said = line.tokens[len(line.tokens) - match["said"].count(" ") :] if match["said"] else ()
    named = len(word.text) > 1 or word.text.isupper() or "part" in line.words[: match.start("name")]
    small = not named and not any(token.kind == "word" for token in said) and len(line.tokens) > 1
    length = match["length"] or ""
    counts = int(length) if length.isdecimal() else NUMBERS.get(length, 0)
    if not (named or small) or not _is_remark(said) or (length and counts < _SHORTEST):
        return None
    return _Head(match["name"], length)


def _is_remark(said: Sequence[Token]) -> bool:
    """Whether words of a heading tell no step, no count and nothing of the order."""
    if any(token.kind not in ("word", "mark") or token.text in ("=", "|", ">") for token in said):
        return False
    if any(len(token.text) == 1 and token.text.isupper() for token in said):
        return False
    told = _WALL_FACED.sub(" ", " ".join(token.low for token in said))
    words = {word for word in told.split() if word.isalpha()}
    return not words & {*_OF_THE_ORDER, *ORDINALS, *SONG_PARTS} and not (words - _TURNS) & STEP_WORDS


def _stands_over_steps(lines: Sequence[Line], at: int, likely: Mapping[int, _Head]) -> bool:
    below = lines[at + 1 : at + 3]
    return bool(below) and at + 1 not in likely and any(_tells_steps(line) for line in below)


def _tells_steps(line: Line) -> bool:
    return any(token.low in STEP_WORDS and token.low not in NUMBERS for token in line.tokens)


def _are_played(lines: Sequence[Line], heads: Mapping[int, _Head], parted: Set[str]) -> bool:
    """Whether other lines name the parts so often that they may tell an order of play; a list of walls is none."""
    if any(token.low == "wall" for line in lines for token in line.tokens[:2]):
        return False
    names = {head.name for head in heads.values()} | parted
    letters = {name for name in names if len(name) == 1}
    named = 0
    for at, line in enumerate(lines):
        for token in line.tokens if at not in heads else ():
            spelled = len(token.text) > _FEWEST and set(token.low) <= letters and token.text.isupper()
            named += len(token.text) if spelled else token.low in names and token.text != "a"
    return named >= _NAMED_AGAIN


def _told(tokens: tuple[Token, ...], head: _Head) -> tuple[Token, ...]:
    first = replace(tokens[0], kind="word", glued=False, value=None)

    def word(text: str) -> Token:
        return replace(first, text=text, low=text.lower())

    name = (word("Part"), word(head.name.upper())) if len(head.name) == 1 else (word(head.name.capitalize()),)
    if head.name == _BREAK:
        name = (*name, word("part"))
    if not head.length:
        return name
    comma = replace(first, kind="mark", text=",", low=",", glued=True)
    return (
        *name,
        comma,
        replace(word(head.length), kind="number" if head.length.isdecimal() else "word"),
        word("counts"),
    )
