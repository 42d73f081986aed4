"""A new start told as the wall that comes next: "and wall four begins", "commences the fourth repetition"."""

import re

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters

_SECOND = 2
"""The first wall that another comes before."""


def to_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    number = next(s.number(at) for at in reversed(range(*match.span())) if s.letters[at] in "no")
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def on_to_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The wall after the one told of, or after one told of before, is begun at once."""
    number = next(s.number(at) for at in reversed(range(*match.span())) if s.letters[at] in "no")
    told = [s.number(one.start()) for one in re.finditer(r"(?<=w)n|o(?=[wt])", s.letters[: match.start()])]
    if (told and number - 1 not in told) or number < _SECOND:
        return []
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def next_wall_starts(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The wall after the one told of begins: "wall 2 is left after 12 and wall 3 starts there"."""
    number = next(s.number(at) for at in range(*match.span()) if s.letters[at] in "no")
    told = re.finditer(r"(?<=w)n|o(?=w)", s.letters[: match.start()])
    if number - 1 not in [s.number(one.start()) for one in told]:
        return []
    return [Atom("act", match.start(), match.end(), act="R", number=number)]


def goes_on_with_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The next wall, after what was put in at the end of this one."""
    return [Atom("onward", match.start(), match.end())]


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
    if s.letters[match.start()] == "z" and not words & {"is", "it's", "that's"}:
        return None
    return (on_to_wall(s, match) or None) if words & _COMES else None
