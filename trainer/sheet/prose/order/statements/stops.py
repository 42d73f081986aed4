"""What a word for an end stops: the dance, the wall just told, or nothing but a count of where the wall goes on to."""

import re

from trainer.sheet.prose.lexis.lexeme import CLOSING
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.places import Ruler
from trainer.sheet.prose.order.statements.bodies import Body
from trainer.sheet.prose.order.statements.statement import Statement

_GOES = {"comes", "come", "goes", "go", "gets", "no"}
"""Opens what else a wall does when it stops: "comes to a halt", "goes no further"."""


_CUT = {
    "broken", "interrupted", "abandoned", "abandon", "curtailed", "curtail", "truncated", "given", "give", "called",
    "call", "bail", "bails", "abort", "aborted", "quit", "quits",
}  # fmt: skip
"""Opens what is done with a wall that the next one follows."""


def is_the_end(sentence: Sentence, now: Statement, atom: Atom, *, later: bool) -> bool:
    """Whether "to the end" is where a wall goes on to: "carry on from count 9 to the end", "wall 5 to the end"."""
    to = sentence.words(atom.first, atom.last).lower().startswith("to")
    if atom.act not in "XQ" or not (to or sentence.letters[atom.first - 1 : atom.first] == "U"):
        return False
    if now.bodies and not now.goes_on and sentence.words(atom.first, atom.last).lower() in ("to finish", "to end"):
        # "All of it, and then one last stomp to finish."
        return False
    row = now.walls is not None and now.walls.last == atom.first and not now.walls.every
    row = row and sentence.letters[atom.last : atom.last + 1] in ("", ":", ".", "?")
    if to and (row or re.search("a[?I]*$", sentence.letters[: atom.first])):
        # "Then in full again to the end", "wall 5 to end: normal".
        return True
    closes = sentence.letters[atom.last :].strip(".") == ""
    return now.goes_on or (closes and bool(now.walls or later))


def only_halts(sentence: Sentence, atom: Atom) -> bool:
    """Whether a stop is that of the music, through which a hold is danced: "the singer stops: hold two, then go on"."""
    beyond = sentence.letters[atom.last :]
    return atom.act == "Q" and "H" in sentence.letters and "J" in beyond and "w" not in beyond


def closes_the_telling(sentence: Sentence, now: Statement, atom: Atom) -> bool:
    """Whether "and that's it" closes what is told of an extra, or a remark, and no dance."""
    closing = sentence.lexemes[atom.first].text == CLOSING if atom.first < len(sentence.lexemes) else False
    danced = now.bodies or (now.place is not None and now.walls is not None)
    return closing and (not danced or bool(now.inserts) or "R" in now.leave)


def wall_stops(sentence: Sentence, now: Statement, atom: Atom) -> bool:
    """Whether a stop is that of the wall just told."""
    walls = now.walls
    after = sentence.letters[atom.last : atom.last + 1]
    if after == "D":
        # "Wall 6 ends the dance".
        return False
    words = sentence.words(atom.first, atom.last).lower().split()
    if walls is not None and words and words[0] in _CUT and walls.every != "last":
        # "The third wall, which starts at 6:00, is broken off after the roll".
        return True
    stops = bool(words) and (words[1:] in ([], ["off"]) or words[0] in _GOES)
    if walls is None or not stops or words[0] == "stopped" or walls.every == "last":
        return False
    if atom.act == "X":
        # "The 3rd and 6th walls finish after 24".
        return words[0] == "finish" and walls.last == atom.first and after == "A"
    between = sentence.letters[walls.last : atom.first]
    if "L" in between:
        # "Wall 6 (starts 3:00) is the last: it stops on count 5".
        return False
    return between in ("", "U") or (bool(set(",)") & set(between)) and after in ("A", "I", "U", "@"))


def names_same(one: Atom, other: Atom) -> bool:
    """Whether two acts of a statement name one thing twice."""
    return one.act == other.act and one.act != "H" and other.number in (0, one.number)


def only_stops(sentence: Sentence, told: Statement) -> bool:
    """Whether a wall is only said to be cut there, and not that the dance begins again: "wall 7 stops after 16"."""
    if told.walls is None or told.walls.part:
        return False
    then = told.only and bool(told.bodies) and sentence.letters[: told.bodies[0].first].endswith(">")
    return all(act.ends or (then and not act.last) for act in told.acts if act.act == "R")


def names_the_last(sentence: Sentence, body: Body, ruler: Ruler, after: int) -> bool:
    """Whether steps told with an end only name the one reached: "do 12 counts and finish on the kick"."""
    led = sentence.letters[: body.first]
    words = [token.low for token in body.tokens if token.kind == "word"]
    before = sentence.tokens[sentence.lexemes[body.first].first - 1].low
    plain = led.endswith(("XI", "QI")) and before in ("the", "that", "your", "our") and 0 < len(words) <= _NAME
    return plain and any(last == after for _, last in ruler.danced(words))


_NAME = 3
"""Words that name a step."""


_THERE = {"there", "here"}


def closes_there(sentence: Sentence, told: Statement, walls: Atom) -> bool:
    """Whether a dance ends in the wall told of before: "wall 4 brings you home. There the music slows, and we end"."""
    ends = any(act.act == "X" for act in told.acts) and bool(told.bodies)
    stops = any(act.act == "Q" for act in told.acts) or sentence.tokens[0].low in _THERE
    return ends and stops and len(walls.walls) == 1 and not walls.every
