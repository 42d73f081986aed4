"""What a line without counts is: a heading, and of what; or words that go on.

A heading is known by its role (numbering starts again after it) and by its words, anywhere in it. Nothing here looks at
counts: `page.py` asks only where numbering starts again.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from trainer.sheet.prose.facing.faced import statement_end
from trainer.sheet.prose.facing.walls_named import LOOKS
from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token
from trainer.terms import ExtraKind

_SECTION = re.compile(
    r"\b(?:sections?|sec|set|block|phrase|figure|pattern|part|group|verse|chorus|middle|refrain|^instrumental|"
    r"main dance|(?:first|second|third|fourth|"
    r"fifth|sixth|seventh|eighth|ninth|tenth|last|next|final|1 st|2 nd|3 rd|[4-9] th) (?:eight|8|six|6|set|"
    r"section|block|part|"
    r"phrase|half|line|sixteen|bit|bars?|twelve)|"
    r"^[a-h] ?[,:\-(] ?(?:\w+ ){0,3}(?:only|single|sole|one) (?:short |little )?(?:eight|six|8|6)|"
    r"^(?:the )?(?:eight|six) (?:with|to|that|which|for|of|where)|eight (?:one|two|three|four|five|six|seven|eight)|"
    r"[sp] \d+|(?:no|number|nr|fig|pt|phr|seq) ?\.? ?\d)\b"
)
_CALLED_SO_LONG = r" ?, ?(?:(?:the|our|an?) )?(?:[a-z']+ ){1,3}[(\[] ?\d+ ?(?:counts?|beats?|cts?)\b"
"""Behind a part's letter: "C, the fiddle break (8 counts, a quarter to the left)"."""
_NUMERAL = re.compile(
    r"^(?:one|two|three|four|five|six|seven|eight) ?(?:- |:|\.|\)|\|)|"
    r"^(?:[ivx]+|\d+(?: (?:st|nd|rd|th))?|(?:the )?[a-h]|[a-h] -? ?\d+|[#(\[] ?\d+ ?[)\]]?)(?: [.):|\-]|$)|"
    r"^[a-h] ?[/,.:\-]? ?(?:no ?\.? ?)?"
    r"(?:\d|one|two|three|four|five|six|first|second|third|fourth|last|i+|iv)(?: ?[:.)|\-/,(]|$)|"
    r"^[a-h] [(\[] ?\d+ ?(?:counts?|cts?|beats?|c)? ?[)\]] ?[:.\-]?$|"
    r"^[a-h] [(\[][^)\]\d]{1,40}[)\]] ?[:.\-]?$|"
    rf"^(?:part |the )?[a-h]{_CALLED_SO_LONG}"
)
_LENGTH_TOLD = re.compile(r"[(\[] ?(?:6|8|12|16|eight|six) (?:counts?|cts?|beats) ?[)\]] ?:?$")
"""What a line ends with that names a section: "Walks and rocks (8 counts)"."""
_INTRO = re.compile(
    r"\b(?:(?:danced|dance|little|short|small|brief|choreographed|stepped|step|walking) "
    r"(?:intro|introduction|lead in|opening)|(?:do|dance) (?:this|the|an) (?:intro|introduction)|"
    r"(?:intro|introduction) (?:first|to dance|steps)|intro dance|prelude|prologue|start dance|first of all|"
    r"before (?:the )?(?:walls? (?:1|one)|(?:first|1 st) wall|dance (?:proper|itself|begins|starts)|main dance)|"
    r"opening (?:eight|8|six|6)\b[\w ,(]*\bonce|once(?: only)?[ ,]+at the (?:very )?(?:start|beginning))\b|"
    r"^\W*before (?:you|we) (?:start|begin|set off|get going)\b(?!.*\bweight\b)|"
    r"^\W*(?:just )?before (?:the|our) dance ?(?:$|[,:(\-](?!.*\b(?:weight|wait)\b))|"
    r"^\W*(?:the |our |an )?introductory\b|"
    r"^\W*(?:only )?at the (?:very )?(?:start|beginning)[ ,(:\-]+(?:and )?(?:only once|once)\b|"
    r"^(?!.*\b(?:walls?|after|end|ending|finish|finale|coda|outro|bridge|restart|tag|extra)\b)"
    r".*\b(?:counts|beats|eight)\b.*\b(?:only once|once only|one time only|only one time|"
    r"(?:never|not) (?:repeated|danced again))\b|"
    r"^\W*(?:the )?(?:intro|introduction|overture|opener|(?:lead|warm) ?-? ?(?:in|up)|"
    r"(?:run|walk|dance) ?-? ?in(?! ?:? ?(?:place|right|left|[rl]f?\b|on|a|with))|"
    r"opening(?! (?:eight|8|six|6|set|section|block|part|phrase|figure|bars?|line)\b))\b"
)
_ASKS_WHEN = re.compile(
    r"\W*(?:when|where|how often|how)\b(?=.*\b(?:comes?|goes?|go|danced|happens?|belongs?|are|is)\b)(?!.*\d)"
)
"""Over what tells of extras and names none: "When the tag and the other things come"."""
_NONE_OF_THEM = re.compile(
    r"\b(?:no|without|without any|neither|nor) (?:more )?(?:tags?|bridges?|endings?|changes?|intro)\b"
)
"""What a sheet says that it has not: "no tags, no restarts"."""
_PART_AT_THE_END = re.compile(
    r"\b(?:[a-h]|[a-h]s|verse|chorus|refrain)(?: (?:is|are|comes?|goes|danced|again|once|twice|\w+ times))* "
    r"(?:near|at|towards) the (?:very )?end\b"
)
"""A part that is danced last: "B twice at the end!"."""
_WAIT = re.compile(
    r"^\W*(?:the )?(?:intro|introduction|opening) ?(?:[:=\-|] ?){0,2}(?:about |of |is )?\d+\b|"
    r"^\W*(?:the )?(?:intro|introduction) \( ?\d+(?: \w+)? ?\) ?[,;.] "
    r"?(?:feet|foot|weight|wt|stand|standing|start|both)\b|"
    r"^\W*(?:(?:the )?(?:intro|introduction|opening|(?:lead|run) ?-? ?in)|before (?:you|we) (?:start|begin))\b"
    r"(?=.*\b(?:wait|waiting|listen|listening|no steps|stand still|standing still|let (?:it|them|these))\b)"
    r"(?!.*\b(?:right|left|heel|toe|sway|step(?!s\b)|touch|clap|stomp|stamp|march|walk|sways|hips?|rf|lf)\b)"
)
"""The wait before the first step, not a danced intro."""
_ENDING = re.compile(
    r"\b(?:ending|finale|coda|outro|grand finish|big finish|the finish|"
    r"(?<!\bto )(?<!till )(?<!towards )(?<!near )(?<!until )the end(?! of\b)|"
    r"(?:last|final|closing) (?:step|pose|bow|flourish))\b|"
    r"\b(?:to|and|then|now) (?:finish|end|close)(?: (?:off|up|with|on|the dance|the dance with))? ?:$|"
    r"^\W*(?:the )?(?:final|closing) ?[:(\-]|"
    r"^\W*(?:the |our |one |that )?(?:final|closing|finishing) (?:stomps?|stamps?|claps?|moves?|steps?|points?|touch) ?"
    r"(?:\([^)]*\) ?)?[:=\-]|"
    r"^\W*(?:the |our )?(?:final|closing|close|conclusion|last bit)\W*(?:$|\([^)]*\)\W*$|\d+ (?:counts?|beats?)\W*$)|"
    r"^\W*(?:the |our )?(?:close|closing|curtain|farewell|last (?!step)\w+)\W+(?:\d \w+ ?, ?)?"
    r"(?=in place of|instead of|replac|takes? the place)|"
    r"^\W*(?:the |our )?exit ?(?:[:(,.|\-]|$)|"
    r"^\W*(?:(?:after|at the end of|end of|behind|in|on|during) )?(?:the )?"
    r"(?:(?:last|final|[a-z]+th|\d+ (?:st|nd|rd|th)) )?(?:walls?|time|round)"
    r"(?: (?:\d+|[a-z]{3,6}))? ?(?:\([^)]*\) ?)?[:=\-|] ?(?:the |our |a )?(?:big |grand |last )?"
    r"(?:finish|end|close|closing|goodbye|farewell|curtain|pose)(?: ?\([^)]*\)| ?,? ?\d+ \w+)?\W*$|"
    r"^\W*the end of (?:the|our|this) (?:dance|song|music|track|tune) ?[:.-]|"
    r"^\W*(?:to )?(?:finish|end)\b(?! of (?!(?:the |our )?(?:dance|song|music|track|tune|number)\b))"
)
_OTHER = r"(?:changed|different|other|another|altered|new|alternative|alternate|special|replacement|substitute|revised)"
_CLOSE = r"(?:(?:last|final|closing) )?(?:ending|end|finish|close|counts|beats|steps)"
_OF_A_SECTION = r"(?:section|sec|figure|fig|set|block|phrase|s|(?:the )?(?:\w+|\d (?:st|nd|rd|th)) (?:eight|six|8|6))\b"
_SECTION_CHANGED = (
    rf"\b{_OTHER} {_CLOSE} (?:of|for|to|in|on|,) ?{_OF_A_SECTION}|"
    rf"\b{_OF_A_SECTION} ?\w* ?[,:(\-] ?(?:with )?(?:the |an? |its )?{_OTHER} {_CLOSE}\b|"
    rf"\b{_OF_A_SECTION} ?\w* (?:as|when|how it is) (?:changed|danced|done) (?:in|on) wall|"
    rf"^\W*(?:the )?changes? (?:to|of|in|for) {_OF_A_SECTION}"
)
"""Steps that one section has in one wall: "Changed ending of figure 2"; of the dance it would be an ending."""
_EXTRAS: tuple[tuple[ExtraKind, re.Pattern[str]], ...] = (
    (
        "change",
        re.compile(
            r"\b(?:step change|change of steps?|changed? (?:steps?|counts?)|instead|"
            r"replac(?:es|ing) (?:the )?(?:counts?|beats?|steps?|last|section|eight|bars?)|"
            r"(?:in|at|on) (?:the )?place of)\b|"
            r"\b(?:is|are) not danced\b|"
            r"\b(?:put|do|dance|take|use|comes?|goes) in (?:its|their) (?:place|stead)\b|"
            r"\bin (?:its|their) (?:place|stead)(?: (?:we|you|they|one|there|please|just|do|dance|make))* ?[:,]?$|"
            r"^\W*(?:the )?changes?(?: (?:[a-d]|\d+|one|two))?\W*$|" + _SECTION_CHANGED
        ),
    ),
    ("intro", _INTRO),
    (
        "tag",
        re.compile(
            r"\btags?\b|\bt a g\b|\badd on\b|^\W*(?:the |our |an? )?(?:interludes?|intermezzo|interval|breather)\b|"
            r"\b(?:extra|additional|added|spare|bonus) (?:steps|counts|beats|bars?|measures?|bit|four|six|eight)\b|"
            r"\b(?:odd|filler|stray|left ?-? ?over|surplus) (?:bars?|measures?|beats|counts)\b|^\W*(?:the )?filler\b|"
            r"\b(?:add|insert|put in|slip in|squeeze in) (?:in )?(?:an? )?(?:extra )?\w+ (?:counts|beats)(?: here)? :$"
        ),
    ),
    ("bridge", re.compile(r"\bbridges?\b")),
    ("ending", _ENDING),
)  # fmt: skip
_PART = re.compile(
    r"\bpart ([a-h])\b|^\W*([a-h]) ?-? ?\d+\b|\( ?([a-h]) ?\)|^\W*(?:the )?([a-h])(?: [:.\-|]|$)|"
    r"^\W*([a-h]) ?[,:\-(] ?(?:(?:the|a|an|its|just|only|one and) )*"
    r"(?:only|single|sole|one) (?:short |little )?(?:eight|six|8|6)\b|"
    r"^\W*([a-h]) ?, ?(?:the )?(?:first|second|third|fourth|last|1 st|2 nd|3 rd|4 th|counts?|eights?|half|\d+)\b|"
    r"^\W*([a-h]) ?[/.:]? ?(?:no ?\.? ?)?(?:one|two|three|four|five|six|i+|iv)(?: ?[:.)|\-/,(]|$)|^\W*([a-h]) ?/ ?\d|"
    r"^\W*([a-h]) [(\[] ?\d+ ?(?:counts?|cts?|beats?|c)? ?[)\]] ?[:.\-]?$|"
    r"^\W*([a-h]) [(\[][^)\]\d]{1,40}[)\]] ?[:.\-]?$|"
    r"^\W*(?:part |the )?([a-h]) (?:has|is) \w+ ?(?:counts?|beats?|cts?)\b|"
    r"^\W*(?:part )?([a-h]) ?[,:=(\[\-/] ?(?:the |our |each |every )?(?:" + "|".join(SONG_PARTS) + r")\b|"
    r"^\W*(?:part |the )?([a-h]) ?[,:(\-] ?(?:[a-z]+teen|[a-z]+ty(?: ?-? ?[a-z]+)?|eight|twelve|six|four)[ -]"
    r"(?:counts?|beats?)\b|"
    rf"^\W*(?:part |the )?([a-h]){_CALLED_SO_LONG}"
)
_NAME = 4
"""Tokens of a name and the mark behind it."""
_NAMED_PART = re.compile(r"\b(verse|chorus|middle|refrain|break(?= part))\b|^\W*(?:the )?(hook|instrumental|solo)\b")


