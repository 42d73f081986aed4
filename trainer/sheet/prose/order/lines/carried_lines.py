"""Steps on lines of their own whose counts go on from where the line above leaves a wall: they are danced from there.

"Wall 4 is short: up to section 3 count 4, then instead of the turns" over "5-6 Step R forward, stomp L beside R" and
"and restart." is told as one sentence: "Wall 4: after count 4 of section 3: 5-6 step R forward ... Restart."
Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS, is_order
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Token

_COUNT = 1.2
"""The strength of a mark that is a count for sure."""
_NAME = 4
"""Tokens of a name at most."""
_MOST = 4
"""Lines of steps at most."""
_PHRASES = (8, 6)
"""Counts of a section, of one in three time too."""
_EXTRAS = {"T", "G", "H"}


def with_carried_steps(lines: Sequence[Line]) -> list[Line]:
    """Return lines, each that leaves a wall in a section joined with the steps below it that go on from there."""
    done: list[Line] = []
    at = 0
    while at < len(lines):
        below = _steps_below(lines, at)
        after = lines[at + 1 + len(below)] if at + 1 + len(below) < len(lines) else None
        restarts = after is not None and bool(below) and _only_restarts(below[-1], after)
        ends = bool(below) and bool(done) and _heads_the_ending(done[-1], lines[at])
        told = _told(lines[at], below, leaves=restarts or ends) if below else ()
        if not told or _goes_on_above(lines, at, below):
            done.append(lines[at])
            at += 1
            continue
        tokens = [*told, *_steps(below)]
        if ends:
            # The heading goes into the sentence: its steps stand there.
            name = _word(done.pop().tokens[0], "ending")
            tokens = [name, _mark(name, ":"), *tokens]
        if restarts and after is not None:
            tokens += [_mark(after.tokens[0], "."), *after.tokens]
        elif _acts(lines[at].tokens) & {"R"}:
            tokens += [_mark(tokens[-1], "."), _word(tokens[-1], "restart")]
        done.append(replace(lines[at], tokens=tuple(tokens)))
        at += 1 + len(below) + restarts
    return done


def _heads_the_ending(head: Line, line: Line) -> bool:
    """Whether a line above is no more than the name of an ending: "FINAL"."""
    named = len(head.tokens) <= _NAME and extra_kind(head.tokens) == "ending" and not marks_in(head.tokens, 0)
    return named and line.number <= head.tokens[-1].line + 2


def _goes_on_above(lines: Sequence[Line], at: int, below: Sequence[Line]) -> bool:
    """Whether the counts below a line go on from those above it: then the line only stands between them."""
    before = marks_in(lines[at - 1].tokens, 0) if at else []
    first = _first_mark(below[0]) if below else None
    return bool(before) and first is not None and before[-1].end.number == (first.start.number or 0) - 1


def _first_mark(line: Line) -> Mark | None:
    """The counts with which a line of steps begins."""
    first = next(iter(marks_in(line.tokens, 0, 3)), None)
    opens = first is not None and first.first == 0 and (first.strength >= _COUNT or first.closed)
    return first if opens and not is_order(line.tokens) else None


def _steps_below(lines: Sequence[Line], at: int) -> list[Line]:
    """Return the lines straight below one whose counts go on from each to the next, and do not begin with 1."""
    found: list[Line] = []
    last = 0
    for before, line in pairwise(lines[at : at + 1 + _MOST]):
        mark = _first_mark(line)
        number = mark.start.number if mark is not None else None
        if not number or number == 1 or line.number > before.tokens[-1].line + 1 or (found and number != last + 1):
            break
        found.append(line)
        last = marks_in(line.tokens, 0, 3)[-1].end.number or 0
    return found


def _parts(tokens: Sequence[Token]) -> list[Sentence]:
    return [sentence_of(part, LETTERS) for part in sentences(tokens)]


def _acts(tokens: Sequence[Token]) -> set[str]:
    return {atom.act for one in _parts(tokens) for atom in one.atoms if atom.kind == "act" and not atom.declares}


def _only_restarts(before: Line, line: Line) -> bool:
    """Whether a line says no more than that the dance begins again, from where it may be."""
    atoms = [atom for one in _parts(line.tokens) for atom in one.atoms]
    here = [atom for atom in atoms if atom.kind == "place" and atom.spec is not None and atom.spec.here]
    kinds = {atom.kind for atom in atoms if atom not in here} - {"act", "face", "begins", "only"}
    return line.number == before.tokens[-1].line + 1 and not kinds and _acts(line.tokens) == {"R"}


def _told(line: Line, below: Sequence[Line], *, leaves: bool) -> tuple[Token, ...]:
    """Return where a line leaves which wall, in plain words, where that is just before the first count below it."""
    first = _first_mark(below[0])
    row = line.tokens[0].kind == "number" and line.tokens[1:2] and line.tokens[1].text == BREAK
    if first is None or not first.start.number or row or not is_order(line.tokens) or _tells_steps_itself(line, first):
        return ()
    parts = _parts(line.tokens)
    atoms = [atom for one in parts for atom in one.atoms]
    acts = _acts(line.tokens)
    named = [atom for atom in atoms if atom.kind == "walls"]
    if (
        acts & _EXTRAS
        or (acts & {"X", "Q"} and not leaves)
        or len(named) != 1
        or not named[0].walls
        or named[0].nth is not None
    ):
        return ()
    leads = line.tokens[-1].text == ":" and not acts
    place = _place(atoms, first.start.number, leads=leads)
    sentence = next(one for one in parts if named[0] in one.atoms)
    if not place:
        return ()
    where = f"after {place}" if leaves or acts & {"R", "X", "Q", "n"} else _instead(place, below)
    return (*_walls(sentence, named[0]), *_words(line.tokens[-1], f": {where}:"))


def _tells_steps_itself(line: Line, first: Mark) -> bool:
    """Whether a line has steps of its own for the first count below it: "in place of 6-8: 6 R side, 7 recover L"."""
    colon = next((at for at, token in enumerate(line.tokens) if token.text == ":" and at > 2), len(line.tokens))
    own = marks_in(line.tokens[colon + 1 :], 0)
    return len(own) > 1 and any(mark.start == first.start for mark in own)


def _instead(place: str, below: Sequence[Line]) -> str:
    """Return the counts that steps are danced for which no restart follows: those that they are called by."""
    _, before, *section = place.split(" ", 2)
    last = marks_in(below[-1].tokens, 0, 3)[-1].end.number or 0
    reach = last - (_first_number(below[0]) - 1)
    counts = f"counts {int(before) + 1}-{int(before) + reach}" if reach > 1 else f"count {int(before) + 1}"
    return " ".join(("instead of", counts, *section))


def _first_number(line: Line) -> int:
    first = _first_mark(line)
    return (first.start.number if first is not None else 0) or 1


def _place(atoms: Sequence[Atom], number: int, *, leads: bool) -> str:
    """Return the place just before a count, or nothing where another is told."""
    changed = [atom.spec for atom in atoms if atom.kind in ("change", "onward") and atom.spec is not None]
    if any(one.first != number for one in changed):
        return ""
    specs = [atom.spec for atom in atoms if atom.kind in ("place", "loose") and atom.spec is not None] + changed
    section = next((one.section for one in reversed(specs) if one.section is not None), None)
    # "Counts 5-8 of section 4" are those that are changed.
    counts = [number - 1 if one.first == number else one.count - one.before for one in specs if one.count is not None]
    if section is not None and (number - 1 in counts or not counts):
        return f"count {number - 1} of section {section}"
    whole = next((one for one in counts if any(number - 1 in (one, one % phrase) for phrase in _PHRASES)), 0)
    if leads and not whole and number > max(_PHRASES) + 1:
        # "Wall 3 has another end:" over "29 touch right".
        whole = number - 1
    return f"count {whole}" if whole and section is None else ""


def _walls(sentence: Sentence, walls: Atom) -> tuple[Token, ...]:
    """Return the words that name a wall, with the facing told right after them."""
    last = max(
        [walls.last, *(one.last for one in sentence.atoms if one.kind == "face" and one.first <= walls.last + 1)]
    )
    return tuple(sentence.tokens[sentence.lexemes[walls.first].first : sentence.lexemes[last - 1].last])


def _steps(below: Sequence[Line]) -> list[Token]:
    tokens: list[Token] = []
    for line in below:
        tokens += [_mark(tokens[-1], ",")] if tokens else []
        # A wide gap behind the counts parts no sentences here.
        tokens += [token for token in line.tokens if token.text != BREAK]
    return tokens


def _mark(place: Token, text: str) -> Token:
    return replace(place, kind="mark", text=text, low=text, glued=True)


def _word(place: Token, text: str) -> Token:
    return replace(place, kind="word", text=text, low=text, glued=False)


def _words(place: Token, text: str) -> tuple[Token, ...]:
    """Return words as if they stood at a token's place."""
    return tuple(replace(token, line=place.line, column=place.column) for token in tokens_of(text, place.line, 1))
