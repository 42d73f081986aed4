"""The steps that a row of a list of walls tells: "then a rocking chair (right forward, recover, ...)"."""

from collections.abc import Sequence

from trainer.sheet.prose.listings.sayings import TELLING
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_FEET = words_in("l r left right lf rf lh rh")
_COUNTS = words_in("count counts ct cts beat beats")
_FEWEST = 2
"""Commas between steps that are spelled out."""


def steps_from(tokens: Sequence[Token], at: int) -> tuple[tuple[Token, ...], int]:
    """Return the steps that a row tells from an index on, and the index after them; none where no foot is named."""
    end = next((end for end in range(at, len(tokens)) if tokens[end].text in (BREAK, ")", ";")), len(tokens))
    steps = tokens[at:end]
    opened = next((place for place, token in enumerate(steps) if token.text == "("), None)
    if opened is not None and sum(token.text == "," for token in steps[opened:]) >= _FEWEST:
        # "A rocking chair (right forward, recover, right back, recover, 4 counts at 9)" is spelled out.
        steps, end = _without_length(steps[opened + 1 :]), end + 1
    while steps and steps[-1].text in (".", "!", ","):
        steps, end = steps[:-1], end - (opened is None)
    footed = any(token.low in _FEET for token in steps)
    told = footed and not TELLING.search(" ".join(token.low for token in steps))
    return (tuple(steps), end) if told else ((), at)


def _without_length(steps: Sequence[Token]) -> Sequence[Token]:
    """Return steps without how many counts they are at their end."""
    comma = max((at for at, token in enumerate(steps) if token.text == ","), default=0)
    last = steps[comma + 1 :]
    return steps[:comma] if comma and any(token.low in _COUNTS for token in last) else steps
