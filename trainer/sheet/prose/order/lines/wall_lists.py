"""Walls listed in a sentence: the facings they begin with, their lengths: "W go 12, 9, 6, 3"."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from trainer.sheet.prose.lexis.sentences import abbreviates
from trainer.sheet.prose.order.grammar.atoms import Sentence
from trainer.sheet.prose.order.lines.rows import HOURS, WALL_WORDS, facing_of
from trainer.sheet.prose.words import Token

_SEPARATORS = {",", "-", "/", ">", "&", "and", "|", "then", ";", "="}
_NEXT = {"next", "new", "following"}


_HOURS_IN_WORDS = {
    "twelve": Fraction(0), "three": Fraction(1, 4), "six": Fraction(1, 2), "nine": Fraction(3, 4),
}  # fmt: skip
"""In a list after a word for walls: "the walls come in the order twelve, nine, six, three"."""


_LISTING = {"order", "come", "comes", "go", "goes", "begin", "begins", "start", "starts", "run", "face", "are"}
"""Words that lead to the hours of all walls."""
_VERB = 4


def starts_list(tokens: Sequence[Token]) -> tuple[list[Fraction], int]:
    """Return the facings that the walls begin with where a sentence lists them, and the index after the list."""
    if _names_the_room(tokens):
        return [], 0
    for at, token in enumerate(tokens):
        if token.low in WALL_WORDS:
            past = _past_range(tokens, at)
            if past == at + 1 and _numbered(tokens, at):
                continue
            listed = any(one.low in _LISTING for one in tokens[past : past + _VERB])
            found, last = _facings_from(tokens, past, words=listed)
            if 0 < len(found) < 3:
                # "New wall is on your left so 12, 9, 6, 3".
                found, last = _facings_from(tokens, last, words=listed)
            if len(found) >= 3 and found[0] != 0 and at and tokens[at - 1].low in _NEXT:
                # "The next wall starts at 9, then 6, then 3": after the first, which faces the front.
                found = [Fraction(0), *found]
            if len(found) >= 3 and found[0] == 0:
                return found, last
    return [], 0


def _names_the_room(tokens: Sequence[Token]) -> bool:
    """Whether the walls of the room are told by their hours: "Walls of the hall: front 12, right wall 3, back 6"."""
    if not any(token.low in _ROOMS for token in tokens[:_VERB]):
        return False
    said = [token for token in tokens if token.kind != "mark"]
    named = [token.low in _SIDES or token.low.endswith(" wall") for token in said]
    hours = [token.text in HOURS or (token.kind == "facing" and token.text[0].isdecimal()) for token in said]
    beside = [any(hours[max(at - 1, 0) : at + 2]) for at in range(len(said))]
    return sum(side and hour for side, hour in zip(named, beside, strict=True)) > _VERB // 2


_ROOMS = {"hall", "room", "studio", "clock", "floor", "church", "barn", "house", "key", "names", "called"}
_SIDES = {"front", "back", "right", "left", "home", "wall"}


def of_last_listed(tokens: Sequence[Token], last: int, number: int) -> tuple[Token, ...]:
    """Return what follows a list of facings; what stands in brackets is said of the last: "12, 3 (after 16 ...)"."""
    rest = tuple(tokens[last:])
    closed = next((at for at, token in enumerate(rest) if token.text in ")]"), 0)
    if not closed or rest[0].text not in "([" or closed < _SAYING:
        return rest
    first = tokens[last - 1]
    wall = replace(first, kind="word", text="wall", low="wall", value=None)
    return wall, replace(first, kind="number", text=str(number), low=str(number), value=None), *rest[1:closed]


_SAYING = 3
"""Tokens before its closing mark in a bracket that says something: "(16"."""


def _past_range(tokens: Sequence[Token], at: int) -> int:
    """Return the index after a word for walls, or after the range that follows it: "walls 1 to 7 begin at"."""
    words = [token.low for token in tokens[at + 1 : at + 4]]
    ranged = len(words) == 3 and words[0] == "1" and words[1] in ("to", "-", "through") and words[2].isdecimal()
    return at + 4 if ranged else at + 1


def _numbered(tokens: Sequence[Token], at: int) -> bool:
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    return after is not None and after.kind == "number" and after.text not in HOURS


def _numbers_the_next(tokens: Sequence[Token], at: int, number: int) -> bool:
    """Whether a number before a facing is that of its wall: "walls: 1 (12) 2 (9) 3 (6)"."""
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    return tokens[at].text == str(number) and after is not None and after.kind in ("facing", "clock")


def _facings_from(tokens: Sequence[Token], at: int, *, words: bool) -> tuple[list[Fraction], int]:
    found: list[Fraction] = []
    last = at
    while at < len(tokens):
        token = tokens[at]
        facing = _HOURS_IN_WORDS.get(token.low, facing_of(token)) if words else facing_of(token)
        if _numbers_the_next(tokens, at, len(found) + 1):
            last = at
        elif facing is not None:
            found.append(facing)
            last = at + 1
        elif (found and token.low not in _SEPARATORS and token.low not in ("o'clock", "wall", "the")) or (
            not found and at - last > 4
        ):
            break
        at += 1
    return found, last


@dataclass(frozen=True, slots=True)
class Lengths:
    """Counts danced in each wall, and the extras between them."""

    steps: tuple[tuple[int | None, str, int], ...]
    """Counts of a wall, or the letter of an extra's kind; and the index of the lexeme."""


