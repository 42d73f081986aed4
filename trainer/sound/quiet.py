"""Keeps the C code of sound libraries off the screen.

It writes to file descriptor 2, and so does Textual's driver, through `sys.__stderr__`. So the descriptor is duplicated,
Python's own standard error goes to the duplicate, and descriptor 2 points at a log. All is put back on every way out.
"""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TextIO

FULL = 1_000_000
"""Bytes after which a log is begun anew."""

STDERR = 2


@contextmanager
def quiet(log: Path) -> Iterator[None]:
    """Send what C code writes to standard error into a log, while Python's own still reaches the terminal.

    Enter it before Textual starts and before a sound library is loaded. Where there is no standard error, or no log can
    be written, it does without.
    """
    try:
        terminal = os.dup(STDERR)
    except OSError:
        yield
        return
    for stream in (sys.stderr, sys.__stderr__):
        if stream is not None:
            stream.flush()
    before = sys.stderr, sys.__stderr__
    log_fd = _opened(log)
    os.dup2(log_fd, STDERR)
    os.close(log_fd)
    python = os.fdopen(terminal, "w", buffering=1, encoding="utf-8", errors="backslashreplace", closefd=False)
    _set(python, python)
    try:
        yield
    finally:
        python.flush()
        os.dup2(terminal, STDERR)
        _set(*before)
        python.close()
        os.close(terminal)


def _set(stderr: TextIO | None, original: TextIO | None) -> None:
    sys.stderr = stderr  # None where the program was started without one
    sys.__stderr__ = original  # type: ignore[assignment,misc]  # what Textual's driver writes to


def _opened(log: Path) -> int:
    """Return a descriptor of the log, or of nowhere."""
    flags = os.O_WRONLY | os.O_CREAT | os.O_APPEND
    try:
        log.parent.mkdir(parents=True, exist_ok=True)
        if log.exists() and log.stat().st_size > FULL:
            flags |= os.O_TRUNC
        return os.open(log, flags, 0o600)
    except OSError:
        return os.open(os.devnull, os.O_WRONLY)
