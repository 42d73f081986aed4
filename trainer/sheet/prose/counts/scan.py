"""Reads one count mark from a token on: numbers, ranges and sub-beats, as far as they go on as counts do."""

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from trainer.sheet.prose.counts.half_rows import after_half, is_and_a, is_last_half, opens_its_row
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

HIGHEST = 160
"""No sheet counts on further."""
_FIGURES = 3
"""Figures that no count has."""
_MOST_TOGETHER = 8
"""Counts in one number: 12345678."""
_WIDE = 2
"""Columns from a numeral of one figure to a word that more than one blank parts from it."""
_CLOSE_COUNTS = frozenset({"-", ":", ")", ">", "=", "."})
"""Marks that part counts from the words behind them."""


_QUARTERS = {"&": "&", "and": "&", "a": "a"}
_ORDER = ("e", "&", "a")
_LAST = (6, 8)
"""Last counts of a section, after which a 1 is the first of the next one."""


class Place(NamedTuple):
    """A count as written: its number and "", "e", "&" or "a"; number None where an & stands alone."""

    number: int | None
    sub: str


NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10,
    "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
}  # fmt: skip
NOT_AFTER = {
    "count", "counts", "ct", "cts", "c", "wall", "walls", "w", "x", "times", "bars", "bar", "more", "o'clock",
    "oclock", "st",
    "nd", "rd", "th", "h", "beats", "beat", "bpm", "sections", "eights", "hip", "heel", "easy", "direction",
    "directions", "way",
    "eighths", "quarters", "time", "claps", "steps", "walks", "runs", "parts", "tags", "restarts", "restart",
    "tag", "bridge",
    "bounces", "bumps", "no", "number", "minutes", "weeks", "people", "or", "°", "º", "deg", "degree", "degrees",
}  # fmt: skip


def is_numbered(token: Token) -> bool:
    """Whether a token is what a number before it numbers: "5 counts"; a free H in capitals is a hold, and no hour."""
    return token.low in NOT_AFTER and not (token.text == "H" and not token.glued)


def count_told(token: Token) -> int | None:
    """Return the number that a token tells, in one or two figures or in a word; None where it tells none."""
    if token.kind == "number":
        return int(token.text) if len(token.text) < _FIGURES else None
    return NUMBERS.get(token.low) if token.kind == "word" else None


def run_together(token: Token, least: int) -> bool:
    """Whether a number is so many counts or more, written without blanks: 1234, 56."""
    digits = token.text
    rises = token.kind == "number" and least <= len(digits) <= _MOST_TOGETHER and "0" not in digits
    return rises and all(int(b) - int(a) == 1 for a, b in pairwise(digits))


