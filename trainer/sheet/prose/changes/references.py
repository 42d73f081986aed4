"""Steps that are only named, "the second coaster step", "the kick", "both turns": where in the dance they are."""

from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from functools import cache
from itertools import pairwise

from trainer.dance.figures import figures
from trainer.routine import Event
from trainer.sheet.prose.changes.dance import Dance
from trainer.sheet.prose.changes.wording import words_of
from trainer.sheet.prose.items.phrases import Gloss, item_readings
from trainer.sheet.prose.lexis.stems import stems
from trainer.sheet.prose.words import Item, Token
from trainer.terms import Direction, Foot, Move

Run = tuple[int, int]
"""First and last count."""
_FILLING = stems(
    [
        *[
            "the",
            "a",
            "an",
            "of",
            "to",
            "on",
            "in",
            "at",
            "all",
            "both",
            "any",
            "very",
            "usual",
            "step",
            "foot",
            "count",
            "this",
            "that",
            "there",
            "then",
            "it",
            "its",
            "your",
            "our",
            "you",
            "we",
        ],
        *[
            "first",
            "second",
            "third",
            "last",
            "final",
            "more",
            "no",
            "not",
            "with",
            "onto",
            "next",
            "beside",
            "is",
            "are",
            "be",
            "weight",
            "them",
            "these",
            "those",
            "every",
        ],
        *[
            "going",
            "wall",
            "end",
            "and",
            "just",
            "only",
            "th",
            "section",
            "line",
            "as",
            "written",
            "usually",
            "has",
            "one",
            "two",
            "three",
            "four",
            "from",
            "for",
            "full",
        ],
        *[
            "altogether",
            "away",
            "so",
            "do",
            "dance",
            "even",
            "about",
            "would",
            "instead",
            "place",
            "comes",
            "come",
            "1",
            "2",
            "3",
            "4",
            "5",
            "6",
            "7",
            "8",
        ],
    ]
)
_TURNS = frozenset(("turn", "pivot", "half", "quarter", "halve"))
_HELD = dict.fromkeys(("hold", "held", "holding", "wait"), Move.HOLD)
_MOVES = {"close": Move.STEP, **_HELD, **{move.value: move for move in Move}}
_WAYS = {
    "forward": Direction.FORWARD,
    "back": Direction.BACK,
    "side": Direction.SIDE,
    "across": Direction.CROSS,
    "over": Direction.CROSS,
    "cross": Direction.CROSS,
    "behind": Direction.BEHIND,
    **dict.fromkeys(("together", "tog", "home", "close"), Direction.TOGETHER),
}
_FEET = {"right": Foot.RIGHT, "rf": Foot.RIGHT, "left": Foot.LEFT, "lf": Foot.LEFT}


def runs_of(dance: Dance, tokens: Sequence[Token], gloss: Gloss, within: Run | None = None) -> list[Run]:
    """Return where steps are danced that some words name, the likeliest places only; none where it is not known.

    `within` are the counts that are spoken of: "the second pivot" is the second of them.
    """
    runs = _runs(dance, tokens, gloss)
    inside = [run for run in runs if within is None or (within[0] <= run[0] and run[1] <= within[1])]
    return _numbered(tokens, inside or runs)


def _runs(dance: Dance, tokens: Sequence[Token], gloss: Gloss) -> list[Run]:
    parts = [part for part in _parted(tokens) if part]
    if len(parts) > 1 and all(_content(part) for part in parts):
        listed = _in_a_row(dance, parts)
        if listed:
            return listed
        each = [_runs(dance, part, gloss) for part in parts]
        if all(each):
            return _joined(sorted(run for runs in each for run in runs))
    words = _content(tokens)
    if not words:
        return []
    single = len(parts) == 1 and words <= frozenset(_MOVES) | frozenset(_FEET) | _TURNS | frozenset(_WAYS)
    if single and (runs := _figures(dance, words) or _single(dance, words)):
        return runs
    return _figures(dance, words) or _by_reading(dance, tokens, gloss) or _single(dance, words)


def _parted(tokens: Sequence[Token]) -> list[list[Token]]:
    parts: list[list[Token]] = [[]]
    for token in tokens:
        if token.text in (",", "/", "+") or token.low in ("and", "then") or token.kind == "amp":
            parts.append([])
        else:
            parts[-1].append(token)
    return parts


def _content(tokens: Sequence[Token]) -> frozenset[str]:
    return stems(token.low for token in tokens if token.kind in ("word", "fraction")) - _FILLING


def _numbered(tokens: Sequence[Token], runs: list[Run]) -> list[Run]:
    """Return the runs that are told by their number, "the second coaster"."""
    text = words_of(tokens).text
    for number in range(1, 5):
        if f"{number} th " in text and "time" not in text and len(runs) >= number > 0:
            return [runs[number - 1]]
    if ("last " in text or "final " in text) and runs:
        return [runs[-1]]
    return runs


