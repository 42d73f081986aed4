"""Counts that only sum up others, out of their lines; and what only names them: "5 to 8 is a jazz box. Cross on 5"."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.chain import Link
from trainer.sheet.prose.counts.marks import Mark
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_STOPS = (".", ";", ":", "!", BREAK)
_TURNS = {"quarter", "quarters", "half", "halves", "eighth", "turn", "turning", "turns", "full"}
_TELLS_MORE = _TURNS | {
    "three", "left", "right", "r", "l", "rf", "lf", "repeat", "same", "again", "as", "mirror", "wall", "walls", "only",
    "not", "no",
}  # fmt: skip
"""A turn, a foot, or steps told elsewhere: these are no mere name."""
_NAME = 8
"""Words at most that name a figure and say that it is one."""
_FEW = 2
"""Counts that are told so few at a time are no stretch."""


def named_ranges(texts: Sequence[Line], marks: Sequence[Mark]) -> list[Mark]:
    """Return the ranges of which a sentence only says what they are, the first of their counts being told next."""
    found = []
    for before, mark, after in zip((None, *marks), marks, marks[1:], strict=False):
        first, last = naming(texts[mark.line].tokens, mark)
        alone = before is None or before.line < mark.line or before.last <= first
        told = mark.line == after.line and last <= after.first and after.start == mark.start
        if alone and told and first < last:
            found.append(mark)
    return found


def naming(words: Sequence[Token], mark: Mark) -> tuple[int, int]:
    """Return where a sentence begins and ends that only names what a range is; nothing where it tells more."""
    if not (mark.spread or len(mark.places) > _FEW):
        return 0, 0
    first = next((at + 1 for at in range(mark.first - 1, -1, -1) if words[at].text in _STOPS), 0)
    # "Then a jazz box on 5 to 8." ends with its mark.
    start = mark.last - 1 if mark.ends == "." and mark.first > first else mark.last
    end = next((at for at in range(start, len(words)) if words[at].text in _STOPS), len(words))
    told = [*words[first : mark.first], *words[mark.last : end]]
    more = any(token.kind in ("fraction", "facing", "number") or token.low in _TELLS_MORE for token in told)
    named = sum(token.kind == "word" for token in told)
    return (first, end + 1) if not more and 0 < named <= _NAME and end < len(words) else (0, 0)


def without_sums(
    texts: Sequence[Line], links: Sequence[Link], gone: Sequence[Mark], named: Sequence[Mark]
) -> tuple[list[Line], tuple[Link, ...]]:
    """Return lines and links without marks that only sum up; those that are named go with their sentences."""
    texts = list(texts)
    sums = {id(mark): mark for mark in (*gone, *named)}.values()
    for mark in sorted(sums, key=lambda mark: (mark.line, mark.first), reverse=True):
        if any(link.mark is mark for link in links):
            continue
        line = texts[mark.line]
        in_sentence = any(mark is one for one in named)
        first, last = naming(line.tokens, mark) if in_sentence else _summary(line.tokens, mark, links)
        texts[mark.line] = replace(line, tokens=line.tokens[:first] + line.tokens[last:])
        width = last - first
        links = [
            replace(link, mark=replace(link.mark, first=link.mark.first - width, last=link.mark.last - width))
            if link.mark.line == mark.line and link.mark.first >= last
            else link
            for link in links
        ]
    return texts, tuple(links)


def _summary(line: Sequence[Token], mark: Mark, links: Sequence[Link]) -> tuple[int, int]:
    """Return where a mark that sums up stands, with its whole clause where its turn is told again after a colon.

    "Use 7&8 to turn a half left: on 7 a quarter left with the left to the side, ...".
    """
    after = [link.mark.first for link in links if link.mark.line == mark.line and link.mark.first >= mark.last]
    inner = min(after, default=len(line))
    colon = next((at for at in range(mark.last, inner) if line[at].text == ":"), 0)
    end = next((at for at in range(colon, len(line)) if line[at].text == "."), len(line))
    start = next((at + 1 for at in range(mark.first - 1, -1, -1) if line[at].text in _STOPS), 0)
    taken = any(start <= link.mark.first < mark.first for link in links if link.mark.line == mark.line)
    if not colon or taken or not _turns(line[start:colon]) or not _turns(line[colon:end]):
        return mark.first, mark.last
    return start, colon + 1


def _turns(words: Sequence[Token]) -> bool:
    return any(token.low in _TURNS or token.kind == "fraction" for token in words)
