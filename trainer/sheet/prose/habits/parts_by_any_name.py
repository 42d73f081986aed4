"""Parts by whatever names their headings and the order of play share: "LONG PART", "Red 1", "PART II", "A, line 2".

A name heads lines over steps, once or once for each of its sections; a list of nothing but such names, extras and cuts
tells the play: "long, short, long, tag, short". Such a name is told as a letter, a numbered section as "A1". Headings
that are known as they are, "Part A", "A2", "Verse", stay. Common practice, no source.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.habits.parts_called import paragraphs_of
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import EIGHT_PLACES, ORDINALS, ROMAN, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_LETTERS = "ABCDEFGH"
_OTHERS = frozenset("JKMNOPQSUVWXYZ")
"""Letters that parts may have too: neither feet nor "I", nor the T of a tag."""
_NOUNS = {
    "part", "bit", "piece", "movement", "theme", "tune", "strain", "figure", "block", "segment", "passage", "portion",
    "phrase", "melody", "pattern",
}  # fmt: skip
"""What a part is called, before a letter or a numeral or behind a word of its own: "bit A", "the long part"."""
_DIVISIONS = {"line", "row", "half", "eight", "section", "phrase", "verse", "bit", "eights", "stanza", "strip", "lines"}
"""What a part is divided into: "Red, first half", "A, line 2"."""
_KNOWN_DIVISIONS = {"", "half", "eight", "section"}
"""Divisions that the headings of letters are known with."""
_HALVES = {"top": 1, "bottom": 2, "upper": 1, "lower": 2}
_OPENING_MARKS = {"*", "-", "#", "•", "[", "(", "<", "=", '"', "~", "|", BREAK, "_"}
_ARTICLES = {"the", "our", "a", "an"}
_AROUND = {",", "/", "-", ":", ".", "(", "|", BREAK, "="}
_ENDS_NAME = {",", ":", "-", "(", ".", "=", "/", "|", BREAK, ")", "]", '"', "*", "~", ">", "["}
_MEASURES = {"has", "is", "lasts", "takes"}
_NO_NAMES = {
    "part", "parts", "order", "sequence", "note", "notes", "music", "song", "start", "count", "counts", "section",
    "wall", "walls", "dance", "phrased", "restart", "and", "then", "again", "repeat", "repeats", "weight", "first",
    "once", "twice", "eight", "eights", "half", "x", "only", "to", "of", "by", "times", "cut", "tag", "bridge",
}  # fmt: skip
_BETWEEN = {
    ",", "-", "+", ">", "/", "|", "(", ")", ";", "*", "and", "then", "x", "the", "a", "an", "first", "only", "counts",
    "twice", "&", "times", "last", "again", "half", "of", "eights", "eight", "by", "count", "its", "without", "beats",
    "up", "to", "just", "once", "more", "another", "cts", "=", BREAK, ".", ":", "time", "round", "lap", "go", "lot",
    "second", "third", "fourth", "finally", "next", "both", "short", "cut", "whole", "full",
}  # fmt: skip
"""What may stand between the names of a list; none that is a name itself."""
_LISTED = 4
_FEWEST = 2
_MOST = 4
_LONGEST = 14
"""Tokens of a heading."""
_HIGHEST = 8


class _Head(NamedTuple):
    """A heading: the name in small letters, its section or 0, the token after it, and whether it is known as it is."""

    name: str
    number: int
    end: int
    known: bool


def with_parts_by_any_name(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such names told as letters and numbers."""
    heads = {at: head for at in range(1, len(lines)) if (head := _head_over_steps(lines, at)) is not None}
    names = _played(lines, heads)
    if any(_is_number(head.name) and head.name not in names for head in heads.values()):
        # "Figure 3" of which no list tells: figures 1 and 2 are sections too.
        names = {name for name in names if not _is_number(name)}
    names -= {head.name for at, head in heads.items() if not head.known and _is_short(lines[at].tokens, head.end)}
    heads = {at: head for at, head in heads.items() if head.name in names}
    if not heads or all(head.known for head in heads.values()) or not _in_turn(list(heads.values())):
        return tuple(lines)
    letters = _letters([head.name for head in heads.values()])
    several = Counter(head.name for head in heads.values())
    places = {line.number for line in _list_lines(lines, heads, names)}
    return tuple(
        _headed(line, heads[at], letters, several[heads[at].name] > 1)
        if at in heads
        else replace(line, tokens=tuple(_listed(line.tokens, letters, everywhere=line.number in places)))
        for at, line in enumerate(lines)
    )


