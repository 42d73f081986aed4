"""The app with a clock that stands still until the test moves it, no sound, and a data folder of its own."""

from collections.abc import AsyncIterator, Callable
from contextlib import AbstractAsyncContextManager, asynccontextmanager
from fractions import Fraction
from pathlib import Path

import pytest
from textual.pilot import Pilot

from trainer.dance.unroll import unroll
from trainer.practice.shelf import Shelf
from trainer.resources import folder
from trainer.routine import Routine
from trainer.screens.app import CallaheadApp
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.session import Session
from trainer.sheet.opening import Sheet
from trainer.sound.program import FADE
from trainer.timing import RATE

START = FADE / RATE
"""Seconds from a start to its first count-in: what sounded before fades first."""


class Clock:
    """Monotonic seconds that only a test moves."""

    def __init__(self) -> None:
        self.time = 100.0

    def __call__(self) -> float:
        return self.time


class Floor:
    """A floor screen in a running app."""

    def __init__(self, app: CallaheadApp, pilot: Pilot[None], screen: FloorScreen, clock: Clock) -> None:
        self.app, self.pilot, self.screen, self.clock = app, pilot, screen, clock
        self._began = clock.time

    @property
    def session(self) -> Session:
        return self.screen.session

    async def press(self, *keys: str) -> None:
        """Press keys; a start among them begins now."""
        self._began = self.clock.time
        await self.pilot.press(*keys)

    def go_to(self, beat: Fraction | int, tempo: Fraction | int) -> None:
        """Move the clock just behind a beat of the take, counted in by four, and look."""
        self.clock.time = self._began + START + float((beat + 4) * 60 / Fraction(tempo)) + 0.002
        self.screen.look()


Opener = Callable[..., AbstractAsyncContextManager[Floor]]


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def data(tmp_path: Path) -> Path:
    return tmp_path / "data"


@pytest.fixture
def read_shelf(data: Path) -> Path:
    """A data folder in which the cautions were read."""
    Shelf(folder("routines"), data).cautions_were_read()
    return data


@pytest.fixture
def open_floor(clock: Clock, read_shelf: Path) -> Opener:
    @asynccontextmanager
    async def opened(
        routine: Routine, size: tuple[int, int] = (80, 24), device: str = "silent", **sheet: object
    ) -> AsyncIterator[Floor]:
        app = CallaheadApp(device=device, clock=clock, data=read_shelf)
        async with app.run_test(size=size) as pilot:
            await pilot.pause()
            made = {"path": folder("routines") / "herring-lane-hello.sheet", "text": "", "problems": ()} | sheet
            screen = FloorScreen(Sheet(routine=routine, **made), Session(unroll(routine)))
            await app.push_screen(screen)
            await pilot.pause()
            assert screen.opening is not None
            await screen.opening
            await pilot.pause()
            yield Floor(app, pilot, screen, clock)

    return opened
