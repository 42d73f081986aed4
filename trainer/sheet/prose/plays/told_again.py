"""Clauses of a story that name no part and dance again what was told: "and the pair once more", "the same again"."""

import re
from dataclasses import dataclass
from typing import Literal

from trainer.sheet.prose.plays.repeats import many_of

_DENIED = re.compile(r"\b(?:not|no|never|nothing|nor|neither|don't|doesn't|isn't|without|nobody|only there)\b")
_IS_DONE = re.compile(
    r"^(?:(?:and|so|but) )*(?:when|once|after|as soon as|before|until)\b.* (?:done|over|finished|through|ends?)$"
)
"""Says when something else comes: "when the third pair is done"."""
_OTHER = re.compile(r"\b(?:tempo|speed|music|(?<!^)facing(?! \d)|reason|minutes|weight|direction)\b")
_FACED_AGAIN = re.compile(
    r"\b(?:(?:turn|bring|take|put|leave|land|carr|send|spin|lead|get)\w* (?:you|us|everyone|"
    r"everybody|them|the dancers|one) "
    r"(?:right |straight |back |all the way )*(?:round|around)\b|(?:home|front|back|side|wall|door|stage|mirror|window|"
    r"start|\d+:\d+|o'clock)(?: walls?)? (?:once )?(?:again|once more))"
)
"""What is faced again is not danced again: "which turns you round to the front again"."""
_PAIR = re.compile(
    r"\b(?:pair|couple|twosome|duo|both|"
    r"(?:the|these|those|that|this|same) 2|2 of them|2 together|each other)\b(?! counts)"
)
_NUMBERED = re.compile(
    r"\b(?:the|these|those|that|this|same|all)(?: whole| same| very| last)* ?(?:set|group|lot|row|run|block|pattern)?"
    r"(?: of)? ([3-9])\b(?: (?:of them|parts?|together|in a row))?(?! (?:counts?|beats?|times|walls?|o'?clock))|"
    r"\b(?:set|group|lot|row|run|block) of ([2-9])\b"
)
_GROUP = re.compile(
    r"\b(?:block|round|set|group|sandwich|combination|lot|row|run|pattern|bit|pairing|series|cycle|unit|phrase)s?\b|"
    r"\b(?:them|these|those|they|"
    r"(?<!so )(?:this|that)(?= (?:is|are|we|you|they|pair|again|twice|\d|once|all|too|comes|goes|gets|whole)\b|$)|"
    r"(?:do|dance|repeat|all|exactly|just) (?:this|that)|"
    r"the same(?! (?:reason|wall|foot|tempo|speed|place|spot|music|direction|beat|time|\d|steps?)\b)|"
    r"likewise|ditto|exactly that|just that|all that|that order)\b"
)
_ALL = re.compile(
    r"\b(?:everything|all of (?:it|that|this)|all (?:that|this)|the whole (?:thing|of (?:it|that)|lot|story|dance)|"
    r"whole of (?:it|that)|from the (?:top|beginning|start))\b"
)
_IT = re.compile(r"\bit\b")
_BEHIND = re.compile(
    r"^(?:(?:and|then|so|but) )*(?:after|behind|following|beyond|from) (?:the|these|those|that|this|all)\b"
)
_ANEW = re.compile(r"\b(?:again|once more|repeat\w*|the same|\d times|twice|thrice|likewise)\b")
"""Behind what was told something is danced again: "after those four the same once more"; a fifth block may be new."""
_MORE = re.compile(
    r"\b(?:(\d+) (?:more times|times more|further times)|(twice) more|"
    r"(?:repeat\w*)(?: \w+){0,4} (?:(\d+) times|(twice)))\b"
)
_TOTAL = re.compile(
    r"\b(?:(\d+) times|(twice|thrice)|x (\d+)|(\d+) x|"
    r"(?<!all )(\d) (?:such )?(?:rounds|sets|pairs|blocks|goes|of (?:them|these|those)))\b"
)
_AGAIN = re.compile(
    r"\b(?:again|once more|1 more time|1 time more|once again|over again|another time|another go|repeat\w*|"
    r"likewise|ditto|"
    r"the same|that same|(?:a|1|the|for the) (?:very )?(?:last|final) time|(?:a|the|for the) #2 time|#2 time|"
    r"(?:the|a) #[2-9] (?:round|set|block|sandwich|pair|go|one|lot|half)|"
    r"another (?:round|set|block|pair|go|lot)|as well|too)\b"
)
_ONLY_TIMES = re.compile(
    r"^(?:(?:is|are|also|too|it|that|this|which|they|these|both|them|danced|done|performed|played|sung|taken|do|dance|"
    r"comes?|goes?|and|you|we|here|there|now|then|straight|in|a|row|succession|over|running|time|each|so|always|as|"
    r"well|"
    r"all|1|after|another|the|other|be|means?|meaning|say|has|have|"
    r"last|to|must|should|through|one|alone|on|its|own|off|by|itself|from) )*"
    r"(?:(\d+) times|(twice|thrice)|(?:double|doubled)|x (\d+)|(\d+) x)"
    r"(?: (?:over|in|a|row|succession|running|through|as|well|too|here|there|now|from|each|1|after|another|the|other|"
    r"without|any|break|together|altogether|total|all|straight|off|and|this|time|by|itself|on|at|once|pause|it|is))*$"
)


@dataclass(frozen=True, slots=True)
class Again:
    """How what was told before is danced again."""

    whom: Literal["all", "group", "it"] | int
    """All that was told, the items of the sentence or the one before, the one told last; or so many of the last."""
    times: int
    """How often in all."""


def times_alone(text: str) -> tuple[int, bool] | None:
    """Return how often what stands before is danced, as a clause says that says no more; and whether of several."""
    match = _ONLY_TIMES.match(text)
    if match is None:
        return None
    several = re.search(r"\b(?:both|them|these|they|together|order|pair)\b", text) is not None
    return (many_of(match.groups()) if any(match.groups()) else 2), several


def again_in(text: str) -> Again | None:
    """Return what a clause without parts dances again; None: it dances nothing again."""
    text = _FACED_AGAIN.sub("", text)
    if _DENIED.search(text) or _OTHER.search(text) or _IS_DONE.search(text):
        return None
    if re.match(r"(?:which )?(?:also )?(?:do|does|did) (?:just |exactly )?(?:the same|likewise)$", text):
        return None
    if _BEHIND.match(text) and not _ANEW.search(text):
        return None
    more = _MORE.search(text)
    total = None if more else _TOTAL.search(text)
    again = _AGAIN.search(text)
    if not (more or total or again):
        return None
    whom = _whom(text)
    if whom is None and again and again[0].startswith("repeat"):
        whom = "group"
    if whom is None or (whom == "it" and again and again[0] in ("too", "as well")):
        return None
    times = 1 + many_of(more.groups()) if more else many_of(total.groups()) if total else 2
    return Again(whom, times)


def _whom(text: str) -> Literal["all", "group", "it"] | int | None:
    if match := _NUMBERED.search(text):
        return int(match[1] or match[2])
    if _PAIR.search(text):
        return 2
    if _ALL.search(text):
        return "all"
    if _GROUP.search(text):
        return "group"
    return "it" if _IT.search(text) else None
