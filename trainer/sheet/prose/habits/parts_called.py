"""Parts of a phrased dance that go by names of their own, "Plum" and "Crumble", told as the parts A and B.

A name is one word that stands alone, with a length at most, above steps; there are two at least, and some other line
names them again and again, as an order of play does. Common practice, no source.
"""

import re
from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.habits.parts_by_names import with_parts_by_names
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LETTERS = "ABCDEFGH"
_FEWEST = 2
_OFTEN = 3
"""So often a line that tells their order names them."""
_ARTICLES = {"the", "our", "a", "an"}
_LENGTH = {"counts", "count", "cts", "ct", "beats", "beat", "steps"}
_LEADING = {
    "a", "an", "the", "another", "one", "two", "three", "four", "each", "every", "last", "first", "second", "third",
    "fourth", "next", "final", "our", "this", "that", "and", "then", ",", "of", "by", "more", "-", "+", "no", "any",
}  # fmt: skip
"""Before these, or at the start of a sentence, a name may stand in small letters too."""
_NO_NAMES = {
    "method", "order", "sequence", "steps", "notes", "note", "start", "music", "count", "counts", "dance", "restart",
    "walls", "wall", "ingredients", "description", "choreography", "phrasing", "repeat", "enjoy", "thanks",
}  # fmt: skip
_ORDINAL = {"part", "half", "movement", "theme", "piece"}
_SHORTEST = 3
_FEET = {"r", "l", "rf", "lf", "right", "left"}
_OPENED = re.compile(
    r"^(?P<part>part )?(?P<letter>[a-h]) (?:is|=|we call|i call) (?:the|our|my) (?P<name>[a-z]{3,})(?= [.:,!(]|$)"
    r"(?!.*\b(?:verse|chorus)\b)"
)
"""How a part is opened by a name that it goes by."""


