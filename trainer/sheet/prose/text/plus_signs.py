"""A plus that a sheet writes for the half beat, as an &: "3 + 4" beside "1-2", "4 + a", a row "+  close".

Told before anything else looks at the signs: elsewhere a plus joins counts, parts or words. Columns stay true.
"""

import re

_HALVED = re.compile(r"(?<![\d.+])(?P<one>\d)(?P<space> ?)\+ ?(?P<two>\d)(?![\d.])")
_ALONE = re.compile(
    r"(?m)^[ \t|]*\+(?=[ \t]{2,}|\t| ?\|| ?:| [RL]\b)|(?<=[ \t]{2})\+(?=[ \t]{2,}|[ \t]*$)|(?<=\t)\+(?=[\t\n])"
)
_LED = re.compile(r"(?<=\bon )\+(?=[ ,.;:)])")
_ENDS = re.compile(
    r"(?<=(?<![\d.])\d)( ?)\+(?= ?a\b| ?[:)\],]|[ \t]{2}|$)|(?<=[\s(])\+(?=a\b|\d)|"
    r"(?<=^\d)\+(?= )|(?<=^\d \d)\+(?= )|(?<=\d&\d)\+(?= )|(?<=\d\+\d)\+(?= )",
    re.MULTILINE,
)
_ROLLED = re.compile(r"(?<![\d.])\d ?\+ ?a\b")
_PLAIN = re.compile(r"(?<![\d.])(\d)(?: ?[-–,] ?| )(\d)(?![\d.])")
_AND = re.compile(r"\d ?&|& ?\d|^[ \t|]*&", re.MULTILINE)
_EXPLAINED = re.compile(r"\bplus (?:sign )?(?:is|means|stands)\b|[\"'“(\[]\+[\"'”]|\+ ?=|\+ (?:is|means)\b")
"""A sign that the sheet explains is told when its key is read."""
_LEAST = 2


def with_ands_for_plus(text: str) -> str:
    """Return a text with each plus that is a half beat as an &; a text that has other signs for it as it is."""
    if "+" not in text or _AND.search(text) or _EXPLAINED.search(text):
        return text
    halved = [match for match in _HALVED.finditer(text) if int(match["two"]) == int(match["one"]) + 1]
    alone = sum(len(pattern.findall(text)) for pattern in (_ALONE, _LED, _ROLLED))
    plain = sum(int(two) == int(one) + 1 for one, two in _PLAIN.findall(text))
    if len(halved) + alone < _LEAST or (not alone and plain < _LEAST):
        return text
    places = {match.start() + match[0].index("+") for match in halved}
    for pattern in (_ALONE, _LED, _ENDS):
        places |= {match.start() + match[0].index("+") for match in pattern.finditer(text)}
    return "".join("&" if at in places else char for at, char in enumerate(text))
