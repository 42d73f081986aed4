"""Bars numbered by letters or words before their steps: "bar iii  left forward ...", "second bar: ...".

Each is told with its number in figures, and without the name of the extra that it is of. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.number_words import numeral
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_BARS = {"bar", "measure"}
_EXTRA = r"(?:tag|bridge|intro|ending|finish|coda)"
_OPENING = re.compile(
    rf"^(?:(?:the|its|and) )?(?:(?P<before>{_EXTRA})(?: [,:(\-])? )?(?:the )?"
    r"(?:(?P<place>[a-z]+|\d\d? (?:st|nd|rd|th)) (?:bar|measure)|(?:bar|measure) (?:the |(?P<letter>t ))?(?P<name>\w+)|"
    r"t (?P<short>\d))"
    rf"(?: (?:of|for|in) (?:the |our |this )?(?P<behind>{_EXTRA}))?(?: [)\]])?(?= )"
)
_LONGEST = 10
"""Tokens of a bar's name at most, and what parts it from the steps."""
_PARTED = {BREAK, ":", "-", ".", ")", "=", ","}
_LEAST = 2
"""Bars that follow each other; a single one may be a heading."""


def with_bars_numbered(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, such bars by their numbers; they stand one below the other, from the first on."""
    done = list(lines)
    barred = sum(line.tokens[0].low in _BARS for line in lines) > _LEAST
    at = 0
    while at < len(done):
        heads = _heads(done, at, barred=barred)
        if len(heads) >= _LEAST:
            done[at : at + len(heads)] = [
                _numbered(line, number, last)
                for number, (line, last) in enumerate(zip(done[at:], heads, strict=False), 1)
            ]
        at += max(len(heads), 1)
    return done


def _heads(lines: Sequence[Line], first: int, *, barred: bool) -> list[int]:
    """Return where the bars' names end in the lines from an index on, as far as they name bars in turn."""
    heads: list[int] = []
    base = 0
    extra = barred and any(extra_kind(line.tokens) in ("tag", "bridge") for line in lines[max(first - 2, 0) : first])
    for place, line in enumerate(lines[first:]):
        number, last = _named(line.tokens, barred=barred, extra=extra)
        if not place and extra and number > 1:
            # A tag below bar 16 is told as bars 17 and 18.
            base = number - 1
        below = not place or line.number == lines[first + place - 1].tokens[-1].line + 1
        if number != base + len(heads) + 1 or not below:
            break
        heads.append(last)
    return heads


def _named(tokens: Sequence[Token], *, barred: bool, extra: bool) -> tuple[int, int]:
    """Return the number of the bar that a line opens with in other than figures, and the index after it; 0 for none.

    Figures count as well in an extra, or where it is named that the bar is of: "Tag, bar 1:"; and in a sheet that is
    told in bars "T1:" is enough.
    """
    words = " ".join(token.low for token in tokens[:_LONGEST])
    found = _OPENING.match(words)
    if found is None or (found["short"] and not barred):
        return 0, 0
    name = found["place"] or found["name"] or found["short"]
    number = numeral(name)
    if name.split()[0].isdecimal():
        named = found["before"] or found["behind"] or found["letter"] or found["short"]
        number = int(name.split()[0]) if named or extra or name[-1].isalpha() else 0
    last = words[: found.end()].count(" ") + 1
    told = last + 1 < len(tokens) and tokens[last].text in _PARTED
    return (number, last) if told else (0, 0)


def _numbered(line: Line, number: int, last: int) -> Line:
    first = line.tokens[0]
    named = (word_like(first, "bar"), replace(first, kind="number", text=str(number), low=str(number), glued=False))
    return replace(line, tokens=(*named, *line.tokens[last:]))
