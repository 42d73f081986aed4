"""What a sheet says of an extra, or of another form of a part, apart from the play: "T = tag, 4 counts: step R ...".

A definition opens a sentence or a line with the name; its steps stand behind it or in the lines below.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.layout import Line
from trainer.sheet.prose.order.vocabulary import NUMBERS
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.paragraphs import Sentence, is_steps, speaks_of_steps
from trainer.sheet.prose.plays.symbols import Extra, Named, symbols, text_of
from trainer.sheet.prose.words import Token

_HEAD = re.compile(
    r"^(?:[\"*(~#>-] |and |so |where |now |also |there |it |is |what |does |- )*(?:(?:the|a|an|our|this|your|"
    r"each|our) )?"
    r"(?:little |short |tiny |final )?(\$\S+)[ \")*~]*(?: ?\( [^()]* \))?"
)
_DEFINES = re.compile(r"^ ?(?:[:=|]|-|,|is\b|are\b|was\b|consists?\b|stands?\b|means?\b|has\b|lasts?\b|goes\b|$|\?)")
_FORM = re.compile(
    r"^(?:[\"( ]|where |and |restart : |note : |the |part )*(short |half |shortened |cut |little )?@(\d+) ?"
    r"(\*|-|'|~|\^|/ \d+|\d\d|\( (?:\d+|short)[^()]* \)|1 - \d)?[ \":]*(?:=|:|- (?=[^@$]{12})|means|is|stands|"
    r"has|stops|ends|goes|lasts|consists)"
)
_STARRED = re.compile(r"^(?:\( )?([*]+) ")
_COUNTS = re.compile(r"\b(\d+) ?-? ?(?:counts?|beats?|cts?)\b")
_ONLY_LENGTH = re.compile(r"^[\s:=(\-,|]*(?:\d+ (?:counts?|beats?|cts?)|danced|done|once|twice|[(),:.\-|]|\s)*$")
_DEFINERS = {":", "=", "(", "-"}
_SAYS = {"is", "stands", "means", "consists", "are", "lasts", "has", "goes"}
_ARTICLES = {"the", "a", "an", "our", "and", "what"}
_NO_NAMES = {
    "order", "sequence", "restart", "note", "notes", "part", "section", "change", "phrasing", "counts", "count",
    "walls", "wall", "start", "starts", "begin", "wait", "no", "tag", "bridge", "ending", "intro", "short", "half",
    "phrased", "end", "finish", "finale", "outro", "coda", "tags", "it", "this", "that", "there", "you", "we",
    "everything", "music", "song", "dance",
}  # fmt: skip
_AROUND = {",", "-", "+", ">", "then", "the", "and", "&", '"', "|", "by", "plus", "/", "a", "our", ")"}
_LONGEST = 3
"""Words of a name."""


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


def own_names(lines: Sequence[Line], named: Named) -> tuple[tuple[str, ...], ...]:
    """Return the words of extras that are defined under a name of their own and stand in a play."""
    found: list[tuple[str, ...]] = []
    for place, line in enumerate(lines):
        below = lines[place + 1] if place + 1 < len(lines) else None
        for first in _openings(line.tokens):
            name = _name_at(line.tokens, first, below, named)
            if name and name not in found and any(_is_played(one, name, named) for one in lines):
                found.append(name)
    return tuple(sorted(found, key=len, reverse=True))


def _openings(tokens: Sequence[Token]) -> Iterator[int]:
    yield 0
    yield from (at + 1 for at, token in enumerate(tokens[:-1]) if token.text in (".", "!", "?"))


def _name_at(tokens: Sequence[Token], first: int, below: Line | None, named: Named) -> tuple[str, ...]:
    while first < len(tokens) and (tokens[first].text in ('"', "*", "-") or tokens[first].low in _ARTICLES):
        first += 1
    words: list[Token] = []
    at = first
    while at < len(tokens) and tokens[at].kind == "word" and tokens[at].low not in _SAYS and len(words) <= _LONGEST:
        words.append(tokens[at])
        at += 1
    if at < len(tokens) and tokens[at].text == '"':
        at += 1
    last = tokens[at] if at < len(tokens) else None
    defined = last is not None and (last.text in _DEFINERS or last.low in _SAYS)
    heads = last is None and below is not None and (is_steps(below) or below.tokens[0].text == "(")
    if not words or len(words) > _LONGEST or not (defined or heads) or not words[0].text[0].isupper():
        return ()
    plain = all(one.low not in _NO_NAMES and one.text not in named.parts for one in words)
    steps = (
        all(speaks_of_steps(one) for one in words) and len(words[0].text) > 1 and last is not None and last.text != ":"
    )
    return (
        tuple(one.low for one in words)
        if (plain or words[0].text == "T" or _is_pause(words)) and (not steps or _is_pause(words))
        else ()
    )


def _is_pause(words: Sequence[Token]) -> bool:
    return len(words) == 1 and words[0].low in ("wait", "pause", "hold", "break", "rest")


def _is_played(line: Line, name: tuple[str, ...], named: Named) -> bool:
    """Whether a name stands among parts in a line, or with them in a word: "AABTABB"."""
    given = symbols(line.tokens, named)
    parts = sum(one.part >= 0 for one in given)
    if name == ("t",) and any(
        one.extra is not None and len(one.token.text) > 2 and one.token.low != "tag" for one in given
    ):
        return True
    tokens = line.tokens
    for at in range(len(tokens) - len(name) + 1):
        if tuple(one.low for one in tokens[at : at + len(name)]) != name or not tokens[at].text[0].isupper():
            continue
        before = tokens[at - 1].low if at else ""
        after = tokens[at + len(name)] if at + len(name) < len(tokens) else None
        if (after is not None and after.text in (":", "=")) or (at and tokens[at - 1].text == ":" and parts < 2):
            continue
        if parts and (before in _AROUND or tokens[at - 1].text in named.parts) and at:
            return True
        if not at and len(tokens) <= len(name) + 1 and not parts:
            return False
    return False


def definition_of(sentence: Sentence, more: Sequence[Sentence], below: Line | None, named: Named) -> Definition | None:
    """Return what a sentence says of an extra that it opens with, if it defines one.

    `more` are the sentences after it in its paragraph, of which the first holds the steps where it only heads them.
    """
    given = symbols(sentence.tokens, named)
    text = text_of(given)
    head = _HEAD.match(text.text)
    if head is None or not _DEFINES.match(text.text[head.end() :].lstrip() or "") or text.text.startswith("("):
        return None
    at = next(index for index, start in enumerate(text.starts) if start >= head.start(1))
    extra = given[at].extra
    if extra is None:
        return None
    stated = _COUNTS.search(text.text[head.start(1) :])
    counts = int(stated[1]) if stated else None
    name = (given[at].token,)
    first = next((index for index, start in enumerate(text.starts) if start >= head.end()), len(given))
    asked = given[-1].text == "?"
    rest = [one.token for one in given[first:]] if not asked else []
    tokens = sentence.tokens
    offset = next((index for index, token in enumerate(tokens) if rest and token is rest[0]), len(tokens))
    parts = [one.token for one in given[first:] if one.part >= 0]
    if parts and rest:
        spoken = next(at for at, token in enumerate(tokens) if token is parts[0])
        if not any(speaks_of_steps(token) for token in tokens[offset:spoken]):
            # "Ending: the last A stops at the kick; step left back": the steps stand behind what is said of the part.
            last = next(at for at, token in enumerate(tokens) if token is parts[-1])
            apart = next((at for at in range(last, len(tokens)) if tokens[at].text in (";", ":")), None)
            if apart is None or not any(speaks_of_steps(token) for token in tokens[apart:]):
                return None
            offset = apart
    body = body_in(tokens[offset:]) if rest else ()
    said = tokens[: next((at for at, token in enumerate(tokens) if body and token is body[0]), len(tokens))]
    if _places(said, [one.token for one in given if one.part >= 0]):
        return None
    if body:
        return Definition(extra, name, body, counts, sentence.place)
    if rest and not _ONLY_LENGTH.match(text_of(given[first:]).text):
        return None
    if (
        more
        and _mostly_steps(more[0].tokens)
        and (body := body_in(more[0].tokens))
        and not any(one.part >= 0 for one in symbols(more[0].tokens, named))
    ):
        later = _COUNTS.search(text_of(symbols(more[0].tokens, named)).text)
        return Definition(extra, name, body, counts or (int(later[1]) if later else None), sentence.place)
    heads = below is not None and (is_steps(below) or below.tokens[0].text == "(")
    return Definition(extra, name, (), counts, sentence.place) if heads and len(tokens) < 16 else None


def body_in(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the steps among some words: from the mark or the count that opens them to the last of them."""
    first = next((at for at, token in enumerate(tokens) if speaks_of_steps(token)), None)
    if first is None:
        return ()
    for at, token in enumerate(tokens):
        # What stands before a colon only says what the steps are: "is four counts of standing still: hold, hold".
        if token.text == ":" and any(speaks_of_steps(one) for one in tokens[at + 1 :]):
            first = at + 1
            break
    else:
        opened = first
        while opened and (tokens[opened - 1].kind in ("number", "amp") or tokens[opened - 1].low in NUMBERS or (
            tokens[opened - 1].text == "-" and opened > 1 and tokens[opened - 2].kind == "number"
        )):  # fmt: skip
            opened -= 1
        first = opened
    while first < len(tokens) and tokens[first].kind == "mark" and tokens[first].text not in ("(",):
        first += 1
    last = max(at for at, token in enumerate(tokens) if speaks_of_steps(token)) + 1
    closed = max((at for at in range(last, len(tokens)) if _closes_count(tokens, at)), default=-1)
    last = max(last, closed + 1)
    while last < len(tokens) and tokens[last].text == ")":
        last += 1
    return tuple(tokens[first:last])


