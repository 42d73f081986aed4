"""Runs of counts to blocks: the words parted to their counts, the beats of each item, where sections begin."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.dance.counts import OFFSETS, is_number, label_of
from trainer.problems import Problem
from trainer.routine import Span
from trainer.sheet.prose.facing.faced import with_statements
from trainer.sheet.prose.heads.headings import Heading
from trainer.sheet.prose.heads.referring_words import points_back
from trainer.sheet.prose.heads.series import goes_on
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.page.kinds import length_of
from trainer.sheet.prose.page.pieces import parted
from trainer.sheet.prose.page.runs import Run
from trainer.sheet.prose.page.shared_words import shared
from trainer.sheet.prose.page.streams import Piece, Stream
from trainer.sheet.prose.words import Fill, Item, Slot, Token
from trainer.terms import ExtraKind, Feel

_STEPS = STEP_WORDS - {"repeat", "repeats", "repeated", "repeating"}
_OPENING = 2
"""Tokens before which a comma parts nothing."""
_PAIR = 2
"""Counts that "and" joins; more are a list: "again on 5, 6, 7 and 8"."""
_WALTZ = 6
"""Counts of a section of a waltz: two bars, each of which may have a heading."""


@dataclass(frozen=True, slots=True)
class Bound:
    """Where a section begins in its block."""

    beat: int
    heading: Heading | None


@dataclass(frozen=True, slots=True)
class Block:
    """Items counted through from 0: the main dance, a part, an extra or an option."""

    kind: ExtraKind | str
    """main, option, or the kind of extra."""
    part: str
    headings: tuple[Heading, ...]
    items: tuple[Item, ...]
    bounds: tuple[Bound, ...]
    counts: int
    """Length in counts; 0 where the words have no counts."""
    problems: tuple[Problem, ...] = ()
    last_line: int = 0
    """The sheet's number of its last line."""
    leaning: float = 0.0
    """What speaks for counts before their words, above 0, or after them."""


def blocks_of(runs: Sequence[Run], phrase: int, feel: Feel, fill: Fill) -> list[Block]:
    """Join the runs of the main dance, of each part, and of each extra."""
    groups: list[tuple[str, str, list[Run]]] = []
    for run in runs:
        last = groups[-1] if groups else None
        same_main = run.kind == "main" and next((group for group in groups if group[:2] == ("main", run.part)), None)
        if same_main:
            same_main[2].append(run)
        elif last is not None and last[0] == run.kind != "main" and (not run.headings or _is_next_row(last[2], run)):
            last[2].append(run)
        else:
            groups.append((run.kind, run.part, [run]))
    return [block_of(kind, part, members, phrase, feel, fill) for kind, part, members in groups]


def _is_next_row(members: Sequence[Run], run: Run) -> bool:
    """Whether a run goes on with the rows of an extra under its name: T2 after T1, below "Tag of two bars"."""
    above, head = members[-1].headings[-1:], run.headings[-1]
    named = len(members[0].headings) > 1 and members[0].headings[0].extra is not None
    return named and bool(above) and above[0].extra is None is head.extra and goes_on(head.tokens, above[0].tokens)


