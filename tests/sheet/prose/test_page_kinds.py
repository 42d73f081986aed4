"""Pages of many layouts: which words belong to which counts, and to the dance or an extra."""

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from trainer.sheet.prose.habits.wall_words import with_wall_words
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.one_view import total_of
from trainer.sheet.prose.order.lines.gather import gathered
from trainer.sheet.prose.order.told import header_facts, is_order
from trainer.sheet.prose.page.pages import Page, page_of
from trainer.sheet.prose.text.layout import clean_lines
from trainer.sheet.prose.views.page_views import _lines_of

_PAGES = tomllib.loads((Path(__file__).parent / "page_kinds.toml").read_text(encoding="utf-8"))["page"]


def _page(text: str) -> Page:
    lines, _ = gathered(_lines_of(with_wall_words(clean_lines(text.strip("\n")))))
    total = total_of(lines, header_facts([line.tokens for line in lines[:12]]))
    return page_of(lines, is_order, fills, total=total)


def _items(page: Page) -> Iterator[str]:
    for block in page.blocks:
        yield f"{block.kind} {block.part}".strip()
        for item in block.items:
            labels = " ".join(slot.label for slot in item.slots)
            yield f"{labels}: {' '.join(token.text for token in item.text)}"


@pytest.mark.parametrize("page", _PAGES, ids=lambda page: page["reason"])
def test_a_layout(page: dict[str, Any]) -> None:
    assert list(_items(_page(page["text"]))) == page["items"]
