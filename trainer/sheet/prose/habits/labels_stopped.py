"""Labels of what departs from the dance that close with a full stop: "Bridge. During the third wall ...".

They are told with a colon; and the steps that are told there one by one behind semicolons behind commas: no sentence
ends between them. So it is where two labels at least stand so. Common practice, no source.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from trainer.sheet.prose.counts.marks import marks_in
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.order.lines.lines import is_order
from trainer.sheet.prose.tables.cells import is_count
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.words import Token

_SAME = ("bridge", "bridges", "tag", "tags", "restart", "restarts", "ending", "finish", "finale", "end", "interlude")
_LABELS = {
    **{word: word for word in _SAME},
    **dict.fromkeys(("close", "closing", "conclusion", "coda", "termination", "curtain", "exit", "farewell"), "ending"),
    **dict.fromkeys(("recommencement", "recommencing", "resumption"), "restart"),
    **dict.fromkeys(("insertion", "interpolation", "addition", "insert"), "tag"),
}
"""What departs from the dance, and the plain word for it."""
_FEWEST = 2
_NAME = 3
"""Words of a name that opens a row."""
_ARTICLES = {"the", "our", "a", "an"}
_COUNTS = {"cts", "ct", "counts", "count", "beats", "beat", "bts"}
_STOPS = {".", "!", "?", ":"}


def with_labels_stopped(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such labels told with a colon."""
    labels = [_label(line) for line in lines]
    # "ENDING. The sixth time ..." is understood as it stands, where no gap or word of its own sets labels apart.
    apart = {line.indent for line, label in zip(lines, labels, strict=True) if label and _is_apart(line)}
    labels = [label if line.indent in apart else "" for line, label in zip(lines, labels, strict=True)]
    if len({label for label in labels if label}) < _FEWEST:
        return tuple(lines)
    return tuple(_labelled(line, label) if label else line for line, label in zip(lines, labels, strict=True))


