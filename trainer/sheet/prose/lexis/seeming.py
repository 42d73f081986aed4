"""Words of a sentence about the order that are not what they seem: "Hi all", a step as a name, R for restart."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.referring import is_landmark
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_GREETINGS = {"hi", "hello", "hey", "dear", "evening", "morning", "afternoon", "thanks", "welcome", "howdy"}
_CALLED = {"call", "calls", "called", "named", "nicknamed", "christened"}
_EXTRAS = {"restart", "restarts", "tag", "tags", "bridge", "bridges", "changes"}
_CRIES = {"from", "restart", "again", "start", "begin", "top"}
_CLOSES_OF_SECTIONS = {"finish", "ending", "end", "close"}
_ANOTHER = {"different", "another", "changed", "altered", "new", "other"}
_ENDING_SO = {"with", "without", "differently", "so", "like"}


def seeming(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> str:
    """Return the kind of a word that is not what it seems; an empty text where it is."""
    token = tokens[at]
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    if _greets(tokens, at) or _is_called(tokens, at) or is_landmark(tokens, at):
        return "?"
    if token.text == "R" and _labels_a_restart(tokens, at):
        return "R"
    if token.low == "end" and after == ":" and [one.low for one in tokens[:at]] in ([], ["the"]):
        # "The end: wall 8 stops after 16 counts."
        return "X"
    beyond = tokens[at + 2].low if at + 2 < len(tokens) else ""
    if token.low == "no" and after in ("more", "further", "other") and beyond in _EXTRAS:
        return "N"
    if (
        token.low in ("more", "further", "other")
        and after in _EXTRAS
        and at
        and tokens[at - 1].low in ("no", "not", "any")
    ):
        # "Wall 6 onwards: no more restarts."
        return "?"
    if token.low == "odd" and after in ("wall", "one") and (not at or tokens[at - 1].low not in ("every", "each")):
        # "You asked about the odd wall" numbers none.
        return "?"
    if (
        token.low == "together"
        and at
        and tokens[at - 1].low not in STEP_WORDS
        and any(one.kind == "R" for one in found)
    ):
        # "Everybody restarts wall 3 together."
        return "?"
    if token.low in ("closes", "ends", "completes") and at and tokens[at - 1].low in ("that", "which"):
        # "As far as the touch that closes section 2".
        return "E" if found and found[-1].kind in "mH" else ""
    ends = token.low in ("ends", "finishes") and after in _ENDING_SO
    if token.low in _CLOSES_OF_SECTIONS and at and tokens[at - 1].low in _ANOTHER:
        # "On wall 5 the second section has a different finish": the dance goes on.
        ends = any(one.kind in "sq" for one in found) and not any(one.kind in "TGX" for one in found)
        return "?" if ends else ""
    return "?" if ends and _after_a_section(found) else ""


def _greets(tokens: Sequence[Token], at: int) -> bool:
    """Whether "all" is who is spoken to: "Hi all"."""
    return at > 0 and tokens[at].low == "all" and tokens[at - 1].low in _GREETINGS


def _is_called(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word of steps is only a name: "the tag, which we call the Pause"."""
    before = [token.low for token in tokens[max(at - 2, 0) : at] if token.low not in ("the", "it", "a", "our", '"')]
    if tokens[at].low in _CRIES:
        # The caller calls "From the top!".
        return False
    return bool(before) and before[-1] in _CALLED and tokens[at].text[0].isupper() and tokens[at].kind == "word"


def _labels_a_restart(tokens: Sequence[Token], at: int) -> bool:
    """Whether R numbers a restart at the start of its line: "R1: wall 2, after 8 counts"."""
    opens = all(token.kind == "mark" for token in tokens[:at])
    told = [token.text for token in tokens[at + 1 : at + 3]]
    numbered = len(told) == 2 and told[0].isdecimal() and len(told[0]) == 1 and told[1] in ":=-.)"
    walls = any(token.low in ("wall", "walls", "w") for token in tokens[at + 3 :])
    return opens and numbered and walls and tokens[at + 1].glued


def _after_a_section(found: Sequence[Lexeme]) -> bool:
    """Whether a section was told last, and no wall."""
    kinds = "".join(one.kind for one in found[-2:])
    return kinds.endswith(("on", "sn", "q", "os", "Ls", "sx"))
