"""The dance as danced, cut into its sections: where each begins and ends on the timeline.

A piece is a run of counts of one section without a break. A bridge, change or hold cuts a section into pieces; a group
is the section with everything that lies inside it. Beats are those of the timeline, whole numbers.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.timeline import Block, Pass, Stretch, Timeline
from trainer.terms import Feel


@dataclass(frozen=True, slots=True)
class Piece:
    """Counts of one section danced without a break."""

    first: Fraction
    last: Fraction
    """The beat after its last count."""
    section: str
    block: Block
    offset: int
    """Counts of its section that lie before it: 0 where it begins the section."""
    closes: bool
    """It runs to the section's last count."""
    anchor: Fraction
    """Where to begin in order to dance it: its first count, or that of the section that a change or hold lies in."""

    @property
    def inside(self) -> bool:
        """Whether it replaces or stretches counts of the section around it."""
        return self.block.kind in ("change", "hold")

    @property
    def plain(self) -> bool:
        """Whether it belongs to the dance itself or its danced intro."""
        return self.block.kind in ("part", "intro")


def pieces_of(one: Pass) -> list[Piece]:
    """Return the pieces of a pass in the order danced."""
    found: list[Piece] = []
    for stretch in one.stretches:
        for piece in _of_stretch(stretch):
            before = found[-1] if found else None
            found.append(replace(piece, anchor=_anchor(piece, before)))
    return found


def _of_stretch(stretch: Stretch) -> list[Piece]:
    pieces = []
    for section, begins, ends in sections_in(stretch.block):
        first, last = max(stretch.beat + begins, stretch.begins), min(stretch.beat + ends, stretch.ends)
        if first < last:
            offset = int(first - stretch.beat - begins)
            pieces.append(Piece(first, last, section, stretch.block, offset, last == stretch.beat + ends, first))
    return pieces


def _anchor(piece: Piece, before: Piece | None) -> Fraction:
    """Return where a piece is begun from; `before` is the one danced just before it in its pass."""
    if before is None:
        return piece.first
    if piece.inside:
        # A change that begins where a section ended is a beginning of its own; a hold never is.
        return piece.first if before.closes and piece.block.kind == "change" else before.anchor
    return before.anchor if before.inside and piece.offset and piece.plain else piece.first


def sections_in(block: Block) -> list[tuple[str, int, int]]:
    """Return the sections of a block, each with its first count and the count after its last, from 0."""
    starts: list[tuple[str, int]] = []
    for row in block.rows:
        if not starts or starts[-1][0] != row.section:
            starts.append((row.section, int(row.beat // 1) - (row.section_number - 1)))
    if not starts:
        starts = [(block.name, 0)]
    starts[0] = (starts[0][0], 0)
    ends = [*(begins for _, begins in starts[1:]), block.counts]
    return [(section, begins, last) for (section, begins), last in zip(starts, ends, strict=True)]


def piece_at(timeline: Timeline, beat: Fraction) -> Piece:
    """Return the piece danced at a beat; before and after the dance, its first and last one."""
    pieces = _pieces_near(timeline, beat)
    return next((piece for piece in reversed(pieces) if piece.first <= beat), pieces[0])


def _pieces_near(timeline: Timeline, beat: Fraction) -> list[Piece]:
    """Return the pieces of the pass at a beat; where that one has none, being left before its count 1, of another."""
    index = timeline.pass_at(beat)
    for one in (*reversed(timeline.passes[: index + 1]), *timeline.passes[index + 1 :]):
        if pieces := pieces_of(one):
            return pieces
    raise ValueError("nothing is danced")


def group_at(timeline: Timeline, beat: Fraction) -> tuple[Fraction, Fraction]:
    """Return the range of the section danced at a beat, with the changes, holds and bridges that lie inside it."""
    pieces = _pieces_near(timeline, beat)
    at = next((i for i in range(len(pieces) - 1, -1, -1) if pieces[i].first <= beat), 0)
    if not pieces[at].plain and not pieces[at].inside:
        return pieces[at].first, pieces[at].last
    first = at
    while first > 0 and _goes_on(pieces, first):
        first -= 1
    last = at
    while last + 1 < len(pieces) and _goes_on(pieces, last + 1):
        last += 1
    # An extra at the very edge is danced after the section, not in it.
    while last > at and not (pieces[last].plain or pieces[last].inside):
        last -= 1
    return pieces[first].first, pieces[last].last


def _goes_on(pieces: list[Piece], index: int) -> bool:
    """Whether the piece at an index lies in the same section as the one before it."""
    piece, before = pieces[index], pieces[index - 1]
    if piece.plain:
        return piece.offset > 0
    if piece.block.kind == "hold":
        return True
    return not before.closes if before.plain else before.inside


def feel_of(timeline: Timeline, one: Pass, piece: Piece) -> Feel:
    """Return the feel that a piece is danced in: its section's own, or that of the routine."""
    routine = timeline.routine
    part = routine.part(one.part)
    sections = part.sections if piece.block.kind == "part" and part else routine.extras
    kinds = ("part", "intro") if piece.plain else (piece.block.kind,)
    for section in sections:
        if section.name == piece.section and getattr(section, "kind", piece.block.kind) in kinds:
            return section.feel or routine.feel
    return routine.feel
