"""The count that some steps reach, told in words behind them: "... and kick left forward, that's 4", "..., 8 gone".

Each is told as the count of the last step, "on 4". What only glosses a figure by its ways, "vine right, so side behind
side, and touch", is passed over. Common talk of classes, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEADS = (
    ("that's",), ("which", "is"), ("which", "makes"), ("that", "makes"), ("making",), ("that", "is"), ("there's",),
    ("that's", "your"), ("that's", "the", "first"), ("that's", "our"), ("and", "that's"), ("and", "that", "is"),
    *((that, "takes", us, "to") for that in ("which", "that") for us in ("us", "you")),
)  # fmt: skip
_GONE = {"gone", "done", "down", "counted"}
_HIGHEST = 8
_COUNTS = {"counts", "count", "beats"}
_STEPS = 3
"""Words of steps before such a count, at least."""
_GLOSSES = (("so",), ("that's",), ("ie",), ("i", ".", "e", "."), ("meaning",), ("you", "know"))
_FIGURES = {"grapevine", "vine", "weave", "chasse", "shuffle", "coaster", "lock", "sailor", "triple"}
_WAYS = {
    "side", "behind", "cross", "front", "together", "close", "back", "forward", "step", "over", "tog", "tg", "beside",
}  # fmt: skip
_CLOSES = {",", ".", ";", ")", "and", "then"}
_NEAR = 6
"""Tokens between a figure's name and its gloss."""


def with_counts_reached(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the count that is reached at the end of each told as that of its last step."""
    return tuple(
        replace(line, tokens=told) if (told := _told(_unglossed(line.tokens))) != line.tokens else line
        for line in lines
    )


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    end = len(tokens) - (len(tokens) > 1 and tokens[-1].text in ".!")
    gone = end > 1 and tokens[end - 1].low in _GONE
    at = end - 1 - gone
    at -= at > 0 and not gone and tokens[at].low in _COUNTS
    if at < _STEPS or not 1 < (count := count_told(tokens[at]) or 0) <= _HIGHEST:
        return tokens
    lead = max((one for one in _LEADS if _stands(tokens, at - len(one), one)), key=len, default=())
    first = at - len(lead)
    comma = first > 0 and tokens[first - 1].text in (",", "-", ";")
    before = tokens[: first - comma]
    start = max((place + 1 for place, one in enumerate(before) if one.text in (".", ":", "!")), default=0)
    steps = sum(one.low in STEP_WORDS for one in before[start:])
    if not (lead or gone) or not comma or steps < _STEPS or any(count_told(one) for one in before[start:]):
        return tokens
    number = replace(tokens[at], kind="number", text=str(count), low=str(count), glued=False)
    return (*before, replace(number, kind="word", text="on", low="on"), number, *tokens[end:])


def _stands(tokens: Sequence[Token], at: int, words: Sequence[str]) -> bool:
    return at > 0 and [token.low for token in tokens[at : at + len(words)]] == list(words)


def _unglossed(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return a line without the ways that only gloss the name of a figure before them."""
    for at, token in enumerate(tokens):
        if token.text not in (",", "(") or not {one.low for one in tokens[max(at - _NEAR, 0) : at]} & _FIGURES:
            continue
        lead = max((one for one in _GLOSSES if _stands(tokens, at + 1, one)), key=len, default=())
        first = last = at + 1 + len(lead)
        while last < len(tokens) and tokens[last].low in _WAYS:
            last += 1
        closed = last < len(tokens) and tokens[last].low in _CLOSES
        if lead and last - first > 2 and closed:
            last += token.text == "(" and tokens[last].text == ")"
            return _unglossed((*tokens[:at], *tokens[last:]))
    return tokens
