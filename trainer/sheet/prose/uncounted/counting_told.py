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
    return _COUNTED_SO.match(" ".join(token.low for token in tokens)) is not None
