"""Findings for parts of the play of which only some is danced, where it was not understood how much.

A part danced whole that the sheet cuts, or marks, leads the dancer astray without a word.
"""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from trainer.problems import Problem
from trainer.routine import Routine
from trainer.sheet.prose.lexis.part_pieces import piece_of
from trainer.sheet.prose.plays.extents import extent_at, measure_of
from trainer.sheet.prose.plays.marked_pieces import Marked, is_note, marked_in
from trainer.sheet.prose.plays.paragraphs import Sentence
from trainer.sheet.prose.plays.shapes import glued
from trainer.sheet.prose.plays.symbols import Named, Symbol, Text, symbols, text_of
from trainer.sheet.prose.plays.unheard import play_problem
from trainer.sheet.prose.words import Token

_UNIT = r"(?:counts?|beats?|cts?)"
_PIECE = r"(?:sections?|secs?|sets?|eights?|blocks?)"
_LESS = r"(?:without|minus|less|w ?/ ?o|skip\w*|omit\w*|drop\w*|except|leav\w+ (?:out|off)|all but)"
_BEHIND = re.compile(
    rf"(?:^|[(,:/|-] |only |just )(?:(?:the|its|only|just|but|for|a) )*(?P<told>(?:#\d |last |other )?half\b(?! turn)|"
    rf"\d/\d(?! turn)|(?:\d |a )?(?:quarters?|thirds?)\b(?! turn)|{_LESS} .+|(?:last|final|closing) \d+\b|"
    rf"(?:from|starting (?:at|on|from|with)) (?:the )?(?:{_UNIT}|{_PIECE}|#\d {_PIECE}) ?\d*|"
    rf"(?:up to|as far as) (?:and including )?(?:the )?(?:end of )?(?:the )?(?!back|front|home|next|last).+|"
    rf"(?:until|till|to) (?:and including )?(?:the )?(?:end of )?"
    rf"(?:the )?(?:{_UNIT} \d|{_PIECE} \d|#\d {_PIECE}|\d+\b)|"
    rf"{_UNIT} \d+.*|{_PIECE} \d.*|#1 \d+ {_UNIT})"
)
_BEFORE = re.compile(
    rf"(?:^| )(?P<told>(?:(?:#\d|last|other|a|just|only) )?half|\d/\d|\d (?:quarters|thirds)|"
    rf"(?:last|final|closing|#1) \d+(?: {_UNIT})?|(?:last|final|closing) {_PIECE}|#\d {_PIECE}|{_PIECE} \d[^@]*)"
    rf"(?: (?:of|from|in))?(?: (?:the|an?|part))*$"
)
_DEFINES = re.compile(
    r"(?:^|[ -])(?:is|are|means|stands for|=) (?:just |only |simply |the |a |an )*(?:#\d|last|half|\d)"
)
"""What only explains a name: "A- is just the first half of A"."""
_SURE = re.compile(rf"{_PIECE} \d|(?:last|final|closing) \d")
_RANGE_LED = re.compile(rf"\b{_PIECE} \d (?:-|to|and|&)$")
"""Stands before the last of the sections that a range names: "sections 6 - A7"."""
_PARTED = {",", ";", ".", "|", "/", ">", ":"}
_CUT = {"restart", "next", "end"}
_HINT = 'Tell it so: "A (first 16 counts)", "last 8 of B", "A from count 17"'
_STARRED = re.compile(r"\bstar|\basterisk|\bmarked\b")


def unmeasured(
    plays: Sequence[Sequence[Sentence]], groups: Sequence[Sequence[Sentence]], routine: Routine, named: Named
) -> Iterator[Problem]:
    """Yield a finding for the first place of each part at which more is told of its being cut than was understood.

    `plays` are the paragraphs that tell the play, `groups` all of them.
    """
    cut = _cut_passes(routine)
    told: dict[str, list[Token]] = {}
    marked: list[Marked] = []
    for sentence in (each for group in plays for each in group):
        text = text_of(symbols(sentence.tokens, named))
        if not _is_list(text):
            continue
        for part, token in _shares(text, named):
            told.setdefault(named.parts[part], []).append(token)
        marked += marked_in(sentence, named)
    for name, tokens in told.items():
        if len(tokens) > cut[name]:
            yield play_problem(tokens[-1], f"How much of {name} is danced here was not understood", _HINT)
    for one in marked:
        name = named.parts[one.part]
        if name not in told and not cut[name] and not _is_explained(one, groups, routine, named):
            message = f"It is not told, or was not understood, what the mark of {name} means"
            yield play_problem(one.tokens[0], message, _HINT)
            return


def _cut_passes(routine: Routine) -> Counter[str]:
    """Return how many passes of each part are cut, changed, or danced as a piece of it."""
    found: Counter[str] = Counter()
    for line in routine.order:
        if any(one.leave in _CUT or one.change or one.inserts for one in line.departures):
            found[line.part] += len(line.passes)
    for item in routine.play:
        if item.kind == "part" and (piece := piece_of(item.name)) is not None:
            found[piece[0]] += 1
    return found


def _is_list(text: Text) -> bool:
    """Whether a sentence is a list of items: hardly more words than those."""
    items = sum(one.part >= 0 or one.extra is not None for one in text.symbols)
    words = sum(one.token.kind == "word" and one.part < 0 and one.extra is None for one in text.symbols)
    return items > 1 and words <= 2 * items + 2


def _shares(text: Text, named: Named) -> Iterator[tuple[int, Token]]:
    """Yield each part of which a list tells how much is danced, though not all of it."""
    given = text.symbols
    for at, one in enumerate(given):
        if one.part >= 0 and _RANGE_LED.search(text.of(max(at - 3, 0), at)):
            yield one.part, one.token
        if one.part < 0 or glued(given, at) or piece_of(named.parts[one.part]) is not None:
            continue
        end = at + 1
        depth = 0
        while end < len(given) and (depth or (given[end].part < 0 and given[end].extra is None)):
            if not depth and given[end].text in _PARTED:
                break
            depth += (given[end].text == "(") - (given[end].text == ")")
            end += 1
        first = at
        while first and not _parts(given[first - 1]):
            first -= 1
        measure = measure_of(named, one.part)
        before = text.of(first, at)
        led = None if _DEFINES.search(before) else _BEFORE.search(before)
        for match in (_BEHIND.search(text.of(at + 1, end)), led):
            extent = extent_at(match["told"], measure) if match else None
            if match and not (extent and extent.opens == measure.counts):
                yield one.part, one.token
                if extent is None and _SURE.match(match["told"]):
                    # It has no such counts: whatever was read of it is wrong.
                    yield one.part, one.token
                break


def _parts(one: Symbol) -> bool:
    """Whether what stands before a part belongs to another item: its bracket, or a mark of the list."""
    return one.part >= 0 or one.extra is not None or one.text in _PARTED or one.text in ("(", ")")


def _is_explained(marked: Marked, groups: Sequence[Sequence[Sentence]], routine: Routine, named: Named) -> bool:
    """Whether a note tells something of a mark that is not how much is danced, or an extra is danced there."""
    notes = [
        text_of(symbols(sentence.tokens, named)).text
        for group in groups
        for sentence in group
        if is_note(sentence, marked, named) or _STARRED.search(" ".join(token.low for token in sentence.tokens))
    ]
    return any(not re.search(r"\d|half|quarter|last|without|minus|only|short|until|up to", note) for note in notes)