_PHRASE = 8


def _is_short(tokens: Sequence[Token], end: int) -> bool:
    """Whether a heading says that what it names has fewer counts than a phrase: "Nods (4 counts)" is no part."""
    after = tokens[end + (end < len(tokens) and tokens[end].text in ("(", "[")) :]
    if not after or not _is_length(after, 0):
        return False
    return 0 < (NUMBERS.get(after[0].low) or int(after[0].text[:3])) < _PHRASE


def _is_number(name: str) -> bool:
    return name.isdecimal() or name in NUMBERS


def _letters(names: Sequence[str]) -> dict[str, str]:
    """Return what each name is told as: letters and parts of a song stay."""
    once = list(dict.fromkeys(names))
    kept = {name: name.upper() for name in once if name in tuple(_LETTERS.lower())}
    kept |= {name: name.capitalize() for name in once if name in SONG_PARTS}
    free = iter(letter for letter in _LETTERS if letter not in kept.values())
    return {name: kept.get(name) or next(free) for name in once}


def _in_turn(heads: Sequence[_Head]) -> bool:
    """Whether the sections of each part are numbered on from 1, and a name without numbers heads but once."""
    told: dict[str, list[int]] = {}
    for head in heads:
        told.setdefault(head.name, []).append(head.number)
    return all(numbers in ([0], [1], list(range(1, len(numbers) + 1))) for numbers in told.values())


def _head_over_steps(lines: Sequence[Line], at: int) -> _Head | None:
    """Return the heading that a line is, which stands over steps or over another that does."""
    below = lines[at + 1] if at + 1 < len(lines) and lines[at + 1].number <= lines[at].tokens[-1].line + 2 else None
    tokens = lines[at].tokens
    stop = next((on for on, token in enumerate(tokens[:_LONGEST]) if token.text in (".", ":") and on), 0)
    if stop and _tells_steps(replace(lines[at], tokens=tokens[stop + 1 :] or tokens)):
        # "Red, first half. Step right to the side on 1, ..."
        head = _head(tokens[: stop + 1])
        return head if head is not None and head.end >= stop else None
    head = _head(tokens) if below is not None and len(tokens) <= _LONGEST else None
    return head if head is not None and below is not None and _tells_steps(below) else None


def _tells_steps(line: Line) -> bool:
    steps = sum(token.low in STEP_WORDS and token.low not in NUMBERS for token in line.tokens)
    return steps >= _FEWEST and (bool(marks_in(line.tokens, 0)) or steps >= 0.4 * len(line.tokens))


def _head(tokens: Sequence[Token]) -> _Head | None:
    at = 0
    while at < len(tokens) and (tokens[at].text in _OPENING_MARKS or tokens[at].low in _ARTICLES):
        if tokens[at].text == "A" and _is_a_letter(tokens, at):
            break
        at += 1
    number, end, kind = _section(tokens, at)
    if number and kind and end + 1 < len(tokens) and tokens[end].low == "of":
        # "Line 2 of A", "second half of the red part".
        first = end + 1 + (tokens[end + 1].low in _ARTICLES and tokens[end + 1].text != "A")
        name, end, _ = _name(tokens, first)
        known = name in tuple(_LETTERS.lower()) and kind in _KNOWN_DIVISIONS - {"half"}
        return _Head(name, number, end, known=known) if name and _closes(tokens, end) else None
    name, end, plain = _name(tokens, at)
    if not name:
        return None
    start = end
    while start < len(tokens) and tokens[start].text in _AROUND:
        start += 1
    number, after, kind = _section(tokens, start)
    lettered = name in tuple(_LETTERS.lower()) or name in SONG_PARTS
    if not number:
        return _Head(name, 0, end, known=lettered and plain) if _closes(tokens, end) else None
    known = lettered and plain and kind in _KNOWN_DIVISIONS
    return _Head(name, number, after, known) if _closes(tokens, after) else None


