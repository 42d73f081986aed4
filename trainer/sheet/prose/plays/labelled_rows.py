"""Rows of a play that say to what of the song each part is danced: "verse one .... A", "chorus, two times = B B".

What stands before the sign only names the music: the row tells the parts behind it. Common practice, no source.
"""

from collections.abc import Sequence
from dataclasses import replace
from itertools import groupby

from trainer.sheet.prose.plays.paragraphs import Sentence, speaks_of_steps
from trainer.sheet.prose.text.layout import BREAK
from trainer.sheet.prose.words import Token

_FEWEST = 4
"""Rows of such a play."""
_DOTS = 3
_LABEL = 8
"""Tokens of what stands before the sign at most."""
_LAST = {"last", "final", "end", "ending", "closing", "finish", "very"}


def unlabelled(group: Sequence[Sentence], parts: Sequence[str]) -> list[Sentence]:
    """Return the sentences of a paragraph, the rows among them without what only names the music."""
    group = list(group)
    found = {at: end for at, one in enumerate(group) if one.alone and (end := _behind_label(one.tokens, parts))}
    told = [token.text for at, end in found.items() for token in group[at].tokens[end:] if token.text in parts]
    # "VERSE = A", "CHORUS = B" only names the parts; a play has one of them again and again.
    if len(found) < _FEWEST or len(told) <= 2 * len(set(told)):
        return group
    rows = [replace(one, tokens=one.tokens[found.get(at, 0) :]) for at, one in enumerate(group)]
    last = max(found) + 1
    if last < len(rows) and (steps := _closing_steps(rows[last].tokens)):
        rows[last] = replace(rows[last], tokens=steps)
    return rows


def _sign_end(tokens: Sequence[Token]) -> tuple[int, int]:
    """Where a row's sign begins, and the index after it: "=", a wide gap, dots; 0, 0 of other lines."""
    at = 0
    for dotted, run in groupby(tokens, key=lambda token: token.text == "."):
        length = len(list(run))
        if dotted and length >= _DOTS and at:
            return at, at + length
        at += length
    at = next((at for at, token in enumerate(tokens) if token.text in ("=", BREAK) and at), 0)
    return (at, at + 1) if at else (0, 0)


def _behind_label(tokens: Sequence[Token], parts: Sequence[str]) -> int:
    """Return the index of the part behind a row's label and sign; 0 of other lines."""
    begins, ends = _sign_end(tokens)
    label = tokens[:begins]
    named = any(token.kind == "word" and token.text not in parts for token in label)
    plain = not any(token.text in parts for token in label)
    led = named and plain and begins <= _LABEL
    return ends if led and ends < len(tokens) and tokens[ends].text in parts else 0


def _closing_steps(tokens: Sequence[Token]) -> tuple[Token, ...]:
    """Return the row below the last part as an ending: "very last note .... stomp R"."""
    begins, ends = _sign_end(tokens)
    said = {token.low for token in tokens[:begins]}
    if not said & _LAST or ends >= len(tokens) or not speaks_of_steps(tokens[ends]):
        return ()
    name = replace(tokens[0], kind="word", text="Ending", low="ending", value=None)
    return (name, replace(name, kind="mark", text=":", low=":", glued=True), *tokens[ends:])
