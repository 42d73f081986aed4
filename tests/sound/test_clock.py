"""The line through a device's callbacks, on simulated quartz and uneven blocks."""

import math
import random
from collections.abc import Callable, Iterator
from statistics import mean

import pytest

from trainer.sound.clock import MEMORY, STEADY, Callback, Fit
from trainer.timing import RATE

BLOCK = RATE // 10
Jitter = Callable[[float, random.Random], float]


def even(true: float, dice: random.Random) -> float:
    """Return no jitter."""
    return 0.0


def scattered(true: float, dice: random.Random) -> float:
    """Return up to 10 ms, as a busy machine gives them."""
    return dice.random() * 0.010


def gridded(true: float, dice: random.Random) -> float:
    """Return what was measured on a null sink: callbacks on a grid of 30 ms, 2 ms of noise."""
    return math.ceil(true / 0.03007) * 0.03007 - true + dice.random() * 0.002


def callbacks(seconds: float, ppm: float, jitter: Jitter, seed: int) -> Iterator[tuple[Callback, float, float]]:
    """Yield callbacks with a time after each and the frames really pulled by then."""
    dice = random.Random(seed)
    rate = RATE * (1 + ppm * 1e-6)
    for number in range(int(seconds * 10)):
        true = number * BLOCK / rate
        at = true + 0.05 + dice.random() * 0.05
        yield Callback(number * BLOCK, true + jitter(true, dice), number + 1, BLOCK), at, at * rate


@pytest.mark.parametrize("ppm", [100, -100])
@pytest.mark.parametrize("jitter", [scattered, gridded])
def test_for_an_hour_the_line_is_within_a_millisecond_of_the_frames(ppm: int, jitter: Jitter) -> None:
    fit = Fit()
    errors = []
    for callback, at, frames in callbacks(3600, ppm, jitter, seed=7):
        fit.add(callback)
        told = fit.frame_at(at)
        if callback.frames >= 60 * RATE:
            assert told is not None
            errors.append((told - frames) / RATE)
    # The mean is the lateness of the callbacks; it belongs to the delay of the output, which is measured with it.
    middle = mean(errors)
    assert max(abs(error - middle) for error in errors) < 0.001


@pytest.mark.parametrize("jitter", [even, scattered, gridded])
def test_in_its_first_minute_it_is_within_five_milliseconds(jitter: Jitter) -> None:
    fit = Fit()
    errors = []
    for callback, at, frames in callbacks(60, 100, jitter, seed=3):
        fit.add(callback)
        told = fit.frame_at(at)
        if told is not None:
            errors.append((told - frames) / RATE)
    assert len(errors) > 590
    assert max(errors) - min(errors) < 0.010


def test_the_time_is_told_from_the_third_regular_callback() -> None:
    # As it comes from a real device: a block at once, nothing for 1.4 s, then steadily.
    fit = Fit()
    times = [0.0, 1.4, 1.52, 1.61, 1.70]
    told = []
    for number, time in enumerate(times):
        fit.add(Callback(number * BLOCK, time, number + 1, BLOCK))
        told.append(fit.frame_at(time) is not None)
    assert told == [False, False, False, False, True]
    assert STEADY == 3


def test_looking_rarely_or_often_tells_the_same_in_the_end() -> None:
    rare, often = Fit(), Fit()
    for callback, at, frames in callbacks(300, 50, even, seed=1):
        for _ in range(3):
            often.add(callback)
        if callback.number % 7 == 0:
            rare.add(callback)
        last = at, frames
    for fit in (rare, often):
        assert fit.frame_at(last[0]) == pytest.approx(last[1], abs=5)


@pytest.mark.parametrize(("lost", "seconds"), [(0.05, 2.0), (0.3, 1.0), (5.0, 1.0)])
def test_frames_that_were_lost_are_noticed(lost: float, seconds: float) -> None:
    fit = Fit()
    for callback, _, _ in callbacks(30, 0, scattered, seed=5):
        fit.add(callback)
    number, time = callback.number, callback.time
    for later in range(1, int(seconds * 10)):
        fit.add(Callback((number + later - 1) * BLOCK, time + lost + later / 10, number + later, BLOCK))
    told = fit.frame_at(time + lost + later / 10)
    assert told == pytest.approx((number + later - 1) * BLOCK, abs=0.012 * RATE)


def test_one_callback_that_comes_very_late_does_not_bend_the_line() -> None:
    fit = Fit()
    for callback, _, _ in callbacks(60, 0, even, seed=5):
        late = 0.25 if callback.number == 500 else 0.0
        fit.add(Callback(callback.frames, callback.time + late, callback.number, BLOCK))
    assert fit.frame_at(61.0) == pytest.approx(61 * RATE, abs=0.001 * RATE)


def test_the_line_goes_on_where_callbacks_end() -> None:
    fit = Fit()
    for callback, _, _ in callbacks(MEMORY, 100, even, seed=5):
        fit.add(callback)
    later = MEMORY + 30
    assert fit.frame_at(later) == pytest.approx(later * RATE * 1.0001, abs=0.001 * RATE)


def test_nothing_is_told_before_anything_is_known() -> None:
    assert Fit().frame_at(1.0) is None