def _is_a_letter(tokens: Sequence[Token], at: int) -> bool:
    """Whether an A names a part, and is no article: "A, line 2", "A top", "A part (16)"; "A red part" is called red."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if after is None or after.kind != "word" or after.low in _DIVISIONS or after.low in _HALVES:
        return True
    return after.low in _NOUNS and _closes(tokens, at + 2)


def _closes(tokens: Sequence[Token], at: int) -> bool:
    """Whether a heading's name ends at a token: a mark, a length, or nothing behind it."""
    return at >= len(tokens) or tokens[at].text in _ENDS_NAME or tokens[at].low in _MEASURES or _is_length(tokens, at)


def _is_length(tokens: Sequence[Token], at: int) -> bool:
    number = tokens[at].kind == "number" or tokens[at].low in NUMBERS
    return number and at + 1 < len(tokens) and tokens[at + 1].low in ("counts", "beats", "cts")


def _name(tokens: Sequence[Token], at: int) -> tuple[str, int, bool]:
    """Return a name, the token after it, and whether it has no noun that is the teacher's own."""
    if at >= len(tokens) or tokens[at].kind not in ("word", "number"):
        return "", at, False
    if tokens[at].low in _NOUNS and at + 1 < len(tokens) and (key := _key(tokens[at + 1])):
        return key, at + 2, tokens[at].low == "part"
    token = tokens[at]
    if token.kind != "word" or (token.low in _NO_NAMES and len(token.text) > 1) or extra_kind((token,)):
        return "", at, False
    if len(token.text) == 1:
        noun = at + 1 < len(tokens) and tokens[at + 1].low in _NOUNS and not any(map(_key, tokens[at + 2 : at + 3]))
        usual = token.text in tuple(_LETTERS)
        return (token.low, at + 1 + noun, usual and not noun) if usual or token.text in _OTHERS else ("", at, False)
    noun = at + 1 < len(tokens) and tokens[at + 1].low in _NOUNS
    if noun and at + 2 < len(tokens) and _key(tokens[at + 2]):
        noun = False  # "Red, phrase 2"
    if not noun and token.low in STEP_WORDS | set(NUMBERS) | set(ORDINALS):
        return "", at, False
    return token.low, at + 1 + noun, not noun


def _key(token: Token) -> str:
    """Return the letter or numeral by which a noun's parts are told apart."""
    if token.text in tuple(_LETTERS) or token.text in _OTHERS:
        return token.low
    if token.low in ROMAN and (token.text.isupper() or len(token.text) > 1):
        return token.low
    small = token.kind == "number" and token.text.isdecimal() and 0 < int(token.text) <= _MOST
    return token.low if small or 0 < NUMBERS.get(token.low, 0) <= _MOST else ""


