"""The floor in a running app: at each count its values, keys, sizes, and widgets that repaint only for their own."""

from fractions import Fraction

import pytest
from textual.widget import Widget

from tests.dances import quay
from trainer.dance.facing import amount, clock
from trainer.problems import Problem
from trainer.resources import folder
from trainer.screens import blocks, looking
from trainer.screens.message_screen import MessageScreen
from trainer.screens.problems_screen import ProblemsScreen
from trainer.screens.room import plan
from trainer.screens.shelf_screen import ShelfScreen
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.counts_left import CountsLeft
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.free_foot import FreeFoot
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.slab import Slab
from trainer.screens.widgets.title_line import TitleLine
from trainer.sheet.opening import open_sheet
from trainer.terms import Foot

SHEETS = sorted(folder("routines").glob("*.sheet"))


def test_there_are_bundled_sheets():
    assert len(SHEETS) >= 6


@pytest.mark.parametrize("path", SHEETS, ids=lambda path: path.stem)
async def test_every_count_of_a_bundled_dance_is_shown_as_it_is_danced(open_floor, path):
    """From the first count to the end at 80x24, the clock set to each event in turn."""
    routine = open_sheet(path).routine
    async with open_floor(routine) as floor:
        await floor.press("space")
        shown = Shown(floor)
        timeline = floor.session.timeline
        events = [one for one in timeline.danced() if one.beat >= timeline.passes[0].stretches[0].begins]
        count_in = 3 if routine.time == "3/4" else 4
        for one, following in zip(events, [*events[1:], None], strict=True):
            beat = one.beat - timeline.passes[0].stretches[0].begins
            floor.go_to(beat + count_in - 4, floor.session.tempo)
            assert shown.count.endswith(one.label), one
            assert shown.facing == clock(one.facing), one
            if following is not None:
                assert shown.turn == (amount(following.turn) if following.turn else ""), one
                assert shown.end_clock == (clock(following.facing) if following.turn else ""), one
                assert shown.foot == (following.foot if following.foot in ("R", "L") else shown.foot), one
        floor.go_to(timeline.ends - timeline.passes[0].stretches[0].begins + 1, floor.session.tempo)
        assert not floor.screen.dancing, "it has come to its end"


class Shown:
    """What the widgets of the dancing floor hold."""

    def __init__(self, floor) -> None:
        self._screen = floor.screen

    def _text(self, name: str) -> str:
        return self._screen.query_one(f"#{name}", BlockText).text

    @property
    def count(self) -> str:
        return self._text("count") + self._text("sub")

    @property
    def facing(self) -> str:
        return clock(self._screen.query_one("#dial", FacingDial).shown.facing)

    @property
    def turn(self) -> str:
        return self._text("amount")

    @property
    def end_clock(self) -> str:
        return self._text("end_clock")

    @property
    def foot(self) -> str:
        solid = [part.foot for part in self._screen.query(FreeFoot) if "█" in "".join(part.lines())]
        return solid[0] if len(solid) == 1 else "B"

    @property
    def next(self) -> str:
        return self._text("next")

    @property
    def departure(self) -> str:
        return self._text("departure")


def painted(widget: Widget) -> list[str]:
    """What a widget paints, row by row."""
    return ["".join(segment.text for segment in widget.render_line(y)) for y in range(widget.size.height)]