class Scan:
    """Reads numbers, ranges and sub-beats from a token on, as far as they go on as counts do."""

    def __init__(self, line: Sequence[Token], at: int, *, in_bracket: bool, pairs: bool = False) -> None:
        self.line = line
        self.at = at
        self.opens_a_row = at == 0
        """Whether it begins with the line's first token."""
        self.in_bracket = in_bracket
        self.pairs = pairs
        self.places: list[Place] = []
        self.other: list[Place] = []
        self.spread = False
        self.spelled = False
        self.spoken = False
        """Whether an "and" leads to its first number."""

    def run(self) -> None:
        """Fill `places`; `at` is left after the last token taken."""
        if self._leading():
            return
        number = self._number(self.at)
        if number is None:
            return
        self._take_number(number)
        while self._more():
            pass
        if self.spoken:
            self.other = (self.other or self.places)[1:]

    def _token(self, at: int) -> Token | None:
        return self.line[at] if at < len(self.line) else None

    def _number(self, at: int, after: int = 0) -> int | None:
        """Return the number at a token, of counts run together the first; `after` is the count that it follows."""
        token = self._token(at)
        if token is None:
            return None
        if run_together(token, self._least(token, after)):
            return int(token.text[0])
        if token.kind == "number" and len(token.text) <= 3 and (token.text[0] != "0" or self._is_filled_up(at)):
            return int(token.text)
        if token.kind == "word" and token.low in NUMBERS:
            return NUMBERS[token.low]
        return None

    def _is_filled_up(self, at: int) -> bool:
        """Whether a number has a nought before it so that all are as wide: "01-04" at a line's start, "05&06"."""
        token, before = self.line[at], self._token(at - 1) if at else None
        joined = before is None or before.text in ("-", "&", "(", "[", BREAK) or before.low in ("to", "counts", "cts")
        return len(token.text) == 2 and token.text != "00" and joined

    def _least(self, token: Token, after: int) -> int:
        """How many digits are counts run together: any after "2&", where 34 can be nothing else."""
        goes_on = after and token.text[0] == str(after + 1)
        faces = not self.places and self.at and self.line[self.at - 1].low in ("to", "at", "facing")
        return 2 if (self.pairs and not faces) or goes_on else 4

    def _take_number(self, number: int) -> None:
        token = self.line[self.at]
        self.spelled = self.spelled or token.kind == "word"
        self.at += 1
        if run_together(token, 3) or (len(token.text) == 2 and token.text[0] == str(number) and run_together(token, 2)):
            self.places += [Place(int(digit), "") for digit in token.text]
            return
        self.places.append(Place(number, ""))

    def _quarters(self) -> bool:
        """Take "e & a" before a number, parts of the beat before it: "e & a 8", "e&a8"; False where it is none."""
        subs = ["e"]
        at = self.at + 1
        while (token := self._token(at)) is not None and _QUARTERS.get(token.low, "") not in ("", *subs):
            subs.append(_QUARTERS[token.low])
            at += 1
        number = self._number(at)
        if len(subs) == 1 or subs != sorted(subs, key=_ORDER.index) or number is None or not 1 < number <= HIGHEST:
            return False
        self.places += [Place(number - 1, sub) for sub in subs]
        self.at = at
        return True

    def _leading(self) -> bool:
        """Take a leading & or a, or all from a leading e on; True when it stands alone."""
        token = self._token(self.at)
        if token is not None and token.text == "e" and self._quarters():
            return False
        celled = token is not None and token.text in ("a", "e") and self._is_a_cell(self.at)
        # "And - right foot home" over "Two - left heel forward".
        dash = self._token(self.at + 1)
        opens = not self.at and token is not None and token.low == "and"
        rowed = (opens and opens_its_row(self.line, self._number)) or self._fills_its_cell()
        bracketed = token is not None and token.text in ("and", "a") and self.in_bracket
        signed = token is not None and token.text == "+" and self._opens_a_count(dash)
        if token is None or not (celled or rowed or bracketed or signed or token.kind == "amp"):
            return False
        sub = token.low if token.low in ("a", "e") else "&"
        # "& a" on a line of its own, "&a3": both halves of the beat before.
        both = (
            sub == "&" and dash is not None and dash.low == "a" and is_last_half(self.line, self.at, self._number, None)
        )
        both = both or (rowed and is_and_a(self.line, 0, self._number, None))
        subs, self.at = (("&", "a"), self.at + 1) if both else ((sub,), self.at)
        if rowed and opens and not both:
            self.at = after_half(self.line, self.at) - 1
        after = self._number(self.at + 1)
        if after is not None and after <= HIGHEST and not (both and self._is_text_after(self.at + 1)):
            self.places += [Place(after - 1, half) for half in subs]
            self.at += 1
            self.spoken = rowed and not both
            return False
        nxt = self._token(self.at + 1)
        alone = nxt is None or nxt.text in (")", "]", "}", BREAK, ":", "-", ".")
        before = self._token(self.at - len(subs)) if self.at >= len(subs) else None
        # "Right heel forward 5, step it home &, left heel forward 6".
        closed = nxt is not None and nxt.text in (",", ";") and before is not None and before.kind == "word"
        if alone or closed or before is None or before.text in (BREAK, ">", "•"):
            self.places += [Place(None, half) for half in subs]
            self.at += 1
        return True

    def _fills_its_cell(self) -> bool:
        """Whether an "and" and a number after it fill a cell behind others: "right side, left heel ..... and three"."""
        before, token, after = (
            self._token(self.at - 1) if self.at else None,
            self._token(self.at),
            self._token(self.at + 2),
        )
        celled = before is not None and before.text == BREAK and (after is None or after.text == BREAK)
        return celled and token is not None and token.low == "and" and self._number(self.at + 1) is not None

    def _opens_a_count(self, after: Token | None) -> bool:
        """Whether a plus is the half beat before the number that is written on to it: "+3", "+34" at an edge."""
        before = self._token(self.at - 1) if self.at else None
        edge = before is None or before.text in (BREAK, "(", "[")
        return edge and after is not None and after.kind == "number" and after.glued

    def _is_a_cell(self, at: int) -> bool:
        """Whether a token stands in the first cell of its line, alone or before a number: "a 5    Run", "a 5 - run"."""
        after, words = self._token(at + 1), self._token(at + 2)
        if at or after is None:
            return False
        wide = words is not None and words.column > after.column + len(after.text) + 1
        closed = words is not None and words.text in _CLOSE_COUNTS
        return after.text == BREAK or (after.kind == "number" and (wide or closed))

    def _more(self) -> bool:
        """Take one more element; False when the run of counts has ended."""
        last = self.places[-1].number
        if last is not None and self._hyphened(last):
            return True
        token = self._token(self.at)
        if token is None or last is None:
            return False
        if token.text == "/" and (half := self._parted_half()):
            self.places.append(Place(last, half))
            self.at += 2
            return True
        if token.text in ("-", "/") or token.low in ("to", "through", "thru"):
            return self._range(last)
        apart = token.text in (",", ";") or (token.text in (".", "•") and not self.spelled and not token.glued)
        if apart and self._number(self.at + 1) == last + 1 and not self._is_text_after(self.at + 1):
            self.at += 1
            self._take_number(last + 1)
            return True
        if token.text == "," and self._listed(last):
            return True
        if token.kind == "amp" or token.low in ("and", "n") or (token.text == "+" and token.glued):
            return self._and(last, token)
        if token.low in ("a", "e") and self._is_sub(token):
            self.places.append(Place(last, token.low))
            self.at += 1
            self._over(last)
            return True
        if self._number(self.at) == last + 1 and (token.kind == "number" or self.spelled):
            self._take_number(last + 1)
            return True
        return False

    def _listed(self, last: int) -> bool:
        """Take ", and, eight" or ", and eight" after a seven: an & of its own, or only the end of a list."""
        half = self._token(self.at + 1)
        if half is None or not (half.low == "and" or half.kind == "amp"):
            return False
        comma = self._token(self.at + 2)
        if self.in_bracket:
            # "(1, 2, &)": the last of its counts.
            closes = half.kind == "amp" and comma is not None and comma.text in (")", "]", "}")
            self.places += [Place(last, "&")] * closes
            self.at += 2 * closes
            return closes
        ahead = 3 if comma is not None and comma.text == "," else 2
        if (ahead == 2 and len(self.places) < 2) or self._hyphened_half(self.at + ahead + 1):
            return False
        if self._number(self.at + ahead) != last + 1 or self._is_text_after(self.at + ahead):
            return False
        if half.kind != "amp":
            self.other = [*(self.other or self.places), Place(last + 1, "")]
        self.places.append(Place(last, "&"))
        self.at += ahead
        self._take_number(last + 1)
        return True

    def _hyphened(self, last: int) -> bool:
        """Take "-and-five" after a four, "-and" or "-a" alone, and "-and-one" after the last count of a section."""
        at, halves = self.at, ""
        while len(halves) < 2 and (half := self._hyphened_half(at)):
            halves, at = halves + half, at + 2
        if halves not in ("&", "a", "&a"):
            return False
        dash = self._token(at)
        goes_on = dash is not None and dash.text == "-" and dash.glued
        after = self._number(at + 1) if goes_on else None
        over = after == 1 and last in (6, 8)
        if goes_on and after != last + 1 and not over:
            return False
        self.places += [Place(last, half) for half in halves]
        self.at = at
        if goes_on:
            self.places.append(Place(last + 1, ""))
            self.at += 2
        return True

    def _hyphened_half(self, at: int) -> str:
        """Return the half beat that a glued hyphen leads to: -and, -a, -&."""
        dash, half = self._token(at), self._token(at + 1)
        tied = dash is not None and half is not None and dash.text == "-" and dash.glued and half.glued
        return {"and": "&", "&": "&", "a": "a"}.get(half.low, "") if tied and half is not None else ""

    def _parted_half(self) -> str:
        """Return the half beat that a stroke parts from its count: "2/a", "3/&/4", "(6 / a)"."""
        half, after = self._token(self.at + 1), self._token(self.at + 2)
        sub = {"&": "&", "and": "&", "a": "a", "e": "e"}.get(half.low, "") if half is not None else ""
        if not sub or half is None or self.places[-1].sub >= sub:
            return ""
        ends = after is None or after.kind == "mark" or after.column > half.column + 2
        tied = self.line[self.at].glued and half.glued and (after is None or not after.glued)
        return sub if tied or (ends and self.in_bracket) else ""

    def _range(self, last: int) -> bool:
        upto = self._number(self.at + 1)
        if upto is None or upto <= last or upto > HIGHEST:
            return False
        if (
            self.line[self.at].low in ("through", "thru", "to")
            and not self.in_bracket
            and not self.spelled
            and upto - last > 7
        ):
            return False
        self.spread = self.spread or upto - last > 1 or not self.places[:-1]
        self.at += 1
        self.spelled = self.spelled or self.line[self.at].kind == "word"
        self.places += [Place(number, "") for number in range(last + 1, upto + 1)]
        self.at += 1
        return True

    def _and(self, last: int, token: Token) -> bool:
        following = self._number(self.at + 1, last)
        nxt = self._token(self.at + 1)
        if following == last + 1:
            if token.low in ("and", "n"):
                self.other = [*self.places, Place(following, "")]
            self.places.append(Place(last, "&"))
            self.at += 1
            self._take_number(following)
            return True
        if token.low in ("and", "n"):
            if not is_and_a(self.line, self.at, self._number, last):
                return False
            self.places += [Place(last, "&"), Place(last, "a")]
            self.at += 2
            return True
        if token.kind == "amp" or token.text == "+":
            if nxt is not None and nxt.text == "a" and is_last_half(self.line, self.at, self._number, last):
                self.places += [Place(last, "&"), Place(last, "a")]
                self.at += 2
                self._over(last)
                return True
            if token.kind != "amp" and not (token.glued and not (nxt is not None and nxt.glued)):
                return False
            self.places.append(Place(last, "&"))
            self.at += 1
            self._over(last)
            return True
        return False

    def _over(self, last: int) -> None:
        """Take the 1 of 8&1, the first count of the next section; it is kept as 9, in a waltz as 7, of 4&1 as 5."""
        if last not in (4, *_LAST):
            return
        token = self._token(self.at)
        over = token is not None and token.text == "1" and (token.glued or (self.in_bracket and last in _LAST))
        taken = 1 if over or self._ends_its_cell() else self._bracketed_one()
        if taken:
            self.places.append(Place(last + 1, ""))
            self.at += taken

    def _ends_its_cell(self) -> bool:
        """Whether a 1 closes the counts that open a row, blanks between them: "8 & 1   step forward", "8 & 1: step"."""
        token, after = self._token(self.at), self._token(self.at + 1)
        if not self.opens_a_row or token is None or token.text != "1" or after is None:
            return False
        return after.text in (BREAK, ":") or (after.kind == "word" and after.column > token.column + _WIDE)

    def _bracketed_one(self) -> int:
        """Return the length of a 1 in brackets behind the counts that open a row, "8&(1)"; 0 where there is none."""
        ahead = [token.text for token in self.line[self.at : self.at + 3]]
        return 3 if self.opens_a_row and ahead in (["(", "1", ")"], ["[", "1", "]"]) else 0

    def _is_sub(self, token: Token) -> bool:
        nxt = self._token(self.at + 1)
        if token.glued and (nxt is None or not nxt.glued or nxt.kind != "word"):
            return True
        if token.low == "e" or (nxt is None and self._is_led_by_on()):
            # "On 7 a" at the margin, "quarter left" below it: an article.
            return False
        return (
            nxt is None
            or nxt.text in (BREAK, ":", ")", "]", "}", "&")
            or (nxt.kind == "number" and int(nxt.text) == (self.places[-1].number or 0) + 1)
        )

    def _is_led_by_on(self) -> bool:
        """Whether "on" stands before the one number taken."""
        return len(self.places) == 1 and self.at > 1 and self.line[self.at - 2].low == "on"

    def _is_text_after(self, at: int) -> bool:
        """Whether the number at `at` is a number of things: "5, 6 counts"."""
        nxt = self._token(at + 1)
        return nxt is not None and is_numbered(nxt)
