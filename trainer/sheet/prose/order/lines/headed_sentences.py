"""A heading that names an extra and its wall, over words that say where in the wall it comes, or over its steps.

"ENDING (wall 8)" over "Dance section 1, then stomp right forward and stay." is told as one line: apart, the words below
would be neither steps with counts nor of the order. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS, is_order
from trainer.sheet.prose.order.lines.plain_steps import are_steps
from trainer.sheet.prose.order.statements.bodies import bodies_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HEAD = 14
"""Tokens of a heading at most."""
_COUNT = 1.2
"""The strength of a mark that is a count for sure."""
_NEAR = 2
_BESIDE = {"face", "only", "begins"}


def with_headed_sentences(lines: Sequence[Line]) -> list[Line]:
    """Return lines, each heading of an extra in its wall joined with the sentence below that tells place or steps."""
    done: list[Line] = []
    headed: Line | None = None
    for line, below in zip(lines, (*lines[1:], None), strict=False):
        above = done[-1] if done else None
        if above is not None and headed is not None and _goes_on(headed, line):
            done[-1] = replace(above, tokens=(*_without_stop(above.tokens), _mark(above.tokens[-1], ","), *line.tokens))
            headed = line
            continue
        headed = None
        if above is not None and not _counts_on(line, below) and _heads(above.tokens) and _is_headed(above, line):
            last = above.tokens[-1]
            tokens = above.tokens if last.text in (":", "=", "-") else (*above.tokens, _mark(last, ":"))
            done[-1] = replace(above, tokens=(*tokens, *line.tokens))
            headed = line
        else:
            done.append(line)
    return done


def _goes_on(headed: Line, line: Line) -> bool:
    """Whether a line straight below the steps under a heading lists more of them; neither has counts."""
    return line.number == headed.tokens[-1].line + 1 and are_steps(headed.tokens) and are_steps(line.tokens)


def _without_stop(tokens: Sequence[Token]) -> Sequence[Token]:
    return tokens[:-1] if tokens[-1].text in (".", ",", ";") else tokens


def _mark(place: Token, text: str) -> Token:
    return replace(place, kind="mark", text=text, low=text, glued=True)


def _counts_on(line: Line, below: Line | None) -> bool:
    """Whether a line and the one below it end with a count of each: "Sway R 1" over "Sway L 2"."""
    last = [one.tokens[-1] for one in (line, below) if one is not None]
    first, *after = [int(token.text) for token in last if token.kind == "number" and token.text.isdecimal()] or [0]
    return first > 0 and after == [first + 1]


def _heads(tokens: Sequence[Token]) -> bool:
    """Whether a line only names an extra and walls in which it is danced."""
    if len(tokens) > _HEAD or len(sentences(tokens)) != 1 or not is_order(tokens):
        return False
    sentence = sentence_of(tokens, LETTERS)
    acts = [atom for atom in sentence.atoms if atom.kind == "act"]
    walls = [atom for atom in sentence.atoms if atom.kind == "walls"]
    others = {atom.kind for atom in sentence.atoms} - {"act", "walls"} - _BESIDE
    named = len(acts) == 1 and acts[0].act in "TGX" and not acts[0].declares and not acts[0].number
    if not named or len(walls) != 1 or acts[0].first > walls[0].first:
        # "* wall 6: ending" is a note on the steps above it.
        return False
    return bool(walls[0].walls) and not others and not bodies_of(sentence)


def _is_headed(above: Line, line: Line) -> bool:
    """Whether a line goes on below its heading with a place in the wall, or with steps in a sentence without counts."""
    if line.number > above.tokens[-1].line + _NEAR:
        return False
    marks = [mark for mark in marks_in(line.tokens, 0) if mark.strength >= _COUNT or mark.closed]
    if any(mark.first == 0 for mark in marks):
        return False
    told = [sentence_of(part, LETTERS) for part in sentences(line.tokens)]
    atoms = [atom for one in told for atom in one.atoms]
    if any(atom.kind == "walls" or atom.act in ("T", "G") for atom in atoms) or not told:
        return False
    first = told[0]
    bodies = bodies_of(first)
    begins = bodies[0].first if bodies else len(first.letters)
    placed = any(
        atom.first < begins
        and atom.kind in ("place", "title")
        and atom.spec is not None
        and not (atom.spec.here or atom.spec.share)
        for atom in first.atoms
        if first.letters[atom.first] in "ADU"
    )
    # "Hold for one bar" is all that a tag may be.
    holds = any(atom.act == "H" and atom.counts for atom in first.atoms)
    return (bool(bodies) and (placed or not marks)) or (holds and not marks and len(told) == 1)
