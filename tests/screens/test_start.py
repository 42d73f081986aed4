"""The real program in a terminal of its own: it starts, dances, and leaves the terminal as it was."""

import fcntl
import os
import pty
import select
import struct
import subprocess
import sys
import termios
import time
from pathlib import Path

import pytest

from trainer.resources import folder

CODE = """
import sys
from pathlib import Path
from trainer.screens.start import run
sys.exit(run(Path({!r}), device="silent"))
"""
MOST = 60.0
"""Seconds after which a program that does not answer is given up; it answers within one or two."""


class Program:
    """A child with a terminal of 80x24."""

    def __init__(self, sheet: Path, data: Path, **more: str) -> None:
        self.terminal, child = pty.openpty()
        fcntl.ioctl(child, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
        names = {"TERM": "xterm-256color", "XDG_DATA_HOME": str(data), "XDG_STATE_HOME": str(data)}
        self.process = subprocess.Popen(
            [sys.executable, "-c", CODE.format(str(sheet))],
            stdin=child,
            stdout=child,
            stderr=child,
            cwd=Path(__file__).parents[2],
            env={**os.environ, **names, **more},
            start_new_session=True,
        )
        os.close(child)

    def read_until(self, words: bytes) -> bytes:
        seen, until = b"", time.monotonic() + MOST
        while words not in seen:
            ready, _, _ = select.select([self.terminal], [], [], max(0.0, until - time.monotonic()))
            assert ready, f"{words!r} did not come: {seen[-1000:]!r}"
            seen += os.read(self.terminal, 65536)
        return seen

    def press(self, keys: bytes) -> None:
        os.write(self.terminal, keys)

    def close(self) -> None:
        self.process.kill()
        self.process.wait()
        os.close(self.terminal)


@pytest.fixture
def open_program(tmp_path):
    running: list[Program] = []

    def opened(sheet: Path, **more: str) -> Program:
        running.append(Program(sheet, tmp_path, **more))
        return running[-1]

    yield opened
    for program in running:
        program.close()


def test_it_starts_dances_and_gives_the_terminal_back(open_program, tmp_path):
    program = open_program(folder("routines") / "herring-lane-hello.sheet")
    program.read_until(b"STOPPED")
    program.press(b" ")
    program.read_until(b"count in")
    program.press(b" ")
    program.read_until(b"STOPPED")
    program.press(b"q")
    program.read_until(b"\x1b[?1049l")  # xterm's way back from the alternate screen
    assert program.process.wait(MOST) == 0
    assert (tmp_path / "callahead" / "sound.log").exists(), "what C code says goes into the log, not on the screen"
    assert (tmp_path / "callahead" / "shelf.json").exists()


def test_a_file_that_is_no_text_ends_with_code_2(open_program, tmp_path):
    picture = tmp_path / "picture.sheet"
    picture.write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(300))
    program = open_program(picture)
    program.read_until(b"go on")
    program.press(b"\r")
    program.read_until(b"\x1b[?1049l")
    assert program.process.wait(MOST) == 2


EDITOR = """
import sys
from pathlib import Path
sheet = Path(sys.argv[1])
print("an editor has", sheet.name)
print("and says what is wrong", file=sys.stderr)
input()
sheet.write_text(sheet.read_text(encoding="utf-8").replace("title: ", "title: My "), encoding="utf-8")
"""


@pytest.mark.parametrize("bundled", [True, False])
def test_a_sheet_goes_to_the_dancers_own_editor_and_comes_back(open_program, tmp_path, bundled):
    sheet = folder("routines") / "herring-lane-hello.sheet"
    before = sheet.read_bytes()
    if not bundled:
        sheet = tmp_path / "own.sheet"
        sheet.write_bytes(before)
    editor = tmp_path / "editor.py"
    editor.write_text(EDITOR, encoding="utf-8")
    program = open_program(sheet, VISUAL=f"{sys.executable} {editor}")
    program.read_until(b"STOPPED")
    program.press(b"e")
    program.read_until(b"own editor")
    program.press(b"o")
    assert b"an editor has" in program.read_until(b"says what is wrong")
    program.press(b"\r")
    program.read_until(b"My Herring Lane Hello")
    program.press(b"q")
    program.read_until(b"STOPPED")
    program.press(b"q")
    program.read_until(b"\x1b[?1049l")
    assert program.process.wait(MOST) == 0
    changed = tmp_path / "callahead" / "pasted" / "herring-lane-hello.sheet" if bundled else sheet
    assert changed.read_bytes() == before.replace(b"title: ", b"title: My ")
    assert (folder("routines") / "herring-lane-hello.sheet").read_bytes() == before
