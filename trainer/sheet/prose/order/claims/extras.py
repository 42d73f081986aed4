"""Which extra a sentence means: "the tag", "Tag 2", "the 4 count tag"; and the extras that are told in sentences."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from trainer.routine import Span
from trainer.sheet.prose.lexis.vocabulary import TEENS
from trainer.sheet.prose.order.grammar.places import Spec
from trainer.sheet.prose.order.grammar.telling import Inline, Known, Partial
from trainer.sheet.prose.words import Token
from trainer.terms import ExtraKind

KINDS: dict[str, ExtraKind] = {"T": "tag", "G": "bridge", "X": "ending", "M": "change"}

LETTERS: dict[ExtraKind, str] = {kind: letter for letter, kind in KINDS.items()}


@dataclass(frozen=True, slots=True)
class Ref:
    """An extra as a sentence names it."""

    kind: ExtraKind
    span: Span
    number: int = 0
    counts: int | None = None
    letter: str = ""
    name: str = ""
    """Its name, where that is known already."""
    share: Spec | None = None
    """Those of its counts that are danced; None: all."""


@dataclass(slots=True)
class Extras:
    """The extras of a sheet: those found as blocks, and those told in sentences."""

    known: Known
    inlines: list[Inline] = field(default_factory=list)
    partial: dict[tuple[ExtraKind, str], Partial] = field(default_factory=dict)
    """Extras that are some counts of another, by kind and name."""

    def named(self, kind: ExtraKind) -> list[tuple[str, int | None]]:
        """Return names and lengths of the extras of a kind, blocks first."""
        blocks = [(name, counts) for k, name, counts, _ in self.known.extras if k == kind and counts is not None]
        return blocks + [(inline.name, inline.counts) for inline in self.inlines if inline.kind == kind]

    def span_of(self, kind: ExtraKind) -> Span | None:
        """Return where the first extra of a kind stands."""
        blocks = [tokens[0].span for k, _, _, tokens in self.known.extras if k == kind and tokens]
        return next(iter([*blocks, *(one.body[0].span for one in self.inlines if one.kind == kind)]), None)

    def empty(self, place: int) -> ExtraKind | None:
        """Return the kind of an extra of which the sheet has the heading only, its steps being told in sentences."""
        kind, _, counts, _ = self.known.extras[place]
        return kind if counts is None and kind in LETTERS else None

    def add(self, inline: Inline, number: int) -> str:
        """Add an extra told in a sentence and return its name; the same steps told again are the same extra."""
        words = [token.low for token in inline.body]
        for other in self.inlines:
            same_place = (other.kind, other.last, other.part) == (inline.kind, inline.last, inline.part)
            if same_place and [token.low for token in other.body] == words:
                return other.name
        taken = {name for name, _ in self.named(inline.kind)}
        title = inline.kind.capitalize()
        name = f"{title} {number}" if number else title
        count = 2
        while name in taken:
            name = f"{title} {count}"
            count += 1
        self.inlines.append(replace(inline, name=name))
        return name

    def as_ending(self, name: str) -> str:
        """Make a tag told in a sentence an ending; return its name as one."""
        at = next(place for place, one in enumerate(self.inlines) if (one.kind, one.name) == ("tag", name))
        told = self.inlines.pop(at)
        return self.add(replace(told, kind="ending"), 0)

    def measure(self, kind: ExtraKind, name: str, counts: int | None) -> None:
        """Keep the length of an extra that is said only where it is called for: "a four-count tag"."""
        for at, one in enumerate(self.inlines):
            if (one.kind, one.name) == (kind, name) and one.counts is None and counts is not None:
                self.inlines[at] = replace(one, counts=counts)

    def find(self, ref: Ref) -> tuple[ExtraKind, str] | str:
        """Return the kind and name of the extra that is meant, or a sentence that says why there is none."""
        found = self._found(ref)
        if ref.share is None or isinstance(found, str):
            return found
        kind, name = found
        share = ref.share
        told = f"{name} ({share.text.lower()})"
        last = (share.count or 0) * (-1 if share.before else 1)
        part = Partial(kind, told, name, share.first or 1, last, share.from_end)
        self.partial[kind, part.name] = part
        return kind, part.name

    def _found(self, ref: Ref) -> tuple[ExtraKind, str] | str:
        if ref.name:
            return ref.kind, ref.name
        kinds: list[ExtraKind] = [ref.kind]
        if ref.kind in ("tag", "bridge"):
            # Many teachers call a bridge a tag (MAV glossary: "generally interchangeable").
            kinds.append("bridge" if ref.kind == "tag" else "tag")
        for kind in kinds:
            named = self.named(kind)
            if not named:
                continue
            name = _chosen(named, ref)
            if name is not None:
                return kind, name
            if kind == ref.kind:
                many = TEENS[len(named)] if len(named) < len(TEENS) else str(len(named))
                what = f"{ref.kind} {ref.number or ref.letter}"
                return f"There is no {what}: the sheet has {many} {ref.kind}{'s' * (len(named) > 1)}"
        return f"The sheet has no {ref.kind}: its steps are missing"


def _chosen(named: Sequence[tuple[str, int | None]], ref: Ref) -> str | None:
    if ref.number or ref.letter:
        wanted = str(ref.number or ref.letter).lower()
        exact = [name for name, _ in named if name.lower().split()[-1:] == [wanted]]
        if exact:
            return exact[0]
        if ref.number and ref.number <= len(named):
            return named[ref.number - 1][0]
        return None
    alike = [name for name, counts in named if ref.counts is not None and counts == ref.counts]
    return alike[0] if len(alike) == 1 else named[0][0]


def same_words(one: Sequence[Token], other: Sequence[Token]) -> bool:
    """Whether two runs of tokens stand at the same place of the sheet."""
    return bool(one and other) and (one[0].line, one[0].column) == (other[0].line, other[0].column)