async def test_the_count_stands_on_the_screen_in_full_blocks(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space")
        floor.go_to(Fraction(5, 2), 96)
        await floor.pilot.pause()
        regions = plan(80, 24)
        for name, text in (("count", "3"), ("sub", "&")):
            region = getattr(regions, name)
            widget = floor.screen.query_one(f"#{name}", BlockText)
            assert (widget.region.x, widget.region.y) == (region.left, region.top)
            drawn = blocks.render(text, rows=region.rows, columns=region.columns)
            assert [line.strip() for line in painted(widget)] == [line.strip() for line in drawn]


async def test_the_last_counts_before_a_departure(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space")
        shown = Shown(floor)
        slab, squares = floor.screen.query_one(Slab), floor.screen.query_one(CountsLeft)
        rule, facing = floor.screen.query_one("#rule", PlainText), floor.screen.query_one("#departure_clock", BlockText)
        seen = []
        for beat in (6, 7, 18, 19, 22, 23, 24):
            floor.go_to(beat, 96)
            seen.append((beat, shown.departure, bool(rule.text), facing.text, slab.word, squares.left))
        assert seen == [
            (6, "RESTART  17", False, "", "", None),
            (7, "RESTART  16", True, "3:00", "", None),
            (18, "RESTART  5", True, "3:00", "", None),
            (19, "", True, "3:00", "RESTART", 4),
            (22, "", True, "3:00", "RESTART", 1),
            (23, "", True, "3:00", "RESTART", 0),
            (24, "TAG  15", True, "6:00", "", None),
        ]
        floor.go_to(20, 96)
        await floor.pilot.pause()
        last = painted(squares)[-1]
        assert [set(block) for block in last.split()] == [{"█"}] * 3 + [{"█", "▄"}], (
            "solid, and hollow where it is gone"
        )


async def test_a_hold_leaves_the_foot_hollow(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space")
        floor.go_to(9, 96)
        await floor.pilot.pause()
        left = next(part for part in floor.screen.query(FreeFoot) if part.foot is Foot.LEFT)
        assert left.lines()[-2] == "█     █"
        assert floor.screen.query_one("#next", BlockText).text == "HOLD"
        floor.go_to(11, 96)
        assert left.lines()[-2] == "███████"
        assert floor.screen.query_one("#now_line", PlainText).text == " now  hold 2 of 2, weight stays on R"
        assert floor.screen.query_one("#now_blocks", BlockText).text == "HOLD 2 OF 2"


async def test_the_next_step_stands_on_the_side_of_its_foot(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space")
        shown, following = Shown(floor), floor.screen.query_one("#next", BlockText)
        floor.go_to(1, 96)
        assert (shown.next, following.side) == ("SHUFFLE R", "right")
        floor.go_to(2, 96)
        assert (shown.next, following.side) == ("L ROCK FWD", "left")


async def test_the_seam_of_a_loop_says_what_to_mend_in_blocks(open_floor):
    async with open_floor(quay()) as floor:
        for _ in range(14):
            await floor.press("right")
        await floor.press("l", "space")
        floor.go_to(Fraction(37, 4), 96)
        shown = Shown(floor)
        assert (shown.departure, floor.screen.query_one("#departure_clock", BlockText).text) == ("BACK TO", "12:00")
        assert floor.screen.quiet.startswith(" back to 12:00")
        assert floor.screen.query_one("#now_line", PlainText).text == " now  count in"


async def test_it_looks_again_when_the_next_click_is_heard(open_floor):
    async with open_floor(quay(), (120, 30)) as floor:
        screen = floor.screen
        assert screen._at_click is None, "nothing is heard while it stands"
        await floor.press("space")
        floor.go_to(Fraction("29/10"), 96)
        assert screen._at_click is not None
        assert screen.session.until_click() == pytest.approx(60 / 96 / 10, abs=0.003)
        assert screen.view.count.number == 3
        floor.clock.time += 60 / 96 / 10
        screen._clicked()
        assert screen.view.count.number == 4
        await floor.press("space")
        assert screen._at_click is None


async def test_it_looks_ahead_by_what_a_picture_takes(open_floor):
    async with open_floor(quay(), (120, 30)) as floor:
        screen, player = floor.screen, floor.session._player
        await floor.press("space")
        for took in (0.01, 0.5, 0.02, 0.02):
            screen._pictures.looked(floor.clock.time - took)
            screen.displayed()
            screen.displayed()
        assert player.lead == pytest.approx(0.02)
        for _ in range(20):
            screen._pictures.looked(floor.clock.time - 0.4)
            screen.displayed()
        assert player.lead == looking.SLOWEST
        floor.go_to(1, 96)
        assert screen._pictures.pending
        await floor.pilot.pause()
        assert not screen._pictures.pending, "the new count was displayed"


async def test_a_widget_repaints_only_when_its_own_value_changed(open_floor, monkeypatch):
    painted: list[str] = []
    whole = Widget.refresh

    def counted(self, *regions, repaint=True, layout=False, recompose=False):
        painted.append(self.id or type(self).__name__)
        return whole(self, *regions, repaint=repaint, layout=layout, recompose=recompose)

    async with open_floor(quay()) as floor:
        await floor.press("space")
        floor.go_to(0, 96)
        floor.go_to(2, 96)
        await floor.pilot.pause()
        monkeypatch.setattr(Widget, "refresh", counted)
        for quarter in range(1, 10):
            floor.go_to(2 + Fraction(quarter, 20), 96)
        assert painted == [], "nothing happened between the 3 and its &"
        floor.go_to(Fraction(5, 2), 96)
        assert set(painted) == {"sub", "quiet", "foot_left", "foot_right"}, "the count, the dial, the names stand"


async def test_keys_start_stop_step_and_leave(open_floor):
    async with open_floor(quay()) as floor:
        screen = floor.screen
        assert not screen.dancing
        await floor.press("right", "right", "right", "left")
        assert screen.stopped.floor.index == 1
        await floor.press("space")
        assert screen.dancing
        await floor.press("right")
        assert screen.dancing, "while dancing the arrows do not step"
        await floor.press("space")
        assert not screen.dancing
        await floor.press("space")
        assert screen.dancing
        floor.go_to(5, 96)
        await floor.press("pageup")
        assert screen.view.count.counting_in, "the section again, from its count-in"
        await floor.press("q")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, ShelfScreen)


async def test_the_footer_says_what_the_keys_do_now(open_floor):
    async with open_floor(quay(), size=(120, 30)) as floor:
        footer = floor.screen.query_one(KeyLine)
        now = dict(footer.keys)
        assert (now["Page Down"], now["Page Up"]) == ("walk wall 1 by hand (1 of 7)", "choose run-through")
        assert {key: now[key] for key in ("Space", "l", "Left/Right", "Up/Down", "g", "w", "m", "s", "q", "?")} == {
            "Space": "start",
            "l": "loop",
            "Left/Right": "step",
            "Up/Down": "tempo",
            "g": "go to",
            "w": "turn room",
            "m": "mirror",
            "s": "settings",
            "q": "leave",
            "?": "keys",
        }
        await floor.press("l")
        assert dict(footer.keys)["Page Down"] == "drill section 1 (2 of 7)"
        await floor.press("space")
        now = dict(footer.keys)
        assert (now["Space"], now["Page Down"], now["Page Up"], now["l"]) == (
            "stop",
            "stop, twice next",
            "section again",
            "loop off",
        )
        assert "Left/Right" not in now
        await floor.pilot.pause()
        assert "Page Up section again" in footer.render().plain, "what the two buttons of a remote do is always there"


async def test_the_tempo_is_changed_while_dancing(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space")
        floor.go_to(3, 96)
        await floor.pilot.press("down", "down", "up", "down")
        assert floor.session.percent == 96
        assert "92.2 of 96 a minute" in floor.screen.quiet
        await floor.pilot.press("space")
        assert floor.screen.query_one(TitleLine).right == "STOPPED   92.2 of 96 a minute"


async def test_stopped_it_shows_words_strip_and_place(open_floor):
    text = "\n".join(["title: Kettle"] * 6 + ["3&4   R shuffle forward"])
    async with open_floor(quay(), text=text) as floor:
        await floor.press("right", "right", "right")
        words = str(floor.screen.query_one("#words", PlainText).text)
        assert words == '"Shuffle forward"  (line 7)'
        details = str(floor.screen.query_one("#details", PlainText).text)
        assert details.splitlines() == [
            "wall 1, section 1 count 3   3 of 64",
            "step  shuffle",
            "next  L rock forward",
            "feet  weight on R, L free",
            "faces 12:00",
        ]
        departure = floor.screen.query_one("#departure_line", PlainText).text
        assert departure == "RESTART in 21 counts: wall 2 after 8, facing 3:00"


async def test_every_event_can_be_stepped_to_and_back(open_floor):
    async with open_floor(quay()) as floor:
        size = floor.session.chart.size
        forth = []
        for _ in range(size):
            floor.screen.action_step(1)
            forth.append(floor.screen.stopped)
        assert [view.floor.index for view in forth] == list(range(size))
        for expected in reversed(forth[:-1]):
            floor.screen.action_step(-1)
            assert floor.screen.stopped == expected


SIZES = [(80, 24), (100, 30), (120, 40), (200, 60)]


@pytest.mark.parametrize("size", SIZES)
async def test_all_parts_lie_within_the_window_at_every_size(open_floor, size):
    async with open_floor(quay(), size=size) as floor:
        for face in ("stopped", "dancing"):
            if face == "dancing":
                await floor.press("space")
                floor.go_to(19, 96)
                await floor.pilot.pause()
            for part in floor.screen.query("DancingFloor > *, StoppedFloor *, KeyLine"):
                if part.is_on_screen and part.display:
                    assert part.region in floor.screen.region, (face, part)
                    assert part.size.area, (face, part)
        assert floor.screen.query_one("#now_blocks").display == (size[1] >= 40)


async def test_a_window_that_is_too_small_says_so_and_dances_on(open_floor):
    async with open_floor(quay(), size=(60, 20)) as floor:
        await floor.press("space")
        floor.go_to(1, 96)
        await floor.pilot.pause()
        said = floor.screen.query_one("#too_small", PlainText)
        assert said.display
        assert said.text == "This window is 60 x 20. The floor screen needs 80 x 24: make it larger."
        assert not floor.screen.query_one("#count").display
        await floor.pilot.resize_terminal(80, 24)
        await floor.pilot.pause()
        assert not said.display
        assert floor.screen.query_one("#count").display


async def test_findings_are_one_key_away(open_floor):
    problem = Problem(level="warning", kind="facing", line=1, column=1, message="The facing is off.")
    async with open_floor(quay(), text="title: Kettle", problems=(problem,)) as floor:
        assert ("p", "problems") in floor.screen.query_one(KeyLine).keys
        await floor.press("space", "p")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, ProblemsScreen)
        assert not floor.session.dancing
        await floor.press("q")
        await floor.pilot.pause()
        assert floor.app.screen is floor.screen


async def test_without_findings_the_key_does_nothing(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("p")
        assert floor.app.screen is floor.screen


async def test_a_device_that_is_not_there_is_said_and_the_dance_goes_on(open_floor):
    async with open_floor(quay(), device="trumpet") as floor:
        assert floor.screen.query_one(TitleLine).right.startswith("there is no sound device called trumpet")
        await floor.press("space")
        floor.go_to(0, 96)
        assert floor.screen.quiet.startswith(" wall 1, section 1 count 1   there is no sound device called trumpet")


async def test_silence_that_was_chosen_is_not_complained_of(open_floor):
    async with open_floor(quay()) as floor:
        await floor.press("space")
        floor.go_to(0, 96)
        assert "sound" not in floor.screen.quiet


async def test_the_day_is_remembered_even_where_the_shelf_cannot_be_kept(open_floor, read_shelf):
    async with open_floor(quay()) as floor:
        (read_shelf / "shelf.json").unlink()
        read_shelf.rmdir()
        read_shelf.write_text("in the way", encoding="utf-8")
        await floor.press("space")
        await floor.pilot.pause()
        assert isinstance(floor.app.screen, MessageScreen), "said once, and the dance goes on behind it"
        await floor.press("enter")
        assert floor.screen.dancing


async def test_the_map_opens_over_a_dance_and_the_dance_goes_to_what_is_chosen(open_floor):
    async with open_floor(quay(), (120, 30)) as floor:
        await floor.press("space")
        floor.go_to(2, 96)
        await floor.pilot.press("g", "f")
        assert floor.session.dancing
        await floor.pilot.press(*"wall 1 section 2", "enter", "enter")
        await floor.pilot.pause()
        assert floor.app.screen is floor.screen
        assert (floor.screen.dancing, floor.screen.view.departure.kind) == (True, "JUMP")
        floor.go_to(8, 96)
        assert floor.screen.view.place == "wall 1, section 2 count 1 (9)"
        await floor.pilot.press("l", "n")
        floor.go_to(16, 96)
        assert floor.session.dancing
        await floor.pilot.press("b")
        assert floor.screen.view.count.counting_in, "back to the section's start with a count-in"
