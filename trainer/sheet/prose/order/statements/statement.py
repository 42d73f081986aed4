"""What one part of a sentence says: on these walls, at this place, these things are done, facing there."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction

from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Spec
from trainer.sheet.prose.order.statements.bodies import Body
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
    brings: bool = False
    """The facing is that with which the wall ends."""
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
    replaced: list[Body] = field(default_factory=list)
    """Steps that are not danced, but those of `bodies`."""
    measures: bool = False
    """It only says how much is danced: "36, with the bridge after set 2"."""
    again: Atom | None = None
    """Counts of the dance that are the steps of an extra: "tag: repeat counts 1-6"."""
    total: int = 0
    """How many walls are danced, where it is told."""
    begins: bool = False
    body_before_leave: bool = False

    @property
    def says_something(self) -> bool:
        """Whether anything of the order is in it."""
        told = self.walls or self.place or self.acts or self.changes or self.faces or self.goes_on or self.bodies
        return bool(told or self.again or self.counted or self.total)

    @property
    def only_begins(self) -> bool:
        """Whether it only says of every wall, or of some, that it begins, and with no facing."""
        every = self.walls is not None and self.walls.every in ("every", "") and self.walls.nth is None
        told = self.place or self.acts or self.changes or self.faces or self.goes_on or self.bodies
        return every and self.begins and not told

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


_STRANGE = 2
"""So many words that no table knows between a wall and a number tell of something else."""


def length_for_place(sentence: Sentence, statement: Statement) -> None:
    """At the end of a wall "do 8 extra counts" is the length of what is added, not a place."""
    if statement.walls is None or statement.walls.at != "end" or statement.acts:
        return
    if not statement.bodies and not sentence.letters.endswith(":"):
        return
    spec = statement.place if statement.only else next((atom.spec for atom in statement.loose if atom.act == "c"), None)
    if spec is not None and spec.count is not None and spec.section is None and not spec.first:
        statement.acts = [Atom("act", 0, 0, act="T", counts=spec.count)]
        statement.place, statement.only = None, False


def more_of_the_next(sentence: Sentence, statement: Statement) -> None:
    """Let "after wall 8 do 16 more counts and stop" speak of the wall that begins there."""
    walls, place = statement.walls, statement.place
    more = any(token.low in ("more", "further") for token in sentence.tokens)
    if not more or walls is None or walls.at != "end" or len(walls.walls) != 1 or walls.part:
        return
    if place is not None and place.count is not None and place.section is None and statement.leave in ("Q", "R"):
        statement.walls = replace(walls, walls=(walls.walls[0] + 1,), at="")


def may_place(sentence: Sentence, statement: Statement, loose: Atom) -> bool:
    """Whether a number that stands by itself says how much of a wall is danced: "W3: 16", "W3 16 then restart"."""
    if statement.walls is None:
        return False
    between = sentence.letters[statement.walls.last : loose.first]
    if statement.walls.but and set(between) <= set(",&(?"):
        # "Every wall but the fourth, and that one has 24."
        return True
    # "In wall 3 the guitar has a solo of 16 counts."
    counted = loose.act == "c" and between.count("?") < _STRANGE
    return bool(statement.acts) or counted or set(between) <= set("(:-,=fy)SDu")


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


def is_finer(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether a place is the count of the section just told: "two eights as far as the eight-and"."""
    spec, letters = part.spec, sentence.letters
    if now.place is None or spec is None or spec.before or (spec.first and letters[part.first] != "A"):
        return False
    if now.acts and not (spec.title and {act.act for act in now.acts} <= set(LEAVES)):
        return False
    sectioned = now.place.section is not None or bool(now.place.named)
    block = bool(now.place.block) and now.place.count in (6, 8)
    told = (block or (sectioned and now.place.count is None)) and not now.place.before
    # "Straight after section 2, so after the 8 a, put in ..." says again where the section ends.
    again = letters[part.first] in "AE" and letters[part.first - 1] == "," and not now.bodies and not now.changes
    # "You change the end of the second eight: after count 6 do (7) ..." tells its count.
    again |= letters[part.first] in "AE" and letters[part.first - 1] == ":" and now.changes and not now.bodies
    # "In the second eight, on count 8, do not touch".
    again |= letters[part.first] == "I" and spec.on and letters[part.first - 1] == "," and not now.bodies
    inside = letters[part.first] in "AU" and letters[part.first - 1] == "("
    if letters[part.first] != "U" and not again and not inside and not spec.title:
        return False
    return told and spec.section is None and not spec.named and 0 < (spec.count or 0) <= 8


def section_of(spec: Spec) -> int:
    """Return the number of the section, or "third eight", that a place is; 0 where it is none, or a count of it."""
    if spec.block:
        return spec.block if spec.count in (6, 8) else 0
    return spec.section or 0 if spec.count is None and (spec.section or 0) > 0 else 0


