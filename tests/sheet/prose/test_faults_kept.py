"""A fault in a page that reads well is told; no other view of the page explains it away."""

from pathlib import Path

import pytest

from trainer.problems import loud
from trainer.sheet.opening import opened

IN_WORDS = """\
Paper Lantern
16 counts, 1 wall. Weight on the left to begin.

The opening eight
One, two: step right to the side, step left beside right.
Three, four: rock right back, recover on left.
Five and six: shuffle forward right, left, right.
Seven, eight: step left forward, scuff right.

The second eight
One and two: shuffle forward right, left, right.
Three, four: rock left forward, recover on right.
Five and six: shuffle back left, right, left.
Seven, eight: step right back, step left beside right.
"""
BESIDE = """\
Paper Lantern
32 counts 1 wall. weight on ur left

1st 8
vine right: side 1 behind 2 side 3, touch left next to right 4
vine left: side 5 behind 6 side 7, touch right next to left 8

2nd 8
walk forward right 1 left 2 right 3, kick left 4
walk back left 5 right 6 left 7, touch right next to left 8

3rd 8
right heel fwd 1, step it home 2, left heel fwd 3, step it home 4
step right fwd 5 scuff left 6, step left fwd 7 scuff right 8

4th 8
rocking chair: rock fwd on right 1 back on left 2, rock back on right 3 fwd on left 4
stomp right 5 stomp left 6 clap 7 clap 8

at the end of the 4th wall theres a tag, 4 counts:
step right to side 1 touch left 2 step left to side 3 touch right 4
"""
RUNNING = """\
Paper Lantern, a waltz of twelve counts to one wall.

The first six. Forward with the left on one, the right steps beside it on two, the left
steps in place on three. Back with the right on four, the left steps beside it on five,
the right steps in place on six.

The second six. Take a long step to the left with the left foot on one and let the right
foot drag towards it on two and three, without ever taking your weight. Then step to
the right with the right foot on four, cross the left behind on five, and step to the
right again with the right foot on six.
"""
LOTS = """\
Paper Lantern, 16 counts, 1 wall

1st lot of 8: vine to the right 1 2 3 and touch left next to right on 4
Vine to the left 5 6 7, touch right next to left on 8

2nd lot of 8: walk forward right left right, that's 1 2 3, and kick left on 4
Walk back left right left 5 6 7, touch right next to left on 8

One tag: when you finish wall 2, sway right, left, right, left, that's 1 2 3 4. Then wall 3 from the top
"""
SENTENCES = """\
Paper Lantern, 16 counts, 1 wall, weight on the left to begin.

The first eight.
On 1-2 step the right to the side and touch the left beside it. On 3-4 step the left
to the side and touch the right beside it. On 5-6 rock forward on the right and
recover on the left. On 7-8 step the right back and step the left beside it.

The second eight.
On 1-2 walk forward on the right and on the left. On 3-4 rock the right to the side and
recover on the left. On 5&6 shuffle back, right, left, right. On 7-8 step back on the left
and touch the right beside it.
"""
NOTED = """\
Paper Lantern
16 counts, 2 walls, weight on the left to begin.

First eight
On 1 step right forward, on 2 touch left beside it.
On 3 step left back, on 4 touch right beside it.
On 5 step right forward, on 6 pivot a half turn left and put your weight on the left.
On 7 stomp right and on 8 stomp left, weight on each of them.

Second eight
1 to 4 grapevine right, touch left beside right on 4.
5 to 8 grapevine left, and touch right next to left on 8.
"""
BARS = """\
Paper Lantern
A waltz of 24 counts, 1 wall. Weight on the right foot.

Bar 1: step L forward, step R beside L, step L in place
Bar 2: step R back, step L beside R, step R in place
Bar 3: step L to side, step R behind L, step L to side
Bar 4: long step R to side, drag L up to R for two counts, no weight
Bar 5: step L across R, step R to side, step L in place
Bar 6: step R across L, step L to side, step R in place
Bar 7: rock L across R, recover on R, step L to side
Bar 8: step R to side, touch L beside R, hold
"""
TALKED_ABOVE = """\
Paper Lantern
16 counts, 1 wall. Weight on the left. You begin on 1 with a step to the right.
The 1 of an 8&1 is count 1 of the next section, so sections 2, 3 and 4 would begin on 2.

== Section 1 ==
1 2 3   Step R to R side, rock L forward, recover R
4&5     Step L back, lock R over L, step L back
6 7     Rock R back, recover L
8&1     Step R forward, step L beside R, step R forward

== Section 2 ==
2 3     Rock L forward, recover R
4&5     Step L back, step R beside L, step L forward
6 7     Rock R to R side, recover L
8&      Step R beside L, step L in place

** HOLD 4 ct, end of wall 2: 1-4 hold, no moves, wt stays L **
"""
FAULTS = [
    (TALKED_ABOVE, "6 7     Rock R back", "5 6     Rock R back", "counts", 8),
    (TALKED_ABOVE, "1 2 3   Step R to R side", "1 2     Step R to R side", "counts", 6),
    (TALKED_ABOVE, "Rock L forward, recover R\n", "Rock R forward, recover L\n", "weight", 12),
    (NOTED, "stomp right and on 8 stomp left", "stomp left and on 8 stomp right", "weight", 8),
    (BARS, "for two counts", "for four counts", "counts", 7),
    (BARS, "touch L beside R, hold", "touch L beside R, hold for three counts", "counts", 11),
    (IN_WORDS, "Three, four: rock right", "Three, five: rock right", "counts", 6),
    (BESIDE, "walk back left 5 right 6 left 7", "walk back left 4 right 5 left 6", "counts", 10),
    (
        RUNNING,
        "the right with the right foot on four, cross the left behind on five, and step",
        "thr wrgt wit te ergh fft oq four, crs hte lff bhdn no five, and step",
        "text",
        9,
    ),
    (SENTENCES, "recover on the left. On 7-8", "blivver ux drelf. On 7-8", "text", 6),
    (LOTS, "when you finish wall 2, sway", "after the 6th lot of 8 on wall 2, sway", "order", 9),
]


@pytest.mark.parametrize("page", [IN_WORDS, BESIDE, RUNNING, LOTS, SENTENCES, NOTED, BARS, TALKED_ABOVE])
def test_a_sound_page_has_no_finding(page: str) -> None:
    assert loud(opened(Path("lantern.txt"), page).problems) == []


@pytest.mark.parametrize(("page", "right", "wrong", "kind", "line"), FAULTS)
def test_its_one_fault_is_told_there(page: str, right: str, wrong: str, kind: str, line: int) -> None:
    assert page.count(right) == 1
    found = loud(opened(Path("lantern.txt"), page.replace(right, wrong)).problems)
    assert any(one.kind == kind and line <= one.line <= line + 1 for one in found)


def test_a_last_turn_is_not_left_out_to_come_to_the_stated_walls() -> None:
    steps = "1-4 Walk right, left, right, left\n5-6 Rock right forward, recover left\n"
    last = "7-8 Step right back turning 1/4 left, step left to left turning 1/4 left\n"
    sheet = opened(Path("sheet.txt"), f"Paper Lantern\n8 counts, 4 walls\n\n{steps}{last}")
    assert [problem.kind for problem in loud(sheet.problems)] == ["facing"]
