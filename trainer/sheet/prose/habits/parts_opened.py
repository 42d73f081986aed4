"""Parts that a teacher opens in words of her own: "We learned A.", "My B goes:", "In C we sway ...", told as "Part A:".

Such an opening names one part and says little besides: no step, no count, nothing of the order; steps stand right
behind it, or in the line below. It is one where two parts at least are opened, each once and in turn. Common practice,
no source.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from trainer.sheet.prose.counts.scan import NUMBERS
from trainer.sheet.prose.heads.headings import Heading, extra_kind
from trainer.sheet.prose.lexis.vocabulary import ORDINALS, SONG_PARTS, STEP_WORDS
from trainer.sheet.prose.page.kinds import speaks_of_parts
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_LETTERS = "ABCDEFGH"
_FEWEST = 2
_LEADING = 8
"""Words before a part's name."""
_BEHIND = 9
"""Words behind it, before its steps."""
_CALLED = 3
"""Tokens that give a part another name: "is the march"."""
_STEPS = 2
"""Words of steps at least that stand behind an opening."""
_NEAR = 14
"""Tokens among which they stand."""
_WITHIN = {"in", "for", "during", "throughout", "inside"}
_SAID_OF_IT = {
    "we", "you", "i", "they", "one", "everybody", "everyone", "it", "it's", "is", "there", "there's", "are", "do",
    "dance", "begin", "start", "open", "have", "has", "comes", "come", "goes", "go", "with", "by", "first", "just",
    "simply", "always", "will", "then", "get", "make", "take", "a", "an", "the", "use", "find", "as", "follows", "i'd",
}  # fmt: skip
"""What may stand between "in A" and its first step."""
_OPENS = re.compile(
    r"^(?:,? (?:also|then|now|first|always|itself|simply|just|it|that|it's|so))*"
    r"(?: (?:opens|begins|starts|sets off|kicks off|leads off|consists|is made up|is made|is built|runs|goes)"
    r"(?: off| out)? (?:with|by|from|of|on)| is| are| reads| goes| runs)(?= )"
)
_ORDER = {
    "after", "before", "wall", "walls", "tag", "tags", "restart", "bridge", "order", "times", "twice", "once", "until",
    "again", "repeat", "ends", "end", "only", "half", "cut", "short", "last", "without", "sequence", "play", "played",
    "back", "both", "another", "alone", "facing", "faces", "turns", "time",
}  # fmt: skip
"""Words of the order, which an opening does not tell."""
_PIECES = {"bit", "part", "section", "piece", "half", "one", "stretch", "block", "figure", "eight"}
_STEP_WORDS = STEP_WORDS - {*NUMBERS, "step", "steps", "front", "home", "part", "walk", "walked", "count", "counts"}


@dataclass(frozen=True, slots=True)
class _Opening:
    """A part's name, the token after its opening, and whether the reader knows it so as it is."""

    name: str
    end: int
    plain: bool
    length: int = 0
    """The counts that it gives the part."""


