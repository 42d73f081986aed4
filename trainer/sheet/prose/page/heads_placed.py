"""Headings known by where they stand: the page has one line without counts above each section, and hardly any within.

What such a line says is then of no account: "Weave & drag", "BARS 3 & 4 (quarter box, back basic)", "A1  Side, behind &
cross, side rock, hold" head what stands under them, though their words could be those of a step that goes on.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.chain import Link
from trainer.sheet.prose.heads.headings import Heading, extra_kind, is_section_name
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.page.above_steps import states_facts
from trainer.sheet.prose.page.streams import FITS
from trainer.sheet.prose.page.wrapping import runs_on
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Fill

_MOST = 0.75
"""The share of sections that have a line above them, where headings are the page's way."""
_FEW = 0.12
"""The share of lines within sections that another without counts stands before, at most."""
_LINED = 0.8
"""The share of lines with counts that begin, or end, with them."""
_SHORT = 8
"""Tokens of the name of a part: "Part A (16 counts)"."""
_LEAST = 2
"""Sections with such a line."""


@dataclass(frozen=True, slots=True)
class _Counted:
    """A line with counts, and the lines without that stand between it and the one before it."""

    line: Line
    links: Sequence[Link]
    above: Sequence[int]
    """Indexes of those lines."""
    opens: bool
    """A section begins with it."""


def with_heads_placed(texts: Sequence[Line], links: Sequence[Link], phrase: int, fill: Fill) -> list[Line]:
    """Return the lines, those that head a section by their place as headings."""
    counted = _counted(texts, links, phrase)
    opening = [one for place, one in enumerate(counted) if one.opens or not place]
    inner = [one for one in counted[1:] if not one.opens]
    headed = [one for one in opening if _head(one, texts) is not None]
    if len(headed) < max(_LEAST, _MOST * len(opening)) or len(inner) < len(opening):
        return list(texts)
    if sum(bool(one.above) for one in inner) > _FEW * len(inner):
        return list(texts)
    first = _share(counted, first=True) >= _LINED
    if not first and (_share(counted, first=False) < _LINED or not all(_is_full(one, texts, fill) for one in headed)):
        return list(texts)
    heads = {_head(one, texts) for one in headed}
    return [replace(line, heads=True) if index in heads else line for index, line in enumerate(texts)]


def _counted(texts: Sequence[Line], links: Sequence[Link], phrase: int) -> list[_Counted]:
    by_line: dict[int, list[Link]] = {}
    for link in links:
        by_line.setdefault(link.mark.line, []).append(link)
    found: list[_Counted] = []
    last = -1
    for index in sorted(by_line):
        start = by_line[index][0].mark.start
        bound = start.number is not None and not start.sub and start.number % phrase == 1
        opens = by_line[index][0].restarts or bound
        found.append(_Counted(texts[index], by_line[index], range(last + 1, index), opens))
        last = index
    return found


def _head(one: _Counted, texts: Sequence[Line]) -> int | None:
    """Return the line that stands by itself right above a section: the only one since the last empty line."""
    if not one.above:
        return None
    index = one.above[-1]
    line = texts[index]
    above = texts[index - 1] if index else None
    # The name of a part may stand right above that of its first section.
    apart = above is None or line.number > above.tokens[-1].line + 1 or _names_a_part(above)
    if one.line.number > line.tokens[-1].line + 2 or not (apart or (len(one.above) == 1 and above is not None)):
        return None
    # What decorates a title stands before it: it hangs where that does.
    indent = len(line.source) - len(line.source.lstrip()) if line.source else line.indent
    hanging = not apart and min(indent, line.indent) >= _wrapped_at(one)
    told = extra_kind(line.tokens) is not None or points_back(line.tokens) or states_facts(line)
    last = line.tokens[-1]
    broken = last.text in (",", "&", ";") or (last.text == "-" and last.glued)
    return None if hanging or told or broken or runs_on(line) else index


def _names_a_part(line: Line) -> bool:
    heading = Heading(line.number, line.tokens)
    return len(line.tokens) <= _SHORT and bool(heading.part) and is_section_name(line.tokens) and not heading.extra


def _wrapped_at(one: _Counted) -> int:
    """Return how far in a line goes on that was broken at the margin: under the words behind the counts."""
    line, mark = one.line, one.links[0].mark
    words = line.tokens[mark.last] if mark.first == 0 and mark.last < len(line.tokens) else None
    return line.indent + 2 if words is None or words.line != line.number else words.column - 3


def _share(counted: Sequence[_Counted], *, first: bool) -> float:
    """Return the share of lines that begin, or end, with their counts."""
    if first:
        fits = sum(one.links[0].mark.first <= 1 for one in counted)
    else:
        fits = sum(one.links[-1].mark.last >= len(one.line.tokens) for one in counted)
    return fits / len(counted)


def _is_full(one: _Counted, texts: Sequence[Line], fill: Fill) -> bool:
    """Whether the words of a line before its counts fill them as well without those of the line above as with them."""
    mark = one.links[0].mark
    own = one.line.tokens[: mark.first]
    alone = fill(own, len(mark.places))
    return alone < FITS or alone <= fill((*texts[one.above[-1]].tokens, *own), len(mark.places))
