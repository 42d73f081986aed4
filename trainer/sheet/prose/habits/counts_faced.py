"""Counts and the facing that they lead to in one bracket, "(3-4, you're at 6)": told in a bracket each."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import Scan
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_PARTING = {",", ";", "-", ":", "/"}
_FACING = {"at", "facing", "face", "faces", "to", "on", "now", "wall", "towards", "toward", "looking"}
_ROOM = {"front", "back", "home", "side"}
_HOURS = 12
_LONGEST = 8
"""Tokens of a facing in words: "so you are now facing the back wall"."""
_CLOSES = {"(": ")", "[": "]", "{": "}"}


def with_counts_and_facings_parted(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with such brackets parted in two."""
    return tuple(
        replace(line, tokens=tuple(_parted(line.tokens))) if any(one.text in _CLOSES for one in line.tokens) else line
        for line in lines
    )


def _parted(tokens: Sequence[Token]) -> Iterator[Token]:
    due: dict[int, Token] = {}
    for at, token in enumerate(tokens):
        if at in due:
            yield replace(token, kind="mark", text=due[at].text, low=due[at].text)
            opener = {close: one for one, close in _CLOSES.items()}[due[at].text]
            yield replace(token, kind="mark", text=opener, low=opener)
            continue
        yield token
        if token.text in _CLOSES and (comma := _comma_after_counts(tokens, at)):
            due[comma] = replace(token, text=_CLOSES[token.text])


def _comma_after_counts(tokens: Sequence[Token], at: int) -> int:
    """Return where a mark parts counts from a facing in the bracket that opens at `at`; 0 where none does."""
    scan = Scan(tokens, at + 1, in_bracket=True)
    scan.run()
    comma = scan.at
    closing = next((end for end in range(comma, len(tokens)) if tokens[end].text == _CLOSES[tokens[at].text]), 0)
    parted = scan.places and comma < len(tokens) and tokens[comma].text in _PARTING
    return comma if parted and 0 < closing - comma - 1 <= _LONGEST and _faces(tokens[comma + 1 : closing]) else 0


def _faces(tokens: Sequence[Token]) -> bool:
    """Whether words say where one faces, and nothing else: "at 6", "you're facing the back", "3:00"."""
    lows = [one.low for one in tokens if one.low not in ("the", "you're", "you", "are", "now", "so", "that's")]
    hours = [low for low in lows if low.isdecimal() and 0 < int(low) <= _HOURS]
    clocks = [one for one in tokens if one.kind in ("clock", "facing") or one.low in ("o'clock", "oclock")]
    told = bool(clocks) or bool(_FACING & set(lows) and hours) or bool(_ROOM & set(lows))
    return told and len(lows) <= len(clocks) + len(_FACING & set(lows)) + len(hours) + len(_ROOM & set(lows))
