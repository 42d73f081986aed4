"""What the floor says in words: a step with its turn, a place in the dance, a departure, what to mend in a loop."""

from fractions import Fraction

from trainer.dance.counts import is_number
from trainer.dance.facing import clock, turn_text
from trainer.dance.naming import clause_name
from trainer.dance.timeline import Danced
from trainer.practice.chart import Chart
from trainer.practice.marks import Mark
from trainer.practice.pieces import piece_at
from trainer.practice.take import Mend


def full_name(steps: list[Danced]) -> str:
    """Return the name of a step with the turn that all its events make."""
    event = steps[0].event
    if event.figure is None:
        return clause_name(event)
    turn = turn_text(sum((one.turn for one in steps), Fraction(0)))
    return f"{event.figure.name} {turn}".rstrip()


def sub_label(chart: Chart, index: int, beat: Fraction) -> str:
    """Return the &, a or e of the event at an index where it was danced since the whole count, else an empty text."""
    one = chart.event(index) if index >= 0 else None
    return one.label if one and not is_number(one.label) and beat // 1 <= one.beat <= beat else ""


def place_words(chart: Chart, index: int, beat: Fraction) -> str:
    """Return where a beat is danced, the count in its section first: "wall 4, section 3 count 4 (20)"."""
    found = chart.stretch_at(beat)
    if found is None:
        return "before the first count" if index < 0 else "after the last count"
    one, stretch = found
    wall, block = wall_words(one.number, one.part), stretch.block
    sub = sub_label(chart, index, beat)
    if block.kind != "part":
        title = "danced intro" if block.kind == "intro" else f"{block.kind} {block.name}".rstrip()
        danced = int(beat // 1 - stretch.begins) + 1
        return f"{wall}, {title} count {danced}{sub} of {int(stretch.ends - stretch.begins)}"
    piece = piece_at(chart.timeline, beat)
    own = int(beat // 1 - piece.first) + piece.offset + 1
    through = int(beat // 1 - stretch.beat) + 1
    words = f"{own}{sub}" if own == through else f"{own}{sub} ({through}{sub})"
    return f"{wall}, section {piece.section} count {words}"


def departure_line(mark: Mark, left: int) -> str:
    """Return all of a departure: "TAG Gate in 14 counts: wall 4 after 32, 4 counts, facing 12:00"."""
    return f"{_named(mark)} {when_words(left)}: {_details(mark)}"


def departure_words(mark: Mark) -> str:
    """Return a departure as it stands on the map: "TAG Gate: wall 4 after 32, 4 counts, facing 12:00"."""
    return f"{_named(mark)}: {_details(mark)}"


def when_words(left: int) -> str:
    """Return how many counts are still danced before something."""
    return {0: "on the next count", 1: "in 1 count"}.get(left, f"in {left} counts")


def _named(mark: Mark) -> str:
    return f"{mark.kind} {mark.name}".rstrip() if mark.kind != "END" else "END"


def _details(mark: Mark) -> str:
    where = f"{wall_words(mark.wall, mark.part)} after {mark.after}"
    ending = f"ending {mark.name}" if mark.kind == "END" and mark.name else ""
    length = f"{mark.counts} count{'s' if mark.counts != 1 else ''}" if mark.counts else ""
    return ", ".join(words for words in (where, ending, length, f"facing {clock(mark.facing)}") if words)


def wall_words(number: int, part: str) -> str:
    """Return a wall with the part that is danced on it, in a phrased dance."""
    return f"wall {number} part {part}" if part else f"wall {number}"


def mend_words(mend: Mend) -> str:
    """Return what to put right between two rounds of a loop, "back to 6:00, weight on R"; empty when it fits."""
    facing = "" if mend.facing is None else f"back to {clock(mend.facing)}"
    weight = {None: "", "B": "weight on both feet"}.get(mend.weight, f"weight on {mend.weight}")
    return ", ".join(words for words in (facing, weight) if words)
