"""Words written with blanks between their letters, as titles are: "V E R S E", "T W O  B A R S" as VERSE, TWO BARS.

The blanks go behind the word as ones that take no room, so that columns stay true. Letters that are parts to be danced
("A B A B"), feet ("R L R") or slows and quicks ("S Q Q") are no word.
"""

import re

from trainer.sheet.prose.text.tokens import UNSEEN

_SPACED = re.compile(r"(?<![\w'&] )(?<![\w'&])[A-Z](?: [A-Z]){2,}(?![\w'])(?! ?&)")
_LISTED = set("ABCDEFGHRLXSQTI")
"""Letters that are listed for themselves: parts, feet, ways to count, tags and intros."""
_COMPASS = set("NESW")
_WORDS = {
    "tag", "tags", "verse", "chorus", "bridge", "bridges", "intro", "start", "finish", "end", "ending", "coda", "part",
    "parts", "break", "breath", "refrain", "finale", "restart", "restarts", "order", "steps", "wall", "walls", "extra",
    "section", "set", "first", "last", "third", "eight", "sixth", "eighth", "fifth", "six", "the", "all", "three",
}  # fmt: skip
_FEW = 2
_MANY = 5
"""Different letters of a word one of which is never listed."""


def with_joined_letters(line: str) -> str:
    """Return a line with such words joined: all of them where one is a word for sure."""
    runs = [match[0].replace(" ", "") for match in _SPACED.finditer(line)]
    return _SPACED.sub(_joined, line) if any(map(_is_a_word, runs)) else line


def _is_a_word(letters: str) -> bool:
    if set(letters) <= _COMPASS:
        return False
    strange = len(set(letters) - _LISTED)
    return letters.lower() in _WORDS or strange >= _FEW or (strange > 0 and len(set(letters)) >= _MANY)


def _joined(match: re.Match[str]) -> str:
    word = match[0].replace(" ", "")
    return word + UNSEEN * (len(match[0]) - len(word))
