"""What a clause may be, of whatever kind it is; words beside the steps, and words that no table knows."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import lru_cache

from trainer.sheet.prose.steps.clauses import Clause
from trainer.sheet.prose.steps.figured import figure_roles
from trainer.sheet.prose.steps.roles import GARBLED, NO_TURN, UNREAD, UNREAD_MORE, Named, Role, Waiting
from trainer.sheet.prose.steps.stepped import step_roles
from trainer.sheet.prose.steps.turned import turn_roles
from trainer.sheet.prose.words import Draft
from trainer.terms import Direction, Foot, Move


@lru_cache(maxsize=4096)
def roles_of(clause: Clause, alone: bool) -> tuple[Role, ...]:
    """Return what a clause may be, without regard to the item's counts; `alone`: it is the item's only step."""
    still = all(lex.value is Move.HOLD for lex in clause.moves)
    bodily = clause.body and still and not (clause.feet or clause.run or clause.refs)
    if clause.kind == "figure":
        found = list(figure_roles(clause))
    elif clause.kind == "turn":
        found = list(turn_roles(clause))
    elif clause.kind == "step" and not _gibberish(clause) and not bodily:
        found = [*step_roles(clause), *_lock_steps(clause)]
    else:
        found = list(_word_roles(clause))
    found += (*_grinds(clause), *_comes_in(clause), *_stays_so(clause))
    both = clause.words.split()[:1] == ["both"]
    if (clause.equals or both) and clause.ways and not (clause.moves or clause.feet or clause.run):
        found = [Role("nothing")]
    if clause.aside and clause.kind != "words":
        found.append(Role("nothing", preference=0.02))
    if _closes_with_a_bow(clause):
        # "Step right forward and bow" without counts is one of them; where counts are told, they decide.
        found = [Role("nothing"), *(role._replace(preference=role.preference + _POSED) for role in found)]
    slip = 0.12 * clause.typos
    strange = min(0.08 * len(clause.unknown), 0.3)
    if _odd(clause):
        # What nobody can read may be any step: one that keeps to the laws is not made of it.
        found.append(Role("events", (None,), breaches=UNREAD))
    if _garbled(clause) or _odd(clause):
        found = [role._replace(breaches=role.breaches + (GARBLED if not role.breaches else 0.0)) for role in found]
    if slip or (strange and clause.kind != "words"):
        found = [role._replace(preference=role.preference + slip + strange) for role in found]
    if not alone:
        found = [role._replace(pad_most=0) if role.alone else role for role in found]
    return tuple(_likeliest(found))


def _closes_with_a_bow(clause: Clause) -> bool:
    """Whether a bow or pose goes with the step before it, or is a call: "stomp and pose", "stomp, ta-da"."""
    posed = clause.kind == "step" and not clause.feet and {lex.value for lex in clause.moves} == {Move.POSE}
    return posed and (clause.anded or clause.words.startswith("ta"))


def _grinds(clause: Clause) -> Iterator[Role]:
    """Yield that a heel grinds while the dancer turns on it: "fan the toes right as you turn ¼ and step back left"."""
    toes = clause.figure == "toe fan" or any(lex.value in ("toe", "heel") for lex in clause.moves if lex.kind == "part")
    swivels = clause.figure == "toe fan" or any(lex.value in (Move.TWIST, Move.SWIVEL) for lex in clause.moves)
    ground = any(lex.kind == "move" and lex.low.startswith("grind") for lex in clause.moves)
    if clause.turning is not None and clause.turning.amount is not None and ((toes and swivels) or ground):
        yield Role("next", preference=_GROUND, value=Waiting(clause.turning.turns, joined=True))
    elif ground:
        yield Role("nothing", preference=_GROUND)


_GROUND = 0.35
"""What it costs that what a heel does is no count of its own."""


def _comes_in(clause: Clause) -> Iterator[Role]:
    """Yield that a heel or toe comes in to stand on: "right heel out, right heel in, left heel out"."""
    parts = bool(clause.moves) and all(lex.kind == "part" and lex.value in ("heel", "toe") for lex in clause.moves)
    if parts and clause.way is Direction.IN and clause.feet and clause.turning is None:
        step = Draft((Move.STEP,), clause.feet[0], Direction.IN, span=clause.span)
        yield Role("events", (step,), preference=_GROUND)


_STAYS = re.compile(
    r"(?:and |then |just )*(?:hold|holding|keep|keeping|freeze) "
    r"(?:it|that|this|(?:the|your|that|this) (?:\w+ )?(?!counts?|beats?)\w+)\b"
)
_RESTS = re.compile(r"(?:(?:just|then|so) )?(?:freeze|wait|breathe|rest|stay(?: (?:there|so|here|put))?)")
"""Words for staying that may only close a step: "cross, point and freeze" on two counts."""
_RESTED = 0.25
"""What it costs that they have no count of their own."""
_POSED = 0.15
"""What it costs that a pose is held on no count of its own."""


def _stays_so(clause: Clause) -> Iterator[Role]:
    """Yield that one stays as one stands, on no further count: "pivot half left, hold the line until the lights go"."""
    held = clause.kind == "step" and all(lex.value is Move.HOLD for lex in clause.moves)
    if not held or clause.feet or clause.run:
        return
    if _STAYS.match(clause.words):
        yield Role("nothing", preference=_POSED)
    elif clause.anded and _RESTS.fullmatch(clause.words):
        yield Role("nothing", preference=_RESTED)


def _lock_steps(clause: Clause) -> Iterator[Role]:
    """Yield the lock step that a lock may be whose foot and way are told, and not what it locks: "R lock fwd"."""
    if [lex.value for lex in clause.moves] != [Move.LOCK] or clause.refs or clause.weighted or not clause.feet:
        return
    if len(clause.feet) > 1 or not set(clause.ways) <= {Direction.FORWARD, Direction.BACK, "diagonal"}:
        return
    for role in figure_roles(replace(clause, kind="figure", figure="lock step")):
        if role.act == "events":
            yield role._replace(preference=role.preference + _SHORT_NAME)
    if clause.follows and clause.ways:
        # "Left lock forward left right left": its feet are spelled out in the same row of words.
        yield Role("summary", preference=_SHORT_NAME, value=Named(clause.words, 0, clause.feet[0], NO_TURN, ()))


_SHORT_NAME = 0.3
"""Price of a move that is short for a figure."""


def alone(clauses: Sequence[Clause]) -> bool:
    """Return whether an item has one step only."""
    return sum(clause.kind != "words" for clause in clauses) == 1


_SHORT = 2
"""Words of so few letters have no vowels by right: "ft"."""

_MANY = 3
"""So many words that nobody knows, and few others, are no words of a teacher's own."""

