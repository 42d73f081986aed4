"""The words of steps told in a sentence, without what stands around them: joining words, brackets, their length."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.order.statements.body_leads import without_lead
from trainer.sheet.prose.words import Token

_OPENERS = {"(": ")", "[": "]", "{": "}", "<": ">"}
_EDGES = {",", ":", "-", "*", "=", "|", "~", "_", "."}
_EDGE_WORDS = {
    "so", "then", "and", "add", "do", "this", "these", "with", "plus", "just", "is", "to", "a", "the", "when",
    "whenever", "once", "after", "before", "on", "at",
}  # fmt: skip


def steps_of(tokens: Sequence[Token]) -> tuple[tuple[Token, ...], int | None]:
    """Return words of steps without joining words and marks around, and the length that they state in brackets."""
    kept = list(tokens)
    if len(kept) > 2 and kept[0].low in ("step", "steps") and kept[1].text == ":":
        kept = kept[2:]
    kept, counts = without_lead(kept)
    kept, told = _after_its_length(kept)
    counts = told or counts
    kept, told = _up_to_its_length(kept)
    counts = told or counts
    kept, told = without_length_in_brackets(kept)
    counts = told or counts
    kept = without_pose(_after_that_is(_without_its_section(kept)))
    done = next((at for at, token in enumerate(kept[:6]) if token.low == "do"), 0)
    if done and all(token.kind == "word" for token in kept[:done]):
        # "For the triple half do 7 close, 8 hold" names first what is not danced.
        kept = kept[done + 1 :]
    changed = True
    while changed and kept:
        changed = False
        if _OPENERS.get(kept[0].text) == kept[-1].text and len(kept) > 2 and kept[-1].text not in _texts(kept[1:-1]):
            kept = kept[1:-1]
            changed = True
        elif kept[0].text in _EDGES or kept[0].low in _EDGE_WORDS or _closes_nothing(kept, 0):
            kept.pop(0)
            changed = True
        elif kept[-1].text in _EDGES | {"&", "+", "/"} or kept[-1].low in _EDGE_WORDS or _closes_nothing(kept, -1):
            kept.pop()
            changed = True
        elif (cut := _length_at_end(kept)) is not None:
            kept, told = cut
            counts, changed = counts or told, True
    kept = _after_its_name(kept)
    return tuple(kept), counts or _sum_of_lengths(kept)


_COUNTS = {"counts", "count", "cts", "ct", "beats", "beat"}
_SAID_OF_LENGTH = {
    "that",
    "is",
    "that's",
    "thats",
    "so",
    "=",
    "in",
    "all",
    "total",
    "altogether",
    "only",
    "just",
    ",",
    "for",
}


def _up_to_its_length(kept: list[Token]) -> tuple[list[Token], int | None]:
    """Return steps up to where it is said how long they were, and that: "step L, hold that's 6 counts, then ..."."""
    for at in range(2, len(kept) - 2):
        led = (
            1 if kept[at].low in ("that's", "thats") else 2 if [kept[at].low, kept[at + 1].low] == ["that", "is"] else 0
        )
        value, last, ordinal = number_at(kept, at + led) if led else (0, at, True)
        if led and not ordinal and last > at + led and last < len(kept) and kept[last].low in _COUNTS:
            return kept[:at], value
    return kept, None


def _after_its_length(kept: list[Token]) -> tuple[list[Token], int | None]:
    """Return steps that follow what names them with their length: "walk in place for 8: R, L, R, L, ..."."""
    colon = next((at for at, token in enumerate(kept) if token.text == ":"), 0)
    at = colon - 1 - (kept[colon - 1].low in _COUNTS)
    led = colon > 3 and kept[at - 1].low == "for" and kept[at].kind == "number"
    others = any(token.kind == "number" for token in [*kept[: max(at, 0)], *kept[colon:]])
    if not led or others or colon + 1 == len(kept):
        return kept, None
    return kept[colon + 1 :], int(kept[at].text)


def without_length_in_brackets(kept: list[Token]) -> tuple[list[Token], int | None]:
    """Return steps without the one bracket that says how long they are: "(4 counts)", "(that is four beats in all)".

    Where several brackets say so, each is of its own step.
    """
    found = []
    for at, opened in enumerate(kept):
        closing = _OPENERS.get(opened.text)
        # The sentence may have been cut within its bracket: "(4 cts; stomps take weight)".
        cut = len(kept) - 1 if closing and closing not in _texts(kept) else 0
        last = next((end for end in range(at + 1, len(kept)) if kept[end].text == closing), cut)
        inside = kept[at + 1 : last + bool(cut)]
        number = next((place for place in range(len(inside)) if number_at(inside, place)[1] > place), None)
        if not last or number is None:
            continue
        value, end, _ = number_at(inside, number)
        around = [*inside[:number], *inside[end + 1 :]]
        if not (inside[end : end + 1] and inside[end].low in _COUNTS):
            continue
        if all(one.low in _SAID_OF_LENGTH for one in around):
            found.append((at, last + 1, value))
        elif inside[end + 1 : end + 2] and inside[end + 1].text in _PARTS and not number and _is_of_weight(around[1:]):
            # "(4 counts, stomps take weight)": the bracket keeps what is said of the weight.
            found.append((at + 1, at + 2 + end + 1, value))
    if len(found) != 1:
        return kept, None
    first, last, value = found[0]
    return kept[:first] + kept[last:], value


_PARTS = (",", ";", ":", "-")


def _is_of_weight(said: Sequence[Token]) -> bool:
    """Whether words behind a length tell of the weight, and no more steps in a row."""
    return bool({token.low for token in said} & {"weight", "wt"}) and not any(token.text in _PARTS for token in said)


_POSES = re.compile(
    r"(?:hold|keep) (?:that|your|the|this|it)(?: pose| there)?|stay (?:there|put|like that|where you are)|"
    r"stay(?=$| [,.])|"
    r"make (?:a|one) (?:\w+ ){0,3}(?:stop|pose|pause|finish|picture)|"
    r"freeze (?:there|like that)|strike (?:a|any|your) (?:\w+ )?pose"
)
"""What one does on no count of its own when the dance is over."""
_A_POSE = re.compile(r"(?:(?:a|big|final|nice|your|any|one|last) )*pose$")
_NEXT_BEAT = re.compile(r"on the (?:very )?(?:next|following) (?:beat|count)")


def without_pose(tokens: list[Token]) -> list[Token]:
    """Return steps without what is done on no count: "stamp right forward on the next beat and stay there, chin up"."""
    for at in range(len(tokens)):
        words = " ".join(token.low for token in tokens[at : at + 5])
        if at and (said := _NEXT_BEAT.match(words)):
            tokens = tokens[:at] + tokens[at + len(said[0].split()) :]
            break
    for at in range(2, len(tokens)):
        words = " ".join(token.low for token in tokens[at : at + 5])
        joined = tokens[at - 1].text in (",", "&") or tokens[at - 1].low in ("and", "then")
        posed = _POSES.match(words) or (tokens[at - 1].text == "," and _A_POSE.match(words))
        if joined and posed and not any(number_at(tokens, one)[1] > one for one in range(at, len(tokens))):
            return tokens[: at - 1]
    return tokens


_THAT_IS = (
    ("i", ".", "e", "."), ("i", ".", "e"), ("that", "is", ":"), ("that", "is", ","), ("namely",),
    ("in", "other", "words"),
)  # fmt: skip
"""What leads from the name of steps to the steps."""


def _after_that_is(kept: list[Token]) -> list[Token]:
    """Return steps without the name that they explain: "balance L, balance R, i.e. step L to side, ..."."""
    lows = [token.low for token in kept]
    for words in _THAT_IS:
        for at in range(1, len(lows) - len(words)):
            named = all(token.kind != "number" for token in kept[:at])
            if named and tuple(lows[at : at + len(words)]) == words:
                return kept[at + len(words) :]
    return kept


def _after_its_name(kept: list[Token]) -> list[Token]:
    """Return steps without the name before the bracket that spells them out: "rocking chair (rock R forward, ...)"."""
    opened = next((at for at, token in enumerate(kept) if token.text == "("), 0)
    inside = kept[opened + 1 : -1]
    named = 0 < opened <= _NAME and all(token.kind == "word" and token.low not in _FEET for token in kept[:opened])
    listed = sum(token.text == "," for token in inside) > 1 and ")" not in {token.text for token in inside}
    return inside if named and listed and kept[-1].text == ")" else kept


_NAME = 4
"""Words of a figure's name at most."""
_FEET = {"right", "left", "r", "l", "rf", "lf"}


