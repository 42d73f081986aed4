"""Physical lines of a sheet to clean lines: quotes, bullets, page footers and table columns are dealt with here.

A clean line keeps its number; what is cut out is decoration only. Cells of a table are parted by a `|` token, also
where the sheet parts them by tabs, dot leaders or wide gaps. A word that is broken by a hyphen at the line's end is
joined, and stays at the place of its first half.
"""

import re
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.text.arrows import with_pointed_walls
from trainer.sheet.prose.text.degrees import with_degrees_once
from trainer.sheet.prose.text.delimited import with_strokes
from trainer.sheet.prose.text.emphasis import without_emphasis
from trainer.sheet.prose.text.glossaries import with_glossaries_told
from trainer.sheet.prose.text.messages import without_piece_numbers
from trainer.sheet.prose.text.outlines import with_titles, without_outline
from trainer.sheet.prose.text.quoted_hours import with_quoted_hours
from trainer.sheet.prose.text.slashed_words import with_slashed_words
from trainer.sheet.prose.text.spaced_counts import with_counts_together
from trainer.sheet.prose.text.spaced_letters import with_joined_letters
from trainer.sheet.prose.text.tokens import UNSEEN, plain, tokens_of
from trainer.sheet.prose.text.walls_delimited import with_walls_parted
from trainer.sheet.prose.words import Token

BREAK = "|"
"""The text of the token that parts two cells of a line."""

_WIDE = 3
"""So many blanks part two cells."""

_NEAR_FOOT = 3
"""So near the foot of a page the head of the next one stands."""

_COUNTS = {"one", "two", "three", "four", "five", "six", "seven", "eight"}

