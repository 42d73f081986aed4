"""Counts that a line of the order tells as the steps have them, in brackets: "up to {4}", "after [6 a] of section 2".

They are told in words, "up to count 4". Brackets in which the sheet has facings, or nothing, are no such sign.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_OPENERS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_FEWEST = 3
"""Lines of steps with counts in a sign show that it is the sheet's."""
_HALVES = {"&", "a", "e", "and", "+"}
_JOINS = {",", "-", "to"}
_ALONE = 2
"""Where the sign closes behind one number at the start of a line."""
_LONGEST = 8
"""Tokens of the counts in one sign."""
_PLACES = {
    "after",
    "until",
    "till",
    "through",
    "thru",
    "before",
    "including",
    "on",
    "is",
    "as",
    "with",
    "instead",
    "for",
}
"""Before these counts in brackets are a place of the dance."""
_AGAIN = (["that", "is"], ["that's"], ["which", "is"], ["i", ".", "e", "."], ["ie"], ["meaning"])
_WITHIN = {"of", "in"}
"""Words that lead to the section of counts before them."""


def with_signed_counts_named(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, counts in the sheet's own brackets named in words where a line tells the order."""
    counted = {sign: [line.tokens for line in lines if _has_counts(line.tokens, sign)] for sign in _OPENERS}
    signs = {sign for sign, told in counted.items() if len(told) >= _FEWEST and not _number_sections(told)}
    if not signs:
        return tuple(lines)
    return tuple(
        replace(line, tokens=_named(line.tokens, signs))
        if any(token.text in signs for token in line.tokens) and is_order(line.tokens)
        else line
        for line in lines
    )


def _number_sections(lines: Sequence[Sequence[Token]]) -> bool:
    """Whether what stands in a sign opens its lines and counts them: "<1> Step, together", "<2> Cross, point"."""
    opened = [tokens[1].text for tokens in lines if tokens[2:3] and _closing(tokens, 0) == _ALONE] if lines else []
    return opened == [str(number) for number in range(1, len(opened) + 1)] and len(opened) >= len(lines) - 1


def _has_counts(tokens: Sequence[Token], sign: str) -> bool:
    """Whether a line has counts in a sign, several or at its end, that are no hour; "(2) Walks" heads a section."""
    for at, token in enumerate(tokens):
        close = _closing(tokens, at) if token.text == sign else 0
        alone = close == at + 2
        if close and not (alone and (tokens[at + 1].text in HOURS or not at or close + 1 < len(tokens))):
            return True
    return False


def _closing(tokens: Sequence[Token], at: int) -> int:
    """Return where the sign closes that opens at a token and has counts only; 0 where it holds something else."""
    close = _OPENERS.get(tokens[at].text, "")
    for end in range(at + 1, min(at + 2 + _LONGEST, len(tokens))):
        token = tokens[end]
        if token.text == close:
            return end if end > at + 1 and tokens[at + 1].kind == "number" else 0
        if not (token.kind == "number" and len(token.text) < 3) and token.low not in _HALVES | _JOINS:
            return 0
    return 0


def _named(tokens: Sequence[Token], signs: set[str]) -> tuple[Token, ...]:
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        close = _closing(tokens, at) if tokens[at].text in signs else 0
        again = _said_again(done) if close else 0
        if again:
            del done[-again:]
            at = close + 1
        elif close and _is_place(tokens, at, close):
            done += _in_words(tokens[at], tokens[at + 1 : close])
            at = close + 1
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)


def _said_again(before: Sequence[Token]) -> int:
    """Return how many words before counts only say them again behind a section's end: "to the end of 02, that is"."""
    lows = [token.low for token in before]
    said = next((words for words in _AGAIN if lows[-len(words) :] == words), [])
    return len(said) + (lows[-len(said) - 1 : -len(said)] == [","]) if said and "end" in lows else 0


def _is_place(tokens: Sequence[Token], at: int, close: int) -> bool:
    """Whether counts in brackets tell a place: words lead to it, or to its section behind it."""
    if any(token.low == "+" for token in tokens[at + 2 : close - 1]):
        # "After [5+6]" reaches the second of them, and is read as it stands.
        return False
    before = [token.low for token in tokens[max(at - 2, 0) : at]]
    after = [token.low for token in tokens[close + 1 : close + 2]]
    if after and after[0] in _WITHIN:
        return True
    hour = close == at + 2 and tokens[at + 1].text in HOURS
    led = before[-1:] == ["to"] and (not hour or before[:1] == ["up"] or tokens[at].text not in "([")
    return led or (bool(before) and before[-1] in _PLACES)


def _in_words(sign: Token, inside: Sequence[Token]) -> list[Token]:
    """Return counts as words: "count 6a", "counts 7-8"."""
    numbers = [token for token in inside if token.kind == "number"]
    if len(numbers) == 1:
        halves = [replace(token, glued=True) for token in inside[1:] if token.low in _HALVES]
        return [word_like(sign, "count"), replace(numbers[0], glued=False), *halves]
    tail = inside[-1:] if inside[-1].low in _HALVES else []
    first, last = replace(numbers[0], glued=False), replace(numbers[-1], glued=True)
    dash = replace(mark_like(sign, "-"), glued=True)
    return [word_like(sign, "counts"), first, dash, last, *(replace(token, glued=True) for token in tail)]
