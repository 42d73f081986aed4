"""Devices: what takes samples from a puller, and tells which frame leaves it at a time.

Frames count from the opening of a device and never go back. A device that cannot be had is no error: the dance goes on
by the same clock without sound, and says why.
"""

import sys
import time
from collections.abc import Callable, Mapping
from importlib.util import find_spec
from typing import TYPE_CHECKING, Literal, Protocol

if TYPE_CHECKING:
    from trainer.sound.clicks import Samples

Name = Literal["miniaudio", "simpleaudio", "silent"]
NAMES: tuple[Name, ...] = ("miniaudio", "simpleaudio", "silent")

DEFAULT_DELAYS: Mapping[str, float] = {"miniaudio": 0.096}
"""Seconds that the screen waits for the sound of a device, by its name, so that pictures come with their clicks: the
median of what was measured on a null sink (tests/long). There the ear hears a frame 93 to 107 ms after the device's
clock has told it, median 102; the 6 ms less are the way of a picture from the program to the terminal. Real outputs add
their own."""

Pull = Callable[[int, int], "Samples"]
"""pull(first, frames) returns the samples of first <= frame < first + frames; called from the device's own thread."""

Clock = Callable[[], float]
"""Monotonic seconds."""


def default_delay(name: str) -> float:
    """Return the seconds that a screen waits for the sound of a device where nobody has calibrated it."""
    return DEFAULT_DELAYS.get(name, 0.0)


class DeviceError(Exception):
    """A device cannot be opened; the text says why."""


class Device(Protocol):
    """Where sound goes. One thread opens, asks and closes it; another pulls."""

    @property
    def name(self) -> str:
        """What it is called by."""

    @property
    def whole(self) -> int:
        """Frames of a take that it is handed at once, and plays to their end; 0: it takes blocks as they fall due."""

    def replay(self, first: int, last: int | None) -> None:
        """Play first <= frame < last from now on, or nothing; for a device that is handed takes whole."""

    def open(self, pull: Pull) -> None:
        """Begin to take frames; never raises for a device that is not there."""

    def close(self) -> None:
        """End it; calling it again does nothing."""

    def free(self, at: float) -> int:
        """Return the first frame that can still be changed at a time: it has neither been taken nor is about to be."""

    def heard(self, at: float) -> float | None:
        """Return the frames that have left by a time in monotonic seconds; None while the device has not settled."""

    def sound(self, at: float) -> str:
        """Return an empty text while it sounds, else why it does not."""


def outputs(name: str = "miniaudio") -> list[str]:
    """Return the outputs that a device can play to, by their names; empty where there is no choice."""
    if name != "miniaudio":
        return []
    from trainer.sound.device import miniaudio_output

    return miniaudio_output.outputs()


def choices() -> list[tuple[Name, str]]:
    """Return what can be chosen on this machine, each device with the name of its output; may take its time.

    The system's own choice comes first, silence last; a device whose library is missing is left out.
    """
    named: list[tuple[Name, str]] = [("miniaudio", name) for name in dict.fromkeys(outputs())]
    second: list[tuple[Name, str]] = [("simpleaudio", "")] if _simpleaudio_is_there() else []
    return [("miniaudio", ""), *named, *second, ("silent", "")]


def _simpleaudio_is_there() -> bool:
    return sys.version_info < (3, 12) and find_spec("simpleaudio") is not None


def open_device(name: str = "miniaudio", output: str = "", *, clock: Clock = time.monotonic) -> Device:
    """Return the device of that name, ready for `open`; one that is not there is silent and says so.

    `output` names one of `outputs()`; empty, or one that has gone: the system's own choice. Libraries load here.
    """
    from trainer.sound.device.silent import Silent

    if name == "miniaudio":
        from trainer.sound.device.miniaudio_output import opener
        from trainer.sound.device.watched import Watched

        return Watched(name, opener(output, clock), clock=clock)
    if name == "simpleaudio":
        from trainer.sound.device.simpleaudio_output import SimpleaudioOutput

        return SimpleaudioOutput(clock)
    return Silent("" if name == "silent" else f"there is no sound device called {name}", clock=clock)
