"""What the laws share: how a finding is made, and what events and blocks are called in its sentence."""

from collections.abc import Sequence

from trainer.dance.counts import spoken
from trainer.problems import Kind, Level, Problem
from trainer.routine import Event, Extra, Part, Routine, Section, Span


def finding(kind: Kind, span: Span | None, message: str, *, level: Level = "error", hint: str = "") -> Problem:
    """Return a finding at a place of the sheet; line 0 where the routine was not read from a text."""
    line, column, _ = span or (0, 0, 0)
    return Problem(level=level, kind=kind, line=line, column=column, message=_sentence(message), hint=_sentence(hint))


def block_name(section: Section, part: Part | None = None) -> str:
    """Return what a section or extra is called: "section 2 of part A", "tag Lantern", "the danced intro"."""
    if isinstance(section, Extra):
        return "the danced intro" if section.kind == "intro" else f"{section.kind} {section.name}".rstrip()
    return f"section {section.name} of part {part.name}" if part and part.name else f"section {section.name}"


def number_of(count: int, thing: str) -> str:
    """Return a number of things: "1 count", "3 counts"."""
    return f"{count} {thing}" if count == 1 else f"{count} {thing}s"


def listed(names: Sequence[str]) -> str:
    """Return names of blocks in a sentence: "sections 1, 2 and 4 of part A and tag Lantern"."""
    told: dict[str, list[str]] = {}
    for name in names:
        kind, _, rest = name.partition(" ")
        number, of, part = rest.partition(" of ")
        told.setdefault(of + part if kind == "section" else name, []).append(number if kind == "section" else "")
    return _and([f"section{'s' * (len(own) > 1)} {_and(own)}{of}" if own[0] else of for of, own in told.items()])


def _and(words: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def _sentence(told: str) -> str:
    """Return words with the capital and the full stop of a sentence."""
    stop = "" if told.endswith(("?", ".")) or not told else "."
    return told[:1].upper() + told[1:] + stop


class Names:
    """What the events of a routine are called; by identity, because equal events stand in many places."""

    def __init__(self, routine: Routine) -> None:
        self._counts: dict[int, str] = {}
        self._blocks: dict[int, str] = {}
        for part in routine.parts:
            for section in part.sections:
                self._add(section.events, block_name(section, part))
        for extra in routine.extras:
            self._add(extra.events, block_name(extra))
        for option in routine.options:
            self._add(option.events, f"the option for section {option.section}")

    def _add(self, events: tuple[Event, ...], block: str) -> None:
        ordered = sorted(events, key=lambda event: event.beat)
        for event, name in zip(ordered, spoken(event.label for event in ordered), strict=True):
            self._counts[id(event)] = name
            self._blocks[id(event)] = block

    def count(self, event: Event) -> str:
        """Return the count of an event: "count 7&"; of a hold in an order line "count 1"."""
        return self._counts.get(id(event), f"count {event.label}")

    def block(self, event: Event) -> str:
        """Return the section or extra of an event; "the hold" of one in an order line."""
        return self._blocks.get(id(event), "the hold")

    def full(self, event: Event) -> str:
        """Return the count with its section: "count 8 of section 4"."""
        return f"{self.count(event)} of {self.block(event)}"

    def since(self, event: Event | None, here: Event) -> str:
        """Return "since count 6" as said at another event, with the section where it is another; None is the start."""
        if event is None:
            return "from the start"
        return f"since {self.count(event) if self.block(event) == self.block(here) else self.full(event)}"
