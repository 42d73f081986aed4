"""The end of the wall just told, in words that name it by no number: "wall 2: when it is finished add six counts"."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.vocabulary import NUMBERS
from trainer.sheet.prose.words import Token

_WHEN = r"(?:when|whenever|once|after|as soon as|by the time) "
_IT = r"(?:it|this|that|this one|that one|all of it|it all|all that|this wall|that wall|the wall)"
_DANCE = r"(?:(?:the|this) (?:whole |entire )?dance|the whole thing)"
_IS = r"(?:'s| is| was| has been| has)(?: all| quite| fully| nearly| just| once)*"
_OVER = r"(?:finished|over|done|danced|completed|complete|through|ended|danced out|at an end|out)"
_SOMEBODY = r"(?:you|we|they|everybody|everyone)"
_HAVE = r"(?:'ve|'re| have| had| are)?(?: all| just| quite)*"
_GOT = (
    r"(?:(?:come|came|get|got|reach|reached|arrive|arrived) (?:to |at )?(?:the|its) (?:very )?end"
    r"(?: of (?:it|that|this))?|"
    r"(?:are )?(?:finished|done|through|danced|completed|finish|complete)(?: dancing| with)*"
    r"(?: (?:it|this|that))?(?: all)?)"
)
_END = r"(?:at|by) its (?:very )?end"
_TOLD = re.compile(rf"(?:{_WHEN}(?:{_IT}{_IS} {_OVER}|(?P<somebody>{_SOMEBODY}{_HAVE} {_GOT}))|{_END}) ")
_DANCED = re.compile(rf"{_WHEN}{_DANCE}{_IS} {_OVER} ")
_DONE = {"finished", "done", "danced", "completed", "finish", "complete", "dancing", "with"}
"""What somebody has, of which it is not said yet what."""
_OFTEN = {"once", "twice", "thrice"}
_LONGEST = 12
_WALLS = frozenset("wWt")
_WITHIN = {
    "at",
    "after",
    "on",
    "of",
    "section",
    "sections",
    "count",
    "counts",
    "part",
    "set",
    "to",
    "as",
    "up",
    "the",
    "by",
}
"""What says that no more than some of the wall was danced: "when you have done the first eight"."""


def wall_is_over(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """Words with which the wall just told of is over: "when it is finished", "once you have danced it"."""
    words = []
    for token in tokens[at : at + _LONGEST]:
        if token.kind != "word":
            break
        words.append(token.low)
    text = " ".join(words) + " "
    named = any(one.kind in _WALLS for one in found)
    match = _TOLD.match(text) or (_DANCED.match(text) if named else None)
    if match is None:
        return None
    last = at + match[0].count(" ")
    opens = not found and at == 0 and last < len(tokens) and tokens[last].text == ","
    if text.startswith(("at ", "by ")) and not opens and not (named and found[-1].kind in (",", ":", "-", "(")):
        # "Wall 2 gets a tag of four counts at its end."
        return None
    after = tokens[last] if last < len(tokens) else None
    somebody = bool(match.groupdict().get("somebody"))
    bare = somebody and match[0].split()[-1] in _DONE
    if somebody and after is not None and (after.low in _OFTEN or after.low in NUMBERS):
        # "When you have done it four times".
        return None
    if after is None or after.low in _WITHIN or after.kind == "number" or (bare and after.kind != "mark"):
        # "When you have done wall 3" names it.
        return None
    return Lexeme("9", at, last)
