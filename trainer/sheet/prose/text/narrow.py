"""Lines that a mail program or a phone broke at a narrow margin, each as the line that its teacher wrote.

A break is the margin's where the next word would not have fitted. Of such breaks some are a teacher's own by chance: a
line that opens as those do which surely begin one (a count, a bullet, a heading) is left to begin its own. Common
practice, no source.
"""

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.sheet.prose.text.rows import Row

_NARROWEST = 30
_WIDEST = 64
_LEAST = 6
"""Breaks that the margin explains, at least,"""
_SHARE = 0.4
"""and of those lines that go on in the next so many: few end where the next word does not fit by chance;"""
_FEW = 3
"""or so many at least, where nearly all lines that go on do:"""
_ALL = 0.8
_OVER = 0.06
"""Of all lines so many may be longer: what has no blank in it is not broken."""
_HABIT = 2
"""Lines that end and open alike, at least, do so as a habit,"""
_MOSTLY = 2
"""and it is the teacher's where so many times more of them do so before the margin."""
_SIGNS = ("-", "*", "•", ">", "#", "~", "a)")
"""What an item of a list opens with."""
_NUMBERS = {"twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety"}
_CELLS = re.compile(r"\S {3,}\S|\||\S\t")
_PARTED = re.compile(r"[a-z]+-\s*\n\s*[a-z]+")
"""A word that is broken by a hyphen at a line's end."""
_LETTER = re.compile(r"[A-Za-z]")
_LED = re.compile(r"\.{4,} *\w")
"""A line whose leader has led to something is whole, and ends where all such do."""
_TABLED = re.compile(r"\S {2,}\S|\||\S\t")
_STOPS = (".", ":", ";", "!", "?", '."', '!"', '?"', ".)", "!)", "?)")
_NEVER_LAST = re.compile(
    r"(?:\b(?:the|an?|of|and|or|with|to|is|are|in|on|onto|your|for|its|by|from|this|that|at|as|then|both|after|counts?|"
    r"walls?|sections?|beats?|parts?|facing|quarter|half)|[¼½¾]|\d/\d|[&+–—-])$",
    re.IGNORECASE,
)
_LOW = re.compile(r"\s*[a-z]")
_LISTED = re.compile(r"\s*[a-hivx]{1,3}[.)]\s")
_COUNTED = re.compile(
    r"\s*(?P<open>[(\[{<]?)(?:&|\d{1,2}|(?<=[(\[{<])[ae])(?P<more>(?:\s?[-–,&+/](?:\s?\d{1,2})?|a\d{0,2})*)"
    r"(?P<close>[)\]}>.:]*)(?=\s|$)"
)
_MEASURED = re.compile(
    r"\s*(?:\d{1,2}(?:st|nd|rd|th)\b|\d{1,2}:\d\d|\d/\d|\d{1,3}[ -](?:counts?|cts?|beats?|walls?|"
    r"o['’]?clock|times?|eights?|bars?|more|of|on|x|bpm|steps?|and|to|is|as|in|only|then|with|or)\b)",
    re.IGNORECASE,
)
_COUNTS_LAST = re.compile(r"(?:[(\[{<]\d[\d&+,\-– a]*[)\]}>]|(?:\.{3,}|--|[–—]|\s-) ?\d[\d&+,\-– a]*)$")
_NAMED = re.compile(r"[a-z,] ([A-Z][\w'’]*)")
_BULLET = re.compile(r"\s*([-*•>#~])+\s")
_LABELLED = re.compile(r"\s*[\"“(]?[A-Z][\w'’-]*(?: [\w'’&#.-]+){0,3}(?:\s*\([^()]{1,20}\))?\s*(?::|=|–|—| -)(?:\s|$)")


@dataclass(frozen=True, slots=True)
class _Habits:
    """How lines of a page begin and end: those that are surely not broken, and those that meet the margin."""

    own: Mapping[tuple[str, str], int]
    """How often a line that surely ends is followed by one below: how it ends, how the other opens."""
    met: Mapping[tuple[str, str], int]
    """How often one that meets the margin is."""
    opens: Mapping[str, int]
    """How often a line that surely begins something opens so."""
    named: frozenset[str]
    """Words with a capital also within a sentence: it tells nothing of where one begins."""


def with_wraps_undone(rows: Sequence[Row]) -> list[Row]:
    """Return the rows with each that a narrow margin broke joined to what it goes on with."""
    margin = _margin(rows)
    if margin is None:
        return list(rows)
    habits = _habits(rows, margin)
    whole = _PARTED.sub(" ", "\n".join(row.text.lower() for row in rows))
    words = frozenset(re.findall(r"[a-z]+(?:-[a-z]+)*", whole))
    done = [rows[0]]
    for above, row in pairwise(rows):
        if _met(above, row, margin) and _goes_on(done[-1], above, row, habits):
            done[-1] = done[-1].joined(row, without=_halved(above.text, row.text, words))
        else:
            done.append(row)
    return done


def _margin(rows: Sequence[Row]) -> int | None:
    """Return the column at which a page was broken; None where no narrow margin explains where its lines end."""
    lengths = [len(row.text.rstrip()) for row in rows if _LETTER.search(row.text) and not _TABLED.search(row.text)]
    breaks = [_span(above, row) for above, row in pairwise(rows) if _surely_goes_on(above, row)]
    widths = range(_NARROWEST, _WIDEST + 1)
    met = {width: sum(low <= width < high for low, high in breaks) for width in widths}
    fitting = [width for width in widths if sum(length > width for length in lengths) <= _OVER * len(lengths)]
    best = max(fitting, key=lambda width: (met[width], width), default=None)
    if best is None:
        return None
    most = met[best] >= max(_LEAST, _SHARE * len(breaks))
    return best if most or met[best] >= max(_FEW, _ALL * len(breaks)) else None


