"""What an order of play names that the sheet does not tell: a letter that is no part, a pause of no length.

Nothing of the order may be passed over without a word: the dancer would come to it unwarned.
"""

from collections.abc import Iterator, Sequence

from trainer.problems import Problem
from trainer.routine import Routine
from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS
from trainer.sheet.prose.plays.known_parts import named_of
from trainer.sheet.prose.plays.names import is_pause
from trainer.sheet.prose.plays.never_danced import never_danced
from trainer.sheet.prose.plays.paragraphs import is_steps
from trainer.sheet.prose.plays.story_doubts import doubts
from trainer.sheet.prose.plays.symbols import Named, Symbol, symbols
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEWEST = 3
"""Parts that a line names at least which tells an order of play."""
_OTHERWISE = set("RLTI")
"""Letters that stand for feet, a tag and an intro."""
_TIMES = {"X", "x"}
_LONG = {"long", "longer", "big", "bigger"}
_SHORT = {"short", "shortened", "shorter", "cut"}
_DESCRIBES = {"last", "final", "further", "single", "full", "closing"}
_DENIED = {"no", "without", "not", "any", "another", "like", "of", "from"}
_PARTING = (",", ";", ">", "|", "/", "-")
_BEYOND = 2
_BETWEEN = {
    ",", "-", ">", "/", "|", "+", "&", "and", "then", ";", ".", "part", "twice", "once", "x", "times", "first", "*",
    "counts", "count", "last", "again",
}  # fmt: skip


def unheard(lines: Sequence[Line], routine: Routine) -> list[Problem]:
    """Return a finding for each name in the order of play that stands for nothing the sheet tells."""
    named = named_of(lines, routine) if routine.play else None
    if named is None:
        return []
    holds = any(item.kind == "hold" for item in routine.play)
    cut = {line.part for line in routine.order if line.departures}
    found: dict[str, Token] = {}
    unmeasured: dict[str, Token] = {}
    for line in lines:
        given = () if is_steps(line, named.parts) else symbols(line.tokens, named)
        for one in _unknown_parts(given, named):
            found.setdefault(one.token.text, one.token)
        if sum(one.part >= 0 for one in given) < _FEWEST:
            continue
        for one in _strangers(given, named):
            pause = is_pause((one.token.low,))
            if not (pause and (holds or named.pause)):
                found.setdefault(one.token.text, one.token)
        for at, one in enumerate(given):
            if one.part >= 0 and named.parts[one.part] not in cut and _is_shortened(given, at):
                unmeasured.setdefault(named.parts[one.part], one.token)
    sure = [
        *never_danced(lines, routine, named),
        *(_problem(token, f"names {token.text}, but the sheet does not tell it") for token in found.values()),
        *(_problem(token, f"dances {name} short, but not how much of it") for name, token in unmeasured.items()),
    ]
    # One fault, one finding: where it is known what is wrong, no doubt is told.
    known = {one.line for one in sure}
    return [*sure, *(one for one in doubts(lines, routine, named) if one.line not in known)]


def _strangers(given: Sequence[Symbol], named: Named) -> Iterator[Symbol]:
    """Yield what stands like an item among the items of a list, and names nothing."""
    for at, one in enumerate(given):
        around = (*given[max(at - 1, 0) : at], *given[at + 1 : at + 2])
        if is_pause((one.token.low,)) and not any(other.part >= 0 or other.extra is not None for other in given[:at]):
            # "Wait 16 counts. Verse, verse, chorus": what is waited before the dance is no part of it.
            continue
        if one.token.text in _TIMES and any(other.text.isdecimal() for other in around):
            continue
        if one.token.text == "A" and _is_an_article(given, at):
            continue
        # "verse (A A), chorus (B)" only says to what they are danced.
        label = len(one.token.text) > 1 and any(other.text in ("(", ")", "=", ":") for other in around)
        listed = (_is_item(given, at, -1) and _is_item(given, at, 1)) or _stands_alone(given, at)
        if not label and _is_strange(one, named) and listed:
            yield one


