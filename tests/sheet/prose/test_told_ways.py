"""The ways of many teachers to tell the order: tags, restarts, bridges, changes, holds, ends, walls by their facing."""

from fractions import Fraction
from typing import Any

import pytest

from tests.sheet.prose.telling_text import as_text, known, rows_of, told_of
from trainer.sheet.prose.order.grammar.telling import Known

HALF, QUARTER = Fraction(1, 2), Fraction(1, 4)
TITLED = tuple(
    (str(place), 8, words) for place, words in enumerate(("WALKS and kicks", "JAZZ BOX", "LANTERNS", "side rocks"), 1)
)
DANCES = {
    "plain": known(32, walls=2, net=HALF),
    "four": known(32, walls=4, net=QUARTER),
    "anti": known(32, walls=4, net=-QUARTER),
    "waltz": known(48, phrase=6, walls=2, net=HALF),
    "titled": Known(phrase=8, sections=TITLED, walls=2, net=HALF),
}


@pytest.mark.parametrize("row", rows_of("told_ways.toml", "ways"), ids=lambda row: row["text"])
def test_a_way_to_tell_the_order(row: dict[str, Any]) -> None:
    assert as_text(told_of(row["text"], DANCES[row.get("dance", "plain")])) == row["tells"]
