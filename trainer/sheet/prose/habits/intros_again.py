"""A danced intro by a name of its own, and one that comes again later: "make the Salute, and so commence".

What the head of a sheet says is danced before the dance begins is the intro, whatever its heading calls it. Where what
is told below the steps puts it in again, "the Salute is made once more after wall 2", its steps are told as a tag, too.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_BEGINS = r"(?:begin|start|commence|set off|go)s?"
_DO = r"(?:make|do|dance|perform|give|take)s?"
_BEFORE = re.compile(
    rf"\b{_DO} (?:the|our|a) (?P<a>[a-z]+(?: [a-z]+)??)(?: once| first)? ?,? ?(?:and|then|and then|and so|so)"
    rf"(?: \w+)? {_BEGINS}\b|"
    rf"\b{_BEGINS} with (?:the|our) (?P<b>[a-z]+(?: [a-z]+)??)(?: ?,)?(?: which is)?(?: danced| done)?"
    r" (?:only )?once\b|"
    rf"\b(?:first|before the dance(?: begins| starts)?)(?: of all)? ?,? (?:comes|{_DO}) (?:the|our) (?P<c>[a-z]+)"
    r"(?: once)?(?= [.,;:]|$)|"
    r"\bthe (?P<d>[a-z]+) (?:comes first|"
    r"is (?:danced|made|done) (?:first|before (?:the )?(?:dance|wall 1|first wall)))\b"
)
"""The name of what is danced before the dance."""
_AGAIN = re.compile(r"\b(?:again|once more|returns?|repeat(?:s|ed)?|comes? back|one more time|another time)\b")
_INTROS = ("introduction", "intro", "prelude", "overture")
_HEAD = 10
"""Lines of a sheet's head."""
_TITLE = 14
"""Tokens of a heading."""


def with_intros_again(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, the heading of such an intro told as one, and its steps as a tag where it comes again."""
    done = list(lines)
    named = next((name for line in lines[:_HEAD] if (name := _named(line))), None)
    names = [named] if named else [(word,) for word in _INTROS]
    for name in names:
        head = next((at for at, line in enumerate(lines) if _heads(line, name)), None)
        if head is None:
            continue
        last = _end_of(lines, head)
        if last == head + 1:
            continue
        if name[0] not in _INTROS:
            done[head] = replace(done[head], tokens=tuple(_renamed(done[head].tokens, name, "Intro")), source="")
        calls = [at for at in range(last, len(lines)) if _AGAIN.search(lines[at].words) and _at(lines[at], name) >= 0]
        for at in calls:
            done[at] = replace(done[at], tokens=tuple(_renamed(done[at].tokens, name, "tag")), source="")
        if calls:
            done += _as_tag(lines[head:last], name, lines[-1].number + 2)
        break
    return tuple(done)


def _named(line: Line) -> tuple[str, ...] | None:
    """Return the name of what a line of the head says is danced first."""
    match = _BEFORE.search(line.words)
    name = tuple(next(one for one in match.groups() if one).split()) if match else ()
    at = _at(line, name) if name else -1
    capital = at >= 0 and line.tokens[at].text[0].isupper()
    return name if capital and not extra_kind(line.tokens[at : at + len(name)]) else None


def _at(line: Line, name: Sequence[str]) -> int:
    """Return the index of a name in a line; -1 where it is not named."""
    lows = [token.low for token in line.tokens]
    return next((at for at in range(len(lows)) if lows[at : at + len(name)] == list(name)), -1)


def _heads(line: Line, name: Sequence[str]) -> bool:
    """Whether a line is headed by a name, an article before it and a mark behind it or nothing."""
    at = _at(line, name)
    after = line.tokens[at + len(name) : at + len(name) + 1]
    led = at == 0 or (at == 1 and line.tokens[0].low in ("the", "our"))
    return led and len(line.tokens) <= _TITLE and (not after or after[0].kind == "mark")


def _end_of(lines: Sequence[Line], head: int) -> int:
    """Return the index after the lines that stand below a heading without a gap, before the next section."""
    last = head + 1
    while last < len(lines) and lines[last].number == lines[last - 1].number + 1:
        if is_section_name(lines[last].tokens[:3]):
            break
        last += 1
    return last


def _renamed(tokens: Sequence[Token], name: Sequence[str], word: str) -> list[Token]:
    """Return tokens with another word for a name, and without the article before it."""
    at = next(at for at in range(len(tokens)) if [one.low for one in tokens[at : at + len(name)]] == list(name))
    told = replace(tokens[at], text=word, low=word.lower())
    first = at - (word == "Intro" and at > 0)
    return [*tokens[:first], told, *tokens[at + len(name) :]]


def _as_tag(block: Sequence[Line], name: Sequence[str], number: int) -> list[Line]:
    """Return the lines of an intro as a tag of its own, below all others."""
    told: list[Line] = []
    for place, line in enumerate(block):
        tokens = line.tokens if place else _renamed(line.tokens, name, "tag")
        moved = tuple(replace(token, line=number + place) for token in tokens)
        told.append(replace(line, number=number + place, tokens=moved, source=""))
    return told
