"""The steps that a sentence tells of an extra, from the first of them to the last."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS
from trainer.sheet.prose.plays.paragraphs import speaks_of_steps
from trainer.sheet.prose.words import Token

_UNITS = {"count", "counts", "beats", "cts"}
_VERB = 2
"""Words of a verb and what stands before its object."""
_FEET = {"left", "right", "l", "r", "lf", "rf", "lt", "rt", "foot", "feet"}
BRACKETS = {"(": ")", "[": "]", "{": "}"}
"""In which counts may stand."""
_BEHIND_A_COUNT = (*BRACKETS.values(), "-", ",", "&")
_NO_STEPS = {"over", "back", "up", "out", "home", "full", "slow", "return", "place", "repeat"}
"""Words of steps that alone tell none: "the same chorus over again"."""
_LENGTH = 5
"""Words that tell a length."""


def body_in(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the steps among some words: from the mark or the count that opens them to the last of them."""
    tail = next(
        (at for at, token in enumerate(tokens) if token.text == ":" and _is_length(tokens[at + 1 :])), len(tokens)
    )
    tokens = tokens[:tail]
    spoken = [at for at, token in enumerate(tokens) if speaks_of_steps(token)]
    first = spoken[0] if spoken else None
    if first is None or all(tokens[at].low in _NO_STEPS or _of_the_stance(tokens, at) for at in spoken):
        return ()
    for at, token in enumerate(tokens):
        # What stands before a colon only says what the steps are: "is four counts of standing still: hold, hold".
        if token.text == ":" and any(speaks_of_steps(one) for one in tokens[at + 1 :]):
            first = at - 2 if _counts_steps(tokens, at) else at + 1
            later = next((more for more in range(first, len(tokens)) if tokens[more].text == ":"), first)
            if first > at and _is_length(tokens[first:later]):
                # "Tag: 4 counts: step right".
                first = later + 1
            break
    else:
        opened = first
        while opened and (tokens[opened - 1].kind in ("number", "amp") or tokens[opened - 1].low in NUMBERS or (
            tokens[opened - 1].text == "-" and opened > 1 and tokens[opened - 2].kind == "number"
        )):  # fmt: skip
            opened -= 1
        first = 0 if _opens_with_a_verb(tokens, opened) else opened
    while first < len(tokens) and tokens[first].kind == "mark" and tokens[first].text not in ("(",):
        first += 1
    last = _past_hold(tokens, max(at for at, token in enumerate(tokens) if speaks_of_steps(token)) + 1)
    closed = max((at for at in range(last, len(tokens)) if _closes_count(tokens, at)), default=-1)
    last = max(last, closed + 1)
    while last < len(tokens) and tokens[last].text == ")":
        last += 1
    return tuple(tokens[first : _past_counts(tokens, last)])


def _past_hold(tokens: Sequence[Token], last: int) -> int:
    """Return where the last step ends, with the counts for which it is held: "step R forward and hold 3 counts"."""
    if tokens[last - 1].low not in ("hold", "pause", "freeze", "wait"):
        return last
    at = last + (last < len(tokens) and tokens[last].low == "for")
    counted = at + 1 < len(tokens) and (tokens[at].kind == "number" or tokens[at].low in NUMBERS)
    return at + 2 if counted and tokens[at + 1].low in ("counts", "count", "beats", "cts") else last


def _opens_with_a_verb(tokens: Sequence[Token], first: int) -> bool:
    """Whether the first words of a sentence say what is done with the feet named next: "Drum the feet", "Rub both"."""
    verb = first == _VERB and tokens[0].kind == "word" and tokens[0].text[0].isupper()
    return verb and tokens[1].low in ("the", "your", "our", "both")


def _past_counts(tokens: Sequence[Token], at: int) -> int:
    """Return the index after counts told behind the last step: "step R on 1 and hold on 2", "hold for 3 counts"."""
    at += at < len(tokens) and tokens[at].low in ("it", "them", "that", "home", "place")
    if at + 1 >= len(tokens) or tokens[at].low not in ("on", "for") or _number(tokens[at + 1]) is None:
        return at
    at += 2
    while at + 1 < len(tokens) and tokens[at].low in ("and", ",", "-", "&") and _number(tokens[at + 1]) is not None:
        at += 2
    return at + (at < len(tokens) and tokens[at].low in _UNITS)


