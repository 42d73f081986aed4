"""The name by which a sheet calls an extra: "THE LID (that's our tag, 4 counts)", 'TAG - "The Lid"'.

Where the name stands elsewhere in the sheet it is read as the word for the extra; of several extras of a kind, each
with a name, as that word with its number.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import takewhile

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.items.phrases import fills
from trainer.sheet.prose.lexis.vocabulary import ORDINALS, STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_WORDS = {"tag": "tag", "bridge": "bridge", "ending": "ending", "end": "ending", "finish": "ending", "finale": "ending"}
_GLUE = {
    "that", "that's", "thats", "this", "is", "it's", "its", "our", "the", "your", "a", "an", "my", "we", "call", "it",
    "i", "as", "known", "aka", "=", ":", "-", "little", "short",
}  # fmt: skip
_ARTICLES = {"the", "a", "an", "our", "my"}
_OPENERS = {"(": ")", "[": "]", '"': '"', "=": "", ":": "", "-": ""}
_PARTED = {",", "(", "[", "-", ":", "="}
_COUNTS = {"counts", "count", "beats", "cts", "ct"}
_PUTTING_IN = {
    "then",
    "plus",
    "add",
    "adds",
    "added",
    "and",
    "insert",
    "comes",
    "with",
    "do",
    "gets",
    "has",
    "+",
    "&",
    "by",
    "into",
    "make",
    "makes",
    "dance",
    "dances",
    "take",
    "perform",
}
_CELLS = {BREAK, ",", ":"}
"""What stands before an extra in a cell of its own, in the row of a wall."""
_OVER = {"end", "ends", "over", "finish", "finishes", "finished", "last", "stop", "ending", "stops", "done"}
"""Words of a row after which nothing is danced."""
_CLOSINGS = {
    "close", "closing", "goodbye", "terminus", "finis", "fin", "adieu", "epilogue", "postlude",
    "farewell", "bow", "curtain", "exit", "goodnight", "stop", "curtsey", "curtsy",
}  # fmt: skip
"""Names of what ends a dance."""
_BESIDE_A_CLOSING = {
    "from", "to", "at", "facing", "faces", "starts", "ends", "begins", "counts", "beats", "count", "wall", "pass",
    "o'clock", "only", "last", "the", "for", "on", "in", "of",
}  # fmt: skip
"""Words between the name of an ending and the numbers that stand with it."""
_FACED = ("facing", "clock")
_BEGUN = {"begun", "begins", "begin", "starts", "starting", "started", "facing", "danced", "face", "faces", "start"}
_WALLS_FACED = {"back", "front", "left", "right", "home", "side"}
_LAST = {"finish"}
"""Words of a heading that say that nothing is danced then: "LAST PAGE (three counts to finish)"."""
_ACTS = {"restart", "repeat", "continue"}
"""What is done in a wall, and no name: "Restart, still facing 6:00"."""
_LONGEST = 4
"""Words of a name."""
_SECTIONS = {"section", "sec", "block", "set", "part", "phrase", "figure", "group", "pattern", "verse", "bar"}
"""Words before a name in the rows of a table."""
_NUMBERED = {
    *_SECTIONS, "bars", "sections", "blocks", "sets", "parts", "phrases", "figures", "groups", "counts", "count",
    "beats", "measures", "measure", "lines", "line", "eight", "eights", "six", "sixes", "and", "to", "of",
    "first", "last",
}  # fmt: skip
"""What is numbered in the names of sections, and joins the numbers."""
_SURE = 1.2
"""The strength of a mark that is a count for sure."""
_DANCE = 4
"""Lines with counts at least that make a dance."""
_WALLS = {"wall", "walls", "pass", "passes", "round", "rounds", "time", "times", "go", "w", "repetition", "rotation"}
_STEPS = 4
"""Words that tell a step or more, at least."""
_MISFIT = 1.0
"""How badly words fill counts that tell no steps."""
_LONGEST_EXTRA = 12
"""Counts of an extra that is told among parts: longer ones are parts themselves."""
_HEADING = 20
"""Tokens of a line that names an extra and tells no steps."""

Name = tuple[str, ...]


def with_nicknames(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines with the sheet's own names for its extras read as tag, bridge or ending."""
    headed = {line.number: found for line in lines[1:] if (found := _named(line.tokens) or _closing(line.tokens))}
    lines = _with_lengths([_as_an_ending(line, lines) if at else line for at, line in enumerate(lines)], headed)
    if not headed:
        return tuple(lines)
    called: dict[Name, tuple[str, int]] = {}
    for name, word in headed.values():
        called.setdefault(name, (word, 1 + sum(kind == word for kind, _ in called.values())))
    many = {word: sum(kind == word for kind, _ in called.values()) for word, _ in called.values()}
    said = {name: (word, number if many[word] > 1 else 0) for name, (word, number) in called.items()}
    return tuple(
        line if line.number in headed else replace(line, tokens=tuple(_read(line.tokens, said))) for line in lines
    )


