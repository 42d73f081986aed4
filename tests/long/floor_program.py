"""The program on one dance, as it starts in a terminal, with notes of every stretch danced; if wished, beside a busy
thread.

A stretch is left in OUT/N.pickle when it is stopped. OUT/sounds is there once the sound is open.

    python -m tests.long.floor_program SHEET OUT [busy]
"""

import pickle
import sys
import threading
import time
from fractions import Fraction
from pathlib import Path
from typing import NamedTuple

from trainer.screens import start
from trainer.screens.floor_screen import FloorScreen
from trainer.screens.session import Session
from trainer.sound.score import Score
from trainer.sound.transport import Transport


class Stretch(NamedTuple):
    """What was danced from a start to a stop; it is left as a plain tuple."""

    score: Score
    stopped: int
    """The frame from which the stop fades."""
    looks: list[tuple[float, Fraction]]
    """Monotonic seconds at the end of a look, and the beat that it let be shown."""


def note(out: Path) -> None:
    """Let the floor and its session note what they do."""
    look, stop = FloorScreen.look, Session.stop
    looks: list[tuple[float, Fraction]] = []
    number = 0

    def noted_look(screen: FloorScreen) -> None:
        look(screen)
        transport = screen.session._player
        if isinstance(transport, Transport) and screen.dancing:
            looks.append((time.monotonic(), transport.now().beat))
        elif isinstance(transport, Transport) and not transport.now().sound:
            (out / "sounds").touch()

    def noted_stop(session: Session) -> None:
        nonlocal number
        transport, danced = session._player, session.dancing
        score = transport._program.score if isinstance(transport, Transport) else None
        stop(session)
        if danced and isinstance(transport, Transport) and score is not None:
            part = out / "part"
            part.write_bytes(pickle.dumps((score, transport._program.since, list(looks))))
            part.rename(out / f"{number}.pickle")
            number += 1
            looks.clear()

    FloorScreen.look = noted_look  # type: ignore[method-assign]
    Session.stop = noted_stop  # type: ignore[method-assign]


def busy() -> None:
    """Keep the interpreter busy."""
    while True:
        sum(number * number for number in range(2000))


if __name__ == "__main__":
    note(Path(sys.argv[2]))
    if "busy" in sys.argv[3:]:
        threading.Thread(target=busy, daemon=True).start()
    sys.exit(start.run(Path(sys.argv[1]), device=""))
