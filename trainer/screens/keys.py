"""Every key of every page, once: the footer, the help and the command palette are made from this table.

A page has states ("dancing", "stopped", "looping"); what a key does now is the first of its sayings whose state holds,
and "" holds always. A key without a saying for the present state does nothing and is not in the footer.
"""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Literal

from textual.binding import Binding

Page = Literal[
    "shelf", "adding", "floor", "map", "tempo", "look_up", "problems", "editing", "settings", "sound", "tapping"
]


@dataclass(frozen=True, slots=True)
class Key:
    """One key of a page."""

    key: str
    """As Textual names it; several, divided by commas, do the same."""
    shown: str
    """As it is printed on a keyboard or said."""
    action: str
    says: tuple[tuple[str, str], ...]
    """State and what the key does in it, for the footer."""
    help: str
    """A sentence for the help page and the command palette."""

    def does(self, states: Collection[str]) -> str:
        """Return what the key does in these states, empty for nothing."""
        return next((words for state, words in self.says if not state or state in states), "")


_HELP = Key("question_mark,f1", "?", "app.help", (("", "keys"),), "Show all keys of this page")

PAGES: dict[Page, tuple[Key, ...]] = {
    "shelf": (
        Key("enter", "Enter", "dance", (("", "dance"),), "Open the routine on the floor, ready to dance"),
        Key("up,down", "Up/Down", "", (("", "choose"),), "Choose a routine"),
        Key(
            "p",
            "p",
            "problems",
            (("typing", ""), ("problems", "findings")),
            "Show what is wrong in the routine's sheet",
        ),
        Key("f", "f", "find", (("typing", ""), ("", "find")), "Find routines by title, level, teacher or tune"),
        Key("a", "a", "add", (("typing", ""), ("", "add")), "Add the file of a sheet, or paste its text"),
        Key("escape", "Esc", "all", (("searching", "show all"),), "End the search and show every routine"),
        Key("r,delete", "r", "remove", (("typing", ""), ("own", "take off")), "Take an own routine off the shelf"),
        Key("o", "o", "order", (("typing", ""), ("", "order")), "Order the list by the next column"),
        Key("s", "s", "app.settings", (("typing", ""), ("", "settings")), "Set the room, the sizes and the colours"),
        Key("v", "v", "app.sound", (("typing", ""), ("", "sound")), "Set where the sound goes and how loud it is"),
        Key("q", "q", "app.quit", (("typing", ""), ("", "quit")), "Leave the program"),
        Key("f1", "F1", "app.help", (("typing", "keys"),), "Show all keys of this page, also while you type"),
        Key("question_mark", "?", "app.help", (("typing", ""), ("", "keys")), "Show all keys of this page"),
    ),
    "adding": (
        Key("enter", "Enter", "", (("file", "add the file"),), "Add the file that was typed"),
        Key(
            "ctrl+s,f2",
            "Ctrl+S",
            "keep",
            (("text", "add the text"),),
            "Keep the pasted text and add it; so does F2",
        ),
        Key(
            "tab",
            "Tab",
            "app.focus_next",
            (("file", "to the text"), ("text", "to the file")),
            "Go from the file to the text and back",
        ),
        Key("escape", "Esc", "leave", (("", "back"),), "Go back to the shelf"),
        Key("f1", "F1", "app.help", (("", "keys"),), "Show all keys of this page"),
    ),
    "floor": (
        Key(
            "pagedown",
            "Page Down",
            "button_down",
            (("dancing", "stop, twice next"), ("walking", "next footfall"), ("", "start what is proposed")),
            "First button of a remote: start what is proposed; in a walk by hand, a footfall on; dancing, stop, and "
            "twice within a second go to the next",
        ),
        Key(
            "pageup",
            "Page Up",
            "button_up",
            (("dancing", "section again"), ("walking", "back, twice: end of the walk"), ("", "choose another")),
            "Second button: choose what comes before; in a walk by hand, a footfall back, and twice within a second "
            "end it; dancing, back to the start of the section",
        ),
        Key(
            "l", "l", "loop", (("walking", ""), ("looping", "loop off"), ("", "loop")), "Loop the section; again: go on"
        ),
        Key(
            "space",
            "Space",
            "start_stop",
            (("dancing", "stop"), ("walking", "dance"), ("", "start")),
            "Start from where you stand, and stop",
        ),
        Key("left", "Left/Right", "step(-1)", (("dancing", ""), ("", "step")), "When stopped: go back by one footfall"),
        Key("right", "Right", "step(1)", (), "When stopped: go on by one footfall"),
        Key(
            "g",
            "g",
            "map",
            (("", "go to"),),
            "The map of all walls: go to any section, tag or count, or loop it, also while dancing",
        ),
        Key("p", "p", "problems", (("problems", "problems"),), "Show what is wrong, in the text of the sheet"),
        Key("up", "Up/Down", "tempo(1)", (("walking", ""), ("", "tempo")), "Faster by 2 per cent, up to 120"),
        Key("down", "Down", "tempo(-1)", (), "Slower by 2 per cent, down to 30"),
        Key("t", "t", "set_tempo", (("walking", ""), ("", "set tempo")), "Type a tempo, or tap it"),
        Key("u", "u", "look_up", (("dancing", ""), ("", "look up")), "Look up how the present step is danced"),
        Key(
            "e", "e", "sheet", (("dancing", ""), ("", "sheet")), "Show the sheet at the present step, to read and edit"
        ),
        Key(
            "b",
            "b/n",
            "section(-1)",
            (("", "section"),),
            "Back to the section's start, or the one before; dancing, after a count-in",
        ),
        Key("n", "n", "section(1)", (), "On to the next section; a loop goes on to it without a stop"),
        Key("w", "w", "app.turn_room", (("", "turn room"),), "Turn the room: the screen stands at the next wall"),
        Key(
            "m",
            "m",
            "mirror",
            (("dancing", ""), ("", "mirror")),
            "Stand as a teacher who faces the class, as one who follows a teacher, or again as in the sheet",
        ),
        Key("s", "s", "app.settings", (("dancing", ""), ("", "settings")), "Set the room, the sizes and the colours"),
        Key("v", "v", "sound", (("dancing", ""), ("", "sound")), "Set where the sound goes and how loud it is"),
        Key("plus,equals_sign", "+/-", "louder(1)", (("", "louder"),), "Louder clicks, also while dancing"),
        Key("minus", "-", "louder(-1)", (), "Softer clicks"),
        Key("q", "q", "leave", (("", "leave"),), "Leave the floor"),
        _HELP,
    ),
    "map": (
        Key("enter", "Enter", "go", (("finding", "choose"), ("", "go there")), "Go to what is chosen"),
        Key("l", "l", "loop", (("finding", ""), ("", "loop it")), "Loop what is chosen"),
        Key(
            "f,slash", "f", "find", (("finding", ""), ("", "find")), "Type a wall, section, tag, count or run of counts"
        ),
        Key("left", "Left/Right", "across(-1)", (("finding", ""), ("", "section")), "Choose the section or tag before"),
        Key("right", "Right", "across(1)", (), "Choose the section or tag after"),
        Key("up", "Up/Down", "along(-1)", (("finding", "choose"), ("", "wall")), "Choose the same on the wall before"),
        Key("down", "Down", "along(1)", (), "Choose the same on the wall after"),
        Key(
            "shift+left",
            "Shift+Left/Right",
            "last(-1)",
            (("finding", ""), ("", "last count")),
            "End what is chosen a count earlier, so that any counts can be looped",
        ),
        Key("shift+right", "Shift+Right", "last(1)", (), "End what is chosen a count later"),
        Key(
            "ctrl+left",
            "Ctrl+Left/Right",
            "first(-1)",
            (("finding", ""), ("", "first count")),
            "Begin what is chosen a count earlier",
        ),
        Key("ctrl+right", "Ctrl+Right", "first(1)", (), "Begin what is chosen a count later"),
        Key("escape,q", "Esc", "leave", (("finding", "back to the map"), ("", "back")), "Go back to where you were"),
        _HELP,
    ),
    "tempo": (
        Key("enter", "Enter", "take", (("", "take it"),), "Dance in the tempo shown"),
        Key(
            "space",
            "Space",
            "tap",
            (("", "tap a count"),),
            "Tap on each count: from the third tap on the tempo is shown",
        ),
        Key("escape", "Esc", "leave", (("", "as it was"),), "Leave the tempo as it was"),
        Key("f1", "F1", "app.help", (("", "keys"),), "Show all keys of this page"),
    ),
    "look_up": (
        Key("f,slash", "f", "find", (("typing", ""), ("", "find another")), "Type the name of any step"),
        Key("up,down", "Up/Down", "", (("", "scroll"),), "Scroll through it"),
        Key("enter", "Enter", "", (("typing", "read it"),), "Go from the line to what was found"),
        Key("escape,u,q", "Esc", "leave", (("", "back"),), "Go back to the floor"),
        Key("f1", "F1", "app.help", (("typing", "keys"),), "Show all keys of this page, also while you type"),
        Key("question_mark", "?", "app.help", (("typing", ""), ("", "keys")), "Show all keys of this page"),
    ),
    "problems": (
        Key("d", "d", "dance", (("asking", "dance it all the same"),), "Dance what could be read of the sheet"),
        Key("n", "n/b", "finding(1)", (("problems", "findings"),), "Go to the next finding"),
        Key("b", "b", "finding(-1)", (), "Go to the finding before"),
        Key("e", "e", "edit", (("", "edit"),), "Edit the text from this line on"),
        Key("o", "o", "own_editor", (("editor", "own editor"),), "Edit it in your own editor ($VISUAL or $EDITOR)"),
        Key("r", "r", "again", (("", "read again"),), "Read the sheet again, after it was changed elsewhere"),
        Key("up,down,pageup,pagedown", "Up/Down", "", (("", "scroll"),), "Scroll through the sheet"),
        Key("q,escape", "q", "leave", (("", "back"),), "Go back"),
        _HELP,
    ),
    "editing": (
        Key("ctrl+s,f2", "Ctrl+S", "keep", (("", "write it and read it again"),), "Write the text; so does F2"),
        Key("escape", "Esc", "leave", (("", "back"),), "Go back; changes are not lost without a question"),
        Key("f1", "F1", "app.help", (("", "keys"),), "Show all keys of this page"),
    ),
    "sound": (
        Key("up", "Up/Down", "choose(-1)", (("", "choose"),), "Choose the line above"),
        Key("down", "Down", "choose(1)", (), "Choose the line below"),
        Key("left", "Left/Right", "change(-1)", (("", "change"),), "Softer, shorter, or the output before"),
        Key("right", "Right", "change(1)", (), "Louder, longer, or the next output"),
        Key(
            "space,enter",
            "Space",
            "listen",
            (("listening", "stop"), ("", "listen")),
            "Listen to eight counts in which every click sounds",
        ),
        Key("t", "t", "tap", (("open", "tap along"),), "Tap along, to find how long the screen must wait"),
        Key("q,escape", "q", "leave", (("", "back"),), "Go back"),
        _HELP,
    ),
    "tapping": (
        Key("space", "Space", "tap", (("done", ""), ("", "tap")), "Tap along"),
        Key("enter", "Enter", "keep", (("done", "let it wait so long"),), "Take what was found for this output"),
        Key("r", "r", "again", (("", "begin again"),), "Begin again"),
        Key("q,escape", "q", "leave", (("", "back"),), "Go back and leave everything as it was"),
        _HELP,
    ),
    "settings": (
        Key("up", "Up/Down", "choose(-1)", (("", "choose"),), "Choose the setting above"),
        Key("down", "Down", "choose(1)", (), "Choose the setting below"),
        Key("left", "Left/Right", "change(-1)", (("", "change"),), "Take the value before, or a smaller one"),
        Key("right,enter,space", "Right", "change(1)", (), "Take the next value, or a larger one"),
        Key("pagedown", "Page Down/Up", "change(-10)", (("", "ten steps"),), "Make a size smaller by ten steps"),
        Key("pageup", "Page Up", "change(10)", (), "Make a size larger by ten steps"),
        Key("q,escape", "q", "leave", (("", "back"),), "Go back"),
        _HELP,
    ),
}


