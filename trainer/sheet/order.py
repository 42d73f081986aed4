"""Order lines: what some walls do differently from the plain dance, and where.

    wall 3, starts 6:00, squared up 1/8 right: after 16, restart @6:00 / after 28, hold 2, continue   cue: words
    walls 2, 4 and 6: counts 15-16 become change Lamp, restart
    third A: after 19 before &, bridge Wait, continue

A line without departures states a start (`wall 4, starts 9:00`) or a cue. Numbers of counts run through the whole
part.
"""

import re
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import pairwise
from typing import cast

from trainer.routine import Departure, Insert, OrderLine, Span
from trainer.sheet.findings import Findings
from trainer.sheet.headings import NAME
from trainer.sheet.lines import Line
from trainer.sheet.stated import facing_of, turn_of
from trainer.sheet.texts import outside, taken
from trainer.terms import InsertKind, Label, LeaveKind

ORDINALS = (
    "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "eleventh",
    "twelfth",
)  # fmt: skip
_ORDINAL = {word: number for number, word in enumerate(ORDINALS, 1)}
_NTH = re.compile(r"(\d{1,4})(?:st|nd|rd|th)")

_ORDINALS = re.compile(rf"(?:(?:{'|'.join(ORDINALS)}|\d{{1,4}}(?:st|nd|rd|th)|and)\b|[,&\s])+(?=\s)", re.IGNORECASE)
_AFTER = re.compile(r"after\s+(\d{1,4})(?:\s+counts?)?", re.IGNORECASE)
_CHANGE = re.compile(r"counts?\s+(\d{1,4})(?:\s*[-–—]\s*(\d{1,4}))?\s+becomes?\s+change\s+", re.IGNORECASE)
_BEFORE = re.compile(r"\s*before\s+([1-8&ea])(?=\s|,|@|$)", re.IGNORECASE)
_INSERT = re.compile(r"(tag|bridge|ending)\s+", re.IGNORECASE)
_HOLD = re.compile(r"hold\s+(\d{1,4})(?:\s+counts?)?", re.IGNORECASE)
_LEAVES = ("continue", "restart", "next", "end")
_STEP = re.compile(rf"(?:tag|bridge|ending|hold|{'|'.join(_LEAVES)})\b", re.IGNORECASE)
_LAST_WORD = re.compile(rf"\s({'|'.join(_LEAVES)})\s*$", re.IGNORECASE)
_STEP_HINT = "After the place stand tags, bridges, endings or holds, then continue, restart, next or end."


@dataclass(slots=True)
class OrderText:
    """An order line, and which of its departures do not say what follows."""

    line: OrderLine
    open_ended: list[tuple[Departure, Span]] = field(default_factory=list)


def read_order_line(line: Line, findings: Findings) -> OrderText | None:
    """Read an order line, or return None where it names no wall; what cannot be read is a problem."""
    end, cue = _cue(line)
    head = _head_end(line.text, end)
    part, passes, at = _subject(line, head, findings)
    if not passes:
        return None
    starts, squared = _attributes(line, at, head, findings)
    told = OrderText(OrderLine(span=line.span(0, head), part=part, passes=passes))
    departures = []
    for first, last in _pieces(line.text, head + 1, end):
        departure, leaves = _departure(line, first, last, findings)
        if departure is None:
            continue
        departures.append(departure)
        if not leaves:
            told.open_ended.append((departure, line.span(first, last)))
    told.line = told.line.but(starts=starts, squared=squared, departures=tuple(departures), cue=cue)
    return told


def _cue(line: Line) -> tuple[int, str]:
    """Return where the order ends, and the cue after it."""
    for at, letter in outside(line.text):
        if letter == "c" and line.text[at : at + 4] == "cue:" and (at == 0 or line.text[at - 1] in " :,"):
            return at, taken(line.text[at + 4 :])
    return len(line.text), ""


def _head_end(text: str, end: int) -> int:
    """Return where the colon after the walls stands, or the end; the colon of a clock time is none."""
    for at, letter in outside(text[:end]):
        if letter == ":" and not (text[at + 1 : at + 3].isdigit() and text[at - 1 : at].isdigit()):
            return at
    return end


