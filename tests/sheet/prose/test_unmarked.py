"""Extras told in words without counts: the figures' own patterns fill the counts that the extra is said to have."""

import pytest

from tests.sheet.prose.walking import item
from trainer.sheet.prose.items.phrases import Gloss
from trainer.sheet.prose.items.unmarked import with_counts
from trainer.sheet.prose.words import Item
from trainer.sheet.reading import read

ROWS = [
    (4, "sway R, L, R, L", "1 2 3 4", "one a count"),
    (4, "shuffle right, rock back, recover", "1 & 2 3 4", "a shuffle takes two counts"),
    (4, "R shuffle forward, L shuffle forward", "1 & 2 3 & 4", "two of them"),
    (2, "right coaster step", "1 & 2", "a figure alone"),
    (8, "right kick ball change twice, jazz box", "1 & 2 3 & 4 5 6 7 8", "a figure twice"),
    (4, "hold 4", "1 2 3 4", "a hold lasts"),
    (3, "step right, touch left", "1 2 3", "too few steps: one a count, the last is empty"),
]


@pytest.mark.parametrize(("counts", "words", "labels", "why"), ROWS, ids=[row[3] for row in ROWS])
def test_counts_are_found(counts: int, words: str, labels: str, why: str) -> None:
    told = item(words, "1")
    found = with_counts(Item((), told.text, told.span), counts, Gloss())
    assert " ".join(slot.label for slot in found.slots) == labels, why
    assert found.slots == tuple(sorted(found.slots, key=lambda slot: slot.beat))


def test_a_tag_in_a_sentence_is_danced_so() -> None:
    steps = "1-4 Walk forward right, left, right, left\n5-8 Walk back right, left, right, left\n"
    routine, _ = read(
        f"Quay\n8 counts, 1 wall\n\n{steps}\nTag: after wall 2, 4 counts: shuffle right, rock back, recover\n"
    )
    (tag,) = routine.extras
    assert [event.label for event in tag.events] == ["1", "&", "2", "3", "4"]
    assert tag.counts == 4
