"""Words written with blanks between their letters, as titles are: "V E R S E", "T W O  B A R S" as VERSE, TWO BARS.

The blanks go behind the word as ones that take no room, so that columns stay true. Letters that are parts to be danced
("A B A B"), feet ("R L R") or slows and quicks ("S Q Q") are no word.
"""

import re

from trainer.sheet.prose.text.tokens import UNSEEN

_SPACED = re.compile(r"(?<![\w'&] )(?<![\w'&])[A-Z](?: [A-Z]){2,}(?![\w'])(?! ?&)")
_TITLE = re.compile(r"(\W*)([A-Z](?: [A-Z])*(?: {2,5}[A-Z](?: [A-Z])*)+)(\W*)")
"""Several such words and nothing else, some of one or two letters: "W R E N   O N   A   R O O F"."""
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
    if not any(map(_is_a_word, runs)):
        return line
    if title := _TITLE.fullmatch(line):
        # A gap between the words would part them, as columns; in a line of its own no other column is moved.
        words = " ".join(word.replace(" ", "") for word in re.split(" {2,}", title[2]))
        return title[1] + words + UNSEEN * (len(title[2]) - len(words)) + title[3]
    return _SPACED.sub(_joined, line)


def _is_a_word(letters: str) -> bool:
    if set(letters) <= _COMPASS:
        return False
    strange = len(set(letters) - _LISTED)
    return letters.lower() in _WORDS or strange >= _FEW or (strange > 0 and len(set(letters)) >= _MANY)


def _joined(match: re.Match[str]) -> str:
    word = match[0].replace(" ", "")
    return word + UNSEEN * (len(match[0]) - len(word))
