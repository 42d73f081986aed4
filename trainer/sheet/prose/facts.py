"""The facts of a sheet's head, in any wording: title, tune, counts, walls, wait, tempo, time, feel, level, starting weight.

A later statement of a fact stands over an earlier one: "right foot free?? no - left foot free". Numbers may be words.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.routine import Span
from trainer.sheet.prose.order.lexemes import number_at
from trainer.sheet.prose.names_told import by_of, title_of, tune_of
from trainer.sheet.prose.words import Token
from trainer.terms import Feel, Time, Weight


@dataclass(frozen=True, slots=True)
class Facts:
    """What the head of a sheet states; None or empty where it says nothing."""

    title: str = ""
    tune: str = ""
    by: str = ""
    tempo: Fraction | None = None
    """Counts a minute."""
    time: Time | None = None
    feel: Feel | None = None
    starts: Weight | None = None
    """The foot that carries the weight before count 1."""
    counts: int | None = None
    walls: int | None = None
    level: str = ""
    wait: int | None = None
    """Counts before the first step."""
    wait_from: str = ""
    """From where they are counted."""
    part_counts: tuple[tuple[str, int], ...] = ()
    """Of a phrased dance: the stated counts of each part."""
    counts_span: Span | None = None
    walls_span: Span | None = None


@dataclass(frozen=True, slots=True)
class _Text:
    """A line as words with numbers in figures, so that patterns can be sought in it, and where each character came from."""

    text: str
    tokens: tuple[Token, ...]
    starts: tuple[int, ...]

    def span(self, at: int) -> Span:
        """Return where the token stands that covers a character of the text."""
        index = max(i for i, start in enumerate(self.starts) if start <= at)
        return self.tokens[index].span


_FOOT = r"(?P<{0}>rf|lf|r|l|right|left)\b(?: ?foot| feet| leg| side)?"
_N = r"(?P<n>\d{1,3})"
_C = r"(?: - | ?-? ?)(?:counts?|cts?|c|beats?|bts?|cnts?)\b"
_NEAR = r"(?:[\w'’&]+ ){0,3}"

_COUNTS = (
    rf"(?<!tag : )(?<!tag )(?<!tag of )(?<!bridge : )(?<!bridge of )(?<![a-d] = )(?<![a-d] : )(?<![a-d] \( )(?<!part \w has ){_N}{_C}(?! ?(?:in\b|wait|intro|lead|from|into|after|before|then|of music|later|of the (?:music|song)|tag|bridge|hold|pause|\) ?, then))",
    rf"(?<!wall )\bcounts? ?(?:: ?|= ?|- ?){_N}\b(?! ?-)",
    rf"\( ?{_N} ?/ ?[1248] ?[/)]",
    rf"^(?:\W*){_N} ?/ ?[1248] ?/",
)
_WALLS = (
    r"(?P<n>[1-8]|16)(?: - | ?-? ?)(?:walls?\b|w\b(?! ?/)|directions?\b|wallers?\b)",
    r"\b(?:walls?|wall counts?|directions?) ?(?:counts? ?)?(?:: ?|= ?|- ?|of ?)?(?P<n>[1248])\b(?! ?(?:st|nd|rd|th|[-,&:]|/ ?\d|o'clock|start|begin|after|face|\())",
    r"\( ?\d{1,3} ?/ ?(?P<n>[1248]) ?[/)]",
    r"^\W*\d{1,3} ?/ ?(?P<n>[1248]) ?/",
)
_WAIT = (
    r"\b(?:start|starts|begin|begins) (?:dancing )?(?:on|at|with) count (?P<next>\d{1,3})\b",
    rf"\bintro(?:duction)? ?(?:of |is |: ?|= ?|- ?|\( ?)?(?:about |approx\w* |a )?{_N}\b(?! ?(?:seconds?|secs?|x|bars?|sets?))",
    rf"\b{_N}(?:{_C})?(?: of)? ?-? ?(?:intro\b|introduction|lead ?-? ?in|wait\b|count ?-? ?in|run ?-? ?in)",
    rf"\b(?:wait|waits|waiting|count in|stand still|stands? and listen|hold off|listen)(?: for| out)?(?: the first| about)? ?(?:: ?)?{_N}\b(?! ?(?:seconds?|secs?))",
    rf"\b{_N}(?:{_C})? ?(?:in\b(?! (?:place|total|all|four|3|each))|of music|into the (?:music|song|track)|of the music|before (?:you |we |the )?(?:start|begin|first))",
    rf"\bin on (?:count )?{_N}\b",
    rf"\b(?:start|starts|begin|begins|go|goes|dance|kick off|off we go|commence|commences|in)\b[^.;|]{{0,24}}?\bafter (?:the first |about |approx\w* )?{_N}\b(?! ?(?:seconds?|secs?|bars?))",
    rf"\b(?:start|starts|begin|begins|in|dance)\b[^.;|]{{0,40}}?\( ?(?:about |approx\w* |after )?{_N}(?:{_C}| in| ?\))",
    rf"\bstill for (?:the )?(?:first )?{_N}\b",
    rf"\b{_N}{_C} (?:after|from)\b(?! ?wall)",
)
_WAIT_PHRASES = (
    (r"\bintro(?:duction)? ?(?:of |: ?|= ?)?(?P<n>\d{1,2}) ?(?:bars?)\b", "bars"),
    (r"\b(?P<n>\d{1,2}) bars? (?:intro|in\b|wait|lead)", "bars"),
    (r"\bintro(?:duction)? ?(?:of |: ?|= ?)?(?P<n>\d{1,2}) ?(?:x|sets? of|times) ?(?P<m>\d)\b", "sets"),
    (r"\b(?P<n>\d{1,2}) ?(?:x|sets? of) ?(?P<m>[68])(?: counts?)? ?(?:intro|in\b|wait|lead)", "sets"),
    (r"\bno intro\b|\bstarts? (?:straight|right) away\b|\bwithout (?:an? )?intro\b|\bfrom the (?:very )?first (?:beat|note)\b", "none"),
)  # fmt: skip
_WAIT_FROM = re.compile(
    r"\b(?:from|after|when|on|at) (?:the )?(?:first |heavy |main |strong |opening |lead |full )*(?:drums?|bells?|beat|beats|vocals?|lyrics?|"
    r"fiddle|guitar|singing|verse|words?|voice|band|accordion|piano|whistle|horn|kick|bass)\b(?: \"? ?[\w']+ ?\"?)?"
    r"(?: (?:start|starts|begins|kicks|comes)(?: in)?)?"
)
_TEMPO = (
    r"(?P<n>\d{2,3}(?: ?\. ?\d{1,2})?) ?(?:bpm|b\.p\.m|beats (?:per|a) minute|counts (?:per|a) minute|beats/min)\b",
    r"\b(?:bpm|tempo|speed) ?(?:: ?|= ?|is |about |around |of |at |- ?|~ ?|\( ?)*(?P<n>\d{2,3}(?: ?\. ?\d{1,2})?)\b",
)
_WEIGHT = (
    (rf"\b(?:weight|wt)\b(?: ?(?:is|on|to|the|your|starts|begins|stays|:|=|-|at|left|,|all|should|be|ends?))*? ?{_FOOT.format('f')}", False),
    (rf"{_FOOT.format('f')} ?(?:has|takes|carries|bears|holds|gets|with)(?: \w+){{0,2}} (?:weight|wt|you)\b", False),
    (rf"{_FOOT.format('f')} (?:carries|holds|supports|bears) you\b", False),
    (rf"{_FOOT.format('f')} (?:is |will be |stays )?(?:the )?free\b", True),
    (rf"\bfree (?:foot|leg)(?: is| :|:)?(?: the| your)? {_FOOT.format('f')}", True),
    (rf"\b(?:start|starts|starting|begin|begins|lead|leads|leading|off)\b(?: off| dancing| the dance| out)? (?:with|on|off)(?: the| your)? {_FOOT.format('f')}", True),
    (rf"{_FOOT.format('f')} (?:lead|leads|starts|start|begins|first|foot lead)\b", True),
)  # fmt: skip
_LEVELS = (
    r"absolute beginners?|newcomers?|beginners?|beg|novices?|improvers?|imp|intermediates?|int|advanced|adv|experts?|easy|"
    r"first timers?|all levels|ultra beginners?"
)
_LEVEL = re.compile(
    rf"(?<![\w-])(?:(?:high|low|upper|lower|easy|comfortable|comfy|gentle|absolute|ultra|phrased|advanced|strong|true|smooth|easier)[ -]+(?:- )?)*"
    rf"(?:{_LEVELS})(?![\w])(?: ?(?:/|-|to|\+) ?(?:high |low |easy )*(?:{_LEVELS})(?![\w]))*(?: ?\+)?"
)
_SHORT_LEVELS = {"beg": "beginner", "int": "intermediate", "adv": "advanced", "imp": "improver"}
_NO_LEVEL = re.compile(r"\beasy (?:option|alternative|version|turn|to )")


def header_facts(lines: Sequence[tuple[Token, ...]]) -> Facts:
    """Return the facts of the lines before the first step, and of remarks after the last."""
    facts = Facts(title=title_of(lines), tune=tune_of(lines), by=by_of(lines))
    for line in lines:
        if line:
            facts = _read(facts, _text_of(line))
    return facts


def _text_of(tokens: Sequence[Token]) -> _Text:
    """The tokens as plain words, one blank between two; numbers of headers become figures."""
    words: list[str] = []
    kept: list[Token] = []
    starts: list[int] = []
    at, length = 0, 0
    while at < len(tokens):
        value, last, ordinal = number_at(tokens, at)
        word = tokens[at].low
        if last > at and not ordinal:
            word = str(value)
        else:
            last = at + 1
        starts.append(length)
        words.append(word)
        kept.append(tokens[at])
        length += len(word) + 1
        at = last
    return _Text(" ".join(words), tuple(kept), tuple(starts))


def _read(facts: Facts, line: _Text) -> Facts:
    text = line.text
    # Retracted: "forty-eight... no, 32 counts" says 32.
    text = re.sub(r"[^.;|]*\? ?\? no\b|\b\S+ (?:\. ){2,}no ,", lambda m: " " * len(m[0]), text)
    facts = _parts(facts, text)
    plays = re.search(r"\b[a-h] ,? ?[a-h] ,? ?[a-h]\b", text)
    wait = None if plays else _wait(text)
    if wait is not None and facts.wait is None:
        facts = replace(facts, wait=wait)
    facts = _size(facts, line, _without_waits(text))
    if (found := _WAIT_FROM.search(text)) and not facts.wait_from and (wait is not None or facts.wait is not None):
        facts = replace(facts, wait_from=re.sub(r'\s*"\s*', " ", found[0]).strip())
    weight = _weight(text)
    tempo = _first(_TEMPO, text)
    return replace(
        facts,
        starts=weight or facts.starts,
        tempo=facts.tempo or (Fraction(tempo["n"].replace(" ", "")) if tempo else None),
        time=facts.time or _time(text),
        feel=facts.feel or _feel(text),
        level=facts.level or _level(text),
    )


def _first(patterns: Sequence[str], text: str) -> re.Match[str] | None:
    return next((match for pattern in patterns if (match := re.search(pattern, text))), None)


def _size(facts: Facts, line: _Text, text: str) -> Facts:
    counts = _first(_COUNTS, text)
    if counts and facts.counts is None and not (facts.part_counts and not re.search(r"\btotal\b|in all", text)):
        facts = replace(facts, counts=int(counts["n"]), counts_span=line.span(counts.start("n")))
    walls = _first(_WALLS, text)
    if walls and facts.walls is None:
        facts = replace(facts, walls=int(walls["n"]), walls_span=line.span(walls.start("n")))
    return facts


def _parts(facts: Facts, text: str) -> Facts:
    """Counts told of each part: "A = 32, B = 16", "Part A has 32 counts", "A (32), B (16)"."""
    pattern = r"\b(?:part )?(?P<p>[a-h]) (?:has|is|=|:|\() ?(?:= )?(?P<n>\d{1,3})\b(?! ?(?:of|/|\d))"
    found = {match["p"].upper(): int(match["n"]) for match in re.finditer(pattern, text)}
    if not found or (len(found) < 2 and not facts.part_counts and "part" not in text):
        return facts
    return replace(facts, part_counts=tuple({**found, **dict(facts.part_counts)}.items()))


def _wait(text: str) -> int | None:
    for pattern, unit in _WAIT_PHRASES:
        match = re.search(pattern, text)
        if match:
            if unit == "none":
                return 0
            beats = (3 if "waltz" in text or "3/4" in text else 4) if unit == "bars" else int(match["m"])
            return int(match["n"]) * beats
    match = _first(_WAIT, text)
    if match is None:
        return None
    groups = match.groupdict()
    return int(groups["next"]) - 1 if groups.get("next") else int(groups["n"])


def _weight(text: str) -> Weight | None:
    """The foot that carries the weight at the start, by the last statement of it."""
    if re.search(r"\b(?:weight|wt) (?:\w+ ){0,3}(?:both|even|centre|center)", text):
        return "B"
    found: list[tuple[int, bool, Weight]] = []
    for pattern, free in _WEIGHT:
        for match in re.finditer(pattern, text):
            right = match["f"].startswith("r")
            # "weight starts on left" speaks of the weight, though "starts on left" alone speaks of the first step.
            found.append((match.start("f"), not free, "R" if right != free else "L"))
    return max(found)[2] if found else None


def _without_waits(text: str) -> str:
    """Blank out what tells of the wait, so that its counts are not taken for those of the dance."""
    for pattern in _WAIT:
        text = re.sub(pattern, lambda match: " " * len(match[0]), text)
    return text


def _time(text: str) -> Time | None:
    for time in ("3/4", "2/4", "4/4"):
        if re.search(rf"(?<![/\d]){time}\b(?! (?:turn|t\b|left|right|l\b|r\b|monterey|pivot|unwind))", text) and (
            time == "4/4" or not re.search(rf"{time} ?(?:turn|left|right)", text)
        ):
            return "3/4" if time == "3/4" else "2/4" if time == "2/4" else "4/4"
    return "3/4" if re.search(r"\bwaltz(?: time| rhythm| tempo)?\b", text) else None


def _feel(text: str) -> Feel | None:
    if re.search(r"\brolling(?: 8| eight)? (?:count|counts|rhythm|feel|timing)|\brolling 8\b|feel : rolling", text):
        return "rolling"
    if re.search(r"\b(?:swung|swing (?:feel|count|rhythm)|shuffle rhythm)\b", text):
        return "swung"
    return "straight" if re.search(r"\bstraight (?:count|counts|rhythm|feel|eights?|8)\b", text) else None


def _level(text: str) -> str:
    for match in _LEVEL.finditer(text):
        if _NO_LEVEL.match(text, match.start()) or (match[0] in ("easy", "int", "imp") and not _labelled(text, match)):
            continue
        words = " ".join(_SHORT_LEVELS.get(word, word.removesuffix("s")) for word in match[0].split())
        return re.sub(r" ?([/-]) ?", r"\1", words).strip()
    return ""


def _labelled(text: str, match: re.Match[str]) -> bool:
    """Whether a level's short word stands by itself, between marks or the ends of the line."""
    before, after = text[: match.start()].rstrip(), text[match.end() :].lstrip()
    return (not before or not before[-1].isalpha()) and (not after or not after[0].isalpha())
