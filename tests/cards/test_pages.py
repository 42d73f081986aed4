"""How a card is laid out: inside its margins, nothing lost, nothing over another text, one page where it can be."""

from collections.abc import Iterator
from itertools import pairwise

import cards
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.dance.strategies import anything
from trainer.cards.lines import Run, faced, paragraph
from trainer.cards.making import card_of
from trainer.cards.marks import Band, Dial, Face, Mark, Rule, Text
from trainer.cards.model import Card, CardRow
from trainer.cards.pages import LARGEST, MARGIN, PAPERS, SMALLEST, Laid, laid_out
from trainer.dance.facing import HOME, clock
from trainer.routine import Routine


class Even:
    """Every letter half as wide as high."""

    def width(self, text: str, face: Face) -> float:
        return 0.5 * len(text)


def texts(laid: Laid) -> Iterator[Text]:
    for page in laid.pages:
        yield from (mark for mark in page if isinstance(mark, Text))


def right_edge(mark: Mark) -> float:
    if isinstance(mark, Text):
        return mark.x + mark.size * Even().width(mark.text, mark.face)
    return mark.x + (mark.radius if isinstance(mark, Dial) else mark.width)


def stays_inside(laid: Laid) -> None:
    for page in laid.pages:
        for mark in page:
            assert right_edge(mark) <= laid.width - MARGIN + 0.01, mark
            assert mark.x >= MARGIN - 0.01
            below = mark.height if isinstance(mark, Band) else 0
            assert MARGIN <= mark.y <= laid.height - MARGIN - below + 0.01, mark


def is_apart(laid: Laid) -> None:
    """Texts on one line stand side by side."""
    for page in laid.pages:
        lines: dict[float, list[Text]] = {}
        for mark in page:
            if isinstance(mark, Text):
                lines.setdefault(round(mark.y, 2), []).append(mark)
        for line in lines.values():
            line.sort(key=lambda one: one.x)
            for one, following in pairwise(line):
                assert right_edge(one) <= following.x + 0.01, (one, following)


def says_all(card: Card, laid: Laid) -> None:
    """Every letter of the rows is on some page."""
    drawn = "".join(mark.text for mark in texts(laid))
    for letter in {one for block in card.blocks for row in block.rows for one in words(row)}:
        assert letter in drawn
    wanted = sum(len(words(row)) for block in card.blocks for row in block.rows)
    assert len(drawn) >= wanted


def words(row: CardRow) -> str:
    steps = "".join(step.name + step.foot + step.text for step in row.steps)
    told = row.counts + steps + row.styling + (clock(row.facing) if row.facing is not None else "")
    return "".join(told.split())


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("path", cards.BUNDLED, ids=lambda path: path.stem)
def test_a_bundled_routine_fits_one_page_in_large_type(path: object, paper: str) -> None:
    laid = laid_out(cards.bundled(path.stem), Even(), paper)  # type: ignore[attr-defined]
    assert len(laid.pages) == 1
    assert laid.size >= 9
    stays_inside(laid)
    is_apart(laid)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize(("sections", "pages"), [(1, 1), (8, 1), (12, 1), (60, None)])
def test_a_dance_gets_smaller_type_before_it_gets_another_page(sections: int, pages: int | None, paper: str) -> None:
    card = cards.long(sections)
    laid = laid_out(card, Even(), paper)
    stays_inside(laid)
    is_apart(laid)
    says_all(card, laid)
    assert SMALLEST <= laid.size <= LARGEST
    assert len(laid.pages) == pages if pages else len(laid.pages) > 2


def test_pages_that_go_on_say_so() -> None:
    laid = laid_out(cards.long(60), Even(), "a4")
    said = [" ".join(mark.text for mark in page if isinstance(mark, Text)) for page in laid.pages]
    for number, page in enumerate(said, 1):
        assert f"page {number} of {len(said)}" in page
    assert all("Long, going on" in page for page in said[1:])


@pytest.mark.parametrize("paper", PAPERS)
def test_texts_without_bounds_stay_inside_the_pages(paper: str) -> None:
    card = cards.boundless()
    laid = laid_out(card, Even(), paper)
    assert 1 < len(laid.pages) < 20
    stays_inside(laid)
    is_apart(laid)
    says_all(card, laid)


def test_larger_type_is_taken_where_it_fits() -> None:
    sizes = [laid_out(cards.long(sections), Even(), "a4").size for sections in (2, 6, 9, 12)]
    assert sizes == sorted(sizes, reverse=True)
    assert sizes[0] > sizes[-1]


@settings(max_examples=40, deadline=None)
@given(anything)
def test_any_routine_is_laid_out(routine: Routine) -> None:
    card = card_of(routine)
    laid = laid_out(card, Even(), "letter")
    stays_inside(laid)
    is_apart(laid)
    says_all(card, laid)


@settings(deadline=None)
@given(st.lists(st.text(max_size=30), max_size=8), st.floats(60, 300))
def test_a_paragraph_keeps_every_letter_and_its_width(pieces: list[str], width: float) -> None:
    strip = paragraph([Run(piece) for piece in pieces], width, 10, Even())
    drawn = [mark for mark in strip.marks if isinstance(mark, Text)]
    assert "".join(mark.text for mark in drawn).replace("·", "") == "".join("".join(pieces).split()).replace("·", "")
    assert all(right_edge(mark) <= width + 0.01 for mark in drawn)
    assert all(mark.y <= strip.height for mark in drawn)


def lines_of(runs: list[Run], width: float) -> list[str]:
    lines: dict[float, list[str]] = {}
    for mark in paragraph(runs, width, 10, Even()).marks:
        if isinstance(mark, Text):
            lines.setdefault(mark.y, []).append(mark.text)
    return [" ".join(line) for line in lines.values()]


def test_a_foot_stays_with_its_step_and_a_turn_with_its_side() -> None:
    runs = [Run("R", kept=True), Run("back ½ left,"), Run("L", kept=True), Run("forward ¼ right")]
    assert lines_of(runs, 75) == ["R back ½ left,", "L forward", "¼ right"]
    assert lines_of(runs, 60) == ["R back", "½ left,", "L forward", "¼ right"]


def test_facts_stay_whole_and_no_line_ends_with_their_dot() -> None:
    runs = [Run("32 counts", whole=True, kept=True), Run("·"), Run("wait 16 counts", whole=True)]
    assert lines_of(runs, 80) == ["32 counts", "wait 16 counts"]


def test_a_facing_has_its_dial() -> None:
    marks = paragraph([faced(HOME)], 100, 10, Even()).marks
    assert [type(mark) for mark in marks] == [Dial, Text]
    assert not any(isinstance(mark, Rule) for mark in marks)
