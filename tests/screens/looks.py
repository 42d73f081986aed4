"""The pages kept as golden files, glyphs only. `python -m tests.screens.looks` draws them anew, to be looked at.

Colours are held by the tests of the themes.
"""

import asyncio
from pathlib import Path

from tests.drawn import shown, text_of
from tests.pages import Visit

FOLDER = Path(__file__).parents[1] / "data" / "looks"
KEPT = {
    (80, 24): ("shelf", "dancing", "last four", "problems", "settings"),
    (120, 40): ("stopped", "dancing"),
}


def name_of(page: str, size: tuple[int, int]) -> str:
    return f"{page.replace(' ', '-')}-{size[0]}x{size[1]}.txt"


async def looks(size: tuple[int, int]) -> dict[str, str]:
    """Return every page as text."""
    found: dict[str, str] = {}
    await Visit(size).pages(lambda app, page: found.setdefault(page, text_of(shown(app))) and None)
    return found


if __name__ == "__main__":
    FOLDER.mkdir(parents=True, exist_ok=True)
    for kept in KEPT:
        pages = asyncio.run(looks(kept))
        for page in KEPT[kept]:
            (FOLDER / name_of(page, kept)).write_text(pages[page], encoding="utf-8")
