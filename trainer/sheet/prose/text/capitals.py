"""A text written without capitals, as from a phone, with those that a sentence, a line and a part's letter would have.

Where sentences and lines begin is told by capitals as well as by full stops, and a part by its capital letter: "a" is
an article elsewhere. Only the case of letters changes, so each stays at its place. Common practice, no source.
"""

import re

_FEW = 0.004
"""Of all letters so many at most are capitals in a text that has none."""
_LEAST = 60
"""Letters of a text that may be judged by them."""
_FULL = 0.75
"""A line so long, of the longest, may have been broken off at the margin."""
_OPENS = re.compile(r"((?<!\.)[.!?][\"')\]]?\s+[\"'(\[]?)([a-z])")
_PART = re.compile(
    r"\b(parts?|bit|piece|short|half|long|full) ([a-h])\b(?! (?:bit|little|lot|few|step|turn|tag|way|wall))"
)
_RUN = re.compile(
    r"(?<![a-z'])(?<!\b[i-su-z] )(?:[a-ht](?:\s*[,/|>&+-]\s*|[ \t]+)){2,}[a-ht](?![a-z']|[ \t]+[i-su-z]\b)"
)
_IN_A_LIST = re.compile(
    r"(?m)((?:^|[,>/|:]) ?|\bis )a(?= ?[,>/|]| and (?:the )?[A-H]\b)(?=.*\b[B-H]\b)|"
    r"\ba(?= ?[,>/|-] ?(?:[A-H]|tag|bridge)\b)|(?<=, )a(?= ?\()"
)
_HEADED = re.compile(r"\W*[a-z]{3,} [A-H](?=\s*(?:$|[:.,(-]))")
_FOOT = re.compile(r"(?<![a-z'-])(?<!\b[b-km-qs-z] )[rl](?![a-z'-]| [b-km-qs-z]\b)")
"""By itself, and no letter of a spaced title."""
_FEET_ALONE = re.compile(r"(?<![A-Za-z'-])[RL](?![A-Za-z'-])")
"""Feet are told apart by capitals also where nothing else is."""
_FEET = 4
"""So often the letter of a foot stands by itself in a sheet that writes feet so."""
_LETTERED = re.compile(r"(?m)^\W*([a-z]{3,}) ([a-h])(?=\s*(?:$|[:.,(-]))")
"""A heading that ends with a letter: "station a: warm-up"."""
_SPELLED = re.compile(r"(?<![a-z'])[abct]{4,}(?![a-z'])")
_HEADING = re.compile(r"(?m)^(\s*)([a-h])(?=\s*[:=(.)-])")
_LENGTH = re.compile(r"\b([a-h])(?=\s*(?:=|\(\s*\d|\d\d?\b|is \d|has \d|: ?\d))")
_MEASURED = re.compile(r"(?<![a-z'-])([a-h]) ?(?:= ?|\( ?)\d\d? ?(?:counts?|cts?|c\b|\)|,)")
_OF_PARTS = re.compile(r"(?<![a-z'-])([b-h])(?=(?:'?s)?(?![a-z'-]))")
"""A letter by itself that is no article."""
_FIRST_PART = re.compile(
    r"\b((?:an|one|two|three|four|first|second|third|fourth|fifth|last|short|whole|next|another|this|that|each|every|"
    r"the|both|to|into|after|then|with|dance|of|start with) )a\b"
    r"(?=(?:'?s\b|,|\.|;|:| (?:twice|again|once|is|and|then|stops|ends|has|comes|three|two|x|or|at|in|only|b)\b))"
)
_FIRST_PARTS = re.compile(r"\ba(?='s\b| twice\b| again\b| once\b| is danced\b)")


def with_capitals(text: str) -> str:
    """Return a text that has next to no capitals with those it would have; any other as it is."""
    letters = sum(char.isalpha() for char in text)
    if letters < _LEAST or sum(char.isupper() for char in _FEET_ALONE.sub("", text)) > _FEW * letters:
        return text
    if len(_FOOT.findall(text)) >= _FEET:
        text = _FOOT.sub(lambda match: match[0].upper(), text)
    text = _OPENS.sub(lambda match: match[1] + match[2].upper(), _with_parts(text))
    return "\n".join(_with_line_starts(text.split("\n")))


def _with_parts(text: str) -> str:
    """Return a text with the letters of parts as capitals, where several are listed or a part is called by one."""
    parts = {match[2] for match in _PART.finditer(text) if match[1] in ("part", "parts", "bit", "piece")}
    parts |= {match[1] for match in _MEASURED.finditer(text)}
    for run in _RUN.findall(text):
        letters = set(re.findall(r"\b[a-h]\b", run))
        parts |= letters if {"a", "b"} <= letters else set()
    heads = {(match[1], match[2]) for match in _LETTERED.finditer(text)}
    named = {word for word, letter in heads if letter == "b" and (word, "a") in heads}
    if named:
        called = re.compile(rf"\b({'|'.join(named)}) ([a-h])\b")
        text = called.sub(lambda match: f"{match[1]} {match[2].upper()}", text)
    text = _RUN.sub(lambda match: match[0].upper(), text)
    text = _SPELLED.sub(lambda match: match[0].upper() if set(match[0]) >= {"a", "b"} else match[0], text)
    if len(parts) < len("ab"):
        return text
    text = _PART.sub(lambda match: f"{match[1]} {match[2].upper()}" if match[2] in parts else match[0], text)
    text = _LENGTH.sub(lambda match: match[0].upper(), _HEADING.sub(lambda match: match[1] + match[2].upper(), text))
    text = _OF_PARTS.sub(lambda match: match[0].upper() if match[0] in parts else match[0], text)
    text = _FIRST_PART.sub(lambda match: f"{match[1]}A", text)
    return _IN_A_LIST.sub(lambda match: f"{match[1] or ''}A", _FIRST_PARTS.sub("A", text))


def _with_line_starts(lines: list[str]) -> list[str]:
    """Return lines with a capital at the start of each that does not go on with the one above."""
    widest = max((len(line.rstrip()) for line in lines), default=0)
    done: list[str] = []
    for at, line in enumerate(lines):
        before = lines[at - 1].rstrip() if at else ""
        first = next((place for place, char in enumerate(line) if char.isalnum()), None)
        headed = _HEADED.match(line) is not None
        if first is None or not line[first].isalpha() or (_goes_on(before, widest) and not headed):
            done.append(line)
        else:
            done.append(line[:first] + line[first].upper() + line[first + 1 :])
    return done


def _goes_on(before: str, widest: int) -> bool:
    """Whether a line may have been broken off at the margin above: that line is long, and has no end."""
    return bool(before) and before[-1] not in ".!?:;" and len(before) > _FULL * widest
