"""Tokens to lexemes: what each word of a clause is to a dancer (a move, a foot, a way, an amount of turn ...).

The names of moves and figures come from dance/figures.toml, all other words from wording.toml. The longest phrase wins;
words of a phrase may be joined by hyphens. A word that no table knows may be a slip of the pen for one of the trade: one
letter wrong, missing, too much, or two swapped.
"""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import cache
from typing import Any, Literal, NamedTuple

from trainer.dance.figures import figures, moves
from trainer.routine import Span
from trainer.sheet.prose.slips import glued_foot, slip_of
from trainer.sheet.prose.wording import bare, wording
from trainer.sheet.prose.words import Token
from trainer.terms import Direction, Foot, Move

LexKind = Literal[
    "foot", "side", "run", "part", "move", "way", "prep", "ref", "to", "figure", "amount", "turn", "turning", "number",
    "facing", "weighted", "task", "glue", "style", "unknown", "break", "open", "close",
]  # fmt: skip
"""What a lexeme is.

foot: surely a foot. side: right or left, a foot or a direction. run: several feet. part: of the body. way: a direction.
prep: a way that names a foot only as a reference if one follows. ref: such a reference. to: "to the right". turn: a word
of turning; turning: a whole phrase of turning. weighted: a note of weight. task: a word of grammar. break: punctuation.
"""


class Lex(NamedTuple):
    """A word or phrase with what it is."""

    kind: LexKind
    value: Any
    """Its meaning: Foot, Move, Direction, Fraction ... as its kind has it."""
    low: str
    span: Span
    ing: bool = False
    """A form in -ing: "sweeping"."""
    way: Direction | None = None
    """The way that the word itself tells: "close" goes together."""
    typo: bool = False
    """Read through a slip of the pen."""


_NOT_NAMES = {
    "rock step", "walks", "runs", "full turn", "spiral", "pivot turn", "hip bumps", "heel swivels", "cross unwind",
    "behind unwind", "arabesque", "out out", "in in", "step drag", "ball change",
}  # fmt: skip
"""Figures whose names are read word by word: their parts are moves and turns of their own."""

_KEPT_NAMES = {"ball change", "step pivot step", "step turn step"}
_SHORT_SIDES = {
    "r": Foot.RIGHT,
    "right": Foot.RIGHT,
    "l": Foot.LEFT,
    "left": Foot.LEFT,
    "rights": Foot.RIGHT,
    "lefts": Foot.LEFT,
}
_BREAKS = set(",.;:/+|>=!?•*")


@cache
def _phrases() -> Mapping[str, tuple[tuple[tuple[str, ...], Lex], ...]]:
    """Return every phrase by its first word, the longest first."""
    found: dict[tuple[str, ...], Lex] = {}
    for phrase, lex in _entries():
        found.setdefault(tuple(phrase.replace("-", " ").split()), lex)
    by_first: dict[str, list[tuple[tuple[str, ...], Lex]]] = {}
    for words, lex in found.items():
        by_first.setdefault(words[0], []).append((words, lex))
    return {first: tuple(sorted(entries, key=lambda entry: -len(entry[0]))) for first, entries in by_first.items()}


def _lex(kind: LexKind, value: Any, low: str, *, ing: bool = False, way: Direction | None = None) -> Lex:
    return Lex(kind, value, low, Span(0, 0, 0), ing, way)


def _entries() -> Iterator[tuple[str, Lex]]:
    """Yield phrases with their lexemes; the first entry of a phrase counts."""
    table = wording()
    for kind, section in (("turn", "turning"), ("amount", "amounts"), ("number", "numbers")):
        for value, phrases in table[section].items():
            told = value if kind == "turn" else Fraction(value) if kind == "amount" else int(value)
            for phrase in phrases:
                yield phrase, _lex(kind, told, phrase, ing=kind == "turn" and phrase.split()[0].endswith("ing"))  # type: ignore[arg-type]
    yield from _figure_entries()
    for key, phrases in table["verbs"].items():
        name, _, way = key.partition(":")
        for phrase in phrases:
            yield from _inflected(phrase, Move(name), Direction(way) if way else None)
    for move, row in moves().items():
        if move not in (Move.PIVOT, Move.TURN, Move.UNWIND):
            for phrase in row.words:
                if phrase == "ball step":
                    continue
                if phrase in ("ball", "heel", "toe"):
                    yield phrase, _lex("part", phrase, phrase)
                    yield phrase + "s", _lex("part", phrase, phrase)
                yield from _inflected(phrase, move, Direction.TOGETHER if phrase == "close" else None)
    for value, phrases in table["references"].items():
        for phrase in phrases:
            yield phrase, _lex("prep", Direction(value), phrase)
    for value, phrases in table["ways"].items():
        for phrase in phrases:
            yield phrase, _lex("way", value if value == "diagonal" else Direction(value), phrase)
    for kind, section in (("part", "parts"), ("task", "tasks")):
        for value, phrases in table[section].items():
            for phrase in phrases:
                yield phrase, _lex(kind, value, phrase)  # type: ignore[arg-type]
    for phrase in table["glue"]["phrases"]:
        yield phrase, _lex("glue", None, phrase)
    for kind, section in (("style", "styling"), ("glue", "glue")):
        for word in table[section]["words"].split():
            yield word, _lex(kind, None, word)  # type: ignore[arg-type]


