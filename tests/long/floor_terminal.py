"""A terminal with the noted program in it, its pictures by the time at which they come, and its sound recorded."""

import fcntl
import os
import pickle
import pty
import struct
import subprocess
import sys
import termios
import threading
import time
from pathlib import Path

import numpy as np

from tests.long.floor_program import Stretch
from tests.sound.live import compare
from tests.sound.pulse import Recorder, Server
from tests.sound.test_score import onsets
from trainer.resources import folder

ROOT = Path(__file__).parents[2]
DOWN, UP = b"\x1b[B", b"\x1b[A"


class FloorTerminal:
    """The program on a bundled dance in a terminal of 120x40, looping a section in stretches."""

    def __init__(self, sound: Server, place: Path, *, beside: str = "quiet") -> None:
        self.sound = sound
        self.pictures: list[float] = []
        """By how many seconds the picture that shows its beat came after each click; negative: before."""
        self.looks: list[float] = []
        """The same of the look that the picture was made from."""
        self.keys: list[float] = []
        """Seconds from each tempo key to the first changed frame as heard."""
        self.clicks: list[int] = []
        """By how many samples each click was off."""
        self._out = place / "notes"
        self._out.mkdir()
        self._came: list[float] = []
        self._stretches = 0
        self._own, inside = pty.openpty()
        fcntl.ioctl(inside, termios.TIOCSWINSZ, struct.pack("HHHH", 40, 120, 0, 0))
        homes = {f"XDG_{name}_HOME": str(place / name.lower()) for name in ("DATA", "STATE", "CONFIG", "CACHE")}
        sheet = folder("routines") / "tide-under-the-door.sheet"
        self._program = subprocess.Popen(
            [sys.executable, "-m", "tests.long.floor_program", str(sheet), str(self._out), beside],
            stdin=inside, stdout=inside, stderr=inside, cwd=ROOT, start_new_session=True,
            env={**os.environ, **sound.environment, **homes, "TERM": "xterm-256color", "COLORTERM": "truecolor"},
        )  # fmt: skip
        os.close(inside)
        self._thread = threading.Thread(target=self._read, daemon=True)
        self._thread.start()

    def _read(self) -> None:
        while True:
            try:
                piece = os.read(self._own, 1 << 16)
            except OSError:  # Linux's word for an end, once the program has gone
                return
            if not piece:
                return
            self._came.append(time.monotonic())

    def open(self) -> None:
        """Wait for the sound, and loop the first section."""
        self._wait_for(self._out / "sounds")
        os.write(self._own, b"l")
        time.sleep(0.5)

    def stretch(self, seconds: float, key: bytes) -> bool:
        """Dance with a tempo key in the middle; False where the server reported an underrun, so that it is void."""
        recorder = Recorder(self.sound)
        time.sleep(1.0)
        underruns = self.sound.underruns()
        os.write(self._own, b" ")
        time.sleep(seconds / 2)
        pressed = time.monotonic()
        os.write(self._own, key)
        time.sleep(seconds / 2)
        voided = self.sound.underruns() > underruns
        os.write(self._own, b" ")
        noted = self._out / f"{self._stretches}.pickle"
        self._stretches += 1
        self._wait_for(noted)
        time.sleep(0.5)
        recorded = recorder.stop()
        if voided:
            return False
        danced = Stretch(*pickle.loads(noted.read_bytes()))  # written by the test's own program
        begins = danced.score.first - onsets(recorded)[0]
        self.clicks += compare(danced.score, recorded, begins, danced.stopped)
        self.keys.append(recorder.heard_at(danced.score.tempo.segments[-1].frame - begins) - pressed)
        for frame in onsets(recorded)[2:]:
            self._hold(danced, frame + begins, recorder.heard_at(frame))
        return True

    def _hold(self, danced: Stretch, frame: int, heard: float) -> None:
        """Hold the look and the picture of a click against the time at which it was heard."""
        beats = [beat for _, beat in danced.looks]
        beat = danced.score.tempo.beat_at(frame - 1)
        at = int(np.searchsorted(np.array(beats, dtype=float), float(beat)))
        if 0 < at < len(beats):
            looked = danced.looks[at][0]
            picture = int(np.searchsorted(self._came, looked))
            self.looks.append(looked - heard)
            if picture < len(self._came):
                self.pictures.append(self._came[picture] - heard)

    def close(self) -> None:
        """End the program, by its key."""
        os.write(self._own, b"q")
        try:
            self._program.wait(20)
        finally:
            self._program.kill()
            self._program.wait()
            self._thread.join(5)
            os.close(self._own)

    def _wait_for(self, path: Path, seconds: float = 60) -> None:
        end = time.monotonic() + seconds
        while not path.exists():
            if time.monotonic() > end or self._program.poll() is not None:
                raise TimeoutError(f"{path.name} did not come")
            time.sleep(0.05)
