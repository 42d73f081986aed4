"""A new start told as going back to what the dance begins with: "go back to the basics of Figure 1".

Common practice, no source.
"""

from collections.abc import Mapping, Sequence

from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.words import Token

_GOING = {
    "go", "goes", "going", "come", "comes", "coming", "jump", "jumps", "head", "heads", "return", "returns",
    "returning", "turn", "turns",
    "skip", "dash", "move", "straight", "right", "directly", "back", "off", "take", "pick", "pick up", "resume",
    "start", "starts", "starting", "begin", "begins", "beginning", "commence", "commences", "again", "over", "it", "up",
    "we", "you", "we're", "you're", "they", "all", "way", "the",
}  # fmt: skip
_SURE = {"back", "return", "returns", "returning", "again", "over", "straight", "jump", "jumps", "directly"}
"""One of these says that it is gone back, and not merely begun."""
_STARTING = {"start", "starts", "begin", "begins"}
_TO = {"to", "into", "from", "with", "at"}
_OF = {"of", "in"}
_ARTICLES = {"the", "that", "our", "your", "its", "very"}
_STARTS = {"beginning", "start", "top", "opening", "outset", "commencement"}
_FIRST = {"first", "1st", "opening", "initial"}
_UNITS = {
    "section", "sec", "set", "block", "figure", "phrase", "part", "line", "row", "eight", "six", "bar", "count", "beat",
    "step", "number", "no", "group", "steps", "counts", "move", "verse", "8", "6", "square", "page", "sequence",
}  # fmt: skip
_ONE = {"1", "one", "i"}
_SIDES = {"right", "left", "r", "l", "side", "front", "back", "home", "forward", "corner", "diagonal"}
_AFTER = {"again", "and", "as", "for", "without", "with", "straight", "at", "facing", "from", "on"}
_LONGEST = 6
"""Words before "to" at most."""


def gone_back(tokens: Sequence[Token], at: int) -> int:
    """Return the index after words that go back to the beginning of the dance; `at` where none stand there."""
    lows = [token.low for token in tokens[at : at + 2 * _LONGEST + 4]]
    to = 0
    while to < min(len(lows), _LONGEST) and lows[to] in _GOING:
        to += 1
    if not to or to >= len(lows) or lows[to] not in _TO:
        return at
    end = _beginning(lows, to + 1)
    again = end > 0 and lows[end : end + 1] == ["again"]
    return at + end + again if end and (again or set(lows[:to]) & _SURE) else at


def back_to_the_steps(tokens: Sequence[Token], at: int, titles: Mapping[tuple[str, ...], str]) -> int:
    """Return the index after words that go back to the steps that the dance begins with: "straight back to the vines".

    `titles` are the words by which sections are called; where none are known, any steps may be those.
    """
    lows = [token.low for token in tokens[at : at + _LONGEST + 8]]
    to = 0
    while to < min(len(lows), _LONGEST) and lows[to] in _GOING:
        to += 1
    if "back" not in lows[:to] or lows[to : to + 1] not in (["to"], ["into"]) or lows[to + 1 : to + 2] != ["the"]:
        return at
    end = _steps(lows, to + 2)
    steps = lows[to + 2 : end]
    closed = end == len(lows) or tokens[at + end].kind == "mark" or lows[end] in _AFTER
    if not steps or not closed or set(steps) & _SIDES:
        return at
    called = {titles.get((word,)) for word in steps} - {None}
    return at + end if called == {"1"} or not (called or any(len(words) == 1 for words in titles)) else at


def back_to_the_first(tokens: Sequence[Token], at: int, names: Names, before: str) -> int:
    """Return the index after words that go back to the first section by its name: "back to SKATE", "start from A".

    `before` is the kind of the lexeme before them.
    """
    lows = [token.low for token in tokens[at : at + _LONGEST + 8]]
    to = 0
    while to < min(len(lows), _LONGEST) and lows[to] in _GOING:
        to += 1
    if not to:
        # "..., and then A again".
        again = names.labels.get(tokens[at].text) == "1" and lows[1:2] == ["again"] and before in (">", "&")
        return at + 2 if again and (at + 2 == len(tokens) or tokens[at + 2].kind == "mark") else at
    sure = set(lows[:to]) & _SURE or (lows[to - 1] in _STARTING and lows[to : to + 1] == ["from"])
    if not sure or to >= len(lows) or lows[to] not in _TO:
        return at
    first = to + 1 + (lows[to + 1 : to + 2] == ["the"])
    titles = sorted((words for words, name in names.titles.items() if name == "1"), key=len, reverse=True)
    labelled = first < len(lows) and names.labels.get(tokens[at + first].text) == "1"
    own = next((words for words in titles if tuple(lows[first : first + len(words)]) == words), ())
    written = own and (len(own) > 1 or tokens[at + first].text[0].isupper())
    end = at + first + (1 if labelled else len(own))
    end += [token.low for token in tokens[end : end + 1]] == ["again"]
    closed = end == len(tokens) or tokens[end : end + 1][0].kind == "mark" or tokens[end].low in _AFTER
    return end if (labelled or written) and closed else at


def _beginning(lows: Sequence[str], at: int) -> int:
    """Return the index after what a dance begins with: "the top", "the first eight", "the basics of Figure 1"."""
    while at < len(lows) and lows[at] in _ARTICLES:
        at += 1
    if at >= len(lows):
        return 0
    if lows[at] in _STARTS and lows[at + 1 : at + 2] != ["of"]:
        # "Back to the opening basics" goes on with steps.
        return _steps(lows, at + 1) if lows[at] == "opening" else at + 1
    if lows[at] in _STARTS:
        return _whole(lows, at + 2)
    if lows[at] in _FIRST:
        end = _steps(lows, at + 1)
        return end + 1 if lows[end : end + 1] and lows[end] in _UNITS else (end if end > at + 1 else 0)
    if lows[at] in _UNITS and lows[at + 1 : at + 2] and lows[at + 1] in _ONE:
        return at + 2
    end = _steps(lows, at)
    of = end < len(lows) and end > at and lows[end] in _OF
    return _beginning(lows, end + 1) if of else 0


def _steps(lows: Sequence[str], at: int) -> int:
    """Return the index after words of steps."""
    while at < len(lows) and (lows[at] in STEP_WORDS or lows[at].removesuffix("s") in STEP_WORDS):
        at += 1
    return at


def _whole(lows: Sequence[str], at: int) -> int:
    """Return the index after "the dance", "it all": what is begun anew; 0 for the beginning of a later section."""
    while at < len(lows) and lows[at] in _ARTICLES | {"whole", "entire"}:
        at += 1
    if at < len(lows) and lows[at] in {
        "dance",
        "it",
        "everything",
        "routine",
        "thing",
        "sheet",
        "lot",
        "choreography",
        "choreo",
        "sequence",
        "pattern",
    }:
        return at + 1
    return _beginning(lows, at)