def _without_its_section(kept: list[Token]) -> list[Token]:
    """Return steps without the section of their count: "step left forward on count 4 of section 2"."""
    lows = [token.low for token in kept[-4:]]
    if len(kept) > 5 and kept[-4].kind == "number" and lows[1] in ("of", "in") and lows[2] in _SECTIONS:
        return kept[:-3] if kept[-1].kind == "number" else kept
    ordinal = (
        len(kept) > 6 and lows[0] in ("of", "in") and lows[3] in (*_SECTIONS, "eight") and kept[-5].kind == "number"
    )
    return kept[:-4] if ordinal else kept


_SECTIONS = ("section", "set", "block", "sec")


def _lengths(kept: Sequence[Token]) -> list[int]:
    """Return how long the steps last of which it is told: "sway left for three beats, sway right for three beats"."""
    found = []
    for at in range(len(kept) - 2):
        value, last, _ = number_at(kept, at + 1)
        if kept[at].low in ("for", "over") and last == at + 2 and kept[last : last + 1]:
            found += [value] if kept[last].low in ("counts", "beats") else []
    return found


def _sum_of_lengths(kept: Sequence[Token]) -> int | None:
    """Return the length of steps of which each is said to last so long."""
    lengths = _lengths(kept)
    return sum(lengths) if len(lengths) > 1 else None