def _section(tokens: Sequence[Token], at: int) -> tuple[int, int, str]:
    """Return the number of a section, the token after it, and its noun: "line 2", "second half", "2", "b", "top"."""
    if at < len(tokens) and tokens[at].low in _HALVES:
        named = at + 1 < len(tokens) and tokens[at + 1].low in _DIVISIONS
        return _HALVES[tokens[at].low], at + 1 + named, tokens[at].low
    noun = tokens[at].low if at < len(tokens) and tokens[at].low in _DIVISIONS else ""
    first = at + bool(noun)
    if first >= len(tokens):
        return 0, at, ""
    token, end = tokens[first], first + 1
    number = EIGHT_PLACES.get(token.low) or NUMBERS.get(token.low) or 0
    if token.kind == "number" and token.text.isdecimal():
        number = int(token.text)
        end += end < len(tokens) and tokens[end].low in ("st", "nd", "rd", "th")
    elif noun and len(token.text) == 1 and token.low in tuple(_LETTERS.lower()):
        number = _LETTERS.lower().index(token.low) + 1
    elif noun and token.low in ROMAN:
        number = ROMAN[token.low]
    ranged = (
        end < len(tokens) and tokens[end].text == "-" and end + 1 < len(tokens) and tokens[end + 1].kind == "number"
    )
    if not 0 < number <= _HIGHEST or ranged or _is_length(tokens, first):
        return 0, at, ""
    if not noun and end < len(tokens) and tokens[end].low in _DIVISIONS:
        noun, end = tokens[end].low, end + 1
    if not noun and token.low in EIGHT_PLACES and token.kind == "word" and token.low not in NUMBERS:
        return 0, at, ""
    return number, end, noun


def _played(lines: Sequence[Line], heads: Mapping[int, _Head]) -> set[str]:
    """Return the names of which a list tells the play."""
    names = {head.name for head in heads.values()}
    for group in paragraphs_of([line for at, line in enumerate(lines) if at and at not in heads]):
        tokens = [token for line in group for token in line.tokens]
        lettered = [token.low for token in tokens if token.text in tuple(_LETTERS) and token.low in names]
        for run in (*_runs(tokens, names), lettered):
            often = Counter(run)
            if sum(often.values()) >= _LISTED and _FEWEST <= len(often) <= _MOST and max(often.values()) > 1:
                return set(often)
    return set()


def _list_lines(lines: Sequence[Line], heads: Mapping[int, _Head], names: set[str]) -> Iterator[Line]:
    """Yield the lines of the paragraphs in which lists tell the play."""
    for group in paragraphs_of([line for at, line in enumerate(lines) if at and at not in heads]):
        runs = _runs([token for line in group for token in line.tokens], names)
        if any(len(run) >= _LISTED for run in runs):
            yield from group


def _runs(tokens: Sequence[Token], names: set[str]) -> Iterator[list[str]]:
    """Yield the names of each stretch that holds nothing but them and what may stand in a list."""
    run: list[str] = []
    for at, token in enumerate(tokens):
        name = _named(tokens, at, names)
        if name:
            run.append(name)
        elif not (
            token.low in _BETWEEN
            or token.kind in ("number", "clock", "facing")
            or token.low in _NOUNS
            or extra_kind((token,))
        ):
            yield run
            run = []
    yield run


def _named(tokens: Sequence[Token], at: int, names: set[str] | Mapping[str, str]) -> str:
    """Return the name that a token is in a list: with a plural's ending, a numeral where no counts follow."""
    token = tokens[at]
    form = next(
        (form for form in (token.low, token.low.removesuffix("s"), token.low.removesuffix("es")) if form in names), ""
    )
    if not form or token.text == "a" or (len(form) == 1 and form.isalpha() and not token.text[0].isupper()):
        return ""
    if _is_number(form):
        led = bool(at) and tokens[at - 1].low in _NOUNS
        ahead = tokens[at + 1] if at + 1 < len(tokens) else None
        beyond = tokens[at + 2] if at + 2 < len(tokens) else None
        ranged = ahead is not None and ahead.text == "-" and ahead.glued and beyond is not None and beyond.glued
        opened = not at or tokens[at - 1].text in (",", ":", ">", "/", "|", "+", "-")
        counts = ahead is not None and ahead.low in ("counts", "x", "times")
        return form if led or (opened and not counts and not ranged and not _ends_a_range(tokens, at)) else ""
    if form in ROMAN:
        return form if token.text.isupper() else ""
    return form