_BARE = 2
"""Words of what a foot does and the foot: "snoof right"."""
_FEET = {"right", "left", "r", "l", "rf", "lf", "rt", "lt"}
_GOING = {Move.STEP, Move.ROCK, Move.TOUCH, Move.POINT}

_MOST_ALIKE = 6
"""Roles of one clause that fill the same number of counts."""


def _likeliest(roles: list[Role]) -> Iterator[Role]:
    """Yield the roles without those that many likelier ones of the same length go before."""
    seen: dict[tuple[str, int], int] = {}
    for role in sorted(roles, key=lambda role: (role.breaches, role.preference)):
        alike = (role.act, len(role.drafts))
        seen[alike] = seen.get(alike, 0) + 1
        if seen[alike] <= _MOST_ALIKE:
            yield role


def _gibberish(clause: Clause) -> bool:
    """Whether a clause names no move, and most of its words are unknown."""
    return bool(clause.unknown) and not clause.moves and len(clause.unknown) >= max(clause.known, 1)


def _garbled(clause: Clause) -> bool:
    """Whether words that no table knows stand beside slips of the pen, or beside a foot that has no move."""
    unknown = sum(span.length > 1 for span in clause.unknown)
    if clause.aside or clause.body or not unknown:
        return False
    if clause.garbled:
        return True
    mute = sum(_mute(word) for word in clause.words.split())
    strange = unknown + clause.typos + mute
    if clause.kind == "words":
        return (mute > 1 and not clause.known) or _invented(clause)
    if clause.typos:
        said = clause.known - len(clause.run)
        return strange > said if clause.kind == "figure" else strange >= said
    if strange > max(_MANY, 2 * clause.known):
        return True
    bare = not (clause.moves or clause.ways or clause.refs or clause.figure or clause.weighted or clause.turning)
    return bare and clause.kind == "step" and bool(clause.feet or clause.run) and strange > 1


