"""Taps along with sound and picture, and the delay that they propose."""

import random

import pytest

from trainer.sound.calibration import (
    ENOUGH,
    SAMPLE_TEMPO,
    TEMPO,
    WARM_UP,
    TapAlong,
    Tapped,
    metronome,
    proposed_delay,
    sample,
    tapped,
)
from trainer.sound.clicks import KINDS
from trainer.sound.device.silent import Silent
from trainer.sound.device.simulated import HandClock
from trainer.sound.score import Score
from trainer.sound.transport import Transport
from trainer.timing import RATE


def taps(offset: float, scatter: float = 0.02, count: int = 20, seed: int = 1) -> list[float]:
    """Return taps along with counts at 100, 101 and so on, as a person taps."""
    dice = random.Random(seed)
    return [100 + number + offset + dice.gauss(0, scatter) for number in range(count)]


@pytest.mark.parametrize("lead", [-0.08, -0.03, 0.0])
@pytest.mark.parametrize("delay", [-0.05, 0.0, 0.04, 0.25, 0.5])
def test_the_way_of_the_sound_is_found_whatever_the_person_s_own_lead(lead: float, delay: float) -> None:
    sound = tapped(taps(lead + delay, seed=2), 100.0, 1.0)
    picture = tapped(taps(lead, seed=3), 100.0, 1.0)
    assert proposed_delay(sound, picture) == pytest.approx(delay, abs=0.015)


def test_taps_are_held_against_their_nearest_count_and_the_first_ones_only_find_it() -> None:
    found = tapped([100.4, 100.9, *(102 + number - 0.05 for number in range(10))], 100.0, 1.0)
    assert found == Tapped(pytest.approx(-0.05), pytest.approx(0.0, abs=1e-9), 10)


def test_a_missed_and_a_doubled_tap_do_no_harm() -> None:
    some = taps(0.1, scatter=0.0)
    del some[7]
    some.insert(9, some[9] + 0.21)
    assert tapped(some, 100.0, 1.0).offset == pytest.approx(0.1)


@pytest.mark.parametrize(
    ("found", "why"),
    [
        (Tapped(0.1, 0.01, ENOUGH - 1), "too few"),
        (Tapped(0.1, 0.2, 40), "all over the place"),
        (tapped([], 100.0, 1.0), "none"),
        (tapped(taps(0.0)[:WARM_UP], 100.0, 1.0), "only those that find the beat"),
    ],
)
def test_nothing_is_proposed_where_the_taps_do_not_tell(found: Tapped, why: str) -> None:
    good = tapped(taps(0.0), 100.0, 1.0)
    assert proposed_delay(found, good) is None, why
    assert proposed_delay(good, found) is None, why


def test_tapping_anywhere_proposes_nothing() -> None:
    dice = random.Random(4)
    wild = tapped([100 + dice.random() * 20 for _ in range(20)], 100.0, 1.0)
    assert not wild.usable


def test_what_is_tapped_along_with_fits_its_own_start_and_never_ends() -> None:
    take = metronome()
    assert (take.seam, take.ends, take.length) == (0, None, 8)


def test_taps_along_with_a_dance_find_the_way_of_its_sound() -> None:
    clock = HandClock()
    transport = Transport(Silent(clock=clock), clock=clock)
    transport.load(metronome(), TEMPO)
    transport.start()
    begun = clock.now + 4
    # The sound is 0.2 s on its way; the picture shows the beat of the clock.
    sound = tapped([float(transport.now(begun + count + 0.2 - 0.04).beat) for count in range(16)], 0.0, 1.0)
    picture = tapped([float(transport.now(begun + count - 0.04).beat) for count in range(16)], 0.0, 1.0)
    assert proposed_delay(sound, picture) == pytest.approx(0.2, abs=0.002)


def test_tapping_along_goes_from_the_sound_to_the_picture_and_proposes_the_difference() -> None:
    along = TapAlong()
    for beat in (-3.0, -2.0, -1.0):
        along.tap(beat)
    assert (along.stage, along.left) == ("sound", WARM_UP + ENOUGH), "the count-in does not count"
    for count in range(10):
        along.tap(count + 0.16)
    assert (along.stage, along.left, along.delay) == ("picture", 10, None)
    for count in range(10):
        along.tap(count - 0.04)
    assert (along.stage, along.delay) == ("done", pytest.approx(0.2))
    along.tap(11.3)
    assert along.delay == pytest.approx(0.2), "what comes later changes nothing"


def test_uneven_taps_go_on_until_the_last_of_them_tell() -> None:
    along = TapAlong()
    dice = random.Random(7)
    for count in range(12):
        along.tap(count + dice.uniform(-0.25, 0.25))
    assert (along.stage, along.left) == ("sound", 0)
    assert along.scatter > 0.06
    for count in range(12, 22):
        along.tap(count + 0.01)
    assert along.stage == "picture"


def test_in_the_sample_every_kind_of_click_sounds() -> None:
    score = Score.starting(sample(), SAMPLE_TEMPO)
    assert {sound.kind for sound in score.sounds_between(0, 30 * RATE)} == set(KINDS)
