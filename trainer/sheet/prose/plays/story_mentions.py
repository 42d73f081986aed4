"""Which part that a story names is danced next, and which it only speaks of.

Each rule looks at the words around one part, from what is surest on: it says that the part is danced next, names the
item that is only spoken of, or leaves it to the next rule.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.symbols import Text
from trainer.sheet.prose.plays.told_items import Play

BEFORE = {"before", "until", "till"}
AFTER = {"after", "behind", "following", "once", "when", "whenever", "since", "from", "upon"} | BEFORE
_INSIDE = {"in", "on", "during", "at", "of", "between"}
_IN_GENERAL = {"every", "each", "any", "other"}
_DENIED = re.compile(
    r"\b(?:not|no|never|without|nor|neither|instead of|rather than|unlike|than|leaves? out|leave off|skip|omit|"
    r"miss out|expects?|the same \w+ as|as \w+ as|don't \w+|do not \w+|other|no longer)(?: (?:\w+|[.,]))?$"
)
_SUPPOSED = re.compile(
    r"\b(?:would|expect|thinks?|thought|guess(?:ed)?|hope|might|could|used to|earlier|had|last (?:time|month|week|"
    r"year)|yesterday|told you|mistake|"
    r"wrong|wrongly|old version|if|(?:don't|do not)(?! be (?:surprised|alarmed|startled|caught|fooled|shocked))|"
    r"(?:count|watch|watch out for|listen for|look out for|mind|beware of) (?:the|those|your|that)|"
    r"never|careful|note|remember|mind|notice|hurry|afraid|tempt(?:ed|s)|"
    r"(?:feet|feels?|ears?|you|body|legs|habit|everybody|everyone|people|dancers|beginners|they) "
    r"(?:will |may |'ll )?(?:wants?|cry|cries|asks?|"
    r"long|longs|itch|itches|wishe?s?) (?:for |to )?)\b"
)
_ALWAYS = re.compile(r"(?:^|^(?:\w+ ){1,2})(?:always|mostly|usually|generally|normally)\b")
_WOULD = re.compile(r"^(?:would|might|could|is expected|is supposed|used to)\b")
"""What is told of a part that might be danced: "normally B would follow, but"."""
_AT_ONCE = r"(?:right |straight |just )?(?:there|here|at once|immediately|now|again|anew)\b"
_STATIVE = re.compile(
    r"^(?:(?:itself|too|also|always|both|now|here|in all) )*(?:has|have|had|ends?|finish(?:es)?|turns?|faces?|"
    rf"(?:starts?|begins?)(?! {_AT_ONCE})|makes?|is made|lasts?|means?|stands?(?! (?:next|now|here|in the middle))|"
    rf"falls?(?! (?:for the|next|here|now|there|in)\b)|belongs?|consists?|never|does|"
    r"do not|doesn't|looks?|contains?|of \d|with \d)\b"
)
_WHOLE = re.compile(
    r"^(?:(?:then|now|also|itself|too) )*(?:ends?|finish(?:es)?|closes?|starts?|begins?|has|have|makes?) "
    r"(?:(?:up|off|out) )?(?:(?:the|our|this|your|that|us|it|all|things|everything|whole|dance|song|off) )*"
    r"(?:dance|song|it|all|things|everything|off|us|evening|story|sequence|round|\$ending|end)\b|"
    r"^(?:has|have|gets?|takes?|is given|keeps?) (?:the|its|a|an|1|one) (?:very )?"
    r"(?:last|final|#\d|next|closing|opening|other)? ?"
    r"(?:word|say|turn|go|round|bow|laugh|spot|place|outing|run|airing)\b|"
    r"^(?:has|have|gets?|is given) (?:the|its) \w+ "
    r"(?:of (?:clos|end|open|finish|start)ing|to (?:close|end|open|finish|start))\b|"
    r"^is (?:how|what|the way) |"
    r"^(?:makes?|form|forms) (?:up )?(?:a|the|1|our)(?: #\d)?(?: first| second)? (?:round|block|pair|set|group)\b"
)
"""What a part does to the dance: "one more verse ends the dance", "A and B make up the first round"."""
_IS = re.compile(
    r"^(?:is|are|was|'s) (?!(?:how|what|the way)\b|"
    r"(?:also |then |now |only |again |here |there |to |first |always |still |just |all )*"
    r"(?:danced|done|performed|sung|played|heard|#\d|next|taken|cut|be|repeated|added|put|given|broken|left|shortened|"
    r"doubled|reduced|interrupted|followed|answered|\d|twice|thrice|once|whole|complete|in full|last|the last|"
    r"the next|due|"
    r"begun|started|stopped|all|back|again|there|here|first|enough|on)\b)"
)
_AFTER_THOSE = re.compile(
    r"\b(?:after|behind|following|once|from|before|when) (?:those|these|all|all of) (?:of )?[2-9] $"
)
_NTH_OF = re.compile(r"#(\d) of (?:these|those|the|our)(?: \d)? $")
_OF_THESE = re.compile(
    r"^(?:(?:and|but|out|only|each|every|1|one|both|all|after|behind) )*of (?:these|those|the|our)(?: \d)? $"
)
_THE_NTH = re.compile(r"(?:, )?(?:only )?the (?:#(\d)|last|latter)\b")
"""What is said of one of those told last: "of these two Bs the second is cut"."""
_SO_MANY = re.compile(
    r"(?<!the )(?<!these )(?<!those )(?<!all )(?<!both )\b[2-9] (?:more |further |full |whole |last )*$"
)
_CUT_SO = re.compile(
    r"(?:shortened|cut|reduced|clipped|trimmed|without|with its|minus|only|stopping|ending|stopped|broken)\b"
)
_FOR_WHICH = re.compile(r"\b(?:for|of|in|from) which (?:\w+ ){0,2}$")
"""Before what is said more closely of a part told just before."""
_BETWEEN = re.compile(r"\bbetween (?:[^@$ ]+ ){0,4}(?:@\d (?:and (?:[^@$ ]+ ){0,4}))?$")
_ROUND = r"(?:pair|round|time|go|set|block|turn)"
_IN_ROUND = re.compile(
    rf"\b(?:only )?(?:in|on|during) the #(\d) (?:{_ROUND}(?: round)?|(?=of ))(?: ?of (?:these|those|them|the|all)"
    rf"(?: \d)?(?: {_ROUND}s)?)?(?: (?:is|are|the)|$)"
)
"""A part of which round is spoken of: "only in the third pair is the verse shortened"."""
_IS_WHOLE = re.compile(
    r",? ?(?:and |but )?(?:that|this|it|which)(?: 1| time)? is (?:then |again |now )?"
    r"(?:danced|done|whole|complete|full|in full)\b"
)
"""Behind a part that comes next, however it is spoken of: "when you start the next A, and that one is danced whole"."""
_FROM_THE_TOP = re.compile(r"\b(?:to|from|at) the (?:very )?(?:top|beginning|start) of (?:the )?$")
_BEFORE_MEETING = re.compile(
    r"\b(?:before|until|till) (?:(?:you|we|they|even|ever|first|finally|actually|do) )*"
    r"(?:see|hear|meet|come to|get to|get|reach|go to|go into|come into|turn to|start|arrive at|is time for|"
    r"moving on to) (?:(?:a|the|any|first|our|part) )*$"
)
"""What is danced before a part is met: "A is done twice before you ever see part B"."""
_STARTS_ON = re.compile(
    r"\b(?:start|begin|end|finish|open|carry|go|close|sign|bow|fade)\w* (?:(?:out|off|up|home|down) )?(?:on|in|at)$"
)
_THE_RUN = re.compile(r"\b(?:with|for|by|to|into) the [2-5] $")
_IS_CUT = re.compile(
    r"(?:(?:only|just|though|,) )*(?:stops?|breaks? off|is (?:cut|shortened|left|only|broken)|ends? (?:at|on|after|"
    r"with)|runs? (?:only )?(?:to|up)|"
    r"goes only|lasts? only|only|has only|gets only)\b"
)
_GOES_ON = re.compile(r"(?:and |but )?(?:then|now|next|after that)\b")
_IS_DANCED = re.compile(
    r"(?:is|are) (?:\w+ )?(?:danced|done|performed|played|sung|heard|repeated|taken)\b|(?:comes|follows)\b"
)
_COMES = re.compile(r"(?:begins|starts|comes|follows)\b")
_EACH_TIME = re.compile(r"(?:each|every) (?:time|go|round)\b")


class _Next:
    """The part is danced next."""


NEXT: Final = _Next()


@dataclass(frozen=True, slots=True)
class _Named:
    """A part that a sentence names, and the words around it."""

    part: int
    lead: int
    """Index of the word that leads to it, what describes it left out."""
    word: str
    """That word; empty where it stands before the clause."""
    between: tuple[str, ...]
    """What describes it, backwards."""
    number: int | None
    before: str
    """The words of the clause since the item before."""
    clause: str
    """The words of the clause before it."""
    tail: str
    """The words behind it, to the next item or the end of the clause."""
    rest: str
    """The words behind it, to the end of the sentence."""
    then: bool
    """Something else comes then: "after that B, then A"."""
    closes: bool
    """Its clause names no part or extra behind it."""
    several: bool
    """It is named in the plural: "after those As"."""
    danced: tuple[int, ...]
    """The items that are this part."""

    @property
    def latest(self) -> int:
        """The last of its items; -1: none is told yet."""
        return self.danced[-1] if self.danced else -1

    @property
    def anew(self) -> bool:
        """Whether it is called another one: "a B", "one more B", "the next B"."""
        if {"another", "more", "further", "extra", "next"} & set(self.between) or self.between[-1:] in (
            ("a",),
            ("an",),
        ):
            return True
        return ("one" in self.between or "1" in self.before.split()[-2:]) and "that" not in self.between

    def nth(self) -> int | None:
        """Return the item of its number; None where it has none, or is not told yet."""
        return self.danced[self.number - 1] if self.number and self.number <= len(self.danced) else None


_Found = int | _Next | None


class StoryMentions:
    """Tells in one sentence what is only spoken of."""

    def __init__(self, text: Text, play: Play, around: Around) -> None:
        self._t = text
        self._s = text.symbols
        self._play = play
        self._around = around
        self._first = len(play.items)
        self.anchors: list[int] = []
        """Items after which something comes; -1: one that is not told yet."""
        self._rules: tuple[Callable[[_Named], _Found], ...] = (
            self._measured,
            self._told_in_other_words,
            self._in_general,
            self._after,
            self._inside,
            self._by_number,
            self._described,
        )

    def target(self, at: int, begins: int, ends: int, clause: int) -> int | None:
        """Return the item that a part named at an index is; -1: it is none of them; None: it is danced next.

        `begins` and `ends` are where the words that belong to it begin and end, `clause` where its clause begins.
        """
        one = self._named(at, begins, ends, clause)
        for rule in self._rules:
            found = rule(one)
            if found is not None:
                return found if isinstance(found, int) else None
        return None

    def _named(self, at: int, begins: int, ends: int, clause: int) -> _Named:
        lead, between = self._around.before(at)
        before = self._t.of(begins, at)
        number = next((int(text[1:]) for text in between if text.startswith("#")), None)
        if number is None and (inside := _IN_ROUND.search(self._t.of(clause, at))):
            number = int(inside[1])
        part = self._s[at].part
        return _Named(
            part=part,
            lead=lead,
            word=self._s[lead].text if lead >= clause else "",
            between=tuple(between),
            number=number,
            before=before,
            clause=self._t.of(clause, at) + " ",
            tail=self._t.of(at + 1, ends),
            rest=self._t.of(at + 1, len(self._s)),
            then=re.match(r", (?:and )?then\b", self._t.of(at + 1, at + 4)) is not None,
            closes=all(one.part < 0 and one.extra is None for one in self._s[ends : ends + 1]),
            several=self._s[at].token.low.endswith("s") and len(self._s[at].token.text) > 1,
            danced=tuple(index for index, item in enumerate(self._play.items) if item.part == part),
        )

    def _measured(self, one: _Named) -> _Found:
        """How much of it comes next: "the first half of the verse"."""
        if not self._around.takes(one.lead):
            return None
        found = None if one.anew else one.nth()
        return NEXT if found is None else found

    def _told_in_other_words(self, one: _Named) -> _Found:
        if "next" in one.between and _IS_WHOLE.match(one.rest):
            return NEXT
        those = one.word in ("those", "these")
        if those and (one.anew or (not one.several and AFTER & set(one.before.split()[-2:-1]))):
            # "And after those A twice", "after these a chorus follows".
            return NEXT
        if re.search(r"\bsurprised (?:when|if|that) (?:the |a )?$", one.clause):
            return NEXT
        if one.danced and _AFTER_THOSE.search(one.before + " "):
            self.anchors.append(one.latest)
            return one.latest
        if one.danced and _OF_THESE.search(one.before + " "):
            nth = _THE_NTH.match(one.tail)
            run = self._run(one.part)
            return run[min(int(nth[1]), len(run)) - 1] if nth and nth[1] else run[-1]
        if one.danced and _FOR_WHICH.search(one.before + " "):
            return one.latest
        if (nth := _NTH_OF.search(one.before + " ")) and (run := self._run(one.part)):
            return run[min(int(nth[1]), len(run)) - 1]
        if those or _EACH_TIME.match(one.tail):
            return one.latest
        this_time = one.between == ("the",) and "this time" in one.clause
        # "A again brings us home, where this time we dance two Bs": the part told last is another.
        several = (
            one.between in ((), ("part",), ("parts",))
            and one.word.isdecimal()
            and one.latest != len(self._play.items) - 1
        )
        if this_time or (one.clause.startswith("this time") and not several) or _IN_ROUND.match(self._t.text):
            return one.latest if one.nth() is None else one.nth()
        if _FROM_THE_TOP.search(one.clause):
            return NEXT
        # "You carry on from there with the two As".
        return one.latest if _THE_RUN.search(one.before + " ") and self._runs(one.part) > 1 else None

    def _in_general(self, one: _Named) -> _Found:
        """What is said of every one of them, of none, or of what is not so."""
        if _IN_GENERAL & {one.word, *one.before.split()[-3:]} or one.word in ("not", "no", "without"):
            return one.latest
        led = one.before.split()
        if _ALWAYS.match(one.tail) or _ALWAYS.search(one.before):
            return one.latest
        described = len(one.between)
        if _DENIED.search(" ".join(led[: len(led) - described] if described else led)):
            return one.latest
        supposed = (_SUPPOSED.search(one.clause) or _WOULD.match(one.tail)) and not re.search(
            r"\b(?:here|now) (?:is|comes)\b", one.before
        )
        return one.latest if supposed else None

    def _after(self, one: _Named) -> _Found:
        """What something else comes after, or before."""
        if _BEFORE_MEETING.search(one.before + " "):
            return one.latest
        if one.word not in AFTER or (one.word == "once" and "more" in one.between):
            return None
        last = len(self._play.items) - 1
        behind = one.word in ("after", "behind", "following") and one.between[-1:] in (("that",), ("this",))
        if behind and one.closes and _IS_DANCED.match(one.tail):
            # "After this B is danced alone".
            return NEXT
        if behind and (one.latest != last or one.then or one.between[-2:-1] == ("the",)):
            # "After that A, B and another B finish the dance", "after that B, then A".
            return NEXT
        implied = one.word == "after" and self._prefix(one) > max(len(one.danced), 1)
        if implied or (one.number == 1 and not self._play.items):
            # "After two verses the band plays the chorus", "after the very first A there are two beats to spare".
            return NEXT
        if (one.word == "after" and one.anew and not one.number) or (one.word == "once" and not one.tail):
            return None
        begins = one.number == len(one.danced) + 1 and (
            one.word == "from" or (_COMES.match(one.tail) and one.word in ("when", *BEFORE))
        )
        if begins or (one.word == "from" and not one.danced):
            # "... so you are at the back when the second B begins".
            return NEXT
        found = one.nth() if one.number else one.latest
        found = -1 if found is None else found
        if one.word not in BEFORE:
            self.anchors.append(found)
        return found

    def _inside(self, one: _Named) -> _Found:
        """What something happens in: "on the second B the music drops away"."""
        last = bool({"last", "final"} & set(one.between)) and bool(self._play.items)
        if one.word in ("in", "on") and last and self._play.items[-1].part != one.part:
            # "In the last B drop the sways: dance 12 counts".
            return NEXT
        between = _BETWEEN.search(one.clause) or _BETWEEN.search(self._t.of(0, one.lead + 1 + len(one.between)) + " ")
        if one.word not in _INSIDE and not between:
            return None
        if _STARTS_ON.search(self._t.of(max(one.lead - 2, 0), one.lead + 1)):
            return None
        if one.number is not None and one.number == len(one.danced) + 1:
            return NEXT
        found = one.nth()
        return one.latest if found is None else found

    def _by_number(self, one: _Named) -> _Found:
        if one.number is None:
            return None
        if self._play.stanza is not None and one.number <= len(one.danced):
            # "Verse three is the odd one. Its first A is cut short": the first of that verse.
            inside = [index for index in one.danced if index >= self._play.stanza]
            return inside[one.number - 1] if one.number <= len(inside) else NEXT
        found = None if one.anew else one.nth()
        return NEXT if found is None else found

    def _described(self, one: _Named) -> _Found:
        """What is said of a part without a word that leads to it."""
        if re.match(r"(?:again|once more|twice|\d times)\b", one.tail):
            return NEXT
        if one.several and _SO_MANY.search(one.before + " "):
            return NEXT
        if one.between == ("the",) and one.latest >= self._first and _CUT_SO.match(one.tail):
            # "We close with A and B, the A shortened by its last four counts".
            return one.latest
        last = bool(self._play.items) and one.latest == len(self._play.items) - 1
        if (
            last
            and {"last", "final"} & set(one.between)
            and _IS_CUT.match(one.tail)
            and not _GOES_ON.match(self._t.text)
        ):
            # "..., two of B. Oh, and the very last B stops at count 8".
            return one.latest
        if "this" in one.between and one.latest != len(self._play.items) - 1 and _GOES_ON.match(self._t.text):
            # "Then the fiddler cuts in: this verse is a short one", after a chorus.
            return NEXT
        if {"that", "this"} & set(one.between):
            return one.latest if one.danced and not re.search(r"\b(?:do|dance|repeat)\b", one.before) else NEXT
        if one.anew:
            return NEXT
        stative = _STATIVE.match(one.tail) and not _WHOLE.match(one.tail)
        return one.latest if stative or _IS.match(one.tail) else None

    def _prefix(self, one: _Named) -> int:
        """How many of a part are named: "after two verses"."""
        return next((int(text) for text in one.before.split() if text.isdecimal()), 1)

    def _run(self, part: int) -> list[int]:
        """The items of a part that come in a row, the last such row."""
        run: list[int] = []
        for at in range(len(self._play.items) - 1, -1, -1):
            if self._play.items[at].part == part:
                run.insert(0, at)
            elif run:
                break
        return run

    def _runs(self, part: int) -> int:
        """How many of a part come in a row at most."""
        most = run = 0
        for item in self._play.items:
            run = run + 1 if item.part == part else 0
            most = max(most, run)
        return most