_TURNS = re.compile(
    r"(?P<times>n-?t|k|n(?=aW))(?:U|@)?(?:aW?)?|(?P<all>a)[wW]?|(?P<extra>[TG])|u?(?P<half>h)I?a?|D?u?(?P<cnt>n)-?c|[,>&]|[DIR]|X"
)
"""Items of the walls told one after the other: so often, all, half, counts, what parts them."""


def turns_of(sentence: Sentence, whole: int) -> Lengths | None:
    """Return the lengths of walls told in the order danced: "full dance twice, then 16 counts, then start over"."""
    letters = sentence.letters.strip(".:")
    steps: list[tuple[int | None, str, int]] = []
    at, repeated, short, told = 0, False, False, False
    while at < len(letters):
        match = _TURNS.match(letters, at)
        if match is None:
            return None
        index = match.end() - 1
        if match["times"]:
            many = 2 if "k" in match["times"] else sentence.number(match.start())
            steps += [(whole, "", index)] * (min(many, 20) - 1 if told else min(many, 20))
            repeated, told = True, False
        elif match["extra"]:
            steps.append((None, match["extra"], index))
            short, told = True, False
        elif match["all"]:
            steps.append((whole, "", index))
            told = True
        elif match["half"] or match["cnt"]:
            counts = whole // 2 if match["half"] else sentence.number(match.start("cnt"))
            steps.append((counts, "", match.start("cnt") if match["cnt"] else index))
            short, told = True, False
        at = match.end()
    danced = set("aDRTG") & set(letters)
    return Lengths(tuple(steps)) if repeated and short and danced and steps[0][0] == whole else None


_WALLS_IN_TURN = re.compile(r"l?I?[wW]?:(?P<list>(?:[TG]|n(?:\(n-?c?\)|[=\-]?[ah])?|[,>&/\-.])+)$")


