"""A card as one HTML file: no script, nothing loaded from elsewhere, every text of the sheet escaped.

The size of the type is found with the layout of the printed card and widths that suit most fonts, so that a usual dance
prints on one page from any browser.
"""

from collections.abc import Iterator
from fractions import Fraction
from html import escape
from math import cos, pi, sin

from trainer.cards.marks import INKS, Face
from trainer.cards.model import Card, CardBlock, CardRow, CardStep, CardWall
from trainer.cards.pages import laid_out
from trainer.cards.setting import HEADINGS
from trainer.dance.facing import clock

GENERATOR = '<meta name="generator" content="Callahead card">'
"""Stands in every card, so that a card is known as one."""

_PAGE_SIZES = {"a4": "A4", "letter": "letter"}
_WIDER = 0.93
"""Browsers' fonts run wider than the printed card's, and their columns are less even."""
_NARROW = frozenset(" ijlftrI.,:;'!|()-·")
_WIDE = frozenset("mwMWQO@½¼¾⅛")

_STYLE = """
@page { size: %(page)s; margin: 13mm; }
* { box-sizing: border-box; margin: 0; padding: 0; }
body { font: %(size)spt/1.36 "Noto Sans", "Segoe UI", "Helvetica Neue", Arial, sans-serif; color: %(ink)s;
  background: #fff; max-width: 190mm; margin: 0 auto; overflow-wrap: anywhere; -webkit-print-color-adjust: exact;
  print-color-adjust: exact; }
@media screen { body { padding: 8mm; font-size: max(%(size)spt, 11pt); } }
@media screen and (max-width: 45em) { .blocks, .order ol { columns: 1 !important; } }
header { display: flex; gap: 1em; justify-content: space-between; border-bottom: 1pt solid %(ink)s;
  padding-bottom: .5em; }
h1 { font-size: 1.9em; line-height: 1.15; font-weight: 600; }
.credits, .styling, .cue { font-style: italic; color: %(soft)s; }
.rose { width: 3.8em; height: 3.8em; flex: none; color: %(accent)s; }
.blocks { columns: 2; column-gap: 2em; margin-top: .8em; }
.blocks section { break-inside: avoid; margin-bottom: .8em; }
.part { font-size: 1.25em; font-weight: 600; color: %(accent)s; break-after: avoid; }
h2, h3 { font-size: 1.04em; font-weight: 600; }
h3 { display: flex; justify-content: space-between; gap: 1em; border-bottom: .4pt solid %(hair)s;
  margin-bottom: .2em; }
h3 .name, h2 { color: %(accent)s; }
.length, .key, .notes, .spelled, h3 .clock { color: %(soft)s; font-weight: 400; }
table { width: 100%%; border-collapse: collapse; }
th { text-align: left; vertical-align: top; font-weight: 600; color: %(soft)s; white-space: nowrap; width: 3em;
  padding-right: .5em; }
td { vertical-align: top; }
.clock { white-space: nowrap; text-align: right; }
svg.dial { width: .8em; height: .8em; vertical-align: -.08em; }
b.R { color: %(right)s; } b.L { color: %(left)s; }
.step { break-inside: avoid; }
.order { background: %(band)s; margin-top: .8em; padding: .5em .8em; break-inside: avoid; }
.order ol { list-style: none; }
.order ol.plain { columns: 2; column-gap: 2em; }
.order li { break-inside: avoid; display: grid; grid-template-columns: 3.4em 4.6em 1fr;
  column-gap: .6em; }
.notes { margin-top: .6em; } .key { margin-top: .6em; font-size: .76em; }
"""


def as_html(card: Card, paper: str) -> str:
    """Return a card as an HTML page that prints on a paper."""
    size = round(laid_out(card, _Usual(), paper).size * _WIDER, 2)
    inks = {str(name): colour for name, colour in INKS.items()}
    style = _STYLE % {"page": _PAGE_SIZES[paper], "size": f"{size:g}", **inks}
    return "\n".join(_page(card, style)) + "\n"


class _Usual:
    """Widths of letters as most fonts have them."""

    def width(self, text: str, face: Face) -> float:
        """Return about how wide a text is at a size of 1."""
        wide = sum(0.3 if one in _NARROW else 0.85 if one in _WIDE or ord(one) > 0x2E7F else 0.53 for one in text)
        return wide * (1.06 if face == "bold" else 1)


