"""The words by which steps point back to others, and sections are named in running words: "as in section 1"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.words import Token

POINTS = re.compile(
    r"\b(?:repeat|repeats|repeated|repeating|same (?:again|as|but|with|steps|thing|to|on|starting|other|"
    r"the other|going|in)|the same(?! (?:beat|count|time|moment|instant|spot|place|foot|direction|speed|line|side)\b)|"
    r"once more|once again|one more time|a second time|again|(?:another|one more)(?: one)? of (?:those|these|them)|"
    r"do (?:all |all of |both of |the whole of )?(?:that|this|it|these|those|them|the same)|mirror|mirrored|mirroring|"
    r"mirrors|likewise|ditto|idem|redo|as (?:above|before)|"
    r"(?:as|like)(?: in| for| on| the)?(?: counts?| section| sec| s)? \d|as in|reverse|opposite foot|other foot|"
    r"vice versa)\b"
)
"""Words that point back to steps told before."""
SECTION = re.compile(
    r"\b(?:sections?|sec|set|block|part|phrase|figure|s|eight|six|steps?) ?(?:number |no ?\. ?)?(\d+|"
    r"[a-h] ?\d?|one|two|three|four|five|six|seven|eight)\b|"
    r"\b(first|second|third|fourth|fifth|sixth|last|previous|1 st|2 nd|3 rd|4 th) (?:section|set|eight|8|"
    r"block|part|six|phrase|figure)\b"
)
"""A section named by its number, letter or place."""
_SECTION_WORDS = r"sections?|sec|set|block|part|phrase|figure|s|eight|six|first|second|third|fourth|fifth|last|previous"


def points_back(tokens: Sequence[Token]) -> bool:
    """Return whether words point back to steps that were told before."""
    return bool(POINTS.search(" ".join(token.low for token in tokens)))


def names_a_section(tokens: Sequence[Token]) -> bool:
    """Return whether words name a section by its number or place."""
    return bool(SECTION.search(" ".join(token.low for token in tokens)))


_AS_BEFORE = re.compile(
    r"^\W*(?:the )?(?:"
    r"(?:second|third|fourth|fifth|sixth|seventh|eighth|last|2 nd|3 rd|[4-8] th) "
    r"(?:section|set|eight|8|block|six|line)|(?:section|set|sec|eight|block) ?(?:no ?\. ?)?\d) "
    r"?(?:is|goes|:|,|-|=|\.)? ?(?:just |exactly |all )?"
    r"(?:the )?(?:very |exact |self)?(?:same|mirror)\b"
)
"""A section that is said to be as the one before it: "Second eight is the very same to the other side"."""


def goes_as_before(tokens: Sequence[Token]) -> bool:
    """Return whether a line says that its section goes as the one before it."""
    return bool(_AS_BEFORE.match(" ".join(token.low for token in tokens)))


def repeats_a_section(tokens: Sequence[Token]) -> bool:
    """Return whether a line tells a section by pointing back to another: "Section 2: as section 1, other foot"."""
    words = " ".join(token.low for token in tokens)
    again = r"\b(?:repeat|same as|mirror|again|as (?:in |for |per )?(?:the )?(?:" + _SECTION_WORDS + "))"
    return bool(re.search(again, words)) and len(SECTION.findall(words)) >= (
        1 if re.search(r"\brepeat (?:all |the )?", words) else 2
    )
