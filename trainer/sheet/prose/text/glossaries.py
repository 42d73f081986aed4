"""A list of a sheet's short forms under a heading of its own, a gap behind each: "sh   shuffle: step, close, step".

Each is told with a sign of equality, and as briefly as it begins: what follows a comma or a colon explains the step to
those who do not know it. A hyphen within a short form goes. Columns stay true. Common practice, no source.
"""

import re

_HEADING = re.compile(
    r"\W*(?:(?:the|a|my|our|little|small|short) )*"
    r"(?:glossary|abbreviations?|legend|key|short forms?|shorthand|letters|"
    r"what (?:the|my|all the) [a-z ]*mean)\b[^.]{0,30}",
    re.IGNORECASE,
)
_ENTRY = re.compile(r"(\s*(?:[-*•] )?)([a-z]{1,4}(?:-[a-z]{1,3})?)( {2,}|\t+)(?=[A-Za-z])(.+)")
_CUT = re.compile(r"[:;,(]| and (?:put|the weight|weight)\b")
_STEPS = re.compile(r"^step (?=(?:out |to the |to )*(?:forward|back|backward|side)$)")
"""A way stands by itself, so that a rock may go there too."""
_LEAST = 5
"""Entries of such a list."""


def with_glossaries_told(text: str) -> str:
    """Return the text, the entries of such a list as "sh = shuffle"."""
    lines = text.split("\n")
    head = next((at for at, line in enumerate(lines) if line.strip() and _HEADING.fullmatch(line.strip())), None)
    if head is None:
        return text
    last = head + 1
    while last < len(lines) and (lines[last].strip() or last == head + 1):
        last += 1
    entries = {at: match for at in range(head + 1, last) if (match := _ENTRY.fullmatch(lines[at]))}
    if len(entries) < _LEAST:
        return text
    for at, match in entries.items():
        cut = _CUT.search(match[4])
        meaning = match[4][: cut.start()].rstrip() if cut else match[4]
        lines[at] = match[1] + _plain(match[2]) + "=".ljust(len(match[3])) + _STEPS.sub("     ", meaning)
    text = "\n".join(lines)
    for match in entries.values():
        if "-" in match[2]:
            text = re.sub(rf"(?<![\w-]){re.escape(match[2])}(?![\w-])", _plain(match[2]), text)
    return text


def _plain(name: str) -> str:
    """Return a short form without its hyphen, as wide as it was."""
    return name.replace("-", "").ljust(len(name))
