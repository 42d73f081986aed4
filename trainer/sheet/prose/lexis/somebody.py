"""Whether "one" is no number but whoever dances: "One observes the following", "one may begin"."""

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_MAY = {"may", "must", "should", "can", "could", "would", "will", "might", "has", "does", "then", "thus", "also"}
_NO_VERBS = ("ss", "us", "wards", "ways", "this", "is")
"""Ends of words that are no verbs although they end so."""


def is_somebody(after: Token) -> bool:
    """Whether "one" dances, by the verb after it, which is none of a step."""
    verb = after.low.endswith("s") and not after.low.endswith(_NO_VERBS) and len(after.low) > 3
    return after.kind == "word" and (after.low in _MAY or (verb and after.low not in STEP_WORDS))