def _ends_a_range(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number is the last of some counts: "1-4"."""
    return at > 1 and tokens[at - 1].text == "-" and tokens[at].glued and tokens[at - 2].kind == "number"


def _headed(line: Line, head: _Head, letters: Mapping[str, str], several: bool) -> Line:
    """Return a heading with its letter, and the number of its section where it has several."""
    if head.known:
        return line
    first, rest = line.tokens[0], list(line.tokens[head.end :])
    while rest and rest[0].text in (")", "]", '"', "*", "~", ">", BREAK):
        rest = rest[1:]
    told = letters[head.name]
    if not several:
        name = [word_like(first, "Part"), word_like(first, told)] if len(told) == 1 else [word_like(first, told)]
        return replace(line, tokens=(*name, *rest), source="")
    number = replace(number_like(first, head.number), glued=len(told) == 1)
    colon = [] if not rest or rest[0].kind == "mark" else [mark_like(first, ":")]
    return replace(line, tokens=(word_like(first, told), number, *colon, *rest), source="")


def _spoken_of(tokens: Sequence[Token], at: int) -> bool:
    """Whether a sentence speaks of a part by its name: "after the first red", "the last Blue is", "So I* ends"."""
    before = tokens[at - 1].low if at else ""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    marked = after is not None and after.text in ("*", "'") and after.glued
    numeral = tokens[at].low in ROMAN and (len(tokens[at].text) > 1 or marked)
    ends = after is None or after.kind != "word" or after.low in _GOING_ON
    return numeral or ((before in _POINTING or before in ORDINALS) and ends)


_POINTING = {
    "last", "final", "next", "short", "half", "each", "every", "whole", "full", "another", "single", "both", "nd", "rd",
    "st", "th", "complete", "two", "three",
}  # fmt: skip
_GOING_ON = {
    "is", "ends", "has", "stops", "and", "only", "of", "at", "on", "then", "begins", "starts", "comes", "takes", "you",
    "brings", "in", "with", "to", "goes", "faces", "again", "but", "once", "twice", "we", "finishes", "leaves", "loses",
}  # fmt: skip
_LINES = {"line": "section", "row": "section", "lines": "sections", "rows": "sections"}
"""What a list calls the sections of a part: "A lines 1 and 2"."""
_THE_PLAIN = re.compile(r"[A-H]")


def _listed(tokens: Sequence[Token], letters: Mapping[str, str], *, everywhere: bool) -> Iterator[Token]:
    """Yield the words of a line with the letters: in the lists of the play, and elsewhere beside a part's noun."""
    at = 0
    while at < len(tokens):
        token = tokens[at]
        if everywhere and token.low in _LINES and any(_section(tokens, first)[0] for first in (at, at - 1)):
            token = word_like(token, _LINES[token.low])
        before = at > 0 and tokens[at - 1].low in _NOUNS
        behind = (
            at + 1 < len(tokens)
            and tokens[at + 1].low in _NOUNS
            and not (at + 2 < len(tokens) and _key(tokens[at + 2]))
        )
        lead = token.low in _NOUNS and at + 1 < len(tokens) and _named(tokens, at + 1, letters)
        if lead and _key(tokens[at + 1]):
            yield (
                word_like(token, "part")
                if not everywhere
                else word_like(tokens[at + 1], letters[_named(tokens, at + 1, letters)])
            )
            if not everywhere:
                yield word_like(tokens[at + 1], letters[_named(tokens, at + 1, letters)])
            at += 2
            continue
        name = _named(tokens, at, letters)
        told = name and (everywhere or behind or before or _spoken_of(tokens, at))
        if told and (letters[name] != token.text or behind):
            plural = token.low != name and not _THE_PLAIN.fullmatch(token.text)
            yield word_like(token, letters[name] + ("s" if plural else ""))
            at += 1 + behind
            continue
        yield token
        at += 1
