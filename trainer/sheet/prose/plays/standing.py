"""Counts of a play in which nobody dances: "wait 4 counts", "then silence, four counts", "the pause", told below.

Each is an extra of kind hold whose number is its length.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.paragraphs import Sentence, paragraphs, speaks_of_steps
from trainer.sheet.prose.plays.symbols import Extra, Named, Symbol, Text, symbols, text_of
from trainer.sheet.prose.plays.told_beside import IS_NAMED
from trainer.sheet.prose.plays.told_items import Play
from trainer.sheet.prose.text.layout import Line

_NOUN = (
    r"(?:pauses?|silence|stillness|standstill|rest|break|breath|breather|wait|waiting|hold|holding|freeze|stop|gap|"
    r"quiet|hush|standing|still)"
)
_STILL = (
    r"(?:(?:stand|stands|standing|keep|keeps|keeping|stay|stays|staying|remain|remains|be|are) "
    r"(?:quite |very |all |there |perfectly |absolutely )*(?:still|quiet|motionless|put)|stands? (?:there )?and waits?|"
    r"(?:nobody|no_one|no one|none|we|you|one|everybody|they) (?:do not |don't |does not |doesn't )?"
    r"(?:stirs?|moves?|dances?|steps?|waits?|holds?|pauses?|freezes?|stops?|rests?)|"
    r"(?:do not|don't|not) (?:move|dance|step)|"
    r"no (?:movement|steps?|dancing|movements)|nothing(?: is danced| happens| moves)?|"
    r"without (?:moving|movement|steps)|"
    r"stands? like (?:a |an |the )?\w+|(?:is|are|goes|falls) silent|motionless|waits?|holds?|pauses?|"
    r"stands?(?= (?:(?:for|there|about|a|the|just|only) )*\d)|"
    r"freezes?|stops?(?! (?:at|after|on)\b)|rests?|" + _NOUN + ")"
)
_UNIT = r"(?:counts?|beats?|cts?)"
_GAP = (
    r"(?: (?:for|of|,|:|\(|-|in|the|we|you|a|an|whole|full|just|only|these|those|while|where|is|are|which|that|long|"
    r"and|there|lasts?|lasting|with|slow|all|music|at|\)|about|exactly|it|has|have|during|time))*"
)
_AFTER = re.compile(rf"\b{_STILL}{_GAP} (\d+)(?: {_UNIT}|(?= \)| ,| \.| -| \||$| then| and\b| /| >| \+))")
_BEFORE = re.compile(rf"\b(\d+) (?:-? ?)(?:slow |full |whole |long )?{_UNIT}{_GAP} {_STILL}(?![a-z])")
_ALONE = re.compile(
    rf"(?:\b(?:the|a|an|our|one|this|that) )?\b{_NOUN}\b(?! (?:[:=]|is|are|lasts?|means|has|of|for|\())"
)
_TOLD = re.compile(
    rf"^(?:(?:the|a|an|our|this|that|in|during|for|at|what|[-*~\"#(]) )*({_NOUN})\b(?: \")?"
    rf"(?: (?:is|are|lasts?|means|has|goes|we|you|nobody|everybody|one|there|all)\b| [:=(,-])"
)
_COUNTS = re.compile(rf"\b(\d+) (?:-? ?)(?:slow |full |whole |long )?{_UNIT}|\b(?:for|hold|wait|pause) (\d+)\b")
_WEIGHT = re.compile(
    r"\bweight (?:(?:stays?|is|still|kept|keeps?|remains?|stay|staying|on|the|your|now|all|over) )*"
    r"(?:left|right|l|r)(?: foot)?"
)
"""Where the weight is all the while: no step."""
_GOES_ON = re.compile(r"(?:and |now |so )?(?:then|next|after|here)\b")
"""Opens a sentence that goes on with a play: "Wait 16 counts, weight on left" is how the dance is begun."""
_FILLED = re.compile(
    r"\b(?:so|fill(?:s|ed|ing)?|where|why|(?:for|in|during|on|over|with) (?:it|them|these|those|that|this|which))\b"
)
"""Says of an extra that it is what is danced while the music stands still."""
_DANCERS = {"we", "you", "nobody", "everybody", "everyone", "none", "they", "dancers"}
_NOT_STEPS = {
    "hold", "holds", "pause", "freeze", "still", "stand", "step", "steps", "rest", "together", "look", "arms", "arm",
    "hands", "hand", "head", "heads", "crossed", "folded", "pose", "full", "weight",
}  # fmt: skip


def with_holds(given: Sequence[Symbol], named: Named) -> tuple[Symbol, ...]:
    """Return symbols, those that tell counts in which nobody dances as one extra of kind hold."""
    text = text_of(given)
    found: list[tuple[int, int, int]] = []
    for pattern in (_AFTER, _BEFORE):
        found += [(*_symbols_of(text, match), int(match[1])) for match in pattern.finditer(text.text)]
    if named.pause:
        found += [(*_symbols_of(text, match), named.pause) for match in _ALONE.finditer(text.text)]
    done: list[Symbol] = []
    at = 0
    for first, last, counts in sorted(found):
        if first < at or not counts or not _stands_alone(text, first, last):
            continue
        done += given[at:first]
        at = _closed(given, first, last)
        token = given[first].token
        done.append(Symbol(f"$hold{counts}", token, Extra("hold", str(counts)), after=given[at - 1].after))
    return (*done, *given[at:])


def _symbols_of(text: Text, match: re.Match[str]) -> tuple[int, int]:
    """Indexes of the first symbol of a match, and after its last."""
    first = max(at for at, start in enumerate(text.starts) if start <= match.start())
    last = sum(start < match.end() for start in text.starts)
    return first, last


def _stands_alone(text: Text, first: int, last: int) -> bool:
    """Whether the words around, from the item before to the one after, tell no steps, nor an extra of which it is."""
    given = text.symbols
    before = next((at for at in range(first - 1, -1, -1) if _is_item(given[at])), -1)
    after = next((at for at in range(last, len(given)) if _is_item(given[at])), len(given))
    if before >= 0 and given[before].extra is not None and IS_NAMED.search(" " + text.of(0, first) + " "):
        return False
    if _is_filled(text, before, first, last, after):
        return False
    around = (*range(before + 1, first), *range(last, after))
    told = any(_is_item(one) for one in given) or _GOES_ON.match(text.text)
    weighed = _weighed(text) if told else set()
    return not any(_is_step(given[at]) for at in around if at not in weighed)


def _is_filled(text: Text, before: int, first: int, last: int, after: int) -> bool:
    """Whether only the music is still, and an extra is danced to that: "the band is silent for 4, so we put in ..."."""
    given = text.symbols
    extra = given[after].extra if after < len(given) else None
    still = {one.text for one in given[before + 1 : last]} & _DANCERS
    return extra is not None and not still and _FILLED.search(text.of(last, after)) is not None and first > before + 1


def _weighed(text: Text) -> set[int]:
    """Indexes of the symbols that only say where the weight is."""
    return {at for match in _WEIGHT.finditer(text.text) for at in range(*_symbols_of(text, match))}


def _is_item(one: Symbol) -> bool:
    return one.part >= 0 or one.extra is not None


def _is_step(one: Symbol) -> bool:
    return speaks_of_steps(one.token) and one.text not in _NOT_STEPS


def _closed(given: Sequence[Symbol], first: int, last: int) -> int:
    """Return the index after a bracket that opened within some symbols."""
    inside = [one.text for one in given[first:last]]
    open_still = inside.count("(") > inside.count(")")
    return last + 1 if open_still and last < len(given) and given[last].text == ")" else last


def only_waits(given: Sequence[Symbol], play: Play) -> bool:
    """Whether a sentence before the first part tells no more than how long is waited for it: "Wait 16 counts."."""
    items = [one for one in given if _is_item(one)]
    held = len(items) == 1 and items[0].extra is not None and items[0].extra.kind == "hold"
    return held and not play.items


def pause_told(lines: Sequence[Line], named: Named) -> int:
    """Return the length that a sheet tells of a pause apart from its play; 0: of none."""
    for group in paragraphs(lines, named.parts):
        for sentence in group:
            if counts := tells_pause(sentence, named):
                return counts
    return 0


def tells_pause(sentence: Sentence, named: Named) -> int:
    """Return the length of the pause that a sentence tells apart from the play; 0: it tells none.

    "The pause: we stand still 4 counts", "Silence = 4 counts, nobody moves".
    """
    given = symbols(sentence.tokens, named)
    weighed = _weighed(text_of(given))
    if any(one.part >= 0 or (_is_step(one) and at not in weighed) for at, one in enumerate(given)):
        return 0
    text = text_of(given).text.replace("$", "")
    told = _COUNTS.search(text) if _TOLD.match(text) else None
    return int(told[1] or told[2]) if told else 0
