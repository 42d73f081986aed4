"""Small dances of the harbour group, made by hand for tests of what comes after the sheet."""

from fractions import Fraction

from trainer.routine import Departure, Event, Extra, FigureMark, Insert, OrderLine, Part, Routine, Section, Span
from trainer.terms import Direction, Foot, Label, Move, Weight


def event(
    label: Label,
    beat: str | int,
    foot: str,
    move: Move = Move.STEP,
    *,
    turn: str = "0",
    weight: Weight | None = None,
    figure: tuple[int, str, int] | None = None,
    direction: Direction | None = None,
    words: str = "",
    line: int = 0,
) -> Event:
    return Event(
        label=label,
        beat=Fraction(beat),
        foot=Foot(foot),
        weight=weight or ("R" if foot == "R" else "L"),
        turn=Fraction(turn),
        move=move,
        direction=direction,
        figure=FigureMark(id=figure[0], name=figure[1], index=figure[2]) if figure else None,
        words=words,
        span=Span(line, 1, 1) if line else None,
    )


def first_section() -> Section:
    """Walks, a shuffle, a rock, a coaster step; eight counts, no turn."""
    return Section(
        name="1",
        title="walks and a coaster",
        counts=8,
        events=(
            event("1", 0, "R", Move.WALK, words="Walk right, left", line=6),
            event("2", 1, "L", Move.WALK, words="Walk right, left", line=6),
            event("3", 2, "R", figure=(1, "shuffle", 0), words="Shuffle forward", line=7),
            event("&", "5/2", "L", figure=(1, "shuffle", 1), words="Shuffle forward", line=7),
            event("4", 3, "R", figure=(1, "shuffle", 2), words="Shuffle forward", line=7),
            event("5", 4, "L", Move.ROCK, direction=Direction.FORWARD),
            event("6", 5, "R", Move.RECOVER),
            event("7", 6, "L", figure=(2, "coaster step", 0)),
            event("&", "13/2", "R", figure=(2, "coaster step", 1)),
            event("8", 7, "L", figure=(2, "coaster step", 2)),
        ),
    )


def second_section() -> Section:
    """A quarter right on 1, a leading & before it, a hold of two counts; it ends on L, three hours on."""
    return Section(
        name="2",
        counts=8,
        events=(
            event("&", "-1/2", "R", Move.BALL),
            event("1", 0, "L", turn="1/4"),
            event("2", 1, "R"),
            event("3", 2, "-", Move.HOLD, weight="R"),
            event("4", 3, "-", Move.HOLD, weight="R"),
            event("5", 4, "L", Move.POINT, weight="R"),
            event("6", 5, "L"),
            event("7", 6, "R"),
            event("8", 7, "L"),
        ),
    )


def tag() -> Extra:
    """Four sways."""
    sways = tuple(event(label, beat, "RL"[beat % 2], Move.SWAY) for beat, label in enumerate(("1", "2", "3", "4")))
    return Extra(kind="tag", name="Gate", counts=4, events=sways)


def quay() -> Routine:
    """Sixteen counts, four walls: a restart in wall 2 after 8, a tag after wall 3, a bow that ends wall 4 after 8."""
    bow = Extra(kind="ending", name="Bow", counts=2, events=(event("1", 0, "R"), event("2", 1, "L", Move.POSE)))
    return Routine(
        title="Kettle on the Quay",
        tempo=Fraction(96),
        counts=16,
        walls=4,
        level="improver",
        wait=4,
        parts=(Part(sections=(first_section(), second_section())),),
        extras=(tag(), bow),
        order=(
            OrderLine(passes=(2,), departures=(Departure(after=8, leave="restart"),)),
            OrderLine(passes=(3,), departures=(Departure(after=16, inserts=(Insert(kind="tag", name="Gate"),)),)),
            OrderLine(
                passes=(4,),
                departures=(Departure(after=8, inserts=(Insert(kind="ending", name="Bow"),), leave="end"),),
            ),
        ),
    )
