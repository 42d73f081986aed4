"""Lines that tell the steps of counts which a line above puts in: "The 2 counts: stomp R, stomp L".

They are joined with that line; by itself such a line would be one of steps of the dance.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.order.lines.lines import LETTERS, is_order
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LEADS = {"the", "these", "those", "our"}
_COUNTS = {"count", "counts", "beat", "beats", "cts"}
_MARKS = {":", "=", "-", "are", "is"}


def with_told_counts(lines: Sequence[Line]) -> list[Line]:
    """Return lines, each that tells counts put in above joined with the line that puts them in."""
    done: list[Line] = []
    for line in lines:
        counts = _told(line.tokens)
        above = next((at for at in range(len(done) - 1, -1, -1) if _puts_in(done[at].tokens, counts)), None)
        if not counts or above is None:
            done.append(line)
            continue
        end = replace(line.tokens[0], kind="mark", text=".", low=".", glued=True)
        before = done[above].tokens
        between = () if before[-1].text in (".", "!", ";") else (end,)
        done[above] = replace(done[above], tokens=(*before, *between, *line.tokens))
    return done


def _told(tokens: Sequence[Token]) -> int:
    """Return how many counts a line tells that it opens with; 0: it opens otherwise."""
    first = int(tokens[0].low in _LEADS)
    if first >= len(tokens):
        return 0
    value, last, ordinal = number_at(tokens, first)
    named = last > first and not ordinal and last + 1 < len(tokens) and tokens[last].low in _COUNTS
    leads = named and tokens[last + 1].low in _MARKS and (first or tokens[last + 1].text == "=")
    return value if leads else 0


def _puts_in(tokens: Sequence[Token], counts: int) -> bool:
    """Whether a line about the order puts in so many counts without their steps."""
    if not counts or not is_order(tokens):
        return False
    atoms = [atom for part in sentences(tokens) for atom in sentence_of(part, LETTERS).atoms]
    return any(atom.act == "T" and atom.vague and atom.counts == counts for atom in atoms)
