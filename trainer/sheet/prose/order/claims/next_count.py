"""The count after a cut that is danced otherwise: "dance to count 15. On 16 leave out the clap and just kick right.".

What is told of it in a clause or sentence of its own is told as steps with their count: ", then kick right (16)".
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import NUMBERS, STEP_WORDS
from trainer.sheet.prose.words import Token

_ENDS = {".", ";", ",", "!", ":"}
_LEADS = {"then", "and", "but", "only", *_ENDS}
_COUNTS = {"count", "counts", "beat", "beats", "ct", "cts"}
_REACH = {"to", "count", "counts", "far", "as", "after", "first", "until", "till", "through", "including", "with"}
"""Words before the count up to which a wall is danced."""
_SECTIONS = {"section", "sec", "set", "block", "part", "eight", "figure", "phrase", "wall", "s"}
_LEFT_OUT = {"leave", "skip", "forget", "omit", "drop", "miss", "ignore", "lose", "instead", "rather"}
_PLAIN = {"just", "simply", "only", "do", "we", "you", "a", "please", "make", "it", "is", "there"}
_STEPS = (set(STEP_WORDS) | {"hold", "r", "l", "rf", "lf", "rt", "lt"}) - {"back", "over", "home", "out"}
_WALLS = {"wall", "walls", "round", "time", "w", "rotation"}
_HALTS = {"(", "[", ".", ";", ":"}
_OPENS = {"then", "instead", "now", "there", "here", "and"}
_PLACE = 6
"""Tokens from the count that is reached to the end of its sentence."""
_GOING_ON = {"restart", "restarts", "start", "begin", "go", "then", "off", "so", "before", "we", "you", "are"}
_THAT = {"that", "this", "the"}
_OF_THAT = 3
"""Tokens of "of that section"."""
_NEAR = 14
"""Tokens from the count that is reached to the one that is danced otherwise."""
_LONGEST = 9
"""Tokens of one step."""


def with_next_count(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a line of the order, the count after a cut told with its steps."""
    tokens = _next_one(tokens)
    for at, token in enumerate(tokens):
        if token.low == "on" and (told := _told(tokens, at)):
            return told
    return _with_steps_there(tokens)


