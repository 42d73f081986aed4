"""One sentence of a play: which of the parts and extras that it names are danced next, which it only speaks of."""

import re
from dataclasses import dataclass

from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.repeats import (
    AFRESH,
    AFTER_ITEM,
    ALL,
    ALTERNATE,
    JOINERS,
    MULTI,
    OF_EACH,
    SAME,
    TWICE_MORE,
    many_of,
)
from trainer.sheet.prose.plays.symbols import Named, Symbol, Text
from trainer.sheet.prose.plays.told_items import Play, Told
from trainer.sheet.prose.words import Token

_ADJECTIVES = {
    "the", "a", "an", "part", "whole", "full", "complete", "entire", "short", "shortened", "half", "very", "next",
    "another", "one", "more", "this", "that", "last", "final", "single", "little", "normal", "usual", "plain", '"',
    "shorter", "closing", "opening", "our", "cut", "*", "long",
}  # fmt: skip
_SHORT = {"short", "shortened", "shorter", "cut"}
_SPOKEN_OF = {
    "every",
    "each",
    "any",
    "when",
    "while",
    "whenever",
    "before",
    "since",
    "during",
    "no",
    "without",
    "of",
    "all",
}
_IN = {"in", "on", "during", "for", "at"}
_BOUND = re.compile(
    r"(?:,|and|then|:|\.|\|)+ ?(?:the |only |just |for |another |its )*(?:#1 )?(\d+)(?: counts?|"
    r" beats?)?(?: only)? (?:of|from|in) (?:an? |the )?$"
)
_HALF_OF = re.compile(r"(?:the |a |just |only )*(?:#1 )?half (?:of |an? |the )*$")
_OF_EXTRA = re.compile(r"\b\d+ (?:-? ?counts?|beats?) (?:-? ?)?(?:of )?$")


@dataclass(slots=True)
class _Mention:
    at: int
    """Index of the item spoken of."""
    after: bool