def with_labels_of_rows(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, a label that opens a row of steps and their counts parted from them with a colon.

    "FINISH   R fwd, L together, R stomp, hold | 1-4": below a row that is told alike it would go on with that. So it is
    with "Tag | cts 1-4 | R side, L touch", and with a row that says behind its steps when they are danced.
    """
    return tuple(_parted(line, length) if (length := _label_length(line)) else line for line in lines)


def _label_length(line: Line) -> int:
    """Return how many tokens name what a row tells, strokes before them included; 0 for no such row."""
    return int(_labels_row(line.tokens)) or _labels_counts(line) or _labels_cells(line.tokens)


def _labels_cells(tokens: Sequence[Token]) -> int:
    """Return the length of an extra's name in the first cell, its counted steps in the next, its walls behind; else 0.

    "| Tag 1 | 1-2 side rock; 3-4 touch, hold | 12:00 | once, after wall 2".
    """
    first = next((at for at, token in enumerate(tokens) if token.text != BREAK), 0)
    cells = [at for at, token in enumerate(tokens) if token.text == BREAK and at > first]
    if len(cells) < _FEWEST or extra_kind(tokens[first : cells[0]]) in (None, "change"):
        return 0
    steps = tokens[cells[0] + 1 : cells[1]]
    counted = len(steps) > _FEWEST and steps[0].text == "1" and any(token.low in STEP_WORDS for token in steps)
    return cells[0] if counted and any(is_order(tokens[at + 1 :]) for at in cells[1:]) else 0


def _labels_counts(line: Line) -> int:
    """Return the length of an extra's name that opens a row of its counts, led by a word, and its steps; else 0."""
    tokens = line.tokens
    length = next((at for at, token in enumerate(tokens) if token.kind != "word" or token.low in _COUNTS), 0)
    rest = tokens[length:]
    while rest and rest[0].text in (BREAK, ":"):
        rest = rest[1:]
    led = bool(rest) and rest[0].low in _COUNTS
    named = 0 < length <= _NAME and (led or tokens[0].low in _ARTICLES) and extra_kind(tokens[:length]) is not None
    end = next((at for at, token in enumerate(rest) if token.text == BREAK), 0)
    told = named and end > led and is_count(rest[led:end]) and rest[led].text == "1"
    return length if told and any(token.low in STEP_WORDS for token in rest[end + 1 :]) else 0


def _labels_row(tokens: Sequence[Token]) -> bool:
    """Whether a label in capitals is followed by steps at once, and those by a cell of counts, the last of the row."""
    if tokens[0].low not in _LABELS or not tokens[0].text.isupper():
        return False
    told = tokens[1:] if tokens[1:2] and tokens[1].text != BREAK else tokens[2:]
    breaks = [at for at, token in enumerate(told) if token.text == BREAK]
    if len(breaks) != 1 or told[0].kind != "word":
        return False
    steps = sum(token.low in STEP_WORDS for token in told[: breaks[0]])
    return steps >= _FEWEST and is_count(told[breaks[0] + 1 :])


def _parted(line: Line, length: int) -> Line:
    name, rest = tuple(token for token in line.tokens[:length] if token.text != BREAK), line.tokens[length:]
    while rest[0].text in (BREAK, ":"):
        rest = rest[1:]
    last = name[-1]
    colon = replace(last, kind="mark", text=":", low=":", column=last.column + len(last.text))
    return replace(line, tokens=(*name, colon, *rest), source="")


def with_steps_in_a_row(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, steps that are told behind a colon of the order parted by commas."""
    return tuple(_in_a_row(lines))


def _label(line: Line) -> str:
    """Return the plain word for the label of a line that goes on behind it; an empty text for none."""
    tokens = line.tokens
    if len(tokens) < len((".", BREAK, "word", "word")) or tokens[0].low not in _LABELS or tokens[1].text != ".":
        return ""
    rest = tokens[2 + (tokens[2].text == BREAK) :]
    begins = bool(rest) and (rest[0].kind == "number" or rest[0].text[0].isupper())
    return _LABELS[tokens[0].low] if begins and tokens[0].text[0].isupper() else ""


def _is_apart(line: Line) -> bool:
    """Whether a gap stands behind a label, or it is a word of its own: "Interpolation."."""
    return line.tokens[2].text == BREAK or _LABELS[line.tokens[0].low] != line.tokens[0].low


def _labelled(line: Line, label: str) -> Line:
    first, stop = line.tokens[:2]
    rest = line.tokens[2 + (line.tokens[2].text == BREAK) :]
    name = first if first.low == label else replace(first, text=label.capitalize(), low=label)
    return replace(line, tokens=(name, replace(stop, text=":", low=":"), *rest), source="")


def _in_a_row(lines: Sequence[Line]) -> Iterator[Line]:
    above: Line | None = None
    for line in _joined(lines):
        goes_on = above is not None and above.tokens[-1].text == ":" and line.number == above.tokens[-1].line + 1
        order = is_order(line.tokens)
        told = order or (goes_on and above is not None and is_order(above.tokens))
        if told and any(token.text == ";" for token in line.tokens) and not _counted(line):
            line = replace(line, tokens=_with_commas(line.tokens, inside=goes_on))
        above = line
        yield line


def _joined(lines: Sequence[Line]) -> Iterator[Line]:
    """Yield the lines, one of the order that ends with a colon joined with the sentence of steps below it.

    "... insert one bar after bar 6:" over "sway left; sway right; hold. Then go on with bar 7."
    """
    above: Line | None = None
    for line in lines:
        if above is not None and _leads_to(above, line):
            above = replace(above, tokens=(*above.tokens, *line.tokens))
            continue
        if above is not None:
            yield above
        above = line
    if above is not None:
        yield above


def _leads_to(above: Line, line: Line) -> bool:
    near = above.tokens[-1].text == ":" and line.number == above.tokens[-1].line + 1 and line.indent >= above.indent
    stop = next((at for at, token in enumerate(line.tokens) if token.text == "."), 0)
    parted = any(token.text == ";" for token in line.tokens[:stop])
    return near and parted and _mostly_steps(line.tokens[:stop]) and not _counted(line) and is_order(above.tokens)


def _counted(line: Line) -> bool:
    """Whether a line counts its steps."""
    return any(mark.closed or not mark.first for mark in marks_in(line.tokens, 0))


def _with_commas(tokens: tuple[Token, ...], *, inside: bool) -> tuple[Token, ...]:
    """Return tokens with commas for the semicolons between steps behind a colon; `inside`: they begin behind one."""
    done: list[Token] = []
    for at, token in enumerate(tokens):
        if token.text in _STOPS:
            inside = token.text == ":"
        parts = token.text == ";" and inside and _tells_steps(tokens, at)
        done.append(replace(token, text=",", low=",") if parts else token)
    return tuple(done)


def _tells_steps(tokens: Sequence[Token], at: int) -> bool:
    """Whether a step stands on either side of a semicolon, and nothing of the order behind it."""
    last = next((on for on in range(at + 1, len(tokens)) if tokens[on].text in (";", *_STOPS)), len(tokens))
    first = next((on for on in range(at - 1, -1, -1) if tokens[on].text in (";", *_STOPS)), -1)
    before, after = tokens[first + 1 : at], tokens[at + 1 : last]
    return all(_mostly_steps(part) and not is_order(part) for part in (before, after))


def _mostly_steps(part: Sequence[Token]) -> bool:
    words = [token for token in part if token.kind == "word"]
    return sum(token.low in STEP_WORDS for token in words) > 0.5 * len(words)
