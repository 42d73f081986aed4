"""Tokens of a sentence about the order to lexemes: a letter for each word's kind, its number, and where it stands.

The letters together make a short text that `grammar.py` finds phrases in. Numbers in figures and words become `n`
(`o` where they say a place: 3rd, third), clocks and walls by direction `f`, names of parts `p`, of sections `q`.
"""

import re
from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.called import named_lexeme, spelled_parts, titled_lexeme
from trainer.sheet.prose.lexis.eights import eights_lexemes
from trainer.sheet.prose.lexis.ends import closes_all, finishes_so, to_close, wall_over
from trainer.sheet.prose.lexis.facings_told import facing_lexeme, hour_lexeme
from trainer.sheet.prose.lexis.going_back import back_to_the_first, back_to_the_steps, gone_back
from trainer.sheet.prose.lexis.lexeme import CLOSING, Lexeme, Names
from trainer.sheet.prose.lexis.numerals import (
    SIGNS,
    added_lexemes,
    bars_lexeme,
    bars_lexemes,
    eight_lexeme,
    half_lexeme,
    last_eight,
    number_at,
    number_lexeme,
    share_lexeme,
)
from trainer.sheet.prose.lexis.referring import bound_to, of_the_walls, there_are
from trainer.sheet.prose.lexis.rounds import round_lexeme
from trainer.sheet.prose.lexis.seeming import seeming
from trainer.sheet.prose.lexis.sentences import SHORT_FORMS, abbreviates
from trainer.sheet.prose.lexis.short_acts import short_act
from trainer.sheet.prose.lexis.spoken import spoken_lexeme
from trainer.sheet.prose.lexis.stems import past_of
from trainer.sheet.prose.lexis.times_through import times_through
from trainer.sheet.prose.lexis.vocabulary import FILLERS, LONGEST, NUMBERS, ORDINALS, PHRASES, ROMAN, STEP_WORDS
from trainer.sheet.prose.lexis.walls_over import wall_is_over
from trainer.sheet.prose.words import Token

_MARKS = {
    ",": ",", ":": ":", "-": "-", "/": "/", "(": "(", "[": "(", "{": "(", "<": "(", ")": ")", "]": ")", "}": ")",
    ">": ")", "*": "*", "=": "=", "|": "|", "+": "&", ";": ";", ".": ".", "!": ".", "?": ".", "•": ";", "#": "#",
    "~": "*", "_": "*",
}  # fmt: skip
_OPENERS = {"(", "[", "{", "<"}
_BEFORE_SECTIONS = "AEUBZJDIj&-,/>K:"
"""What stands before a section that is named."""
_IT_IS = {"it is", "it's", "that is", "that's", "it was"}
_BUT = {"from", "but", "except", "than", "only", "save"}
"""Before the sign of a number: "every time is 32 apart from number five"."""
_FINISHES = {"finish", "finishes", "finishing", "end", "ends", "ending"}
_LEAVING = {"leave", "leaves", "cut", "cuts", "take", "takes", "chop", "chops", "knock", "knocks", "miss", "lop"}
_COMING = {"come", "comes", "coming", "get", "gets", "turn", "turned", "came", "back", "way"}
_TELLING = {"there", "there's", "comes", "come", "add", "put", "insert"}
_PLACES = {"st", "nd", "rd", "th"}
_STANDING = {"stay", "stays", "stand", "remain", "wait"}
_BEGINNING = {"begins", "starts", "is", "began", "faces", "ends"}
_OVER = {"over", "done", "through", "complete", "completed", "finished"}


