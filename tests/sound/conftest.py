"""What the tests of the transport stand in."""

import pytest

from tests.sound.rooms import Room
from trainer.sound.device.silent import Silent
from trainer.sound.device.simulated import HandClock
from trainer.sound.transport import Transport


@pytest.fixture
def room() -> Room:
    return Room()


@pytest.fixture
def quiet() -> tuple[Transport, HandClock]:
    clock = HandClock(50.0)
    return Transport(Silent(clock=clock), clock=clock), clock
