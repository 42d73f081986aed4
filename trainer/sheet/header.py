"""The head of a sheet: `key: value` lines before the first heading.

Keys: title, tune, by, tempo, time, feel, starts, counts, walls, level, intro, square up, play, note (as often as
needed). `intro: 16 from the first drum` is the wait before the first step; `square up: 1/8 right` the turn on count 1
of a wall that begins on a diagonal; `play: A A B tag Lantern A` the order of a phrased dance, which ends with it
unless it ends with `repeat`.
"""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any, cast

from trainer.routine import PlayItem, Span
from trainer.sheet.findings import Findings
from trainer.sheet.headings import NAME
from trainer.sheet.lines import Line
from trainer.sheet.stated import turn_of
from trainer.sheet.texts import QUOTED, taken
from trainer.terms import PlayKind

_KEY = re.compile(r"([A-Za-z][A-Za-z ]{0,30}?)\s*:\s*")
_NUMBER = re.compile(r"\d{1,9}(?:/[1-9]\d{0,8}|\.\d{1,9})?")
_STARTS = re.compile(r"(?:weight\s+)?(?:on\s+)?(?:the\s+)?(R|L|B|both)(?:\s+f(?:oo|ee)t)?")
_WAIT = re.compile(r"(\d{1,4})(?:\s+(.*))?", re.DOTALL)
_OTHER_NAMES = {
    "music": "tune", "song": "tune", "track": "tune", "choreographer": "by", "choreographed by": "by", "bpm": "tempo",
    "speed": "tempo", "count": "counts", "wall": "walls", "weight": "starts", "notes": "note", "remark": "note",
    "order": "play", "sequence": "play", "metre": "time", "meter": "time", "rhythm": "feel", "name": "title",
    "wait": "intro", "squared up": "square up",
}  # fmt: skip

_FIELDS = {"intro": "wait", "square up": "squares", "note": "notes"}
"""Keys whose field has another name."""

Fields = dict[str, Any]
"""Values of the fields of a Routine."""


def read_header(lines: list[Line], findings: Findings) -> Fields:
    """Return the fields that the head of a sheet gives; what is wrong in it is a problem."""
    fields: Fields = {}
    seen: set[str] = set()
    places: list[tuple[str, Span]] = []
    hints: list[str] = []
    for line in lines:
        match = _KEY.match(line.text)
        key = match[1].casefold() if match else ""
        if match is None or key not in _KEYS:
            message, hint = _unknown(line, match[1] if match else "", findings)
            hints.append(hint)
            findings.error("text", line.span(), message, hint)
        elif key in seen and key != "note":
            findings.error("text", line.span(0, match.end()), f"{key} is written twice; the first one holds.")
        else:
            seen.add(key)
            _KEYS[key](fields, line, match.end(), findings)
            places.append((_FIELDS.get(key, key), line.span(match.end() if line.text[match.end() :] else 0)))
    if "title" not in seen and not any("title" in hint for hint in hints):
        where = (lines or [Line("", ((0, 1, 1),))])[0].span()
        findings.error("text", where, "The dance has no title.", "Begin with `title: ...`.")
    return {**fields, "header": tuple(places)}


def _unknown(line: Line, key: str, findings: Findings) -> tuple[str, str]:
    """Return the sentence and the hint for a line whose key is not known."""
    if not key:
        hint = "Write `key: value` here, such as `title: ...`; sections begin with `== 1`."
        return f'I do not understand "{line.text[:60]}" at the head of the sheet.', hint
    other = _OTHER_NAMES.get(key.casefold())
    hint = f"Did you mean {other}?" if other else findings.near(key, _KEYS)
    return f'"{key}" is no key of the head of a sheet.', hint or "The keys are " + ", ".join(
        key for key in _KEYS if key != "title"
    ) + "."


def _text(field: str) -> "_Reader":
    def read(fields: Fields, line: Line, at: int, findings: Findings) -> None:
        fields[field] = taken(line.text[at:])

    return read


def _note(fields: Fields, line: Line, at: int, findings: Findings) -> None:
    fields["notes"] = (*fields.get("notes", ()), taken(line.text[at:]))


def _tempo(fields: Fields, line: Line, at: int, findings: Findings) -> None:
    text = line.text[at:].strip()
    if _NUMBER.fullmatch(text) and Fraction(text) > 0:
        fields["tempo"] = Fraction(text)
    else:
        findings.error("music", line.span(at), f'"{text}" is no tempo.', "Write the counts a minute: `tempo: 96`.")


