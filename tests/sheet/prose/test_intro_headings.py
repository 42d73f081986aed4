"""A danced intro is one, whatever its heading tells besides: its length, where and how often, the weight."""

import pytest

from trainer.problems import loud
from trainer.sheet.fair import fair
from trainer.sheet.prose.reader import read_prose

HEADINGS = (
    "INTRODUCTION, danced once only, facing 12 (8 counts)",
    "Danced intro (8 counts, weight on left to begin)",
    "Opening, 8 counts, only once, start with weight on L",
    "Prelude: 8 counts facing front, one time",
    "INTRO 8 counts",
    "Intro, 8 counts danced, weight L",
    "Intro (8)",
    "The intro, eight counts, danced at the front",
    "Intro part, 8 counts (dance it one time, at 12)",
)
DANCE = """GREEN BARN HOP
improvers, 16 counts, 4 walls
Music: "Gate Left Open", 16 counts to wait, then the danced introduction

{heading}
stomp R [1], hold [2], stomp L [3], hold [4]
step R to side [5], touch L beside R [6], step L to side [7], touch R beside L [8]

PHRASE ONE. Step and touch
step R to side [1], step L behind R [2], turn 1/4 right and step R forward [3], brush L [4]
step L forward [5], lock R behind L [6], step L forward [7], brush R [8]

PHRASE TWO. Rocks
rock R forward [1], recover L [2], rock R back [3], recover L [4]
rock R forward [5], recover L [6], rock R back [7], recover L [8]
"""
PARTS = """The Green Barn
Phrased dance. A = 16 counts, B = 8 counts, and a short danced intro

How it runs
The band plays 16 counts alone, then the danced intro comes once. Then A A B A.

{heading}
- sway right, hold, sway left, hold [1 2 3 4]
- sway right, hold, sway left, hold [5 6 7 8]

A, first eight
- walk right, walk left [1 2]
- right kick forward, step on ball of right beside left, step left in place [3 & 4]
- rock right forward, recover left [5 6]
- right to side, left together, right forward [7 & 8]

A, second eight
- left across right, right to side [1 2]
- left behind right, right to side, left to side [3 & 4]
- right across left, left to side [5 6]
- right behind left, left to side, right back, left together [7 & 8 &]

B, only one eight
- stomp right to side with weight, hold [1 2]
- left behind right, right to side, left across right [3 & 4]
- rock right to side, recover left [5 6]
- right behind left, left to side, right across left, left side [7 & 8 &]
"""


@pytest.mark.parametrize("heading", HEADINGS)
def test_above_sections(heading: str) -> None:
    routine, problems = read_prose(DANCE.format(heading=heading))
    assert not loud(problems)
    assert [extra.kind for extra in routine.extras] == ["intro"]
    assert [section.counts for section in routine.parts[0].sections] == [8, 8]


@pytest.mark.parametrize("heading", HEADINGS)
def test_above_parts(heading: str) -> None:
    routine, problems = read_prose(PARTS.format(heading=heading))
    assert not loud(problems)
    assert [extra.kind for extra in routine.extras] == ["intro"]
    assert [part.name for part in routine.parts] == ["A", "B"]
    assert "play: A A B A" in fair(routine)
