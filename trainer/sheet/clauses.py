"""One clause of a count line.

    foot move [direction] [turning amount side] [+ foot move [direction]] [then turning amount side] [(notes)]

The move may be left out where a direction stands (it is a step then), the foot where the move needs none. The name of
a figure may stand in the place of the move. `?(clause | clause)` is unsure, the first being the likelier reading;
`??"text"` could not be read. What a clause comes to on its counts is decided in drafts.py.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.figures import Figure, moves
from trainer.routine import Gesture, Span
from trainer.sheet.findings import Findings
from trainer.sheet.lines import Line
from trainer.sheet.texts import QUOTED, split, taken
from trainer.sheet.tokens import Cursor, Token, UnreadableError, tokens_of
from trainer.sheet.vocabulary import SIDES, Name, directions, known_words, longest, single_steps, steps
from trainer.terms import Direction, Foot, Move, Weight

_FEET: tuple[tuple[str, Weight], ...] = (("R", "R"), ("L", "L"), ("B", "B"), ("both", "B"))
_WEIGHTS = {("weight", *on, foot): weight for on in ((), ("on",)) for foot, weight in _FEET}
_PLAIN_TURNS = (Move.TURN, Move.UNWIND, Move.PIVOT)
"""Moves after which the amount may stand without "turning"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """What a clause says."""

    text: str
    """As the sheet has it."""
    span: Span
    foot: Foot = Foot.NONE
    move: Move | None = None
    """None where a figure is named, or nothing could be read."""
    figure: Figure | None = None
    direction: Direction | None = None
    turn: Fraction = Fraction(0)
    """Signed, without `then`."""
    then: Fraction = Fraction(0)
    """The turn on the standing foot after the step."""
    also: tuple[Gesture, ...] = ()
    asides: tuple[str, ...] = ()
    weight: Weight | None = None
    """The weight afterwards, where a note states it."""
    words: str | None = None
    """What the sheet itself quotes as unread."""
    sheet_unread: bool = False
    """The sheet itself calls it unread."""
    unsure: bool = False
    other: "Clause | None" = None

    single: "Clause | None" = None
    """What it says as one step, where its words are the name of a figure as well: R ball cross."""

    @property
    def unread(self) -> bool:
        """Whether it says nothing that could be understood."""
        return self.move is None and self.figure is None

    @property
    def misread(self) -> bool:
        """Whether it says nothing that could be understood, and the sheet does not call it unread itself."""
        return self.unread and not self.sheet_unread


def read_clause(line: Line, first: int, last: int, findings: Findings) -> Clause:
    """Return what a stretch of a line says; what cannot be read is a problem and an unread clause."""
    text = line.text[first:last]
    first += len(text) - len(text.lstrip())
    text = text.strip()
    if text.startswith("?("):
        return _unsure(line, first, first + len(text), findings)
    return _certain(line, first, first + len(text), findings)


def _unsure(line: Line, first: int, last: int, findings: Findings) -> Clause:
    """Read `?(clause | clause)`."""
    text = line.text[first:last]
    inner = text[2:-1] if text.endswith(")") else text[2:]
    pieces = split(inner, "|")
    span = line.span(first, last)
    if not text.endswith(")") or len(pieces) > 2:
        findings.error("text", span, "An unsure step is written ?(one reading | the other).")
    readings = [_certain(line, first + 2 + start, first + 2 + end, findings) for start, end in pieces[:2]]
    readings = [reading.single or reading for reading in readings]
    if any(reading.figure for reading in readings):
        findings.error(
            "text", span, "An unsure step is one step, not a figure.", "Spell the figure out: `NAME: clause, clause`."
        )
        readings = [replace(reading, figure=None) for reading in readings]
    return replace(readings[0], span=span, unsure=True, other=readings[1] if len(readings) > 1 else None)


def _certain(line: Line, first: int, last: int, findings: Findings) -> Clause:
    text = line.text[first:last]
    span = line.span(first, last)
    blank = Clause(text=text.strip(), span=span)
    cursor = Cursor(tokens_of(text, first))
    try:
        if text.strip().startswith("??"):
            return _quoted(blank, cursor)
        if cursor.done:
            raise UnreadableError("A step is missing here.", "Steps are divided by single commas.", None)
        clause = _tail(_head(blank, cursor, steps()), cursor)
        return replace(clause, single=_single(blank, text, first)) if clause.figure else clause
    except UnreadableError as fault:
        if (single := _single(blank, text, first)) is not None:
            return single
        where = line.span(fault.token.start, fault.token.end) if fault.token else span
        hint = fault.hint or (findings.near(fault.word, known_words()) if fault.word else "")
        findings.error("text", where, fault.message, hint)
        return blank


def _single(blank: Clause, text: str, first: int) -> Clause | None:
    """Return a clause as one step without regard to the names of figures, if it can be read so."""
    cursor = Cursor(tokens_of(text, first))
    try:
        return _tail(_head(blank, cursor, single_steps()), cursor)
    except UnreadableError:
        return None


def _quoted(blank: Clause, cursor: Cursor) -> Clause:
    """Read `??"text" (asides)`; without a text the teacher's words above the line are meant."""
    mark = cursor.take()
    token = cursor.take()
    clause = replace(blank, sheet_unread=True)
    if token is not None and token.kind == "quoted":
        clause = replace(clause, words=taken(token.text))
        token = cursor.take()
    while token is not None or mark is None or mark.text != "??":
        if token is None or token.kind != "aside":
            raise UnreadableError('What could not be read is written ??"text".', "", token)
        clause = replace(clause, asides=(*clause.asides, *_aside(token)[1]))
        token = cursor.take()
    return clause