def _with_lengths(lines: Sequence[Line], headed: dict[int, tuple[Name, str]]) -> Sequence[Line]:
    """Take names that head so many counts and are put in elsewhere: "Extra, 4 counts" and "all, then the Extra"."""
    done = list(lines)
    for place, line in enumerate(lines):
        length = _before_a_length(line.tokens)
        name = length or _at_the_head(line.tokens)
        calls = [other for other in lines if other is not line and name and _puts_in(other.tokens, name)]
        if calls and not length and not _heads_steps(line.tokens):
            continue
        if not (calls and place):
            continue
        if length or _is_below(line, calls, lines) or _tells(line.tokens, calls) or _is_measured(name, line, lines):
            if extra_kind(line.tokens):
                # "ALTERNATIVE CLOSE (replaces counts 5 to 8)" says what it is.
                continue
            once = calls[0].tokens if len(calls) == 1 else ()
            named_last = bool(_LAST & {*name, *(token.low for token in line.tokens)})
            last = named_last or name[-1] in _CLOSINGS or _WORDS.get(name[-1]) == "ending"
            last = last or _is_the_last(once, name) or _closes_the_last_row(once, name, lines)
            word = "ending" if last else "prologue" if _opens(line, calls, lines) else "tag"
            headed[line.number] = name, word
            at = next(at for at, token in enumerate(line.tokens) if token.low == name[0])
            heads = replace(line.tokens[at], low=word)
            done[place] = replace(line, tokens=(*line.tokens[:at], heads, *line.tokens[at + 1 :]))
    return done


def _before_a_length(tokens: Sequence[Token]) -> Name:
    """Return the name that a line gives to a number of counts, an empty one where it gives none.

    What stands behind the number may say where to look, or when it is danced, and tells no steps: "(4 beats, below)".
    """
    at = next((at for at, token in enumerate(tokens) if token.kind == "number" or token.low in NUMBERS), 0)
    rest = [token for token in tokens[at + 1 :] if token.kind == "word"]
    if not 1 < at <= _LONGEST + 2 or tokens[at - 1].text not in _PARTED or not rest or rest[0].low not in _COUNTS:
        return ()
    begun = any(token.low in _BEGUN for token in rest)
    steps = any(token.low in STEP_WORDS and not (begun and token.low in _WALLS_FACED) for token in rest)
    if len(rest) > 1 and (len(tokens) > _HEADING or steps):
        return ()
    return _name(tokens[: at - 1], in_sentence_case=True)


def _is_the_last(tokens: Sequence[Token], name: Name) -> bool:
    """Whether the sentence that puts an extra in says after its name that this is the end."""
    lows = [token.low for token in tokens]
    at = next((at for at in range(len(lows)) if tuple(lows[at : at + len(name)]) == name), len(lows))
    rest = list(takewhile(lambda low: low != ".", lows[at + len(name) :]))
    return any(low in _OVER and rest[max(0, at - 2) : at] != ["at", "the"] for at, low in enumerate(rest))


