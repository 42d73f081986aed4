"""Facings in the headings of sections: where the section begins, or where it ends, as most of the headings have it.

"S2 (9:00) Two locks" states a facing beside no count. What all headings but one at most agree on is what they mean;
then each is a check of the last count before it, or of the section's last.
"""

from collections.abc import Sequence
from fractions import Fraction
from itertools import accumulate

from trainer.routine import Section
from trainer.sheet.prose.page.blocks import Bound
from trainer.sheet.prose.words import Token

_AGREE = 2
"""So many headings at least must agree."""


def with_faced_heads(sections: Sequence[Section], bounds: Sequence[Bound]) -> tuple[Section, ...]:
    """Return sections with the facings that their headings state, as checks of the events that they follow."""
    stated = [_stated(bound) for bound in bounds]
    if sum(token is not None for token in stated) < _AGREE:
        return tuple(sections)
    turns = [sum((event.turn for event in section.events), Fraction(0)) for section in sections]
    reached = [turned % 1 for turned in accumulate(turns, initial=Fraction(0))]
    starts = _fitting(stated, reached[:-1])
    ends = _fitting(stated, reached[1:])
    told = sum(token is not None for token in stated)
    if max(starts, ends) < max(_AGREE, told - 1) or starts == ends:
        return tuple(sections)
    done = list(sections)
    for place, token in enumerate(stated):
        target = place - (starts > ends)
        if token is not None and target >= 0:
            done[target] = _checked(done[target], token)
    return tuple(done)


def _stated(bound: Bound) -> Token | None:
    """Return the one facing that a heading states."""
    tokens = bound.heading.tokens if bound.heading is not None else ()
    found = [token for token in tokens if token.kind == "facing"]
    return found[0] if len(found) == 1 else None


def _fitting(stated: Sequence[Token | None], reached: Sequence[Fraction]) -> int:
    return sum(token is not None and token.value == facing for token, facing in zip(stated, reached, strict=True))


def _checked(section: Section, token: Token) -> Section:
    """Return a section whose last event is held to a facing, unless it states one itself."""
    last = section.events[-1] if section.events else None
    if last is None or last.facing is not None:
        return section
    return section.but(events=(*section.events[:-1], last.but(facing=token.value, stated=token.span)))
