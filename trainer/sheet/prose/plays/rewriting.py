"""A sheet's lines with the play told as one line, and the extras that it names headed in lines of their own.

The reader knows such sheets: what is told in a list over several lines, in a table or as a story becomes
"Order: A, B, Tag, A (first 8 counts)", and "Tag = rock right forward, recover" a heading over a line of steps.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from trainer.routine import Routine
from trainer.sheet.prose.plays.as_read import lengths_differ, played
from trainer.sheet.prose.plays.bodies import BRACKETS, plural_in, with_first_counts
from trainer.sheet.prose.plays.changes import lost_changes, told_of_its_wall
from trainer.sheet.prose.plays.definitions import Definition
from trainer.sheet.prose.plays.endings_put import with_ending
from trainer.sheet.prose.plays.finding import Found, found_in
from trainer.sheet.prose.plays.known_parts import named_of
from trainer.sheet.prose.plays.said_within import settle_within
from trainer.sheet.prose.plays.symbols import Extra, Named
from trainer.sheet.prose.plays.told_items import Told, differ
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_FEWEST = 3
"""Items of a play; fewer are told by chance."""


@dataclass(frozen=True, slots=True)
class Anew:
    """The lines of a sheet with its play told as one of them."""

    lines: tuple[Line, ...]
    differs: bool
    """The play is another than the one that was read before."""
    extends: bool
    """It begins with the parts that were read before, and goes on."""
    same_parts: bool
    """It has the same parts in the same order, whatever their cuts and the extras between them."""
    items: int
    """How many parts and extras it has."""
    beyond: bool
    """More of a part is asked for than it has: a fault of the sheet, which no other reading may hide."""
    explained: frozenset[int]
    """The sheet's lines that only say again, or more closely, what the play tells."""


def with_play(lines: Sequence[Line], routine: Routine) -> Anew | None:
    """Return the lines of a phrased dance, its play told as one; None where that changes nothing.

    `routine` is what the lines give as they stand: its parts are known, its play where it was understood.
    """
    named = named_of(lines, routine)
    if named is None:
        return None
    found = found_in(lines, named)
    settle_within(found.play.items, lines, routine, named)
    items = with_ending(found, lines)
    inline = [one for one in found.definitions if _is_danced(one, items) and not _told_within(one, items)]
    before = played(routine, named)
    own_holds = any(item.extra is not None and item.extra.kind == "hold" for item in items)
    holds = any(item.kind == "hold" for item in routine.play) and not own_holds
    changed = bool(lost_changes(found.changes, found.play, routine, named))
    differs = (differ(items, before) or lengths_differ(inline, routine) or changed) and not holds
    needed = (
        differs
        or found.play.used
        or found.forms
        or found.pauses
        or found.changes
        or any(one.body or one.extra.own for one in inline)
    )
    if len(items) < _FEWEST or not needed:
        return None
    parts = [part for part, _ in before if part >= 0]
    same = parts == found.play.parts
    extends = len(parts) > 1 and not same and found.play.parts[: len(parts)] == parts
    said = [*found.pauses, *(form.tokens for form in found.forms), *found.play.used, *(item.body for item in items)]
    said += [one.tokens for one, _ in found.changes]
    explained = frozenset(token.line for tokens in said for token in tokens)
    if any(one.body for one in inline):
        # Steps that were not found where the play is told stand beside it.
        explained |= {token.line for place in found.play.lines for token in lines[place].tokens}
    told = tuple(_Writer(lines, items, inline, found, named).lines())
    beyond = any(item.part >= 0 and (item.cut or 0) > named.lengths[item.part] for item in items)
    return Anew(told, differs, extends, same, len(items), beyond, explained)


def _told_within(one: Definition, items: Sequence[Told]) -> bool:
    """Whether what is said of an extra tells no steps, and the play itself does."""
    return not one.body and any(item.body and item.extra == one.extra for item in items)


def _is_danced(one: Definition, items: Sequence[Told]) -> bool:
    return any(item.extra is not None and _same(item.extra, one.extra) for item in items)


def _same(one: Extra, other: Extra) -> bool:
    return one == other


def _words(tokens: Sequence[Token]) -> tuple[str, ...]:
    return tuple(token.low for token in tokens)


