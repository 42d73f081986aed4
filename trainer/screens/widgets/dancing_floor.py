"""The floor while dancing: count, step, next step, facing clock, free foot, next departure; nothing else."""

from textual.app import ComposeResult
from textual.containers import Container
from textual.events import Resize
from textual.reactive import reactive
from textual.widget import Widget

from trainer.dance.facing import amount, clock
from trainer.practice.floor import DepartureView, FloorView, StepView
from trainer.practice.settings import Settings
from trainer.practice.take import Mend
from trainer.screens import marks
from trainer.screens.room import Region, TooSmall, plan
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.counts_left import CountsLeft
from trainer.screens.widgets.drawn import Drawn
from trainer.screens.widgets.facing_dial import FacingDial
from trainer.screens.widgets.free_foot import FreeFoot
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.slab import Slab
from trainer.screens.widgets.turn_arrow import TurnArrow
from trainer.terms import Foot

_NEXT_LETTER = 5  # columns of a letter below which the foot's letter is left out before the next step's name


class DancingFloor(Container):
    """Places its parts by the plan of the room, and hands each its own value of the view."""

    shown: reactive[FloorView | None] = reactive[FloorView | None](None, repaint=False)
    quiet: reactive[str] = reactive("", repaint=False)
    """The one line at the top."""
    settings: reactive[Settings] = reactive(Settings(), repaint=False)
    """How large the window is and how far away."""

    def compose(self) -> ComposeResult:
        """Yield the parts; the slab and the squares lie over what they replace."""
        yield PlainText(id="quiet").data_bind(text=DancingFloor.quiet)
        yield FreeFoot(Foot.LEFT, id="foot_left")
        yield BlockText(id="count", side="middle")
        yield BlockText(id="sub")
        yield FacingDial(id="dial")
        yield BlockText(id="amount")
        yield TurnArrow(id="arrow")
        yield BlockText(id="end_clock")
        yield FreeFoot(Foot.RIGHT, id="foot_right")
        yield PlainText(id="now_line")
        yield BlockText(id="now_blocks")
        yield BlockText(id="next")
        yield PlainText(id="rule")
        yield BlockText(id="departure")
        yield CountsLeft(id="counts_left")
        yield BlockText(id="departure_clock", side="right")
        yield Slab(id="slab")
        yield PlainText(id="too_small")

    def on_resize(self, _event: Resize) -> None:
        """Place the parts anew."""
        self._place()

    def watch_shown(self) -> None:
        """Hand on what is new."""
        if self.shown is not None and self.is_mounted:
            self._show(self.shown)

    def watch_settings(self) -> None:
        """Place the parts for a window of another size."""
        if self.is_mounted:
            self._place()

    def _place(self) -> None:
        """Put every part where the plan of the room has it; the plan counts the line of keys below as well."""
        if not self.size.width:  # hidden: it is placed when it comes to show
            return
        size = {"height_mm": self.settings.window_mm, "distance_m": self.settings.distance_m}
        regions = plan(self.size.width, self.size.height + 1, **size)
        small = isinstance(regions, TooSmall)
        for part in self.children:
            part.set_class(small, "-no-room")
        if isinstance(regions, TooSmall):
            self.query_one("#too_small", PlainText).text = str(regions)
            return
        for name, region in regions.parts().items():
            for part in self.query(f"#{name}"):
                _put(part, region)
        _put(self.query_one("#now_line"), regions.now)
        _put(self.query_one("#now_blocks"), regions.now)
        _put(self.query_one("#counts_left"), regions.departure)
        _put(self.query_one("#slab"), regions.slab)
        self.set_class(regions.now_in_blocks, "-tall")
        if self.shown is not None:
            self._show(self.shown)

    def _show(self, view: FloorView) -> None:
        count = self.query_one("#count", BlockText)
        count.text = str(view.count.number)
        count.set_class(view.count.counting_in, "-counting-in")
        self.query_one("#sub", BlockText).text = view.count.sub
        self.query_one("#dial", FacingDial).shown = view.dial
        turn = view.dial.turn
        self.query_one("#amount", BlockText).text = amount(turn) if turn else ""
        self.query_one("#arrow", TurnArrow).turn = turn
        self.query_one("#end_clock", BlockText).text = clock(view.dial.ends) if turn else ""
        for foot in self.query(FreeFoot):
            foot.shown = view.foot
        self.query_one("#now_line", PlainText).text = f" now  {_step_line(view)}"
        self.query_one("#now_blocks", BlockText).text = (
            f"{view.now.short} {view.now.progress.upper()}".rstrip() if view.now else ""
        )
        self._show_next(view.next)
        self._show_departure(view.departure, view.mend)

    def _show_next(self, step: StepView | None) -> None:
        following = self.query_one("#next", BlockText)
        foot = step.foot if step and step.foot in (Foot.RIGHT, Foot.LEFT) else None
        following.side = "right" if foot is Foot.RIGHT else "left" if foot is Foot.LEFT else "middle"
        following.text = next_words(step, following.size.width) if step else ""

    def _show_departure(self, departure: DepartureView | None, mend: Mend | None) -> None:
        urgent = departure is not None and departure.urgent and mend is None
        near = departure is not None and departure.near
        words = "" if departure is None else departure.kind + (f" {departure.name}" if departure.kind == "PART" else "")
        band, facing = "", ""
        if mend is not None:
            band, facing = mend_blocks(mend)
        elif departure is not None:
            band = "" if urgent else f"{words}  {departure.left}"
            facing = clock(departure.facing) if near else ""
        self.query_one("#departure", BlockText).text = band
        self.query_one("#departure_clock", BlockText).text = facing
        self.query_one("#slab", Slab).word = words if urgent else ""
        self.query_one("#counts_left", CountsLeft).left = departure.left if departure and urgent else None
        rule = self.query_one("#rule", PlainText)
        rule.text = "\n".join(marks.rule(self.size.width, rule.size.height)) if near or mend else ""
        for part in self.query("#departure, #departure_clock, #rule"):
            part.set_class(near, "-near")
            part.set_class(mend is not None, "-mend")


def _put(part: Widget, region: Region) -> None:
    part.styles.offset = (region.left, region.top)
    part.styles.width = region.columns
    part.styles.height = region.rows
    if isinstance(part, Drawn):
        part.inset, part.below = region.inset, region.below


def _step_line(view: FloorView) -> str:
    if view.count.counting_in or view.now is None:
        return "count in"
    foot = view.now.foot if view.now.foot in (Foot.RIGHT, Foot.LEFT) else ""
    weight = f", weight stays on {view.foot.weight}" if view.now.hold and view.foot.weight else ""
    return f"{foot} {view.now.name} {view.now.progress}".strip() + weight


def next_words(step: StepView, columns: int) -> str:
    """Return the next step in capitals, with its foot at the outer side where the letters stay large enough."""
    both = f"{step.foot} {step.short}" if step.foot is Foot.LEFT else f"{step.short} {step.foot}"
    fits = len(both) * (_NEXT_LETTER + 1) <= columns
    return both if step.foot in (Foot.RIGHT, Foot.LEFT) and fits else step.short


def mend_blocks(mend: Mend) -> tuple[str, str]:
    """Return what to put right in the seam of a loop, in words for the two block texts at the bottom."""
    weight = {None: "", "B": "ON BOTH"}.get(mend.weight, f"ON {mend.weight}")
    if mend.facing is None:
        return "WEIGHT", weight
    return (f"TO {clock(mend.facing)}", weight) if weight else ("BACK TO", clock(mend.facing))
