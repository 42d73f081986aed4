"""Which part that a sentence of the play names it only speaks of, and which is danced next."""

import re

from trainer.sheet.prose.plays.around import Around
from trainer.sheet.prose.plays.symbols import Text
from trainer.sheet.prose.plays.told_items import Play

_SPOKEN_OF = {
    "every", "each", "any", "when", "while", "whenever", "before", "since", "during", "no", "without", "of", "all",
}  # fmt: skip

_EXTRA_COMES = re.compile(
    r"that @\d (?:, )?(?:(?:comes?|follows?|is|there is|add|we|you|do|dance)(?: \w+){0,3} )?(?:the |a |our )?\$"
)
_PART_COMES = re.compile(
    r"that @(\d) (?:, )?(?:comes?|follows?|there (?:is|comes?)|is followed by|we|you|dance|go)\b(?: [\w#]+){0,5} @\d"
)
_GOES_ON = re.compile(
    r"^[\W]*(?:then |and |followed by |next |now )*(?:the )?[@$(]|^\d+ x|^(?:once|twice)|"
    r"^(?:just |only |the |then |and )*(?:(?:#1 )?half (?:of )?|(?:#1 )?\d+ (?:counts |beats )of )"
    r"(?:the |an? )?@\d ?(?:,|$|then|and)"
)
"""How a sentence opens that goes on with a list: "Then A", "only half of A, and B"."""


class Mentions:
    """Tells in one sentence what is only spoken of."""

    def __init__(self, text: Text, play: Play, around: Around) -> None:
        self._t = text
        self._s = text.symbols
        self._play = play
        self._around = around
        self._first = len(play.items)

    def spoken_of(self, part: int, word: str, between: list[str], number: int | None, lead: int) -> int | None:
        """The index of the item that is only spoken of; -1: of none; None: it comes next in the play."""
        play, final = self._play, "last" in between or "final" in between
        last = play.nth(part, number)
        pronoun = bool(between) and between[-1] == "that" and not self.extra_comes(lead)
        anew = "one" in between or ("a" in between and bool({"full", "whole", "complete", "single"} & set(between)))
        if (word == "at" and between[-1:] == ["last"]) or (word == "after" and anew):
            # "After one last verse the chorus is sung twice", "after a full A you take the breather".
            return None
        if word in ("after", "following", "behind") and not (pronoun and len(between) == 1):
            if number is not None and number > 1 + sum(item.part == part for item in play.items):
                # "The tag comes after the seventh B": of none that was told.
                return -1
            return last if last is not None else (play.nth(part, None) if final else None)
        if number is not None and self._comes_next(part, number):
            return None
        if word == "from" and last is not None and last == len(play.items) - 1:
            # "From the chorus we slip straight into another verse".
            return last
        if word == "before" and number is not None and last is None:
            # "The tag fills the gap before the fourth verse", of which three were danced.
            return None
        if word in _SPOKEN_OF and not self._around.takes(lead):
            return -1 if last is None else last
        if play.listed and self._first and self.is_remark():
            return last if last is not None else -1
        if "this" in between and last is not None:
            return last
        if number is not None and last is not None:
            return last
        ends = final and last is not None and (last == len(play.items) - 1 or play.listed)
        return last if ends else None

    def _comes_next(self, part: int, number: int) -> bool:
        """Whether a part is the next of its kind: "it is cut off there, so you face 6:00 when the second B begins"."""
        told = sum(item.part == part for item in self._play.items)
        named = rf"(?:the |our )?#{number} @{part}"
        begins = rf"\b(?:when|before|until|for) {named}(?: (?:begins|starts|comes|follows)\b| [,.;]|$)"
        opens = rf"^(?:and )?of {named} (?:you|we|all|they|only|just|dance)\b"
        comes = re.search(f"{begins}|{opens}", self._t.text)
        return not self._play.listed and number == told + 1 > 1 and comes is not None

    def extra_comes(self, lead: int) -> bool:
        """Whether something else comes after what is named next: "after that B comes the tag", "... a single A"."""
        ahead = self._t.of(lead + 1, len(self._s))
        if _EXTRA_COMES.match(ahead):
            return True
        part = _PART_COMES.match(ahead)
        last = self._play.items[-1].part if self._play.items else -1
        return part is not None and int(part[1]) == last

    def is_remark(self) -> bool:
        """Whether the sentence is no list that goes on."""
        return not _GOES_ON.match(self._t.text)