class _Writer:
    """Writes the lines anew."""

    def __init__(
        self, lines: Sequence[Line], items: Sequence[Told], defined: Sequence[Definition], found: Found, named: Named
    ) -> None:
        self._lines = lines
        self._items = items
        self._defined = defined
        self._found = found
        self._named = named
        self._titles = self._named_anew()

    def _named_anew(self) -> dict[Extra, tuple[str, ...]]:
        """How each extra of the play is called: tags in the order in which they come, by their numbers."""
        titles: dict[Extra, tuple[str, ...]] = {}
        tags = [item.extra for item in self._items if item.extra is not None]
        last = self._items[-1].extra
        own: list[Extra] = []
        for extra in tags:
            if extra.own and extra not in own:
                own.append(extra)
        taken = {extra.number for extra in tags if extra.kind == "tag" and not extra.own}
        for extra in own:
            if extra.kind == "ending" and extra == last:
                titles[extra] = ("Ending",)
                continue
            number = next(str(n) for n in range(1, 99) if str(n) not in taken and (n > 1 or "" not in taken))
            alone = len([one for one in own if one != last or one.kind != "ending"]) == 1 and not taken
            titles[extra] = ("Tag",) if alone else ("Tag", number)
            taken.add(number)
        return titles | (self._numbered_as_they_stand(own) if "" in taken else {})

    def _numbered_as_they_stand(self, own: Sequence[Extra]) -> dict[Extra, tuple[str, ...]]:
        """Number a tag without a name and those with names of their own as they stand on the page, if all stand there.

        Two lines that head tags are numbered so by whoever reads them.
        """
        tags = [extra for extra in dict.fromkeys((Extra("tag"), *own)) if extra.kind == "tag"]
        places = {one.extra: one.place for one in self._defined if not one.body}
        if not all(extra in places for extra in tags) or len(tags) < len(("tag", "own")):
            return {}
        in_turn = sorted(tags, key=lambda extra: places[extra])
        return {extra: ("Tag", str(number)) for number, extra in enumerate(in_turn, 1)}

    def lines(self) -> Iterator[Line]:
        """Yield the lines, the play in place of the first that tells it."""
        told = self._found.play.lines
        first = min(told)
        dropped, written = self._dropped(), self._written()
        for place, line in enumerate(self._lines):
            if place == first:
                yield replace(line, tokens=tuple(self._order(line)), source="", indent=0)
                yield from self._left(line)
            if place in written:
                yield from written[place]
            elif place not in dropped:
                yield line
        yield from self._below()

    def _below(self) -> Iterator[Line]:
        """The extras with their steps, below all other lines and apart from each other."""
        last = self._lines[-1]
        number = last.tokens[-1].line + 10
        for change, wall in self._found.changes:
            yield replace(last, number=number, tokens=told_of_its_wall(change, wall), source="", indent=0)
            number += 5
        lines = list(self._bodies(last))
        within = {(item.extra, _words(item.body)) for item in self._items if item.body and item.extra is not None}
        for one in self._defined:
            if one.body and (one.extra, _words(one.body)) not in within:
                within.add((one.extra, _words(one.body)))
                lines += self._headed(last, one.extra, one.head, one.body, one.counts)
        for line in lines:
            yield replace(line, number=number)
            number += 1 if len(line.tokens) <= 2 else 5

    def _dropped(self) -> set[int]:
        """Places of the lines that are told anew."""
        places = set(self._found.play.lines)
        numbers = {token.line for form in self._found.forms for token in form.tokens}
        numbers |= {token.line for one in self._defined for token in (*one.body, *one.head) if one.body}
        numbers |= {token.line for tokens in (*self._found.play.used, *self._found.pauses) for token in tokens}
        numbers |= {token.line for tokens in self._found.play.left for token in tokens}
        numbers |= {token.line for one, _ in self._found.changes for token in one.tokens}
        for sentence in self._found.sentences:
            if sentence.place in self._found.play.lines:
                numbers |= {token.line for token in sentence.tokens}
        more = {place for place, line in enumerate(self._lines) if {token.line for token in line.tokens} <= numbers}
        return places | more

    def _written(self) -> dict[int, list[Line]]:
        found: dict[int, list[Line]] = {}
        for one in self._defined:
            if one.body:
                continue
            line = self._lines[one.place]
            found.setdefault(one.place, []).extend(self._headed(line, one.extra, one.head, one.body, one.counts))
        for form in self._found.forms:
            if form.finishes:
                place = next(at for at, line in enumerate(self._lines) if form.tokens[-1] in line.tokens)
                found.setdefault(place, []).append(
                    replace(self._lines[place], tokens=(_word(form.tokens[-1], "Ending"),), source="")
                )
        return found

    def _bodies(self, line: Line) -> Iterator[Line]:
        """The extras whose steps stand within the play."""
        seen: list[Extra] = []
        for item in self._items:
            if item.body and item.extra is not None and item.extra not in seen:
                seen.append(item.extra)
                yield from self._headed(line, item.extra, (item.token,), item.body, item.counts)

    def _headed(
        self, line: Line, extra: Extra, head: Sequence[Token], body: Sequence[Token], counts: int | None
    ) -> Iterator[Line]:
        title = self._title(extra, head[0])
        yield replace(line, number=head[0].line, tokens=title, source="", indent=0)
        if not body:
            return
        plural = plural_in(body)
        if plural is not None and counts in (None, plural[0]):
            counts, body = plural
        marked = any(
            token.kind == "number" and (not at or body[at - 1].text in (*BRACKETS, ",", ";", "-"))
            for at, token in enumerate(body)
        )
        if counts and not marked and counts > 1:
            one = replace(body[0], kind="number", text="1", low="1", glued=False, value=None)
            dash = replace(one, kind="mark", text="-", low="-", glued=True)
            body = (one, dash, replace(one, text=str(counts), low=str(counts), glued=True), *body)
        yield replace(line, number=body[0].line, tokens=with_first_counts(body), source="", indent=0)

    def _title(self, extra: Extra, token: Token) -> tuple[Token, ...]:
        words = self._titles.get(extra) or (extra.kind.capitalize(), *((extra.number,) if extra.number else ()))
        number = [replace(_word(token, word), kind="number") for word in words[1:]]
        return (_word(token, words[0]), *number)

    def _order(self, line: Line) -> Iterator[Token]:
        first = line.tokens[0]
        yield _word(first, "Order")
        yield _mark(first, ":")
        for at, item in enumerate(self._items):
            if at:
                yield _mark(item.token, ",")
            if item.extra is not None and item.extra.kind == "hold":
                yield _word(item.token, "hold")
                yield replace(_word(item.token, item.extra.number), kind="number")
                yield _word(item.token, "counts")
                continue
            if item.extra is not None:
                yield from self._title(item.extra, item.token)
                continue
            yield _word(item.token, self._named.parts[item.part])
            if item.cut is not None:
                yield replace(_mark(item.token, "("), glued=False)
                yield _word(item.token, "first")
                yield replace(_word(item.token, str(item.cut)), kind="number")
                yield _word(item.token, "counts")
                yield _mark(item.token, ")")
            elif item.mark in ("short", "small"):
                yield replace(_mark(item.token, "("), glued=False)
                yield _word(item.token, "short")
                yield _mark(item.token, ")")
            elif item.mark:
                yield _mark(item.token, item.mark)
            if item.facing:
                yield replace(_mark(item.token, "("), glued=False)
                yield from item.facing
                yield _mark(item.token, ")")

    def _left(self, line: Line) -> Iterator[Line]:
        """Sentences beside a list that say more of it; those within a story are part of it."""
        if not self._found.play.listed:
            return
        told = [one.tokens for one in self._found.accounts if one.changed]
        for tokens in self._found.play.left:
            if tokens in told:
                # "The second of those Bs has eight counts only" was read with the play.
                continue
            yield replace(line, number=tokens[0].line, tokens=tokens, source="", indent=0)


def _word(token: Token, text: str) -> Token:
    return replace(token, kind="word", text=text, low=text.lower(), glued=False, value=None)


def _mark(token: Token, text: str) -> Token:
    return replace(token, kind="mark", text=text, low=text, glued=True, value=None)
