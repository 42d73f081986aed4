"""The words of a row of a list of walls, understood whole or not at all.

A row is parted by nothing: at each word the longest saying that begins there is taken. A word with which none begins
leaves the row, and with it the list, as it stands.
"""

import re
from bisect import bisect_left
from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, ORDINALS
from trainer.sheet.prose.listings.naming import facing_at, is_picture
from trainer.sheet.prose.listings.row_facings import faced, sure_facing
from trainer.sheet.prose.listings.row_letters import in_words
from trainer.sheet.prose.listings.row_steps import steps_from
from trainer.sheet.prose.listings.sayings import END_WITH, NUMBER, PATTERNS, TELLING
from trainer.sheet.prose.listings.told_row import Put, ToldRow
from trainer.sheet.prose.order.lines.counts_in_place import counts_in_place
from trainer.sheet.prose.tables.cells import words_in
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

EIGHT = 8
_LEADS_STEPS = words_in("+ then with plus add and : ( do")
_FEET = words_in("l r left right lf rf lh rh")
_TICKS = words_in("x yes y ✓ ✔ ☑ • * ✅ + all full v o")
_TICKED = words_in("✓ ✔ ☑ ✅")
_HALVES = ("&", "a", "e")
_HALF_COUNT = re.compile(r"\d (?:&|a|e)(?: |$)")
"""An aside that goes so far tells how much of a section is danced: "s3 (only to 4&a)"."""
_FACING = 3
"""Tokens of a facing."""
_CROSSES = words_in("- no n ✗ ✘ none / ✖ ❌ .")


