"""Short forms of what is done in a wall: "W5: R/S after ct 8", "W2: T at end", "W5: R @ 8"."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.words import Token

_STARTS = {"s", "st", "start", "starts", "sts"}
_AT = {"after", "@", "at", "aft"}
_ENDS = {"at", "end", "@", "after", "+"}


def short_act(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """Return a restart told by its first letters, or a tag or restart by one letter behind its wall."""
    token = tokens[at]
    lows = [one.low for one in tokens[at : at + 3]]
    if lows[0] in ("r", "re") and lows[1:2] in (["/"], ["\\"]) and lows[2:3] and lows[2] in _STARTS:
        return Lexeme("R", at, at + 3)
    told = "".join(one.kind for one in found[-3:]).rstrip(":-,=(").endswith(("wn", "ow"))
    if not told or lows[1:2] == [] or token.text not in ("R", "T"):
        return None
    if (
        token.text == "R"
        and lows[1] in _AT
        and len(lows) > 2
        and (tokens[at + 2].kind == "number" or lows[2] in _COUNTS)
    ):
        return Lexeme("R", at, at + 1)
    return Lexeme("T", at, at + 1) if token.text == "T" and lows[1] in _ENDS else None


_COUNTS = {"count", "counts", "ct", "cts", "beat", "section", "sec", "the", "first"}
