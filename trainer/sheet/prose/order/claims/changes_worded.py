"""Steps of one wall that are danced for others which are called by name, told with the counts that these have.

"Replace the second pivot with a rock", "the kick (count 12) is swapped for a step", "instead of the jazz box do a
rocking chair" become "instead of counts 23-24: ...". Of several places with that name the one is meant at which so many
counts stand free as the new steps take; where that leaves more than one the sentence stays as it is.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from trainer.sheet.prose.lexis.vocabulary import FILLERS, ORDINALS, STEP_WORDS
from trainer.sheet.prose.order.claims.named_steps import runs_named
from trainer.sheet.prose.order.grammar.instead import instead_of
from trainer.sheet.prose.order.grammar.places import Ruler
from trainer.sheet.prose.order.grammar.telling import Known
from trainer.sheet.prose.words import Token

_SWAP = r"(?:replace|change|swap|exchange|substitute|alter)"
_SWAPPED = r"(?:replaced|changed|swapped|exchanged|substituted|turned|altered)"
_WITH = r"(?:by|with|to|into|for|against)"
_OPENS = r"(?:^|(?<=[,:)] )|(?<=\bwall \d )|(?<=\bwall \d\d ))"
_FOR = r"\b(?:instead of|in place of|rather than)"
_NO_FOOT = r"(?![^.;:,(]*\b(?:r|l|rf|lf|right|left)\b)"
"""Steps with a foot are danced, and not only named: "in place of the shuffle step R back (7), close L (8)"."""
_NOT_COUNTED = r"(?![^.;:,]*\b(?:r|l|rf|lf|right|left)\b[^.;:,]*\( ?(?:counts? )?\d)"
_IT = "it|this|that(?: one| count)?|the last (?:one|count)"
_PATTERNS = tuple(
    re.compile(pattern)
    for pattern in (
        rf"\b{_SWAP} (?P<old>[^.;:]+?) {_WITH} (?P<new>.+)",
        rf"{_OPENS}(?P<old>the [^.;:]+?) (?:is|are|gets?|will be) {_SWAPPED} {_WITH} (?:: )?(?P<new>.+)",
        rf"{_OPENS}(?P<old>the [^.;:]+?) (?:becomes?|turns? into) (?P<new>.+)",
        rf"{_FOR} (?P<old>(?:the|your|a|an|that) {_NOT_COUNTED}[^.;:,]+?) ?[,:] (?P<new>.+)",
        rf"{_FOR} (?P<old>(?:the|your|that) [^.;:,]+?) (?P<new>(?:do|dance) .+)",
        rf"{_FOR} (?:the|your|that|its) (?P<old>[^.;:]+?) (?:comes?|there (?:is|are)|we have|goes|stands?) (?P<new>.+)",
        rf"{_FOR} (?P<old>(?:the|your|that) {_NO_FOOT}[^.;:,]+? \( ?[^()]*\d ?\)) (?P<new>.+)",
        rf"{_FOR} (?P<old>(?:the|your|that) {_NO_FOOT}[^.;:,]+? on (?:counts? )?\d+(?: - \d+)?) (?P<new>.+)",
        rf"\b(?:{_SWAP}|make|turn) (?P<old>{_IT})(?: {_WITH})? (?P<new>.+)",
        r"\bturn (?P<old>the [^.;:]+?) into (?P<new>.+)",
    )
)
_SECTION = re.compile(
    r"\b(?:in|of|from) (?:the )?(?:(?:section|s|set|part|eight|six|block|box) (?P<n>\d)\b|"
    rf"(?P<nth>{'|'.join(ORDINALS)}) (?:section|set|part|eight|six|block|box)\b)"
)
_COUNTED = re.compile(
    r" ?[(,]? ?(?:on |at )?(?P<word>counts? |cts? |beats? )?"
    r"(?P<first>\d{1,2}) ?(?:(?:-|to|and|&|,) ?(?P<last>\d{1,2}))? ?\)?$"
)
_BRACKETED = re.compile(
    r"[(\[] ?(?P<first>\d{1,2})(?: (?:&|a|e))*(?: ?(?:-|,|&|and)? ?(?P<last>\d{1,2}))?(?: &| a)? ?[)\]]"
)
_LEADING = re.compile(r"(?:^|(?<=, )|(?<=and ))(?P<first>\d{1,2})(?: ?- ?(?P<last>\d{1,2}))?(?= [a-z])")
_WHEN = re.compile(r"\b(?:on|in|during|for|at) (?:the )?(?:wall|walls|w)\b.*$")
_AFTER = re.compile(r"\b(?:after|to|until|till|on|at) (?:count )?(?P<n>\d{1,2})(?: counts?)?\b(?! ?:)")
_LAST = {"last", "final"}
_OWN = {"do", "dance", "just", "you", "we", ",", "a", "an", ":"}
_SIDES = {"right": "r", "left": "l", "r": "r", "l": "l"}
_SPARED = {
    "it",
    "them",
    "this",
    "that",
    "these",
    "one",
    "dance",
    "wall",
    "direction",
    "section",
    "tag",
    "ending",
    "bridge",
}
"""Words by themselves that name no steps."""


@dataclass(frozen=True, slots=True)
class _Old:
    words: tuple[str, ...]
    nth: int
    """Which of several: -1 the last, 0 not said."""
    section: int
    counts: tuple[int, int] | None


def with_changes_counted(tokens: Sequence[Token], known: Known, ruler: Ruler) -> tuple[Token, ...]:
    """Return a sentence that changes named steps with their counts for the names; others as they are."""
    if not any(token.low.startswith("w") for token in tokens):
        return tuple(tokens)
    words = " ".join(token.low for token in tokens)
    for pattern in _PATTERNS:
        match = pattern.search(words)
        if match is None:
            continue
        first, split = (words[: match.start(name)].count(" ") for name in ("old", "new"))
        start = words[: match.start()].count(" ") + (words[match.start() : match.start() + 1] == " ")
        old = _old(match["old"], words[: match.start()]) or _last_danced(match["old"], words[: match.start()])
        if old is None:
            continue
        run = _run(old, tokens[split:], known, ruler)
        if run is None:
            continue
        return _told(tokens, start, split, run, _WHEN.search(match["old"]), first)
    return tuple(tokens)


def changes_named_steps(tokens: Sequence[Token]) -> bool:
    """Whether a sentence says that steps which it names are danced otherwise."""
    words = " ".join(token.low for token in tokens)
    olds = [match["old"].split() for pattern in _PATTERNS if (match := pattern.search(words))]
    return any(word in STEP_WORDS for old in olds for word in old if word not in _SIDES)


def _told(
    tokens: Sequence[Token], start: int, split: int, run: tuple[int, int], when: re.Match[str] | None, first: int
) -> tuple[Token, ...]:
    at = first + when.string[: when.start()].count(" ") if when else split
    moved = tokens[at:split] if when else ()
    moved = [token for token in moved if token.low not in ("by", "with", "to", "into", "for", "becomes", "become")]
    rest = tokens[split:]
    while rest and rest[0].low in _OWN:
        rest = rest[1:]
    return (*tokens[:start], *moved, *instead_of(tokens[start], run[0] + 1, run[1]), *rest)


def _last_danced(text: str, before: str) -> _Old | None:
    """Return the count that "it" stands for, the last one danced: "restart after count 12, but make it a step"."""
    if text.split()[0] not in ("it", "this", "that") and "last" not in text:
        return None
    counts = [int(found["n"]) for found in _AFTER.finditer(before)]
    return _Old((), 0, 0, (counts[0], counts[0])) if len(counts) == 1 and counts[0] > 1 else None


def _old(text: str, before: str) -> _Old | None:
    """Return what is said of the steps that are not danced; None where no step is named, or counts alone."""
    text = _WHEN.sub("", text).strip(" ,")
    section = _SECTION.search(text) or _SECTION.search(before)
    if section is not None and section.string == text:
        text = (text[: section.start()] + text[section.end() :]).strip(" ,")
    counted = _COUNTED.search(text)
    counts = None
    if counted is not None and (counted["word"] or "(" in counted[0] or " on " in counted[0]):
        first = int(counted["first"])
        counts = first, int(counted["last"] or first)
        text = text[: counted.start()]
    words = [word for word in text.split() if word.isalpha() or "/" in word]
    nth = 0
    named = []
    for word in words:
        if word in _LAST:
            nth = -1
        elif word in ORDINALS:
            nth = ORDINALS[word]
        elif word not in FILLERS:
            named.append(word)
    if not named or set(named) <= _SPARED or "counts" in named or "count" in named:
        return None
    place = int(section["n"] or ORDINALS[section["nth"]]) if section else 0
    return _Old(tuple(named), nth, place, counts)


def _run(old: _Old, new: Sequence[Token], known: Known, ruler: Ruler) -> tuple[int, int] | None:
    """Return the counts before and by the end of what is not danced; None where that is not sure."""
    if old.counts is not None:
        first, last = old.counts
        base = [0, *ruler.ends][old.section - 1] if 0 < old.section <= len(ruler.ends) and last <= ruler.phrase else 0
        fits = first <= last and (base or last > ruler.phrase or len(ruler.ends) == 1 or not old.words)
        return (base + first - 1, base + last) if fits and base + last <= ruler.length else None
    runs = runs_named(ruler, old.words) or _on_a_side(known, ruler, old.words)
    if 0 < old.section <= len(ruler.ends):
        begins, ends = [0, *ruler.ends][old.section - 1], ruler.ends[old.section - 1]
        runs = [run for run in runs if begins <= run[0] and run[1] <= ends]
    runs = _nth(old, runs, ruler)
    counted = _counts_told(new)
    wanted = {counted} if counted else known.lasts(_steps(new))
    fitting = {run for run in runs if run[1] - run[0] in wanted}
    wider = {
        (first - 1, last)
        for first, last in runs
        if first and last - first + 1 in wanted and any(a == first - 1 and b == last for a, b, _ in ruler.steps)
    }
    found = fitting or wider or (set(runs) if not wanted else set())
    return found.pop() if len(found) == 1 else None


def _on_a_side(known: Known, ruler: Ruler, name: Sequence[str]) -> list[tuple[int, int]]:
    """Return where steps are danced that a section is called by, of which a name says the side: "the vine right"."""
    plain = tuple(word for word in name if word not in _SIDES)
    side = next((_SIDES[word] for word in name if word in _SIDES), "")
    if not plain or not side:
        return []
    headed = runs_named(ruler, plain)
    rows = {(first, last) for first, last, _ in _rows(ruler)}
    return [
        (first, last)
        for _, first, last, words in known.steps
        if (first, last) in rows and any(a <= first and last <= b for a, b in headed)
        and next((_SIDES[word] for word in words if word in _SIDES), "") == side
    ]  # fmt: skip


def _nth(old: _Old, runs: Sequence[tuple[int, int]], ruler: Ruler) -> list[tuple[int, int]]:
    if not old.nth:
        return list(runs)
    danced = ruler.danced(old.words)
    if not danced:
        # "The first vine" of a section called "vines" is its first line.
        danced = [(a, b) for first, last in runs for a, b, _ in _rows(ruler) if first <= a and b <= last]
    at = old.nth if old.nth < 0 else old.nth - 1
    return [sorted(danced)[at]] if danced and -len(danced) <= at < len(danced) else []


def _rows(ruler: Ruler) -> list[tuple[int, int, frozenset[str]]]:
    """Return the items that no other holds."""
    return [
        one
        for one in ruler.steps
        if not any(
            one is not two and two[0] <= one[0] and one[1] <= two[1] and two[:2] != one[:2] for two in ruler.steps
        )
    ]


def _counts_told(new: Sequence[Token]) -> int:
    """Return how many counts new steps have, told in brackets or before each, one by one; 0 where they do not."""
    told = " ".join(token.low for token in new)
    marked = list(_BRACKETED.finditer(told)) or (list(_LEADING.finditer(told)) if told[:1].isdigit() else [])
    counts = [(int(one["first"]), int(one["last"] or one["first"])) for one in marked]
    rising = len(counts) > 1 and all(one[1] + 1 == two[0] for one, two in pairwise(counts))
    return counts[-1][1] - counts[0][0] + 1 if rising else 0


def _steps(new: Sequence[Token]) -> tuple[Token, ...]:
    """Return the words of the new steps, up to what is told of leaving the wall."""
    for at, token in enumerate(new):
        if token.low in ("restart", "then", "start", "begin", ".", "(") or token.low == "so":
            last = at
            while last and new[last - 1].low in (",", "and", "&", "then"):
                last -= 1
            return tuple(new[:last])
    return tuple(new)
