"""Stated facings that no count took, held against the dance all the same.

A facing among the words of some counts that the reading of these did not lay on one of them is still a check: the
dancer looks there before, between or after these counts. Where the dance starts again, a facing told there is that of
the end of the dance. Two that miss at once say that the page was misread, not the dance.
"""

from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction

from trainer.dance.facing import clock, turned
from trainer.problems import Problem
from trainer.sheet.prose.number_words import ORDINALS
from trainer.sheet.prose.search.states import Path
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_STOPS = {".", ";", "!", "?"}
_ELSEWHEN = {
    "from", "behind", "was", "were", "until", "till", "next", "not", "don't", "dont", "never", "instead", "away",
    "wall", "walls", "time", "if", "started", "starts", "start", "began", "begins", "again", "option", "or",
    "always", "usually", "later", "end", "last", "repeat", "tag", "restart", "bridge", "begin", "back", "towards",
}  # fmt: skip
"""Words of a sentence whose facing is one of another time, or of something else than the dancer."""
_AGAIN = {"again", "over", "anew", "afresh", "top"}
_STARTING = {"start", "starts", "begin", "begins", "go", "goes"}
_REACH = 4
"""Tokens from a word of starting to the one that says that it is done again."""
_OTHER_WALLS = {
    "wall", "walls", "restart", "restarts", "tag", "tags", "bridge", "ending", "last", "final", "third", "fourth",
    "fifth", "sixth", "seventh", "eighth", "ninth", "tenth", "time", "times", "instead", "section", "counts", "count",
    "after", "if", "until", "then", "part", "stop", "or", "only", "but", "not", "always",
}  # fmt: skip
"""Words of a sentence that tells of a certain wall, and not of the end of each."""
_OF_A_WALL = {"wall", "walls", "restart", "restarts", "tag", "tags", "bridge", "ending", "instead"}
"""Words of a sentence that leaves the next to tell of a certain wall."""
_WERE = {"right": Fraction(1, 4), "left": Fraction(3, 4), "behind": Fraction(1, 2)}
"""Where a wall was, seen from the facing before: the turn that leads to it."""
_WAS = {"was", "were", "had"}
_JOINING = {"wall", "that", "which", "you", "on", "at", "to", "your", "the", "just", "before", "standing"}
_LOOKS = {"see", "face", "facing", "looking", "look", "at"}
_CLAUSE = 8
"""Tokens of a clause that tells where a wall was."""
_MISREAD = 2
"""So many misses in one block are no mistakes of the sheet."""


def held_facings(path: Path) -> list[Problem]:
    """Return the stated facings among a block's words that no count took and that are seen at none of these counts."""
    taken = _taken(path)
    seen = _seen(path)
    found = [
        _problem(token, f"The sheet states {clock(token.value or Fraction(0))} here, but the turns lead to {told}.")
        for index, item in enumerate(path.items)
        for token in _untaken(item.text, taken)
        if index in seen and token.value not in seen[index]
        for told in [clock(seen[index][-1])]
    ]
    found += [
        _problem(token, f"From where these counts begin, this wall is not the one that was {token.low}.")
        for index, item in enumerate(path.items)
        for token, turn in _walls_before(item.text)
        if index in seen and turn not in seen[index] and not _leads(seen[index], turn)
    ]
    return found if len(found) < _MISREAD else []


def held_end(lines: Sequence[Line], path: Path, below: int) -> list[Problem]:
    """Return the facing told where the dance starts again that is not that of its end.

    `path` is that of the whole dance, which begins at home; `below` is the line that the next steps stand on.
    """
    last = max((token.line for item in path.items for token in item.text), default=0)
    taken = _taken(path)
    told: list[Token] = []
    before: Sequence[Token] = ()
    for sentence in _sentences(line for line in lines if last <= line.number < below):
        if not _tells_of_a_wall({token.low for token in before}):
            told += [token for token in _of_the_end(sentence) if (token.line, token.column) not in taken]
        before = sentence
    values = {token.value for token in told}
    stated = values.pop() if len(values) == 1 else None
    if stated is None or stated == path.end.facing:
        return []
    message = f"The dance is said to start again at {clock(stated)}, but it ends at {clock(path.end.facing)}."
    return [_problem(told[0], message)]


