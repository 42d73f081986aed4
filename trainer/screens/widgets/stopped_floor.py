"""The floor when stopped: the same step with its words, its section and its place, to be read from near by."""

from dataclasses import dataclass

from textual.app import ComposeResult
from textual.containers import Container, Horizontal, Vertical
from textual.content import Content
from textual.reactive import reactive

from trainer.dance.facing import clock, turn_text
from trainer.practice.floor import FloorView
from trainer.practice.proposals import Proposal
from trainer.practice.roadmap import WallRow
from trainer.practice.strip import StripView, WordsView
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.section_strip import SectionStrip
from trainer.screens.widgets.sheet_text import SheetText
from trainer.screens.widgets.title_line import TitleLine
from trainer.screens.widgets.wall_strip import WallStrip
from trainer.sheet.opening import Sheet
from trainer.terms import Foot

_FEET = {
    "R": "weight on R, L free",
    "L": "weight on L, R free",
    "B": "weight on both, either may step",
    None: "weight unread",
}


@dataclass(frozen=True, slots=True)
class StoppedView:
    """All that the stopped floor shows."""

    title: str
    floor: FloorView
    strip: StripView
    words: WordsView | None
    tempo: str
    """ "84 of 96 a minute"."""
    events: int
    """How many events the whole routine has as danced."""
    note: str
    """The loop, the sound: what else holds now."""
    music: str
    """What the routine is danced to and when it begins; shown before the first count."""
    proposed: Proposal | None
    """What the first button of a remote starts, where the dancer stands before it."""
    walls: tuple[WallRow, ...]
    wall: int
    """Which of the walls is stood on."""
    turned: str
    """The turn made on this wall so far, "3/4 left"; empty for none."""


class StoppedFloor(Container):
    """Composes the parts and hands each its own value of the view."""

    shown: reactive[StoppedView | None] = reactive[StoppedView | None](None, repaint=False)

    def __init__(self, sheet: Sheet) -> None:
        super().__init__()
        self._sheet = sheet

    def compose(self) -> ComposeResult:
        """Yield the parts from the top down."""
        yield TitleLine(id="title_line")
        with Horizontal(id="head"):
            with Vertical(id="telling"):
                yield BlockText(id="step_blocks")
                yield PlainText(id="details")
            yield FacingDial(id="small_dial")
        yield PlainText(id="departure_line")
        yield PlainText(id="words")
        around = SheetText(self._sheet, id="around")
        around.can_focus = False  # the arrows step through the dance
        yield around
        yield SectionStrip(id="strip")
        yield WallStrip(id="walls")

    def renew(self, sheet: Sheet) -> None:
        """Show another text round the present line."""
        self.query_one("#around", SheetText).show(sheet)

    def watch_shown(self) -> None:
        """Hand on what is new."""
        view = self.shown
        if view is None or not self.is_mounted:
            return
        title = self.query_one("#title_line", TitleLine)
        title.left = view.title
        title.right = "   ".join(words for words in (view.note, "STOPPED", view.tempo) if words)
        self.query_one("#step_blocks", BlockText).text = (
            view.proposed.blocks if view.proposed else step_words(view.floor)
        )
        self.query_one("#details", PlainText).text = details(view)
        self.query_one("#small_dial", FacingDial).shown = view.floor.dial
        self.query_one("#departure_line", PlainText).text = view.floor.departure.line if view.floor.departure else ""
        self.query_one("#words", PlainText).text = teachers_words(view.words) if view.words else view.music
        self.query_one("#around", SheetText).line = view.words.line if view.words else 0
        self.query_one("#strip", SectionStrip).shown = view.strip
        walls = self.query_one("#walls", WallStrip)
        walls.rows, walls.current = view.walls, view.wall


def step_words(view: FloorView) -> str:
    """Return the count with the step danced on it, in blocks; before the first step, what comes first."""
    if view.now is None:
        return f"FIRST  {view.next.short}" if view.next else ""
    return f"{view.count.number}{view.count.sub}  {view.now.short}"


def details(view: StoppedView) -> Content:
    """Return where it is danced, the step, what comes next, the feet and the turn, a line each."""
    floor = view.floor
    head, now = "step  ", f"{floor.now.name} {floor.now.progress}".rstrip() if floor.now else "nothing danced yet"
    if view.proposed:
        head, now = "plan  ", view.proposed.words + (", looped" if view.proposed.loops else "")
    so_far = f"   turned {view.turned} on this wall" if view.turned else ""
    turn = floor.dial.turn
    turning = f", then turn {turn_text(turn)} to {clock(floor.dial.ends)}" if turn else ""
    following = f"{foot_word(floor.next.foot)}{floor.next.name}" if floor.next else "nothing: this is the end"
    return Content("\n").join(
        (
            Content.assemble((floor.place, "bold"), (f"   {floor.index + 1} of {view.events}", "$secondary")),
            Content.assemble((head, "$secondary"), now),
            Content.assemble(("next  ", "$secondary"), (following, "$warning")),
            Content.assemble(("feet  ", "$secondary"), _FEET[floor.foot.weight], (so_far, "$accent")),
            Content.assemble(("faces ", "$secondary"), (clock(floor.dial.facing), "$primary"), (turning, "$accent")),
        )
    )


def foot_word(foot: Foot | None) -> str:
    """Return a foot with a blank behind it, empty where there is none to name."""
    return f"{foot} " if foot in (Foot.RIGHT, Foot.LEFT) else ""


def teachers_words(view: WordsView) -> Content:
    """Return what the teacher wrote, and how sure the reading is."""
    line = f"  (line {view.line})" if view.line else ""
    said = f'"{view.words}"{line}' if view.words else f"{view.source}{line}"
    doubt = {"unsure": f" Unsure: it may also be {view.other}.", "unread": " This could not be read."}.get(
        view.status, ""
    )
    styling = f"\n{view.styling}" if view.styling else ""
    return Content.assemble(said, (doubt, "$error"), (styling, "$secondary"))
