"""Words of running sentences that stand for plainer ones: "one" who dances, "make" for dance, "is left" for stops."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.somebody import is_somebody
from trainer.sheet.prose.lexis.vocabulary import FILLERS, NUMBERS, ORDINALS, STEP_WORDS
from trainer.sheet.prose.words import Token

_MEANT = {"that", "it", "this", "one", "these", "those", "two", "both", "they", "dance", "which", "we", "you", "round"}
"""What stands for a wall that was named: "that one is left after 24"."""
_CUT_AT = {"after", "at", "when", "once", "just", "right", "already", "before", "there", "here", "as", "upon"}
_IS = {"is", "are", "was", "be", "gets", "being"}
_LEFT = {"left", "cut", "interrupted", "abandoned", "quit", "curtailed", "stopped", "broken"}
_AT = {"after", "at", "on", "with", "off", "short", "when", "as", "once", "just", "right", "already", "upon", "before"}
_STILL = re.compile(
    r"(?:(?:stand|stands|standing|keep|keeps|stay|stays|remain|remains|be|freeze) "
    r"(?:quite |very |all |there |perfectly |absolutely |completely |totally )*"
    r"(?:still|motionless|quiet|immobile|frozen) |motionless |"
    r"(?:nobody|no one|none of us|no dancer|no foot) (?:does not |doesn't )?(?:moves?|stirs?|dances?) |"
    r"(?:do|does) not (?:move|stir) (?:a foot )?|don't (?:move|stir) |without (?:moving|movement) |"
    r"(?:holds?|catch|catches|keeps?) (?:its|his|her|their|our|your|the) breath (?=for )|"
    r"(?:of )?(?:complete |total |deep )?(?:silence|stillness) |of rest |a rest of |"
    r"(?:leave|leaves|keep|keeps|stay|stays|remain|remains|stand|stands) "
    r"(?:(?!and |then |step |after |until |going |dancing |[.;:] )\S+ ){1,12}?"
    r"(?=for (?:(?:a|the|just|another|only|all|these|those) )?(?:\d+|one|two|three|four|five|six|eight) "
    r"(?:more |further |full |whole |extra |slow )?(?:counts?|beats?) )|"
    r"of (?:waiting|standing still|standing|holding|pausing|doing nothing|pause|waiting still) |"
    r"(?:falls?|goes|becomes?|is|stays?|remains?|keeps?) (?:quite |all )?(?:silent|quiet|still) (?=for ))"
)
_MAKES = {"make", "makes", "take", "takes", "run", "execute", "executes", "perform", "performs", "play", "plays"}
_PLAYERS = {"band", "music", "song", "tune", "fiddle", "piano", "drummer", "fiddler", "record", "orchestra", "track"}
"""Who plays counts that nobody dances: "the band plays 4 beats more"."""
_PIECES = {
    "eight", "eights", "figure", "figures", "section", "sections", "counts", "count", "beats", "half", "part", "phrase",
    "set", "sets", "block", "blocks", "sixteen", "line", "lines",
}  # fmt: skip


def spoken_lexeme(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """Return the lexeme of a word that stands for a plainer one; an empty kind for who dances."""
    if at + 1 < len(tokens) and tokens[at + 1].low == "times" and _opens(tokens, at):
        # "Two times we start again" tells what comes after it.
        return Lexeme("", at, at + 2)
    if tokens[at].low == "go" and found and found[-1].kind == "n" and _goes(tokens, at):
        # "Walls 2 and 4 go to count 24".
        return Lexeme("D", at, at + 1)
    if tokens[at].low == "but" and _is_few(tokens, at):
        # "It has but three eights."
        return Lexeme("u", at, at + 1)
    if _is_one(tokens, at):
        return Lexeme("", at, at + 1)
    if _makes(tokens, at):
        return Lexeme("D", at, at + 1)
    if (last := _stands_still(tokens, at)) > at:
        return Lexeme("H", at, last)
    return _left(tokens, at, found)


def _is_few(tokens: Sequence[Token], at: int) -> bool:
    """Whether "but" stands for only: "has but three eights"."""
    before, after = tokens[at - 1].low if at else "", tokens[at + 1] if at + 1 < len(tokens) else None
    return (
        before in ("has", "have", "are", "is", "dance", "do", "dances") and after is not None and after.low in NUMBERS
    )


def _goes(tokens: Sequence[Token], at: int) -> bool:
    """Whether walls go so far, and no times of going are counted."""
    walls = any(token.low in ("walls", "wall", "rounds") for token in tokens[max(at - 5, 0) : at])
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    return walls and after in ("to", "up", "only", "as", "until", "till", "on", "through", "for", "just", "no")


def _stands_still(tokens: Sequence[Token], at: int) -> int:
    """Return the index after words that say that nobody moves: "stand quite still", "three counts of silence"."""
    words = [token.low for token in tokens[at : at + 20]]
    match = _STILL.match(" ".join(words) + " ")
    return at + match[0].count(" ") if match else at


def _opens(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number opens a sentence that goes on with who dances so often."""
    number = tokens[at].low in NUMBERS or tokens[at].kind == "number"
    after = [token.low for token in tokens[at + 2 : at + 4] if token.text != ","]
    return number and at == 0 and after[:1] != [] and after[0] in ("we", "you", "the", "there", "it", "one", "this")


_NUMBERED = {"section", "figure", "part", "wall", "set", "block", "phrase", "line", "count", "number", "no", "eight"}
"""Words that a number names one of: "section one then restart"."""


_BEFORE_ONE = {",", ";", ".", ":", "stead", "instead", "then", "place", "there", "here", "and", "but"}
"""Before "one" and a step these tell that somebody dances: "in their stead one stomps"."""


def _is_one(tokens: Sequence[Token], at: int) -> bool:
    """Whether "one" is who dances: "one dances the first eight"."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if tokens[at].low != "one" or after is None or after.glued or after.kind != "word":
        return False
    if at and tokens[at - 1].low in _NUMBERED:
        return False
    step = after.low.endswith("s") and after.low[:-1] in STEP_WORDS and at > 0
    return is_somebody(after) or (step and tokens[at - 1].low in _BEFORE_ONE)


def _makes(tokens: Sequence[Token], at: int) -> bool:
    """Whether parts of the dance are made, and no turn: "we make the first eight"."""
    if tokens[at].low not in _MAKES or (at and tokens[at - 1].low in _PLAYERS):
        return False
    ahead = [token.low for token in tokens[at + 1 : at + 6] if token.low not in FILLERS and token.low != "only"]
    placed = bool(ahead) and (
        ahead[0] in ORDINALS or ahead[0] in NUMBERS or ahead[0].isdecimal() or ahead[0] in _PIECES
    )
    return placed and bool(set(ahead[:3]) & _PIECES)


def _left(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """What is done to a wall that is not danced whole: "the third wall is left after sixteen counts"."""
    if tokens[at].low not in _LEFT or not at or tokens[at - 1].low not in _IS:
        return None
    kinds = "".join(one.kind for one in found[-2:])
    straight = bool(found) and found[-1].last >= at - 2
    more = tokens[at + 1].low if at + 1 < len(tokens) else ""
    last = at + 1 + (more in ("off", "short"))
    after = tokens[last].low if last < len(tokens) else ""
    told = straight and (kinds.endswith(("w", "wn", "W", "wo", "t", "op")) or kinds[-1:] == "o") and after in _AT
    told = told or (tokens[max(at - 2, 0)].low in _MEANT and after in _CUT_AT)
    return Lexeme("Q", at, last) if told else None