@dataclass(frozen=True, slots=True)
class Heading:
    """A line, or the head of one, that names what comes after it."""

    line: int
    """The sheet's number of the line."""
    tokens: tuple[Token, ...]

    @property
    def words(self) -> str:
        """The words in small letters, parted by blanks."""
        return " ".join(token.low for token in self.tokens)

    @property
    def text(self) -> str:
        """The heading as it may be shown: without its leading marks."""
        return title_of(self.tokens)

    @property
    def extra(self) -> ExtraKind | None:
        """The kind of extra that it heads, if any."""
        return extra_kind(self.tokens)

    @property
    def part(self) -> str:
        """The letter or name of the part of a phrased dance that it opens, or an empty text."""
        match = _PART.search(self.words)
        if match:
            return next(group for group in match.groups() if group).upper()
        named = _NAMED_PART.search(self.words)
        return (named[1] or named[2]).capitalize() if named else ""


def extra_kind(tokens: Sequence[Token]) -> ExtraKind | None:
    """Return the kind of extra that the words of a heading name, the first named counts."""
    return _kind_in(" ".join(token.low for token in tokens[_stated(tokens) :]))


@lru_cache(maxsize=2048)
def _kind_in(words: str) -> ExtraKind | None:
    """Return the kind of extra that words name; the same line is asked for by many."""
    words = _PART_AT_THE_END.sub("", _NONE_OF_THEM.sub("", words))
    if _WAIT.search(words) or _ASKS_WHEN.match(words):
        return None
    found = [(match.start(), kind) for kind, pattern in _EXTRAS if (match := pattern.search(words))]
    return min(found)[1] if found else None


