"""What the app shows as an SVG picture, cell by cell: block glyphs are drawn as the pixels that they stand for, so that
no font can tear them apart. Several moments make a picture that moves.

A picture fetches nothing: its letters are the reader's own monospaced font, put into their cells.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from html import escape
from itertools import groupby

from rich.segment import Segment

from trainer.screens import pixels
from trainer.screens.app import CallaheadApp
from trainer.screens.pixels import GLYPHS

WIDE, HIGH = 8, 17
"""Of a cell, in units of the picture."""
EDGE = 12
_SEEN = {True: "visible", False: "hidden"}
_WORDS = re.compile(r"\S+(?: \S+)*")


@dataclass(frozen=True, slots=True)
class Run:
    """Glyphs beside each other in the same colours."""

    column: int
    text: str
    colour: str
    ground: str
    bold: bool


Row = tuple[Run, ...]
Look = tuple[Row, ...]


def shown(app: CallaheadApp) -> Look:
    """Return what the page in front shows now."""
    return tuple(tuple(_runs(strip, app)) for strip in app.screen._compositor.render_strips(app.size))


def text_of(look: Look) -> str:
    """Return the glyphs alone, blanks at the end of lines left out."""
    return "\n".join("".join(run.text for run in row).rstrip() for row in look) + "\n"


def _runs(strip: Iterable[Segment], app: CallaheadApp) -> Iterator[Run]:
    own = app.current_theme.foreground, app.current_theme.background
    column = 0
    for segment in strip:
        style = segment.style
        colours = [
            own[place] or "" if colour is None or colour.is_default else colour.get_truecolor().hex
            for place, colour in enumerate((style.color, style.bgcolor) if style else (None, None))
        ]
        colour, ground = reversed(colours) if style and style.reverse else colours
        yield Run(column, segment.text, colour, ground, bool(style and style.bold))
        column += len(segment.text)


def still(look: Look, title: str) -> str:
    """Return a picture of one moment."""
    return _picture([_row(row, y, _ground(look)) for y, row in enumerate(look)], look, title)


def moving(looks: Sequence[tuple[float, Look]], ends: float, title: str) -> str:
    """Return a picture of moments, each with the second at which it comes; at `ends` it begins again.

    Rows are shown and hidden, so that what does not change is there once. Who asked for less motion sees the first.
    """
    first = looks[0][1]
    times = [time for time, _ in looks]
    names: dict[tuple[bool, ...], str] = {}
    parts = []
    for y in range(len(first)):
        for row in dict.fromkeys(look[y] for _, look in looks):
            when = tuple(look[y] == row for _, look in looks)
            drawn = _row(row, y, _ground(first))
            if drawn and not all(when):
                drawn = f'<g class="{names.setdefault(when, f"s{len(names)}")}">{drawn}</g>'
            parts.append(drawn)
    rules = "".join(_rule(name, when, times, ends) for when, name in names.items())
    style = f"<style>{rules}@media (prefers-reduced-motion:reduce){{g{{animation:none!important}}}}</style>"
    return _picture([style, *parts], first, title)


def _rule(name: str, when: tuple[bool, ...], times: Sequence[float], ends: float) -> str:
    """Return the rule that shows a group at some of the moments and hides it at the others, again and again."""
    changes = [(time, now) for time, now, before in zip(times, when, (None, *when), strict=False) if now != before]
    frames = "".join(f"{_share(time, ends)}{{visibility:{_SEEN[now]}}}" for time, now in changes)
    at_first = "" if when[0] else "visibility:hidden;"
    return f"@keyframes {name}{{{frames}}}.{name}{{{at_first}animation:{name} {ends:g}s step-end infinite}}"


def _share(time: float, ends: float) -> str:
    return f"{100 * time / ends:.2f}".rstrip("0").rstrip(".") + "%"


def _ground(look: Look) -> str:
    return look[-1][0].ground


def _picture(parts: Iterable[str], look: Look, title: str) -> str:
    columns = max(sum(len(run.text) for run in row) for row in look)
    wide, high = columns * WIDE + 2 * EDGE, len(look) * HIGH + 2 * EDGE
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}" role="img" font-family="monospace" '
        f'font-size="13.3"><title>{escape(title)}</title>'
        f'<rect width="{wide}" height="{high}" rx="8" fill="{_ground(look)}"/>'
        f'<g transform="translate({EDGE} {EDGE})">{"".join(parts)}</g></svg>\n'
    )


def _row(row: Row, y: int, ground: str) -> str:
    return "".join(_drawn(run, y, ground) for run in row)


def _drawn(run: Run, y: int, ground: str) -> str:
    parts = []
    if run.ground != ground:
        x, wide = run.column * WIDE, len(run.text) * WIDE
        parts.append(f'<rect x="{x}" y="{y * HIGH}" width="{wide}" height="{HIGH}" fill="{run.ground}"/>')
    blocks = "".join(glyph if glyph in GLYPHS else " " for glyph in run.text)
    if blocks.strip():
        scale = f'transform="scale({WIDE / 2:g} {HIGH / 2:g})" shape-rendering="crispEdges"'
        parts.append(f'<path {scale} fill="{run.colour}" d="{_path(blocks, run.column, y)}"/>')
    for words in _WORDS.finditer("".join(" " if glyph in GLYPHS else glyph for glyph in run.text)):
        x, wide = (run.column + words.start()) * WIDE, len(words[0]) * WIDE
        bold = ' font-weight="bold"' if run.bold else ""
        place = f'x="{x}" y="{y * HIGH + 13}" textLength="{wide}" lengthAdjust="spacingAndGlyphs"'
        parts.append(f'<text {place} fill="{run.colour}"{bold}>{escape(words[0])}</text>')
    return "".join(parts)


def _path(blocks: str, column: int, y: int) -> str:
    """Return the pixels of a row of block glyphs as rectangles."""
    found = []
    for line, dots in enumerate(pixels.picture([blocks])):
        x = 2 * column
        for lit, same in groupby(dots):
            wide = len(list(same))
            if lit:
                found.append(f"M{x} {2 * y + line}h{wide}v1h-{wide}z")
            x += wide
    return "".join(found)
