"""A tempo by typing it or tapping it, over the floor: counts a minute, or with % of the routine's own."""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import ClassVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical
from textual.screen import ModalScreen
from textual.widgets import Input

from trainer.practice.tapping import tapped, with_tap
from trainer.screens import keys
from trainer.screens.floor_words import plain_number
from trainer.screens.session import FASTEST, SLOWEST
from trainer.screens.widgets.block_text import BlockText
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.tempo_line import TempoLine

_NUMBER = re.compile(r"(\d{1,4}(?:[.,]\d{1,3})?)\s*(%?)")


class TempoScreen(ModalScreen[Fraction | None]):
    """Dismissed with counts a minute, or with None to leave the tempo as it is."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("tempo")]

    def __init__(self, tempo: Fraction, own: Fraction, clock: Callable[[], float]) -> None:
        """Begin with the present tempo beside the routine's own; `clock` gives the seconds of taps."""
        super().__init__()
        self.page: keys.Page = "tempo"
        self._now, self._own, self._clock = tempo, own, clock
        self._taps: tuple[float, ...] = ()

    def compose(self) -> ComposeResult:
        """Yield the tempo in block letters over the line to type it in."""
        with Vertical():
            yield PlainText("Which tempo?", id="heading")
            yield BlockText(id="tempo_blocks", side="middle")
            yield TempoLine(placeholder="type a number, or tap the Space key on each count")
            yield PlainText(id="told")
            yield KeyLine()

    def on_mount(self) -> None:
        """Type at once."""
        self.query_one(TempoLine).focus()
        self._tell()

    def on_input_changed(self, event: Input.Changed) -> None:
        """Show the tempo typed so far."""
        event.stop()
        self._tell()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take the tempo."""
        event.stop()
        self.action_take()

    def action_tap(self) -> None:
        """Tap one count."""
        self._taps = with_tap(self._taps, self._clock())
        if (tempo := tapped(self._taps)) is not None:
            line = self.query_one(TempoLine)
            line.value = plain_number(tempo)
            line.action_select_all()  # what is typed now takes its place
        self._tell()

    def action_take(self) -> None:
        """Dance in the tempo shown; with nothing typed it stays as it is."""
        typed = self.query_one(TempoLine).value
        tempo = typed_tempo(typed, self._own)
        if tempo is not None or not typed.strip():
            self.dismiss(tempo)

    def action_leave(self) -> None:
        """Leave the tempo as it is."""
        self.dismiss(None)

    def _tell(self) -> None:
        typed = self.query_one(TempoLine).value
        tempo = typed_tempo(typed, self._own)
        self.query_one(BlockText).text = plain_number(kept_within(tempo or self._now, self._own))
        self.query_one("#told", PlainText).text = told(typed, tempo, self._own, len(self._taps))
        self.query_one(KeyLine).keys = keys.footer("tempo", ())


def typed_tempo(typed: str, own: Fraction) -> Fraction | None:
    """Return the counts a minute that were typed: "84", "92.5", "80%" of the routine's own; None for none."""
    match = _NUMBER.fullmatch(typed.strip())
    if match is None:
        return None
    number = Fraction(match[1].replace(",", "."))
    return (own * number / 100 if match[2] else number) or None


def kept_within(tempo: Fraction, own: Fraction) -> Fraction:
    """Return a tempo as near to that asked for as may be danced."""
    return max(own * SLOWEST / 100, min(tempo, own * FASTEST / 100))


def told(typed: str, tempo: Fraction | None, own: Fraction, taps: int) -> str:
    """Return what the tempo means, or why there is none."""
    if typed.strip() and tempo is None:
        return "Type a number of counts a minute, such as 84, or per cent of the routine's own tempo, such as 80%."
    slowest, fastest = plain_number(own * SLOWEST / 100), plain_number(own * FASTEST / 100)
    if tempo is None:
        tapping = f"   {taps} tap{'s' if taps != 1 else ''}" if taps else ""
        return f"The routine's own tempo is {plain_number(own)} counts a minute.{tapping}"
    if kept_within(tempo, own) != tempo:
        return (
            f"From {slowest} to {fastest} can be danced: 30 to 120 per cent of the routine's own {plain_number(own)}."
        )
    return f"{plain_number(tempo * 100 / own)} per cent of the routine's own {plain_number(own)} counts a minute"
