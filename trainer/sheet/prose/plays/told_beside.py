"""What stands beside the items of a play: lengths and steps of an extra, labels that only name a verse, rows of counts.

Lines of a list may put an extra in its place and tell its steps at once.
"""

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from trainer.sheet.prose.plays.bodies import body_in
from trainer.sheet.prose.plays.paragraphs import Sentence
from trainer.sheet.prose.plays.shapes import names_parts
from trainer.sheet.prose.plays.symbols import Extra, Named, Symbol, text_of
from trainer.sheet.prose.plays.told_items import Play, Told
from trainer.sheet.prose.words import Token

IS_NAMED = re.compile(
    r"\$\S+(?: (?:[,:;=(-]|which|is|are|of|just|only|\d+|counts?|beats?|cts?|c|slow|long|\)))*"
    r" (?:[,:;=(-])(?: (?:\d+|just|only|of|counts?|which|is))* $"
)
"""An extra, perhaps with its length, before its steps: "then the Tag (4 counts), sways R, L", "the Tag (rock R)"."""
_LENGTH = re.compile(
    r"\$\S+[ ,:;=(-]*(?: (?:which|is|are|of|just|only|lasts))* ?(\d+) ?-? ?(?:counts?|beats?|cts?|c)\b|"
    r"\$\S+[ ,:;=(-]*(?:we |you |all )*(?:holds?|waits?|pauses?|freezes?)(?: for)? (\d+)\b"
)
Bodies = list[tuple[Extra, tuple[Token, ...], int | None]]
"""Extras with the steps that brackets told of them, and their lengths in counts; None: it is not told."""
_LABEL = "~"
"""Opens the text of a name that is only a label."""
_OFTEN = 2
"""A line that names the parts otherwise speaks of each only so often: "VERSE = A, CHORUS = B"."""
_SAYS = {
    "is",
    "=",
    ":",
    "-",
    "(",
    "does",
    "do",
    "goes",
    "has",
    "means",
    "dance",
    "we",
    "you",
    "part",
    "|",
    ",",
    "to",
    "the",
}


def length_told(lead: Sequence[Symbol]) -> int | None:
    """Return the length told of the last extra before its steps."""
    found = [int(match[1] or match[2]) for match in _LENGTH.finditer(text_of(lead).text)]
    return found[-1] if found else None


def without_labels(given: Sequence[Symbol], named: Named) -> tuple[Symbol, ...]:
    """Return symbols; another name of a part, just before the part itself, only says to what it is danced.

    "Verse 1 A A, chorus = B", where the verse is A.
    """
    done: list[Symbol] = []
    for at, one in enumerate(given):
        if one.part >= 0 and one.token.low in named.aliases and _names_next(given, at):
            one = Symbol(_LABEL + one.token.low, one.token, after=one.after)
        done.append(one)
    return tuple(done)


def _names_next(given: Sequence[Symbol], at: int) -> bool:
    """Whether the part that a name stands for follows it under its letter, nothing but its number between."""
    for one in given[at + 1 : at + 6]:
        if one.part >= 0:
            return one.part == given[at].part and len(one.token.text) == 1 < len(given[at].token.text)
        if not (one.text.lstrip("#").isdecimal() or one.text in _SAYS):
            return False
    return False


def only_names_parts(given: Sequence[Symbol]) -> bool:
    """Whether a line only gives the parts other names, and is no play told with these: "verse = A A / chorus = B"."""
    parts = [one.part for one in given if one.part >= 0]
    return names_parts(given) and all(parts.count(part) <= _OFTEN for part in parts)


def tells_labels(given: Sequence[Symbol]) -> bool:
    """Whether a sentence only says which part goes with what: "each verse is A twice, every chorus is B"."""
    return any(
        one.text.startswith(_LABEL) and at > 0 and given[at - 1].text in ("each", "every", "all")
        for at, one in enumerate(given)
    )


Bracketed = list[tuple[Extra, tuple[Token, ...], int | None]]
"""Extras with their steps and length, as brackets told them."""


