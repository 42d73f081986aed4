"""Counts that one sentence puts in and another tells: "add 2 counts, then restart", "The 2 counts: stomp R"."""

import re

from trainer.sheet.prose.order.grammar.atoms import Atom, Letters

_PUT_IN = ("add", "insert", "put", "squeeze", "fit", "slip", "stick", "tack", "plus")
"""What opens words that put counts in."""


def told_below(s: Letters, match: re.Match[str]) -> list[Atom]:
    """Counts that are put in, their steps told by another sentence."""
    at = match.start("len0")
    put_in = s.words(at - 1, at).lower().startswith(_PUT_IN)
    if not set("wWt") & set(s.letters) or not put_in:
        return []
    return [Atom("act", match.start(), match.end(), act="T", counts=s.number(at), vague=True)]


def those_counts(s: Letters, match: re.Match[str]) -> list[Atom]:
    """The steps of counts that another sentence puts in."""
    at = match.start("len0")
    first = s.lexemes[at].first
    lead = s.tokens[first - 1].low if first else ""
    if lead not in ("the", "these", "those") and s.letters[match.end() : match.end() + 1] != "=":
        return []
    return [Atom("act", match.start(), match.end(), act="T", counts=s.number(at), vague=True)]