def _pieces(text: str, start: int, end: int) -> list[tuple[int, int]]:
    """Return first and last place of the departures, which ` / ` divides."""
    if not text[start:end].strip():
        return []
    cuts = [start + at for at, letter in outside(text[start:end]) if letter == "/" and text[start + at - 1] == " "]
    cuts = [cut for cut in cuts if text[cut + 1 : cut + 2] in ("", " ")]
    return list(zip([start, *(cut + 1 for cut in cuts)], [*cuts, end], strict=True))


def _subject(line: Line, head: int, findings: Findings) -> tuple[str, tuple[int, ...], int]:
    """Return the part and the passes that a line is about, and the place after them."""
    text = line.text[:head]
    words = re.match(r"walls?\s+((?:\d{1,4}|and|[,&\s-])*\d{1,4})", text, re.IGNORECASE)
    if words:
        return "", _numbers(words[1], line, findings), words.end()
    ordinals = _ORDINALS.match(text)
    numbers = tuple(filter(None, map(_ordinal, re.findall(r"\w+", ordinals[0] if ordinals else ""))))
    name = NAME.match(text, _blanks(text, ordinals.end())) if ordinals and numbers else None
    if ordinals is None or name is None:
        hint = "Write `wall 3: after 16, restart`; in a phrased dance `third A: after 16, next`."
        findings.error("order", line.span(), "Which wall is this about?", hint)
        return "", (), 0
    return taken(name[0]), numbers, name.end()


def _blanks(text: str, at: int) -> int:
    """Return the place after the blanks at a place."""
    return at + len(text[at:]) - len(text[at:].lstrip())


def _ordinal(word: str) -> int | None:
    match = _NTH.fullmatch(word.casefold())
    return int(match[1]) if match else _ORDINAL.get(word.casefold())


def _numbers(text: str, line: Line, findings: Findings) -> tuple[int, ...]:
    """Return the numbers of "2, 4 and 6" or "2-4"."""
    numbers: list[int] = []
    for first, last in re.findall(r"(\d+)(?:\s*-\s*(\d+))?", text):
        end = int(last or first)
        if end - int(first) > 100 or end < int(first):
            findings.error(
                "order", line.span(), f"{first}-{last} are no walls of a dance.", "Write `walls 2, 3 and 4`."
            )
            end = int(first)
        numbers += range(int(first), end + 1)
    return tuple(numbers)


def _attributes(line: Line, at: int, end: int, findings: Findings) -> tuple[Fraction | None, Fraction]:
    """Return the stated start and the squaring up."""
    starts, squared = None, Fraction(0)
    for first, last in _commas(line.text, at, end):
        text = line.text[first:last].strip()
        span = line.span(first, last)
        if text.startswith("starts "):
            starts = facing_of(text.removeprefix("starts ").strip())
            if starts is None:
                findings.error("facing", span, f'"{text}" states no facing.', "Write `starts 6:00`.")
        elif text.startswith("squared up "):
            turn = turn_of(text.removeprefix("squared up "))
            squared = turn or Fraction(0)
            if turn is None:
                findings.error("facing", span, f'"{text}" states no turn.', "Write `squared up 1/8 right`.")
        elif text:
            hint = "Before the colon stand the walls, `starts 6:00` and `squared up 1/8 right`."
            findings.error("order", span, f'I do not understand "{text}".', hint)
    return starts, squared


def _commas(text: str, start: int, end: int) -> list[tuple[int, int]]:
    cuts = [start + at for at, letter in outside(text[start:end]) if letter == ","]
    return list(zip([start, *(cut + 1 for cut in cuts)], [*cuts, end], strict=True))


