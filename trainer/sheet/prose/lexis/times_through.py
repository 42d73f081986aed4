"""The end of a wall told by how often the dance has been danced: "when the dance has been performed twice through"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS
from trainer.sheet.prose.words import Token

_DANCE = (
    r"(?:(?:the|this|our|whole|entire|complete|full|all|of|it|dance|routine|thing|pattern|sequence|lot|everything) )+"
)
_SOMEBODY = r"(?:you|we|one|they|everybody|everyone|you've|we've|the dancers?|the set|the company) "
_HAS = r"(?:has|have|had|is|are|was|were|will|shall|been|be|being|now|then|thus|just|already|only) "
_DONE = (
    r"(?:performed|danced|done|gone|completed|executed|run|played|finished|taken|repeated|made|walked|been|come|got|"
    r"dance|do|go|complete|finish|perform) "
)
_THROUGH = r"(?:through|thru|over|round|around|in full|completely|entirely|right|straight|all) "
_OFTEN = r"(?P<often>(?P<twice>twice|thrice)|(?P<many>[a-z]+|\d+) times|(?:for )?(?:a|the|its) (?P<nth>[a-z]+) time) "
_TOLD = re.compile(
    rf"(?P<lead>(?:when|once|after|as soon as|having|by the time) (?:that )?(?:{_SOMEBODY}|{_DANCE})?(?:{_HAS})*"
    rf"(?:{_DONE})?(?:{_THROUGH})*(?:{_DANCE})?(?:{_THROUGH})*){_OFTEN}(?P<rest>(?:{_THROUGH})*)"
)
_HAVING = re.compile(rf"(?P<lead>{_DANCE}having (?:been )?{_DONE}(?:{_THROUGH})*){_OFTEN}(?P<rest>(?:{_THROUGH})*)")
_LONGEST = 20
_TIMES = {"twice": 2, "thrice": 3}


def times_through(tokens: Sequence[Token], at: int) -> list[Lexeme]:
    """Return the lexemes of words that say how often the dance has been danced: after, a number, times."""
    if at and tokens[at - 1].kind == "word" and tokens[at - 1].low not in _OPENS:
        return []
    words: list[str] = []
    for token in tokens[at : at + _LONGEST]:
        if token.kind not in ("word", "number"):
            break
        words.append(token.low)
    text = " ".join(words) + " "
    match = _TOLD.match(text) or _HAVING.match(text)
    if match is None or not (re.search(_DANCE, match["lead"]) or _does(match["lead"])):
        return []
    number = _number(match)
    first, last = at + match["lead"].count(" "), at + match[0].count(" ")
    often = first + match["often"].count(" ") + 1
    if not number or (last < len(tokens) and tokens[last].low in _GOES_ON):
        return []
    single = often == first + 1
    return [
        Lexeme("A", at, first),
        Lexeme("n", first, first + 1 if not single else often, number),
        Lexeme("t", often - 1, last),
    ]


_OPENS = {"and", "then", "but", "so"}
_GOES_ON = {"to", "you", "on", "in", "the", "with"}
"""After the number these say what is danced so often, or that there is another pass of it."""


def _does(lead: str) -> bool:
    """Whether somebody dances, though it is not said what: "when you have danced twice through"."""
    return bool(re.search(rf"{_SOMEBODY}(?:{_HAS})*(?:danced|gone|been|come) through ", lead))


def _number(match: re.Match[str]) -> int:
    if match["twice"]:
        return _TIMES[match["twice"]]
    if match["nth"]:
        return ORDINALS.get(match["nth"], 0)
    return int(match["many"]) if match["many"].isdecimal() else NUMBERS.get(match["many"], 0)
