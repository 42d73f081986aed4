"""The steps in a telling: what tells steps at all, without the talk beside them."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.stems import stems
from trainer.sheet.prose.lexis.vocabulary import FILLERS, STEP_WORDS
from trainer.sheet.prose.words import Token

_VAGUE = frozenset(
    ["out", "full", "over", "up", "repeat", "place", "weight", "wt", "return", "slow", "drop", "split", "back", "front"]
)
"""Words of steps that say nothing of one by themselves."""
_STEPPED = (STEP_WORDS - _VAGUE) | frozenset(
    ["hold", "holds", "held", "clap", "claps", "wait", "freeze", "kick", "halves", "chair", "holding"]
)
_STEPPING = stems(STEP_WORDS)
_CHATTER = frozenset(
    [
        "singer",
        "band",
        "music",
        "song",
        "drum",
        "drums",
        "you're",
        "see",
        "exception",
        "different",
        "joke",
        "trouble",
        "wall",
        "facing",
        "comes",
        "love",
        "lasts",
        "longer",
        "same",
        "written",
        "special",
        "repeat",
        "tag",
        "free",
    ]
)
"""Words of talk: a clause that has one tells no step."""
_KNOWN = FILLERS | frozenset(
    [
        "with",
        "and",
        "to",
        "on",
        "in",
        "at",
        "onto",
        "of",
        "then",
        "into",
        "from",
        "for",
        "by",
        "its",
        "next",
        "count",
        "counts",
        "going",
        "making",
        "taking",
        "ball",
        "big",
        "long",
        "small",
        "without",
        "no",
        "diagonal",
        "beside",
        "toward",
        "towards",
        "times",
        "time",
        "quick",
        "each",
    ]
)
VERBAL = frozenset(["has", "have", "come", "comes", "goes", "starts", "takes", "gets", "wall"])
"""Verbs that say something of the dance, and of no step."""
_OPENING = frozenset(
    [
        "with",
        "is",
        "are",
        "or",
        "there",
        "do",
        "a",
        "dance",
        "take",
        "go",
        "finally",
        "just",
        "only",
        "then",
        "and",
        "so",
        "you",
        "we",
        "it",
        "starts",
    ]
)
_CLOSING = frozenset(["with", "the", "is", "and", "or", "then", "it"])
_TURN_WORDS = frozenset(
    [
        "turn",
        "turns",
        "turning",
        "pivot",
        "pivots",
        "quarter",
        "half",
        "halves",
        "1/4",
        "1/2",
        "¼",
        "½",
        "a",
        "the",
        "at",
        "all",
        "both",
        "any",
        "left",
        "right",
        "to",
        "of",
        "second",
        "first",
        "2",
        "1",
        "th",
        "l",
        "r",
        "there",
        "this",
        "time",
        "on",
        "in",
        "last",
        "no",
        "more",
        "and",
        ",",
    ]
)
_TURNING = frozenset(
    ["turn", "turns", "turning", "pivot", "pivots", "quarter", "half", "halves", "1/4", "1/2", "¼", "½"]
)


def tells_steps(tokens: Sequence[Token]) -> bool:
    """Whether words speak of a step."""
    return any(token.low in _STEPPED for token in tokens)


def only_turns(tokens: Sequence[Token]) -> bool:
    """Whether words name a turn and nothing else: "both turns", "the second pivot"."""
    low = {token.low for token in tokens}
    return bool(low & _TURNING) and low <= _TURN_WORDS


def comma(token: Token) -> tuple[Token, ...]:
    """Return a comma at the place of a token."""
    return (replace(token, kind="mark", text=",", low=",", glued=True),)


def only_steps(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return steps without the clauses beside them that tell none; nothing where none are told."""
    clauses: list[list[Token]] = [[]]
    depth = 0
    for token in tokens:
        depth += (token.text in "([") - (token.text in ")]")
        clauses[-1].append(token)
        if token.text in (",", ":") and depth <= 0:
            clauses.append([])
    kept = [token for clause in clauses if not _is_talk(clause) for token in clause]
    while kept and _closes(kept):
        kept.pop()
    while kept and (kept[0].text in ",:)" or kept[0].low in _OPENING):
        kept.pop(0)
    return _onto(kept) if tells_steps(kept) else ()


def _closes(kept: Sequence[Token]) -> bool:
    """Whether the last word belongs to no step."""
    lows = [token.low for token in kept[-2:]]
    return kept[-1].text in ",:(" or lows[-1] in _CLOSING or lows in (["it", "a"], ["and", "stay"])


def _onto(kept: Sequence[Token]) -> tuple[Token, ...]:
    """Return steps with "on to" as one word."""
    onto = {at for at, token in enumerate(kept) if at and token.low == "to" and kept[at - 1].low == "on"}
    return tuple(
        replace(token, text="onto", low="onto") if at + 1 in onto else token
        for at, token in enumerate(kept)
        if at not in onto
    )


def _is_talk(clause: Sequence[Token]) -> bool:
    """Whether a clause tells no step, for all the words of steps in it: "the singer holds a long note"."""
    words = [token.low for token in clause if token.kind == "word"]
    strange = [
        word for word in words if word not in STEP_WORDS and word not in _KNOWN and not stems((word,)) & _STEPPING
    ]
    if words[:2] in (["starts", "with"], ["starts", "on"]) or (words and words[0] in VERBAL - {"starts"}):
        return True
    return (
        bool(set(words) & _CHATTER)
        or 2 * len(strange) > len(words) > 1
        or (bool(words) and bool(strange) and not tells_steps(clause))
    )
