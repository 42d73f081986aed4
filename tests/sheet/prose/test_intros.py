"""Danced intros, however they are announced, are danced once before the first wall and are no tags."""

import pytest

from trainer.problems import loud
from trainer.sheet.reading import read

_FLOWING = "sway right 1, hold 2, sway left 3, hold 4, sway right 5, left 6, right 7, left 8"
_SECTIONS = """
First section: step right to side 1, touch left beside 2, step left to side 3, touch right beside 4, side shuffle right
5&6, rock left back 7, recover right 8.

Second section: step left forward 1, pivot quarter turn right 2, left shuffle forward 3&4, rock right forward 5,
recover left 6, step right back 7, step left together 8.
"""


@pytest.mark.parametrize(
    "lead",
    [
        "Before the dance proper there's a little intro, 8 counts, done once only:",
        "Start dance (only once):",
        "We dance a small introduction first (8 counts, only one time, to the fiddle):",
        "The music begins slowly, so first of all we dance 8 counts that never come back:",
        "Introduction (8 counts, before wall 1 only):",
        "Once, at the very beginning, with the first words of the song:",
    ],
)
def test_an_intro_in_a_sentence(lead: str) -> None:
    routine, problems = read(f"Half a Plum\n16 counts, 4 walls, weight on L\n\n{lead} {_FLOWING}.\n{_SECTIONS}")
    assert not loud(problems)
    assert [(extra.kind, extra.counts) for extra in routine.extras] == [("intro", 8)]
    assert sum(part.counts for part in routine.parts) == 16