def lexemes(tokens: Sequence[Token], names: Names) -> tuple[Lexeme, ...]:
    """Return the lexemes of one sentence; words that change nothing are left out."""
    found: list[Lexeme] = []
    at = 0
    while at < len(tokens):
        if spelled := spelled_parts(tokens[at], names):
            found += [Lexeme("p", at, at + 1, text=part) for part in spelled]
            at += 1
            continue
        if _starting_wall(tokens, at):
            found += [Lexeme("y", at, at + 1)] * (found[-1:] == [] or found[-1].kind != "B")
            found.append(Lexeme("w", at, at + 1))
            at += 1
            continue
        if (wall := round_lexeme(tokens, at, found)) is not None:
            found.append(wall)
            at = wall.last
            continue
        if braced := _braced(tokens, at, names.braces) or _in_roman(tokens, at, found, names):
            found += braced
            at = braced[-1].last
            continue
        if often := times_through(tokens, at):
            found += often
            at = often[-1].last
            continue
        back = gone_back(tokens, at)
        back = back_to_the_steps(tokens, at, names.titles) if back == at and not names.parts else back
        before = found[-1].kind if found else ""
        back = back_to_the_first(tokens, at, names, before) if back == at and not names.parts else back
        if back > at:
            found.append(Lexeme("R", at, back))
            at = back
            continue
        if eights := (
            eights_lexemes(tokens, at, found) or bars_lexemes(tokens, at, names.bar) or added_lexemes(tokens, at)
        ):
            found += eights
            at = eights[-1].last
            continue
        lexeme = (
            bound_to(tokens, at)
            or wall_is_over(tokens, at, found)
            or short_act(tokens, at, found)
            or _done_before(tokens, at)
            or of_the_walls(tokens, at, found)
            or there_are(tokens, at, found)
            or spoken_lexeme(tokens, at, found)
            or to_close(tokens, at)
            or _comes_round(tokens, at)
            or named_lexeme(tokens, at, names, found)
            or titled_lexeme(tokens, at, names, found)
            or facing_lexeme(tokens, at)
            or hour_lexeme(tokens, at, found)
            or bars_lexeme(tokens, at, names.bar)
            or eight_lexeme(tokens, at)
            or last_eight(tokens, at, found)
            or share_lexeme(tokens, at)
            or half_lexeme(tokens, at)
            or number_lexeme(tokens, at, found)
            or _phrase(tokens, at, found)
        )
        if lexeme.kind in _EXTRAS and [token.low for token in tokens[max(at - 3, 0) : at]] in _SO_IS:
            # "The second at 12:00, and so is the tag" puts nothing in.
            lexeme = replace(lexeme, kind="?")
        at = lexeme.last
        if lexeme.kind:
            found.append(lexeme)
            if lexeme.kind == "E" and tokens[lexeme.first].low in _OVER:
                # "When the wall is over they stomp right": the steps are not what ends.
                found.append(Lexeme(",", at, at))
            _join_a_run(found)
    return tuple(one for place, one in enumerate(found) if not _only_puts_in(tokens, found, place))


_STANDS = {"goes", "comes", "sits", "fits", "belongs", "falls", "stands"}
_PUT = {"in", "added", "inserted"}


def _only_puts_in(tokens: Sequence[Token], found: Sequence[Lexeme], place: int) -> bool:
    """Whether a word only says that an extra is put in where the place after it says: "Tag slipped in after C"."""
    if not 0 < place < len(found) - 1 or found[place - 1].kind not in "TG" or found[place + 1].kind not in "AZB":
        return False
    last = tokens[found[place].last - 1].low
    return last in (_PUT if found[place].kind == ">" else _STANDS if found[place].kind == "?" else ())


def _join_a_run(found: list[Lexeme]) -> None:
    """Let numbers run together be a range from the first to the last of them: "4-5-6", "1-2-3-4", "sections 1 2 3"."""
    last = found[-2:]
    listed = re.search(r"s(?:n&)*nn$", "".join(one.kind for one in found))
    if listed and last[1].number == last[0].number + 1 and not last[0].suffix:
        found[-1:] = [Lexeme("&", last[1].first, last[1].first), last[1]]
        return
    kinds = "".join(one.kind for one in found[-5:])
    if kinds != "n-n-n":
        return
    numbers = [one.number for one in found[-5::2]]
    if numbers[1] in (numbers[0] + 1, numbers[2] - 1) and numbers[0] < numbers[1] and numbers[2] == numbers[1] + 1:
        # Of a run joined before, the second number is the last.
        found[-4:] = [Lexeme("-", found[-4].first, found[-2].last), found[-1]]


def _starting_wall(tokens: Sequence[Token], at: int) -> bool:
    """Whether "starting wall" was taken for the front although a number follows: "before starting wall 3"."""
    token = tokens[at]
    numbered = at + 1 < len(tokens) and tokens[at + 1].kind == "number"
    return token.kind == "facing" and token.low in ("start wall", "starting wall") and numbered


def _braced(tokens: Sequence[Token], at: int, brace: str) -> list[Lexeme]:
    """A section by its number as its heading has it: "straight after {2}"."""
    if not brace or tokens[at].text != brace or at + 2 >= len(tokens):
        return []
    number, closed = tokens[at + 1], tokens[at + 2]
    if number.kind != "number" or closed.text not in "}]>" or len(number.text) > 3:
        return []
    return [Lexeme("s", at, at + 1), Lexeme("n", at + 1, at + 3, int(number.text))]


def _in_roman(tokens: Sequence[Token], at: int, found: Sequence[Lexeme], names: Names) -> list[Lexeme]:
    """A section by its Roman number in brackets: "between (iii) and (iv)"."""
    if names.parts or tokens[at].text not in _OPENERS or at + 2 >= len(tokens):
        return []
    number, closed = tokens[at + 1], tokens[at + 2]
    placed = not found or found[-1].kind in _BEFORE_SECTIONS
    if not placed or number.low not in ROMAN or closed.text not in ")]}>":
        return []
    return [Lexeme("s", at, at + 1), Lexeme("n", at + 1, at + 3, ROMAN[number.low])]


