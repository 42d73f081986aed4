"""Words of a foot that tell how one stands by then, and no step: "the left foot is pointing to the side"."""

import re

from trainer.sheet.prose.order.grammar.atoms import Sentence

_FOOT = r"(?:(?:left|right|l|r|free|lf|rf|other) )?(?:foot|toe|toes|heel|leg|knee|weight|wt|lf|rf)"
_IS = r"(?:is|are|stays|remains|was|will be|should be|must be|'s)"
_SO = (
    r"(?:(?:still|already|now|just|left|then|of course|always|only|quite) )*"
    r"(?:\w{3,}ing|\w{2,}ed|on|out|in|at|free|off|up|there|where|behind|beside|across|over|in front|to the|back)"
)
_STANDS = re.compile(rf"(?:(?:the|your|our|my) )?{_FOOT} {_IS} {_SO}\b|(?:left|right) is {_SO}\b")
_IS_JUST = re.compile(rf"(?:(?:with|the|your|our|my) )*{_FOOT} (?:just|still|already|only just) \w+$")
"""Told without a verb: "the left heel just down", "your right foot still free"."""
_EDGES = re.compile(r"^(?:[,(-] )+|(?: (?:[,).-]|and|then))+$")
_ONLY_A_FOOT = re.compile(
    r"(?:left|right|l|r|both)(?: foot| feet)?(?: (?:with|and) (?:the |your )?(?:left|right|other|l|r) .*)?$"
)
_DANCED = re.compile(r"\b(?:placed|stepped|brought|closed|crossed|kicked|stomped|put|moved|drawn)\b")
"""What is told so is a step all the same: "the right foot is stepped forward"."""
_STANDING = {"standing", "stand", "stands", "balanced", "balancing", "weight"}
_LEFT = {"leave", "leaves", "leaving", "keep", "keeps", "keeping"}


_BRINGS = re.compile(
    r"(?:(?:the|that|this|your|our|two|both|last|quarter|half|full|three|pivot|right|left|¼|½|1/4|1/2|of|in|it) )*"
    r"(?:turns?|pivots?|spins?|spirals?|montereys?|unwind|quarters|rotation) (?:\S+ )??"
    r"(?:(?:have|has|will|then|just|in figure \d+) )*"
    r"(?:bring|brought|leave|left|put|take|took|carry|carrie|get|turn|face|lead)s? "
    r"(?:you|us|everyone|everybody|one|them|the dancers)\b"
)
"""Where turns that were danced have led: no step, what follows with "then" is."""


def end_of_stance(sentence: Sentence, first: int, last: int) -> int:
    """Return where words end, of those from one lexeme to another, that tell how one stands by then; 0 of steps."""
    tokens = sentence.tokens[sentence.lexemes[first].first : sentence.lexemes[last - 1].last]
    if _BRINGS.match(" ".join(token.low for token in tokens)):
        return next(
            (at for at in range(first + 1, last) if sentence.letters[at] in ">&;" and _steps(sentence, at)), last
        )
    return last if tells_a_stance(sentence, first, last) else 0


def _steps(sentence: Sentence, at: int) -> bool:
    return set(sentence.letters[at + 1 : at + 3]) & set("mH") != set()


def tells_a_stance(sentence: Sentence, first: int, last: int) -> bool:
    """Whether words of steps from one lexeme to another, without counts, only tell how one stands by then."""
    tokens = sentence.tokens[sentence.lexemes[first].first : sentence.lexemes[last - 1].last]
    heads = sentence.letters[first - 1 : first] in (":", "=") and set("TGX") & set(sentence.letters[:first])
    if heads or any(token.kind == "number" for token in tokens) or set("VbNM") & set(sentence.letters):
        return False
    words = " ".join(token.low for token in tokens)
    before = [token.low for token in sentence.tokens[: sentence.lexemes[first].first]]
    while before and before[-1] in ("the", "your", "our"):
        before.pop()
    if before[-1:] in (["on"], ["onto"]) and set(before[-4:-1]) & _STANDING and _ONLY_A_FOOT.match(words):
        return True
    if _IS_JUST.match(_EDGES.sub("", words)):
        return True
    if before and before[-1] in _LEFT and re.match(rf"{_FOOT} ", words + " "):
        return True
    return bool(_STANDS.match(words)) and not _DANCED.search(words)
