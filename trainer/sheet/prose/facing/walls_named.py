"""Words that state a facing, token by token: hours of the clock, walls of the room, and the clauses they stand in.

An hour with "o'clock" and a wall by its full name ("the back wall", "right-hand wall") are always facings. A bare "9",
"nine", "front" or "back" is one only after a word of looking ("facing 9", "fc 6"), or where a clause tells that one
has arrived and ends with it ("now you're at the back", "which brings you to 3", "so it is the back you see").
"""

from collections.abc import Sequence
from fractions import Fraction

from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

HOURS = {"12": Fraction(0), "3": Fraction(1, 4), "6": Fraction(1, 2), "9": Fraction(3, 4)}
_HOUR_WORDS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip
_QUARTER_WORDS = {"twelve", "three", "six", "nine"}
OCLOCK = {"o'clock", "oclock", "o'clk", "o'cl", "o'c", "clock", "oclk", "o'clcok"}
LOOKS = {
    "face", "faces", "facing", "facing:", "see", "sees", "seeing", "looking", "look", "looks", "lookin", "facin",
    "towards", "toward", "front", "now", "fc", "fcg", "fcing", "faced",
}  # fmt: skip
WALLS = {
    "back": Fraction(1, 2), "rear": Fraction(1, 2), "front": Fraction(0), "home": Fraction(0), "start": Fraction(0),
    "starting": Fraction(0), "opposite": Fraction(1, 2),
}  # fmt: skip
SIDES = {"right": Fraction(1, 4), "left": Fraction(3, 4)}
_LETTERS = {"r": SIDES["right"], "l": SIDES["left"]}
"""Short for a side where it is that of a wall that one looks at: "fcg L wall"."""
GLUE = {"the", "to", "at", "at:", "now", "your", "on", "our", "you", "are", "is"}
_TURNS = {"quarter", "half", "1/4", "1/2", "3/4", "pivot", "unwind", "turn"}
_TURN_GOES_ON = {
    "left", "right", "l", "r", "onto", "on", "to", "turn", "your", "the", "foot", "weight", "with", "round", "around",
}  # fmt: skip
"""Words between the amount of a turn and the wall that it comes to."""
_LENGTHS = {"counts", "count", "steps", "beats", "times", "eights", "walls", "more"}
_ROOM = {"hall", "room", "stage", "floor", "church", "studio", "house", "building"}
_LED = {
    "the", "at", "on", "to", "facing", "in", "now", "again", "still", "up", "round", "around", "back", "your", "home",
}  # fmt: skip
"""Words between the verb of a clause and the wall that it comes to."""
_ARE = {"you're", "youre", "ur", "we're", "were", "that's", "thats", "it's", "here's", "you'll"}
_BEING = {"is", "are", "be", "am"}
_BEINGS = {"you", "we", "this", "that", "which", "it", "here", "u", "should", "will", "now"}
_LATER = {"will", "you'll", "should", "ll"}
_ARRIVES = {
    "end", "ends", "ending", "finish", "finishes", "finishing", "arrive", "arrives", "arriving", "ended", "come",
    "comes", "coming", "land", "landing", "lands", "stand", "standing",
}  # fmt: skip
_CARRIES = (
    "bring", "put", "turn", "tak", "leav", "swing", "land", "send", "get", "carr", "has", "have", "pull", "spin",
    "show", "giv",
)  # fmt: skip
_GETS = {"get", "gets", "got", "getting"}
_REACHES = {"reach", "reaches", "reached", "reaching"}
_CARRIED = {"you", "us", "ya", "u"}
_ENDS = {"now", "again", "and", "n", "so", "wall", "then", "once", "for", "with", "before", "when"}
_STOPS = {".", ",", ";", ":", "!", "?", ")", "]", "}", "-", BREAK, "(", '"'}


def named_at(tokens: Sequence[Token], at: int) -> tuple[int, Fraction | None]:
    """Return how many tokens from `at` on state a facing, and which; brackets aside."""
    by_clock = _clock_at(tokens, at)
    return by_clock if by_clock[1] is not None else _wall_at(tokens, at)


