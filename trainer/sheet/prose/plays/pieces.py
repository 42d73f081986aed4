"""Parts of which the play dances only some counts, told plainly: "last 8 of B" by the name of that piece of B.

A piece from its part's first count on is told as the reader knows it, "B (first 24 counts)"; any other by its own name
(`lexis.part_pieces`), which may stand wherever a part may.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.problems import Problem
from trainer.routine import Routine
from trainer.sheet.prose.lexis.part_pieces import piece_name
from trainer.sheet.prose.plays.extents import Extent, Measure, extent_at, measure_of
from trainer.sheet.prose.plays.finding import found_in
from trainer.sheet.prose.plays.known_parts import named_of
from trainer.sheet.prose.plays.marked_pieces import bracketed_notes, marked_in, note_of
from trainer.sheet.prose.plays.paragraphs import Sentence, paragraphs
from trainer.sheet.prose.plays.shapes import glued, tells_lengths
from trainer.sheet.prose.plays.symbols import Named, Text, symbols, text_of
from trainer.sheet.prose.plays.unmeasured import unmeasured
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_FEWEST = 3
"""Items of a paragraph that tells a play."""
_LONGEST = 12
"""Symbols before a part that may tell how much of it is danced."""
_OF = re.compile(r" (?:of|from|in)(?: (?:the|part|an?|another|our|that|this))*")
_PARTED = {
    ",", "-", "/", "|", ">", "+", ":", ";", ".", "(", "then", "and", "&", "the", "only", "just", "but", "to", "by",
}  # fmt: skip
"""What stands before an item of a play."""
_BINDS = {"of", "after", "until", "till", "up", "through", "at", "from", "before", "end", "in", "like", "as", "with"}
"""Behind these a section's name is a place, and no item."""
_LEADS = re.compile(
    r"(?:[,(:=/|-] |(?:but|only|just|is|be|danced?|the|its|this time|it|though|with|do|take|part|for|here|now|of it|"
    r"which|that|has|we|you|by|once|more|again|comes|follows|back|time) )*"
)
_CLOSED = re.compile(
    r"(?: (?:only|again|alone|this time|of it|of that|too|here|now))*"
    r"(?:$| (?:[,;.|)/>+!-]|then\b|and\b|twice|thrice|x \d|\d (?:x|times)|before\b|followed|into\b|@|\$|so\b|with \$))"
)
_SPOKEN_OF = re.compile(
    r" (?:is|are|was|were|goes|go|turns?|faces?|looks?|brings?|begins?|starts?|ends?|has|have|like|as|may|can|means?)\b"
)
"""Behind a piece these say something of it: that dances nothing."""


@dataclass(frozen=True, slots=True)
class _Piece:
    """Some symbols of a sentence that stand for a piece of a part."""

    first: int
    """Index of its first symbol."""
    last: int
    """Index after its last."""
    part: int
    extent: Extent
    mark: Token
    """The token that names the part."""


def with_pieces(lines: Sequence[Line], routine: Routine) -> tuple[Line, ...] | None:
    """Return the lines of a phrased dance with the pieces of its parts told plainly; None where it dances none.

    `routine` is what the lines give as they stand: its parts are known by it.
    """
    named = named_of(lines, routine)
    if named is None:
        return None
    groups, plays = _paragraphs(lines, named)
    anew: dict[int, tuple[Token, ...]] = {}
    for group in plays:
        anew |= _by_marks(group, groups, named) | _unlabelled(group, named)
        for sentence in group:
            told = _told_anew(sentence, named)
            anew |= {key: tokens for key, tokens in told.items() if key not in anew}
    return tuple(_rewritten(lines, anew)) if anew else None


def _by_marks(
    play: Sequence[Sentence], groups: Sequence[Sequence[Sentence]], named: Named
) -> dict[int, tuple[Token, ...]]:
    """Return for tokens of a play's marked parts, and of the notes on them, what stands in their place."""
    marked = [one for sentence in play for one in marked_in(sentence, named)]
    anew: dict[int, tuple[Token, ...]] = {}
    if not marked:
        return anew
    telling = {id(token) for one in marked for token in one.tokens}
    for plain in (False, True):
        everything = [each for group in groups for each in group]
        inside = [note for each in everything for note in bracketed_notes(each)]
        for sentence in [*everything, *inside]:
            open_ones = [one for one in marked if id(one.tokens[0]) not in anew]
            note = note_of(sentence, open_ones, named, plain=plain)
            several = sum(id(token) in telling for token in sentence.tokens) > _FEWEST
            if not note or several:
                continue
            anew |= {id(token): () for token in sentence.tokens}
            for at, extent in note.items():
                one = open_ones[at]
                anew |= {id(token): () for token in one.tokens}
                anew[id(one.tokens[0])] = _named_anew(one.part, extent, one.tokens[0], named)
    return anew


