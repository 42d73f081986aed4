"""Names of a teacher's own that head few counts of steps: what they are, how long, and where a line says them."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.lexis.vocabulary import ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

ARTICLES = {"the", "a", "an", "our", "my", "this"}
CELLS = {BREAK, ",", ":", "-", ">", "=", "("}
"""Marks before what is danced, in the row of a wall."""
QUOTES = {'"', "'"}
SIZES = {
    "count", "counts", "beat", "beats", "little", "short", "small", "tiny", "long", "same", "quick", "single",
    "extra", "four", "six", "two", "eight", "three", "-", '"', "'", "one",
}  # fmt: skip
"""Words between an article and a name."""
PUTTING_IN = {
    "then", "plus", "add", "adds", "added", "and", "dances", "insert", "inserts", "comes", "with", "do", "gets", "has",
    "+", "&", "by", "into", "dance", "take", "perform", "put", "in", "fit", "after", "join", "danced", "follow",
}  # fmt: skip
"""Words that have something danced that they name."""
WALLS = r"(?:walls?|w|rounds?|rnds?|pass(?:es)?|laps?|repetitions?|rotations?|circuits?|times?|goes|go)"
NUMBER = rf"(?:\d+|{'|'.join(NUMBERS)})"
ORDINAL = rf"(?:\d+ (?:st|nd|rd|th)|{'|'.join(ORDINALS)})"
COUNTED = r"(?:counts?|beats?|cts?|ct|steps?|bars?|sections?|sec|blocks?|sets?|figures?|figs?|fig|eights?|rows?)"
"""What is numbered or counted and is no wall."""
_ROW = re.compile(rf"{WALLS} {NUMBER}\b|{ORDINAL} {WALLS}\b")
"""What opens the row of a wall."""
_PLAIN = {
    "tag", "tags", "bridge", "bridges", "ending", "end", "finish", "finale", "coda", "outro", "intro", "introduction",
    "opening", "opener", "prologue", "overture", "prelude", "extra", "added", "alternative",
}  # fmt: skip
"""Words for extras that are no names."""
_STOPS = {":", "(", "[", "-", ",", "=", ".", "|", ";", "•", "!", ">", "/", '"', "'", ")", "]"}
_LEADS = {"(", "[", "<", ">", "=", "*", "~", "#", "|", *QUOTES, *ARTICLES}
_BEHIND = {
    "after", "at", "on", "only", "once", "of", "for", "in", "between", "when", "begins", "starts", "danced", "comes",
    "facing", "is", "has", "lasts", "from", "as", "following", "behind", "during", "wall", "walls", "looking", "goes",
    "again", "end", "both", "just", "w",
}  # fmt: skip
"""Words behind a name that say when it is danced, and end it."""
_NO_NAMES = {
    "restart", "restarts", "repeat", "continue", "extras", "new", "changed", "still", "signs", "rules", "column",
    "begin", "start", "note", "notes", "nb", "order", "sequence", "steps", "count", "counts", "beat", "beats", "dance",
    "wall", "walls", "round", "rounds", "time", "times", "pass", "passes", "lap", "laps", "music", "song", "track",
    "choreography", "phrasing", "phrased", "change", "changes", "facing", "everything", "everybody", "all", "you",
    "then", "there", "now", "please", "remember", "careful", "option", "options", "tip", "hint", "last", "next",
    "final", "first", "bar", "bars", "measure", "sheet", "page", "level", "right", "left", "front", "back", "home",
    "when", "what", "where", "how", "who", "watch", "before", "after", "during", "only", "also", "but", "and", "for",
    "with", "from", "that", "this", "here", "twice", "once", "both", "each", "every", "instead", "replace", "skip",
    "stop", "variation", "variations", "easy", "easier", "styling", "weight", "clock", "lead", "partner", "leader",
    "follower", "man", "lady", "play", "plan", "structure", "map", "wait", "rows", "row", "not", "add", "put",
    "insert", "take", "make", "see", "face", "mind", "short", "shorter", "secondly", "firstly", "thirdly", "finally",
    "lastly", "alterations", "additions", "addition",
    "section", "sections", "block", "blocks", "set", "sets", "figure", "figures", "part", "parts", "half",
    "break", "fig", "figs", "listen", "dear", "hello", "hiya", "hey",
}  # fmt: skip
"""Words that open lines of a sheet and name nothing."""
_IN_NAMES = {
    "break", "last", "final", "first", "easy", "short", "left", "right", "front", "back", "home", "half", "next",
}  # fmt: skip
"""Those of them that stand in names of several words."""
_LENGTH = re.compile(
    rf"\b(?P<a>{NUMBER}) (?:- ?)?(?:extra |more |little )?(?:counts?|beats?|cts?|ct)\b|[(\[] ?(?P<b>\d+) ?[)\]]|"
    rf"^(?:of )(?P<c>{NUMBER})\b(?! {WALLS})"
)
_STILL = re.compile(r"\b(?:nobody|no one) (?:moves|dances|steps|stirs)\b|\bfeet stay\b|\bstands? still\b")
"""Nothing is danced there: it is a hold."""
_COUNTS = {"count", "counts", "beat", "beats", "cts", "ct", "bars", "bar"}
_BARE = {*_COUNTS, "of", "facing", "at", "once", "only", "the", *NUMBERS}
"""What a heading may tell beside its name where the next line says when it is danced."""
_LONGEST = 3
"""Tokens of a name, one joined by a hyphen aside."""
_SHORTEST = 3
"""Letters of a word of it."""
_BELOW = 3
"""Lines below a heading that show whether it heads steps."""
_GAP = 5
"""Lines between a heading and the last of them, at most."""
_STEPS = 2
"""Words of steps there, at least."""

Name = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Head:
    """A line that a name opens, over steps or before them."""

    at: int
    """The place of the line among all."""
    first: int
    last: int
    """The tokens of the name, the last exclusive."""
    name: Name
    rest: str
    """The words behind it, and those of the next line where the heading tells no more than a length."""
    steps: str
    """The words behind it and below."""


def heads_of(lines: Sequence[Line]) -> list[Head]:
    """Return the names that open lines over steps; the title of the sheet is none."""
    return [head for at in range(1, len(lines)) if (head := _head(lines, at)) is not None]


def is_section_head(line: Line) -> bool:
    """Whether a line opens with the name of a section that is no extra."""
    tokens = line.tokens[:4]
    return is_section_name(tokens) and not extra_kind(tokens)


def length_of(head: Head, lines: Sequence[Line]) -> int:
    """Return how many counts a heading tells or has below it; 0 where that is not known."""
    match = _LENGTH.search(head.rest)
    if match:
        told = next(group for group in match.groups() if group)
        return int(NUMBERS.get(told, told))
    most = 0
    number = lines[head.at].tokens[-1].line
    for line in lines[head.at :]:
        heads = line is lines[head.at]
        apart = line.tokens[0].line > number + 1 and most > 0
        if apart or (not heads and line.tokens[0].kind == "word" and is_section_name(line.tokens[:3])):
            break
        marks = marks_in(line.tokens[head.last :] if heads else line.tokens, 0)
        counts = [mark.places[-1].number or 0 for mark in marks]
        if most and counts and counts[0] <= most and min(mark.start.number or 0 for mark in marks) <= 1:
            break
        most = max([most, *counts])
        number = line.tokens[-1].line
    return most


def said_at(line: Line, name: Name) -> Iterator[int]:
    """Yield the places where a line says a name: with a capital, or behind an article."""
    tokens = line.tokens
    for at in range(len(tokens) - len(name) + 1):
        if tuple(token.low for token in tokens[at : at + len(name)]) != name:
            continue
        before = tokens[at - 1] if at else None
        led = before is not None and (before.low in ARTICLES | SIZES or before.text in CELLS)
        # "Red Lantern" is another name; "B Lantern" are two items of a play.
        capital = before is not None and before.kind == "word" and len(before.text) > 1 and before.text[0].isupper()
        other = capital and before is not None and before.low not in PUTTING_IN | ARTICLES | SIZES
        if (tokens[at].text[0].isupper() or led) and (tokens[at].text.isupper() or not other):
            yield at


def _head(lines: Sequence[Line], at: int) -> Head | None:
    """Return the name that opens a line above steps or before them, and what is told of it; nothing for no name."""
    tokens = lines[at].tokens
    first = next((place for place, token in enumerate(tokens) if token.low not in _LEADS), len(tokens))
    last = _name_end(tokens, first)
    name = tokens[first:last]
    if not name or not _may_be_a_name(name) or not _is_ended(name, tokens[last:]):
        return None
    rest = " ".join(token.low for token in tokens[last:])
    near = lines[at].tokens[-1].line + _GAP
    below = [line for line in lines[at + 1 : at + 1 + _BELOW] if line.tokens[0].line <= near]
    bare = all(token.kind != "word" or token.low in _BARE for token in tokens[last:])
    if below and bare and not (len(below) > 1 and all(_ROW.match(one.words) for one in below[:2])):
        rest = f"{rest} ; {below[0].words}"
    steps = " ".join([rest, *(line.words for line in below)])
    if _STILL.search(steps) or sum(word in STEP_WORDS and word not in NUMBERS for word in steps.split()) < _STEPS:
        return None
    return Head(at, first, last, tuple(token.low for token in name), rest.lstrip(" ,;:.-|(•="), steps)


def _name_end(tokens: Sequence[Token], first: int) -> int:
    """Return the end of the words at a place that may be a name; one joined by a hyphen is one word: "Add-on"."""
    last = first
    while last < len(tokens) and last - first < _LONGEST:
        if tokens[last].kind != "word" or tokens[last].low in _BEHIND:
            break
        last += 1
        joined = tokens[last : last + 2]
        if [one.kind for one in joined] == ["mark", "word"] and joined[0].text == "-" and all(o.glued for o in joined):
            last += 2
    return last


def _may_be_a_name(name: Sequence[Token]) -> bool:
    """Whether words may be a name: the first has a capital, and none opens lines of a sheet that name nothing."""
    joined = {at + side for at, token in enumerate(name) if token.text == "-" for side in (-1, 1)}
    words = [token for at, token in enumerate(name) if token.kind == "word" and at not in joined]
    said = {token.low for token in words}
    if not name[0].text[0].isupper() or any(len(word) < _SHORTEST for word in said):
        return False
    if said & (_NO_NAMES - _IN_NAMES) or (said and said <= _NO_NAMES) or said & _PLAIN:
        return False
    if said & {*NUMBERS, *ORDINALS, *SONG_PARTS} or (said and said <= STEP_WORDS):
        return False
    return bool(extra_kind(name)) or not is_section_name(name)


def _is_ended(name: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether what stands behind a name ends it; "FIG 3: touches" is a section, "Short wall: ..." tells of a wall."""
    if not after or after[0].text in _STOPS:
        return True
    stop, then = after[0], after[1] if len(after) > 1 else None
    if stop.low in ("wall", "walls"):
        return then is not None and then.kind == "number"
    if stop.kind == "number" and (then is None or not (then.low in _COUNTS or then.text in ("-", ","))):
        return False
    capitals = all(token.text[0].isupper() for token in name if token.kind == "word")
    return capitals and (stop.kind != "word" or stop.low in _BEHIND or stop.low in NUMBERS)
