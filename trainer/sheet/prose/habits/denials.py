"""What a sheet says that it has not, told in one way: "there isn't a single tag", "tag-free", "tags/restarts: 0"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_EXTRAS = {"tag", "tags", "restart", "restarts", "bridge", "bridges", "ending", "endings"}
_NOT = {
    "isn't", "isnt", "aren't", "arent", "ain't", "aint", "won't", "wont", "haven't", "havent", "hasn't", "hasnt", "not",
    "doesn't", "doesnt", "don't", "dont", "nary", "nowhere", "never", "wasn't", "weren't", "nothing",
}  # fmt: skip
_BETWEEN = {
    "a", "an", "any", "single", "one", "sign", "trace", "of", "hint", "find", "have", "has", "got", "see", "be", "need",
    "such", "thing", "as", "even", "with", "you", "ever", "include", "contain", "in", "sight", "so", "much", "like",
}  # fmt: skip
_MOST = 5
_SENTENCE = 14
_GOES_ON = 6
"""Tokens that follow such a sentence where more than a wish is said after it."""
_PLACES = {"wall", "walls", "after", "before", "until", "except", "but", "only", "first", "last", "when", "on", "time"}
_JOINS = {"/", "&", "and", "or", ",", "?", "nor", "+"}
_NONE = {"0", "none", "nil", "no", "nope", "never", "zero", "nowt", "not"}


def with_denials(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, what denies extras said with "no" and "none"."""
    done: list[Line] = []
    for line in lines:
        if not any(token.low in _EXTRAS for token in line.tokens):
            done.append(line)
            continue
        told = replace(line, tokens=_told(line.tokens))
        # What is denied before the steps of a line tells nothing more of them.
        done.append(replace(told, tokens=told.tokens[_first_sentence(told.tokens) :]))
    return tuple(done)


def _first_sentence(tokens: Sequence[Token]) -> int:
    """Return the length of sentences that only deny extras and open a line that goes on to steps; 0 where none do."""
    first = end = 0
    for at, token in enumerate(tokens):
        if token.text not in (".", "!"):
            continue
        said = {one.low for one in tokens[first : at + 1]}
        denies = bool(said & _EXTRAS) and bool(said & {"no", "without", "none"}) and not said & _PLACES
        if not denies or at - first > _SENTENCE or _counts(tokens[first:at]):
            break
        first = end = at + 1
    counted = any(one.kind == "number" or one.low in NUMBERS for one in tokens[end:])
    return end if counted and len(tokens) - end >= _GOES_ON else 0


def _counts(tokens: Sequence[Token]) -> bool:
    """Whether a sentence has a number, and so may say what there is: "one restart, no tags"."""
    return any(one.kind == "number" or (one.low in NUMBERS and one.low not in _NONE) for one in tokens)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    return _none_of(_free_of(_without(tokens)))


def _without(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens with "isn't a single tag" as "no tag"."""
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        end = at + 1
        while end < len(tokens) and end - at <= _MOST and tokens[end].low in _BETWEEN:
            end += 1
        filled = end > at + 1 and end < len(tokens) and tokens[end].low in _EXTRAS
        if tokens[at].low in _NOT and filled:
            done.append(replace(tokens[at], text="no", low="no"))
            at = end
            continue
        done.append(tokens[at])
        at += 1
    return tuple(done)


def _free_of(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens with "tag-free" and "free of tags" as "no tag"."""
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        rest = [token.low for token in tokens[at : at + 4]]
        if rest[:1] and rest[0] in _EXTRAS and rest[1:3] in (["-", "free"], ["-", "less"]):
            done += [replace(tokens[at], text="no", low="no"), replace(tokens[at], glued=False)]
            at += 3
        elif rest[:1] and rest[0] in _EXTRAS and rest[1:2] == ["free"]:
            done += [replace(tokens[at], text="no", low="no"), replace(tokens[at], glued=False)]
            at += 2
        elif rest[:2] == ["free", "of"] and rest[2:3] and rest[2] in _EXTRAS:
            done.append(replace(tokens[at], text="no", low="no"))
            at += 2
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)


def _none_of(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the tokens with "tags/restarts: 0" and "tags? restarts? none!" as "no tags, no restarts"."""
    for at, token in enumerate(tokens):
        if token.low not in _EXTRAS:
            continue
        end, named = at, [at]
        while end + 2 < len(tokens) and tokens[end + 1].low in _JOINS and tokens[end + 2].low in _EXTRAS:
            end += 2
            named.append(end)
        sign = tokens[end + 1] if end + 1 < len(tokens) else None
        if sign is None or sign.text not in (":", "-", "?", "=") or end + 2 >= len(tokens):
            continue
        after = tokens[end + 3] if end + 3 < len(tokens) else None
        ends = after is None or after.kind == "mark" or after.low in ("and", "at", "all", "whatsoever", "in")
        if tokens[end + 2].low in _NONE and ends and not (after is not None and after.low in _EXTRAS):
            told = [part for place in named for part in (_no(tokens[place]), tokens[place])]
            return (*tokens[:at], *told, *tokens[end + 3 :])
    return tokens


def _no(token: Token) -> Token:
    return replace(token, text="no", low="no")
