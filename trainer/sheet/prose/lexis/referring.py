"""Words that refer to the walls told of: "the fourth of them", "the third of the walls", "at its end there are ..."."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_BOUND = {"need", "needs", "have", "has", "had", "ought", "want", "going", "get", "like", "asked", "remember"}
_ARE = {"are", "is", "come", "comes", "follow", "follows"}


def of_the_walls(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """The walls that an ordinal numbers, named after it or before: "the third of the walls", "the fourth of them"."""
    lows = [token.low for token in tokens[at : at + 3]]
    if lows[:1] != ["of"] or not found or found[-1].kind != "o":
        return None
    if lows[1:2] in (["them"], ["these"], ["those"]):
        return Lexeme("w", at, at + 2) if [one.kind for one in found[-2:-1]] in (["A"], ["E"], ["B"]) else None
    walls = len(lows) == 3 and lows[1] in ("the", "our", "your") and lows[2] == "walls"
    return Lexeme("w", at, at + 3) if walls else None


def there_are(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """What parts a wall's end from how much is put in: "at its end there are two counts more" is no place."""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    ends = bool(found) and found[-1].kind == "E"
    return Lexeme(",", at, at + 2) if tokens[at].low == "there" and after in _ARE and ends else None


def bound_to(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """Words that only lead to what is done: "you need to sway", "we have to hold"; their "to" is no "as far as"."""
    words = [token.low for token in tokens[at : at + 3]]
    leads = len(words) > 2 and words[0] in _BOUND and words[1] == "to" and words[2] in STEP_WORDS
    return Lexeme("", at, at + 2) if leads else None


_AIMED = {
    "towards", "toward", "past", "overlooking", "opposite", "under", "across", "behind", "facing", "face",
}  # fmt: skip
_PLACED = {"bridge", "tag", "end", "ending", "finish", "break"}
_WHOSE = {"the", "our", "your", "that", "ship's", "this"}


def is_landmark(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word of the trade is a place of the room that one looks at: "bow towards the bridge and the crew"."""
    if tokens[at].low not in _PLACED or at < 2 or tokens[at - 1].low not in _WHOSE:
        return False
    return tokens[at - 2].low in _AIMED