def _stated(tokens: Sequence[Token]) -> int:
    """Return the length of opening sentences that state a facing: "Ending at 6 o'clock." heads nothing.

    "For the ending you have come to 6 o'clock." does, and so does what a mark parts from the facing: "ENDING. The
    sixth wall begins at 9:00."; "Finish facing: 9:00" is a statement.
    """
    facing = next((at for at, token in enumerate(tokens) if token.kind == "facing"), 0)
    opening = tokens[: min(facing, _NAME)]
    named = any(mark.text in (".", ":", "-", "|") and word.low not in LOOKS for word, mark in pairwise(opening))
    if named or [token.low for token in tokens[:2]] in (["for", "the"], ["for", "a"], ["as", "for"]):
        return 0
    end = statement_end(tokens) if any(token.kind == "facing" for token in tokens) else 0
    # "Ending, facing 12:00" is a name and where it is danced.
    label = [token.low for token in tokens[max(facing - 2, 0) : facing]]
    filled = end == len(tokens) and len(label) > 1 and label[0] in LOOKS and label[1] in (":", "=")
    return end if end and (tokens[end - 1].text == "." or filled) else 0


def is_section_name(tokens: Sequence[Token]) -> bool:
    """Return whether words name a section by their terms: "First eight", "S1", "Part A", "II."."""
    words = " ".join(token.low for token in tokens).strip("*_~= ")
    return bool(_SECTION.search(words) or _NUMERAL.match(words) or extra_kind(tokens))


