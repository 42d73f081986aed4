"""A step looked up over the floor."""

from tests.dances import quay
from trainer.practice.lookup import looked_up
from trainer.screens.look_up_screen import LookUpScreen
from trainer.screens.step_words import looked_up_words
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText


def said(floor) -> str:
    return str(floor.app.screen.query_one("#step", PlainText).text)


async def test_the_present_step_is_one_key_away(open_floor):
    async with open_floor(quay()) as floor:
        for _ in range(9):
            await floor.press("right")
        await floor.press("u")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, LookUpScreen)
        lines = said(floor).splitlines()
        assert lines[:4] == [
            "as danced here",
            "  7 L  step   weight L   12:00",
            "  & R  step   weight R   12:00",
            "  8 L  step   weight L   12:00",
        ]
        assert "coaster step, also called coaster: shuffles and triples" in lines
        back = next(line for line in lines if line.startswith("  1 "))
        assert back.split() == ["1", "L", "back", "weight", "L"], "for the foot that begins it here"
        await floor.press("u")
        await floor.pilot.pause()
        assert floor.app.screen is floor.screen, "the same key goes back"
        assert floor.screen.stopped.floor.index == 8


async def test_before_the_first_count_it_is_the_first_step(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("u")
        assert said(floor).splitlines()[1] == "  1 R  walk   weight R   12:00"


async def test_any_other_step_is_typed(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("u")
        await floor.pilot.pause()
        keys = floor.app.screen.query_one(KeyLine)
        assert dict(keys.keys)["f"] == "find another"
        await floor.press("f", *"sailor")
        assert "f" not in dict(keys.keys), "now it is a letter"
        assert said(floor).startswith("sailor")
        await floor.press("enter", "escape")
        await floor.pilot.pause()
        assert floor.app.screen is floor.screen


async def test_while_dancing_it_stays_away(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space", "u")
        assert floor.app.screen is floor.screen


def test_what_is_not_found_is_said_with_names_like_it():
    assert looked_up_words(looked_up("coster")).plain.startswith("No step is called coster. Did you mean coaster")
