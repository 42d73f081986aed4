"""Times through the dance under a noun of the teacher's own: "Lap 1: all of it", "Trip 2, from 6", "the third helping".

Such labels count up from one, a sentence each, and say that all of the dance is danced, from which wall, or how far;
or the sheet says itself what a lap is, or tells of it what is told of walls alone (`walls_spoken_of`). The noun is told
as a wall then, also where it stands in other lines.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.habits.walls_spoken_of import singular, walls_spoken_of
from trainer.sheet.prose.lexis.numerals import SIGNS, number_at
from trainer.sheet.prose.lexis.vocabulary import ROMAN, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import number_like
from trainer.sheet.prose.words import Token

_FEWEST = 3
_SHORTEST = 3
"""Letters of such a noun."""
_OTHERS = {
    "wall", "walls", "count", "counts", "beat", "beats", "tag", "tags", "bridge", "ending", "option", "step", "steps",
    "bar", "bars", "track", "page", "restart", "part", "parts", "verse", "chorus", "the", "and", "for", "intro", "tune",
    "section", "figure", "phrase", "block", "set", "eight", "group", "line", "row", "sequence", "change", "song",
    "measure", "measures", "level", "break", "extra", "number", "day", "week", "card", "side", "table", "year",
    "round", "time", "pass", "rotation", "repetition", "rep", "turn", "go", "but", "facing", "from", "then", "with",
    "restarts", "bridges", "begin", "start", "starts", "after", "end", "dance", "danced", "wait", "move", "all", "when",
    "first", "last", "final",
}  # fmt: skip
"""What else is numbered, and what is known as a wall anyhow."""
_WHOLE = re.compile(
    r"\b(?:all|whole|complete|completely|everything|full|entire|as written|straight through|right through|no changes?|"
    r"(?:from|at|facing|starts?|begins?) (?:at |from |facing |on )?(?:the )?(?:front|back|home|\d{1,2}(?::00)?)|"
    r"stop|leave|restart|again|tag|up to|only)\b"
)
"""What is said of a time through the dance, and not of steps."""
_DANCE = (
    r"(?:going )?(?:through )?(?:all of )?(?:the|this) (?:whole |entire |full |complete )?dance(?: danced)?(?: once)?"
)
_MEANS = re.compile(
    r"^(?:(?:one|an?|each|every|1) )?(\w+) (?:=|is|means|:|being|stands for) "
    rf"(?:once through|one time through|one wall|{_DANCE}|"
    r"(?:the|a|one) (?:wall|repetition|rotation)|all (?:\d+|of the|the) (?:counts|beats))\b"
    r"|\b(?:once|one time|each time|every time|a time) through (?:the dance )?"
    r"(?:is|makes|we call|i call|is called|counts as) (?:an?|one) (\w+)"
)
"""A sentence that says what a lap is."""
_BEFORE = {
    "each",
    "every",
    "last",
    "next",
    "this",
    "that",
    "final",
    "same",
    "whole",
    "per",
    "a",
    "one",
    "new",
    "another",
}
_BEHIND = {".", ":", ",", "-", "(", "[", "=", BREAK, ")", ">", ";"}


def with_walls_by_own_words(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such a noun told as a wall."""
    nouns = {noun for line in lines if (noun := _meant(line.tokens))}
    nouns |= {
        noun for noun in {noun for line in lines for noun, _, _ in _labels(line.tokens)} if _counts_up(lines, noun)
    }
    if spoken := walls_spoken_of(lines):
        nouns.add(spoken)
    if not nouns:
        return tuple(lines)
    return tuple(line if _meant(line.tokens) else replace(line, tokens=_told(line.tokens, nouns)) for line in lines)


def _meant(tokens: Sequence[Token]) -> str:
    """Return the noun that a line explains as a time through the dance; an empty text where it explains none."""
    found = _MEANS.search(" ".join(token.low for token in tokens))
    noun = next(filter(None, found.groups()), "") if found else ""
    return noun if _own(noun) else ""


