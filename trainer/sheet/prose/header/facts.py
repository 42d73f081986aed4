"""The facts of a sheet's head, in any wording: title, tune, counts, walls, wait, tempo, time, feel, level, weight.

A later statement of a fact stands over an earlier one: "right foot free?? no - left foot free". Numbers may be words.
"""

import re
import tomllib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from importlib.resources import files
from itertools import pairwise

from trainer.routine import Span
from trainer.sheet.prose.header.names_told import by_of, title_of, tune_of
from trainer.sheet.prose.header.parts_told import parts_told
from trainer.sheet.prose.header.time_told import time_of
from trainer.sheet.prose.lexis.numerals import number_at
from trainer.sheet.prose.text.layout import BREAK
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
    intro_told: bool = False
    """The wait is told as the length of an intro, which may be danced."""
    wait_from: str = ""
    """From where they are counted."""
    part_counts: tuple[tuple[str, int], ...] = ()
    """Of a phrased dance: the stated counts of each part."""
    counts_span: Span | None = None
    walls_span: Span | None = None


@dataclass(frozen=True, slots=True)
class _Text:
    """A line as words with numbers in figures, to seek patterns in, and where each word came from."""

    text: str
    tokens: tuple[Token, ...]
    starts: tuple[int, ...]
    words: tuple[str, ...]
    """Of each token; a number of several tokens is the first one's."""

    def span(self, at: int) -> Span:
        """Return where the token stands that covers a character of the text."""
        index = max(i for i, start in enumerate(self.starts) if start <= at)
        return self.tokens[index].span


def _patterns() -> dict[str, tuple[re.Pattern[str], ...]]:
    """Compile the patterns of `facts.toml`."""
    table = tomllib.loads((files("trainer.sheet.prose.header") / "facts.toml").read_text(encoding="utf-8"))
    parts = {"%n": table["number"], "%c": table["counts_word"], "%f": table["foot"], "%level": table["level_words"]}

    def compiled(pattern: str) -> re.Pattern[str]:
        for name, part in parts.items():
            pattern = pattern.replace(name, re.sub(r"\n {2}", "", part))
        return re.compile(re.sub(r"\n {2}", "", pattern))

    return {key: tuple(map(compiled, value)) for key, value in table.items() if isinstance(value, list)}


_PATTERNS = _patterns()
_SHORT_LEVELS = {"beg": "beginner", "int": "intermediate", "adv": "advanced", "imp": "improver"}
_MARGIN = 45
"""A line that ends beyond this column may have been broken there."""
_SHORTEST = 8
"""No dance has fewer counts; what has is an extra: "Finish, 2 counts"."""
_PARTS = 2
"""Parts with their lengths in one line; a single one stands where the sheet speaks of a part."""
_LONGEST = 800
"""Characters of a line that are looked at."""


def header_facts(lines: Sequence[tuple[Token, ...]]) -> Facts:
    """Return the facts of the lines before the first step, and of remarks after the last."""
    facts = Facts(title=title_of(lines), tune=tune_of(lines), by=by_of(lines))
    texts = [_text_of(line) for line in (*lines, *_over_the_margin(lines)) if line]
    pieces = _pieces_told(texts)
    for text in texts:
        read = _read(facts, text)
        facts = replace(read, counts=facts.counts, counts_span=facts.counts_span) if text in pieces else read
    if facts.wait is not None and any(_IN_THREES.search(text.text) for text in texts):
        return replace(facts, wait=_in_threes(texts, facts.wait))
    return facts


_IN_THREES = re.compile(
    r"\bwaltz|\b3/4\b|\bbars? of (?:3|three)\b|\b3 (?:counts|beats) (?:to|in) (?:a|the|each|every) bar\b"
)
"""What says, anywhere in the head, that a bar has three counts."""


def _in_threes(texts: Sequence[_Text], wait: int) -> int:
    """Return the wait of a waltz, bars of three where it is told in bars and some other line says that it is one."""
    bars = next((int(found["n"]) for text in texts if (found := _first("wait_bars", text.text))), 0)
    return 3 * bars if wait == 4 * bars else wait


def _pieces_told(texts: Sequence[_Text]) -> list[_Text]:
    """Return the lines that tell the length of a section only, which another does too: "Walks and rocks (8 counts)"."""
    told: dict[str, list[_Text]] = {}
    for text in texts:
        length = next((one["n"] for one in _all("counts", text.text[:_LONGEST])), "")
        if length and int(length) <= _LONGEST_PIECE and not _OF_THE_DANCE.search(text.text):
            told.setdefault(length, []).append(text)
    return [text for same in told.values() if len(same) > 1 for text in same]


