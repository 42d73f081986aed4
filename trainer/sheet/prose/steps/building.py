"""Clauses while they are being built from lexemes."""

from dataclasses import dataclass, field, replace

from trainer.routine import Span
from trainer.sheet.prose.steps.clauses import Clause, ClauseKind
from trainer.sheet.prose.steps.feet import Reference
from trainer.sheet.prose.steps.lex import Lex
from trainer.terms import Direction, Foot


@dataclass(slots=True)
class Open:
    """The clause being built."""

    kind: ClauseKind = "words"
    span: Span | None = None
    moves: list[Lex] = field(default_factory=list)
    ways: list[Direction | str] = field(default_factory=list)
    feet: list[Foot] = field(default_factory=list)
    run: tuple[Foot, ...] = ()
    refs: list[Reference] = field(default_factory=list)
    values: dict[str, object] = field(default_factory=dict)
    words: list[str] = field(default_factory=list)
    unknown: list[Span] = field(default_factory=list)
    known: int = 0
    typos: int = 0

    @property
    def said(self) -> bool:
        """Whether it holds anything of a step."""
        return bool(
            self.moves or self.ways or self.feet or self.run or self.refs or "to" in self.values or self.kind != "words"
        )

    @property
    def acts(self) -> bool:
        """Whether an acting foot or a figure stands in it."""
        return bool(self.feet or self.run)


class Builder:
    """Takes lexemes one by one and closes a clause wherever the next begins."""

    def __init__(self) -> None:
        self.made: list[Clause] = []
        self.open = Open()
        self.depth = 0
        self.joined = False
        self.anded = False
        self.sentence = 0
        """Index of the first clause of the sentence."""

    def done(self) -> tuple[Clause, ...]:
        """Return all clauses."""
        self.close(follows=False)
        return tuple(self.made)

    def only_feet(self) -> bool:
        """Whether the clause holds nothing but a foot: "RF: side, LF: behind"."""
        now = self.open
        return bool(now.feet) and not (now.moves or now.ways or now.refs or now.run or now.kind == "figure")

    def placed(self, lex: Lex) -> None:
        """Let the clause begin at a lexeme where it has none yet."""
        if self.open.span is None:
            self.open.span = lex.span

    def breaks(self, lex: Lex) -> None:
        """End the clause at punctuation."""
        self.close(follows=False)
        self.joined = self.anded = False
        if self.made and (lex.kind == "open" or lex.value in (":", "=", "-", "|")):
            sign = ":" if lex.value == ":" else "("
            last = len(self.made) - 1
            self.made[last] = replace(self.made[last], introduces=sign)
            while sign == ":" and last > self.sentence:
                # "Touch steps: ...", "cross and sweep: ...": the whole row of words is the name.
                last -= 1
                self.made[last] = replace(self.made[last], introduces=sign)
        elif self.made and lex.value == "." and _bare_figure(self.made[-1]):
            # "Bars three and four are twinkles. Cross left over right ..."
            self.made[-1] = replace(self.made[-1], introduces=".")
        if lex.value in (".", ";", "|", ":", "!") or lex.kind in ("open", "close"):
            self.sentence = len(self.made)
        if lex.value == "=":
            self.open.values["equals"] = True
        if lex.kind == "open":
            self.depth += 1
        elif lex.kind == "close":
            self.depth = max(self.depth - 1, 0)

    def next(self, lex: Lex) -> None:
        """Close the clause because another begins in the same row of words."""
        self.close(follows=True)
        self.open.span = lex.span
        self.joined = True

    def close(self, *, follows: bool) -> None:
        """End the clause, if it says anything; `follows`: the next stands in the same row of words."""
        now = self.open
        self.open = Open()
        if now.span is None:
            return
        values = {key: value for key, value in now.values.items() if key not in ("with_last", "trailing", "with")}
        if now.kind == "words" and now.words and now.words[-1].isdecimal() and not {"x", "times"} & set(now.words):
            # A number by itself is no number of times.
            values.pop("times", None)
        if not now.said and not values and not now.unknown:
            return
        if self._turns_on(now):
            # "LF 1/2 turn left" with nothing after it: the foot is the one that the turn ends on.
            self.made[-1] = replace(self.made[-1], feet=tuple(now.feet), follows=follows)
            self.joined = follows
            return
        self.made.append(
            Clause(
                kind=now.kind,
                span=now.span,
                moves=tuple(now.moves),
                ways=tuple(now.ways),
                feet=tuple(now.feet),
                run=now.run,
                refs=tuple(now.refs),
                unknown=tuple(now.unknown),
                known=now.known,
                typos=now.typos,
                words=" ".join(now.words),
                joined=self.joined,
                anded=self.anded and not self.joined,
                follows=follows,
                aside=self.depth > 0,
                opens=self.sentence == len(self.made),
                **values,  # type: ignore[arg-type]
            )
        )
        self.joined, self.anded = follows, False

    def _turns_on(self, now: Open) -> bool:
        """Whether a clause is no more than the foot of the turn before it, which was said before that turn."""
        bare = now.kind == "words" and bool(now.feet) and not (now.run or now.unknown or "weighted" in now.values)
        return bare and self.joined and bool(self.made) and self.made[-1].kind == "turn" and not self.made[-1].feet


def _bare_figure(clause: Clause) -> bool:
    """Whether a clause only names a figure, without feet, ways or a turn."""
    told = clause.feet or clause.run or clause.ways or clause.refs or clause.turning or clause.to
    return clause.kind == "figure" and not told and not clause.introduces