def hour(token: Token) -> Fraction | None:
    """Return the facing of an hour in digits or in letters."""
    number = int(token.text) if token.kind == "number" and len(token.text) < 3 else _HOUR_WORDS.get(token.low, 0)
    return Fraction(number % 12, 12) if 1 <= number <= 12 else None


def _clock_at(tokens: Sequence[Token], at: int) -> tuple[int, Fraction | None]:
    """A clock time, an hour with o'clock, or an hour after a word of looking or arriving."""
    token = tokens[at]
    if token.kind == "clock":
        return 2 if _word(tokens, at + 1) in OCLOCK else 1, token.value
    if token.low == "half" and _word(tokens, at + 1) == "past" and at + 2 < len(tokens):
        full = hour(tokens[at + 2])
        return (0, None) if full is None else (3 + (_word(tokens, at + 3) in OCLOCK), full + Fraction(1, 24))
    told = hour(token)
    if told is None:
        return 0, None
    length = _oclock(tokens, at + 1)
    if length:
        return 1 + length + (_word(tokens, at + 1 + length) == "wall"), told
    bare = token.text in HOURS if token.kind == "number" else token.low in _QUARTER_WORDS
    if not bare or _word(tokens, at + 1) in _LENGTHS:
        return 0, None
    if _looking(tokens, at) and (token.kind == "number" or _ends(tokens, at + 1)):
        return 1, told
    if _ends(tokens, at + 1) and _arrives(tokens, at) and _word(tokens, at - 1) in ("at", "to", "facing"):
        return 1, told
    return (1, told) if _got_to(tokens, at) else (0, None)


def _got_to(tokens: Sequence[Token], at: int) -> bool:
    """Whether an hour ends a bracket on where one has come: "(you get to 3)"; without it 6 may be a count."""
    said = [token.low for token in tokens[max(at - 3, 0) : at]]
    verb = said[-1:] if said[-1:] and said[-1] in _REACHES else said[-2:-1] if said[-1:] == ["to"] else []
    return bool(verb) and verb[0] in _REACHES | _GETS and _word(tokens, at + 1) in (")", "]")


def _oclock(tokens: Sequence[Token], at: int) -> int:
    """Return how many tokens from `at` on are "o'clock", however it is written."""
    low = [_word(tokens, at + ahead) for ahead in range(4)]
    if low[0] in OCLOCK:
        return 1
    if low[0] == "o":
        if low[1] in ("clock", "'clock", "c"):
            return 2
        if low[1] in ("/", "'", ".") and low[2] in ("clock", "c", "clk"):
            return 3
    return int(low[0] == "oc")


def _wall_at(tokens: Sequence[Token], at: int) -> tuple[int, Fraction | None]:
    """A wall of the room: "the back wall", "-> front", "left-hand wall", "the back of the hall"."""
    low, following = tokens[at].low, [_word(tokens, at + ahead) for ahead in (1, 2, 3)]
    arrow = ">" in [token.text for token in tokens[max(at - 1, 0) : at]] or (
        at > 1 and tokens[at - 1].low == "the" and tokens[at - 2].text == ">"
    )
    if arrow and low in (*WALLS, *SIDES) and at + 1 == len(tokens):
        return 1, {**WALLS, **SIDES}[low]
    if low in SIDES:
        length = _side_wall(tokens, at)
        return (length, SIDES[low]) if length else (0, None)
    if low in _LETTERS and _looking(tokens, at):
        length = _side_wall(tokens, at)
        return (length, _LETTERS[low]) if length else (0, None)
    if low == "to" and _turned_to(tokens, at):
        return 3, WALLS[following[1]]
    if low not in WALLS:
        return 0, None
    if following[0] == "wall":
        # "You start wall 3 at six."
        numbered = low == "start" and at + 2 < len(tokens) and tokens[at + 2].kind == "number"
        return (0, None) if numbered else (2, WALLS[low])
    looking = _looking(tokens, at)
    if following[0] == "of":
        inside = following[2] in _ROOM and (looking or _arrives(tokens, at))
        return (4, WALLS[low]) if inside else (0, None)
    if low in {"start", "starting", "opposite"}:
        return 0, None
    if looking or _seen(following) or (_ends(tokens, at + 1) and _arrives(tokens, at) and _placed(tokens, at)):
        return 1, WALLS[low]
    return 0, None


