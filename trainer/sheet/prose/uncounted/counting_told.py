"""What lines without counts say beside steps: how all of a kind are counted, "every shuffle takes two"; the order."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS
from trainer.sheet.prose.words import Token

_OFTEN = 3
_LETTERS = tuple("ABCDEFGH")
_SONG = {form for name in SONG_PARTS for form in (name, f"{name}s", f"{name}es")} - {"middle", "hook", "hooks"}
_COUNTED_SO = re.compile(
    r"^(?:(?:and|but|so|note|remember|that|the) )*(?:every|each|all|any|other|others|single|rest|anything|everything|"
    r"plain|ordinary|a|an)\b(?!.*\b(?:then|right|left)\b).*\b(?:takes?|lasts?|is|are|has|have|gets?|counts?|fills?) "
    r"(?:(?:just|always|only|its|their|for|over|on|up) )*(?:a|an|one|two|three|1|2|3|1 & 2|half) (?:\w+ )?"
    r"(?:counts?|beats?|each)\b"
)
"""How long steps last, wherever they come: "every shuffle takes two counts", "other steps are one count each"."""

_NUMBER = r"(?:a|an|one|two|three|four|half|1|2|3|4)"
_BEATS = r"(?:beats?|counts?|cts?|bts?)"
_LASTS = re.compile(
    rf"\b(?:takes?|has|have|gets?|is|are|lasts?|counts? as|means?|equals?|worth|=|for|in|to|on|over) "
    rf"(?:just |only |exactly |always |up )?{_NUMBER} (?:full |whole |single )?{_BEATS}\b|"
    rf"\b(?:one|1|a) {_BEATS} (?:per|each|apiece|(?:for|to) (?:each|every|a|an|one|all)|a|an) \w+|"
    rf"\b{_NUMBER} {_BEATS} (?:each|apiece|every time)\b"
)
_ALL = re.compile(r"\b(?:every|each|all|any|everything|per|(?:an?|the) (?:\w+ )?\w+ (?:is|takes?|has|gets?|lasts?))\b")
_FEET = {"right", "left", "r", "l", "rf", "lf", "lt", "rt"}


def plays_parts(tokens: Sequence[Token]) -> bool:
    """Whether a line names parts again and again, as only what tells their order does: "then A again, then B"."""
    named = [at for at, token in enumerate(tokens) if token.text in _LETTERS or token.low in _SONG]
    spelled = [at for at in named if not _is_an_article(tokens, at)]
    return len(spelled) >= _OFTEN and len({tokens[at].low for at in spelled}) > 1


def _is_an_article(tokens: Sequence[Token], at: int) -> bool:
    opens = not at or tokens[at - 1].text in (".", "!", "?", ":")
    return tokens[at].text == "A" and opens and at + 1 < len(tokens) and tokens[at + 1].kind == "word"


def tells_how_long(tokens: Sequence[Token]) -> bool:
    """Whether a sentence only tells how long steps of a kind are: it tells none itself."""
    said = " ".join(token.low for token in tokens)
    if any(token.low in _FEET for token in tokens):
        return _COUNTED_SO.match(said) is not None
    return _COUNTED_SO.match(said) is not None or bool(_LASTS.search(said) and _ALL.search(said))
