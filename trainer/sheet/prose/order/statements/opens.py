"""Where a sentence begins on another statement: at other walls, a second place, an act that has walls of its own."""

from collections.abc import Sequence

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import (
    INSERTS,
    Statement,
    are_same_walls,
    changes_there,
    is_finer,
    is_further,
    lies_there,
    walls_follow,
)

Parts = Sequence[Atom | Body]


def opens(sentence: Sentence, parts: Parts, now: Statement, lead: Sequence[Atom], at: int) -> bool:
    """Whether the phrase at an index begins another statement; `lead` are acts told before any wall or place."""
    part = parts[at]
    if isinstance(part, Body):
        return False
    if part.kind == "walls":
        return (
            now.walls is not None
            and not are_same_walls(sentence, now, part)
            and not _only_more_walls(sentence, parts, now, at)
        )
    if part.kind == "place":
        if now.walls is not None and walls_follow(sentence, parts, at) and (now.acts or now.place):
            return True
        goes_on = is_finer(sentence, now, part) or is_further(sentence, parts, now, at)
        goes_on = goes_on or lies_there(sentence, now, part) or changes_there(sentence, now, part)
        return now.place is not None and now.place != part.spec and not part.act and not goes_on
    if part.kind == "act":
        return not _is_listed(sentence, parts, now, at) and _act_opens(parts, now, lead, at, part)
    if part.kind == "loose":
        # "Do 16 of wall 3 and 8 of wall 6".
        return now.walls is not None and bool(now.place) and walls_follow(sentence, parts, at)
    return part.kind == "change" and part.spec is not None and now.change is not None


def _act_opens(parts: Parts, now: Statement, lead: Sequence[Atom], at: int, part: Atom) -> bool:
    if now.walls is None and now.place is None:
        return bool(now.bodies and now.acts and part.act in INSERTS)
    straight = now.walls is not None and now.walls.last == part.first and part.act in {act.act for act in lead}
    if straight and all(act in lead for act in now.acts):
        # "Restarts, both after 16 counts: on wall 2 you restart facing the front, on wall 6 ..."
        return False
    has_own = bool(now.acts or lead)
    if not has_own or not _refers_on(parts, at):
        return False
    return bool(now.acts) or part.act in INSERTS or bool(lead)


def _is_listed(sentence: Sentence, parts: Parts, now: Statement, at: int) -> bool:
    """Whether walls that follow an act are the next of a list of walls: "- W4 bridge, then tag - W5 straight"."""
    act, after = parts[at], parts[at + 1] if at + 1 < len(parts) else None
    if not isinstance(act, Atom) or not isinstance(after, Atom) or after.kind != "walls" or now.walls is None:
        return False
    letters = sentence.letters
    marks = {letters[one.first - 1 : one.first] for one in (now.walls, after)}
    return marks <= {"-", ";", "|"} and len(marks) == 1 and letters[act.first - 1] in ">&" and bool(now.acts)


def _refers_on(parts: Parts, at: int) -> bool:
    """Whether walls of its own follow an act before the next act: "Tag after wall 2, restart on wall 4"."""
    for part in parts[at + 1 :]:
        if isinstance(part, Body) or part.kind == "act":
            return False
        if part.kind == "walls":
            return True
    return False


def _only_more_walls(sentence: Sentence, parts: Parts, now: Statement, at: int) -> bool:
    """Whether a list of walls only goes on: "on wall 3 and on wall 6"."""
    part, before = parts[at], parts[at - 1] if at else None
    if isinstance(part, Atom) and _lists_with_facings(sentence, parts, at):
        return True
    if not isinstance(before, Atom) or before.kind != "walls" or now.place is not None:
        return False
    # "After the second time through, and after the fourth".
    joined = sentence.letters[before.last : part.first].removeprefix("U")
    same = isinstance(part, Atom) and (part.at, part.part) == (before.at, before.part)
    return same and joined in ("&", ",", ",&", "/")


def _lists_with_facings(sentence: Sentence, parts: Parts, at: int) -> bool:
    """Whether walls are the next of a list in which each has its facing: "on walls 2 (9:00) and 4 (3:00)"."""
    part, face, walls = parts[at], parts[at - 1] if at else None, parts[at - 2] if at > 1 else None
    if not (isinstance(part, Atom) and isinstance(face, Atom) and isinstance(walls, Atom)):
        return False
    if (
        walls.kind != "walls"
        or face.kind != "face"
        or face.first != walls.last
        or (part.at, part.part) != (walls.at, walls.part)
    ):
        return False
    several = "W" in sentence.letters[walls.first : walls.last]
    bare = not set("wW") & set(sentence.letters[part.first : part.last])
    return several and bare and set(sentence.letters[face.last : part.first]) <= set("&,")
