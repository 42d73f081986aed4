"""The cautions, in one place: for the help of the commands and, once, for the shelf; and how much a dance spins.

Sources: NIOSH recommended exposure limit (85 dBA, 8 h); WHO-ITU H.870 (80 dB, 40 h a week; less for children).
"""

from fractions import Fraction
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trainer.routine import Routine

CAUTIONS = """\
Take care: warm up first (ankles, calves, knees, hips, easy walks, no turns); mind the floor and your shoes; learn
spins slowly, with room round you; stop on pain or dizziness and ask a doctor or physiotherapist. Keep the sound low:
85 dBA for at most 8 hours a day (NIOSH), 80 dB for 40 hours a week (WHO-ITU), less for children. The rules of your
venue come first.
"""


def full_turns(routine: "Routine") -> int:
    """Return how many full turns the parts of a dance have when each is danced once.

    A full turn is one whole turn on events that follow each other and turn the same way, whatever their steps are.
    """
    found = 0
    for part in routine.parts:
        run = Fraction(0)
        for event in (event for section in part.sections for event in section.events):
            run = run + event.turn if run * event.turn > 0 else event.turn
            if abs(run) >= 1:
                found += int(abs(run))
                run -= int(run)
    return found
