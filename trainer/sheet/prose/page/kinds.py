"""What each run of counts is: of the main dance, of a part, or an extra.

A run whose heading names an extra is an extra; once the stated total of counts is complete nothing more belongs to the
main dance.
"""

import re
from collections.abc import Sequence

from trainer.sheet.prose.header.facts import header_facts
from trainer.sheet.prose.heads.headings import Heading
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.heads.series import goes_on, places_of
from trainer.sheet.prose.page.range_heads import opens_with_range
from trainer.sheet.prose.page.runs import Run
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_HEAD = 12
"""Lines among which the lengths of the parts are told."""
_LETTERS = tuple("ABCDEFGH")
_DANCE_AND_EXTRA = 2
"""Runs of a dance and one extra."""
_PARTS = re.compile(
    r"\bphrased\b|\bin (?:two|three|four|2|3|4) parts\b|\bparts? [a-d]\b|"
    r"\b[a-d](?:[ ,\-/>&+|]*(?:[a-d]|tag|bridge|intro|t)\b){2,}|"
    r"\b[a-d] ?[=:(] ?\d+|(?:^|[.;:] )(?:part )?[a-d] has \w+ counts|\bverse\b|\bchorus\b|\binstrumental \("
)


def speaks_of_parts(lines: Sequence[Line]) -> bool:
    """Whether a sheet says that it is phrased, or gives its parts in an order: else A. and B. only number sections."""
    return any(_PARTS.search(line.words) for line in lines) or any(map(_gives_lengths, lines[:_HEAD]))


def _gives_lengths(line: Line) -> bool:
    """Whether a line of the head tells how long several parts are: "2 bits, A is 16 and B is 8"."""
    letters = {token.text for token in line.tokens if token.text in _LETTERS}
    return len(letters) > 1 and len(header_facts([line.tokens]).part_counts) > 1


def classify(runs: Sequence[Run], total: int | None, *, parts: bool, phrase: int) -> None:
    """Give each run its kind and part; `parts` says whether the sheet speaks of parts."""
    _find_the_dance(runs)
    danced = 0
    part = ""
    phrased = parts and _has_parts(runs, total, phrase)
    kind = "main"
    above: Heading | None = None
    intro = _is_before_the_dance(runs, total, phrased=phrased)
    if intro:
        runs[0].kind, runs[0].part = "intro", ""
    for at, run in enumerate(runs[intro:], intro):
        kinds = [heading.extra for heading in run.headings if heading.extra]
        complete = total is not None and danced >= total and not phrased and not _counts_on(run, danced)
        if phrased:
            named = [heading.part for heading in run.headings if heading.part]
            if named:
                part, kind = named[-1], "main"
        # "To finish, on 1-2-3 waltz forward ..." heads the last steps of the dance where these make it whole.
        short = total is not None and 0 < danced < total and not phrased
        closes = kinds == ["ending"] and short and danced + length_of(run) == total
        if (run.links and run.links[0].resumes) or (kinds and _is_next_section(run, above)) or closes:
            kind = "main"
        elif kinds and not (total is not None and danced < total and danced and _is_named_section(run)):
            kind = kinds[-1]
        elif complete:
            kind = kind if kind != "main" else "tag"
        elif run.headings and kind != "main" and not kinds and not (kind == "intro" and _is_of_the_intro(runs, at)):
            kind = "main"
        run.kind = kind
        run.part = part if kind == "main" else ""
        if kind == "main":
            danced += length_of(run)
            above = next((one for one in reversed(_headings(run)) if not one.extra), above)
    _end_the_intro(runs, total, danced)


_DANCE = re.compile(r"^\W*(?:the |our )?(?:main )?dance(?: proper| itself)?\W*$|^\W*(?:the )?main (?:dance|part)\b")


def _is_of_the_intro(runs: Sequence[Run], at: int) -> bool:
    """Whether a heading goes on with those below an intro's: "second 8" after "first 8", the dance itself below them.

    The dance has a heading of its own there, or its sections are counted from one.
    """
    heads, above = runs[at].headings, runs[at - 1].headings if at else []
    if not heads or not above or above[-1].extra or not goes_on(heads[-1].tokens, above[-1].tokens):
        return False
    below = [heading for run in runs[at + 1 :] for heading in run.headings if not heading.extra]
    return any(_DANCE.match(one.words) or any(place.first == 1 for place in places_of(one.tokens)) for one in below)


def _is_before_the_dance(runs: Sequence[Run], total: int | None, *, phrased: bool) -> bool:
    """Whether the first run, which nothing heads, is danced before the dance.

    It stands above the first part, or what is headed below it makes up the stated total without it.
    """
    if not runs or runs[0].headings or not runs[0].links:
        return False
    if phrased:
        return True
    dance = [run for run in runs[1:] if not any(heading.extra for heading in run.headings)]
    headed = len(dance) > 1 and all(run.headings for run in dance)
    return headed and total is not None and sum(map(length_of, dance)) == total


