"""What a sheet says of an extra, or of another form of a part, apart from the play: "T = tag, 4 counts: step R ...".

A definition opens a sentence or a line with the name; its steps stand behind it or in the lines below.
"""

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.sheet.prose.counts.chain import goes_on
from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.plays.bodies import body_in, mostly_steps, plural_in
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.endings_led import ending_led
from trainer.sheet.prose.plays.paragraphs import Sentence, is_below_a_name, is_steps, speaks_of_steps
from trainer.sheet.prose.plays.symbols import Extra, Named, Symbol, symbols, text_of
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HEAD = re.compile(
    r"^(?:[\"*(~#>-] |and |so |where |now |also |there |it |is |what |does |for |as |in |during )*"
    r"(?:(?:the|a|an|our|this|your|"
    r"each|our) )?"
    r"(?:little |short |tiny |final )?(\$\S+)[ \")*~]*(?: ?\( [^()]* \))?"
)
_FOR = re.compile(r"^(?:and |as )?(?:for|in|during|on) (?:(?:the|our|this|each) )?(\$\S+)(?= (?!:|=|-))")
_DEFINES = re.compile(r"^ ?(?:[:=|]|-|,|is\b|are\b|was\b|consists?\b|stands?\b|means?\b|has\b|lasts?\b|goes\b|$|\?)")
_FORM = re.compile(
    r"^(?:[\"( ]|where |and |restart : |note : |the |part )*(short |half |shortened |cut |little )?(?:part )?@(\d+) ?"
    r"(\*|-|'|~|\^|/ \d+|\d\d(?!:)|\( (?:\d+|short|half)[^()]* \)|1 - \d)?[ \":]*"
    r"(?:=|:|\|(?! then)|- (?=[^@$]{12})|only|just|"
    r"means|is|stands|has|stops|ends|goes|lasts|consists)"
)
_MEANS = re.compile(r"=|:|is$|means$|stands$")
_TELLS_LENGTH = re.compile(
    r"^(?:the |part )*@\d+(?: [*'~^-])?(?: counts)? ?(?:[=:]|is\b|has\b|lasts\b|means\b|takes\b|runs\b)"
)
_STARRED = re.compile(r"^(?:\( )?([*]+) ")
_COUNTS = re.compile(r"\b(\d+) ?-? ?(?:slow |quick |easy |extra |more |little |plain )*(?:counts?|beats?|cts?)\b")
_IS_LENGTH = re.compile(r"\b(?:is|are|has|lasts|takes) (?:just |only |an? )?(\d+) ?:$")
_REMARK = re.compile(
    r"^(?:is|are|has|goes|was|couldn't|could|can't|looks|feels)"
    r"(?: (?!after\b|before\b)[^@$:]\S*){0,8}$"
)
"""Words that say nothing of an extra but that it is easy: its steps come behind them."""
_ONLY_LENGTH = re.compile(r"^[\s:=(\-,|]*(?:\d+ (?:counts?|beats?|cts?)|danced|done|once|twice|[(),:.\-|]|\s)*$")

_TURNS = {"turn", "turns", "turning", "at", "all", "anywhere", "move", "moves", "travel", "step", "steps"}
_DENIES = {"doesn't", "does", "not", "never", "no", "don't", "without", "isn't", "nor"}

Below = Callable[[int], Line | None]
"""Gives the line below a sentence, 0, and below those after it."""

_SECTION = 2
"""Where the number of a section stands behind the letter of its part."""


@dataclass(slots=True)
class Definition:
    """What is said of an extra."""

    extra: Extra
    head: tuple[Token, ...]
    body: tuple[Token, ...]
    """Its steps; empty where they stand below."""
    counts: int | None
    place: int
    """Place of its line."""
    taken: int = 0
    """How many sentences behind its own tell its steps."""


@dataclass(slots=True)
class Form:
    """What is said of another form of a part: how much of it is danced."""

    part: int
    """-1: of the part that is marked so."""
    mark: str
    cut: int | None
    finishes: bool = False
    """Steps of an ending stand below it."""
    tokens: tuple[Token, ...] = ()


@dataclass(frozen=True, slots=True)
class Opening:
    """A sentence that opens with an extra, or asks for it."""

    given: tuple[Symbol, ...]
    at: int
    """Index of the extra."""
    end: int
    """Index after the words that only name it."""
    asked: bool

    @property
    def extra(self) -> Extra:
        """The extra that it names."""
        extra = self.given[self.at].extra
        assert extra is not None
        return extra

    @property
    def parts(self) -> list[Token]:
        """The parts that are spoken of behind it."""
        return [one.token for one in self.given[self.end :] if one.part >= 0]


