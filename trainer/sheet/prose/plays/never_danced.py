"""Passes of a part that a sheet speaks of and its order of play does not dance: "the tag comes after the seventh B"."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from trainer.problems import Problem
from trainer.routine import Routine
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.lexis.vocabulary import TEENS
from trainer.sheet.prose.plays.paragraphs import is_steps
from trainer.sheet.prose.plays.symbols import Named, Text, symbols, text_of
from trainer.sheet.prose.text.layout import Line

_PASS = re.compile(
    r"\b(?:after|following|behind|end of|close of)(?: (?:the|that|your|our|this))? #(?P<number>\d+) @(?P<part>\d+)"
    r"(?= (?:[.,;:!)(]|and\b|we\b|you\b|there\b|comes?\b|is\b|only\b|but\b|add\b|then\b|dance\b)|$)"
)
_OF_THE_RUN = re.compile(
    r"(?:\b(?P<many>\d+) (?:part )?@(?P<plural>\d+)|@(?P<part>\d+) (?P<times>twice|thrice|\d+ times))\b"
    r"[^.;:]*? #(?P<number>\d+) of (?:them|these|those|the (?:\d|pair))\b"
)
"""One of so many that follow one another: "B twice, and after the fourth of them comes the tag"."""
_TIMES = {"twice": 2, "thrice": 3}


def never_danced(lines: Sequence[Line], routine: Routine, named: Named) -> Iterator[Problem]:
    """Yield a finding for each pass behind which something comes, and which the order of play does not have."""
    if routine.repeats:
        return
    danced = Counter(item.name for item in routine.play if item.kind == "part")
    for line in lines:
        if is_steps(line, named.parts):
            continue
        for tokens in sentences(line.tokens):
            text = text_of(symbols(tokens, named))
            yield from _of_the_run(text, named)
            for found in _PASS.finditer(text.text):
                number, name = int(found["number"]), named.parts[int(found["part"])]
                if number <= danced[name] or name not in danced:
                    continue
                at = next(index for index, start in enumerate(text.starts) if start >= found.start("number") - 1)
                token, many = text.symbols[at].token, danced[name]
                often = {1: "once", 2: "twice"}.get(many, f"{TEENS[many] if many < len(TEENS) else many} times")
                yield Problem(
                    level="error",
                    kind="order",
                    line=token.line,
                    column=token.column,
                    message=f"There is no {name} number {number}: the order of play dances it {often}",
                    hint="",
                )


def _of_the_run(text: Text, named: Named) -> Iterator[Problem]:
    """Yield a finding for each part that is said to be one of a run, and which the run does not have."""
    for found in _OF_THE_RUN.finditer(text.text):
        times = found["times"] or found["many"]
        many, number = _TIMES.get(times) or int(times.split()[0]), int(found["number"])
        if number <= many:
            continue
        at = max(index for index, start in enumerate(text.starts) if start <= found.start("number"))
        token, name = text.symbols[at].token, named.parts[int(found["part"] or found["plural"])]
        often = TEENS[many] if many < len(TEENS) else str(many)
        message = f"There is no number {number} of them: {name} is danced {often} times there"
        yield Problem(level="error", kind="order", line=token.line, column=token.column, message=message, hint="")