_APPOSED = re.compile(r"(?:is|are|comes?|goes|follows?|belongs?|fits?|fills?|stands?|gets?|has to be)\b")


def with_apposed(given: Sequence[Symbol], opens_steps: Callable[[Sequence[Symbol], int], bool]) -> tuple[Symbol, ...]:
    """Return symbols, steps that stand beside their extra between commas in brackets.

    "A two-count tag, stomp R and stomp L, is added after the first B".
    """
    done = list(given)
    for at in range(1, len(given)):
        if given[at].text != "," or given[at - 1].extra is None or not opens_steps(given, at + 1):
            continue
        ends = (end for end in range(at + 1, len(given) - 1) if given[end].text == ",")
        end = next((end for end in ends if _APPOSED.match(given[end + 1].text)), 0)
        if end and all(one.part < 0 and one.text not in "()" for one in given[at:end]):
            done[at], done[end] = (replace(given[one], text=mark) for one, mark in ((at, "("), (end, ")")))
    return tuple(done)


def without_bracketed(
    given: Sequence[Symbol], opens_steps: Callable[[Sequence[Symbol], int], bool]
) -> tuple[tuple[Symbol, ...], Bodies]:
    """Take the brackets out that tell an extra's steps before other items come: "the tag (sway R, L), B, ...".

    Return the other symbols, and each such extra with its steps and its length.
    """
    done: list[Symbol] = []
    told: list[tuple[Extra, tuple[Token, ...], int | None]] = []
    at = 0
    while at < len(given):
        extra = given[at - 1].extra if at else None
        end = next((index for index in range(at, len(given)) if given[index].text == ")"), 0)
        inside = given[at + 1 : end]
        more = any(one.part >= 0 for one in given[end + 1 :])
        first = _past_length(inside)
        if given[at].text != "(" or extra is None or not more or any(one.part >= 0 for one in inside) or not inside:
            done.append(given[at])
            at += 1
            continue
        body = body_in([one.token for one in inside[first:]]) if opens_steps(inside, first) else ()
        if not body:
            done.append(given[at])
            at += 1
            continue
        told.append((extra, body, length_told(given[at - 1 : end])))
        at = end + 1
    return tuple(done), told


def _past_length(inside: Sequence[Symbol]) -> int:
    """Return the index after a length that opens a bracket: "(4 counts, sway R, ...)"."""
    match = re.match(r"(?:just |only )?\d+ (?:counts?|beats?|cts?|c) (?:[,:;-] )?", text_of(inside).text)
    return match[0].count(" ") if match else 0


def give_bodies(items: Sequence[Told], told: Bodies) -> None:
    """Give the extras among some items the steps that brackets told."""
    for extra, body, counts in told:
        for item in items:
            if item.extra == extra:
                item.body, item.counts = body, counts


def put_in_column(play: Play, defined: Sequence[tuple[int, Extra, Sentence]]) -> None:
    """Put extras, whose steps lines between those of a list tell, where their lines stand."""
    shift = 0
    for place, extra, sentence in defined:
        more = place < len(play.items) - shift
        if not place or any(item.extra == extra for item in play.items) or not (more or extra.kind == "ending"):
            continue
        play.items.insert(place + shift, Told(sentence.tokens[0], extra=extra))
        shift += 1


def without_lost_bracket(body: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return steps without a bracket at their end that opened before them."""
    texts = [token.text for token in body]
    return body[:-1] if texts[-1] == ")" and texts.count("(") < texts.count(")") else body


def takes_counts(play: Play, given: Sequence[Symbol], named: Named) -> bool:
    """Take a row of a table that says how much of each part is danced."""
    counts = [int(one.text) for one in given if one.text.isdecimal()]
    words = [one for one in given if one.token.kind == "word"]
    items = [item for item in play.items if item.part >= 0]
    if len(counts) < 2 or len(words) > 2 or len(counts) not in (len(items), len(play.items)):
        return False
    for item, many in zip(items if len(counts) == len(items) else play.items, counts, strict=True):
        if item.part >= 0 and 0 < many < named.lengths[item.part]:
            item.cut = many
    return True
