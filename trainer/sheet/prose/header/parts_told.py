"""How long the parts of a phrased dance are said to be, in any wording: "A 16, B 8", "A and B have 16 counts, C 8".

Parts are capitals or the parts of a song; where a sheet gives lengths without names, "three parts of 16 counts each",
"16 + 16, phrased", they are A, B, C in turn. Numbers come as figures. Common practice, no source.
"""

import re
from collections.abc import Mapping, Sequence

from trainer.sheet.prose.lexis.vocabulary import SONG_PARTS
from trainer.sheet.prose.words import Token

_LETTERS = "ABCDEFGH"
_FEWEST = 2
_SHORTEST, _LONGEST = 4, 96
_NAMES = r"@\w+(?: (?:,|and|&|\+|/|or)(?: and)?(?: the)?(?: part)? @\w+)*"
_SAYING = (
    r"(?: (?:part|is|has|have|had|are|of|takes?|lasts?|counts?|for|being|both|each|with|:|=|\(|\[|-|,|only|just|too|"
    r"about|goes|runs|to|has got|in|made|up|comes|fills?|long|which|that|the|a|section))*"
)
_UNIT = r"(?:counts?|beats?|cts?|c|ct|steps)"
_NO_LENGTH = (
    r"(?! ?(?:of (?:them|these|those|it)\b|/|times|x\b|time\b|o'clock|walls?|parts?|bars?|minutes?|st\b|nd\b|th\b))"
)
_BEHIND = re.compile(rf"(?P<names>{_NAMES}){_SAYING} (?P<n>\d+)\b{_NO_LENGTH}")
_NUMBER = r"(?<!\d)(?P<n>\d{1,3})(?!\d)"
_BEFORE = re.compile(
    rf"{_NUMBER}(?: -)?(?: {_UNIT})?(?: (?:of|for|in|to|\(|belong to|make|are|is|each))*(?: the)?(?: part)? "
    rf"(?P<names>{_NAMES})"
)
_MANY = r"(?P<many>two|three|four|2|3|4) (?:\w+ ){0,2}?(?:parts?|sections?|pieces|bits)"
_ALIKE = re.compile(
    rf"\b{_MANY}(?: (?:,|:|-|\(|of|with|has|have|having|each|both|all|only|just))* (?P<n>\d+)(?: {_UNIT})?"
    r"(?! (?:and|,|\+|&|/) \d)(?: (?P<each>each|apiece|all))?"
)
_LISTED = re.compile(
    rf"\b{_MANY}(?: (?:,|:|-|\(|of|with|has|have|having|are))*"
    rf"(?P<list> \d+(?: {_UNIT})?(?:(?: ,| and| &| \+| /)+ \d+(?: {_UNIT})?)+)"
)
_BARE = re.compile(r"^(?:[^\w ]+ )*(?P<list>\d+(?: (?:\+|and|&) \d+){1,3})(?: counts?)? (?:,|\(|-|;|\.) .*\bphrased\b")
_WORDS = {"two": 2, "three": 3, "four": 4}


def parts_told(tokens: Sequence[Token], words: Sequence[str]) -> Mapping[str, int]:
    """Return the lengths that a line gives its parts; `words` are its words, of each token, numbers as figures."""
    text = " ".join(_word(token, word) for token, word in zip(tokens, words, strict=True))
    text = re.sub(r"\b(\d) (?:x|times) (6|8)\b", lambda match: str(int(match[1]) * int(match[2])), text)
    named = _named(text)
    if named:
        return named
    if "@" in text and not re.search(r"\b(?:parts?|sections|pieces|bits)\b", text):
        return {}
    return _in_turn(text)


def _word(token: Token, word: str) -> str:
    low = token.low.removesuffix("s") if token.low.removesuffix("s") in SONG_PARTS else token.low
    if low in SONG_PARTS:
        return f"@{low.capitalize()}"
    return f"@{token.text}" if token.text in tuple(_LETTERS) else word


def _named(text: str) -> dict[str, int]:
    """Return the lengths of parts that are named beside them: all of them behind the names, or all before."""
    best: dict[str, int] = {}
    for pattern in (_BEHIND, _BEFORE):
        found: dict[str, int] = {}
        for match in pattern.finditer(text):
            for name in re.findall(r"@(\w+)", match["names"]):
                found.setdefault(name, int(match["n"]))
        fit = {name: length for name, length in found.items() if _SHORTEST <= length <= _LONGEST}
        if len(fit) > len(best):
            best = fit
    return best


def _in_turn(text: str) -> dict[str, int]:
    """Return the lengths of parts that are told without names, or with them apart: they are A, B, C in turn."""
    if match := _LISTED.search(text) or _BARE.search(text):
        lengths = [int(number) for number in re.findall(r"\d+", match["list"])]
        many = match.groupdict().get("many")
        if many and _many(many) != len(lengths):
            return {}
    elif match := _ALIKE.search(text):
        lengths = [int(match["n"])] * _many(match["many"])
    else:
        return {}
    fit = all(_SHORTEST <= length <= _LONGEST for length in lengths)
    return dict(zip(_LETTERS, lengths, strict=False)) if fit and len(lengths) >= _FEWEST else {}


def _many(word: str) -> int:
    return _WORDS.get(word) or int(word)
