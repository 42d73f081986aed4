"""A step looked up over the floor: the present one first, then any that is typed."""

from collections.abc import Sequence
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Input

from trainer.dance.naming import step_name
from trainer.dance.timeline import Danced
from trainer.practice.lookup import looked_up
from trainer.screens import keys
from trainer.screens.step_words import danced_words, looked_up_words
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.search_line import SearchLine
from trainer.terms import Foot


class LookUpScreen(ModalScreen[None]):
    """Shows how a step is danced; it changes nothing."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("look_up")]

    def __init__(self, steps: Sequence[Danced]) -> None:
        """Begin with the step that these events make."""
        super().__init__()
        self.page: keys.Page = "look_up"
        self._steps = steps

    def compose(self) -> ComposeResult:
        """Yield the step, and a line in which another can be typed."""
        with Vertical():
            yield PlainText("How is it danced?", id="heading")
            yield SearchLine(placeholder="coaster step, sailor 1/4 left, kick ball")
            with VerticalScroll(id="said"):
                yield PlainText(id="step", classes="-flowing")
            yield KeyLine()

    def on_mount(self) -> None:
        """Show the present step."""
        first = self._steps[0]
        foot = first.foot if first.foot in (Foot.RIGHT, Foot.LEFT) else None
        answer = looked_up(step_name(first.event), foot) if first.event.move else None
        parts = [danced_words(self._steps), *([looked_up_words(answer)] if answer else [])]
        self._show(Content("\n\n").join(parts))
        self.query_one("#said").focus()

    def on_descendant_focus(self) -> None:
        """Show the keys that hold while typing, or those that hold otherwise."""
        typing = self.query_one(SearchLine).has_focus
        self.query_one(KeyLine).keys = keys.footer("look_up", ["typing" if typing else ""])

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show what the name typed so far stands for."""
        event.stop()
        if event.value.strip():
            self._show(looked_up_words(looked_up(event.value)))

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Go from the line to what was found, to scroll it."""
        event.stop()
        self.query_one("#said").focus()

    def action_find(self) -> None:
        """Type another step."""
        self.add_class("-finding")
        self.query_one(SearchLine).focus()

    def action_choose(self, by: int) -> None:
        """Scroll while typing."""
        self.query_one("#said", VerticalScroll).scroll_relative(y=by, animate=False)

    def action_leave(self) -> None:
        """Go back to the floor."""
        self.dismiss(None)

    def _show(self, content: Content) -> None:
        step = self.query_one("#step", PlainText)
        step.text = content
        step.refresh(layout=True)