def _end_the_intro(runs: Sequence[Run], total: int | None, danced: int) -> None:
    """Give the dance the runs without headings below its intro that make it whole, or all that an empty line parts.

    "Introduction: (1) sway right, ..." above "Steps 1-8: (1) right to the side ...", where no line heads the dance.
    """
    if runs and not any(run.kind in ("main", "intro") for run in runs):
        # No sheet is without a dance: "Bridge Street" is its title.
        named = runs[0].kind
        for run in runs:
            run.kind = "main" if run.kind == named else run.kind
    danced += _with_soft_names(runs, total, danced)
    intro = next((at for at, run in enumerate(runs) if run.kind == "intro"), len(runs))
    below = [run for at, run in enumerate(runs) if at > intro and run.kind == "intro" and not run.headings]
    if (danced and total is None) or (total is not None and danced >= total):
        return
    for at, run in enumerate(below):
        whole = sum(map(length_of, below[at:])) + danced == total
        if whole or (total is None and _apart(runs[runs.index(run) - 1], run)):
            for one in below[at:]:
                one.kind = "main"
            return


_SOFT = re.compile(
    r"^\W*(?:the |our )?(?:opening|beginning|start|closing|close|finish|finale?|ending|conclusion|last bit)\b"
    r"(?!.*\b(?:once|walls?|after|tag|restart|only|danced)\b)"
)
"""Names that the first and last section of a dance may have as well as what is danced before and after it."""


def _with_soft_names(runs: Sequence[Run], total: int | None, danced: int) -> int:
    """Give the dance the runs with such names where they make it whole, and return how many counts that adds."""
    soft = [run for run in runs if run.kind != "main" and any(_SOFT.match(one.words) for one in run.headings)]
    added = sum(map(length_of, soft))
    if total is None or not danced or not added or danced + added != total:
        return 0
    for run in soft:
        run.kind = "main"
    return added


def _apart(above: Run, run: Run) -> bool:
    """Whether an empty line stands between two runs."""
    last = max((token.line for words in above.words for token in words), default=0)
    return bool(run.links) and run.links[0].mark.number > last + 1


def _find_the_dance(runs: Sequence[Run]) -> None:
    """Take the first run for the dance where all headings name extras: no sheet is without a dance.

    "Tag: 2 counts at the end of wall 2" above the first section, and the steps of the tag below the last, say so.
    """
    kinds = [[heading.extra for heading in run.headings if heading.extra] for run in runs if run.headings]
    if len(kinds) < _DANCE_AND_EXTRA or not runs[0].headings or not all(kinds) or "intro" in kinds[0]:
        return
    runs[0].headings = [heading for heading in runs[0].headings if not heading.extra]


def _has_parts(runs: Sequence[Run], total: int | None, phrase: int) -> bool:
    """Whether letters name parts; where many of one eight each make up the whole dance, they only name its sections."""
    lengths: dict[str, int] = {}
    part, extra = "", False
    for run in runs:
        part = next((heading.part for heading in reversed(run.headings) if heading.part), part)
        extra = any(heading.extra for heading in run.headings) if run.headings else extra
        lengths[part] = lengths.get(part, 0) + (0 if extra else length_of(run))
    lengths.pop("", None)
    sections = len(lengths) > 1 and max(lengths.values()) <= phrase and sum(lengths.values()) == total
    return len(lengths) > 1 and not sections


def _headings(run: Run) -> list[Heading]:
    return [*run.headings, *(heading for _, heading in run.inner)]


def _is_next_section(run: Run, above: Heading | None) -> bool:
    """Whether the last heading of a run goes on with the sections before it, below a line that names an extra.

    What it says to be otherwise than before is no change: "III. The same again, but a touch instead of the scuff".
    """
    last = run.headings[-1]
    plain = last.extra is None or (last.extra == "change" and points_back(last.tokens))
    return above is not None and plain and goes_on(last.tokens, above.tokens)


def _counts_on(run: Run, danced: int) -> bool:
    """Whether a heading goes on with the counts danced, so that the total was stated amiss: "Steps 17-24" after 16."""
    places = places_of(run.headings[-1].tokens) if run.headings and run.headings[-1].extra is None else []
    return any(place.first == danced + 1 < place.last for place in places)


def _is_named_section(run: Run) -> bool:
    """Whether a heading numbers its section, so that "5. Finish the pattern" is no ending."""
    return any(_opens_with_number(heading.tokens) or opens_with_range(heading.tokens) for heading in run.headings)


def _opens_with_number(tokens: Sequence[Token]) -> bool:
    """Whether a heading begins with its number, and not with "2nd wall only"."""
    ordinal = len(tokens) > 1 and tokens[1].low in ("st", "nd", "rd", "th") and tokens[1].glued
    return tokens[0].kind == "number" and not ordinal


def length_of(run: Run) -> int:
    """The counts of a run, without the 1 of a last 8&1."""
    length = max((place.number for link in run.links for place in link.mark.places if place.number), default=0)
    places = run.links[-1].mark.places if run.links else ()
    over = (
        len(places) > 2
        and places[-1].number == length
        and bool(places[-2].sub)
        and length in (7, 9, 17, 25, 33, 41, 49, 57, 65)
    )
    return length - 1 if over else length
