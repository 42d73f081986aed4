"""A step that was looked up, as text for the screen: how it is danced here, and how the table of steps has it."""

from collections.abc import Iterator, Sequence

from textual.content import Content

from trainer.dance.facing import clock
from trainer.dance.naming import clause_name
from trainer.dance.timeline import Danced
from trainer.practice.lookup import Entry, FormRow, LookedUp

_QUIET, _NAME, _HEAD = "$secondary", "bold", "bold $warning"


def danced_words(steps: Sequence[Danced]) -> Content:
    """Return the events of a step as they are danced here, a line each: count, foot, what it does, weight, facing."""
    wide = max(len(clause_name(one.event)) for one in steps)
    lines = [Content.styled("as danced here", _HEAD)]
    for one in steps:
        weight = f"weight {one.weight}" if one.weight else "weight unread"
        lines.append(
            Content.assemble(
                (f"  {one.label:<2}", _QUIET),
                (f"{one.foot or '?':<3}", _NAME),
                f"{clause_name(one.event):<{wide}}   ",
                (f"{weight}   ", _QUIET),
                (clock(one.facing), "$primary"),
            )
        )
    return Content("\n").join(lines)


def looked_up_words(answer: LookedUp) -> Content:
    """Return what was found; where it was nothing, names like it."""
    if not answer.found:
        near = f" Did you mean {' or '.join(answer.near)}?" if answer.near else ""
        return Content(f"No step is called {answer.asked}.{near}")
    parts = [Content("\n").join(_entry(entry)) for entry in answer.found]
    if answer.also:
        parts.append(Content.styled(f"see also: {', '.join(answer.also)}", _QUIET))
    return Content("\n\n").join(parts)


def _entry(entry: Entry) -> Iterator[Content]:
    others = f", also called {', '.join(entry.others)}" if entry.others else ""
    yield Content.assemble((entry.name, _HEAD), (f"{others}: {entry.group}", _QUIET))
    if entry.turn:
        yield Content(f"turns {entry.turn} where the sheet does not say how far")
    if entry.weight:
        yield Content(f"weight: {entry.weight}")
    for form in entry.forms:
        yield from _form(form)
    yield from (Content(note) for note in entry.notes)
    yield Content.styled(f"source: {entry.source}", _QUIET)


def _form(form: FormRow) -> Iterator[Content]:
    when = f", {form.when}" if form.when else ""
    ways = f", going {' or '.join(form.ways)}" if form.ways else ""
    yield Content.styled(f"on {', '.join(form.counts)}{when}{ways}", _NAME)
    for step in form.steps:
        weight = f"weight {step.weight}" if step.weight else "weight as before"
        yield Content.assemble(
            (f"  {step.count:<2}", _QUIET),
            (f"{step.foot:<3}", _NAME),
            f"{step.step:<16} ",
            (f"{weight}{', or as the sheet says' if step.open else ''}   ", _QUIET),
            (step.turn, "$accent"),
        )
    if form.falls:
        yield Content.styled(f"  a turn falls {', or '.join(form.falls)}", _QUIET)
    if form.ambiguous:
        yield Content("  open: the name alone may mean another form on these counts")
