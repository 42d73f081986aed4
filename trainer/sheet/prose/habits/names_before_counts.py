"""An extra's name before its counts, under the sentence that tells where it is danced: "bridge 1-2-3   sway left, ...".

Where the sentence has named it, the name before the counts says no more and falls away. Where it stops before the name,
"Only the first and second figures, then", the name ends the sentence. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace

from trainer.sheet.prose.lexis.vocabulary import STEP_WORDS
from trainer.sheet.prose.text.layout import BREAK, Line
from trainer.sheet.prose.text.like import mark_like, word_like

_NAMES = {"tag", "bridge", "ending", "end", "finish", "change", "coda", "interlude", "break", "extra"}
_ARTICLES = {"the", "our"}
_OPEN = {"then", "and", "with", ",", "by", "the", "dance", "do"}
"""Last words of a sentence that goes on with the name."""
_COUNTED = {"-", ",", "/", BREAK}


def with_names_of_counts(lines: Sequence[Line]) -> tuple[Line, ...]:
    """Return the lines, such names told in the sentence above their counts."""
    done: list[Line] = []
    for line in lines:
        above = done[-1] if done else None
        name = _name(line)
        if above is None or not name or line.tokens[0].line != above.tokens[-1].line + 1:
            done.append(line)
            continue
        last = above.tokens[-1]
        if last.low in _OPEN:
            said = (*above.tokens, word_like(last, "the"), word_like(last, line.tokens[name - 1].text))
            done[-1] = replace(above, tokens=(*said, mark_like(last, ":")), source="")
        elif line.tokens[name - 1].low not in {token.low for token in above.tokens}:
            name = 0
        done.append(replace(line, tokens=line.tokens[name:], source="") if name else line)
    return tuple(done)


def _name(line: Line) -> int:
    """Return the index after an extra's name that stands before the counts of steps; 0 where none does."""
    tokens = line.tokens
    at = 1 + (tokens[0].low in _ARTICLES)
    if len(tokens) < at + 3 or tokens[at - 1].low not in _NAMES:
        return 0
    counts = tokens[at].text == "1" and (tokens[at + 1].text in _COUNTED or tokens[at + 1].kind in ("amp", "number"))
    return at if counts and any(token.low in STEP_WORDS for token in tokens[at + 2 :]) else 0
