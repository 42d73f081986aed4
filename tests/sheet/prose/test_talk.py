"""What teachers say above and below the steps is no step, no count and no extra: the dance is read as without it."""

import pytest

from tests.sheet.prose.tables_made import danced

_HEAD = "Tumbledown\n16 counts, 4 walls\n"
_STEPS = """
1-4 vine to the right, touch left beside right
5-6 step left to side, touch right beside left
7-8 step right to side, touch left beside right

1-4 vine to the left, making a 1/4 turn left on the third step, touch right beside left
5-6 step right forward, touch left beside right
7-8 step left back, touch right beside left
"""
_PROSE = (
    "Vine to the right and touch left beside right (1-4). Step left to the side and touch right beside it (5, 6). "
    "Step right to the side and touch left beside it (7, 8).\n\nNow vine to the left, a quarter turn left on the third "
    "step, touch right beside left (1-4). Step right forward and touch left beside right (5, 6). Step left back and "
    "touch right beside left (7, 8).\n"
)


@pytest.mark.parametrize(
    "said",
    [
        "NEW WALL IS TO THE LEFT OF THE OLD ONE.",
        "For a bit of spice, make the first vine a rolling one.",
        "Dance it on one wall first, then on all four.",
        'Count it "one-and-two". If it sounds like a drum you\'re doing it right.',
        "1 2 of the 2nd 8 is quick so keep it under u. tag ur group!!",
        "Counts 5-8 of the second eight are easy to rush, so take your time.",
        "Counts 1 to 8 travel right and left, counts 9 to 16 travel forward and back.",
        "There are no tags or restarts in this one.",
        "There isn't a single tag or restart.",
        "tags/restarts: 0",
        "Tag-free and restart-free!",
        "Four times through brings you back home.",
        "Carry on to the end.",
        "the end",
    ],
)
def test_what_is_said_below_the_steps_is_no_part_of_them(said: str) -> None:
    plain = danced(_HEAD + _STEPS)
    assert plain[1] == ()
    assert danced(f"{_HEAD}{_STEPS}{said}\n") == plain


@pytest.mark.parametrize(
    "said",
    [
        "Stand up straight, shoulders down, and breathe.",
        "This is a nice easy one for beginners, a vine and some touches.",
        "No tags, no restarts, just dance.",
        "Feet together, weight on left, ready? Five six seven eight!",
    ],
)
def test_what_is_said_before_the_first_step_in_its_line_is_no_part_of_it(said: str) -> None:
    plain = danced(_HEAD + "\n" + _PROSE)
    assert plain[1] == ()
    assert danced(f"{_HEAD}\n{said} {_PROSE}") == plain


def test_to_finish_heads_the_last_steps_of_a_dance_that_they_make_whole() -> None:
    text = _HEAD + "\n" + _PROSE.replace("Now vine to the left", "To finish: vine to the left")
    assert danced(text) == danced(_HEAD + "\n" + _PROSE)
