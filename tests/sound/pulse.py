"""A sound server of the tests' own: a PulseAudio with one 48 kHz null sink, and a recorder on its monitor."""

import os
import shutil
import subprocess
import threading
import time
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray

from trainer.timing import RATE

SINK = "floor"


def needed() -> None:
    """Skip the test with its reason where there is no PulseAudio; in CI there has to be one."""
    reason = missing()
    if reason and os.environ.get("CI"):
        pytest.fail(reason)
    if reason:
        pytest.skip(reason)


def missing() -> str:
    """Return why no server can be started here, or an empty text."""
    lacking = [name for name in ("pulseaudio", "pactl", "parec") if shutil.which(name) is None]
    return f"not installed: {', '.join(lacking)}" if lacking else ""


class Server:
    """A PulseAudio in a folder of its own; nothing of it is shared with one that may run on the machine."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.environment = {
            "PULSE_RUNTIME_PATH": str(folder / "run"),
            "PULSE_STATE_PATH": str(folder / "state"),
            "PULSE_SERVER": f"unix:{folder / 'native'}",
            "PULSE_COOKIE": str(folder / "cookie"),
        }
        self._process: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start it and wait until it answers."""
        for name in ("run", "state"):
            (self.folder / name).mkdir(mode=0o700, exist_ok=True)
        (self.folder / "native").unlink(missing_ok=True)
        log = (self.folder / "server.log").open("ab")
        self._process = subprocess.Popen(
            ["pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--use-pid-file=no", "-vv",
             f"--load=module-native-protocol-unix auth-anonymous=1 socket={self.folder / 'native'}",
             f"--load=module-null-sink sink_name={SINK} rate={RATE} channels=2 format=float32le"],
            env={**os.environ, **self.environment}, stdout=log, stderr=log, stdin=subprocess.DEVNULL,
        )  # fmt: skip
        log.close()
        for _ in range(100):
            if self._call("pactl", "info", check=False).returncode == 0:
                return
            try:
                self._process.wait(0.05)
            except subprocess.TimeoutExpired:
                continue
            break
        raise RuntimeError(f"PulseAudio did not start: {(self.folder / 'server.log').read_text()[-2000:]}")

    def stop(self) -> None:
        """End it, by its own process."""
        if self._process is not None:
            self._process.kill()
            self._process.wait()
            self._process = None

    def _call(self, *command: str, check: bool = True) -> subprocess.CompletedProcess[str]:
        return subprocess.run(
            command, env={**os.environ, **self.environment}, check=check, capture_output=True, text=True, timeout=20
        )

    def underruns(self) -> int:
        """Return how often the server has spoken of an underrun; it does at every start, so that only a rise tells."""
        return (self.folder / "server.log").read_text(errors="replace").count("nderrun")

    def __enter__(self) -> "Server":
        self.start()
        return self

    def __exit__(self, *error: object) -> None:
        self.stop()


class Recorder:
    """Records the monitor of the sink as float32, bit by bit, and notes when each piece came."""

    def __init__(self, server: Server) -> None:
        self._pieces: list[bytes] = []
        self._came: list[tuple[float, int]] = []
        self._process = subprocess.Popen(
            ["parec", "--raw", f"--device={SINK}.monitor", f"--rate={RATE}", "--channels=2", "--format=float32le",
             "--latency-msec=30"],
            env={**os.environ, **server.environment}, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL,
        )  # fmt: skip
        self._thread = threading.Thread(target=self._read, daemon=True)
        self._thread.start()

    def _read(self) -> None:
        assert self._process.stdout is not None
        frames = 0
        while piece := os.read(self._process.stdout.fileno(), 1 << 16):
            self._came.append((time.monotonic(), frames // 8))
            self._pieces.append(piece)
            frames += len(piece)

    def stop(self) -> NDArray[np.float32]:
        """Stop, and return what was heard, of shape (frames, 2)."""
        self._process.terminate()
        self._process.wait()
        self._thread.join()
        if self._process.stdout is not None:
            self._process.stdout.close()
        data = b"".join(self._pieces)
        return np.frombuffer(data[: len(data) // 8 * 8], dtype="<f4").reshape(-1, 2)

    def heard_at(self, frame: int) -> float:
        """Return the monotonic seconds at which a recorded frame left the sink.

        A null sink hands on what it plays next in pieces, each when its first frame is due; the quickest piece counts.
        """
        return frame / RATE + min(came - first / RATE for came, first in self._came)
