"""Where the steps of an extra begin in a sentence of the order, with the counts or the hold that open them."""

import re
from itertools import pairwise

from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.statements.body_leads import end_of_named

_PLAYERS = {"music", "song", "singer", "band", "track", "tune", "voice"}
"""Who pauses where no dancer does."""
_SPARE = {"over", "left", "out", "in"}
_ORDERED = {
    "step", "stomp", "stamp", "turn", "cross", "touch", "point", "tap", "sway", "rock", "walk", "kick", "put", "take",
    "do", "drag", "slide", "close", "make", "press", "pivot", "unwind", "bring", "sweep", "run", "lunge",
}  # fmt: skip
"""Words that tell to step, where they do not end the name of a figure."""
_MADE = {"made", "did", "reached"}
_REPLACED = 6
"""Words of a figure's name at most."""
_REPEATS = {"repeat", "repeats", "repeating", "repeated", "redo"}
_REPEATED = re.compile(r"[I]?(?:c?n-n|cn[-&U]n|s[nx]|on?-?[cs]|on|q)")
_BEFORE_A_NUMBER = frozenset({"in", "add", "adds", "become", "becomes", "do", "then", "by", "to"})
_OF_ONE_COUNT = frozenset({
    "sways", "walks", "steps", "stomps", "claps", "touches", "bumps", "kicks", "points", "stamps", "taps", "hitches",
    "scuffs", "clicks", "bounces", "snaps", "runs", "hops", "jumps", "stands",
})  # fmt: skip


def start_of(sentence: Sentence, at: int) -> int | None:
    covered = {index for atom in sentence.atoms if atom.kind != "loose" for index in range(atom.first, atom.last)}
    for index in range(at, len(sentence.letters)):
        if index < at:
            continue
        if sentence.letters[index] in "mH" and index not in covered and not _is_other(sentence, index):
            if end := end_of_named(sentence, index):
                at = end
                continue
            index = _after_what_is_replaced(sentence, index)
            while index - 1 >= at and sentence.letters[index - 1] in "n-&(oh,=" and index - 1 not in covered:
                index -= 1
                if _says_how_many(sentence, index) or _measures_the_wall(sentence, index):
                    index += 1
                    break
            if sentence.letters[index : index + 2] == "o,":
                # "Before you begin the fourth, sway R" names a wall.
                index += 2
            first = re.search(r"\(n(?:[-&,]n)*\)$", sentence.letters[at:index])
            if first and _counts_steps(sentence, at + first.start() + 1, index):
                index = at + first.start()
            return _with_hold(sentence, at, _with_first_count(sentence, at, _with_counts(sentence, at, index)))
    return None


_FIRST_COUNT = re.compile(r"(?P<on>I?)(?P<count>n(?:[,&\-U]n)+|c?n|oc)(?P<close>:?)\?{0,3}$")
"""A count, or several, before steps: "on 1 take a big", "1: put the", "15,16:"."""


def _with_first_count(sentence: Sentence, at: int, index: int) -> int:
    """Return where steps begin with their first count: "on 1 take a big step right", "14 counts, then 15,16: hold"."""
    told = _FIRST_COUNT.search(sentence.letters, at, index)
    while told and len(told["count"]) > 2 and not _is_free(sentence, told.start(), index):
        # "Dance to count 14, 15-16: step left".
        told = _FIRST_COUNT.search(sentence.letters, told.start() + 1, index)
    if told is None or (told.end() == told.end("close") and not told["close"]):
        return index
    numbers = [sentence.number(place) for place in range(*told.span("count")) if sentence.letters[place] in "no"]
    several = len(numbers) > 1
    rises = all(after == before + 1 for before, after in pairwise(numbers)) or "-" in told["count"]
    if several and not (rises and told["close"] and _is_free(sentence, told.start(), index)):
        return index
    if not several and not _is_first(sentence, told, numbers[0], index):
        return index
    return told.start("count") if told["count"].startswith("n") else told.start()


