"""Where the words about a count end that stands after them: its sentence, what it states, a remark beside it."""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.facing.faced import statement_end
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.page.parting import Words, paragraph_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_GLUE = {",", ".", ";", ":", "-", BREAK, "&", "/", "(", ")", "[", "]", ">", "=", "*"}
_ANNOUNCE = {"count", "counts", "on", "beat", "beats", "for", "ct", "cts", "with", "and", "then", "through"}
_WEIGHT = {"weight", "wt"}
_STATES = {
    "with", "weight", "wt", "taking", "take", "keep", "keeping", "putting", "put", "no", "the", "your", "all",
    "without", "full", "still",
}  # fmt: skip
_FEET = {"left", "right", "foot", "lf", "rf", "l", "r"}
_BODY = _WEIGHT | {
    "heel",
    "heels",
    "toe",
    "toes",
    "knee",
    "knees",
    "hip",
    "hips",
    "step",
    "full",
    "over",
    "back",
    "home",
}
_LEADS = {"starting", "beginning", "leading", "start", "begin", "lead"}
_ANSWERING = {
    "to", "on", "with", "facing", "at", "towards", "left", "right", "turning", "weight", "and", "in", "over", "back",
    "again", "so", "from",
}  # fmt: skip
_ANSWER = 4
"""Tokens of an answer, its full stop included."""
_LONGEST_STATED = 9
"""Tokens of what is stated about a count."""


def said_in(words: Sequence[Token]) -> tuple[Token, ...]:
    """The words without punctuation and facings."""
    return tuple(token for token in words if token.text not in _GLUE and token.kind != "facing")


def sentence_end(words: Words, after: Words = ()) -> int:
    """Where the sentence of the mark before ends: after its last full stop, or after facings that follow at once.

    `after` are the words after the next mark.
    """
    at = beside = _beside(words)
    while at < len(words) and (words[at].kind == "facing" or words[at].text in (")", "]", ".", ",", ";", BREAK)):
        at += 1
    if (gap := paragraph_in(words)) > at and not _answers(words[gap:]):
        return gap
    stated = _stated(words) or _explained(words)
    at = max(at, stated)
    until = len(words)
    while until > at and (words[until - 1].low in _ANNOUNCE or words[until - 1].text in ("(", ",")):
        until -= 1
    faces = until > at and any(token.kind == "facing" for token in words)
    if faces and words[until - 1].text == "." and _opens_sentence(words[until:], after):
        # "On 6, so that you look at the back. On 7 shuffle": what ends before the next count belongs to the last.
        return len(words)
    for index in range(until - 1, at - 1, -1):
        ends = words[index].text == "." and not (
            index and len(words[index - 1].text) == 1 and words[index].glued is False
        )
        if ends and index + 1 < until and statement_end(words[index + 1 : until]) < until - index - 1:
            # "Step left home, touch right. (You are at 3 o'clock) 7 8": a statement by itself fills no count.
            return index + 1
    if at and not said_in(words[at:]):
        return len(words)
    return at if beside or stated or any(token.kind == "facing" for token in words[:at]) else 0


