"""The title of a sheet that comes as a letter: "Hiya girls, here's PUDDLE HOP", "Subject: Steps for Bramble Gate".

What opens such a sheet is who writes to whom, a greeting, or the head of a newsletter or of a teacher's notes. The
title is told below it, or in it in capitals; else the subject of the letter names it.
"""

import re
from collections.abc import Callable, Sequence
from itertools import pairwise

from trainer.sheet.prose.words import Token

_LINES = 10
"""So far down the title is told."""
_POST = re.compile(r"^(?:from|to|cc|date|sent|subject|re) :")
_GREETING = re.compile(
    r"^(?:\[? ?\d+:\d+ ?\]? )?(?:\w+ : )?(?:hiya|hi|hello|hey|dear|howdy|g'day|evening|morning|afternoon|"
    r"ok for|right (?:girls|all|everyone|ladies|folks)|good (?:morning|evening|afternoon)|here's|heres|here is) ?\b"
)
_MASTHEAD = re.compile(
    r"^(?!.*\bmonth :).*(?:\bnewsletter\b|\b(?:spring|summer|autumn|winter) number\b|\bof the month$)"
)
"""A line that names a paper, or its column, and no dance: "THE HALL NOTICE, spring number, page 3"."""
_PAPER = re.compile(
    r"^(?:from (?:the|our) .*\b(?:newsletter|corner)|workshop notes\b|(?:.* )?(?:dance|waltz) of the month\b)"
)
_NAMED = re.compile(r"\b(?:called|month|waltz|dance|asked (?:me |us )?for) ?:? ?$")
_FOR = re.compile(r'\b(?:sheet|steps?|notes|dance|routine|card)(?: (?:for|of|to|called))? " ?$')
"""Before a name in quotes: 'here is the sheet for "Boat Shed Bop"'."""
_APART = 5
"""Lines between the head of a letter and what stands below the steps."""
_HERE = re.compile(r"\b(?:here is|here's|heres|this is) ?$")
"""Before a name of two words or more, with a mark behind it: "Hi both! Here is Boat Shed Bop, 32 counts"."""
_GOES_ON = {"like", "as", "which", "that", "we"}
"""Behind a name that is brought so, where no mark is."""
_WRITING = re.compile(r"\b(?:write|writing|wrote|put|type|typed) ?$")
_DOWN = (["down"], ["out"], ["up"])
"""Around the name of a dance that was asked for: "to write Second Helpings down"."""
_JOINERS = {"of", "the", "in", "on", "at", "by", "and", "&", "for", "a", "to", "my", "over", "under", "with"}
_NO_NAMES = {
    "rf", "lf", "wt", "ct", "cts", "counts", "count", "walls", "wall", "fwd", "bk", "first", "dance", "of", "the",
    "month", "ok", "re", "lol", "wait", "right", "left", "improver", "intermediate", "beginner", "advanced", "from",
    "corner", "block", "section", "second", "third", "verse", "chorus", "part", "after", "before", "rolling", "eight",
    "set", "start", "newsletter", "our", "number", "workshop", "notes", "spring", "summer", "autumn", "winter",
    "teacher's", "waltz",
}  # fmt: skip
_WRITTEN = {"steps", "words", "table", "notes", "re"}
"""What a letter is about, before the name of the dance: "Steps for Bramble Gate"."""
_FACTS = re.compile(r"^[,.(/ -]+\d+ (?:slow |easy )?-?(?:counts?|cts?|c|beats?)\b")


def is_letter(line: Sequence[Token]) -> bool:
    """Whether a sheet's first line opens a letter, a newsletter or a teacher's notes, and is no title."""
    text = " ".join(token.low for token in line)
    named = _with_facts(line)
    if named and all(token.text[:1].isupper() for token in named):
        return False  # "Dear Old Harbour - 48 counts"
    return any(opening.match(text) for opening in (_POST, _GREETING, _PAPER, _MASTHEAD))


def is_post(line: Sequence[Token]) -> bool:
    """Whether a line is of the head of a letter: "From: Lorne"."""
    return _POST.match(" ".join(token.low for token in line)) is not None


