"""What kind of sentence one is: nothing but items, the lengths of the parts, a row with a number before it."""

from collections.abc import Sequence

from trainer.sheet.prose.plays.symbols import Named, Symbol
from trainer.sheet.prose.words import Token

_IT = {"it", "that", "this"}


def names_parts(given: Sequence[Symbol]) -> bool:
    """Whether a line only names the parts otherwise: "VERSE = A, CHORUS = B"."""
    return any(
        one.text == "=" and 0 < at < len(given) - 1 and given[at - 1].part >= 0 and given[at + 1].part >= 0
        for at, one in enumerate(given)
    )


def tells_lengths(given: Sequence[Symbol], named: Named) -> bool:
    """Whether a sentence only tells how long the parts are: "part A has 32 counts, part B has 16"."""
    parts = [(at, one.part) for at, one in enumerate(given) if one.part >= 0 and not glued(given, at)]
    if not parts or len({part for _, part in parts}) != len(parts):
        return False
    ends = [at for at, _ in parts[1:]] + [len(given)]
    length = named.lengths
    exact = [
        any(one.text == str(length[part]) for one in given[at:end])
        or any(one.text == str(length[part]) for one in given[max(at - 4, 0) : at])
        for (at, part), end in zip(parts, ends, strict=True)
    ]
    return len(parts) > 1 and all(exact) and not any(one.extra for one in given)


def only_items(given: Sequence[Symbol]) -> bool:
    """Whether a sentence is nothing but parts and extras: "Tag. B."."""
    items = [one for one in given if one.token.kind != "mark"]
    return bool(items) and all(one.part >= 0 or one.extra is not None for one in items)


def with_noun(tokens: Sequence[Token], noun: Token | None) -> tuple[Token, ...]:
    """Return a question with the extra that its "it" stands for: "What do we dance in it?"."""
    if noun is None or tokens[-1].text != "?":
        return tuple(tokens)
    return tuple(noun if token.low in _IT and at else token for at, token in enumerate(tokens))


def glued(given: Sequence[Symbol], at: int) -> bool:
    """Whether a letter begins the name of a section: "A1"."""
    after = given[at + 1] if at + 1 < len(given) else None
    return after is not None and after.text.isdigit() and after.token.glued


def unnumbered(tokens: Sequence[Token], named: Named) -> Sequence[Token]:
    """Return a line without the number that it has in a list, and without the mark of an answer."""
    tokens = tuple(tokens)
    while len(tokens) > 2 and tokens[0].text == "*" and tokens[-1].text == "*":
        tokens = tokens[1:-1]
    while tokens and tokens[0].text in ("|", "-", ">", "•"):
        tokens = tokens[1:]
    if named.answers and len(tokens) > 2 and tokens[0].text in ("A", "Q") and tokens[1].text in (":", "."):
        return tokens[2:]
    if tokens and tokens[0].kind == "number":
        last = 2 if len(tokens) > 1 and tokens[1].low in ("st", "nd", "rd", "th") else 1
        marked = len(tokens) > last and tokens[last].text in (".", ":", ")", "|", "-")
        if marked:
            return tokens[last + 1 :]
    return tokens
