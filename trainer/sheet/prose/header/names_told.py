"""Title, tune and teacher, as a sheet's first lines give them."""

import re
from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.lexis.vocabulary import NUMBERS
from trainer.sheet.prose.text.letters import is_letter, is_post, title_in_letter
from trainer.sheet.prose.words import Token

_FACT_WORDS = {
    "counts", "count", "ct", "cts", "c", "wall", "walls", "w", "beginner", "improver", "intermediate", "advanced",
    "level",
    "intro",
    "weight", "wt", "phrased", "choreo", "choreographed", "music", "tune", "song",
    "step", "steps", "face", "facing", "beat", "beats", "direction", "o'clock", "foot", "feet",
}  # fmt: skip
_CLUBS = {
    "class", "classes", "club", "clubs", "school", "academy", "society", "studio", "institute", "association",
    "dancers", "presents", "handout", "workshop", "troupe", "newsletter", "guild", "circle", "crew",
}  # fmt: skip
"""Words of those who dance: a sheet may say at its top whose it is."""
_MADE = {
    "by",
    "from",
    "with",
    "for",
    "arranged",
    "written",
    "taught",
    "made",
    "notes",
    "page",
    "sheet",
    "dance",
    "dances",
}
_ARTICLES = {"the", "a", "an", "my", "our", "your"}
_SMALL = 5
"""Letters of words that need no capital in a name: "with", "over", "the"."""
_NAME = 6
_LABEL = 2
_GAP = 2
"""Blanks between two words of one name; more part the facts of a line."""
_FAR = 8
"""Columns between the sides of a line."""
_HEAD_LINES = 12
"""Lines in which a label may tell the title."""
_BEHIND_LABEL = {":", "=", ".", "|"}
_SEPARATORS = {"|", ";", "•", "(", "[", "~", "*", "#", "="}
_QUOTES = {'"'}
_NUMBERED = {"no", "nr", "number", "#"}
_BEHIND_NUMBER = {":", "-", ".", ")", ",", "|"}
_SHORT = {"mr", "mrs", "ms", "dr", "st", "vs", "prof", "capt", "sgt", "jr"}
"""Words that a point shortens, in the middle of a name: "Mr. Pennywhistle's Waltz"."""
_TUNE = re.compile(r"\b(?:tune|music|song|track|to the tune of|danced to|played with|to the song)\b")


def title_of(lines: Sequence[tuple[Token, ...]]) -> str:
    """Return the title: what a label says it is, else what stands before the facts in the first line with words."""
    for line in lines[:_HEAD_LINES]:
        if labelled := _under_label(line):
            return _tidy(_before_gap(labelled))
    for place, line in enumerate(lines):
        words = [token for token in line if token.kind == "word"]
        if not words or all(token.low in _FACT_WORDS for token in words):
            continue
        if place + 1 < len(lines) and _names_a_club(line) and _is_a_title(lines[place + 1]):
            continue
        labelled = _after_label(line, {"title", "dance", "name"})
        quoted = _quoted(line)
        if quoted and (len(words) > 6 or words[0].low in ("dear", "hi", "hello", "here")):
            return quoted
        if not labelled and is_letter(line) and (told := title_in_letter(lines)):
            return _tidy(told)
        if is_post(line) or (_only_numbers(line) and place + 1 < len(lines) and _is_a_title(lines[place + 1])):
            continue
        return _tidy(_before_gap(labelled) or _head(_without_number(line)))
    return ""


def _under_label(line: Sequence[Token]) -> tuple[Token, ...]:
    """Return the name behind a label that opens its line: "TITLE .... Terrazzo After Rain", "Routine: KIT BAG"."""
    words = [token for token in line if token.kind in ("word", "number") or token.text in _BEHIND_LABEL]
    if len(words) < _LABEL + 1 or words[0].low not in ("title", "routine") or words[1].text not in _BEHIND_LABEL:
        return ()
    rest = tuple(line[line.index(words[1]) + 1 :])
    while rest and (rest[0].text in _BEHIND_LABEL or rest[0].text in _QUOTES):
        rest = rest[1:]
    return rest if rest and rest[0].kind == "word" and rest[0].low not in _FACT_WORDS else ()


def _only_numbers(line: Sequence[Token]) -> bool:
    """Whether a line has a number among a teacher's sheets, and far from it a sender: "SHEET No. 61     by post"."""
    rest = _without_number(line)
    return len(rest) < len(line) and rest[0].column - line[len(line) - len(rest) - 1].column > _FAR


def _without_number(line: Sequence[Token]) -> Sequence[Token]:
    """Return a title without the number that it has among a teacher's dances: "No. 47   The Gatepost Shuffle"."""
    at = int(line[0].low in ("dance", "sheet", "routine"))
    if len(line) <= at or line[at].low not in _NUMBERED:
        return line
    at += 1
    at += at < len(line) and line[at].text == "."
    if at >= len(line) or line[at].kind != "number":
        return line
    at += 1
    while at < len(line) and line[at].text in _BEHIND_NUMBER:
        at += 1
    rest = line[at:]
    return rest if any(token.kind == "word" and token.low not in _FACT_WORDS for token in rest) else line


def _before_gap(line: Sequence[Token]) -> tuple[Token, ...]:
    """Return the words before the first wide gap: further facts may stand in the line."""
    gaps = (after.column - before.column - len(before.text) for before, after in pairwise(line))
    return tuple(line[: next((at for at, gap in enumerate(gaps, 1) if gap > _GAP), len(line))])