def _is_free(sentence: Sentence, first: int, last: int) -> bool:
    """Whether numbers belong to no phrase of the order."""
    return not any(first < atom.last and atom.first < last and atom.kind != "loose" for atom in sentence.atoms)


def _is_first(sentence: Sentence, told: re.Match[str], number: int, index: int) -> bool:
    """Whether a number is that of the first step: 1, or one that goes on from a count told before, or to the next."""
    opens = told.start() == 0 or sentence.letters[told.start() - 1] in ":;,.(>"
    told_next = re.compile(r"[,;.>&]+I?c?(?P<next>[no])").finditer(sentence.letters, index)
    follows = any(sentence.number(one.start("next")) == number + 1 for one in told_next)
    if number == 1:
        return opens or follows
    before = [sentence.number(place) for place in range(told.start()) if sentence.letters[place] == "n"]
    free = opens and bool(told["close"]) and _is_free(sentence, told.start(), index)
    return free and (follows or told.start() == 0 or number - 1 in before[-2:])


def _with_counts(sentence: Sentence, at: int, index: int) -> int:
    """Return where steps begin with the counts that a colon parts from them: "1 2 3: left forward, touch, hold"."""
    told = re.search(r"(?<![a-zA-Z\-])nn+:$", sentence.letters[at:index])
    first = at + told.start() if told else index
    numbers = [sentence.number(place) for place in range(first, index) if sentence.letters[place] == "n"]
    rises = len(numbers) > 1 and all(after == before + 1 for before, after in pairwise(numbers))
    return (
        first
        if rises and not any(first <= atom.first < index and atom.kind != "loose" for atom in sentence.atoms)
        else index
    )


def _after_what_is_replaced(sentence: Sentence, at: int) -> int:
    """Return where steps begin that follow what they replace at once: "instead of the pivot turn a quarter"."""
    if not at or sentence.letters[at - 1] != "V":
        return at
    lows = [sentence.tokens[lexeme.first].low for lexeme in sentence.lexemes]
    for index in range(at + 1, min(at + _REPLACED, len(lows) - 1)):
        if sentence.letters[index] != "m":
            return at
        if lows[index] in _ORDERED and sentence.letters[index + 1] in "m?hf" and lows[index + 1] not in _ORDERED:
            return index
    return at


def _says_how_many(sentence: Sentence, at: int) -> bool:
    """Whether a number in words stands before steps that it counts: "the tag is four sways, right, left, ..."."""
    token = sentence.tokens[sentence.lexemes[at].first]
    before = sentence.tokens[max(sentence.lexemes[at].first - 1, 0)].low
    many = sentence.letters[at : at + 2] == "nm" and token.kind == "word" and sentence.number(at) > 1
    listed = before in _BEFORE_A_NUMBER and sentence.letters[at + 2 : at + 3] in tuple(",:(")
    return many and (listed or before in ("is", "are", "of", "with")) and sentence.words(at + 1, at + 2).endswith("s")


_STARTING = {
    "starting", "start", "beginning", "begin", "with", "the", "right", "left", "r", "l", "foot", "on", "to", "first",
    "alternating", "each", "way", ",", "side",
}  # fmt: skip


def _only_starts(sentence: Sentence, at: int) -> bool:
    """Whether the rest of a sentence only tells the foot that steps begin with: ": four sways, starting right"."""
    if at >= len(sentence.lexemes):
        return False
    rest = [token.low for token in sentence.tokens[sentence.lexemes[at].first :]]
    return bool(set(rest) & {"starting", "start", "beginning", "begin", "first"}) and set(rest) <= _STARTING


def _measures_the_wall(sentence: Sentence, at: int) -> bool:
    """Whether a number is how much is danced of a wall, a comma before its steps: "wall 8 - 16, stomp right"."""
    before = sentence.letters[:at].rstrip(":-=")
    told = any(atom.kind == "walls" and not atom.at and atom.last == len(before) for atom in sentence.atoms)
    return told and sentence.letters[at : at + 2] == "n," and sentence.number(at) > 1


