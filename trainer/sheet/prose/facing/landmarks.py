"""A sheet's own names for the walls of its room: "stage is 12 o'clock, bar is 3, coats is 6, windows is 9".

Three walls or more have to be named in a row, clause by clause, each with one name and one hour or side. North, east,
south and west need no key. A name is then told as a clock, so that all that is known of clocks holds for it too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.facing.walls_named import HOURS, OCLOCK, SIDES
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_COMPASS = {"north": Fraction(0), "east": Fraction(1, 4), "south": Fraction(1, 2), "west": Fraction(3, 4)}
"""North is where count 1 of wall 1 looks (common practice, no source)."""
_CORNERS = {"ne": Fraction(1, 8), "se": Fraction(3, 8), "sw": Fraction(5, 8), "nw": Fraction(7, 8)}
"""The diagonals, where the walls go by the letters of the compass."""
_OFTEN = 3
"""Uses of the compass in a sheet that states facings by it."""
_WALLS = {
    **SIDES, "front": Fraction(0), "ahead": Fraction(0), "back": Fraction(1, 2), "behind": Fraction(1, 2),
    "rear": Fraction(1, 2), "twelve": Fraction(0), "three": Fraction(1, 4), "six": Fraction(1, 2),
    "nine": Fraction(3, 4),
}  # fmt: skip
_PLAIN = {
    "is", "are", "at", "the", "our", "to", "on", "your", "my", "a", "an", "hand", "side", "wall", "of", "hall", "room",
    "call", "called", "calls", "i", "we", "you", "that", "that's", "thats", "means", "as", "in", "say", "its", "it's",
    "for", "by", "so", "being", "us", "me", "o", "which", "here", "straight",
} | (OCLOCK - {"clock"})  # fmt: skip
_SIGNS = {":", "=", "(", ")", "[", "]", ">", "-", "'", "|", "@", "."}
_PARTS = {",", ";", "/", "and", "&", BREAK, "then", "with", "—", "–"}
_NEVER = {
    "wall", "walls", "verse", "chorus", "bridge", "tag", "restart", "end", "ending", "intro", "start", "starts",
    "begin", "begins", "start:", "facing", "face", "count", "counts", "section", "part", "turn", "step", "finish",
    "finishes", "ends", "home", "after", "all", "short", "full", "whole", "again", "once", "twice", "weight", "foot",
} | set(_WALLS)  # fmt: skip
_SIGNED = {"*", "@", ">", "^", "=", "~", BREAK, "#", "+"}
_TOWARDS = {
    "start", "begin", "starts", "begins", "toward", "towards", "facing", "face", "looking", "dance", "from", "with",
    "always", "wall", "first",
}  # fmt: skip
_FEWEST = 3
_LONGEST = 2
"""Words before a colon that may be a name; more of them only lead up to the names."""
_ENDS = {".", "!", "?"}
_ARTICLES = {"the", "our", "your"}


def with_landmarks(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each name of a wall as a clock; those that explain the names stay as they are."""
    key, telling = _key(lines)
    key = {**_compass(lines), **key}
    if key and all(len(name) == 1 for name in key):
        key |= _CORNERS
    if not key:
        return tuple(lines)
    return tuple(
        replace(line, tokens=_without_clocks(line) if line.number in telling else _clocked(line.tokens, key))
        for line in lines
    )


def _without_clocks(line: Line) -> tuple[Token, ...]:
    """Return the tokens of a line that explains names; its hours are no facings, and list no walls."""
    return tuple(replace(token, kind="word") if token.kind == "clock" else token for token in line.tokens)


def _compass(lines: Sequence[Line]) -> dict[str, Fraction]:
    found = [token.low for line in lines for token in line.tokens if token.low in _COMPASS]
    if len(found) >= _OFTEN and len(set(found)) > 1:
        return dict(_COMPASS)
    # "... kick R forward [7 8] *S": the letters of the compass at the ends of lines, behind a sign.
    ends = [line.tokens[-1] for line in lines if len(line.tokens) > 2 and line.tokens[-2].text in _SIGNED]
    letters = {name[0].upper(): value for name, value in _COMPASS.items()}
    told = {token.text for token in ends if token.text in letters}
    plain = len(told) >= _FEWEST and all(token.text in letters for token in ends if len(token.text) == 1)
    return {name.lower(): value for name, value in letters.items()} if plain else {}


def _key(lines: Sequence[Line]) -> tuple[dict[str, Fraction], set[int]]:
    """Return the walls by their names, and the numbers of the lines that explain them."""
    found: dict[str, Fraction] = {}
    telling: set[int] = set()
    pairs: list[tuple[str, Fraction, int]] = []
    for clause in _clauses(lines):
        pair = _pair(clause)
        if pair is not None:
            pairs.append((*pair, clause[0].line))
            continue
        if clause and not _closes(pairs):
            pairs = []
        if _closes(pairs):
            found.update({name: value for name, value, _ in pairs if name not in found})
            telling |= {line for _, _, line in pairs}
        pairs = []
    if found and 0 not in found.values():
        found |= {name: Fraction(0) for clause in _clauses(lines) if (name := _front(clause)) and name not in found}
    return found, telling


def _front(clause: Sequence[Token]) -> str:
    """Return the name of the wall that a clause says one starts towards; an empty text for none."""
    lows = {token.low for token in clause}
    rest = [token for token in clause if token.kind == "word" and token.low not in _TOWARDS | _PLAIN]
    starts = lows & {"start", "begin", "starts", "begins"} and lows & {"toward", "towards", "facing", "face", "looking"}
    return rest[0].low if starts and len(rest) == 1 and rest[0].text[0].isupper() else ""