def _tells_of_a_wall(words: set[str]) -> bool:
    """Whether a sentence tells of a certain wall: "The third time through you dance only sixteen counts"."""
    return bool(words & _OF_A_WALL) or ("time" in words and bool(words & set(ORDINALS)))


def _taken(path: Path) -> set[tuple[int, int]]:
    """Return the places of the facings that a count took."""
    spans = [one.draft.facing_span for one in path.said if one.draft is not None]
    return {(span.line, span.column) for span in spans if span is not None}


def _seen(path: Path) -> dict[int, list[Fraction]]:
    """Return the facings before, between and after the counts of each item that was read in full."""
    seen: dict[int, list[Fraction]] = {}
    unread = {one.item for one in path.said if one.draft is None}
    facing = path.start.facing
    for one in path.said:
        seen.setdefault(one.item, [facing]).append(turned(facing, one.turn))
        facing = turned(facing, one.turn + one.then)
        seen[one.item].append(facing)
    return {item: facings for item, facings in seen.items() if item not in unread}


def _untaken(text: Sequence[Token], taken: set[tuple[int, int]]) -> Iterator[Token]:
    """Yield the facings of an item that no count took and that tell where the dancer is now."""
    for at, token in enumerate(text):
        if token.kind != "facing" or token.value is None or (token.line, token.column) in taken:
            continue
        first = next((near + 1 for near in range(at - 1, -1, -1) if text[near].text in _STOPS), 0)
        end = next((near for near in range(at, len(text)) if text[near].text in _STOPS), len(text))
        words = {near.low for near in text[first:end]}
        if token.value * 4 % 1 == 0 and not words & _ELSEWHEN:
            yield token


def _walls_before(text: Sequence[Token]) -> Iterator[tuple[Token, Fraction]]:
    """Yield the walls told by where they were before: "you see the wall that was on your right"; as a turn to them."""
    low = [token.low for token in text]
    for at, token in enumerate(text):
        between = low[max(at - _CLAUSE, 0) : at]
        if token.low not in _WERE or "wall" not in between or not set(between) & _WAS or not set(low[:at]) & _LOOKS:
            continue
        if set(between[between.index("wall") :]) <= _WAS | _JOINING:
            yield token, _WERE[token.low]


def _leads(seen: Sequence[Fraction], turn: Fraction) -> bool:
    """Whether a turn leads from one of some facings to a later one."""
    return any(turned(facing, turn) in seen[at:] for at, facing in enumerate(seen))


def _sentences(lines: Iterable[Line]) -> Iterator[list[Token]]:
    """Yield the sentences of some lines; the first line below an empty one may be a sentence without a stop."""
    sentence: list[Token] = []
    number = 0
    for line in lines:
        if line.number != number + 1:
            if sentence:
                yield sentence
            sentence = []
            yield list(line.tokens)
        number = line.number
        for token in line.tokens:
            sentence.append(token)
            if token.text in _STOPS:
                yield sentence
                sentence = []
    if sentence:
        yield sentence


def _of_the_end(sentence: Sequence[Token]) -> list[Token]:
    """Return the facings of a sentence that tells how the dance starts again, where they are one."""
    low = [token.low for token in sentence]
    again = any(word in _STARTING and set(low[at + 1 : at + 1 + _REACH]) & _AGAIN for at, word in enumerate(low))
    if not again or set(low) & _OTHER_WALLS or any(token.kind == "number" for token in sentence):
        return []
    told = [token for token in sentence if token.kind == "facing"]
    return told if len({token.value for token in told}) == 1 else []


def _problem(token: Token, message: str) -> Problem:
    return Problem(level="error", kind="facing", line=token.line, column=token.column, message=message)
