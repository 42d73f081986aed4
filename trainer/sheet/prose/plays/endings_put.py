"""The ending that a sheet tells below its play, put behind the last item."""

from collections.abc import Sequence

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.plays.bodies import body_in
from trainer.sheet.prose.plays.definitions import Definition
from trainer.sheet.prose.plays.finding import Found
from trainer.sheet.prose.plays.symbols import Extra
from trainer.sheet.prose.plays.told_items import Told
from trainer.sheet.prose.text.layout import Line

_NUMBERED = 4
"""Tokens of an extra that a list numbers, at least."""


def with_ending(found: Found, lines: Sequence[Line]) -> list[Told]:
    """The items, with an ending that is told below and that the play does not name."""
    items = found.play.items
    endings = [one for one in found.definitions if one.extra.kind == "ending"]
    finishes = [form for form in found.forms if form.finishes]
    if items and endings and not any(item.extra is not None and item.extra.kind == "ending" for item in items):
        items = [*items, Told(endings[0].head[0], extra=endings[0].extra)]
    elif items and not finishes and (numbered := _numbered_ending(found, lines)) is not None:
        found.definitions.append(numbered)
        items = [*items, Told(numbered.head[0], extra=numbered.extra)]
    elif items and finishes:
        items = [*items, Told(finishes[0].tokens[-1], extra=Extra("ending"))]
    return items


def _numbers_an_extra(line: Line) -> str | None:
    """The kind of the extra that a line of a list numbers: "8. Finish: step R forward (1)"."""
    tokens = line.tokens
    numbered = len(tokens) > _NUMBERED and tokens[0].kind == "number" and tokens[1].text in (".", ")")
    return extra_kind(tokens[2:4]) if numbered else None


def _numbered_ending(found: Found, lines: Sequence[Line]) -> Definition | None:
    """The ending that the list of the play numbers as its last item, with its steps."""
    place = max(found.play.lines, default=len(lines)) + 1
    if place >= len(lines) or _numbers_an_extra(lines[place]) != "ending":
        return None
    tokens = lines[place].tokens
    body = body_in(tokens[3:])
    return Definition(Extra("ending"), tokens[2:3], body, None, place) if body else None
