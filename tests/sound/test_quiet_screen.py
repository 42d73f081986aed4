"""A Textual app in a terminal, with a library that writes to descriptor 2: its screen stays whole, on every way out."""

import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import textwrap
from pathlib import Path

import pytest

BODY = """
import os, signal, sys
from pathlib import Path
from textual.app import App
from textual.widgets import Static
from trainer.sound.quiet import quiet

class Floor(App):
    def compose(self):
        yield Static("the floor is shown")
    def on_mount(self):
        os.write(2, b"ALSA lib says something\\n")
        self.set_timer(0.2, self.leave)
    def leave(self):
        os.write(2, b"ALSA lib says more\\n")
        {way_out}

with quiet(Path(sys.argv[1])):
    app = Floor()
    app.run()
os.write(2, b"back in the shell\\n")
raise SystemExit(app.return_code)
"""

LEFT = b"\x1b[?1049l"
"""Leaves the alternate screen (xterm control sequences, DECRST 1049)."""


def run_in_terminal(script: str, log: Path) -> tuple[bytes, int]:
    """Run a script in a terminal of 80x24; return what the terminal got, and the exit code."""
    terminal, inside = pty.openpty()
    fcntl.ioctl(inside, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    program = subprocess.Popen(
        [sys.executable, "-c", script, str(log)],
        stdin=inside, stdout=inside, stderr=inside, cwd=Path(__file__).parents[2],
        env={**os.environ, "TERM": "xterm-256color"}, start_new_session=True,
    )  # fmt: skip
    os.close(inside)
    got = b""
    while select.select([terminal], [], [], 60)[0]:
        try:
            piece = os.read(terminal, 1 << 16)
        except OSError:  # Linux's word for an end, once the program has gone
            break
        if not piece:
            break
        got += piece
    os.close(terminal)
    program.kill()
    return got, program.wait()


@pytest.mark.parametrize(
    ("way_out", "code", "after"),
    [
        pytest.param("self.exit()", 0, b"back in the shell", id="quit"),
        pytest.param("raise RuntimeError('a crash')", 1, b"a crash", id="crash"),
        pytest.param("os.kill(os.getpid(), signal.SIGINT)", None, b"", id="interrupt"),
    ],
)
def test_the_screen_stays_whole_and_is_left_on_every_way_out(
    tmp_path: Path, way_out: str, code: int | None, after: bytes
) -> None:
    log = tmp_path / "sound.log"
    got, left_with = run_in_terminal(textwrap.dedent(BODY).replace("{way_out}", way_out), log)
    assert b"the floor is shown" in got
    assert b"ALSA" not in got
    assert log.read_text() == "ALSA lib says something\nALSA lib says more\n"
    assert LEFT in got
    assert after in got.split(LEFT)[-1]
    assert code is None or left_with == code
