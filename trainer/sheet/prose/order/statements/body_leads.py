"""Words of steps that are none: what leads up to the steps of an extra, and the name that an extra has."""

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.words import Token

_PLACES = {"back", "home", "left", "right", "over"}
"""Words of steps that may tell where one stands: "you'll be back at the stage"."""
_LED_BY = {"extra", "more", "spare", "counts", "beats", "count", "beat", "over", "left", "steps", "tag"}
"""Words that end what leads up to steps: "you'll be back at the front and there's four extra: sway ..."."""
_SHORTEST = 3
"""Words before the colon."""
_NAME = 2
"""Words before that of an extra which name it."""


def without_lead(kept: list[Token]) -> tuple[list[Token], int | None]:
    """Part steps from what leads up to them with a length: "back at the front and there's four extra: ..."."""
    colon = next((at for at, token in enumerate(kept) if token.text in (":", "-")), 0)
    leads = colon >= _SHORTEST and kept[0].low in _PLACES and kept[colon - 1].low in _LED_BY
    if not leads or kept[colon].text != ":" or colon + 1 == len(kept):
        return kept, None
    told = (number_at(kept, at) for at in range(colon))
    return kept[colon + 1 :], next((value for value, last, _ in told if last and value), None)


def names_an_extra(sentence: Sentence, first: int, last: int) -> bool:
    """Whether words of steps only name the extra that they stand before: "all + sway tag"."""
    led = sentence.letters[:last].rstrip("m")
    named = sentence.letters[last : last + 1] in ("T", "G") and first <= len(led) < last <= len(led) + _NAME
    return named and set(sentence.letters[first : len(led)]) <= {"&"} and (not led or led[-1] in "&>)/A")


def names_what_follows(sentence: Sentence, first: int, last: int, after: int) -> bool:
    """Whether steps that open a sentence only name those told after it: "Sways, after wall 3: sway right, left"."""
    named = sentence.letters[first:last].lstrip("n").rstrip(":,-u(")
    between = sentence.letters[last:after].rstrip("(")
    placed = any(atom.kind == "walls" and last <= atom.first < after for atom in sentence.atoms)
    opens = set(sentence.letters[:first]) <= set("n?a-")
    return opens and placed and between.endswith((":", "=")) and 0 < len(named) <= _LABEL and set(named) <= {"m", "?"}


_LABEL = 4
"""Words of steps that name what is told after them."""


def end_of_named(sentence: Sentence, at: int) -> int:
    """Return where words end that only name the step reached: "count 6, that is the rock, and then touch right".

    They stand after a place, and what is danced there is led by "then"; 0 where they are steps.
    """
    first = sentence.lexemes[at].first
    led = [token.low for token in sentence.tokens[max(first - 3, 0) : first] if token.low not in ("the", "your", ",")]
    placed = any(atom.kind == "place" and atom.last <= at for atom in sentence.atoms)
    if not placed or not {" ".join(led[-2:]), " ".join(led[-1:])} & _MEANS:
        return 0
    return sentence.letters.find(">", at) + 1


_MEANS = {"that is", "which is", "that's", "thats", "meaning", "i.e", "ie", "being", "namely"}
