"""Walls told by ordinals alone under a heading that names them: "THE WALLS", "first 12:00, second 6:00, third ...".

The word for a wall is put in behind each; so is the word for a section before the numbers in words that head sections.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_HEAD = 5
"""Tokens of the heading."""
_WALLS = {"wall", "walls", "rounds", "starts"}
_PLACES = {"st", "nd", "rd", "th"}
_OPENS = {",", ";", ".", "/", BREAK, "•"}
_LEAST = 4
_FEWEST = 3
"""Sections that numbers in words head."""


def with_ordinal_walls(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with "wall" behind the ordinals of a list of walls."""
    head = next((at for at, line in enumerate(lines) if _heads_walls(line)), len(lines))
    found = [(at, *one) for at in range(head + 1, len(lines)) for one in _ordinals(lines[at].tokens)]
    if len(found) < _LEAST or [value for _, _, _, value in found] != list(range(1, len(found) + 1)):
        return tuple(lines)
    first, last = found[0][0], found[-1][0]
    sections = _sections(lines[:head])
    done = list(lines)
    for at in range(first, last + 1):
        ends = {end: start for line, start, end, _ in found if line == at}
        done[at] = replace(lines[at], tokens=_told(lines[at].tokens, ends, sections))
    return tuple(done)


def _heads_walls(line: Line) -> bool:
    """Whether a line is no more than a heading of the walls."""
    words = [token.low for token in line.tokens if token.kind == "word"]
    plain = all(token.kind in ("word", "mark") for token in line.tokens)
    return plain and len(line.tokens) <= _HEAD and bool(_WALLS & set(words))


def _ordinals(tokens: Sequence[Token]) -> list[tuple[int, int, int]]:
    """Return where ordinals stand that open a clause and are followed by what they tell, each with its number."""
    found = []
    for at, token in enumerate(tokens):
        if at and tokens[at - 1].text not in _OPENS:
            continue
        end = at + 1
        value = ORDINALS.get(token.low, 0)
        if token.kind == "number" and end < len(tokens) and tokens[end].low in _PLACES and tokens[end].glued:
            value, end = int(token.text), end + 1
        after = tokens[end] if end < len(tokens) else None
        told = after is not None and (
            after.kind in ("clock", "facing", "number") or after.text in (":", "-", BREAK, "(")
        )
        if value and told:
            found.append((at, end, value))
    return found


def _sections(lines: Sequence[Line]) -> set[str]:
    """Return the numbers in words that head the sections: "One", "Two" ... each in a line of its own."""
    heads = [line.tokens[0] for line in lines if sum(one.kind != "mark" for one in line.tokens) == 1]
    told = [token.low for token in heads if token.kind == "word" and token.low in NUMBERS]
    in_order = [NUMBERS[word] for word in told] == list(range(1, len(told) + 1))
    return set(told) if in_order and len(told) >= _FEWEST else set()


def _told(tokens: Sequence[Token], ends: dict[int, int], sections: set[str]) -> tuple[Token, ...]:
    done: list[Token] = []
    for at, token in enumerate(tokens):
        if at in ends:
            done.append(replace(tokens[at - 1], kind="word", text="wall", low="wall", glued=False))
            alone = at + 1 == len(tokens) or tokens[at + 1].text in _OPENS
            if alone and token.kind == "number" and token.text in HOURS:
                # "second 9, third 6": where each begins.
                token = replace(token, kind="facing", value=HOURS[token.text])
        if token.low in sections and token.text[0].isupper() and at and (not done or done[-1].low != "section"):
            done.append(replace(token, text="section", low="section", glued=False))
        done.append(token)
    return tuple(done)
