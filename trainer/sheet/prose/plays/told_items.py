"""The items of a play as its sentences tell them, and what a sentence may add to those told before."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from trainer.routine import Routine
from trainer.sheet.prose.plays.symbols import Extra
from trainer.sheet.prose.words import Token


@dataclass(slots=True)
class Told:
    """A part or an extra of the play."""

    token: Token
    part: int = -1
    """Place of the part; -1: an extra."""
    extra: Extra | None = None
    cut: int | None = None
    """Counts danced of the part; None: all of them."""
    mark: str = ""
    """What marks it as another form of its part: *, -, short."""
    body: tuple[Token, ...] = ()
    """Steps of the extra that are told with it."""
    facing: tuple[Token, ...] = ()
    """A facing told with it, in brackets."""
    counts: int | None = None
    """Its length where it is told before its steps."""

    def again(self) -> "Told":
        """Return the same once more."""
        return Told(self.token, self.part, self.extra, self.cut, self.mark, self.body, self.facing, self.counts)


@dataclass(slots=True)
class Play:
    """A play as far as it was read."""

    items: list[Told] = field(default_factory=list)
    listed: bool = False
    """A plain list was read: what comes after speaks of it."""
    closed: bool = False
    """It stands behind a colon: no sentence after it goes on with it."""
    rounds: list[tuple[int, int]] = field(default_factory=list)
    """Where items that are danced several times begin, and how many they are."""
    stanza: int | None = None
    """Where the items begin of a verse of the song that the story has come to; None: it speaks of none."""
    stanzas: set[int] = field(default_factory=set)
    """The numbers of those that it came to."""
    implied: int | None = None
    """The part that is told only as what others come after."""
    numbered: dict[int, tuple[int, int]] = field(default_factory=dict)
    """Rounds that are told by their numbers: where the items of each begin, and how many they are."""
    each: tuple[int, int, int] | None = None
    """A part, another that is said to come after every one of it, and how many of that."""
    labelled: bool = False
    group: int = 0
    """Where the items begin that its last sentence told."""
    subject: int = -1
    """The part that was spoken of last."""
    noise: int = 0
    """Words within that mean nothing to it."""
    lines: set[int] = field(default_factory=set)
    """The sheet's lines that it was read from."""
    used: list[tuple[Token, ...]] = field(default_factory=list)
    """Sentences elsewhere that were told with it."""
    left: list[tuple[Token, ...]] = field(default_factory=list)
    """Sentences beside it that tell something else."""

    @property
    def parts(self) -> list[int]:
        """Places of the parts in order."""
        return [item.part for item in self.items if item.part >= 0]

    def nth(self, part: int, number: int | None) -> int | None:
        """Return the index of the n-th of a part, the last of them for None."""
        found = [at for at, item in enumerate(self.items) if item.part == part]
        if number is None:
            return found[-1] if found else None
        return found[number - 1] if 0 < number <= len(found) else None

    def repeat(self, first: int, times: int) -> None:
        """Dance the items from an index on so often in all."""
        again = self.items[first:]
        self.rounds.append((first, len(again)))
        for _ in range(min(times, 12) - 1):
            self.items += [item.again() for item in again]


def worth(play: Play) -> float:
    """Return how much speaks for its being the order of play."""
    if len(play.parts) < 2:
        return 0.0
    return len(play.items) + 4 * play.labelled + 2 * play.listed - 0.1 * play.noise


def differ(items: Sequence[Told], played: Sequence[tuple[int, int | None]]) -> bool:
    """Whether items are others than those read already: of each its part, -1 for an extra, and its cut.

    A cut that is told apart from the play is none of the items'.
    """
    if [item.part for item in items] != [part for part, _ in played]:
        return True
    return any(item.cut not in (None, cut) for item, (_, cut) in zip(items, played, strict=True))


def dances_a_tag(routine: Routine) -> bool:
    """Whether a tag or bridge is danced, in the play or at a place told apart from it."""
    many = Counter(item.name for item in routine.play if item.kind == "part")
    last = next((item.name for item in reversed(routine.play) if item.kind == "part"), "")
    placed = {
        insert.kind
        for line in routine.order
        for one in line.departures
        for insert in one.inserts
        # What is danced behind the last part may as well be called an ending.
        if not (line.part == last and set(line.passes) == {many[last]})
    }
    return bool((placed | {item.kind for item in routine.play}) & {"tag", "bridge"})
