"""Runs of counts that go on, with the words around them; what stands between two heads the next or ends the last."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise, takewhile

from trainer.sheet.prose.counts.chain import Link
from trainer.sheet.prose.counts.marks import Mark, marks_in
from trainer.sheet.prose.facing.faced import states_facing
from trainer.sheet.prose.heads.headings import Heading, extra_kind, heading_score, is_section_name
from trainer.sheet.prose.heads.heads_parted import head_of
from trainer.sheet.prose.order.lines.plain_steps import are_steps, is_a_step
from trainer.sheet.prose.page.above_steps import is_the_title, names_section, only_speaks_of_an_extra, states_facts
from trainer.sheet.prose.page.wrapping import hangs, opens_paragraph, runs_on, wraps
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_FEET = {"left", "right", "l", "r", "lf", "rf", "feet", "foot", "weight"}
_ASIDE = {"you", "your", "has", "have", "is", "are", "this", "that", "it", "we", "ends"}
_ON_THE_WHOLE = re.compile(
    r"^[=>(\[\- ]*(?:so )?(?:part |the )?(?:[a-h]|dance|verse|chorus|section) "
    r"(?:finishes|ends|turns|has turned|closes|brings|makes)\b|\bof where (?:it|you|they) (?:starts?|began|begins?)\b"
)
"""What is said of a part or section on the whole: "= A finishes a quarter to the left of where it starts"."""
_NUMBERED = 3
"""Tokens of a section's number before the first count of its line: "(1) 1-2-3 waltz"."""
_HEADS = 0.8
"""The score of a heading."""
_HEAD = 18
"""Tokens of an extra's name and length before its steps in one line."""


@dataclass(slots=True)
class Run:
    """Links whose counts go on, with the words around them; filled line by line."""

    links: list[Link] = field(default_factory=list)
    headings: list[Heading] = field(default_factory=list)
    inner: list[tuple[int, Heading]] = field(default_factory=list)
    """Headings within the run, with the index of the link that they stand before."""
    words: list[list[Token]] = field(default_factory=lambda: [[]])
    kind: str = "main"
    part: str = ""


def runs_of(
    texts: Sequence[Line], links: Sequence[Link], phrase: int, order: dict[int, Line]
) -> tuple[list[Run], list[Line], list[Line]]:
    """Return the runs of counts with the words around their marks, the lines before them, and remarks."""
    runs: list[Run] = []
    header: list[Line] = []
    remarks: list[Line] = []
    by_line: dict[int, list[Link]] = {}
    for link in links:
        by_line.setdefault(link.mark.line, []).append(link)
    indent = min((texts[index].indent for index in by_line), default=0)
    waiting: list[Line] = []
    for index, line in enumerate(texts):
        here = by_line.get(index)
        if here is None:
            waiting.append(line)
            continue
        waiting = _without_uncounted(waiting, here[0], texts, runs, indent)
        _place_waiting(waiting, here[0], runs, header, order, indent, phrase, texts)
        waiting = []
        _take_line(line, here, runs, phrase)
    _place_rest(waiting, runs, remarks, indent)
    return runs, header, remarks


