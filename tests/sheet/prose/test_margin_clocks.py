"""Hours in the left margin tell where their lines end, or where they begin, as the turns of the lines have it."""

import pytest

from trainer.problems import loud
from trainer.sheet.reading import read

_LINES = (
    "SIDE TOGETHER, CHASSE RIGHT   1 2 3&4", "ROCK BACK left, RECOVER, CHASSE LEFT   5 6 7&8",
    "ROCKING CHAIR from the right   1 2 3 4", "STOMP right, STOMP left, CLAP, CLAP   5 6 7 8",
    "GRAPEVINE RIGHT, TOUCH left   1 2 3 4", "GRAPEVINE LEFT, QUARTER LEFT on 7, BRUSH right   5 6 7 8",
    "JAZZ BOX from the right, no turn, left foot closes   1 2 3 4", "WALK FORWARD right, left, right, left   5 6 7 8",
)  # fmt: skip


@pytest.mark.parametrize(
    "hours", [("@12", "", "@12", "", "@12", "", "@9", ""), ("@12", "", "@12", "", "", "@9", "@9", "")]
)
def test_hours_of_some_lines(hours: tuple[str, ...]) -> None:
    rows = "\n".join(f"{hour:4} {line}" for hour, line in zip(hours, _LINES, strict=True))
    routine, problems = read(f"PLUM LANE - 32 c - four wall - wt L\n\n{rows}\n")
    assert not loud(problems)
    turns = [str(event.turn) for part in routine.parts for section in part.sections for event in section.events]
    assert [at for at, turn in enumerate(turns) if turn != "0"] == [24]