def _stands_alone(given: Sequence[Symbol], at: int) -> bool:
    """Whether a letter is all that stands between two marks of a list, beside what names a part or an extra.

    Whatever is said there of how much is danced: "A to 24, D, first half of A".
    """
    before, after = given[at - 1].text if at else "", given[at + 1].text if at + 1 < len(given) else ","
    if len(given[at].token.text) != 1 or before not in (*_PARTING, ":") or after not in _PARTING:
        return False
    beside = (*_clause(given, at - 2, -1), *_clause(given, at + 2, 1))
    return any(one.part >= 0 or one.extra is not None for one in beside)


def _clause(given: Sequence[Symbol], at: int, way: int) -> Iterator[Symbol]:
    """Yield the symbols from one on in a way, up to the next mark of the list."""
    while 0 <= at < len(given) and given[at].text not in (*_PARTING, ":"):
        yield given[at]
        at += way


def _unknown_parts(given: Sequence[Symbol], named: Named) -> Iterator[Symbol]:
    """Yield the letters of parts that a sentence about parts names, and the sheet does not tell: "Part D"."""
    if not all(len(name) == 1 for name in named.parts) or not any(one.part >= 0 for one in given):
        return
    for before, part, letter in zip((None, *given), given, given[1:], strict=False):
        denied = before is not None and before.text in _DENIED
        if part.text == "part" and not denied and len(letter.token.text) == 1 and _is_strange(letter, named):
            yield letter


def _is_an_article(given: Sequence[Symbol], at: int) -> bool:
    """Whether an A opens what is told of a part: "A chorus comes after them", "A last B and we are done"."""
    after = given[at + 1] if at + 1 < len(given) else None
    if after is not None and after.text in _DESCRIBES and at + _BEYOND < len(given):
        return given[at + _BEYOND].part >= 0
    return after is not None and after.part >= 0 and len(after.token.text) > 1


def _is_strange(one: Symbol, named: Named) -> bool:
    """Whether a word is a letter, a part of a song or a pause, and none that the sheet names."""
    if one.part >= 0 or one.extra is not None or one.token.kind != "word":
        return False
    text = one.token.text
    if len(text) == 1:
        # "A (24C)" is 24 counts.
        return text.isupper() and text not in _OTHERWISE and not one.token.glued
    song = one.token.low in SONG_PARTS and not set(named.aliases) & {one.token.low}
    return song or is_pause((one.token.low,))


def _is_item(given: Sequence[Symbol], at: int, way: int) -> bool:
    """Whether an item of the list, or its end, comes next to one in a way, a mark of a list between."""
    # Letters may stand side by side with nothing between.
    here, parted = at + way, len(given[at].token.text) == 1
    while 0 <= here < len(given):
        one = given[here]
        if one.part >= 0 or one.extra is not None:
            return parted
        if one.text not in _BETWEEN and one.token.kind not in ("number", "clock", "facing") and one.text not in "()":
            return way < 0 and one.text == ":"
        parted = True
        here += way
    return True


def _is_shortened(given: Sequence[Symbol], at: int) -> bool:
    """Whether a part of the list is marked as a shorter form of it: "short A", "A-"."""
    if at and given[at - 1].text in _SHORT:
        if any(one.text in _LONG for one in given):
            # "There are two pieces to learn, a long A and a short B".
            return False
        return at < 2 or given[at - 2].text not in ("no", "not", "without", "any")
    after = given[at + 1].token if at + 1 < len(given) else None
    beyond = given[at + 2].token if at + 2 < len(given) else None
    dashed = after is not None and after.text == "-" and after.glued
    return dashed and beyond is not None and beyond.text in (",", ">", "|", "/")


def _problem(token: Token, said: str) -> Problem:
    hint = "Each part has a heading and steps, a pause its counts, a short part its last count"
    return play_problem(token, f"The order of play {said}", hint)


def play_problem(token: Token, message: str, hint: str) -> Problem:
    """Return a finding about the play, where a token of it stands."""
    return Problem(level="error", kind="order", line=token.line, column=token.column, message=message, hint=hint)
