"""What to practise next, proposed in order: a walk-through by hand, each section, the joins, a run-through.

The walk and the sections are those of the wall that the dancer stands on, in a phrased dance also those of every other
part where it is first danced whole. A join is danced from eight counts (waltz six) before a place where the order
departs from the plain dance to eight after it. Where one join follows another without a count between, they are one.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from trainer.practice.chart import Chart
from trainer.practice.marks import Mark
from trainer.practice.roadmap import (
    EXTRA_WORDS,
    MARK_WORDS,
    Stop,
    WallRow,
    counts_stop,
    road_map,
    row_at,
    stop_at,
    stops_of,
)
from trainer.practice.saying import wall_words
from trainer.practice.take import first_danced, resume_beat

_LONGEST = 14  # letters that stand in blocks beside the dial on 80 columns

Kind = Literal["walk", "drill", "join", "run", "on"]


@dataclass(frozen=True, slots=True)
class Proposal:
    """One thing to practise."""

    kind: Kind
    blocks: str
    """For block letters, at most 14: "DRILL 3", "TAG WALL 3"."""
    words: str
    """For a line of text: "drill wall 1, section 3 (17-24)"."""
    short: str
    """The same without its place: "drill section 3"."""
    first: Fraction
    """The timeline's first beat of it."""
    last: Fraction
    """The beat after its last count."""

    @property
    def loops(self) -> bool:
        """Whether it is danced again and again until stopped."""
        return self.kind in ("drill", "join")


def proposals(chart: Chart, beat: Fraction, loop: tuple[Fraction, Fraction] | None = None) -> tuple[Proposal, ...]:
    """Return what can be practised by a dancer who stands at a beat; `loop` is a range of the dancer's own choice."""
    rows = road_map(chart)
    found: list[Proposal] = []
    for row in _walls(chart, rows, row_at(rows, beat)):
        found.append(_walk(row))
        found += (_drill(stop) for stop in stops_of(chart, row) if not _inside(chart, row, stop))
    found += _joins(chart, rows)
    found.append(_run(chart))
    if loop is not None and not any(one.loops and (one.first, one.last) == loop for one in found):
        found.insert(0, _drill(counts_stop(chart, *loop)))
    return tuple(found)


def going_on(chart: Chart, beat: Fraction) -> Proposal:
    """Return the proposal to go on with the dance after a stop at a beat."""
    first = resume_beat(chart.timeline, beat)
    stop = stop_at(chart, row_at(road_map(chart), first), first)
    words, short = (f"go on from {words.partition(' (')[0]}" for words in (stop.words, stop.title))
    return Proposal("on", "GO ON", words, short, first, chart.timeline.ends)


def proposed_at(found: Sequence[Proposal], index: int, beat: Fraction) -> int:
    """Return which proposal suits a dancer who went to a place; `index` is that of the event danced last there.

    Before the first count it is the walk-through, elsewhere the shortest drill that holds the beat.
    """
    if index < 0:
        return next(place for place, one in enumerate(found) if one.kind != "drill" or one.first > beat)
    holding = [place for place, one in enumerate(found) if one.kind == "drill" and one.first <= beat < one.last]
    return min(holding, key=lambda place: found[place].last - found[place].first) if holding else len(found) - 1


def place_of(found: Sequence[Proposal], first: Fraction, last: Fraction) -> int | None:
    """Return which proposal loops just that range."""
    return next(
        (place for place, one in enumerate(found) if one.loops and (one.first, one.last) == (first, last)), None
    )


def _walls(chart: Chart, rows: Sequence[WallRow], here: WallRow) -> Iterator[WallRow]:
    """Yield the walls to learn from: the present one and, for each other part, its first that is danced whole."""
    parts: dict[str, list[WallRow]] = {}
    for row in rows:
        parts.setdefault(row.part, []).append(row)
    for name, walls in parts.items():
        part = chart.timeline.routine.part(name)
        counts = part.counts if part else 0
        yield here if name == here.part else next((row for row in walls if _whole(chart, row, counts)), walls[0])


def _whole(chart: Chart, row: WallRow, counts: int) -> bool:
    return chart.timeline.passes[row.index].danced >= counts


