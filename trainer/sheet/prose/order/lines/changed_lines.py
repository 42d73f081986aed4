"""Steps danced for others that stand on lines of their own below the sentence that says which counts they replace.

"In wall 4 replace counts 16-18 with" over "4-5-6 Step R to side, L beside R, R in place" and "and start again." is one
sentence, broken so that its steps stand as those of the dance do.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS, is_order
from trainer.sheet.prose.order.statements.bodies import bodies_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_COUNT = 1.2
"""The strength of a mark that is a count for sure."""
_PLAIN = 1.4
"""The strength of a mark that is a count, and no number among words."""
_MOST = 4
"""Lines of steps at most."""
_PHRASE = 8
"""A count above is none that a section begins with."""
_LEADS = {"with", "by", "to", "but", "for", ":", "as", "-"}
"""How a line ends that leads to the steps below it."""


def with_changed_steps(lines: Sequence[Line]) -> list[Line]:
    """Return lines, each that tells which counts are changed joined with the steps that it leads to."""
    done: list[Line] = []
    at = 0
    while at < len(lines):
        line = lines[at]
        below = _steps_below(lines, at) if _leads_to_steps(line.tokens) else []
        below = below or _steps_on(lines, at, least=_PHRASE if _leads_to_steps(line.tokens) else 1)
        at += 1 + len(below)
        if below:
            tokens = [*line.tokens, *(() if line.tokens[-1].text == ":" else (_mark(below[0].tokens[0], ":"),))]
            for steps in below:
                # A wide gap behind the counts parts no sentences here.
                tokens += [] if steps is below[0] else [_mark(steps.tokens[0], ",")]
                tokens += [token for token in steps.tokens if token.text != "|"]
            if at < len(lines) and _goes_on(tokens[-1], lines[at].tokens):
                first = lines[at].tokens[0]
                tokens += [*(() if tokens[-1].text == "." else (_mark(first, "."),)), *lines[at].tokens]
                at += 1
            line = replace(line, tokens=tuple(tokens))
        done.append(line)
    return done


def _mark(before: Token, text: str) -> Token:
    return replace(before, kind="mark", text=text, low=text, glued=True)


def _leads_to_steps(tokens: Sequence[Token]) -> bool:
    """Whether a line ends with which counts are changed, and tells none of the steps that are danced for them."""
    parts = sentences(tokens)
    if not parts or tokens[-1].low not in _LEADS:
        return False
    told = sentence_of(parts[-1], LETTERS)
    changed = any(atom.kind == "change" and atom.spec is not None for atom in told.atoms)
    return changed and all(body.replaced or body.last < len(told.letters) - 1 for body in bodies_of(told))


def _steps_below(lines: Sequence[Line], at: int) -> list[Line]:
    """Return the lines of steps straight below one, whose counts go on from each to the next."""
    found: list[Line] = []
    last = 0
    for line in lines[at + 1 : at + 1 + _MOST]:
        first = _first_mark(line)
        if (
            first is None
            or line.number != lines[at].number + len(found) + 1
            or (found and first.start.number != last + 1)
        ):
            break
        found.append(line)
        last = marks_in(line.tokens, 0)[0].end.number or 0
    return found


def _steps_on(lines: Sequence[Line], at: int, least: int) -> list[Line]:
    """Return the lines of steps below one that says how far a wall is danced, whose counts go on from there.

    "Wall 7: dance to count 12, then to end:" over "step left (13), hold (14)".
    """
    line = lines[at]
    found: list[Line] = []
    last = 0
    for after in lines[at + 1 : at + 1 + _MOST]:
        marks = [mark for mark in marks_in(after.tokens, 0) if mark.closed or mark.first == 0]
        numbers = [mark.start.number for mark in marks if mark.start.number]
        if not numbers or after.number != line.number + len(found) + 1 or is_order(after.tokens):
            break
        goes_on = numbers[0] == last + 1 if found else numbers[0] > least and _is_reached(lines, at, numbers[0])
        if not goes_on:
            break
        found.append(after)
        last = marks[-1].end.number or 0
    return found


def _is_reached(lines: Sequence[Line], at: int, count: int) -> bool:
    """Whether a line about the order leaves the dance just before a count that does not go on from the line above."""
    line = lines[at]
    if not is_order(line.tokens) or not (line.tokens[-1].text in ".;!" or line.tokens[-1].low in _LEADS):
        return False
    before = marks_in(lines[at - 1].tokens, 0) if at else []
    if before and before[-1].end.number == count - 1:
        return False
    told = [sentence_of(part, LETTERS) for part in sentences(line.tokens)]
    if told and any(not body.replaced for body in bodies_of(told[-1])):
        return False
    atoms = [atom for one in told for atom in one.atoms]
    reached = any(atom.kind == "place" and atom.spec and atom.spec.count == count - 1 for atom in atoms)
    changed = any(atom.kind == "change" and atom.spec and atom.spec.from_end for atom in atoms)
    return reached or (changed and count > _PHRASE)


def _first_mark(line: Line) -> Mark | None:
    """The counts with which a line of steps begins."""
    first = next(iter(marks_in(line.tokens, 0, 3)), None)
    # "(7) Touch right" goes on with the sentence above it without more.
    bare = first is not None and first.first == 0 and line.tokens[0].kind == "number"
    opens = first is not None and bare and first.strength >= _COUNT and not is_order(line.tokens)
    return first if opens else None


def _goes_on(last: Token, tokens: Sequence[Token]) -> bool:
    """Whether a line goes on with what is told: "and start again", "Then restart", "Restart, still facing 6:00"."""
    leads = tokens[0].low in ("and", "then", "&") or tokens[0].text[0].islower()
    leads = leads or (tokens[0].low == "restart" and (len(tokens) == 1 or tokens[1].text in (".", "!", ",", ";")))
    return tokens[0].line == last.line + 1 and leads and not marks_in(tokens[:1], 0)


def changes_there(before: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a line changes counts of the wall told in the one above: "Instead of counts 31 and 32 stomp R, L"."""
    if after[0].line != before[-1].line + 1 or before[-1].text not in (".", ":") or not tells_of_walls(before):
        return False
    told = sentence_of(next(iter(sentences(after))), LETTERS).atoms
    walls = any(atom.kind == "walls" for atom in told)
    whole = not walls and not (
        any(mark.strength >= _PLAIN for mark in marks_in(after, 0)) and any(token.text == ":" for token in after)
    )
    return whole and bool(told) and told[0].kind == "change" and told[0].first == 0 and bool(told[0].spec)


def tells_of_walls(tokens: Sequence[Token]) -> bool:
    """Whether words that tell the order name walls by their numbers."""
    atoms = [atom for part in sentences(tokens) for atom in sentence_of(part, LETTERS).atoms]
    return is_order(tokens) and any(atom.kind == "walls" and atom.walls for atom in atoms)