def lies_there(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether a section only says where the count told before it lies: "after count 20, in the middle of eight 3"."""
    place, spec = now.place, part.spec
    if place is None or spec is None or place.count is None or place.section is not None or place.named or place.title:
        return False
    sectioned = bool(section_of(spec)) and not (spec.title or spec.before)
    plain = not (place.before or place.first or place.block or place.here or now.bodies)
    led = sentence.letters[part.first] in "Ij" or spec.share is not None
    return plain and sectioned and led and sentence.letters[part.first - 1] in ",(-"


def changes_there(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether counts that follow a section are those of it which are changed: "in section 2 dance 7-8 as ..."."""
    place, spec = now.place, part.spec
    if place is None or spec is None or now.bodies or not section_of(place):
        return False
    after = sentence.tokens[sentence.lexemes[part.last - 1].last :][:1]
    if not now.changes and [token.low for token in after] != ["as"]:
        return False
    plain = spec.first and spec.section is None and not (spec.named or spec.title or spec.block)
    before = sentence.letters[: part.first + 1].rstrip("DcI?,:")
    return bool(plain) and 0 < (spec.count or 0) <= 8 and before[-2:-1] in ("s", "o") and before[-1:] in ("n", "x", "q")


def goes_on_there(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether a place after an extra is where the dance goes on: "tag (heel, together), then section 3"."""
    held = any(act.act == "H" and act.counts for act in now.acts)
    placed = now.place is not None or (held and now.walls is None)
    if not placed or not (now.bodies or now.inserts) or part.kind != "place" or part.spec is None:
        return False
    if now.place is not None and part.spec.first and now.place.count and part.spec.section is None:
        # "Counts 1 to 12, then the bridge, then counts 13 to 48".
        return part.spec.first == now.place.count + 1
    letters = sentence.letters
    return letters[part.first] == ">" and letters[part.last - 1] in "nx"


def leads_on(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether a section after a place is where the dance goes on: "after count 24, and then on to section 4"."""
    placed = now.place is not None and now.place.count is not None and part.kind == "place" and not now.leave
    left = set("RQX") & set(sentence.letters[part.last :])
    how = r">(?:I?[Uj]|D)s[nx]" if not left else r">I?[Uj]s[nx]"
    return placed and bool(re.fullmatch(how, sentence.letters[part.first : part.last]))


_NEXT = re.compile(r">[,D]?(?:s[nx]|o-?s|on|q)(?:[&,U-]+(?:s?[nx]|o-?s|q))*J?[.,]?")


def only_leads_on(sentence: Sentence, now: Statement) -> bool:
    """Whether a sentence says no more than which section is danced next: "Then section 4."."""
    return now.place is not None and not now.acts and bool(_NEXT.fullmatch(sentence.letters))


def first_named(sentence: Sentence, place: Spec) -> Spec:
    """Return the first of the sections that a sentence names: "Then do sections 4 to 6 as usual" goes on with 4."""
    numbers = [one.number for one in sentence.lexemes if one.kind in "nx"]
    plain = place.section is not None and place.section > 0 and place.count is None and not place.named
    return replace(place, section=numbers[0]) if plain and len(numbers) > 1 and numbers[-1] == place.section else place


def is_called_last(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether the wall just told of by its number is called the last one: "wall 6 (6:00): last wall"."""
    walls = now.walls
    if walls is None or len(walls.walls) != 1 or walls.at or walls.every or part.every != "last" or part.at:
        return False
    between = sentence.letters[walls.last : part.first]
    return not (now.place or now.acts or now.bodies) and set(between) <= set("f:,()-=IYy")


def are_same_walls(sentence: Sentence, now: Statement, part: Atom) -> bool:
    """Whether walls are told again: "after wall 3, before wall 4", "the last time through (wall 9)"."""
    if now.walls is None or part.part != now.walls.part:
        return False
    if is_called_last(sentence, now, part):
        return True
    vague = now.walls.every == "last" or now.walls.nth is not None
    return (vague and now.place is None) or (part.walls == now.walls.walls and part.at == now.walls.at)


def is_further(sentence: Sentence, parts: Sequence[Atom | Body], now: Statement, at: int) -> bool:
    """Whether a place carries on what is danced: "dance FIRST, then SECOND as far as 4", "1, and 1-4 of 2"."""
    part = parts[at]
    spec = part.spec if isinstance(part, Atom) else None
    before = parts[at - 1] if at else None
    if isinstance(before, Atom) and before.kind == "only":
        before = parts[at - 2] if at > 1 else None
    if now.acts or not isinstance(before, Atom) or before.spec is None or spec is None:
        return False
    # "Sections 1 and 2 and the first half of section 3"
    whole, counted = before.spec.count is None, spec.count is not None or spec.share is not None
    into_the_next = whole and counted and bool(_number(before.spec)) and _number(spec) == _number(before.spec) + 1
    if before.spec is not now.place or not (now.only or into_the_next):
        return False
    listed = re.fullmatch(",D(?:q|os|on|sn)", sentence.letters[before.last : part.last]) is not None
    joined = listed or sentence.letters[before.last : part.last].lstrip(",").startswith((">", "&"))
    return joined and all(one is not None and bool(one.named or one.section) for one in (spec, before.spec))


def _number(spec: Spec) -> int:
    """Return the number of a section, told as such or by a name that is one; 0 without."""
    return spec.section or (int(spec.named) if spec.named.isdecimal() else 0)
