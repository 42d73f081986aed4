"""The weight after each draft: as a note states it, else as the table of moves has it.

A move that changes nothing keeps the weight that was there. Where that is not known, at the start of an extra or
after a step that could not be read, it is the one from which the next step that tells it could be danced.
"""

from collections.abc import Sequence

from trainer.dance.figures import foot_weight, moves, weight_after
from trainer.routine import Event, FigureMark
from trainer.sheet.drafts import Draft
from trainer.terms import Move, Weight


def weigh(drafts: Sequence[Draft], before: Weight | None, fallback: Weight) -> list[tuple[Weight, Weight | None]]:
    """Return the weights before and after each draft; after an unread one it is None.

    `before` is the weight before the first, None where the block does not know it; `fallback` is taken where nothing
    tells it.
    """
    weights: list[tuple[Weight, Weight | None]] = []
    for index, draft in enumerate(drafts):
        standing = before or _told(drafts[index:]) or fallback
        before = None
        if draft.foot is not None and draft.move is not None:
            before = draft.weight or weight_after(draft.move, draft.foot, standing)
        weights.append((standing, before))
    return weights


def _told(drafts: Sequence[Draft]) -> Weight | None:
    """Return the weight before some drafts as the first of them that tells it has it."""
    for draft in drafts:
        if draft.foot is None or draft.move is None:
            return None
        rule, acting = moves()[draft.move].weight, foot_weight(draft.foot)
        if rule in ("still", "open") and draft.weight and (rule == "still" or not acting):
            return draft.weight
        if rule == "same" and acting in ("R", "L"):
            return acting
        if rule in ("takes", "none") or (rule == "open" and moves()[draft.move].ends == "foot"):
            other = weight_after(Move.TOUCH, draft.foot, None)
            if other is not None:
                return other
        elif rule == "both":
            return None
    return None


def event_of(draft: Draft, weights: tuple[Weight, Weight | None], figure: FigureMark | None) -> Event:
    """Return the event of a draft with the weights before and after it."""
    before, weight = weights
    event = Event(
        span=draft.span,
        label=draft.slot.label,
        beat=draft.slot.beat,
        foot=draft.foot,
        weight=weight,
        turn=draft.turn,
        then=draft.then,
        move=draft.move,
        direction=draft.direction,
        also=draft.also,
        figure=figure,
        asides=draft.asides,
        words=draft.words or "",
        styling=draft.styling,
        facing=draft.facing,
        status=draft.status,
    )
    if draft.other is None:
        return event
    return event.but(other=_other(event, draft.other, before))


def _other(event: Event, draft: Draft, before: Weight) -> Event:
    """Return the other reading of an unsure event: it shares count, words, styling, facing and figure."""
    unread = draft.foot is None or draft.move is None
    weight = None
    if draft.foot is not None and draft.move is not None:
        weight = draft.weight or weight_after(draft.move, draft.foot, before)
    return event.but(
        foot=draft.foot,
        weight=weight,
        turn=draft.turn,
        then=draft.then,
        move=draft.move,
        direction=draft.direction,
        also=draft.also,
        asides=draft.asides,
        words=draft.words if draft.words is not None else event.words,
        status="unread" if unread else "sure",
    )
