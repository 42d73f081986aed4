"""Start and processor of the floor screen, held against a Textual app of the same size with one Static.

The other app gives its Static a new text thirty times a second. Both run in a pseudo-terminal of their own with the
real driver, in turns. Start is from the call of the interpreter to the first bytes in which the page can be read
("STOPPED" of the floor, "herring" of the shelf, which goes on reading its sheets, "tick" of the other); processor is
user and system time of the process over some seconds of dancing, without sound. Aim for all: 1.5 x. Run it from the
checkout:

    python -m tests.bench.bench_start [COLUMNSxROWS ...]
"""

import fcntl
import os
import pty
import select
import signal
import statistics
import struct
import sys
import tempfile
import termios
import time
from dataclasses import dataclass
from pathlib import Path

from trainer.practice.shelf import Shelf
from trainer.resources import folder

ROOT = Path(__file__).parents[2]
SHEET = ROOT / "routines" / "tide-under-the-door.sheet"
TURNS = 5
SECONDS = 12.0
"""Over which the processor is measured."""

OURS = f"from pathlib import Path; from trainer.screens.start import run; run(Path({str(SHEET)!r}), device='silent')"
SHELF = "from trainer.screens.start import run; run(None, device='silent')"
OTHER = """
from textual.app import App
from textual.widgets import Static

class Ticking(App[None]):
    CSS = "Static { width: 1fr; height: 1fr; }"
    ticks = 0
    def compose(self):
        yield Static("tick")
    def on_mount(self):
        self.set_interval(1 / 30, self.tick)
    def tick(self):
        self.ticks += 1
        self.query_one(Static).update(f"tick {self.ticks}")

Ticking().run()
"""


@dataclass(frozen=True, slots=True)
class Measured:
    start: float
    """Seconds."""
    processor: float
    """Share of one processor."""


class Running:
    """A program in a pseudo-terminal."""

    def __init__(self, code: str, columns: int, rows: int, data: str) -> None:
        self.began = time.monotonic()
        self.pid, self.terminal = pty.fork()
        if not self.pid:
            fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
            names = {"TERM": "xterm-256color", "COLORTERM": "truecolor", "XDG_DATA_HOME": data, "XDG_STATE_HOME": data}
            os.chdir(ROOT)
            # An installed package has its byte code; here it is kept with the data, and made by a first turn.
            cached = {"PYTHONDONTWRITEBYTECODE": "", "PYTHONPYCACHEPREFIX": f"{data}/byte-code"}
            os.execve(sys.executable, [sys.executable, "-c", code], {**os.environ, **names, **cached})

    def read_until(self, words: bytes, most: float = 30.0) -> float:
        """Read until words come, and return the seconds since the beginning."""
        seen = b""
        while words not in seen:
            if time.monotonic() - self.began > most:
                raise TimeoutError(f"{words!r} did not come: {seen[-2000:]!r}")
            seen += self._read(0.2)
        return time.monotonic() - self.began

    def read_for(self, seconds: float) -> None:
        until = time.monotonic() + seconds
        while (left := until - time.monotonic()) > 0:
            self._read(left)

    def press(self, keys: bytes) -> None:
        os.write(self.terminal, keys)

    def processor(self) -> float:
        """Seconds of user and system time so far (proc_pid_stat(5), fields 14 and 15)."""
        fields = Path(f"/proc/{self.pid}/stat").read_text(encoding="ascii").rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")

    def end(self) -> None:
        os.kill(self.pid, signal.SIGKILL)
        os.waitpid(self.pid, 0)
        os.close(self.terminal)

    def _read(self, seconds: float) -> bytes:
        ready, _, _ = select.select([self.terminal], [], [], seconds)
        return os.read(self.terminal, 65536) if ready else b""


def measure(
    code: str, ready: bytes, keys: bytes, size: tuple[int, int], data: str, seconds: float = SECONDS
) -> Measured:
    program = Running(code, *size, data)
    try:
        start = program.read_until(ready)
        program.read_for(1.0)
        program.press(keys)
        program.read_for(3.0)  # past the count-in
        before = program.processor()
        program.read_for(seconds)
        return Measured(start, (program.processor() - before) / seconds)
    finally:
        program.end()


def start_of(code: str, ready: bytes, size: tuple[int, int], data: str) -> float:
    program = Running(code, *size, data)
    try:
        return program.read_until(ready)
    finally:
        program.end()


def main() -> None:
    sizes = [tuple(int(part) for part in text.split("x")) for text in sys.argv[1:]] or [(80, 24), (200, 60)]
    for size in sizes:
        ours, other, shelf = [], [], []
        with tempfile.TemporaryDirectory() as data:
            Shelf(folder("routines"), Path(data) / "callahead").cautions_were_read()
            measure(OURS, b"STOPPED", b"", size, data, 0.1)
            measure(OTHER, b"tick", b"", size, data, 0.1)
            for _ in range(TURNS):
                ours.append(measure(OURS, b"STOPPED", b" ", size, data))
                other.append(measure(OTHER, b"tick", b"", size, data))
                shelf.append(start_of(SHELF, b"herring", size, data))
        ratio = statistics.median(shelf) / statistics.median(run.start for run in other)
        print(f"{size[0]}x{size[1]} start of the shelf: {statistics.median(shelf):.3f}, ratio {ratio:.2f} (aim 1.5)")
        for name in ("start", "processor"):
            one, two = (statistics.median(getattr(run, name) for run in runs) for runs in (ours, other))
            print(f"{size[0]}x{size[1]} {name}: {one:.3f} to {two:.3f}, ratio {one / two:.2f} (aim 1.5)")


if __name__ == "__main__":
    main()
