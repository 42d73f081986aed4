"""The Textual app: which page is shown, and the one place where an error becomes a message on the screen."""

import asyncio
import time
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import TYPE_CHECKING

from textual import work
from textual.app import SystemCommand
from textual.screen import Screen

from trainer.practice.care import CAUTIONS
from trainer.practice.shelf import Shelf
from trainer.problems import TrainerError
from trainer.resources import folder
from trainer.screens import keys
from trainer.screens.base_app import BaseApp, Clock, Read
from trainer.screens.message_screen import MessageScreen
from trainer.screens.page_kinds import Displayed, HoldingText

if TYPE_CHECKING:
    from trainer.sheet.opening import Sheet


WELCOME = """\
Callahead reads a step sheet and finds what is wrong in it.
It counts you through every wall, tag and restart, a step ahead.
Enter opens a routine, Space starts the dance, ? shows all keys.
"""


class CallaheadApp(BaseApp):
    """The shelf, and from there the floor; or one sheet on the floor at once."""

    TITLE = "Callahead"
    CSS_PATH = "trainer.tcss"
    ENABLE_COMMAND_PALETTE = True

    def __init__(
        self,
        sheet: Path | None = None,
        *,
        device: str = "",
        clock: Clock = time.monotonic,
        data: Path | None = None,
        loaded: Callable[[], None] | None = None,
    ) -> None:
        """Make the app; `loaded` is called once it runs and has taken the terminal, the rest as in `BaseApp`."""
        super().__init__(device=device, clock=clock, data=data)
        self._sheet = sheet
        self._loaded = loaded

    def on_mount(self) -> None:
        """Open the shelf, or the sheet that was asked for."""
        with self.telling():
            self.settings = self._kept.read()
        with self.telling():
            self.sound = self._kept_sound.read()
        with self.telling():
            self._shelf = Shelf(folder("routines"), self._data)
            self._shelf.stock()
        if self._sheet is not None:
            self.open_sheet(self._sheet)
        elif self._shelf is not None:
            from trainer.screens.shelf_screen import ShelfScreen

            self.push_screen(ShelfScreen(self._shelf))
            if not self._shelf.cautions_read:
                words = f"{WELCOME}\n{' '.join(CAUTIONS.split())}"
                self.push_screen(MessageScreen("Welcome to Callahead", words), self._cautions_read)
            self._tell_of_settings()

    def post_display_hook(self) -> None:
        """Tell the page that what it had changed is on its way to the terminal."""
        if self.screen_stack and isinstance(self.screen, Displayed):
            self.screen.displayed()

    def on_ready(self) -> None:
        """Say that the app runs."""
        if self._loaded is not None:
            self._loaded()

    @work(exclusive=True, group="sheet")
    async def open_sheet(self, path: Path) -> None:
        """Read a sheet and show it on the floor; one with errors shows them first."""
        from trainer.sheet.opening import open_sheet

        with self.telling():
            sheet = await asyncio.to_thread(open_sheet, path)
            if any(problem.level == "error" for problem in sheet.problems):
                self.show_problems(sheet, self._after_problems)
            else:
                self.show_floor(sheet)

    def show_floor(self, sheet: "Sheet") -> None:
        """Show a sheet on the floor, ready to dance."""
        from trainer.dance.unroll import unroll
        from trainer.screens.floor_screen import FloorScreen
        from trainer.screens.session import Session

        timeline = unroll(sheet.routine)
        if not any(True for _ in timeline.danced(0, 1)):
            self.tell(TrainerError("There is nothing to dance", f"no counts could be read in {sheet.path}"))
            return
        self.push_screen(FloorScreen(sheet, Session(timeline)))
        self._tell_of_settings()

    def show_problems(self, sheet: "Sheet", then: Callable[[Read | None], None]) -> None:
        """Show what is wrong in a sheet, and ask whether to dance it all the same."""
        from trainer.screens.problems_screen import ProblemsScreen

        self.push_screen(ProblemsScreen(sheet, asking=True), then)

    def leave_floor(self) -> None:
        """Go back to the shelf; where the program began on the floor, end it."""
        self.pop_screen()
        self._leave(0)

    def action_help(self) -> None:
        """Show the keys of the page."""
        from trainer.screens.help_screen import HelpScreen

        page = getattr(self.screen, "page", None)
        if page is not None:
            self.push_screen(HelpScreen(page))

    async def action_quit(self) -> None:
        """End the program; a page that holds text of the dancer's is left first, and asks."""
        holding = [page for page in self.screen_stack if isinstance(page, HoldingText) and page.holds_text]
        if not holding:
            await super().action_quit()
        elif holding[-1] is self.screen:
            holding[-1].action_leave()

    def get_system_commands(self, screen: Screen[object]) -> Iterable[SystemCommand]:
        """Yield the keys of the page as commands, then those of every app."""
        page = getattr(screen, "page", None)
        for key in keys.PAGES.get(page, ()) if page else ():
            if key.action:
                yield SystemCommand(key.help, f"key: {key.shown}", self._runner(screen, key.action))
        for command in super().get_system_commands(screen):
            if command.title not in ("Theme", "Keys"):  # the settings and the help are pages of our own
                yield command

    def _runner(self, screen: Screen[object], action: str) -> Callable[[], None]:
        def run_it() -> None:
            self.call_later(self.run_action, action, screen)

        return run_it

    def action_settings(self) -> None:
        """Show what can be set, unless it is shown or somebody dances."""
        from trainer.screens.settings_screen import SettingsScreen

        if not isinstance(self.screen, SettingsScreen) and not getattr(self.screen, "dancing", False):
            self.push_screen(SettingsScreen())

    def action_sound(self) -> None:
        """Show what is heard and where it goes, unless it is shown."""
        from trainer.screens.sound_screen import SoundScreen

        if not isinstance(self.screen, SoundScreen):
            self.push_screen(SoundScreen())

    def action_turn_room(self) -> None:
        """Turn the room: the screen stands a quarter further round."""
        self.change_settings(self.settings.turned())

    def _tell_of_settings(self) -> None:
        """Say once that the file of the settings could not be understood."""
        for kept in (self._kept, self._kept_sound):
            if kept.notice:
                self.push_screen(MessageScreen("Your settings", kept.notice))
                kept.notice = ""

    def _cautions_read(self, _: None) -> None:
        if self._shelf is not None:
            with self.telling():
                self._shelf.cautions_were_read()

    def _after_problems(self, read: Read | None) -> None:
        if read is not None and read.dance:
            self.show_floor(read.sheet)
        else:
            self._leave(0)
