"""Parts and sections by their names, labels and headings in a sentence about the order."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.lexeme import Lexeme, Names
from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS, PHRASES, ROMAN
from trainer.sheet.prose.words import Token


def spelled_parts(token: Token, names: Names) -> list[str]:
    """The parts of a word such as AABA; none where it is no such word."""
    parts = set(names.parts.values())
    fits = len(token.text) > 1 and token.text not in parts and set(token.text) <= parts
    return list(token.text) if fits and token.kind == "word" else []


def named_lexeme(tokens: Sequence[Token], at: int, names: Names, found: Sequence[Lexeme]) -> Lexeme | None:
    """A part, or a section by a name that is no number."""
    token = tokens[at]
    if token.kind != "word":
        return None
    glued = at + 1 < len(tokens) and tokens[at + 1].glued and tokens[at + 1].kind == "number"
    if glued and (place := names.sections.get(token.low + tokens[at + 1].text)) and token.low not in ("s", "w"):
        return Lexeme("q", at, at + 2, place, text=token.text + tokens[at + 1].text)
    dashed = at + 2 < len(tokens) and tokens[at + 1].text == "-" and tokens[at + 1].glued and tokens[at + 2].glued
    if dashed and (place := names.sections.get(token.low + tokens[at + 2].text)) and token.low not in ("s", "w"):
        return Lexeme("q", at, at + 3, place, text=token.text + tokens[at + 2].text)
    before = [lexeme.kind for lexeme in found[-3:]]
    listed = before[-1:] == ["s"] or (before[-2:-1] == ["x"] and before[-1] in ("&", ",", "-", "/", "U"))
    if listed and (len(token.text) == 1 or token.low in ROMAN):
        place = names.sections.get(token.low) or ROMAN.get(token.low) or ord(token.low[0]) - ord("a") + 1
        return Lexeme("x", at, at + 1, place, text=token.text)
    if token.low in ("part", "parts"):
        # Of a dance in parts the word goes with the part's name; else "part one" is a section.
        return Lexeme("" if names.parts else "s", at, at + 1)
    defined = at + 1 < len(tokens) and (
        tokens[at + 1].text in ("=", ":") or (not at and tokens[1].low in ("is", "means"))
    )
    if token.text == "T" and (names.parts or defined) and "t" not in names.parts:
        return Lexeme("T", at, at + 1)
    name = names.parts.get(token.low) or (names.parts.get(token.low[:-1]) if _is_plural(tokens, at) else None)
    if name is None or (len(token.text) == 1 and token.text != name):
        return None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    plural = after is not None and after.text == "'"
    return Lexeme("p", at, at + 1 + plural, text=name)


def _is_plural(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word may be the plural of a part's name: "two Bs", but hardly "as"."""
    token = tokens[at]
    if token.low == "as":
        return token.text == "As" and at > 0
    return token.low.endswith("s") and (len(token.text) > 2 or token.text[0].isupper())


def titled_lexeme(tokens: Sequence[Token], at: int, names: Names, found: Sequence[Lexeme]) -> Lexeme | None:
    """A section by the words of its heading, where a place may be told: "after Lanterns", "do LANTERNS"."""
    if (label := _labelled(tokens, at, names, found)) is not None:
        return label
    if (section := _with_its_noun(tokens, at, names)) is not None:
        return section
    before = [one.kind for one in found[-2:]]
    if before[-1:] == ["u"]:
        before = ["D"]
    if not before or tokens[at].kind != "word":
        return None
    listed = before[-1] in ("&", ",") and before[-2:-1] == ["q"]
    headed = _OF_A_WALL.fullmatch("".join(one.kind for one in found)) is not None
    if before[-1] not in "AEUBZJDIjKu>" and not listed and not headed:
        return None
    for words in sorted(names.titles, key=len, reverse=True):
        own = [token.low for token in tokens[at : at + len(words)]]
        if tuple(own) == words:
            written = tokens[at].text[0].isupper() or len(words) > 1
            if (words in names.phrases or words in PHRASES) and not tokens[at].text.isupper():
                continue
            if _counts_sections(tokens, at + len(words)):
                continue
            if before[-1] in "AEUBZ" or written or listed:
                last = at + len(words)
                while last < len(tokens) and names.titles.get((tokens[last].low,)) == names.titles[words]:
                    last += 1
                return Lexeme("q", at, last, text=names.titles[words])
    return None


