"""Visits the pages of the app one after the other, always the same: its clock stands still, its shelf is fresh."""

import tempfile
from collections.abc import Callable
from pathlib import Path

from textual.pilot import Pilot

from trainer.practice.settings import Settings
from trainer.practice.shelf import Shelf
from trainer.resources import folder
from trainer.screens.app import CallaheadApp
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.problems_screen import ProblemsScreen

SHEET = "tide-under-the-door.sheet"
DANCED = {"dancing": 30.2, "last four": 54.2}
"""Seconds after the start."""

FAULTY = """\
title: Rope Walk
tempo: 96
starts: weight on L
counts: 16
walls: 4

== 1: walks and a coaster
1-2     R walk, L walk
3&4     R shufle forward
5-6     L rock forward, R recover
7&8     L coaster step                                      @3:00
== 2: weave and a quarter
1-4     R side, L behind, R side, L cross
5-6     R rock side, L recover
7-8     R forward, L pivot turning 1/4 left                 @9:00
"""

Take = Callable[[CallaheadApp, str], None]
"""Is given the app and the name of the page that it shows."""


class Visit:
    """The app in a terminal of a size, with a clock of its own."""

    def __init__(self, size: tuple[int, int], settings: Settings | None = None) -> None:
        self.size = size
        self.settings = settings or Settings()
        self.time = 100.0

    async def pages(self, take: Take) -> None:
        """Show the shelf, the floor stopped and dancing, the findings of a faulty sheet, and what keys open."""
        with tempfile.TemporaryDirectory() as data:
            app = self.app(Path(data))
            async with app.run_test(size=self.size) as pilot:
                await settled(app, pilot)
                take(app, "shelf")
                await self.beside(app, pilot, take, {"a": "adding", "question_mark": "keys of the shelf"})
                await self.to_floor(app, pilot, folder("routines") / SHEET)
                take(app, "stopped")
                pages = {"g": "map", "u": "look up", "t": "tempo", "e": "sheet", "question_mark": "keys of the floor"}
                await self.beside(app, pilot, take, pages)
                await self.dance(app, pilot, lambda name: take(app, name))
                await pilot.press("space", "q")
                faulty = Path(data) / "rope-walk.sheet"
                faulty.write_text(FAULTY, encoding="utf-8")
                app.open_sheet(faulty)
                await settled(app, pilot)
                assert isinstance(app.screen, ProblemsScreen)
                take(app, "problems")
                await pilot.press("q", "s")
                await pilot.pause()
                take(app, "settings")

    async def beside(self, app: CallaheadApp, pilot: Pilot[None], take: Take, pages: dict[str, str]) -> None:
        """Show the pages that keys open over the one in front."""
        below = app.screen
        for key, name in pages.items():
            await pilot.press(key)
            await settled(app, pilot)
            assert app.screen is not below, name
            take(app, name)
            await pilot.press("escape")
            await settled(app, pilot)
            assert app.screen is below, name

    def app(self, data: Path) -> CallaheadApp:
        """Return the app over a folder in which the cautions were read."""
        Shelf(folder("routines"), data).cautions_were_read()
        app = CallaheadApp(device="silent", clock=lambda: self.time, data=data)
        app.change_settings(self.settings)
        return app

    async def to_floor(self, app: CallaheadApp, pilot: Pilot[None], sheet: Path) -> None:
        """Open a sheet, whose notes are no reason not to dance it, and wait for its sound."""
        app.open_sheet(sheet)
        await settled(app, pilot)
        if not isinstance(app.screen, FloorScreen):
            await pilot.press("d")
            await settled(app, pilot)
        assert isinstance(app.screen, FloorScreen)
        assert app.screen.opening is not None
        await app.screen.opening
        await pilot.pause()

    async def dance(self, app: CallaheadApp, pilot: Pilot[None], take: Callable[[str], None]) -> None:
        """Dance, and stop the clock at each of the moments."""
        began = self.time
        await pilot.press("space")
        for name, seconds in DANCED.items():
            await self.at(app, pilot, began + seconds)
            take(name)

    async def at(self, app: CallaheadApp, pilot: Pilot[None], time: float) -> None:
        """Put the clock on, and let the floor look at it."""
        self.time = time
        assert isinstance(app.screen, FloorScreen)
        app.screen.look()
        await pilot.pause()


async def settled(app: CallaheadApp, pilot: Pilot[None]) -> None:
    """Wait until everything that was begun has come to an end."""
    await pilot.pause()
    await app.workers.wait_for_complete()
    await pilot.pause()
    await app.workers.wait_for_complete()
    await pilot.pause()
