"""Numbers that are lengths, in the short list of an extra's steps: "Tag: sway R, sway L, hold 2", "hold 2, clap 2".

Where all numbers of the list stand behind what may last or be done again, and do not count up, they are no counts: one
holds, and claps, so often. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like
from trainer.sheet.prose.words import Token

_EXTRA = re.compile(r"\b(?:tags?|bridge|ending|finish|extra)\b")
_LASTING = {"hold", "pause", "wait", "freeze", "pose"}
_AGAIN = {"clap", "claps", "snap", "snaps", "click", "clicks", "stomp", "stomps", "stamp", "stamps"}
_PARTS = {",", ".", ";", "and", "then", "&", "+", "!"}
_HELD = re.compile(r"(?:hold|pause|freeze|wait)(?: for)? [2-8] (?:counts?|beats?|cts)")
_NUMBERED = re.compile(r"(?:tag|bridge) \d [:=] (?!.*\b(?:after|wall|walls)\b)")
_MOST = 8
"""Counts of such a length."""
_FEWEST = 2


def with_lengths_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such lengths told as what they are."""
    done: list[Line] = []
    for line in lines:
        colon = max((at for at, token in enumerate(line.tokens) if token.text in (":", "=")), default=0)
        numbered = _NUMBERED.match(line.words) is not None
        told = _told(line.tokens[colon + 1 :], numbered=numbered) if colon and _EXTRA.search(line.words) else None
        done.append(line if told is None else replace(line, tokens=(*line.tokens[: colon + 1], *told), source=""))
    return tuple(done)


def _told(tokens: Sequence[Token], *, numbered: bool) -> list[Token] | None:
    """Return the tokens of a list with its lengths told out; None where it has none."""
    items = _items(tokens)
    lengths = _bare(tokens, items) or _measured(items) or (_only_held(items) if numbered else [])
    if not lengths:
        return None
    firsts = {id(item[0]): item for item in lengths}
    others = {id(token) for item in lengths for token in item[1:]}
    done: list[Token] = []
    for token in tokens:
        item = firsts.get(id(token))
        if item is not None:
            often = next(int(one.text) for one in item if one.text.isdecimal())
            done += [one for n in range(often) for one in ((mark_like(token, ","),) if n else ()) + (token,)]
        elif id(token) not in others:
            done.append(token)
    return done


def _bare(tokens: Sequence[Token], items: Sequence[list[Token]]) -> list[list[Token]]:
    """Return the items that end with a length; none where a number of the list may be a count."""
    lengths = [item for item in items if item[-1].text.isdecimal()]
    numbers = [int(item[-1].text) for item in lengths]
    counting = len(numbers) > 1 and numbers == list(range(numbers[0], numbers[0] + len(numbers)))
    if not numbers or counting or sum(token.kind == "number" for token in tokens) != len(numbers):
        return []
    plain = all(len(item) == _FEWEST and item[0].low in _LASTING | _AGAIN for item in lengths)
    return lengths if plain and len(items) > 1 and _FEWEST <= min(numbers) <= max(numbers) <= _MOST else []


def _measured(items: Sequence[list[Token]]) -> list[list[Token]]:
    """Return the items that say for how many counts one holds, beside steps of the feet without counts.

    "Hold for 2 counts, stomp R" is no hold behind the steps, nor is "step R forward and hold 3 counts".
    """
    held = [item for item in items if _HELD.fullmatch(" ".join(token.low for token in item))]
    others = [item for item in items if item not in held]
    counted = any(token.kind == "number" for item in others for token in item)
    steps = any(token.low in STEP_WORDS for item in others for token in item)
    return held if held and steps and not counted else []


def _only_held(items: Sequence[list[Token]]) -> list[list[Token]]:
    """Return what is all that a tag with a number is: "Tag 1: hold 4 counts"."""
    held = [item for item in items if _HELD.fullmatch(" ".join(token.low for token in item))]
    return held if len(held) == len(items) == 1 else []


def _items(tokens: Sequence[Token]) -> list[list[Token]]:
    items: list[list[Token]] = [[]]
    for token in tokens:
        if token.low in _PARTS:
            items.append([])
        else:
            items[-1].append(token)
    return [item for item in items if item]
