"""A list of walls told anew: a sentence for each wall, and headings for the extras that its rows name or tell."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import groupby

from trainer.sheet.prose.listings.legends import MOVES, Legend, Name
from trainer.sheet.prose.listings.told_row import Put, ToldRow
from trainer.sheet.prose.order.statements.step_words import without_pose
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_SINGLE = 3
"""Words of a single step."""


class Telling:
    """Tells the rows of one list."""

    def __init__(self, rows: Sequence[ToldRow], legends: Mapping[Name, Legend], lines: Sequence[Line]) -> None:
        self._rows = rows
        self._legends = legends
        plain = {put.key[0] for row in rows for put in row.puts if put.name and put.key not in legends}
        plain |= {line.tokens[0].low for line in lines if line.tokens[0].low in ("tag", "bridge")}
        self._called: dict[object, str] = {}
        kinds: dict[object, str] = {}
        for row in rows:
            for put in row.puts:
                if put.hold or (put.name and put.key not in legends and not put.steps):
                    continue
                kinds.setdefault(self._known_by(put), self._kind(put, row, plain))
        for key, kind in kinds.items():
            same = [other for other, its in kinds.items() if its == kind]
            self._called[key] = f"{kind} {same.index(key) + 1}" if len(same) > 1 else kind

    def _known_by(self, put: Put) -> object:
        """By what an extra is the same in two rows: its name, or its steps."""
        return tuple(token.low for token in put.steps) if put.steps else put.key

    def _kind(self, put: Put, row: ToldRow, plain: set[str]) -> str:
        legend = self._legends.get(put.key)
        if put.ends or (legend and legend.kind == "ending") or (row is self._rows[-1] and not row.whole and put.steps):
            return "ending"
        named = legend.kind if legend else put.key[0] if put.name else "tag"
        if put.steps and put.name:
            return named
        return named if named not in plain else "bridge" if named == "tag" else "tag"

    def rows(self) -> Iterator[Line]:
        """Yield the sentence of each wall."""
        for row in self._rows:
            if row.raw:
                yield self._line(row.line, [f"wall {row.number}", *self._facing(row), ":", *row.raw])
                continue
            yield self._line(
                row.line, [f"wall {row.number}", *self._facing(row), ":", *self._sentence(row), *self._left(row)]
            )

    def as_one(self, rows: Sequence[Line]) -> list[Line]:
        """Return the sentences of all walls as one line: they stand in one, or in one paragraph."""
        tokens = [
            token for row in rows for token in (*row.tokens, replace(row.tokens[-1], kind="mark", text=".", low="."))
        ]
        return [replace(rows[0], tokens=tuple(tokens))]

    def steps(self, page: Sequence[Line]) -> Iterator[Line]:
        """Yield the extras whose steps the rows tell; they stand in a paragraph of their own at the page's end."""
        told: set[object] = set()
        for row in self._rows:
            for put in row.puts:
                key = self._known_by(put)
                if put.steps and key not in told:
                    told.add(key)
                    number = page[-1].tokens[-1].line + 2 * len(told)
                    head = [replace(token, line=number) for token in _tokens(row.line, self._called[key].capitalize())]
                    yield replace(
                        self._line(row.line, [*head, ":", *_counted(without_pose(list(put.steps)))]), number=number
                    )

    def _facing(self, row: ToldRow) -> list[str | Token]:
        return ["starts", row.facing] if row.facing is not None else []

    def _left(self, row: ToldRow) -> list[str | Token]:
        return [", facing", row.left] if row.left is not None else []

    def _sentence(self, row: ToldRow) -> list[str | Token]:
        """Return what is danced on a wall."""
        inner = [put for put in row.puts if put.section]
        if inner and row.whole:
            return ["after", f"section {inner[0].section}", self._put(inner[0]), ", then go on"]
        puts = [
            word
            for put, alike in groupby(map(self._put, row.puts))
            for word in (", then", put, *_often(len(list(alike))))
        ]
        ends = row.leave == "end" or any(put.ends or self._put(put).startswith("ending") for put in row.puts)
        if row.whole and not (ends and not puts):
            return ["full", *puts]
        if row.rest and row.counts and not row.whole:
            return [f"after {row.counts} counts", *puts, ", then go on"]
        danced: list[str | Token] = [f"{row.counts} counts"] if row.counts else [f"after section {row.sections}"]
        if row.but:
            danced = list(row.but)
        if row.whole:
            return ["full"]
        if not puts:
            place = list(danced) if not row.counts else [f"after {row.counts} counts"]
            if row.but:
                return [*danced, ", then restart"]
            return ["ends" if ends else "restart", *place]
        if row.sections and not row.counts:
            puts = puts[1:]
        return [*danced, *puts, *([] if ends else [", then restart"])]

    def _put(self, put: Put) -> str:
        if put.hold:
            return f"hold {put.hold} counts"
        return self._called.get(self._known_by(put), " ".join(put.key))

    def below(self, lines: Sequence[Line], last: int) -> Iterator[Line]:
        """Yield the lines below the list, those that tell what its names stand for as headings of extras."""
        told = {legend.at: (name, legend) for name, legend in self._legends.items() if legend.kind != "apart"}
        for at in range(last, len(lines)):
            if at not in told:
                yield _with_colon(lines[at])
                continue
            name, legend = told[at]
            if legend.kind == "change":
                walls = [row.number for row in self._rows if name in row.changes]
                yield self._line(lines[at], [f"In wall {walls[0]} ,", *legend.steps]) if walls else lines[at]
                continue
            called = self._called.get(name)
            if called is None:
                continue
            steps: list[str | Token] = [":", *legend.steps] if legend.steps else []
            yield self._line(lines[at], [called.capitalize(), *steps])

    def _line(self, line: Line, words: Sequence[str | Token]) -> Line:
        """Return a line of these words at the place of one of the sheet."""
        tokens: list[Token] = []
        for word in words:
            if isinstance(word, Token):
                tokens.append(word)
                continue
            tokens += _tokens(line, word)
        source = " ".join(token.text for token in tokens)
        return replace(line, tokens=tuple(tokens), source=source)


