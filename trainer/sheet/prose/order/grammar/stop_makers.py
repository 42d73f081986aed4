"""What the patterns of holds and stops make of the letters that they fit."""

import re

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.makers import joined_spec
from trainer.sheet.prose.order.grammar.places import Spec

_PLAYERS = {
    "fiddle", "fiddles", "band", "singer", "guitar", "guitars", "drum", "drums", "drummer", "piano", "voice", "beat",
    "bass", "banjo", "violin", "vocals", "singing", "accordion",
}  # fmt: skip
"""Who may stop while the dance goes on."""
_MOMENTS = {"moment", "while", "bit", "second", "breath", "instant", "little", "beat", "few"}
_A_STOP = {"the", "a", "long", "short", "this", "one"}
_HEARD = {"hear", "hears", "listen", "listening", "when", "while", "as", "where"}


def bare_hold(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A hold whose length is told after its place: "freeze on wall 3 after 16 for 2 counts"."""
    return [Atom("act", match.start(), match.end(), act="H")]


_HEADS_A_WALL = re.compile(r"(?:^|[.,;])(?:[wW]#?n|o[wt])(?:\([^()]*\)|[YIy]*f)?[:\-]$")


def the_last(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The end of the dance, as it is told behind the name of its wall: "Wall 7 (from the front): the last."."""
    heads = _HEADS_A_WALL.search(s.letters[: match.start()]) is not None
    return [Atom("act", match.start(), match.end(), act="X")] if heads else None


def hold(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    name = "len0" if match["len0"] else "len1"
    if s.letters[match.start() - 1 : match.start()] == "w" and s.words(match.start(), match.start() + 1) == "holds":
        # "The third wall holds six counts more" has them.
        return []
    if (
        name == "len1"
        and s.letters[match.end() - 1] == "n"
        and s.words(match.start(), match.end()).split()[1:2] == ["on"]
    ):
        # "Hold on 7 and 8" tells the counts on which nobody moves.
        return None
    return [Atom("act", match.start(), match.end(), act="H", counts=s.number(match.start(name)))]


_STAYS = {
    "stand",
    "stands",
    "standing",
    "stay",
    "stays",
    "staying",
    "remain",
    "remains",
    "rest",
    "rests",
    "linger",
    "lingers",
}


def stays(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """A hold told as how one stays for so long: "we stand for two counts", "remain standing there for 3 counts"."""
    words = s.words(match.start(), match.start("len1")).lower().split()
    at = match.start("len1")
    if not _STAYS & set(words) or not (match.group().endswith("c") or s.lexemes[at].text in ("bar", "bars")):
        return None
    return [Atom("act", match.start(), match.end(), act="H", counts=s.number(at))]


def held(s: Letters, match: re.Match[str]) -> list[Atom]:
    """So many counts, or a bar, in which nobody moves."""
    at = match.start("len0")
    if s.lexemes[at].text not in ("bar", "bars") and "c" not in match.group():
        spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), suffix=s.lexemes[at].suffix)
        return [Atom("loose", at, at + 1, spec=spec)]
    return [Atom("act", match.start(), match.end(), act="H", counts=s.number(at))]


def stop_at(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A stop for so many counts, or at a count: "stop for 4", "stop at 24"."""
    if s.words(match.start() + 1, match.start() + 2).lower() == "for":
        at = match.start("cnt")
        return [Atom("act", match.start(), match.end(), act="H", counts=s.number(at))]
    stops = Atom("act", match.start(), match.start() + 1, act="Q")
    return [stops, Atom("place", match.start() + 1, match.end(), spec=joined_spec(s, match))]


def for_a_moment(s: Letters, at: int) -> bool:
    """Whether what stops does so for a while only: "in wall 6 the music stops for a moment"."""
    after = [token.low for token in s.tokens[s.lexemes[at].last :][:5]]
    return after[:2] == ["for", "a"] and bool(set(after[2:]) & _MOMENTS)


def _led_to(s: Letters, at: int) -> bool:
    """Whether a word only tells of the wall on which one ends: "you face the wall you'd end on"."""
    token, after = s.tokens[s.lexemes[at].first], [one.low for one in s.tokens[s.lexemes[at].last :][:2]]
    return token.low in ("end", "finish") and after[:1] == ["on"] and after[1:] in ([], [")"], [","], ["."])


def stop(s: Letters, match: re.Match[str]) -> list[Atom]:
    first = s.lexemes[match.start()].first
    if match.group() == "E" and re.search("[wWtp].*[TG](?:I?n-?c)?$", s.letters[: match.start()]):
        # "Wall 6: tag at the end": at the end of that wall.
        return []
    heard = s.tokens[max(first - 4, 0) : first]
    if any(token.low in _HEARD for token in heard) or {"listen", "hear"} & {token.low for token in s.tokens[:first]}:
        # "When the band stops", "you will hear the singer stop" tell a time, not an end.
        return []
    if s.tokens[first].low == "stop" and {token.low for token in s.tokens[max(first - 2, 0) : first]} & _A_STOP:
        # "The Long Stop" is a thing.
        return []
    if for_a_moment(s, match.end() - 1) or _led_to(s, match.start()):
        return []
    if first and s.tokens[first - 1].low in _PLAYERS:
        # "The fiddle stops after this second eight": the dancers hear where they are.
        return []
    return [Atom("act", match.start(), match.end(), act="Q")]
