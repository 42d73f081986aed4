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

_LOOKED_AFTER = 1.0
"""Seconds after which it is looked whether the terminal is still there."""


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
    if sys.stdin.isatty():
        app.set_interval(_LOOKED_AFTER, lambda: None if _is_there(0) else app.exit(None, 128 + signal.SIGHUP))


def _is_there(terminal: int) -> bool:
    """Whether a terminal is still there: one that was closed does not always say so to the programs that ran in it."""
    import termios

    try:
        termios.tcgetattr(terminal)
    except termios.error:
        return False
    return True


def _collect() -> None:
    gc.freeze()
    gc.enable()
