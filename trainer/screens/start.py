"""Starts the app: keeps the sound libraries' C code off the screen, and loads as fast as can be."""

import gc
import os
from pathlib import Path


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

    app = CallaheadApp(sheet, device=device, loaded=_collect)
    try:
        with quiet(platformdirs.user_state_path("callahead", appauthor=False) / "sound.log"):
            app.run()
    finally:
        gc.enable()
    return app.return_code or 0


def _collect() -> None:
    gc.freeze()
    gc.enable()
