"""A figure that is named first and spelled out then: its events get the name, and the turn that they leave unsaid."""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.dance.figures import moves as move_rows
from trainer.sheet.prose.steps.path import Path
from trainer.sheet.prose.steps.roles import NO_TURN, UNREAD, Named, shared, with_shares
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Move

LEFT_OUT = 1.5
"""A figure is named, but neither danced nor spelled out."""


def spelled(path: Path, *, ends: bool = False) -> Path:
    """Return a path with its figure spelled out: its events bear the name, and a turn not danced yet lies on them.

    `ends`: the item ends here, so that the rest of the figure may be spelled out in the items after it.
    """
    named = path.named
    if named is None:
        return path
    drafts = list(path.drafts[path.named_from :])
    whole = path._replace(named=None)
    if not drafts:
        left_out = LEFT_OUT if named.loose else 0.0
        return whole._replace(preference=path.preference + 0.6, breaches=path.breaches + left_out)
    counts = named.counts or len(drafts)
    own = drafts[:counts]
    if form := _form_spelled(drafts, named):
        # "Paddle ¼ left: right forward, turn onto left": the form of two steps, not a push.
        counts, own = len(form), drafts[: len(form)]
        named = named._replace(counts=counts, shares=_shares(form))
    elif short := _short_form(drafts, named):
        # "Vine left with a quarter on the third step: side, behind, quarter forward": the vine of three.
        counts = len(short)
        named = named._replace(counts=counts, shares=_shares(short))
    cost = 0.0 if counts <= len(drafts) else 0.3
    danced = sum(draft is not None and draft.moves[0] is not Move.HOLD for draft in own)
    others = any(draft is not None and draft.figure for draft in own)
    if named.loose and (others or danced < counts - 1 or counts > len(drafts)) and not (ends and _opens(own, named)):
        # Another figure, or too few steps: what was named is not danced.
        whole = whole._replace(breaches=path.breaches + LEFT_OUT)
    turned = any(draft is not None and draft.turns != NO_TURN for draft in own)
    if any(named.turns) and not turned and counts <= len(drafts):
        own, extra = _laid(own, named)
        cost += extra
    else:
        own = [_sized(draft, named, own) for draft in own]
    told = [_named(draft, named, index) for index, draft in enumerate(_as_named(own, named))]
    kept = (*path.drafts[: path.named_from], *told, *drafts[counts:])
    return whole._replace(drafts=kept, preference=path.preference + cost)


def _form_spelled(drafts: Sequence[Draft | None], named: Named) -> tuple[Draft | None, ...]:
    """Return the form of a turning figure that some events spell out, where it is longer than its first; or nothing."""
    for form in named.forms if any(named.turns) else ():
        longer = named.counts < len(form) <= len(drafts) and _shares(form)
        if longer and all(_alike(draft, usual) for draft, usual in zip(drafts, form, strict=False)):
            return form
    return ()


def _short_form(drafts: Sequence[Draft | None], named: Named) -> tuple[Draft | None, ...]:
    """Return the form that all events spell out, where they are fewer than those of the usual one; or nothing."""
    for form in named.forms if named.counts > len(drafts) > 1 else ():
        if len(form) == len(drafts) and all(_alike(draft, usual) for draft, usual in zip(drafts, form, strict=True)):
            return form
    return ()


def _shares(form: Sequence[Draft | None]) -> tuple[Fraction, ...]:
    turns = [draft.turns[0] if draft is not None else Fraction(0) for draft in form]
    whole = sum(turns)
    return tuple(turn / whole for turn in turns) if whole else ()


_SIDEWAYS = {Direction.SIDE, Direction.RIGHT, Direction.LEFT}


def _opens(drafts: Sequence[Draft | None], named: Named) -> bool:
    """Whether some events are the first ones of a figure: "vine right, so right to the side on 1, left behind on 2"."""
    return any(
        0 < len(drafts) < len(form) and all(_alike(draft, usual) for draft, usual in zip(drafts, form, strict=False))
        for form in named.forms
    )


def _alike(draft: Draft | None, usual: Draft | None) -> bool:
    if draft is None or usual is None or draft.figure:
        return False
    feet = {draft.foot, usual.foot} - {None}
    ways = {draft.direction, usual.direction} - {None}
    kinds = {move_rows()[one.moves[0]].weight for one in (draft, usual)}
    return len(feet) < 2 and (len(ways) < 2 or ways <= _SIDEWAYS) and len(kinds) == 1


def _as_named(drafts: list[Draft | None], named: Named) -> list[Draft | None]:
    """Return bare steps that the named figure has as gestures, as both: "Monterey: R out, R in, L out, L in"."""
    form = next((form for form in named.forms if len(form) == len(drafts)), ())
    feet = [(draft.foot, usual.foot) for draft, usual in zip(drafts, form, strict=False) if draft and usual]
    if len(feet) < max(len(drafts), 1) or any(None not in pair and pair[0] is not pair[1] for pair in feet):
        return drafts
    pairs = [(draft, usual) for draft, usual in zip(drafts, form, strict=True) if draft and usual]
    gestures = [draft.moves == (Move.STEP,) and move_rows()[usual.moves[0]].weight == "none" for draft, usual in pairs]
    if not any(gestures):
        return drafts

    def kinds(gesture: Move) -> tuple[Move, ...]:
        return (Move.STEP, gesture) if named.loose else (gesture, Move.STEP)

    return [
        replace(draft, foot=draft.foot or usual.foot, moves=kinds(usual.moves[0]) if gesture else draft.moves)
        for (draft, usual), gesture in zip(pairs, gestures, strict=True)
    ]


def _named(draft: Draft | None, named: Named, index: int) -> Draft | None:
    if draft is None:
        return None
    if not draft.figure and named.name:
        draft = replace(draft, figure=named.name, figure_start=index == 0)
    if index == 0 and draft.foot is None and named.start is not None:
        draft = replace(draft, foot=named.start)
    return draft


def _laid(drafts: list[Draft | None], named: Named) -> tuple[list[Draft | None], float]:
    """Lay the turn of a figure on its events where the table puts it."""
    sound = [draft for draft in drafts if draft is not None]
    if len(sound) != len(drafts):
        return drafts, 0.0
    if len(named.shares) == len(sound):
        return list(with_shares(sound, named.turns, named.shares)), 0.05
    return list(shared(sound, named.turns)), 0.1


def _sized(draft: Draft | None, named: Named, own: Sequence[Draft | None]) -> Draft | None:
    """Give the figure's amount of turn to the one event that says only that it turns: "turn as left goes behind"."""
    turning = [one for one in own if one is not None and one.turns != NO_TURN]
    if (
        draft is not None
        and turning == [draft]
        and len(named.turns) == 1
        and len(draft.turns) == 2
        and named.turns[0] in draft.turns
    ):
        # "A quarter left on the third step: side, behind, quarter forward".
        return replace(draft, turns=named.turns)
    if draft is None or len(turning) != 1 or turning[0] is not draft or len(draft.turns) < 3 or not any(named.turns):
        return draft
    return replace(draft, turns=named.turns)


def closed(path: Path) -> Path:
    """Return a path at its item's end.

    Passing over words that no table knows is a fault where a count is filled by something only implied.
    """
    done = spelled(path, ends=True)
    if done.chatter and done.implied:
        done = done._replace(breaches=done.breaches + UNREAD, unread=(*done.unread, *done.chatter))
    return done
