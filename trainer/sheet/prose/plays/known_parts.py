"""What the parts of a dance that was read are called: by their headings, and otherwise elsewhere in the sheet."""

import re
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import accumulate

from trainer.routine import Part, Routine
from trainer.sheet.prose.lexis.part_pieces import with_pieces_cut
from trainer.sheet.prose.plays.names import aliases_of, is_pause, own_names
from trainer.sheet.prose.plays.standing import pause_told
from trainer.sheet.prose.plays.story_names import names_in_passing
from trainer.sheet.prose.plays.sung import own_forms, sung_names
from trainer.sheet.prose.plays.symbols import Named
from trainer.sheet.prose.text.layout import Line


def named_of(lines: Sequence[Line], routine: Routine) -> Named | None:
    """Return what a sheet calls its parts and extras; None where it has fewer than two parts."""
    parts = [part for part in routine.parts if part.name and part.counts]
    if len(parts) < 2:
        return None
    words = (token.text for line in lines for token in line.tokens)
    parts = list(with_pieces_cut(parts, words, routine.phrase))
    names = tuple(part.name for part in parts)
    answers = any(re.match(r"q(?:uestion)? ?[:.]", line.words) for line in lines)
    named = Named(
        names,
        tuple(part.counts for part in parts),
        tuple(tuple(section.counts for section in part.sections) for part in parts),
        {
            **own_forms(names),
            **names_in_passing(lines, names),
            **aliases_of(lines, names),
            **(sung := sung_names(lines, names)),
        },
        sung=bool(sung),
        answers=answers,
        turns=tuple(map(_turned, parts)),
        titles=tuple(tuple(tuple(_WORD.findall(one.title.lower())) for one in part.sections) for part in parts),
        turning=any(event.turn for extra in routine.extras for event in extra.events),
    )
    named = replace(named, pause=pause_told(lines, named))
    own = own_names(lines, named)
    return replace(named, own=tuple(name for name in own if not (named.pause and is_pause(name))))


_WORD = re.compile(r"(?<![a-z\d'])[a-z][a-z']*(?![a-z\d])")


def _turned(part: Part) -> tuple[Fraction, ...]:
    """Return how far a part has turned after none of its counts, after the first, and so on."""
    done, base = [Fraction(0)] * (part.counts + 1), 0
    for section in part.sections:
        for event in section.events:
            first = min(max(base + int(event.beat) + 1, 0), part.counts)
            done[first] += event.turn
        base += section.counts
    return tuple(accumulate(done))
