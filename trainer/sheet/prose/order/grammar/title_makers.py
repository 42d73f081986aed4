"""Atoms of places told by the steps danced there: "after the jazz box", "as far as the pivot on 6"."""

import re
from dataclasses import replace

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.makers import joined_spec, number_spec, section_in, section_spec
from trainer.sheet.prose.order.grammar.places import Spec
from trainer.sheet.prose.order.grammar.stop_makers import for_a_moment


def titled(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Words that a section's heading may have: "after the jazz box"."""
    stops = [Atom("act", match.start(), match.start() + 1, act="Q")] if match.group().startswith("Q") else []
    if stops and for_a_moment(s, match.start()):
        return []
    if match.group().startswith("U") and re.search("M[^.]*$", s.letters[: match.start()]):
        # "Change counts 7-8 of wall 9 to cross R, unwind".
        return []
    if match.group().startswith("U") and re.search("N[?]?$", s.letters[: match.start()]):
        # "We have not come to the turns."
        return []
    first = next((at for at in range(match.start(), match.end()) if s.letters[at] not in "AEBDUQI"), match.end() - 1)
    if _points_back(s, match.start(), first):
        return []
    nth = s.number(first) if s.letters[first] == "o" else 0
    last = _end_of_name(s, first + bool(nth), match.end())
    words = _words_of(s, first + bool(nth), last)
    spec = Spec(s.span(first, last), title=words, before="B" in match.group(), block=nth)
    return [*stops, Atom("title", match.start() + len(stops), last, spec=spec)]


def _points_back(s: Letters, at: int, first: int) -> bool:
    """Whether what comes after is what was told before, and the words behind it steps: "after it stomp right"."""
    if s.letters[at] != "A":
        return False
    between = {token.low for token in s.tokens[s.lexemes[at].first : s.lexemes[first].first]}
    return bool(between & {"it", "which", "them"})


_DANCERS = {"we", "you", "they", "i", "one", "everybody", "everyone", "you'll", "we'll"}
_ORDERS = {"step", "stomp", "walk", "touch", "cross", "point", "sway", "turn", "close", "kick", "clap", "stamp"}
_SIDES = {"right", "left", "r", "l", "your", "the"}
_ONE_COUNT = {"touch", "clap", "claps", "kick", "hold", "pivot", "stomp", "stomps", "point", "scuff", "hitch", "tap"}


def _end_of_name(s: Letters, first: int, last: int) -> int:
    """Return where the words that name a step end, and others tell what is danced: "after the touch we step right"."""
    for at in range(first + 1, last):
        token, before = s.tokens[s.lexemes[at].first], s.tokens[s.lexemes[at].first - 1].low
        after = s.tokens[s.lexemes[at].last].low if s.lexemes[at].last < len(s.tokens) else ""
        ordered = token.low in _ORDERS and before in _ONE_COUNT and after in _SIDES
        if (before in _DANCERS and s.letters[at] == "m") or ordered:
            return at
    return last


def headed(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A section by words of its heading: "after the kick section"."""
    first = next(at for at in range(match.start(), match.end()) if s.letters[at] in "mh")
    before = "B" in s.letters[match.start() : first]
    spec = Spec(
        s.span(first, match.end()),
        s.words(first, match.end()),
        title=_words_of(s, first, match.end() - 1),
        before=before,
        headed=True,
    )
    return [Atom("place", match.start(), match.end(), spec=spec)]


def titled_last(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The last of steps that share a verb: "having stomped right, left" is after the left stomp."""
    last = match.start() + match.group().rindex(",") + 1
    last += s.letters[last] == "&"
    own = _words_of(s, last, match.end())
    words = own if len(own) > 1 else (*_words_of(s, match.start() + 1, match.start() + 2), *own)
    return [Atom("title", match.start(), match.end(), spec=Spec(s.span(match.start() + 1, match.end()), title=words))]


def titled_of_a_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps of a wall that are over: "when the vines of wall 3 are done"."""
    first, last = match.span("steps")
    spec = Spec(s.span(first, last), title=_words_of(s, first, last))
    number = next(s.number(at) for at in range(*match.span("core")) if s.letters[at] in "no")
    core = match.start("core")
    walls = Atom("walls", core, match.end(), (number,), span=s.span(core, match.end("core")))
    return [Atom("title", match.start(), last, spec=spec), walls]


def titled_done(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps that are over: "when the cross rocks are done"."""
    first, last = match.start() + 1, match.end() - 1
    if s.letters[last] == "m" and s.words(last, last + 1).lower() not in ("over", "through"):
        return []
    spec = Spec(s.span(first, last), title=_words_of(s, first, last))
    return [Atom("title", match.start(), match.end(), spec=spec)]


def titled_count(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A count with the step danced on it: "as far as the pivot on 6"."""
    at = match.start("cnt")
    first = next(one for one in range(match.start(), at) if s.letters[one] not in "ADUu")
    last = next(one for one in range(first, at) if s.letters[one] == "I")
    if match["sec"]:
        return [Atom("place", match.start(), match.end(), spec=joined_spec(s, match))]
    spec = replace(number_spec(s, at), suffix=s.lexemes[at].suffix, title=_words_of(s, first, last))
    return [Atom("place", match.start(), match.end(), spec=spec)]


def titled_with_counts(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps with their counts behind them, and their section perhaps: "after the sailor (5&6)"."""
    at = match.end("cnt") - 1
    first = next(one for one in range(match.start(), at) if s.letters[one] not in "ADU")
    last = match.start("sec") - 1 if match.groupdict().get("sec") else match.start("cnt") - 1
    spec = replace(number_spec(s, at), suffix=s.lexemes[at].suffix, title=_words_of(s, first, last))
    if match.groupdict().get("sec"):
        told = section_spec(s, match)
        spec = replace(spec, section=told.section, named=told.named, text=told.text)
    return [Atom("place", match.start(), match.end(), spec=spec)]


def titled_in(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps of a section that is told: "after the crossing steps of the fourth eight"."""
    sec = match.start("sec")
    first = next(one for one in range(match.start(), sec) if s.letters[one] not in "AEBDUu")
    nth = s.number(first) if s.letters[first] == "o" else 0
    title = _words_of(s, first + bool(nth), sec - 1)
    spec = section_in(section_spec(s, match), title=title, before="B" in s.letters[match.start() : first])
    spec = replace(spec, step=nth)
    only = [Atom("only", match.start(), match.end())] if "D" in s.letters[match.start() : first] else []
    return [Atom("place", match.start(), match.end(), spec=spec), *only]


def titled_number(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Steps told by how many there are ("after the two scissors"), or a count and then steps ("after 16 touch R")."""
    at = match.start() + match.group().index("n")
    spelled = s.tokens[s.lexemes[at].first].kind == "word" and s.number(at) < 5
    if spelled and s.words(at + 1, match.end()).lower().endswith("s"):
        return titled(s, match)
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), suffix=s.lexemes[at].suffix)
    return [Atom("place", match.start(), at + 1, spec=replace(spec, before=s.letters[at - 1] == "B"))]


def between_titles(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The place between steps: "between the voltas and the rock"."""
    joint = match.start() + match.group().index("&")
    words = _words_of(s, match.start() + 1, joint)
    return [Atom("title", match.start(), match.end(), spec=Spec(s.span(match.start() + 1, joint), title=words))]


def _words_of(s: Letters, first: int, last: int) -> tuple[str, ...]:
    tokens = s.tokens[s.lexemes[first].first : s.lexemes[last - 1].last]
    return tuple(token.low for token in tokens if token.kind == "word" and token.low != "and")
