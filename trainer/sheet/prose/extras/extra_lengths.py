"""How long the name of an extra says that it is: "TAG, 8 ct, after wall 2"; its steps are held to it."""

import re

from trainer.problems import Problem
from trainer.routine import Extra
from trainer.sheet.prose.lexis.lexeme import Names
from trainer.sheet.prose.order.grammar.grammar import sentence_of
from trainer.sheet.prose.page.blocks import Block


def headed_length(block: Block) -> int | None:
    """Return how many counts the name of an extra says that it has: "Tag, three counts: just hold."."""
    if not block.headings:
        return None
    sentence = sentence_of(block.headings[-1].tokens, Names({}, {}))
    acts = [atom for atom in sentence.atoms if atom.kind == "act" and atom.act in "TGX"]
    if len(re.findall("nc", sentence.letters)) > 1:
        # "Tag (3 counts + 3 counts)".
        return None
    told = next((atom.counts for atom in acts if atom.counts), None)
    beside = next((atom.last for atom in acts if re.match(r"\(n\)", sentence.letters[atom.last :])), None)
    return told or (sentence.number(beside + 1) if beside is not None else None)


def length_findings(block: Block, extra: Extra) -> list[Problem]:
    """Return a finding where the steps of an extra, each with its count, are one more or less than its name says."""
    told = headed_length(block)
    counted = block.items and all(item.slots for item in block.items) and not block.problems
    if not told or not counted or abs(told - extra.counts) != 1 or any(event.doubtful for event in extra.events):
        return []
    ends = block.items[-1].span
    name = extra.name if extra.name.lower().startswith(extra.kind) else f"{extra.kind} {extra.name}"
    message = f"{name} is said to have {told} counts, but its steps have {extra.counts}"
    return [Problem(level="error", kind="counts", line=ends.line, column=ends.column, message=message, hint="")]