def _length_at_end(kept: list[Token]) -> tuple[list[Token], int] | None:
    """Part steps from the length told after them: "a rumba box as an extra 8 counts"."""
    for words in (("in", "all"), ("in", "total"), ("altogether",), ("all", "told")):
        if tuple(token.low for token in kept[-len(words) :]) == words and len(kept) > 4:
            return _length_at_end(kept[: -len(words)])
    if len(kept) < 4 or kept[-1].low not in ("counts", "beats") or number_at(kept, len(kept) - 2)[1] != len(kept) - 1:
        return None
    if len(_lengths(kept)) > 1:
        return None
    at = len(kept) - 2
    while at and kept[at - 1].low in ("an", "a", "extra", "more", "further", "another", "as", "for", "over", "once"):
        at -= 1
    if _holds_last(kept[:at]):
        return None
    apart = at == len(kept) - 2 and kept[at - 1].text in (",", ";", "-", "=")
    return (kept[:at], number_at(kept, len(kept) - 2)[0]) if apart or 0 < at < len(kept) - 2 else None


def _holds_last(steps: Sequence[Token]) -> bool:
    """Whether steps end with a hold, whose own length then follows: "step R forward and hold for three counts"."""
    if steps and steps[-1].low in ("it", "that", "there", "still"):
        steps = steps[:-1]
    return len(steps) > 1 and steps[-1].low in ("hold", "freeze", "pause", "wait")


def _texts(tokens: Sequence[Token]) -> set[str]:
    return {token.text for token in tokens}


def _closes_nothing(kept: Sequence[Token], at: int) -> bool:
    """Whether a bracket at an end has lost its partner."""
    text = kept[at].text
    texts = [token.text for token in kept]
    if text in _OPENERS:
        return texts.count(_OPENERS[text]) < texts.count(text)
    partner = next((opener for opener, closer in _OPENERS.items() if closer == text), None)
    return partner is not None and texts.count(partner) < texts.count(text)