def _closes_the_last_row(tokens: Sequence[Token], name: Name, lines: Sequence[Line]) -> bool:
    """Whether the row of the last wall dances a part of it, then an extra, no more: "6 | S | 1-16, then the Depot"."""
    number = _row_of(tokens)
    if not number or number < max(_row_of(line.tokens) for line in lines):
        return False
    lows = [token.low for token in tokens if token.kind != "mark"]
    ends = tuple(lows[-len(name) :]) == name
    # "Wall 2 ends with the Barn Door" dances all of it first.
    ends = ends and not {"ends", "end", "finishes", "finish", "closes"} & set(lows[: -len(name)])
    return ends and not {"all", "whole", "complete", "full", "through"} & set(lows)


def _row_of(tokens: Sequence[Token]) -> int:
    """Return the wall that a row of a table tells of; 0 where it is no row of one."""
    first = int(bool(tokens) and tokens[0].low in _WALLS)
    told = tokens[first : first + 2]
    row = len(told) > 1 and told[0].text.isdecimal() and (told[1].text in _CELLS or bool(first))
    return int(told[0].text) if row else 0


def _head_end(tokens: Sequence[Token]) -> int:
    """Return how many tokens stand before the first mark that may part a name from what it heads, or a facing."""
    parts = (at for at, token in enumerate(tokens) if token.text in (":", BREAK, "(", ",", "=") or token.kind in _FACED)
    return next(parts, len(tokens))


def _at_the_head(tokens: Sequence[Token]) -> Name:
    """Return the name that may stand alone in a line, or head it: "Change Purse: | 1-2 | step right"."""
    at = _head_end(tokens)
    first = int(at > 1 and tokens[0].low in _SECTIONS)
    return _name(tokens[first:at]) if 0 < at <= _LONGEST + 1 else ()


def _heads_steps(tokens: Sequence[Token]) -> bool:
    """Whether a name stands alone in its line, in a sentence, or before counts or steps."""
    at = _head_end(tokens)
    alone = at == len(tokens) or tokens[at].text in "(," or tokens[at].kind in _FACED
    return alone or bool(marks_in(tokens[at:], 0)) or _steps(tokens[at + 1 :])


def _is_below(line: Line, calls: Sequence[Line], lines: Sequence[Line]) -> bool:
    """Whether an extra stands below the first line that puts it in, and the dance above: a section does not."""
    first = min(call.number for call in calls)
    counted = [
        one for one in lines if one.number < first and any(m.strength >= _SURE for m in marks_in(one.tokens, 0, 1))
    ]
    if line.number > first and any(_is_put_in(call.tokens, at) for call in calls for at in range(len(call.tokens))):
        # A story of the play may stand above the dance; no section stands below what is put in.
        above = [one for one in lines if one.number < line.number and marks_in(one.tokens, 0, 1)]
        below = [one for one in lines if one.number > line.number and is_section_name(one.tokens)]
        return len(above) >= _DANCE and all(extra_kind(one.tokens) for one in below)
    return line.number > first and len(counted) >= _DANCE


def _opens(head: Line, calls: Sequence[Line], lines: Sequence[Line]) -> bool:
    """Whether an extra stands above all steps and is danced once, before anything else: "first dance the Hello"."""
    above = [one for one in lines if one.number < head.number and marks_in(one.tokens, 0, 1)]
    steps = [one for one in above if any(token.low in STEP_WORDS - _WALLS_FACED for token in one.tokens)]
    words = calls[0].words
    danced = [first for low in (" then ", " after ", " next ") if (first := words.find(low)) >= 0]
    at = words.find(head.tokens[0].low if head.tokens[0].low not in _ARTICLES else head.tokens[1].low)
    placed = any(token.low in _WALLS or token.low in ("after", "end") for token in calls[0].tokens[:8])
    return (
        len(calls) == 1 and not steps and not placed and (not danced or at < min(danced) or " then " not in words[:at])
    )


