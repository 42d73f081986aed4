"""Questions about extras and restarts that are answered with no: "Is there a tag? No, thank goodness." tells none."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_ASKED = {
    "tag", "tags", "bridge", "bridges", "restart", "restarts", "ending", "intro", "change", "changes", "extra",
    "extras", "anything", "hold", "holds", "pause", "break", "breaks",
}  # fmt: skip
_NO = {"no", "none", "nope", "never", "nothing", "neither"}
_LABELS = {"a", "answer", "ans", ":", "-", ".", ")", "(", "=", ">", BREAK}
_ENDS = {".", "!", ";"}


def without_questions_answered_no(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without such questions and what answers them."""
    done = list(lines)
    for at, line in enumerate(lines):
        asked = next((end for end, token in enumerate(line.tokens) if token.text == "?"), None)
        if asked is None or not {token.low for token in line.tokens[:asked]} & _ASKED:
            continue
        if any(token.text == "=" for token in line.tokens[:asked]):
            # "Tag = the first four counts of a rumba? No! Just sway right" tells it all the same.
            continue
        beside = line.tokens[asked + 1 :]
        after = at + 1 < len(lines) and lines[at + 1].number == line.number + 1
        if beside and (end := _answered(beside)):
            done[at] = replace(done[at], tokens=(*_before(line.tokens[:asked]), *beside[end:]))
        elif not beside and after and (end := _answered(lines[at + 1].tokens)):
            done[at] = replace(done[at], tokens=_before(line.tokens[:asked]))
            done[at + 1] = replace(done[at + 1], tokens=lines[at + 1].tokens[end:])
    return tuple(line for line in done if line.tokens)


def _answered(tokens: Sequence[Token]) -> int:
    """Return the length of an answer that begins with no, its sentence; 0 where it answers otherwise."""
    first = next((at for at, token in enumerate(tokens) if token.low not in _LABELS), len(tokens))
    if first == len(tokens) or tokens[first].low not in _NO:
        return 0
    return next((at + 1 for at in range(first, len(tokens)) if tokens[at].text in _ENDS), len(tokens))


def _before(question: Sequence[Token]) -> tuple[Token, ...]:
    """Return what a line tells before the question that stands at its end."""
    start = next((at + 1 for at in range(len(question) - 1, -1, -1) if question[at].text in _ENDS), 0)
    return tuple(question[:start])
