"""Clauses that only state a facing: they belong to the count before them, wherever the sheet's words are parted.

"so you are looking at 6 o'clock, and shuffle forward (7&8)", "(this is 12 o'clock) and scuff": what such a clause says
holds before the step that follows it. It has words of seeing, being and arriving, and none that tells a step.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from trainer.sheet.prose.steps.lex import is_task
from trainer.sheet.prose.steps.lexicon import lexemes
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Item, Token

_REACH = 16
"""Tokens of a clause before its facing."""
_TAIL = 8
"""Tokens of a clause after its facing."""
_STEPS = {"move", "foot", "side", "run", "figure", "amount", "part", "ref", "to", "turn", "turning", "prep"}
"""What tells a step, where it stands beside a facing."""
_STOPS = {",", ".", ";", ":", "!", "?", ")", "]", "-", BREAK}
_OPENS = {"(", "[", "-", ",", ";", ":", ".", BREAK, ">", "=", '"'}
_JOINS = {"and", "then", "&", "with", "as", "while", "before", "n"}
"""Words that begin the next clause without punctuation."""
_YOU = {"you", "ya", "u", "us", "we", "everyone", "everybody", "ur", "you're", "this", "that", "which", "it"}
"""Who or what comes to a facing: then "back" and "round" tell of the way there, and no step."""
_SEEING = {"face", "faces", "look", "looks", "diagonal", "diag", "corner"}
"""Words of seeing, and of what is seen, that are also parts of the body, poses or ways."""
_RETURNING = {"back", "home", "returning", "return", "bringing", "brings", "round", "arriving", "ending", "now"}
_ON_THE_WAY = {
    "to", "at", "on", "facing", "the", "again", "and", "so", "then", "we", "you", "u", "ur", "your", "us", "are",
    "is", "re", "youre", "you're", "we're", "were", "which", "that", "this", "it", "in", "all", "way", "now",
}  # fmt: skip
"""Words beside one of a way back, up to the facing that it leads to."""
_TELLING = {
    "you", "you're", "youre", "you'll", "you've", "ur", "u", "we", "we're", "us", "this", "that", "that's", "thats",
    "it", "it's", "its", "now", "face", "faces", "facing", "see", "sees", "seeing", "look", "looks", "looking", "end",
    "ends", "ending", "finish", "finishes", "finishing", "so", "which", "still", "here", "at", "fc", "back", "again",
    "is", "are", "should", "to", "on", "everyone", "arrive", "arriving", "arrives", "come", "comes", "land", "begin",
}  # fmt: skip
"""One of these words at least stands in a clause that states a facing."""
_OFTEN = {"times", "walls", "goes", "rounds", "repetitions", "repeats", "fourth", "repetition", "twice"}
"""What takes the dancer to a facing in several walls: "four times through brings you home"."""


def statement_end(words: Sequence[Token]) -> int:
    """Return how many tokens at the start of some words are clauses that only state a facing; 0 where none is.

    The punctuation that ends the last of them belongs to it.
    """
    end = 0
    while (length := _one(words[end:])) > 0:
        end += length
    return end


def states_facing(words: Sequence[Token]) -> bool:
    """Return whether words begin with a clause that states a facing, and tell no number after it."""
    end = statement_end(words)
    return end > 0 and not any(token.kind in ("number", "facing") for token in words[end:])


def leads_back(words: Sequence[Token]) -> bool:
    """Return whether words begin with a way back to a facing, and nothing parts them: "back to 12 o'clock"."""
    at = next((at for at, token in enumerate(words[:_REACH]) if token.kind == "facing"), 0)
    return at > 0 and all(token.kind == "word" for token in words[:at]) and _returns([one.low for one in words[:at]])


def _one(words: Sequence[Token]) -> int:
    """Return the length of one clause that states a facing at the start of words."""
    first = 0
    while first < len(words) and words[first].text in _OPENS and words[first].kind != "facing":
        first += 1
    at = next((at for at in range(first, min(len(words), first + _REACH)) if words[at].kind == "facing"), -1)
    if at < 0 or not _leads(words[first:at]):
        return 0
    end = _behind_aside(words, at + 1)
    at = end - 1
    while end < len(words) and words[end].text not in _STOPS and words[end].low not in _JOINS:
        if words[end].line > words[end - 1].line and words[end].text[0].isupper() and words[end].kind == "word":
            # "... stepping R back (a) to face 3:00" over "Turn 1/4 left": the line ends what is stated.
            return end
        if words[end].kind == "facing":
            return end if not _leads(words[at + 1 : end]) else end + 1
        end += 1
    if end - at - 1 > _TAIL or _steps(words[at + 1 : end]) or any(one.low in _OFTEN for one in words[first:end]):
        return 0
    while end < len(words) and words[end].text in _STOPS and words[end].text != "-":
        end += 1
    return end


def _behind_aside(words: Sequence[Token], at: int) -> int:
    """Return the index behind an aside in brackets that opens there: "at 9 o'clock (that's the kitchen hatch!!)"."""
    closes = next((to for to in range(at, len(words)) if words[to].text == ")"), None)
    if at >= len(words) or words[at].text != "(" or closes is None:
        return at
    inside = words[at + 1 : closes]
    told = any(one.kind not in ("word", "mark") for one in inside) or _steps(inside)
    return at if told or len(inside) > _REACH else closes + 1


def _leads(lead: Sequence[Token]) -> bool:
    """Whether the words before a facing only lead to it: "so that you are looking at the"."""
    if not lead:
        return True
    plain = [token for token in lead if token.kind == "word"]
    stops = [at for at, token in enumerate(lead) if token.text in _STOPS]
    if any(token.kind in ("number", "fraction", "facing") for token in lead) or len(stops) > 1:
        return False
    if plain and _returns([token.low for token in plain]):
        return True
    return any(token.low in _TELLING for token in plain) and not _steps(lead)


_ONCE = {"again", "once more"}
"""Beside a facing they only say that it was faced before; "same again, to finish at 6 o'clock" is danced."""


def _returns(words: Sequence[str]) -> bool:
    """Whether words are all of a way back to a facing: "and back to", "returning to", "home again at"."""
    return bool(set(words) & _RETURNING) and set(words) <= _RETURNING | _ON_THE_WAY


def _steps(words: Sequence[Token]) -> bool:
    """Whether some words tell a step or a turn of the dancer's own."""
    arrives = any(token.low in _YOU for token in words)
    return any(
        lex.kind in _STEPS or (lex.kind == "way" and not arrives) or (is_task(lex, "again") and lex.low not in _ONCE)
        for lex in lexemes(tuple(words))
        if lex.low not in _SEEING
    )


