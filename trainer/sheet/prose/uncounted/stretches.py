"""Lines to stretches: what is a heading, a gap, steps without counts, steps that are counted, and none of the dance."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Literal

from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.header.gloss import Gloss
from trainer.sheet.prose.heads.headings import Heading, extra_kind, is_section_name
from trainer.sheet.prose.heads.options import is_option
from trainer.sheet.prose.heads.referring_words import POINTS, names_a_section
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.uncounted.counting_told import plays_parts, tells_how_long
from trainer.sheet.prose.uncounted.labels import Label, labels_of
from trainer.sheet.prose.uncounted.lasting import Lasting, are_told_steps, is_of_steps, lastings
from trainer.sheet.prose.uncounted.lengths_told import told_aside, told_length
from trainer.sheet.prose.words import Token

Kind = Literal["head", "gap", "steps", "counted", "said"]
TellsOrder = Callable[[Sequence[Token]], bool]

_SURE = 1.4
"""The strength of a mark that is a count for sure."""
_FITS = 0.75
_BACK = 0.15
"""What it costs that words which point back last as long as may be."""
_SHORT = {"st", "nd", "rd", "th", "fwd", "bk", "approx", "no", "w", "r", "l", "rf", "lf", "p", "vs", "rec", "ft"}
"""Words that a full stop may only shorten."""
_ENDS = {".", ";", "!"}
_NAME = 8
"""Tokens in which a line names an extra."""
_TITLE = 6
_AGAIN = {
    "and", "then", "do", "that", "all", "of", "it", "to", "the", "left", "right", "on", "with", "other", "side", "foot",
    "way", "once", "more", "again", "same", "over", "for", "this", "we", "you",
}  # fmt: skip
"""Words of a clause that only points back."""
_SIDES = {"right", "left", "r", "l", "rf", "lf", "lt", "rt"}
_LISTED = 2
"""Commas of a list of steps behind its name."""
_NAMED = 0.05
"""What it costs that the words before a colon only name the steps behind it."""
_BESIDE = 2
"""Words beside those that point back, at most."""
_SHORTEST = 12
"""Counts of a dance at least."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """A piece of a sheet, in order."""

    index: int
    """Of its line."""
    kind: Kind
    words: tuple[Token, ...] = ()
    ways: tuple[Lasting, ...] = ()
    """How words without counts may be counted."""
    told: int = 0
    """The length told beside them, 0 where none is."""
    first: int = 0
    last: int = 0
    """The first and last count of words that have counts."""
    part: str = ""
    """Of a heading: the part of a phrased dance that it begins."""
    title: bool = False
    """The words may only be the name of what follows them."""
    named: bool = False
    """They stand behind a label, as the names of sections do."""
    barred: bool = False
    """They are told as bars, by which the order may name them."""
    behind: tuple[Token, ...] = ()
    """What is said after the words and tells no step."""


def stretches_of(lines: Sequence[Line], tells_order: TellsOrder, gloss: Gloss, phrase: int) -> list[Stretch]:
    """Return the stretches of a sheet; what tells the order, extras, options and facts are none of them."""
    told_in = _told_in(lines, tells_order)
    labels = labels_of(lines, told_in)
    found: list[Stretch] = []
    before: Line | None = None
    for index in told_in:
        line = lines[index]
        if before is not None and line.number > before.tokens[-1].line + 1:
            found.append(Stretch(index, "gap"))
        before = line
        found += _of_line(index, line, labels.get(index), gloss, phrase)
    return found


def some_are_counted(lines: Sequence[Line], tells_order: TellsOrder) -> bool:
    """Whether some line of the dance has counts, and none that only label it."""
    told_in = _told_in(lines, tells_order)
    labels = labels_of(lines, told_in)
    after = {index: labels[index].last if index in labels else 0 for index in told_in}
    return any(_tells_counts(lines[index].tokens[first:]) for index, first in after.items())


def _told_in(lines: Sequence[Line], tells_order: TellsOrder) -> list[int]:
    """Return the indexes of the lines that may tell the dance: an extra lasts to the next gap or heading."""
    found: list[int] = []
    extra = False
    for index, line in enumerate(lines):
        above = lines[index - 1] if index else None
        if above is not None and line.number > above.tokens[-1].line + 1:
            extra = False
        if is_option(line.tokens) or tells_order(line.tokens):
            extra = extra or extra_kind(line.tokens[:_NAME]) is not None
            continue
        if _sizes_the_dance(line.tokens) or plays_parts(line.tokens):
            continue
        kind = extra_kind(line.tokens[:_NAME])
        extra = (extra and not _names_a_section(line)) or kind is not None
        if not extra:
            found.append(index)
    return found


_FEW_WORDS = 16
"""Tokens of a line that tells facts with walls among them, whatever its words: a message tells its steps behind."""


def _sizes_the_dance(tokens: tuple[Token, ...]) -> bool:
    """Whether a line tells how long the dance is, or its parts, and no steps: "24 counts, 4 walls, start left"."""
    facts = header_facts([tokens])
    if len(facts.part_counts) > 1 and not (facts.starts is None and are_told_steps(tokens)):
        return True
    sized = facts.counts is not None and facts.counts >= _SHORTEST
    return (
        sized
        and ((facts.walls is not None and len(tokens) <= _FEW_WORDS) or not are_told_steps(tokens))
        and not is_section_name(tokens[:_TITLE])
    )


def _names_a_section(line: Line) -> bool:
    return Heading(line.number, line.tokens[:_TITLE]).part != "" or names_a_section(line.tokens[:_TITLE])


def _of_line(index: int, line: Line, label: Label | None, gloss: Gloss, phrase: int) -> Iterator[Stretch]:
    words = line.tokens[label.last :] if label is not None else line.tokens
    if label is not None and label.name:
        length, name = told_length(label.name)
        part = Heading(line.number, name).part
        yield Stretch(index, "head", label.name, told=length, part=part)
    if not words:
        return
    if marks := _marks_of(words):
        yield _counted(index, words, marks)
        return
    yield from _uncounted(index, words, label, gloss, phrase)


def _marks_of(words: Sequence[Token]) -> list[Mark]:
    """Return the counts of words, no lengths among them."""
    return [mark for mark in marks_in(words, 0) if mark.strength >= _SURE and not _is_a_length(mark)]


def _tells_counts(words: tuple[Token, ...]) -> bool:
    """Whether words have counts, and are no range that heads others."""
    marks = _marks_of(words)
    return bool(marks) and _counted(0, words, marks).kind == "counted"


def _is_a_length(mark: Mark) -> bool:
    """Whether a number alone in brackets may be a length."""
    return mark.closed and len(mark.places) == 1 and not mark.start.sub and (mark.start.number or 0) > 1


def _counted(index: int, words: tuple[Token, ...], marks: Sequence[Mark]) -> Stretch:
    numbers = [place.number for mark in marks for place in mark.places if place.number]
    if len(marks) == 1 and marks[0].spread and marks[0].last - marks[0].first == len(words):
        return Stretch(index, "head", words, told=len(numbers))
    return Stretch(index, "counted", words, first=numbers[0] if numbers else 0, last=numbers[-1] if numbers else 0)


def _uncounted(
    index: int, words: tuple[Token, ...], label: Label | None, gloss: Gloss, phrase: int
) -> Iterator[Stretch]:
    """Yield the sentences of a line that tell steps; what else is said goes with the steps before it."""
    waiting: list[Stretch] = []
    for sentence in _sentences(words):
        length, said = told_length(sentence)
        ways = _ways(said, gloss, phrase) if said and not _tells_facts(sentence) else ()
        if ways:
            named = label is not None and bool(label.name) and not waiting
            told = Stretch(index, "steps", said, ways, length, title=_is_short(words), named=named)
            waiting += _parted(told, gloss, phrase) if ways[0].counts > phrase else [told]
        elif waiting and waiting[-1].kind == "steps":
            waiting.append(replace(waiting.pop(), behind=sentence))
        else:
            waiting.append(Stretch(index, "said", sentence))
    if label is not None and label.bars and len(waiting) == 1:
        only = waiting.pop()
        bar = 3 if phrase % 3 == 0 else 4
        waiting.append(replace(only, told=only.told or label.bars * bar, barred=True))
    yield from waiting


def _parted(stretch: Stretch, gloss: Gloss, phrase: int) -> list[Stretch]:
    """Return the clauses of words that last longer than a section, each as a stretch; else the words as they are."""
    cuts = [at for at, token in enumerate(stretch.words) if token.text in (",", ";", "/")]
    parts = [stretch.words[a + 1 : b] for a, b in pairwise([-1, *cuts, len(stretch.words)])]
    ways = [_ways(part, gloss, phrase) if part else () for part in parts]
    if stretch.told or not all(ways):
        return [stretch]
    return [replace(stretch, words=part, ways=own) for part, own in zip(parts, ways, strict=True)]


def _tells_facts(words: tuple[Token, ...]) -> bool:
    """Whether words tell facts of the whole dance: "start on the right foot"."""
    facts = header_facts([words])
    sized = (facts.counts or 0) >= _SHORTEST or facts.walls is not None or tells_how_long(words)
    if facts.starts is not None and facts.wait is not None:
        return True
    waits = facts.wait is not None and not are_told_steps(words)
    return sized or waits or (facts.starts is not None and _is_plain(words))


def _is_plain(words: Sequence[Token]) -> bool:
    """Whether words list nothing, or no feet behind a comma: "weight on left to start, wait for the singing"."""
    listed = next((at for at, token in enumerate(words) if at and token.text in (",", "/", ";")), len(words))
    return not any(token.low in _SIDES for token in words[listed:]) and words[listed - 1].low not in STEP_WORDS


def _is_short(words: Sequence[Token]) -> bool:
    """Whether a line is so short that it may only name what the lines below it tell."""
    return len(words) <= _TITLE and not any(token.text in (",", ";", "/") for token in words)


def _ways(words: tuple[Token, ...], gloss: Gloss, phrase: int) -> tuple[Lasting, ...]:
    """Return how words may be counted; none where they tell no step."""
    back = _points_back(words)
    if not are_told_steps(words):
        return _as_before(words, phrase) if back else ()
    ways = tuple(way for way in _with_title(words, gloss, phrase) if way.price < _FITS)
    if not back:
        return ways
    lengths = {way.counts for way in ways}
    return (*ways, *(way for way in _as_before(words, phrase) if way.counts not in lengths))


def _with_title(words: tuple[Token, ...], gloss: Gloss, phrase: int) -> tuple[Lasting, ...]:
    """Return how words may be counted, the name that may stand before a list of them as well as not."""
    ways = lastings(words, gloss, phrase)
    colon = next((at for at, token in enumerate(words[:_TITLE]) if token.text == ":"), 0)
    if not colon or sum(token.text in (",", "/") for token in words[colon:]) < _LISTED:
        return ways
    best = {way.counts: way for way in ways}
    for way in lastings(words[colon + 1 :], gloss, phrase):
        if way.counts not in best or way.price + _NAMED < best[way.counts].price:
            best[way.counts] = replace(way, price=way.price + _NAMED)
    return tuple(best[counts] for counts in sorted(best))


def _points_back(words: Sequence[Token]) -> bool:
    """Whether words begin with what points back to steps, and do not only talk: "see you Monday, same time again"."""
    end = next((at for at, token in enumerate(words) if token.text in (",", ":", "(") and at), len(words))
    said = " ".join(token.low for token in words[:end])
    beside = [word for word in POINTS.sub(" ", said).split() if word.isalpha() and not is_of_steps(word)]
    return bool(POINTS.search(said)) and len(beside) <= _BESIDE


def _only_points_back(words: Sequence[Token]) -> bool:
    """Whether words up to the end of their sentence say no more than that steps are danced again."""
    end = next((at for at, token in enumerate(words) if token.text in _ENDS), len(words))
    said = " ".join(token.low for token in words[:end])
    beside = [word for word in POINTS.sub(" ", said).split() if word not in _AGAIN]
    return bool(POINTS.search(said)) and not beside


def _as_before(words: Sequence[Token], phrase: int) -> tuple[Lasting, ...]:
    """Return the lengths of words that point back: of a section, or a part of one."""
    lengths = (phrase,) if names_a_section(words) else (phrase, phrase // 2, phrase // 4)
    return tuple(Lasting(_BACK, tuple(map(str, range(1, counts + 1)))) for counts in lengths if counts > 1)


def _sentences(words: tuple[Token, ...]) -> Iterator[tuple[Token, ...]]:
    """Yield the sentences of a line, and what semicolons and told lengths part."""
    start = 0
    for at in range(len(words)):
        if at + 1 < len(words) and not _ends(words, at):
            continue
        sentence = words[start : at + 1]
        if any(token.kind != "mark" for token in sentence):
            yield sentence
        start = at + 1


def _in_brackets(words: Sequence[Token], at: int) -> bool:
    """Whether a token stands in round brackets that are closed in its line."""
    opened = sum(word.text == "(" for word in words[: at + 1]) - sum(word.text == ")" for word in words[: at + 1])
    return opened > 0 and any(word.text == ")" for word in words[at + 1 :])


def _ends(words: tuple[Token, ...], at: int) -> bool:
    """Whether a sentence ends with a token."""
    token, after = words[at], words[at + 1]
    if _in_brackets(words, at) or (token.text in _ENDS and after.text == "(" and told_aside(words[at + 1 :])):
        # What an aside says of some steps is none of the next ones.
        return False
    if token.text == "," and at > _LISTED:
        return _only_points_back(words[at + 1 :])
    if token.text in (")", "]"):
        opened = next((one for one in range(at - 1, -1, -1) if words[one].text in ("(", "[")), at)
        return bool(opened) and told_length(words[: at + 1])[0] > 0
    if token.text not in _ENDS:
        return False
    before = words[at - 1] if at else None
    short = token.text == "." and before is not None and before.low in _SHORT and not after.text[0].isupper()
    return not short and after.text != BREAK
