"""Outlines, numbered 1, 1.1, 2.3.2, or 1.0, 1.1: the numbers are no counts, and "see 4.1" names what stands there.

Lines that open with such numbers are an outline where each number is the next one of its tree. "1.2", "3.4" and "5.6"
before steps go on too, but not so: they stay as they are, and may be counts.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Token

_NUMBER = re.compile(r"^\s*(?:§ ?)?(\d{1,2}(?:\.\d{1,2})+)[.):]?\s+(?=\S)")
_TOP = re.compile(r"^\s*(?:§ ?)?(\d{1,2})[.)]?\s+(?=[^\W\d_])")
_POINTING = {"see", "as", "in", "at", "under", "item", "para", "paragraph", "section", "no", ".", "§", "cf", ","}
"""Words and marks beside a number in brackets that only says where what was named stands: "(see 4.1)"."""
_LEAST = 4
"""Fewer lines are no outline."""
_TRUE = 0.8
"""The share of an outline's numbers that follow the one before as they should."""
_COUNTS = re.compile(r"\s*(?:(?:counts?|beats?|cts?)\.? )?(\d{1,2}) ?(?:-|to) ?(\d{1,2})\b", re.IGNORECASE)
_PHRASES = (6, 8)
_TITLE = 4
"""Tokens of a title that stands for its number."""

Place = tuple[int, ...]


def without_outline(raw: Sequence[str]) -> tuple[list[str], dict[str, str]]:
    """Return the lines with blanks for the numbers of an outline, and the text that each number stands before."""
    numbers = {at: match for at, line in enumerate(raw) if (match := _NUMBER.match(line))}
    places = {at: _place(match[1]) for at, match in numbers.items()}
    tops = {place[0] for place in places.values()}
    if len(places) < _LEAST or not _is_tree(list(places.values())):
        return list(raw), {}
    expected = 1
    for at, line in enumerate(raw):
        match = _TOP.match(line) if at not in numbers else None
        if match and int(match[1]) in tops and int(match[1]) >= expected:
            numbers[at] = match
            expected = int(match[1]) + 1
    numbers |= _between(raw, numbers)
    titles = {match[1]: raw[at][match.end() :] for at, match in numbers.items()}
    shown = [
        " " * numbers[at].end() + line[numbers[at].end() :] if at in numbers else line for at, line in enumerate(raw)
    ]
    return shown, titles


def _between(raw: Sequence[str], numbers: Mapping[int, re.Match[str]]) -> dict[int, re.Match[str]]:
    """Return the chapters between those of an outline that have numbers below them, where none of them is missing."""
    tops = {at: int(match[1]) for at, match in numbers.items() if match[1].isdecimal()}
    found: dict[int, re.Match[str]] = {}
    for (first, number), (last, after) in pairwise(sorted(tops.items())):
        sign = numbers[first][0].replace(numbers[first][1], "")
        chain: dict[int, re.Match[str]] = {}
        for at in range(first + 1, last):
            match = _TOP.match(raw[at])
            alike = match is not None and match[0].replace(match[1], "") == sign
            if match and alike and int(match[1]) == number + 1 + len(chain):
                chain[at] = match
        found |= chain if len(chain) == after - number - 1 else {}
    return found


def with_titles(tokens: tuple[Token, ...], titles: Mapping[str, str]) -> tuple[Token, ...]:
    """Return tokens with each number of the outline read as the words that open what stands there."""
    return tuple(_told(tokens, titles)) if titles else tokens


def _place(number: str) -> Place:
    """Return a number's place in the tree; 2.0 stands above 2.1."""
    parts = tuple(int(part) for part in number.split("."))
    return parts[:-1] if parts[-1] == 0 else parts


def _is_tree(places: Sequence[Place]) -> bool:
    """Whether each number is the first below the one before, or the next beside it or beside one above it."""
    following = sum(_follows(before, after) for before, after in pairwise(places))
    return following >= _TRUE * (len(places) - 1)


def _follows(before: Place, after: Place) -> bool:
    if after[: len(before)] == before:
        return set(after[len(before) :]) == {1}
    level = next((at for at, (one, other) in enumerate(zip(before, after, strict=False)) if one != other), None)
    # Chapters in between may have no numbers below them: 9.1 after 1.5.
    beyond = level is not None and (after[level] == before[level] + 1 or (not level and after[0] > before[0]))
    return level is not None and beyond and set(after[level + 1 :]) <= {1}


def _told(tokens: Sequence[Token], titles: Mapping[str, str]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        if tokens[at].text == "(" and (closing := _pointer(tokens, at, titles)):
            at = closing + 1
            continue
        number, end = _number_at(tokens, at)
        if number in titles:
            top = number.endswith(".0") and number.count(".") == 1
            for token in tokens_of(f"section {number[:-2]}") if top else _title(titles[number]):
                yield replace(token, line=tokens[at].line, column=tokens[at].column, glued=False)
        else:
            yield from tokens[at:end]
        at = end


def _pointer(tokens: Sequence[Token], opening: int, titles: Mapping[str, str]) -> int:
    """Return where brackets close that hold nothing but numbers of the outline; 0 where they hold more."""
    at, found = opening + 1, False
    while at < len(tokens):
        if tokens[at].text == ")":
            return at if found else 0
        number, end = _number_at(tokens, at)
        if number in titles:
            found, at = True, end
        elif tokens[at].low in _POINTING:
            at += 1
        else:
            return 0
    return 0


def _number_at(tokens: Sequence[Token], at: int) -> tuple[str, int]:
    """Return the number of an outline that begins at a token, or an empty text, and where what stands there ends."""
    end = at + 1
    if tokens[at].kind == "clock" and "." in tokens[at].text:
        return tokens[at].text, end  # 1.15
    if tokens[at].kind != "number":
        return "", end
    while end + 1 < len(tokens) and tokens[end].text == "." and tokens[end].glued and _goes_on(tokens[end + 1]):
        end += 2
    return ("".join(token.text for token in tokens[at:end]), end) if end - at > 1 else ("", end)


def _goes_on(token: Token) -> bool:
    return token.glued and token.kind == "number"


def _title(text: str) -> list[Token]:
    """Return the first words of what stands at a number: its title; of a section that only has its counts its name."""
    if match := _COUNTS.match(text):
        first, last = int(match[1]), int(match[2])
        if last - first + 1 in _PHRASES and last % (last - first + 1) == 0:
            return list(tokens_of(f"section {last // (last - first + 1)}"))
    words: list[Token] = []
    for token in tokens_of(text)[:_TITLE]:
        if token.kind != "word":
            break
        words.append(token)
    return words