def _is_measured(name: Name, head: Line, lines: Sequence[Line]) -> bool:
    """Whether a line above the heading says how long the extra is, "a little Ripple of 4", and none too long."""
    said = " ".join(name)
    number = rf"\d+|{'|'.join(NUMBERS)}"
    length = re.compile(
        rf"\b{re.escape(said)}(?: ?[(,:=])?(?: (?:of|is|has|lasts))?(?: only| just)? (?P<after>{number})\b"
        r"(?! (?:times|x)\b)|"
        rf"\b(?P<before>{number})(?: -)?(?: counts?)? {re.escape(said)}\b"
    )
    found = [match for line in lines if line.number < head.number and (match := length.search(line.words))]
    told = [match["after"] or match["before"] for match in found]
    return bool(told) and all(int(NUMBERS.get(one, one)) <= _LONGEST_EXTRA for one in told)


def _tells(tokens: Sequence[Token], calls: Sequence[Line]) -> bool:
    """Whether a line tells the steps of what a wall surely puts in: "Pass 3: complete, then add the Rocker"."""
    after = next((at for at, token in enumerate(tokens) if token.text in (":", "=")), 0)
    steps = after and _steps(tokens[after + 1 :])
    return bool(steps) and all(any(token.low in _WALLS for token in call.tokens) for call in calls)


def _steps(tokens: Sequence[Token]) -> bool:
    """Whether words tell steps, with counts or without."""
    return len(tokens) >= _STEPS and min(fills(tokens, counts) for counts in range(1, 9)) < _MISFIT


def _puts_in(tokens: Sequence[Token], name: Name) -> bool:
    """Whether a line puts something in by its name: "then the Extra", "add the Jingle"."""
    for at in range(1, len(tokens) - len(name) + 1):
        if _is_called(tokens, at, name):
            before = tokens[at - 2] if at > 1 and tokens[at - 1].low in _ARTICLES else tokens[at - 1]
            row = tokens[0].kind == "number" or tokens[0].low in _WALLS
            if before.low in _PUTTING_IN or (row and before.text in _CELLS) or _is_put_in(tokens, at):
                return True
    return False


def _is_put_in(tokens: Sequence[Token], at: int) -> bool:
    """Whether what stands at a token is said to be put in: "we put in the Sways", "after it the Sways"."""
    before = [token.low for token in tokens[max(at - 3, 0) : at] if token.low not in _ARTICLES]
    put = before[-1:] == ["in"] and before[-2:-1] in (["put"], ["puts"], ["slip"], ["fit"], ["squeeze"])
    return put or (before[-2:-1] == ["after"] and before[-1:] in (["it"], ["them"], ["that"], ["this"], ["these"]))


def _is_called(tokens: Sequence[Token], at: int, name: Name) -> bool:
    """Whether a name stands at a token: in capitals as names do, or with "the" and nothing more: "then the close".

    One that is the word of a step as well is led by "the", or the only one in capitals: "Close left beside right" calls
    for no Close, "then CLOSE" does. Several words that tell no step are the name however they are written.
    """
    if tuple(token.low for token in tokens[at : at + len(name)]) != name:
        return False
    led = at and (tokens[at - 1].low in _ARTICLES or _stands_out(tokens, at))
    if name[0] in STEP_WORDS and len(name) == 1 and not led:
        return False
    if len(name) > 1 and not any(word in STEP_WORDS for word in name):
        # "Add the water break after section B".
        return True
    after = tokens[at + len(name)] if at + len(name) < len(tokens) else None
    the = at > 0 and tokens[at - 1].low == "the" and (after is None or after.kind == "mark")
    return tokens[at].text[0].isupper() or the


