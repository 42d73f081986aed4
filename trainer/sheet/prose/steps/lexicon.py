"""Tokens to lexemes: what each word of a clause is to a dancer (a move, a foot, a way, an amount of turn ...).

The longest phrase of the tables wins; words of a phrase may be joined by hyphens. A word that no table knows may be a
slip of the pen for one of the trade (`slips.py`).
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from functools import cache, lru_cache

from trainer.routine import Span
from trainer.sheet.prose.steps.entries import phrases_by_first, trade
from trainer.sheet.prose.steps.going_on import goes_on
from trainer.sheet.prose.steps.lex import Lex
from trainer.sheet.prose.steps.signs import STEP_WORDS, begins_anew, is_a_turn, mark_lexemes
from trainer.sheet.prose.steps.slips import everyday, glued_foot, short_of, slip_of
from trainer.sheet.prose.steps.wording import bare, wording
from trainer.sheet.prose.words import Token
from trainer.terms import Direction, Foot

_SHORT_SIDES = {
    "r": Foot.RIGHT,
    "right": Foot.RIGHT,
    "l": Foot.LEFT,
    "left": Foot.LEFT,
    "rights": Foot.RIGHT,
    "lefts": Foot.LEFT,
}

_CARRIES = {
    "bring", "brings", "bringing", "put", "puts", "putting", "turn", "turns", "turning", "take", "takes", "taking",
    "leave", "leaves", "leaving", "swing", "swings", "swinging", "land", "lands", "send", "sends", "get", "gets",
    "carry", "carries", "has", "have", "pull", "pulls", "spin", "spins", "point", "points", "pointing",
}  # fmt: skip
_CARRIED = {"you", "us", "ya", "everyone", "everybody"}

_DEEPEST = 3
"""A short form may stand for words with short forms in them, but no further."""


def lexemes(tokens: Sequence[Token], own: Mapping[tuple[str, ...], tuple[Token, ...]] | None = None) -> tuple[Lex, ...]:
    """Return the lexemes of an item's words; `own` are the sheet's own short forms with what they stand for."""
    return tuple(_read(tuple(tokens), own or {}, 0))


def _read(tokens: tuple[Token, ...], own: Mapping[tuple[str, ...], tuple[Token, ...]], depth: int) -> Iterator[Lex]:
    words = [_word(token) for token in tokens]
    spelled = [_spelled_out("turn" if is_a_turn(tokens, at) else word) for at, word in enumerate(words)]
    garbled = {at for at, word in enumerate(words) if word not in _known() and _amid_unknown(words, at, own)}
    at = 0
    while at < len(tokens):
        if at and depth == 0 and begins_anew(tokens[at - 1], tokens[at]):
            yield Lex("break", ",", ",", tokens[at].span)
        length, instead = _own_at(words, at, own) if depth < _DEEPEST else (0, ())
        if length:
            span = _across(tokens[at], tokens[at + length - 1])
            inner = {key: value for key, value in own.items() if key != tuple(words[at : at + length])}
            for lex in _read(instead, inner, depth + 1):
                yield lex._replace(span=span)
            at += length
            continue
        if words[at] in _CARRIES and at + 1 < len(words) and words[at + 1] in _CARRIED:
            # "Which puts you at the back", "that turns you to 3 o'clock": what is moved is the dancer, not a foot.
            yield Lex("glue", None, words[at], tokens[at].span)
            # "... which brings you back to the front": back is where one was before.
            led = words[at + 3 : at + 4] in (["to"], ["at"], ["again"], [""])
            at += 3 if words[at + 2 : at + 3] in (["back"], ["round"], ["around"]) and led else 1
            continue
        if told := _told_before(words, at) or _leads_in(words, at):
            yield Lex("glue", None, words[at], tokens[at].span)
            at += told
            continue
        if lasting := goes_on(spelled, at):
            at += lasting
            continue
        if lowered := _lowered(tokens, spelled, at):
            yield from _read(_as_tokens(lowered[1], tokens[at]), own, _DEEPEST)
            at += lowered[0]
            continue
        if _is_one_step(tokens, at):
            at += 2
            continue
        if at in garbled:
            yield Lex("unknown", None, words[at], tokens[at].span)
            at += 1
            continue
        length, lex = _phrase_at(tokens, spelled, at)
        if length:
            low = "&" if tokens[at].kind == "amp" and length == 1 else lex.low
            yield lex._replace(low=low, span=_across(tokens[at], tokens[at + length - 1]))
            at += length
            continue
        yield from _single(tokens, at, depth)
        at += 1


_WHILE = {"as", "when", "while", "whenever"}
_GOES = re.compile(
    r"\w+ (?:the |your )?(?:left|right|l|r|lf|rf) (?:foot )?(?:steps|goes|moves|comes|travels)"
    r"(?: (?:forward|back|across|over|behind|(?:to the |out to the )?side|fwd))?\b"
)
_SAME_STEP = re.compile(
    r"(?:(?:as|when|while) (?:you|it|we|they|(?:the|that) foot) (?:steps?|lands?|goes|do so|place it|put it down)|"
    r"(?:on|with|during) (?:that|this|the same) (?:step|move|count))(?= [,.;:)]|$)"
)
"""Of a turn that is made with the step told before it: "right to the side turning a quarter right as you step"."""
_GONE = {"side", "forward", "fwd", "back", "across", "over", "behind", "together", "beside", "steps", "stepping"}
_WITH_A_TURN = re.compile(r"\bwith (?:a |the |your )?(?:\S+ )?(?:turn )?(?:to the )?(?:left|right)$")
_STEPPING = {"you", "they", "we"}
_IT = {"it", "them", "each"}


def _told_before(words: Sequence[str], at: int) -> int:
    """Return how many words tell of a step that was told: "standing on each foot as you stamp it"; 0 where none do."""
    if words[at] in _WHILE and (goes := _GOES.match(" ".join(words[at : at + 6]))):
        # "A basic forward, but with a quarter turn left as the left steps forward".
        return len(goes[0].split()) if _WITH_A_TURN.search(" ".join(words[max(at - 6, 0) : at])) else 0
    if (same := _SAME_STEP.match(" ".join(words[at : at + 5]))) and set(words[max(at - 9, 0) : at]) & _GONE:
        return len(same[0].split())
    led = words[at] in _WHILE and at + 3 < len(words) and words[at + 1] in _STEPPING
    return 4 if led and words[at + 3] in _IT and words[at + 2].isalpha() else 0


_DOING = {"take", "do", "dance", "you", "we", "use"}
_OPENED = 6
"""Words of such an opening at most."""


_COURSE = re.compile(
    r"(?:(?:you|we) )?(?:go|goes|come|comes|travel|travels|move|moves|head) "
    r"(?:(?:to|towards) (?:the|your) (?:right|left|side)|right|left|back(?: again| home| the other way)?) "
    r"(?:, )?(?:with |by stepping )?(?=(?:the |your )?(?:right|left|r|l)(?: foot)? (?!,|and\b|then\b|foot\b))"
)
"""Which way the steps go that are told behind it one by one: "you go to the right, with right to the side, ..."."""
_AHEAD = 12


def _leads_in(words: Sequence[str], at: int) -> int:
    """Return how many words open an item with the name of what is told after them: "For the weave take left over"."""
    if not at and (course := _COURSE.match(" ".join(words[:_AHEAD]))):
        length = len(course[0].split())
        # "Move right, left beside" are two steps.
        return length if words[length:].count(",") > 1 else 0
    if at or words[0] != "for" or words[1:2] not in (["the"], ["your"], ["this"]):
        return 0
    return next((end + 1 for end in range(2, min(len(words) - 2, _OPENED)) if words[end] in _DOING), 0)


def _word(token: Token) -> str:
    if token.kind == "facing":
        # "Facing the back" is a word of looking and a facing, and not a phrase.
        return ""
    return "and" if token.kind == "amp" else bare(token.low)


def _spelled_out(word: str) -> str:
    """Return the word that a short form stands for, where it is one: "kick ball chg", "cross shuf"."""
    instead = _short(word) or word
    return word if " " in instead else instead


@cache
def _short(word: str) -> str:
    """Return the words that a short form of teachers stands for, nothing where it is none."""
    listed = wording()["short"].get(word)
    return str(listed) if listed else "" if word in _known() else short_of(word, trade()) or ""


def _amid_unknown(words: Sequence[str], at: int, own: Mapping[tuple[str, ...], tuple[Token, ...]]) -> bool:
    """Whether a word that may be a slip, or short, stands among words that nobody knows: it is as garbled as they."""
    if not words[at].isalpha() or words[at] in wording()["short"] or not (_short(words[at]) or _slip(words[at])):
        return False
    first = next((place + 1 for place in range(at - 1, -1, -1) if not words[place].isalpha()), 0)
    last = next((place for place in range(at + 1, len(words)) if not words[place].isalpha()), len(words))
    others = [word for place, word in enumerate(words[first:last], first) if place != at]
    return len(others) >= _GARBLED and not any((word,) in own or _is_known(word) for word in others)


_GARBLED = 2
"""So many words beside one of which no one is known."""


@lru_cache(maxsize=4096)
def _is_known(word: str) -> bool:
    return len(word) == 1 or word in _known() or word in everyday() or bool(_short(word) or _slip(word))


@lru_cache(maxsize=4096)
def _slip(word: str) -> str | None:
    """Return the word of the trade that an unknown word slipped from; a sheet's words are asked for again and again."""
    return slip_of(word, trade())


