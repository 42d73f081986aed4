"""One sentence of a play: which of the parts and extras that it names are danced next, which it only speaks of."""

import re
from collections.abc import Sequence
from dataclasses import dataclass

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.mentions import Mentions
from trainer.sheet.prose.plays.repeats import (
    AFRESH,
    ALL,
    AS_ONE,
    HEADED,
    IT_AGAIN,
    JOINERS,
    SAME,
    SUBJECT,
    TWICE_MORE,
    many_of,
)
from trainer.sheet.prose.plays.story_extras import put_between
from trainer.sheet.prose.plays.story_rounds import by_turns
from trainer.sheet.prose.plays.symbols import Named, Symbol, Text
from trainer.sheet.prose.plays.told_items import Play, Told

_BEHIND_PASSES = re.compile(
    r"(?:(?:comes|is|goes|danced|follows|,|:|put in|once|twice|only|done) )*(?:after|behind|following) (?:the |your )?"
    r"((?:#\d+|last|final)(?: (?:,|and|, and) (?:#\d+|last|final))*) (?:part )?@(\d+)(?= ?[.;,)!]|$)"
)
_ROUND = re.compile(
    r"(?:is |danced |done |comes |goes |only |once |put |in )*"
    r"after the #(\d+) (?:time|round|go|turn|set|lot|pass|one|of)\b"
)

_ROUNDS_OF = re.compile(r"\b(\d+) (?:rounds?|sets?|lots|goes|passes|times|x) of(?: the)?$")
_THROUGH = re.compile(r"(?:twice|thrice|\d+ times) (?:through|over|running|altogether|in all)\b")
_CLOSED_TIMES = re.compile(r"(?:twice|thrice|\d+ times|x \d+)(?: [,.;:|/!]| then\b| and then\b|$)")
_ALL_IN_BRACKETS = re.compile(r"\( (?:\d+ times|twice|thrice) \)(?: [,.;]|$)")
_STATES = re.compile(
    r"^(?:and |so |note |that |[:(-] )*(?:every|each|both|all|any) |"
    r"^(?:(?:the|and|both|,|@\d+|\$\S+) )*\$\S+ (?:always |both |all )?"
    r"(?:belongs?|faces?|begins?|starts?|stands?|looks?|is|are|happens?|comes?|falls?) "
)
"""What is said of parts and extras that the play has already: "every B, the tag and the ending face the front"."""
_SO_MANY_NEXT = re.compile(r"(?:(?<= )|^)(?:[,;+&]|and|then)(?: (?:then|and|only|just))? [1-4]$")
_TOLD_TO = {"dance", "do", "repeat", "take", "run", "play", "go"}
_POINTING = {"that", "this", "same", "very"}
_NONE = re.compile(r"(?:[:=-] |is |are )?(?:none|not|never|nothing|no)\b(?! \d)")
_FEW = 2
"""Items that may be danced again without a word."""


_SO_OFTEN = r"\b(?:times|twice|thrice)\b"


