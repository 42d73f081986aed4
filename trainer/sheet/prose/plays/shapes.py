"""What kind of sentence one is: nothing but items, the lengths of the parts, a row with a number before it."""

import re
from collections import Counter
from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.plays.repeats import MULTI
from trainer.sheet.prose.plays.symbols import Named, Symbol, text_of
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
    several = len(parts) > 1 or (len(given) > parts[0][0] + 1 and given[parts[0][0] + 1].text == "=")
    if not several or any(one.extra for one in given):
        return False
    if all(exact):
        return True
    # One part may be longer or shorter than was read: "in three pieces, which I call A (32 beats), B (16 beats) ...".
    measured = all(_measured(given[at:end]) for (at, _), end in zip(parts, ends, strict=True))
    whole = len(parts) == len(length) and sum(exact) >= len(parts) - 1
    return whole and measured and not any(one.text in _IN_ORDER for one in given)


_CALLED = re.compile(
    r"\b(?:parts|pieces|bits|movements|tunes|patterns|[2-6]) (?:\w+ )*(?:are|is|called|named|be|:|names|by)\b|"
    r"\b(?:called|named|call them|names are|go by)\b|\b(?:consists|made up|made|built|comes in|there are)\b"
)
_TELLS_ORDER = re.compile(
    r"\b(?:order|sequence|then|again|twice|once|first|next|after|phrasing|danced?|play(?:ed)?)\b|#\d"
)


def only_calls_parts(given: Sequence[Symbol], named: Named) -> bool:
    """Whether a sentence only says what all the parts are called: "The parts are called the A, the B and the C"."""
    parts = _parts(given)
    if sorted(parts) != list(range(len(named.parts))) or any(one.extra for one in given):
        return False
    first = next(at for at, one in enumerate(given) if one.part >= 0)
    text = text_of(given)
    return bool(_CALLED.search(text.of(0, first))) and not _TELLS_ORDER.search(text.text)


def _measured(given: Sequence[Symbol]) -> bool:
    """Whether counts are told behind a part."""
    return any(one.text.isdecimal() and two.text in _UNITS for one, two in pairwise(given))


_UNITS = {"counts", "beats", "count", "beat"}
_IN_ORDER = {
    "then", "only", "after", "again", "once", "next", "twice", "just", "follow", "follows", "first", "#1", "another",
    "stop", "until",
}  # fmt: skip
"""Words of a sentence that tells what comes when, and how much of it."""


def sums_up(given: Sequence[Symbol], others: Sequence[Sequence[Symbol]]) -> bool:
    """Whether a sentence only says how often each part comes in all, as another lists them one by one.

    "A is danced four times, B three times", "three As and two Bs".
    """
    parts = [(at, one.part) for at, one in enumerate(given) if one.part >= 0 and not glued(given, at)]
    if len(parts) < _TWO or len({part for _, part in parts}) != len(parts) or _OPENS & {one.text for one in given}:
        return False
    if any(one.text == "phrased" for one in given) and any(len(_parts(other)) > len(parts) for other in others):
        # "Phrased A/B, one tag" over the play itself.
        return True
    ends = [*(at for at, _ in parts[1:]), len(given)]
    said = {part: _times(given, at, end) for (at, part), end in zip(parts, ends, strict=True)}
    if not all(said.values()) or max(said.values()) < _TWO:
        return False
    return any(
        said == dict(Counter(_parts(other))) or (said == _numbered(other) and len(_parts(other)) > len(said))
        for other in others
    )


_OPENS = {
    "begin",
    "begins",
    "start",
    "starts",
    "open",
    "opens",
    "then",
    "next",
    "now",
    "first",
    "#1",
    "after",
    "finally",
}
"""Words of a sentence that tells what comes when."""


def _parts(given: Sequence[Symbol]) -> list[int]:
    return [one.part for at, one in enumerate(given) if one.part >= 0 and not glued(given, at)]


def _numbered(given: Sequence[Symbol]) -> dict[int, int]:
    """How many of each part are told, with the number before each: "two A, one B, two A"."""
    named = [(at, one.part) for at, one in enumerate(given) if one.part >= 0 and not glued(given, at)]
    ends = [*(at for at, _ in named), len(given)][1:]
    said: dict[int, int] = {}
    for (at, part), end in zip(named, ends, strict=True):
        many = int(given[at - 1].text) if at and given[at - 1].text.isdecimal() else _times(given, at, end)
        said[part] = said.get(part, 0) + max(many, 1)
    return said


def behind_sum(given: Sequence[Symbol]) -> Sequence[Symbol]:
    """Return what lists the parts behind a colon, where all before it only sums it up."""
    colon = max((at for at, one in enumerate(given) if one.text == ":"), default=0)
    head, rest = given[:colon], given[colon + 1 :]
    if colon and sums_up(head, [rest]):
        return rest
    # "B is danced four times, once after every A: A B, A B, A B, A B".
    plain = all(one.part >= 0 or one.token.kind == "mark" for one in rest) and len(_parts(rest)) > _LIST
    return rest if plain and any(one.text in ("times", "twice", "each", "every") for one in head) else given


_LIST = 3
"""Parts of a list that tells the play, though what leads to it names some."""


_TWO = 2
_HAS = {"have", "has", "are", "and", "with", "of", "is", "here", "there", "be", ":", ","}
"""Behind these a number tells how many of the part named next there are."""


def _times(given: Sequence[Symbol], at: int, end: int) -> int:
    """How often a part comes, as the number before its plural, or the one behind it, says; 0: it is not said."""
    plural = given[at].token.low.endswith("s") and len(given[at].token.text) > 1
    before = given[at - 1].text if at else ""
    if before in ("times", "x") and at > 1:
        before = given[at - 2].text
    elif not plural:
        led = given[at - 2].text if at > 1 else ""
        before = before if before.isdecimal() and led in _HAS else str(MULTI.get(before, ""))
    if before.isdecimal() and int(before):
        return int(before)
    behind = [one.text for one in given[at + 1 : end]]
    for place, text in enumerate(behind):
        if text in MULTI:
            return MULTI[text]
        if text.isdecimal() and (behind[place + 1 : place + 2] == ["times"] or behind[place - 1 : place] == ["x"]):
            return int(text)
    return 0


def only_items(given: Sequence[Symbol]) -> bool:
    """Whether a sentence is nothing but parts and extras, or one part and how much of it: "Tag. B.", "A, only 16."."""
    items = [one for one in given if one.token.kind != "mark"]
    rest = items[1:] if items and items[0].part >= 0 else []
    if rest and all(one.text in _HOW_MUCH or one.text.isdecimal() for one in rest):
        return any(one.text.isdecimal() or one.text == "half" for one in rest)
    return bool(items) and all(one.part >= 0 or one.extra is not None for one in items)


_HOW_MUCH = {
    "only", "first", "#1", "until", "stop", "stops", "to", "the", "up", "just", "after", "counts", "count", "beats",
    "half", "of", "it", "till", "cut", "short",
}  # fmt: skip


def with_noun(tokens: Sequence[Token], noun: Token | None) -> tuple[Token, ...]:
    """Return a question with the extra that its "it" stands for: "What do we dance in it?"."""
    if noun is None or tokens[-1].text != "?":
        return tuple(tokens)
    return tuple(noun if token.low in _IT and at else token for at, token in enumerate(tokens))


def glued(given: Sequence[Symbol], at: int) -> bool:
    """Whether a letter begins the name of a section: "A1"."""
    after = given[at + 1] if at + 1 < len(given) else None
    return after is not None and after.text.isdecimal() and after.token.glued


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
