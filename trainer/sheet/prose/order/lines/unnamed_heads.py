"""Lines that tell where an extra comes, right over its steps, and do not name it: they are told with its kind in front.

"Last time, wall 6 from 3: sections 1 and 2 only, and then" over counts that begin with 1 heads an ending as "ENDING"
does. Without its name its steps would go on with those of the extra above it. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.atoms import Atom
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.closings import closes
from trainer.sheet.prose.order.lines.lines import LETTERS, is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_COUNT = 1.2
"""The strength of a mark that is a count for sure."""
_OPEN = {"then", "and", "with", ":", "-", "=", "this", "it", "by", "is", "add", "dance", "do", "on", ".", ">"}
"""What ends a line that leads to the steps below it."""
_LASTING = {"finally", "final", "last", "close", "closes", "closing", "curtain", "end", "ends"}
_NO_HEAD = {"R", "T", "G", "M", "H", "n"}
"""What a line does that places no steps below it, or names them."""


def with_unnamed_heads(lines: Sequence[Line]) -> list[Line]:
    """Return lines, those that head the steps of an extra without naming it with the name of its kind in front."""
    done: list[Line] = []
    for line, after in zip(lines, (*lines[1:], None), strict=False):
        done.append(line)
        if after is None or not _begins_steps(line, after) or not any(map(_counts, done[:-1])):
            continue
        head = line
        if len(done) > 1 and not is_order(line.tokens) and _only_names_it(done[-2], line):
            head = replace(done[-2], tokens=(*done[-2].tokens, _full_stop(line.tokens[0]), *line.tokens))
        name = _name_of(head.tokens, lines)
        if name:
            if head is not line:
                done.pop()
            word = replace(head.tokens[0], kind="word", text=name, low=name)
            done[-1] = replace(head, tokens=(word, _full_stop(word), *head.tokens))
    return done


def _full_stop(token: Token) -> Token:
    return replace(token, kind="mark", text=".", low=".", glued=True)


def _counts(line: Line) -> bool:
    """Whether a line counts steps from 1."""
    marks = [mark for mark in marks_in(line.tokens, 0) if mark.strength >= _COUNT or mark.closed]
    return bool(marks) and marks[0].start == (1, "")


def _begins_steps(line: Line, after: Line) -> bool:
    """Whether the line below one tells steps from count 1 on, and is headed by nothing else."""
    near = after.number <= line.tokens[-1].line + 1
    return near and _counts(after) and not is_order(after.tokens) and not extra_kind(after.tokens[:3])


def _only_names_it(above: Line, line: Line) -> bool:
    """Whether a line names the wall of which the line below it says how far it is danced."""
    atoms = _atoms(above.tokens)
    named = any(atom.kind == "walls" for atom in atoms) and not any(atom.kind in ("place", "change") for atom in atoms)
    below = line.number == above.tokens[-1].line + 1
    return named and below and any(atom.kind == "place" for atom in _atoms(line.tokens))


def _atoms(tokens: Sequence[Token]) -> list[Atom]:
    return [atom for part in sentences(tokens) for atom in sentence_of(part, LETTERS).atoms]


def _name_of(tokens: Sequence[Token], lines: Sequence[Line]) -> str:
    """Return the name of the extra whose steps stand below a line that names none, or nothing if it heads none."""
    atoms = _atoms(tokens)
    acts = {atom.act for atom in atoms if atom.kind == "act"}
    walls = [atom for atom in atoms if atom.kind == "walls" and not atom.part]
    told = [one for one in walls if one.walls or one.every == "last"]
    if not is_order(tokens) or extra_kind(tokens) or acts & _NO_HEAD or len(told) != len(walls) or not told:
        return ""
    if any(atom.kind in ("change", "onward", "not") for atom in atoms):
        return ""
    within = any(atom.kind in ("place", "loose", "only") for atom in atoms)
    lasts = bool(acts & {"X", "Q"}) or any(one.every == "last" for one in told) or closes(tokens)
    if lasts or {token.low for token in tokens} & _LASTING:
        return "ending" if within else ""
    if any(one.at == "end" for one in told):
        return "tag"
    if tokens[-1].low not in _OPEN or not within:
        return ""
    return "ending" if _is_last(told, lines) else "tag"


def _is_last(told: Sequence[Atom], lines: Sequence[Line]) -> bool:
    """Whether no line of the order names a wall after those told."""
    others = (atom for line in lines if is_order(line.tokens) for atom in _atoms(line.tokens) if atom.kind == "walls")
    last = max((wall for one in told for wall in one.walls), default=0)
    return all(wall <= last for one in others for wall in one.walls)