@cache
def _known() -> frozenset[str]:
    """Return every word of the tables' phrases."""
    return frozenset(word for entries in phrases_by_first().values() for phrase, _ in entries for word in phrase)


def _across(first: Token, last: Token) -> Span:
    length = last.column + len(last.text) - first.column if last.line == first.line else len(first.text)
    return Span(first.line, first.column, max(length, 1))


def _own_at(
    words: Sequence[str], at: int, own: Mapping[tuple[str, ...], tuple[Token, ...]]
) -> tuple[int, tuple[Token, ...]]:
    if not own:
        return 0, ()
    for length in range(min(6, len(words) - at), 0, -1):
        name = tuple(words[at : at + length])
        found = own.get(name) or (own.get((*name[:-1], name[-1][:-1])) if name[-1].endswith("s") else None)
        if found is not None:
            return length, found
    return 0, ()


def _phrase_at(tokens: Sequence[Token], words: Sequence[str], at: int) -> tuple[int, Lex]:
    """Return how many tokens from `at` on are a phrase of the tables, and its lexeme."""
    first = words[at]
    # A hyphen and an owner may stand before the second word.
    near = words[at + 1 : at + 4]
    for phrase, lex in phrases_by_first().get(first, ()):
        if len(phrase) > 1 and phrase[1] not in near:
            continue
        if lex.value == "step touch" and first == "side" and _steps_before(words, at):
            # "Side behind side touch".
            continue
        end = _matched(tokens, words, at, phrase)
        if end:
            return end - at, lex
    return 0, _UNKNOWN