def opening_of(tokens: Sequence[Token], named: Named) -> Opening | None:
    """Return how a sentence opens with an extra, or asks for one: "What is the tag?"; None: it does not."""
    given = symbols(tokens, named)
    text = text_of(given)
    extras = [at for at, one in enumerate(given) if one.extra is not None]
    if not extras:
        return None
    if given[-1].text == "?":
        alone = len({given[at].extra for at in extras}) == 1 and not any(one.part >= 0 for one in given)
        return Opening(given, extras[0], len(given), asked=True) if alone else None
    head = _HEAD.match(text.text)
    if led := _FOR.match(text.text):
        at = extras[0]
        after = at + 1 + (at + 2 < len(given) and given[at + 1].text in ("you", "we"))
        steps = after < len(given) and (given[after].text == "," or speaks_of_steps(given[after].token))
        return Opening(given, at, at + 1, asked=False) if steps and text.starts[at] == led.start(1) else None
    if head is None or not _DEFINES.match(text.text[head.end() :].lstrip() or "") or text.text.startswith("("):
        return None
    at = next(index for index, start in enumerate(text.starts) if start >= head.start(1))
    end = next((index for index, start in enumerate(text.starts) if start >= head.end()), len(given))
    return Opening(given, at, end, asked=False) if given[at].extra is not None else None


def definition_of(sentence: Sentence, more: Sequence[Sentence], below: Below, named: Named) -> Definition | None:
    """Return what a sentence says of an extra that it opens with or asks for, if it defines one.

    `more` are the sentences after it in its paragraph, of which the first hold the steps where it only heads them;
    `below` gives the line below it, and below those.
    """
    opening = opening_of(sentence.tokens, named)
    if opening is None:
        closing = ending_led(sentence.tokens, named)
        return Definition(Extra("ending"), sentence.tokens[:1], closing, None, sentence.place) if closing else None
    head = (opening.given[opening.at].token,)
    tokens = sentence.tokens
    rest = [one.token for one in opening.given[opening.end :]]
    offset = next((at for at, token in enumerate(tokens) if rest and token is rest[0]), len(tokens))
    if opening.parts and (apart := _behind_parts(tokens, offset, opening.parts)) is None:
        return None
    if opening.parts and apart is not None:
        offset = apart
    body = body_in(tokens[offset:]) if rest else ()
    said = tokens[: next((at for at, token in enumerate(tokens) if body and token is body[0]), len(tokens))]
    if _places(said, opening.parts):
        return None
    if body and all(token.low in _TURNS for token in body) and {token.low for token in said} & _DENIES:
        # "The link is 8 counts and doesn't turn at all" tells no steps of it.
        body = ()
    if body:
        return Definition(opening.extra, head, body, _counts_around(tokens, body, named), sentence.place)
    words = text_of(opening.given[opening.end :]).text
    if rest and not _ONLY_LENGTH.match(words) and (opening.parts or not _REMARK.match(words)):
        return None
    counts = counts_in(tokens, named)
    if answer := answer_in(more, below, named):
        body, later, taken = answer
        return Definition(opening.extra, head, body, counts or later, sentence.place, taken)
    bare = not rest and bool(more) and is_below_a_name(below(1))
    heads = (is_below_a_name(below(0)) or bare) and not opening.asked and (not rest or bool(_ONLY_LENGTH.match(words)))
    return Definition(opening.extra, head, (), counts, sentence.place) if heads and len(tokens) < 16 else None


def _behind_parts(tokens: Sequence[Token], offset: int, parts: Sequence[Token]) -> int | None:
    """Where steps may begin that stand behind what is said of parts; None: nowhere.

    "Ending: the last A stops at the kick; step left back".
    """
    spoken = next(at for at, token in enumerate(tokens) if token is parts[0])
    if any(speaks_of_steps(token) for token in tokens[offset:spoken]):
        return offset
    last = next(at for at, token in enumerate(tokens) if token is parts[-1])
    apart = next((at for at in range(last, len(tokens)) if tokens[at].text in (";", ":")), None)
    return apart if apart is not None and any(speaks_of_steps(token) for token in tokens[apart:]) else None


def counts_in(tokens: Sequence[Token], named: Named) -> int | None:
    """Return the length that some words tell: "4 counts", "four slow counts"."""
    stated = _COUNTS.search(text_of(symbols(tokens, named)).text)
    return int(stated[1]) if stated else None


def counts_before(tokens: Sequence[Token], body: Sequence[Token], named: Named) -> int | None:
    """Return the length that the words just before some steps, or behind them, tell; none that counts a part."""
    first = next(at for at, token in enumerate(tokens) if token is body[0])
    return _counts_around(tokens[max(first - 4, 0) :], body, named)


def _counts_around(tokens: Sequence[Token], body: Sequence[Token], named: Named) -> int | None:
    """The length that the words before some steps tell, or those behind them."""
    first = next(at for at, token in enumerate(tokens) if token is body[0])
    last = next(at for at, token in enumerate(tokens) if token is body[-1])
    before = text_of(symbols(tokens[:first], named)).text
    if stated := _COUNTS.search(before) or _IS_LENGTH.search(before):
        return int(stated[1])
    if many := plural_in(body):
        return many[0]
    return counts_in(tokens[last + 1 :], named)


