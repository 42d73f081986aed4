"""Letters in a row of a list of walls that stand for what comes then: "32 + T", "16 R"."""

from collections.abc import Collection, Sequence

from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.like import word_like
from trainer.sheet.prose.words import Token

_LETTERED = {"T": "tag", "R": "restart"}
_BEFORE = words_in("then and plus counts cts all full whole dance wall")


def in_words(tokens: Sequence[Token], names: Collection[tuple[str, ...]]) -> list[Token]:
    """Return the words of a row with a T or R that the sheet does not explain written out.

    Behind another word, or before one, it is a foot or part of a name; at the beginning of a row it may be a facing.
    """
    return [
        word_like(token, _LETTERED[token.text]) if _is_alone(tokens, at, names) else token
        for at, token in enumerate(tokens)
    ]


def _is_alone(tokens: Sequence[Token], at: int, names: Collection[tuple[str, ...]]) -> bool:
    if tokens[at].text not in _LETTERED or (tokens[at].low,) in names:
        return False
    before = [token for token in tokens[:at] if token.text not in "(["]
    told = len(tokens) == 1 or (bool(before) and (before[-1].kind != "word" or before[-1].low in _BEFORE))
    return told and not any(after.kind in ("word", "number") or after.text == "/" for after in tokens[at + 1 : at + 2])