def _place_waiting(
    waiting: list[Line],
    link: Link,
    runs: list[Run],
    header: list[Line],
    order: dict[int, Line],
    indent: int,
    phrase: int,
    texts: Sequence[Line],
) -> None:
    """Give the lines without counts that stand before a line with counts their role."""
    opens = link.restarts or not runs
    bound = opens or _at_bound(link.mark, phrase) or any(line.heads for line in waiting)
    if opens:
        # A danced intro without counts may stand above the first that has some.
        runs_before = any(one.links for one in runs)
        run = Run(kind="new")
        first = link.mark.number
        heads, goes_on, leads = _roles(waiting, first, order, indent, texts) if bound else ([], waiting, [])
        if not runs_before:
            above = [line for line in _touching(waiting, link.mark.number) if not states_facts(line)]
            heads, goes_on, leads = _roles(above, first, order, indent, texts)
            line = texts[link.mark.line]
            own = list(line.tokens[: link.mark.first])
            own = own if _titles_its_counts(own, line, link.mark) else head_of(own)[0]
            named = bool(own)
            told = not named and any(line.indent >= indent for line in above)
            goes_on, leads = [], [*goes_on, *leads] if told else []
            heads += [line for line in waiting if line not in above and names_section(line, waiting)]
            heads.sort(key=lambda line: line.number)
            heads = [
                line
                for line in heads
                if line.heads
                or line in waiting[-1:]
                or (is_section_name(line.tokens) and len(line.tokens) < 18 and not runs_on(line))
            ]
            heads = [line for line in heads if line in above or not is_the_title(line, heads)]
            # "Here is last night's dance instead. Any polka will do." above the first steps names no change.
            titled = named and extra_kind(own) is None
            heads = [line for line in heads if line.heads or not only_speaks_of_an_extra(line, titled=titled)]
            heads = [line for line in heads if not states_facts(line) or (line.heads and line is heads[-1])]
            known = {id(line) for line in heads} | {id(line) for line in leads}
            header += [line for line in waiting if id(line) not in known]
        else:
            for line in goes_on:
                runs[-1].words[-1] += line.tokens
        run.headings += [Heading(line.number, line.tokens) for line in heads]
        for line in leads:
            head, rest = head_of(list(line.tokens)) if line is leads[0] and not heads else ([], list(line.tokens))
            run.headings += [Heading(line.number, tuple(head))] if head else []
            run.words[0] += rest
        runs.append(run)
        return
    heads, goes_on, leads = _roles(waiting, link.mark.number, order, indent, texts) if bound else ([], waiting, [])
    for line in heads:
        runs[-1].inner.append((len(runs[-1].links), Heading(line.number, line.tokens)))
    for line in [*goes_on, *leads]:
        runs[-1].words[-1] += line.tokens


def _without_uncounted(
    waiting: list[Line], link: Link, texts: Sequence[Line], runs: list[Run], indent: int
) -> list[Line]:
    """Take extras without counts out of the lines above an extra that has counts; each is a run by itself."""
    if not runs:
        return _without_uncounted_intro(waiting, runs)
    if not link.restarts:
        return waiting
    heads = [at for at, line in enumerate(waiting) if _heads_an_extra(line, indent)]
    own = texts[link.mark.line].tokens[: link.mark.first]
    bounds = [*heads, len(waiting)] if own and extra_kind(own) else heads
    left = list(waiting)
    for first, last in pairwise(bounds):
        name, steps = _named_steps(waiting[first])
        told = [*steps, *(token for line in waiting[first + 1 : last] for token in line.tokens)]
        if told and (are_steps(told) or is_a_step(told)):
            runs.append(Run(kind="new", headings=[Heading(waiting[first].number, name)], words=[told]))
            left = [line for line in left if line not in waiting[first:last]]
    return left


def _without_uncounted_intro(waiting: list[Line], runs: list[Run]) -> list[Line]:
    """Take a danced intro without counts out of the lines above the dance; it is a run by itself."""
    for at, line in enumerate(waiting):
        if extra_kind(line.tokens) != "intro":
            continue
        name, steps = _named_steps(line)
        below = list(takewhile(lambda one: one[1].number <= one[0].number + 1, pairwise(waiting[at:])))
        told = [*steps, *(token for _, one in below for token in one.tokens)]
        if told and are_steps(told):
            runs.append(Run(kind="new", headings=[Heading(line.number, name)], words=[told]))
            return [one for one in waiting if one is not line and all(one is not taken for _, taken in below)]
    return waiting


def _heads_an_extra(line: Line, indent: int) -> bool:
    """Whether a line names an extra, and asks nothing."""
    asked = line.tokens[-1].text == "?"
    return extra_kind(line.tokens) is not None and not asked and heading_score(line, None, indent) >= _HEADS


def _touching(waiting: Sequence[Line], first: int) -> list[Line]:
    """Return the lines that stand just above a line, no empty line between."""
    touching: list[Line] = []
    for line in reversed(waiting):
        if line.number != first - 1 - len(touching):
            break
        touching.insert(0, line)
    return touching


