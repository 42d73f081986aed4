"""What is danced at one place as it was at the place told before: "end of wall 5: the same"."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from trainer.routine import Insert
from trainer.sheet.prose.order.claims.claims import Claim, Key, Wall, order_problem
from trainer.sheet.prose.order.claims.extras import Ref
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.statement import Statement

_DOES = {"does", "do", "is", "are", "has", "have", "must", "will", "goes"}
_SAME = {"same", "ditto", "likewise", "idem"}
_AS_EVER = {"normal", "normally", "usual", "ordinary", "plain", "regular", "before", "written", "unchanged", "standard"}
_JOINS = {"and", "then", "it", "that", "this", "happens", "comes", "as", "wall", "walls", "one", "time", "does"}
_TOO = {"too", "also", "again", "similarly", "well"}


def says_the_same(sentence: Sentence, statement: Statement) -> bool:
    """Whether a statement says no more of a place than that the same is danced there."""
    walls, acts = statement.walls, [act.act for act in statement.acts]
    told = statement.bodies or statement.changes or statement.again or statement.leave
    placed = walls is not None and (walls.at == "end" or statement.place is not None)
    at = next((at for at, token in enumerate(sentence.tokens) if token.low in _SAME), -1)
    return at >= 0 and placed and not told and acts in ([], ["T"], ["G"]) and not _of_another(sentence, walls, at)


def _of_another(sentence: Sentence, walls: Atom | None, at: int) -> bool:
    """Whether a word belongs to walls named behind others: "wall 6 is whole, and at the end of wall 6 do the same"."""
    last = walls.last if walls is not None else 0
    return any(atom.kind == "walls" and last <= atom.first and atom.last <= at for atom in sentence.atoms)


def repeats(sentence: Sentence, statement: Statement) -> bool:
    """Whether a statement says no more of walls than that all goes there as in those before: "Wall 6, same thing"."""
    lows = [token.low for token in sentence.tokens]
    if lows[:1] == ["so"] and lows[1:2] and lows[1] in _DOES:
        # "So does the fifth."
        lows = ["likewise"]
    acts = statement.acts or statement.changes or statement.goes_on
    told = statement.place or acts or statement.bodies or statement.again or statement.loose or statement.title
    whole = "a" in sentence.letters
    if statement.walls is None or not statement.walls.walls or statement.walls.at or told or whole:
        return False
    words = _SAME if statement.faces else _SAME | _TOO
    at = next((at for at, low in enumerate(lows) if low in words), len(lows))
    if set(lows) & _AS_EVER:
        # "Wall 4 is again normal."
        return False
    before = sentence.tokens[at - 1] if at else None
    if lows[at : at + 1] and lows[at] in _TOO and before and before.kind == "word" and before.low not in _JOINS:
        # "Wall 4 mirror again" says how it is faced.
        return False
    # "The same wall", "the same as ever" repeat nothing.
    return lows[at : at + 1] != [] and lows[at + 1 : at + 2] not in (["wall"], ["as"], ["walls"], ["way"])


def goes_as_ever(sentence: Sentence, statement: Statement) -> bool:
    """Whether no more is said of walls than that they are danced as always: "wall 4 is normal again"."""
    more = statement.bodies or statement.faces or statement.title or statement.loose or statement.goes_on
    lows = [token.low for token in sentence.tokens]
    # "The fourth wall has its balance steps again."
    back = bool({"has", "have", "gets"} & set(lows)) and "its" in lows and lows[-1] in ("again", "back")
    return not more and not statement.only and (back or bool(set(lows) & _AS_EVER))


def repeated(ledger: Ledger, statement: Statement, claims: Sequence[Claim], unit: int) -> list[Claim]:
    """Return what was claimed before, claimed of the walls of a statement."""
    assert statement.walls is not None
    span = statement.walls.span or statement.token.span
    keys, wrong = ledger.passes(statement.walls)
    if wrong:
        ledger.problems.append(order_problem(span, wrong))
    made = []
    for key in keys:
        for claim in claims:
            again = replace(claim, span=span, unit=unit, inserts=list(claim.inserts), facing=None)
            ledger.wall(key, span, unit).claims.append(again)
            made.append(again)
    return made


def call_for_the_same(statement: Statement) -> None:
    """Let a statement call for an extra; which, its claims are told after."""
    statement.acts = statement.acts or [Atom("act", 0, 0, act="T")]


def kept(claims: Sequence[Claim], latest: list[Insert | Ref], *, same: bool) -> list[Insert | Ref]:
    """Return what was put in last; claims that are said to be the same are given it."""
    for claim in claims:
        if same:
            claim.inserts = list(latest)
        elif claim.inserts:
            latest = list(claim.inserts)
    return latest


def put_in_as_on(sentence: Sentence, walls: Mapping[Key, Wall]) -> list[Insert | Ref]:
    """Return what was put in on the wall that a sentence refers to: "the same as after wall 1", "as wall 2, plus"."""
    refers = re.search("0n", sentence.letters)
    wall = walls.get(("", sentence.number(refers.start() + 1))) if refers else None
    return [insert for claim in wall.claims for insert in claim.inserts] if wall is not None else []


def adds_to_it(sentence: Sentence, statement: Statement) -> bool:
    """Whether steps are told beside those of another wall: "as wall 2, plus 5-8 stomp right"."""
    return bool(statement.bodies) and re.search("0n,?&", sentence.letters) is not None
