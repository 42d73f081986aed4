"""Extras that are nothing but counts of the dance: "Tag (4 counts): repeat the last four counts", "Tag = section 4".

The steps are those of the dance, so the counts that a definition names must not be taken for its own: they become one
word (`lexis/counts_again`), which is read again where the dance is known. Below a line that places the extra they
belong to its sentence. Common practice, no source.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.text.like import mark_like, number_like, word_like
from trainer.sheet.prose.words import Token

_COUNTS = r"(?:counts?|beats?|cts)"
_SECTION = r"(?:section|set|block|part|figure) (?P<{0}>\d)"
_WHERE = rf"(?:the (?:very )?last (?P<many>\d+|{'|'.join(NUMBERS)}) {_COUNTS}(?: of the (?:dance|wall|sheet))?|"
_WHERE += rf"(?:{_COUNTS} )?(?P<first>\d+) ?(?:-|to) ?(?P<last>\d+) (?:of|in) {_SECTION.format('inside')}|"
_WHERE += (
    rf"{_COUNTS} (?P<from>\d+) ?(?:-|to) ?(?P<to>\d+)(?: of the (?:dance|wall|sheet))?|{_SECTION.format('whole')})"
)
_ONCE_MORE = r"(?:once more|once again|again|over again|one more time|repeated)"
_AGAIN = re.compile(
    rf"(?:(?:you|we|just|simply|please) )*(?:(?P<leads>repeat|redo|dance again)|(?:dance|do|add))? ?{_WHERE}"
    rf"(?P<tails> {_ONCE_MORE})?(?: \( [^()]{{3,80}} \))? ?[.!]?"
)
_HEAD = re.compile(
    r"(?:the )?(?:tag|bridge)(?: \d| [a-h])?(?: \( [^()]{1,60} \)| ,? ?\w+ counts?)?(?= [:=-] | is | are )"
)
_PLACED = re.compile(r"(?:the )?(?:tag|bridge)\b.*\b(?:walls?|time|round)\b")
_LONGEST = 18
"""Tokens of a line that heads such words."""
_EIGHT = 8
_STEPS = {"right", "left", "r", "l", "rf", "lf", ":"}
_PART = r"(?:[a-h]|verse|chorus)"
_BEHIND = re.compile(
    rf"(?:tag |bridge )?(?:after|behind|following) (?:the |that |each |every )*(?:[a-z]+ |\d+ (?:st|nd|rd|th) )?"
    rf"(?:part )?(?P<part>{_PART})\b"
)
"""Which pass of a part an extra comes behind: "after the third B"."""
_OF_IT = re.compile(
    r"(?: ?[:,-])? ?(?:(?:you|we|just|please|simply|there|comes?|are|is) )*"
    r"(?P<leads>repeat |redo |dance again )?(?:do |dance )?"
    rf"(?:its|the|the very|that part's|his) last (?P<many>\d+|{'|'.join(NUMBERS)}) {_COUNTS}"
    rf"(?: of (?:it|that part|{_PART}))?"
    rf"(?P<tails> {_ONCE_MORE})?(?: ?,? then [^.;]*)? ?[.!]?"
)


def with_extras_again(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, what an extra has of the dance told as one word, or with the line that places it."""
    done: list[Line] = []
    for line in lines:
        above = done[-1] if done else None
        whole = _AGAIN.fullmatch(line.words)
        if whole is not None and (whole["leads"] or whole["tails"]) and above is not None and _heads(above, line):
            colon = mark_like(above.tokens[-1], ":")
            told = line.tokens if _PLACED.match(above.words) else _counted(line.tokens[0], whole)
            named = above.tokens if _PLACED.match(above.words) else _without_length(above.tokens)
            done[-1] = replace(above, tokens=(*_without_stop(named), colon, *told), source="")
        else:
            done.append(_defined(_behind_a_part(line)))
    return tuple(done)


def _behind_a_part(line: Line) -> Line:
    """Return "After the third B do its last four counts once more" as the tag that it is."""
    placed = _BEHIND.match(line.words)
    told = _OF_IT.fullmatch(line.words[placed.end() :]) if placed else None
    if placed is None or told is None or not (told["leads"] or told["tails"]):
        return line
    first = placed[0].count(" ") + 1
    where = (
        line.tokens[:first]
        if placed[0].startswith(("tag", "bridge"))
        else (word_like(line.tokens[0], "tag"), *line.tokens[:first])
    )
    near = line.tokens[first]
    many = next(token for token in line.tokens[first:] if token.low == told["many"])
    words = (
        word_like(near, "repeat"),
        word_like(near, "the"),
        word_like(near, "last"),
        many,
        word_like(near, "counts"),
    )
    return replace(line, tokens=(*where, mark_like(near, ":"), *words, mark_like(near, ".")), source="")


def _defined(line: Line) -> Line:
    """Return a line that names an extra and says which counts of the dance it is with these as one word."""
    head = _HEAD.match(line.words)
    if head is None or _PLACED.match(head[0]):
        return line
    parted = head[0].count(" ") + 1
    rest = " ".join(token.low for token in line.tokens[parted + 1 :])
    told = _AGAIN.fullmatch(rest)
    if told is None:
        return line
    colon = mark_like(line.tokens[parted], ":")
    named = _without_length(line.tokens[:parted])
    return replace(line, tokens=(*named, colon, *_counted(line.tokens[parted + 1], told)), source="")


def _counted(near: Token, told: re.Match[str]) -> tuple[Token, ...]:
    """Return the word for what is danced again, behind as many counts; a section's are known only with the dance."""
    if told["many"]:
        long = NUMBERS.get(told["many"]) or int(told["many"])
        word = f"again_last_{long}"
    elif told["inside"]:
        long = int(told["last"]) - int(told["first"]) + 1
        word = f"again_inside_{told['first']}_{told['last']}_{told['inside']}"
    elif told["whole"]:
        long, word = _EIGHT, f"again_section_{told['whole']}"
    else:
        long = int(told["to"]) - int(told["from"]) + 1
        word = f"again_counts_{told['from']}_{told['to']}_0"
    range_to = (mark_like(near, "-"), number_like(near, long)) if long > 1 else ()
    return (number_like(near, 1), *range_to, word_like(near, word))


def _heads(above: Line, line: Line) -> bool:
    """Whether a line names an extra, and no steps, right above the words on what it has of the dance."""
    near = line.number <= above.tokens[-1].line + 2 and len(above.tokens) <= _LONGEST
    named = re.match(r"(?:the )?(?:tag|bridge)\b", above.words) is not None
    return near and named and not {token.low for token in above.tokens} & _STEPS


def _without_length(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    """Return the name of an extra without its length, which is that of what is danced again: "Tag (4 counts)"."""
    at = next((at for at, token in enumerate(tokens) if token.text in "(,"), len(tokens))
    return tokens[:at]


def _without_stop(tokens: tuple[Token, ...]) -> tuple[Token, ...]:
    return tokens[:-1] if tokens[-1].text in (".", ",", ";", "-") else tokens
