"""Whether a sheet writes counts without blanks, so that 34 is the counts 3 and 4: 12 34 5678, 12&3."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.scan import run_together
from trainer.sheet.prose.words import Token


def writes_pairs(lines: Sequence[Sequence[Token]]) -> bool:
    """Return whether a sheet writes counts without blanks, so that 34 is the counts 3 and 4: 12 34 5678."""
    numbers = [token for line in lines for token in line if token.kind == "number"]
    texts = [token.text for token in numbers]
    pairs = [text for text in texts if text in ("34", "56", "78")]
    if _pairs_go_on(lines):
        return True
    many = {token.text for token in numbers if run_together(token, 4)}
    if (many and len(many | set(pairs)) > 1) or any(map(_pairs_up, lines)):
        return True
    return len(pairs) > 2 and len(set(pairs)) > 1 and not {"9", "11", "13", "33", "35"} & set(texts)


def _pairs_go_on(lines: Sequence[Sequence[Token]]) -> bool:
    """Whether pairs go on from the counts before them, or to those after: 12, 3&4, 56, 78."""
    edges = [token for line in lines for token in _counts_at_edges(line)]
    told = [[token for token in line if token.kind == "number"] for line in lines]
    beside = [*pairwise(edges), *(pair for numbers in told for pair in pairwise(numbers))]
    pairs = {
        token
        for before, after in beside
        for token in (before, after)
        if len(token.text) == 2 and run_together(token, 2) and int(after.text[0]) == int(before.text[-1]) % 8 + 1
    }
    runs_on = bool({"10", "11", "13", "14", "15"} & {token.text for token in edges})
    return not runs_on and len(pairs) > 1 and len({token.text for token in pairs}) > 1


def _counts_at_edges(line: Sequence[Token]) -> list[Token]:
    """Return the numbers that a line opens or closes with, halves between them left out."""
    found: list[Token] = []
    for tokens in (line, line[::-1]):
        at = next((at for at, one in enumerate(tokens) if one.text not in "()[].,;:-" and one.kind != "amp"), None)
        while at is not None and at < len(tokens) and tokens[at].kind == "number" and tokens[at] not in found:
            found.append(tokens[at])
            at += 2 if at + 1 < len(tokens) and tokens[at + 1].kind == "amp" else 1
    return sorted(found, key=lambda token: token.column)


def _pairs_up(line: Sequence[Token]) -> bool:
    """Whether a line has "12&3" or "1&23", which can be no twelve and no twenty-three."""
    for before, half, after in zip(line, line[1:], line[2:], strict=False):
        close = half.kind == "amp" and half.glued and after.glued and before.kind == after.kind == "number"
        two = close and 2 in (len(before.text), len(after.text))
        if (
            two
            and run_together(before, 1)
            and run_together(after, 1)
            and int(after.text[0]) == int(before.text[-1]) + 1
        ):
            return True
    return False
