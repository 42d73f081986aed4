"""A sheet whose steps have no counts, or some of them, told with the counts that they take."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.items.phrases import gloss_of
from trainer.sheet.prose.lengths.writing import with_hours_apart
from trainer.sheet.prose.page.pages import phrase_of
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.uncounted.closing import Closed, closed
from trainer.sheet.prose.uncounted.lasting import Lasting
from trainer.sheet.prose.uncounted.stretches import Stretch, TellsOrder, some_are_counted, stretches_of
from trainer.sheet.prose.words import Token

_FITS = 0.2
"""Words that fill counts so well are meant for them."""
_PLAIN = 2.0
"""What a sheet without counts may cost that closes as it should."""
_HEAD = 12
"""Lines among which the lengths of the parts are told."""
_LENGTHS = 3
"""Numbers that are lengths, at least."""


def with_counts_filled(
    lines: Sequence[Line], keys: Sequence[Line], tells_order: TellsOrder, *, bare: bool = False
) -> tuple[Line, ...]:
    """Return the lines, steps without counts with those that they take; `keys` explain the short forms.

    With `bare` only where nothing at all is told of counts, or all steps fill the lengths that are told of them.
    """
    if bare and some_are_counted(lines, tells_order):
        return tuple(lines)
    phrase = phrase_of(lines)
    gloss = gloss_of([line.tokens for line in lines], [line.tokens for line in keys])
    stretches = stretches_of(lines, tells_order, gloss, phrase)
    if (apart := with_hours_apart(lines)) != lines:
        lengths = stretches_of(apart, tells_order, gloss, phrase)
        if _are_lengths(lengths):
            lines, stretches = apart, lengths
    total = _total(lines, stretches)
    parts = dict(header_facts([line.tokens for line in lines[:_HEAD]]).part_counts)
    found = closed(stretches, phrase, total, parts)
    if bare and found.price > _PLAIN:
        return tuple(lines)
    bared = all(map(_is_bare, stretches)) or _tell_hardly_a_length(stretches)
    if bare and not (bared or (found.counts == total and _is_sure(found, stretches))):
        return tuple(lines)
    return _written(lines, stretches, found, phrase) if found.counted and found.counts >= phrase else tuple(lines)


def _is_bare(stretch: Stretch) -> bool:
    """Whether a stretch has no number that may be a count or a length; how often something is danced is none."""
    numbers = [at for at, token in enumerate(stretch.words) if token.kind == "number" and stretch.kind == "steps"]
    times = [at for at in numbers if "x" in (token.low for token in stretch.words[max(at - 1, 0) : at + 2])]
    return stretch.kind != "counted" and not stretch.told and numbers == times


def _tell_hardly_a_length(stretches: Sequence[Stretch]) -> bool:
    """Whether so few stretches have a length beside them that none can be a count: "(four counts; step wide)"."""
    steps = [stretch for stretch in stretches if stretch.kind == "steps"]
    told = [stretch for stretch in steps if stretch.told]
    fits = all(any(way.counts == one.told and way.price < _FITS for way in one.ways) for one in told)
    return len(told) < _LENGTHS <= len(steps) - len(told) and fits and all(map(_is_bare, _without(stretches, told)))


def _without(stretches: Sequence[Stretch], some: Sequence[Stretch]) -> list[Stretch]:
    return [stretch for stretch in stretches if not any(stretch is one for one in some)]


def _is_sure(found: Closed, stretches: Sequence[Stretch]) -> bool:
    """Whether all steps are told with their lengths, and fill them."""
    steps = sum(stretch.kind == "steps" for stretch in stretches)
    fits = sum(stretch.told == way.counts and not stretch.barred for stretch, way, _ in found.counted)
    return fits == steps >= _LENGTHS and not any(stretch.kind == "counted" for stretch in stretches)


def _are_lengths(stretches: Sequence[Stretch]) -> bool:
    """Whether what may be hours, "(3)", are the lengths of the words before them: nearly all have one, and fill it."""
    steps = [stretch for stretch in stretches if stretch.kind == "steps"]
    told = [stretch for stretch in steps if stretch.told]
    fits = sum(any(way.counts == one.told and way.price < _FITS for way in one.ways) for one in told)
    return len(told) >= _LENGTHS and fits == len(told) >= len(steps) - 1


def _total(lines: Sequence[Line], stretches: Sequence[Stretch]) -> int | None:
    """Return the stated sum of a dance in one part."""
    if any(stretch.part for stretch in stretches):
        return None
    steps = {id(token) for stretch in stretches if stretch.kind == "steps" for token in stretch.words}
    said = [tuple(token for token in line.tokens if id(token) not in steps) for line in lines]
    return header_facts([tokens for tokens in said if tokens]).counts


def _written(lines: Sequence[Line], stretches: Sequence[Stretch], found: Closed, phrase: int) -> tuple[Line, ...]:
    on = any(stretch.kind == "counted" and stretch.last > stretch.first > phrase for stretch in stretches)
    # Where the sheet counts on through the dance, so do the steps that are given counts.
    counted = {id(stretch): (way, at if on else at % phrase) for stretch, way, at in found.counted}
    of_line: dict[int, list[Stretch]] = defaultdict(list)
    for stretch in stretches:
        if stretch.kind != "gap":
            of_line[stretch.index].append(stretch)
    done: list[Line] = []
    for index, line in enumerate(lines):
        if any(id(stretch) in counted for stretch in of_line[index]):
            done += _pieces(line, of_line[index], counted)
        else:
            below = next((one for one in stretches if one.index > index and one.kind != "gap"), None)
            done.append(_headed(line, of_line[index], below is not None and id(below) in counted))
    return tuple(done)


def _headed(line: Line, stretches: Sequence[Stretch], over_filled: bool) -> Line:
    """Return a line that is given no counts: a heading over steps that are given some has none itself."""
    if not over_filled or not stretches or stretches[0].kind != "head":
        return line
    tokens = tuple(token for stretch in stretches for token in (*stretch.words, *stretch.behind))
    return replace(line, tokens=tokens, source="", heads=True)


def _pieces(line: Line, stretches: Sequence[Stretch], counted: dict[int, tuple[Lasting, int]]) -> Iterator[Line]:
    """Yield what a line tells, each stretch of its steps with its counts before it."""
    for stretch in stretches:
        if stretch.kind == "head":
            yield replace(line, tokens=stretch.words, source="", heads=True)
            continue
        if stretch.kind == "said" or id(stretch) not in counted:
            yield replace(line, tokens=(*stretch.words, *stretch.behind), source="")
            continue
        way, at = counted[id(stretch)]
        marks = _marks(stretch.words[0], way, at)
        yield replace(line, tokens=(*marks, *stretch.words, *stretch.behind), source="")


def _marks(place: Token, way: Lasting, at: int) -> Iterator[Token]:
    """Yield the counts of some words, and a break."""
    for label in way.labels:
        text = str(at + int(label)) if label.isdecimal() else label
        kind = "number" if label.isdecimal() else "amp" if label == "&" else "word"
        yield replace(place, kind=kind, text=text, low=text, glued=False, value=None)  # type: ignore[arg-type]
    yield replace(place, kind="mark", text=BREAK, low=BREAK, glued=False, value=None)