class SentenceReader:
    """Adds what one sentence tells to a play."""

    def __init__(self, text: Text, play: Play, named: Named) -> None:
        self._t = text
        self._s = text.symbols
        self._play = play
        self._named = named
        self._first = len(play.items)
        self._spoken: _Mention | None = None
        self._groups: list[tuple[int, int]] = []
        self._many = 1
        self.noise = 0
        self.mentions = 0

    def read(self) -> None:
        """Take the sentence's items in order."""
        if self._alternates():
            return
        for at, one in enumerate(self._s):
            if one.part >= 0 and not self._is_section(at):
                self._part(at, one)
            elif one.extra is not None:
                self._extra(at, one)
            elif one.text == "(" and self._opens_group(at):
                self._groups.append((len(self._play.items), self._prefix(at)))
            elif one.text == ")" and self._groups and not self._inside_bracket(at):
                self._close_group(at)
            elif one.text not in JOINERS and not one.text.isdigit():
                self.noise += len(self._play.items) > self._first and self._more_items(at)
        self._tail()

    def _more_items(self, at: int) -> bool:
        return any(one.part >= 0 or one.extra for one in self._s[at:])

    def _is_section(self, at: int) -> bool:
        """Whether a letter with a number glued to it names a section: "A1"; not a part cut to some of them: "A1-3"."""
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        if after is None or not after.text.isdigit() or not after.token.glued or len(after.text) > 1:
            return False
        before = self._s[at - 1].text if at else ""
        ahead = self._t.of(at + 2, at + 5)
        ranged = re.match(r"(?:-|to|\+|&) (?:@\d )?\d\b", ahead)
        return not ranged or before in ("section", "sections", "=", "for", "and", "+", "is")

    def _before(self, at: int) -> tuple[int, list[str]]:
        """The index of the word that leads to a part, and the words between that only describe it."""
        lead, between = at - 1, []
        while lead >= 0 and (self._s[lead].text in _ADJECTIVES or self._s[lead].text.startswith("#")):
            between.append(self._s[lead].text)
            lead -= 1
        return lead, between

    def _part(self, at: int, one: Symbol) -> None:
        lead, between = self._before(at)
        word = self._s[lead].text if lead >= 0 else ""
        number = next((int(text[1:]) for text in between if text.startswith("#")), None)
        final = "last" in between or "final" in between
        target = self._spoken_of(one.part, word, between, number, lead)
        segment = self._segment(at)
        cut = cut_in(segment, one.part, self._named)
        pre = self._cut_before(at, one.part)
        if target is not None:
            self.mentions += 1
            if target >= 0:
                self._spoken = _Mention(target, word in ("after", "following", "behind") or final)
                item = self._play.items[target]
                if not self._play.listed and item.cut is None:
                    item.cut = cut
            return
        item = Told(one.token, one.part, cut=cut if pre is None else pre, mark=self._mark(at, between))
        item.facing = self._facing(at)
        times = max(self._prefix(at), self._after(at))
        self._play.items += [item.again() for _ in range(times)]
        self._spoken = None
        if item.cut is not None and AFRESH.search(segment) and not self._follows_same(at, one.part):
            self._play.items.append(Told(one.token, one.part))

    def _spoken_of(self, part: int, word: str, between: list[str], number: int | None, lead: int) -> int | None:
        """The index of the item that is only spoken of; -1: of none; None: it comes next in the play."""
        play, final = self._play, "last" in between or "final" in between
        last = play.nth(part, number)
        pronoun = bool(between) and between[-1] == "that"
        if word in ("after", "following", "behind") and not (pronoun and len(between) == 1):
            return last if last is not None else (play.nth(part, None) if final else None)
        if word in _SPOKEN_OF and not self._takes(lead):
            return -1 if last is None else last
        if play.listed and self._first and self._is_remark():
            return last if last is not None else -1
        if "this" in between and last is not None:
            return last
        if number is not None and last is not None:
            return last
        ends = final and last is not None and (last == len(play.items) - 1 or play.listed)
        return last if ends else None

    def _takes(self, lead: int) -> bool:
        """Whether "of" goes with counts or a half: "the first 8 counts of A", "half of A"."""
        text = self._t.of(max(lead - 4, 0), lead + 1)
        return (
            bool(
                re.search(
                    r"(?:\d+ (?:counts?|beats?)|half|all|\d+|whole|piece|bit|part|portion|slice|pair|couple|"
                    r"rounds?|pass(?:es)?|\bsections?|eights?) of$",
                    text,
                )
            )
            or text == "all"
        )

    def _is_remark(self) -> bool:
        """Whether the sentence is no list that goes on."""
        return not re.match(
            r"^[\W]*(?:then |and |followed by |next |now )*(?:the )?[@$(]|^\d+ x|^(?:once|twice)", self._t.text
        )

    def _segment(self, at: int) -> str:
        """The words after a part, up to the next item."""
        end = at + 1
        while end < len(self._s):
            one = self._s[end]
            if one.extra is not None or (one.part >= 0 and not self._is_section(end) and not self._in_range(end)):
                break
            end += 1
        text = self._t.of(at + 1, end)
        return (
            _OF_EXTRA.sub("", _HALF_OF.sub("", _BOUND.sub("", text + " ").rstrip() + " ").rstrip() + " ").rstrip()
            if end < len(self._s)
            else text
        )

    def _in_range(self, at: int) -> bool:
        """Whether a letter stands within brackets or sections that speak of the part before: "(A1 and A2)"."""
        return self._is_section(at)

    def _cut_before(self, at: int, part: int) -> int | None:
        text = self._t.of(max(at - 9, 0), at)
        if match := re.search(
            r"(?:\d+ x )?(\d+)(?: counts?| beats?)?(?: only)? (?:of|from|in) (?:an? |the )?(?:#\d+ |last |part )?$",
            text + " ",
        ):
            return int(match[1]) if 0 < int(match[1]) < self._named.lengths[part] else None
        if re.search(r"\bhalf (?:of |an? |the )*$", text + " ") and "#2 half" not in text:
            return self._named.lengths[part] // 2
        return None

    def _mark(self, at: int, between: list[str]) -> str:
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        if after is not None and after.token.glued and after.text in ("*", "-", "'", "^", "~"):
            beyond = self._s[at + 2] if at + 2 < len(self._s) else None
            apart = (
                beyond is None
                or not beyond.token.glued
                or beyond.token.kind == "mark"
                or beyond.token.line != after.token.line
            )
            if after.text != "-" or apart:
                return after.text
        ahead = self._t.of(at + 1, at + 3)
        return "short" if set(between) & _SHORT or ahead.startswith(("( short", "short")) else ""

    def _facing(self, at: int) -> tuple[Token, ...]:
        end = min(at + 5, len(self._s))
        for index in range(at + 1, end):
            one = self._s[index]
            if one.part >= 0 or one.extra is not None or one.text in (",", "-"):
                break
            if one.token.kind in ("clock", "facing"):
                return (one.token,)
        return ()

    def _prefix(self, at: int) -> int:
        """How often what comes next is danced, as told before it: "2 x A", "twice A", "two As"."""
        lead, between = self._before(at)
        words = [one.text for one in self._s[max(lead - 1, 0) : lead + 1]]
        if not words or "one" in between:
            return 1
        named = lead - 1 >= 0 and (self._s[lead - 1].part >= 0 or self._s[lead - 1].text == ")")
        if words[-1] in MULTI and not named:
            return MULTI[words[-1]]
        if words[-1] in ("x", "times") and len(words) > 1 and words[0].isdigit():
            return int(words[0])
        plural = at < len(self._s) and self._s[at].token.low.endswith("s") and self._s[at].part >= 0
        if words[-1].isdigit() and (plural and len(self._s[at].token.text) > 1):
            return int(words[-1])
        if words[-1] in ("pair", "couple") or (words[-1] == "of" and words[0] in ("pair", "couple")):
            return 2
        return 1

    def _after(self, at: int) -> int:
        """How often, as told after a part or a group: "A twice", "A x 2", "(A, B) twice"."""
        match = AFTER_ITEM.match(self._t.of(at + 1, at + 5))
        if match is None:
            return 1
        # "A 2 x B": the number goes with what comes next.
        if match[3] and re.match(r"\d+ x [@$(]", self._t.of(at + 1, at + 5)):
            return 1
        return many_of(match.groups())

    def _follows_same(self, at: int, part: int) -> bool:
        ahead = next((one for one in self._s[at + 1 :] if one.part >= 0), None)
        return ahead is not None and ahead.part == part

    def _extra(self, at: int, one: Symbol) -> None:
        lead, _between = self._before(at)
        word = self._s[lead].text if lead >= 0 else ""
        spoken = word in ("no", "without", "before", "what", "every", "each") or (
            word == "is" and "what" in self._t.text
        )
        again = self._play.items and self._play.items[-1].extra == one.extra
        if spoken or (word in ("after", "following") and again):
            self.mentions += 1
            return
        if (
            self._play.listed
            and self._first
            and self._is_remark()
            and any(item.extra == one.extra for item in self._play.items)
        ):
            self.mentions += 1
            return
        if one.token.low in ("tags", "bridges", "endings"):
            return
        item = Told(one.token, extra=one.extra)
        times = max(self._prefix(at), self._after(at))
        if self._spoken is not None and self._spoken.after:
            place = self._spoken.at + 1
            self._play.items[place:place] = [item.again() for _ in range(times)]
            self._first += place < self._first
        else:
            self._play.items += [item.again() for _ in range(times)]

    def _opens_group(self, at: int) -> bool:
        """Whether a bracket holds items that are danced again together, and no remark about the item before it."""
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        return after is not None and (after.part >= 0 or after.extra is not None) and not self._is_section(at + 1)

    def _inside_bracket(self, at: int) -> bool:
        """Whether a closing bracket closes a remark within a group."""
        depth = 0
        for index in range(at - 1, -1, -1):
            text = self._s[index].text
            if text == ")":
                depth += 1
            elif text == "(":
                if depth == 0:
                    return not self._opens_group(index)
                depth -= 1
        return False

    def _close_group(self, at: int) -> None:
        first, times = self._groups.pop()
        self._play.repeat(first, max(times, self._after(at)))

    def _alternates(self) -> bool:
        """Take "A and B alternately, three of each"."""
        if not ALTERNATE.search(self._t.text):
            return False
        named: list[Symbol] = []
        for one in self._s:
            if one.part >= 0 and one.part not in [other.part for other in named]:
                named.append(one)
        many = OF_EACH.search(self._t.text)
        if len(named) < 2 or many is None:
            return False
        for _ in range(min(int(many[1]), 12)):
            self._play.items += [Told(one.token, one.part) for one in named]
        self._play.listed = True
        return True

    def _tail(self) -> None:
        """Take what is said of all that the sentence, or the play, has told so far."""
        last = max((at for at, one in enumerate(self._s) if one.part >= 0 or one.extra or one.text == ")"), default=-1)
        rest = self._t.of(last + 1, len(self._s))
        told = len(self._play.items) - self._first
        match = ALL.match(rest)
        if match and told >= 2 and self._s[last].text != ")" and (match[5] or rest.startswith((": ", "- "))):
            self._play.repeat(self._first, many_of(match.groups()[:4]))
        elif SAME.search(self._t.text) and len(self._play.items) >= 2 and not re.search(r"end|finish|song", rest):
            more = TWICE_MORE.search(self._t.text) or re.search(r"(\d+) times|(twice)", rest)
            self._play.repeat(0, 1 + (many_of(more.groups()) if more else 1))