_LONGEST_PIECE = 16
"""Counts of a section."""
_OF_THE_DANCE = re.compile(r"\b(?:dance|walls?|level|beginner|improver|intermediate|total|in all|counts? [:=] \d)")


def _over_the_margin(lines: Sequence[tuple[Token, ...]]) -> Iterator[tuple[Token, ...]]:
    """Yield lines of a paragraph with the line that goes on: "a dance of thirty-two / counts and two walls"."""
    for line, after in pairwise(lines):
        if not line or not after or not after[0].text[0].islower() or after[0].line != line[-1].line + 1:
            continue
        wide = line[-1].column + len(line[-1].text) > _MARGIN and not any(token.text == "|" for token in line)
        if wide and line[-1].text not in (".", ":", "!", "?", ")"):
            yield (*line, *after)


def _text_of(tokens: Sequence[Token]) -> _Text:
    """The tokens as plain words, one blank between two; numbers of headers become figures, "Count: | 48" one cell."""
    tokens = [one for before, one in zip((None, *tokens), tokens, strict=False) if not _goes_on(before, one)]
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
    return _Text(" ".join(words), tuple(kept), tuple(starts), tuple(words))


def _goes_on(before: Token | None, token: Token) -> bool:
    """Whether a gap behind a colon parts a label from what it says."""
    return before is not None and before.text in (":", "=") and token.text == BREAK


def _read(facts: Facts, line: _Text) -> Facts:
    text = line.text[:_LONGEST]
    # Retracted: "forty-eight... no, 32 counts" says 32.
    text = re.sub(r"[^.;|]*\? ?\? no\b|\b\S+ (?:\. ){2,}no ,", lambda m: " " * len(m[0]), text)
    facts = _parts(facts, line, text)
    plays = re.search(r"\b[a-h] ,? ?[a-h] ,? ?[a-h]\b", text)
    wait = None if plays else _wait(text.replace(BREAK, ":"))
    if wait is not None and (facts.wait is None or (facts.intro_told and not _tells_intro(text))):
        # A danced intro has its own length; what is waited for is told beside it.
        facts = replace(facts, wait=wait, intro_told=_tells_intro(text))
    facts = _size(facts, line, _without_waits(text))
    if (found := _first("wait_from", text)) and not facts.wait_from and (wait is not None or facts.wait is not None):
        facts = replace(facts, wait_from=re.sub(r'\s*"\s*', " ", found[0]).strip())
    weight = _weight(text)
    tempo = _first("tempo", text)
    return replace(
        facts,
        starts=weight or facts.starts,
        tempo=facts.tempo or (Fraction(tempo["n"].replace(" ", "")) if tempo else None),
        time=facts.time or time_of(text),
        feel=facts.feel or _feel(text),
        level=facts.level or _level(text),
    )


def _tells_intro(text: str) -> bool:
    """Whether the counts of a line may be those of an intro that is danced."""
    return bool(re.search(r"\bintro|\blead ?-? ?in|\bopening", text))


def _first(key: str, text: str) -> re.Match[str] | None:
    return next((match for pattern in _PATTERNS[key] if (match := pattern.search(text))), None)


def _all(key: str, text: str) -> Iterator[re.Match[str]]:
    for pattern in _PATTERNS[key]:
        yield from pattern.finditer(text)


_ADDED = re.compile(r"(?:(?<![\d+] )(?:8|16|24|32|48|64) ?\+ ?)+$")
"""The counts of other pieces that are added to those told: "8+8 counts"."""


def _size(facts: Facts, line: _Text, text: str) -> Facts:
    told = [one for one in _all("counts", text) if int(one["n"]) >= _SHORTEST and not _of_each(text, one)]
    # "32, 2w, rolling 8-count": so few only name how it is counted where more are told.
    counts = next((one for one in told if int(one["n"]) > _SHORTEST), next(iter(told), None))
    if counts and facts.counts is None and not (facts.part_counts and not re.search(r"\btotal\b|in all", text)):
        added = _ADDED.search(text, 0, counts.start("n"))
        sum_of = sum(map(int, re.findall(r"\d+", added[0]))) if added else 0
        facts = replace(facts, counts=sum_of + int(counts["n"]), counts_span=line.span(counts.start("n")))
    walls = _first("walls", text)
    if walls and facts.walls is None:
        facts = replace(facts, walls=int(walls["n"]), walls_span=line.span(walls.start("n")))
    return facts


_PIECE = (
    r"(?:blocks?|sections?|sets?|rows?|lines?|numbers?|figures?|bits?|eights?|phrases?|boxes|box|pieces?|paragraphs?)"
)
_EACH_BEFORE = re.compile(
    rf"\b(?:each|every|an?|one|1|all|per) (?:\w+ )?{_PIECE} "
    r"(?:has|have|is|are|holds?|takes?|lasts?|contains?|=|:|of|with) ?$"
)
_EACH_AFTER = re.compile(
    rf" ?-? ?\w* (?:(?:to|in|for|on|makes?|fill) (?:an?|each|every|the|one|1)|per|each|a|every) {_PIECE}\b|"
    r" ?-? ?(?:counts?|cts?|beats?) (?:each|apiece|every time)\b"
)


