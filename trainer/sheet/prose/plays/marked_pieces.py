"""Parts with a mark in the play, "A, B, A*", and what a note says of how much of a marked one is danced.

"* = first 16 only", "A+: leave off the last 4", "*last 8 of B", "* with restart after count 16": where the note is
understood, the marked parts are told with it, and the note is left out.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.plays.extents import Extent, Measure, extent_at, measure_of
from trainer.sheet.prose.plays.paragraphs import MARKS_OF_NOTES, Sentence
from trainer.sheet.prose.plays.symbols import Named, Symbol, symbols, text_of
from trainer.sheet.prose.words import Token

_ENDS = {",", "-", "/", "|", ">", ";", ".", ")", "(", "then", "and", "&", ":"}
"""What may stand behind a marked part, beside another part."""
_NOTE = re.compile(
    r"(?:\( |note |notes |where |key |: |the |part |parts )*(?:@(?P<part>\d+) )?(?P<mark>[*+'^#~!°†‡§`´’]+"
    r"(?: [*+'^#~!°†‡§`´’])*)(?: @\d+(?! \d))?(?: \))?(?P<rest> .+)"
)
_PLAIN = re.compile(r"(?:the |part )*@(?P<part>\d+) (?:is|are|means|=|:)(?P<rest> .+)")
_LEAD = re.compile(
    r"(?:[=:,(-]|(?:is|are|means|mean|stands for|indicates|that|this|it|part|parts|danced?|do|you|we|only|just|the|"
    r"has|have|with|its|of it|here|an?|shortened|shorter|short|form|version|to|there|then|on|in|these|one|1|time|"
    r"(?:full|whole)|@\d+(?! \d))(?= ))"
)
_STOPS = re.compile(
    r"(?:restarts?|leave|leaves|stops?|ends?|cut(?:s)?(?: it| off)?|break(?:s)? off|finish(?:es)?|go(?:es)? on|"
    r"continue|up to|as far as|through|until|till|after|next part)"
    r"(?: (?:with|the|next|part|is|it|off|only|at|on|after|behind|to|up|and|including|of|end))*"
    r" (?:(?:counts?|beats?|ct|cts) (?P<count>\d+)|(?P<bare>\d+)(?: (?:counts?|beats?|cts?))?|"
    r"(?:section|set|sec) (?P<section>\d)|@\d+ (?P<named>\d))\b"
)
_THROUGH = re.compile(
    r"(?: (?:only|and|then|with|a|the|restart|again|it|of it|of @\d+|in|go|on|to|next|part))*[ .)!]*$"
)


@dataclass(frozen=True, slots=True)
class Marked:
    """A part with a mark in the play."""

    tokens: tuple[Token, ...]
    """The part's name and its marks."""
    part: int
    sign: str


def marked_in(sentence: Sentence, named: Named) -> Iterator[Marked]:
    """Yield the marked parts that a sentence of the play names."""
    given = symbols(sentence.tokens, named)
    for at, one in enumerate(given):
        last = at + 1
        while last < len(given) and given[last].text in MARKS_OF_NOTES and given[last].token.glued:
            last += 1
        if one.part < 0 or last == at + 1 or given[at].token.line != given[last - 1].token.line:
            continue
        ahead = given[last] if last < len(given) else None
        joined = ahead is not None and ahead.token.glued and ahead.token.kind == "word"
        if not joined and (ahead is None or _stands_apart(ahead)):
            tokens = sentence.tokens[given[at].after - 1 : given[last - 1].after]
            yield Marked(tokens, one.part, "".join(mark.text for mark in given[at + 1 : last]))


def _stands_apart(ahead: Symbol) -> bool:
    """Whether what stands behind a mark is another item, or parts it from one."""
    item = ahead.part >= 0 or ahead.extra is not None
    return item or ahead.text in _ENDS or ahead.text.isdecimal() or ahead.text in ("x", "twice")


def is_note(sentence: Sentence, marked: Marked, named: Named) -> bool:
    """Whether a sentence is a note on a mark, whatever it says."""
    match = _NOTE.match(text_of(symbols(sentence.tokens, named)).text)
    meant = match is not None and match["part"] in (None, str(marked.part))
    return match is not None and meant and match["mark"].replace(" ", "") == marked.sign


def bracketed_notes(sentence: Sentence) -> Iterator[Sentence]:
    """Yield what stands in brackets in a sentence as notes: "A' C' (A' = counts 17-32, C' = counts 9-16)"."""
    inside: list[Token] | None = None
    for token in sentence.tokens:
        if token.text in "([":
            inside = []
        elif inside is not None and token.text in ",;)]":
            if any(one.text in ("=", ":") for one in inside) or (inside and inside[0].text in MARKS_OF_NOTES):
                yield replace(sentence, tokens=tuple(inside))
            inside = None if token.text in ")]" else []
        elif inside is not None:
            inside.append(token)


def note_of(sentence: Sentence, marked: Sequence[Marked], named: Named, *, plain: bool) -> dict[int, Extent]:
    """Return by the index of each marked part how much of it a note says is danced; empty where it is none.

    A `plain` one names the part without its mark.
    """
    text = text_of(symbols(sentence.tokens, named)).text
    signs = {one.sign for one in marked}
    if text.startswith("= ") and len(signs) == 1:
        # A mark that opens a line may be taken for a bullet.
        text = f"{' '.join(*signs)} {text}"
    match = (_PLAIN if plain else _NOTE).match(text)
    if match is None:
        return {}
    sign = "" if plain else match["mark"].replace(" ", "")
    found: dict[int, Extent] = {}
    for at, one in enumerate(marked):
        meant = match["part"] is None or int(match["part"]) == one.part
        if meant and (plain or one.sign == sign):
            extent = _told(match["rest"], measure_of(named, one.part))
            if extent is None:
                return {}
            found[at] = extent
    return found


def _told(rest: str, measure: Measure) -> Extent | None:
    """Return how much is danced, as the words of a note tell behind others that only lead to it."""
    words = rest.strip()
    while words:
        extent = extent_at(words, measure)
        if extent is not None and _THROUGH.fullmatch(words[extent.end :]):
            return extent
        stop = _STOPS.match(words)
        if stop is not None and _THROUGH.fullmatch(words[stop.end() :]):
            counts = _stop(stop, measure)
            return Extent(((1, counts),), stop.end()) if 0 < counts < measure.counts else None
        lead = _LEAD.match(words)
        if lead is None:
            return None
        words = words[lead.end() :].lstrip()
    return None


def _stop(stop: re.Match[str], measure: Measure) -> int:
    number = stop["section"] or stop["named"]
    if number:
        stretches = measure.numbered(range(1, int(number) + 1))
        return stretches[0][1] if stretches else 0
    return int(stop["count"] or stop["bare"])