def _places(said: Sequence[Token], parts: Sequence[Token]) -> bool:
    """Whether the words before the steps say where the extra is danced, or facing where."""
    after = any(token.low in ("after", "following", "before") for token in said)
    return any(token.kind in ("clock", "facing") for token in said) or (
        after and any(token is part for token in said for part in parts)
    )


def _mostly_steps(tokens: Sequence[Token]) -> bool:
    """Whether words tell steps, and no remark in which a word of steps stands by chance."""
    words = [token for token in tokens if token.kind in ("word", "fraction")]
    return tokens[0].text != "(" and sum(map(speaks_of_steps, words)) >= 0.3 * len(words)


def _closes_count(tokens: Sequence[Token], at: int) -> bool:
    """Whether counts in brackets stand after the last step: "hold (3-4)"."""
    opened = next((index for index in range(at, max(at - 5, -1), -1) if tokens[index].text == "("), None)
    if opened is None:
        return False
    closed = next((index for index in range(opened, min(opened + 7, len(tokens))) if tokens[index].text == ")"), None)
    inside = tokens[opened + 1 : closed] if closed else ()
    return closed is not None and at <= closed and all(one.kind in ("number", "mark", "amp") for one in inside)


def form_of(sentence: Sentence, named: Named) -> Form | None:
    """Return what a sentence says of a marked form of a part, if it tells of one."""
    given = symbols(sentence.tokens, named)
    text = text_of(given)
    finishes = bool(re.search(r"\b(?:finish|end|add|ending|then)(?: with| the dance)* :$", text.text))
    if match := _FORM.match(text.text):
        part, mark = int(match[2]), "short" if match[1] else (match[3] or "")
        if mark:
            own = "" if mark[0] not in "(/123456789" else f"( {mark} )" if mark.isdigit() else mark
            cut = cut_in(text.text[match.end() :].strip(), part, named) or (cut_in(own, part, named) if own else None)
            return Form(part, mark if len(mark) == 1 or mark == "short" else "", cut, finishes, sentence.tokens)
    if match := _STARRED.match(text.text):
        parts = [one.part for one in given if one.part >= 0]
        cuts = [cut_in(text.text[match.end() :], part, named) for part in parts[:1] or range(len(named.parts))]
        return Form(
            parts[0] if parts else -1, match[1], next((cut for cut in cuts if cut), None), finishes, sentence.tokens
        )
    return None


def aliases_of(lines: Sequence[Line], parts: Sequence[str]) -> Mapping[str, int]:
    """Return other names that a sheet gives to its parts: "VERSE = A, CHORUS = B", "B is the chorus"."""
    found: dict[str, int] = {}
    for line in lines:
        tokens = line.tokens
        for at in range(1, len(tokens) - 1):
            if tokens[at].text != "=" and tokens[at].low not in ("means", "is"):
                continue
            before, after = tokens[at - 1], tokens[at + 1]
            if (
                after.low in ("the", "part", "our") and at + 2 < len(tokens) and tokens[at].text != "="
            ) or after.low == "part":
                after = tokens[at + 2] if at + 2 < len(tokens) else after
            for name, letter in ((before, after), (after, before)):
                word = name.kind == "word" and len(name.text) > 3 and not speaks_of_steps(name)
                if (
                    letter.text in parts
                    and word
                    and (tokens[at].text == "=" or name.low in ("verse", "chorus", "refrain", "middle"))
                ) and name.low not in ("short", "half", "without", "first", "only", "dance", "part"):
                    found[name.low] = parts.index(letter.text)
    return found
