"""Steps without counts on the line below the one that tells of their extra, joined with it as one sentence."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.layout import Line
from trainer.sheet.prose.marks import marks_in
from trainer.sheet.prose.order.bodies import bodies_of
from trainer.sheet.prose.order.grammar import sentence_of
from trainer.sheet.prose.order.lines import LETTERS, is_order
from trainer.sheet.prose.order.sentences import sentences
from trainer.sheet.prose.order.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_SHARE = 0.6
"""So much of a line of steps are words of steps."""
_COUNT = 1.2
"""The strength of a mark that is a count for sure."""


def with_plain_steps(lines: Sequence[Line]) -> list[Line]:
    """Return lines, each that tells where an extra is danced joined with its steps where these have no counts."""
    done: list[Line] = []
    taken = False
    for at, line in enumerate(lines):
        after, beyond = (lines[at + n] if at + n < len(lines) else None for n in (1, 2))
        if taken:
            taken = False
            continue
        counted = beyond is not None and bool(marks_in(beyond.tokens, 0))
        if after is not None and not counted and _are_steps(after.tokens) and _calls_for_steps(line.tokens):
            colon = replace(after.tokens[0], kind="mark", text=":", low=":", glued=True)
            closed = line.tokens[-1].text in (":", "=", "-")
            line = replace(line, tokens=(*line.tokens, *(() if closed else (colon,)), *after.tokens))
            taken = True
        done.append(line)
    return done


def _calls_for_steps(tokens: Sequence[Token]) -> bool:
    """Whether a line names an extra and its walls, and tells none of its steps."""
    told = [sentence_of(part, LETTERS) for part in sentences(tokens)]
    if len(told) != 1 or not is_order(tokens):
        return False
    atoms = told[0].atoms
    extras = [atom for atom in atoms if atom.kind == "act" and atom.act in "TG"]
    others = any(atom.act in ("R", "Q", "X", "n", "H") or atom.kind == "change" for atom in atoms)
    return len(extras) == 1 and not others and any(atom.kind == "walls" for atom in atoms) and not bodies_of(told[0])


def _are_steps(tokens: Sequence[Token]) -> bool:
    """Whether a line lists steps and no counts."""
    words = [token.low for token in tokens if token.kind == "word"]
    listed = any(token.text == "," for token in tokens) and words and words[0] in STEP_WORDS
    plain = not any(mark.strength >= _COUNT for mark in marks_in(tokens, 0))
    return bool(listed) and plain and sum(word in STEP_WORDS for word in words) >= _SHARE * len(words)
