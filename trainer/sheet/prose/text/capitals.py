"""A text written without capitals, as from a phone, with those that a sentence, a line and a part's letter would have.

Where sentences and lines begin is told by capitals as well as by full stops, and a part by its capital letter: "a" is
an article elsewhere. Only the case of letters changes, so each stays at its place. Common practice, no source.
"""

import re

_FEW = 0.004
"""Of all letters so many at most are capitals in a text that has none."""
_LEAST = 60
"""Letters of a text that may be judged by them."""
_LONG_WORD = re.compile(r"(?<![A-Za-z'])[A-Za-z]{4,}")
_WORDS = 40
"""Long words of a text whose capitals may be judged."""
_MOST = 0.9
"""Of all long words so many at least begin with a capital in a text that has no others."""
_SHOUTED = re.compile(r"[A-Z](?:[A-Za-z']*[A-Za-z])?")
_FULL = 0.75
"""A line so long, of the longest, may have been broken off at the margin."""
_OPENS = re.compile(r"((?<!\.)[.!?][\"')\]]?\s+[\"'(\[]?)([a-z])")
_PART = re.compile(
    r"\b(parts?|bit|piece|short|half(?! a\b)|long|full) ([a-h])\b(?! (?:bit|little|lot|few|step|turn|tag|way|wall))"
)
_RUN = re.compile(
    r"(?<![a-z'])(?<!\b[i-su-z] )(?:[a-ht](?:\s*[,/|>&+-]\s*|[ \t]+)){2,}[a-ht](?![a-z']|[ \t]+[i-su-z]\b)"
)
_IN_A_LIST = re.compile(
    r"(?m)((?:^|[,>/|:]) ?|\bis )a(?= ?[,>/|]| and (?:the )?[A-H]\b)(?=.*\b[B-H]\b)|"
    r"\ba(?= ?[,>/|-] ?(?:[A-H]|tag|bridge)\b)|(?<=, )a(?= ?\()"
)
_HEADED = re.compile(r"\W*[a-z]{3,} (?:[A-H]|\d\d?(?:\s*[-–&]\s*\d\d?)?)(?=\s*(?:$|[:.,(-]))")
_COUNT_BY_ITSELF = re.compile(r"\s*(?:and|a|e)(?:\t|  |\s*\|)")
_UNENDED = re.compile(
    r"(?:,|\b(?:the|an?|and|or|to|of|with|without|on|onto|for|your|you|is|are|in|at|from|by|as|that|which|then))$"
)
"""How no line ends that is not broken off at the margin."""
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
_MEASURED = re.compile(r"(?<![a-z'-])([a-h]) ?(?:= ?|\( ?)\d\d? ?(?:counts?|cts?|c\b|\)|,|$)", re.MULTILINE)
_STANDS_ALONE = re.compile(r"(?m)^[ \t]*(?:(?:short|half|long|full|last) )?([a-h])\*?[ \t]*$")
"""A line of a list of parts that stand one below the other."""
_PLAY = re.compile(r"(?m)^\W*(?:seq(?:uence)?|(?:running )?order|phrasing|play(?:ing order)?)\b[^\n:]*:[^\n]*$")
_LETTER = re.compile(r"(?<![a-z'*-])(?:[b-h]|a(?! [i-z]))(?=\*{0,2}\d?(?![a-z'-]))")
_OF_PARTS = re.compile(r"(?<![a-z'-])([b-h])(?=(?:'?s)?(?![a-z'-]))")
"""A letter by itself that is no article."""
_FIRST_PART = re.compile(
    r"\b((?:an|one|two|three|four|five|six|first|second|third|fourth|fifth|last|short|whole|next|another|this|that|each|"
    r"every|the|both|to|into|after|then|with|dance|of|start with) )a\b"
    r"(?=(?:'?s\b|,|\.|;|:| (?:is|and|then|stops|ends|has|comes|three|two|x|or|at|in|only|b)\b))"
)
_NO_ARTICLE = re.compile(
    r"(?<![\w&'(/+-])(?<!\d )a(?=[.;:,]?\s+(?:again|once|twice|and|or|is|are|was|has|had|comes|goes|starts|begins|"
    r"ends|runs|takes|needs|leaves|brings|stops|follows|sets|opens|from|to|then|at|in|on|only|of|until|till|as|with|without|for|but|"
    r"that|which|you|we|it|they|if|when|while|where|this|over|before|after|except|never|always|also|too|times|"
    r"facing (?:the|\d|front|back))\b(?!-)|[,;]|\.\s|\s*\Z|"
    r" \((?:you|first|only|the first|begun|begins?|start|starting|facing|from|short|whole|\d)\b)|(?<=\beight of )a\b"
)
"""What no article stands before, so an "a" there is the letter of a part."""
_FIRST_PARTS = re.compile(r"\ba(?='s\b| twice\b| again\b| once\b| is danced\b)")


