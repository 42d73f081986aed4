"""A sentence of a play told as a story, clause by clause: what is danced next, danced again, or only spoken of."""

import re
from collections.abc import Sequence

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.cuts import cut_in
from trainer.sheet.prose.plays.repeats import AFRESH, many_of
from trainer.sheet.prose.plays.story_clauses import (
    ARTICLES,
    clauses_of,
    items_in,
    joined,
    places_behind,
    so_many,
    times_behind,
)
from trainer.sheet.prose.plays.story_extras import place_of_extra, put_between
from trainer.sheet.prose.plays.story_mentions import BEFORE, StoryMentions
from trainer.sheet.prose.plays.story_rounds import alternated, by_turns, interleaved, left_out, says_by_turns
from trainer.sheet.prose.plays.story_stanzas import come_to_a_stanza, dance_like_others, keep_round
from trainer.sheet.prose.plays.symbols import Extra, Named, Text, text_of
from trainer.sheet.prose.plays.told_again import Again, again_in, times_alone
from trainer.sheet.prose.plays.told_items import Play, Told

_ARE = re.compile(r"^(?:both |each )?(?:are|were|get|come|go|follow|must be|have to be)\b")
_UNIT = r"(?:pattern|unit|block|sequence|set|round|cycle|group)"
_IS_UNIT = re.compile(
    rf"\b(?:is|are|makes?|forms?)(?: up)? (?:the|a|one|1|our) (?:\w+ )?{_UNIT}\b|\b(?:the|our|a) {_UNIT} (?:is|goes|"
    rf"consists|:)"
)
_IN_ORDER = re.compile(r"@(\d) (?:before|first|#1|leading|and then|then) ")
_THROUGH = re.compile(r"^(?:\d+ times|twice|thrice) (?:through|over|running|in a row|together|in turn|altogether)\b")
_MORE_TIMES = re.compile(r"\b(?:(\d+) (?:more times|times more)|(twice) more)\b")
_SUMS = re.compile(r"\bin the following (?:way|order)\b|\bas follows\b|\bin this (?:way|order)\b")
"""What says how often the parts are danced in all, before they are told: "A comes four times, in this order"."""
_MANY = re.compile(r"\b(?:\d+ times|twice|thrice|[2-9] @)")
_NTH_OF = re.compile(
    r"\b(?:of which |but )?the (#(\d)|last|latter)(?: (?:of (?:which|them|these|those)|one|1))\b|"
    r"\bof (?:which|them|these|those) (?:only )?the (#(\d)|last|latter)\b(?: (?:one|1)\b)?"
    r"(?! (?:\d|half|sections?|eights?|sets?|blocks?|counts?|beats?|@))"
)
"""One of a few parts told together: "two As, the second of which stops halfway"."""
_ROUNDS = re.compile(r"\b([2-6]) (?:\w+ )?(?:rounds|goes|times|sets|passes|turns|turns round)\b.*\beach\b")
_IS_REPEATED = re.compile(
    r"(?:is|gets|must be|has to be|is then|comes|is to be) (?:repeated|doubled|danced again|again|back)\b"
)
_ONCE_HERE = re.compile(
    r"(?:is|are|comes?|happens?|gets?)(?: (?:danced|done|played|sung|heard|just|only|the|here|this|time|a|for))* "
    r"(?:once|single|1 time)\b"
)
"""How often the part told last is danced: "B is danced just the once here"."""
_YES = re.compile(
    r"(?:(?:yes|no|right|really|exactly|honestly|indeed|,) )+(?:(?:only|just) )?(?:(?:1|the|one|single) )*@\d$"
)
"""Opens a sentence that only says once more how many were told: "yes, only one B"."""
_ONCE_MORE = re.compile(r"\b(?:again|once more|another|one more|a further)\b")
_SECTION = re.compile(r"\( up to section \d \)")
_SWAPPED = re.compile(
    r"\b(?:swap\w*|chang\w+ (?:places|over)|exchang\w+|other way (?:round|about|around)|revers\w+|turn about)\b"
)
_ROUNDS_OF = re.compile(
    r"\b([2-6]) (?:[a-z]+ )?(?:rounds?|goes|sets|pairs|times|passes|helpings|lots|laps|renditions|repetitions) "
    r"(?:of |through )?(?:the |part |parts )*@(\d) (?:and|then|followed by|,) (?:then )?(?:the |part )*@(\d)"
)
_HEADED = re.compile(
    r"(?:(?:and|so|then|now|first|next|in all) )*(?:(\d) times|(\d) x|(twice|thrice))(?: (?:over|in all|round|in a row|"
    r"running|altogether))? (?:,? ?)(?:we|you|they|all|one|everybody|dance|do|comes?|it is|there is)\b"
)
_ENDS = {":", ";", ".", "with", "except", "but"}
_BOTH = 2


