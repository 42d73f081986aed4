"""Editing a sheet in the dancer's own editor, which takes the terminal meanwhile.

A sheet of the dancer's own is edited where it is. Of a bundled one the editor gets a copy; if it comes back changed, it
becomes a sheet of the dancer's own.
"""

import subprocess
import sys
import tempfile
from collections.abc import Sequence
from pathlib import Path

from textual.app import SuspendNotSupported

from trainer.practice.editing import Draft, keep_copy
from trainer.problems import TrainerError
from trainer.screens.base_app import BaseApp
from trainer.sheet.page import load

_TITLE = "Your editor was not started"


def edited(app: BaseApp, command: Sequence[str], draft: Draft) -> Path | None:
    """Let the dancer edit a sheet; return the file to read then, or None where nothing came of it.

    Raises TrainerError where the editor cannot be started, or a copy cannot be read or kept.
    """
    if not draft.bundled:
        _run(app, [*command, str(draft.path)])
        return draft.path
    with tempfile.TemporaryDirectory(prefix="callahead-") as folder:
        copy = Path(folder) / draft.path.name
        copy.write_text(draft.text, encoding="utf-8")
        _run(app, [*command, str(copy)])
        text = load(copy)
    if text == draft.text or app.shelf is None:
        return None
    return keep_copy(draft, text, app.shelf)


def _run(app: BaseApp, command: Sequence[str]) -> None:
    try:
        with app.suspend():
            # The errors of sound libraries go to a log; those of an editor belong in the terminal.
            subprocess.run(command, check=False, stderr=sys.__stderr__)
    except SuspendNotSupported as error:
        raise TrainerError(_TITLE, "this terminal cannot be handed over; edit the sheet here.") from error
    except OSError as error:
        raise TrainerError(_TITLE, f"{command[0]}: {error.strerror}.") from error
