"""The lengths of all walls in a row, whatever leads to them and follows: "counts in each wall: 32, 16, then always 32".

The row is told by its numbers: none more than the whole dance, and most of them the whole. Common practice, no source.
"""

import re
from itertools import pairwise

from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.lines.wall_lists import Lengths

_ITEM = r"n(?:-?c)?(?:(?:[,&>(]|I)*[TG]\)?)*"
_ROW = re.compile(rf"(?P<row>{_ITEM}(?:[,\-/>&;]+{_ITEM}){{3,}})")
_LEADS = re.compile(r"[?lwWcIvtDaoyYhm0N(),:\-=J]*")
"""Letters of what may stand before a row: "how many counts each wall has:"."""
_SAYS_SO = re.compile(r"[lwWvtDc]")
_FOLLOWS = re.compile(r"[,;>&\-/]*(?:[?AUWwtvaXQ0uIyJD>&@,;.()\-:LzmEh]|n(?:-?c)?)*")
"""Letters of what may follow it: "after that always 32", "and so on"."""
_SHORTEST = 16
"""Counts of a dance whose walls are told by their lengths alone."""
_MOST_NAMED = 12


def lengths_told(sentence: Sentence, whole: int = 0) -> Lengths | None:
    """Return the lengths of walls where a sentence tells them in a row; `whole` is that of the dance, 0 not known."""
    letters = "".join(
        "T" if letter == "?" and sentence.words(at, at + 1) == "T" else letter
        for at, letter in enumerate(sentence.letters)
    )
    match = _ROW.search(letters)
    if (
        match is None
        or not _LEADS.fullmatch(letters[: match.start()])
        or not _FOLLOWS.fullmatch(letters[match.end() :])
    ):
        return None
    row = [at for at in range(*match.span("row")) if letters[at] in "nTG"]
    counts = [sentence.number(at) for at in row if letters[at] == "n"]
    whole = whole or max(counts)
    later = [sentence.number(at) for at in range(match.end(), len(letters)) if letters[at] == "n"]
    if whole < _SHORTEST or max(counts) > whole or 0 in counts or any(number != whole for number in later):
        return None
    plain = "TG" if set("TG") & set(letters) else ""
    named = bool(_SAYS_SO.search(letters[: match.start()])) or (not match.start() and len(counts) > _MOST_NAMED // 2)
    rising = all(one < other for one, other in pairwise(counts))
    if counts.count(whole) * 2 < len(counts) or rising or not (named or plain):
        return None
    if min(counts) == whole and not plain:
        return None
    return Lengths(
        tuple((None, letters[at], at) if letters[at] in "TG" else (sentence.number(at), "", at) for at in row)
    )
