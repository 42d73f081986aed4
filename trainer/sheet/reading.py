"""Reading a sheet: any text to a Routine and the problems found on the way."""

import re

from trainer.problems import Problem, in_order
from trainer.routine import Routine, Span
from trainer.sheet.faircopy import read_fair
from trainer.sheet.findings import Findings
from trainer.sheet.page import MOST_BYTES, MOST_LINES, clean

MOST_PROSE = 20_000
"""Letters of a sheet in a teacher's words; long ones have a quarter of this."""

MOST_NUMBERS = 2_500
"""Numbers in a teacher's words, those within a range of counts as well; a dance of 512 counts has some 1,200."""

_RANGE = re.compile(r"\b(\d{1,3}) ?[-–~] ?(\d{1,3})\b")
_NUMBER = re.compile(r"\d+")
_HEADING = re.compile(r"^== ?(?!.*=\s*$)\S", re.MULTILINE)
_KEYS = "title|tune|by|tempo|time|feel|starts|counts|walls|level|intro|square up|play|note"
_KEY = re.compile(rf"^(?:{_KEYS}) ?:", re.MULTILINE)
_HEAD_LINE = re.compile(rf"(?:{_KEYS}):")
_START = Span(1, 1, 1)


def read(text: str) -> tuple[Routine, tuple[Problem, ...]]:
    """Return the routine of a sheet, as much of it as could be read, and everything that is wrong with its text.

    Never raises: a text that is no sheet gives an empty routine and the problems that say so.
    """
    findings = Findings()
    if len(text) > MOST_BYTES or text.count("\n") > MOST_LINES:
        return _too_long(findings)
    text = clean(text)
    if not text.strip():
        findings.error("text", _START, "This sheet is empty.", "Begin with `title: ...`.")
        return Routine(title=""), findings.result()
    if is_fair(text):
        return read_fair(text, findings), findings.result()
    if len(text) > MOST_PROSE or _numbers(text) > MOST_NUMBERS:
        return _too_long(findings)
    # Loaded here, because a fair copy is opened in half the time without it.
    from trainer.sheet.prose.reader import read_prose
    from trainer.sheet.prose.sections.gates import gated

    routine, problems = gated(*read_prose(text))
    if not any(routine.events()):
        findings.error(
            "text",
            _START,
            "No steps were found in this text.",
            "Steps are read in English: 1-2 step right, touch left.",
        )
    return routine, in_order((*findings.result(), *problems))


def _too_long(findings: Findings) -> tuple[Routine, tuple[Problem, ...]]:
    findings.error("text", _START, "This text is far longer than any step sheet.", "Give the sheet of one dance.")
    return Routine(title=""), findings.result()


def _numbers(text: str) -> int:
    ranges = ((int(first), int(last)) for first, last in _RANGE.findall(text))
    return len(_NUMBER.findall(text)) + sum(max(last - first, 0) for first, last in ranges)


def is_fair(text: str) -> bool:
    """Return whether a text means to be a fair copy: a head of keys, and under it headings of ==, or nothing."""
    head, heading, _ = f"\n{text}".partition("\n==")
    if not heading:
        return all(_HEAD_LINE.match(line) for line in text.splitlines() if line.strip() and not line.startswith("#"))
    return bool(_HEADING.search(text)) and bool(_KEY.search(head))
