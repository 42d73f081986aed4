"""New steps for some counts, named by them: "NEW 7-8 (wall 5 only, in place of the kick)", "with the new 7-8 in set 2".

Such a heading tells of a change, of the walls and the section that it names, or the line that calls for it; it is told
as "change for wall 5, counts 7-8 of set 2:". Numbers in it count nothing. Common practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_OTHER = r"(?:new|other|different|changed|altered|alternative|alternate|special|replacement|substitute|revised|swapped)"
_RANGE = r"(?P<first>\d+)(?: (?:-|to|and|&) (?P<last>\d+))?"
_COUNTS = r"(?:(?:counts?|beats?|cts?) )?"
_NUMBER = r"(?:\d+|one|two|three|four|five|six|[a-h]|[ivx]+)"
_NOUN = r"(?:section|sec|set|block|figure|fig|phrase|s|eight|six|line|group)"
_SECTION = rf"(?P<section>{_NOUN} {_NUMBER}|(?:{'|'.join(ORDINALS)}|\d (?:st|nd|rd|th)) {_NOUN})\b"
_HEAD = re.compile(rf"^\W*(?:the |our |an? )?{_OTHER} {_COUNTS}{_RANGE}(?= [(\[,:;\-|]| (?:of|in|for|on) |$)")
_CHANGED = re.compile(r"^\W*(?:the |our )?changed (?:counts?|beats?) \d")
"""A heading that is read as it stands: "Changed counts 7-8 of Figure 2"."""
_LEADS = r"(?:\b(?:with|using|and|then|but|doing|taking|plus|do|dance|use|has|have) )*"
_CALL = re.compile(
    rf"(?:[,;] )?{_LEADS}(?:the |our |an? )?\b{_OTHER} {_COUNTS}{_RANGE}"
    rf"(?: (?:of|in|from|for|at the end of) (?:the )?{_SECTION})?(?= [,;.:)\-|&]| and | then |$)"
)
_IN = re.compile(rf"\b(?:of|in|from|at the end of|,|\() (?:the )?{_SECTION}")
_WALLS = re.compile(rf"\bwalls? (?P<walls>{_NUMBER}(?: (?:,|and|&|, and) \d+)*)|\b(?P<nth>{'|'.join(ORDINALS)}) wall\b")
_ROW = re.compile(r"^(?:wall |w |pass |round |time )?(?P<walls>\d+) (?:st |nd |rd |th )?[|:.\-(]")
_LAST = re.compile(rf"\b(?P<noun>{_NOUN})s? (?:\d+ (?:,|and|&|to|-|\+|then)+ )*(?P<last>\d+) ?$")
"""The section that ends what is danced: "sections 1 and 2 with the new 7-8"."""
_NAMED = re.compile(
    rf"^\W*(?:the |our )?(?P<name>{_OTHER} (?:end|ending|finish|close|steps|bit|last counts|last bit))(?= [(\[,:;\-|])"
)
"""A heading that has no counts in its name: "CHANGED END (wall 4 only, replaces block 4 beats 7-8)"."""
_NEW_COUNTS = re.compile(rf"\b(?:counts?|beats?|cts?) {_RANGE}")
_HEADING = 24
"""Tokens of such a heading without steps."""


@dataclass(frozen=True, slots=True)
class _Called:
    """Where a change is called for."""

    line: int
    start: int
    end: int
    walls: str
    section: str


def with_counts_replaced(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, headings of new steps for some counts told as changes, and what calls for them left out."""
    done = list(lines)
    for at, line in enumerate(lines):
        short = len(line.tokens) <= _HEADING or ":" in line.words
        head = (_HEAD.match(_words(line)) or _NAMED.match(_words(line))) if short and at else None
        if head is None or _CHANGED.match(line.words):
            continue
        rest = _words(line)[head.end() :]
        told = head if head.re is _HEAD else _NEW_COUNTS.search(rest)
        if told is None:
            continue
        counts = (int(told["first"]), int(told["last"] or told["first"]))
        named = head["name"] if head.re is _NAMED else ""
        calls = [call for call in (_called(lines, named) if named else _calls(lines, counts)) if call.line != at]
        walls = _walls(rest) or next((call.walls for call in calls if call.walls), "")
        told_here = _section(rest) or (_anywhere(rest) if named else "")
        section = told_here or next((call.section for call in calls if call.section), "")
        if not walls or counts[0] > counts[1]:
            continue
        done[at] = replace(line, tokens=(*_told(line.tokens[0], walls, counts, section), *_steps(line)))
        for call in calls:
            done[call.line] = _without(done[call.line], call)
    return tuple(done)


def _words(line: Line) -> str:
    """The words of a line, one for each token."""
    return " ".join(token.low.replace(" ", "_") for token in line.tokens)


def _calls(lines: Sequence[Line], counts: tuple[int, int]) -> Iterator[_Called]:
    for at, line in enumerate(lines):
        words = _words(line)
        for found in _CALL.finditer(words):
            if (int(found["first"]), int(found["last"] or found["first"])) != counts or not found.start():
                continue
            row = _ROW.match(words)
            walls = row["walls"] if row else _walls(words)
            start = words[: found.start()].count(" ")
            last = _LAST.search(words[: found.start()])
            section = found["section"] or _section(words) or (f"{last['noun']} {last['last']}" if last else "")
            yield _Called(at, start, start + found[0].count(" ") + 1, walls, section)


def _called(lines: Sequence[Line], name: str) -> Iterator[_Called]:
    """Yield where the order calls for a change by its name: "Blocks 1-4 but CHANGED END"."""
    called = re.compile(rf"(?:[,;] )?{_LEADS}(?:the |our )?\b{name}\b")
    for at, line in enumerate(lines):
        words = _words(line)
        if (found := called.search(words)) is not None and found.start():
            row = _ROW.match(words)
            start = words[: found.start()].count(" ")
            yield _Called(at, start, start + found[0].count(" ") + 1, row["walls"] if row else _walls(words), "")


def _walls(words: str) -> str:
    found = _WALLS.search(words)
    return (found["walls"] or str(ORDINALS[found["nth"]])) if found else ""


def _section(words: str) -> str:
    found = _IN.search(words)
    return found["section"] if found else ""


def _anywhere(words: str) -> str:
    """Return the section that some words name: "(wall 4 only, replaces block 4 beats 7-8)"."""
    found = re.search(rf"\b{_SECTION}", words)
    return found["section"] if found else ""


def _steps(line: Line) -> tuple[Token, ...]:
    """Return the steps that follow a heading in its own line, behind a colon."""
    colon = next((at for at, token in enumerate(line.tokens) if token.text == ":"), len(line.tokens))
    return line.tokens[colon + 1 :]


def _told(near: Token, walls: str, counts: tuple[int, int], section: str) -> Iterator[Token]:
    said = f"change for wall {walls} , counts {counts[0]} - {counts[1]}" + (f" of {section}" if section else "") + " :"
    for word in said.split():
        if word.isdecimal():
            yield number_like(near, int(word))
        else:
            yield word_like(near, word) if word[0].isalpha() else mark_like(near, word)


def _without(line: Line, call: _Called) -> Line:
    """Return a line without the words that call for a change; a cell that is empty then is danced whole."""
    before, after = line.tokens[: call.start], line.tokens[call.end :]
    bare = not before or before[-1].text in (BREAK, ":")
    return replace(line, tokens=(*before, *([word_like(line.tokens[0], "all")] if bare else []), *after))