def _departure(line: Line, first: int, last: int, findings: Findings) -> tuple[Departure | None, bool]:
    """Read one departure; return it and whether it says what follows."""
    span = line.span(first, last)
    facing, last = _facing(line, first, last, findings)
    (start, end), *rest = _commas(line.text, first, last)
    place, end_of_place = _place(line, start, end, span, findings)
    if place is None:
        return None, True
    rest = [piece for start, end in [(end_of_place, end), *rest] for piece in _parted(line, start, end, findings)]
    inserts: list[Insert] = []
    leave: LeaveKind | None = None
    unknown = False
    for start, end in rest:
        text = line.text[start:end].strip()
        if text.casefold() in _LEAVES:
            if leave is not None:
                findings.error("order", line.span(start, end), f'"{leave}" says already what follows.')
            leave = leave or cast("LeaveKind", text.casefold())
            continue
        insert = _insert(line, start, end)
        if insert is None:
            unknown = True
            hint = findings.near(text, (*_LEAVES, "tag", "bridge", "ending", "hold 2")) or _STEP_HINT
            findings.error("order", line.span(start, end), f'I do not understand "{text}".', hint)
        elif leave is not None:
            findings.error("order", line.span(start, end), f'"{text}" comes too late, after "{leave}".', _STEP_HINT)
        else:
            inserts.append(insert)
    return place.but(inserts=tuple(inserts), leave=leave or "continue", facing=facing), unknown or leave is not None


def _facing(line: Line, first: int, last: int, findings: Findings) -> tuple[Fraction | None, int]:
    at = next((first + at for at, letter in outside(line.text[first:last]) if letter == "@"), None)
    if at is None:
        return None, last
    text = line.text[at + 1 : last].strip()
    facing = facing_of(text)
    if facing is None:
        hint = "It stands at the end of a departure: `after 16, restart @6:00`."
        findings.error("facing", line.span(at, last), f'"{text}" is no facing.', hint)
    return facing, at


def _parted(line: Line, first: int, last: int, findings: Findings) -> list[tuple[int, int]]:
    """Part what stands between two commas where one is missing: `bridge Wait continue`."""
    text = line.text
    if not text[first:last].strip():
        return [(first, last)] if text[first - 1 : first] == "," else []
    missing = [] if text[first - 1 : first] == "," else [_blanks(text, first)]
    last_word = _LAST_WORD.search(text[first:last])
    if last_word and _insert(line, first, first + last_word.start()):
        missing.append(first + last_word.start(1))
    for at in missing:
        word = text[at:last].split()[0]
        findings.error("order", line.span(at, at + len(word)), f'A comma is missing before "{word}".')
    cuts = [first, *(at for at in missing if at > _blanks(text, first)), last]
    return list(pairwise(cuts))


def _place(line: Line, first: int, last: int, span: Span, findings: Findings) -> tuple[Departure | None, int]:
    """Read `after n [before label]` or `counts a-b become change NAME`; return the place after it too.

    What stands there without a comma and may be a step of its own is left to be read as one.
    """
    text = line.text
    at = first + len(text[first:last]) - len(text[first:last].lstrip())
    place: Departure | None = None
    if after := _AFTER.match(text, at, last):
        place, at = Departure(span=span, after=int(after[1])), after.end()
    elif change := _CHANGE.match(text, at, last):
        name = NAME.match(text, change.end(), last)
        if name:
            one, other = int(change[1]), int(change[2] or change[1])
            place = Departure(span=span, first=one, after=other, change=taken(name[0]))
            at = name.end()
    if place is None:
        hint = "Write `after 16, restart` or `counts 15-16 become change NAME, continue`."
        findings.error(
            "order", line.span(first, last), f'"{text[first:last].strip()}" names no place in the dance.', hint
        )
        return None, last
    if before := _BEFORE.match(text, at, last):
        place, at = place.but(before=cast("Label", before[1])), before.end()
    if not text[at:last].strip():
        return place, last
    if _STEP.match(text, _blanks(text, at), last):
        return place, at
    findings.error("order", line.span(at, last), f'I do not understand "{text[at:last].strip()}".', _STEP_HINT)
    return place, last


def _insert(line: Line, first: int, last: int) -> Insert | None:
    text = line.text[first:last].strip()
    span = line.span(first, last)
    if hold := _HOLD.fullmatch(text):
        return Insert(span=span, kind="hold", counts=int(hold[1]))
    if (match := _INSERT.match(text)) and (name := NAME.fullmatch(text, match.end())):
        return Insert(span=span, kind=cast("InsertKind", match[1].casefold()), name=taken(name[0]))
    return None
