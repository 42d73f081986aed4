"""Letters in a row of a list of walls that stand for what comes then: "32 + T", "16 R"."""

from collections.abc import Collection, Sequence

from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.tables.words import word_like
from trainer.sheet.prose.words import Token

_LETTERED = {"T": "tag", "R": "restart"}
_BEFORE = words_in("then and plus counts cts all full whole dance wall")


def in_words(tokens: Sequence[Token], names: Collection[tuple[str, ...]]) -> list[Token]:
    """Return the words of a row with a T or R that the sheet does not explain written out.

    Behind another word, or before one, it is a foot or part of a name.
    """
    return [
        word_like(token, _LETTERED[token.text]) if _is_alone(tokens, at, names) else token
        for at, token in enumerate(tokens)
    ]


def _is_alone(tokens: Sequence[Token], at: int, names: Collection[tuple[str, ...]]) -> bool:
    if tokens[at].text not in _LETTERED or (tokens[at].low,) in names:
        return False
    named = any(before.kind == "word" and before.low not in _BEFORE for before in tokens[max(at - 1, 0) : at])
    return not named and not any(after.kind in ("word", "number") for after in tokens[at + 1 : at + 2])