def _head(clause: Clause, cursor: Cursor, names: Mapping[Name, Move] | Mapping[Name, Move | Figure]) -> Clause:
    """Read the foot, the move or figure, and the direction."""
    foot = cursor.foot()
    start = cursor.next
    named: tuple[Move | Figure, int] | None = longest(cursor.words(), names)
    if named:
        cursor.skip(named[1])
    way = longest(cursor.words(), directions())
    if way:
        cursor.skip(way[1])
    if named is None and way is None:
        raise _not_a_step(cursor, start, foot)
    what = named[0] if named else Move.STEP
    _check_foot(what, foot, start)
    return replace(
        clause,
        foot=foot or Foot.NONE,
        move=what if isinstance(what, Move) else None,
        figure=what if isinstance(what, Figure) else None,
        direction=way[0] if way else None,
    )


def _check_foot(what: Move | Figure, foot: Foot | None, start: Token | None) -> None:
    """Complain where a foot is needed and none is named."""
    if foot is not None:
        if isinstance(what, Figure) and what.needs_foot and foot not in (Foot.RIGHT, Foot.LEFT):
            raise UnreadableError(f"The {what.name} starts with R or with L.", "", start)
        return
    needed = what.needs_foot if isinstance(what, Figure) else not moves()[what].footless
    if needed and start is not None:
        if start.text.casefold() in SIDES:
            letter = start.text[0].upper()
            raise UnreadableError(
                "Which foot? right and left are directions here.", f"Write {letter} for the {start.text} foot.", start
            )
        raise UnreadableError("Which foot?", f"Write R {start.text} or L {start.text}.", start)


def _not_a_step(cursor: Cursor, start: Token | None, foot: Foot | None) -> UnreadableError:
    if start is None or start.kind != "word" or start.text in ("turning", "then"):
        who = foot or "the dancer"
        return UnreadableError(f"What does {who} do here?", "A move or a direction must follow the foot.", start)
    return UnreadableError(f'"{start.text}" is no step that I know.', "", start, word=" ".join(cursor.words()[:3]))


def _tail(clause: Clause, cursor: Cursor) -> Clause:
    """Read turns, `+` gestures and notes, in whatever order they stand."""
    if clause.move in _PLAIN_TURNS and cursor.at_amount():
        clause = replace(clause, turn=_turn(cursor))
    while (token := cursor.take()) is not None:
        word = token.text.casefold()
        if token.kind == "aside":
            weight, asides = _aside(token)
            clause = replace(clause, weight=weight or clause.weight, asides=(*clause.asides, *asides))
        elif token.text == "+":
            clause = replace(clause, also=(*clause.also, _gesture(cursor, token)))
        elif word == "turning":
            clause = replace(clause, turn=clause.turn + _turn(cursor))
        elif word == "then" and cursor.takes("turning"):
            clause = replace(clause, then=clause.then + _turn(cursor))
        else:
            raise _stray(token, word)
    return clause


def _stray(token: Token, word: str) -> UnreadableError:
    """Return the complaint about a word that has no place where it stands."""
    if word == "then":
        return UnreadableError(
            '"then" is followed by a turn on the standing foot.', "Write `then turning 1/4 right`.", token
        )
    if word == "turn":
        return UnreadableError("A turn is written with `turning` here.", "Write `turning 1/4 right`.", token)
    if longest([word], directions()) is not None or longest([word], steps()) is not None:
        return UnreadableError(
            f'"{token.text}" has no place here.',
            "The order is: foot, move, direction, turning. A comma ends a step; + adds what else happens on its count.",
            token,
        )
    if token.text == "(":
        return UnreadableError("This bracket is never closed.", "", token)
    if token.kind == "quoted":
        return UnreadableError(
            "A text in quotes has no place here.", f"Remarks stand in brackets: ({token.text}).", token
        )
    return UnreadableError(f'I do not know "{token.text}".', "", token, word=word)


def _turn(cursor: Cursor) -> Fraction:
    """Read an amount and a side."""
    amount, token = cursor.amount()
    side = cursor.take()
    if side is None or side.text.casefold() not in SIDES:
        raise UnreadableError("To which side? A turn goes right or left.", "Write `turning 1/4 right`.", side or token)
    return amount * SIDES[side.text.casefold()]


def _gesture(cursor: Cursor, plus: Token) -> Gesture:
    """Read what follows a `+`."""
    foot = cursor.foot()
    named = longest(cursor.words(), single_steps())
    if named is None:
        raise UnreadableError("What else happens on this count? A move must follow the +.", "", cursor.next or plus)
    start = cursor.next
    cursor.skip(named[1])
    _check_foot(named[0], foot, start)
    way = longest(cursor.words(), directions())
    if way:
        cursor.skip(way[1])
    return Gesture(foot=foot or Foot.NONE, move=named[0], direction=way[0] if way else None)


def _aside(token: Token) -> tuple[Weight | None, tuple[str, ...]]:
    """Return the weight and the other notes that stand in a pair of brackets."""
    weight: Weight | None = None
    asides: list[str] = []
    inside = token.text[1:-1]
    for first, last in split(inside, ","):
        note = inside[first:last].strip()
        said = _WEIGHTS.get(tuple(note.split()))
        if said:
            weight = said
        elif note:
            asides.append(taken(note) if QUOTED.fullmatch(note) else note)
    return weight, tuple(asides)