def block_of(
    kind: str, part: str, runs: Sequence[Run], phrase: int, feel: Feel, fill: Fill, leaning: float = 0.0
) -> Block:
    """Return the block of some runs; `leaning` is what the rest of the sheet speaks for (`Block.leaning`)."""
    items: list[Item] = []
    bounds: list[Bound] = []
    problems: list[Problem] = []
    leaning += _leaning(runs, fill)
    base = 0
    last_line = 0
    for place, run in enumerate(runs):
        if not run.links:
            words = tuple(run.words[0])
            if words:
                items.append(Item((), words, words[0].span))
            bounds.append(Bound(base, run.headings[-1] if run.headings else None))
            continue
        resumed = run.links[0].called_from if kind == "main" and run.links[0].resumes else 0
        if resumed and abs(base - resumed) < phrase:
            base = resumed
        pieces = [piece for stream in _streams(run) for piece in parted(stream, fill, leaning)[0]]
        second_bar = phrase == _WALTZ and base % phrase == length_of(run) == _WALTZ // 2 and kind == "main"
        goes_on = bool(place) and base % phrase and (not run.headings or second_bar)
        if not goes_on:
            bounds.append(Bound(base, run.headings[-1] if run.headings else None))
        bounds += _inner_bounds(run, base, phrase)
        # Only an extra is called by the numbers of its wall.
        called_from = run.links[0].called_from if kind != "main" else 0
        # What stands outside the dance has no sections of four: it counts on to eight.
        counted = phrase if kind == "main" or phrase >= _WALTZ else 2 * phrase
        items += _items(pieces, base, counted, feel, fill, called_from=called_from)
        problems += _broken_counts(run)
        length = length_of(run)
        if kind == "main" and (place + 1 < len(runs) or any(link.broken for link in run.links)):
            half = phrase // 2
            length = -(-length // half) * half
        base += length
        last_line = max(run.links[-1].mark.number, *(token.line for words in run.words for token in words), 0)
    headings = tuple(heading for run in runs for heading in run.headings)
    said = tuple(with_statements(items))
    return Block(kind, part, headings, said, _distinct(bounds), base, tuple(problems), last_line, leaning)


def _distinct(bounds: Sequence[Bound]) -> tuple[Bound, ...]:
    """Return where sections begin, each place once: with its heading, where one stands after the first count of it."""
    found: dict[int, Bound] = {}
    for bound in bounds:
        if bound.beat not in found or found[bound.beat].heading is None:
            found[bound.beat] = bound
    return tuple(found.values())


def _streams(run: Run) -> list[Stream]:
    """Return the words of a run and its counts in turn, those of each section by themselves where it has a heading."""
    words = [tuple(part) for part in run.words]
    marks = [link.mark for link in run.links]
    found: list[Stream] = []
    start = 0
    for index, heading in run.inner:
        if not start < index < len(marks) or not heading.tokens:
            continue
        head = (heading.tokens[0].line, heading.tokens[0].column)
        above = tuple(token for token in words[index] if (token.line, token.column) < head)
        found.append(Stream(*shared([*words[start:index], above], marks[start:index])))
        words[index] = words[index][len(above) :]
        start = index
    return [*found, Stream(*shared(words[start:], marks[start:]))]


def _leaning(runs: Sequence[Run], fill: Fill) -> float:
    """Return what the sections of a block together speak for, counts before words above 0."""
    total = 0.0
    for run in runs:
        if run.links:
            total += sum(parted(stream, fill)[1] for stream in _streams(run))
    return max(-3.0, min(3.0, 0.3 * total))


def _inner_bounds(run: Run, base: int, phrase: int) -> list[Bound]:
    """Where sections begin within a run of counts that go on: at its headings, else at each phrase."""
    if run.inner:
        found = []
        for index, heading in run.inner:
            start = run.links[index].mark.start if index < len(run.links) else None
            if start is not None and start.number is not None:
                beat = start.number if start.sub else start.number - 1
                found.append(Bound(base + beat // phrase * phrase, heading))
        return found
    length = length_of(run)
    if length % phrase == 1 and length > phrase:
        length -= 1
    return [Bound(base + beat, None) for beat in range(phrase, length, phrase)]


_CLEARLY = 0.2
"""So much better words fit that their mark is no matter of doubt,"""
_SEVERAL = 2
_LISTING = 0.1
"""and so much they speak for a mark beside them that is one."""


def _items(
    pieces: Sequence[Piece], base: int, phrase: int, feel: Feel, fill: Fill, *, called_from: int = 0
) -> list[Item]:
    items: list[Item] = []
    last = 0
    listed: bool | None = None
    worse = [_halved(piece, fill) if piece.mark.other else 0.0 for piece in pieces]
    clear = [more for more in worse if abs(more) > _CLEARLY]
    # Several marks that clearly list counts, "counts 1 and 2", speak for one beside them that may do so.
    lists = _LISTING if len(clear) >= _SEVERAL and min(clear) > 0 else 0.0
    for piece, more in zip(pieces, worse, strict=True):
        places = piece.mark.places
        if piece.mark.other:
            # "Step, pivot for 5 and 6, and the same again for 7 and 8": as before.
            again = listed is not None and points_back(piece.text)
            listed = listed if again else more + lists > 0 or _points_back(piece) or _repeats_wholes(piece, items)
            places = piece.mark.other if listed else places
        slots = []
        for place in places:
            number = place.number if place.number is not None else last
            if place.number is not None and place.number > phrase and last and place.number - last > phrase - 1:
                number = place.number
            slots.append(_slot(number, place.sub, base, phrase, feel, called_from))
            last = number
        items.append(Item(tuple(slots), _with_labels(piece, slots), _span_of(piece)))
    return items


def _points_back(piece: Piece) -> bool:
    """Whether a mark lists several counts, and its words only point back to steps."""
    return len(piece.mark.other) > _PAIR and points_back(piece.text)


def _halved(piece: Piece, fill: Fill) -> float:
    """Return how much worse the words of a mark fit if its "and" is a half beat, and does not only end a list."""
    return fill(piece.text, len(piece.mark.places)) - fill(piece.text, len(piece.mark.other))


def _repeats_wholes(piece: Piece, items: Sequence[Item]) -> bool:
    """Whether words point back to just as many whole counts: "step (1), pivot (2), and the same again on 3 and 4"."""
    n = len(piece.mark.other)
    before = [slot.label for item in items[-n:] for slot in item.slots][-n:]
    whole = len(before) == n and all(is_number(label) for label in before)
    # "Cross over, side and cross over again on seven and eight" tells its steps itself.
    text = piece.text
    end = next((at for at, token in enumerate(text) if at > _OPENING and token.text in (",", ".", ";")), len(text))
    return whole and points_back(text[:end]) and not any(token.low in _STEPS for token in text[:end])


def _with_labels(piece: Piece, slots: Sequence[Slot]) -> tuple[Token, ...]:
    """Return a piece's words with counts named in them ("the quarter is on 31") as they are called."""
    called = {
        str(place.number): slot.label
        for place, slot in zip(piece.mark.places, slots, strict=False)
        if not place.sub and str(place.number) != slot.label
    }
    return tuple(
        replace(token, text=called[token.text], low=called[token.text])
        if token.text in called and index and piece.text[index - 1].low in ("on", "count", "counts", "and", "in")
        else token
        for index, token in enumerate(piece.text)
    )


def _slot(number: int, sub: str, base: int, phrase: int, feel: Feel, called_from: int) -> Slot:
    at = base + number - 1
    if not sub:
        return Slot(label_of((at + called_from) % phrase + 1), Fraction(at))
    offsets = OFFSETS[feel]
    return Slot(sub, at + offsets.get(sub, Fraction(1, 2)))  # type: ignore[arg-type]  # e, & or a


def _span_of(piece: Piece) -> Span:
    first = piece.text[0] if piece.text else None
    if first is not None and first.line == piece.mark.number:
        return Span(first.line, first.column, len(first.text))
    return Span(piece.mark.number, piece.mark.column, 1)


def _broken_counts(run: Run) -> list[Problem]:
    """Return a finding for each mark that leaves a gap or counts something twice."""
    problems = []
    last = 0
    for before, link in zip((None, *run.links), run.links, strict=False):
        last = (before.mark.end.number or last) if before is not None else 0
        if not link.broken and not link.typed:
            continue
        start = link.mark.start
        if link.typed:
            due = " ".join(place.sub or str(place.number) for place in link.mark.places)
            message = f"{link.typed} is written where the counts go on with {due}"
        elif before is None:
            message = f"the counts begin with {start.number}, not with 1"
        elif (start.number or 0) <= last:
            message = f"count {start.number} comes again: the line before ends with {last}"
        else:
            message = f"from {last} the counts go on with {start.number}: something is missing"
        problems.append(
            Problem(
                level="error",
                kind="counts",
                line=link.mark.number,
                column=link.mark.column,
                message=message,
                hint="Each count stands once, in order",
            )
        )
    return problems
