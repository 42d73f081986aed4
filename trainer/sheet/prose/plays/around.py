"""What stands around a part or an extra that a sentence names: its cut, its mark, how often it is danced."""

import re

from trainer.sheet.prose.plays.repeats import AFTER_ITEM, MULTI, TO_BOTH, many_of
from trainer.sheet.prose.plays.symbols import Named, Text
from trainer.sheet.prose.words import Token

_ADJECTIVES = {
    "the", "a", "an", "part", "parts", "whole", "full", "complete", "entire", "short", "shortened", "half", "very",
    "next", "another", "one", "more", "this", "that", "last", "final", "single", "little", "normal", "usual", "plain",
    '"', "shorter", "closing", "opening", "our", "cut", "*", "long",
}  # fmt: skip
_PARTS_ITEMS = {",", "-", "/", "|", "+", ">", "then", ""}
"""What stands between the items of a list."""
_SHORT = {"short", "shortened", "shorter", "cut"}
_BRINGS = {
    "are", "coming", "come", "comes", "dance", "do", "have", "has", "then", "with", "by", "another", "and", "follow",
    "of", "first", "now", "last", "get", "gets", "hear", "next", "still", "more", "make", "making", "dancing", "doing",
}  # fmt: skip
"""Behind these a number tells how many of the part named next come."""
_FEW = 6
_LEADS_TO = {"puts", "leaves", "lands", "sends", "carries", "leads", "gets", "and", "you", "we", "us", "back", "to"}
"""Behind these stands where a part ends, not where it begins."""
_BOUND = re.compile(
    r"(?:,|and|then|:|\.|\|)+ ?(?:on its heels |(?:straight |right |directly )?(?:after|behind|upon) (?:it|that|this) |"
    r"straight away |directly )?(?:the |only |just |for |another |its )*(?:#1 )?(\d+)(?: counts?|"
    r" beats?)?(?: only)? (?:of|from|in) (?:(?:an?|the|1|another|more|further|last|final) )*$"
)
_SHORT_ONE = re.compile(
    r"[,(-] (?:but |this )?(?:(?:the|a) )?(?:short|shortened|cut|shorter)(?: (?:1|one|form|version|down))? ?[,)]"
)
"""Behind a part: "A, the short one,", "A (cut, see below)"."""
_HALF_OF = re.compile(r"(?:the |a |just |only )*(?:#1 )?half (?:of |an? |the )*$")
_ALL_OF_IT = re.compile(r" (?:over|through|in all|altogether|running|in a row|more)\b")
_OF_EXTRA = re.compile(r"\b\d+ (?:-? ?counts?|beats?) (?:-? ?)?(?:of )?$")


