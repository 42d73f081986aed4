"""What whole sheets tell of their order, as their teachers wrote it, and the mistakes that were planted in it."""

from typing import Any

import pytest

from tests.sheet.prose.telling_text import as_text, known, rows_of, told_of
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.text.tokens import lines_of
from trainer.sheet.prose.words import Token


def _heading(text: str, line: int) -> tuple[Token, ...]:
    """The tokens of an extra's heading, as the page found it."""
    return lines_of("\n" * (line - 1) + text)[-1]


def _parts(*names: str, parts: tuple[tuple[str, int], ...], **more: Any) -> Known:
    return Known(phrase=8, sections=tuple((name, 8, "") for name in names), parts=parts, **more)


_AB = ("A1", "A2", "A3", "A4", "B1", "B2")
_NETTLE_ENDS = {7: 2, 8: 4, 9: 6, 10: 8, 12: 10, 14: 14, 15: 16, 18: 18, 19: 20, 20: 22, 21: 24, 24: 26, 41: 48}
DANCES = {
    "biscuit": known(32, walls=4),
    "copper": known(64, walls=4),
    "saltmarsh": _parts(*_AB, parts=(("A", 32), ("B", 16)), extras=(("tag", "Tag", 8, ()),)),
    "plum": _parts(*_AB, "C1", parts=(("A", 32), ("B", 16), ("C", 8)), walls=2),
    "thistle": _parts(
        "A1", "A2", "B1", "B2", "C1", parts=(("A", 16), ("B", 16), ("C", 8)), extras=(("intro", "Intro", 4, ()),)
    ),
    "figures": Known(phrase=8, sections=tuple((name, 8, "") for name in ("i", "ii", "iii", "iv")), walls=4),
    "nettle": known(48, walls=2, ends=_NETTLE_ENDS),
}


def _dance(row: dict[str, Any]) -> Known:
    if "dance" in row:
        return DANCES[row["dance"]]
    extras = ()
    if "ending" in row:
        extras = (("ending", "Finish", 3, _heading(row["ending"], 3)),)
    return known(row["counts"], phrase=row.get("phrase", 8), walls=row.get("walls"), extras=extras)


@pytest.mark.parametrize("row", rows_of("told_sheets.toml", "sheet"), ids=lambda row: row["reason"])
def test_a_sheet_tells_its_order(row: dict[str, Any]) -> None:
    assert as_text(told_of(row["text"], _dance(row))) == row["tells"]


@pytest.mark.parametrize("row", rows_of("told_sheets.toml", "fault"), ids=lambda row: row["reason"])
def test_an_order_that_cannot_be_danced_is_found_where_it_stands(row: dict[str, Any]) -> None:
    assert as_text(told_of(row["text"], _dance(row))) == row["tells"]


def _with_tag(heading: str) -> Known:
    return _parts(*_AB, parts=(("A", 32), ("B", 16)), extras=(("tag", "Tag", 8, _heading(heading, 5)),))


def test_a_tag_that_the_order_of_play_dances_already_is_not_danced_twice() -> None:
    heading = "TAG (8 counts), once only, after the second B"
    text = f"Order of play: A A B A A B Tag B\n\n\n\n{heading}"
    assert as_text(told_of(text, _with_tag(heading))) == ["play A A B A A B Tag B"]


def test_a_tag_after_a_part_that_is_never_danced_is_found_at_its_heading() -> None:
    heading = "TAG (8 counts), once only, after the fourth B"
    text = f"Order of play: A A B A A B Tag B\n\n\n\n{heading}"
    assert as_text(told_of(text, _with_tag(heading))) == [
        "play A A B A A B Tag B",
        "error 5:28 There is no B number 4: the order of play has only three Bs",
    ]


def test_a_tag_told_at_another_place_than_the_order_of_play_dances_it_is_found() -> None:
    heading = "TAG (8 counts), after the first B"
    text = f"Order of play: A A B A A B Tag B\n\n\n\n{heading}"
    assert as_text(told_of(text, _with_tag(heading))) == [
        "play A A B A A B Tag B",
        "error 5:17 The order of play dances Tag after B number 2, not after B number 1",
    ]
