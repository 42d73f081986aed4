"""Atoms of walls and passes: "walls 2 and 5", "every other wall", "walls 3 (6:00), 5 (12:00)", "the second A"."""

import re
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from trainer.sheet.prose.lexis.numerals import SIGNS
from trainer.sheet.prose.order.grammar.atoms import Atom, Letters
from trainer.sheet.prose.order.grammar.makers import number_spec
from trainer.sheet.prose.order.grammar.places import Spec

_UNFINISHED = ("not ", "left ", "unfinished", "incomplete")
_EXCEPTING = (
    "but", "except", "except for", "all but", "apart from", "save", "save for", "other than", "with exception of",
    "with the exception of", "excepting",
)  # fmt: skip
_AT_A_PLACE = re.compile(r"[IA](?:cn|n|s[nx]|o-?s|on|q)")
_IN_ALL = ("in all", "altogether", "in total")
_FIRST_PLACED = 2
"""From this on a place alone may name a wall; "the first" is said of too much else."""


def walls(s: Letters, match: re.Match[str]) -> list[Atom]:
    pre = match["pre"]
    inside = range(match.start("core"), match.end("core"))
    letters = match["core"]
    # "One in the second wall and one in the fifth."
    things = {at for at in inside if letters[0] == "o" and s.letters[at : at + 2] == "nI"}
    numbers = [s.number(at) for at in inside if s.letters[at] in "no" and at not in things]
    if 0 in numbers and letters[0] == "o":
        # "The odd walls" are told by no number.
        return every(s, match)
    if re.search(r"n[-U]n", letters) and len(numbers) == 2:
        numbers = list(range(numbers[0], min(numbers[1], numbers[0] + 40) + 1))
    followed = match["post"] == ">" and s.words(match.end() - 1, match.end()).lower() == "followed by"
    at = "end" if set("AEBOZX") & set(pre) or match["post"] in ("E", "Q") or followed else ""
    if set("BO") & set(pre):
        numbers = [number - 1 for number in numbers]
    if "Z" in pre:
        numbers = numbers[:1]
    facing = next((s.lexemes[i].facing for i in inside if s.letters[i] == "f"), None)
    if facing is not None and _starts_itself(s, inside):
        span = s.span(match.start(), match.end())
        told = Atom("walls", match.start(), match.end(), tuple(numbers), at, span=span)
        return [told, Atom("face", match.end() - 1, match.end(), facing=facing, starts=True)]
    if facing is not None:
        return _by_facing(s, match, numbers, facing)
    span = s.span(match.start(), match.end())
    ends = match["post"] in ("E", "Q")
    if match["post"] == "E" and len(numbers) > 1 and _AT_A_PLACE.match(s.letters, match.end()):
        # "Walls 2 and 6 both end at count 16": they do, not the dance.
        told = Atom("walls", match.start(), match.end() - 1, tuple(numbers), span=span)
        return [told, Atom("act", match.end() - 1, match.end(), act="R", ends=True)]
    if match["post"] == "Q" and s.words(match.end() - 1, match.end()).lower().startswith(_UNFINISHED):
        # "The seventh wall is not completed": the dance ends within it.
        told = Atom("walls", match.start(), match.end() - 1, tuple(numbers), span=span)
        return [told, Atom("act", match.end() - 1, match.end(), act="Q")]
    return [Atom("walls", match.start(), match.end(), tuple(numbers), at, span=span, nth=facing, declares=ends)]


def _starts_itself(s: Letters, inside: range) -> bool:
    """Whether a time through is what starts there, "the second time starts at the back", and no dancer then."""
    pairs = [(a, b) for a, b in pairwise(inside) if s.letters[a] + s.letters[b] == "ty"]
    return any(
        s.lexemes[a].last == s.lexemes[b].first and s.words(b, b + 1).lower() in ("starts", "begins", "commences")
        for a, b in pairs
    )


def up_to_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Every wall as far as one: "after every wall up to and including wall 4"."""
    last = s.number(next(at for at in range(match.start("upto"), match.end()) if s.letters[at] in "no"))
    at = "end" if set("AE") & set(match["pre"]) else ""
    span = s.span(match.start(), match.end())
    return [Atom("walls", match.start(), match.end(), tuple(range(1, min(last, 24) + 1)), at, span=span)]


def all_but(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The one wall that is not danced as all others: "every wall is a whole one but the fifth"."""
    told = s.words(match.start("core") - 1, match.start("core")).lower() in _EXCEPTING
    return [replace(atom, but=True) for atom in walls(s, match)] if told else []