def _inside(chart: Chart, row: WallRow, stop: Stop) -> bool:
    """Whether an extra is danced inside a section, and is drilled with it."""
    return stop.kind != "section" and any(
        one != stop and one.first <= stop.first and stop.last <= one.last for one in stops_of(chart, row)
    )


def _walk(row: WallRow) -> Proposal:
    wall = wall_words(row.number, row.part)
    words, short = f"walk through {wall} by hand", f"walk wall {row.number} by hand"
    return Proposal(
        "walk", _fitting(f"WALK {row.part.upper() or f'WALL {row.number}'}", "WALK"), words, short, row.first, row.last
    )


def _fitting(*blocks: str) -> str:
    """Return the first of some words that fits in block letters, else the last."""
    return next((words for words in blocks if len(words) <= _LONGEST), blocks[-1])


def _drill(stop: Stop) -> Proposal:
    if stop.kind == "section":
        named = f"DRILL {stop.name}".upper()
        blocks = _fitting(f"DRILL {stop.part} {stop.name}".upper() if stop.part else named, named, "DRILL")
        short = f"drill section {stop.name}"
        short += f" of {stop.part}" if stop.part else ""
    elif stop.kind in EXTRA_WORDS:
        blocks, short = f"DRILL {EXTRA_WORDS[stop.kind]}", f"drill {stop.title.partition(' (')[0]}"
    elif stop.kind == "wall":
        blocks, short = f"LOOP WALL {stop.wall}", f"loop wall {stop.wall}"
    else:
        blocks, short = "YOUR LOOP", f"loop {stop.title}"
    return Proposal("drill", blocks, f"{short.partition(' ')[0]} {stop.words}", short, stop.first, stop.last)


def _joins(chart: Chart, rows: Sequence[WallRow]) -> Iterator[Proposal]:
    """Yield each different join once, where it is danced first."""
    phrase = chart.timeline.routine.phrase
    begins, ends = first_danced(chart.timeline), chart.timeline.ends
    seen: set[tuple[tuple[str, str, int, str], ...]] = set()
    for group in _grouped(mark for mark in chart.marks if not mark.closing and _is_join(mark)):
        key = tuple((mark.kind, mark.name, mark.after, mark.part) for mark in group)
        if key in seen:
            continue
        seen.add(key)
        first = max(group[0].beat - phrase, begins)
        last = min(group[-1].beat + group[-1].counts + phrase, ends)
        yield _join(chart, rows, group, first, last)


def _is_join(mark: Mark) -> bool:
    """A plain end is no join: nothing follows it; an ending is danced into."""
    return mark.kind != "END" or mark.counts > 0


def _grouped(marks: Iterable[Mark]) -> list[list[Mark]]:
    """Return the departures, those together that follow each other without a count between."""
    groups: list[list[Mark]] = []
    until = None
    for mark in marks:
        if groups and mark.beat == until:
            groups[-1].append(mark)
        else:
            groups.append([mark])
        until = mark.beat + mark.counts
    return groups


def _join(chart: Chart, rows: Sequence[WallRow], group: Sequence[Mark], first: Fraction, last: Fraction) -> Proposal:
    mark = group[0]
    wall = wall_words(mark.wall, mark.part)
    if mark.kind == "PART":
        into = wall_words(mark.wall + 1, mark.name)
        short = f"join part {mark.part} to {mark.name}"
        blocks = _fitting(f"JOIN {mark.part} TO {mark.name}".upper(), "JOIN PARTS")
        return Proposal("join", blocks, f"join {wall} to {into}", short, first, last)
    names = " and ".join(_named(one) for one in group if one.kind != "PART")
    before = stop_at(chart, row_at(rows, mark.beat - 1), mark.beat - 1)
    short, words = f"join {wall} to {names}", f"join {before.words.partition(' (')[0]} to {names}"
    return Proposal("join", f"{MARK_WORDS[mark.kind]} WALL {mark.wall}", words, short, first, last)


def _named(mark: Mark) -> str:
    return f"{'ending' if mark.kind == 'END' else mark.kind} {mark.name}".rstrip()


def _run(chart: Chart) -> Proposal:
    words, short = "run-through to the end", "run-through"
    return Proposal("run", "RUN-THROUGH", words, short, first_danced(chart.timeline), chart.timeline.ends)
