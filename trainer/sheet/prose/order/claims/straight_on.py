"""Sentences that go straight from one section to a later one: what lies between is left out, and told so.

"On wall 3 go straight from section 1 to section 3" says "on wall 3 leave out section 2"; so does a list of the sections
that are danced, "wall 3: sections 1, 3 and 4 only".
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.lexis.vocabulary import ORDINALS
from trainer.sheet.prose.text.tokens import tokens_of
from trainer.sheet.prose.words import Token

_PLACE = "|".join(word for word, number in ORDINALS.items() if number < 13)
_ONE = rf"(?:the )?(?:sections? (?P<{{0}}>\d+)|(?P<{{0}}_>{_PLACE}) section)"
_FROM, _TO = _ONE.format("a"), _ONE.format("b")
_GOES = (
    r"(?:you |we |everyone |they )?(?:go|goes|going|jumps?|skips?|moves?|pass|passes|cut|carry|carries|continues?|"
    r"proceed|dance|step|leap|hop)(?: on| straight| directly| right| immediately| at once| through)*"
)
_ON = r"(?:straight |directly |right |on )*"
_THEN = r"(?:and |then |and then |but then )?"
_WAYS = (
    re.compile(
        rf"\b(?:{_GOES} )?(?:straight |directly )?from (?:the end of )?{_FROM} {_ON}(?:to|into|onto|on to) "
        rf"(?:the start of )?{_TO}\b"
    ),
    re.compile(
        rf"\b(?:after|(?:dance|do|complete|finish)(?: only| just)?) {_FROM} ?,? ?{_THEN}{_GOES} "
        rf"(?:to|into|onto|on to|with|at) {_TO}\b"
    ),
    re.compile(rf"\bsections? (?P<a>\d+) ?,? (?:and )?then (?:straight |directly |right )+(?:on )?(?:to|into) {_TO}\b"),
)
_ONLY = re.compile(
    r"\b(?:(?:dance|do) )?(?:only|just) (?:dance )?sections (?P<list>\d+(?: ?(?:,|and|&|\+) ?(?:and )?\d+)+)|"
    r"\b(?:(?:dance|do) )?sections (?P<list_>\d+(?: ?(?:,|and|&|\+) ?(?:and )?\d+)+) only\b"
)
_OUT = (
    r"(?:leav(?:e|es|ing)|miss(?:es|ing)?|omit(?:s|ting)?|skip(?:s|ping)?|drop(?:s|ping)?|without|cut(?:s|ting)?)"
    r"(?: out| off)?"
)
_PASSIVE = r"(?:is |are )?(?:left out|missed out|missed|skipped|omitted|dropped|not danced|cut)"
_LEADS = r"(?: ?[,;:.] ?| )?(?:\b(?:so|and|thus|thereby|i\.e\.|that is|then|meaning) )*"


def told_straight_on(tokens: Sequence[Token], sections: int) -> tuple[Token, ...]:
    """Return a sentence that goes from a section to a later one, of so many, as one that leaves out those between."""
    text = " ".join(token.low for token in tokens)
    for way in _WAYS:
        for match in way.finditer(text):
            first, last = _number(match, "a") + 1, _number(match, "b") - 1
            if 1 < first <= last < sections:
                return _with_left_out(tokens, text, match, first, last)
    for match in _ONLY.finditer(text):
        danced = [int(number) for number in re.findall(r"\d+", match["list"] or match["list_"])]
        gone = [number for number in range(danced[0], sections) if number not in danced]
        whole = danced[0] == 1 and danced[-1] == sections and danced == sorted(danced)
        if whole and gone and gone[-1] - gone[0] == len(gone) - 1:
            return _with_left_out(tokens, text, match, gone[0], gone[-1])
    return ()


def _number(match: re.Match[str], name: str) -> int:
    groups = match.groupdict()
    return int(groups[name]) if groups[name] else ORDINALS.get(groups.get(f"{name}_") or "", 0)


def _with_left_out(
    tokens: Sequence[Token], text: str, match: re.Match[str], first: int, last: int
) -> tuple[Token, ...]:
    """Return the tokens with what is left out for the words of a match, and without what tells it once more."""
    named = f"section {first}" if first == last else rf"sections? {first} (?:to|and|-|&) {last}"
    again = re.compile(
        rf"{_LEADS}\b(?:{_OUT} (?:the )?{named}|(?:the )?{named} {_PASSIVE})(?: (?:altogether|completely|entirely))?"
    )
    told = f"section {first}" if first == last else f"sections {first} to {last}"
    plain = tokens_of(f"leave out {told}", tokens[0].line, 1)
    place = tokens[len(text[: match.start()].split())]
    done: list[Token] = []
    gone = [found.span() for found in again.finditer(text)]
    at = 0
    for token in tokens:
        end = at + len(token.low)
        if match.start() <= at < match.end():
            if at == match.start():
                done += (_placed(word, place) for word in plain)
        elif not any(start <= at < stop for start, stop in gone):
            done.append(token)
        at = end + 1
    return tuple(done)


def _placed(token: Token, place: Token) -> Token:
    return Token(token.kind, token.text, token.low, place.line, place.column, token.glued, token.value)