def not_understood(lines: Sequence[Line], routine: Routine) -> list[Problem]:
    """Return findings for parts that a play dances only partly, where it was not understood how much of them."""
    named = named_of(lines, routine) if routine.play else None
    if named is None:
        return []
    groups, plays = _paragraphs(lines, named)
    return list(unmeasured(plays, groups, routine, named))


_LABEL = re.compile(r"(?:#\d+ @\d+|@\d+ \d+) : (?=.*@)")
"""A verse or chorus of the song by its number, and behind it what is danced to it."""


def _unlabelled(group: Sequence[Sentence], named: Named) -> dict[int, tuple[Token, ...]]:
    """Return for the tokens of labels nothing, where parts go by the song's: "2nd verse: Verse, last 8 of Verse"."""
    given = [(sentence, text_of(symbols(sentence.tokens, named))) for sentence in group]
    labelled = [(sentence, text, match) for sentence, text in given if (match := _LABEL.match(text.text))]
    if len(labelled) < _LABELS:
        return {}
    return {
        id(token): ()
        for sentence, text, match in labelled
        for token in sentence.tokens[: text.symbols[len(match[0].split()) - 1].after]
    }


_LABELS = 2
_Group = list[Sentence]


def _paragraphs(lines: Sequence[Line], named: Named) -> tuple[list[_Group], list[_Group]]:
    """Return the paragraphs that tell no steps, and those of them that tell the play."""
    told = found_in(lines, named).play.lines
    groups = list(paragraphs(lines, named.parts))
    return groups, [group for group in groups if _tells_play(group, told, named)]


def _tells_play(group: Sequence[Sentence], told: set[int], named: Named) -> bool:
    """Whether a paragraph tells the play: the one that was found, or one that names as many parts."""
    items = sum(one.part >= 0 or one.extra is not None for each in group for one in symbols(each.tokens, named))
    within = any(each.place in told for each in group)
    return items >= _FEWEST and (within or not told)


def _told_anew(sentence: Sentence, named: Named) -> dict[int, tuple[Token, ...]]:
    """Return for tokens of a sentence, by their identity, what stands in their place."""
    given = symbols(sentence.tokens, named)
    text = text_of(given)
    if tells_lengths(given, named) or _defines(text):
        return {}
    starts = [0, *(one.after for one in given)]
    anew: dict[int, tuple[Token, ...]] = {}
    for piece in _pieces(text, named):
        tokens = sentence.tokens[starts[piece.first] : starts[piece.last]]
        anew |= {id(token): () for token in tokens[1:]}
        anew[id(tokens[0])] = _named_anew(piece.part, piece.extent, tokens[0], named)
    return anew


def _defines(text: Text) -> bool:
    """Whether a sentence says what something is, outside of brackets: "A+ = A without A4"."""
    return "=" in re.sub(r"\([^)]*\)", "", text.text)


def _named_anew(part: int, extent: Extent, at: Token, named: Named) -> tuple[Token, ...]:
    name, counts = named.parts[part], extent.opens
    if not counts:
        return (word_like(at, piece_name(name, extent.stretches)),)
    words = (mark_like(at, "("), word_like(at, "first"), number_like(at, counts), word_like(at, "counts"))
    return (word_like(at, name), *words, mark_like(at, ")"))


def _pieces(text: Text, named: Named) -> Iterator[_Piece]:
    """Yield the pieces that a sentence dances, in turn."""
    done = 0
    for at, one in enumerate(text.symbols):
        if one.part < 0 or at < done:
            continue
        measure = measure_of(named, one.part)
        if opened := _opening_sections(text, at, measure):
            # "Only A1 and A2" is one beginning, and no A2.
            done = opened
            continue
        found = (
            _before(text, at, done, measure)
            or _by_sections(text, at, measure)
            or _dashed(text, at, measure)
            or _behind(text, at, measure)
        )
        if found is not None:
            yield found
            done = found.last


def _opening_sections(text: Text, at: int, measure: Measure) -> int:
    """Return the index after the sections named from one on, where they begin their part; 0: they do not."""
    words = text.of(at, len(text.symbols)) if glued(text.symbols, at) else ""
    extent = extent_at(words, measure) if words else None
    return at + len(words[: extent.end].split()) if extent and extent.opens else 0


