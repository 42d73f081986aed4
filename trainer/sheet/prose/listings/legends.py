"""What is told below a list of walls under a name or mark that its rows use: "Dora's bit: ...", "* = hold 3 counts"."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.listings.naming import is_picture
from trainer.sheet.prose.listings.row_words import hold_in
from trainer.sheet.prose.listings.sayings import HOLD, RESTART
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

Name = tuple[str, ...]

_ARTICLES = words_in("the a an our my")
_PARTS = frozenset({":", "=", "-", ".", "(", BREAK, ",", ">"})
_SAYS = words_in("is means are")
_LONGEST = 4
"""Words of a name."""
_STARS = re.compile(r"^\s*(\*{1,4})")
_FEET = words_in("l r left right lf rf")
MOVES = words_in("step touch stomp clap hold sway rock walk cross point drag kick")
_LEADING = words_in(
    ": = - , . is are means the a an tag bridge afterwards after dance danced do add then one two bar bars of three "
    "extra here ending that our"
)
_MANY = r"(?:\d+|two|three|four|six|eight|twelve|sixteen) (?:more |extra )?(?:counts?|cts?|beats?)\b"
_LENGTH = re.compile(rf"^(?:\( {_MANY} \)|{_MANY})")
_WHERE = re.compile(r"^(?:(?:at|after) )?(?:the )?end of (?:walls? \d+|the wall|it)(?: (?:add|do|dance))?\b")
_ON_A_WALL = re.compile(r"\b(?:on|in) (?:the )?(?:walls? \w+|\w+ wall)\b")
_OTHERWISE = re.compile(r"\b(?:instead|in place of|becomes?|replaces?)\b")
_ITS_WALLS = re.compile(r"\b(?:walls? \d|(?:first|second|third|fourth|fifth|sixth|seventh|eighth) (?:wall|time))")
_COUNTS = re.compile(r"\b(?:count|counts|after) (\d+)\b")


@dataclass(frozen=True, slots=True)
class Legend:
    """What a name stands for."""

    at: int
    """Index of its line."""
    kind: str
    """"restart", "hold", "end", "apart" where it tells all by itself, or the extra: "tag", "bridge", "ending"."""
    counts: int = 0
    """Of a hold its length; of a restart the counts danced, if it says so."""
    steps: tuple[Token, ...] = ()
    """The steps in its line; the lines below hold them where there are none."""


def names_below(lines: Sequence[Line], first: int) -> dict[Name, int]:
    """Return the names that lines from an index on may tell what stands for, with the index of the line."""
    found: dict[Name, int] = {}
    for at in range(first, len(lines)):
        name, _ = _head(lines[at])
        if name:
            found.setdefault(name, at)
    return found


def legend_of(lines: Sequence[Line], at: int) -> Legend:
    """Return what a line says that a name stands for."""
    _, last = _head(lines[at])
    body = lines[at].tokens[last:]
    words = " ".join(token.low for token in body)
    stepped = sum(token.low in _FEET for token in body)
    if re.search(rf"\b{RESTART}\b", words) and not stepped:
        counts = _COUNTS.search(words)
        return Legend(at, "restart", int(counts[1]) if counts else 0)
    if re.search(rf"\b{RESTART}\b", words) and _ON_A_WALL.search(words):
        # "* Restart on wall 3: on count 16 step left beside right, ..." says all of it by itself.
        return Legend(at, "apart")
    body = _steps_of(body)
    words = " ".join(token.low for token in body)
    if re.fullmatch(rf"\W*{HOLD}\b[^a-z]*(?:.{{0,40}}weight .*)?", words) and not _between(words):
        return Legend(at, "hold", hold_in(words))
    kind = extra_kind(lines[at].tokens[: last + 8])
    below = " ".join(token.low for token in lines[at + 1].tokens) if not body and at + 1 < len(lines) else ""
    if _OTHERWISE.search(below) and _ITS_WALLS.search(below):
        # "VARIATION" over "Walls 2 and 5: in place of counts 29-32 dance:".
        return Legend(at, "apart")
    if kind == "change" or _OTHERWISE.search(words):
        return Legend(at, "change", 0, lines[at].tokens[last:])
    if re.search(
        r"\bmusic (?:stops|ends)\b|\bend of the (?:song|music|record)\b", " ".join(t.low for t in lines[at].tokens)
    ):
        kind = "ending"
    return Legend(at, kind if kind in ("bridge", "ending") else "tag", 0, body)


def _between(words: str) -> bool:
    """Whether more than waiting is told."""
    return any(word in MOVES - {"hold"} for word in words.split())


def _steps_of(body: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the steps of what a name stands for, without what is said of the extra before them."""
    at = 0
    sentences = [place for place, token in enumerate(body) if token.text == "."]
    for end in sentences:
        if not any(token.low in _FEET | MOVES for token in body[at:end]) and any(t.low in _FEET for t in body[end:]):
            at = end + 1
    while at < len(body):
        rest = " ".join(token.low for token in body[at : at + 12])
        length = _LENGTH.match(rest) or _WHERE.match(rest)
        if length:
            at += len(length[0].split())
        elif body[at].low in _LEADING and body[at].low != "hold":
            at += 1
        else:
            break
    return body[at:]


