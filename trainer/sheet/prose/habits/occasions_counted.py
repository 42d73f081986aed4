"""Places of an extra that are counted up: "The bridge is wanted twice. First, ... Secondly, ...", "Once ... Once ...".

Each of them is told with the extra's name in place of what counts it: "bridge at the end of wall 2".
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_TIMES = re.compile(
    r"\b(?:twice|thrice|(?:two|three|four|2|3|4|several) (?:\w+ )?"
    r"(?:times|places|occasions|spots|moments|walls|visits|appearances))\b"
)
_NTH = r"(?:first(?:ly)?|second(?:ly)?|third(?:ly)?|fourth(?:ly)?|last(?:ly)?|other|next|1 st|2 nd|3 rd)"
_IS = r"(?:is|comes|falls|goes|happens|arrives|follows|stands|you find|you meet)"
_LEAD = re.compile(
    rf"(?:and )?(?:(?:the )?{_NTH}(?: (?:time|one|place|spot|occasion|of (?:them|these|those)))? ?(?:, |: |- |{_IS} )|"
    rf"(?:the )?{_NTH} (?:time|one|place|spot|occasion) (?:{_IS} )?(?=(?:at|in|on|after|during|when|as)\b)|"
    rf"{_NTH} (?=(?:at|in|on|after|during)\b)|(?:and )?once(?: more| again)? ?,? ?(?=(?:at|in|on|after|during)\b)|"
    rf"(?:one|another)(?: of them| time| of these)? (?:{_IS} )(?=(?:at|in|on|after|during)\b))"
)
_AT = re.compile(r"(?:[-*•] )?(?:at|in|on|after|during|the end of|end of|wall|once)\b")
_PLACED = 2
"""Fewer places are not counted up."""


def with_occasions_named(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, each place of an extra that is counted up with the extra's name."""
    done = list(lines)
    at = 0
    while at < len(done):
        parts = sentences(done[at].tokens)
        for place, part in enumerate(parts):
            name = _name_counted(part)
            listed = done[at].tokens[-1].text == ":" and place + 1 == len(parts)
            told = _placed(done, at, parts[place + 1 :], listed=listed) if name else {}
            if len(told) >= _PLACED:
                done = [_named(one, told, name) for one in done]
                done = _in_one(done, at, {line for line, _ in told}) if listed else done
                break
        at += 1
    return done


def _in_one(lines: Sequence[Line], at: int, items: set[int]) -> list[Line]:
    """Return the lines, the items of a list behind what leads to it: by itself each would head the extra's steps."""
    tokens = list(lines[at].tokens[:-1])
    last = at + 1
    while last < len(lines) and lines[last].number in items:
        tokens += [replace(tokens[-1], kind="mark", text=".", low=".", glued=True), *lines[last].tokens]
        last += 1
    return [*lines[:at], replace(lines[at], tokens=tuple(tokens)), *lines[last:]]


def _name_counted(part: Sequence[Token]) -> tuple[Token, ...]:
    """Return the name of the extra that a sentence says is danced several times, no wall named; none in others."""
    words = " ".join(token.low for token in part)
    if not _TIMES.search(words):
        return ()
    told = sentence_of(part, LETTERS)
    extras = [at for at, letter in enumerate(told.letters) if letter in "TG"]
    if len(extras) != 1 or set("wWmR") & set(told.letters):
        return ()
    first = told.lexemes[extras[0]]
    numbered = told.letters[extras[0] + 1 : extras[0] + 2] == "n" and first.last < len(part)
    return tuple(part[first.first : first.last + (numbered and part[first.last].text.isdecimal())])


def _placed(
    lines: Sequence[Line], at: int, rest: Sequence[Sequence[Token]], *, listed: bool
) -> dict[tuple[int, int], int]:
    """Return where the sentences begin that tell a place, by line and column, and how many tokens lead it.

    They stand in the rest of the line and in the lines straight below; `listed` says that each of those may be one.
    """
    told: dict[tuple[int, int], int] = {}
    sources = [*((part, False) for part in rest)]
    for before, line in zip(lines[at:], lines[at + 1 :], strict=False):
        if line.number != before.tokens[-1].line + 1:
            break
        sources += [(part, listed and not place) for place, part in enumerate(sentences(line.tokens))]
    for part, item in sources:
        length = _lead(part, item=item)
        sentence = sentence_of(part, LETTERS)
        if length is None and not _goes_on(sentence):
            break
        if length is not None and any(atom.kind == "walls" for atom in sentence.atoms):
            told[part[0].line, part[0].column] = length
    return told


def _lead(part: Sequence[Token], *, item: bool) -> int | None:
    """Return how many tokens count up a place at the start of a sentence; None where none do."""
    words = " ".join(token.low for token in part) + " "
    found = _LEAD.match(words)
    if found is None:
        return 0 if item and _AT.match(words) else None
    return len(found[0].split())


def _goes_on(sentence: Sentence) -> bool:
    """Whether a sentence only says that the dance goes on, or how a place faces."""
    return bool(sentence.letters) and "w" not in sentence.letters and bool(set("JYf") & set(sentence.letters))


def _named(line: Line, told: dict[tuple[int, int], int], name: Sequence[Token]) -> Line:
    """Return a line, the extra's name before each sentence that tells a place of it."""
    tokens: list[Token] = []
    skip = 0
    for token in line.tokens:
        lead = told.get((token.line, token.column))
        if lead is not None:
            skip = lead
            tokens += [replace(one, line=token.line, column=token.column, glued=False) for one in name]
        if not skip:
            tokens.append(token)
        skip -= bool(skip)
    return replace(line, tokens=tuple(tokens))
