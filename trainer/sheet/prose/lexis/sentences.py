"""A line of the order to its sentences."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.words import Token

SHORT_FORMS = {
    "sec",
    "sect",
    "no",
    "nr",
    "ct",
    "cts",
    "wt",
    "approx",
    "ca",
    "w",
    "s",
    "cnt",
    "incl",
    "fig",
    "figs",
    "nos",
    "pt",
    "n",
    "b",
}


def sentences(tokens: Sequence[Token]) -> list[tuple[Token, ...]]:
    """Return the sentences of a line: parted at full stops, semicolons, cell borders and bullets.

    A bracket that was opened in a sentence before ends the sentence that closes it: "in wall 3 (which starts at the
    back; you restart facing 9) and in wall 6 (...)".
    """
    found: list[tuple[Token, ...]] = []
    start = 0
    counted = _counts_after_gaps(tokens)
    parted = _closing_from_before(tokens)
    for at, token in enumerate(tokens):
        if at in parted or (
            token.text in (".", "!", "?", ";", "|", "•")
            and not abbreviates(tokens, at)
            and not _after_colon(tokens, at)
            and at not in counted
            and not _only_the_other_side(tokens, at)
        ):
            if at > start:
                found.append(tuple(tokens[start:at]))
            start = at + 1
    if start < len(tokens):
        found.append(tuple(tokens[start:]))
    return found


def _closing_from_before(tokens: Sequence[Token]) -> set[int]:
    """Return the closing brackets with a semicolon between them and their opening ones, and more to come."""
    found: set[int] = set()
    opened: int | None = None
    for at, token in enumerate(tokens):
        if token.text == "(":
            opened = at
        elif token.text == ")" and opened is not None:
            if any(one.text == ";" for one in tokens[opened:at]) and tokens[at + 1 : at + 2]:
                found.add(at)
            opened = None
    return found


def _only_the_other_side(tokens: Sequence[Token], at: int) -> bool:
    """Whether what follows a semicolon is more of the step before: "we sway: to the left on 1; to the right on 2"."""
    lows = [token.low for token in tokens[at + 1 : at + 4]]
    return tokens[at].text == ";" and lows[:2] == ["to", "the"] and lows[2:] in (["left"], ["right"])


def _counts_after_gaps(tokens: Sequence[Token]) -> set[int]:
    """Return the gaps that only lead to the counts of steps told before them: "step right .... 1, sway left .... 2".

    A gap may lead to several: "rock right, recover left ... 1, 2, close right, hold ... 3, 4".
    """
    leads: list[int] = []
    counts: list[int] = []
    for at, (gap, number) in enumerate(pairwise(tokens)):
        if gap.text == "|" and number.kind == "number" and at and tokens[at - 1].kind == "word":
            leads.append(at)
            counts += _listed(tokens, at + 1)
    return set(leads) if counts == list(range(1, len(counts) + 1)) and len(counts) > 1 else set()


def _listed(tokens: Sequence[Token], at: int) -> list[int]:
    """Return the numbers in a row from an index on, commas or blanks between them."""
    found = [int(tokens[at].text)]
    while at + 1 < len(tokens):
        at += 1 + (tokens[at + 1].text == ",")
        if at >= len(tokens) or tokens[at].kind != "number" or int(tokens[at].text) != found[-1] + 1:
            break
        found.append(int(tokens[at].text))
    return found


def _after_colon(tokens: Sequence[Token], at: int) -> bool:
    """Whether a wide gap or tab only stands after a colon: "walls:   1 (12)  2 (9)"."""
    return tokens[at].text == "|" and at in (2, 3) and tokens[at - 1].text == ":"


def abbreviates(tokens: Sequence[Token], at: int) -> bool:
    """Whether a full stop ends a short form ("Sec. 2") or a list's number ("3. restart") rather than a sentence."""
    if tokens[at].text != "." or at == 0 or not tokens[at].glued:
        return False
    if _is_that_is(tokens, at):
        return True
    before = tokens[at - 1]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    return after is not None and before.low in SHORT_FORMS and (after.kind == "number" or after.text in (",", ")"))


def _is_that_is(tokens: Sequence[Token], at: int) -> bool:
    """Whether a full stop is one of "i.e." or "e.g."."""
    return any(
        first >= 0 and "".join(token.low for token in tokens[first : first + 4]) in ("i.e.", "e.g.")
        for first in (at - 1, at - 3)
    )