def _stands_out(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word is written in capitals where others are not, and ends its clause."""
    ends = at + 1 == len(tokens) or tokens[at + 1].kind == "mark"
    small = any(token.kind == "word" and token.text.islower() for token in tokens)
    return ends and small and len(tokens[at].text) > 2 and tokens[at].text.isupper()


def _named(tokens: Sequence[Token]) -> tuple[Name, str] | None:
    """Return the name of an extra and the word that it stands for, where a line gives both."""
    if len(tokens) > _HEADING:
        return None
    at = next((at for at, token in enumerate(tokens) if token.text in _OPENERS), 0)
    if not at or at > _LONGEST + 1:
        return None
    inside = next((token.low for token in tokens[at:] if token.low not in _GLUE and token.text not in _OPENERS), "")
    if inside in _WORDS and (name := _name(tokens[:at])):
        return name, _WORDS[inside]
    if tokens[at].text in "([" and extra_kind(tokens[at:]) == "change" and (name := _name(tokens[:at])):
        return name, "change"
    first = [token.low for token in tokens[:at] if token.low not in _ARTICLES]
    closing = _OPENERS[tokens[at].text]
    if closing and len(first) == 1 and first[0] in _WORDS:
        end = next((end for end in range(at + 1, len(tokens)) if tokens[end].text == closing), at)
        if name := _name([token for token in tokens[at + 1 : end] if token.low not in _GLUE - _ARTICLES]):
            return name, _WORDS[first[0]]
    return None


def _closing(tokens: Sequence[Token]) -> tuple[Name, str] | None:
    """Return the name of an ending that stands alone in its line and is also the word of a step: "The Close".

    Where it begins and ends may stand with it, and how long it is: "CLOSE - from 9:00 to 12:00", "Curtain (4 counts)".
    """
    told = tokens[1 + (tokens[0].low in _ARTICLES) :]
    if any(token.kind in ("clock", "facing", "number") or token.low in NUMBERS for token in told):
        begun = all(
            token.kind not in ("word", "fraction") or token.low in _BESIDE_A_CLOSING or token.low in NUMBERS
            for token in told
        )
        tokens = tokens[: len(tokens) - len(told)] if begun else tokens
    words = [token for token in tokens if token.low not in _ARTICLES and token.text not in (":", ".")]
    alone = len(words) == 1 and words[0].low in _CLOSINGS and words[0].text[0].isupper()
    return ((words[0].low,), "ending") if alone else None


def _as_an_ending(line: Line, lines: Sequence[Line]) -> Line:
    """Return a line that is no more than the name of an ending that is called for, "The Bow", read as its heading."""
    closing = _closing(line.tokens)
    others = [other.tokens for other in lines if other is not line]
    # "Then the close" may have been told as "then the ending" before.
    names = [*closing[:1], ("ending",)] if closing else []
    called = any(_is_called(one, at, name) for one in others for name in names for at in range(1, len(one)))
    if extra_kind(line.tokens) or not called:
        return line
    return replace(
        line, tokens=tuple(replace(one, low="ending") if one.low in _CLOSINGS else one for one in line.tokens)
    )


def _name(tokens: Sequence[Token], *, in_sentence_case: bool = False) -> Name:
    """Return the words of a name without its article; an empty one where they are no name.

    In sentence case only the first word has a capital, be it the article: "Water break", "The close".
    """
    words = [token for token in tokens if token.low not in _ARTICLES]
    plain = all(token.kind == "word" and len(token.text) > 2 for token in words)
    plain &= all(token.text[0].isupper() for token in (tokens[:1] if in_sentence_case else words))
    if not words or len(words) > _LONGEST or not plain or words[0].low in _ACTS:
        return ()
    closing = in_sentence_case and len(words) == 1 and words[0].low in _CLOSINGS
    if (extra_kind(words) or is_section_name(words)) and not closing:
        return ()
    if all(token.low in NUMBERS or token.low in ORDINALS or token.low in _NUMBERED for token in words):
        # "TWO: the same from the left" numbers a section, and so do "BARS ONE AND TWO", "Count One to Eight".
        return ()
    return tuple(token.low for token in words)


def _read(tokens: Sequence[Token], said: dict[Name, tuple[str, int]]) -> Iterator[Token]:
    at = 0
    while at < len(tokens):
        name = next((n for n in said if tuple(token.low for token in tokens[at : at + len(n)]) == n), None)
        if name is None or not _is_called(tokens, at, name):
            yield tokens[at]
            at += 1
            continue
        word, number = said[name]
        yield replace(tokens[at], low=word)
        if number:
            yield replace(tokens[at], kind="number", text=str(number), low=str(number), glued=False)
        at += len(name)
