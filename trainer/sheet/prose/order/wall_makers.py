"""Atoms of walls and passes: "walls 2 and 5", "every other wall", "walls 3 (6:00), 5 (12:00)", "the second A"."""

import re

from trainer.sheet.prose.order.atoms import Atom, Letters
from trainer.sheet.prose.order.places import Spec


def walls(s: Letters, match: re.Match[str]) -> list[Atom]:
    pre = match["pre"]
    inside = range(match.start("core"), match.end("core"))
    numbers = [s.number(at) for at in inside if s.letters[at] in "no"]
    letters = match["core"]
    if re.search(r"n[-U]n", letters) and len(numbers) == 2:
        numbers = list(range(numbers[0], min(numbers[1], numbers[0] + 40) + 1))
    at = "end" if set("AEBOZ") & set(pre) or match["post"] else ""
    if set("BO") & set(pre):
        numbers = [number - 1 for number in numbers]
    if "Z" in pre:
        numbers = numbers[:1]
    facing = next((s.lexemes[i].facing for i in inside if s.letters[i] == "f"), None)
    span = s.span(match.start(), match.end())
    ends = bool(match["post"])
    return [Atom("walls", match.start(), match.end(), tuple(numbers), at, span=span, nth=facing, declares=ends)]


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
        if s.letters[at] == "n":
            atoms.append(Atom("walls", at, at + 1, (s.number(at),), where, span=s.span(at, at + 1)))
        elif s.letters[at] == "f":
            atoms.append(Atom("face", at, at + 1, facing=s.lexemes[at].facing))
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
    part = next((one.text for one in s.lexemes[match.start() : match.end()] if one.kind == "p"), "")
    at = "end" if set("AEB") & set(match["pre"]) else ""
    span = s.span(match.start(), match.end())
    return [Atom("walls", match.start(), match.end(), at=at, every=every, part=part, span=span)]


def passes(s: Letters, match: re.Match[str]) -> list[Atom]:
    inside = range(match.start("core"), match.end("core"))
    numbers = tuple(s.number(at) for at in inside if s.letters[at] in "no")
    part = next(s.lexemes[at].text for at in inside if s.letters[at] == "p")
    at = "end" if set("AEB") & set(match["pre"]) else ""
    every = "" if numbers else "every"
    if "B" in match["pre"]:
        at = "before"
    return [Atom("walls", match.start(), match.end(), numbers, at, part, every, s.span(match.start(), match.end()))]