def _span(above: Row, row: Row) -> tuple[int, int]:
    """Return the margins that would part two lines: from the first to below the second."""
    length = len(above.text.rstrip())
    return length, length + 1 + len(row.text.split(maxsplit=1)[0])


def _surely_goes_on(above: Row, row: Row) -> bool:
    said = above.text.rstrip()
    if (
        not said
        or not row.text.strip()
        or _LED.search(said)
        or _CELLS.search(said)
        or _CELLS.search(row.text)
        or said.endswith(_STOPS)
    ):
        return False
    if said.endswith(",") and not _COUNTED.match(row.text):
        return True
    return bool((_LOW.match(row.text) and not _LISTED.match(row.text)) or _NEVER_LAST.search(said)) or _open(said)


def _open(said: str) -> bool:
    """Whether a line opens brackets that it does not close."""
    return said.count("(") > said.count(")") or said.count("[") > said.count("]")


def _met(above: Row, row: Row, margin: int) -> bool:
    """Whether the first word of a line would not have fitted on the one above."""
    if (
        not above.text.strip()
        or not row.text.strip()
        or _LED.search(above.text)
        or _CELLS.search(above.text)
        or _CELLS.search(row.text)
    ):
        return False
    low, high = _span(above, row)
    return low <= margin < high or bool(_PARTED.search(f"{above.text.rstrip()}\n{row.text}"))


def _habits(rows: Sequence[Row], margin: int) -> _Habits:
    named = frozenset(match[1] for row in rows for match in _NAMED.finditer(row.text))
    own: Counter[tuple[str, str]] = Counter()
    met: Counter[tuple[str, str]] = Counter()
    opens: Counter[str] = Counter()
    for above, row in pairwise(rows):
        if not row.text.strip():
            continue
        opening = _opening(row.text, named)
        broken = _met(above, row, margin)
        opens[opening] += not broken
        if above.text.strip():
            (met if broken else own)[_ending(above.text), opening] += 1
    return _Habits(own, met, opens, named)


def _halved(above: str, below: str, words: frozenset[str]) -> int | None:
    """Return how many letters of a line's end go where a word of it goes on in the next; None where none does."""
    said = above.rstrip()
    if re.search(r"\d[-–]$", said) and re.match(r"\s*\d", below):
        return 0
    halves = re.search(r"([a-z]+)-$", said.lower()), re.match(r"\s*([a-z]+)", below)
    if halves[0] is None or halves[1] is None:
        return None
    half, rest = halves[0][1], halves[1][1]
    both_words = {half, rest} <= words - {"be", "a"} or half in _NUMBERS
    return 0 if f"{half}-{rest}" in words or (both_words and half + rest not in words) else 1


def _first(text: str) -> str:
    """Return the first word of a line."""
    found = re.match(r"\W*([\w'’]+)", text)
    return found[1] if found else ""


def _opening(text: str, named: frozenset[str]) -> str:
    """Return how a line opens, alike for all that open in the same way."""
    if bullet := _BULLET.match(text):
        return bullet[1]
    if _LISTED.match(text):
        return "a)"
    if _MEASURED.match(text):
        return "measure"
    if counted := _COUNTED.match(text):
        after = text[counted.end() :].lstrip()[:1]
        case = "A" if after.isupper() else "a" if after.islower() else "."
        return f"{counted['open']}{'1-2' if counted['more'] else '1'}{counted['close'][:1]}{case}"
    first = text.lstrip()[:1]
    if first.islower():
        return "a"
    if _LABELLED.match(text):
        return "A:"
    if first.isupper():
        return "named" if _first(text) in named else "A"
    return first


def _ending(text: str) -> str:
    """Return how a line ends, alike for all that end in the same way."""
    said = text.rstrip()
    if _COUNTS_LAST.search(said):
        return "]"
    if said.endswith((".", "!", "?", '."', '!"', '?"', ".)", "!)", "?)", ".”")):
        return "."
    return said[-1:] if said[-1:] in ":;,/)" else "a"


def _shouted(text: str) -> bool:
    """Whether a line is written in capitals only."""
    return text.upper() == text and bool(re.search(r"[A-Z]{3}", text))


def _goes_on(item: Row, above: Row, row: Row, habits: _Habits) -> bool:
    """Whether a line that meets the margin goes on in the next."""
    said = above.text.rstrip()
    pair = ending, opening = _ending(said), _opening(row.text, habits.named)
    if opening in _SIGNS:
        return opening == "-" and ending not in (".", ":") and not habits.opens.get(opening)
    if _shouted(item.text) != _shouted(row.text) and (_shouted(item.text) or len(row.text.split()) > 1):
        return False
    if (_NEVER_LAST.search(said) and ending != "]") or _open(said):
        return True
    own, met = habits.own.get(pair, 0), habits.met[pair]
    if own >= _HABIT and own >= _MOSTLY * met:
        return False
    if ending in (",", ";", "/"):
        return True
    if opening == "A:" and habits.opens.get(opening, 0) >= _HABIT:
        return False
    if (not own and met >= _HABIT) or opening in ("a", "measure", ".", "named"):
        return True
    if "1" in opening or opening == "A:":
        return habits.opens.get(opening, 0) < _HABIT and ending not in (".", ":")
    return own < _HABIT or own < met
