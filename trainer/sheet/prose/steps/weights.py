"""Notes of weight: "(weight on L)", "keeping the weight on the right", "left takes weight", "no weight"."""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from trainer.sheet.prose.steps.lex import Lex, is_task
from trainer.terms import Foot

Note = Literal["R", "L", "B", "acting", "each", "none"]
"""The foot that carries; acting: the one that acts does; each: of two steps both do, in turn; none: it does not."""


class Weighted(NamedTuple):
    """A note of weight."""

    foot: Note
    moved: bool
    """The words move the weight ("transfer weight to left"): it may be an event of its own."""
    opens: bool = False
    """They open an item, where no step before them could have it."""
    stays: bool = False
    """It stays there all the time: what the hips do before does not move it."""


_BEFORE_WEIGHT = {"take", "finish", "no", "with", "on", "then", "and"}


def with_weights(lexes: Sequence[Lex]) -> list[Lex]:
    """Return the lexemes with every note of weight as one lexeme."""
    done: list[Lex] = []
    at = 0
    while at < len(lexes):
        if not is_task(lexes[at], "weight"):
            done.append(lexes[at])
            at += 1
            continue
        first = len(done)
        while first and (_leads(done[first - 1])):
            first -= 1
        head, at = done[first:], at + 1
        note, at = _told(lexes, at, head, done[first - 1] if first else None)
        if note is not None and _each_time(note, lexes, at):
            del done[first:]
            at += at < len(lexes) and lexes[at].kind == "move"
            continue
        if note is None:
            continue
        if note.foot == "none" and (idle := _drawn_in(done[:first])) is not None:
            note = note._replace(foot=_OTHER[idle])
        if note.foot == "acting" and (named := _names_steps_told(done, first)) < first:
            del done[named:]
            continue
        place = head[0] if head and not is_task(head[0], "and", "then") else lexes[at - 1]
        del done[first:]
        if head and is_task(head[0], "and", "then"):
            done.append(head[0])
        done.append(Lex("weighted", note, "weight", place.span))
    return done


def _drawn_in(done: Sequence[Lex]) -> Foot | None:
    """Return the foot that the words just before move beside a step: "step left, drawing R in without weight"."""
    start = max((at for at, lex in enumerate(done) if lex.kind in ("break", "open")), default=-1) + 1
    clause = done[start:]
    feet = [lex.value for lex in clause if lex.kind in ("side", "foot")]
    beside = bool(start) and bool(clause) and clause[0].kind == "move" and clause[0].ing
    return feet[0] if beside and len(feet) == 1 and feet[0] in (Foot.RIGHT, Foot.LEFT) else None


def _told(lexes: Sequence[Lex], start: int, head: Sequence[Lex], before: Lex | None) -> tuple[Weighted | None, int]:
    """Return what the words from a place on, after "weight", say of it, and the index after them."""
    foot, at = _carrier(lexes, start)
    goes = any(lex.kind in ("way", "prep") or lex.low in _TOWARDS for lex in lexes[start : at - 1])
    note = _note(head, foot, before, goes=goes)
    if note is not None:
        stays = _stays(lexes, head, start, at)
        return note._replace(stays=stays), at + (stays and at < len(lexes) and lexes[at].low in _ALWAYS)
    if (end := _on_it(lexes, at)) > at and not any(is_task(lex, "no") for lex in head):
        return Weighted("acting", moved=False), end
    if (end := _all_of_it(lexes, at)) > at:
        return Weighted("acting", moved=False), end
    if len(lexes) > start + 1 and is_task(lexes[start], "on") and is_task(lexes[start + 1], "each"):
        return Weighted("each", moved=False), start + 2
    if start < len(lexes) and is_task(lexes[start], "each"):
        # "On each of them" is one phrase.
        return Weighted("each", moved=False), start + 1
    if not head and _alone(lexes, start - 1):
        return Weighted("acting", moved=False), at
    return None, at


_KEEPING = {
    "keep", "keeps", "keeping", "kept", "stay", "stays", "staying", "remain", "remains", "remaining", "leave",
    "leaving",
}  # fmt: skip
_ALWAYS = {"throughout", "all the time", "the whole time", "all along", "always", "all through"}


def _stays(lexes: Sequence[Lex], head: Sequence[Lex], start: int, end: int) -> bool:
    """Whether words about a foot with weight say that it keeps it: "weight stays on left", "weight left throughout"."""
    about = (*head, *lexes[start:end])
    return any(lex.low in _KEEPING for lex in about) or (end < len(lexes) and lexes[end].low in _ALWAYS)


def _alone(lexes: Sequence[Lex], at: int) -> bool:
    """Whether "weight" is all that a bracket says: "slide left up to it (weight)"."""
    return 0 < at < len(lexes) - 1 and lexes[at - 1].kind == "open" and lexes[at + 1].kind == "close"


