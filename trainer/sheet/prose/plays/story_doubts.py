"""Findings for sentences of a story of the play in which something is told that the play, as read, does not keep.

A misread order without a word would be the worst: the dancer would come to it unwarned.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction

from trainer.problems import Problem
from trainer.routine import Routine
from trainer.sheet.prose.plays.changes import lost_changes
from trainer.sheet.prose.plays.finding import Found, found_in
from trainer.sheet.prose.plays.paragraphs import speaks_of_steps
from trainer.sheet.prose.plays.story_account import Account, lost_in
from trainer.sheet.prose.plays.symbols import Named
from trainer.sheet.prose.plays.told_items import Told
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEWEST = 3
"""Parts of a story that may be the play."""
_TURNS = {"turn", "turning", "pivot", "quarter", "half", "spin", "unwind", "full"}


def doubts(lines: Sequence[Line], routine: Routine, named: Named) -> Iterator[Problem]:
    """Yield a finding for each sentence of the story told in some lines of which the routine's play loses something."""
    found = found_in(lines, named)
    played = [named.parts.index(item.name) for item in routine.play if item.kind == "part" and item.name in named.parts]
    if found.accounts and found.play.parts == played:
        yield from (_problem(one.tokens) for one in lost(found, named) if not _asks(one.tokens))
        yield from (_problem(one.tokens) for one in lost_changes(found.changes, found.play, routine, named))
    elif found.story and len(found.play.parts) >= _FEWEST:
        # Read in two ways that differ, it may be neither.
        yield from (_problem(one.tokens) for one in [one for one in found.accounts if one.told][:1])


def _asks(tokens: Sequence[Token]) -> bool:
    """Whether a question is asked; it tells nothing."""
    return any(token.text == "?" for token in tokens)


def lost(found: Found, named: Named) -> list[Account]:
    """Return the sentences of a story in which something is told that its play loses."""
    telling = [at for at, one in enumerate(found.accounts) if not one.idle]
    for at, one in enumerate(found.accounts):
        one.final = found.play.items
        one.last = at >= max(telling, default=0)
    return lost_in(found.accounts, (lambda item: _turn(item, named)) if found.story else None)


def _turn(item: Told, named: Named) -> Fraction | None:
    """The turn of an item; None: it is not known."""
    if item.part < 0:
        turns = any(token.low in _TURNS or token.kind == "fraction" for token in item.body)
        return None if turns or (named.turning and not any(map(speaks_of_steps, item.body))) else Fraction(0)
    turned = named.turns[item.part]
    return turned[min(item.cut or len(turned) - 1, len(turned) - 1)]


def _problem(tokens: Sequence[Token]) -> Problem:
    return Problem(
        level="error",
        kind="order",
        line=tokens[0].line,
        column=tokens[0].column,
        message="What is told of the order here does not agree with the play as it was read",
        hint="Tell the order of the parts in a plain list, such as: Order: A, B, A, B",
    )