def with_called_parts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, parts with names of their own called by letters."""
    if len(named := _named_at_once(lines)) >= _FEWEST:
        return tuple(_played(line, named) for line in lines)
    lines = with_parts_by_names(lines)
    heads = {at: name for at in range(1, len(lines)) if (name := name_over_steps(lines, at))}
    first = {name: at for at, name in reversed(heads.items())}
    # "6 Lute" over the steps of a tag is an item of the play.
    heads = {at: name for at, name in heads.items() if first[name] == at or lines[at].tokens[0].kind != "number"}
    names = list(dict.fromkeys(heads.values()))
    others = [line for at, line in enumerate(lines) if at and at not in heads]
    called = sum(any(_names(line, name) for line in others) for name in names)
    if not _FEWEST <= len(names) == len(heads) == called <= len(_LETTERS) or not _are_played(others, names):
        return tuple(lines)
    # "Two Ladles" are two As.
    letters = {
        f"{name}{end}": f"{letter}{end}" for name, letter in zip(names, _LETTERS, strict=False) for end in ("", "s")
    }
    told = {form for form in letters if not any(_is_capital(line, form) for line in others)}
    return tuple(
        _head(line, letters[heads[at]]) if at in heads else told_with_names(line, letters, told) if at else line
        for at, line in enumerate(lines)
    )


def _named_at_once(lines: Sequence[Line]) -> dict[str, str]:
    """Return the letters of parts by the names that they are opened with and called by: "Part A is the march."."""
    found: dict[str, str] = {}
    for line in lines:
        match = _OPENED.match(line.words)
        if match is not None and line.tokens[bool(match["part"])].text.isupper():
            found[match["name"]] = match["letter"].upper()
    called = [name for name in found if any(_names(line, name) for line in lines if not _OPENED.match(line.words))]
    letters = {form: found[name] for name in called for form in (name, f"{name}s", f"{name}es")}
    return letters if len(called) == len(found) == len(set(found.values())) else {}


def _played(line: Line, letters: Mapping[str, str]) -> Line:
    """Return a line that tells no steps with the letters of the parts that it calls by their names."""
    if _OPENED.match(line.words):
        return line
    often = sum(token.low in letters for token in line.tokens) >= _OFTEN
    if not often and any(token.low in _FEET for token in line.tokens):
        return told_with_names(line, letters)
    tokens = [
        replace(token, text=letters[token.low], low=letters[token.low].lower()) if token.low in letters else token
        for token in line.tokens
    ]
    return replace(line, tokens=tuple(tokens), source="") if tokens != list(line.tokens) else line


def name_over_steps(lines: Sequence[Line], at: int) -> str:
    """Return the name that is all a line says beside a length, over a line of steps; an empty text for none."""
    tokens = lines[at].tokens[_numbered(lines[at].tokens) :]
    said = [token for token in tokens if token.kind == "word" and token.low not in (_ARTICLES | _LENGTH)]
    numbers = sum(token.kind == "number" or token.low in NUMBERS for token in tokens)
    said = [token for token in said if token.low not in NUMBERS]
    if len(said) > 1 and not extra_kind(tokens):
        # "LADLE (verse, 32 counts)"
        said = [said[0], *(token for token in said[1:] if token.low not in SONG_PARTS)]
    if len(said) != 1 or numbers > 1 or len(tokens) > _OFTEN + 3 or any(token.text == "." for token in tokens[:-1]):
        return ""
    word = said[0]
    plain = len(word.low) >= _SHORTEST and word.text[0].isupper() and word.low not in (STEP_WORDS | _NO_NAMES)
    known = word.low in SONG_PARTS or extra_kind(tokens) or is_section_name(tokens)
    below = lines[at + 1] if at + 1 < len(lines) and lines[at + 1].number <= lines[at].number + 2 else None
    return word.low if plain and not known and below is not None and _tells_steps(below) else ""


def _numbered(tokens: Sequence[Token]) -> int:
    """Return how many tokens number a part before its name: "Part 1: Rain (32)"."""
    lows = [token.low for token in tokens[:3]]
    named = len(lows) > 2 and lows[0] in _ORDINAL and (lows[1].isdecimal() or lows[1] in NUMBERS)
    return 3 if named and lows[2] in (":", ".", "-", "=", ",") else 0


def _tells_steps(line: Line) -> bool:
    steps = sum(token.low in STEP_WORDS and token.low not in NUMBERS for token in line.tokens)
    return steps >= _FEWEST and (bool(marks_in(line.tokens, 0)) or steps >= 0.4 * len(line.tokens))


def _names(line: Line, name: str) -> int:
    """Return how often a line names a part."""
    return sum(_is_named(line.tokens, at, (name, f"{name}s")) for at in range(len(line.tokens)))


def _are_played(lines: Sequence[Line], names: Sequence[str]) -> bool:
    """Whether a paragraph names the parts as an order of play does."""
    for group in paragraphs_of(lines):
        often = {name: sum(_names(line, name) for line in group) for name in names}
        if sum(often.values()) >= _OFTEN and sum(map(bool, often.values())) > 1:
            return True
    return False


def paragraphs_of(lines: Sequence[Line]) -> list[list[Line]]:
    """Return the lines in groups, those without an empty line between them together."""
    groups: list[list[Line]] = []
    for line in lines:
        if groups and line.number == groups[-1][-1].tokens[-1].line + 1:
            groups[-1].append(line)
        else:
            groups.append([line])
    return groups


def _is_named(tokens: Sequence[Token], at: int, forms: Sequence[str] | Mapping[str, str]) -> bool:
    before = tokens[at - 1] if at else None
    led = before is None or before.low in _LEADING or before.text in (".", ":", "!", "?")
    return tokens[at].low in forms and (tokens[at].text[0].isupper() or led)


def _is_capital(line: Line, name: str) -> bool:
    """Whether a line has a name with a capital within a sentence: then the word in small letters is none."""
    return any(
        token.low == name and token.text[0].isupper() and before.kind == "word"
        for before, token in zip(line.tokens, line.tokens[1:], strict=False)
    )


def _head(line: Line, letter: str) -> Line:
    """Return a heading with the part's letter in the place of its name, and its length."""
    first = line.tokens[0]
    begins = _numbered(line.tokens)
    at = next(
        at
        for at, token in enumerate(line.tokens)
        if at >= begins and token.kind == "word" and token.low not in _ARTICLES
    )
    part = replace(first, kind="word", text="Part", low="part", value=None)
    name = replace(part, text=letter, low=letter.lower(), glued=False)
    return replace(line, tokens=(part, name, *line.tokens[at + 1 :]), source="")


def told_with_names(line: Line, letters: Mapping[str, str], small: Collection[str] | None = None) -> Line:
    """Return a line with the letters of the parts that it names; `small` are those named in small letters too."""
    tokens = tuple(
        replace(token, text=letters[token.low], low=letters[token.low].lower(), kind="word")
        if _is_named(line.tokens, at, letters) and (small is None or token.low in small or token.text[0].isupper())
        else token
        for at, token in enumerate(line.tokens)
    )
    return line if tokens == line.tokens else replace(line, tokens=tokens)