def with_capitals(text: str) -> str:
    """Return a text that has next to no capitals with those it would have; any other as it is."""
    letters = sum(char.isalpha() for char in text)
    if letters < _LEAST:
        return text
    if _all_begin_with_one(text):
        text = _SHOUTED.sub(lambda match: match[0].lower(), text)
    elif sum(char.isupper() for char in _FEET_ALONE.sub("", text)) > _FEW * letters:
        return text
    if len(_FOOT.findall(text)) >= _FEET:
        text = _FOOT.sub(lambda match: match[0].upper(), text)
    text = _OPENS.sub(lambda match: match[1] + match[2].upper(), _with_parts(text))
    return "\n".join(_with_line_starts(text.split("\n")))


def _all_begin_with_one(text: str) -> bool:
    """Whether next to every word begins with a capital: one tells no more than in a text without any."""
    words = _LONG_WORD.findall(text)
    return len(words) >= _WORDS and sum(word[0].isupper() for word in words) >= _MOST * len(words)


def _with_parts(text: str) -> str:
    """Return a text with the letters of parts as capitals, where several are listed or a part is called by one."""
    parts = {match[2] for match in _PART.finditer(text) if match[1] in ("part", "parts", "bit", "piece")}
    parts |= {match[1] for match in _MEASURED.finditer(text)}
    for run in _RUN.findall(text):
        letters = set(re.findall(r"\b[a-h]\b", run))
        parts |= letters if {"a", "b"} <= letters else set()
    alone = set(_STANDS_ALONE.findall(text))
    parts |= alone if {"a", "b"} <= alone else set()
    if {"a", "b"} <= alone:
        text = _STANDS_ALONE.sub(lambda match: re.sub(r"\b[a-h]\b", lambda one: one[0].upper(), match[0]), text)
    heads = {(match[1], match[2]) for match in _LETTERED.finditer(text)}
    named = {word for word, letter in heads if letter == "b" and (word, "a") in heads}
    if named:
        called = re.compile(rf"\b({'|'.join(named)}) ([a-h])\b")
        text = called.sub(lambda match: f"{match[1]} {match[2].upper()}", text)
    text = _RUN.sub(lambda match: match[0].upper(), text)
    text = _PLAY.sub(_with_letters, text)
    text = _SPELLED.sub(lambda match: match[0].upper() if set(match[0]) >= {"a", "b"} else match[0], text)
    if len(parts) < len("ab"):
        return text
    text = _PART.sub(lambda match: f"{match[1]} {match[2].upper()}" if match[2] in parts else match[0], text)
    text = _LENGTH.sub(lambda match: match[0].upper(), _HEADING.sub(lambda match: match[1] + match[2].upper(), text))
    text = _OF_PARTS.sub(lambda match: match[0].upper() if match[0] in parts else match[0], text)
    text = _NO_ARTICLE.sub("A", _FIRST_PART.sub(lambda match: f"{match[1]}A", text))
    return _IN_A_LIST.sub(lambda match: f"{match[1] or ''}A", _FIRST_PARTS.sub("A", text))


def _with_letters(match: re.Match[str]) -> str:
    """Return a line that tells the order of play with the letters in it as capitals, if there are two or more."""
    found = set(_LETTER.findall(match[0]))
    return _LETTER.sub(lambda letter: letter[0].upper(), match[0]) if {"a", "b"} <= found else match[0]


def _with_line_starts(lines: list[str]) -> list[str]:
    """Return lines with a capital at the start of each that does not go on with the one above."""
    widest = max((len(line.rstrip()) for line in lines), default=0)
    done: list[str] = []
    for at, line in enumerate(lines):
        before = lines[at - 1].rstrip() if at else ""
        first = next((place for place, char in enumerate(line) if char.isalnum()), None)
        headed = _HEADED.match(line) is not None
        joined = (_goes_on(before, widest) and not headed) or _COUNT_BY_ITSELF.match(line)
        if first is None or not line[first].isalpha() or joined:
            done.append(line)
        else:
            done.append(line[:first] + line[first].upper() + line[first + 1 :])
    return done


def _goes_on(before: str, widest: int) -> bool:
    """Whether a line may have been broken off at the margin above: that line is long, and has no end."""
    return (
        bool(before)
        and before[-1] not in ".!?"
        and (len(before) > _FULL * widest or _UNENDED.search(before) is not None)
    )