def heading_score(line: Line, before: Line | None, indent: int) -> float:
    """Return how much a line without counts looks like a heading rather than words that go on: above 0.8 it is one.

    `before` is the line above it, `indent` where the lines with counts begin.
    """
    loud = before is not None and _shouts(before) and any(token.kind == "number" for token in before.tokens)
    return _by_words(line, all_loud=loud) + _by_place(line, before, indent)


def _tells_a_way(line: Line) -> bool:
    """Whether a line only says from where to where a section leads: "12 o'clock to 9 o'clock", "from 3:00 - 6:00"."""
    kinds = [token.kind for token in line.tokens]
    told = kinds.count("facing") + kinds.count("clock")
    return told == _WAY and len(kinds) <= _WAY_LENGTH and kinds[-1] in ("facing", "clock") and "number" not in kinds


_WAY = 2
_WAY_LENGTH = 5
"""Tokens of both facings and what joins them."""


def _shouts(line: Line) -> bool:
    """Whether a line is written in capitals."""
    long = [token.text for token in line.tokens if token.kind == "word" and len(token.text) > 1]
    return bool(long and all(word.isupper() for word in long))


def _by_words(line: Line, *, all_loud: bool) -> float:
    """What the words of a line speak for; capitals for nothing where steps are written in them too."""
    words = line.words.strip("*_~= ")
    letters = [token.text for token in line.tokens if token.kind == "word"]
    numbered = bool(_NUMERAL.match(words)) or _tells_a_way(line)
    score = 2.0 if _SECTION.search(words) or _LENGTH_TOLD.search(words) else 1.2 * numbered
    score += 1.5 * bool(extra_kind(line.tokens))
    score += 1.5 * (_shouts(line) and not all_loud)
    score += 0.5 * bool(letters and sum(word[0].isupper() for word in letters) >= 0.6 * len(letters))
    if letters and letters[0][0].islower() and line.tokens[0].kind == "word" and not numbered:
        score -= 1.2
    return score - 0.8 * (len(line.tokens) > 14)


def _by_place(line: Line, before: Line | None, indent: int) -> float:
    """What the place of a line, and how it and the line above it end, speak for."""
    score = 1.0 * (line.tokens[-1].text == ":") - 0.4 * (line.tokens[-1].text in (".", ",", ")"))
    if before is None or line.number - before.number > 1:
        score += 0.8
    if before is not None and before.tokens[-1].text in (",", "-", "&", "+"):
        score -= 1.0
    if line.indent > indent + 1:
        return score - 0.7
    return score + 0.3 * (line.indent < indent)


def title_of(tokens: Sequence[Token]) -> str:
    """Return tokens as text, blanks as they stood, without the marks around."""
    parts = []
    for index, token in enumerate(tokens):
        if index and not token.glued:
            parts.append(" ")
        parts.append(token.text)
    text = "".join(parts).strip(" |*_~=:-.<>#")
    # "... recover lt : <N>" keeps both its marks.
    return text + ">" * (text.count("<") > text.count(">"))
