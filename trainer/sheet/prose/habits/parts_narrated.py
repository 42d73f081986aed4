"""Parts that a narrator opens in the sentence of their first steps: "Part A opens with a vine", "In part B we ...".

The paragraph is that part's, as if it were headed "Part A:". It is so where paragraphs open on two parts or more.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line

_PART = r"(?:the )?(?:part (?P<a>[a-h])|(?P<b>[a-h]) part|(?P<c>[a-h](?= ))|(?P<d>verse|chorus))"
_SO = r"(?:,? (?:also|then|now|first|always|itself|simply|just))*"
_SPELLED = "|".join(sorted(NUMBERS, key=len, reverse=True))
_BEGINS = (
    r"(?:(?:opens|begins|starts)(?: off| out)?|sets (?:off|out)|kicks off|gets going|commences|leads off|goes off)"
)
_CONSISTS = r"(?:consists|is (?:made|made up|built|composed)) (?:up )?(?:of|from)"
_OPENS = re.compile(
    rf"(?P<name>{_PART}){_SO} (?P<verb>{_BEGINS}{_SO} (?:with|by)|{_CONSISTS}|goes(?: like this| so)?(?= ?:)) "
)
_WITHIN = re.compile(
    r"(?:in|for|during) (?P<name>(?:the )?(?:part (?P<a>[a-h])|(?P<d>verse|chorus)))(?P<verb>,?"
    r"(?: (?:you|we|they|everybody|everyone|the dancers))?) "
)
_MEASURED = re.compile(
    rf"(?P<name>{_PART})(?P<verb>(?: [(,:-])?(?: (?:is|has|lasts|takes|runs for))?{_SO}(?: only)? "
    rf"(?:\d+|{_SPELLED})(?: counts?| beats?| cts?)(?: long)?\b[^.:;!]*[.:;!]) "
)
"""A part's length, and what else is said of it in the sentence before its steps: "Part C is 8 counts: ..."."""
_MORE = {"after", "before", "wall", "walls", "tag", "restart", "bridge", "then", "order", "times", "twice", "until"}
"""Words of the order, which such a sentence does not tell."""
_NAMED = re.compile(rf"{_PART}(?: |$)")
_STEPS = set(STEP_WORDS) - set(NUMBERS) - {"step", "steps", "front", "back", "home"}
_FEWEST = 2
_COUNTS = 2
"""So many numbers at least stand in a paragraph of steps."""


def with_narrated_parts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, those that open on a part in a sentence headed by it."""
    opened = {at: found for at, line in enumerate(lines) if (found := _opened(line)) is not None}
    letters = {_letter(found) for found in opened.values()}
    others = {
        _letter(found)
        for at, line in enumerate(lines)
        if at not in opened and (found := _NAMED.match(line.words)) is not None and _has_counts(line)
    }
    if not opened or len(letters | others) < _FEWEST:
        return tuple(lines)
    return tuple(_headed(line, opened[at]) if at in opened else line for at, line in enumerate(lines))


def _opened(line: Line) -> re.Match[str] | None:
    found = _OPENS.match(line.words) or _WITHIN.match(line.words) or _measured(line)
    return found if found is not None and _has_counts(line) else None


def _measured(line: Line) -> re.Match[str] | None:
    """Return what names a part and tells its length, where steps stand after it and none in it."""
    found = _MEASURED.match(line.words)
    if found is None or _MORE & set(found["verb"].split()):
        return None
    said, rest = found["verb"].split(), found.string[found.end() :].split()
    return found if not _STEPS & set(said) and _STEPS & set(rest) else None


def _has_counts(line: Line) -> bool:
    return sum(token.kind == "number" for token in line.tokens) >= _COUNTS


def _letter(found: re.Match[str]) -> str:
    return next(name for name in found.groupdict().values() if name and name != found.groupdict().get("name"))


def _headed(line: Line, found: re.Match[str]) -> Line:
    """Return a line with its part's name, a colon, and what is told after the verb."""
    first = found.string[: found.start("name")].count(" ")
    last = first + found["name"].count(" ") + 1
    rest = found.string[: found.end()].count(" ")
    colon = replace(line.tokens[last - 1], kind="mark", text=":", low=":", glued=True)
    name = line.tokens[first:last]
    if found.groupdict().get("b"):
        # "The A part" is part A.
        letter = next(token for token in reversed(name) if token.low == found["b"])
        name = (replace(name[0], text="Part", low="part"), replace(letter, text=letter.text.upper(), glued=False))
    return replace(line, tokens=(*name, colon, *line.tokens[rest:]))