def _phrase(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme:
    token = tokens[at]
    if (word := _little(tokens, at, found) or _stands_or_once(tokens, at)) is not None:
        return word
    words: list[str] = []
    ends: list[int] = []
    for index in range(at, min(at + 2 * LONGEST, len(tokens))):
        if tokens[index].low in FILLERS and index > at:
            continue
        words.append(tokens[index].low)
        ends.append(index + 1)
        if len(words) == LONGEST:
            break
    for length in range(len(words), 0, -1):
        kind = PHRASES.get(tuple(words[:length]))
        if kind == "u" and words[0].startswith("consist") and any(one.kind in "TGX" for one in found):
            # "The tag ... consists of four counts" is no share of a wall.
            kind = ""
        if kind == "a" and words[length - 1] == "end" and _ends_a_stretch(tokens, ends[length - 1]):
            # "It goes to the end of the second eight", but "dance to the end of it".
            if words[0].startswith("go"):
                return Lexeme("U", at, ends[length - 1] + 1)
            continue
        if kind is not None and _fits(kind, tokens, at, length):
            return Lexeme(kind, at, ends[length - 1])
    return Lexeme(_plain_kind(token, tokens, at, found), at, at + 1)


def _ends_a_stretch(tokens: Sequence[Token], at: int) -> bool:
    """Whether words after "to the end" say that no more than a stretch of the dance ends there."""
    lows = [token.low for token in tokens[at : at + 4] if token.low not in ("the", "our", "your")]
    return lows[:1] == ["of"] and len(lows) > 1 and lows[1] not in _WHOLES


_WHOLES = {"it", "dance", "wall", "routine", "everything", "that", "this", "sequence", "song", "music", "round"}


def _little(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> Lexeme | None:
    """A word that another reading of it must not hide: the sign of a number, a wall that is over."""
    token = tokens[at]
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.low == "as" and after is not None and after.low == "always":
        return Lexeme("J", at, at + 2)
    if token.low in SIGNS and after is not None and token.text != "#":
        beyond = at + 1 + (after.text == "." and after.glued)
        placed = token.low == "no" and beyond < len(tokens) and tokens[beyond].low in ORDINALS
        if not placed and beyond < len(tokens) and number_at(tokens, beyond)[1] > beyond:
            # "The last wall is number nine."
            last = "".join(one.kind for one in found[-3:]).endswith(("Lw", "Lw:", "Lt"))
            # "You asked about the odd wall. It is number four."
            last |= " ".join(one.low for one in tokens[:at]) in _IT_IS or (at > 0 and tokens[at - 1].low in _BUT)
            return Lexeme("w" if last else "", at, beyond)
    if kind := seeming(tokens, at, found):
        return Lexeme(kind, at, at + 1)
    if token.low in ("step", "steps") and _counts_steps(tokens, at, found):
        return Lexeme("c", at, at + 1)
    if token.low in ("through", "thru", "round") and [one.kind for one in found[-1:]] == ["t"]:
        # "After the fourth time through there are four beats": up to nothing.
        return Lexeme("", at, at + 1) if after is not None and after.low in _TELLING else None
    if token.low in _FINISHES and finishes_so(tokens, at):
        return Lexeme("?", at, at + 1)
    ends = at and token.low == "end" and tokens[at - 1].low in ("you", "we", "you'll", "we'll")
    if ends and after is not None and after.low in ("on", "in", "during", "with", "after"):
        return Lexeme("Q", at, at + 1)
    if token.low in ("off", "out") and _left_out(tokens, at):
        return Lexeme("K", at, at + 1)
    if (closed := closes_all(tokens, at)) > at:
        return Lexeme("Q", at, closed, text=CLOSING)
    over = wall_over(tokens, at, found)
    return Lexeme(over, at, at + 1) if over else None


def _stands_or_once(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """A hold told as staying there, and "once the rocks are done" for when they are."""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    if tokens[at].low in _STANDING and after in ("there", "here"):
        return Lexeme("H", at, at + 2)
    if tokens[at].low in ("like", "thus") and (after in ("this", "so") or tokens[at].low == "thus"):
        return Lexeme("b", at, at + 1)
    if tokens[at].low == "wall" and at == 1 and tokens[0].low in ("that", "this") and after in _BEGINNING:
        # "That wall begins at 12:00" is the one just told of.
        return Lexeme("", at, at + 1)
    opens = tokens[at].low == "once" and after in ("the", "your", "those", "these")
    return Lexeme("z", at, at + 1) if opens else None


def _done_before(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """What stands before a step that has been danced: "having stomped R, L", "when you have kicked L"."""
    lows = [token.low for token in tokens[at : at + 4]]
    if lows[0] == "having":
        step = 1
    elif lows[0] in ("when", "once", "after") and lows[2:3] in (["have"], ["had"]):
        step = 3
    elif lows[0] in ("when", "once") and lows[1:2] in (["you've"], ["we've"]):
        step = 2
    else:
        return None
    return Lexeme("A", at, at + step) if lows[step:] and _is_past_step(lows[step]) else None


def _comes_round(tokens: Sequence[Token], at: int) -> Lexeme | None:
    """A mere way, and no time through: "the first time you come round to the front"."""
    way = tokens[at].low in ("round", "around") and at > 0 and tokens[at - 1].low in _COMING
    return Lexeme("", at, at + 1) if way else None


def _is_past_step(word: str) -> bool:
    return bool(past_of(word) & STEP_WORDS)


def _left_out(tokens: Sequence[Token], at: int) -> bool:
    """Whether a verb that stands before what is left out ends here: "leave the last four counts off"."""
    for begin in range(at - 2, max(at - 8, -1), -1):
        between = [token.low for token in tokens[begin + 1 : at]]
        if any(token.kind == "mark" for token in tokens[begin + 1 : at]):
            return False
        if tokens[begin].low in _LEAVING:
            return "last" in between or "final" in between
    return False


_EXTRAS = ("T", "G", "X")
_SO_IS = (["so", "is", "the"], ["so", "are", "the"], ["as", "is", "the"], ["so", "does", "the"], ["like", "is", "the"])


def _counts_steps(tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> bool:
    """Whether a sheet calls its counts steps: "after step 32", "dance steps 1 to 24"."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if after is None or after.kind != "number" or after.glued:
        return False
    ranged = at + 3 < len(tokens) and tokens[at + 2].low in ("-", "to") and tokens[at + 3].kind == "number"
    return ranged or (bool(found) and found[-1].kind in "AEUBIDJ@")


_BEFORE_WALL = {"last", "final", "each", "every"}


def _plain_kind(token: Token, tokens: Sequence[Token], at: int, found: Sequence[Lexeme]) -> str:
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if token.low == "w" and after is not None and after.kind == "number":
        return "w"
    if token.text == "W" and at and tokens[at - 1].low in _BEFORE_WALL:
        # "W7 [9] = last W": the sheet's letter for a wall, no west.
        return "w"
    if token.low in FILLERS:
        return ""
    if (
        token.text == "R"
        and [one.kind for one in found[-3:]] == ["w", "n", "n"]
        and (not after or after.kind == "mark")
    ):
        # "W3 16 R" is shorthand for a restart, no right foot.
        return "R"
    past = found and found[-1].kind == "A" and found[-1].last == at and _is_past_step(token.low)
    if token.kind == "fraction" or token.low in STEP_WORDS or past:
        return "m"
    if token.kind == "amp":
        return "&"
    if token.text == "." and at and tokens[at - 1].low in SHORT_FORMS and abbreviates(tokens, at):
        return ""
    return _MARKS.get(token.text, "?")


def _is_many(token: Token) -> bool:
    """Whether a number tells of several: "first 2 lines"."""
    return (token.kind == "number" and token.text != "1") or NUMBERS.get(token.low, 0) > 1


def _fits(kind: str, tokens: Sequence[Token], at: int, length: int) -> bool:
    """Whether a short word means what it may mean: S and c only beside their number."""
    token = tokens[at]
    if token.low in ("row", "rows", "line", "lines"):
        # "Two Bs in a row" are no sections, nor is "line up".
        follows = any(one.kind == "number" or one.low in NUMBERS for one in tokens[at + 1 : at + 2])
        before = tokens[max(at - 1, 0) : at]
        return follows or any(one.low in ORDINALS or one.low in _PLACES or _is_many(one) for one in before)
    if kind == "@" and [one.low for one in tokens[at + 1 : at + 4]] == ["the", "point", "and"]:
        # "As far as the point and hold of figure 5" names a step.
        return not any(one.low in STEP_WORDS or one.low == "hold" for one in tokens[at + 4 : at + 5])
    if length > 1 or len(token.low) > 1:
        return True
    if kind == "c":
        after = tokens[at + 1] if at + 1 < len(tokens) else None
        numbered = after is not None and after.glued and after.kind == "number"
        return numbered or (token.glued and at > 0 and tokens[at - 1].kind == "number")
    if kind == "s":
        return at + 1 < len(tokens) and tokens[at + 1].kind == "number"
    return True
