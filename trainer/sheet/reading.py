"""Reading a sheet: any text to a Routine and the problems found on the way."""

from trainer.problems import Problem
from trainer.routine import Routine, Span
from trainer.sheet.faircopy import read_fair
from trainer.sheet.findings import Findings
from trainer.sheet.page import MOST_BYTES, MOST_LINES, clean

_START = Span(1, 1, 1)


def read(text: str) -> tuple[Routine, tuple[Problem, ...]]:
    """Return the routine of a sheet, as much of it as could be read, and everything that is wrong with its text.

    Never raises: a text that is no sheet gives an empty routine and the problems that say so.
    """
    findings = Findings()
    if len(text) > MOST_BYTES or text.count("\n") > MOST_LINES:
        findings.error("text", _START, "This text is far longer than any step sheet.", "Give the sheet of one dance.")
        return Routine(title=""), findings.result()
    text = clean(text)
    if not text.strip():
        findings.error("text", _START, "This sheet is empty.", "Begin with `title: ...`.")
        return Routine(title=""), findings.result()
    return read_fair(text, findings), findings.result()
