"""Walls told by the labels of their sections: "wall 3 (1)(2)(3) then top", "4 | a b br c d", "W2: A-C, restart".

The labels are those that open the sheet's sections, one after the other: 1, 2, 3 or a, b, c, in brackets or before a
mark. A row that lists them from the first on is told in sections: "sections 1 - 3", "all, bridge after section 2".
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.listings.naming import naming_of
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, word_like
from trainer.sheet.prose.words import Token

_OPENS = frozenset("([{#")
_CLOSES = frozenset({")", "]", "}", ":", ".", "-", BREAK, "/", ">"})
_BETWEEN = frozenset({",", "+", "&", ")", "(", "[", "]", "/", ">", "and", "then", "{", "}", ".", "•"})
_UP_TO = frozenset({"-", "to", "through", "thru"})
_SECTIONS = words_in(
    "fig figs figure figures section sections sec secs eight eights block blocks part parts row rows s"
)
_COUNTED = words_in("count counts ct cts beat beats bar bars measure measures")
_AS_FAR = words_in("to until till through thru") | _COUNTED
_KINDS = words_in("tag bridge ending")
_AND_SO_ON = words_in("etc etcetera")
_LEADING = _SECTIONS | words_in("facing faces face at from starts start starting begins begin on to is dance do")
_PHRASED = re.compile(r"\bphrased\b|\bparts? [a-d]\b|\bin (?:two|three|four|2|3|4) parts\b")
"""A sheet that says so plays parts; its letters are theirs."""
_LONGEST = 2
"""Letters of a label."""
_FEWEST = 2
"""Sections."""
_FAR = 12
"""Tokens at most between a wall's name and its sections."""
_NEAR = 3
"""Lines from a heading to the row that it names, at most."""


@dataclass(frozen=True, slots=True)
class _Labels:
    """The labels of a sheet in order, and those of its extras."""

    mains: tuple[str, ...]
    extras: dict[str, str]
    """With the word for what they are."""

    def first_of(self, tokens: Sequence[Token], at: int) -> tuple[list[str], int]:
        """Return the labels that a token tells, several glued ones too, and the index after it."""
        token = tokens[at]
        if token.low in _KINDS:
            numbered = at + 1 < len(tokens) and tokens[at + 1].kind == "number" and token.low not in self.extras
            return [token.low], at + 1 + (numbered and tokens[at + 1].text not in self.mains)
        if token.low in self.mains or token.low in self.extras:
            return [token.low], at + 1
        if token.kind == "word" and len(token.low) > 1 and token.low in "".join(self.mains):
            return list(token.low), at + 1
        return [], at