def title_in_letter(lines: Sequence[Sequence[Token]]) -> tuple[Token, ...]:
    """Return the title that a letter tells, or nothing."""
    subject: tuple[Token, ...] = ()
    above = lines[0][0].line if lines and lines[0] else 0
    for line in lines[:_LINES]:
        text = " ".join(token.low for token in line)
        if line and line[0].line > above + _APART:
            break
        above = line[-1].line if line else above
        if _MASTHEAD.match(text):
            continue
        about = re.search(r"\b(?:subject|re) : ", text)
        if about:
            subject = subject or _subject(line)
        elif _POST.match(text):
            continue
        if found := _loud(line) or _called(line) or _quoted(line) or (() if is_letter(line) else _with_facts(line)):
            return found
    return subject


def _loud(line: Sequence[Token]) -> tuple[Token, ...]:
    """Return words in capitals among others, or that fill a line: "here is BRINDLE HOP for Tuesday"."""
    for first, last in _runs(line, lambda token: token.text.isupper() and token.kind == "word"):
        words = line[first:last]
        if sum(len(word.text) for word in words) > 4 and not any(word.low in _NO_NAMES for word in words[:1]):
            return tuple(words)
    return ()


def _called(line: Sequence[Token]) -> tuple[Token, ...]:
    """Return the capitalised words that a dance is called: "it is called Lanthorn Waltz and we dance it to ..."."""
    for first, last in _runs(line, lambda token: token.text[:1].isupper() and token.kind == "word"):
        before = " ".join(token.low for token in line[max(first - 3, 0) : first] if token.text != '"')
        ends = last < len(line) and (line[last].kind == "mark" or line[last].low in _GOES_ON)
        presented = last > first + 1 and ends and _HERE.search(before) is not None
        presented |= _WRITING.search(before) is not None and [one.low for one in line[last : last + 1]] in _DOWN
        if line[last - 1].low.endswith("day's"):
            continue
        if (_NAMED.search(before) or presented) and any(
            len(token.text) > 1 and token.low not in _NO_NAMES for token in line[first:last]
        ):
            return tuple(line[first:last])
    return ()


def _quoted(line: Sequence[Token]) -> tuple[Token, ...]:
    """Return the name in quotes that a letter says it brings: 'here is the sheet for "Signal Box Nine"'."""
    marks = [at for at, token in enumerate(line) if token.text == '"']
    for first, last in pairwise(marks):
        led = not first and last + 1 < len(line) and line[last + 1].text == "("
        if last > first + 1 and (led or _FOR.search(" ".join(token.low for token in line[: first + 1]))):
            return tuple(line[first + 1 : last])
    return ()


def _with_facts(line: Sequence[Token]) -> tuple[Token, ...]:
    """Return what stands before the facts: "Wellies by the Door, 32 counts, 4 walls"."""
    for at in range(1, min(len(line), 9)):
        if _FACTS.match(" ".join(token.low for token in line[at : at + 4])):
            words = line[:at]
            named = all(token.kind == "word" or token.text in "&'" for token in words)
            return tuple(words) if named and any(token.low not in _NO_NAMES for token in words) else ()
    return ()


def _subject(line: Sequence[Token]) -> tuple[Token, ...]:
    """Return the longest row of capitalised words behind "Subject:" and "Re:"."""
    start = max(at for at, token in enumerate(line) if token.low in ("subject", "re") and line[at + 1].text == ":") + 2
    rest = tuple(line[start:])
    rows = [rest[first:last] for first, last in _runs(rest, lambda token: token.text[:1].isupper())]
    rows = [row[2:] if row[0].low in _WRITTEN and row[1:2] and row[1].low == "for" else row for row in rows]
    rows = [row for row in rows if row[0].low not in _WRITTEN and not row[0].low.endswith("day's")]
    return max(rows, key=len, default=())


def _runs(line: Sequence[Token], named: Callable[[Token], bool]) -> list[tuple[int, int]]:
    """Return the rows of words of a name, first and last; small words may join them, marks part them."""
    runs: list[tuple[int, int]] = []
    at = 0
    while at < len(line):
        if not named(line[at]):
            at += 1
            continue
        last = at + 1
        ahead = last
        while ahead < len(line) and (named(line[ahead]) or line[ahead].low in _JOINERS):
            ahead += 1
            last = ahead if named(line[ahead - 1]) else last
        runs.append((at, last))
        at = max(ahead, last)
    return runs
