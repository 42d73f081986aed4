"""One fault, one finding: a line whose counts are mistyped does not make the lines round it wrong as well.

A line that does not come out, but would with the counts up to the next line's first one, is read with those: "5-7" with
two steps before a line "7-8" is 5-6. It is still a problem, and the only one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.dance.counts import label_of
from trainer.problems import Problem
from trainer.sheet.allot import Fit, allot, ways
from trainer.sheet.countlines import CountLine
from trainer.sheet.labels import Typed
from trainer.terms import Label


def labels_of(typed: Sequence[Typed], phrase: int) -> list[Label]:
    """Return the labels of counts as typed: 9 is 1, in a waltz 7 is."""
    return [one.sub or label_of((one.number - 1) % phrase + 1) for one in typed]


def mended(line: CountLine, after: CountLine | None, phrase: int) -> CountLine:
    """Return a line with the counts that it must have been meant to have, if they can be told from the next line."""
    following = next((one.number for one in after.labels if one.sub is None), None) if after is not None else None
    whole = [one.number for one in line.labels if one.sub is None]
    if following is None or not whole or _comes_out(line, line.labels, phrase):
        return line
    last = max(index for index, one in enumerate(line.labels) if one.sub is None)
    if following <= whole[-1]:
        labels = tuple(one for one in line.labels if one.sub is not None or one.number < following)
    else:
        more = range(whole[-1] + 1, min(following, whole[-1] + phrase))
        labels = (*line.labels, *(replace(line.labels[last], number=number, glued=False) for number in more))
    return replace(line, labels=labels) if labels and _comes_out(line, labels, phrase) else line


def _comes_out(line: CountLine, labels: Sequence[Typed], phrase: int) -> bool:
    return not line.surplus and ways(line.said, labels_of(labels, phrase)) is not None


def faults(
    written: Sequence[CountLine],
    read: Sequence[CountLine],
    fits: Sequence[Fit],
    numbering: Sequence[Problem],
    phrase: int,
) -> Iterator[Problem]:
    """Yield what is wrong with the counts of a block, each fault once.

    `written` are its lines as they stand, `read` as they were mended, `numbering` the problems of the latter's numbers.
    """
    blamed: set[int] = set()
    for index, (line, mend, fit) in enumerate(zip(written, read, fits, strict=True)):
        places = {piece[1] for piece in line.line.pieces}
        own = [problem for problem in numbering if problem.line in places]
        complaint = fit.complaint if mend is line else allot(line, labels_of(line.labels, phrase)).complaint
        if complaint is not None:
            blamed.add(index)
        if own and index - 1 not in blamed:
            yield from own
        elif complaint is not None:
            yield complaint
