"""The everyday device: one stream of miniaudio, stereo float32, blocks of 150 ms.

What counts is how late a callback may come before the sound server runs dry. Measured on PulseAudio: 45 to 69 ms with
blocks of 100 ms, called for in uneven steps, and 86 to 89 ms with blocks of 150 ms, called for evenly. On a machine
busy with other work the first ran dry every minute or so. With 200 ms a tempo key would be heard after over 300 ms.
"""

from collections.abc import Callable, Generator
from contextlib import suppress
from typing import Any

import miniaudio

from trainer.sound.clicks import Samples
from trainer.sound.device import Clock, DeviceError, Pull
from trainer.sound.device.stream import Stream
from trainer.timing import RATE

BLOCK_MS = 150


class MiniaudioStream:
    """An open stream; raises DeviceError where there is nothing to open."""

    def __init__(self, pull: Pull, clock: Clock, output: str = "") -> None:
        self.stream = Stream(pull, clock)
        feed = _feed(self.stream)
        next(feed)
        try:
            self._library = miniaudio.PlaybackDevice(
                miniaudio.SampleFormat.FLOAT32, 2, RATE, BLOCK_MS, device_id=_id_of(output), app_name="callahead"
            )
            if self._library.backend != "Null":
                self._library.start(feed)
        except miniaudio.MiniaudioError as error:
            raise DeviceError(str(error.args[0]) if error.args else "it cannot be opened") from error
        if self._library.backend == "Null":
            # The library's own stand-in for machines without sound; its clock is coarse.
            self._library.close()
            raise DeviceError("none was found")

    def close(self) -> None:
        """End the stream."""
        with suppress(miniaudio.MiniaudioError):
            self._library.close()


def _feed(stream: Stream) -> Generator[bytes | Samples, int, None]:
    frames = yield b""
    while True:
        frames = yield stream.serve(frames)


def opener(output: str, clock: Clock) -> Callable[[Pull], MiniaudioStream]:
    """Return what opens a stream to an output by its name, or to the system's own choice."""
    return lambda pull: MiniaudioStream(pull, clock, output)


def outputs() -> list[str]:
    """Return the names of the outputs that can be played to, in the system's order; empty where there are none."""
    return [str(one["name"]) for one in _playbacks()]


def _playbacks() -> list[dict[str, Any]]:
    try:
        devices = miniaudio.Devices()
        return [] if devices.backend == "Null" else list(devices.get_playbacks())
    except miniaudio.MiniaudioError:
        return []


def _id_of(output: str) -> Any:
    """Return the library's handle of an output, or None, the system's choice, when it is not there."""
    return next((one["id"] for one in _playbacks() if one["name"] == output), None) if output else None
