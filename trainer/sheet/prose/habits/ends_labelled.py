"""Lines that only say where each section ends: "Finish: 9:00", "End facing the front", told as "Finish facing: 9:00".

One such line may head the ending of the dance; two or more that are written alike stand below the sections, and so does
one with nothing below it to dance. Common practice, no source.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.facing.walls_named import HOURS
from trainer.sheet.prose.heads.headings import is_section_name
from trainer.sheet.prose.lexis.vocabulary import ROMAN, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_OPENINGS = (
    *((word,) for word in ("finish", "finishes", "finishing", "end", "ends", "ending")),
    ("facing", "at", "the", "end"),
    ("facing", "at", "end"),
    ("wall", "at", "the", "end"),
    ("wall", "at", "end"),
)
_AT_THE_END = (("at", "the", "end"), ("by", "the", "end"))
_CLOSES = {"ends", "finishes", "closes", "end", "finish"}
_AT = 3
"""Tokens of "at the end" and of "section 3 ends"."""
_LEADS = {
    "are", "be", "will", "should", "facing", "at", "on", "to", "wall", "with", "you", "now", "face", "looking",
    "direction", "up", "in",
}  # fmt: skip
_SIGNS = {":", "=", "-", ">", BREAK}
_ARTICLES = {"the", "your", "our"}
_WHERE = {
    "front", "back", "home", "left", "right", "side", "wall", "again", "o'clock", "oclock", "o", "clock", "'",
    "starting", "start", "first", "position", ".", "(", ")", "[", "]", "same",
}  # fmt: skip
"""Words of the wall that is faced; none of them tells a step by itself in such a line."""
_SECTIONS = {"section", "sec", "set", "block", "part", "figure", "phrase", "eight", "six", "pattern"}
_LONGEST = 12
"""Tokens of such a line."""
_LEAST = 2
_PAST_AN_EMPTY_LINE = 2


def with_ends_labelled(lines: Sequence[Line]) -> list[Line]:
    """Return the lines, those that only say where a section ends with the word of facing in them.

    Below an empty line such a line still belongs to the steps over that.
    """
    often = Counter(label for line in lines if (label := _label(line.tokens)))
    done: list[Line] = []
    for at, line in enumerate(lines):
        if not (often[_label(line.tokens)] >= _LEAST or _heads_nothing(line, lines[at + 1 : at + 2])):
            done.append(line)
            continue
        told = replace(line, tokens=_faced(line.tokens))
        above = done[-1] if done else None
        apart = above is not None and line.number == above.tokens[-1].line + _PAST_AN_EMPTY_LINE
        if above is not None and apart and told != line and any(token.low in STEP_WORDS for token in above.tokens):
            done[-1] = replace(above, tokens=(*above.tokens, *told.tokens))
        else:
            done.append(told)
    return done


def _heads_nothing(line: Line, below: Sequence[Line]) -> bool:
    """Whether such a line is the last of the sheet, or has the heading of a section right below it."""
    return bool(_label(line.tokens)) and (not below or is_section_name(below[0].tokens[:_LONGEST]))


def _lead(tokens: Sequence[Token]) -> int:
    """Return how many tokens of a short line come before the wall that it names; 0 where it says more than that."""
    if not 1 < len(tokens) <= _LONGEST:
        return 0
    lows = [one.low for one in tokens]
    at = next((len(first) for first in _OPENINGS if tuple(lows[: len(first)]) == first), 0)
    ends = lows[0] in _SECTIONS and lows[2:3] and lows[2] in _CLOSES
    if ends or (tuple(lows[:3]) in _AT_THE_END and _past_section(tokens, _AT) > _AT):
        at = _AT
    if not at:
        return 0
    at = _past_section(tokens, at)
    least = at
    while at < len(tokens) and (tokens[at].text in _SIGNS or tokens[at].low in _LEADS | _ARTICLES):
        at += 1
    while at == len(tokens) and at > least and tokens[at - 1].low in _WHERE:
        at -= 1
    rest = tokens[at:]
    named = all(token.kind in ("clock", "facing") or token.low in _WHERE or token.text in HOURS for token in rest)
    return at if named and any(token.text != "." for token in rest) else 0


def _past_section(tokens: Sequence[Token], at: int) -> int:
    """Return the index after the section whose end it is: "of section 3", "of this set"; itself where none is named."""
    if at >= len(tokens) or tokens[at].low != "of":
        return at
    noun = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].low in _ARTICLES | {"this", "that"})
    if noun + 1 >= len(tokens) or tokens[noun].low not in _SECTIONS:
        return at
    return noun + 1 + (tokens[noun + 1].kind == "number" or tokens[noun + 1].low in ROMAN)


def _label(tokens: Sequence[Token]) -> str:
    """Return the words that open such a line, without numbers; nothing where it is none."""
    opening = tokens[: _lead(tokens)]
    return " ".join(
        one.low for one in opening if one.low not in _ARTICLES and one.low not in ROMAN and one.kind == "word"
    )


def _faced(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    at = _lead(tokens)
    if not at:
        return tokens
    word = tokens[0]
    if word.low in _SECTIONS or word.low in ("at", "by"):
        word = replace(word, text="Finish", low="finish")
    return word, replace(word, text="facing", low="facing"), replace(word, kind="mark", text=":", low=":"), *tokens[at:]