def _closes(pairs: Sequence[tuple[str, Fraction, int]]) -> bool:
    """Whether clauses in a row name walls enough, each once; one of the names may be a word of steps too."""
    names, values = {name for name, _, _ in pairs}, {value for _, value, _ in pairs}
    return len(pairs) >= _FEWEST and len(names) == len(values) == len(pairs) and len(names & STEP_WORDS) < _FEWEST - 1


def _clauses(lines: Sequence[Line]) -> Iterator[list[Token]]:
    """Yield the clauses of all lines; an empty one where a sentence or a paragraph ends."""
    clause: list[Token] = []
    last = 0
    for line in lines:
        if line.number > last + 1:
            yield clause
            yield []
            clause = []
        last = line.number
        if _pair(clause) is not None and line.tokens and line.tokens[0].text[0].isupper():
            yield clause
            clause = []
        for at, token in enumerate(line.tokens):
            ends = token.text in _ENDS and (at + 1 == len(line.tokens) or not line.tokens[at + 1].glued)
            if token.low in ("then", "now") and clause and clause[-1].low in ("is", "are"):
                continue
            if token.low in _PARTS or ends or (token.text == ":" and len(clause) > _LONGEST):
                if clause:
                    yield clause
                clause = []
                if ends:
                    yield []
            else:
                clause.append(token)
    yield clause
    yield []


def _pair(clause: Sequence[Token]) -> tuple[str, Fraction] | None:
    """Return the name and the wall that a clause tells, whatever leads up to it or stands in brackets behind it.

    "Ship's compass: Bow = 12:00", "Port = 9:00 (where you look when the row is done".
    """
    colon = next((at for at, token in enumerate(clause) if token.text == ":"), -1)
    opening = next((at for at, token in enumerate(clause) if token.text in "(["), len(clause))
    ways = (clause, clause[colon + 1 :], clause[colon + 1 : opening])
    return next((pair for way in ways if (pair := _only_pair(way)) is not None), None)


def _only_pair(clause: Sequence[Token]) -> tuple[str, Fraction] | None:
    """Return the name and the wall that a clause tells, if it tells these and nothing else."""
    values: list[Fraction] = []
    names: list[str] = []
    for at, token in enumerate(clause):
        if token.kind == "clock" and token.value is not None:
            values.append(token.value)
        elif token.kind == "number" and token.text in HOURS:
            values.append(HOURS[token.text])
        elif token.low in _WALLS:
            values.append(_WALLS[token.low])
        elif token.low in _PLAIN or token.text in _SIGNS or _is_oclock(clause, at):
            continue
        elif token.kind == "word" and token.text.isalpha() and len(token.text) > 1:
            names.append(token.low)
        else:
            return None
    if len(set(values)) != 1 or len(names) != 1 or names[0] in _NEVER | set(NUMBERS) | set(ORDINALS):
        return None
    loud = any(
        token.low == names[0] and (token.text[0].isupper() or _is_told(clause, at)) for at, token in enumerate(clause)
    )
    return (names[0], values[0]) if loud or names[0] not in STEP_WORDS else None


def _is_told(clause: Sequence[Token], at: int) -> bool:
    """Whether a clause says of an hour that it is this: "12 is the bow"; "kick 12" says no such thing."""
    before = [token.low for token in clause[max(at - 2, 0) : at]]
    return before[-1:] == ["="] or before in (["is", "the"], ["=", "the"], ["is", "our"])


def _is_oclock(clause: Sequence[Token], at: int) -> bool:
    return clause[at].low == "clock" and clause[max(at - 1, 0)].low in ("o", "'")


def _clocked(tokens: tuple[Token, ...], key: dict[str, Fraction]) -> tuple[Token, ...]:
    """Return tokens with each name of a wall, its article with it, as a clock."""
    done: list[Token] = []
    for token, after in zip(tokens, (*tokens[1:], None), strict=True):
        short = token.low in _CORNERS or len(token.text) == 1
        named = token.kind == "word" and token.low in key and not (short and not token.text.isupper())
        hour = done[-1].text if done and done[-1].kind == "number" else ""
        beside = named and HOURS.get(hour) == key[token.low]
        if not named or (token.low in STEP_WORDS and not beside and not _names(token, after)):
            done.append(token)
            continue
        glued = token.glued
        if done and (done[-1].low in _ARTICLES or beside):
            # "9 port" tells the same wall twice.
            glued = done.pop().glued
        done.append(replace(token, kind="clock", glued=glued, value=key[token.low]))
    return tuple(_told_once(done))


def _told_once(tokens: Sequence[Token]) -> list[Token]:
    """Return tokens without the bare hours that tell the wall of a clock again: "9 (port)", "port 9" at the end."""
    done: list[Token] = []
    for at, token in enumerate(tokens):
        ends = at + 1 == len(tokens) or tokens[at + 1].text == BREAK
        if ends and done and done[-1].kind == "clock" and _is_hour(token, done[-1]):
            continue
        opens = token.kind == "number" and [one.text for one in tokens[at + 1 : at + 4 : 2]] == ["(", ")"]
        if opens and tokens[at + 2].kind == "clock" and _is_hour(token, tokens[at + 2]):
            continue
        done.append(token)
    return done


def _is_hour(token: Token, clock: Token) -> bool:
    return token.kind == "number" and HOURS.get(token.text) == clock.value and clock.text.isalpha()


def _names(token: Token, after: Token | None) -> bool:
    """Whether a word of steps is a wall's name here: written as one, and nothing is done with it."""
    return token.text[0].isupper() and (after is None or after.kind == "mark")