def _with_steps_there(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return a line with the steps of the counts behind a cut, told in a sentence of their own, told of the cut.

    "Section 2 up to count 6. Stomp right (7), stomp left (8). Begin again."
    """
    for at, token in enumerate(tokens):
        if token.text not in (".", ";") or not any(one.low in _WALLS for one in tokens[:at]):
            continue
        reached = next((one for one in range(at - 1, max(at - _PLACE, 0), -1) if _is_reached(tokens, one, at)), 0)
        first = next((one for one in range(at + 1, min(at + _NEAR, len(tokens))) if tokens[one].text in _HALTS), at)
        if [one.low for one in tokens[at + 1 : at + 3]] == ["instead", "of"]:
            # What it is danced for is told first.
            continue
        if not reached or tokens[first].text not in ("(", "[") or tokens[at + 1].low not in _STEPS | _OPENS:
            continue
        count, told = _count(tokens, first + 1), _count(tokens, reached)
        if count in (told + 1, told % 8 + 1, told % 6 + 1) and count > 1:
            then = (
                replace(token, text=",", low=","),
                replace(token, kind="word", text="then", low="then", glued=False),
            )
            rest = at + 1 + (tokens[at + 1].low in _OPENS)
            return (*tokens[:at], *then, *tokens[rest:])
    return tuple(tokens)


def _is_reached(tokens: Sequence[Token], at: int, end: int) -> bool:
    """Whether a number is the last count danced before a stop, its section between them at most."""
    if not _count(tokens, at) or not _may_be_count(tokens, at):
        return False
    between = {token.low for token in tokens[at + 1 : end]}
    within = all(
        one in _COUNTS | _SECTIONS | {"of", "in", "&", "a", "and", ")", "only", "the"} or one.isdecimal()
        for one in between
    )
    return within and _reaches(tokens, at)


def _next_one(tokens: Sequence[Token]) -> Sequence[Token]:
    """Return a line with "on the next 1", "on the next count one" told as the next beat: it is no count of a wall."""
    for at, token in enumerate(tokens):
        number = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].low in _COUNTS)
        # "The next one" is the next wall.
        told = _count(tokens, number) == 1 and (number > at + 1 or tokens[number].kind == "number")
        if token.low == "next" and at and tokens[at - 1].low == "the" and told:
            beat = replace(tokens[number], kind="word", text="beat", low="beat", value=None)
            after = tokens[number + 1].low if number + 1 < len(tokens) else ""
            return tokens if after in _COUNTS | _SECTIONS else (*tokens[: at + 1], beat, *tokens[number + 1 :])
    return tokens


def with_next_line(lines: Sequence[tuple[Token, ...]]) -> list[tuple[Token, ...]]:
    """Return lines of the order, one that tells the count after a cut on the line above it, which tells the cut."""
    done: list[tuple[Token, ...]] = []
    for line in lines:
        above = done[-1] if done else ()
        below = above and line and line[0].low == "on" and line[0].line - above[-1].line == 1
        if below and _told((*above, *line), len(above)):
            done[-1] = (*above, *line)
        else:
            done.append(line)
    return done


def _told(tokens: Sequence[Token], at: int) -> tuple[Token, ...]:
    """Return the line with what is danced on the count behind a token told plainly; nothing where none is."""
    number = at + 1 + (at + 1 < len(tokens) and tokens[at + 1].low in {*_COUNTS, "the"})
    count = _count(tokens, number)
    near = range(at - 1, max(at - _NEAR, 0), -1)
    reached = next((one for one in near if _count(tokens, one) == count - 1 and _may_be_count(tokens, one)), 0)
    if count <= 1 or not reached or not _reaches(tokens, reached):
        return ()
    start = next((one for one in range(reached + 1, at) if tokens[one].low in _LEFT_OUT), at)
    while start - 1 > reached and tokens[start - 1].low in _LEADS:
        start -= 1
    if any(tokens[one].low not in _COUNTS for one in range(reached + 1, start)) and tokens[start].low not in _LEADS:
        return ()
    first = _steps_begin(tokens, number + 1 + _same_section(tokens[number + 1 :]))
    last = _steps_end(tokens, first)
    if not first < last <= first + _LONGEST or any(_count(tokens, one) for one in range(first, last)):
        return ()
    end = last + (tokens[last : last + 1] != () and tokens[last : last + 1][0].low == "instead")
    if end > last and tokens[end : end + 1] and tokens[end].low == "of":
        end = next((one for one in range(end, len(tokens)) if tokens[one].text in _ENDS), len(tokens))
    mark = replace(tokens[number], kind="number", text=str(count), low=str(count), glued=True)
    said = [(",", "mark"), ("then", "word")]
    lead = [replace(tokens[at], text=text, low=text, kind=kind) for text, kind in said]  # type: ignore[arg-type]
    brackets = [replace(mark, kind="mark", text=text, low=text) for text in "()"]
    named = {tokens[reached - 1].low, tokens[reached + 1].low} & _COUNTS
    word = () if named else (replace(tokens[reached], kind="word", text="count", low="count"),)
    body = (*lead, *tokens[first:last], brackets[0], mark, brackets[1])
    return (*tokens[:reached], *word, *tokens[reached:start], *body, *tokens[end:])


def _count(tokens: Sequence[Token], at: int) -> int:
    """Return the count that a token names; 0 where it is none."""
    if at >= len(tokens):
        return 0
    token = tokens[at]
    if token.kind == "number":
        return int(token.text) if len(token.text) < 3 else 0
    return NUMBERS.get(token.low, 0) if token.kind == "word" else 0


def _may_be_count(tokens: Sequence[Token], at: int) -> bool:
    """Whether a number is that of no section."""
    return tokens[at - 1].low not in _SECTIONS


def _reaches(tokens: Sequence[Token], at: int) -> bool:
    """Whether a wall is danced up to the count at a token: "as far as 7", "15 counts"."""
    before = tokens[at - 1].low if at else ""
    after = tokens[at + 1].low if at + 1 < len(tokens) else ""
    return before in _REACH or after in _COUNTS


def _same_section(tokens: Sequence[Token]) -> int:
    """Return the length of words that say of a count that it is of the section just told: "of that section"."""
    lows = [token.low for token in tokens[:3]]
    told = len(lows) == _OF_THAT and lows[0] in ("of", "in") and lows[1] in _THAT and lows[2] in _SECTIONS
    return _OF_THAT if told else 0


def _steps_begin(tokens: Sequence[Token], at: int) -> int:
    """Return where the steps begin that are danced, after what is left out for them."""
    while at < len(tokens) and tokens[at].low in {",", ":", "and", *_PLAIN}:
        at += 1
    if at < len(tokens) and tokens[at].low in _LEFT_OUT:
        at = next((one for one in range(at, len(tokens)) if tokens[one].low in {",", "and", "but", "."}), len(tokens))
        while at < len(tokens) and tokens[at].low in {",", "and", "but", *_PLAIN}:
            at += 1
    return at if at < len(tokens) and tokens[at].low in _STEPS else len(tokens)


def _steps_end(tokens: Sequence[Token], first: int) -> int:
    """Return where steps end: with their sentence, or before what is done after them."""
    for at in range(first, len(tokens)):
        after = tokens[at + 1].low if at + 1 < len(tokens) else ""
        if tokens[at].text in _ENDS or tokens[at].low in ("then", "instead", "before"):
            return at
        if tokens[at].low == "and" and after in _GOING_ON:
            return at
    return len(tokens)
