"""Counts that a sentence names one by one, told as the range they are: "counts 5 6 7 8 become ...", "5678 of set 3"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import run_together
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_COUNTS = {"counts", "count", "cts", "beats", "ct"}
_LEADS = {"of", "on", "for", "replace", "change", "dance", "the", "its", "instead", "skip", "as", "in", "omit"}
"""Before these numbers that follow each other are counts, where nothing parts them."""
_ONWARD = {"become", "becomes", "of", "are", "is"}
_UP_TO = {"to", "through", "till", "until"}
_JOINS = {"and", "&", "+"}
_FEWEST = 3
_HIGHEST = 64


def with_counts_listed(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a sentence with each row of counts as a range; rows among steps are marks of their own."""
    done: list[Token] = []
    at = 0
    while at < len(tokens):
        end = _spoken(tokens, at) or _row(tokens, at)
        if end > at and _names_counts(tokens, at, end):
            first, last = _ends(tokens, at, end)
            dash = replace(first, kind="mark", text="-", low="-", glued=True)
            done += [first, dash, last]
            at = end
        else:
            done.append(tokens[at])
            at += 1
    return tuple(done)


def _spoken(tokens: Sequence[Token], at: int) -> int:
    """Return where a range of counts ends that is told with a word, "counts 5 to 8"; 0 where none begins."""
    said = tokens[at : at + 3]
    if len(said) < 3 or not at or tokens[at - 1].low not in _COUNTS or said[1].low not in _UP_TO:
        return 0
    return at + 3 if _is_count(said[0]) and _is_count(said[2]) and int(said[0].text) < int(said[2].text) else 0


def _ends(tokens: Sequence[Token], at: int, end: int) -> tuple[Token, Token]:
    first, last = tokens[at], tokens[end - 1]
    if end == at + 1:
        text = first.text
        return replace(first, text=text[0], low=text[0]), replace(first, text=text[-1], low=text[-1], glued=True)
    return first, replace(last, glued=True)


def _row(tokens: Sequence[Token], at: int) -> int:
    """Return where a row of counts ends that begins at a token and rises by one; `at` where none does."""
    if not _is_count(tokens[at]) or (at and _is_joint(tokens[at - 1])):
        return at + 1 if run_together(tokens[at], _FEWEST) else at
    end, last, many = at + 1, int(tokens[at].text), 1
    while end < len(tokens):
        look = end
        while look < len(tokens) and look < end + 2 and (tokens[look].text == "," or tokens[look].low in _JOINS):
            look += 1
        if look >= len(tokens) or not _is_count(tokens[look]) or int(tokens[look].text) != last + 1:
            break
        end, last, many = look + 1, last + 1, many + 1
    return end if many >= _FEWEST else at


def _is_count(token: Token) -> bool:
    return token.kind == "number" and len(token.text) <= 2 and 0 < int(token.text) <= _HIGHEST


def _is_joint(token: Token) -> bool:
    return token.text in ("-", "/", ".") and token.glued


def _names_counts(tokens: Sequence[Token], at: int, end: int) -> bool:
    """Whether a row stands where counts are named: after their word, or bare before "become", or after "instead of"."""
    before = tokens[at - 1] if at else None
    after = tokens[end] if end < len(tokens) else None
    if before is not None and before.low in _COUNTS:
        return True
    plain = all(token.kind == "number" for token in tokens[at:end])
    onward = after is not None and after.low in _ONWARD
    opens = before is None or before.text in (":", ",", ".", ";", "-", "(")
    if before is not None and (before.low in STEP_WORDS or before.kind == "number"):
        return False
    led = before is not None and before.low in _LEADS
    return (plain and (led or (opens and onward))) or (onward and (opens or led))