def _head(line: Line) -> tuple[Name, int]:
    """Return the name that a line begins with, and the index after it and what parts it from its meaning."""
    tokens = line.tokens
    if stars := _STARS.match(line.source):
        at = next((place for place, token in enumerate(tokens) if token.text != "*"), len(tokens))
        return ("*",) * len(stars[1]), at
    if tokens[0].text == "(" and tokens[-1].text == ")":
        tokens = tokens[1:-1]
        name, last = _head(Line(line.number, tokens, line.indent)) if tokens else ((), 0)
        return name, last + 1 if name else 0
    first = int(len(tokens) > 1 and tokens[0].low in _ARTICLES and tokens[1].kind in ("word", "number"))
    if is_picture(tokens[first]):
        return (tokens[first].low,), first + 1 + (len(tokens) > first + 1 and tokens[first + 1].text in _PARTS)
    end = first
    while end < len(tokens) and tokens[end].text not in _PARTS and tokens[end].low not in _SAYS:
        if tokens[end].kind == "number" and end > first:
            break
        end += 1
    words = [token for token in tokens[first:end] if not is_picture(token)]
    if end < len(tokens) and tokens[end].text == "(" and len(words) == 0:
        return (), 0
    if not 0 < len(words) <= _LONGEST or not all(token.kind in ("word", "number") for token in words):
        return _abbreviated(tokens)
    kind = extra_kind(words)
    if kind in ("tag", "bridge", "ending") and len(words) <= 2 and words[0].low == kind:
        return (), 0
    lettered = len(words) == 1 and len(words[0].text) == 1 and len(tokens) > end + 2
    if (is_section_name(words) and kind is None and not lettered) or {token.low for token in words} & (MOVES | _FEET):
        return (), 0
    if all(token.kind == "number" for token in words):
        return (), 0
    last = end
    while last < len(tokens) and (tokens[last].text in _PARTS - {"("} or tokens[last].low in _SAYS):
        last += 1
    return tuple(token.low for token in words), last


def _abbreviated(tokens: Sequence[Token]) -> tuple[Name, int]:
    """Return a short word with a stroke in it: "R/S = restart"."""
    if len(tokens) > 4 and tokens[1].text == "/" and tokens[3].text in ("=", ":"):
        return tuple(token.low for token in tokens[:3]), 4
    return (), 0


def used(names: Mapping[Name, int], told: Sequence[tuple[Token, ...]]) -> dict[Name, int]:
    """Return the names among those that extras of rows are called by."""
    called = [tuple(token.low for token in name) for name in told]
    return {name: at for name, at in names.items() if any(one[-len(name) :] == name for one in called)}