class RowWords:
    """Reads the words of rows.

    `names` are those of extras that the sheet tells below, `roles` those of the cells, `said` what a word stands for.
    """

    def __init__(
        self,
        names: Mapping[tuple[str, ...], int],
        roles: Sequence[str],
        said: Mapping[str, Sequence[Token]] | None = None,
    ) -> None:
        self._said = said or {}
        self._names = names
        self._roles = roles
        self._does: dict[str, Callable[[ToldRow, re.Match[str], Sequence[Token]], bool]] = {
            "but": self._but, "whole": self._whole, "eights": self._eights, "first": self._first,
            "sections": self._sections, "nth": self._nth, "half": self._half, "hold": self._hold,
            "counts": self._counts, "restart": self._restart, "inside": self._inside, "extra": self._extra,
            "end": self._end, "rest": self._rest, "below": self._below, "named": _nothing,
            "nothing": _nothing, "glue": _nothing,
        }  # fmt: skip

    def read(self, row: ToldRow, tokens: Sequence[Token]) -> bool:
        """Read the words behind the name of a row's wall into it; return whether all were understood."""
        if len(tokens) == 1 and tokens[0].low in self._said:
            tokens = self._said[tokens[0].low]
        tokens = in_words(tokens, self._names)
        if not self._roles:
            return self._words(row, tokens) if tokens else False
        cells = _cells(tokens)
        ticks = [role == "tick" for role in self._roles].count(True)
        if ticks > 1:
            first = self._roles.index("tick")
            told = [bool(cell) and cell[0].low in _TICKS for cell in cells[first : first + ticks]]
            plain = all(
                len(cell) < 2 and (not cell or cell[0].low in _TICKS | _CROSSES)
                for cell in cells[first : first + ticks]
            )
            danced = told.index(False) if False in told else len(told)
            if not plain or not danced or any(told[danced:]):
                return False
            row.sections, row.whole = danced, danced == ticks
            cells = [cell if not first <= place < first + ticks else () for place, cell in enumerate(cells)]
        return all(self._cell(row, role, cell) for role, cell in zip([*self._roles, *[""] * 9], cells, strict=False))

    def raw(self, tokens: Sequence[Token]) -> tuple[Token, ...]:
        """Return the words of a row without the cells that only tell facings."""
        told = [counts_in_place(cell) if cell else () for cell in _cells(tokens)]
        if not self._roles:
            bars = iter(token for token in tokens if token.text == BREAK)
            return tuple(token for at, cell in enumerate(told) for token in (*([next(bars)] if at else []), *cell))
        kept: list[Token] = []
        for role, cell in zip([*self._roles, *[""] * 9], told, strict=False):
            if cell and (role not in ("start", "ends") or _strays(cell)):
                kept += [*([replace(cell[0], kind="mark", text=",", low=",", glued=True)] if kept else []), *cell]
        return tuple(kept)

    def _cell(self, row: ToldRow, role: str, cell: Sequence[Token]) -> bool:
        if not cell or (len(cell) == 1 and cell[0].low in _CROSSES):
            return True
        if role == "ends" and any(facing_at(cell, at)[0] for at in range(len(cell))):
            return True
        start = not role and "start" in self._roles and row.facing is None and sure_facing(cell, 0)
        if (role == "start" and not _strays(cell)) or (start and len(cell) <= _FACING):
            row.facing = next((found for at in range(len(cell)) if (found := sure_facing(cell, at))), row.facing)
            return True
        numbers = [int(token.text[:3]) for token in cell if token.kind == "number"]
        if (
            role in ("eights", "sections")
            and numbers
            and all(token.kind in ("number", "mark", "amp") or token.low == "to" for token in cell)
        ):
            if numbers[0] == 1 or len(numbers) == 1:
                row.sections = numbers[-1]
                return True
            return False
        return self._words(row, cell)

    def _words(self, row: ToldRow, tokens: Sequence[Token]) -> bool:
        text, starts = "", []
        for token in tokens:
            starts.append(len(text))
            text += token.low + " "
        text = text[:-1]
        at = 0
        while at < len(tokens):
            last = self._saying(row, tokens, at, text, starts)
            if last <= at:
                return False
            at = last
        return True

    def _saying(self, row: ToldRow, tokens: Sequence[Token], at: int, text: str, starts: Sequence[int]) -> int:
        """Read what begins at a token; return the index after it, the same where nothing is understood."""
        if (named := self._named(tokens, at)) > at:
            if at and row.puts and row.puts[-1].name == (tokens[at - 1],):
                # "Tag *": the tag that is told at the mark.
                row.puts.pop()
            row.puts.append(Put(name=tuple(tokens[at:named])))
            return named
        if is_picture(tokens[at]) or tokens[at].low in _TICKED:
            return at + 1
        if (bar := _bar(tokens, at)) > at:
            return bar
        if tokens[at].text in "([":
            return self._bracket(row, tokens, at)
        if (told := faced(row, tokens, at)) > at:
            return told
        if match := END_WITH.match(text, starts[at]):
            steps, last = steps_from(tokens, bisect_left(starts, match.end()))
            if steps:
                row.puts.append(Put(steps=steps, ends=True))
                row.leave = "end"
                return last
        found = [(match.end(), name, match) for name, one in PATTERNS if (match := one.match(text, starts[at]))]
        best = max(found, key=lambda one: one[0], default=None)
        lead = at > 0 and tokens[at - 1].low in _LEADS_STEPS
        steps, last = steps_from(tokens, at) if lead and (best is None or best[1] in ("glue", "counts")) else ((), at)
        if steps:
            row.puts.append(Put(steps=steps))
            return last
        if best is None:
            return at
        last = bisect_left(starts, best[0])
        halved = last < len(tokens) and tokens[last].glued and tokens[last].low in _HALVES
        if best[1] == "counts" and halved:
            # "s3 as far as 4&a" is no number of counts.
            return at
        return last if self._does[best[1]](row, best[2], tokens[at:last]) else at

    def _named(self, tokens: Sequence[Token], at: int) -> int:
        """Return the index after a name that the sheet tells below, the same index where there is none."""
        place = at + (tokens[at].low in ("the", "a") and at + 1 < len(tokens))
        for name in sorted(self._names, key=len, reverse=True):
            if tuple(token.low for token in tokens[place : place + len(name)]) == name:
                alone = len(name) > 1 or len(name[0]) > 1 or at == 0 or tokens[at].kind == "mark"
                alone = alone or tokens[at - 1].kind != "word"
                if alone:
                    return place + len(name)
        return at

    def _bracket(self, row: ToldRow, tokens: Sequence[Token], at: int) -> int:
        """Read an aside: steps of the extra before it, how many counts, a facing; a remark is passed over."""
        closing = ")" if tokens[at].text == "(" else "]"
        last = next((end for end in range(at + 1, len(tokens)) if tokens[end].text == closing), at)
        inside = tokens[at + 1 : last]
        if not inside:
            return last
        steps = len(inside) > 1 and sum(token.low in _FEET for token in inside) and not inside[-1].low.startswith("o'")
        if steps and row.puts and row.puts[-1].name and not row.puts[-1].steps:
            row.puts[-1] = replace(row.puts[-1], steps=tuple(inside))
            return last + 1
        tried = replace(row, puts=list(row.puts))
        if self._words(tried, inside):
            for field in ("facing", "left", "whole", "counts", "sections", "but", "puts", "leave"):
                setattr(row, field, getattr(tried, field))
            return last + 1
        words = " ".join(token.low for token in inside)
        return at if TELLING.search(words) or _HALF_COUNT.search(words) else last + 1

    def _but(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.but = tuple(tokens)
        return True

    def _whole(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.whole = True
        return True

    def _eights(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.counts = EIGHT * _value(match["n"])
        return True

    def _below(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.below = True
        return True

    def _first(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.sections = 2
        return True

    def _sections(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.sections = _value(match["n"])
        return True

    def _nth(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.sections = ORDINALS.get(match["nth"]) or int(match["nth"].split()[0])
        return True

    def _half(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        # "Four figures and a half" is no half of the dance.
        row.half = not row.sections
        return row.half

    def _hold(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.puts.append(Put(hold=hold_in(match[0])))
        return True

    def _counts(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        value = _value(match["n"])
        if row.counts and row.counts != value:
            return False
        row.counts = value
        return value >= _FEWEST

    def _restart(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.leave = "restart"
        return True

    def _inside(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.puts.append(Put(name=_plain(tokens, match), section=_value(match["n"])))
        return True

    def _extra(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        ends = match["kind"] == "ending"
        row.puts.append(Put(name=_plain(tokens, match), ends=ends))
        row.leave = "end" if ends else row.leave
        return True

    def _rest(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        """A wall goes on behind what is put into it; elsewhere such words say nothing."""
        row.rest = bool(row.counts and row.puts)
        return True

    def _end(self, row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
        row.leave = "end"
        return True


_FEWEST = 4
"""Nobody leaves a wall after fewer counts."""


def _strays(cell: Sequence[Token]) -> bool:
    """Whether a cell under a facing tells what is danced: a column without a head moves the heads behind it."""
    return bool(TELLING.search(" ".join(token.low for token in cell))) or counts_in_place(cell) != tuple(cell)


def _bar(tokens: Sequence[Token], at: int) -> int:
    """Return the index after a bar drawn with a mark again and again: "########"."""
    last = at
    while last < len(tokens) and tokens[last].kind == "mark" and tokens[last].text == tokens[at].text:
        last += 1
    return last if last - at >= _FEWEST and tokens[at].text != "*" else at


def _nothing(row: ToldRow, match: re.Match[str], tokens: Sequence[Token]) -> bool:
    return True


def hold_in(words: str) -> int:
    """Return how many counts words wait that only tell so: "hold for four counts", "six counts of waiting"."""
    match = re.search(NUMBER, words)
    return _value(match[0]) if match else 0


def _value(word: str) -> int:
    return int(word) if word.isdecimal() else NUMBERS.get(word, 0)


def _plain(tokens: Sequence[Token], match: re.Match[str]) -> tuple[Token, ...]:
    """Return the words of a plain extra: its kind and number or letter."""
    at = next(at for at, token in enumerate(tokens) if token.low == match["kind"])
    return tuple(tokens[at : at + 1 + bool(match["name"])])


def _cells(tokens: Sequence[Token]) -> list[tuple[Token, ...]]:
    cells: list[list[Token]] = [[]]
    for token in tokens:
        if token.text == BREAK:
            cells.append([])
        else:
            cells[-1].append(token)
    return [tuple(cell) for cell in cells]
