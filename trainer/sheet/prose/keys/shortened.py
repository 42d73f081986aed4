"""Whether a word is made short of others: "tch" of touch, "kbc" of kick ball change, "LH" of left-hand.

A short form begins as its words do and has its letters in their order. Common practice, no source.
"""

from collections.abc import Sequence

from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.words import Token

LONGEST = 5
"""Letters of a short form."""
_NO_NAMES = words_in(
    "a an the to in on at of or and is it so if by as no do be you your my we i e r l rf lf then than that this here "
    "now not also one two start stay step side for but with turn tag tags wall walls"
)
"""Words that explain nothing beside others, though their letters would fit."""
_LEADING = words_in("a an the to at your low small big long")
_OWN_LETTERS = {
    **dict.fromkeys(("x", "xx", "xs"), ("cross", "across", "crossed", "crosses", "crossing", "over")), "w": ("with",),
}  # fmt: skip
"""Forms that are no beginnings of their words."""
_VOWELS = frozenset("aeiouy")


def is_name(token: Token) -> bool:
    """Whether a token may be a short form."""
    return token.kind == "word" and len(token.low) <= LONGEST and token.low not in _NO_NAMES


def shortens(name: Token, meaning: Sequence[Token], *, sure: bool) -> bool:
    """Whether a name is made of the words of its meaning; `sure` where a sign between them says that it is."""
    words = [token.low for token in meaning if token.kind == "word"]
    if not is_name(name) or not words or name.low == words[0]:
        return False
    if any(word in _OWN_LETTERS.get(name.low, ()) for word in words[:2]):
        return True
    if not sure and (len(name.low) < 2 or (len(name.low) > 3 and _VOWELS & set(name.low[1:]))):
        return False
    starts = [0, *(at + 1 for at, word in enumerate(words[:3]) if word in _LEADING or sure or len(name.low) > 2)]
    return any(_made_of(name.low, words[at:]) for at in starts if words[at:])


def _made_of(name: str, words: Sequence[str]) -> bool:
    if name[0] == "x" and words[0] in ("cross", "crossing", "crossed"):
        name = f"c{name[1:]}"
    if name[0] != words[0][0] or len(name) >= sum(map(len, words)):
        return False
    letters = iter("".join(words))
    return all(letter in letters for letter in name)
