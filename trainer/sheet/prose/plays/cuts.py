"""How much of a part is danced, as the words about it say: "only 8 counts", "up to count 16", "without the last two".

Sought in the text of symbols (`symbols.py`); counts are those of the part.
"""

import re

from trainer.sheet.prose.plays.symbols import Named

_UNIT = r"(?:counts?|beats?|cts?|steps)"
_PIECE = r"(?:section|set|eight|8|6|block|phrase|figure)"
_GONE = (
    r"(?:(?:is|are|be|gets?|must be|has to be|have to be|being) )?(?:simply |just |all |then )?(?:dropped|left out|"
    r"left off|"
    r"omitted|skipped|cut(?: off| out| away)?|missing|lost|taken off|falls? away|falls? out|goes missing)\b"
)
_LESS = re.compile(
    rf"\b(?:without|minus|less|all but|drop|drops|omit|omits|skip|skips|leave (?:out|off)|leaves? (?:out|off)|but not|"
    rf"except|lacks|lose|loses|cut|cuts) (?:for )?(?:the |its )?(?:last |final )(\d+)(?: {_UNIT})?|"
    rf"\b(?:drop|omit|skip|leave out|leave off|without|minus|less) (\d+)(?: {_UNIT}|(?= ?(?:[,.;)]|$)))|"
    rf"\b(?:last|final|closing) (\d+)(?: {_UNIT})?(?: of (?:it|them|all))? {_GONE}|"
    rf"\b(?:shortened|shorter|reduced|curtailed|clipped|cut(?: short| down| back)?) by (?:(?:just|only|the|its|last|"
    rf"final) )*"
    rf"(\d+)"
)
_LAST_SECTION = re.compile(
    rf"\b(?:without|minus|less|drop\w*|omit\w*|skip\w*|leav\w+ (?:out|off)|but not|except(?: for)?|lacks|lacking|"
    rf"loses?|"
    rf"losing|short of) (?:the |its )?(?:(?:very )?(?:last|final|closing) {_PIECE}|#4 {_PIECE})\b|"
    rf"\b(?:last|final|closing) {_PIECE} {_GONE}"
)
"""The last section left out."""
_LAST_SECTIONS = re.compile(
    rf"\b(?:without|minus|less|drop\w*|omit\w*|skip\w*|leav\w+ (?:out|off)|but not|except(?: for)?|lacks|lacking|"
    rf"loses?|losing|short of|all but|cut\w*) (?:the |its )?(?:very )?(?:last|final|closing) (\d) {_PIECE}s\b|"
    rf"\b(?:last|final|closing) (\d) {_PIECE}s (?:of (?:it|them|all) )?{_GONE}"
)
"""Several sections left out at the end."""
_SO_MANY = re.compile(rf"\b(\d) of (?:(?:the|its|his|her|their|these|those|all|\d|@\d) )*{_PIECE}s\b")
"""How many sections are danced, from the first on: "three of its four eights"."""
_LINGERS = "".join(
    rf"(?<!\b{words} )"
    for words in ("hangs on", "hang on", "holds on", "plays on", "waits", "wait", "pauses", "pause", "rests", "lingers")
)
"""What the music does for some counts, and no part: "the fiddle hangs on for four beats"."""
_FIRST = (
    re.compile(rf"(?:\b|(?=#1))(?:dance|danced|has|have|runs?|lasts|goes|only|just|first|#1|is|=|"
               rf"no more than|all but)(?: (?:the|its|only|"
               rf"just|a|of|"
               rf"it|for|mere|no|more|than|about|first|#1))* (\d+)(?: {_UNIT}|(?= only| \)|$| \.| ,| of| and))"),
    re.compile(rf"\b(?:up to|till|until|to|as far as|through|at|after|on)(?: (?:and|including|the|end|of))* "
               rf"{_UNIT} (\d+)"),
    re.compile(rf"(?<!last )(?<!final )(?<!for )\b(\d+) {_UNIT}"),
    re.compile(rf"{_LINGERS}\bfor (?:just |only |the #1 |a mere )?(\d+) {_UNIT}"
               rf"(?: only| alone)?(?= \.| ,|$| and| then)"),
    re.compile(r"(?<!back )(?<!home )(?<!round )(?<!around )\b"
               r"(?:up to|till|until|to|as far as|stops? (?:at|after)|off (?:at|after)|leaves? (?:it )?(?:at|after)|"
               r"short (?:at|after)|after) (\d+)\b(?! ?o'? ?clock|:)"),
    re.compile(r"[(/] (\d+) ?(?:\)|$)|^/ (\d+)\b|^(\d+) only|^[|,:-] (\d+)(?: only)?(?:$| \||(?= \())|^(\d\d)(?:$| )|"
               r"^, (\d+) ?[.,;]?$|\( 1 - (\d+) \)"),
    re.compile(rf"\b{_UNIT} 1 (?:-|to) (\d+)"),
    re.compile(rf"\b(?:when|once|as soon as) {_UNIT} (\d+) (?:is|are) (?:over|done|through|finished|danced)\b"),
    re.compile(rf"\( (?:(?:on|at|that|is|it|it's|after) )*{_UNIT} (\d+) \)"),
)  # fmt: skip
_SECTIONS = re.compile(
    r"\b(?:sections?|sets?|eights?)(?: @\d)? 1(?:(?: ,| and| &| -| to| \+)+(?: the)?(?: @\d)? (\d+))*(?= only|"
    r"$| \)| \.| ,|"
    r" of| and| \()"
)
_RANGE = re.compile(
    r"^(?:counts? |cts )?(?:\( )?1 (?:-|to|through|thru) (?:@\d )?(\d+)\b|"
    r"^1 (?:\+|&|and|,) (?:@\d )?2\b(?: (?:\+|&|and|,) (?:@\d )?(3)\b)?"
)
_END_OF = re.compile(
    r"\b(?:end of|after|behind|up to|until|till|as far as|through|once|when|"
    r"(?:only|just)(?: (?:do|dance|take|have|hear|see|get))?|stops? (?:with|at|on|behind)|"
    r"ends? (?:with|at|on|behind)|cut (?:off )?(?:at|behind)) (?:the |its )?(?:end of (?:the |its )?)?"
    rf"(?:#1 (?:and|&|,|\+|to|-) (?:the )?|#1 , #2 (?:and|&) )?(?:#(\d+) {_PIECE}s?|{_PIECE} (?P<called>\d))\b|"
    r"(?<!\S)(?:(\d) )?#1 (?:(\d+) )?(?:sections?|sets?|eights?|blocks?|phrases?|figures?)\b"
)
"""The section that is the last to be danced; an eight is told in its figure."""
_ONE = re.compile(
    r"\b(?:section|set)(?: @\d)? 1 (?:only|alone)|\bonly (?:the |its )?(?:#1 section|section(?: @\d)? 1)\b"
)
_BEYOND = re.compile(
    rf"\b(?:(?:only|just) (?:the |its )?|(?:after|up to|off (?:at|after)|stops? (?:at|after)) (?:the|its) )"
    rf"#1 (\d+) {_UNIT}(?! of)|"
    rf"\b(?:leav|stop|cut|break|drop)\w* (?:it (?:off |short )?|off |short )(?:at|after|on) (?:{_UNIT} )?(\d+)\b|"
    rf"\b(?:leave|leaves|stops?|ends?|is (?:left|cut|stopped)(?: off| short)?|breaks? off) "
    rf"(?:at|after|on) {_UNIT} (\d+)\b|"
    rf"\b(?:which|that) (?:stops?|ends?|breaks? off|is left) (?:at|after) (\d+) {_UNIT}|"
    rf"\b(?:only|just) (?:the )?(\d+) {_UNIT}|\( (?:the )?#1 (\d+) {_UNIT} \)|\b(\d+) {_UNIT} (?:only|alone)\b"
)
"""More counts than a part has are a fault, which is found where the play is read."""
_LEAST = 3
"""Counts that a part is cut to at least: a one or two behind a part is how often the next is danced."""
_HALF = re.compile(r"\bhalf\b")
_BY_TWO = re.compile(r"/ 2\b(?! [@$])")
_NOT_HALF = re.compile(
    r"\b(?:clos|end|open|complet|finish|start|begin)\w* (?:off |up )?the #\d half\b(?! of)|"
    r"\bhalf of (?:the|this|our) (?:dance|song|routine|play|music|evening|tune)|\bhalf way|"
    r"\b(?:turns?|turning|spins?) (?:a |you |us |the )?half|\bhalf (?:a |"
    r"the )?(?:count|beat|turn|room|right|left)"
)