def _steps_before(words: Sequence[str], at: int) -> bool:
    """Whether the word just before, a hyphen aside, is a step of the same row of words."""
    before = at - 2 if at > 1 and words[at - 1] == "-" else at - 1
    if before > 0 and words[before] in _SHORT_SIDES and words[before - 1] in _STEPPED:
        # "Step right side touch left": the side is where the right steps.
        return True
    return before >= 0 and words[before] in STEP_WORDS


_STEPPED = {"step", "steps", "stepping", "rock", "stomp"}


_UNKNOWN = Lex("unknown", None, "", Span(0, 0, 0))


def _matched(tokens: Sequence[Token], words: Sequence[str], at: int, phrase: tuple[str, ...]) -> int:
    """Return the index after a phrase that stands at `at`, 0 where it does not; hyphens may join its words."""
    end = at + 1
    for word in phrase[1:]:
        if end + 1 < len(words) and words[end] == "-" and tokens[end].glued and tokens[end + 1].glued:
            end += 1
        if end + 1 < len(words) and words[end] in _OWNERS and words[end + 1] == word:
            end += 1
        if end >= len(words) or words[end] != word:
            return 0
        end += 1
    return end


def _lowered(tokens: Sequence[Token], words: Sequence[str], at: int) -> tuple[int, str] | None:
    """Return how many tokens lower a heel or toe whose foot is told between, and that in other words.

    "Lower your right heel", "bring the right heel down", "slap R toes down" are "right drop".
    """
    plain, with_down = words[at] in _LOWERS, words[at] in _BRINGS
    end = at + 1
    if end < len(words) and words[end] in _OWNERS:
        end += 1
    if not (plain or with_down) or end + 1 >= len(words) or _SHORT_SIDES.get(words[end]) is None:
        return None
    side = words[end]
    if words[end + 1] not in ("heel", "toe", "toes", "ball"):
        return None
    end += 2
    down = end < len(words) and words[end] in ("down", "flat")
    return (end + down - at, f"{side} drop") if plain or down else None