def bindings(page: Page) -> list[Binding]:
    """Return the bindings of a page for its Textual screen."""
    return [Binding(key.key, key.action, key.help, show=False) for key in PAGES[page] if key.action]


def footer(page: Page, states: Collection[str], words: Mapping[str, str] | None = None) -> tuple[tuple[str, str], ...]:
    """Return the keys that do something now, each with what it does, in the order of their worth.

    `words` says it more exactly, by the names that Textual has for the keys.
    """
    exact = words or {}
    return tuple((key.shown, exact.get(key.key, key.does(states))) for key in PAGES[page] if key.does(states))


def clicks(page: Page, shown: str) -> tuple[tuple[str, str], ...]:
    """Return a key of the footer as the parts that can be clicked, each with its action, empty for none.

    The second of two keys that are shown as one follows it in the registry, without words of its own.
    """
    keys = PAGES[page]
    place = next(place for place, key in enumerate(keys) if key.shown == shown)
    first, stroke, second = shown.partition("/")
    if stroke and place + 1 < len(keys) and not keys[place + 1].says:
        return (first, keys[place].action), (stroke + second, keys[place + 1].action)
    return ((shown, keys[place].action),)


def help_lines(page: Page) -> tuple[tuple[str, str], ...]:
    """Return every key of a page by its own name with its sentence."""
    own = {
        "left": "Left",
        "pagedown": "Page Down",
        "up": "Up",
        "b": "b",
        "n": "n",
        "shift+left": "Shift+Left",
        "ctrl+left": "Ctrl+Left",
    }
    return tuple((own.get(key.key, key.shown), key.help) for key in PAGES[page])
