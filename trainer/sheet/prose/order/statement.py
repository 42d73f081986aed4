"""What one part of a sentence says: on these walls, at this place, these things are done, facing there."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.sheet.prose.order.atoms import Atom, Sentence
from trainer.sheet.prose.order.bodies import Body
from trainer.sheet.prose.order.places import Spec
from trainer.sheet.prose.words import Token

INSERTS = frozenset("TGHX")
"""Acts that put an extra in."""
LEAVES = frozenset("RQn")
"""Acts with which a wall is left."""


@dataclass(slots=True)
class Statement:
    """What one part of a sentence says."""

    token: Token
    """Where it begins."""
    walls: Atom | None = None
    place: Spec | None = None
    title: Spec | None = None
    """Words that may be those of a section's heading, where no other place is said."""
    acts: list[Atom] = field(default_factory=list)
    change: Spec | None = None
    changes: bool = False
    """It speaks of a change of steps, with or without its counts."""
    faces: list[tuple[Fraction, bool]] = field(default_factory=list)
    """Facings, each with whether the wall begins with it."""
    onward: Spec | None = None
    goes_on: bool = False
    counted: Atom | None = None
    """Counts in brackets straight after a place: "after the third section (24 counts)"."""
    only: bool = False
    """No more than this is danced of the wall."""
    skips: bool = False
    """What follows the place is left out."""
    loose: list[Atom] = field(default_factory=list)
    bodies: list[Body] = field(default_factory=list)
    total: int = 0
    """How many walls are danced, where it is told."""
    begins: bool = False
    body_before_leave: bool = False

    @property
    def says_something(self) -> bool:
        """Whether anything of the order is in it."""
        told = self.walls or self.place or self.acts or self.changes or self.faces or self.goes_on or self.bodies
        return bool(told or self.counted or self.total)

    @property
    def inserts(self) -> list[Atom]:
        """The extras that it names, in order."""
        return [act for act in self.acts if act.act in INSERTS]

    @property
    def leave(self) -> str:
        """R, Q or n; an empty text where the wall is not left."""
        leaves = [act.act for act in self.acts if act.act in LEAVES]
        # "Stop after 16 and begin again" leaves by the last of the two.
        return "R" if "R" in leaves else next(iter(leaves), "")


def length_for_place(statement: Statement) -> None:
    """At the end of a wall "do 8 extra counts" is the length of what is added, not a place."""
    if statement.walls is None or statement.walls.at != "end" or not statement.bodies or statement.acts:
        return
    spec = statement.place if statement.only else next((atom.spec for atom in statement.loose if atom.act == "c"), None)
    if spec is not None and spec.count is not None and spec.section is None and not spec.first:
        statement.acts = [Atom("act", 0, 0, act="T", counts=spec.count)]
        statement.place, statement.only = None, False


def may_place(sentence: Sentence, statement: Statement, loose: Atom) -> bool:
    """Whether a number that stands by itself says how much of a wall is danced: "W3: 16", "W3 16 then restart"."""
    if statement.walls is None:
        return False
    between = sentence.letters[statement.walls.last : loose.first]
    return bool(statement.acts) or loose.act == "c" or set(between) <= set("(:-,=fy)SDu")


def numbers_before_facings(sentence: Sentence, parts: Sequence[Atom | Body]) -> list[Atom | Body]:
    """Let a wall told by its facing be no more than a facing where its number was told: "wall 2, when you face 6"."""
    done: list[Atom | Body] = []
    numbered = False
    for part in parts:
        if isinstance(part, Atom) and part.kind == "walls":
            if part.nth is not None and numbered:
                starts = "y" in sentence.letters[part.first : part.last]
                part = Atom("face", part.first, part.last, facing=part.nth, starts=starts, every=part.every)
            else:
                numbered |= part.nth is None and bool(part.walls or part.every)
        done.append(part)
    return done


def walls_follow(sentence: Sentence, parts: Sequence[Atom | Body], at: int) -> bool:
    """Whether walls stand straight after a place: "after 16 counts of wall 3"."""
    after = parts[at + 1] if at + 1 < len(parts) else None
    if not isinstance(after, Atom) or after.kind != "walls":
        return False
    here = parts[at]
    between = sentence.letters[here.last : after.first]
    return set(between) <= set("?I")
