"""A caller's script, line by line: `CALL: "Walk, walk, shuffle!"` over `STEPS: 1-2 Walk forward R, L. 3&4 ...`.

What is called says again, shorter, what the line of the other label tells; it is no step. Common practice, no source.
"""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.text.layout import Line

_LEAST = 3
_MOSTLY = 0.6
_QUOTES = {'"', "'"}
_NEAR = 8
"""Tokens of a label with what it holds for: "CALL, walls 4 and 6 only:"."""


def without_script(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines without those that are called, and without the label of those that are danced."""
    labelled = Counter(label for line in lines if (label := _label(line)))
    often = [label for label, number in labelled.items() if number >= _LEAST]
    called = {label for label in often if _share(lines, label, _is_called) >= _MOSTLY}
    danced = {label for label in often if label not in called and _share(lines, label, _is_counted) >= _MOSTLY}
    if not called or not danced:
        return tuple(lines)
    told = (_without_label(line) if _label(line) in danced else line for line in lines if _label(line) not in called)
    return tuple(line for line in told if line.tokens)


def _label(line: Line) -> str:
    """Return the word that labels a line, "STEPS: ..." or "STEPS, wall 4 only: ..."; nothing where none does."""
    tokens = line.tokens
    if len(tokens) < _LEAST or tokens[0].kind != "word":
        return ""
    if tokens[1].text == ":":
        return tokens[0].low
    limited = tokens[1].text in (",", "(") and any(token.text == ":" for token in tokens[:_NEAR])
    return tokens[0].low if limited else ""


def _share(lines: Sequence[Line], label: str, holds: Callable[[Line], bool]) -> float:
    own = [line for line in lines if _label(line) == label and line.tokens[1].text == ":"]
    return sum(map(holds, own)) / len(own) if own else 0.0


def _is_called(line: Line) -> bool:
    return line.tokens[2].text in _QUOTES and line.tokens[-1].text in _QUOTES


def _is_counted(line: Line) -> bool:
    return bool(marks_in(line.tokens[2:], 0))


def _without_label(line: Line) -> Line:
    return replace(line, tokens=line.tokens[2:], indent=line.tokens[2].column - 1, source="")
