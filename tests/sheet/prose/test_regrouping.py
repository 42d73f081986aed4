"""Items whose words and counts the page parted otherwise than the steps go."""

from fractions import Fraction

import pytest

from tests.sheet.prose.walking import item
from trainer.sheet.prose.items.phrases import Gloss
from trainer.sheet.prose.items.regrouping import regrouped
from trainer.sheet.prose.words import Item, Slot


def _items(*told: tuple[str, int]) -> list[Item]:
    """Return items of one count each, the beats in halves."""
    return [
        Item((Slot("1", Fraction(half, 2)),), item(words, "1", line=line).text, item(words, "1", line=line).span)
        for line, (words, half) in enumerate(told, 1)
    ]


@pytest.mark.parametrize(
    ("words", "lengths", "why"),
    [
        (("and shuffle back right", "left", "right."), [3], "the feet of a figure, counted one by one"),
        (("triple step left", "and right", "left"), [3], "with an and before a foot"),
        (("shuffle back right", "left", "right", "rock left back"), [3, 1], "but no more than its feet"),
        (("walk right", "left", "right"), [1, 1, 1], "a move by itself needs no joining"),
        (("right back", "left", "right"), [1, 1, 1], "nor do steps"),
        (("coaster step", "left back", "right beside left"), [1, 1, 1], "nor words that say more than a foot"),
    ],
)
def test_the_feet_of_a_figure_are_one_item(words: tuple[str, ...], lengths: list[int], why: str) -> None:
    found = regrouped(_items(*((one, 2 * place) for place, one in enumerate(words))), Gloss(), "straight")
    assert [len(one.slots) for one in found] == lengths, why


@pytest.mark.parametrize(
    ("words", "labels", "expected", "why"),
    [
        ("rock right across left and recover onto left, & step right beside left", "1 2", "1 2 &", "after the last"),
        ("step right side, & close left, step right side", "1 2", "1 & 2", "between two"),
        ("rock right forward & recover left", "1 2", "1 2", "an and that only joins"),
        ("rock right forward, & recover left", "1 2", "1 2", "an and that only joins, after a comma"),
        ("rock right forward, recover left & right beside left", "1 2", "1 2 &", "without a comma too"),
        ("kick right, & step right, touch left", "1 & 2", "1 & 2", "counted already"),
    ],
)
def test_a_bare_and_has_a_count(words: str, labels: str, expected: str, why: str) -> None:
    (found,) = regrouped([item(words, labels)], Gloss(), "straight")
    assert " ".join(slot.label for slot in found.slots) == expected, why
    beats = [slot.beat for slot in found.slots]
    assert beats == sorted(beats)
