"""Steps without counts on the line below the one that tells of their extra, joined with it as one sentence."""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.how_many import says_how_many
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, STEP_WORDS
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS, is_order
from trainer.sheet.prose.order.statements.bodies import bodies_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LITTLE = {"a", "one", "of", "the", "your", "with", "on", "and", "just"}
_ONE_STEP = 6
"""Words at most that tell one step."""
_SHARE = 0.6
"""So much of a line of steps are words of steps."""
_FEET = re.compile(r"[rl]{1,8}|rf|lf|rt|lt|right|left")
"""Words that name a foot, or feet in a row: RLRL."""
_COUNT = 1.2
"""The strength of a mark that is a count for sure."""


def with_plain_steps(lines: Sequence[Line]) -> list[Line]:
    """Return lines, each that tells where an extra is danced joined with its steps where these have no counts."""
    done: list[Line] = []
    at = 0
    while at < len(lines):
        heads, steps = _headed_steps(lines, at)
        tokens = lines[at].tokens
        for line in heads:
            tokens += line.tokens
        if steps:
            colon = replace(steps[0].tokens[0], kind="mark", text=":", low=":", glued=True)
            comma = replace(colon, text=",", low=",")
            tokens += () if tokens[-1].text in (":", "=", "-") else (colon,)
            for line in steps:
                tokens += line.tokens if line is steps[0] else (comma, *line.tokens)
        done.append(replace(lines[at], tokens=tokens) if steps else lines[at])
        at += 1 + (len(heads) + len(steps) if steps else 0)
    return done


def _headed_steps(lines: Sequence[Line], at: int) -> tuple[Sequence[Line], Sequence[Line]]:
    """Return the lines that go on telling where an extra is danced, and those below that tell its steps."""
    for heads in (0, 1):
        first = at + 1 + heads
        last = first
        while (
            last < len(lines)
            and are_steps(lines[last].tokens)
            and lines[last].number - lines[last - 1].number <= 1 + (last == first)
        ):
            last += 1
        counted = last < len(lines) and bool(marks_in(lines[last].tokens, 0))
        told = [token for line in lines[at:first] for token in line.tokens]
        if last > first and not counted and _calls_for_steps(told):
            return lines[at + 1 : first], lines[first:last]
    return (), ()


def _calls_for_steps(tokens: Sequence[Token]) -> bool:
    """Whether a line names an extra and its walls, and tells none of its steps."""
    told = [sentence_of(part, LETTERS) for part in sentences(tokens)]
    if told and _puts_between(tokens, told[-1]):
        return True
    if len(told) != 1 or not is_order(tokens):
        return False
    atoms = told[0].atoms
    extras = [atom for atom in atoms if atom.kind == "act" and atom.act in "TG"]
    # "(walls 2 and 4, at the end)" ends no dance.
    ends = any(atom.act == "Q" and told[0].letters[atom.first] != "E" for atom in atoms)
    others = ends or any(atom.act in ("R", "X", "n", "H") or atom.kind == "change" for atom in atoms)
    return len(extras) == 1 and not others and any(atom.kind == "walls" for atom in atoms) and not bodies_of(told[0])


def _puts_between(tokens: Sequence[Token], told: Sentence) -> bool:
    """Whether a line ends with the place in some walls where the steps below it are put: "walls 2 and 4, after S2:"."""
    kinds = {atom.kind for atom in told.atoms}
    inside = any(one.kind == "place" and one.spec is not None and not one.spec.share for one in told.atoms)
    return tokens[-1].text == ":" and inside and kinds <= {"walls", "place", "onward", "only"} and "walls" in kinds


def _said(words: Sequence[str]) -> int:
    """Return how many steps words name at least: a foot or a move each, "RLRL" four."""
    feet = sum(len(word) if len(word) in (4, 6, 8) else 1 for word in words if _FEET.fullmatch(word))
    return max(feet, sum(word in STEP_WORDS and not _FEET.fullmatch(word) for word in words))


def is_a_step(tokens: Sequence[Token]) -> bool:
    """Whether a line tells one step and no count, with the foot or where it goes: "stomp right", "a stomp of the L"."""
    words = [token.low for token in tokens if token.kind == "word" and token.low not in _LITTLE]
    steps = sum(word in STEP_WORDS or bool(_FEET.fullmatch(word)) for word in words)
    plain = len(words) <= _ONE_STEP and not marks_in(tokens, 0)
    return plain and steps > 1 and words[0] in STEP_WORDS and steps >= _SHARE * len(words)


def are_steps(tokens: Sequence[Token]) -> bool:
    """Whether a line lists steps and no counts."""
    words = [token.low for token in tokens if token.kind == "word"]
    listed = any(token.text == "," for token in tokens) or _said(words) > 1
    several = words[:1] and (words[0] in NUMBERS or tokens[0].kind == "number")
    named = words and (words[0] in STEP_WORDS or (several and any(word in STEP_WORDS for word in words[1:4])))
    line = [Line(0, tuple(tokens), 0)]
    sure = [mark for mark in marks_in(tokens, 0) if mark.strength >= _COUNT]
    plain = not sure or (len(sure) == 1 and says_how_many(sure[0], line))
    steps = sum(word in STEP_WORDS or bool(_FEET.fullmatch(word)) for word in words)
    return bool(listed and named) and plain and steps >= _SHARE * len(words)
