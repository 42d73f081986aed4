"""A sound server of the tests' own: a PulseAudio with one 48 kHz null sink, and a recorder on its monitor."""

import os
import shutil
import subprocess
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from trainer.timing import RATE

SINK = "floor"


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
        """Return how often the server has said that a player ran dry while playing."""
        return (self.folder / "server.log").read_text(errors="replace").count("Buffer underrun")

    def __enter__(self) -> "Server":
        self.start()
        return self

    def __exit__(self, *error: object) -> None:
        self.stop()


class Recorder:
    """Records the monitor of the sink, as float32 and bit by bit, into a file."""

    def __init__(self, server: Server, path: Path) -> None:
        self.path = path
        self._file = path.open("wb")
        self._process = subprocess.Popen(
            ["parec", "--raw", f"--device={SINK}.monitor", f"--rate={RATE}", "--channels=2", "--format=float32le",
             "--latency-msec=50"],
            env={**os.environ, **server.environment}, stdout=self._file, stderr=subprocess.DEVNULL,
        )  # fmt: skip

    def stop(self) -> NDArray[np.float32]:
        """End the recording and return it, of shape (frames, 2)."""
        self._process.terminate()
        self._process.wait()
        self._file.close()
        data = self.path.read_bytes()
        return np.frombuffer(data[: len(data) // 8 * 8], dtype="<f4").reshape(-1, 2)