def _before(text: Text, at: int, done: int, measure: Measure) -> _Piece | None:
    """Return the piece of a part told before its name: "last 8 of B", "3/4 A", "sections 3-4 of A"."""
    for first in range(max(done, at - _LONGEST), at):
        before = text.symbols[first - 1].text if first else ","
        if before not in _PARTED and not before.isdecimal() and text.symbols[max(first - 1, 0)].part < 0:
            continue
        lead = text.of(first, at)
        extent = extent_at(lead, measure)
        if extent is None or (extent.opens and not extent.share):
            continue
        rest = lead[extent.end :]
        whole = not rest and (extent.share or "half" in lead)
        if (whole or _OF.fullmatch(rest)) and not _SPOKEN_OF.match(" " + text.of(at + 1, at + 2)):
            return _Piece(first, at + 1, measure.place, extent, text.symbols[at].token)
    return None


def _by_sections(text: Text, at: int, measure: Measure) -> _Piece | None:
    """Return a piece that is named by its sections: "B4", "A3 and A4", "B2-4"."""
    if not glued(text.symbols, at):
        return None
    before = text.symbols[at - 1].text if at else ","
    first = at
    if led := _RANGE_LED.search(text.of(max(at - 3, 0), at)):
        # "Sections 3 - A4".
        first = at - len(led[0].split())
        before = text.symbols[first - 1].text if first else ","
    item = before in _PARTED - {"to", "by"} or text.symbols[at - 1].part >= 0 or before.isdecimal()
    if before in _BINDS or not item or _less_before(text, first):
        return None
    words = re.split(r" ,", text.of(first, len(text.symbols)))[0]
    extent = extent_at(words, measure)
    if extent is None or extent.opens or not _CLOSED.match(words[extent.end :]):
        return None
    return _Piece(first, first + len(words[: extent.end].split()), measure.place, extent, text.symbols[at].token)


_LESS_LED = re.compile(r"(?:without|/ o|minus|less|no|not|omit\w*|skip\w*|out|off|drop\w*|except|for|but)$")
_RANGE_LED = re.compile(r"\bsections?(?: \d (?:-|to|and|&))?$")


def _less_before(text: Text, at: int) -> bool:
    """Whether what comes next is left out of the part before it."""
    return _LESS_LED.search(text.of(max(at - 3, 0), at)) is not None


def _dashed(text: Text, at: int, measure: Measure) -> _Piece | None:
    """Return the beginning of a part whose last count is joined to its name by a dash: "A-24"."""
    dash, number = (*text.symbols[at + 1 : at + 3], None, None)[:2]
    if dash is None or number is None or dash.text != "-" or not dash.token.glued or not number.token.glued:
        return None
    counts = int(number.text) if number.text.isdecimal() else 0
    closed = text.of(at + 3, at + 4) in ("", ",", "-", "/", "|", ">", ";", ".", ")", "then", "and") or (
        at + 3 < len(text.symbols) and text.symbols[at + 3].part >= 0
    )
    if not closed or counts <= len(measure.sections) or counts >= measure.counts:
        return None
    extent = Extent(((1, counts),), 0, share=True)
    return _Piece(at, at + 3, measure.place, extent, text.symbols[at].token)


def _behind(text: Text, at: int, measure: Measure) -> _Piece | None:
    """Return the piece of a part told behind its name: "B from count 17", "A (last 16)", "A without A4"."""
    if glued(text.symbols, at):
        return None
    rest = text.of(at + 1, len(text.symbols))
    lead = _LEADS.match(rest)
    words = rest[lead.end() if lead else 0 :]
    extent = extent_at(words, measure)
    if extent is None or (extent.opens and not (extent.left_out or extent.share)):
        return None
    if extent.called and not re.search(r"\(|only|just", lead[0] if lead else ""):
        return None
    after = words[extent.end :]
    if not _CLOSED.match(after) or (after.startswith(" @") and "," in (lead[0] if lead else "")):
        # "A, 3/4 B" tells how much of B.
        return None
    opened = (lead[0] if lead else "").count("(")
    end = (lead.end() if lead else 0) + extent.end
    last = at + 1 + len(rest[:end].split())
    while opened and last < len(text.symbols) and text.symbols[last].text != ")":
        last += 1
    return _Piece(at, min(last + bool(opened), len(text.symbols)), measure.place, extent, text.symbols[at].token)


def _rewritten(lines: Sequence[Line], anew: dict[int, tuple[Token, ...]]) -> Iterator[Line]:
    for line in lines:
        if not any(id(token) in anew for token in line.tokens):
            yield line
            continue
        tokens = tuple(one for token in line.tokens for one in anew.get(id(token), (token,)))
        if tokens:
            yield replace(line, tokens=tokens, source="")
