"""A wall left on a count whose closing half beat is not danced: "to count 8 of section 3, without the a".

Counts that are left take in the & or a that closes their section; where a teacher says that it is left out, the wall is
left before it. What is said of it besides, the turn that it would bring, is a remark.
"""

import re
from collections.abc import Sequence
from itertools import accumulate, pairwise
from typing import NamedTuple

from trainer.sheet.prose.order.claims.claims import Claim, Wall
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.words import Token
from trainer.terms import Label

_QUOTES = {'"', "'", "“", "”", "‘", "’", "«", "»", "`"}
_HALVES: dict[str, Label] = {"&": "&", "and": "&", "a": "a", "e": "e"}
_HALF_LEFT_OUT = re.compile(
    r"\b(?:(?:leav(?:e|es|ing)|miss(?:es|ing)?|cut(?:s|ting)?) (?:out|off)|leav(?:e|es|ing)|omit(?:s|ting)?|"
    r"skip(?:s|ping)?|drop(?:s|ping)?|forget|ignore|without|minus|(?:but |and )?not|no|never|"
    r"(?:do not|don't|dont) (?:do|dance|step)|"
    r"(?:stop(?:s|ping)? |leav(?:e|es|ing) |restart(?:s|ing)? |(?:just|right) )?before|ahead of) "
    r"(?:(?P<the>the|its|that|this|his) )?(?:(?:last|final|closing|little|trailing|extra|half beat) )*"
    r"(?:count |(?P<number>\d+) )?(?P<half>&|a|e|and)(?= (?P<after>\S+)|$)"
)
_HALF_NOT_DANCED = re.compile(
    r"\b(?:the|its|that) (?:last |final |closing )?(?P<half>&|a|e|and)"
    r"(?: (?:of|on|after|behind) (?:the )?(?:count )?(?:\d+|\w+))?(?: with [^.,;]{1,20})? "
    r"(?:(?:is|are|gets?|does) (?:not|never) (?:danced|done|stepped|taken|happen|there)|"
    r"isn't (?:danced|done|stepped|taken)|"
    r"(?:is|gets) (?:left (?:out|off)|omitted|skipped|dropped|cut(?: off| out)?|lost))"
)
"""The half beat as what is not danced: "the a of count 8 is left out"."""
_ITS_TURN = re.compile(
    r"^ ?(?:(?:with|and|,) (?:its|the|that)|\( ?(?:with |and )?(?:its|the|that|no)) "
    r"[^.;,()]{0,24}?\bturn\b( right| left)?( \))?"
)
"""Behind a half beat that is left out: the turn that goes with it."""
_GOES_ON = {
    "count", "counts", "beat", "half", "step", "with", "of", "on", "after", "at", "out", "off", "and", "then", "so",
    "for", "in", "here", "there", "altogether", "which", "that", "is", "where", "begin", "start", "restart", "turn",
    "but",
}  # fmt: skip
"""Words that may follow a half beat; others make an article of the a: "leave out a clap"."""


class HalfLeftOut(NamedTuple):
    """A half beat that is not danced."""

    token: Token
    number: int = 0
    """The count that it is told with, 0 without: "not 8a"."""


def half_left_out(tokens: Sequence[Token]) -> HalfLeftOut | None:
    """Return the half beat that a line of the order says is not danced."""
    plain = [token for token in tokens if token.text not in _QUOTES]
    quoted = {after.column for before, after in pairwise(tokens) if before.text in _QUOTES}
    words, starts = _words(plain)
    if (passive := _HALF_NOT_DANCED.search(words)) is not None:
        return HalfLeftOut(plain[starts[passive.start("half")]])
    for found in _HALF_LEFT_OUT.finditer(words):
        half, after = plain[starts[found.start("half")]], found["after"] or ""
        sure = bool(found["number"]) or half.column in quoted or half.text == "&"
        ends = not after[:1].isalnum() or after in _GOES_ON
        if ends and (sure or bool(found["the"]) or not after[:1].isalnum()):
            return HalfLeftOut(half, int(found["number"] or 0))
    return None


def without_its_turn(tokens: Sequence[Token], half: Token) -> tuple[Token, ...]:
    """Return a line of the order without the turn that is left out with a half beat."""
    at = tokens.index(half) + 1
    at += at < len(tokens) and tokens[at].text in _QUOTES
    words, starts = _words(tokens[at:])
    found = _ITS_TURN.match(words)
    if found is None:
        return tuple(tokens)
    left = max((place for start, place in starts.items() if start < found.end()), default=-1) + 1
    return (*tokens[:at], *tokens[at + left :])


def _words(tokens: Sequence[Token]) -> tuple[str, dict[int, int]]:
    """Return the words of tokens as one text, and which token begins where in it."""
    starts = accumulate((len(one.low) + 1 for one in tokens), initial=0)
    return " ".join(token.low for token in tokens), {start: at for at, start in enumerate(starts) if at < len(tokens)}


def leave_before_it(ledger: Ledger, unit: int, half: HalfLeftOut) -> None:
    """Let what a line claims last before it names a half beat happen before that one."""
    place = (half.token.line, half.token.column)
    told = [
        claim
        for wall in ledger.walls.values()
        for claim in wall.claims
        if claim.unit == unit and _is_a_place(claim, wall) and (claim.span.line, claim.span.column) <= place
        # "Restart on 6, leave out 7a and 8a" only says what is not reached.
        if not half.number or half.number in _called(ledger, wall, claim.after)
    ]
    last = max(((claim.span.line, claim.span.column) for claim in told), default=None)
    for claim in told:
        if (claim.span.line, claim.span.column) == last and claim.before is None:
            claim.before = _HALVES[half.token.low]


def _called(ledger: Ledger, wall: Wall, after: int) -> set[int]:
    """Return what a count is called: its number in the dance, and that in its section."""
    start = max((end for end in ledger.ruler(wall.key[0]).ends if end < after), default=0)
    return {after, after - start, (after - start - 1) % ledger.known.phrase + 1}


def _is_a_place(claim: Claim, wall: Wall) -> bool:
    return claim.after < wall.length and not claim.change and (claim.leave != "continue" or bool(claim.inserts))
