"""Short pieces with names of their own beside a verse and a chorus: "The Jingle", "The Weather", told as extras.

The dance is made of the parts that are named for the song's, or lettered; a piece of eight counts at most with another
name, headed above its steps and danced once in the order of play, is what is danced before, between or behind those.
Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import count_told
from trainer.sheet.prose.habits.parts_called import name_over_steps, paragraphs_of, told_with_names
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_LONGEST = 8
"""Counts of such a piece."""
_FEWEST = 2
"""Parts of the song that the sheet heads, each another one."""
_OFTEN = 3
"""So often the order of play names those."""
_BETWEEN = ("bridge", "tag")
"""What a piece between parts is told as, the first and the second of them."""
_GOES_ON = {"after", "behind", "following", "from", "before"}
"""Before a piece they tell what stands around it."""
_STAYS = {"break"}
"""What a song has as a part of its own, though it is danced but once."""
_HEAD = 10
"""Tokens of a heading."""
_ARTICLES = {"the", "our", "a", "an", "part"}
_PARTS = {form for part in SONG_PARTS for form in (part, f"{part}s", f"{part}es")}


def with_extras_among_parts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, short pieces with their own names beside the parts of a song told as extras."""
    heads = {at: name for at in range(1, len(lines)) if (name := name_over_steps(lines, at))}
    names = list(heads.values())
    if not names or _STAYS & set(names) or len(set(names)) != len(names) or len(_song_heads(lines)) < _FEWEST:
        return tuple(lines)
    others = [line for at, line in enumerate(lines) if at and at not in heads]
    kinds = _kinds(others, names)
    free = not any(extra_kind(line.tokens) in kinds.values() for line in others if len(line.tokens) <= _HEAD)
    if len(kinds) != len(names) or not free or not all(_is_short(lines, at) for at in heads):
        return tuple(lines)
    return tuple(
        _head(line, heads[at], kinds[heads[at]])
        if at in heads
        else told_with_names(line, kinds)
        if at and not _counts_steps(line)
        else line
        for at, line in enumerate(lines)
    )


def _counts_steps(line: Line) -> bool:
    """Whether a line tells steps and their counts: who salutes there dances no Salute."""
    marks = marks_in(line.tokens, 0)
    counted = any(mark.first == 0 or mark.last == len(line.tokens) for mark in marks)
    words = {token.low for token in line.tokens}
    return counted and bool(words & STEP_WORDS) and not words & _PARTS


def _song_heads(lines: Sequence[Line]) -> set[str]:
    """Return the parts of a song that lines are headed with."""
    return {part for line in lines[1:] if len(line.tokens) <= _HEAD and (part := _song_part(line.tokens))}


def _song_part(tokens: Sequence[Token]) -> str:
    """Return the part of a song that a heading opens with; an empty text for none."""
    words = [token for token in tokens if token.kind == "word" and token.low not in _ARTICLES]
    return words[0].low if words and words[0].low in SONG_PARTS and tokens[-1].text != "." else ""


def _is_short(lines: Sequence[Line], at: int) -> bool:
    """Whether a heading tells a length of few counts, or the steps below it count no further."""
    lengths = [length for token in lines[at].tokens if (length := count_told(token))]
    if lengths:
        return max(lengths) <= _LONGEST
    group = next(group for group in paragraphs_of(lines) if lines[at] in group)
    below = group[group.index(lines[at]) + 1 :]
    counts = [mark.places[-1].number or 0 for line in below for mark in marks_in(line.tokens, 0)]
    return bool(counts) and max(counts) <= _LONGEST and not any(_song_part(line.tokens) for line in below)


def _kinds(lines: Sequence[Line], names: Sequence[str]) -> dict[str, str]:
    """Return what each name is told as, by where the order of play names it."""
    said = [[token.low for line in group for token in line.tokens] for group in paragraphs_of(lines)]
    play = max(reversed(said), key=lambda words: sum(word in _PARTS for word in words), default=[])
    parts = [at for at, word in enumerate(play) if word in _PARTS]
    if len(parts) < _OFTEN or not all(_danced(play, name) == 1 for name in names):
        return {}
    before = [name for name in names if play.index(name) < parts[0]]
    behind = [name for name in names if play.index(name) > parts[-1]]
    between = [name for name in names if name not in before + behind]
    if max(len(before), len(behind)) > 1 or len(between) > len(_BETWEEN):
        return {}
    told = dict.fromkeys(before, "intro") | dict.fromkeys(behind, "ending")
    return told | dict(zip(between, _BETWEEN, strict=False))


def _danced(play: Sequence[str], name: str) -> int:
    """Return how often the order of play has a piece danced: "After the weather" only goes on from it."""
    said = [play[max(at - 2, 0) : at] for at, word in enumerate(play) if word in (name, f"{name}s")]
    return sum(not _GOES_ON & set(before) for before in said)


def _head(line: Line, name: str, kind: str) -> Line:
    """Return a heading with the kind of its extra in the place of its name."""
    tokens = tuple(replace(one, text=kind.title(), low=kind) if one.low == name else one for one in line.tokens)
    return replace(line, tokens=tokens, source="")
