"""Sentences that tell how some walls are danced, and of which nothing is in the order: they were not understood.

"Wall 5 begins with section 3", "On walls 2 and 4 the first eight is danced twice": no reader may pass these over in
silence. A sentence that only says where a wall begins or ends, or that it is danced as ever, tells nothing of the kind.
"""

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass, field

from trainer.routine import Span
from trainer.sheet.prose.order.grammar.atoms import Sentence

_NUMBERED = re.compile(
    r"\bwalls? (?:number |no ?\.? ?)?(?:\d|one|two|three|four|five|six|seven|eight|nine|ten)|"
    r"\b(?:\d (?:st|nd|rd|th)|[a-z]+(?:st|nd|rd|th)) (?:wall|time|round)"
)
"""Walls named by their numbers."""
_AS_EVER = {
    "normal", "normally", "usual", "whole", "complete", "completely", "full", "fully", "plain", "unchanged", "through",
    "all", "nothing", "no", "not", "never", "without", "same", "slows", "slow", "slower", "fades", "quiet", "ignore",
    "keep", "continue", "watch", "careful", "remember", "hear", "singer", "voice", "vocals", "music", "faces", "end",
}  # fmt: skip
_DANCED = {
    "section", "sections", "count", "counts", "eight", "eights", "beats", "twice", "skip", "skips", "instead", "step",
    "steps", "begins", "starts",
}  # fmt: skip


@dataclass(slots=True)
class Unclaimed:
    """Sentences that name walls, as they are read, and what became of them."""

    told: list[tuple[Span, frozenset[int]]] = field(default_factory=list)

    def hear(self, sentence: Sentence) -> None:
        """Take note of a sentence that names walls by their numbers and tells how these are danced."""
        named = [atom for atom in sentence.atoms if atom.kind == "walls"]
        walls = frozenset(one for atom in named for one in atom.walls)
        if not walls or any(atom.nth is not None for atom in named):
            # "The second time at the back wall" is found by the turn of the dance.
            return
        words = [token.low for token in sentence.tokens]
        if not _NUMBERED.search(" ".join(words)):
            # "16 counts, so 4 walls" says how many there are.
            return
        numbers = [token for token in sentence.tokens if token.kind == "number"]
        if _AS_EVER & set(words) or not _DANCED & set(words) or len(numbers) <= len(walls):
            return
        self.told.append((sentence.tokens[0].span, walls))

    def lost(self, claimed: Collection[int]) -> Iterator[Span]:
        """Yield where sentences stand none of whose walls has anything in the order."""
        for span, walls in self.told:
            if not any(wall in claimed or wall + 1 in claimed or wall - 1 in claimed for wall in walls):
                yield span
