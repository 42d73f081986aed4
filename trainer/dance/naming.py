"""What a step is called: in full for reading, short in capitals for block letters of the floor screen."""

from trainer.dance.facing import turn_text
from trainer.dance.figures import figures, moves
from trainer.routine import Event
from trainer.terms import Direction, Move

LONGEST_SHORT = 13
"""Letters that fit in blocks on 80 columns."""

_SHORT = {
    Direction.FORWARD: "FWD",
    Direction.IN_PLACE: "IN PLACE",
    Direction.TOGETHER: "TOG",
    Direction.FORWARD_RIGHT: "FWD",
    Direction.FORWARD_LEFT: "FWD",
    Direction.BACK_RIGHT: "BACK",
    Direction.BACK_LEFT: "BACK",
}


def step_name(event: Event) -> str:
    """Return the name of the figure that an event belongs to, else of its own step; "unread" where it is."""
    if event.figure is not None:
        return event.figure.name
    return clause_name(event)


def clause_name(event: Event) -> str:
    """Return an event's own step with its direction and turn, without the foot: "cross", "rock forward 1/4 left"."""
    if event.move is None:
        return "unread"
    words = [] if event.move is Move.STEP and event.direction else [event.move.value]
    if event.direction:
        words.append(event.direction.value)
    if event.turn:
        words.append(turn_text(event.turn))
    return " ".join(words)


def short_name(event: Event) -> str:
    """Return the step in capitals, at most 13 letters: "COASTER", "ROCK FWD", "SIDE"."""
    if event.move is None:
        return "UNREAD"
    if event.figure is not None:
        row = figures().get(event.figure.name)
        return row.short if row else _fitting(event.figure.name.upper())
    own = moves()[event.move].short
    if not event.direction:
        return own
    direction = _SHORT.get(event.direction, event.direction.value.upper())
    if event.move is Move.STEP:
        return direction
    both = f"{own} {direction}"
    return both if len(both) <= LONGEST_SHORT else own


def _fitting(words: str) -> str:
    """Cut a name that the sheet spells out itself at a blank, so that it fits."""
    words = words.strip()
    return words if len(words) <= LONGEST_SHORT else words[: LONGEST_SHORT + 1].rsplit(" ", 1)[0][:LONGEST_SHORT]