def answer_in(more: Sequence[Sentence], below: Below, named: Named) -> tuple[tuple[Token, ...], int | None, int] | None:
    """Return the steps that the next sentences tell, their length, and how many sentences those are.

    Before them may stand what only says how long they are: "Four counts. Stomp right, stomp left." Words over lines
    of steps are no steps themselves.
    """
    counts: int | None = None
    for at, sentence in enumerate(more[:3]):
        tokens = sentence.tokens
        if named.answers and len(tokens) > 2 and tokens[0].text == "A" and tokens[1].text in (":", "."):
            tokens = tokens[2:]
        line = below(at + 1)
        over = line is not None and is_steps(line) and sentence is more[-1]
        if tokens[-1].text == "?" or over or any(one.part >= 0 for one in symbols(tokens, named)):
            return None
        if tokens[0].text != "(" and mostly_steps(tokens) and (body := body_in(tokens)):
            if at + 1 < len(more) and _counts_on(tokens, more[at + 1].tokens):
                return None
            return body, counts or _counts_around(tokens, body, named), at + 1
        if counts is not None or not _ONLY_LENGTH.match(text_of(symbols(tokens, named)).text.rstrip(" .!")):
            return None
        counts = counts_in(tokens, named)
    return None


def _counts_on(tokens: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether a line of steps goes on with the counts of the one before it: then they stand below a heading."""
    told, next_told = marks_in(tokens, 0), marks_in(after, 1)
    below = after[0].line > tokens[-1].line
    return below and bool(told) and bool(next_told) and goes_on(told[-1].end, next_told[0].start)


def _places(said: Sequence[Token], parts: Sequence[Token]) -> bool:
    """Whether the words before the steps say where the extra is danced, or facing where."""
    after = any(token.low in ("after", "following", "before") for token in said)
    return any(token.kind in ("clock", "facing") for token in said) or (
        after and any(token is part for token in said for part in parts)
    )


def _clauses(given: Sequence[Symbol]) -> Iterator[tuple[int, int]]:
    """Yield where a sentence begins and ends, then the clauses of one that tells of several: "A is 32, A- 16"."""
    yield 0, len(given)
    cuts = [at for at, one in enumerate(given) if one.text in (",", ";")]
    if not _TELLS_LENGTH.match(text_of(given).text):
        return
    for first, last in pairwise([*cuts, len(given)]):
        start = first + 1 + (given[first + 1 : first + 2] != () and given[first + 1].text in ("and", "&"))
        yield start, last


def _stands_apart(given: Sequence[Symbol]) -> bool:
    """Whether a dash behind a part is none of its name: "A - only 16 counts" is danced so, "A-" is called so."""
    at = next((at for at, one in enumerate(given[:-1]) if one.part >= 0), None)
    return at is not None and given[at + 1].text == "-" and not given[at + 1].token.glued


def form_of(sentence: Sentence, named: Named) -> Form | None:
    """Return what a sentence says of a marked form of a part, if it tells of one."""
    if len(sentence.tokens) > _SECTION and sentence.tokens[1].text == "/" and sentence.tokens[_SECTION].low in NUMBERS:
        # "A / one: walks, shuffle" heads the first section of A.
        return None
    given = symbols(sentence.tokens, named)
    text = text_of(given)
    finishes = bool(re.search(r"\b(?:finish|end|add|ending|then)(?: with| the dance)* :$", text.text))
    for first, last in _clauses(given):
        clause = text if (first, last) == (0, len(given)) else text_of(given[first:last])
        match = _FORM.match(clause.text)
        mark = "short" if match is not None and match[1] else (match[3] or "") if match is not None else ""
        if match is not None and mark and not (mark == "-" and _stands_apart(given)):
            part = int(match[2])
            own = "" if mark[0] not in "(/123456789" else f"( {mark} )" if mark.isdecimal() else mark
            cut = cut_in(clause.text[match.end() :].strip(), part, named) or (cut_in(own, part, named) if own else None)
            return Form(part, mark if len(mark) == 1 or mark == "short" else "", cut, finishes, sentence.tokens)
    for at, one in enumerate(given[:-1]):
        if len(one.token.text) == 1 and one.part >= 0 and one.token.text.islower() and _MEANS.match(given[at + 1].text):
            cut = cut_in(text.of(at + 2, len(given)).strip(' "'), one.part, named)
            return Form(one.part, "small", cut, finishes, sentence.tokens)
    if match := _STARRED.match(text.text):
        parts = [one.part for one in given if one.part >= 0]
        cuts = [cut_in(text.text[match.end() :], part, named) for part in parts[:1] or range(len(named.parts))]
        return Form(
            parts[0] if parts else -1, match[1], next((cut for cut in cuts if cut), None), finishes, sentence.tokens
        )
    return None