def with_statements(items: Sequence[Item]) -> list[Item]:
    """Return a block's items with what each begins by stating of the facing at the end of the item before."""
    done: list[Item] = []
    for item in items:
        item = replace(item, text=_with_ends(item.text))
        cut = _opening(item.text) if done and item.slots else 0
        if cut and cut < len(item.text):
            before = done[-1]
            done[-1] = replace(before, text=(*before.text, *_parted(before.text, item.text[:cut])))
            item = replace(item, text=item.text[cut:])
        done.append(item)
    return [replace(item, text=_without_ways(item.text)) for item in done]


def _without_ways(text: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return an item's words without those that only lead back to a facing: ", back to 12:00" tells no step back."""
    kept: list[Token] = []
    for token in text:
        if token.kind == "facing":
            start = next((one + 1 for one in range(len(kept) - 1, -1, -1) if kept[one].text in _STOPS), 0)
            lead = [word.low for word in kept[start:]]
            if start and lead and _returns(lead):
                del kept[start:]
        kept.append(token)
    return tuple(kept)


_TURNS = {"turn", "turns", "turning", "pivot", "pivots", "pivoting", "unwind", "quarter", "half"}
_ENDS = {"back": Fraction(1, 2), "front": Fraction(0)}


def _with_ends(text: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return an item's words with the wall that a turn ends at as a facing: "pivot a quarter left, to the back."."""
    for at in range(3, len(text)):
        ends = at + 1 == len(text) or text[at + 1].text in _STOPS
        if text[at].low not in _ENDS or not ends or [word.low for word in text[at - 3 : at]] != [",", "to", "the"]:
            continue
        if at < 5 or text[at - 4].low in _BESIDE or not any(_is_turn(word) for word in text[: at - 3]):
            continue
        wall = replace(text[at], kind="facing", value=_ENDS[text[at].low])
        return (*text[: at - 2], wall, *_with_ends(text[at + 1 :]))
    return text


_BESIDE = {"side", "front", "back", "forward"}


def _is_turn(token: Token) -> bool:
    return token.kind == "fraction" or token.low in _TURNS


def _opening(text: Sequence[Token]) -> int:
    """Return the length of the clauses at an item's start that state where the count before ends.

    A facing by itself may be that of the item ("5-6 | 9:00 | rock, recover"), and so may one that is a turn's aim.
    """
    lead = [token for token in text[: statement_end(text)] if token.text not in _OPENS]
    if not lead or lead[0].kind == "facing" or lead[0].low == "to":
        return 0
    return statement_end(text)


def _parted(before: Sequence[Token], words: Sequence[Token]) -> tuple[Token, ...]:
    """Return words with a comma before them where nothing parts them from those before."""
    if not before or before[-1].text in _STOPS or words[0].text in _OPENS:
        return tuple(words)
    return (replace(words[0], kind="mark", text=",", low=",", value=None), *words)
