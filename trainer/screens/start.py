"""Starts the app: keeps the sound libraries' C code off the screen, and loads as fast as can be."""

import asyncio
import gc
import os
import signal
import sys
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from trainer.screens.app import CallaheadApp


def run(sheet: Path | None, *, device: str) -> int:
    """Run the app, on the shelf or with one sheet on the floor, and return the exit code.

    Looking for garbage while modules load costs a fifth of the start and finds none; it begins when the app runs, and
    leaves out what was loaded by then. Plugins of pydantic are not looked for either: that reads a file of every
    package that is installed.
    """
    gc.disable()
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    import platformdirs

    from trainer.screens.app import CallaheadApp
    from trainer.sound.quiet import quiet

    def ready() -> None:
        _collect()
        _leave_when_told(app)

    app = CallaheadApp(sheet, device=device, loaded=ready)
    try:
        with quiet(platformdirs.user_state_path("callahead", appauthor=False) / "sound.log"):
            app.run()
    finally:
        gc.enable()
    return app.return_code or 0


def _leave_when_told(app: "CallaheadApp") -> None:
    """Give the terminal back when the system ends the program, or the window is closed."""
    if sys.platform == "win32":
        return
    for number in (signal.SIGTERM, signal.SIGHUP):
        # What a shell says of a program that a signal has ended.
        asyncio.get_running_loop().add_signal_handler(number, app.exit, None, 128 + number)


def _collect() -> None:
    gc.freeze()
    gc.enable()
