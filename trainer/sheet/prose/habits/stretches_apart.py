"""Eights told one after the other in a paragraph, without counts: "First eight: vine right, ... Second eight: ...".

Each becomes a line of its own, as others write it. What stands before the second is the first, named or not; where one
ends may be told as well: "... step right beside the left: that is one to six."
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_NUMBERS = ("one", "two", "three", "four", "five", "six", "seven", "eight")
_NOUN = r"(?P<noun>eight|six|section|set|phrase|8|6)"
_REST = r"(?: (?:[:,.;-]|is|goes|has|we|you|they|do))*"
_OPENS = re.compile(
    rf"(?:(?:and|then|now|the|in|for|on) )*(?:(?:(?P<nth>{'|'.join(_ORDINALS)})|(?P<th>[1-8]) (?:st|nd|rd|th)) {_NOUN}|"
    rf"{_NOUN.replace('noun', 'name')} (?P<n>[1-8]|{'|'.join(_NUMBERS)}))(?P<rest>{_REST}) "
)
_CLOSES = re.compile(
    r"(?:^| )(?:[,:;-] )*(?:and )?(?:(?:that|which) (?:is|makes)|that's|thats|this is|making)(?: the| your| our)?"
    r"(?: (?:first|second|third|next|last|one to|1 -|1 to|whole|all))* (?:six|eight|6|8)(?: counts| beats)?$"
)
_SURE = 1.4
_FEWEST = 2
_HEAD = 5
"""Tokens of a heading before the first eight."""
_STEPS = 2


@dataclass(frozen=True, slots=True)
class _Sentence:
    """A sentence, whether it opens an eight and with which number, and whether it ends one."""

    tokens: tuple[Token, ...]
    number: int = 0
    closes: bool = False


def with_stretches_apart(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each eight of a paragraph that tells several as a line of its own."""
    told = {at: found for at, line in enumerate(lines) if (found := _stretched(line))}
    if max((_cuts(found) for found in told.values()), default=0) < _FEWEST:
        return tuple(lines)
    return tuple(one for at, line in enumerate(lines) for one in (_apart(line, told[at]) if at in told else (line,)))


def _cuts(sentences: Sequence[_Sentence]) -> int:
    return sum(bool(one.number) or one.closes for one in sentences)


def _stretched(line: Line) -> list[_Sentence]:
    """Return the sentences of a line that tells eights one after the other; none of any other line."""
    if len(line.tokens) < 2 * _HEAD:
        return []
    found = [_read(tokens) for tokens in _sentences(line.tokens)]
    numbers = [one.number for one in found if one.number]
    rises = all(number == numbers[0] + at for at, number in enumerate(numbers))
    if not _cuts(found) or not rises or numbers[:1] not in ([], [1], [2]):
        return []
    kept = [token for one in found for token in one.tokens]
    return [] if any(mark.strength >= _SURE for mark in marks_in(kept, 0)) else found


def _sentences(tokens: Sequence[Token]) -> Iterator[tuple[Token, ...]]:
    """Yield the sentences of a line; what ends with the ordinal of an eight, "First eight.", opens the next."""
    start = 0
    for at, token in enumerate(tokens):
        named = _OPENS.fullmatch(" ".join(one.low for one in tokens[start : at + 1]) + " ")
        if token.text in (".", "!", "?") and named is None:
            yield tuple(tokens[start : at + 1])
            start = at + 1
    if start < len(tokens):
        yield tuple(tokens[start:])


def _read(tokens: tuple[Token, ...]) -> _Sentence:
    while tokens and tokens[-1].text in (".", "!", "?"):
        tokens = tokens[:-1]
    words = " ".join(token.low for token in tokens)
    number = 0
    if (opened := _OPENS.match(words + " ")) is not None and opened["rest"].strip():
        told = opened["nth"] or opened["th"] or opened["n"]
        number = int(told) if told.isdecimal() else ((*_ORDINALS, *_NUMBERS).index(told) % len(_ORDINALS)) + 1
        tokens = tokens[opened[0].count(" ") :]
        words = " ".join(token.low for token in tokens)
    closed = _CLOSES.search(words)
    if closed is not None:
        tokens = tokens[: words[: closed.start()].count(" ") + bool(words[: closed.start()])]
    return _Sentence(tokens, number, closed is not None)


def _apart(line: Line, sentences: Sequence[_Sentence]) -> Iterator[Line]:
    """Yield the heading of a line and its eights."""
    eights: list[list[Token]] = []
    head: list[Token] = []
    anew = True
    numbered = any(one.number == 1 for one in sentences)
    for one in sentences:
        steps = sum(token.low in STEP_WORDS for token in one.tokens)
        if not eights and not one.number and (numbered or (len(one.tokens) <= _HEAD and steps < _STEPS)):
            head += one.tokens
            continue
        if anew or one.number:
            eights.append([])
        elif eights[-1]:
            eights[-1].append(replace(eights[-1][-1], kind="mark", text=".", low="."))
        eights[-1] += one.tokens
        anew = one.closes
    if head:
        yield replace(line, tokens=tuple(head), source="")
    for number, tokens in enumerate(eights):
        if tokens:
            yield replace(line, tokens=(*_name(tokens[0], number), *tokens), source="")


def _name(first: Token, number: int) -> Iterator[Token]:
    """Yield the name of an eight and a colon."""
    for text in (_ORDINALS[number % len(_ORDINALS)], "section"):
        yield replace(first, kind="word", text=text, low=text, glued=False, value=None)
    yield replace(first, kind="mark", text=":", low=":", glued=True, value=None)