def cut_in(text: str, part: int, named: Named) -> int | None:
    """Return the counts danced of a part, as the words about it say; None: they do not say, or it is danced whole.

    More than it has are returned as they are said.
    """
    whole = named.lengths[part]
    if match := _RANGE.search(text):
        last = int(match[1] or match[2] or 2)
        # "A 1-3" are sections, "A 1-8" counts: a part has no eight sections.
        return _within(_sections(last, part, named) if last <= len(named.sections[part]) else last, whole)
    if match := _SO_MANY.search(text):
        return _within(_sections(int(match[1]), part, named), whole)
    if match := _LAST_SECTIONS.search(text):
        return _within(_sections(len(named.sections[part]) - _number(match), part, named), whole)
    for pattern in _FIRST[:1]:
        if (match := pattern.search(text)) and _LEAST <= _number(match) < whole:
            return _number(match)
    less = _LESS.search(text)
    for pattern in _FIRST[1:]:
        for match in pattern.finditer(text):
            if _LEAST <= _number(match) < whole and not (less and less.start() <= match.start() < less.end()):
                return _number(match)
    if less:
        return _within(whole - _number(less), whole)
    if (match := _BEYOND.search(text)) and _number(match) > max(named.lengths):
        return _number(match)
    return _in_sections(text, part, named)