_OF_A_PIECE = re.compile(
    rf"^\W*(?:the )?(?:(?:first|second|third|fourth|last|\d (?:st|nd|rd|th)) (?:{_PIECE}|part)|"
    rf"(?:{_PIECE}|part|sec) ?(?:no ?\.? ?|number |# ?)?(?:\d|[a-h]|i+|iv))\b[^.;]{{0,30}}$"
)
"""The head of one section before its length: "Part 2 (8 counts)"."""


def _of_each(text: str, told: re.Match[str]) -> bool:
    """Whether a number of counts is that of a section: "8 counts to a block", "each block has 8 counts"."""
    if _OF_A_PIECE.match(text[: told.start("n")]):
        return True
    return bool(_EACH_BEFORE.search(text[: told.start("n")]) or _EACH_AFTER.match(text, told.end("n")))


def _parts(facts: Facts, line: _Text, text: str) -> Facts:
    """Counts told of each part: "A = 32, B = 16", "Part A has 32 counts", "A (32), B (16)"."""
    found = parts_told(line.tokens, line.words)
    if not found or (len(found) < _PARTS and not facts.part_counts and "part" not in text):
        return facts
    return replace(facts, part_counts=tuple({**found, **dict(facts.part_counts)}.items()))


def _wait(text: str) -> int | None:
    if _first("wait_none", text):
        return 0
    if bars := _first("wait_bars", text):
        return int(bars["n"]) * (3 if "waltz" in text or "3/4" in text else 4)
    if sets := _first("wait_sets", text):
        return int(sets["n"]) * int(sets["m"])
    for match in _all("wait", text):
        groups = match.groupdict()
        if groups.get("next"):
            return int(groups["next"]) - 1
        if int(groups["n"]) >= _SHORTEST_WAIT:
            return int(groups["n"])
    return None


_SHORTEST_WAIT = 4
"""Counts: fewer are none that music plays before a dance; "in four walls" is said of other things."""


_LATER = re.compile(r"[^.;]{0,12}?\b(?:at the end|after|by then|at that point|when you come|for part|for wall)\b")
"""What follows on a foot that is free later in the dance: "the left foot is free at the end of A"."""


def _weight(text: str) -> Weight | None:
    """The foot that carries the weight at the start, by the last statement of it."""
    if _first("both", text):
        return "B"
    found: list[tuple[int, bool, Weight]] = []
    for free in (False, True):
        for pattern in _PATTERNS["free" if free else "weight"]:
            for match in pattern.finditer(text):
                if _LATER.match(text, match.end()):
                    continue
                right = match["f"].startswith("r")
                # "weight starts on left" speaks of the weight, though "starts on left" alone speaks of the first step.
                found.append((match.start("f"), not free, "R" if right != free else "L"))
    return max(found)[2] if found else None


def _without_waits(text: str) -> str:
    """Blank out what tells of the wait, so that its counts are not taken for those of the dance."""
    for pattern in _PATTERNS["wait"]:
        for match in pattern.finditer(text.replace(BREAK, ":")):
            text = f"{text[: match.start()]}{' ' * len(match[0])}{text[match.end() :]}"
    return text


def _feel(text: str) -> Feel | None:
    if re.search(r"\brolling(?: 8| eight)? (?:count|counts|rhythm|feel|timing)|\brolling 8\b|feel : rolling", text):
        return "rolling"
    if re.search(r"\b(?:swung|swing (?:feel|count|rhythm)|shuffle rhythm)\b", text):
        return "swung"
    return "straight" if re.search(r"\bstraight (?:count|counts|rhythm|feel|eights?|8)\b", text) else None


def _level(text: str) -> str:
    for match in _PATTERNS["level"][0].finditer(text):
        if _PATTERNS["not_level"][0].match(text, match.start()) or (
            match[0] in ("easy", "int", "imp") and not _labelled(text, match)
        ):
            continue
        words = " ".join(_SHORT_LEVELS.get(word, word.removesuffix("s")) for word in match[0].split())
        return re.sub(r" ?([/-]) ?", r"\1", words).strip()
    return ""


def _labelled(text: str, match: re.Match[str]) -> bool:
    """Whether a level's short word stands by itself, between marks or the ends of the line."""
    before, after = text[: match.start()].rstrip(), text[match.end() :].lstrip()
    return (not before or not before[-1].isalpha()) and (not after or not after[0].isalpha())