def _odd(clause: Clause) -> bool:
    """Whether a foot steps somewhere, or a turn is made, by a word that nobody knows: "zub left forward"."""
    if not clause.odd or clause.aside or clause.body or clause.kind not in ("step", "turn"):
        return False
    aims = bool(clause.feet) and " to " in f" {clause.words} " and not (clause.ways or clause.to)
    if clause.moves:
        # "Step right to teapot" has no place to go to.
        return aims and all(lex.value in _GOING for lex in clause.moves)
    if clause.kind == "turn":
        return clause.turning is not None and clause.turning.amount is not None and not clause.turning.word
    words = clause.words.split()
    bare = len(words) == _BARE and bool(clause.feet) and words[0] not in _FEET
    return bool(clause.feet or clause.run) and (bare or aims or bool(clause.ways or clause.refs or clause.to))


def _invented(clause: Clause) -> bool:
    """Whether most words of a clause are known to nobody, so that a step's may have been meant: "quolm hesper"."""
    strange = sum(span.length > _SHORT for span in clause.unknown)
    return strange > 1 and not (clause.known or clause.introduces) and 2 * strange >= len(clause.words.split())


def _mute(word: str) -> bool:
    """Whether a word has no vowel, and so is neither speech nor a slip of the pen: "bqhzn"."""
    return len(word) > _SHORT and word.isalpha() and not set(word) & set("aeiouy")


def _word_roles(clause: Clause) -> Iterator[Role]:
    if clause.upbeat:
        yield from _upbeat_roles(clause)
        return
    if clause.again or clause.times > 1:
        yield from _again_roles(clause)
    if clause.start is not None:
        yield Role("start", value=clause.start)
        return
    pose = Draft((Move.POSE,), Foot.NONE, span=clause.span)
    if clause.counts > 1 and clause.body:
        yield Role("events", (pose,) * clause.counts, preference=0.3)
    if clause.counts > 1:
        yield Role("pad", value=clause.counts)
        yield Role("nothing", preference=0.1)
        return
    opens = False
    if clause.weighted is not None and clause.weighted.moved and clause.weighted.foot in ("R", "L"):
        opens = clause.weighted.opens
        recover = Draft((Move.RECOVER, Move.STEP), Foot(clause.weighted.foot), span=clause.span)
        yield Role("events", (recover,), preference=0.02 if opens else 0.25)
    if clause.at and not clause.unknown:
        yield Role("place", value=())
    if clause.body and not clause.unknown:
        yield Role("events", (pose,), preference=0.4)
    if not clause.unknown:
        yield Role("nothing", preference=0.4 if opens or clause.times > 1 else 0.0)
        return
    mostly = len(clause.unknown) > clause.known and not clause.body
    if mostly and not clause.aside:
        for n in range(1, 5):
            yield Role("events", (None,) * n, breaches=UNREAD + UNREAD_MORE * (n - 1))
    yield Role("nothing", preference=0.05 if clause.aside else 0.3, chatter=not (clause.aside or clause.body))


def _upbeat_roles(clause: Clause) -> Iterator[Role]:
    close = Draft((Move.STEP,), None, Direction.TOGETHER, span=clause.span)
    yield Role("nothing")
    yield Role("events", (close,), preference=0.12, after_gesture=True)
    if clause.offbeat:
        # "R behind & side" on 1&2.
        yield Role("events", (replace(close, direction=None),), preference=0.4)


def _again_roles(clause: Clause) -> Iterator[Role]:
    times = max(clause.times, 2)
    for only_last in (True, False):
        for mirrored in (clause.other, not clause.other):
            cost = 0.02 * (not only_last) + (0.1 if mirrored != clause.other else 0.0)
            yield Role("again", preference=cost, value=(times, only_last, mirrored))
