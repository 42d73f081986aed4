"""Music that stops in a wall and goes on: where the sheet says that one carries on, the dance is not over.

"The band stops, so in place of 31, 32 touch and hold. Carry on with wall 4" loses its first words. Common practice, no
source.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.words import Token

_STOPS = re.compile(
    r"\b(?:when |where |as |because |since |here |there )?(?:she|he|they|(?:the|our|all the) (?:\w+ )?"
    r"(?:band|music|singer|song|drums?|track|tune|vocals?|voice|beat|guitars?|fiddles?|piano|singing|orchestra)) "
    r"(?:(?:stops?|pauses?) (?:singing|playing|drumming)|stops?|pauses?|breaks off|falls silent|goes (?:quiet|"
    r"silent)|ends|is silent|drops out|dies down|disappears)"
    r"(?: (?:for a moment|suddenly|dead|completely|here|there|briefly))?(?= [,.;:(]| so\b| and\b| -| (?:at|after|on)\b)"
)
_GOES_ON = re.compile(
    r"\b(?:as (?:usual|always|written|normal|before|ever)|carry on|carries on|carrying on|continue[sd]?|resume[sd]?|"
    r"go(?:es)? (?:straight |right )?on|keep (?:going|dancing|on)|pick(?:s)? up|start(?:s)? wall|begin(?:s)? wall|"
    r"on(?:to| to| with) wall|then (?:the )?(?:wall|sections?|rest|remaining|remainder|counts?))\b"
)
_LOOSE = {",", ";", "so", "and", "-"}


def without_music_pauses(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the tokens of a line without such music, where it says later that the dance goes on."""
    words = " ".join(token.low for token in tokens)
    stops = _STOPS.search(words)
    if stops is None or not _GOES_ON.search(words, stops.end()):
        return tuple(tokens)
    first = words[: stops.start()].count(" ")
    last = first + stops[0].count(" ") + 1
    while last < len(tokens) and tokens[last].low in _LOOSE and (not first or tokens[first - 1].kind == "mark"):
        last += 1
    return (*tokens[:first], *tokens[last:])
