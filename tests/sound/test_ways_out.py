"""The program where no sound device can be had and its library complains: the screen is whole on every way out."""

import fcntl
import os
import pty
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

import pytest

LEFT = b"\x1b[?1049l"
"""Leaves the alternate screen (xterm control sequences, DECRST 1049)."""
MOUSE_OFF = b"\x1b[?1000l"
CURSOR_ON = b"\x1b[?25h"
BROKEN = "pcm.!default {\n  type hw\n  card 7\n}\nctl.!default {\n  type hw\n  card 7\n}\n"
"""Settings of ALSA with which every opening is complained of on standard error."""


class Terminal:
    """A terminal of 80x24 with the program in it."""

    def __init__(self, folder: Path) -> None:
        self._own, inside = pty.openpty()
        fcntl.ioctl(inside, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        (folder / "asound.conf").write_text(BROKEN)
        places = {f"XDG_{name}_HOME": str(folder / name.lower()) for name in ("DATA", "STATE", "CONFIG", "CACHE")}
        silent = {"PULSE_SERVER": f"unix:{folder / 'nowhere'}", "ALSA_CONFIG_PATH": str(folder / "asound.conf")}
        self.program = subprocess.Popen(
            [sys.executable, "-m", "trainer.cli", "rehearse", "routines/herring-lane-hello.sheet"],
            stdin=inside, stdout=inside, stderr=inside, cwd=Path(__file__).parents[2], start_new_session=True,
            env={**os.environ, **places, **silent, "HOME": str(folder), "JACK_NO_START_SERVER": "1", "TERM": "xterm"},
        )  # fmt: skip
        os.close(inside)
        self.got = b""

    def wait_for(self, words: bytes, seconds: float = 60) -> None:
        """Read until something was written; raises TimeoutError."""
        end = time.monotonic() + seconds
        while words not in self.got:
            if time.monotonic() > end or not self._read(1.0):
                raise TimeoutError(f"{words!r} was not written")

    def end(self) -> int:
        """Read what is left, and return the exit code."""
        while self._read(60):
            pass
        os.close(self._own)
        return self.program.wait(60)

    def vanish(self) -> int:
        """Close the terminal, of which the program is told nothing, and return the exit code."""
        os.close(self._own)
        return self.program.wait(60)

    def press(self, keys: bytes) -> None:
        """Press keys."""
        os.write(self._own, keys)

    def _read(self, seconds: float) -> bool:
        """Read a piece; False at the end of everything."""
        if not select.select([self._own], [], [], seconds)[0]:
            return self.program.poll() is None
        try:
            piece = os.read(self._own, 1 << 16)
        except OSError:  # Linux's word for an end, once the program has gone
            return False
        self.got += piece
        return bool(piece)


WAYS = [
    pytest.param(b"q", None, 0, id="its key"),
    pytest.param(b"\x11", None, 0, id="Ctrl+Q"),
    pytest.param(b"", signal.SIGINT, None, id="interrupted"),
    pytest.param(b"", signal.SIGTERM, 128 + 15, id="ended by the system"),
    pytest.param(b"", signal.SIGHUP, 128 + 1, id="window closed"),
]


@pytest.mark.parametrize(("keys", "number", "code"), WAYS)
def test_the_terminal_is_given_back_and_no_line_of_a_library_was_on_it(
    tmp_path: Path, keys: bytes, number: signal.Signals | None, code: int | None
) -> None:
    terminal = Terminal(tmp_path)
    terminal.wait_for(b"no sound device")
    terminal.press(b" \x03")  # dancing, and Ctrl+C, which ends nothing
    if number is None:
        terminal.press(keys)
    else:
        terminal.program.send_signal(number)
    left_with = terminal.end()
    assert code is None or left_with == code
    assert b"ALSA" not in terminal.got
    assert b"Traceback" not in terminal.got
    after = terminal.got.rpartition(LEFT)
    assert after[1], "the alternate screen was left"
    assert MOUSE_OFF in terminal.got
    assert CURSOR_ON in terminal.got
    log = (tmp_path / "state" / "callahead" / "sound.log").read_text(errors="replace")
    assert "ALSA" in log or not log, "what the library had to say went into the log"


def test_a_terminal_that_is_gone_without_a_word_ends_the_program(tmp_path: Path) -> None:
    terminal = Terminal(tmp_path)
    terminal.wait_for(b"no sound device")
    terminal.press(b" ")
    # 120 is Python's own: what it had left to write could go nowhere.
    assert terminal.vanish() in (120, 128 + signal.SIGHUP)