def _turned_to(tokens: Sequence[Token], at: int) -> bool:
    """Whether a clause ends from here on with the wall its turn comes to: "pivot 1/4 left onto L to the front"."""
    if _word(tokens, at + 1) != "the" or _word(tokens, at + 2) not in ("front", "back"):
        return False
    low = at - 1
    while low >= 0 and tokens[low].low in _TURN_GOES_ON:
        low -= 1
    turned = low >= 0 and (tokens[low].kind == "fraction" or tokens[low].low in _TURNS)
    return turned and _ends(tokens, at + 3)


def _side_wall(tokens: Sequence[Token], at: int) -> int:
    """Return the length of "left-hand wall", "left hand side wall", "left wall", "left side of the hall"."""
    end = at + 1
    hand = False
    while _word(tokens, end) in ("-", "hand", "side") and end < at + 5:
        hand = hand or tokens[end].low in ("hand", "side")
        end += 1
    if _word(tokens, end) == "wall":
        numbered = end + 1 < len(tokens) and tokens[end + 1].kind == "number"
        return 0 if numbered and not hand else end + 1 - at
    room = _word(tokens, end) == "of" and _word(tokens, end + 2) in _ROOM
    return end + 3 - at if room and _looking(tokens, at) else 0


def _seen(following: Sequence[str]) -> bool:
    """Whether "you see" follows a wall: "it is the back you see", "the front that you face"."""
    words = [word for word in following if word not in ("that", "which", "are", "now")]
    return words[:1] in (["you"], ["we"]) and words[1:2] in (["see"], ["face"], ["look"], ["facing"], ["looking"])


def _placed(tokens: Sequence[Token], at: int) -> bool:
    """Whether an article, or a word of place for home, stands before a wall: "at the back", "you're home"."""
    before = _word(tokens, at - 1)
    if before in ("comes", "come", "goes", "go", "brings", "bring") and {"foot", "feet"} & {
        token.low for token in tokens[max(at - 4, 0) : at]
    }:
        # "The foot that comes home" is put beside the other one.
        return False
    return before in ("the", "facing") or (tokens[at].low in ("home", "front") and before not in ("to", "in"))


def _arrives(tokens: Sequence[Token], at: int) -> bool:
    """Whether the clause before a wall or an hour tells that one is there, or comes there."""
    low = at - 1
    now = False
    while low >= 0 and tokens[low].low in _LED:
        now = now or tokens[low].low == "now"
        low -= 1
    if low < 0:
        return now
    word, before = tokens[low].low, _word(tokens, low - 1)
    if before in _LATER and word == "be" and _word(tokens, at) == "home":
        # "Do it all again and you will be home": told of another time.
        return False
    if word in _ARE or word in _ARRIVES or (word in _BEING and before in _BEINGS):
        return True
    if word in _CARRIED and before.startswith(_CARRIES):
        return True
    return now and (tokens[low].text in _STOPS or word in ("and", "are", "you", "n", "so"))


def _ends(tokens: Sequence[Token], at: int) -> bool:
    """Whether a clause ends before a token."""
    return at >= len(tokens) or tokens[at].text in _STOPS or tokens[at].low in _ENDS


def _looking(tokens: Sequence[Token], at: int) -> bool:
    """Whether a word of looking stands just before, glue words aside."""
    low = at - 1
    while low >= 0 and (tokens[low].low in GLUE or tokens[low].text in ":="):
        low -= 1
    return low >= 0 and tokens[low].low in LOOKS - {"front", "now"}


def _word(tokens: Sequence[Token], at: int) -> str:
    return tokens[at].low if 0 <= at < len(tokens) else ""
