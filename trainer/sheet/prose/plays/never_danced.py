"""Passes of a part that a sheet speaks of and its order of play does not dance: "the tag comes after the seventh B"."""

import re
from collections import Counter
from collections.abc import Iterator, Sequence

from trainer.problems import Problem
from trainer.routine import Routine
from trainer.sheet.prose.lexis.sentences import sentences
from trainer.sheet.prose.lexis.vocabulary import TEENS
from trainer.sheet.prose.plays.paragraphs import is_steps
from trainer.sheet.prose.plays.symbols import Named, symbols, text_of
from trainer.sheet.prose.text.layout import Line

_PASS = re.compile(
    r"\b(?:after|following|behind|end of|close of)(?: (?:the|that|your|our|this))? #(?P<number>\d+) @(?P<part>\d+)"
    r"(?= (?:[.,;:!)(]|and\b|we\b|you\b|there\b|comes?\b|is\b|only\b|but\b|add\b|then\b|dance\b)|$)"
)


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