_FOOTER = re.compile(
    r"^[\W_]*(?:(?:page|p\.?|pg\.?|sheet|side)[ ]{0,2}\d+(?:\s*(?:of|/)\s*\d+)?|"
    r"\d+\s*(?:of|/)\s*\d+|-\s*\d+\s*-)[\W_]*$",
    re.IGNORECASE,
)
_FOOTER_END = re.compile(r"\bpage\s+\d+(?:\s*(?:of|/)\s*\d+)?\W*$", re.IGNORECASE)
_RULE = re.compile(r"^[\s\-=_*~#.+|:•>\u2500-\u257f]*$")
_LETTER = re.compile(r"^\s*\(?([a-h])[).]\s+", re.IGNORECASE)
_STAMP = re.compile(
    r"^\s*\[?\d{1,2}[:.]\d\d(?:[:.]\d\d)?(?:\s*[ap]m)?\]?\s*[-,]?\s*[A-Za-z][\w .]{0,20}:\s", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Line:
    """A line of the sheet without its decoration."""

    number: int
    tokens: tuple[Token, ...]
    indent: int
    """Blanks before its first token."""
    source: str = ""
    """The physical line, typographic marks as plain ones; it tells tabs and gaps between the cells of a table."""
    heads: bool = False
    """Whether its numbers only name what the lines under it count one by one."""
    mute: bool = False
    """Whether its numbers count nothing: it may stand above the dance."""

    @property
    def words(self) -> str:
        """The line's words in small letters, parted by blanks; for finding phrases in."""
        return " ".join(token.low for token in self.tokens)

    @property
    def cells(self) -> tuple[tuple[Token, ...], ...]:
        """The tokens between the breaks."""
        found: list[list[Token]] = [[]]
        for token in self.tokens:
            if token.text == BREAK:
                found.append([])
            else:
                found[-1].append(token)
        return tuple(tuple(cell) for cell in found)


_TOLD_PLAINLY: tuple[Callable[[str], str], ...] = (
    with_slashed_words,
    with_glossaries_told,
    with_degrees_once,
    with_quoted_hours,
    with_pointed_walls,
    plain,
    without_emphasis,
)
"""What a text goes through before it is parted into lines; columns stay true."""


def clean_lines(text: str) -> tuple[Line, ...]:
    """Return the lines of a sheet that say something, cleaned."""
    for told in _TOLD_PLAINLY:
        text = told(text)
    letters = map(with_joined_letters, text.split("\n"))
    joined = with_counts_together(without_piece_numbers(list(letters)))
    raw, titles = without_outline(with_walls_parted(with_strokes(joined)))
    repeated = _page_heads(raw)
    lettered = {match[1] for line in raw if (match := _LETTER.match(line))} >= {"a", "b"}
    lines = []
    for number, source in enumerate(raw, 1):
        if _RULE.match(source) or _FOOTER.match(source) or number in repeated:
            continue
        shown = _FOOTER_END.sub("", source) if len(source) < 90 else source
        start = _start_of(shown)
        shown = _without_closing_signs(shown, start)
        if lettered and (match := _LETTER.match(shown)):
            start = match.end()
        tokens = with_titles(_with_breaks(shown, tokens_of(shown[start:], number, start + 1)), titles)
        if tokens:
            lines.append(Line(number, tokens, _indent_of(shown, start), shown))
    return tuple(_with_whole_counts(_joined(lines)))


def _without_closing_signs(source: str, start: int) -> str:
    """Return a line without the signs at its end that answer those at its start: "** A **", "## Tag ##"."""
    opening = set(source[:start].strip())
    if len(opening) != 1 or not opening <= set("*#~"):
        return source
    sign = re.escape(opening.pop())
    # "~ C ~  (diamond to the right)": columns stay where they are.
    named = re.match(rf"(\s*\w{{1,2}}) ({sign}+)(?=\s)", source[start:])
    if named:
        source = source[: start + named.start(2)] + " " * len(named[2]) + source[start + named.end(2) :]
    return re.sub(rf"\s+{sign}+\s*$", "", source)


def _page_heads(raw: Sequence[str]) -> set[int]:
    """Numbers of lines that stand again and again, alike but for digits: heads and feet of printed pages."""
    shapes = [re.sub(r"\d+", "#", line.strip().lower()) for line in raw]
    counts = Counter(shape for shape in shapes if "page" in shape or shape.startswith(("sheet #", "side #")))
    found = {number for number, shape in enumerate(shapes, 1) if counts[shape] > 1}
    # A title that stands beside each foot of a page belongs to it.
    titles = [" ".join(line.lower().split()) for line in raw]
    again = Counter(title for title in titles if title and title[0].isalpha())
    beside = {number for number, title in enumerate(titles, 1) if 1 < again[title] <= len(found)}
    near = {number for number in beside if any(abs(number - foot) <= _NEAR_FOOT for foot in found)}
    apart = {titles[number - 1] for number in beside - near}
    return found | {number for number in near if titles[number - 1] not in apart}


def _start_of(source: str) -> int:
    """Where the line's text begins, after quote marks, bullets and stamps of a chat."""
    at = 0
    while True:
        rest = source[at:]
        match = re.match(
            r"\s*(?:>(?=[\s>])|>(?=[A-Z0-9&])|•|\*{1,3}(?=\s)|#{1,6} (?! *\|| {2})|-(?=\s+[^\d&])|~+(?=\s))\s*", rest
        ) or _STAMP.match(rest)
        if match is None or not match[0]:
            blank = re.match(r"\s*", rest)
            return at + (blank.end() if blank else 0)
        at += match.end()


def _indent_of(source: str, start: int) -> int:
    """Return how far a line is set in; the signs that make it a heading or bold set it in no further: "## tag"."""
    blanks = len(source) - len(source.lstrip())
    return blanks if source[blanks : blanks + 1] == "#" else start - source[:start].count(UNSEEN)


def _with_breaks(source: str, tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens with a break at tabs, wide gaps and dot leaders; runs of breaks become one."""
    parted: list[Token] = []
    leader = 0
    for index, token in enumerate(tokens):
        if token.text in (".", "_", "-", "=") and _is_leader(tokens, index):
            leader += 1
            continue
        before = tokens[index - 1] if index else None
        if before is not None:
            gap = source[before.column - 1 + len(before.text) : token.column - 1].replace(UNSEEN, "")
            wide = ("\t" in gap or len(gap) >= _WIDE) and not _closes_a_label(token, parted)
            if (wide or leader) and parted and parted[-1].text != BREAK and token.text != BREAK:
                parted.append(replace(token, kind="mark", text=BREAK, low=BREAK, glued=False))
        leader = 0
        if token.text == BREAK and parted and parted[-1].text == BREAK and len(parted) > 1:
            parted.append(token)
            continue
        parted.append(token)
    while parted and parted[-1].text == BREAK:
        parted.pop()
    return tuple(parted)


def _closes_a_label(token: Token, before: Sequence[Token]) -> bool:
    """Whether a colon that stands under others belongs to the words at the line's start: "intro      : 16 beats"."""
    return token.text == ":" and all(word.kind == "word" for word in before)


def _is_leader(tokens: Sequence[Token], index: int) -> bool:
    """Whether a mark stands in a run of at least three of its kind, or is one of two dots that lead to a number."""
    mark = tokens[index].text
    low, high = index, index
    if _ends_an_initial(tokens, index):
        return False
    while low and tokens[low - 1].text == mark and tokens[low].column - tokens[low - 1].column < 3:
        if _ends_an_initial(tokens, low - 1):
            break
        low -= 1
    while (
        high + 1 < len(tokens) and tokens[high + 1].text == mark and tokens[high + 1].column - tokens[high].column < 3
    ):
        high += 1
    return high - low >= 2 or (mark == "." and _leads(tokens, low, high))


def _ends_an_initial(tokens: Sequence[Token], index: int) -> bool:
    """Whether a dot ends a letter that stands for a word, and a blank parts it from the dots after it: "L.F. ..."."""
    if not 0 < index < len(tokens) - 1 or tokens[index].text != "." or not tokens[index].glued:
        return False
    letter, after = tokens[index - 1], tokens[index + 1]
    return letter.kind == "word" and len(letter.text) == 1 and after.text == "." and not after.glued


def _leads(tokens: Sequence[Token], low: int, high: int) -> bool:
    """Whether marks stand by themselves before a number: "touch left .. 1-4", "heel to the diagonal . and three"."""
    after = tokens[high + 1 :]
    if not low or tokens[low].glued or not after or after[0].glued:
        return False
    if high > low and after[0].kind == "number":
        return True
    if tokens[low - 1].kind != "word":
        return False
    counts = all(token.kind in ("number", "amp") or token.low in _COUNTS | _AMONG_COUNTS for token in after)
    return counts and any(token.kind == "number" or token.low in _COUNTS for token in after)


_AMONG_COUNTS = {"and", "a", ",", "-", "to", "count", "counts", "beat", "beats"}


def _joined(lines: Sequence[Line]) -> list[Line]:
    """Join a word broken by a hyphen at a line's end with its other half."""
    done: list[Line] = []
    for line in lines:
        before = done[-1] if done else None
        if before is not None and line.number == before.number + 1 and _broken(before, line):
            half, rest = before.tokens[-2], line.tokens[0]
            whole = replace(half, text=half.text + rest.text, low=half.low + rest.low)
            done[-1] = replace(before, tokens=(*before.tokens[:-2], whole))
            if len(line.tokens) > 1:
                done.append(replace(line, tokens=line.tokens[1:]))
            continue
        done.append(line)
    return done


def taken_back(lines: Sequence[Line], parted: Callable[[Line, Line], int]) -> list[Line]:
    """Return the lines with what the margin parted on the line where it begins.

    `parted` says how many tokens at a line's start belong to the end of the line above it.
    """
    done: list[Line] = []
    for line in lines:
        above = done[-1] if done else None
        length = parted(above, line) if above is not None else 0
        if above is None or not length:
            done.append(line)
            continue
        done[-1] = replace(above, tokens=above.tokens + line.tokens[:length])
        if line.tokens[length:]:
            done.append(replace(line, tokens=line.tokens[length:]))
    return done


def _broken(before: Line, line: Line) -> bool:
    if len(before.tokens) < 2 or before.tokens[-1].text != "-" or not before.tokens[-1].glued:
        return False
    half, rest = before.tokens[-2], line.tokens[0]
    if half.low in _COUNTS or (half.low == "and" and rest.low in _COUNTS):
        return False  # "three-" and "and-four" are counts
    return half.kind == rest.kind == "word" and rest.text[0].islower() and len(half.text) > 1


def _with_whole_counts(lines: Sequence[Line]) -> list[Line]:
    """Move the first half of a count that is broken at the margin to the other: on / "and", three- / and-four."""
    done: list[Line] = []
    for line in lines:
        before = done[-1] if done else None
        if before is not None and line.number == before.number + 1 and (halves := _halves(before, line)):
            done[-1] = replace(before, tokens=before.tokens[:-halves])
            line = replace(line, tokens=before.tokens[-halves:] + line.tokens)
        done.append(line)
    return done


def _halves(before: Line, line: Line) -> int:
    """Return how many tokens at a line's end are the first half of a count that ends on the next line."""
    words = ["", *(token.low for token in before.tokens[-3:])]
    first, second = [*(token.low for token in line.tokens[:2]), ""][:2]
    halved = first == "&" or (first == '"' and second in ("and", "&", "a", "e"))
    if halved and words[-1] == "on":
        return 1
    if words[-2:] == ["on", "the"] and (halved or first == "and"):
        return 2
    ranged = len(before.tokens) > 3 and words[-1] == "-" and words[-2] in _COUNTS
    return 2 if ranged and (first == "and" or first in _COUNTS) else 0