def _roles(
    waiting: Sequence[Line], first: int, order: dict[int, Line], indent: int, texts: Sequence[Line]
) -> tuple[list[Line], list[Line], list[Line]]:
    """Return which lines are headings, which go on from the counts before, which lead on to the counts after."""
    heads: list[Line] = []
    goes_on: list[Line] = []
    leads: list[Line] = []
    last = waiting[-1].number if waiting else 0
    for line in order.values():
        nearest = max((other.number for other in texts if other.number < first and other not in waiting), default=0)
        named = extra_kind(line.tokens) or any(
            one.number == line.number - 1 and extra_kind(one.tokens) for one in waiting
        )
        # Steps may begin in the line that tells their place.
        above = line.number < first or (line.number == first and line.tokens[-1].text == ":")
        if nearest < line.number and above and named and line.number >= last - 1:
            heads.append(line)
    placed = max((line.number for line in heads), default=0)
    for place, line in enumerate(waiting):
        before = waiting[place - 1] if place else next((t for t in reversed(texts) if t.number < line.number), None)
        ranged = any(mark.spread and len(mark.places) > 3 for mark in marks_in(line.tokens, 0))
        hanging = hangs(line, indent, texts)
        likely = heading_score(line, before, indent) + 1.5 * ranged >= 0.8 and not hanging
        if line.heads or (likely and not runs_on(line) and not wraps(line, texts)):
            heads.append(line)
            leads.clear() if not leads else goes_on.extend(leads)
            leads = []
        elif (
            hanging
            or any(head.number < line.number for head in heads)
            or leads
            or (wraps(line, texts) and (opens_paragraph(before, line) or _is_headed(line)))
        ):
            leads.append(line)
        elif not _is_an_aside(line):
            goes_on.append(line)
    heads.sort(key=lambda line: line.number)
    # What stands above the line that tells where the steps are danced is none of them.
    return heads, goes_on, [line for line in leads if line.number > placed]


def _is_an_aside(line: Line) -> bool:
    """Whether a line in brackets says something of the dance and tells no step: "(A has turned you one half.)"."""
    stated = any(token.kind in ("facing", "clock", "number") for token in line.tokens)
    if _ON_THE_WHOLE.match(line.words):
        return not stated
    bracketed = line.tokens[0].text in "([" and line.tokens[-1].text in ")]"
    lows = {token.low for token in line.tokens}
    return bracketed and not stated and bool(lows & _ASIDE) and not lows & _FEET


def _is_headed(line: Line) -> bool:
    """Whether a line begins with a section's name: "Figure 2, twinkle. Cross left over right, step right to the"."""
    return bool(head_of(list(line.tokens))[0])


def _at_bound(mark: Mark, phrase: int) -> bool:
    start = mark.start
    if start.number is None:
        return False
    return (start.number if start.sub else start.number - 1) % phrase in (0, 1)


def _take_line(line: Line, here: Sequence[Link], runs: list[Run], phrase: int) -> None:
    """Add a line with counts to the run, or runs, that it belongs to."""
    at = 0
    for place, link in enumerate(here):
        mark = link.mark
        words = list(line.tokens[at : mark.first])
        opens = link.restarts or (not runs[-1].links and len(runs) == 1)
        if opens and place:
            runs.append(Run(kind="new"))
            head, rest = _cut_sentence(words, counts_first=here[0].mark.first <= _NUMBERED)
            runs[-2].words[-1] += head
            words = rest
        run = runs[-1]
        if opens or (place == 0 and _at_bound(mark, phrase)):
            loud = _is_a_loud_title(words, line.tokens[mark.last :]) or (
                place == 0 and _titles_its_counts(words, line, here[-1].mark)
            )
            head, words = (words, []) if loud else head_of(words, closed=mark.last == len(line.tokens))
            if head:
                heading = Heading(line.number, tuple(head))
                if run.links:
                    run.inner.append((len(run.links), heading))
                else:
                    run.headings.append(heading)
        run.words[-1] += words
        run.links.append(link)
        run.words.append([])
        at = mark.last
    runs[-1].words[-1] += line.tokens[at:]