def with_labelled_walls(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines; walls that are told by the labels of their sections tell how many sections they dance."""
    best: dict[int, Line] = {}
    parts = any(_PHRASED.search(line.words) for line in lines)
    for labels in _labels_of(lines):
        if parts and not labels.mains[0].isdecimal():
            # "First you dance A and B" plays parts.
            continue
        told = {at: row for at, line in enumerate(lines) if (row := _told(line, labels))}
        told = {at: row for at, row in told.items() if _is_sure(lines[at]) or (at - 1 in told or at + 1 in told)}
        if len(told) > len(best):
            best = told
    return tuple(best.get(at, line) for at, line in enumerate(lines))


def _labels_of(lines: Sequence[Line]) -> Iterator[_Labels]:
    """Yield the chains of labels that open lines, each kind of mark around them by itself."""
    opened = [(at, *_label(line)) for at, line in enumerate(lines)]
    for style in dict.fromkeys(style for _, _, style in opened if style):
        own = [(at, label) for at, label, kind in opened if kind == style]
        mains: list[str] = []
        wanted: tuple[str, ...] = ("1", "a")
        for _, label in own:
            if label in wanted:
                mains.append(label)
                wanted = (str(int(label) + 1),) if label.isdecimal() else (chr(ord(label) + 1),)
        extras = {
            label: kind for at, label in own if label not in mains and (kind := _extra(lines, at, label)) in _KINDS
        }
        if len(mains) >= _FEWEST:
            yield _Labels(tuple(mains), extras)


def _label(line: Line) -> tuple[str, str]:
    """Return the label that opens a line, and how it is marked; empty texts where none does."""
    tokens = [token for token in line.tokens if token.text != "*"]
    first = 0
    while first < len(tokens) and tokens[first].text == BREAK:
        first += 1
    opens = first < len(tokens) and tokens[first].text in _OPENS
    first += opens
    worded = first + 1 < len(tokens) and tokens[first].low in _SECTIONS
    first += worded
    if worded and tokens[first].text == ".":
        first += 1
    if first >= len(tokens) or tokens[first].kind not in ("word", "number") or len(tokens[first].low) > _LONGEST:
        return "", ""
    after = tokens[first + 1].text if first + 1 < len(tokens) else ""
    if after == "-" and first + 2 < len(tokens) and tokens[first + 2].kind == "number":
        return "", ""  # "1-4" are counts
    if not worded and after not in _CLOSES:
        return "", ""
    naming = naming_of(line.tokens)
    if naming is not None and naming.worded:
        return "", ""
    return tokens[first].low, "worded" if worded else f"{opens}{after}"


def _extra(lines: Sequence[Line], at: int, label: str) -> str:
    """Return the word for an extra that a label opens: told after it, or at the head above it."""
    line = lines[at]
    own = [token for token in line.tokens[:6] if token.kind == "word" and token.low != label]
    if kind := extra_kind(own[:2]):
        return kind
    for above in reversed(lines[max(0, at - _NEAR) : at]):
        if len(above.tokens) <= 2 * _NEAR and (kind := extra_kind(above.tokens)):
            return kind
    return ""


def _is_sure(line: Line) -> bool:
    """Whether a line names its wall by more than a number."""
    naming = naming_of(line.tokens)
    return naming is not None and naming.worded


def _told(line: Line, labels: _Labels) -> Line | None:
    """Return the row of a wall with its labels told as sections; nothing where it is none."""
    naming = naming_of(line.tokens)
    if naming is None or naming.number is None or (not naming.worded and labels.mains[0].isdecimal()):
        return None
    for first in range(naming.last, min(naming.last + _FAR, len(line.tokens))):
        told, last = _run(line.tokens, first, labels)
        if not told:
            continue
        if line.tokens[first - 1].low in _COUNTED:
            return None
        plain = all(token.kind != "word" or token.low in _LEADING for token in line.tokens[naming.last : first])
        bracketed = plain and line.tokens[first - 1].text in ("(", "[")
        if not _are_sections(told, labels, bracketed=bracketed) or not (naming.worded or len(told) > 1):
            continue
        rest = [token for token in line.tokens[last:] if token.low not in _AND_SO_ON]
        if _names_more(rest):
            return None
        if rest and rest[0].kind == "word" and any(token.low in STEP_WORDS for token in rest[:_NEAR]):
            continue  # "add at end: 1-4 R jazz box" counts steps
        opened = first
        while opened > naming.last and line.tokens[opened - 1].text in ("(", "["):
            opened -= 1
        if opened > naming.last and line.tokens[opened - 1].low in _SECTIONS:
            opened -= 1
        said = _said(told, labels, line.tokens[first])
        parted = rest and rest[0].text != "," and rest[0].kind == "word"
        comma = [mark_like(line.tokens[first], ",")] if parted else []
        celled = naming.worded or any(token.text == BREAK for token in line.tokens)
        named = () if celled else (word_like(line.tokens[0], "wall"),)
        return replace(line, tokens=(*named, *line.tokens[:opened], *said, *comma, *rest))
    return None


def _names_more(rest: Sequence[Token]) -> bool:
    """Whether another section is named at once, which is none of the labels, or a count of the last one: "s3 to 4a"."""
    at = next((at for at, token in enumerate(rest) if token.low not in _BETWEEN), len(rest))
    return at + 1 < len(rest) and rest[at].low in _SECTIONS | _AS_FAR and rest[at + 1].kind == "number"


def _run(tokens: Sequence[Token], first: int, labels: _Labels) -> tuple[list[str], int]:
    """Return the labels that stand one after the other from a token on, and the index after them."""
    told: list[str] = []
    last = at = first
    ranged = False
    while at < len(tokens):
        token = tokens[at]
        found, after = labels.first_of(tokens, at)
        if found and ranged and told[-1] in labels.mains and found[0] in labels.mains:
            if after < len(tokens) and tokens[after].glued and tokens[after].low in ("&", "a", "e"):
                # "s1 s2, s3 to 4&a" goes as far as a count of the third.
                return [], first
            low, high = (labels.mains.index(one) for one in (told[-1], found[0]))
            found = list(labels.mains[low + 1 : high + 1])
        ranged = False
        if found:
            told += found
            last = at = after
        elif told and token.low in _UP_TO and at + 1 < len(tokens):
            ranged, at = True, at + 1
        elif token.low in _BETWEEN or (token.low in _SECTIONS and at + 1 < len(tokens)):
            if not told and at == first:
                return [], first
            at += 1
        else:
            break
    while last < len(tokens) and tokens[last].text in (")", "]"):
        last += 1
    return told, last


def _are_sections(told: Sequence[str], labels: _Labels, *, bracketed: bool) -> bool:
    """Whether labels go from the first section on, one by one, with nothing but extras between them."""
    mains = [label for label in told if label in labels.mains]
    listed = len(mains) > 1 or bracketed
    return listed and tuple(mains) == labels.mains[: len(mains)] and told[0] in labels.mains


def _said(told: Sequence[str], labels: _Labels, like: Token) -> list[Token]:
    """Return labels as words: how many sections, and the extras with their places."""
    mains = [label for label in told if label in labels.mains]
    words = ["all"] if len(mains) == len(labels.mains) else ["sections", "1", "-", str(len(mains))]
    danced = 0
    for label in told:
        if label in labels.mains:
            danced += 1
            continue
        words += [",", labels.extras.get(label, label)]
        if danced < len(mains):
            words += ["after", "section", str(danced)]
    return [_like(like, word) for word in words]


def _like(like: Token, word: str) -> Token:
    if word.isdecimal():
        return replace(word_like(like, word), kind="number")
    return mark_like(like, word) if not word.isalpha() else word_like(like, word)
