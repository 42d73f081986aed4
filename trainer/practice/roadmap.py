"""The road map: every wall with its sections, extras and departures, and where each lies on the timeline.

Beats are those of the timeline. A stop is what a dancer goes to or drills as one thing: a section with the changes,
holds and bridges inside it, an extra by itself, or any run of counts. Counts in titles are those of the part, from 1.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain

from trainer.dance.timeline import Pass
from trainer.practice.chart import Chart
from trainer.practice.marks import Mark, MarkKind
from trainer.practice.pieces import Piece, group_at, piece_at, pieces_of
from trainer.practice.saying import wall_words

MARK_WORDS: dict[MarkKind, str] = {
    "TAG": "TAG", "BRIDGE": "BRG", "RESTART": "RST", "CHANGE": "CHG", "HOLD": "HOLD", "PART": "PART", "END": "END",
}  # fmt: skip
"""Departures as they stand on the map: words, never a lone letter."""

EXTRA_WORDS = {"tag": "TAG", "bridge": "BRG", "change": "CHG", "hold": "HOLD", "ending": "END", "intro": "INTRO"}


@dataclass(frozen=True, slots=True)
class Stop:
    """A run of counts with a name."""

    wall: int
    part: str
    kind: str
    """wall, section, counts, or what kind of extra it is: intro, tag, bridge, change, hold, ending."""
    name: str
    first: Fraction
    last: Fraction
    """The beat after its last count."""
    title: str
    """Without its wall: "section 3 (17-24)", "tag Gate (4 counts)"."""

    @property
    def words(self) -> str:
        """All of it: "wall 4, section 3 (17-24)"."""
        wall = wall_words(self.wall, self.part)
        return f"{wall}, {self.title}" if self.title else wall


@dataclass(frozen=True, slots=True)
class WallRow:
    """One wall of the map."""

    index: int
    """The place of its pass in the timeline."""
    number: int
    part: str
    facing: Fraction
    """The facing that it starts with."""
    first: Fraction
    """Its first beat, that of a danced intro included."""
    last: Fraction
    pieces: tuple[Piece, ...]
    marks: tuple[Mark, ...]
    """Its departures; the next part of a phrased dance is none."""
    leaves: str
    """RST, or END without an ending, where the wall is left that way; else empty."""
    cue: str

    @property
    def counts(self) -> int:
        """Counts danced on it, extras included."""
        return int(self.last - self.first)


def road_map(chart: Chart) -> tuple[WallRow, ...]:
    """Return every wall of a routine as danced; a pass of which nothing is danced is left out."""
    marks: dict[int, list[Mark]] = {}
    for mark in chart.marks:
        if mark.kind != "PART":
            marks.setdefault(mark.wall, []).append(mark)
    rows = (_row(index, one, marks.get(one.number, [])) for index, one in enumerate(chart.timeline.passes))
    return tuple(row for row in rows if row is not None)


def _row(index: int, one: Pass, marks: list[Mark]) -> WallRow | None:
    pieces = tuple(pieces_of(one))
    if not pieces:
        return None
    shown = tuple(mark for mark in marks if not mark.closing)
    leaves = next((MARK_WORDS[mark.kind] for mark in shown if mark.kind in ("RESTART", "END") and not mark.counts), "")
    return WallRow(
        index=index,
        number=one.number,
        part=one.part,
        facing=one.facing,
        first=pieces[0].first,
        last=one.ends,
        pieces=pieces,
        marks=shown,
        leaves=leaves,
        cue=one.cue,
    )


def mark_words(mark: Mark) -> str:
    """Return a departure for the map: "TAG 32"; the number is the counts of the part danced before it."""
    return f"{MARK_WORDS[mark.kind]} {mark.after}"


def row_at(rows: Iterable[WallRow], beat: Fraction) -> WallRow:
    """Return the wall danced at a beat; before and after the dance, its first and last one."""
    found = None
    for row in rows:
        if found is None or row.first <= beat:
            found = row
    if found is None:
        raise ValueError("nothing is danced")
    return found


def stops_of(chart: Chart, row: WallRow) -> tuple[Stop, ...]:
    """Return the sections and extras of a wall in the order danced."""
    found: dict[tuple[Fraction, Fraction], Stop] = {}
    for piece in row.pieces:
        own = not (piece.plain or piece.inside)
        first, last = (piece.first, piece.last) if own else group_at(chart.timeline, piece.first)
        if (first, last) not in found:
            found[first, last] = _stop(chart, row, piece, first, last)
    return tuple(sorted(found.values(), key=lambda stop: (stop.first, -stop.last)))


def stop_at(chart: Chart, row: WallRow, beat: Fraction) -> Stop:
    """Return the section or extra danced at a beat of a wall, a bridge inside a section by itself."""
    stops = stops_of(chart, row)
    holding = [stop for stop in stops if stop.first <= beat < stop.last]
    return min(holding, key=lambda stop: stop.last - stop.first) if holding else stops[0 if beat < row.first else -1]


def _stop(chart: Chart, row: WallRow, piece: Piece, first: Fraction, last: Fraction) -> Stop:
    kind = "section" if piece.block.kind == "part" else piece.block.kind
    own = piece_at(chart.timeline, first)
    if kind != "section" and own.block.kind == "part":  # a change or hold inside a section: the section around it
        kind, piece = "section", own
    name = piece.section if kind == "section" else piece.block.name
    return Stop(row.number, row.part, kind, name, first, last, _title(chart, kind, name, first, last))


def _title(chart: Chart, kind: str, name: str, first: Fraction, last: Fraction) -> str:
    if kind == "section":
        return f"section {name} ({counts_between(chart, first, last)})"
    said = "danced intro" if kind == "intro" else f"{kind} {name}".rstrip()
    counts = int(last - first)
    return f"{said} ({counts} count{'s' if counts != 1 else ''})"


def counts_between(chart: Chart, first: Fraction, last: Fraction) -> str:
    """Return the counts of the part over a range of one wall: "17-24", "5"; empty where it holds none."""
    found = [number for number in (count_of(chart, first + step) for step in range(int(last - first))) if number]
    if not found:
        return ""
    return f"{found[0]}-{found[-1]}" if len(found) > 1 else str(found[0])


def count_of(chart: Chart, beat: Fraction) -> int | None:
    """Return the count through the part that is danced at a beat, or that a change danced there replaces.

    None inside another extra and outside the dance.
    """
    found = chart.stretch_at(beat)
    if found is None or found[1].block.kind not in ("part", "change"):
        return None
    after = Fraction(0)
    for stretch in found[0].stretches:
        kind = stretch.block.kind
        start = after if kind == "change" else stretch.begins - stretch.beat
        if stretch is found[1]:
            return int(start + beat - stretch.begins) + 1
        after = start + stretch.ends - stretch.begins if kind in ("part", "change") else after
    return None


def beat_of(chart: Chart, row: WallRow, count: int) -> Fraction | None:
    """Return the beat of a count of the part on a wall; None where that wall does not dance it."""
    for stretch in chart.timeline.passes[row.index].stretches:
        beat = stretch.beat + count - 1
        if stretch.block.kind == "part" and stretch.begins <= beat < stretch.ends:
            return beat
    return None


def counts_stop(chart: Chart, first: Fraction, last: Fraction) -> Stop:
    """Return any run of counts as a stop, by the name of a section or an extra where it is just that."""
    rows = road_map(chart)
    row = row_at(rows, first)
    for stop in stops_of(chart, row):
        if (stop.first, stop.last) == (first, last):
            return stop
    if (row.first, row.last) == (first, last):
        return Stop(row.number, row.part, "wall", "", first, last, "")
    until = row_at(rows, last - 1)
    if until is row:
        counts = counts_between(chart, first, last)
        title = f"counts {counts}" if "-" in counts else f"count {counts}" if counts else _inside(chart, row, first)
    else:
        title = f"{_count_words(chart, row, first)} to {wall_words(until.number, until.part)}, " + _count_words(
            chart, until, last - 1
        )
    return Stop(row.number, row.part, "counts", "", first, last, title)


def _count_words(chart: Chart, row: WallRow, beat: Fraction) -> str:
    count = count_of(chart, beat)
    return f"count {count}" if count else _inside(chart, row, beat)


def _inside(chart: Chart, row: WallRow, beat: Fraction) -> str:
    stop = stop_at(chart, row, beat)
    named = "danced intro" if stop.kind == "intro" else f"{stop.kind} {stop.name}".rstrip()
    return f"{named} count {int(beat - stop.first) + 1}"


def turned_on_wall(chart: Chart, index: int) -> Fraction:
    """Return the signed turn made on a wall up to an event, right positive; before the first event none."""
    if index < 0:
        return Fraction(0)
    wall = chart.event(index).wall
    turned = Fraction(0)
    while index >= 0 and (one := chart.event(index)).wall == wall:
        turned += one.turn
        index -= 1
    return turned


def event_of_line(chart: Chart, line: int, beat: Fraction) -> int | None:
    """Return the first event that was read from a line of the sheet: on the wall of a beat, else on any; None: none."""
    row = row_at(road_map(chart), beat)
    here = range(chart.index_before(row.first) + 1, chart.index_before(row.last) + 1)
    for place in chain(here, range(chart.size)):
        span = chart.event(place).event.span
        if span is not None and span.line == line:
            return place
    return None
