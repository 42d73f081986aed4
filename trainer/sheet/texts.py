r"""Free text in a fair copy: bare where it can be, in quotes where it would be misread.

A text in quotes is written as a JSON string: \" \\ \n and \uXXXX stand in it for what they stand for there. Bare text
ends where its line ends, or at a comment: two blanks and a #.
"""

import json
import re
from collections.abc import Iterator

QUOTED = re.compile(r'"(?:\\.|[^"\\])*"', re.DOTALL)

_COMMENT = re.compile(r"\s\s#|\t#")
_SURROGATES = re.compile("[\ud800-\udfff]")


def taken(text: str) -> str:
    """Return a text as meant: without blanks round it, and without its quotes if it stands in quotes."""
    text = text.strip()
    if not QUOTED.fullmatch(text):
        return text
    try:
        inside = json.loads(text, strict=False)
    except ValueError:
        return text[1:-1]
    return _SURROGATES.sub("\ufffd", inside)


def told(text: str) -> str:
    """Return a text as a fair copy writes it: bare where `taken` gives it back, else in quotes."""
    if text and text.isprintable() and "  #" not in text and text[0] != "#" and taken(text) == text:
        return text
    return quoted(text)


def quoted(text: str) -> str:
    """Return a text in quotes."""
    told = json.dumps(text, ensure_ascii=False)
    return "".join(letter if letter.isprintable() else json.dumps(letter)[1:-1] for letter in told)


def closings(text: str) -> dict[int, int]:
    """Return where each quoted text and each outer pair of brackets begins, and the place after its end.

    A quote or bracket that is never closed is a letter like others.
    """
    spans: dict[int, int] = {}
    opened: list[int] = []
    at = 0
    while at < len(text):
        match = QUOTED.match(text, at) if text[at] == '"' else None
        if match:
            spans[at] = at = match.end()
            continue
        if text[at] == "(":
            opened.append(at)
        elif text[at] == ")" and opened:
            spans[opened.pop()] = at + 1
        at += 1
    return spans


def outside(text: str) -> Iterator[tuple[int, str]]:
    """Yield place and letter of everything that stands neither in quotes nor in brackets."""
    spans = closings(text)
    at = 0
    while at < len(text):
        if at in spans:
            at = spans[at]
            continue
        yield at, text[at]
        at += 1


def split(text: str, separator: str) -> list[tuple[int, int]]:
    """Return first and last place of the pieces between separators that stand outside quotes and brackets."""
    cuts = [at for at, letter in outside(text) if letter == separator]
    return list(zip([0, *(cut + 1 for cut in cuts)], [*cuts, len(text)], strict=True))


def without_comment(text: str) -> str:
    """Return a line without its comment: from a # at its start, or from two blanks and a #."""
    if text.startswith("#"):
        return ""
    if "#" not in text:
        return text
    spans = {start: end for start, end in closings(text).items() if text[start] == '"'}
    for match in _COMMENT.finditer(text):
        if not any(start < match.start() < end for start, end in spans.items()):
            return text[: match.start()]
    return text
