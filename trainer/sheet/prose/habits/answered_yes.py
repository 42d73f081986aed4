"""Questions about extras and their answers told as statements: "Is there a tag? Yes, after wall 2": "Tag after wall 2".

"How does it go? Four counts: ..." tells the steps of the extra that was asked for before. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_KINDS = {
    "tag": "tag", "tags": "tag", "bridge": "bridge", "bridges": "bridge", "restart": "restart",
    "restarts": "restart", "ending": "ending", "finish": "ending", "end": "ending", "ends": "ending",
}  # fmt: skip
_THERE_IS = re.compile(r"\b(?:is|are) there\b|\bany\b|\b(?:does|do) \w+ (?:dance )?have\b|^(?:a |the )?\w+$")
_WHERE = re.compile(r"\b(?:where|when|which walls?|what walls?)\b")
_HOW = re.compile(r"\bhow (?:does|do|is|are)\b|\bwhat (?:is|are|'s|do|does|happens)\b|\bwhat's\b|\b(?:the )?steps$")
_POINTS = {"it", "they", "them", "that", "this", "steps", "those", "these"}
_YES = {"yes", "yep", "yeah", "aye", "yup", "indeed", "sure"}
_NO = {"no", "none", "nope", "never", "nothing", "neither"}
_LABELS = {"a", "q", "answer", "question", "ans", ":", "-", ".", ")", "(", "=", ">", BREAK}
_PARTS = set("ABCDEFGH")
_FEW = 5
_LONGEST = 14
"""Tokens of a question."""


def with_answers_told(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, each question about an extra and its answer told as one statement of it."""
    asking = [line for line in lines if any(token.text == "?" for token in line.tokens)]
    if not asking or any(token.low in ("part", "parts") for line in asking for token in line.tokens):
        # What is asked about the parts of a dance is its order of play.
        return tuple(lines)
    done: list[Line] = []
    kind, at = "", 0
    while at < len(lines):
        line = lines[at]
        asked = next((end for end, token in enumerate(line.tokens) if token.text == "?"), None)
        start = _answer_of(lines, at, asked) if asked is not None and asked <= _LONGEST else None
        question = [token.low for token in line.tokens[:asked] if token.low not in _LABELS] if asked is not None else []
        own = next((_KINDS[low] for low in question if low in _KINDS), "")
        kind = own or kind
        told = (
            _told(line.tokens[0], question, own or _pointed_at(question, kind), start[0]) if start is not None else ()
        )
        if start is None or not told:
            done.append(line)
            at += 1
            continue
        if not (len(told) == 1 and start[1] > 1):
            done.append(replace(line, tokens=told))
        at += start[1]
    return tuple(done)


def _pointed_at(question: Sequence[str], kind: str) -> str:
    """The extra that a question means which names none."""
    return kind if set(question) & _POINTS else ""


def _answer_of(lines: Sequence[Line], at: int, asked: int | None) -> tuple[tuple[Token, ...], int] | None:
    """Return the words that answer a question, and of how many lines the two are; None where none answers it."""
    tokens = lines[at].tokens
    beside = tokens[(asked or 0) + 1 :]
    used = 1
    if not beside and at + 1 < len(lines) and lines[at + 1].number == lines[at].number + 1:
        beside, used = lines[at + 1].tokens, 2
    first = next((place for place, token in enumerate(beside) if token.low not in _LABELS), len(beside))
    answer = beside[first:]
    return (answer, used) if answer and answer[0].low not in _NO and "?" not in {one.text for one in answer} else None


def _names_a_part(answer: Sequence[Token]) -> bool:
    """Whether a few words name the part that is danced last: "How does it end? With B again."."""
    return len(answer) <= _FEW and any(token.text in _PARTS for token in answer)


def _told(place: Token, question: Sequence[str], kind: str, answer: Sequence[Token]) -> tuple[Token, ...]:
    """Return a question and its answer as one statement; nothing where it asks for something else."""
    words = " ".join(question)
    word = replace(place, kind="word", text=kind.capitalize(), low=kind, glued=False)
    colon = replace(place, kind="mark", text=":", low=":", glued=True)
    agreed = answer[0].low in _YES
    rest = tuple(answer[1:] if agreed else answer)
    while rest and rest[0].text in (",", ".", "!", ":", "-", ";"):
        rest = rest[1:]
    if not kind or (agreed and not _THERE_IS.search(words)) or (kind == "ending" and _names_a_part(rest)):
        return ()
    if (agreed and kind != "ending") or _WHERE.search(words):
        return (word, *rest)
    return (word, colon, *rest) if agreed or _HOW.search(words) else ()
