"""Words that nobody knows and that a sheet uses once: in the place of a verb they are no step that can be read.

A word that a teacher uses again and again is one of theirs ("shf", "checks"); what stands once may be a misprint.
"""

from collections import Counter
from collections.abc import Iterable, Sequence

from trainer.sheet.prose.steps.lex import STRANGE, STRANGE_VERB, Lex
from trainer.sheet.prose.words import Token

_SHORTEST = 3
_VOWELS = set("aeiouy")
_FEET = ("side", "foot", "run")


def used_often(lines: Iterable[Sequence[Token]]) -> frozenset[str]:
    """Return the words that stand more than once in the lines of a sheet."""
    counts = Counter(token.low for line in lines for token in line if token.kind == "word")
    return frozenset(word for word, number in counts.items() if number > 1)


def with_strange(lexes: Sequence[Lex], used: frozenset[str]) -> tuple[Lex, ...]:
    """Return lexemes with those marked that no table knows and the sheet uses once; short forms have no vowels."""
    return tuple(
        lex._replace(value=STRANGE_VERB if after is not None and after.kind in _FEET else STRANGE)
        if _is_strange(lex, used)
        else lex
        for lex, after in zip(lexes, (*lexes[1:], None), strict=False)
    )


def _is_strange(lex: Lex, used: frozenset[str]) -> bool:
    if lex.kind != "unknown" or lex.low in used:
        return False
    return len(lex.low) >= _SHORTEST and lex.low.isalpha() and bool(_VOWELS & set(lex.low))
