"""Words of steps that a full stop shortens, on pages that do so often: "rk. Rt. to side, rec. Lt., cr. shuf.".

Such a full stop ends no sentence, and what is left of the word may be too short to be known by itself. Common practice,
no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_WORDS = {
    "across": "acr", "back": "bk bck bkwd bwd", "balance": "bal", "ball": "bl", "behind": "beh bhd bhnd behd",
    "beside": "bes bsd", "brush": "br brsh", "bump": "bmp", "change": "chg chng", "chasse": "chas chs", "clap": "clp",
    "click": "clk", "close": "cl cls", "coaster": "cst coast cstr", "cross": "cr crs crss xs", "diagonal": "diag",
    "drag": "drg", "flick": "flk", "foot": "ft", "forward": "fwd fd forw frwd", "front": "frt frnt",
    "grapevine": "gv gvine", "half": "hlf", "heel": "hl", "hip": "hp", "hitch": "ht htch", "hold": "hld",
    "hook": "hk", "jump": "jmp", "kick": "kk kck", "lock": "lk lck", "mambo": "mamb", "monterey": "mont",
    "over": "ovr", "paddle": "pad", "pivot": "piv pvt", "point": "pt pnt", "press": "prs", "quarter": "qtr quar",
    "recover": "rec recov rcv rcvr", "replace": "repl", "right": "rgt", "left": "lft", "rock": "rk rck",
    "sailor": "sail slr", "scuff": "scf scuf", "shuffle": "shuf shuff shf shfl", "side": "sd", "slide": "sl sld",
    "snap": "snp", "step": "stp", "stomp": "stmp stom", "sway": "sw swy", "sweep": "swp", "swivel": "swiv swvl",
    "together": "tog tg togr", "touch": "tch", "triple": "trip trpl", "turn": "tn trn", "twist": "twst",
    "unwind": "unw unwd", "vine": "vn", "with": "w", "walk": "wk wlk", "weave": "wv", "weight": "wt", "r": "r",
    "l": "l", "rt": "rt", "lt": "lt", "rf": "rf", "lf": "lf",
}  # fmt: skip
_WHOLE = {short: word for word, shorts in _WORDS.items() for short in shorts.split()}
_OFTEN = 4
"""So many shortened words make it the page's way."""
_FEET = {"r", "l", "rt", "lt", "rf", "lf"}
"""These are often the last of a sentence, and are known as they are."""
_NAME = 3
"""A longer word in capitals behind a full stop opens a sentence, or is a name: "Dr. Marsh"."""


def with_whole_words(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with shortened words whole, if the page has many."""
    told = [[at for at in range(len(line.tokens)) if _is_shortened(line.tokens, at)] for line in lines]
    if (
        sum(line.tokens[at].low not in _FEET for line, places in zip(lines, told, strict=True) for at in places)
        < _OFTEN
    ):
        return tuple(lines)
    return tuple(
        replace(line, tokens=_whole(line.tokens, set(places))) if places else line
        for line, places in zip(lines, told, strict=True)
    )


def _is_shortened(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token is a shortened word of steps with its full stop."""
    token = tokens[at]
    if token.low not in _WHOLE or at + 1 == len(tokens) or tokens[at + 1].text != "." or not tokens[at + 1].glued:
        return False
    if token.text == "W":
        return False  # an initial: "B.W."
    after = tokens[at + 2] if at + 2 < len(tokens) else None
    if after is None or after.kind == "mark":
        return True
    if token.low in _FEET:
        return after.kind == "word" and after.text[0].islower()
    named = after.kind == "word" and after.text[0].isupper() and not after.text.isupper() and len(after.text) > _NAME
    return after.kind != "number" and not (named and tokens[at].text[0].isupper())


def _whole(tokens: Sequence[Token], places: set[int]) -> tuple[Token, ...]:
    done = []
    for at, token in enumerate(tokens):
        if at in places:
            word = _WHOLE[token.low]
            done.append(replace(token, text=token.text if word == token.low else _written(word, token), low=word))
        elif at - 1 not in places or _ends(tokens, at):
            done.append(token)
    return tuple(done)


def _ends(tokens: Sequence[Token], at: int) -> bool:
    """Whether a full stop ends a sentence too: "L fwd. Touch R behind L."."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    word = after is not None and after.kind == "word" and len(after.text) > _NAME
    return word and after is not None and after.text[0].isupper() and after.text[1:].islower()


def _written(word: str, token: Token) -> str:
    return word.capitalize() if token.text[0].isupper() else word