def _each_time(note: Weighted, lexes: Sequence[Lex], at: int) -> bool:
    """Whether two steps take the weight in turn, as they do anyway: "weight on both stomps"."""
    if note.foot != "B":
        return False
    steps = at < len(lexes) and lexes[at].kind == "move"
    look = at
    while look < len(lexes) and (lexes[look].kind in ("glue", "style", "part") or lexes[look].value in (",", "of")):
        look += 1
    steps = steps or (look < len(lexes) and is_task(lexes[look], "each"))
    return steps or (note.moved and lexes[at - 1].low == "both")


def _names_steps_told(done: Sequence[Lex], end: int) -> int:
    """Return where words begin that name steps told before, `end` where none do: "stomp L, stomp R, stomps take wt".

    Such steps take the weight in turn, as they do anyway.
    """
    move = done[end - 1] if end else None
    if move is None or move.kind != "move" or move.span.length != len(move.low) + 1:
        # A lexeme is written in the singular.
        return end
    told = [lex for lex in done[: end - 1] if lex.kind == "move" and lex.low == move.low]
    first = end - 1
    while first and (done[first - 1].kind in ("glue", "number") or is_task(done[first - 1], "both", "each", "and")):
        first -= 1
    apart = not first or done[first - 1].kind in ("break", "open")
    return first if told and apart else end


_PUTTING = {"put", "change"}
"""Verbs of steps that move the weight where it follows."""


def _leads(lex: Lex) -> bool:
    """Whether a word before "weight" belongs to it."""
    return (
        lex.kind in ("glue", "style") or is_task(lex, *_BEFORE_WEIGHT) or (lex.kind == "move" and lex.low in _PUTTING)
    )


def _carrier(lexes: Sequence[Lex], at: int) -> tuple[Foot | None, int]:
    """Return the foot that follows "weight" and the index after it."""
    look = at
    while look < len(lexes) and look - at < 6:
        lex = lexes[look]
        if lex.kind in ("side", "foot"):
            after = look + 1
            if after < len(lexes) and lexes[after].kind == "part":
                after += 1
            return lex.value, after
        if is_task(lex, "both") or lex.low in ("even", "evenly", "centered", "centred"):
            after = look + 1
            if after < len(lexes) and lexes[after].kind == "part":
                after += 1
            return Foot.BOTH, after
        filler = (
            lex.kind in ("glue", "style", "way")
            or is_task(lex, "on", "to", "take", "finish", "each", "last")
            or lex.low in (":", "=", "-", "stay", "rest", "now", "then")
        )
        if not filler and lex.kind != "prep":
            break
        look += 1
    return None, at


def _on_it(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after "on it" that follows weight, or `at` where other words do: "stomp right, weight on it"."""
    if lexes[at - 1].low in ("stand on", "standing on") and at < len(lexes) and lexes[at].low in ("it", "that"):
        return at + 1
    words = [lex.low for lex in lexes[at : at + 2]]
    ends = at + 2 >= len(lexes) or lexes[at + 2].kind in ("break", "close") or is_task(lexes[at + 2], "and", "then")
    return (
        at + 2 if len(words) == 2 and words[0] in ("on", "onto", "to") and words[1] in ("it", "that") and ends else at
    )


_GOES = {"going", "goes", "moving", "moves", "travelling", "travels", "follows", "following", "shifting", "passing"}


def _all_of_it(lexes: Sequence[Lex], at: int) -> int:
    """Return the index after "the weight going over each time", or `at` where the words say no such thing."""
    end = at
    while end < len(lexes) and lexes[end].kind not in _OF_FEET and not is_task(lexes[end], "and", "then", "no"):
        end += 1
    return end if at < end and lexes[at].low in _GOES else at


_OF_FEET = {"break", "open", "close", "side", "foot", "run", "move", "figure", "facing", "turn", "amount"}


_TOWARDS = {"to", "onto", "over", "back", "forward", "fwd"}
"""Words that say that the weight goes to a foot: "weight back on LF"."""


_OTHER: dict[Foot, Note] = {Foot.RIGHT: "L", Foot.LEFT: "R"}


def _note(head: Sequence[Lex], foot: Foot | None, before: Lex | None, *, goes: bool) -> Weighted | None:
    negated = any(is_task(lex, "no") for lex in head)
    moved = goes or any(is_task(lex, "take") or lex.low in _PUTTING for lex in head)
    moved = moved and (foot is not None or not goes)
    if foot is None and moved and before is not None and before.kind in ("side", "foot") and not negated:
        return Weighted("acting", moved=False)
    if foot is None:
        if negated:
            return Weighted("none", moved=False)
        borne = bool(head) and is_task(head[0], "with") and head[-1].low != "no"
        return Weighted("acting", moved=False) if moved or borne else None
    if negated:
        # "Step L forward, R hooked, no weight on R": the other foot has it, whichever of them stepped.
        return Weighted(_OTHER.get(foot, "none"), moved=False)
    return Weighted("R" if foot is Foot.RIGHT else "L" if foot is Foot.LEFT else "B", moved)
