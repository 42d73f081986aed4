"""Sayings about walls in the words of one teacher, told in words that every stage reads (the tables beside).

A row has a pattern over the words of a line and what is said instead; what its groups hold keeps its tokens and places.
Rows come in order, each over what the rows before it left. A row may ask for what stands before it in the line by a
pattern of its own, `behind`: no pattern begins with "anything", since every place of a line is tried. Common practice,
no source.
"""

import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache, lru_cache
from importlib.resources import files
from itertools import pairwise

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_TABLES = ("words", "places", "extras", "walls", "changes")
"""Patterns by name, and what they stand in; the tables are gone through in this order."""
_LONGEST = 400
"""Tokens of a line that is looked at; no order is told in longer ones."""
_GROUP = re.compile(r"\{(\d)\}")
_WORD = re.compile(r"\w")
_GAP = 2
"""Blanks that part the cells of a row."""
_CELLS = 3
_WRAPPED = 6
"""Tokens of a line that may be wrapped; a shorter one is a row."""


@dataclass(frozen=True, slots=True)
class _Saying:
    pattern: re.Pattern[str]
    told: tuple[str, ...]
    """Words and marks, and the groups between them as "{1}"."""
    behind: re.Pattern[str] | None
    """What the words before it must hold; None: anything may stand there."""

    def found_in(self, words: str) -> list[re.Match[str]]:
        """Return where it is said in the words of a line."""
        found = self.pattern.finditer(words)
        return [one for one in found if self.behind is None or self.behind.search(words[: one.start()])]


def with_sayings(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such sayings told plainly; rows of a table keep their cells until those are sentences.

    Each line is told by itself first, as rows about whole lines ask; then a saying may run over the end of a wrapped
    line. A line that says nothing besides is left out.
    """
    told = [line.tokens if _is_a_row(line) else told_plainly(line.tokens) for line in lines]
    for first, last in _wrapped(lines):
        whole = told_plainly(tuple(token for tokens in told[first:last] for token in tokens))
        told[first:last] = _in_lines(whole, lines[first:last])
    return tuple(
        line if tokens == line.tokens else replace(line, tokens=tokens, source="")
        for line, tokens in zip(lines, told, strict=True)
        if tokens
    )


def _wrapped(lines: Sequence[Line]) -> Iterator[tuple[int, int]]:
    """Yield the first and the line after the last of each run of lines that are wrapped sentences."""
    first = 0
    for at in range(1, len(lines) + 1):
        if at < len(lines) and _runs_on(lines[at - 1], lines[at]):
            continue
        if at - first > 1:
            yield first, at
        first = at


def _runs_on(line: Line, after: Line) -> bool:
    """Whether a line of prose is wrapped into the next: it ends inside a sentence, and that one begins inside it."""
    if not line.tokens or not after.tokens or after.number != line.number + 1 or _is_a_row(line) or _is_a_row(after):
        return False
    opens = after.tokens[0]
    if any(token.line != one.number for one in (line, after) for token in one.tokens):
        # A footnote was put in its place.
        return False
    inside = opens.kind == "word" and opens.text[:1].islower() and line.tokens[-1].text not in (".", "!", "?", ":")
    return inside and line.indent == after.indent and len(line.tokens) >= _WRAPPED


def _in_lines(tokens: tuple[Token, ...], lines: Sequence[Line]) -> list[tuple[Token, ...]]:
    """Return tokens by the lines that they stand in; what is told earlier than it stands goes to the earlier line."""
    done: list[tuple[Token, ...]] = []
    for line in lines:
        last = max((at + 1 for at, token in enumerate(tokens) if token.line <= line.number), default=0)
        done.append(tokens[:last])
        tokens = tokens[last:]
    return done


def _is_a_row(line: Line) -> bool:
    """Whether a line stands in three cells or more, each apart from the one before by blanks, a tab or a stroke."""
    parted = [
        at
        for at, (before, token) in enumerate(pairwise(line.tokens))
        if token.column - before.column - len(before.text) >= _GAP
        or "\t" in line.source[before.column - 1 : token.column - 1]
        or token.text == BREAK
    ]
    return bool(line.source) and len(parted) >= _CELLS - 1


@cache
def _sayings() -> tuple[_Saying, ...]:
    folder = files("trainer.sheet.prose.sayings")
    words, *tables = (tomllib.loads((folder / f"{name}.toml").read_text(encoding="utf-8")) for name in _TABLES)
    names: dict[str, str] = {}
    for name, pattern in words["words"].items():
        names[name] = _filled(pattern, names)
    return tuple(
        _Saying(
            re.compile(rf"(?<!\S)(?:{_filled(row['said'], names)})(?!\S)"),
            tuple(row["told"].split()),
            re.compile(_filled(row["behind"], names)) if "behind" in row else None,
        )
        for table in tables
        for row in table["saying"]
    )


def _filled(pattern: str, names: dict[str, str]) -> str:
    """Return a pattern with its names, as "<N>", in full."""
    return re.sub(r"<([A-Z]+)>", lambda match: f"(?:{names[match[1]]})", pattern)


@lru_cache(maxsize=4096)
def told_plainly(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the words of a line or of a sentence, such sayings told plainly; each view of a page asks again."""
    if len(tokens) > _LONGEST:
        return tokens
    words = _words_of(tokens)
    for saying in _sayings():
        if found := saying.found_in(words):
            tokens = _by(saying, found, tokens)
            words = _words_of(tokens)
    return tokens


def _words_of(tokens: Sequence[Token]) -> str:
    return " ".join([token.low for token in tokens])


def _by(saying: _Saying, found: Sequence[re.Match[str]], tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return tokens, one saying told plainly where it was found in their words."""
    starts = [0]
    for token in tokens:
        starts.append(starts[-1] + len(token.low) + 1)
    done: list[Token] = []
    at = 0
    for match in found:
        first, last = _tokens_of(match.span(), starts)
        done += [*tokens[at:first], *_instead(saying, match, tokens, starts)]
        at = last
    return (*done, *tokens[at:])


def _tokens_of(span: tuple[int, int], starts: Sequence[int]) -> tuple[int, int]:
    """Return the first token of a span of the words, and the one after its last."""
    return bisect_left(starts, span[0]), bisect_left(starts, span[1])


def _instead(saying: _Saying, match: re.Match[str], tokens: Sequence[Token], starts: Sequence[int]) -> Iterator[Token]:
    """Yield what is said in place of a match, at the place of its first token or of the group before."""
    near = tokens[_tokens_of(match.span(), starts)[0]]
    glued, opened = near.glued, False
    for word in saying.told:
        group = _GROUP.fullmatch(word)
        if group is None:
            yield _like(near, word)
            opened = True
        elif match[int(group[1])]:
            first, last = _tokens_of(match.span(int(group[1])), starts)
            yield tokens[first] if opened else replace(tokens[first], glued=glued)
            yield from tokens[first + 1 : last]
            opened = True
            near = tokens[last - 1]


def _like(near: Token, text: str) -> Token:
    """Return a word, number or mark at the place of a token."""
    if text.isdecimal():
        return number_like(near, int(text))
    return word_like(near, text) if _WORD.match(text) else mark_like(near, text)
