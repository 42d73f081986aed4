"""Labels and their places in a beat.

Straight: e 1/4, & 1/2, a 3/4 (ROUNDALAB & URDC Common Glossary of Round Dance Terms, 2001: & half a beat, a the last
quarter). Swung: & and a on 2/3. Rolling: & 1/3, a 2/3 (Golden State Dance Teachers Association teaching of the rolling
count; fractions by arithmetic). There is no e in swung and rolling. Counts are numbered from 1, beats from 0.
"""

from collections.abc import Iterable
from fractions import Fraction

from trainer.terms import Feel, Label

OFFSETS: dict[Feel, dict[str, Fraction]] = {
    "straight": {"e": Fraction(1, 4), "&": Fraction(1, 2), "a": Fraction(3, 4)},
    "swung": {"&": Fraction(2, 3), "a": Fraction(2, 3)},
    "rolling": {"&": Fraction(1, 3), "a": Fraction(2, 3)},
}
"""The offset of a label after its number, in beats."""

SUBLABELS = ("e", "&", "a")


def is_number(label: str) -> bool:
    """Return whether a label is a whole count."""
    return label not in SUBLABELS


def offset(label: str, feel: Feel) -> Fraction | None:
    """Return how far into its beat a label falls, or None where the feel has no such label."""
    return Fraction(0) if is_number(label) else OFFSETS[feel].get(label)


def number_at(beat: Fraction | int, phrase: int) -> int:
    """Return the whole count called at or last before a beat of a block: 1 to 8, in a waltz 1 to 6."""
    return int(beat // 1) % phrase + 1


def label_of(number: int) -> Label:
    """Return a whole count from 1 to 8 as its label."""
    if not 1 <= number <= 8:
        raise ValueError("counts are called 1 to 8")
    labels: tuple[Label, ...] = ("1", "2", "3", "4", "5", "6", "7", "8")
    return labels[number - 1]


def spoken(labels: Iterable[str]) -> list[str]:
    """Return what the events of a block are called in a sentence: "count 7", "count 7&", "the & before count 1"."""
    told: list[str] = []
    number = ""
    waiting: list[int] = []
    for label in labels:
        if is_number(label):
            number = label
            told.append(f"count {label}")
            for place in waiting:
                told[place] += f" before count {label}"
            waiting = []
        elif number:
            told.append(f"count {number}{label}")
        else:
            waiting.append(len(told))
            told.append(f"the {label}")
    return told
