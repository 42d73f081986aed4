"""Parts of which the order dances only a later stretch: their paths, and what is known of them."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.routine import PlayItem
from trainer.sheet.prose.extras.walls import state_after
from trainer.sheet.prose.lexis.part_pieces import piece_of
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.search.paths import Path, Said, State
from trainer.sheet.prose.text.layout import Line
from trainer.terms import Weight


def known_with_pieces(known: Known, lines: Sequence[Line]) -> Known:
    """Return what is known of a dance, with the pieces of its parts that its lines name as parts of their own."""
    lengths = dict(known.parts)
    named = dict.fromkeys(token.text for line in lines for token in line.tokens if token.kind == "word")
    pieces = [(name, *found) for name in named if (found := piece_of(name)) and found[0] in lengths]
    for name, part, stretches in pieces:
        kept = [count for first, last in stretches for count in range(first, min(last, lengths[part]) + 1)]
        known = replace(
            known,
            parts=(*known.parts, (name, len(kept))),
            sections=(*known.sections, (f"{name} ", len(kept), "")),
            turned=_by_count(known.turned, name, part, kept),
            turned_on=_by_count(known.turned_on, name, part, kept),
            stands={**known.stands, name: _stood(known.stands.get(part, ()), kept)},
        )
    return known


def _by_count(
    turned: Mapping[str, tuple[Fraction, ...]], name: str, part: str, kept: Sequence[int]
) -> Mapping[str, tuple[Fraction, ...]]:
    """Return the turns made after each count by part, with those of a piece of one."""
    whole = turned.get(part, ())
    if len(whole) <= max(kept):
        return {**turned, name: ()}
    done = [Fraction(0)]
    for count in kept:
        done.append(done[-1] + whole[count] - whole[count - 1])
    return {**turned, name: tuple(done)}


def _stood(stands: Sequence[Weight], kept: Sequence[int]) -> tuple[Weight, ...]:
    """Return the weight before the first of some counts of a part and after each, where it is known."""
    return tuple(stands[at] for at in (kept[0] - 1, *kept)) if len(stands) > max(kept) else ()


def walked(parts: Mapping[str, tuple[Path, int]], play: Sequence[PlayItem]) -> dict[str, tuple[Path, int]]:
    """Return the paths of the parts and their counts, with those of the pieces of them that the play dances."""
    found = dict(parts)
    for name in dict.fromkeys(item.name for item in play if item.kind == "part" and item.name not in parts):
        piece = piece_of(name)
        if piece is None or piece[0] not in parts:
            continue
        path, counts = parts[piece[0]]
        said: list[Said] = []
        done = 0
        for first, last in piece[1]:
            shift = done - (first - 1)
            said += [
                replace(one, slot=replace(one.slot, beat=one.slot.beat + shift))
                for one in path.said
                if first - 1 <= one.slot.beat < min(last, counts)
            ]
            done += min(last, counts) - first + 1
        weight, _ = state_after(path, piece[1][0][0] - 1)
        found[name] = replace(path, said=tuple(said), start=State(weight, path.start.facing)), done
    return found