def _figure_entries() -> Iterator[tuple[str, Lex]]:
    for name, row in figures().items():
        for phrase in row.words:
            if name in _NOT_NAMES and phrase not in _KEPT_NAMES:
                continue
            yield phrase, _lex("figure", name, phrase)
            yield phrase + ("es" if phrase.endswith(("s", "x", "sh", "ch")) else "s"), _lex("figure", name, phrase)
            if " " not in phrase and phrase.endswith("e"):
                yield phrase[:-1] + "ing", _lex("figure", name, phrase)


def _inflected(phrase: str, move: Move, way: Direction | None) -> Iterator[tuple[str, Lex]]:
    yield (
        phrase,
        _lex(
            "move",
            move,
            phrase,
            ing=phrase.split()[0].endswith("ing") and phrase not in ("swing", "spring", "bring"),
            way=way,
        ),
    )
    first, _, rest = phrase.partition(" ")
    tail = f" {rest}" if rest else ""
    for form in _third(first):
        yield form + tail, _lex("move", move, phrase, way=way)
    for form in _past(first):
        yield form + tail, _lex("move", move, phrase, way=way)
    for form in _gerunds(first):
        yield form + tail, _lex("move", move, phrase, ing=True, way=way)
    if rest:
        for form in _third(phrase):
            yield form, _lex("move", move, phrase, way=way)


def _third(word: str) -> tuple[str, ...]:
    if word.endswith(("s", "x", "sh", "ch", "z")):
        return (word + "es",)
    return (word[:-1] + "ies", word + "s") if word.endswith("y") else (word + "s",)


def _past(word: str) -> tuple[str, ...]:
    return (word + "d",) if word.endswith("e") else (word + "ed", word + word[-1] + "ed")


def _gerunds(word: str) -> tuple[str, ...]:
    if word.endswith("e"):
        return (word[:-1] + "ing",)
    return (word + "ing", word + word[-1] + "ing", word + "in")


def lexemes(tokens: Sequence[Token], own: Mapping[tuple[str, ...], tuple[Token, ...]] | None = None) -> tuple[Lex, ...]:
    """Return the lexemes of an item's words; `own` are the sheet's own short forms with what they stand for."""
    return tuple(_read(tuple(tokens), own or {}, 0))


def _read(tokens: tuple[Token, ...], own: Mapping[tuple[str, ...], tuple[Token, ...]], depth: int) -> Iterator[Lex]:
    words = [_word(token) for token in tokens]
    at = 0
    while at < len(tokens):
        length, instead = _own_at(words, at, own) if depth < 3 else (0, ())
        if length:
            span = _across(tokens[at], tokens[at + length - 1])
            inner = {key: value for key, value in own.items() if key != tuple(words[at : at + length])}
            for lex in _read(instead, inner, depth + 1):
                yield lex._replace(span=span)
            at += length
            continue
        length, lex = _phrase_at(tokens, words, at)
        if length:
            low = "&" if tokens[at].kind == "amp" and length == 1 else lex.low
            yield lex._replace(low=low, span=_across(tokens[at], tokens[at + length - 1]))
            at += length
            continue
        yield from _single(tokens, at, depth)
        at += 1


def _word(token: Token) -> str:
    return "and" if token.kind == "amp" else bare(token.low)


def _across(first: Token, last: Token) -> Span:
    length = last.column + len(last.text) - first.column if last.line == first.line else len(first.text)
    return Span(first.line, first.column, max(length, 1))


def _own_at(
    words: Sequence[str], at: int, own: Mapping[tuple[str, ...], tuple[Token, ...]]
) -> tuple[int, tuple[Token, ...]]:
    if not own:
        return 0, ()
    for length in range(min(6, len(words) - at), 0, -1):
        name = tuple(words[at : at + length])
        found = own.get(name) or (own.get((*name[:-1], name[-1][:-1])) if name[-1].endswith("s") else None)
        if found is not None:
            return length, found
    return 0, ()


def _phrase_at(tokens: Sequence[Token], words: Sequence[str], at: int) -> tuple[int, Lex]:
    """Return how many tokens from `at` on are a phrase of the tables, and its lexeme."""
    first = words[at]
    for phrase, lex in _phrases().get(first, ()):
        end = _matched(tokens, words, at, phrase)
        if end:
            return end - at, lex
    return 0, _UNKNOWN


_UNKNOWN = Lex("unknown", None, "", Span(0, 0, 0))