def _whole(field: str, name: str, example: str) -> "_Reader":
    def read(fields: Fields, line: Line, at: int, findings: Findings) -> None:
        text = line.text[at:].strip()
        if re.fullmatch(r"\d{1,6}", text) and int(text) > 0:
            fields[field] = int(text)
        else:
            findings.error(
                "text",
                line.span(at),
                f'"{text}" is no number of {name}.',
                f"Write `{field}: {'4' if field == 'walls' else '32'}`.",
            )

    return read


def _choice(field: str, choices: tuple[str, ...]) -> "_Reader":
    def read(fields: Fields, line: Line, at: int, findings: Findings) -> None:
        text = line.text[at:].strip().casefold()
        if text in choices:
            fields[field] = text
        else:
            listed = f"{', '.join(choices[:-1])} or {choices[-1]}"
            hint = findings.near(text, choices)
            findings.error("text", line.span(at), f"The {field} is {listed}.", hint)

    return read


def _starts(fields: Fields, line: Line, at: int, findings: Findings) -> None:
    text = line.text[at:].strip()
    match = _STARTS.fullmatch(text)
    if match:
        fields["starts"] = "B" if match[1] == "both" else match[1]
    else:
        hint = "Write `starts: weight on L`; R and L are feet, right and left are directions."
        findings.error("weight", line.span(at), f'"{text}" says no foot.', hint)


def _intro(fields: Fields, line: Line, at: int, findings: Findings) -> None:
    text = line.text[at:].strip()
    match = _WAIT.fullmatch(text)
    if match:
        fields["wait"] = int(match[1])
        fields["wait_from"] = taken(match[2] or "")
    else:
        fields["wait_from"] = taken(text)
        if not QUOTED.fullmatch(text):
            hint = "Write `intro: 16 from the first drum`."
            findings.warn("music", line.span(at), "How many counts is the wait?", hint)


def _square(fields: Fields, line: Line, at: int, findings: Findings) -> None:
    turn = turn_of(line.text[at:])
    if turn is None:
        findings.error("facing", line.span(at), "To square up is a turn.", "Write `square up: 1/8 right`.")
    else:
        fields["squares"] = turn


def _play(fields: Fields, line: Line, at: int, findings: Findings) -> None:
    """Read the order of parts, and extras between them."""
    items: list[PlayItem] = []
    words = list(NAME.finditer(line.text, at))
    fields["repeats"] = bool(words) and words[-1][0].casefold() == "repeat"
    if fields["repeats"]:
        words.pop()
    index = 0
    while index < len(words):
        word, following = words[index], words[index + 1] if index + 1 < len(words) else None
        kind = word[0].casefold()
        span = line.span(word.start(), (following or word).end() if kind in _PLAYED else word.end())
        if kind not in _PLAYED:
            items.append(PlayItem(span=span, kind="part", name=taken(word[0])))
        elif following is None or (kind == "hold" and not re.fullmatch(r"\d{1,4}", following[0])):
            what = "How many counts?" if kind == "hold" else f"Which {kind}?"
            findings.error("order", span, what, f"Write `{kind} {'4' if kind == 'hold' else 'NAME'}`.")
        elif kind == "hold":
            items.append(PlayItem(span=span, kind="hold", counts=int(following[0])))
            index += 1
        else:
            items.append(PlayItem(span=span, kind=cast("PlayKind", kind), name=taken(following[0])))
            index += 1
        index += 1
    if not words:
        findings.error("order", line.span(0, at), "Which parts are danced?", "Write `play: A A B`.")
    fields["play"] = tuple(items)


_PLAYED = ("tag", "bridge", "ending", "hold")
_Reader = Callable[[Fields, Line, int, Findings], None]
_KEYS: dict[str, _Reader] = {
    "title": _text("title"),
    "tune": _text("tune"),
    "by": _text("by"),
    "tempo": _tempo,
    "time": _choice("time", ("4/4", "3/4", "2/4")),
    "feel": _choice("feel", ("straight", "swung", "rolling")),
    "starts": _starts,
    "counts": _whole("counts", "counts", "counts: 32"),
    "walls": _whole("walls", "walls", "walls: 4"),
    "level": _text("level"),
    "intro": _intro,
    "square up": _square,
    "play": _play,
    "note": _note,
}


def read_feel(line: Line, at: int, findings: Findings) -> Any:
    """Return the feel that a line `feel: ...` under a heading gives, or None."""
    fields: Fields = {}
    _KEYS["feel"](fields, line, at, findings)
    return fields.get("feel")
