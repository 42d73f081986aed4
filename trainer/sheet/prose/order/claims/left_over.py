"""Counts of the music that are left when a wall is over, and are those of the extra told with them or next."""

import re
from dataclasses import replace

from trainer.sheet.prose.order.claims.context import Context
from trainer.sheet.prose.order.grammar.atoms import Atom, Sentence
from trainer.sheet.prose.order.statements.statement import Statement

_LEFT = re.compile(
    r"(?:left(?: over)?|over|spare|to (?:fill|spare|be filled|go)|in hand|more|extra|remaining|remain|of music|"
    r"(?:have|has|need|needs) to be filled|"
    r"before (?:it|the dance|the next (?:wall|one|time)|we|you) (?:starts|begins|start|begin)(?: again)?)\b"
)
"""What says of counts before it that the dance is over before the music is."""


def put_at_the_end(context: Context, sentence: Sentence, statement: Statement) -> None:
    """Let "wall 3 brings you to 3:00 and there are four counts to fill" speak of the end of that wall."""
    walls = statement.walls or context.walls
    if walls is None or not walls.walls or walls.part or context.claims:
        return
    told = [statement.place, context.place if statement.walls is None else None]
    whole = all(place is None or place.share == 1 for place in told)
    acts = [act for act in statement.acts if not _comes_later(sentence, act)]
    if not whole or acts or statement.changes or not any(_is_left(sentence, statement, one) for one in statement.loose):
        return
    statement.walls, statement.acts, statement.place = replace(walls, at="end"), [], None


def _is_left(sentence: Sentence, statement: Statement, loose: Atom) -> bool:
    """Whether a number of counts is said to be left, before any steps are told."""
    after = sentence.tokens[sentence.lexemes[loose.last - 1].last :][:6]
    told = any(body.first < loose.first for body in statement.bodies)
    return loose.act == "c" and not told and bool(_LEFT.match(" ".join(token.low for token in after)))


def _comes_later(sentence: Sentence, act: Atom) -> bool:
    """Whether a new start is only what comes after the counts: "two counts before the next wall starts"."""
    return act.act == "R" and sentence.letters[: act.first].endswith("B")