class StoryReader:
    """Adds what one sentence of a story tells to a play."""

    def __init__(self, text: Text, play: Play, named: Named) -> None:
        self._t = text
        self._s = text.symbols
        self._play = play
        self._named = named
        self._around = Around(text, named)
        self._first = len(play.items)
        """Where the items begin that the sentence tells."""
        self._mentions = StoryMentions(text, play, self._around)
        self._spoken = -1
        """The item that the sentence spoke of last; -1: the one told last."""
        self._over = False
        """All that follows only says in which order both parts are danced again."""
        self._repeated = False
        """The sentence has danced again what was told."""
        self._dances_again = 0
        """How many items there were when it last danced again what was told."""
        self._listing = False
        """The sentence has named parts so far, and nothing else of them."""
        self._pair = False
        """The clause told last names two parts, and nothing else of them."""

    @property
    def _told(self) -> list[Told]:
        """The items that the sentence has told so far."""
        return self._play.items[self._first :]

    def read(self) -> None:
        """Take the sentence's clauses in order."""
        come_to_a_stanza(self._t, self._play)
        if _SUMS.search(self._t.text) and _MANY.search(self._t.text) and ":" not in self._t.text.split():
            return
        if "@" not in self._t.text and dance_like_others(self._t, self._play):
            return
        if put_between(self._t, self._play) or by_turns(self._t, self._around, self._play):
            pass
        elif says_by_turns(self._t) and (mixed := alternated(self._play.items[self._play.group :])):
            self._play.items[self._play.group :] = mixed
            return
        else:
            self._take_clauses()
        keep_round(self._t, self._play, self._first)
        if self._play.each and (told := interleaved(self._told, self._play.each)):
            self._play.items[self._first :] = told
        if self._told:
            self._play.group = self._first

    def _take_clauses(self) -> None:
        spans, again = list(clauses_of(self._s)), list[int]()
        rounds = _ROUNDS.search(self._t.text)
        self._repeated = rounds is not None
        for number, (first, last) in enumerate(spans):
            named = items_in(self._t, self._around, first, last)
            if self._over:
                break
            if self._play.rounds and left_out(text_of(self._s[first:last]), self._play):
                continue
            if not named:
                self._bare(first, last, spans[number + 1 :])
                continue
            self._repeat_headed(first)
            before = len(self._play.items)
            again = again or self._said_again(first)
            for at in (at for at in named if at not in again):
                self._item(at, first, last, named)
            only_named = all(at in named or self._s[at].text in ARTICLES | {"and"} for at in range(first, last))
            self._listing = only_named and (self._listing or before == self._first)
            self._pair = (len(named) == 2 and joined(self._t, *named)) or self._listing
            if before == len(self._play.items):
                # All that is named is only spoken of: "we dance it twice before we come to B".
                end = next((at for at in range(first, named[0]) if self._s[at].text in ("before", "until")), first)
                self._bare(first, end, ())
        self._repeat_headed(len(self._s))
        self._repeat_rounds()
        self._tell_closer()
        if rounds and len(self._told) > 1:
            self._play.repeat(self._first, many_of(rounds.groups()))
        self._put_back()

    def _repeat_headed(self, at: int) -> None:
        """Dance what was told so far as often as the sentence's opening says: "Four times we dance A followed by B"."""
        headed = _HEADED.match(self._t.text)
        told = self._told
        if headed is None or self._repeated or not told or (at < len(self._s) and self._s[at - 1].text not in _ENDS):
            return
        self._repeated = True
        self._play.repeat(self._first, many_of(headed.groups()))

    def _repeat_rounds(self) -> None:
        """Dance a pair so often as rounds of it are told: "it begins with two rounds of A and B"."""
        rounds = _ROUNDS_OF.search(self._t.text)
        told = [item.part for item in self._told]
        if rounds is None or self._repeated or told != [int(rounds[2]), int(rounds[3])]:
            return
        self._repeated = True
        self._play.repeat(self._first, int(rounds[1]))

    def _tell_closer(self) -> None:
        """Keep only what a colon tells more closely: "B opens the show, not A: two Bs straight after the intro"."""
        colon = next((at for at, one in enumerate(self._s) if one.text == ":"), 0)
        if not colon or _HEADED.match(self._t.text) or _ROUNDS_OF.search(self._t.text):
            return
        behind = {id(one.token) for one in self._s[colon:]}
        told = self._told
        closer = next((at for at, item in enumerate(told) if id(item.token) in behind), 0)
        rough, close = [item.part for item in told[:closer]], [item.part for item in told[closer:]]
        if rough and _SWAPPED.search(self._t.of(0, colon)) and sorted(rough) == sorted(close[: len(rough)]):
            # "Now A and B swap places: B first".
            del self._play.items[self._first : self._first + closer]
            return
        alike = close[:1] == rough[:1] and (len(rough) == 1 or set(rough) == set(close) - {-1})
        if len(rough) < len(close) and closer and alike and -1 not in rough:
            del self._play.items[self._first : self._first + closer]

    def _item(self, at: int, first: int, last: int, named: Sequence[int]) -> None:
        """Take a part or an extra of a clause; `named` are the places of all of them."""
        one = self._s[at]
        place = named.index(at)
        begins = named[place - 1] + 1 if place else first
        ends = named[place + 1] if place + 1 < len(named) else last
        if one.extra is not None:
            self._extra(at, begins)
        elif not self._cuts_by_section(at, first):
            target = self._mentions.target(at, begins, ends, first)
            times = places_behind(self._t.of(at + 1, len(self._s))) or times_behind(self._t.of(at + 1, ends))
            if target is None and self._restates(at, first, times or so_many(self._t, self._around, at)):
                target = len(self._play.items) - 1
            if target is None:
                self._dance(at, ends, times, named[:place])
            elif target < 0 and self._comes_first(at):
                self._play.items.insert(self._first, Told(one.token, one.part))
            else:
                self._speak_of(at, target, times)
                self._spoken = target
            self._play.subject = one.part

    def _comes_first(self, at: int) -> bool:
        """Whether what the sentence told comes after a part that no sentence told: "two Bs after the second A"."""
        lead, between = self._around.before(at)
        number = next((int(text[1:]) for text in between if text.startswith("#")), 0)
        danced = sum(item.part == self._s[at].part for item in self._play.items)
        behind = lead >= 0 and self._s[lead].text in ("after", "behind", "following")
        told = self._told and all(item.part >= 0 for item in self._told)
        if not (behind and told and number == danced + 1 and (number > 1 or not self._first)):
            return False
        # The number may as well be a mistake where other sentences told the parts before.
        implied = self._play.implied in (None, self._s[at].part) and (number == 1 or self._play.implied is not None)
        self._play.implied = self._s[at].part if implied else None
        return implied

    def _cut(self, at: int) -> int | None:
        part = self._s[at].part
        before = self._around.cut_before(at, part) or self._around.cut_glued(at, part)
        said = _NTH_OF.split(self._around.segment(at), maxsplit=1)[0]
        return cut_in(said, part, self._named) if before is None else before

    def _cut_one(self, many: int, said: str) -> None:
        """Cut one of so many parts told last as is said of it: "two As, the second of which stops halfway"."""
        one = _NTH_OF.search(said)
        number = int(one[2] or one[4] or many) if one else 0
        if one and many > 1 and 0 < number <= many:
            item = self._play.items[number - many - 1]
            item.cut = cut_in(said[one.end() :], item.part, self._named)

    def _speak_of(self, at: int, target: int, times: int) -> None:
        """Take what is said of an item that was told: how much of it is danced, or how often."""
        items = self._play.items
        pointed = target == len(items) - 1 and bool({"this", "that"} & set(self._around.before(at)[1]))
        if pointed and not times and _IS_REPEATED.match(self._t.of(at + 1, len(self._s))):
            # "That B is repeated".
            times = 2
        if times and pointed:
            # "... into the chorus, and this last chorus is danced twice".
            self._play.repeat(target, times)
        elif target >= 0 and items[target].cut is None and self._s[self._around.before(at)[0]].text not in BEFORE:
            items[target].cut = self._cut(at)

    def _dance(self, at: int, ends: int, times: int, before: Sequence[int]) -> None:
        """Add a part that is danced next, as often as is said of it, or of it and those before it in the clause."""
        one, tail = self._s[at], self._t.of(at + 1, ends)
        item = Told(one.token, one.part, cut=self._cut(at), mark=self._around.mark(at, self._around.before(at)[1]))
        item.facing = self._around.facing(at)
        more = _MORE_TIMES.search(tail)
        if times and before and joined(self._t, before[-1], at) and (_ARE.match(tail) or _THROUGH.match(tail)):
            # "Verse and chorus are danced three times", "A and B twice through".
            self._play.items.append(item)
            self._play.repeat(max(len(self._play.items) - 1 - len(before), self._first), times)
            return
        often = max(so_many(self._t, self._around, at), times, many_of(more.groups()) if more and not before else 1)
        self._play.items += [item.again() for _ in range(often)]
        self._cut_one(often, self._around.segment(at))
        if more and before:
            # "Do that whole A and its B twice more".
            self._play.repeat(self._first, many_of(more.groups()))

    def _cuts_by_section(self, at: int, first: int) -> bool:
        """Whether a section of the part told last is named, and so how much of it is danced: "dance B1 only"."""
        one, items = self._s[at], self._play.items
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        section = after is not None and after.text.isdecimal() and after.token.glued and len(after.text) == 1
        section = section or _SECTION.match(self._t.of(at + 1, at + 8)) is not None
        spoken = items[self._spoken] if items and self._spoken < len(items) else None
        if not section or spoken is None or spoken.part != one.part:
            return False
        if spoken.cut is None:
            spoken.cut = cut_in(self._t.of(first, len(self._s)), one.part, self._named)
        return True

    def _said_again(self, first: int) -> list[int]:
        """Places from a clause on of parts that only say again what is told: "two verses, so verse, verse, chorus"."""
        told = [item.part for item in self._told]
        led = self._s[first - 1].text if first else ""
        places = items_in(self._t, self._around, first, len(self._s))[: len(told)]
        again = led == "so" and len(told) > 1 and [self._s[at].part for at in places] == told
        return places if again else []

    def _restates(self, at: int, first: int, many: int) -> bool:
        """Whether a clause says again how often the part told last is danced: "two verses, so B is danced twice"."""
        items, part = self._play.items, self._s[at].part
        alone = not self._told and len(items) > 1 and items[-1].part == part != items[-2].part
        plain = not self._around.before(at)[1] or self._around.before(at)[1] == ["part"]
        if alone and plain and not first and _ONCE_HERE.match(self._t.of(at + 1, len(self._s))):
            return many < _BOTH
        if many == 1 and _YES.match(self._t.of(0, at + 1)) and items and items[-1].part == part:
            return True
        if not first or not items or items[-1].part != part or "next" in self._around.before(at)[1]:
            return False
        marks = [one.text for one in self._s[:first]]
        if marks.count("(") > marks.count(")"):
            return many == 1 and bool(self._told)
        run = next((n for n, item in enumerate(reversed(items)) if item.part != part), len(items))
        again = many == 1 and bool(self._told) and _ONCE_MORE.search(self._t.of(first, at + 4)) is not None
        return marks[-1] == "so" and (many == run or again)

    def _bare(self, first: int, last: int, after: Sequence[tuple[int, int]]) -> None:
        """Take a clause that names nothing; `after` are those behind it."""
        text, play, told = self._t.of(first, last), self._play, self._told
        if not play.items and play.subject < 0:
            return
        if told and (alone := times_alone(text)) is not None:
            self._repeat_told(*alone)
        elif (again := again_in(text)) is not None:
            # "A, B, both again, the tag, both once more": since then something else was danced.
            done = self._repeated and self._dances_again in (0, len(play.items))
            if done or self._recited(after, again) or self._sums_up(again):
                return
            self._repeated = True
            if any(one.steps for one in self._s[first:last]) and any(item.body for item in play.items):
                # "Now the same four sways come again".
                play.items.append([item for item in play.items if item.body][-1].again())
            else:
                self._dance_again(again)
            self._dances_again = len(play.items)
        elif play.items and play.items[-1].cut is not None and AFRESH.search(text):
            # "A is begun but abandoned after sixteen counts, and begun afresh".
            play.items.append(Told(play.items[-1].token, play.items[-1].part))

    def _repeat_told(self, times: int, several: bool) -> None:
        """Dance what the sentence told so often: the part told last, or all of them."""
        told = self._told
        if len(told) > 1 and (several or self._pair or _IS_UNIT.search(self._t.text)):
            self._play.repeat(self._first, times)
        elif len(told) < 2 or told[-2].part != told[-1].part:
            # "Two Bs, that is twice" was told already.
            self._play.repeat(len(self._play.items) - 1, times)

    def _dance_again(self, again: Again) -> None:
        play, told = self._play, self._told
        unheard = not play.items or play.items[-1].part != play.subject
        if again.whom == "it" and not told and play.subject >= 0 and unheard:
            # "Don't rush A. We dance it twice before B": it was only spoken of.
            play.items += [Told(self._s[0].token, play.subject) for _ in range(again.times)]
        elif play.items:
            last = len(play.items)
            group = self._first if told else play.group
            if again.whom == _BOTH and any(item.part < 0 for item in play.items[-_BOTH:]):
                # "B follows the tag, and then both parts are danced once more".
                both = list({item.part: item.again() for item in play.items if item.part >= 0}.values())
                order = _IN_ORDER.search(self._t.text)
                if order and int(order[1]) == both[-1].part:
                    both.reverse()
                play.items += [item.again() for _ in range(again.times - 1) for item in both]
                self._over = order is not None
                return
            if isinstance(again.whom, int):
                begin = max(last - again.whom, 0)
            else:
                begin = {"all": 0, "group": group, "it": last - 1 if told else group}[again.whom]
            play.repeat(begin, again.times)

    def _sums_up(self, again: Again) -> bool:
        """Whether a clause only says how many rounds the sentence has told: "A, B, A, B: that is two times round"."""
        told = [(item.part, item.extra) for item in self._told]
        rounds, over = divmod(len(told), again.times)
        return again.whom != "it" and rounds > 1 and not over and told == told[:rounds] * again.times

    def _recited(self, after: Sequence[tuple[int, int]], again: Again) -> bool:
        """Whether what is danced again is named beside it: "the same two again, A and B"."""
        size = len(self._told)
        before = self._play.items[max(self._first - size, 0) : self._first]
        if size > 1 and [_what(one) for one in self._told] == [_what(one) for one in before]:
            return True
        if not after or self._s[after[0][0] - 1].text not in (",", ":", "-", "("):
            return False
        places = items_in(self._t, self._around, after[0][0], after[-1][1])
        ahead = [self._s[at].part for at in places if self._s[at].part >= 0]
        told = [item.part for item in self._play.items]
        many = again.whom if isinstance(again.whom, int) else len(ahead)
        return len(ahead) > 1 and (ahead[:many] == told[-many:] or ahead == told)

    def _extra(self, at: int, begins: int) -> None:
        """Put an extra where it comes, if it is not only spoken of."""
        extra, places = self._s[at].extra, place_of_extra(self._t, self._play, self._around, at, begins)
        if places is not None and not places:
            anchors, self._mentions.anchors = self._mentions.anchors, []
            places = (
                sorted({anchor + 1 for anchor in anchors if -1 not in anchors}) if anchors else [len(self._play.items)]
            )
        times = max(self._around.prefix(at), self._around.after(at))
        for where in sorted(places or (), reverse=True):
            self._play.items[where:where] = [Told(self._s[at].token, extra=extra) for _ in range(times)]
            self._first += where < self._first

    def _put_back(self) -> None:
        """Put an extra where the sentence says behind it that it comes: "there is one tag, after the second B"."""
        anchors, self._mentions.anchors = self._mentions.anchors, []
        told = self._told
        if not anchors or not told or any(item.part >= 0 for item in told):
            return
        del self._play.items[self._first :]
        for where in sorted({anchor + 1 for anchor in anchors}, reverse=True) if -1 not in anchors else ():
            self._play.items[where:where] = [item.again() for item in told]


def _what(one: Told) -> tuple[int, Extra | None, int | None]:
    """What an item dances: its part or its extra, and how much of it."""
    return one.part, one.extra, one.cut