def _counts_sections(tokens: Sequence[Token], end: int) -> bool:
    """Whether a number ends a name and the sections that it counts follow: "the first six figures"."""
    counted = tokens[end].low if end < len(tokens) else ""
    several = counted == "sixes" or (counted.endswith("s") and counted.removesuffix("s") in _SECTION_NOUNS)
    return tokens[end - 1].low in NUMBERS and several


_OF_A_WALL = re.compile(r"[IU]?(?:wn|on?w)(?:[,(]?[IyU]?f[)]?)*[:,\-]")
"""A wall and where it starts, before what is danced of it: "Wall 4, from 12: Red Row, then the Freeze"."""
_SECTION_NOUNS = {"eight", "section", "set", "block", "six", "phrase", "figure"}


def _with_its_noun(tokens: Sequence[Token], at: int, names: Names) -> Lexeme | None:
    """A section by a word of its heading with the word for sections after it: "the middle eight"."""
    told = at + 1 < len(tokens) and tokens[at + 1].low in _SECTION_NOUNS and not _counts_sections(tokens, at + 2)
    name = names.titles.get((tokens[at].low,)) if told else None
    return Lexeme("q", at, at + 2, text=name) if name is not None else None


_AFTER_LABELS = {
    "is",
    "are",
    "has",
    "to",
    "and",
    "with",
    "only",
    "then",
    "as",
    "up",
    "until",
    "till",
    "through",
    "plus",
}
"""After these a label stands by itself: "SECOND as far as count 4", but no "second wall"."""


_LETTERS = frozenset("ABCDEFGH")
"""Labels that are words or feet as well: a section only where its place is told, "between C and D"."""


def _heads_its_pieces(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> bool:
    """Whether a colon behind a wall leads to the first of several labels: "the seventh is short: I and II"."""
    after = [token.low for token in tokens[at + 1 : at + 2]]
    return [one.kind for one in found[-1:]] == [":"] and any(one.kind in "wt" for one in found) and after in (
        ["and"], ["to"], [","], ["&"],
    )  # fmt: skip


def _labelled(tokens: Sequence[Token], at: int, names: Names, found: Sequence[Lexeme]) -> Lexeme | None:
    """A section by the label that numbers it in words: "after TWO", "I to IV"."""
    text = tokens[at].text
    if [one.kind for one in found[-3:]] == ["s", "n", "U"]:
        # "Sections One to Three" are told by their numbers.
        return None
    plain = text[0].isupper() and len(text) > 1 and tokens[at].low not in ORDINALS
    if tokens[at].low in ("section", "sections"):
        # "EIGHT TWO" where the sheet calls its sections so.
        return None
    kinds = [one.kind for one in found[-2:]]
    led = kinds[-1:] and (
        kinds[-1] in "IAEUBjDuZKz"
        or _heads_its_pieces(tokens, at, found)
        or (kinds[-1] in ("&", ",", "-", "U") and kinds[:1] == ["q"])
    )
    if text not in names.labels and plain and led:
        # "As far as 4a of Three", "dance One and Two only".
        text = text.upper()
    if text not in names.labels or (text in _LETTERS and not led):
        return None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    listed = after is None or after.kind in ("mark", "amp") or after.low in _AFTER_LABELS
    if (len(text) == 1 or tokens[at].low in ORDINALS) and not listed:
        return None
    return Lexeme("q", at, at + 1, text=names.labels[text] or text)
