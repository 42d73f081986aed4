"""What a key says of the weight beside a step that has it anyhow: "tog = tog w/ wt", "tch = touch, no wt".

A step takes the weight and a touch takes none, whatever the key calls them; the note is left out, so that the form
stands for the step alone. Where it says otherwise ("stomp, no wt") it stays.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_STEPS = words_in(
    "tog together tg close closes closed step steps stepped side behind bhd cross forward back beside next"
)
_TOUCHES = words_in("touch touches tap taps point points tch tp pt touched toe")
_WEIGHT = r"(?:the |your |full |any )?(?:weight|wt|wgt)(?: (?:on (?:it|that foot|foot)|change|taken|on))?"
_WITH = re.compile(
    r"(?:and )?(?:with|w ?/|w|and|takes?|taking|take|puts?|putting|takes? on|"
    rf"transfer(?:ring)?|change(?:s|ing)?) {_WEIGHT}"
)
_NONE = re.compile(
    r"(?:and |but )?(?:no|without|w ?/ ?o|wo|not|zero|does not take|doesn't take|do not take|don't take|takes no|"
    rf"take no|taking no|with no|w ?/ no) {_WEIGHT}"
)
_SIGNS = ("=", ":")
_ENDS = (";", BREAK, ".", ",")
_LEADS = (",", "(", "-")
_LONGEST = 8
"""Tokens of a note."""


def without_weights_noted(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, those that explain several forms without such notes."""
    return [_without(line) if _explains(line) else line for line in lines]


def _explains(line: Line) -> bool:
    """Whether a line tells with signs of equality what several forms stand for."""
    return sum(token.text == "=" for token in line.tokens) > 1


def _without(line: Line) -> Line:
    tokens = list(line.tokens)
    at = len(tokens) - 1
    while at > 1:
        last = _note(tokens, at)
        if last:
            del tokens[at:last]
        at -= 1
    return line if len(tokens) == len(line.tokens) else replace(line, tokens=tuple(tokens))


def _note(tokens: Sequence[Token], first: int) -> int:
    """Return where a note ends that begins with a token, 0 where none does."""
    opens = tokens[first].text
    words = first + (opens in _LEADS)
    for last in range(min(len(tokens), words + _LONGEST), words + 1, -1):
        ends = last == len(tokens) or tokens[last].text in (*_ENDS, ")")
        said = " ".join(token.low for token in tokens[words:last])
        takes = bool(_WITH.fullmatch(said))
        if not ends or not (takes or _NONE.fullmatch(said)):
            continue
        if opens == "(" and (last == len(tokens) or tokens[last].text != ")"):
            return 0
        return last + (opens == "(") if _is_so_anyhow(tokens[:first], takes=takes) else 0
    return 0


def _is_so_anyhow(before: Sequence[Token], *, takes: bool) -> bool:
    """Whether what a form stands for has the weight that the note says: the words back to its sign."""
    begins = next((at for at in range(len(before) - 1, -1, -1) if before[at].text in _SIGNS), None)
    if begins is None or any(token.text in (";", BREAK) for token in before[begins:]):
        return False
    said = {token.low for token in before[begins + 1 :] if token.kind == "word"}
    touches = bool(said & _TOUCHES)
    return bool(said & _STEPS) and not touches if takes else touches