_LOWERS = {"lower", "lowers", "lowering", "drop", "drops", "dropping", "flatten"}
_BRINGS = {"put", "bring", "set", "press", "slap", "snap", "place", "lay", "let", "push"}
_OWNERS = {"your", "the", "my", "ya", "ur"}
"""Words that may stand within a phrase: "swing your hips"."""


def _single(tokens: Sequence[Token], at: int, depth: int) -> Iterator[Lex]:
    token = tokens[at]
    word = bare(token.low)
    span = token.span
    if token.kind == "facing":
        yield Lex("facing", token.value, token.low, span)
    elif token.kind == "clock":
        yield Lex("glue", None, token.low, span)
    elif token.kind == "fraction":
        yield Lex("amount", token.value, token.low, span)
    elif token.kind == "amp":
        yield Lex("task", "and", "&", span)
    elif token.kind == "number":
        yield _number(tokens, at)
    elif token.kind == "mark":
        yield from mark_lexemes(tokens, at)
    else:
        yield from _plain_word(tokens, at, word, span, depth)


def _number(tokens: Sequence[Token], at: int) -> Lex:
    token = tokens[at]
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    turns = at and tokens[at - 1].low in _TURNING and after in _SHORT_SIDES
    if (turns or after in ("°", "deg", "degree", "degrees", "º")) and token.text in wording()["degrees"]:
        return Lex("amount", Fraction(wording()["degrees"][token.text]), token.low, token.span)
    return Lex("number", int(token.text[:4]), token.low, token.span)


_TURNING = {"turn", "turning", "pivot", "pivoting", "turns", "pivots", "spin", "unwind"}
"""Words after which a number is one of degrees, where a side follows: "turn 180 left"."""


def _is_one_step(tokens: Sequence[Token], at: int) -> bool:
    """Whether a stroke joins two words for one step: "rock/step left back"."""
    inside = tokens[at].text == "/" and tokens[at].glued and 0 < at < len(tokens) - 1 and tokens[at + 1].glued
    return inside and tokens[at + 1].low == "step" and tokens[at - 1].low in _ALSO_A_STEP


_ALSO_A_STEP = {"rock", "cross", "lunge", "press", "walk", "stomp", "stamp", "run", "push"}


def _plain_word(tokens: Sequence[Token], at: int, word: str, span: Span, depth: int) -> Iterator[Lex]:
    side = _SHORT_SIDES.get(word)
    if side is not None:
        yield Lex("side", side, word, span)
        return
    if len(word) > 1 and set(word) <= {"r", "l"}:
        yield Lex("run", tuple(Foot.RIGHT if letter == "r" else Foot.LEFT for letter in word), word, span)
        return
    if word == "x":
        yield _ex(tokens, at, span)
        return
    glued = glued_foot(tokens[at].text, trade()) if depth < _DEEPEST else ""
    if glued:
        for piece in _read(_as_tokens(glued, tokens[at]), {}, depth + 1):
            yield piece._replace(span=span)
        return
    instead = _short(word)
    if instead and depth < _DEEPEST:
        for piece in _read(_as_tokens(instead, tokens[at]), {}, depth + 1):
            yield piece._replace(span=span)
        return
    times = _times(word)
    if times:
        yield Lex("number", times, word, span)
        return
    slip = _slip(word) if depth < _DEEPEST else None
    if slip is not None:
        for piece in _read(_as_tokens(slip, tokens[at]), {}, depth + 1):
            yield piece._replace(span=span, typo=True)
        return
    yield Lex("unknown", None, word, span)


def _ex(tokens: Sequence[Token], at: int, span: Span) -> Lex:
    """Return what "x" is: "x 4" is times, a lone one is "cross"."""
    numbers = [tokens[near].kind == "number" for near in (at - 1, at + 1) if 0 <= near < len(tokens)]
    if any(numbers):
        return Lex("glue", None, "x", span)
    return Lex("prep", Direction.CROSS, "x", span)


def _times(word: str) -> int:
    if len(word) == 2 and word[0] == "x" and word[1].isdecimal():
        return int(word[1])
    return 0


def _as_tokens(text: str, place: Token) -> tuple[Token, ...]:
    return tuple(Token("word", word, word, place.line, place.column) for word in text.split())
