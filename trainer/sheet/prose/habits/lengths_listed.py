"""Walls told one after the other by how long they are: "three full walls, 16 counts, two walls, tag, then to the end".

Such a list is told as a sequence, a length for each wall: "sequence: full, full, full, 16, full, full, tag, full". All
items of its sentence are walls, lengths or extras; steps in brackets behind an extra are told after the list. Common
practice, no source.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_FEWEST = 3
_MOST = 40
"""Walls of a list."""
_PARTING = {",", "/", BREAK, "+", ">", "-", ";", "->"}
_PARTING_WORDS = {"then", "and", "next"}
_LEADS = re.compile(
    r"^(?:(?:the )?(?:order|sequence|running order|pattern|walls|plan|order of (?:the )?walls|wall order)"
    r"(?: is| goes| go| runs)? ?[:=\-]?|it goes ?:?|"
    r"(?:you |we )?(?:dance|do) ?:?(?= (?:\w+ )?(?:full|whole|complete|walls|times)))"
    r" (?=\S)"
)
_WHOLE = r"(?:(?:full|whole|complete|normal|plain|entire|straight|the|a|more|times|through|x) )*"
_FULL = re.compile(
    rf"^{_WHOLE}(?:full|whole|complete|walls?|dances?|the dance|rounds?)"
    r"(?: (?:full|through|in full|dance|walls?|times|x))*$"
)
_TO_THE_END = re.compile(
    rf"^{_WHOLE}(?:(?:full|whole|complete) )?(?:dance |walls? |rounds? |on |keep going |carry on |go on )*"
    r"(?:to|until|till) (?:the )?(?:end|music (?:ends|stops|fades)|finish|close)$"
)
_SHORT = re.compile(r"^(?:only |just |the |first |dance )*(\d+)(?: (?:counts?|beats?|cts))?(?: only)?$")
_HALF = re.compile(r"^(?:a |only |just )*half(?: a| the| of a)?(?: wall| dance)?(?: only)?$")
_EXTRA = re.compile(r"^(?:the |a )?(tag|bridge|t)(?: (\d|i|ii|[ab]))?( twice)?$")


def with_lengths_listed(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such lists told as sequences."""
    return tuple(_told(line) for line in lines)


def _told(line: Line) -> Line:
    tokens = line.tokens
    words = " ".join(token.low for token in tokens)
    lead = _LEADS.match(words)
    first = lead[0].count(" ") if lead else 0
    end = next((at for at in range(first, len(tokens)) if tokens[at].text == "."), len(tokens))
    plain, behind = _without_steps(tokens[first:end])
    pieces = list(_pieces(plain))
    items = [item for piece in pieces for item in _item(piece)]
    walls = sum(item != "tag" for item in items)
    longest = max((item for item in items if item.isdecimal()), key=int, default="")
    full = items.count("full") or items.count(longest) * (items.count(longest) > 1 and "tag" in items)
    if not (_FEWEST <= len(items) <= _MOST and full and full < len(items) and walls > 1 and "" not in items):
        return line
    if not lead and len(pieces) < _FEWEST:
        # "16 counts, 4 walls" tells what the dance is.
        return line
    near = tokens[first]
    told: list[Token] = [word_like(near, "Sequence"), mark_like(near, ":")]
    for place, item in enumerate(items):
        told += [mark_like(near, ",")] if place else []
        told.append(number_like(near, int(item)) if item.isdecimal() else word_like(near, item))
    if behind:
        told += [mark_like(near, "."), word_like(near, "Tag"), mark_like(near, ":"), *behind]
    return replace(line, tokens=(*told, *tokens[end:]), source="")


def _without_steps(tokens: Sequence[Token]) -> tuple[list[Token], list[Token]]:
    """Return a list without what tells the steps of its extra, and these: "tag (rock R ...)", "(tag is a ...)"."""
    opens = [at for at, token in enumerate(tokens) if token.text in ("(", "[")]
    closes = [at for at, token in enumerate(tokens) if token.text in (")", "]")]
    bracketed = len(opens) == len(closes) == 1 and opens[0] < closes[0]
    inside = list(tokens[opens[0] + 1 : closes[0]]) if bracketed else []
    if bracketed and (start := _defines(inside)):
        return [*tokens[: opens[0]], *tokens[closes[0] + 1 :]], inside[start:]
    if bracketed and tokens[opens[0] - 1].low in ("tag", "bridge"):
        return [*tokens[: opens[0]], *tokens[closes[0] + 1 :]], inside
    for at, token in enumerate(tokens):
        if token.text in (",", ";") and (start := _defines(tokens[at + 1 :])):
            return list(tokens[:at]), list(tokens[at + 1 + start :])
    return list(tokens), []


def _defines(tokens: Sequence[Token]) -> int:
    """Return where the steps begin in words that tell what the tag is; 0 where they tell no such thing."""
    lows = [token.low for token in tokens[:3]]
    at = lows.index("tag") if "tag" in lows[:2] else -1
    return at + 2 if at >= 0 and at + 2 < len(tokens) and tokens[at + 1].low in ("is", "=", ":") else 0


def _pieces(tokens: Sequence[Token]) -> Iterator[list[Token]]:
    piece: list[Token] = []
    for token in tokens:
        if token.text in _PARTING or token.low in _PARTING_WORDS:
            if piece:
                yield piece
            piece = []
        else:
            piece.append(token)
    if piece:
        yield piece


def _item(piece: Sequence[Token]) -> list[str]:
    """Return what one item of the list stands for; one empty text where it is none."""
    value, taken, placed = number_at(piece, 0)
    number = 0 if placed else value
    said = " ".join(token.low for token in piece)
    rest = " ".join(token.low for token in piece[taken:]) if number else said
    if _TO_THE_END.match(said):
        return ["full"]
    if extra := _EXTRA.match(said):
        return ["tag"] * (2 if extra[3] else 1)
    if _HALF.match(said):
        return ["half"]
    if number and _FULL.match(rest) and number <= _MOST:
        return ["full"] * number
    if (times := re.fullmatch(r"(.+?) (?:x|times) ?(\d{1,2})|(.+?) (\d{1,2}) (?:x|times)", said)) and _FULL.match(
        times[1] or times[3]
    ):
        return ["full"] * min(int(times[2] or times[4]), _MOST)
    if _FULL.match(said):
        return ["full"]
    if short := _SHORT.match(f"{number} {rest}" if number else said):
        return [short[1]]
    return [""]
