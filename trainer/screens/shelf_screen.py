"""The shelf: every routine at hand with its level, counts and walls; one key and it is ready to dance."""

import asyncio
from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import work
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.screen import Screen
from textual.widgets import DataTable

from trainer.dance.facing import walls_home
from trainer.practice.care import full_turns
from trainer.practice.shelf import Entry, Shelf
from trainer.problems import TrainerError, loud
from trainer.routine import Routine
from trainer.screens import keys
from trainer.screens.widgets.key_line import KeyLine
from trainer.screens.widgets.plain_text import PlainText

if TYPE_CHECKING:
    from trainer.screens.app import CallaheadApp
    from trainer.sheet.opening import Sheet

COLUMNS = ("routine", "level", "counts", "walls", "a minute", "last danced")


class ShelfScreen(Screen[None]):
    """Lists the shelf; sheets are read one after the other once the page is there."""

    BINDINGS: ClassVar[list[BindingType]] = [*keys.bindings("shelf")]
    app: "CallaheadApp"

    def __init__(self, shelf: Shelf) -> None:
        super().__init__()
        self.page: keys.Page = "shelf"
        self._shelf = shelf
        self._read: dict[Path, Sheet | TrainerError] = {}

    def compose(self) -> ComposeResult:
        """Yield the list and what is known of the routine chosen."""
        yield PlainText("What do you dance today?", id="heading")
        yield PlainText(self._shelf.notice, id="notice")
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
        """List the entries as they are now, keeping the one chosen."""
        table = self.query_one(DataTable)
        chosen = table.cursor_row
        table.clear()
        for entry in self._shelf.entries:
            path = self._shelf.path(entry)
            table.add_row(*row(entry, path, self._read.get(path)), key=str(entry.id))
        table.move_cursor(row=chosen)
        self._tell()
        self._read_sheets()

    def on_data_table_row_highlighted(self) -> None:
        """Say more about the routine chosen."""
        self._tell()

    def on_data_table_row_selected(self) -> None:
        """Dance the routine chosen."""
        self.action_dance()

    def action_dance(self) -> None:
        """Open the routine chosen on the floor."""
        if (entry := self._chosen()) is not None:
            self.app.open_sheet(self._shelf.path(entry))

    def action_problems(self) -> None:
        """Show what is wrong in the sheet of the routine chosen."""
        entry = self._chosen()
        read = self._read.get(self._shelf.path(entry)) if entry else None
        if isinstance(read, TrainerError):
            self.app.tell(read)
        elif read is not None and read.problems:
            self.app.show_problems(read, lambda dance: self.app.show_floor(read) if dance else None)

    @work(exclusive=True, group="sheets")
    async def _read_sheets(self) -> None:
        """Read every sheet, one after the other, and fill its row in."""
        from trainer.sheet.opening import open_sheet

        table = self.query_one(DataTable)
        for entry in self._shelf.entries:
            path = self._shelf.path(entry)
            try:
                self._read[path] = await asyncio.to_thread(open_sheet, path)
            except TrainerError as error:
                self._read[path] = error
            for name, value in zip(COLUMNS, row(entry, path, self._read[path]), strict=True):
                table.update_cell(str(entry.id), name, value, update_width=True)
            self._tell()

    def _chosen(self) -> Entry | None:
        place = self.query_one(DataTable).cursor_row
        entries = self._shelf.entries
        return entries[place] if 0 <= place < len(entries) else None

    def _tell(self) -> None:
        entry = self._chosen()
        read = self._read.get(self._shelf.path(entry)) if entry else None
        self.query_one("#about", PlainText).text = about(entry, read) if entry else ""
        states = ("problems",) if isinstance(read, TrainerError) or (read and read.problems) else ()
        self.query_one(KeyLine).keys = keys.footer("shelf", states)


def row(entry: Entry, path: Path, read: "Sheet | TrainerError | None") -> tuple[str, ...]:
    """Return the cells of an entry; before its sheet was read, its file's name."""
    danced = entry.danced.isoformat() if entry.danced else ""
    if read is None or isinstance(read, TrainerError):
        return (path.stem.replace("-", " "), "", "", "", "", danced if read is None else read.title)
    routine = read.routine
    tempo = str(routine.tempo) if routine.tempo else ""
    return (routine.title or path.stem, routine.level, counts_of(routine), walls_of(routine), tempo, danced)


def counts_of(routine: Routine) -> str:
    """Return the counts of a dance, as declared or else as its sections add up to."""
    return str(routine.counts or sum(part.counts for part in routine.parts))


def walls_of(routine: Routine) -> str:
    """Return the directions a dance begins in, as declared or else as it turns; "phrased" where it is in parts."""
    if routine.walls is not None:
        return str(routine.walls)
    if routine.phrased:
        return "phrased"
    turns = (event.turn for part in routine.parts for section in part.sections for event in section.events)
    return str(walls_home(sum(turns, start=routine.squares * 0)))


def about(entry: Entry, read: "Sheet | TrainerError | None") -> str:
    """Return what else a dancer wants to know before choosing, in at most three lines."""
    if read is None:
        return "reading ..."
    if isinstance(read, TrainerError):
        return f"{read.title}. {read.message}"
    routine = read.routine
    tune = f"to {routine.tune}" if routine.tune else ""
    turns = full_turns(routine)
    spins = f"{turns} full turns on each wall: learn them slowly, with room round you" if turns > 1 else ""
    found = len(loud(read.problems))
    faults = f"{found} finding{'s' if found != 1 else ''} in the sheet" if found else ""
    where = entry.name if entry.kind == "own" else ""
    lines = (", ".join(words for words in (tune, routine.by, routine.time) if words), spins, faults, where)
    return "\n".join(line for line in lines if line)
