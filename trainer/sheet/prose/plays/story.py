"""A sentence of a play told as a story, clause by clause: what is danced next, danced again, or only spoken of."""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.repeats import AFRESH
from trainer.sheet.prose.plays.story_mentions import StoryMentions
from trainer.sheet.prose.plays.symbols import Named, Symbol, Text
from trainer.sheet.prose.plays.told_again import again_in, times_alone
from trainer.sheet.prose.plays.told_items import Play, Told

_MARKS = {",", ";", ":", "(", ")", "-", ".", "!", "?", '"', "|"}
_WORDS = {"then", "but", "so", "because", "while", "where", "which", "until", "though", "although", "unless"}
_ARTICLES = {
    "the", "a", "an", "another", "1", "2", "3", "4", "5", "more", "last", "final", "full", "whole", "complete",
    "entire",
    "single", "plain", "part", "parts", "this", "that", "its", "our", "your", "his", "her", "further", "extra", "short",
    "half", "twice", "once", "closing", "opening", "times", "x", "one", "two", "both",
}  # fmt: skip
_CUTS = re.compile(
    r"\b(?:leave|leaves|left|stop|stops|stopped|cut|cuts|only|just|first|#1|up to|until|till|as far as|shortened|"
    r"reduced|no more|no further|dance|dances|danced|get out|gets no|break|breaks|broken|lasts?|has|count|counts|"
    r"end of|"
    r"without|minus|leave out|interrupted|section|sections|half)\b"
)
_TIMES = re.compile(
    r"^(?:(?:is|are|was|were|gets?|comes?|goes?|go|follows?|also|then|now|here|there|danced|done|performed|played|sung|"
    r"taken|heard|answers|comes back|returns|to|be|it|this|that|behind it|after it|straight|must|should|will|has|"
    r"have|alone|running|through|right|itself|on|both|"
    r"all|as|well|too|even) )*"
    r"(?:(\d+) times|(twice|thrice)|x (\d+)|(\d+) x(?! [@$]))\b(?! more\b| (?:of|the|that) [@$])"
)
_ARE = re.compile(r"^(?:both |each )?(?:are|were|get|come|go|follow|must be|have to be)\b")
_MORE_TIMES = re.compile(r"\b(?:(\d+) (?:more times|times more)|(twice) more)\b")
_INTERLEAVED = re.compile(
    r"\b(?:after|behind|following|to|with|for) (?:each|every)(?: single)?(?: 1| one)?(?: of (?:them|these|those))?\b|"
    r"\beach(?: 1| one)? of (?:them|these|those)\b|\beach (?:is |being |gets |has )"
)
_IN_TURN = re.compile(r"\b(?:in turns?|alternat\w+|by turns|turn about|turn and turn)\b")
_SO = re.compile(
    r"so (?:it's|it is|that's|we go|you go|they run|"
    r"(?:the |our |whole )*(?:dance|order|song|sequence) (?:runs|goes|is))\b"
)
_SUMS = re.compile(r"\bin the following (?:way|order)\b|\bas follows\b|\bin this (?:way|order)\b")
_ROUNDS = re.compile(r"\b([2-6]) (?:\w+ )?(?:rounds|goes|times|sets|passes|turns|turns round)\b.*\beach\b")
_RECITAL = re.compile(
    r"\b(?:all told|altogether|in all|in short|in other words|that is|i\.e\.|"
    r"so it is|so it's|they run|so we go|to sum up)\b"
)


@dataclass(frozen=True, slots=True)
class _Clause:
    first: int
    last: int


def clauses_of(given: Sequence[Symbol]) -> Iterator[tuple[int, int]]:
    """Yield where the clauses of a sentence begin and end."""
    first = 0
    for at, one in enumerate(given):
        joins = one.text in ("and", "&") and at > first and not _opens_item(given, at + 1)
        parts = one.text in _WORDS and not (one.text == "then" and at and given[at - 1].text in ("is", "are", "was"))
        marks = one.text in _MARKS and not (one.text == "-" and one.token.glued)
        if marks or parts or joins:
            if at > first:
                yield first, at
            first = at + 1
    if first < len(given):
        yield first, len(given)


