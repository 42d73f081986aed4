"""Lines of advice about steps told already: "Tip: keep the rocks small", "Watch out: on 6 & people turn too far".

They tell no step of their own, whatever counts they name; a line that speaks of walls or extras is no advice. Nor does
a cue behind the steps of a line: "walk back R, L, R, L. Cue: toe first, then heel."
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_ADVICE = re.compile(
    r"^\W*(?:(?:a |one |my |the |our )?(?:little |small |quick |last |top |style |styling |teaching |dance |teacher's |"
    r"teachers |coach's |beginner |beginners' )*(?:tips?|hints?|pointers?)(?: for (?:beginners|teachers|learners))?|"
    r"watch(?: out| it| for| your \w+)?|look out|(?:be |take )?careful|take care|beware|caution|mind(?: out| you)?|"
    r"common (?:mistakes?|errors?|faults?)|(?:usual|typical) (?:mistakes?|errors?|faults?)|teaching (?:notes?|points?)|"
    r"technique)(?: here)? ?[:!]"
)
_STOPS = (".", "!", "?", ":", ")")


def without_tips(lines: Sequence[Line], tells_order: Callable[[Sequence[Token]], bool]) -> tuple[Line, ...]:
    """Return the lines without those of advice, and what goes on with one below it; the first line is the title."""
    kept: list[Line] = []
    open_ended: Line | None = None
    for line in lines:
        goes_on = open_ended is not None and line.number == open_ended.number + 1 and line.tokens[0].text[0].islower()
        advice = bool(kept) and bool(_ADVICE.match(line.words)) and not tells_order(line.tokens)
        if not (advice or goes_on):
            kept.append(_without_cue(line, tells_order))
            open_ended = None
        else:
            open_ended = None if line.tokens[-1].text in _STOPS else line
    return tuple(kept)


_CUE = re.compile(
    r"(?:(?:teaching|coaching|style|styling|verbal|key|safety) )?"
    r"(?:cues?|tips?|hints?|points?|notes?|thoughts?|images?)|think|imagine|picture|styling|style|focus|feel|technique|posture|coaching|safety"
)
_CUE_WORDS = 2
_LEADS = (".", "!", "?", ";", ")", "]", "(", "[", "-", BREAK)
_CLOSING = {"(": ")", "[": "]"}


def _without_cue(line: Line, tells_order: Callable[[Sequence[Token]], bool]) -> Line:
    """Return a line without the sentence, or the bracket, that is a cue; no counts and no order may stand in it."""
    tokens = line.tokens
    for colon in (at for at, token in enumerate(tokens) if token.text == ":"):
        first = next((colon - size for size in range(_CUE_WORDS, 0, -1) if _leads(tokens, colon - size, colon)), 0)
        if not first:
            continue
        bracket = _CLOSING.get(tokens[first - 1].text)
        end = next((at for at in range(colon, len(tokens)) if tokens[at].text == bracket), len(tokens))
        cue = tokens[first:end]
        if not any(token.kind in ("number", "facing", "clock") for token in cue) and not tells_order(cue):
            return replace(line, tokens=(*tokens[: first - bool(bracket)], *tokens[end + bool(bracket) :]))
    return line


def _leads(tokens: Sequence[Token], first: int, colon: int) -> bool:
    """Whether the words from a place to a colon name a cue, and begin a sentence or a bracket."""
    if first < 1 or tokens[first - 1].text not in _LEADS:
        return False
    return bool(_CUE.fullmatch(" ".join(token.low for token in tokens[first:colon])))
