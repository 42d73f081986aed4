"""The HTML as a parser of the standard library sees it: well formed, nothing but text from the sheet, printable."""

import re
from html.parser import HTMLParser
from pathlib import Path

import cards
import pytest
from hypothesis import given, settings

from tests.dance.strategies import anything
from trainer.cards.making import card_of
from trainer.cards.model import Card
from trainer.cards.web import as_html
from trainer.routine import Routine
from trainer.sheet.opening import open_sheet

VOID = {"meta", "circle", "path"}


class Seen(HTMLParser):
    """The tags and the text of a page; every tag must be closed in its turn."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[str] = []
        self.text: list[str] = []
        self.attributes: list[tuple[str, str | None]] = []
        self._open: list[str] = []
        self.feed(page)
        self.close()
        assert self._open == []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs
        if tag not in VOID:
            self._open.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.attributes += attrs

    def handle_endtag(self, tag: str) -> None:
        assert self._open.pop() == tag

    def handle_data(self, data: str) -> None:
        if "style" not in self._open:
            self.text.append(data)

    @property
    def said(self) -> str:
        return "".join("".join(self.text).split())


def bare(text: str) -> str:
    return "".join(text.split())


@pytest.mark.parametrize("path", [*cards.BUNDLED, *cards.PROSE], ids=lambda path: path.stem)
def test_a_page_says_all_of_its_card(path: Path) -> None:
    card = card_of(open_sheet(path).routine)
    said = Seen(as_html(card, "a4")).said
    for told in (card.title, *card.facts, *card.credits, *card.notes, card.key):
        assert bare(told) in said
    for row in (row for block in card.blocks for row in block.rows):
        assert bare(row.counts) in said
        assert bare(row.styling) in said
        assert all(bare(step.foot + step.text) in said for step in row.steps)
    assert all(bare(then.text) in said for wall in card.walls for then in wall.then)


def test_hostile_texts_are_only_texts() -> None:
    page = as_html(cards.hostile(), "letter")
    seen = Seen(page)
    assert seen.said.count(bare(cards.HOSTILE)) >= 9
    assert set(seen.tags) <= {
        "html", "head", "meta", "title", "style", "body", "header", "div", "h1", "p", "svg", "circle", "path", "main",
        "section", "h2", "h3", "span", "table", "tr", "th", "td", "b", "ol", "li",
    }  # fmt: skip
    assert not [name for name, _ in seen.attributes if name.startswith("on") or name in ("src", "href", "style")]
    assert page.count("<style>") == page.count("</style>") == 1


def test_nothing_is_loaded_from_elsewhere() -> None:
    page = as_html(cards.bundled("tide-under-the-door"), "a4")
    assert "default-src 'none'" in page
    assert not re.search(r"https?:|url\(|@import", page)


@pytest.mark.parametrize(("paper", "size"), [("a4", "A4"), ("letter", "letter")])
def test_the_paper_is_said_to_the_printer(paper: str, size: str) -> None:
    assert f"@page {{ size: {size}; margin: 13mm; }}" in as_html(cards.bundled("tide-under-the-door"), paper)


def test_a_longer_dance_has_smaller_type() -> None:
    def size(card: Card) -> float:
        found = re.search(r"body \{ font: ([\d.]+)pt", as_html(card, "a4"))
        assert found
        return float(found[1])

    assert size(cards.long(12)) < size(cards.long(3))


def test_every_alphabet_survives() -> None:
    card = cards.made("title: 東京 עברית 🎶 Чайка\ncounts: 4\n== 1\n1-4 R vine\n")
    assert "東京 עברית 🎶 Чайка" in "".join(Seen(as_html(card, "a4")).text)


@settings(max_examples=30, deadline=None)
@given(anything)
def test_any_routine_makes_a_well_formed_page(routine: Routine) -> None:
    assert "Anything" in Seen(as_html(card_of(routine), "a4")).said