def _names_a_club(line: Sequence[Token]) -> bool:
    """Whether a line only says whose sheet it is: "Miss Adelaide's School of Dance - Improvers' Evening Class"."""
    lows = {token.low for token in line}
    loud = all(token.text.isupper() for token in line if token.kind == "word")
    return bool(lows & _CLUBS) and not loud and not any(token.text in _QUOTES for token in line)


def _is_a_title(line: Sequence[Token]) -> bool:
    """Whether a line is nothing but a name: in capitals, or a few words that begin with such."""
    words = [token for token in line if token.kind == "word"]
    if not words or any(token.kind in ("number", "fraction", "clock") or token.text in ":;|.=" for token in line):
        return False
    if {token.low for token in words} & (_FACT_WORDS | _CLUBS | _MADE):
        return False
    loud = all(token.text.isupper() for token in words) and any(len(token.text) > 1 for token in words)
    named = words[0].text[0].isupper() and all(token.text[0].isupper() or len(token.text) < _SMALL for token in words)
    return loud or (named and len(words) <= _NAME)


def tune_of(lines: Sequence[tuple[Token, ...]]) -> str:
    """Return the tune that the sheet names, without the wait."""
    for line in lines:
        text = " ".join(token.low for token in line)
        match = _TUNE.search(text)
        if match is None:
            if (quoted := _quoted(line)) and re.search(r"\bto \"", text):
                return quoted
            continue
        if quoted := _quoted(line):
            return quoted
        labelled = _after_label(line, {"tune", "music", "song", "track"})
        if labelled:
            head = _head(labelled)
            if not all(token.kind != "word" or token.low in _FACT_WORDS for token in head) and not _counts(head):
                return _tidy(head)
    return ""


def by_of(lines: Sequence[tuple[Token, ...]]) -> str:
    """Return who made the dance."""
    for place, line in enumerate(lines[:6]):
        for at, token in enumerate(line):
            made = token.low in ("choreographer", "choreo", "choreographed", "teacher", "by") and at + 1 < len(line)
            if not made or (token.low == "by" and (place > 2 or (at == 0 and place == 0))):
                continue
            rest = line[at + 1 :]
            while rest and (rest[0].text in (":", "=", "-") or rest[0].low in ("by", "is")):
                rest = rest[1:]
            if token.low == "choreo" and line[at + 1].text not in (":", "=", "-") and line[at + 1].low != "by":
                continue
            name = _tidy(_head(rest))
            if name and not name[0].isdecimal():
                return name
    return ""


def _counts(tokens: Sequence[Token]) -> bool:
    return bool(tokens) and (tokens[0].kind == "number" or tokens[0].low in NUMBERS)


def _after_label(line: Sequence[Token], labels: set[str]) -> tuple[Token, ...]:
    for at, token in enumerate(line[:-1]):
        # "School of Dance - Evening Class" labels nothing.
        if token.low in labels and (line[at + 1].text in (":", "=") or (line[at + 1].text == "-" and at < _LABEL)):
            return tuple(line[at + 2 :])
    return ()


def _quoted(line: Sequence[Token]) -> str:
    marks = [at for at, token in enumerate(line) if token.text in _QUOTES]
    return _text(line[marks[0] + 1 : marks[1]]) if len(marks) > 1 and marks[1] - marks[0] > 1 else ""


def _head(line: Sequence[Token]) -> tuple[Token, ...]:
    """The words before a mark that parts the title from the facts."""
    kept: list[Token] = []
    start = next((at for at, token in enumerate(line) if token.kind in ("word", "number")), len(line))
    words = [token for token in line if token.kind == "word"]
    if len(words) > 3 and all(len(token.text) == 1 for token in words):
        return tuple(words)
    for at in range(start, len(line)):
        token = line[at]
        if kept and _parts(line, at):
            break
        kept.append(token)
    return tuple(kept)


def _parts(line: Sequence[Token], at: int) -> bool:
    token = line[at]
    after = line[at + 1] if at + 1 < len(line) else None
    if token.text == "." and line[at - 1].low in _SHORT and not (at > 1 and line[at - 2].kind == "number"):
        return False
    if token.text in _SEPARATORS or (token.kind == "number" and after is not None and after.text == "/"):
        return True
    if token.text in ("-", "/", ":", ".", ",") and (not token.glued or token.text in ".,:"):
        return token.text != "," or after is None or not after.text[:1].isupper() or after.kind == "number"
    gap = token.column - (line[at - 1].column + len(line[at - 1].text))
    if gap > _GAP and len(line[at - 1].text) > 1:
        return True
    return token.low == "by" and after is not None and not _by_a_place(line[at + 1 :])


def _by_a_place(rest: Sequence[Token]) -> bool:
    """Whether "by" and the words after it are of the name, and no teacher's: "Waltzing by the Weir"."""
    lows = {token.low for token in rest}
    return rest[0].low in _ARTICLES and len(rest) <= _LABEL + 1 and not lows & _CLUBS and "|" not in lows


def _tidy(tokens: Sequence[Token]) -> str:
    """Return words as text; single letters that are spaced out become words again."""
    letters = [token for token in tokens if token.kind == "word"]
    if len(letters) > 3 and all(len(token.text) == 1 for token in letters):
        text = ""
        for before, token in zip((None, *letters), letters, strict=False):
            text += " " if before is not None and token.column - before.column > 2 else ""
            text += token.text
        return text
    return _text(tokens).strip(" *_~#=-|.,:'\"")


def _text(tokens: Sequence[Token]) -> str:
    return "".join((" " if index and not token.glued else "") + token.text for index, token in enumerate(tokens))
