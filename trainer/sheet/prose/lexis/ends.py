"""Words with which a dance, a wall or some steps end, and which of these they mean."""

from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme
from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.words import Token

_CLOSINGS = tuple(
    tuple(words.split())
    for words in (
        "that's it", "that's that", "that's all", "that's the end", "that's your lot", "that is it", "that is all",
        "that is the end", "that is that", "you're done", "you are done", "we're done", "done", "finished", "end",
        "the end", "you have finished", "you've finished", "it's over", "it is over", "all done", "stay there",
        "stay put", "stay where you are", "stay like that", "hold it there", "don't move", "hold that pose",
        "hold the pose", "hold your pose", "hold this pose", "hold it", "the dance is over", "the dance is finished",
        "the dance is done", "the dance has ended", "the dance is ended", "the dance is at an end",
    )
)  # fmt: skip
"""Words with which a dance is over, where they close a sentence."""
_CLOSINGS_BY_FIRST = {first: [one for one in _CLOSINGS if one[0] == first] for first, *_ in _CLOSINGS}
_MEANWHILE = {"while", "whilst", "as", "till", "until"}
"""What leads to how the music ends, beside a pose."""
_POSED = {"weight", "left", "right", "l", "r", "lf", "rf", "facing", "both"}
_TO_CLOSE = ("close", "conclude", "wind up", "wrap up", "round off", "round it off", "bow out", "close the dance")
_CLOSING = {"close", "closes", "closing"}
_COUNTS = {"counts", "count", "beats", "beat", "steps"}
_ROUNDS = {"wall", "walls", "round", "rounds", "time", "times", "both", "each", "all", "rotation", "go"}
_PART_LETTERS = frozenset("ABCDEFGH")
_LOOKED_AT = {"back", "front", "side", "home", "left", "right"}


def closes_all(tokens: Sequence[Token], at: int) -> int:
    """Return the index after words that close a dance at the end of a sentence: "..., and that's it", "done"."""
    before = tokens[at - 1] if at else None
    if before is None or not (before.kind in ("mark", "amp", "facing", "clock") or before.low == "and"):
        return at
    for words in _CLOSINGS_BY_FIRST.get(tokens[at].low, ()):
        last = at + len(words)
        if tuple(token.low for token in tokens[at:last]) == words:
            fades = tokens[last - 1].low == "pose" and last < len(tokens) and tokens[last].low in _MEANWHILE
            ended = fades or last == len(tokens) or (last + 1 == len(tokens) and tokens[last].kind == "mark")
            last = len(tokens) if fades else last
            return last if ended else at
    return at


def _so_many_counts(after: Sequence[Token]) -> bool:
    """Whether "with four counts more" follows: then no foot is closed."""
    lows = [token.low for token in after]
    number = next((at for at, token in enumerate(after) if number_at(after, at)[1] > at), 0)
    return lows[:1] == ["with"] and 0 < number < 4 and bool(_COUNTS & set(lows[number : number + 3]))


def to_close(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """Words that lead to an ending where they open a sentence: "To close: step right"."""
    opens = at == 0 or tokens[at - 1].text in (".", ";", ":", ",") or tokens[at - 1].low in ("and", "then", "we", "you")
    if opens and tokens[at].low in _CLOSING and _so_many_counts(tokens[at + 1 : at + 6]):
        return Lexeme("X", at, at + 1)
    if not opens or tokens[at].low != "to":
        return None
    for words in sorted(_TO_CLOSE, key=len, reverse=True):
        last = at + 1 + len(words.split())
        if " ".join(token.low for token in tokens[at + 1 : last]) == words:
            parted = last < len(tokens) and tokens[last].text in (":", ",", "-")
            return Lexeme("X", at, last) if parted else None
    return None


def finishes_so(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word tells how steps or a wall end, no ending: "weight finishing on L", "you finish on 9 o'clock"."""
    before = tokens[at - 1].low if at else ""
    after = [token for token in tokens[at + 1 : at + 5] if token.low not in ("with", "on", "at", "the", "your")]
    if not after or at + 1 == len(tokens) or tokens[at + 1].kind == "mark":
        return False
    if _wall_finishes(tokens, at):
        return True
    posed = after[0].low in _POSED or after[0].kind in ("clock", "facing")
    return posed and (
        before in ("weight", "you", "you'll", "which", "will") or tokens[at].low in ("finishing", "ending")
    )


def _wall_finishes(tokens: Sequence[Token], at: int) -> bool:
    """Whether a wall finishes at a side of the room: "rounds 2 and 5 both finish at the back"."""
    named = [token.low for token in tokens[max(at - 4, 0) : at] if token.kind == "word"]
    after = [token for token in tokens[at + 1 : at + 5] if token.low not in ("the", "you", "looking")]
    part = at > 0 and tokens[at - 1].text in _PART_LETTERS
    if (
        not (set(named) & _ROUNDS or part)
        or {"you", "we"} & set(named)
        or any(token.low == "with" for token in after)  # "Wall 3 ends at 9:00 with a tag" has it at its end.
        or not after
        or after[0].low not in ("at", "on", "facing")
    ):
        return False
    return any(token.kind in ("clock", "facing") or token.low in _LOOKED_AT for token in after[1:2])


_GOING_ON = {
    "and", "you", "add", "do", "they", "we", "i", "comes", "there", "then", "everybody", "everyone", "all", "you're",
    "you'll", "we're", "we'll", "there's", "it's", "that's", "put", "insert", "dance", "just", "so", "but",
}  # fmt: skip
_STOPPED_AT = {"after", "at", "with", "by", "when", "as"}
_OVER = {"over", "done", "through", "complete", "completed", "finished"}


def wall_over(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> str:
    """Return E where a wall is over ("when wall 3 is over they stomp"), Q where it is so at a place, else nothing."""
    if tokens[at].low not in _OVER:
        return ""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    kinds = [one.kind for one in found[-2:]]
    numbered = kinds == ["w", "n"] or kinds[-1:] == ["w"]
    passed = (kinds[-1:] == ["t"] and tokens[at].low != "through") or kinds == ["t", "U"]
    if not (numbered or passed):
        return ""
    if after is not None and after.low in _STOPPED_AT:
        # "The third time through is over after 16 counts."
        return "Q"
    goes_on = after is None or after.kind == "mark" or after.low in _GOING_ON
    return "E" if goes_on else ""
