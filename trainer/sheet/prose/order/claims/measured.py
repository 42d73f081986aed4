"""Sentences that only tell how long something is that was told before: an extra, or a wait."""

import re
from dataclasses import replace

from trainer.routine import Insert
from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.claims.extras import Ref
from trainer.sheet.prose.order.claims.ledger import Ledger
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.statements.statement import Statement

_LENGTH = re.compile(r"[D?u]{0,2}nc[?0u]{0,2}[.!]?")
_IT = {"it", "it's", "its", "this", "that", "they", "these", "that's"}
_WAIT = Insert(kind="hold", counts=1)
"""A hold that was told without its length."""


def only_measures(ledger: Ledger, context: Context, sentence: Sentence, statement: Statement) -> bool:
    """Whether a sentence only says how long the extra or the wait just told of is, which its calls are given.

    So it is where it says how long a wall comes to be with an extra: "so wall four has 32 counts".
    """
    if statement.walls is not None:
        return _measures_a_wall(ledger, context, statement)
    return _measures_an_extra(context, sentence) or _measures_a_wait(context, statement)


def _measures_a_wall(ledger: Ledger, context: Context, statement: Statement) -> bool:
    lengths = [one.spec.count for one in statement.loose if one.spec is not None]
    more = statement.acts or statement.bodies or statement.place or statement.changes or statement.faces
    if len(lengths) != 1 or not lengths[0] or more or not context.claims or statement.walls is None:
        return False
    return lengths[0] - ledger.ruler(statement.walls.part).length in ledger.extra_lengths()


def _measures_an_extra(context: Context, sentence: Sentence) -> bool:
    """Whether it is "It takes four counts", said of an extra."""
    if sentence.tokens[0].low not in _IT or not _LENGTH.fullmatch(sentence.letters):
        return False
    counts = sentence.number(sentence.letters.index("n"))
    claims = [claim for made in context.claims[-1:] for claim in made]
    called = [one for claim in claims for one in claim.inserts if isinstance(one, Ref) and not one.counts]
    if not called and not any(act.act in "TGX" for act in [*context.acts, *context.heads]):
        return False
    for claim in claims:
        claim.inserts = [
            replace(one, counts=counts) if isinstance(one, Ref) and one in called else one for one in claim.inserts
        ]
    context.acts = [replace(act, counts=act.counts or counts) if act.act in "TGX" else act for act in context.acts]
    return True


def _measures_a_wait(context: Context, statement: Statement) -> bool:
    """Whether it is "The band needs four counts", after a wait told without its length."""
    lengths = [one.spec.count for one in statement.loose if one.act == "c" and one.spec is not None]
    more = statement.acts or statement.bodies or statement.place or statement.changes or statement.onward
    waiting = [claim for made in context.claims[-1:] for claim in made if claim.inserts[-1:] == [_WAIT]]
    if len(lengths) != 1 or not lengths[0] or more or not waiting:
        return False
    for claim in waiting:
        claim.inserts[-1] = Insert(kind="hold", counts=lengths[0])
    return True