def _is_length(tokens: Sequence[Token]) -> bool:
    """Whether words only tell how long the steps before them are: "four slow counts."."""
    words = [token for token in tokens if token.kind != "mark"]
    return 1 < len(words) <= _LENGTH and words[-1].low in _UNITS and any(_number(one) is not None for one in words)


def _counts_steps(tokens: Sequence[Token], at: int) -> bool:
    """Whether "4 sways" stands before a colon: what follows are their sides."""
    return at >= 2 and _is_plural(tokens[at - 1]) and _number(tokens[at - 2]) is not None


def _is_plural(token: Token) -> bool:
    return token.kind == "word" and token.low.endswith("s") and speaks_of_steps(token) and token.low != "steps"


def _number(token: Token) -> int | None:
    return int(token.text) if token.kind == "number" and token.text.isdecimal() else NUMBERS.get(token.low)


def _of_the_stance(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word says on which foot one stands: "8 counts danced, weight on the left"."""
    before = [token.low for token in tokens[max(at - 3, 0) : at + 1]]
    return bool({"weight", "wt"} & set(before)) and tokens[at].low in _FEET | {"weight", "wt"}


def mostly_steps(tokens: Sequence[Token]) -> bool:
    """Whether words tell steps, and no remark in which a word of steps stands by chance."""
    words = [token for token in tokens if token.kind in ("word", "fraction")]
    return tokens[0].text != "(" and sum(map(speaks_of_steps, words)) >= 0.3 * len(words)


def _closes_count(tokens: Sequence[Token], at: int) -> bool:
    """Whether counts in brackets stand after the last step: "hold (3-4)"."""
    opened = next((index for index in range(at, max(at - 5, -1), -1) if tokens[index].text in BRACKETS), None)
    if opened is None:
        return False
    closing = BRACKETS[tokens[opened].text]
    closed = next(
        (index for index in range(opened, min(opened + 7, len(tokens))) if tokens[index].text == closing), None
    )
    inside = tokens[opened + 1 : closed] if closed else ()
    counts = all(one.kind in ("number", "mark", "amp") or one.low in NUMBERS or one.low == "and" for one in inside)
    return closed is not None and at <= closed and counts and any(_number(one) is not None for one in inside)


def plural_in(body: Sequence[Token]) -> tuple[int, list[Token]] | None:
    """Return how many steps of one kind some words tell, and those words without the number: "4 sways: R, L, R, L"."""
    many = _number(body[0]) if len(body) > 2 else None
    if many is None or not body[1].low.endswith("s") or body[1].kind != "word" or body[1].glued:
        return None
    return many, [body[1], *body[3 if body[2].text in (",", ":", "-") else 2 :]]


def with_first_counts(body: Sequence[Token]) -> tuple[Token, ...]:
    """Give the first step its counts where only the later ones have theirs: "hold 2 counts, then stomp R (3)"."""
    opened = [
        at
        for at in range(len(body) - 2)
        if body[at].text in BRACKETS
        and body[at + 1].kind == "number"
        and body[at + 2].text in (")", "]", "-", ",", "&")
    ]
    if not opened or not body[opened[0] + 1].text.isdecimal():
        return tuple(body)
    start = int(body[opened[0] + 1].text)
    apart = [at for at in range(opened[0]) if body[at].text in (",", ";") or body[at].low == "then"]
    first = apart[0] if apart else 0
    if start < 2 or not first or any(at > first + 1 for at in apart) or body[0].kind in ("number", "amp"):
        return tuple(body)
    bracket, one, close = body[opened[0]], body[opened[0] + 1], body[opened[0]]
    dash = replace(bracket, text="-", low="-", glued=True)
    counts = [replace(one, text="1", low="1")]
    if start > 2:
        counts += [dash, replace(one, text=str(start - 1), low=str(start - 1), glued=True)]
    closing = BRACKETS[bracket.text]
    return (*body[:first], bracket, *counts, replace(close, text=closing, low=closing, glued=True), *body[first:])
