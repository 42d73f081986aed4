"""Which of several counts a wall is left after, where its sentence leaves them in doubt: the one that fits the rest.

It fits if so many counts are told, if count 1 finds its foot free, and if one faces then as is said.
"""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from fractions import Fraction

from trainer.sheet.prose.order.claims.claims import Key
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.statements.statement import Statement


@dataclass(frozen=True, slots=True)
class Fit:
    """What is told of a place beside its words."""

    ledger: Ledger
    key: Key
    counts: Collection[int]
    """Numbers of counts that the sentence tells, one of which may be the place."""
    faced: Collection[Fraction]
    """Facings told of it."""

    def best(self, places: Iterable[int]) -> int | None:
        """Return the first of the places that fits best; None where none is inside the wall or leaves the foot free."""
        length = self.ledger.ruler(self.key[0]).length
        fitting = [place for place in places if 0 < place < length and self.begins_anew(place)]
        return max(fitting, key=lambda place: (place in self.counts, self.is_faced(place)), default=None)

    def begins_anew(self, place: int) -> bool:
        """Whether the foot that count 1 needs is free after so many counts, as far as is known."""
        weights = self.ledger.known.stands.get(self.key[0], ())
        if place >= len(weights):
            return True
        return weights[place] in (weights[0], "B") or weights[0] == "B"

    def reached(self) -> int | None:
        """Return after how many counts one first faces as is told; None where that is never, or on the wrong foot."""
        ruler = self.ledger.ruler(self.key[0])
        first = next((place for place in range(1, ruler.length) if self.is_faced(place)), None)
        if first is None or self.is_faced(0):
            return None
        # Half a turn in two steps of a figure is danced to the figure's end, where one faces so still.
        end = next((end for end in ruler.ends if end >= first), first)
        fitting = [place for place in (end, first) if self.is_faced(place) and self.begins_anew(place)]
        return next((place for place in fitting if place < ruler.length), None)

    def is_faced(self, place: int) -> bool:
        """Whether one faces as is told after so many counts."""
        turned = self.ledger.known.turned.get(self.key[0], ())
        start = self.ledger.start_of(self.key[1]) if not self.key[0] else None
        if not self.faced or start is None or place >= len(turned):
            return False
        return (start + turned[place]) % 1 in {facing % 1 for facing in self.faced}


def fit_of(ledger: Ledger, sentence: Sentence, told: Statement, key: Key) -> Fit:
    """Return what a statement tells of the place at which its wall is left."""
    counted = [told.counted, *told.loose]
    counts = {one.spec.count for one in counted if one is not None and one.spec is not None and one.spec.count}
    counts |= {sentence.number(at) for at in range(len(sentence.letters) - 1) if _counts(sentence.letters, at)}
    return Fit(ledger, key, counts, [facing for facing, begins in told.faces if not begins])


def _counts(letters: str, at: int) -> bool:
    """Whether a number is one of counts: "16 counts", "count 16"."""
    return letters[at] == "n" and (
        letters[at + 1] == "c" or letters[at + 1 : at + 3] == "-c" or letters[at - 1 : at] == "c"
    )
