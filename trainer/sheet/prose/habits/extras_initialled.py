"""Extras that the play names by their first letters, "A - B - T - A", "2A, br, B", told by their names.

The letters stand for an extra that heads its steps, the only one of such letters; they stand in the play like one of
its items. What explains them, "br is the Breather", falls away. Where a line opens with the letters it tells the extra
itself, and they are its name. Common practice, no source.
"""

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_SHORT = {
    "tag": ("t", "tg"),
    "bridge": ("br", "brg", "bdg", "brdg", "bg"),
    "breather": ("br",),
    "ending": ("end", "en", "e"),
    "finish": ("fin", "f", "fn"),
    "intro": ("int", "in", "i"),
    "introduction": ("int", "intro", "i"),
    "interlude": ("il", "int"),
    "coda": ("co", "cd"),
}
_PARTS = frozenset("ABCDEFGH")
_HEADED = {"part", "section", "sec", "block", "set", "figure", "eight"}
_ARTICLES = {"the", "our", "a", "an"}
_NEAR = 3
"""So near below a play, or in it, its letters are explained."""
_LONGEST = 3
_FEWEST = 3
"""Letters of parts in a line that tells a play."""
_ITEM_ENDS = {",", "-", "/", "|", ">", "+", ".", ";", "(", ")", ":", "and", "then", "&", "=", BREAK}
_IS = {"is", "=", "means", ":", "for", "stands", "being"}
_LEADING = {",", ";", "and", "with", "where", "&"}


def with_extras_spelled_out(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such letters told as the extra's name."""
    headed = {name for line in lines if (name := _head(line)) in _SHORT}
    opened = {line.tokens[0].low for line in lines if line.tokens}
    letters = {token.low for line in lines for token in line.tokens[:2] if token.text in _PARTS and _heads(line, token)}
    names: dict[str, str] = {}
    for short in {short for name in headed for short in _SHORT[name]}:
        owners = [name for name in headed if short in _SHORT[name]]
        if len(owners) == 1 and short not in opened and short not in letters and short not in headed:
            names[short] = owners[0]
    names |= {short: name for short, name in _called(lines, headed) if short not in opened and short not in letters}
    plays = {line.number for line in lines if _plays(line)}
    return tuple(
        replace(line, tokens=tuple(_told(line.tokens, names)))
        if {line.number - more for more in range(_NEAR)} & plays
        else line
        for line in lines
    )


def _called(lines: Sequence[Line], headed: Set[str]) -> Iterator[tuple[str, str]]:
    """Yield letters and the extra for which the sheet says that they stand: "(a = half of A, br = tag)"."""
    for line in lines:
        for at in range(1, len(line.tokens) - 2):
            short, sign, name = line.tokens[at : at + 3]
            name = line.tokens[at + 3] if name.low in _ARTICLES and at + 3 < len(line.tokens) else name
            apart = line.tokens[at - 1].low in (*_LEADING, "(")
            if (
                apart
                and sign.low in _IS
                and name.low in headed
                and len(short.text) <= _LONGEST
                and short.kind == "word"
            ):
                yield short.low, name.low


def _head(line: Line) -> str:
    """Return the first word of a line that may head an extra."""
    words = [token.low for token in line.tokens if token.kind == "word" and token.low not in _ARTICLES]
    return words[0] if words else ""


def _heads(line: Line, token: Token) -> bool:
    return token is line.tokens[0] or line.tokens[0].low in _HEADED


def _plays(line: Line) -> bool:
    """Whether a line names parts by their letters as a play does."""
    return sum(token.text in _PARTS for token in line.tokens) >= _FEWEST


def _told(tokens: Sequence[Token], names: Mapping[str, str]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        if explained := _explained(tokens, at, names):
            at += explained
            continue
        token = tokens[at]
        name = names.get(token.low, "")
        yield word_like(token, name) if name and _is_item(tokens, at) else token
        at += 1


def _explained(tokens: Sequence[Token], at: int, names: Mapping[str, str]) -> int:
    """Return how many tokens from one on only explain such letters: ", and br is the Breather"; 0: none."""
    first = at
    while first < len(tokens) and tokens[first].low in _LEADING:
        first += 1
    end = first + 1
    if first >= len(tokens) or tokens[first].low not in names:
        return 0
    while end < len(tokens) and (tokens[end].low in _IS or tokens[end].low in _ARTICLES):
        end += 1
    explains = end > first + 1 and end < len(tokens) and tokens[end].low == names[tokens[first].low]
    closed = end + 1 >= len(tokens) or tokens[end + 1].text in (".", ",", ";", ")")
    return end + 1 - at if explains and closed else 0


def _is_item(tokens: Sequence[Token], at: int) -> bool:
    """Whether a token stands between the items of a play, or their letters."""
    before = tokens[at - 1] if at else None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    closed = after is None or after.low in _ITEM_ENDS or after.text in _PARTS or after.kind == "number"
    opened = before is None or before.low in _ITEM_ENDS or before.text in _PARTS
    return opened and closed and any(one is not None and one.text != "." for one in (before, after))
