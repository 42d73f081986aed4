"""From a clause on its counts to drafts of events: all but the weights and the numbers of figures.

A figure clause becomes the steps that `expand` gives. What it adds falls on one of them: remarks in brackets on the
first, `+`, `then` and a stated weight on the last.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.facing import turn_text
from trainer.dance.figures import Step, expand, figures
from trainer.routine import Gesture, Span
from trainer.sheet.allot import Fit
from trainer.sheet.clauses import Clause
from trainer.sheet.countlines import CountLine, Said
from trainer.sheet.findings import Findings
from trainer.sheet.numbering import Slot
from trainer.terms import Direction, Foot, Move, Status, Weight


@dataclass(frozen=True, slots=True)
class Mark:
    """The figure that a draft is a step of; one figure has one `start` until figures that go on are joined."""

    name: str
    index: int
    start: Span
    """Where its name stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """An event without its weight, as far as the sheet does not state it, and without the number of its figure."""

    slot: Slot
    span: Span
    foot: Foot | None
    """None: unread."""
    move: Move | None
    direction: Direction | None = None
    turn: Fraction = Fraction(0)
    then: Fraction = Fraction(0)
    also: tuple[Gesture, ...] = ()
    asides: tuple[str, ...] = ()
    weight: Weight | None = None
    """As a note states it."""
    status: Status = "sure"
    other: "Draft | None" = None
    mark: Mark | None = None
    words: str | None = None
    """None: those of its line."""
    styling: str = ""
    facing: Fraction | None = None


def drafts_of(line: CountLine, slots: Sequence[Slot], fit: Fit, words: str, findings: Findings) -> list[Draft]:
    """Return the drafts of a count line, one for each slot.

    Where the line does not come out each clause takes one count; what is left over on either side is unread.
    """
    drafts: list[Draft] = []
    for index, said in enumerate(line.said):
        length = fit.lengths[index] if fit.lengths is not None else 1
        taken = slots[len(drafts) : len(drafts) + length]
        if taken:
            drafts += _drafts(said, taken, words, findings, alone=fit.lengths is None)
    drafts += [_empty(slot, line) for slot in slots[len(drafts) :]]
    over = line.said[len(drafts) :] if fit.lengths is None else ()
    if drafts and (over or line.surplus):
        texts = [said.clause.text for said in line.said[len(drafts) - 1 :]]
        drafts[-1] = replace(_empty(drafts[-1].slot, line), words=_joined(words, ", ".join(texts), line.surplus))
    drafts = [_with(draft, words, line.styling) for draft in drafts]
    if drafts:
        drafts[-1] = replace(drafts[-1], facing=line.facing)
    return drafts


def _with(draft: Draft, words: str, styling: str) -> Draft:
    return replace(draft, words=words if draft.words is None else draft.words, styling=styling)


def _drafts(said: Said, slots: Sequence[Slot], words: str, findings: Findings, *, alone: bool) -> list[Draft]:
    """Return the drafts of one clause on its slots; `alone` where the line did not come out, so that each has one."""
    clause, of = said.clause, said.of
    if clause.single is not None and len(slots) == 1:
        clause = clause.single
    if clause.figure is not None and of is None and not alone:
        return _figure(clause, slots, findings)
    mark = Mark(of.name, of.index, of.span) if of is not None else None
    return [replace(_single(clause, slot, words), mark=mark) for slot in slots]


def _single(clause: Clause, slot: Slot, words: str) -> Draft:
    """Return the draft of a clause of one step."""
    if clause.move is None:
        own = clause.words if clause.sheet_unread else _joined(words, clause.text)
        draft = Draft(
            slot=slot, span=clause.span, foot=None, move=None, status="unread", words=own, asides=clause.asides
        )
    else:
        draft = Draft(
            slot=slot,
            span=clause.span,
            foot=clause.foot,
            move=clause.move,
            direction=clause.direction,
            turn=clause.turn + clause.then,
            then=clause.then,
            also=clause.also,
            asides=clause.asides,
            weight=clause.weight,
        )
    if not clause.unsure:
        return draft
    other = _single(clause.other, slot, words) if clause.other is not None else None
    return replace(draft, status="unsure", other=other)


def _figure(clause: Clause, slots: Sequence[Slot], findings: Findings) -> list[Draft]:
    """Return the drafts of a clause that names a figure."""
    figure = clause.figure
    assert figure is not None
    steps = _steps(clause, slots, findings)
    drafts = [
        Draft(
            slot=slot,
            span=clause.span,
            foot=step.foot,
            move=step.move,
            direction=step.direction,
            turn=step.turn,
            then=step.then,
            mark=Mark(figure.name, index, clause.span),
        )
        for index, (slot, step) in enumerate(zip(slots, steps, strict=True))
    ]
    drafts[0] = replace(drafts[0], asides=clause.asides)
    last = drafts[-1]
    drafts[-1] = replace(
        last, also=clause.also, weight=clause.weight, turn=last.turn + clause.then, then=last.then + clause.then
    )
    return drafts


def _steps(clause: Clause, slots: Sequence[Slot], findings: Findings) -> tuple[Step, ...]:
    """Return the steps of a figure; a direction or turn that it cannot have, or should have, is a problem."""
    figure = clause.figure
    assert figure is not None
    labels = [slot.label for slot in slots]
    turn, usual = clause.turn, figure.usual_turn(clause.foot)
    if not turn and usual:
        said = turn_text(usual)
        findings.warn(
            "text",
            clause.span,
            f"How far? For the {figure.name} {said} is taken.",
            f"Write `{clause.text} turning {said}`.",
        )
        turn = usual
    for way, amount in ((clause.direction, turn), (clause.direction, Fraction(0)), (None, turn), (None, Fraction(0))):
        steps = expand(figure.name, clause.foot, labels, direction=way, turn=amount)
        if steps is None:
            continue
        if way != clause.direction:
            findings.error(
                "text", clause.span, f"The {figure.name} does not go {clause.direction}.", _ways(figure.name)
            )
        if amount != turn:
            message = f"The {figure.name} does not turn {turn_text(turn)} by itself."
            findings.error("text", clause.span, message, f"Spell it out: `{figure.name}: clause, clause`.")
        return steps
    raise AssertionError("a figure is only allotted counts that one of its forms fits")


def _ways(name: str) -> str:
    """Return a hint at the directions in which a figure goes."""
    ways = dict.fromkeys(way.value for form in figures()[name].forms for way in form.ways)
    return f"It goes {', '.join(ways)}." if ways else "Leave the direction out, or spell the figure out."


def _empty(slot: Slot, line: CountLine) -> Draft:
    """Return the draft of a count for which the line has no step."""
    return Draft(slot=slot, span=line.line.span(0, len(line.labels_text)), foot=None, move=None, status="unread")


def _joined(*words: str) -> str:
    return "\n".join(text for text in words if text)
