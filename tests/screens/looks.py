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
    """Return the pages that are kept of a size, by the names of their files."""
    found: dict[str, str] = {}

    def keep(app, page):
        if page in KEPT[size]:
            found[name_of(page, size)] = text_of(shown(app))

    await Visit(size).pages(keep)
    return found


if __name__ == "__main__":
    FOLDER.mkdir(parents=True, exist_ok=True)
    for kept in KEPT:
        for name, text in asyncio.run(looks(kept)).items():
            (FOLDER / name).write_text(text, encoding="utf-8")