def told_number(sentence: Sentence, first: int) -> int | None:
    """Return how many steps of one count each are told where a number says so: "add four sways, right, ..."."""
    if sentence.letters[first : first + 2] == "nm" and _only_starts(sentence, first + 2):
        # ": four sways, starting right".
        return sentence.number(first) if sentence.words(first + 1, first + 2).lower() in _OF_ONE_COUNT else None
    if not first or not _says_how_many(sentence, first - 1):
        return None
    return sentence.number(first - 1) if sentence.words(first, first + 1).lower() in _OF_ONE_COUNT else None


def _counts_steps(sentence: Sentence, at: int, index: int) -> bool:
    """Whether a number in brackets is the count of the steps after it: "(1) stomp", or "(7) turn, (8) sway"."""
    after = re.search(r"\(n\)", sentence.letters[index:])
    goes_on = after is not None and sentence.number(index + after.start() + 1) == sentence.number(at) + 1
    return sentence.number(at) == 1 or goes_on


def _is_other(sentence: Sentence, index: int) -> bool:
    """Whether a word is no step here: what is not done, or a wait of the music."""
    before = sentence.letters[:index]
    first = sentence.lexemes[index].first
    if sentence.letters[index] == "H" and first and sentence.tokens[first - 1].low in _PLAYERS:
        return True
    if sentence.letters.startswith("H:") and not index and "H" in sentence.letters[2:]:
        # "The pause: when the vines of wall 3 are done, freeze for 2 counts" names it first.
        return True
    if _left_out_too(sentence, index) or _is_included(sentence, index):
        return True
    if _MADE & {token.low for token in sentence.tokens[max(first - 3, 0) : first]}:
        # "... until count 6 of section 3, so you have made the half pivot".
        return True
    if sentence.letters[index + 1 : index + 2] == ":" and sentence.words(index, index + 1).lower() in _SPARE:
        # "There are six beats over: on 1 step left ..."
        return before[-1:] in ("c", "n")
    if re.search("N[mh]*$|(?:ND|K)[mh?]*$|z[nomh?]*$", before) or sentence.words(index, index + 1).lower() in (
        "wait",
        "waits",
    ):
        return True
    if _REPEATED.match(sentence.letters, index + 1) and sentence.words(index, index + 1).lower() in _REPEATS:
        # "Tag: repeat counts 1-6": the counts are told, not the steps.
        return bool(re.search("[TG]|[AE][a-zA-Z]*[wWt]|^[?,>]*$", before)) and "m" not in before
    # "Dance only the basics and the twinkles", "at the touch you start over" tell how far the dance is danced.
    reached = before.endswith("I") and sentence.words(index - 1, index).lower() == "at"
    return bool(re.search("Du[m?&,]*$", before)) or (reached and sentence.letters[index + 1 : index + 2] != "m")


def _left_out_too(sentence: Sentence, index: int) -> bool:
    """Whether a noun is one of several that are left out: "leave out the stomps and claps"."""
    listed = re.search("K[mh?]+(?:,[mh?]+)*,?&[mh?]*$", sentence.letters[:index])
    return listed is not None and sentence.words(index, index + 1).endswith("s")


def _is_included(sentence: Sentence, index: int) -> bool:
    """Whether a word only says that a step is danced as ever: "all of it, claps included"."""
    first, last = sentence.lexemes[index].first, sentence.lexemes[index].last
    before, after = sentence.tokens[max(first - 2, 0) : first], sentence.tokens[last : last + 3]
    lows = [token.low for token in after]
    return (
        any(token.low in ("including", "also", "even") for token in before)
        or lows[:1] == ["included"]
        or lows == ["and", "all", ","]
    )


def _with_hold(sentence: Sentence, at: int, index: int) -> int:
    """Take in a hold that opens the steps of a tag: "tag: hold 2, stomp R, stomp L"."""
    for before, atom in zip(sentence.atoms, sentence.atoms[1:], strict=False):
        told = before.kind == "act" and before.act in "TGX" and before.first >= at
        if told and atom.act == "H" and set(sentence.letters[atom.last : index]) <= set(",>&-"):
            return atom.first if atom.last <= index else index
    return index
