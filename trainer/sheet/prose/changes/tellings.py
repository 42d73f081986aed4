"""Where a sheet tells what is danced otherwise on some walls, and the sheet without it.

A telling is what is said of some walls, from where they are named to where others are, or the paragraph ends. It may
stand below the dance, in a paragraph of its own or in one with other talk; in brackets or in a cell beside the steps
that it changes; or be a row of steps, told a second time for a wall.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from trainer.sheet.prose.changes.walls_told import Walls, only_begins, walls_in
from trainer.sheet.prose.changes.wording import Words, faced_in, words_of
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.tokens import plain, tokens_of
from trainer.sheet.prose.words import Token

_LONGEST = 300
"""So many tokens has no telling."""
_BRACKETED = re.compile(r"\(([^()]*)\)|\[([^\[\]]*)\]")
_CELLS = re.compile(r"\s*(?:\||\t|>>>|\s{3,})\s*")
_ONLY_WALLS = re.compile(r"(?:in |on )?$")
_BEGUN = re.compile(
    r"\(? ?(?:which |it |that |you )*(?:begin|start)s? [^)]*\)|\(? ?(?:which |it |you )*(?:begin|start)s? [^),:.]*"
)
_MARK = re.compile(r"^\s*(\*+|\(\*+\)|\+|†|\(!\)|#)\s*(?=\w)")
_OPENING = re.compile(r"^[^\w\"'\[(]*(?:\(!\) ?)?")
"""Bullets and marks that open a line."""
_HEADING = re.compile(
    r"\W*(?:(?:the|step|small|two|some|one|only|a|wall|and)\W+)*(?:changes?|modifications?|differences|"
    r"exceptions?|specials?|notes?|heads[ -]up|\(heads up\)|variations?)\W*",
    re.IGNORECASE,
)
_EVERY = re.compile(r"[(\[](?:the )?same (?:in|on|for) (?:all|every|each) walls?[)\]]", re.IGNORECASE)
_ORIGINAL = re.compile(
    r"[(\[](?:original|as written|other walls|all other walls|usual|usually|normal|normally)[)\]]", re.IGNORECASE
)
_FACTS = re.compile(r"\b(?<!wall )(?<!w )\d+ (?:walls?|w) |\b(?:level|beginner|improver|intermediate)\b")


_ORDER = re.compile(r"\b(?:restart|tag|bridge|again|hold|wait|skip|leave|until|to|over|ends?|counts? \d+)\b")


@dataclass(slots=True)
class Telling:
    """What is told of some walls."""

    walls: Walls
    sentences: list[tuple[Token, ...]] = field(default_factory=list)
    row: int = 0
    """The line whose steps it stands beside; 0 where it stands by itself."""
    column: int = 0
    """Where in that line it stands; 0: it is of the whole line."""
    rewrites: bool = False
    """It is a row of steps, told a second time."""
    starts: Fraction | None = None
    """The facing with which the walls are said to begin."""
    cuts: list[tuple[int, int, int]] = field(default_factory=list)
    """Line, first and last column of what tells it."""

    @property
    def text(self) -> str:
        """Its words."""
        return " ".join(words_of(one).text for one in self.sentences)

    @property
    def only_announces(self) -> bool:
        """Whether it says nothing that is danced: "the last 8 of wall 4!!!", "wall 3: see in brackets"."""
        return not any(_ORDER.search(words_of(one).text) for one in self.sentences)

    @property
    def line(self) -> int:
        """The first line that tells it."""
        return min(line for line, _, _ in self.cuts)


def tellings_in(text: str) -> list[Telling]:
    """Return what a sheet tells of single walls, in order."""
    raw = plain(text).split("\n")
    found: list[Telling] = []
    beside: dict[int, list[Telling]] = {}
    for number, line in enumerate(raw, 1):
        beside[number] = [*_in_brackets(number, line), *_in_cells(number, line)]
        found += beside[number]
    found += _in_paragraphs(raw, beside)
    _with_marks(raw, found)
    found = [one for one in found if sum(map(len, one.sentences)) < _LONGEST]
    return sorted(found, key=lambda one: (one.line, one.cuts[0][1]))


def without(text: str, tellings: Sequence[Telling]) -> str:
    """Return a sheet without what some tellings say; its lines keep their numbers."""
    lines = text.split("\n")
    for telling in tellings:
        for number, first, last in telling.cuts:
            old = lines[number - 1]
            lines[number - 1] = old[:first] + " " * (min(last, len(old)) - first) + old[last:]
    kept = []
    touched = {line for telling in tellings for line, _, _ in telling.cuts}
    for number, line in enumerate(lines, 1):
        if number + 1 in touched and _HEADING.fullmatch(line.strip()):
            line = ""
        line = _EVERY.sub("", line)
        if number in touched:
            line = _ORIGINAL.sub("", line)
            line = "" if not re.search(r"\w", line) else line.rstrip()
        kept.append(line)
    if any(telling.rewrites for telling in tellings):
        kept = [_ORIGINAL.sub("", line).rstrip() for line in kept]
    return "\n".join(kept)


def _in_brackets(number: int, line: str) -> Iterator[Telling]:
    """Yield what brackets in a line of steps tell of walls."""
    for match in _BRACKETED.finditer(line):
        inside = match[1] if match[1] is not None else match[2]
        at = match.start() + 1
        tokens = tokens_of(inside, number, at + 1)
        words = words_of(tokens)
        walls = walls_in(words)
        if walls is None or walls.first > 8:
            continue
        outside = tokens_of(line[: match.start()] + " " * len(match[0]) + line[match.end() :], number, 1)
        heads = bool(outside) and outside[0].kind == "number"
        if walls_in(words_of(outside)) is not None or not (_tells_steps(outside) or heads):
            continue
        rest = _after_walls(words, walls)
        told = [token for token in rest if token.kind == "word" and token.low not in ("only", "restart", "then", "and")]
        if told:
            yield Telling(
                walls, list(sentences(rest)), number, match.start(), cuts=[(number, match.start(), match.end())]
            )
        elif not any(token.low in STEP_WORDS for token in tokens_of(line[match.end() :], number, 1)):
            more = [token for token in rest if token.low == "restart"]
            told_row = [*outside, *more]
            yield Telling(walls, [tuple(told_row)], number, 0, rewrites=True, cuts=[(number, 0, len(line))])


def _in_cells(number: int, line: str) -> Iterator[Telling]:
    """Yield what the cells of a line of steps tell of walls."""
    parts = _parted(line)
    if len(parts) < 2:
        return
    for first, last in parts[1:]:
        tokens = tokens_of(line[first:last], number, first + 1)
        words = words_of(tokens)
        walls = walls_in(words)
        others = [token for a, b in parts if a != first for token in tokens_of(line[a:b], number, a + 1)]
        if walls is None or walls.first > 4 or not _tells_steps(others):
            continue
        rest = _after_walls(words, walls)
        if any(token.kind == "word" for token in rest):
            yield Telling(walls, list(sentences(rest)), number, first, cuts=[(number, first, last)])


def _parted(line: str) -> list[tuple[int, int]]:
    """Return where the cells of a line stand."""
    found, at = [], 0
    for match in _CELLS.finditer(line):
        if match.start() > at:
            found.append((at, match.start()))
        at = match.end()
    if at < len(line):
        found.append((at, len(line)))
    return found


def _tells_steps(tokens: Sequence[Token]) -> bool:
    return sum(token.low in STEP_WORDS for token in tokens) > 1 or any(
        token.low in ("hold", "clap") for token in tokens
    )


def _after_walls(words: Words, walls: Walls) -> tuple[Token, ...]:
    """Return what a sentence says of its walls, the words that name them left out."""
    before, rest = list(words.between(0, walls.first)), list(words.between(walls.last, len(words.text)))
    while before and before[-1].low in ("on", "in", "of", "the", "for", "during", "at", "only", "(", "[", "now"):
        before.pop()
    while rest and rest[0].low in (":", ",", "only", "-", ".", ")", "]", ";", "=", ">"):
        rest.pop(0)
    if rest and rest[0].text == "(":
        end = next((at for at, token in enumerate(rest) if token.text == ")"), 0)
        inside = rest[1:end]
        if end and not _tells_steps(inside):
            rest = rest[end + 1 :]
            while rest and rest[0].text in (":", ",", "-"):
                rest.pop(0)
    return (*before, *rest)


def _in_paragraphs(raw: Sequence[str], beside: dict[int, list[Telling]]) -> Iterator[Telling]:
    """Yield what sentences tell of walls, each with those behind it that tell more."""
    now: Telling | None = None
    for number, line in enumerate(raw, 1):
        for telling in beside[number]:
            for _, first, last in telling.cuts:
                line = line[:first] + " " * (last - first) + line[last:]
        line = _OPENING.sub(lambda match: " " * len(match[0]), line)
        if not line.strip() and now is not None and not _only_heads(now):
            yield now
            now = None
        for sentence in sentences(tokens_of(line, number, 1)):
            words = words_of(sentence)
            opened, told = _opened(words, now)
            if now is not None and (opened is not None or _states_facts(words)):
                yield now
                now = None
            now = opened or now
            if now is not None:
                now.sentences += [told] if told else []
                now.cuts.append((number, *_extent(line, sentence)))
    if now is not None:
        yield now


def _opened(words: Words, now: Telling | None) -> tuple[Telling | None, tuple[Token, ...]]:
    """Return the telling that a sentence opens, if any, and what it says of its walls."""
    walls = walls_in(words)
    if walls is None or _states_facts(words) or (now is not None and only_begins(words, walls)):
        return None, words.tokens
    same = now is not None and bool(walls.numbers) and now.walls.numbers == walls.numbers
    return None if same else Telling(walls, starts=_starts(words, walls)), _after_walls(words, walls)


def _starts(words: Words, walls: Walls) -> Fraction | None:
    """Return the facing that a bracket behind the walls says they begin with: "wall 3 (starts 12:00)"."""
    match = _BEGUN.match(words.text, walls.last)
    return faced_in(words.cut(match.start(), match.end())) if match is not None else None


def _only_heads(telling: Telling) -> bool:
    """Whether a telling has only its heading yet: "CHANGE ON WALL 4"."""
    told = [token for one in telling.sentences for token in one]
    return len(told) < 5 and not any(token.kind == "number" or token.text == "=" for token in told)


def _states_facts(words: Words) -> bool:
    return _FACTS.search(words.text) is not None


def _extent(line: str, sentence: Sequence[Token]) -> tuple[int, int]:
    """Return the columns of a sentence in its line, with the sign that ends it and what opens the line before it."""
    first, last = sentence[0].column - 1, sentence[-1].column - 1 + len(sentence[-1].text)
    while last < len(line) and line[last] in ".!?; ":
        last += 1
    if not re.search(r"\w", line[:first]):
        first = 0
    return first, last


def _with_marks(raw: Sequence[str], tellings: Sequence[Telling]) -> None:
    """Give notes that open with a mark the line of steps that bears it."""
    for telling in tellings:
        number = telling.line
        match = _MARK.match(raw[number - 1])
        if telling.row or match is None:
            continue
        mark = re.escape(match[1])
        borne = re.compile(rf"(?<![*+#])\s?{mark}(?![*+#])")
        for at, line in enumerate(raw[: number - 1], 1):
            places = [one for one in borne.finditer(line) if line[: one.start()].strip()]
            if places and _tells_steps(tokens_of(line, at, 1)):
                telling.row, telling.column = at, places[-1].start()
                telling.cuts.append((at, places[-1].start(), places[-1].end()))
                break
