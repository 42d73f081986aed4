"""A sheet's own signs, each put on the same page in place of a plain one: all of them read alike."""

import pytest

from trainer.problems import loud
from trainer.routine import Routine
from trainer.sheet.reading import read

_SIGNED = """SORREL LOFT
adv / 16 / 2w / rolling / 8 in / wt L

E1  1 R big side; 2 L rock behind, a R rec; 3 1/4L L fwd + swp R to frt ->9;
    4 R x L, a L side; 5 R bk; 6 L bk, a R bk; 7 1/2L L fwd ->3; 8 R fwd, a L fwd
E2  1 1/4R R fwd ->6; 2 L fwd, a 1/4R R fwd ->9; 3 L rock fwd; 4 R rec, a 1/4L L fwd ->6;
    5 R fwd; 6 L fwd, a R fwd; 7 L rock fwd; 8 R rec, a L tog

w3: E1 only, restart
"""
_ORDINALS = """SORREL GATE ... 24, 4 wall, int, 32 in, weight L

1st  R side-L behind-R side 1/4R-L scuff (1234) @3, L fwd-1/2R piv onto R (56) @9, L shuf fwd (7&8)
2nd  R kick fwd twice (12), R coaster (3&4), L kick fwd twice (56), L coaster (7&8)
3rd  R toe-heel (12), L toe-heel (34), R over-L back-R side 1/4R-L tog (5678) @12

wall 3 stop after 2nd, restart .. wall 5 after 1st add 4: R sway-L sway-R sway-L sway (1234), then on with 2nd
"""
_LETTERED = """SORREL STILE
Sixteen counts, one wall. Stand on the left foot.

A. We go to the side and come back.
The right foot steps to the side, 1. The left foot closes to it, 2. The right foot steps
to the side again, 3, and the left foot touches next to it, 4.
The left foot steps to the side, 5. The right foot closes to it, 6. The left foot steps
to the side again, 7, and the right foot touches next to it, 8.

B. We walk up and walk back.
Walk forward on the right, 1, on the left, 2, and on the right, 3. Kick the left, 4.
Walk back on the left, 5, on the right, 6, and on the left, 7. The right toe touches
behind, 8.
"""

_PIECES = """SORREL WALTZ
A waltz of eighteen beats, two walls. Put your weight on your right foot, for it is the left that sets off.

The first piece is plain waltzing. On 1 the left foot steps forward, on 2 the right
closes beside it, on 3 the left steps on the spot. On 4 take a long step to the
side with the right, and let the left drag after it all through 5 and 6 with no weight.

In the second piece the left steps forward on 1, the right steps to the side on 2 with
a quarter turn to the left, which leaves the left wall before you, and the left closes
beside the right on 3. Then right foot back on 4, left beside it on 5, right on the spot on 6.

The third piece brings us round. On 1 turn a quarter to the left and step forward on
the left, on 2 step forward right, on 3 step forward left. On 4 the
right steps forward again, on 5 the left closes to it, on 6 the right steps on the spot.

Wall three is broken off after the second piece; we begin wall four there and then.
"""


def _danced(text: str) -> Routine:
    routine, problems = read(text)
    assert not loud(problems)
    return routine


def _events(routine: Routine) -> list[tuple[object, ...]]:
    return [(e.label, e.beat, e.foot, e.weight, e.turn) for e in routine.events()]


@pytest.mark.parametrize("sign", ["->", "=>", "→", "> ", "-> ", "^", "~", "#"])
def test_hours_after_a_sign(sign: str) -> None:
    routine = _danced(_SIGNED.replace("->", sign))
    assert _events(routine) == _events(_danced(_SIGNED))
    assert [len(section.events) for section in routine.parts[0].sections] == [12, 12]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("", ""),
        ("stop after 2nd, restart", "cut after the 2nd, restart"),
        ("stop after 2nd, restart", "1st and 2nd only, restart"),
        ("after 1st add 4:", "after 1st put in 4 cts:"),
        (" .. wall 5", "\nwall 5"),
        ("-L", ", L"),
    ],
)
def test_sections_by_their_ordinals(old: str, new: str) -> None:
    routine = _danced(_ORDINALS.replace(old, new) if old else _ORDINALS)
    assert [section.counts for section in routine.parts[0].sections] == [8, 8, 8]
    told = {line.passes: line.departures[0] for line in routine.order if line.departures}
    assert [(passes, one.after, one.leave) for passes, one in told.items()] == [
        ((3,), 16, "restart"),
        ((5,), 8, "continue"),
    ]
    assert [len(extra.events) for extra in routine.extras] == [4]


@pytest.mark.parametrize("heads", ["A. B.", "A) B)", "I. II.", "1. 2.", "Part A. Part B."])
def test_counts_after_words_below_a_letter(heads: str) -> None:
    first, second = heads.split(" ") if heads.count(" ") == 1 else ("Part A.", "Part B.")
    routine = _danced(_LETTERED.replace("A.", first).replace("B.", second))
    assert "".join(str(event.foot) for event in routine.events()) == "RLRLLRLRRLRLLRLR"
    assert "".join(str(event.weight) for event in routine.events()) == "RLRRLRLLRLRRLRLL"


@pytest.mark.parametrize("word", ["piece", "passage", "tune"])
def test_pieces_by_their_ordinals(word: str) -> None:
    routine = _danced(_PIECES.replace("piece", word))
    assert "".join(str(event.foot) for event in routine.events()) == "LRLRLLLRLRLRLRLRLR"
    assert "".join(str(event.weight) for event in routine.events()) == "LRLRRRLRLRLRLRLRLR"
    assert [place for place, event in enumerate(routine.events()) if event.turn] == [7, 12]
    assert [(line.passes, line.departures[0].after) for line in routine.order if line.departures] == [((3,), 12)]
