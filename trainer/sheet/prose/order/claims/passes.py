"""Which passes a sentence means: "walls 2 and 5", "every other wall", "the third time you face the back"."""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from trainer.sheet.prose.lexis.vocabulary import TEENS
from trainer.sheet.prose.order.claims.claims import Key
from trainer.sheet.prose.order.grammar.atoms import Atom
from trainer.sheet.prose.order.grammar.telling import Known

_MOST = 24
"""So many passes are listed for "every wall"."""
_LATE = 9
"""Few dances have more walls."""
_HIGHEST = 100
"""No dance is danced more often."""

BEYOND_THE_PLAY = "the order of play has only"
"""So it is said of a pass of a part that is spoken of and not danced."""

_NETS = {1: Fraction(0), 2: Fraction(1, 2)}


class Passes:
    """Passes of a dance, or of the parts of a phrased one in the order of play."""

    def __init__(self, known: Known, played: Sequence[str], *, repeats: bool) -> None:
        self._known = known
        self._played = played
        self._repeats = repeats or not played
        self.short: Mapping[str, Sequence[int]] = {}
        """By part the passes that the order of play marks as another form of it."""
        self.cut: Callable[[int], tuple[int, bool] | None] = lambda number: None
        """How much of a wall is danced, as told so far; None: all of it."""
        self._counts = Counter(played)
        self._listed: set[int] = set()
        self._told: set[int] = set()

    def only_in_series(self, number: int) -> bool:
        """Whether a wall was meant by nothing but a series without an end: "after every second wall"."""
        return number in self._listed and number not in self._told

    def of(self, walls: Atom) -> tuple[list[Key], str]:
        """Return the passes, and a sentence that says which of them the dance does not have."""
        if walls.part:
            return self._of_part(walls)
        numbers = self._numbers(walls)
        (self._listed if walls.every else self._told).update(numbers)
        if self._played:
            return self._of_play(numbers)
        # Before wall 1, which would be after wall 0, a danced intro has its place.
        numbers = [number for number in numbers if number or walls.at != "end"]
        if any(number < 1 or number > _HIGHEST for number in numbers):
            wrong = next(number for number in numbers if number < 1 or number > _HIGHEST)
            return [("", n) for n in numbers if 1 <= n <= _HIGHEST], f"There is no wall {wrong}"
        return [("", number) for number in numbers], ""

    def _numbers(self, walls: Atom) -> Sequence[int]:
        if walls.nth is not None:
            return self._facing(walls)
        if walls.every == "last":
            return (len(self._played),) if self._played and not self._repeats else ()
        if walls.every:
            step = walls.number or (1 if walls.every == "every" else 2)
            first = walls.number or (2 if walls.every == "even" else 1)
            last = len(self._played) if self._played and not self._repeats else _MOST
            return range(first, last + 1, step)
        return walls.walls

    def _facing(self, walls: Atom) -> Sequence[int]:
        """The walls that begin, or end, at a facing, as far as walls told before cut them short."""
        starts = self._starts()
        if not starts or walls.nth is None:
            return ()
        shift = 1 if walls.ends else 0
        hits = [at + 1 for at in range(len(starts) - 1) if starts[at + shift] == walls.nth]
        if walls.every:
            return [number for number in hits if number <= _MOST]
        if walls.vague and starts[2] == starts[0] != starts[1]:
            # Of a two-wall dance "the back wall" is each of them.
            return [number for number in hits if number <= _MOST]
        return [self._nth(hits, n, walls) for n in walls.walls if 1 <= n <= len(hits)]

    def _nth(self, hits: Sequence[int], number: int, walls: Atom) -> int:
        """The wall that begins so for the n-th time; where that is later than dances last, the n-th that begins so.

        "The third time you begin at the back wall" of four walls is wall 3, which does, rather than wall 11.
        """
        late = hits[number - 1] > _LATE and not walls.ends
        return number if late and number in hits else hits[number - 1]

    def start_of(self, number: int) -> Fraction | None:
        """Return the facing with which a wall begins; None where it is not known."""
        starts = self._starts()
        return starts[number - 1] if not self._played and 0 < number <= len(starts) else None

    def _starts(self) -> list[Fraction]:
        """The facings with which the walls begin; none where the turn of the dance is not known."""
        net = self._known.net
        turned, turned_on = self._known.turned.get("", ()), self._known.turned_on.get("", ())
        if net is None:
            net = turned[-1] if turned else _NETS.get(self._known.walls or 0)
        if net is None:
            return []
        facing = Fraction(0)
        starts = []
        for number in range(1, _HIGHEST + 2):
            starts.append(facing % 1)
            cut = self.cut(number)
            after, anded = cut or (len(turned), False)
            facing += (turned_on if anded else turned)[after] if after < len(turned) else net
        return starts

    def _of_part(self, walls: Atom) -> tuple[list[Key], str]:
        danced = self._counts[walls.part]
        if walls.every == "short":
            return [(walls.part, number) for number in self.short.get(walls.part, ())], ""
        if walls.every:
            numbers: Sequence[int] = range(1, (danced or 1) + 1)
            if walls.every == "last":
                numbers = [danced] if danced else []
            return [(walls.part, number) for number in numbers], ""
        wanted = walls.walls
        if walls.at == "before":
            return self._before(walls.part, wanted)
        wrong = ""
        if self._played and not self._repeats:
            beyond = [number for number in wanted if number > danced]
            if beyond:
                many = TEENS[danced] if danced < len(TEENS) else str(danced)
                name = f"{walls.part}s" if danced != 1 else walls.part
                wrong = f"There is no {walls.part} number {beyond[0]}: {BEYOND_THE_PLAY} {many} {name}"
            wanted = tuple(number for number in wanted if number <= danced)
        return [(walls.part, number) for number in wanted if number >= 1], wrong

    def _before(self, part: str, wanted: Sequence[int]) -> tuple[list[Key], str]:
        """The passes that come just before passes of a part."""
        places = [place for place, name in enumerate(self._played) if name == part]
        keys = [places[n - 1] for n in wanted if 1 <= n <= len(places)]
        return self._of_play([place for place in keys if place > 0])

    def _of_play(self, numbers: Sequence[int]) -> tuple[list[Key], str]:
        """The n-th parts danced."""
        wrong = ""
        keys = []
        for number in numbers:
            if number < 1 or (number > len(self._played) and not self._repeats):
                many = len(self._played)
                wrong = f"There is no wall {number}: the order of play has {many} parts"
            elif number <= len(self._played):
                part = self._played[number - 1]
                keys.append((part, list(self._played[:number]).count(part)))
        return keys, wrong

    def follows_itself(self, key: Key) -> bool:
        """Whether the part danced after a pass is the same part."""
        places = [place for place, name in enumerate(self._played) if name == key[0]]
        if len(places) < key[1]:
            return False
        after = places[key[1] - 1] + 1
        return after < len(self._played) and self._played[after] == key[0]