def first_walls(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """So many walls from the first: "the first three walls are plain"."""
    if s.number(match.start("first")) != 1 or "p" in s.letters:
        return None
    many = s.number(match.start("first") + 1)
    at = "end" if set("AEBOZ") & set(match["pre"]) else ""
    return [Atom("walls", match.start(), match.end(), tuple(range(1, many + 1)), at, span=s.span(*match.span()))]


def not_so(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A wall that is not danced as all others: "every wall is danced to the end, only wall 4 is not"."""
    return [replace(atom, but=True) for atom in walls(s, match)]


def after_them(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The ends of the walls told before: "after each of them"."""
    return [Atom("walls", match.start(), match.end(), at="end", every="them")]


def numbered_round(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A wall as the round of its number: "in round 6 you ..."; "times 7" is none."""
    word = s.words(match.start("core"), match.start("core") + 1).lower()
    return [] if word.endswith("s") and word != "pass" else walls(s, match)


def _by_facing(s: Letters, match: re.Match[str], numbers: list[int], facing: Fraction) -> list[Atom]:
    """Walls that begin, or end, with a facing: "the second time you start at the back"."""
    core = match["core"]
    ends = bool(set("QXE?") & set(core))
    head = s.words(match.start("core"), match.start("core") + 1).lower()
    many = core[0] in "vW" or head in ("whenever", "each time", "every time")
    many |= any(s.lexemes[at].text == "walls" for at in range(match.start("core"), match.end("core")))
    at = "end" if ends or set("AEBOZ") & set(match["pre"]) else ""
    if set("BO") & set(match["pre"]):
        at = ""
    span = s.span(match.start(), match.end())
    every = "every" if many and not numbers else ""
    told = tuple(numbers) or (1,)
    return [
        Atom(
            "walls",
            match.start(),
            match.end(),
            told,
            at,
            every=every,
            span=span,
            nth=facing,
            ends=ends,
            vague=not numbers,
        )
    ]


def wall_by_facing(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A wall of the room that stands for the wall of the dance that begins there, or no more than a facing."""
    at = match.start("core")
    if (
        not s.lexemes[at].text
        or not (match["pre"] or at == 0 or s.letters[at - 1] in ":.;(")
        or match["pre"] in ("U", "D")
    ):
        return [_no_wall(s, match)]
    before = s.words(at - 1, at).lower() if match["pre"].endswith("I") else ""
    if before and before not in ("on", "in", "during", "of", "into"):
        return [_no_wall(s, match)]
    if not match["pre"] and _seen(s, at):
        return [_no_wall(s, match)]
    return _by_facing(s, match, [], s.lexemes[at].facing or Fraction(0))


_SEEING = {"have", "see", "find", "meet", "got", "has", "greet", "show", "shows", "brings", "bring"}
_AHEAD = {"before", "ahead", "opposite"}


def _seen(s: Letters, at: int) -> bool:
    """Whether a wall of the room is what the dancers see: "You will have the Front wall before you"."""
    before = s.tokens[max(0, s.lexemes[at].first - 4) : s.lexemes[at].first]
    after = s.tokens[s.lexemes[at].last : s.lexemes[at].last + 2]
    ahead = bool(after) and after[0].low in _AHEAD and (len(after) == 1 or after[1].low in ("you", "us", "of", "."))
    return ahead or any(token.low in _SEEING for token in before)


_ITS_END = re.compile(r"\)?[,:\-]E(?=[,:])")
"""Behind a facing, what is told of the end of the wall named before it: "2nd wall (9:00) - at the end, tag"."""


def _no_wall(s: Letters, match: re.Match[str]) -> Atom:
    """A facing; straight after a wall's number "from" says that the wall begins with it: "wall 2, from 6:00".

    "After wall 2, from 6:00" is where what follows the wall begins.
    """
    leads = bool(re.search("(?<!A)(?<!EI)(?:wn|o[wt])[,(:]?$", s.letters[: match.start()]))
    starts = leads and s.words(match.start(), match.start() + 1).lower() == "from"
    starts |= leads and _ITS_END.match(s.letters[match.end() :]) is not None
    return Atom("face", match.start(), match.end(), facing=s.lexemes[match.start("core")].facing, starts=starts)


def times_danced(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The end of a wall, told by how often the dance has been danced: "when you have done it twice"."""
    at = match.start("core")
    number = 2 if s.letters[at] == "k" else s.number(at)
    return [Atom("walls", match.start(), match.end(), (number,), "end", span=s.span(match.start(), match.end()))]


def bare_walls(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Walls by their numbers alone: "restart on 3 and 6"."""
    first, last = s.lexemes[match.start("core")].first, s.lexemes[match.end() - 1].last
    if any(token.kind == "amp" and token.glued for token in s.tokens[first:last]):
        # "On 3&4 do a right kick-ball-change" counts steps.
        return []
    found = walls(s, match)
    at = match.start("core")
    length = s.letters[match.end() : match.end() + 1] in ("A", "E", "I") or s.lexemes[at].text in ("bar", "bars")
    if s.words(match.start("pre"), match.end("pre")).lower() == "of" and match.end() == at + 1 and length:
        # "A tag of two bars after walls 1 and 3".
        return [Atom("act", match.start(), match.end(), act=s.letters[match.start() - 1], counts=s.number(at))]
    if s.words(match.start("pre"), match.end("pre")).lower() in ("on", "in", "during", "of"):
        return found
    spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=s.number(at), suffix=s.lexemes[at].suffix)
    return [Atom("loose", match.start(), at + 1, spec=spec)]


def short_walls(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The numbers of walls of which was told how much is danced: "two walls are cut to 16: 3 and 7"."""
    return walls(s, match) if re.search("W[^:]*[KRTG][^:]*:$", s.letters[: match.start()]) else []


def one_more(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Another wall where the word was said before: "in the second wall after 12, and in the sixth after 20"."""
    return walls(s, match) if set("wW") & set(s.letters[: match.start()]) else []


def total(s: Letters, match: re.Match[str]) -> list[Atom]:
    """How many walls are danced."""
    if s.letters[match.end() - 1] == "0" and s.words(match.end() - 1, match.end()).lower() not in _IN_ALL:
        return []
    return [Atom("total", match.start(), match.end(), number=s.number(match.start("total")))]


def wall_by_place(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A wall named by its place alone: "The sixth brings you to 12:00", "on the eighth do the first 8"."""
    at = match.start("core")
    first = s.lexemes[at].first
    named = first > 0 and s.tokens[first - 1].low in ("the", "your", "our")
    opens = match.start() == 0 or s.letters[match.start() - 1] in ".,:;("
    number = s.number(at)
    if s.letters[: match.start()].endswith(("&", ">")):
        # "The fourth and fifth time are whole, and after the fifth ..."
        opens = bool(re.search("ot|wn|ow|Wn", s.letters[: match.start()]))
    if "B" in match["pre"]:
        # "A tag before the fifth" comes after the fourth, unless that was said.
        opens, number = not re.search("[wW]|[AEB]o", s.letters[: match.start()]), number - 1
    if not named or not opens or s.number(at) < _FIRST_PLACED or "p" in s.letters:
        return []
    ends = "B" in match["pre"] or s.letters[at + 1 : at + 2] == "?" or "E" in match["pre"] or "A" in match["pre"]
    span = s.span(match.start(), match.end())
    return [Atom("walls", match.start(), match.end(), (number,), "end" if ends else "", span=span)]


def between_places(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The end of the first of two walls, the word for them said before: "between the fifth and the sixth add ..."."""
    return walls(s, match) if re.search("ot|wn|ow|Wn", s.letters[: match.start()]) else None


def so_does(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Another wall that goes as the one before: "so does the fifth", "and so is the sixth"."""
    words = [token.low for token in s.tokens[:4]]
    return walls(s, match) if "so" in words[:2] else []


def is_the_wall(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """A wall that is said to be the one: "the only short wall is the sixth"."""
    at = match.start("core")
    between = s.tokens[s.lexemes[at - 1].first : s.lexemes[at].first]
    return walls(s, match) if any(token.low in ("is", ":", ",", "-", "was") for token in between) else None


def same_there(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """A wall by its place alone that goes as the one before: "the same happens in the fifth"."""
    return walls(s, match) if {"same", "likewise", "too", "also"} & {token.low for token in s.tokens} else None


def last_wall(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The last wall by its number: the dance ends in it."""
    if s.letters[match.end() - 1] == "X" and s.words(match.end() - 1, match.end()).lower().startswith("to "):
        # "Wall 5 to end: normal."
        return walls(s, match)
    ending = Atom("act", match.start(), match.start(), act="X", declares=False)
    return [ending, *walls(s, match)]


def walls_with_counts(s: Letters, match: re.Match[str]) -> list[Atom]:
    """How much is danced of each wall of a list: "walls 3 (16 counts) and 7 (24 counts)"."""
    atoms = []
    where = "end" if set("AE") & set(match["pre"]) else ""
    for at in range(match.end("pre"), match.end()):
        if s.letters[at] == "n" and s.letters[at - 1] in "wW:#,&":
            atoms.append(Atom("walls", at, at + 1, (s.number(at),), where, span=s.span(at, at + 1)))
        elif s.letters[at] == "n":
            lexeme = s.lexemes[at]
            spec = Spec(s.span(at, at + 1), s.words(at, at + 1), count=lexeme.number, suffix=lexeme.suffix)
            atoms.append(Atom("loose", at, at + 1, spec=spec, act="c"))
    return atoms


def walls_with_facings(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A facing for each wall of a list: "walls 3 (6:00), 5 (12:00)"."""
    atoms = []
    where = "end" if set("AE") & set(match["pre"]) else ""
    for at in range(match.end("pre"), match.end()):
        if s.letters[at] == "n" and s.letters[at - 1] in "YIy":
            facing = Fraction(s.number(at) % 12, 12)
            atoms.append(Atom("face", at, at + 1, facing=facing, starts=s.letters[at - 2] == "y"))
        elif s.letters[at] == "n":
            atoms.append(Atom("walls", at, at + 1, (s.number(at),), where, span=s.span(at, at + 1)))
        elif s.letters[at] == "f":
            atoms.append(Atom("face", at, at + 1, facing=s.lexemes[at].facing))
    return atoms


def times_with_facings(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The facings with which walls begin, each named as a time through."""
    atoms = []
    for at in range(match.start(), match.end()):
        if s.letters[at] == "o":
            atoms.append(Atom("walls", at, at + 1, (s.number(at),), span=s.span(at, at + 1)))
        elif s.letters[at] == "f":
            atoms.append(Atom("face", at, at + 1, facing=s.lexemes[at].facing, starts=True))
    return atoms


def every(s: Letters, match: re.Match[str]) -> list[Atom]:
    words = s.words(match.start("core"), match.end("core")).lower()
    every = "every"
    if "odd" in words:
        every = "odd"
    elif any(word in words for word in ("even", "other", "alternat", "second", "2nd")):
        every = "even"
    elif "L" in match["core"]:
        every = "last"
    step = next((s.number(at) for at in range(*match.span("core")) if s.letters[at] == "o" and s.number(at) > 2), 0)
    part = next((one.text for one in s.lexemes[match.start() : match.end()] if one.kind == "p"), "")
    at = "end" if set("AEB") & set(match["pre"]) else ""
    span = s.span(match.start(), match.end())
    return [Atom("walls", match.start(), match.end(), at=at, every=every, part=part, span=span, number=step)]


def short_part(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The passes of a part that the order of play marks as another form of it."""
    part = next(one.text for one in s.lexemes[match.start() : match.end()] if one.kind == "p")
    at = "end" if set("AEBZ") & set(match["pre"]) else ""
    span = s.span(match.start(), match.end())
    return [Atom("walls", match.start(), match.end(), (), at, part, "short", span)]


def noted_part(s: Letters, match: re.Match[str]) -> list[Atom] | None:
    """The passes of a part that a note tells of: "* in this A we dance only ..."; "*A = ..." names them itself."""
    after = [token.low for token in s.tokens[s.lexemes[match.start("core")].last :][:2]]
    return short_part(s, match) if {"this", "these"} & set(after) else None


def passes(s: Letters, match: re.Match[str]) -> list[Atom]:
    inside = range(match.start("core"), match.end("core"))
    numbers = tuple(s.number(at) for at in inside if s.letters[at] in "no")
    part = next(s.lexemes[at].text for at in inside if s.letters[at] == "p")
    at = "end" if set("AEB") & set(match["pre"]) else ""
    every = "" if numbers else "every"
    if "B" in match["pre"]:
        at = "before"
    return [Atom("walls", match.start(), match.end(), numbers, at, part, every, s.span(match.start(), match.end()))]


def numbered_pass(s: Letters, match: re.Match[str]) -> list[Atom]:
    """A pass by its number: "A number 3"; without the word the number is a length."""
    at = match.start("core")
    between = s.tokens[s.lexemes[at].last : s.lexemes[at + 1].last]
    if any(token.low in SIGNS for token in between):
        return passes(s, match)
    return [Atom("loose", at + 1, at + 2, spec=number_spec(s, at + 1))]