def _opens_sentence(announced: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a sentence begins with a mark: "On" before it, or words that go on after it."""
    return (bool(announced) and announced[0].text[0].isupper()) or (
        bool(after) and after[0].kind == "word" and after[0].text[0].islower()
    )


def _beside(words: Sequence[Token]) -> int:
    """Where the remark ends that stands beside a count, in brackets or a cell of its own, up to the end of its line."""
    if words and words[0].text == "(":
        # "12 / L toe heel 34 (struts, going fwd) / rocking chair": a stroke parts it from what comes next.
        closed = next((at for at, token in enumerate(words) if token.text == ")"), 0)
        if closed and closed + 1 < len(words) and words[closed + 1].text in ("/", ";", BREAK):
            return closed + 1
    end = next((at for at in range(1, len(words)) if words[at].line > words[0].line), 0)
    opens = next((token.text for token in words[:end] if token.text != BREAK), "")
    return end if opens == "(" and words[end - 1].text == ")" else 0


def _stated(words: Sequence[Token]) -> int:
    """Where what is stated of the count just danced ends: "with weight,", "so you face the back,"; 0 where none is."""
    at = 0
    while (length := statement_end(words[at:]) or _weighed(words[at:]) or _turned(words[at:])) > 0:
        at += length
    return at


def _explained(words: Sequence[Token]) -> int:
    """Return the length of a sentence's rest that explains what was danced: ", so step, lock, step. Then ..."."""
    start = next((at for at, token in enumerate(words) if token.text not in (",", ";", "-")), len(words))
    if not start or [token.low for token in words[start : start + 1]] not in (["so"], ["meaning"], ["i.e"], ["ie"]):
        return 0
    end = next((at for at in range(start, len(words)) if words[at].text == "."), len(words))
    return end + 1 if said_in(words[end + 1 :]) else 0


def _turned(words: Sequence[Token]) -> int:
    """Return the length of a clause at the start of words that only tells a turn: "with a quarter turn left,"."""
    if not words or words[0].low not in _TURNING:
        return 0
    end = next((at for at, token in enumerate(words) if token.text in (",", ".", ";")), len(words))
    said = [token for token in words[:end] if token.kind != "facing"]
    amounts = any(token.kind == "fraction" or token.low in _AMOUNTS for token in said)
    plain = all(token.kind == "fraction" or token.low in _TURNING | _AMOUNTS | _OF_TURNS for token in said)
    return end + 1 if amounts and plain and end < len(words) else 0


_TURNING = {"with", "making", "turning", "doing"}
_AMOUNTS = {"quarter", "half", "eighth", "eighths", "quarters", "three", "full", "turn"}
_OF_TURNS = {
    "a", "an", "the", "one", "of", "to", "left", "right", "your", "on", "more", "another", "in", "it", "over",
    "shoulder", "round", "l", "r", "-",
}  # fmt: skip


def _weighed(words: Sequence[Token]) -> int:
    """Return the length of a clause at the start of words that only states the weight or the foot that leads."""
    start = next((at for at, token in enumerate(words) if token.text not in (",", ";", ")", BREAK)), len(words))
    marks = (",", ".", ";")
    end = next((at for at in range(start, len(words)) if words[at].text in marks or _opens_line(words, at)), len(words))
    said = words[start:end]
    weighs = any(token.low in _WEIGHT for token in said[:4]) and said[0].low in _STATES
    # "Four walks on one to four, starting with the right."
    leads = bool(said) and said[0].low in _LEADS and said[-1].low in _FEET
    joined = {after.low for token, after in pairwise(said) if token.low in ("and", "then")}
    # "Weight over to the left and bump hips left" is a step of its own.
    weighs = weighs and not joined & (STEP_WORDS - _FEET - _BODY)
    if not (weighs or leads) or end == len(words) or len(said) > _LONGEST_STATED:
        return 0
    return end + (words[end].text in marks)


def _opens_line(words: Sequence[Token], at: int) -> bool:
    """Whether a line begins with a token in a capital letter: what is stated before its end is not of it."""
    return at > 0 and words[at].line > words[at - 1].line and words[at].text[0].isupper()


def _answers(words: Sequence[Token]) -> bool:
    """Whether a paragraph opens with a few words that only answer the one above: "To the right."; a title does not."""
    return any(token.text == "." for token in words[:_ANSWER]) and words[0].low in _ANSWERING


def unannounced(text: Words) -> Words:
    """Return words without those at their end that announce the mark after them."""
    while (
        text
        and not _lasts(text)
        and (text[-1].low in _ANNOUNCE or (text[-1].text in (",", "(") and len(text) > 1 and text[-2].low in _ANNOUNCE))
    ):
        text = text[:-1]
    return text


def _lasts(words: Sequence[Token]) -> bool:
    """Whether words end with how long something lasts: "for two counts"."""
    return len(words) > 1 and (words[-2].kind == "number" or words[-2].low in NUMBERS)
