"""Words that nobody could read are told as such, whatever stands beside them; chat beside the steps is no step."""

import pytest

from tests.sheet.prose.walking import item
from trainer.sheet.prose.items.phrases import Gloss, item_readings

GARBLED = [
    ("1-2", "R acqqs L, pzint xv srde", "a foot and a word without meaning"),
    ("5-6", "R bibbet wuj de corf, touch L by it", "four words without meaning after a foot"),
    ("7-8", "Hulf i trun lof, snepping lifrot vard", "slips beside words without meaning"),
    ("7&8", "L bxhnd, R sqqe, L czzz", "feet with words without vowels"),
    ("1&2", "bzkk, lqt rxgt lvvv", "no foot at all"),
    ("8", "R grubble spint", "a foot, and words that sound like words"),
    ("4", "sproggle left", "a word before a foot"),
]
SOUND = [
    ("1-2", "stpe foward on ur rigth, tuoch left", "slips of a phone that can be read"),
    ("1-2", "step right, hmm, touch left", "a sigh"),
    ("1", "step right, let the left arm float up", "an arm, in words no table knows"),
    ("1-2", "step right like a flamingo, touch left", "styling that no table knows"),
    ("1-2", "u step R then L xx", "a greeting"),
    ("1", "In the third six step left forward", "a place in the dance"),
    ("1-2", "step right with both hands on your hips, touch left", "hands"),
]
ODD = [
    ("1-2", "plimber left beside right, step left", "in the place of a verb"),
    ("5", "right snoof forward", "after the foot"),
    ("5-6", "marmalade right forward, recover on left", "a word of the kitchen"),
    ("7&8", "right brindle step", "the name of a figure"),
    ("7-8", "quarter turn left wibble left to the side, touch right", "after a turn"),
    ("1-2", "step left forward, snoof half right", "in the place of a turn's word"),
    ("1-4", "vine left, snoof right", "before a foot alone"),
    ("6", "right to wibble", "where the foot should go to"),
    ("3", "step right to marmalade", "a place that is none"),
    ("5-6", "left snoof right, right wibble", "behind each foot"),
]


@pytest.mark.parametrize(("labels", "words", "why"), ODD, ids=[row[2] for row in ODD])
def test_a_word_that_nobody_knows_is_no_step(labels: str, words: str, why: str) -> None:
    best = item_readings(item(words, labels), Gloss(used=frozenset()))[0]
    assert best.breaches >= 1, why
    assert best.unread, why


@pytest.mark.parametrize(("labels", "words", "why"), ODD, ids=[row[2] for row in ODD])
def test_a_word_that_the_sheet_uses_again_is_one_of_its_own(labels: str, words: str, why: str) -> None:
    own = frozenset({"plimber", "snoof", "marmalade", "brindle", "wibble"})
    again = item_readings(item(words, labels), Gloss(used=own))[0]
    assert again == item_readings(item(words, labels), Gloss())[0], why


@pytest.mark.parametrize(("labels", "words", "why"), GARBLED, ids=[row[2] for row in GARBLED])
def test_garbled_words_are_unread(labels: str, words: str, why: str) -> None:
    best = item_readings(item(words, labels), Gloss())[0]
    assert best.breaches >= 1, why
    assert best.unread, why


@pytest.mark.parametrize(("labels", "words", "why"), SOUND, ids=[row[2] for row in SOUND])
def test_chat_is_passed_over(labels: str, words: str, why: str) -> None:
    best = item_readings(item(words, labels), Gloss())[0]
    assert best.breaches == 0, why
    assert not best.unread, why
    assert None not in best.drafts, why