def _in_sections(text: str, part: int, named: Named) -> int | None:
    whole = named.lengths[part]
    if (lettered := _lettered(text, part, named)) is not None:
        return lettered
    if _LAST_SECTION.search(text):
        return _within(_sections(len(named.sections[part]) - 1, part, named), whole)
    if _ONE.search(text):
        return _within(_sections(1, part, named), whole)
    if match := _END_OF.search(text):
        if match[1] and int(match[1]) > max(map(len, named.sections)):
            return whole + named.sections[part][-1]
        return _within(_sections(int(match[1] or match["called"] or match[3] or match[4] or 1), part, named), whole)
    if match := _SECTIONS.search(text):
        numbers = [int(number) for number in re.findall(r"(?<![@#])\b\d\b", match[0])]
        return _within(_sections(max(numbers), part, named), whole)
    return whole // 2 if (_HALF.search(text) or _BY_TWO.match(text)) and not _NOT_HALF.search(text) else None


_LEFT_OUT = re.compile(
    r"\b(?:without|leav\w+ (?:out|off)|omit\w*|skip\w*|drop\w*|miss\w*|minus|no|not|less|except|but) "
    r"(?:the )?(?:sections? |eights? |sets? )?$"
)
_UP_TO = re.compile(
    r"\b(?:end of|after|up to|until|till|as far as|through|to|from|at|with|on) (?:the )?(?:end of )?(?:section )?$"
)


def _lettered(text: str, part: int, named: Named) -> int | None:
    """The counts danced of a part by its sections' own names: "only A1, A2", "to the end of A2", "without A3, A4"."""
    sections = named.sections[part]
    found = [
        (int(match[1]), text[: match.start()], text[match.end() :])
        for match in re.finditer(rf"@{part} (\d)(?! ?(?:times|x|counts?|beats?|cts?)\b)", text)
    ]
    numbers = [number for number, _, _ in found]
    if not numbers or max(numbers) > len(sections):
        return None
    if any(_LEFT_OUT.search(before) for _, before, _ in found) or re.match(rf" {_GONE}", found[-1][2]):
        tail = numbers == list(range(numbers[0], len(sections) + 1))
        return _within(_sections(numbers[0] - 1, part, named), named.lengths[part]) if tail else None
    reached = any(_UP_TO.search(before) for _, before, _ in found)
    whole = sorted(set(numbers)) == list(range(1, max(numbers) + 1))
    return _within(_sections(max(numbers), part, named), named.lengths[part]) if reached or whole else None


def _number(match: re.Match[str]) -> int:
    return int(next(group for group in match.groups() if group))


def _sections(many: int, part: int, named: Named) -> int:
    return sum(named.sections[part][:many])


def _within(counts: int, whole: int) -> int | None:
    return counts if 0 < counts < whole else None