def _with_colon(line: Line) -> Line:
    """Return a line with a colon between an extra's name and counts after it: "TAG  1-2 Step right forward ..."."""
    at = next((at for at, token in enumerate(line.tokens) if token.text not in ("*", BREAK)), 0)
    head, *rest = line.tokens[at : at + 4]
    counted = [token.kind for token in rest[-3:]][:1] == ["number"] or [t.kind for t in rest[1:2]] == ["number"]
    if head.low not in ("tag", "bridge", "ending") or len(rest) < 3:
        return line
    if rest[0].low in MOVES:
        return replace(line, tokens=(*line.tokens[: at + 1], _token(head, ":"), *line.tokens[at + 1 :]))
    if not counted:
        return line
    place = at + 1 + (rest[0].text == BREAK)
    ranged = line.tokens[place + 1].text == "-" and line.tokens[place].text == "1"
    if not ranged:
        return line
    return replace(line, tokens=(*line.tokens[: at + 1], _token(head, ":"), *line.tokens[place:]))


def _counted(steps: Sequence[Token]) -> list[str | Token]:
    """Return the steps of a row; a single one is on count 1."""
    single = len(steps) <= _SINGLE and all(token.kind == "word" for token in steps)
    return ["1", *steps] if single else list(steps)


def _tokens(line: Line, words: str) -> list[Token]:
    return [_token(line.tokens[0], text) for text in words.split()]


def _token(first: Token, text: str) -> Token:
    kind = "number" if text.isdecimal() else "word" if text[0].isalpha() else "mark"
    if text == ",":
        return replace(first, kind="mark", text=",", low=",", glued=True, value=None)
    glued = text == ":"
    return Token(kind=kind, text=text, low=text.lower(), line=first.line, column=first.column, glued=glued)  # type: ignore[arg-type]


def _often(times: int) -> tuple[str, ...]:
    """Return how often an extra is danced, where that is more than once."""
    return {1: (), 2: ("twice",)}.get(times, (f"{times} times",))
