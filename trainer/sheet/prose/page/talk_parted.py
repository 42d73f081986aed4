"""What a teacher says before the first step and after the last, parted from the steps in whose lines it stands.

In running prose the words before the first count are its own; where they open with sentences that greet, or that say
what kind of dance it is, the count is filled better without them. Numbers below a complete dance that no steps go with
are talk as well: "Counts 1 to 8 travel right and left, counts 9 to 16 forward and back".
"""

from collections.abc import Sequence
from itertools import pairwise

from trainer.sheet.prose.page.runs import Run
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Fill, Token

_ENDS = (".", "!", "?", ":", BREAK)
_MOST = 160
"""Tokens of the words before the first count that are looked at."""
_BETTER = 0.15
_NEARLY = 0.03
_STOPS = (".", "!", "?")
_WELL = 0.3
"""Words that fill their counts so well need no others."""
_ANSWERED = 4
"""Sentences behind the last step among which its facing is told."""
_FEW_WORDS = 3
_FEET = {"left", "right", "l", "r", "lf", "rf", "both", "foot", "feet"}
_UNFILLED = 0.6
"""Words that fill their counts so badly tell no steps of theirs."""


def part_talk(runs: Sequence[Run], texts: Sequence[Line], fill: Fill) -> list[Line]:
    """Take the sentences before the first step out of its words, and return them as lines of the head."""
    run = next((one for one in runs if one.links), None)
    if run is None or run.links[0].mark.first == 0 or any(heading.extra for heading in run.headings):
        return []
    words = run.words[0]
    ends = [at + 1 for at, token in enumerate(words[:-1]) if token.text in _ENDS]
    if not ends or len(words) > _MOST:
        return []
    counts = len(run.links[0].mark.places)
    whole = fill(words, counts)
    prices = [(fill(words[end:], counts), end) for end in ends]
    best = min(price for price, _ in prices)
    if best > whole - _BETTER:
        return []
    end = next(end for price, end in prices if price <= best + _NEARLY)
    said, run.words[0] = words[:end], words[end:]
    return _lines(said, texts)


def part_closing_talk(runs: Sequence[Run], texts: Sequence[Line], fill: Fill) -> list[Line]:
    """Take the sentences after the last step out of its words, where its counts stand behind them; as remarks.

    "..., march right, left (7-8). You're now facing 9 o'clock. If you lose your place just clap along."
    """
    said: list[Line] = []
    for run in runs:
        # Where counts open their lines what follows the last is what it tells.
        if (
            not run.links
            or not run.links[-1].mark.first
            or fill(run.words[-2], len(run.links[-1].mark.places)) >= _WELL
        ):
            continue
        tail = run.words[-1]
        ends = [0, *(at + 1 for at, token in enumerate(tail) if token.text in _STOPS), len(tail)]
        sentences = list(pairwise(ends))
        # "> and which wall are we on by then?" is answered with a facing.
        faced = [b for a, b in sentences[:_ANSWERED] if _states_facing(tail[a:b])]
        kept = faced[-1] if faced else sentences[0][1] if sentences else len(tail)
        if _talks(tail[kept:]):
            said += _lines(tail[kept:], texts)
            run.words[-1] = tail[:kept]
    return said


def _states_facing(words: Sequence[Token]) -> bool:
    return any(token.kind in ("facing", "clock") for token in words)


def _talks(words: Sequence[Token]) -> bool:
    """Whether words speak to the dancers, with hardly a foot among them."""
    lows = [token.low for token in words if token.kind == "word"]
    return len(lows) > _FEW_WORDS and not _FEET & set(lows)


def without_talk(runs: Sequence[Run], texts: Sequence[Line], fill: Fill) -> tuple[list[Run], list[Line]]:
    """Return the runs without those below the dance whose counts no steps go with, and their lines as remarks."""
    kept: list[Run] = []
    said: list[Line] = []
    for run in runs:
        words = [token for part in run.words for token in part]
        counts = sum(len(link.mark.places) for link in run.links)
        unnamed = run.kind == "tag" and run.links and not any(heading.extra for heading in run.headings)
        if unnamed and not any(token.low in _NAMES for token in words) and fill(words, counts) >= _UNFILLED:
            numbers = {link.mark.number for link in run.links} | {token.line for token in words}
            said += [line for line in texts if line.number in numbers]
        else:
            kept.append(run)
    return kept, said


_NAMES = {"tag", "tags", "bridge", "ending", "finish", "extra", "instead"}


def _lines(words: Sequence[Token], texts: Sequence[Line]) -> list[Line]:
    """Return words as lines, each under the number of the line that it stands in."""
    numbers = list(dict.fromkeys(token.line for token in words))
    indents = {line.number: line.indent for line in texts}
    return [
        Line(number, tuple(one for one in words if one.line == number), indents.get(number, 0)) for number in numbers
    ]