class Around:
    """Reads the words around the items of one sentence."""

    def __init__(self, text: Text, named: Named) -> None:
        self._t = text
        self._s = text.symbols
        self._named = named

    def is_section(self, at: int) -> bool:
        """Whether a letter with a number glued to it names a section: "A1"; not a part cut to some of them: "A1-3"."""
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        if after is None or not after.text.isdecimal() or not after.token.glued or len(after.text) > 1:
            return False
        if int(after.text) > max(len(self._named.sections[self._s[at].part]), 4):
            # "A8" is eight counts of it: no part has so many sections.
            return False
        before = self._s[at - 1].text if at else ""
        ahead = self._t.of(at + 2, at + 5)
        ranged = re.match(r"(?:-|to|\+|&) (?:@\d )?\d\b", ahead)
        inside = before == "(" and at > 1 and self._s[at - 2].part == self._s[at].part
        return not ranged or inside or before in ("section", "sections", "=", "for", "and", "+", "is")

    def is_opening_section(self, at: int) -> bool:
        """Whether a part's first section stands among the items of a list as one of them: "A - B - A1 - B"."""
        end = at + 2 + (self._t.of(at + 2, at + 3) in ("only", "alone"))
        one, after = self._t.of(at + 1, at + 2), self._t.of(end, end + 1)
        begin = at - 1 - (self._t.of(at - 1, at) == "section")
        parted = begin >= 0 and self._s[begin].text in _PARTS_ITEMS and after in _PARTS_ITEMS
        return at > 0 and one == "1" and parted and len(self._named.sections[self._s[at].part]) > 1

    def run_end(self, at: int) -> int:
        """The index of the last of the parts that stand side by side from an index on."""
        last = at
        while (
            last < len(self._s)
            and (self._s[last].part >= 0 or (self._s[last].extra is not None and last > at))
            and not self.is_section(last)
        ):
            last += 1
        return max(last - 1, at)

    def before(self, at: int) -> tuple[int, list[str]]:
        """The index of the word that leads to a part, and the words between that only describe it."""
        lead, between = at - 1, []
        while lead >= 0 and (self._s[lead].text in _ADJECTIVES or self._s[lead].text.startswith("#")):
            between.append(self._s[lead].text)
            lead -= 1
        return lead, between

    def segment(self, at: int) -> str:
        """The words after a part, up to the next item."""
        end = at + 1
        while end < len(self._s):
            one = self._s[end]
            if one.extra is not None or (one.part >= 0 and not self.is_section(end)):
                break
            if one.part not in (-1, self._s[at].part) and self.is_opening_section(end):
                break
            end += 1
        plural = end < len(self._s) and self._s[end].part >= 0 and self._s[end].token.low.endswith("s")
        told = self._s[end - 1].text if end < len(self._s) else ""
        named = end < len(self._s) and self._s[end].part >= 0 and len(self._s[end].token.text) > 1
        if named and ((plural and told.isdecimal()) or told == "1") and end - 1 > at:
            # "A verse, two choruses".
            end -= 1
            return self._t.of(at + 1, end)
        text = self._t.of(at + 1, end)
        return (
            _OF_EXTRA.sub("", _HALF_OF.sub("", _BOUND.sub("", text + " ").rstrip() + " ").rstrip() + " ").rstrip()
            if end < len(self._s)
            else text
        )

    def cut_before(self, at: int, part: int) -> int | None:
        """The counts danced of a part, as told before it: "the first 16 counts of A", "half of A"."""
        text = self._t.of(max(at - 9, 0), at)
        if match := re.search(
            r"(?:\d+ x )?(\d+)(?: counts?| beats?)?(?: only)? (?:of|from|in) "
            r"(?:(?:an?|the|1|another|more|further|yet|final|next) )*(?:#\d+ |last |part )?$",
            text + " ",
        ):
            counts = int(match[1])
            # More counts than any part has are a fault, which is found where the play is read.
            beyond = counts > max(self._named.lengths) and text[: match.start()].endswith("#1 ")
            return counts if 0 < counts < self._named.lengths[part] or beyond else None
        if match := re.search(
            r"(?:^| )(\d) (?:sections|eights|blocks|sets|phrases) (?:of|from|in) (?:the |an? )*$", text + " "
        ):
            counts = sum(self._named.sections[part][: int(match[1])])
            return counts if 0 < counts < self._named.lengths[part] else None
        if re.search(r"(?:#1 (?:section|eight|block|set|phrase)|section 1) (?:of|from|in) (?:the |an? )*$", text + " "):
            counts = self._named.sections[part][0]
            return counts if counts < self._named.lengths[part] else None
        if re.search(r"\bhalf (?:of |an? |the )*$", text + " ") and "#2 half" not in text:
            return self._named.lengths[part] // 2
        return None

    def cut_glued(self, at: int, part: int) -> int | None:
        """The counts danced of a part whose name they are glued to: "A8"."""
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        counts = int(after.text) if after is not None and after.token.glued and after.text.isdecimal() else 0
        ranged = re.match(r"(?:-|to|\+|&) (?:@\d )?\d", self._t.of(at + 2, at + 5))
        return counts if 0 < counts < self._named.lengths[part] and not ranged else None

    def mark(self, at: int, between: list[str]) -> str:
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
        if _SHORT_ONE.match(self._t.of(at + 1, at + 6)):
            return "short"
        letter = self._s[at].token.text
        if letter.islower() and len(letter) == 1 and letter.upper() in self._named.parts:
            return "small"
        return "short" if set(between) & _SHORT or ahead.startswith(("( short", "short")) else ""

    def facing(self, at: int) -> tuple[Token, ...]:
        end = min(at + 5, len(self._s))
        for index in range(at + 1, end):
            one = self._s[index]
            if (
                one.part >= 0
                or one.extra is not None
                or one.text in (",", "-", "takes", "brings", "turns", "ends", *_LEADS_TO)
            ):
                break
            if one.token.kind in ("clock", "facing"):
                return (one.token,)
        return ()

    def prefix(self, at: int) -> int:
        """How often what comes next is danced, as told before it: "2 x A", "twice A", "two As"."""
        lead, between = self.before(at)
        words = [one.text for one in self._s[max(lead - 1, 0) : lead + 1]]
        if not words or "one" in between:
            return 1
        named = lead - 1 >= 0 and (self._s[lead - 1].part >= 0 or self._s[lead - 1].text == ")")
        if words[-1] in MULTI and not named:
            return MULTI[words[-1]]
        if words[-1] in ("x", "times") and len(words) > 1 and words[0].isdecimal():
            return int(words[0])
        plural = at < len(self._s) and self._s[at].token.low.endswith("s") and len(self._s[at].token.text) > 1
        plural = self._s[at].part >= 0 and (plural or "parts" in between) if at < len(self._s) else False
        glued = self._s[at].token.glued and self._s[at].part >= 0 if at < len(self._s) else False
        if words[-1].isdecimal() and (plural or (glued and lead == at - 1 and len(words[-1]) == 1)):
            return int(words[-1])
        if self._counts_plainly(lead, at):
            return int(words[-1])
        if words[-1] in ("pair", "couple") or (words[-1] == "of" and words[0] in ("pair", "couple")):
            # A pair of "A and B" is one of each.
            other = self._t.of(at + 1, at + 3).split()
            return 1 if other[:1] in (["and"], ["&"]) and other[1:] and other[1][0] == "@" else 2
        return 1

    def _counts_plainly(self, lead: int, at: int) -> bool:
        """Whether a number tells how many come, though the name is no plural: "there are coming three B"."""
        alone = lead == at - 1 and lead >= 0 and at < len(self._s) and self._s[at].part >= 0
        before = self._s[lead - 1] if alone and lead else None
        many = self._s[lead].text if alone else ""
        if alone and many.isdecimal() and 1 < int(many) <= _FEW and self._all_numbered():
            return True
        led = before is not None and before.token.kind == "word" and before.part < 0 and before.extra is None
        return led and before is not None and before.text in _BRINGS and many.isdecimal() and 1 < int(many) <= _FEW

    def _all_numbered(self) -> bool:
        """Whether a number stands before each of several parts: "two A, one B, two A"."""
        places = [at for at, one in enumerate(self._s) if one.part >= 0]
        # "Two A, half an A, one B": a half counts as one.
        places = [at for at in places if not _HALF_OF.search(self._t.of(0, at) + " ")]
        numbers = [self._s[at - 1].text if at else "" for at in places]
        parted = [self._s[at - 2].text for at in places if at > 1]
        return (
            len(places) > 1
            and all(map(str.isdecimal, numbers))
            and all(text in _PARTS_ITEMS | {":", "and"} for text in parted)
        )

    def after(self, at: int) -> int:
        """How often, as told after a part or a group: "A twice", "A x 2", "(A, B) twice"."""
        ahead = self._t.of(at + 1, at + 12)
        match = AFTER_ITEM.match(ahead)
        if match is None:
            return 2 if TO_BOTH.match(self._t.of(at + 1, at + 18)) else 1
        several = any(self._s[index].part >= 0 for index in range(at)) and match[0].startswith(", ")
        if several and _ALL_OF_IT.match(ahead[match.end() :]):
            return 1
        # "A 2 x B": the number goes with what comes next.
        bare = re.match(r", (?:\d+ times|x \d|\d+ x|twice|thrice)\b", match[0])
        if bare and self.joined(at):
            return 1
        if (match[3] or match[8]) and re.match(r"\d+ x [@$(]", self._t.of(at + 1, at + 5)):
            return 1
        return many_of(match.groups())

    def joined(self, at: int) -> bool:
        """Whether another part before it in the sentence is joined to a part: "A and B, three times" is both."""
        before = max((index for index in range(at) if self._s[index].part >= 0), default=-1)
        words = [one.text for one in self._s[before + 1 : at] if one.text not in _ADJECTIVES]
        return before >= 0 and words in (["and"], ["&"], ["+"], ["followed", "by"], ["with"], ["and", "then"])

    def takes(self, lead: int) -> bool:
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

    def opens_group(self, at: int) -> bool:
        """Whether a bracket holds items that are danced again together, and no remark about the item before it."""
        after = self._s[at + 1] if at + 1 < len(self._s) else None
        return after is not None and (after.part >= 0 or after.extra is not None) and not self.is_section(at + 1)

    def inside_bracket(self, at: int) -> bool:
        """Whether a closing bracket closes a remark within a group."""
        depth = 0
        for index in range(at - 1, -1, -1):
            text = self._s[index].text
            if text == ")":
                depth += 1
            elif text == "(":
                if depth == 0:
                    return not self.opens_group(index)
                depth -= 1
        return False
