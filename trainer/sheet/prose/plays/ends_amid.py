"""An extra named like an ending, after which the play goes on: "The Bow", made before the last As, is put in there."""

from collections.abc import Sequence
from dataclasses import replace

from trainer.routine import Routine
from trainer.sheet.prose.heads.headings import extra_kind
from trainer.sheet.prose.text.layout import Line
from trainer.sheet.prose.words import Token

_KINDS = ("tag", "bridge")
"""Words for what is put in; the first that the sheet has no extra of is taken."""
_HEADING = 4
"""Words of a line that is no more than a name."""


def ends_amid(routine: Routine) -> bool:
    """Whether a part is danced after an ending."""
    first = next((at for at, item in enumerate(routine.play) if item.kind == "ending"), len(routine.play))
    return any(item.kind == "part" for item in routine.play[first:])


def with_endings_put_in(lines: Sequence[Line], routine: Routine) -> tuple[Line, ...] | None:
    """Return the lines, the name of the ending as a word for what is put in; None where there is no such word left."""
    kind = next((kind for kind in _KINDS if all(extra.kind != kind for extra in routine.extras)), None)
    heads = [line for line in lines if len(line.tokens) <= _HEADING and extra_kind(line.tokens) == "ending"]
    names = {token.text.lower() for line in heads for token in line.tokens if extra_kind([token]) == "ending"}
    if kind is None or not names:
        return None
    return tuple(
        replace(line, tokens=tuple(replace(one, low=kind) if _calls(one, names) else one for one in line.tokens))
        for line in lines
    )


def _calls(token: Token, names: set[str]) -> bool:
    """Whether a word is one of the names, and no verb: read as an ending already, or with a capital."""
    return token.text.lower() in names and (token.low != token.text.lower() or token.text[0].isupper())