def _page(card: Card, style: str) -> Iterator[str]:
    title = escape(card.title)
    yield '<!DOCTYPE html>\n<html lang="en">\n<head>\n<meta charset="utf-8">'
    yield "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'\">"
    yield f'{GENERATOR}\n<meta name="viewport" content="width=device-width, initial-scale=1">'
    yield f"<title>{title}</title>\n<style>{style}</style>\n</head>\n<body>\n<header>\n<div>\n<h1>{title}</h1>"
    if card.credits:
        yield f'<p class="credits">{" · ".join(map(escape, card.credits))}</p>'
    yield f'<p class="facts">{" · ".join(map(escape, card.facts))}</p>\n</div>'
    starts = tuple(dict.fromkeys(facing for wall in card.walls if wall.name != "intro" for facing in wall.starts))
    yield f'{_rose(starts)}\n</header>\n<main class="blocks">' if starts else '</header>\n<main class="blocks">'
    for block in card.blocks:
        yield from _block(block)
    yield "</main>"
    if card.walls:
        listed = any(wall.then or wall.cue for wall in card.walls)
        yield '<section class="order">\n<h2>the order, wall by wall</h2>'
        yield "<ol>" if listed else '<ol class="plain">'
        yield from map(_wall, card.walls)
        yield f"</ol>\n<p>{escape(card.goes_on)}</p>\n</section>" if card.goes_on else "</ol>\n</section>"
    yield from (f'<p class="notes">{escape(note)}</p>' for note in card.notes)
    yield f'<p class="key">{escape(card.key)}</p>\n</body>\n</html>'


def _block(block: CardBlock) -> Iterator[str]:
    yield "<section>"
    if block.part:
        yield f'<p class="part">Part {escape(block.part)}</p>'
    name = f"{HEADINGS[block.kind]} {block.name}".strip() if block.kind in HEADINGS else block.name
    words = [f'<span class="name">{escape(name)}</span>', escape(block.title)]
    words += [f'<span class="length">{escape(block.length)}</span>'] if block.length else []
    yield f"<h3><span>{' '.join(filter(None, words))}</span> {_clock(block.starts)}</h3>\n<table>"
    yield from map(_row, block.rows)
    yield "</table>\n</section>"


def _row(row: CardRow) -> str:
    steps = ", ".join(map(_step, row.steps))
    styling = f' <span class="styling">{escape(row.styling)}</span>' if row.styling else ""
    facing = _clock(row.facing) if row.facing is not None else ""
    return f'<tr><th scope="row">{escape(row.counts)}</th><td>{steps}{styling}</td><td class="clock">{facing}</td></tr>'


def _step(step: CardStep) -> str:
    name = f'<span class="spelled">{escape(step.name)}:</span> ' if step.name else ""
    foot = f'<b class="{step.foot}">{step.foot}</b>&nbsp;' if step.foot else ""
    return f"{name}{foot}{escape(step.text)}{' ?' if step.unsure else ''}"


def _wall(wall: CardWall) -> str:
    name = f"<b>{escape(f'{wall.name} {wall.part}'.rstrip())}</b>"
    starts = " ".join(map(_clock, wall.starts))
    if len(wall.starts) > 1:
        return f"<li>{name}<span></span><span>all, from {starts}</span></li>"
    then = "".join(f" · <b>{escape(one.text)}</b> {_clock(one.facing)}" for one in wall.then)
    cue = f' <span class="cue">{escape(wall.cue)}</span>' if wall.cue else ""
    return f"<li>{name}<span>{starts}</span><span>{escape(wall.danced)}{then}{cue}</span></li>"


def _clock(facing: Fraction) -> str:
    x, y = _on(facing, 9.2)
    dial = (
        '<svg class="dial" viewBox="-12 -12 24 24" aria-hidden="true" fill="none" stroke="currentColor">'
        f'<circle r="10" stroke-width="1.4"/><path d="M0 0L{x} {y}" stroke-width="3.4"/></svg>'
    )
    return f'<span class="clock">{dial} {clock(facing)}</span>'


def _rose(starts: tuple[Fraction, ...]) -> str:
    """Return a clock with a dot for each wall that the dance begins on."""
    dots = "".join(f'<circle cx="{x}" cy="{y}" r="1.6"/>' for x, y in (_on(facing, 8.4) for facing in starts))
    said = escape(f"walls: {', '.join(map(clock, starts))}")
    return (
        f'<svg class="rose" viewBox="-12 -12 24 24" role="img" aria-label="{said}" fill="currentColor">'
        f'<circle r="10" fill="none" stroke="currentColor" stroke-width=".9"/>{dots}</svg>'
    )


def _on(facing: Fraction, radius: float) -> tuple[float, float]:
    angle = 2 * pi * float(facing)
    return round(radius * sin(angle), 2) + 0.0, round(-radius * cos(angle), 2) + 0.0