def _opens_item(given: Sequence[Symbol], at: int) -> bool:
    """Whether a part or an extra follows, nothing but what describes it before."""
    while at < len(given) and (given[at].text in _ARTICLES or given[at].text.startswith("#")):
        at += 1
    return at < len(given) and (given[at].part >= 0 or given[at].extra is not None)


class StoryReader:
    """Adds what one sentence of a story tells to a play."""

    def __init__(self, text: Text, play: Play, named: Named) -> None:
        self._t = text
        self._s = text.symbols
        self._play = play
        self._named = named
        self._around = Around(text, named)
        self._first = len(play.items)
        self._mentions = StoryMentions(text, play, self._around)
        self.noise = 0
        self._repeated = False
        self._told_each = False
        self._listing = False
        """The sentence has named parts so far, and nothing else of them."""
        self._pair = False
        """The clause told last names two parts, and nothing else of them."""

    def read(self) -> None:
        """Take the sentence's clauses in order."""
        if _SUMS.search(self._t.text) and self._s[-1].text != ":" and ":" not in self._t.text.split():
            return
        if self._interleaves() or self._in_turn():
            return
        spans = list(clauses_of(self._s))
        rounds = _ROUNDS.search(self._t.text)
        recital = -1
        self._repeated = rounds is not None
        for number, (first, last) in enumerate(spans):
            named = [at for at in range(first, last) if self._is_item(at)]
            if not named:
                self._bare(first, last, spans[number + 1 :])
                continue
            before = len(self._play.items)
            lead = self._t.of(max(first - 1, 0), named[0]) + " "
            if before and recital < 0 and (_RECITAL.search(lead) or _SO.match(lead)):
                recital = before
            for at in named:
                self._item(at, first, last, named)
            bare = all(self._is_item(at) or self._s[at].text in _ARTICLES | {"and"} for at in range(first, last))
            self._listing = bare and (self._listing or before == self._first)
            self._pair = (len(named) == 2 and self._joined(*named)) or self._listing
            if before == len(self._play.items):
                # All that is named is only spoken of: "we dance it twice before we come to B".
                end = next((at for at in range(first, named[0]) if self._s[at].text in ("before", "until")), first)
                self._bare(first, end, ())
        if recital >= 0:
            self._recite(recital)
        if rounds and len(self._play.items) - self._first > 1:
            self._play.repeat(self._first, _number(rounds))
        self._put_back()
        if len(self._play.items) > self._first:
            self._without_bracketed(spans)
            self._play.group = self._first

    def _without_bracketed(self, spans: Sequence[tuple[int, int]]) -> None:
        """Drop the items of a bracket that only tells those before it once more: "three times over (A B A B A B)"."""
        opened = next((at for at, one in enumerate(self._s) if one.text == "("), -1)
        closed = next((at for at, one in enumerate(self._s) if one.text == ")"), -1)
        inside = [self._s[at].part for at in range(opened + 1, closed) if self._is_item(at)]
        told = [item.part for item in self._play.items[self._first :]]
        if len(inside) < 2 or not spans:
            return
        for at in range(1, len(told) - len(inside) + 1):
            before, again = told[:at], told[at : at + len(inside)]
            if again == inside and before in (
                inside,
                inside[: len(before)] if inside[: len(before)] * 2 == inside else inside,
            ):
                del self._play.items[self._first + at : self._first + at + len(inside)]
                return

    def _is_item(self, at: int) -> bool:
        one = self._s[at]
        if one.part >= 0:
            return not self._around.is_section(at)
        return one.extra is not None

    # -- what names a part

    def _item(self, at: int, first: int, last: int, named: Sequence[int]) -> None:
        one = self._s[at]
        if self._told_each:
            return
        if one.part >= 0 and self._cuts_by_section(at, first):
            return
        place = named.index(at)
        begins = named[place - 1] + 1 if place else first
        ends = named[place + 1] if place + 1 < len(named) else last
        if one.extra is not None:
            self._extra(at, begins)
            return
        segment = self._around.segment(at)
        cut = cut_in(segment, one.part, self._named)
        pre = self._around.cut_before(at, one.part) or self._around.cut_glued(at, one.part)
        cut = cut if pre is None else pre
        target = self._mentions.target(at, begins, ends, first)
        times = _TIMES.match(self._t.of(at + 1, ends))
        if target is None and self._restates(at, first, _number(times) if times else self._many(at)):
            target = len(self._play.items) - 1
        if target is not None:
            self._play.subject = one.part
            if times and target == len(self._play.items) - 1 and {"this", "that"} & set(self._around.before(at)[1]):
                # "... into the chorus, and this last chorus is danced twice".
                self._play.repeat(target, _number(times))
                return
            if target >= 0 and self._play.items[target].cut is None and cut is not None:
                self._play.items[target].cut = cut
            return
        item = Told(one.token, one.part, cut=cut, mark=self._around.mark(at, self._around.before(at)[1]))
        item.facing = self._around.facing(at)
        many = self._many(at)
        tail = self._t.of(at + 1, ends)
        pair = place and self._joined(named[place - 1], at)
        if times and pair and _ARE.match(tail):
            # "Verse and chorus are danced three times".
            self._play.items.append(item)
            start = len(self._play.items) - 1 - place
            self._play.repeat(max(start, self._first), _number(times))
        else:
            more = _MORE_TIMES.search(tail)
            single = _number(more) if more and not place else 1
            self._play.items += [item.again() for _ in range(max(many, _number(times) if times else 1, single))]
            if more and place:
                self._play.repeat(self._first, _number(more))
        self._play.subject = one.part

    def _cuts_by_section(self, at: int, first: int) -> bool:
        """Whether a section of the part told last is named, and so how much of it is danced: "dance B1 only"."""
        one, items = self._s[at], self._play.items
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        section = after is not None and after.text.isdigit() and after.token.glued and len(after.text) == 1
        section = section or re.match(r"\( up to section \d \)", self._t.of(at + 1, at + 8)) is not None
        if not section or not items or items[-1].part != one.part:
            return False
        if items[-1].cut is None:
            items[-1].cut = cut_in(self._t.of(first, len(self._s)), one.part, self._named)
        return True

    def _restates(self, at: int, first: int, many: int) -> bool:
        """Whether a clause says again how often the part told last is danced: "two verses, so B is danced twice"."""
        items, part = self._play.items, self._s[at].part
        if not first or not items or items[-1].part != part:
            return False
        opener = self._s[first - 1].text
        marks = [one.text for one in self._s[:first]]
        if marks.count("(") > marks.count(")"):
            return many == 1 and len(items) > self._first
        run = next((n for n, item in enumerate(reversed(items)) if item.part != part), len(items))
        told = len(items) > self._first
        again = re.search(r"\b(?:again|once more|another|one more|a further)\b", self._t.of(first, at + 4))
        return opener == "so" and (many == run or (many == 1 and bool(again) and told))

    def _joined(self, before: int, at: int) -> bool:
        words = [one.text for one in self._s[before + 1 : at] if one.text not in _ARTICLES]
        return words in (["and"], ["&"], ["+"])

    def _many(self, at: int) -> int:
        """How many of a part are named: "two As", "2 more Bs", "two times A"."""
        many = self._around.prefix(at)
        if many > 1:
            return many
        match = re.search(
            r"(?:^| )([2-6]) (?:(?:more|further|full|whole|complete|last|final|times|extra|other) )*$",
            self._t.of(max(at - 4, 0), at) + " ",
        )
        return int(match[1]) if match else 1

    # -- what names none

    def _bare(self, first: int, last: int, after: Sequence[tuple[int, int]]) -> None:
        text = self._t.of(first, last)
        play = self._play
        told = len(play.items) - self._first
        if not play.items and play.subject < 0:
            return
        if (alone := times_alone(text)) is not None and told:
            times, several = alone
            several |= self._pair
            begin = self._first if several and told > 1 else len(play.items) - 1
            if not several and told > 1 and play.items[-2].part == play.items[-1].part:
                # "Twice, that is two times": it was told already.
                return
            play.repeat(begin, times)
            return
        again = again_in(text)
        if self._of_each(text, after):
            return
        if again is not None and (self._repeated or self._recited(after, again.many)):
            return
        if (
            again is not None
            and told
            and [(one.part, one.extra) for one in play.items[self._first :]]
            == [(one.part, one.extra) for one in play.items[max(self._first - told, 0) : self._first]]
        ):
            # "That lot, the two As with their B and the tag, comes round a second time".
            return
        if again is not None:
            self._repeated = True
            if any(one.steps for one in self._s[first:last]) and any(item.body for item in play.items):
                # "Now the same four sways come again".
                play.items.append([item for item in play.items if item.body][-1].again())
                return
            self._again(again.many, again.times, told)
            return
        last_item = play.items[-1] if play.items else None
        if last_item is not None and last_item.cut is not None and AFRESH.search(text):
            # "A is begun but abandoned after sixteen counts, and begun afresh".
            play.items.append(Told(last_item.token, last_item.part))
            return
        if last_item is not None and last_item.part >= 0 and last_item.cut is None and _cuts(text):
            last_item.cut = cut_in(text, last_item.part, self._named)

    def _again(self, many: int, times: int, told: int) -> None:
        play = self._play
        if many == -2 and not told and play.subject >= 0 and (not play.items or play.items[-1].part != play.subject):
            # "Don't rush A. We dance it twice before B": it was only spoken of.
            token = self._s[0].token
            play.items += [Told(token, play.subject) for _ in range(times)]
            return
        if not play.items:
            return
        if many == -1:
            begin = 0
        elif many > 0:
            begin = max(len(play.items) - many, 0)
        elif many == 0:
            begin = self._first if told else play.group
        else:
            begin = len(play.items) - 1 if told else max(play.group, len(play.items) - 1) if told else play.group
        play.repeat(begin, times)

    def _of_each(self, text: str, after: Sequence[tuple[int, int]]) -> bool:
        """Take "then one more of each, A first"."""
        if not re.search(r"\b1 (?:more |last |final )?of each\b|\beach (?:of them )?once more\b", text):
            return False
        order = list(dict.fromkeys(item.part for item in self._play.items if item.part >= 0))
        named = [self._s[at].part for first, last in after for at in range(first, last) if self._s[at].part >= 0]
        if named and named[0] in order:
            order = [named[0], *(part for part in order if part != named[0])]
        self._play.items += [Told(self._s[0].token, part) for part in order]
        self._told_each = True
        return True

    def _recited(self, after: Sequence[tuple[int, int]], many: int) -> bool:
        """Whether the parts that are danced again are named right behind: "then the same two again, A and B"."""
        if not after or self._s[after[0][0] - 1].text not in (",", ":", "-", "("):
            return False
        ahead = [
            self._s[at].part
            for first, last in after
            for at in range(first, last)
            if self._is_item(at) and self._s[at].part >= 0
        ]
        told = [item.part for item in self._play.items]
        size = many if many > 0 else len(ahead)
        return len(ahead) > 1 and (ahead[:size] == told[-size:] or ahead == told)

    def _recite(self, before: int) -> None:
        """Take a list that tells once more what was told: "so it's B, A, B, A, B and one A"."""
        again = self._play.items[before:]
        parts = [item.part for item in again]
        told = [item.part for item in self._play.items[:before]]
        if len(parts) >= len(told) and parts[: len(told)] == told and len(parts) > 2:
            extras = [item for item in self._play.items[:before] if item.extra is not None]
            if not extras:
                del self._play.items[:before]

    def _extra(self, at: int, begins: int) -> None:
        place = self._mentions.extra_place(at, begins)
        if place is None:
            return
        one = self._s[at]
        assert one.extra is not None
        item = Told(one.token, extra=one.extra)
        times = max(self._around.prefix(at), self._around.after(at))
        for where in sorted(place, reverse=True):
            self._play.items[where:where] = [item.again() for _ in range(times)]
            self._first += where < self._first

    def _put_back(self) -> None:
        """Put an extra where the sentence says behind it that it comes: "there is one tag, after the second B"."""
        anchors, self._mentions.anchors = self._mentions.anchors, []
        told = self._play.items[self._first :]
        if not anchors or not told or any(item.part >= 0 for item in told):
            return
        del self._play.items[self._first :]
        if -1 in anchors:
            return
        for where in sorted({anchor + 1 for anchor in anchors}, reverse=True):
            self._play.items[where:where] = [item.again() for item in told]

    # -- whole sentences

    def _interleaves(self) -> bool:
        """Take "three As, with a B after each of them", "A comes three times, and B after each"."""
        if not (found := _INTERLEAVED.search(self._t.text)):
            return False
        named = [at for at in range(len(self._s)) if self._is_item(at) and self._s[at].part >= 0]
        parts = list(dict.fromkeys(self._s[at].part for at in named))
        if len(parts) != 2 or len(named) > 2 or any(one.extra for one in self._s):
            return False
        spans = list(clauses_of(self._s))
        first = named[0]
        clause = next(last for begin, last in spans if begin <= first < last)
        times = _TIMES.match(self._t.of(first + 1, clause))
        many = max(self._many(first), _number(times) if times else 1)
        if many < 2 or self._t.starts[first] > found.start():
            return False
        for _ in range(many):
            self._play.items += [Told(self._s[at].token, self._s[at].part) for at in named]
        self._play.group = self._first
        return True

    def _in_turn(self) -> bool:
        """Take "A and B are danced in turn, three times each, and a last A is added"."""
        if not (found := _IN_TURN.search(self._t.text)):
            return False
        named = [at for at in range(len(self._s)) if self._is_item(at) and self._s[at].part >= 0]
        before = [at for at in named if self._t.starts[at] < found.start()]
        if not named[2:] and len(before) < 2:
            return self._rearranged(found)
        each = re.search(r"\b(?:(\d+) times|(twice|thrice)|(\d+)) (?:of )?(?:each|apiece)\b", self._t.text)
        if len(before) != 2 or each is None:
            return False
        for _ in range(_number(each)):
            self._play.items += [Told(self._s[at].token, self._s[at].part) for at in before]
        self._first = len(self._play.items)
        for at in named[2:]:
            self._play.items.append(Told(self._s[at].token, self._s[at].part))
        return True

    def _rearranged(self, found: re.Match[str]) -> bool:
        """Let the parts told last come alternately: "A four times and B three times. The two alternate"."""
        told = self._play.items[self._play.group :]
        parts = list(dict.fromkeys(item.part for item in told))
        if len(parts) != 2 or -1 in parts:
            return False
        first, second = ([item for item in told if item.part == part] for part in parts)
        if len(first) < len(second):
            first, second = second, first
        if len(first) - len(second) > 1:
            return False
        mixed = [item for pair in zip(first, second, strict=False) for item in pair]
        self._play.items[self._play.group :] = [*mixed, *first[len(second) :]]
        return True


def _cuts(text: str) -> bool:
    """Whether words may say how much is danced of the part before them."""
    return bool(_CUTS.search(text)) and not re.search(r"\b(?:every|each|any|turns?|always)\b", text)


def _number(match: re.Match[str]) -> int:
    from trainer.sheet.prose.plays.repeats import many_of

    return many_of(match.groups())
