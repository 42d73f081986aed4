"""The shelf: every routine at hand with its level, counts and walls; one key and it is ready to dance."""

import asyncio
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import DataTable, Input

from trainer.practice.shelf import Entry, Shelf
from trainer.practice.shelf_words import COLUMNS, Column, about, in_order, matches, plain, row
from trainer.problems import TrainerError
from trainer.screens import keys
from trainer.screens.base_app import BaseApp, Read
from trainer.screens.question_screen import QuestionScreen
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText
from trainer.screens.widgets.search_line import SearchLine

if TYPE_CHECKING:
    from trainer.sheet.opening import Sheet


HEADING = "What do you dance today?"


class ShelfScreen(Screen[None]):
    """Lists the shelf; sheets are read one after the other once the page is there."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("shelf")]
    app: BaseApp

    def __init__(self, shelf: Shelf) -> None:
        super().__init__()
        self.page: keys.Page = "shelf"
        self._shelf = shelf
        self._read: dict[Path, Sheet | TrainerError] = {}
        self._listed: tuple[Entry, ...] = ()
        self._order: Column | None = None

    def compose(self) -> ComposeResult:
        """Yield the list and what is known of the routine chosen."""
        yield PlainText(HEADING, id="heading")
        yield PlainText(self._shelf.notice, id="notice")
        yield SearchLine(placeholder="title, level, teacher or tune")
        yield DataTable(cursor_type="row", zebra_stripes=False)
        yield PlainText(id="about")
        yield KeyLine()

    def on_mount(self) -> None:
        """Make the columns; the list is filled whenever the page comes to the front."""
        table = self.query_one(DataTable)
        for name in COLUMNS:
            table.add_column(name, key=name)
        table.focus()

    def on_screen_resume(self) -> None:
        """List what there is now: there may be something new since the floor."""
        self.refill()

    def refill(self) -> None:
        """List the entries as they are now, keeping the one chosen; once that was painted, read their sheets again."""
        self._list()
        self.call_after_refresh(self.call_after_refresh, self._read_sheets)

    def on_descendant_focus(self) -> None:
        """Show the keys that hold while typing, or those that hold otherwise."""
        self._tell()

    def on_input_changed(self, event: Input.Changed) -> None:
        """List what has the words typed so far."""
        event.stop()
        self._list()

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Dance the routine chosen among those found."""
        event.stop()
        self.action_dance()

    def on_data_table_row_highlighted(self) -> None:
        """Say more about the routine chosen."""
        self._tell()

    def on_data_table_header_selected(self, event: DataTable.HeaderSelected) -> None:
        """Order the list by the column clicked on."""
        self._sort(COLUMNS[event.column_index])

    def on_data_table_row_selected(self) -> None:
        """Dance the routine chosen."""
        self.action_dance()

    def action_dance(self) -> None:
        """Open the routine chosen on the floor."""
        if (entry := self._chosen()) is not None:
            self.app.open_sheet(self._shelf.path(entry))

    def action_choose(self, step: int) -> None:
        """Choose another routine while typing."""
        table = self.query_one(DataTable)
        table.move_cursor(row=table.cursor_row + step)

    def action_order(self) -> None:
        """Order the list by the next column; after the last as it was at first."""
        orders = (None, *COLUMNS)
        self._sort(orders[(orders.index(self._order) + 1) % len(orders)])

    def action_find(self) -> None:
        """Open the search."""
        self.add_class("-searching")
        self.query_one(SearchLine).focus()

    def action_all(self) -> None:
        """End the search."""
        self.remove_class("-searching")
        self.query_one(SearchLine).value = ""
        self.query_one(DataTable).focus()
        self._list()

    def action_add(self) -> None:
        """Open the page for a new routine."""
        from trainer.screens.adding_screen import AddingScreen

        self.app.push_screen(AddingScreen(self._shelf), self._added)

    def action_remove(self) -> None:
        """Ask whether an own routine shall leave the shelf."""
        entry = self._chosen()
        if entry is None or entry.kind != "own":
            return
        path = self._shelf.path(entry)
        title = row(entry, path, self._read.get(path))[0]

        def answered(yes: bool | None) -> None:
            if yes:
                with self.app.telling():
                    self._shelf.remove(entry)
                self._list()

        text = f"Its file is not deleted:\n{path}"
        self.app.push_screen(QuestionScreen(f"Take {title} off the shelf?", text), answered)

    def action_problems(self) -> None:
        """Show what is wrong in the sheet of the routine chosen."""
        entry = self._chosen()
        read = self._read.get(self._shelf.path(entry)) if entry else None
        if isinstance(read, TrainerError):
            self.app.tell(read)
        elif read is not None and read.problems:
            self.app.show_problems(read, self._after_problems)

    def _after_problems(self, read: Read | None) -> None:
        """Dance the sheet all the same, as it was read last."""
        if read is not None and read.dance:
            self.app.show_floor(read.sheet)

    @work(exclusive=True, group="sheets")
    async def _read_sheets(self) -> None:
        """Read every sheet, one after the other, and fill its row in; make ready for dancing."""
        for entry in self._shelf.entries:
            path = self._shelf.path(entry)
            try:
                self._read[path] = await asyncio.to_thread(_open_sheet, path)
            except TrainerError as error:
                self._read[path] = error
            if not self.query(DataTable):  # the program came to its end meanwhile
                return
            self._fill_in(entry)
        # While somebody chooses there is time to load the floor.
        await asyncio.to_thread(import_module, "trainer.screens.floor_screen")

    def _fill_in(self, entry: Entry) -> None:
        """Show what was read of an entry, which may be found by it or no longer."""
        table = self.query_one(DataTable)
        path = self._shelf.path(entry)
        if self._listed != self._found():
            self._list()
        elif str(entry.id) in table.rows:
            for name, value in zip(COLUMNS, row(entry, path, self._read[path]), strict=True):
                table.update_cell(str(entry.id), name, value, update_width=True)
            self._tell()

    def _added(self, entry: Entry | None) -> None:
        """Choose the new routine, whatever was searched for before."""
        if entry is None:
            return
        self.action_all()
        self.query_one(DataTable).move_cursor(row=[one.id for one in self._listed].index(entry.id))
        self._tell()

    def _sort(self, order: Column | None) -> None:
        self._order = order
        self.query_one("#heading", PlainText).text = HEADING + (f"   in order of: {order}" if order else "")
        self._list()

    def _found(self) -> tuple[Entry, ...]:
        """Return the entries that have the words searched for, in order."""
        words = plain(self.query_one(SearchLine).value).split()
        known = ((entry, self._shelf.path(entry)) for entry in self._shelf.entries)
        found = [(entry, path) for entry, path in known if matches(words, path, self._read.get(path))]
        rows = {entry.id: row(entry, path, self._read.get(path)) for entry, path in found}
        return tuple(in_order([entry for entry, _ in found], rows, self._order))

    def _list(self) -> None:
        """Fill the table, keeping the entry chosen where it is still there."""
        table = self.query_one(DataTable)
        chosen, place = self._chosen(), table.cursor_row
        self._listed = self._found()
        table.clear()
        for entry in self._listed:
            path = self._shelf.path(entry)
            table.add_row(*row(entry, path, self._read.get(path)), key=str(entry.id))
        ids = [entry.id for entry in self._listed]
        table.move_cursor(row=ids.index(chosen.id) if chosen and chosen.id in ids else place)
        self._tell()

    def _chosen(self) -> Entry | None:
        place = self.query_one(DataTable).cursor_row
        return self._listed[place] if 0 <= place < len(self._listed) else None

    def _tell(self) -> None:
        """Say more about the routine chosen, and which keys do something now."""
        entry = self._chosen()
        read = self._read.get(self._shelf.path(entry)) if entry else None
        nothing = "Nothing on the shelf has these words." if self.query_one(SearchLine).value else ""
        self.query_one("#about", PlainText).text = about(entry, read) if entry else nothing
        states = {
            "typing": self.query_one(SearchLine).has_focus,
            "searching": self.has_class("-searching"),
            "own": entry is not None and entry.kind == "own",
            "problems": isinstance(read, TrainerError) or bool(read and read.problems),
        }
        self.query_one(KeyLine).keys = keys.footer("shelf", [state for state, holds in states.items() if holds])


def _open_sheet(path: Path) -> "Sheet":
    """Read a sheet; in the thread the reader is loaded, too, so that keys are heard meanwhile."""
    from trainer.sheet.opening import open_sheet

    return open_sheet(path)
