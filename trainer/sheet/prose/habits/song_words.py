"""Parts of a song by other words, "stanza", "couplet", and in headings of several, "THE VERSES": told as verse, chorus.

A sheet that speaks of verses too means something else by the other word. Where a sheet counts a bridge among its parts,
"three parts: a verse, a chorus and a bridge", it is the song's middle, and nothing that is put in. Common practice, no
source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_OTHERS = ("stanza", "strophe", "couplet")
_VERSES = {"verse", "verses"}
_SEVERAL = {"verses": "verse", "choruses": "chorus", "refrains": "refrain"}
_ARTICLES = {"the", "our"}
_MIDDLE = {"bridge": "middle", "bridges": "middles"}
_HEAD = 14
"""Lines of a head."""
_PARTS = 3
_SO_MANY = re.compile(r"\b(?:three|four|five|[3-5]) parts\b")
_MARKS = {"*", "-", "#", "=", ":", "[", "]", "~", "_", "."}


def with_song_words(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such words told as the reader knows them."""
    words = {token.low for line in lines[1:] for token in line.tokens}
    other = next((other for other in _OTHERS if words & {other, f"{other}s"}), "")
    names = {other: "verse", f"{other}s": "verses"} if other and not words & _VERSES else {}
    if any(_counts_a_bridge(line) for line in lines) or _measures_a_bridge(lines[:_HEAD]):
        names |= _MIDDLE
    return (*lines[:1], *(_singular(_told(line, names)) for line in lines[1:]))


def _counts_a_bridge(line: Line) -> bool:
    """Whether a sentence names a bridge among a song's parts, and calls them parts."""
    if not any(token.low in _MIDDLE for token in line.tokens):
        return False
    sentences = (set(sentence.split()) for sentence in line.words.replace(";", ".").split("."))
    return any(words & {"parts"} and words & {*_MIDDLE} and {"verse", "chorus"} <= words for words in sentences)


def _measures_a_bridge(head: Sequence[Line]) -> bool:
    """Whether the head says that there are so many parts, and how long they are, a bridge among them.

    "A dance in three parts" over "The Verse has 24 counts, the Chorus 32, the Bridge 8".
    """
    if not any(_SO_MANY.search(line.words) for line in head):
        return False
    sentences = (sentence.split() for line in head for sentence in line.words.replace(";", ".").split("."))
    return any(
        {"verse", "chorus"} <= set(words) and {*_MIDDLE} & set(words) and sum(map(str.isdecimal, words)) >= _PARTS
        for words in sentences
    )


def _told(line: Line, names: dict[str, str]) -> Line:
    tokens = tuple(_like(token, names[token.low]) if token.low in names else token for token in line.tokens)
    return replace(line, tokens=tokens) if tokens != line.tokens else line


def _like(token: Token, word: str) -> Token:
    written = word.upper() if token.text.isupper() else word.capitalize() if token.text[0].isupper() else word
    return replace(token, text=written, low=word)


def _singular(line: Line) -> Line:
    """Return a line that says no more than "THE VERSES" as the heading of one."""
    said = [token for token in line.tokens if token.text not in _MARKS and token.low not in _ARTICLES]
    alone = len(said) == 1 and said[0].low in _SEVERAL and line.tokens[-1].text != "."
    return _told(line, _SEVERAL) if alone else line
