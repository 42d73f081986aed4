"""Headings: `== 1: title`, `== part A`, `== intro, starts 6:00`, `== tag NAME`, `== order` and the like.

A block may state its length: `== 1, 8 counts`. A name that has blanks, or is one of the words above, stands in
quotes. An option, `== option 3, counts 5-6: title`, belongs to the part above it, unless it says `== option 3 of part
A, ...`.
"""

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal, cast, get_args

from trainer.routine import Span
from trainer.sheet.findings import Findings
from trainer.sheet.lines import Line
from trainer.sheet.stated import facing_of
from trainer.sheet.texts import quoted, taken

HeadingKind = Literal["section", "part", "intro", "tag", "bridge", "change", "ending", "option", "order"]
KINDS = get_args(HeadingKind)

NAME = re.compile(r'"(?:\\.|[^"\\])*"|[^\s:,"]+')
"""A name in quotes, or a word."""

_A = {"section": "A section", "part": "A part", "option": "An option", "order": "The order"}
_STARTS = re.compile(r"\s*,\s*starts\s+([^\s,]*[^\s,:])")
_LENGTH = re.compile(r"\s*,\s*(\d{1,4})\s+counts?\b")
_COUNTS = re.compile(r"\s*,\s*counts?\s+(\d{1,4})(?:\s*[-–—]\s*(\d{1,4}))?(?!\s*counts?\b)")
_OF_PART = re.compile(r'\s+of\s+part\s+("(?:\\.|[^"\\])*"|[^\s:,"]+)')
_WORDS = re.compile(r"\s+[^:,]+")


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """What a heading says."""

    span: Span
    kind: HeadingKind
    name: str = ""
    title: str = ""
    starts: Fraction | None = None
    counts: int | None = None
    """The length that it states."""
    first: int = 0
    """Of an option, the first count replaced."""
    last: int = 0
    part: str | None = None
    """Of an option, the part that it names."""


def is_heading(line: Line) -> bool:
    """Return whether a line is a heading."""
    return line.text.startswith("==")


def read_heading(line: Line, findings: Findings) -> Heading:
    """Read a heading; what cannot be read of it is a problem."""
    text = line.text
    at = len(text) - len(text.lstrip("= "))
    match = NAME.match(text, at)
    if match is None:
        findings.error("text", line.span(), "This heading has no name.", "Write `== 1: title`.")
        return Heading(span=line.span(), kind="section", title=taken(text[at:].lstrip(":,")))
    word = match[0].casefold()
    if word not in KINDS:
        heading = Heading(span=line.span(), kind="section", name=taken(match[0]))
        return _rest(line, match.end(), heading, findings)
    heading = Heading(span=line.span(), kind=cast("HeadingKind", word))
    at = match.end()
    name = re.compile(r"\s+").match(text, at)
    named = NAME.match(text, name.end()) if name else None
    if named and word != "order":
        heading, at = replace(heading, name=taken(named[0])), named.end()
    elif word not in ("order", "intro"):
        findings.error("text", line.span(), f"Which {word}? The name is missing.", f"Write `== {word} NAME`.")
    return _rest(line, at, heading, findings)


def _rest(line: Line, at: int, heading: Heading, findings: Findings) -> Heading:
    """Read what follows the name: `of part`, `starts`, a length, the counts of an option, the title."""
    text = line.text
    heading, at = _loose_name(line, at, heading, findings)
    while (found := _attribute(line, at, heading, findings)) is not None:
        heading, at = found
    rest = text[at:].strip()
    if rest.startswith(":"):
        heading = replace(heading, title=taken(rest[1:]))
    elif rest:
        findings.error("text", line.span(at), f'I do not understand "{rest}" in this heading.', _expected(heading))
    if heading.kind in ("part", "order") and heading.title:
        message = f"{_A[heading.kind]} has no title."
        findings.warn("text", line.span(at), message, "Write it as a `note:` at the head of the sheet.")
    if heading.kind == "option" and not heading.first:
        findings.error("text", line.span(), "Which counts does the option replace?", "Write `== option 3, counts 5-6`.")
    return heading


def _expected(heading: Heading) -> str:
    if heading.kind == "option":
        return "Write `== option 3, counts 5-6: title`."
    return "After the name may stand `, starts 6:00`, `, 8 counts` and `: title`."


def _loose_name(line: Line, at: int, heading: Heading, findings: Findings) -> tuple[Heading, int]:
    """Take words after the name as a part of it, with a hint at quotes, or at the kind that was meant."""
    match = _WORDS.match(line.text, at)
    if match is None or heading.kind == "order" or _OF_PART.match(line.text, at):
        return heading, at
    name = heading.name + match[0].rstrip()
    hint = findings.near(heading.name, KINDS) if heading.kind == "section" else ""
    hint = hint or f'Write "{name}".'
    findings.error("text", line.span(at, match.end()), "A name with blanks stands in quotes.", hint)
    return replace(heading, name=name), match.end()


def _attribute(line: Line, at: int, heading: Heading, findings: Findings) -> tuple[Heading, int] | None:
    """Read one `, ...` of a heading and return the heading with it and the place after it."""
    text = line.text
    if match := _STARTS.match(text, at):
        facing = facing_of(match[1])
        if facing is None:
            hint = "Write `starts 6:00`."
            findings.error("facing", line.span(match.start(1), match.end(1)), f'"{match[1]}" is no facing.', hint)
        if heading.kind in ("section", "part", "option", "order"):
            findings.error("facing", line.span(at, match.end()), f"{_A[heading.kind]} has no facing of its own.")
        return replace(heading, starts=facing), match.end()
    if heading.kind == "option":
        if (match := _COUNTS.match(text, at)) is not None:
            first = int(match[1])
            return replace(heading, first=first, last=int(match[2] or first)), match.end()
        if (match := _OF_PART.match(text, at)) is not None:
            return replace(heading, part=taken(match[1])), match.end()
    elif (match := _LENGTH.match(text, at)) is not None:
        return replace(heading, counts=int(match[1])), match.end()
    return None


def name_told(name: str) -> str:
    """Return a name as headings, order lines and `play` write it."""
    plain = name.isprintable() and name.casefold() not in _RESERVED and not set(name) & set('#@;/=()+|"')
    return name if plain and NAME.fullmatch(name) else quoted(name)


_RESERVED = {
    *KINDS, "repeat", "hold", "and", "of", "continue", "restart", "next", "end", "wall", "walls", "first", "second",
    "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh", "twelfth",
}  # fmt: skip