def _numbered_walls(sentence: Sentence, whole: int) -> Lengths | None:
    """Return the lengths of walls listed by their numbers: "order of walls: 1, 2, tag, 3 (16 counts), 4"."""
    match = _WALLS_IN_TURN.match(sentence.letters)
    if match is None:
        return None
    steps: list[tuple[int | None, str, int]] = []
    number = 0
    # "Walls: 1 whole, 2 whole, 3 half"
    for item in re.finditer(r"n\(n|n[=\-]?h|[TGn]", match["list"]):
        at = match.start("list") + item.start()
        if item[0] in "TG":
            steps.append((None, item[0], at))
        elif sentence.number(at) == (number := number + 1):
            half, told = item[0].endswith("h"), len(item[0]) > 1
            steps.append((whole // 2 if half else sentence.number(at + 2) if told else whole, "", at))
        else:
            return None
    return Lengths(tuple(steps)) if number >= 3 else None


def lengths_of(sentence: Sentence, whole: int) -> Lengths | None:
    """Return the lengths of walls where a sentence lists them: "Sequence: 32, 32, 16, 32", "full wall, 16, T"."""
    if (turns := turns_of(sentence, whole)) is not None:
        return turns
    if (numbered := _numbered_walls(sentence, whole)) is not None:
        return numbered
    # "32, 32, 16 (R), 32 (R = restart)" tells what its R means.
    letters = re.sub(r"\(?m\)?[=:]R[.)]*$", "", sentence.letters)
    head = next((at for at, letter in enumerate(letters) if letter in "lW" or letters[at : at + 2] == "w:"), None)
    labelled = head is not None and ":" in letters[head : head + 4]
    start = letters.index(":", head) + 1 if labelled else 0
    steps: list[tuple[int | None, str, int]] = []
    for at in range(start, len(letters)):
        lexeme = sentence.lexemes[at]
        if lexeme.kind in "nah":
            counts_of = {"n": lexeme.number, "a": whole, "h": whole // 2}
            steps.append((counts_of[lexeme.kind], "", at))
        elif lexeme.kind in "TG" or sentence.words(at, at + 1) == "T":
            steps.append((None, lexeme.kind if lexeme.kind == "G" else "T", at))
        elif lexeme.kind == "m" and sentence.words(at, at + 1) == "R" and steps and letters[at - 1] in "n(":
            continue
        elif lexeme.kind not in ",-/c&>)(R" and letters[at:].strip(".") != "X":
            return None
    counts = [count for count, _, _ in steps if count is not None]
    enough = len(counts) >= 3 if labelled else len(counts) >= 4 and counts.count(whole) >= 2
    fitting = [count for count in counts if 0 < count <= whole]
    if not enough or whole not in counts or len(fitting) < len(counts) - 1 or 0 in counts:
        return None
    return Lengths(tuple(steps))


def walls_listed(tokens: Sequence[Token]) -> tuple[list[tuple[Token, ...]], tuple[Token, ...]]:
    """Return a sentence for each wall where one lists them, and what follows the list.

    "Walls: 1 at 12, 2 at 6, 3 at 12 is block A only. The tag: ..."
    """
    heads = [at for at, token in enumerate(tokens[:4]) if token.low in WALL_WORDS]
    if not heads:
        return [], ()
    starts: list[int] = []
    for at in range(heads[0] + 1, len(tokens) - 1):
        listed = tokens[at].kind == "number" and tokens[at].text == str(len(starts) + 1)
        begins = listed and _hour_of(tokens, at) > at
        if begins and tokens[at - 1].text in (",", ":", ";", "walls", "wall", "."):
            starts.append(at)
    if len(starts) < 3:
        return [], ()
    found = []
    stop = next(
        (at for at in range(starts[-1], len(tokens)) if tokens[at].text == "." and not abbreviates(tokens, at)),
        len(tokens),
    )
    for at, end in zip(starts, [*starts[1:], stop], strict=True):
        place = _hour_of(tokens, at)
        number, hour = tokens[at], tokens[place]
        wall = replace(number, kind="word", text="wall", low="wall")
        begins_word = replace(tokens[at + 1], kind="word", text="starts", low="starts")
        facing = replace(hour, kind="facing", value=facing_of(hour))
        found.append((wall, number, begins_word, facing, *tokens[place + 1 : end]))
    return found, tuple(tokens[stop + 1 :])


def _hour_of(tokens: Sequence[Token], at: int) -> int:
    """Return where the facing stands that a wall of a list begins with; the wall's own index if there is none."""
    told = tokens[at + 1].low in ("at", "@", "from", "=", "starts", "begins", "faces", "(", "-", ":")
    hour = at + 1 + told
    plain = not told and tokens[hour].kind != "word" and tokens[hour].kind not in ("facing", "clock")
    return at if hour >= len(tokens) or plain or facing_of(tokens[hour]) is None else hour