def _titles_its_counts(words: Sequence[Token], line: Line, last: Mark) -> bool:
    """Whether words before the first count are a title up to a colon, and its counts stand before their words.

    "LOCKS: 1-2 R fwd, lock L; 3-4 R fwd, brush L": words follow the last count, too.
    """
    titled = 0 < len(words) <= _HEAD and words[-1].text == ":" and words[0].kind == "word"
    return titled and any(token.kind == "word" for token in line.tokens[last.last :])


def _is_a_loud_title(words: Sequence[Token], after: Sequence[Token]) -> bool:
    """Whether words before the first count are a title in capitals: "MONTEREY QUARTER TWICE. 1 Point right"."""
    said = [token.text for token in words if token.kind == "word"]
    loud = len(said) > 1 and all(text.isupper() for text in said) and words[-1].text in (".", ":")
    return loud and any(token.kind == "word" and len(token.text) > 1 and token.text.islower() for token in after)


def _cut_sentence(words: list[Token], *, counts_first: bool) -> tuple[list[Token], list[Token]]:
    """Part words in the middle of a line where counts begin again: at the last full stop, else at a semicolon.

    With neither the words belong to the counts before them in a line that begins with its counts.
    """
    for marks in ((".", BREAK), (";",)):
        for index in range(len(words) - 1, -1, -1):
            if words[index].text in marks:
                return words[: index + 1], words[index + 1 :]
    return (words, []) if counts_first else ([], words)


def _place_rest(waiting: Sequence[Line], runs: list[Run], remarks: list[Line], indent: int) -> None:
    """Give the lines after the last counts their role: words that go on, an extra without counts, or remarks."""
    last = runs[-1].links[-1].mark.number if runs else 0
    open_extra: Run | None = None
    for line in waiting:
        if _heads_an_extra(line, indent):
            name, steps = _named_steps(line)
            open_extra = Run(kind="new", headings=[Heading(line.number, name)], words=[list(steps)])
            runs.append(open_extra)
        elif open_extra is not None and not open_extra.words[0] and _heads_anew(line, open_extra, indent):
            open_extra = None
            remarks.append(line)
        elif open_extra is not None:
            open_extra.words[0] += line.tokens
        elif last <= line.number <= last + 1 and runs and _belongs_to_the_last(line, runs[-1]):
            runs[-1].words[-1] += line.tokens
            last = line.number
        else:
            remarks.append(line)


def _belongs_to_the_last(line: Line, run: Run) -> bool:
    """Whether a line below the last counts tells what is danced on them, as where it ends, or all of it."""
    counts = run.links[-1].mark.number
    bare = not any(token.line == counts for words in run.words[-2:] for token in words)
    return (bare and are_steps(line.tokens)) or _goes_on(line) or states_facing(line.tokens)


def _named_steps(line: Line) -> tuple[tuple[Token, ...], tuple[Token, ...]]:
    """Part the name of an extra from steps without counts that follow it: "Tag 1 (4 counts): rock right forward"."""
    for marks in ((":", "="), (BREAK,), (")", "]")):
        cut = next((at for at, token in enumerate(line.tokens[:_HEAD]) if token.text in marks), 0)
        if cut and len(line.tokens) > cut + 2 and extra_kind(line.tokens[:cut]) is not None:
            rest = line.tokens[cut + 1 :]
            return line.tokens[: cut + 1], rest[rest[0].text == BREAK :]
    return line.tokens, ()


def _heads_anew(line: Line, extra: Run, indent: int) -> bool:
    """Whether a line heads something else than an extra above it that was told in lines of the order."""
    return line.number > extra.headings[-1].line + 1 and heading_score(line, None, indent) >= 0.8


def _goes_on(line: Line) -> bool:
    """Whether a line goes on with the sentence of the line above."""
    return line.tokens[0].kind == "word" and line.tokens[0].text[0].islower()
