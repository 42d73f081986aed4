"""Counts told by their places: "on the fourth count", "on the first beat step right, on the second close left".

The noun may be left out where ordinals rise by one from step to step; "on the second wall" is none.
"""

from collections.abc import Sequence

from trainer.sheet.prose.counts.scan import Place
from trainer.sheet.prose.lexis.vocabulary import EIGHT_PLACES
from trainer.sheet.prose.words import Token

_LEADS = {"on", "at", "for", "with"}
_BEATS = {"count", "beat", "counts", "beats"}
_NOT_OF_A_SECTION = (["of"], ["in"])
_NOUNS = {
    "wall", "walls", "time", "times", "eight", "eights", "six", "half", "round", "go", "repeat", "section", "set",
    "part", "block", "bar", "bars", "figure", "phrase", "verse", "chorus", "line", "day", "one", "pass", "repetition",
    "rotation", "sequence", "tag", "restart", "pattern", "dance", "occasion", "evening", "lesson", "of", "and", "foot",
}  # fmt: skip
_LEAST = 3
_ANCHORED = 2
"""Ordinals of a row in a line that tells one with its noun."""


def ordinal_told(line: Sequence[Token], at: int) -> tuple[tuple[Place, ...], int] | None:
    """Return the counts told by their places from a token on, and the index after them; None where there are none."""
    told = _told(line, at)
    if told is None:
        return None
    numbers, end, named = told
    if not named and not _rises(line, at):
        return None
    return tuple(Place(number, "") for number in numbers), end


def _told(line: Sequence[Token], at: int) -> tuple[tuple[int, ...], int, bool] | None:
    """Return the counts of "on the second", "on the fifth and sixth beats", the index after, and whether named so."""
    words = [token.low for token in line[at : at + _LONGEST]]
    opens = not at or line[at - 1].text in (".", ",", ";", ":", "(")
    if len(words) > 2 and words[0] in _LEADS and words[1] == "the":
        first = 2
    elif opens and len(words) > 2 and words[0] in EIGHT_PLACES and words[1] in _BEATS:
        # "First beat: step right to the side."
        first = 0
    else:
        return None
    if words[first] not in EIGHT_PLACES:
        return None
    numbers, end = [EIGHT_PLACES[words[first]]], first + 1
    while (joins := _joins(words, end)) and EIGHT_PLACES.get("".join(words[joins : joins + 1])) == numbers[-1] + 1:
        numbers, end = [*numbers, numbers[-1] + 1], joins + 1
    after = words[end : end + 1]
    if after and after[0] in _BEATS:
        of_a_section = words[end + 1 : end + 2] in _NOT_OF_A_SECTION
        return None if of_a_section or words[0] not in ("on", *EIGHT_PLACES) else (tuple(numbers), at + end + 1, True)
    bare = words[0] == "on" and bool(after) and after[0] not in _NOUNS and (len(numbers) == 1 or after[0].isalpha())
    return (tuple(numbers), at + end, False) if bare else None


def _joins(words: Sequence[str], at: int) -> int:
    """Return the index after "," or "and" or ", and" between two ordinals; 0 where none stands there."""
    end = at
    while end < at + 2 and words[end : end + 1] in ([","], ["and"], ["&"]):
        end += 1
    return end if end > at else 0


_LONGEST = 16
"""Tokens of the counts of one step."""


def _rises(line: Sequence[Token], at: int) -> bool:
    """Whether ordinals beside the one at a token rise by one: three of them, or two of which one has its noun."""
    row = [(index, told) for index in range(len(line)) if (told := _told(line, index)) is not None]
    here = next(place for place, (index, _) in enumerate(row) if index == at)
    first = last = here
    while first and row[first - 1][1][0][-1] + 1 == row[first][1][0][0]:
        first -= 1
    while last + 1 < len(row) and row[last][1][0][-1] + 1 == row[last + 1][1][0][0]:
        last += 1
    return last - first + 1 >= (_ANCHORED if any(told[2] for _, told in row) else _LEAST)