def with_opened_parts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, those that open parts headed by them."""
    found = {at: opening for at in range(len(lines)) if (opening := _opening(lines, at)) is not None}
    names = [opening.name for opening in found.values()]
    if len(names) < _FEWEST or len(set(names)) < len(names) or names != sorted(names, key=_place):
        return tuple(lines)
    letters = [name for name in names if name in _LETTERS]
    if letters != list(_LETTERS[: len(letters)]):
        # Parts are named from A on; "Set B" and "Set E" are two of many sections.
        return tuple(lines)
    if all(_is_a_label(lines[at].tokens) for at in found):
        return tuple(lines)
    if _number_sections([lines[at].tokens for at in found]) and not speaks_of_parts(lines):
        return tuple(lines)
    numbered = any(_numbering(lines[at].tokens) for at in found)
    return tuple(
        line
        if at in found and found[at].plain
        else _headed(line, found[at])
        if at in found
        else _unnumbered(line)
        if numbered
        else line
        for at, line in enumerate(lines)
    )


def _unnumbered(line: Line) -> Line:
    """Return a line without the number of an item in a list that opens parts too: "3. The order was agreed"."""
    start = _numbering(line.tokens)
    return replace(line, tokens=line.tokens[start:], source="") if start else line


def _is_a_label(tokens: Sequence[Token]) -> bool:
    """Whether a letter stands in a bracket or behind a number, as those of sections do: "[A]", "8-A"."""
    opens = tokens[0].text in tuple("[({<") or (tokens[0].kind == "number" and tokens[1:2] and tokens[1].text == "-")
    return bool(opens) and any(token.text in tuple(_LETTERS) for token in tokens[1:3])


def _number_sections(heads: Sequence[Sequence[Token]]) -> bool:
    """Whether heads number sections: the same noun right before their letters, "Station A", or a bracket behind."""
    heads = [tokens[next((at for at, one in enumerate(tokens) if one.kind == "word"), 0) :] for tokens in heads]
    if all(len(tokens) > 1 and tokens[0].text in tuple(_LETTERS) and tokens[1].text == ")" for tokens in heads):
        # "A) TRIPLE FORWARD" over rows of counts.
        return True
    nouns = {tokens[0].low for tokens in heads if len(tokens) > 1 and tokens[1].text in tuple(_LETTERS)}
    same = len(nouns) == 1 and all(tokens[0].low in nouns for tokens in heads)
    return same and len(heads) > _FEWEST and not nouns & {"part", "my", "our", "the"}


def _place(name: str) -> str:
    """Letters come in turn, the parts of a song in any."""
    return name if name in _LETTERS else ""


def _opening(lines: Sequence[Line], at: int) -> _Opening | None:
    """Return the part that a line opens, if steps follow."""
    tokens = lines[at].tokens
    start = _numbering(tokens)
    place = next((one for one in range(start, min(len(tokens), start + _LEADING)) if _name(tokens, one)), None)
    if place is None:
        return None
    name = _name(tokens, place)
    said = [token.low for token in tokens[start:place] if token.kind == "word"]
    end = _end(tokens, place, said, start)
    if end is None or not _is_talk(tokens[start:place]) or extra_kind(tokens[:end]):
        return None
    rest = tokens[end:]
    below = lines[at + 1].tokens if at + 1 < len(lines) and lines[at + 1].number <= tokens[-1].line + 2 else ()
    if not (_tells_steps(rest) if rest else _tells_steps(below)):
        return None
    if not said and tokens[end - 1].text == ")" and rest and rest[0].kind == "number":
        # "A) 1, 2  R to side" labels a row of counts.
        return None
    plain = Heading(lines[at].number, tokens[:end]).part != "" and not said and tokens[end - 1].text in (":", ".", "|")
    return _Opening(name, end, plain, _length(tokens[place:end]))


def _numbering(tokens: Sequence[Token]) -> int:
    """Return the token after a number that only numbers its line: "2. We learned B."."""
    numbered = len(tokens) > 2 and tokens[0].kind == "number" and tokens[1].text in (".", ")", ":")
    return 2 if numbered else 0


def _name(tokens: Sequence[Token], at: int) -> str:
    token = tokens[at]
    if token.low in SONG_PARTS:
        return token.low.capitalize()
    single = token.text in tuple(_LETTERS)
    numbered = at + 1 < len(tokens) and tokens[at + 1].kind == "number" and tokens[at + 1].glued
    article = (
        token.text == "A" and at == 0 and at + 1 < len(tokens) and tokens[1].kind == "word" and _is_article(tokens)
    )
    return token.text if single and not numbered and not article else ""


def _is_article(tokens: Sequence[Token]) -> bool:
    """Whether the "A" that opens a line stands before its noun: "A phrased dance ..."."""
    return not _OPENS.match(" " + " ".join(token.low for token in tokens[1:_BEHIND]))


def _end(tokens: Sequence[Token], place: int, said: Sequence[str], start: int) -> int | None:
    """Return the token after what opens a part: a colon, the end of its sentence, or what leads on to its steps."""
    last = min(len(tokens), place + 1 + _BEHIND)
    for at in range(place + 1, last):
        token = tokens[at]
        beside = token.text in ("-", BREAK, ")") and at == place + 1
        if beside or token.text in (":", "=", ".", "!", ";"):
            called = [one.low for one in tokens[place + 1 : at]]
            if len(called) == _CALLED and called[0] in ("is", "=") and called[1] in ("the", "our", "my"):
                # "Part A is the march." names it so, and tells no step.
                return at + 1
            if _is_talk(tokens[place + 1 : at]) or (token.text == ":" and _titles(tokens[place + 1 : at])):
                return at + 1
            break
    if last == len(tokens) and len(tokens) <= place + _BEHIND and _is_talk(tokens[place + 1 :]):
        return len(tokens)
    words = "".join(f" {token.low}" for token in tokens[place + 1 :])
    if not said or said[-1] == "part":
        match = _OPENS.match(words)
        return place + 1 + match[0].count(" ") if match and said in ([], ["part"], ["the"]) else None
    if tokens[start].low in _WITHIN:
        end = place + 1
        while end < len(tokens) and (tokens[end].low in _SAID_OF_IT or tokens[end].text == ","):
            end += 1
        return end if end > place + 1 else None
    return None


def _is_talk(tokens: Sequence[Token]) -> bool:
    """Whether words tell no step, nothing of the order, and name no other part."""
    words = {token.low for token in tokens if token.kind == "word"}
    named = any(_name(tokens, at) for at in range(len(tokens)))
    odd = words & _ORDER or words & set(ORDINALS) - {"first", "second", "third"} or words & _STEP_WORDS
    return not odd and not named


def _titles(tokens: Sequence[Token]) -> bool:
    """Whether words say of what kind a part is: ", the turning bit"."""
    words = [token.low for token in tokens if token.kind == "word"]
    kinds = [word for word in words if word in _STEP_WORDS]
    return words[-1:] != kinds[-1:] and len(kinds) == 1 and words[-1] in _PIECES and _is_talk(tokens[:1])


def _length(tokens: Sequence[Token]) -> int:
    """Return the counts that an opening tells."""
    values = [NUMBERS.get(token.low, 0) for token in tokens]
    values += [int(token.text) for token in tokens if token.kind == "number" and token.text.isdecimal()]
    return max(values, default=0)


def _tells_steps(tokens: Sequence[Token]) -> bool:
    near = [token.low for token in tokens[:_NEAR]]
    named = sum(bool(_name(tokens, at)) for at in range(min(len(tokens), _NEAR)))
    return sum(word in STEP_WORDS - {*NUMBERS} for word in near) >= _STEPS and named < _FEWEST


def _headed(line: Line, opening: _Opening) -> Line:
    """Return a line with the part's name as a heading, and what is told behind its opening."""
    first = line.tokens[0]
    word = replace(first, kind="word", text="Part", low="part", glued=False, value=None)
    name = replace(word, text=opening.name, low=opening.name.lower())
    colon = replace(word, kind="mark", text=":", low=":", glued=True)
    head = (*([word] if opening.name in _LETTERS else []), name, colon)
    if line.tokens[0].text == opening.name in _LETTERS and line.tokens[opening.end - 1].text in (".", "!"):
        # "A is the march." gives it another name.
        return replace(line, tokens=(word, replace(name, glued=False), *line.tokens[1:]), source="")
    return replace(line, tokens=(*head, *line.tokens[opening.end :]), source="")
