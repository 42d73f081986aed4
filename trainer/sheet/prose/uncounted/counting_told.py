"""What a sheet says of how its steps are counted wherever they come: "every shuffle takes two counts, others one"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.words import Token

_COUNTED_SO = re.compile(
    r"^(?:(?:and|but|so|note|remember|that|the) )*(?:every|each|all|any|other|others|single|rest|anything|everything|"
    r"plain|ordinary|a|an)\b(?!.*\b(?:then|right|left)\b).*\b(?:takes?|lasts?|is|are|has|have|gets?|counts?|fills?) "
    r"(?:(?:just|always|only|its|their|for|over|on|up) )*(?:a|an|one|two|three|1|2|3|1 & 2|half) (?:\w+ )?"
    r"(?:counts?|beats?|each)\b"
)
"""How long steps last, wherever they come: "every shuffle takes two counts", "other steps are one count each"."""


def tells_how_long(tokens: Sequence[Token]) -> bool:
    """Whether a sentence only tells how long steps of a kind are: it tells none itself."""
    return _COUNTED_SO.match(" ".join(token.low for token in tokens)) is not None
