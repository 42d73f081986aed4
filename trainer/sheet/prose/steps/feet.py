"""Which feet are named, and as what: the acting one, one only named for reference, or a side to go to.

"Cross right over left": right acts, left is a reference. "Touch left to left side": the second left is a side. Feet
in a row ("R-L-R", "right, left, right") become one run.
"""

from collections.abc import Sequence
from typing import NamedTuple

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.sheet.prose.steps.parts import with_parts
from trainer.terms import Direction, Foot, Move


class Reference(NamedTuple):
    """A foot named only to say where: "behind left"."""

    way: Direction
    foot: Foot
    sure: bool
    """Named as a foot, or with the article: "behind the left", so that it cannot be the acting one."""


_DIAGONALS = {
    ("forward", Foot.RIGHT): Direction.FORWARD_RIGHT,
    ("forward", Foot.LEFT): Direction.FORWARD_LEFT,
    ("back", Foot.RIGHT): Direction.BACK_RIGHT,
    ("back", Foot.LEFT): Direction.BACK_LEFT,
}
_ARTICLES = {"the", "your", "my", "a", "of", "and", "over", "own", "out", "towards", "then"}


def with_feet(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with feet, references, sides, diagonals and runs told apart."""
    return _runs(_diagonals(_named(with_parts(lexes))))


def _named(lexes: Sequence[Lex]) -> list[Lex]:
    """Make references of "over left", sides of "to the right", acting feet of "on the left"."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        lex = lexes[at]
        role = lex.value if lex.kind == "task" else lex.kind
        if lex.kind in ("side", "foot") and at + 1 < len(lexes) and lexes[at + 1].low == "first":
            # "Sway four times, right first".
            done.append(Lex("task", ("start", lex.value), "start", lex.span))
            at += 2
            continue
        if role == "start" and at + 1 < len(lexes) and is_task(lexes[at + 1], "to"):
            # "Starting to the right".
            at += 1
        if role in ("prep", "to", "on", "with", "start"):
            foot, after = _foot_after(lexes, at)
            if foot is not None:
                done.extend(_related(lex, role, foot, lexes, at, after))
                at = after + (role == "start" and _ends_with_part(lexes, after))
                continue
            if lex.low == "before":
                lex = lex._replace(kind="task", value="then")
            elif role == "prep":
                # "By stepping back".
                lex = lex._replace(kind="glue" if lex.low == "by" else "way")
            elif role in ("to", "on", "start"):
                lex = lex._replace(kind="glue")
        done.append(lex)
        at += 1
    return done


def _ends_with_part(lexes: Sequence[Lex], at: int) -> bool:
    """Whether a part of the foot is the last word of its clause: "starting with the right heel"."""
    part = at < len(lexes) and lexes[at].kind == "part"
    return part and (at + 1 == len(lexes) or lexes[at + 1].kind in ("break", "close"))


def _foot_after(lexes: Sequence[Lex], at: int) -> tuple[Lex | None, int]:
    """Return the side or foot that follows, articles aside, and the index after it."""
    look = at + 1
    while (
        look < len(lexes)
        and (lexes[look].low in _ARTICLES or lexes[look].low in ("ball of foot", "balls"))
        and look - at < 4
    ):
        if lexes[look].kind == "task" and lexes[look].value in ("and", "then"):
            return None, at
        look += 1
    if look < len(lexes) and lexes[look].kind in ("side", "foot"):
        return lexes[look], look + 1
    return None, at


def _related(lex: Lex, role: str, foot: Lex, lexes: Sequence[Lex], at: int, after: int) -> list[Lex]:
    sure = foot.kind == "foot" or after - at > 2
    following = lexes[after] if after < len(lexes) else None
    sideways = following is not None and following.kind == "way" and following.value == Direction.SIDE
    diagonal = following is not None and following.kind == "way" and following.value == "diagonal"
    if role == "prep" and not diagonal:
        return [Lex("ref", Reference(lex.value, foot.value, sure), lex.low, lex.span)]
    if role == "to" and foot.kind == "foot" and not sideways:
        return [Lex("ref", Reference(Direction.TOGETHER, foot.value, True), lex.low, lex.span)]
    if role == "to" or (diagonal and role in ("on", "prep")):
        return [Lex("to", foot.value, lex.low, lex.span)]
    leads = role in ("on", "with") and (not at or lexes[at - 1].kind == "break") and _comma(following)
    leads = leads and after + 1 < len(lexes)
    if role == "start" or (leads and not _foot_at(lexes, after + 1)):
        # "With the left, rock behind the right".
        return [Lex("task", ("start", foot.value), "start", lex.span)]
    # The first of a row stays what the others are: "with right, left, right".
    row = _foot_at(lexes, after) or (_comma(following) and _foot_at(lexes, after + 1))
    acting = foot if row else foot._replace(kind="foot")
    return [lex, acting] if role == "with" else [acting]


def _comma(lex: Lex | None) -> bool:
    return lex is not None and lex.kind == "break" and lex.value == ","


def _foot_at(lexes: Sequence[Lex], at: int) -> bool:
    return at < len(lexes) and lexes[at].kind in ("side", "foot", "run")


def _diagonals(lexes: Sequence[Lex]) -> list[Lex]:
    """Join the words of a diagonal: "diagonally forward right", "to the left diagonal", "fwd R diag"."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        if not _is_diagonal(lexes[at]):
            done.append(lexes[at])
            at += 1
            continue
        lead, span = "", lexes[at].span
        side: Foot | None = None
        if done and done[-1].kind == "to":
            side = done.pop().value
        if done and done[-1].kind == "way" and done[-1].value in ("forward", "back"):
            lead = str(done.pop().value)
        elif (
            len(done) > 1
            and done[-1].kind == "side"
            and done[-2].kind == "way"
            and done[-2].value in ("forward", "back")
        ):
            side, lead = done.pop().value, str(done.pop().value)
        at += 1
        if at < len(lexes) and lexes[at].kind == "way" and lexes[at].value in ("forward", "back"):
            lead = lead or str(lexes[at].value)
            at += 1
        if at < len(lexes) and lexes[at].kind in ("side", "to") and side is None:
            side = lexes[at].value
            at += 1
        way: Direction | str = (
            _DIAGONALS[lead or "forward", side] if side in (Foot.RIGHT, Foot.LEFT) else f"diagonal {lead}"
        )
        done.append(Lex("way", way, "diagonal", span))
    return done


def _is_diagonal(lex: Lex) -> bool:
    return lex.kind == "way" and lex.value == "diagonal"


def diagonal_of(way: str, foot: Foot | None) -> Direction:
    """Return the diagonal of a way whose side is not said: the acting foot's own."""
    lead = way.removeprefix("diagonal").strip() or "forward"
    if foot not in (Foot.RIGHT, Foot.LEFT):
        return Direction(lead)
    return _DIAGONALS[lead, foot]


def _runs(lexes: Sequence[Lex]) -> list[Lex]:
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        feet, end, parted = _run_at(lexes, at)
        if len(feet) > 1 and not _parts_ways(lexes, at, end, parted):
            done.append(Lex("run", tuple(feet), "feet", lexes[at].span))
            at = end
            continue
        done.append(lexes[at])
        at += 1
    return done


def _run_at(lexes: Sequence[Lex], at: int) -> tuple[list[Foot], int, bool]:
    """Return the feet in a row from `at` on, the index after them, and whether punctuation parts them."""
    if lexes[at].kind not in ("side", "foot", "run"):
        return [], at, False
    kind = lexes[at].kind
    feet: list[Foot] = [*lexes[at].value] if kind == "run" else [lexes[at].value]
    end, parted, commas = at + 1, kind == "run", False
    while end < len(lexes):
        look = end
        comma = False
        while look < len(lexes) and _joins(lexes[look]) and look - end < 2:
            comma, look = True, look + 1
        if (
            look >= len(lexes)
            or lexes[look].kind not in (kind, "run")
            or (lexes[look].kind == "run" and kind != "run" and not comma)
        ):
            break
        if comma and lexes[look - 1].value == "-" and _is_letter(lexes[look]) != _is_letter(lexes[at]):
            # "Paddle turn left - R forward": the dash ends a name.
            break
        if lexes[look].value == feet[-1] and (not comma or len(feet) == 1):
            break
        if comma and len(feet) > 1 and not commas and _acts(lexes, look + 1):
            # "Lock step forward R L R, L locking behind": the comma ends the row.
            break
        feet += [*lexes[look].value] if lexes[look].kind == "run" else [lexes[look].value]
        end, parted, commas = look + 1, parted or comma, commas or comma
    return feet, end, parted


def _is_letter(lex: Lex) -> bool:
    return len(lex.low) <= _SHORT


_SHORT = 2
"""Letters of a foot that is not spelled out: "R", "LF"."""


def _acts(lexes: Sequence[Lex], at: int) -> bool:
    """Whether what a foot does follows it."""
    return at < len(lexes) and lexes[at].kind in ("move", "way", "ref", "part", "to", "figure")


def _joins(lex: Lex) -> bool:
    return (lex.kind == "break" and lex.value in (",", "/", "-", "+", ";")) or (
        lex.kind == "task" and lex.value in ("and", "then")
    )


_ALTERNATING = {Move.WALK, Move.RUN, Move.SKATE, Move.SWAY, Move.STOMP, Move.BUMP, Move.SWIVEL}
"""Moves of both feet in turn, whose way stands after the feet: "walk right, left forward"."""

_OF_ONE_FOOT = {Direction.TOGETHER, Direction.IN_PLACE, Direction.CROSS, Direction.BEHIND}


def _parts_ways(lexes: Sequence[Lex], at: int, end: int, parted: bool) -> bool:
    """Whether the row is none: "side right, left together" are two steps, each with its way."""
    if not parted or end >= len(lexes):
        return False
    after = lexes[end]
    if after.kind not in ("way", "move", "ref", "figure", "part", "to"):
        return False
    if after.kind == "move" and after.ing:
        return False
    if after.kind == "way" and after.value in _OF_ONE_FOOT:
        return True
    before = lexes[at - 1] if at else None
    goes_on = before is not None and (
        before.kind == "figure" or (before.kind == "move" and before.value in _ALTERNATING)
    )
    return not goes_on or after.kind in ("ref", "part", "move", "figure")
