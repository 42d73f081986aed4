"""Lines above the first counts: which name a section or an extra, and which only greet, title, or state facts."""

import re
from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.header.facts import Facts, header_facts
from trainer.sheet.prose.heads.headings import extra_kind, is_section_name
from trainer.sheet.prose.page.wrapping import runs_on
from trainer.sheet.prose.text.layout import Line

_STANDING = {"feet", "ft", "stand", "start", "begin", "weight", "wt", "standing", "starting"}
"""Words that open how one stands before the first count: "Feet together, weight on left"."""
_FACTS = 20
"""Tokens of a line that may greet or explain; longer ones do."""
_MOST_FACTS = 40
"""Tokens of a line that only states facts, at most."""
_FACTS_ALONE = 10
"""The same, in a first line with little else."""


_LABELLED = re.compile(
    r"\W*(?:choreograph\w*|choreo|chor|music|mus|song|track|tune|descr\w*|level|type|rotation|foot lead|lead foot|"
    r"lead|bpm|tempo|phrasing|style|count|counts|wall|walls|sequence|contact|e ?-? ?mail|video|demo|copyright|date|"
    r"written|taught|stepped) ?\.? ?[:=]|"
    r"\W*(?:choreographed|choreo|written|arranged|taught|dance)? ?by (?!(?:stepping|turning|crossing|rocking)\b)"
    r"(?:[a-z]\w+ ?)+(?:$|[,.(&|-])"
)
"""What opens a line that names the teacher, the music or the like."""
_INTRO_NAMED = re.compile(
    r"^\W*(?:the |our |an? )?(?:(?:short|little|danced|dance|stepped) ){0,2}"
    r"(?:intro|introduction|opening|prelude|prologue)"
    r"(?: (?:steps|part|dance|section))? ?[,(:.\-]? ?(?=.*\b(?:danced?|once|one time|counts|beats)\b)"
)
"""How a heading of a danced intro begins that tells its length or how often it is danced, too."""
_TITLES = 2
"""Lines of a sheet that are its title."""


def states_facts(line: Line) -> bool:
    """Whether a line above the first counts states facts of the whole dance: "32 counts, 4 walls, weight on left"."""
    titled = line.number == 1
    if _LABELLED.match(line.words):
        return True
    if _INTRO_NAMED.match(line.words) and extra_kind(line.tokens) == "intro" and line.number > _TITLES:
        # "Danced intro (8 counts, weight on left to begin)" names what is danced below it.
        return False
    if is_section_name(line.tokens[:3]) or len(line.tokens) > _MOST_FACTS:
        return False
    facts = header_facts([line.tokens])
    if titled and len(line.cells) == 1:
        # In the first line they stand in a cell of their own after the title, or tell both counts and walls.
        return facts.counts is not None and facts.walls is not None and len(line.tokens) <= _FACTS_ALONE
    if not titled and _only_tells_facts(line, facts):
        return True
    stands = facts.starts is not None and line.tokens[0].low in _STANDING and not titled
    return stands or sum(fact is not None for fact in (facts.counts, facts.walls, facts.wait, facts.starts)) > 1


def _only_tells_facts(line: Line, facts: Facts) -> bool:
    """Whether a line is one fact and no word else: "4 walls", "BEGINNER", "Intro: 40 counts"."""
    told = facts.counts or facts.walls or facts.wait or facts.level
    words = {token.low for token in line.tokens if token.kind == "word"}
    return bool(told) and words <= _OF_FACTS


_OF_FACTS = {
    "count", "counts", "ct", "cts", "c", "beats", "wall", "walls", "w", "one", "two", "four", "level", "beginner",
    "beg", "improver", "imp", "intermediate", "int", "advanced", "adv", "absolute", "ultra", "high", "low", "upper",
    "easy", "novice", "newcomer", "line", "dance", "intro", "introduction", "wait", "start", "after", "on", "vocals",
    "lyrics", "thirty", "sixty", "forty", "sixteen", "eight", "in", "a", "for",
}  # fmt: skip


def only_speaks_of_an_extra(line: Line, *, titled: bool) -> bool:
    """Whether a line above the first counts has the words of an extra, but heads none: where a section is named below.

    So do sentences that greet and explain.
    """
    if extra_kind(line.tokens) in (None, "intro"):
        return False
    ends = any(token.text in ("!", "?", ".") and after.text[0].isupper() for token, after in pairwise(line.tokens[:-1]))
    return titled or (ends and len(line.tokens) > _FACTS)


def is_the_title(line: Line, heads: Sequence[Line]) -> bool:
    """Whether a line far above the first counts only seems to name an extra, since a section is named after it."""
    if line.number == 1 and len(heads) > 1 and extra_kind(line.tokens) not in (None, "intro"):
        # "Cinnamon Bridge Cha" over its facts and steps.
        return True
    return bool(extra_kind(line.tokens)) and any(
        other.number > line.number and is_section_name(other.tokens) and not extra_kind(other.tokens) for other in heads
    )


def names_section(line: Line, waiting: Sequence[Line]) -> bool:
    """Whether a line that stands apart above the first counts names a part or section."""
    # A line by itself at the top of the sheet is its title.
    last = line is waiting[-1] and len(waiting) > 1
    return not runs_on(line) and (last or (is_section_name(line.tokens) and len(line.tokens) < 9))
