"""Draws the pictures of the README from the app itself: `python -m tests.pictures`."""

import asyncio
import sys
import tempfile
from pathlib import Path

from tests.drawn import Look, moving, shown, still
from tests.pages import SHEET, Visit
from trainer.resources import folder
from trainer.screens.app import CallaheadApp

PICTURES = Path(__file__).parent / "data" / "pictures"
SIZE = (100, 30)
STILL = ("shelf", "stopped", "dancing", "last four", "problems")
FIRST, LAST, LOOKS = 46.8, 59.8, 25
"""The seconds of a dance that the moving picture shows, and how often in each."""


async def draw() -> list[Path]:
    """Draw the pages at one moment each, and a stretch of a dance; return the files."""
    drawn: dict[str, Look] = {}
    await Visit(SIZE).pages(lambda app, name: drawn.setdefault(name, shown(app)) and None)
    paths = [save(still(drawn[name], f"Callahead: {name}"), name) for name in STILL]
    return [*paths, save(moving(await dance(), LAST - FIRST, "Callahead: a dance and its bridge"), "moving")]


async def dance() -> list[tuple[float, Look]]:
    """Return what the floor shows over a stretch of a dance, each change with its second."""
    visit = Visit(SIZE)
    looks: list[tuple[float, Look]] = []
    with tempfile.TemporaryDirectory() as data:
        app: CallaheadApp = visit.app(Path(data))
        async with app.run_test(size=SIZE) as pilot:
            await visit.to_floor(app, pilot, folder("routines") / SHEET)
            began = visit.time
            await pilot.press("space")
            for look in range(round((LAST - FIRST) * LOOKS)):
                await visit.at(app, pilot, began + FIRST + look / LOOKS)
                now = shown(app)
                if not looks or looks[-1][1] != now:
                    looks.append((look / LOOKS, now))
    return looks


def save(picture: str, name: str) -> Path:
    """Write a picture of the README's size."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    path = PICTURES / f"{name.replace(' ', '-')}-{SIZE[0]}x{SIZE[1]}.svg"
    path.write_text(picture, encoding="utf-8")
    return path


def main() -> int:
    """Draw the pictures and print where they are and how large."""
    for path in asyncio.run(draw()):
        sys.stdout.write(f"{path} {path.stat().st_size // 1024} KB\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
