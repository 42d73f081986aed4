"""Marks of punctuation among steps: which part them, and which only join or shorten words."""

from collections.abc import Iterator, Sequence

from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.words import Token

_BREAKS = set(",.;:/+|>=!?•*")
STEP_WORDS = {"side", "together", "close", "behind", "cross", "step", "back", "forward", "front", "touch", "tog", "tg"}
_CLOSING = {"together", "tog", "tg", "close", "behind", "cross"}


def mark_lexemes(tokens: Sequence[Token], at: int) -> Iterator[Lex]:
    """Yield what a mark of punctuation is to the steps about it: a break, a bracket, or nothing."""
    token = tokens[at]
    if token.text == "." and _shortens(tokens, at):
        return
    if token.text in "([{<" and token.text != "<":
        yield Lex("open", None, token.text, token.span)
    elif token.text in ")]}":
        yield Lex("close", None, token.text, token.span)
    elif token.text in "/." and at and tokens[at - 1].low == "w" and token.glued:
        return
    elif token.text in _BREAKS:
        yield Lex("break", token.text, token.text, token.span)
    elif token.text in ("-", "~"):
        inside = token.glued and at + 1 < len(tokens) and tokens[at + 1].glued
        beside = {tokens[at - 1].low, tokens[at + 1].low} if inside and at else {""}
        if beside <= STEP_WORDS or (beside <= STEP_WORDS | {"right", "left"} and beside & _CLOSING):
            # "Side-close-side".
            inside = False
        if inside and _next_acts(tokens, at):
            inside = False
        if not inside:
            yield Lex("break", "-", "-", token.span)


def _next_acts(tokens: Sequence[Token], at: int) -> bool:
    """Whether a hyphen parts a step whose foot is told from that of the next foot: "R side-L behind-1/4R R fwd"."""
    after = tokens[at + 1]
    turned = at > 1 and (tokens[at - 2].kind == "fraction" or tokens[at - 2].low in ("quarter", "half", "qtr", "hlf"))
    if (tokens[at - 1].low in _ACTING and not turned) or not (after.low in _ACTING or after.kind == "fraction"):
        return False
    for before in reversed(tokens[:at]):
        if before.low in _ACTING:
            return True
        if before.text in _BREAKS or before.text in ("-", "(", ")"):
            return False
    return False


_ACTING = {"r", "l", "rf", "lf", "right", "left"}


def _shortens(tokens: Sequence[Token], at: int) -> bool:
    """Whether a full stop only shortens the word before it: "step fwd. R., brush L. fwd."."""
    if not at or not tokens[at].glued or tokens[at - 1].low not in _DOTTED or at + 1 == len(tokens):
        return False
    before, after = tokens[at - 1].low, tokens[at + 1]
    if after.kind == "mark" or after.glued:
        return True
    if (before in _FEET and after.kind == "fraction") or (before in _ACTING and _names_a_foot(after)):
        # "RF step forward. LF lock behind RF. RF step forward."
        return False
    # A sentence of steps begins with a longer word in capitals.
    return after.kind != "word" or after.text[0].islower() or len(after.text) < _SHORTEST


def _names_a_foot(token: Token) -> bool:
    return token.low in _ACTING and token.text.isupper()


_FEET = {"rf", "lf"}
"""Short forms of a foot that are never the side to which it goes."""
_DOTTED = {
    "fwd", "bk", "bkwd", "r", "l", "rt", "lt", "rf", "lf", "wt", "tog", "tg", "tch", "beh", "sd", "diag", "ft", "x",
}  # fmt: skip
_SHORTEST = 3


_LEADS_ON = {
    "and", "then", "with", "the", "your", "a", "an", "to", "on", "of", "in", "at", "by", "for", "over", "behind",
    "into", "onto", "while", "as", "or", "from", "its", "it", "step", "stepping", "turn", "turning", "weight",
}  # fmt: skip
"""Words after which a line goes on, whatever its first letter."""


def begins_anew(before: Token, token: Token) -> bool:
    """Whether a word opens another line as a sentence does: "..., hold" over "Quarter turn left stepping left"."""
    if token.line <= before.line or before.kind != "word" or token.kind != "word" or before.low in _LEADS_ON:
        return False
    return token.text[0].isupper() and token.text[1:].islower()


_AMOUNTS = {"half", "quarter", "full", "whole", "quarters"}


def is_a_turn(tokens: Sequence[Token], at: int) -> bool:
    """Whether a T is a turn's, an amount beside it: "1/4 T to L", "T ½ R"; elsewhere it may be a touch or a toe."""
    if tokens[at].low not in ("t", "t."):
        return False
    near = (*tokens[max(at - 1, 0) : at], *tokens[at + 1 : at + 2])
    return any(token.kind == "fraction" or token.low in _AMOUNTS for token in near)