def _own(noun: str) -> bool:
    return len(noun) >= _SHORTEST and noun.isalpha() and noun not in _OTHERS and noun not in STEP_WORDS


def _labels(tokens: Sequence[Token]) -> list[tuple[str, int, int]]:
    """Return each noun with a number that opens a sentence of a line, the number, and the index after both."""
    found: list[tuple[str, int, int]] = []
    for at in range(len(tokens)):
        if at and tokens[at - 1].text not in (".", ";", BREAK, "*", "•"):
            continue
        noun, number, last = _label(tokens, at)
        if number and _own(noun) and (last == len(tokens) or tokens[last].text in _BEHIND):
            found.append((noun, number, last))
    return found


def _label(tokens: Sequence[Token], at: int) -> tuple[str, int, int]:
    """Return the noun and number at a place, "Lap 1" or "The first helping", and the index after them."""
    first = at + (tokens[at].low == "the" and at + 1 < len(tokens))
    number, last, placed = number_at(tokens, first)
    if placed and last < len(tokens) and tokens[last].kind == "word":
        return tokens[last].low, number, last + 1
    number, last = _number(tokens, at + 1) if tokens[at].kind == "word" else (0, at)
    return tokens[at].low, number, last


def _number(tokens: Sequence[Token], at: int) -> tuple[int, int]:
    if at < len(tokens) and tokens[at].text.isupper() and tokens[at].low in ROMAN:
        return ROMAN[tokens[at].low], at + 1
    number, last, placed = number_at(tokens, at) if at < len(tokens) else (0, at, False)
    return (number, last) if last > at and not placed else (0, at)


def _counts_up(lines: Sequence[Line], noun: str) -> bool:
    """Whether a noun opens sentences that are numbered from one, most of which tell how much is danced."""
    numbers: list[int] = []
    told = 0
    for line in lines:
        ours = [(number, last) for one, number, last in _labels(line.tokens) if one == noun]
        for number, last in ours:
            numbers.append(number)
            told += bool(_WHOLE.search(" ".join(token.low for token in line.tokens[last : last + 12])))
    return len(numbers) >= _FEWEST and numbers == list(range(1, len(numbers) + 1)) and 2 * told > len(numbers)


def _told(tokens: Sequence[Token], nouns: set[str]) -> tuple[Token, ...]:
    """Return the words of a line, the nouns told as a wall or walls where they are counted, or head the line."""
    done = list(tokens)
    at = 0
    while at < len(done):
        size = _noun_at(done, at, nouns)
        if size and (_counted(done, at, at + size) or len(done) == size + (done[0].low == "the")):
            ends = done[at + size - 1].low
            # Its letters stay, for a narrower word would leave a gap as wide as those between cells.
            written = "".join(token.text for token in done[at : at + size])
            done[at : at + size] = [replace(done[at], text=written, low="wall" if singular(ends) == ends else "walls")]
            number, last = _number(done, at + 1)
            if number and last == at + 2 and done[at + 1].low in ROMAN:
                done[at + 1] = number_like(done[at + 1], number)
        at += 1
    return tuple(done)


def _noun_at(tokens: Sequence[Token], at: int, nouns: set[str]) -> int:
    """Return how many tokens of one of the nouns begin at a place, three of one with a hyphen; 0 where none does."""
    if singular(tokens[at].low) in nouns:
        return 1
    joined = "".join(token.low for token in tokens[at : at + 3])
    return 3 if "-" in joined and singular(joined) in nouns else 0


def _counted(tokens: Sequence[Token], at: int, behind: int) -> bool:
    """Whether a number or an ordinal stands beside a noun, or a word such as "each" before it."""
    before = tokens[at - 1] if at else None
    if before is not None and (before.low in _BEFORE or before.kind == "number" or number_at(tokens, at - 1)[1] == at):
        return True
    suffixed = at > 1 and tokens[at - 1].low in ("st", "nd", "rd", "th") and tokens[at - 2].kind == "number"
    signed = behind < len(tokens) and tokens[behind].low in SIGNS
    return suffixed or signed or bool(_number(tokens, behind)[0])