def _matched(tokens: Sequence[Token], words: Sequence[str], at: int, phrase: tuple[str, ...]) -> int:
    """Return the index after a phrase that stands at `at`, 0 where it does not; hyphens may join its words."""
    end = at + 1
    for word in phrase[1:]:
        if end + 1 < len(words) and words[end] == "-" and tokens[end].glued and tokens[end + 1].glued:
            end += 1
        if end >= len(words) or words[end] != word:
            return 0
        end += 1
    return end


def _single(tokens: Sequence[Token], at: int, depth: int) -> Iterator[Lex]:
    token = tokens[at]
    word = bare(token.low)
    span = token.span
    if token.kind == "facing":
        yield Lex("facing", token.value, token.low, span)
    elif token.kind == "clock":
        yield Lex("glue", None, token.low, span)
    elif token.kind == "fraction":
        yield Lex("amount", token.value, token.low, span)
    elif token.kind == "amp":
        yield Lex("task", "and", "&", span)
    elif token.kind == "number":
        yield _number(tokens, at)
    elif token.kind == "mark":
        yield from _mark(tokens, at)
    else:
        yield from _plain_word(tokens, at, word, span, depth)


def _number(tokens: Sequence[Token], at: int) -> Lex:
    token = tokens[at]
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    if after in ("°", "deg", "degree", "degrees", "º") and token.text in wording()["degrees"]:
        return Lex("amount", Fraction(wording()["degrees"][token.text]), token.low, token.span)
    return Lex("number", int(token.text[:4]), token.low, token.span)


def _mark(tokens: Sequence[Token], at: int) -> Iterator[Lex]:
    token = tokens[at]
    if token.text in "([{<" and token.text != "<":
        yield Lex("open", None, token.text, token.span)
    elif token.text in ")]}":
        yield Lex("close", None, token.text, token.span)
    elif token.text == "/" and at and tokens[at - 1].low == "w" and token.glued:
        return
    elif token.text in _BREAKS:
        yield Lex("break", token.text, token.text, token.span)
    elif token.text in ("-", "~"):
        inside = token.glued and at + 1 < len(tokens) and tokens[at + 1].glued
        if not inside:
            yield Lex("break", "-", "-", token.span)


def _plain_word(tokens: Sequence[Token], at: int, word: str, span: Span, depth: int) -> Iterator[Lex]:
    side = _SHORT_SIDES.get(word)
    if side is not None:
        yield Lex("side", side, word, span)
        return
    if len(word) > 1 and set(word) <= {"r", "l"}:
        yield Lex("run", tuple(Foot.RIGHT if letter == "r" else Foot.LEFT for letter in word), word, span)
        return
    if word == "x":
        yield _ex(tokens, at, span)
        return
    glued = glued_foot(tokens[at].text, _trade())
    if glued:
        for piece in _read(_as_tokens(glued, tokens[at]), {}, depth + 1):
            yield piece._replace(span=span)
        return
    instead = wording()["short"].get(word)
    if instead and depth < 3:
        for piece in _read(_as_tokens(instead, tokens[at]), {}, depth + 1):
            yield piece._replace(span=span)
        return
    times = _times(word)
    if times:
        yield Lex("number", times, word, span)
        return
    slip = slip_of(word, _trade())
    if slip is not None:
        for piece in _read(_as_tokens(slip, tokens[at]), {}, depth + 1):
            yield piece._replace(span=span, typo=True)
        return
    yield Lex("unknown", None, word, span)


def _ex(tokens: Sequence[Token], at: int, span: Span) -> Lex:
    """Return what "x" is: "x 4" is times, a lone one is "cross"."""
    numbers = [tokens[near].kind == "number" for near in (at - 1, at + 1) if 0 <= near < len(tokens)]
    if any(numbers):
        return Lex("glue", None, "x", span)
    return Lex("prep", Direction.CROSS, "x", span)


def _times(word: str) -> int:
    if len(word) == 2 and word[0] == "x" and word[1].isdigit():
        return int(word[1])
    return 0


def _as_tokens(text: str, place: Token) -> tuple[Token, ...]:
    return tuple(Token("word", word, word, place.line, place.column) for word in text.split())


@cache
def _trade() -> Mapping[str, tuple[str, ...]]:
    """Return the words of the trade of four letters and more, by their first letter."""
    words = {
        phrase[0]
        for entries in _phrases().values()
        for phrase, lex in entries
        if lex.kind in _SLIPPING and len(phrase) == 1
    }
    words |= {"right", "left"}
    by_letter: dict[str, list[str]] = {}
    for word in sorted(words):
        if len(word) > 3 and word.isalpha():
            by_letter.setdefault(word[0], []).append(word)
    return {letter: tuple(found) for letter, found in by_letter.items()}


_SLIPPING = {"move", "way", "prep", "figure", "turn", "amount"}
