"""Short names that a key gives to walls: "F B LH RH = front, back, left-hand, right-hand wall", "Fr / Bk: front, back".

They are facings as the key writes them, capitals and all; a name of one letter only where it stands by itself.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.keys.pairs import Pair
from trainer.sheet.prose.tables.cells import ROOM, words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_SIDES = {
    "front": Fraction(0), "home": Fraction(0), "back": Fraction(1, 2), "rear": Fraction(1, 2), "right": Fraction(1, 4),
    "left": Fraction(3, 4),
}  # fmt: skip
_ABOUT = words_in(
    "wall walls hand side of the hall room - ( ) you are facing face see at . , ; / in as seen from o clock and"
)
"""What may be said of a wall beside its side."""
_WALLS = frozenset({"wall", "walls"})
_EDGES = frozenset(
    {BREAK, "(", ")", "[", "]", "<", "{", "}", "|", ",", ">", ".", "/", ":", "=", "+", ";", "@", "*", "^", "~", "#"}
)
_SIGNS = frozenset({"=", ":", "-", ">", "is", "are", "means", "the", "for", "wall", '"', "'", "~"})
_PLACES = frozenset({"wall", "walls", "room", "hall"})
_PARTS = frozenset({",", ";", ".", BREAK, "/"})
_BETWEEN = frozenset({",", "/", "&", "and", "-"})
_LONGEST = 3
"""Letters of a name."""
_HEAD = 5
"""Tokens before the first name: "The walls of our hall:"."""
_FEWEST = 3
"""Walls of a key that names them one by one."""
_WAYS = frozenset({"back", "front", "left", "right", "home", "side", "forward"})
"""Names that tell also where a step goes: "back = 6:00 ... L back"."""
_FEET = frozenset({"R", "L", "RF", "LF"})
_COMPASS = frozenset("NESW")
_CORNERS = {"NE": Fraction(1, 8), "SE": Fraction(3, 8), "SW": Fraction(5, 8), "NW": Fraction(7, 8)}
_LETTERS = [[letter] for letter in "NESW"]
_QUARTER = words_in("quarter 1/4 ninety 90")
_HALF = words_in("half 1/2 behind opposite")
_FIRST = words_in("start starts begin begins began started")
"""How a compass is told by turns from where the dance begins."""
_LOOKS = words_in("at to towards toward facing face faces see looking from")
"""Before a letter of the compass: "round 3, which begins at S"."""
_ARTICLES = frozenset({"A", "I"})
_MOVING = words_in("turn turns turning turned step steps foot feet")
"""Words of what no wall does: "TL = turn left"."""
_AT_MOST = 12
"""Tokens of what a name stands for."""


def walls_of(pairs: Sequence[Pair], line: Sequence[Token]) -> dict[str, Fraction]:
    """Return the walls that a line of a key gives names to, by the names as they are written; none for a lone one."""
    said = {token.low for token in line}
    found = {pair.name.text: side for pair in pairs if (side := _side(pair, walls=bool(said & _WALLS))) is not None}
    return found if len(set(found.values())) > 1 else {}


def wall_key(tokens: Sequence[Token]) -> tuple[int, int, dict[str, Fraction]] | None:
    """Return where a line names walls one by one, and which: "St = the stage wall (front), Do = door (left wall)"."""
    if listed := _listed(tokens):
        return listed
    found: dict[str, Fraction] = {}
    first, last, pieces = len(tokens), 0, 0
    said = {token.low for token in tokens} | ({"wall"} if any(token.kind == "clock" for token in tokens) else set())
    said |= {"wall", *_COMPASS} if {token.text for token in tokens} >= _COMPASS else set()
    for low, high in _pieces(tokens):
        pieces += bool(found)
        named = _named(tokens[low:high], said=said)
        if named is None:
            continue
        pieces += not found
        found.setdefault(*named)
        first, last = min(first, low), high
    sure = len(found) >= _FEWEST and len(set(found.values())) == len(found) and pieces <= len(found) + 1
    while sure and last < len(tokens) and tokens[last].text in (".", ")", ","):
        last += 1
    return (first, last, found | (_CORNERS if set(found) >= _COMPASS else {})) if sure else None


def _listed(tokens: Sequence[Token]) -> tuple[int, int, dict[str, Fraction]] | None:
    """Return the walls whose names stand together before a sign: "N S E W = front, back, right, left wall"."""
    sign = next((at for at, token in enumerate(tokens) if token.text in ("=", ":")), 0)
    first = sign
    while first and (_is_name(tokens[first - 1]) or tokens[first - 1].text in _BETWEEN):
        first -= 1
    names = [token.text for token in tokens[first:sign] if token.kind == "word"]
    last = sign + 1
    sides: list[Fraction] = []
    while len(names) > 1 and last < len(tokens) and (tokens[last].low in _ABOUT or tokens[last].low in _SIDES):
        sides += [_SIDES[tokens[last].low]] if tokens[last].low in _SIDES and len(sides) < len(names) else []
        last += 1
    spoken = bool({token.low for token in tokens[first:last]} & _PLACES)
    sure = spoken and len(names) == len(sides) == len(set(sides)) > 1
    return (first, last, dict(zip(names, sides, strict=True))) if sure else None


def _pieces(tokens: Sequence[Token]) -> Iterator[tuple[int, int]]:
    """Yield where the pieces of a line stand: between commas and the like, and from each name in brackets on."""
    first = depth = 0
    for at, token in enumerate(tokens):
        named = token.text in "([" and at + 2 < len(tokens) and tokens[at + 2].text in ")]" and _is_name(tokens[at + 1])
        depth = max(0, depth + (token.text in ("(", "[")) - (token.text in (")", "]")))
        parts = token.text in _PARTS or (
            token.low == "and" and [one.text for one in tokens[at + 1 : at + 2]] in _LETTERS
        )
        if (parts and not depth) or (named and at > first):
            if at > first:
                yield first, at
            first = at + parts
    if first < len(tokens):
        yield first, len(tokens)


def _is_name(token: Token) -> bool:
    return token.kind == "word" and len(token.text) <= _LONGEST and token.text[0].isupper()


def _named(piece: Sequence[Token], said: set[str]) -> tuple[str, Fraction] | None:
    """Return the name of a wall that a piece of a line gives, and the wall."""
    words = list(piece)
    headed = next((at for at, token in enumerate(words[:_HEAD]) if token.text == ":"), 0)
    lead = headed > 0 and (not _is_name(words[0]) or words[0].low in ("the", "our", "my"))
    words = words[headed + 1 :] if lead else words
    while words and (words[0].text in "([\"'" or words[0].low in ("and", "walls", "wall", ":")):
        words.pop(0)
    if len(words) < 2 or not _is_name(words[0]):
        return None
    rest = words[1:]
    while rest and (rest[0].low in _SIGNS or rest[0].text in ")]"):
        rest = rest[1:]
    # "N 12, E 3, S 6, W 9" needs no signs.
    signed = words[1].low in _SIGNS or words[1].text in ")]" or (words[0].text in _COMPASS and said >= _COMPASS)
    if not rest or len(rest) > _AT_MOST or (words[0].text in _FEET | _ARTICLES and not signed):
        return None
    if words[0].text in _COMPASS and (turned := _turned_to(rest)) is not None:
        return words[0].text, turned
    if any(token.low in _MOVING for token in rest):
        return None
    hours = {token.value for token in rest if token.kind == "clock" and token.value is not None}
    hours |= {HOURS[rest[0].text]} if len(rest) == 1 and rest[0].text in HOURS and signed else set()
    sides = {_SIDES[token.low] for token in rest if token.low in _SIDES} if said & _PLACES else set()
    sides = sides or ({ROOM[token.low] for token in rest if token.low in ROOM} if signed else set())
    side = hours or sides
    return (words[0].text, side.pop()) if len(side) == 1 else None


def _turned_to(rest: Sequence[Token]) -> Fraction | None:
    """Return the wall that a turn from the front leads to, or the front itself: "E is a quarter turn right of N"."""
    lows = {token.low for token in rest}
    quarters, halves = lows & _QUARTER, lows & _HALF
    sides = lows & {"right", "left"}
    if quarters or sides:
        return _SIDES[sides.pop()] if quarters and len(sides) == 1 and not halves else None
    return Fraction(1, 2) if halves else Fraction(0) if lows & _FIRST else None


def _side(pair: Pair, *, walls: bool) -> Fraction | None:
    """Return the wall that a pair names, where the key speaks of walls, or tells the hours."""
    meaning = pair.meaning[:_AT_MOST]
    clocks = {token.value for token in meaning if token.kind == "clock"}
    if len(clocks) == 1:
        return clocks.pop()
    sides = [token.low for token in meaning if token.low in _SIDES]
    if not walls or not sides or meaning[0].low not in (*_SIDES, "the"):
        return None
    beside = meaning[: meaning.index(next(token for token in meaning if token.low == sides[0])) + 3]
    return _SIDES[sides[0]] if all(token.low in _ABOUT or token.low in _SIDES for token in beside) else None


def with_named_walls(tokens: tuple[Token, ...], walls: Mapping[str, Fraction]) -> tuple[Token, ...]:
    """Return tokens with the names of walls as clock times."""
    if not any(token.text in walls for token in tokens):
        return tokens
    return tuple(
        replace(token, kind="clock", value=walls[token.text])
        if token.text in walls and token.kind == "word" and _stands(tokens, at)
        else token
        for at, token in enumerate(tokens)
    )


def _stands(tokens: Sequence[Token], at: int) -> bool:
    """Whether a name stands for its wall here: one of a single letter, or the word of a way, only by itself."""
    token = tokens[at]
    if len(token.text) > 1 and token.low not in _WAYS:
        return not (token.low in ("rt", "lt", "rf", "lf") and _acts(tokens, at))
    around = [tokens[near] if 0 <= near < len(tokens) else None for near in (at - 1, at + 1)]
    looks = around[0] is not None and around[0].low in _LOOKS
    if looks and (token.text in _COMPASS or (token.text not in _FEET and (around[1] is None or _is_edge(around[1])))):
        return True
    numbered = around[0] is not None and around[0].kind == "number"
    return len(tokens) > 1 and all(
        near is None or near.text in _EDGES or (near is around[0] and numbered) for near in around
    )


def _is_edge(token: Token) -> bool:
    return token.text in _EDGES


def _acts(tokens: Sequence[Token], at: int) -> bool:
    """Whether a name that is a foot's as well opens a clause and has a word after it."""
    return at + 1 < len(tokens) and tokens[at + 1].kind == "word" and (not at or tokens[at - 1].kind != "word")