def _repeated(told: Sequence[Told], again: Sequence[Told]) -> bool:
    """Whether items are others told several times in a row."""
    one, more = ([(item.part, item.extra) for item in items] for items in (told, again))
    return len(more) > len(one) and more == one * (len(more) // len(one))


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
        self._around = Around(text, named)
        self._mentions = Mentions(text, play, self._around)
        self._first = len(play.items)
        self._spoken: _Mention | None = None
        self._groups: list[tuple[int, int]] = []
        self._many = 1
        parts = [at for at, one in enumerate(self._s) if one.part >= 0]
        own = any(self._around.after(at) > 1 for at in parts[:-1])
        self._is_one = len(parts) > 1 and not own and bool(SUBJECT.search(self._t.of(0, parts[0]) + " "))
        """What is said of how often is said of all parts: "the sequence A-A-B is danced twice"."""
        self._deferred: list[Told] = []
        self.noise = 0
        self.mentions = 0

    def read(self) -> None:
        """Take the sentence's items in order."""
        if put_between(self._t, self._play):
            return
        if by_turns(self._t, self._around, self._play):
            self._play.listed = True
            return
        skip = -1
        for at, one in enumerate(self._s):
            if at <= skip:
                continue
            run = self._run(at)
            if run > at:
                skip = run
            elif one.part >= 0 and not self._around.is_section(at):
                self._part(at, one)
            elif one.part >= 0 and self._play.items and self._around.is_opening_section(at):
                self._play.items.append(Told(one.token, one.part, cut=self._named.sections[one.part][0]))
            elif one.extra is not None:
                self._extra(at, one)
            elif one.text == "(" and self._around.opens_group(at):
                self._groups.append((len(self._play.items), self._around.prefix(at)))
            elif one.text == ")" and self._groups and not self._around.inside_bracket(at):
                self._close_group(at)
            elif one.text not in JOINERS and not one.text.isdecimal():
                self.noise += len(self._play.items) > self._first and self._more_items(at)
        self._play.items += self._deferred
        self._tail()

    def _run(self, at: int) -> int:
        """Take parts that are danced, or spoken of, as one: "AAB twice", "three times A A B", "after the third A A B".

        Return the index of the last of them, `at` where there are none.
        """
        last = self._around.run_end(at)
        if last == at:
            return at
        lead, _ = self._around.before(at)
        if lead >= 0 and self._s[lead].text in ("after", "following"):
            self.mentions += 1
            return last
        one_word = self._s[last].token is self._s[at].token
        led = lead >= 0 and self._s[lead].text in ("times", "twice", "thrice")
        times = self._around.prefix(at) if led or one_word else 1
        if rounds := _ROUNDS_OF.search(self._t.of(0, at)):
            times = int(rounds[1])
        bracket = _ALL_IN_BRACKETS.match(self._t.of(last + 1, last + 6))
        whole = one_word or bracket or _THROUGH.match(self._t.of(last + 1, last + 5))
        several = len({one.part for one in self._s[at : last + 1]}) > 1
        closed = several and _CLOSED_TIMES.match(self._t.of(last + 1, len(self._s)))
        times = max(times, self._around.after(last) if whole or closed else 1)
        if times < 2:
            return at
        first = len(self._play.items)
        for index in range(at, last + 1):
            one = self._s[index]
            self._play.items.append(Told(one.token, one.part, one.extra))
        self._play.repeat(first, times)
        return last

    def _more_items(self, at: int) -> bool:
        return any(one.part >= 0 or one.extra for one in self._s[at:])

    def _part(self, at: int, one: Symbol) -> None:
        lead, between = self._around.before(at)
        word = self._s[lead].text if lead >= 0 else ""
        if word == "into" and self._t.of(0, at).count("(") > self._t.of(0, at).count(")"):
            # "A (the first 8, then straight into B), B": what is only said in the bracket comes behind it.
            self.mentions += 1
            return
        if self._t.of(at + 1, at + 2) == "by" and self._play.items and self._play.items[-1].part == one.part:
            # "It is followed by the chorus, and the chorus by another verse."
            self.mentions += 1
            return
        if self._dances_that(at, one.part):
            return
        number = next((int(text[1:]) for text in between if text.startswith("#")), None)
        final = "last" in between or "final" in between
        target = self._mentions.spoken_of(one.part, word, between, number, lead)
        segment = re.split(
            r" ; (?!but |only |just |cut |after |stop |leave |break |drop )", " " + self._around.segment(at)
        )[0].strip()
        # "Two A's, one B" tells how many of the next part there are, and no cut.
        segment = _SO_MANY_NEXT.sub("", segment)
        cut = cut_in(segment, one.part, self._named)
        pre = self._around.cut_before(at, one.part) or self._around.cut_glued(at, one.part)
        if target is not None:
            self.mentions += 1
            if target >= 0:
                self._spoken = _Mention(target, word in ("after", "following", "behind") or final)
                item = self._play.items[target]
                if not self._play.listed and item.cut is None:
                    item.cut = cut
            return
        item = Told(one.token, one.part, cut=cut if pre is None else pre, mark=self._around.mark(at, between))
        item.facing = self._around.facing(at)
        times = max(self._around.prefix(at), 1 if self._is_one else self._around.after(at))
        self._play.items += [item.again() for _ in range(times)]
        self._spoken = None
        counted = re.search(r"\d", segment)
        # "A is danced again, but stop after 16" begins nothing afresh.
        told = segment[counted.start() :] if counted else segment
        if item.cut is not None and AFRESH.search(told) and not self._follows_same(at, one.part):
            self._play.items.append(Told(one.token, one.part))

    def _dances_that(self, at: int, part: int) -> bool:
        """Take "dance that B twice" behind "go straight into B": the same one, and as often as is said."""
        last = self._play.items[-1] if self._play.items else None
        lead = at - 1
        while lead >= 0 and self._s[lead].text in _POINTING:
            lead -= 1
        word = self._s[lead].text if lead >= 0 else ""
        if (
            last is None
            or last.part != part
            or lead == at - 1
            or word not in _TOLD_TO
            or self._mentions.extra_comes(at)
        ):
            return False
        # "Repeat that B" dances it once more.
        times = max(self._around.prefix(at), self._around.after(at)) + (word == "repeat")
        self._play.repeat(len(self._play.items) - 1, times)
        self.mentions += 1
        return True

    def _follows_same(self, at: int, part: int) -> bool:
        ahead = next((one for one in self._s[at + 1 :] if one.part >= 0), None)
        return ahead is not None and ahead.part == part

    def _extra(self, at: int, one: Symbol) -> None:
        lead, _between = self._around.before(at)
        word = self._s[lead].text if lead >= 0 else ""
        spoken = word in ("no", "without", "before", "what", "every", "each") or (
            word == "is" and "what" in self._t.text
        )
        spoken |= word in ("in", "during") and any(item.extra == one.extra for item in self._play.items)
        spoken |= one.extra is not None and one.extra.kind == "intro" and word in ("after", "following", "behind")
        again = self._play.items and self._play.items[-1].extra == one.extra
        spoken |= self._s[-1].text == "?" or bool(_NONE.match(self._t.of(at + 1, at + 4)))
        spoken |= any(item.extra == one.extra for item in self._play.items) and bool(_STATES.search(self._t.text))
        if spoken or (word in ("after", "following") and again):
            self.mentions += 1
            return
        if (
            self._play.listed
            and self._first
            and self._mentions.is_remark()
            and any(item.extra == one.extra for item in self._play.items)
        ):
            self.mentions += 1
            return
        if one.token.low in ("tags", "bridges", "endings"):
            return
        extra = one.extra
        assert extra is not None
        item = Told(one.token, extra=extra)
        ahead = self._s[at + 1 : at + 2]
        if extra.kind == "ending" and ahead and ahead[0].text in (":", "is", "=") and self._more_items(at + 1):
            # "Then the finish: dance A up to the kick, step left": what it begins with is a part.
            self._deferred.append(item)
            return
        if (place := self._after_round(at)) is not None:
            self._play.items.insert(place, item)
            return
        times = max(self._around.prefix(at), self._around.after(at))
        if places := self._behind_passes(at):
            for place in reversed(places):
                self._play.items[place:place] = [item.again() for _ in range(times)]
                self._first += place < self._first
            return
        if self._spoken is not None and self._spoken.after:
            place = self._spoken.at + 1
            self._play.items[place:place] = [item.again() for _ in range(times)]
            self._first += place < self._first
        else:
            self._play.items += [item.again() for _ in range(times)]

    def _behind_passes(self, at: int) -> list[int]:
        """Where an extra is put that comes after passes which are told already: "Tag after the second A"."""
        match = _BEHIND_PASSES.match(self._t.of(at + 1, at + 16))
        if match is None:
            return []
        passes = [place for place, item in enumerate(self._play.items) if item.part == int(match[2])]
        numbers = [int(one) for one in re.findall(r"#(\d+)", match[1])]
        numbers += [len(passes)] if re.search(r"last|final", match[1]) else []
        known = all(0 < number <= len(passes) for number in numbers)
        return sorted({passes[number - 1] + 1 for number in numbers}) if known else []

    def _after_round(self, at: int) -> int | None:
        """Where an extra is put that comes after one of several rounds: "with the tag after the second time"."""
        match = _ROUND.match(self._t.of(at + 1, at + 12))
        if match is None or not self._play.rounds:
            return None
        first, many = self._play.rounds[-1]
        place = first + many * int(match[1])
        return place if place <= len(self._play.items) else None

    def _close_group(self, at: int) -> None:
        first, times = self._groups.pop()
        times = max(times, self._around.after(at))
        told, again = self._play.items[self._first : first], self._play.items[first:]
        if (
            times == 1
            and len(told) > _FEW
            and [(one.part, one.extra) for one in told] == [(one.part, one.extra) for one in again]
        ):
            # "A and B twice (A, B, A, B)" tells it once more.
            del self._play.items[first:]
        elif times == 1 and told and _repeated(told, again) and re.search(_SO_OFTEN, self._t.of(0, at)):
            # "A and B, three times over (A B A B A B)".
            del self._play.items[self._first : first]
        elif times > 1:
            self._play.repeat(first, times)

    def _tail(self) -> None:
        """Take what is said of all that the sentence, or the play, has told so far."""
        last = max((at for at, one in enumerate(self._s) if one.part >= 0 or one.extra or one.text == ")"), default=-1)
        rest = self._t.of(last + 1, len(self._s))
        told = min(len(self._play.items) - self._first, sum(one.part >= 0 or one.extra is not None for one in self._s))
        match = ALL.match(rest)
        if match and match[5] in ("in a row", "running") and match[0].startswith(("is ", "danced ")):
            # "After the tag the chorus is danced twice in a row."
            match = None
        whole = match and (
            match[5] or rest.startswith((": ", "- ")) or self._around.joined(last) or AS_ONE.search(match[0])
        )
        whole = whole or self._is_one
        if told < 2 and self._play.items and self._play.items[-1].part >= 0 and IT_AGAIN.search(rest):
            # "We start with the verse and dance it a second time."
            self._play.items.append(self._play.items[-1].again())
            return
        headed = HEADED.match(self._t.text)
        if headed and told >= 2:
            self._play.repeat(self._first, many_of((*headed.groups(), "2")))
        elif match and told >= 2 and self._s[last].text != ")" and whole:
            self._play.repeat(self._first, many_of(match.groups()[:4]))
        elif SAME.search(self._t.text) and len(self._play.items) >= 2 and not re.search(r"end|finish|song", rest):
            more = TWICE_MORE.search(self._t.text) or re.search(r"(\d+) times|(twice)", rest)
            self._play.repeat(0, 1 + (many_of(more.groups()) if more else 1))
