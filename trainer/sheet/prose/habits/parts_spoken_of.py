"""What is said of the parts of a phrased dance on the whole: "A ends at 6:00, the turns are in counts 17 to 20".

Such a sentence counts no steps, whatever numbers it names; and a part that ends up somewhere ends no dance.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.page.kinds import speaks_of_parts
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_PART = rf"(?:[a-h](?: ?-)?|[a-h]s|[a-h]'s|(?:{'|'.join(SONG_PARTS)})(?:es|s)?|parts)"
_KINDS = (
    r"(?:the|each|every|both|all|our|only|part|parts|full|whole|short|first|second|third|fourth|fifth|last|final|two|"
    r"three|four|\d|st|nd|rd|th|of|your|that|this)"
)
_SPEAKS = re.compile(
    rf"^(?:[^\w ]+ )*(?:(?:so|and|but|now|remember|note|that|also|because|since|as) )*(?:{_KINDS} )*{_PART}"
    rf"(?: (?:and|&|,|or) (?:{_KINDS} )*{_PART})*(?: (?:always|also|both|all|then|itself|never|only|just))*"
    r" (?:ends?|finish(?:es)?|begins?|starts?|faces?|stays?|turns?|brings?|leaves?|keeps?|puts?|takes?|comes?|goes|is|"
    r"are|does|do|doesn't|don't|has|have|returns?|gets?|makes?|looks?|moves?|travels?|repeats?)\b"
)
_FACED = re.compile(
    r"^(?:[^\w ]+ )*(?:(?:all|the|these|stated|o'clock) )*(?:facings?|clocks?|clock times?|hours|times|directions)\b"
    r"(?: (?:in|under|of) \w+)* (?:are|is|as|given|for|hold|count|below|assume)\b.*\b(?:begins?|starts?|began|started|"
    r"beginning|starting)\b"
)
"""How the facings of the parts are meant: "facings are for a part that begins at 12:00"."""
_FEET = {"r", "l", "rf", "lf", "foot", "feet", "heel", "toe", "beside", "behind"}
_UP = {"end", "ends", "ending", "ended", "finish", "finishes"}
_COMES = {"end": "come", "ends": "comes", "ending": "coming", "ended": "came", "finish": "come", "finishes": "comes"}
_NEAR = 5
"""Tokens before "end up" among which its part is named."""
_FEW_STEPS = 3
"""Words of steps in such a sentence: "the turns are in counts 17 to 20"."""
_LETTERS = re.compile(r"^[A-H](?:'?s)?$")


def with_parts_spoken_of(lines: Sequence[Line]) -> Sequence[Line]:
    """Return the lines of a phrased dance, those mute that only speak of its parts.

    What says how their facings are meant is left out: it tells no start of a part.
    """
    if not speaks_of_parts(lines):
        return lines
    return [
        replace(
            line,
            mute=line.mute or _tells_lengths(line) or (_only_speaks(line) and not _runs_on(line, after)),
            tokens=tuple(_with_whole_names(_told(line.tokens))),
        )
        for line, after in zip(lines, (*lines[1:], None), strict=True)
        if not (_FACED.match(line.words) and not any(token.low in _FEET for token in line.tokens))
    ]


def _runs_on(line: Line, after: Line | None) -> bool:
    """Whether the paragraph of a line goes on below it: steps may be told there."""
    return after is not None and after.number == line.number + 1 and line.tokens[-1].text not in (".", "!", ")")


def _tells_lengths(line: Line) -> bool:
    """Whether a line tells how long several parts are, and hardly a step: "phrased, A has 16 and B has 8"."""
    lengths = header_facts([line.tokens]).part_counts
    steps = sum(token.low in STEP_WORDS and token.low not in NUMBERS for token in line.tokens)
    return len(lengths) > 1 and steps <= _FEW_STEPS + len(lengths)


def _only_speaks(line: Line) -> bool:
    steps = sum(token.low in STEP_WORDS and token.low not in NUMBERS for token in line.tokens)
    spoken = bool(_SPEAKS.match(line.words)) and steps <= _FEW_STEPS
    return spoken and not any(token.low in _FEET for token in line.tokens)


def _told(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return tokens, "the last two Bs end up at the front" with a word that ends nothing."""
    if not any(token.low in _UP for token in tokens):
        return tokens
    return tuple(_comes(token) if _ends_up(tokens, at) else token for at, token in enumerate(tokens))


def _with_whole_names(tokens: Sequence[Token]) -> Iterator[Token]:
    """Yield tokens, "the first B turns us back, the last one to the front" with the part named again: no end."""
    part: Token | None = None
    skip = False
    for at, token in enumerate(tokens):
        if skip:
            skip = False
            continue
        yield token
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        if token.text in (".", "!", "?"):
            part = None
        elif token.low in ORDINALS or token.low in ("last", "final"):
            if after is not None and (_LETTERS.match(after.text) or after.low in SONG_PARTS):
                part = after if token.low in ORDINALS and at and tokens[at - 1].low == "the" else None
            elif token.low in ORDINALS:
                continue
            elif part is not None and at and tokens[at - 1].low == "the" and not _denied(tokens, at):
                skip = after is not None and after.low == "one"
                beyond = tokens[at + 2] if skip and at + 2 < len(tokens) else None if skip else after
                if skip or beyond is None or beyond.kind in ("mark", "clock", "facing") or beyond.low in _SAID_OF_IT:
                    yield replace(part, line=token.line, column=token.column, glued=False)


def _denied(tokens: Sequence[Token], at: int) -> bool:
    return any(token.low in ("not", "never", "no") for token in tokens[max(at - _NEAR, 0) : at])


_SAID_OF_IT = {
    "is", "to", "at", "starts", "begins", "ends", "faces", "turns", "brings", "takes", "back", "again", "upstage",
    "downstage", "and", "also", "too", "always", "leads", "goes", "comes", "as", "puts", "leaves", "looks", "home",
}  # fmt: skip
"""What follows an ordinal that stands for its part: "the second takes us back"."""


def _comes(token: Token) -> Token:
    text = _COMES[token.low]
    return replace(token, text=text, low=text)


def _ends_up(tokens: Sequence[Token], at: int) -> bool:
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    named = any(_LETTERS.match(one.text) or one.low in SONG_PARTS for one in tokens[max(at - _NEAR, 0) : at])
    return tokens[at].low in _UP and after == "up" and named
