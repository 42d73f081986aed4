"""Draws the pictures of the README from the app itself: `python tests/pictures.py`.

The floor is danced with a clock that stands still, so that the same counts come out each time.
"""

import asyncio
import re
import sys
import tempfile
from pathlib import Path

from trainer.resources import folder
from trainer.screens.app import CallaheadApp
from trainer.screens.floor_screen import FloorScreen

PICTURES = Path(__file__).parent / "data" / "pictures"
SHEET = "tide-under-the-door.sheet"
MOMENTS = {"dancing": 31.0, "restart": 40.5}
"""Seconds after the start."""


async def draw(columns: int, rows: int) -> list[Path]:
    """Draw the floor stopped and at each moment, in a terminal of a size; return the files."""
    time = 100.0
    drawn = []
    with tempfile.TemporaryDirectory() as data:
        app = CallaheadApp(folder("routines") / SHEET, device="silent", clock=lambda: time, data=Path(data))
        async with app.run_test(size=(columns, rows)) as pilot:
            await app.workers.wait_for_complete()
            await pilot.pause()
            while not isinstance(app.screen, FloorScreen):
                await pilot.press("enter")
                await pilot.pause()
            await pilot.pause()
            drawn.append(save(app, f"stopped-{columns}x{rows}"))
            await pilot.press("space")
            for name, seconds in MOMENTS.items():
                time = 100.0 + seconds
                app.screen.look()
                await pilot.pause()
                drawn.append(save(app, f"{name}-{columns}x{rows}"))
    return drawn


def save(app: CallaheadApp, name: str) -> Path:
    """Write what the app shows as an SVG picture."""
    PICTURES.mkdir(parents=True, exist_ok=True)
    path = PICTURES / f"{name}.svg"
    # A picture fetches nothing: the reader's own monospaced font does.
    drawn = re.sub(r"@font-face \{.*?\}", "", app.export_screenshot(title="callahead"), flags=re.DOTALL)
    path.write_text(drawn.replace("Fira Code", "monospace"), encoding="utf-8")
    return path


def main() -> int:
    """Draw the pictures and print where they are."""
    for path in asyncio.run(draw(100, 30)):
        sys.stdout.write(f"{path}\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
