"""A new start told as the wall that comes next: "and wall four begins", "commences the fourth repetition"."""

import re
from fractions import Fraction

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters

_HOURS = 12
_SECOND = 2
"""The first wall that another comes before."""


def _numbers(s: Letters, match: re.Match[str]) -> list[int]:
    """Return the numbers within a phrase."""
    return [s.number(at) for at in range(*match.span()) if s.letters[at] in "no"]


def _told_before(s: Letters, match: re.Match[str]) -> list[int]:
    """Return the numbers of the walls, or times through, that the sentence names before a phrase."""
    return [s.number(one.start()) for one in re.finditer(r"(?<=w)n|o(?=[wt])", s.letters[: match.start()])]


def to_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    number = _numbers(s, match)[-1]
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def starts_where(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The next wall by what it begins in place of: "and the seventh starts where the jazz box would have been"."""
    at = match.start() + match.group().index("y") + 1
    if s.words(at, at + 1).lower() != "where":
        return None
    number = next(s.number(one) for one in range(*match.span()) if s.letters[one] in "no")
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def on_to_wall(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The wall after the one told of, or after one told of before, is begun at once."""
    number = _numbers(s, match)[-1]
    told = _told_before(s, match)
    if not told and s.letters[match.start()] == "j" and s.letters[match.start() - 1] == "c":
        # "24 counts into the second wall" are danced of that one.
        return None
    if (
        not told
        and re.fullmatch(r"[?>&]*z[?m]?", s.letters[: match.start()])
        and s.letters[match.end() : match.end() + 1]
    ):
        # "When you start for the third time, do the first 8 only": what follows is of that wall.
        return None
    if {"until", "till"} & set(s.words(match.start(), match.end()).lower().split()):
        # "It goes round and round until wall 9".
        return []
    if (told and number - 1 not in told) or number < _SECOND:
        return []
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def dances_next(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The wall after the one told of is danced: "and then you dance wall 5"; of another wall more is told."""
    number = _numbers(s, match)[-1]
    if number - 1 not in _told_before(s, match):
        return None
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def next_wall_starts(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The wall after the one told of begins: "wall 2 is left after 12 and wall 3 starts there"."""
    number = _numbers(s, match)[0]
    if number - 1 not in _told_before(s, match):
        return []
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def starts_from_there(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The next wall begins at the place just told, where no other wall is."""
    before = s.letters[: match.start()]
    if not re.search(r"[AEUD].*?(?:cn|nc)", before) or re.search(r"[wW]|ot", before):
        return None
    number = next(s.number(at) for at in range(*match.span()) if s.letters[at] in "no")
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def goes_on_with_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The next wall, after what was put in at the end of this one."""
    return [Atom("onward", match.start(), match.end())]


def restarts_as(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The wall that a new start begins, in brackets behind it: "wall 2: after 16, restart (wall 3)"."""
    number = _numbers(s, match)[0]
    told = _told_before(s, match)
    if number - 1 not in told:
        return None
    closed = match.end("wall")
    act = Atom("act", match.start(), closed, act="R", number=number)
    hour = s.number(match.end() - 1) if match.end() > closed else 0
    faced = hour and hour <= _HOURS and hour % 3 == 0
    return [act, Atom("face", closed, match.end(), facing=Fraction(hour % _HOURS, _HOURS))] if faced else [act]


def only_comes_then(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The wall after an extra, where no other wall is told: "TAG, 4 counts, then wall 6 begins at 3:00"."""
    return None if re.search(r"[wW]|ot", s.letters[: match.start()]) else [Atom("onward", match.start(), match.end())]


def ready_for(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The wall that is danced after what was told: "... and you're back at 9 for wall 4"."""
    if not set(s.letters[: match.start()]) - set("?,"):
        # "Note for wall 3."
        return None
    leads = s.words(match.start("for"), match.start("for") + 1).lower().split()
    number = _numbers(s, match)[0]
    told = _told_before(s, match)
    if leads[-1:] != ["for"] or (told and number - 1 not in told):
        return None
    return [Atom("onward", match.start(), match.end())]


def count_one_of(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The wall whose first count comes next: "go straight into count 1 of wall 4"."""
    words = s.words(match.start(), match.start() + 1).lower().split()
    number = _numbers(s, match)[0]
    begins = words[-1] in ("1", "one", "beginning", "start") and s.words(match.start() + 1, match.start() + 2) == "of"
    return [Atom("act", match.start(), match.end(), act="R", number=number)] if begins else None


def to_wall_afresh(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The next wall, from its beginning: nothing is said of how much of it is danced."""
    words = s.words(match.end() - 1, match.end()).lower().split()
    if words[0] in ("from", "start", "begin") and s.letters[match.start()] in ">&y,":
        return to_wall(s, match)
    number = next(at for at in range(*match.span()) if s.letters[at] in "no")
    walls = Atom("walls", match.start(), match.end() - 1, (s.number(number),), span=s.span(number, number + 1))
    return [walls, Atom("act", match.end() - 1, match.end(), act="R")]


_COMES = {"comes", "come", "follows", "follow", "begins", "starts", "is", "it's", "that's", "time"}


def follows(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The next wall is only said to come: "then comes round 7", "and wall 7 follows"."""
    words = set(s.words(match.start(), match.end()).lower().split())
    if words & {"too", "also", "likewise", "well"}:
        # "The first time you face the back, and the second time too."
        return None
    if s.letters[match.start()] == "z" and not words & {"is", "it's", "that's"}:
        return None
    return (on_to_wall(s, match) or None) if words & _COMES else None


def on_with_part(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The part that comes next in the play, of which no more is told: "begin again with the last A"."""
    if s.words(match.start() + 1, match.start() + 2).lower() != "with":
        return None
    return [Atom("act", match.start(), match.end(), act="R")]
