"""Short forms with a stroke within, "f/w" and "b/w", told as ones without; columns stay true.

Common practice, no source.
"""

import re

_SLASHED = {"f/w": "fwd", "f/d": "fwd", "b/w": "bwd", "b/k": "bwd"}
_WORD = re.compile(rf"(?<![\w/])(?:{'|'.join(_SLASHED)})(?![\w/])", re.IGNORECASE)


def with_slashed_words(text: str) -> str:
    """Return the text, such words without their stroke."""
    return _WORD.sub(lambda match: _SLASHED[match[0].lower()], text)
