"""What the floor says in plain text besides its views: the quiet line, the footer of the two buttons, the tempo."""

from collections.abc import Iterable
from fractions import Fraction

from trainer.dance.facing import clock
from trainer.practice.floor import DepartureView, FloorView
from trainer.practice.saying import mend_words, when_words
from trainer.routine import Routine
from trainer.screens.rehearsal import Rehearsal

SEPARATOR = "   "


def quiet_line(view: FloorView, columns: int, *, told: Iterable[str], tempo: str, tempo_first: bool) -> str:
    """Return the one quiet line: what to mend, the place, what else is to be told, departure and tempo.

    It begins with a blank and is never cut: what does not fit is said in fewer words, or left out.
    """
    mend = mend_words(view.mend) if view.mend else ""
    line = _added("", columns, *(words for words in (mend, view.place, *told) if words))
    last = [departure_said(view.departure), (tempo,)]
    for forms in reversed(last) if tempo_first else last:
        longer = (_added(line, columns, words) for words in forms if words)
        line = next((one for one in longer if one != line), line)
    return line


def _added(line: str, columns: int, *words: str) -> str:
    for more in words:
        longer = f"{line}{SEPARATOR if line else ' '}{more}"
        line = longer if len(longer) <= columns else line
    return line


def departure_said(departure: DepartureView | None) -> tuple[str, ...]:
    """Return a departure in words, the longest way first: each says the counts left, all but the last the facing."""
    if departure is None:
        return ()
    named = departure.kind if departure.kind == "END" else f"{departure.kind} {departure.name}".rstrip()
    when = when_words(departure.left)
    facing = clock(departure.facing)
    return (departure.line, f"{named} {when}, facing {facing}", f"{departure.kind} {when}, {facing}", f"{named} {when}")


def button_words(rehearsal: Rehearsal) -> dict[str, str]:
    """Return what the two buttons of a remote do now, by their keys in the registry; empty while dancing."""
    if rehearsal.session.dancing:
        return {}
    if rehearsal.walking:
        return {"pagedown": f"on to {rehearsal.after.short}"} if rehearsal.walked else {}
    return {
        "pagedown": f"{rehearsal.proposed.short} ({rehearsal.place + 1} of {len(rehearsal.items)})",
        "pageup": f"choose {rehearsal.before.short}",
    }


def tempo_words(tempo: Fraction, own: Fraction) -> str:
    """Return a tempo beside the routine's own: "84 of 96 a minute"; where it is that one, "96 a minute"."""
    if tempo == own:
        return f"{plain_number(own)} a minute"
    return f"{plain_number(tempo)} of {plain_number(own)} a minute"


def plain_number(number: Fraction) -> str:
    """Return a number with at most one decimal."""
    return f"{float(number):.1f}".removesuffix(".0")


def music_words(routine: Routine) -> str:
    """Return what a routine is danced to and how long to wait: "To Lantern Hill. Wait 16 counts, then dance."."""
    tune = f"To {routine.tune}. " if routine.tune else ""
    counted = f"{routine.wait} counts {routine.wait_from}".rstrip()
    return tune + (f"Wait {counted}, then dance." if routine.wait else "")