def _joined(counts: Iterable[Run]) -> list[Run]:
    done: list[Run] = []
    for first, last in counts:
        if done and first <= done[-1][1] + 1:
            done[-1] = (done[-1][0], max(last, done[-1][1]))
        else:
            done.append((first, last))
    return done


def _count(beat: Fraction) -> int:
    return max(int(beat // 1) + 1, 1)


@cache
def _figure_words() -> dict[str, frozenset[str]]:
    return {
        key: stems(word for name in (key, *row.words) for word in name.split()) - _FILLING
        for key, row in figures().items()
    }


def _figures(dance: Dance, words: frozenset[str]) -> list[Run]:
    """Return the runs of the figures that some words name."""
    named = words - stems(["right", "left", "forward", "back", "side", "half", "quarter", "turn"])
    if not named:
        return []
    found: list[Run] = []
    last: Event | None = None
    for beat, event in dance.events:
        mark = event.figure
        if mark is None or not named <= _figure_words().get(mark.name, stems(mark.name.split())):
            last = None
            continue
        begins = last is None or last.figure is None or mark.index == 0 or last.figure.name != mark.name
        if begins and not _foot_fits(words, event):
            last = None
            continue
        if begins:
            found.append((_count(beat), _count(beat)))
        else:
            found[-1] = (found[-1][0], _count(beat))
        last = event
    return found


def _foot_fits(words: frozenset[str], event: Event) -> bool:
    feet = {_FEET[word] for word in words if word in _FEET}
    return len(feet) != 1 or event.foot in feet


def _fits(words: frozenset[str]) -> Callable[[Event], bool]:
    """Return whether an event is one that some words name."""
    moves = {_MOVES[word] for word in words if word in _MOVES and word not in _TURNS}
    ways = {_WAYS[word] for word in words if word in _WAYS}
    turns = words & _TURNS

    def fits(event: Event) -> bool:
        if turns and not event.turn:
            return False
        if "half" in turns and abs(event.turn) != Fraction(1, 2) and not moves:
            return False
        if "quarter" in turns and abs(event.turn) != Fraction(1, 4) and not moves:
            return False
        if moves and event.move not in moves and not any(one.move in moves for one in event.also):
            return moves == {Move.CLAP} and False
        if ways and event.direction not in ways:
            return False
        named = bool(moves or ways or turns) or (bool(words) and words <= set(_FEET))
        return named and (bool(turns) or _foot_fits(words, event))

    return fits


def _single(dance: Dance, words: frozenset[str]) -> list[Run]:
    """Return the counts of single steps that some words name."""
    fits = _fits(words)
    found = [(_count(beat), _count(beat)) for beat, event in dance.events if fits(event)]
    if not found and words & {"rock"}:
        fits = _fits(frozenset({"rock"}))
        found = [(_count(beat), _count(beat)) for beat, event in dance.events if fits(event)]
    return found


def _in_a_row(dance: Dance, parts: Sequence[Sequence[Token]]) -> list[Run]:
    """Return where steps that are told one by one are danced in a row."""
    tests = [_fits(_content(part)) for part in parts]
    events = dance.events
    return [
        (_count(events[at][0]), _count(events[at + len(tests) - 1][0]))
        for at in range(len(events) - len(tests) + 1)
        if all(test(event) for test, (_, event) in zip(tests, events[at:], strict=False))
    ]


def _by_reading(dance: Dance, tokens: Sequence[Token], gloss: Gloss) -> list[Run]:
    """Return where the steps are danced that some words are read as, two or more of them."""
    readings = item_readings(Item((), tuple(tokens), tokens[0].span), gloss)
    drafts = [
        draft for reading in readings[:1] if not reading.breaches for draft in reading.drafts if draft is not None
    ]
    if len(drafts) < 2:
        return []
    events = dance.events
    found = []
    for at in range(len(events) - len(drafts) + 1):
        pairs = zip(drafts, events[at : at + len(drafts)], strict=True)
        mirrored = drafts[0].foot is None or bool(drafts[0].mirror_of_start)
        if all(
            event.move in draft.moves
            and draft.direction in (None, event.direction)
            and (mirrored or draft.foot in (None, event.foot))
            for draft, (_, event) in pairs
        ):
            found.append((_count(events[at][0]), _count(events[at + len(drafts) - 1][0])))
    return [one for one, before in zip(found, [None, *found], strict=False) if before is None or one[0] > before[1]]


def turning(dance: Dance, first: int, last: int) -> list[int]:
    """Return the counts of some that turn."""
    return [_count(beat) for beat, event in dance.within(first, last) if event.turn]


def follow(runs: Sequence[Run]) -> list[Run]:
    """Return runs, those that follow each other straight on as one."""
    done = list(runs[:1])
    for one, two in pairwise(runs):
        if two[0] == one[1] + 1:
            done[-1] = (done[-1][0], two[1])
        else:
            done.append(two)
    return done
