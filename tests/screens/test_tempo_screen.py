"""The tempo page over the floor: typed, tapped, by keys and by mouse, stopped and dancing."""

from fractions import Fraction

import pytest

from tests.dances import quay
from trainer.screens.tempo_screen import TempoScreen, kept_within, typed_tempo
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText

TYPED = [
    ("84", 84, "counts a minute"),
    (" 92.5 ", Fraction(185, 2), "with a point"),
    ("92,5", Fraction(185, 2), "or a comma"),
    ("80%", Fraction(384, 5), "per cent of 96"),
    ("80 %", Fraction(384, 5), "with a blank"),
    ("0", None, "nothing is danced at 0"),
    ("fast", None, "a word"),
    ("", None, "nothing"),
    ("-5", None, "below 0"),
    ("99999", None, "too long to be a tempo"),
]


@pytest.mark.parametrize(("text", "tempo", "why"), TYPED)
def test_a_tempo_is_read(text, tempo, why):
    assert typed_tempo(text, Fraction(96)) == tempo, why


def test_a_tempo_is_kept_within_what_may_be_danced():
    assert [kept_within(Fraction(tempo), Fraction(100)) for tempo in (10, 84, 400)] == [30, 84, 120]


def said(floor) -> str:
    return str(floor.app.screen.query_one("#told", PlainText).text)


async def test_typed(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("t")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, TempoScreen)
        assert said(floor) == "The routine's own tempo is 96 counts a minute."
        await floor.press("8", "4")
        assert floor.app.screen.query_one(BlockText).text == "84"
        assert said(floor) == "87.5 per cent of the routine's own 96 counts a minute"
        await floor.press("enter")
        await floor.pilot.pause()
        assert floor.app.screen is floor.screen
        assert floor.session.tempo == 84
        assert floor.screen.stopped.tempo == "84 of 96 a minute"


async def test_what_cannot_be_danced_is_said_and_brought_near(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("t", *"400")
        assert said(floor).startswith("From 28.8 to 115.2 can be danced")
        await floor.press("enter")
        assert floor.session.percent == 120
        await floor.press("t", *"fast", "enter")
        assert isinstance(floor.app.screen, TempoScreen), "a word is no tempo: it can be mended"
        assert said(floor).startswith("Type a number")
        await floor.press("escape")
        assert floor.session.percent == 120, "left as it was"


async def test_tapped_and_then_typed_over(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("t")
        for _ in range(5):
            await floor.press("space")
            floor.clock.time += 60 / 88
        assert floor.app.screen.query_one(BlockText).text == "88"
        await floor.press("9", "0", "enter")
        assert floor.session.tempo == 90, "a typed number takes the place of the tapped one"
        await floor.press("t")
        for _ in range(3):
            await floor.pilot.pause()
            row = floor.app.screen.query_one(KeyLine).render().plain
            await floor.pilot.click(KeyLine, offset=(row.index("tap"), 0))
            floor.clock.time += 60 / 80
        await floor.press("enter")
        assert floor.session.tempo == 80, "tapped with the mouse"


async def test_the_dance_goes_on_behind_it(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space")
        floor.go_to(3, 96)
        await floor.pilot.press("t", *"50%", "enter")
        await floor.pilot.pause()
        assert floor.session.dancing
        assert floor.session.tempo == 48
        assert "48 of 96 a minute" in floor.screen.quiet
